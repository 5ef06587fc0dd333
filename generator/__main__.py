"""The command line: the only place that prints, exits, reads the clock or the environment."""

from __future__ import annotations

import argparse
import io
import os
import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from generator.machine.surroundings import steady
from generator.options import DESCRIPTION, EPILOG, Misuse, add_options

if TYPE_CHECKING:
    from generator.fleet import Stopped
    from generator.publishing import Order, Published, Surveyed
    from generator.reading.findings import Finding
    from generator.vessel.commissioning import Question

SOUND, DEFECTS, USAGE, FAULT, STOPPED = 0, 1, 2, 3, 130


@steady(os.environ)
def main(argv: list[str] | None = None) -> int:
    """Runs a command; returns 0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault of the program."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    given = parser().parse_args(argv)
    from generator.shelves.faults import ShelfFault

    try:
        try:
            if given.command != "readiness":  # it tells of the machine alone
                _examine_shelves(getattr(given, "language", ""))
            code = _COMMANDS[given.command](given)
        except ShelfFault as error:
            code = _tell_shelves(error.findings, given)
        sys.stdout.flush()
    except Misuse as error:
        print(f"musterbook: {error}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:  # whoever read us has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return SOUND
    except KeyboardInterrupt:
        print("musterbook: stopped; nothing was replaced half", file=sys.stderr)
        return STOPPED
    except Exception as error:  # noqa: BLE001 - a fault of the program, whatever it is
        _tell_fault(
            f"a fault of the program: {type(error).__name__}: {error}; nothing was replaced half", error
        )
        return FAULT
    return code


def _examine_shelves(language: str) -> None:
    """Reads every shelf, and the words of a language, before any work is begun; raises ShelfFault with all that is wrong."""
    from generator.manual.soundness import faults_of_shelves, whole_as_installed
    from generator.manual.wording import faults_of
    from generator.shelves.faults import ShelfFault
    from generator.shelves.languages import languages
    from generator.shelves.words import FIRST_LANGUAGE
    from generator.survey.registry import all_checks

    checks, known = tuple(all_checks()), language if language in languages() else FIRST_LANGUAGE
    if found := (*faults_of_shelves(checks), *(faults_of(known) if whole_as_installed() else ())):
        raise ShelfFault(found)


def _tell_shelves(findings: tuple[Finding, ...], given: Namespace) -> int:
    """Lists what is wrong on the program's own shelves, on the terminal and in reports; no boat's file is looked at."""
    from generator.survey.reports import of_shelves

    print(of_shelves(findings, _colour()))
    if given.command in ("survey", "publish"):  # the reports of others hold no findings
        _report(given, [("templates", list(findings))])
    return USAGE


def parser() -> argparse.ArgumentParser:
    """The parser of the command line."""
    top = argparse.ArgumentParser(prog="musterbook", description=DESCRIPTION, epilog=EPILOG)
    add_options(top, _day, _span)
    return top


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no day; write it like 2026-05-20") from None


def _span(text: str) -> int | None:
    """Days of "90d", "12w", "6m" (months of 30 days) or "90"; None for "all"."""
    if text == "all":
        return None
    figure, unit = (text[:-1], text[-1]) if text[-1:] in ("d", "w", "m") else (text, "d")
    if not (figure.isascii() and figure.isdigit() and len(figure) < 5):
        raise argparse.ArgumentTypeError(f"'{text}' is no span of time; write it like 90d, 12w, 6m, or all")
    return int(figure) * {"d": 1, "w": 7, "m": 30}[unit]


def _tell_fault(words: str, error: Exception) -> None:
    """One line, and the trace for those who asked for it."""
    if os.environ.get("MUSTERBOOK_TRACE"):
        import traceback

        traceback.print_exception(error)
    line = " ".join(words.split())
    print(f"musterbook: {line}. Set MUSTERBOOK_TRACE=1 to see the trace, and report it.", file=sys.stderr)


def _today() -> date:
    """The clock, or SOURCE_DATE_EPOCH (seconds since 1970, UTC) in its stead."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        return date.today()  # noqa: DTZ011 - the day it is where the boat lies
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    except (ValueError, OverflowError, OSError):
        raise Misuse(
            f"SOURCE_DATE_EPOCH is '{epoch}'; it must be seconds since 1970, a whole number"
        ) from None


