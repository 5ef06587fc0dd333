"""What can be asked on the command line: commands, options and their help."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from generator import __version__
from generator.reading.option_values import count, day, span

if TYPE_CHECKING:
    from argparse import ArgumentParser

    Told = Callable[[Callable[[str], object]], Callable[[str], object]]


def output_names() -> tuple[str, ...]:
    """The outputs there are: the files of the shelf of outputs. None of them is imported, so that help comes at once."""
    shelf = Path(__file__).parent / "outputs"
    return tuple(sorted(path.stem.replace("_", "-") for path in shelf.glob("[a-z]*.py")))


DESCRIPTION = "One vessel's emergency manual, from her description: book, cards and site."
EPILOG = "Exit codes: 0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault of the program."


class Misuse(Exception):
    """Wrong usage; the message says what to write instead."""


def folder(name: str) -> str:
    """The name of a folder or file; an empty one, as of a variable that is not set, is not the folder one stands in.

    Raises Misuse.
    """
    if not name.strip():
        raise Misuse("the name of a folder is empty; write it, or leave it out for the usual one")
    return name


def add_options(top: ArgumentParser, told: Told) -> None:
    """Adds all commands and options to an argparse parser; `command` of what it reads names the verb; `told` makes of what reads a value what argparse takes as its type."""
    top.add_argument("--version", action="version", version=f"musterbook {__version__}")
    verbs = top.add_subparsers(title="commands", dest="command", metavar="COMMAND", required=True)

    survey = verbs.add_parser(
        "survey",
        help="check one or more vessels",
        description="Checks the descriptions and the manuals composed from them.",
    )
    _vessels(survey, told)

    publish = verbs.add_parser(
        "publish",
        help="write the manuals of one or more vessels",
        description="Surveys each vessel and, if she is sound, replaces her folder in one step.",
    )
    _vessels(publish, told)
    publish.add_argument(
        "--into",
        metavar="DIR",
        type=folder,
        default="site",
        help="where the vessels' folders stand (default: site)",
    )
    publish.add_argument(
        "--only",
        metavar="OUTPUT",
        action="append",
        choices=output_names(),
        default=[],
        help=f"write only this output, may be given again: {', '.join(output_names())}",
    )
    publish.add_argument(
        "--for",
        dest="reader",
        metavar="READER",
        choices=("guest", "crew", "shore"),
        help="write every output for this reader: guest, crew or shore",
    )
    publish.add_argument(
        "--paper", choices=("A4", "A5", "Letter"), default="A4", help="A4 (default), A5 or Letter"
    )
    publish.add_argument(
        "--proof-copy",
        action="store_true",
        help="publish despite defects, beside the sound copies, marked on every page",
    )
    publish.add_argument(
        "--set-aside",
        action="store_true",
        help="where the boat's folder holds what musterbook did not write, move it whole to a free name beside it; "
        "nothing of it is removed",
    )

    inspect = verbs.add_parser(
        "inspect",
        help="whether a published folder is whole, and good until when",
        description="Looks at what was published: whether each file is as it was written, from which description it comes, "
        "until when it is good. Finishes what a killed publish left half done. Exit code 1 where something differs or is "
        "past its date.",
    )
    inspect.add_argument(
        "folder",
        metavar="FOLDER",
        type=folder,
        nargs="?",
        default="site",
        help="a boat's folder, one reader's folder wherever it was copied to, or that of all boats (default: site)",
    )
    inspect.add_argument(
        "--as-of",
        metavar="DATE",
        type=told(day),
        help="look at it as on this day, YYYY-MM-DD (default: today)",
    )
    inspect.add_argument(
        "--vessel",
        metavar="DIR",
        type=folder,
        help="say whether it comes from the description in this folder as it is now",
    )

    due = verbs.add_parser(
        "due",
        help="what falls due, over all vessels, by date",
        description="Lists by date what has passed and what falls due; exit code 1 where something is no longer good.",
    )
    _which(due, told)
    due.add_argument(
        "--within",
        metavar="DAYS",
        type=told(span),
        default=90,
        help="how far ahead: 90d (default), 12w, 6m (of 30 days), or all",
    )
    due.add_argument(
        "--as-of",
        metavar="DATE",
        type=told(day),
        help="look at them as on this day, YYYY-MM-DD (default: today)",
    )
    due.add_argument(
        "--language", metavar="CODE", default="en", help="the language of a calendar (default: en)"
    )
    due.add_argument(
        "--report",
        metavar="FILE",
        action="append",
        default=[],
        help="write the list to a file too: .csv or .ics (calendar)",
    )

    why = verbs.add_parser(
        "why", help="what a check is about", description="Prints what a check looks at, why, and what to do."
    )
    why.add_argument("check", nargs="?", metavar="CHECK", help="the id of a check, as findings print it")
    why.add_argument("--all", action="store_true", help="list every check, one line each")

    keys = verbs.add_parser(
        "keys",
        help="the keys of a vessel's files",
        description="Prints the blocks of a vessel's files, or the keys of one block: what each answers, how it is written, "
        "whether it must be there, what unknown does, and who may read it.",
    )
    keys.add_argument("block", nargs="?", metavar="BLOCK", help="a block, such as rafts or rafts.painter")

    commission = verbs.add_parser(
        "commission",
        help="start the file of a new vessel",
        description="Writes a commented vessel file from answers; unknown stands where none is given. Stopped while it asks, "
        "it keeps the answers and goes on there when it is called again.",
    )
    commission.add_argument("name", metavar="NAME", help="the vessel's name")
    commission.add_argument(
        "--into",
        metavar="DIR",
        type=folder,
        default="vessels",
        help="where the vessel's folder goes (default: vessels)",
    )
    commission.add_argument(
        "--set",
        metavar="KEY=VALUE",
        action="append",
        default=[],
        dest="answers",
        help="an answer to any key of the file, for example --set vessel.length='12 m' or "
        "--set people='skipper, mate, 2 guests'; of two things of one name the second is "
        "stops[engine][2].serves; may be given again, asks nothing then",
    )
    commission.add_argument("--ask-nothing", action="store_true", help="write the file without asking")
    commission.add_argument(
        "--start-over", action="store_true", help="drop the answers kept from a commission that was stopped"
    )

    verbs.add_parser(
        "readiness",
        help="versions, libraries, fonts, and what is missing",
        description="Prints what the program found on this machine and what brings what is missing.",
    )

    schema = verbs.add_parser(
        "schema",
        help="the JSON Schema of a vessel file, for editors",
        description="Prints the JSON Schema of a vessel file, or of the base file that several boats name.",
    )
    schema.add_argument(
        "file", nargs="?", choices=("vessel", "base"), default="vessel", help="which file (default: vessel)"
    )


def _which(parser: ArgumentParser, told: Told) -> None:
    parser.add_argument(
        "vessels",
        nargs="*",
        metavar="VESSEL",
        type=folder,
        default=["vessels"],
        help="a vessel's folder, her vessel.yaml, or a folder of vessels (default: vessels)",
    )
    parser.add_argument(
        "--expect",
        metavar="N",
        type=told(count),
        help="exit code 2 unless just so many vessels are found: for runs that nobody watches",
    )


def _vessels(parser: ArgumentParser, told: Told) -> None:
    _which(parser, told)
    parser.add_argument(
        "--as-of",
        metavar="DATE",
        type=told(day),
        help="look at her as on this day, YYYY-MM-DD (default: today)",
    )
    parser.add_argument(
        "--until",
        metavar="DATE",
        type=told(day),
        help="everything must be good until then: the end of passage or season",
    )
    parser.add_argument(
        "--language", metavar="CODE", default="en", help="the language of the manual (default: en)"
    )
    parser.add_argument(
        "--report",
        metavar="FILE",
        action="append",
        default=[],
        help="write the findings to a file: .txt, .json, .sarif or .xml (JUnit)",
    )
