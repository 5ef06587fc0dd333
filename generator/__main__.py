"""The command line: the only place that prints, exits, reads the clock or the environment."""

from __future__ import annotations

import argparse
import os
import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from generator.machine.reporting import unfit
from generator.machine.surroundings import lasting, steady
from generator.options import DESCRIPTION, EPILOG, Misuse, add_options
from generator.reading.option_values import YEARS
from generator.reading.visible import visible
from generator.reading.voice import heard

if TYPE_CHECKING:
    from generator.fleet import Fleet, Stopped
    from generator.publishing import Order, Surveyed
    from generator.reading.findings import Finding
    from generator.survey.reports import Rows, Unsaid

SOUND, DEFECTS, USAGE, FAULT, STOPPED = 0, 1, 2, 3, 130


@steady(os.environ)
def main(argv: list[str] | None = None) -> int:
    """Runs a command; returns 0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault of the program."""
    with heard(sys) as out:
        try:
            code, leaving = _run(argv), False
        except SystemExit as left:  # of help and of wrong usage
            code, leaving = left.code if isinstance(left.code, int) else SOUND, True
        if out.lost():
            _complain(f"standard output cannot be written: {out.lost()}")
            code = max(code, USAGE)
    if leaving:
        sys.exit(code)
    return code


def _complain(words: str) -> None:
    print(f"musterbook: {words}", file=sys.stderr)


def _run(argv: list[str] | None) -> int:
    if not main.__doc__:
        _complain(
            "Python runs with -OO (PYTHONOPTIMIZE=2), which takes out the texts of the checks; run it without"
        )
        return USAGE
    try:
        given = parser().parse_args(argv)
        from generator.shelves.faults import ShelfFault

        try:
            if given.command != "readiness":  # it tells of the machine alone
                with lasting():
                    from generator.survey.shelves import examine

                    examine(getattr(given, "language", ""))
            return _COMMANDS[given.command](given)
        except ShelfFault as error:
            return _tell_shelves(error.findings, given)
    except Misuse as error:
        _complain(visible(str(error)))
        return USAGE
    except OSError as error:
        at = error.filename or "the folder it runs in"
        why = f"the disk refused: {error.strerror} ({at})" if error.strerror else str(error)
        _complain(visible(f"{why}; nothing was replaced half"))
        return USAGE
    except MemoryError:
        _complain("the machine has too little memory for the work; nothing was replaced half")
        return USAGE
    except KeyboardInterrupt:
        _complain("stopped; nothing was replaced half")
        return STOPPED
    except Exception as error:  # noqa: BLE001 - a fault of the program, whatever it is
        from generator.fleet import hushed_for

        words = f"a fault of the program: {type(error).__name__}: {error}; nothing was replaced half"
        _tell_fault(words, error, hushed_for(getattr(given, "vessels", [])))
        return FAULT


def _tell_shelves(findings: tuple[Finding, ...], given: Namespace) -> int:
    """Lists what is wrong on the program's own shelves, on the terminal and in reports; no boat's file is looked at."""
    from generator.survey.reports import of_shelves

    _forms(given)
    print(of_shelves(findings, _colour()))
    if given.command in ("survey", "publish"):  # the reports of others hold no findings
        _report(given, [("templates", list(findings))], {})
    return USAGE


def parser() -> argparse.ArgumentParser:
    """The parser of the command line."""
    top = argparse.ArgumentParser(prog="musterbook", description=DESCRIPTION, epilog=EPILOG)
    add_options(top, _type)
    return top


def _type(read: Callable[[str], object]) -> Callable[[str], object]:
    """What argparse takes as a type: reads a value, and tells in the same words why it could not."""

    def type_(text: str) -> object:
        try:
            return read(text)
        except ValueError as error:
            raise argparse.ArgumentTypeError(str(error)) from None

    return type_


