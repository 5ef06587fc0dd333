"""The command line: the only place that prints, exits, reads the clock or the environment."""

from __future__ import annotations

import argparse
import os
import sys
from datetime import date, datetime, timezone
from pathlib import Path

from generator import __version__

SOUND, DEFECTS, USAGE, FAULT = 0, 1, 2, 3
_OUTPUT_NAMES = ("book", "cards", "site", "one-file")


class Misuse(Exception):
    """Wrong usage; the message says what to write instead."""


def main(argv: list[str] | None = None) -> int:
    """Runs a command; returns 0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault of the program."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    parser = _parser()
    given = parser.parse_args(argv)
    try:
        return given.run(given)
    except Misuse as error:
        print(f"musterbook: {error}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:
        sys.stderr.close()
        return SOUND
    except KeyboardInterrupt:
        print("musterbook: stopped; nothing was replaced half", file=sys.stderr)
        return 130
    except Exception as error:  # a fault of the program, whatever it is
        if os.environ.get("MUSTERBOOK_TRACE"):
            raise
        print(f"musterbook: a fault of the program: {type(error).__name__}: {error}. Nothing was replaced half. "
              "Set MUSTERBOOK_TRACE=1 to see the trace, and report it.", file=sys.stderr)
        return FAULT


def _parser():
    parser = argparse.ArgumentParser(
        prog="musterbook", description="One vessel's emergency manual, from her description: book, cards and site.",
        epilog="Exit codes: 0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault of the program.")
    parser.add_argument("--version", action="version", version=f"musterbook {__version__}")
    verbs = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    survey = verbs.add_parser("survey", help="check one or more vessels", description="Checks the descriptions and the manuals composed from them.")
    _vessels(survey)
    survey.set_defaults(run=_survey)

    publish = verbs.add_parser("publish", help="write the manuals of one or more vessels",
                               description="Surveys each vessel and, if she is sound, replaces her folder in one step.")
    _vessels(publish)
    publish.add_argument("--into", metavar="DIR", default="site", help="where the vessels' folders stand (default: site)")
    publish.add_argument("--only", metavar="OUTPUT", action="append", choices=_OUTPUT_NAMES, default=[],
                         help=f"write only this output, may be given again: {', '.join(_OUTPUT_NAMES)}")
    publish.add_argument("--for", dest="reader", metavar="READER", choices=("guest", "crew", "shore"),
                         help="write every output for this reader: guest, crew or shore")
    publish.add_argument("--paper", choices=("A4", "A5", "Letter"), default="A4", help="A4 (default), A5 or Letter")
    publish.add_argument("--proof-copy", action="store_true", help="publish despite defects, beside the sound copies, marked on every page")
    publish.set_defaults(run=_publish)

    why = verbs.add_parser("why", help="what a check is about", description="Prints what a check looks at, why, and what to do.")
    why.add_argument("check", nargs="?", metavar="CHECK", help="the id of a check, as findings print it")
    why.add_argument("--all", action="store_true", help="list every check, one line each")
    why.set_defaults(run=_why)

    commission = verbs.add_parser("commission", help="start the file of a new vessel",
                                  description="Writes a commented vessel file from answers; unknown stands where none is given.")
    commission.add_argument("name", metavar="NAME", help="the vessel's name")
    commission.add_argument("--into", metavar="DIR", default="vessels", help="where the vessel's folder goes (default: vessels)")
    commission.add_argument("--set", metavar="KEY=VALUE", action="append", default=[], dest="answers",
                            help="an answer, for example --set vessel.length='12 m'; may be given again, asks nothing then")
    commission.add_argument("--ask-nothing", action="store_true", help="write the file without asking")
    commission.set_defaults(run=_commission)

    readiness = verbs.add_parser("readiness", help="versions, libraries, fonts, and what is missing",
                                 description="Prints what the program found on this machine and what brings what is missing.")
    readiness.set_defaults(run=_readiness)

    schema = verbs.add_parser("schema", help="the JSON Schema of a vessel file, for editors", description="Prints the JSON Schema of a vessel file.")
    schema.set_defaults(run=_schema)
    return parser


def _vessels(parser):
    parser.add_argument("vessels", nargs="*", metavar="VESSEL", default=["vessels"],
                        help="a vessel's folder, her vessel.yaml, or a folder of vessels (default: vessels)")
    parser.add_argument("--as-of", metavar="DATE", type=_day, help="look at her as on this day, YYYY-MM-DD (default: today)")
    parser.add_argument("--until", metavar="DATE", type=_day, help="everything must be good until then: the end of passage or season")
    parser.add_argument("--language", metavar="CODE", default="en", help="the language of the manual (default: en)")
    parser.add_argument("--report", metavar="FILE", action="append", default=[], help="write the findings to a file: .txt, .json, .sarif or .xml (JUnit)")


def _day(text):
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no day; write it like 2026-05-20") from None


def _today():
    """The clock, or SOURCE_DATE_EPOCH (seconds since 1970, UTC) in its stead."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        return date.today()
    try:
        return datetime.fromtimestamp(int(epoch), timezone.utc).date()
    except (ValueError, OverflowError, OSError):
        raise Misuse(f"SOURCE_DATE_EPOCH is '{epoch}'; it must be seconds since 1970, a whole number") from None