def _order(given: Namespace, check_form: Callable[[str], str | None]) -> Order:
    from generator.publishing import Order
    from generator.shelves.languages import languages

    today = _today()
    for name in given.report:
        try:
            check_form(name)
        except ValueError as error:
            raise Misuse(str(error)) from None
    if given.language not in languages():
        raise Misuse(f"there is no language '{given.language}'; there are: {', '.join(languages())}")
    order = Order(today, given.as_of, getattr(given, "until", None), language=given.language)
    if not hasattr(given, "into"):
        return order
    return replace(
        order,
        into=Path(given.into),
        paper=given.paper,
        only=tuple(dict.fromkeys(given.only)),
        reader=given.reader,
        proof=given.proof_copy,
    )


def _colour() -> bool:
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def _report(given: Namespace, vessels: list[tuple[str, list[Finding]]]) -> None:
    from generator.survey.registry import all_checks
    from generator.survey.reports import for_file

    for name in given.report:
        try:
            Path(name).write_text(for_file(name, vessels, all_checks()), encoding="utf-8", newline="\n")
        except OSError as error:
            raise Misuse(f"--report {name}: {error.strerror}") from None
        except ValueError as error:
            raise Misuse(str(error)) from None


def _survey(given: Namespace) -> int:
    from generator.fleet import Stopped, survey_all
    from generator.survey import reports

    rows = []
    code = SOUND
    for done in survey_all(given.vessels, _order(given, reports.form_of)):
        if isinstance(done, Stopped):
            rows.append((done.name, [done.finding]))
            code = max(code, _tell_stopped(done, "not surveyed"))
            continue
        rows.append((done.name, done.findings))
        print(f"{done.name}: {reports.count(done.findings)}{_deferred(done)}")
        _list(done.findings)
        code = max(code, _code(done))
    _report(given, rows)
    return code


def _code(surveyed: Surveyed) -> int:
    if surveyed.vessel is None:
        return USAGE
    return SOUND if surveyed.sound else DEFECTS


def _deferred(surveyed: Surveyed) -> str:
    return f" ({len(surveyed.deferred)} deferred)" if surveyed.deferred else ""


def _list(findings: Sequence[Finding]) -> None:
    from generator.survey.reports import listing

    if findings:
        print(listing(findings, _colour()))


def _tell_stopped(stopped: Stopped, what: str) -> int:
    """Says why the work on a vessel ended early, and which exit code that is."""
    if stopped.fault:
        sys.stdout.flush()
        _tell_fault(f"{stopped.name}: {what}: {stopped.why}", stopped.fault)
        return FAULT
    print(f"{stopped.name}: {what}: {stopped.why}")
    return USAGE


def _publish(given: Namespace) -> int:
    from generator.fleet import Stopped, publish_all
    from generator.survey import reports

    rows = []
    code = SOUND
    order = _order(given, reports.form_of)

    def tell(name: str) -> None:
        if sys.stderr.isatty():
            print(f"{name} ...", file=sys.stderr)

    for done in publish_all(given.vessels, order, tell):
        if isinstance(done, Stopped):
            rows.append((done.name, [done.finding]))
            code = max(code, _tell_stopped(done, "not published"))
            continue
        rows.append((done.surveyed.name, done.surveyed.findings))
        code = max(code, _code(done.surveyed))
        _tell(done, order)
    _report(given, rows)
    return code


def _tell(done: Published, order: Order) -> None:
    from generator.survey.reports import count

    surveyed = done.surveyed
    manual = surveyed.manual
    if done.folder and manual:
        good = f"good until {manual.good_until}" if manual.good_until else "nothing aboard is dated"
        what = "proof copy (not for use)" if order.proof else "published"
        print(
            f"{surveyed.name}: {what} -> {done.folder} ({good}; {count(surveyed.findings)}{_deferred(surveyed)})"
        )
        if done.dropped:
            again = "; publish without --only to have them again" if order.only else ""
            print(f"  removed, for they came from an older description: {', '.join(done.dropped)}{again}")
        _list(surveyed.findings)
        return
    print(f"{surveyed.name}: not published: {count(surveyed.findings)}")
    _list(surveyed.findings)
    if done.last_good:
        print(
            f"  The last good manual stays: {done.stands}, surveyed on {done.last_good.get('surveyed-on')}, "
            f"good until {done.last_good.get('good-until') or 'no date'}."
        )
    if surveyed.vessel is not None and not order.proof:
        print(f"  For a proof copy despite the defects: musterbook publish {surveyed.name} --proof-copy")