def _tell_fault(words: str, error: Exception, hush: Callable[[str], str]) -> None:
    """One line, and the trace for those who asked for it."""
    if os.environ.get("MUSTERBOOK_TRACE"):
        import traceback

        print(hush("".join(traceback.format_exception(error))), file=sys.stderr)
    line = hush(" ".join(words.split()))
    _complain(f"{visible(line)}. Set MUSTERBOOK_TRACE=1 to see the trace, and report it.")


def _today() -> date:
    """The clock, or SOURCE_DATE_EPOCH (seconds since 1970, UTC) in its stead."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    try:
        here = date.today()  # noqa: DTZ011 - the day it is where the boat lies
        day = datetime.fromtimestamp(int(epoch), UTC).date() if epoch else here
    except (ValueError, OverflowError, OSError):
        raise Misuse(
            f"SOURCE_DATE_EPOCH is '{epoch}'; it must be seconds since 1970, a whole number"
        ) from None
    if day.year not in YEARS:
        said = "SOURCE_DATE_EPOCH" if epoch else "the clock of this machine"
        raise Misuse(f"{said} says {day}, outside what can be: {YEARS[0]} to {YEARS[-1]}; correct it")
    return day


def _forms(given: Namespace) -> None:
    for name in getattr(given, "report", ()):
        try:
            if given.command == "due":
                from generator.due import check_form

                check_form(name)
            else:
                from generator.survey.reports import form_of

                form_of(name)
        except ValueError as error:
            raise Misuse(str(error)) from None


def _order(given: Namespace) -> Order:
    from generator.publishing import Order
    from generator.shelves.languages import languages

    today = _today()
    _forms(given)
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
        set_aside=given.set_aside,
    )


def _colour() -> bool:
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def _report(given: Namespace, vessels: Rows, unsaid: Unsaid) -> None:
    for name in given.report:
        from generator.survey.registry import all_checks
        from generator.survey.reports import for_file

        _write(name, for_file(name, vessels, all_checks(), unsaid).encode("utf-8"))


def _write(name: str, data: bytes) -> None:
    try:
        if why := unfit(Path(name)):
            raise Misuse(f"--report {name}: {why}; name another file")
        Path(name).write_bytes(data)
    except OSError as error:
        raise Misuse(f"--report {name}: {error.strerror}") from None


def _survey(given: Namespace) -> int:
    from generator.fleet import Stopped, discover, survey_all

    rows, unsaid, code = [], {}, SOUND
    order, fleet = _order(given), discover(given.vessels)
    for done in survey_all(fleet, order):
        if isinstance(done, Stopped):
            rows.append((done.name, [done.finding]))
            code = max(code, _tell_stopped(done, "not surveyed"))
            continue
        rows.append((done.name, done.findings))
        unsaid[done.name] = done.unsaid
        print(f"{visible(done.name)}: {done.counted}")
        _list(done.findings)
        for line in done.silences:
            print(line)
        code = max(code, _code(done))
    return _end(given, fleet, rows, code, unsaid)


def _end(given: Namespace, fleet: Fleet, rows: Rows, code: int, unsaid: Unsaid) -> int:
    """Names the folders without a vessel, writes the reports, and counts the vessels where a number is expected."""
    if fleet.bare:
        print(f"no vessel in: {', '.join(map(visible, fleet.bare))}")
    _report(given, [*rows, *fleet.without], unsaid)
    fleet.check_number(given.expect)
    return code


def _code(surveyed: Surveyed) -> int:
    found = SOUND if surveyed.sound else DEFECTS
    return USAGE if surveyed.vessel is None else found


def _list(findings: Sequence[Finding]) -> None:
    from generator.commissioning.first_things import opening
    from generator.survey.listing import on_screen

    if findings:
        first = opening(findings)
        print("\n".join([*first, on_screen(findings, _colour(), len(first))]))


def _tell_stopped(stopped: Stopped, what: str) -> int:
    """Says why the work on a vessel ended early, and which exit code that is."""
    if stopped.fault:
        sys.stdout.flush()
        _tell_fault(stopped.told(what), stopped.fault, stopped.hush)
        return FAULT
    print(stopped.told(what))
    return USAGE


def _publish(given: Namespace) -> int:
    from generator.fleet import Stopped, discover, publish_all
    from generator.publishing import told

    rows, unsaid, code = [], {}, SOUND
    order, fleet = _order(given), discover(given.vessels)

    def tell(name: str) -> None:
        if sys.stderr.isatty():
            print(f"{name} ...", file=sys.stderr)

    for done in publish_all(fleet, order, tell):
        if isinstance(done, Stopped):
            rows.append((done.name, [done.finding]))
            code = max(code, _tell_stopped(done, "not published"))
            continue
        rows.append((done.surveyed.name, done.surveyed.findings))
        unsaid[done.surveyed.name] = done.surveyed.unsaid
        code = max(code, _code(done.surveyed))
        print(told(done, order, _colour()))
    return _end(given, fleet, rows, code, unsaid)


def _inspect(given: Namespace) -> int:
    from generator.inspecting import inspect, told
    from generator.machine.folders import Busy

    vessel = Path(given.vessel) if given.vessel else None
    try:
        found = inspect(Path(given.folder), given.as_of or _today(), vessel)
    except Busy as error:
        raise Misuse(str(error)) from None
    except OSError as error:
        raise Misuse(f"{error.filename or given.folder} cannot be read: {error.strerror}") from None
    for one in found:
        print("\n".join(map(visible, told(one))))
    if any(one.trouble for one in found):
        return USAGE
    return SOUND if all(one.good for one in found) else DEFECTS


def _due(given: Namespace) -> int:
    from generator import due
    from generator.fleet import discover

    order, fleet = _order(given), discover(given.vessels)
    found = due.fall_due(fleet, order, given.within)
    for name in given.report:
        _write(name, due.for_file(name, found.rows, order))
    print(due.text(found.rows, given.within))
    for name, finding in found.unread:
        print(f"{visible(name)}: cannot be read")
        _list([finding])
    code = DEFECTS if any(row.overdue for row in found.rows) else SOUND
    code = max([code, *(_tell_stopped(each, "not looked at") for each in found.stopped)])
    code = USAGE if found.unread and code < USAGE else code
    return _end(Namespace(report=(), expect=given.expect), fleet, [], code, {})


def _why(given: Namespace) -> int:
    from generator.survey import telling

    print(telling.all_of_them() if given.all else telling.why(given.check))
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
    from generator.commissioning.closing import closing
    from generator.commissioning.conversation import BrokenOff, Wish, carry_out
    from generator.commissioning.refusal import Refusal
    from generator.publishing import Order

    asking = not (given.answers or given.ask_nothing) and sys.stdin.isatty()
    wish = Wish(given.name, Path(given.into), tuple(given.answers), given.start_over)
    try:
        done = carry_out(wish, _typed if asking else None, print)
    except Refusal as error:
        _complain("\n  ".join(map(visible, error.lines)))
        return USAGE
    except BrokenOff as error:
        with suppress(OSError):  # a terminal that is gone
            print(f"\nmusterbook: {error}", file=sys.stderr)
        return STOPPED if error.by_hand else USAGE
    print(closing(done, Order(_today())))
    return SOUND


def _typed(prompt: str) -> str:
    """What is typed behind a prompt; a letter that is none stands for bytes that are no text, and is refused as that."""
    try:
        return input(prompt)
    except UnicodeDecodeError:
        return "\N{REPLACEMENT CHARACTER}"


def _readiness(_given: Namespace) -> int:
    from generator.machine.readiness import report, take_stock

    print(report(take_stock()))
    return SOUND


def _schema(given: Namespace) -> int:
    import json

    from generator.vessel.schema import SCHEMAS

    print(json.dumps(SCHEMAS[given.file](), indent=2, ensure_ascii=False))
    return SOUND


_COMMANDS: dict[str, Callable[[Namespace], int]] = {
    "survey": _survey,
    "publish": _publish,
    "inspect": _inspect,
    "due": _due,
    "why": _why,
    "keys": _keys,
    "commission": _commission,
    "readiness": _readiness,
    "schema": _schema,
}

if __name__ == "__main__":
    sys.exit(main())