def _order(given):
    from generator.publishing import Order
    from generator.wording import languages

    today = _today()
    if given.language not in languages():
        raise Misuse(f"there is no language '{given.language}'; there are: {', '.join(languages())}")
    if given.until and given.until < (given.as_of or date.min):
        raise Misuse(f"--until {given.until} lies before --as-of {given.as_of}")
    more = {}
    if hasattr(given, "into"):
        more = {"into": Path(given.into), "paper": given.paper, "only": tuple(dict.fromkeys(given.only)), "reader": given.reader,
                "proof": given.proof_copy}
    return Order(today, given.as_of, given.until, language=given.language, **more)


def _colour():
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def _report(given, vessels):
    from generator.checks.registry import all_checks
    from generator.reports import for_file

    for name in given.report:
        try:
            Path(name).write_text(for_file(name, vessels, all_checks()), encoding="utf-8", newline="\n")
        except ValueError as error:
            raise Misuse(error) from None
        except OSError as error:
            raise Misuse(f"--report {name}: {error.strerror}") from None


def _survey(given):
    from generator import reports
    from generator.fleet import NoVessel, survey_all

    rows = []
    code = SOUND
    try:
        for done in survey_all(given.vessels, _order(given)):
            rows.append((done.name, done.findings))
            print(f"{done.name}: {reports.count(done.findings)}{_deferred(done)}")
            if done.findings:
                print(reports.text(done.findings, _colour()).rpartition("\n")[0])
            code = max(code, _code(done))
    except NoVessel as error:
        raise Misuse(error) from None
    _report(given, rows)
    return code


def _code(surveyed):
    if surveyed.vessel is None:
        return USAGE
    return SOUND if surveyed.sound else DEFECTS


def _deferred(surveyed):
    return f" ({len(surveyed.deferred)} deferred)" if surveyed.deferred else ""


def _publish(given):
    from generator import reports
    from generator.fleet import NoVessel, publish_all

    rows = []
    code = SOUND
    order = _order(given)
    quiet = not sys.stderr.isatty()
    try:
        for done in publish_all(given.vessels, order, lambda name: None if quiet else print(f"{name} ...", file=sys.stderr)):
            if isinstance(done, tuple):
                print(f"{done[0]}: not published: {done[1]}")
                rows.append((done[0], []))
                code = max(code, USAGE)
                continue
            rows.append((done.surveyed.name, done.surveyed.findings))
            code = max(code, SOUND if done.folder and not order.proof else _code(done.surveyed))
            _tell(done, order, reports)
    except NoVessel as error:
        raise Misuse(error) from None
    _report(given, rows)
    return code


def _tell(done, order, reports):
    surveyed = done.surveyed
    if done.folder:
        manual = surveyed.manual
        good = f"good until {manual.good_until}" if manual.good_until else "nothing aboard is dated"
        what = "proof copy (not for use)" if order.proof else "published"
        print(f"{surveyed.name}: {what} -> {done.folder} ({good}; {reports.count(surveyed.findings)}{_deferred(surveyed)})")
        if done.dropped:
            print(f"  removed, for they came from an older description: {', '.join(done.dropped)}; publish without --only to have them again")
        if surveyed.findings:
            print(reports.text(surveyed.findings, _colour()).rpartition("\n")[0])
        return
    print(f"{surveyed.name}: not published: {reports.count(surveyed.findings)}")
    print(reports.text(surveyed.findings, _colour()).rpartition("\n")[0])
    if done.last_good:
        print(f"  The last good manual stays: {order.into / surveyed.vessel.slug if surveyed.vessel else order.into}, surveyed on "
              f"{done.last_good['surveyed-on']}, good until {done.last_good['good-until'] or 'no date'}.")
    if surveyed.vessel is not None:
        print(f"  For a proof copy despite the defects: musterbook publish {surveyed.name} --proof-copy")


def _why(given):
    from generator.checks.registry import all_checks
    from generator.vessel.fields import nearest

    checks = all_checks()
    if given.all:
        for one in checks.values():
            print(f"{one.id}  {one.weight.word}  {one.title}")
        return SOUND
    if not given.check:
        raise Misuse("why which check? Give an id as findings print it, or --all")
    one = checks.get(given.check)
    if one is None:
        raise Misuse(f"there is no check '{given.check}'; {nearest(given.check, checks)}")
    print(f"{one.id} ({one.weight.word}, {one.stage} stage{'' if one.deferrable else ', cannot be deferred'})\n\n{one.title}\n\n"
          f"Why: {one.why}\n\nRemedy: {one.remedy}\n\nSource: {one.source}")
    return SOUND


def _commission(given):
    from generator.commissioning import Refusal, commission, file_for, questions

    answers = {}
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
        raise Misuse(error) from None
    print(f"{done.path} written; {done.missing} of {done.asked} first answers are missing (they say unknown).")
    print(f"Next: musterbook survey {done.path.parent}; a first look: musterbook publish {done.path.parent} --proof-copy")
    return SOUND


def _asked(question):
    """The answer to a question of the first round, asked again until it can be read."""
    while True:
        try:
            text = input(f"{question.text} [{question.example}] ").strip() or "unknown"
        except EOFError:
            raise Misuse("the answers broke off; nothing was written") from None
        refused = question.refused(text)
        if not refused:
            return text
        print(f"  {refused}")


def _readiness(given):
    from generator.readiness import report, take_stock

    print(report(take_stock()))
    return SOUND


def _schema(given):
    import json

    from generator.vessel.schema import vessel_schema

    print(json.dumps(vessel_schema(), indent=2, ensure_ascii=False))
    return SOUND


if __name__ == "__main__":
    sys.exit(main())