def _due(given: Namespace) -> int:
    from generator import due

    order = _order(given, due.check_form)
    found = due.fall_due(given.vessels, order, given.within)
    for name in given.report:
        try:
            Path(name).write_bytes(due.for_file(name, found.rows, order))
        except OSError as error:
            raise Misuse(f"--report {name}: {error.strerror}") from None
    print(due.text(found.rows, given.within))
    for name, finding in found.unread:
        print(f"{name}: cannot be read")
        _list([finding])
    if found.unread:
        return USAGE
    return DEFECTS if any(row.overdue for row in found.rows) else SOUND


def _why(given: Namespace) -> int:
    from generator.reading.nearest import nearest
    from generator.survey.registry import all_checks

    checks = all_checks()
    if given.all:
        for one in checks.values():
            print(f"{one.id}  {one.weight.word}  {one.title}")
        return SOUND
    if not given.check:
        raise Misuse("why which check? Give an id as findings print it, or --all")
    if given.check not in checks:
        family = [each for each in checks if each.startswith(f"{given.check}.")]
        meant = f"write one of: {', '.join(family)}" if family else nearest(given.check, checks)
        raise Misuse(f"there is no check '{given.check}'; {meant}; all of them: musterbook why --all")
    one = checks[given.check]
    print(
        f"{one.id} ({one.weight.word}, {one.stage} stage{'' if one.deferrable else ', cannot be deferred'})\n\n{one.title}\n\n"
        f"Why: {one.why}\n\nRemedy: {one.remedy}\n\nSource: {one.source}"
    )
    return SOUND


def _keys(given: Namespace) -> int:
    from generator.manual.vocabulary import told_beside
    from generator.reading.nearest import alike
    from generator.vessel import keys

    if not given.block:
        print(keys.listing())
        return SOUND
    block = keys.find(given.block)
    if block is None:
        write = f"write {meant[0]}; " if (meant := alike(given.block, keys.names())) else ""
        raise Misuse(f"there is no block '{given.block}'; {write}all of them: musterbook keys")
    print("\n\n".join(filter(None, (keys.text(block), told_beside(block.name)))))
    return SOUND


def _commission(given: Namespace) -> int:
    from generator.vessel.commissioning import Refusal, commission, file_for, questions

    answers: dict[str, str] = {}
    for each in given.answers:
        key, mark, value = each.partition("=")
        if not mark:
            raise Misuse(f"--set {each}: write KEY=VALUE, for example --set vessel.length='12 m'")
        answers[key.strip()] = value.strip()
    asking = not (given.answers or given.ask_nothing) and sys.stdin.isatty()
    try:
        if asking:
            file_for(given.name, Path(given.into))
            print("Enter alone, or unknown, leaves a question open.")
            for question in questions():
                if not question.moot(answers):
                    answers[question.key] = _asked(question)
        done = commission(given.name, answers, Path(given.into))
    except Refusal as error:
        raise Misuse(str(error)) from None
    print(
        f"{done.path} written; {done.missing} of {done.asked} first answers are missing (they say unknown)."
    )
    print(
        f"Next: musterbook survey {done.path.parent}; a first look: musterbook publish {done.path.parent} --proof-copy"
    )
    return SOUND


def _asked(question: Question) -> str:
    """The answer to a question of the first round, asked again until it can be read."""
    while True:
        try:
            text = input(f"{question.text} [{question.shown}] ").strip() or "unknown"
        except EOFError:
            raise Misuse("the answers broke off; nothing was written") from None
        refused = question.refused(text)
        if not refused:
            return text
        print(f"  {refused}")


def _readiness(_given: Namespace) -> int:
    from generator.machine.readiness import report, take_stock

    print(report(take_stock()))
    return SOUND


def _schema(_given: Namespace) -> int:
    import json

    from generator.vessel.schema import vessel_schema

    print(json.dumps(vessel_schema(), indent=2, ensure_ascii=False))
    return SOUND


_COMMANDS: dict[str, Callable[[Namespace], int]] = {
    "survey": _survey,
    "publish": _publish,
    "due": _due,
    "why": _why,
    "keys": _keys,
    "commission": _commission,
    "readiness": _readiness,
    "schema": _schema,
}

if __name__ == "__main__":
    sys.exit(main())
