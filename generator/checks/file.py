"""The file: what reading it finds, whether its letters can be drawn, and whether somebody checked it aboard."""

from __future__ import annotations

from typing import TYPE_CHECKING
from unicodedata import combining

from generator.machine.fonts import missing_characters
from generator.reading.nodes import Listing, Mapping, Scalar, place_of
from generator.reading.values import Stamp
from generator.survey.passed import overdue, span
from generator.survey.registry import (
    COMMON_PRACTICE,
    DESCRIPTION,
    FORM,
    LIFE,
    NOTICE,
    TRUTH,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
    describe,
)
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.reading.findings import Place

_OWN = "this program's file format"


describe(
    "file.unreadable",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """The file can be read as keys and values.
    Why: a file that breaks off or mixes its indentation would be published with half of it missing.
    Remedy: look at the line named; the message says what to write there.""",
)


describe(
    "file.format",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every file says that it has the format this program reads.
    Why: a file of another format would be misunderstood silently, and one that says none may be anything: of it nothing is quoted.
    Remedy: write the format number the message names, after comparing with a new starter file.""",
)


describe(
    "file.no-format",
    NOTICE,
    DESCRIPTION,
    _OWN,
    """A class file or voyage.yaml that says no format is read as format 1, where its keys are all those of such a file.
    Why: once these files said none; the next format could not be told from this one.
    Remedy: write the format as its first line.""",
)


describe(
    "file.unknown-key",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every key is one the program knows.
    Why: a misspelt key is a fact that never reaches the manual.
    Remedy: write the nearest key named in the message, or move the text into a note.""",
)


describe(
    "file.duplicate-key",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """No key stands twice in one block.
    Why: one of the two values would be dropped, and it may be the true one.
    Remedy: keep the true one.""",
)


describe(
    "file.missing-key",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every required key is there.
    Why: each required key answers a question that somebody aboard will ask in an emergency.
    Remedy: find out and write it. Left out it counts as unknown: a defect where a step needs it, a recommendation where an
    estimate does.""",
)


describe(
    "file.bad-value",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every value is of the kind its key holds.
    Why: a figure without unit or a date that can be read two ways is guessed wrong one day.
    Remedy: write it as the message shows.""",
)


describe(
    "file.blank-value",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """No value is left blank.
    Why: a blank can mean none, not known or forgotten; the reader cannot tell.
    Remedy: write the value, or unknown; remove the key if there is none.""",
)


describe(
    "file.not-known-yet",
    LIFE,
    DESCRIPTION,
    _OWN,
    """What the steps, the estimates and the checks need is known, of each thing that is there.
    Why: a step with a hole in it stops people when they have no time; a figure that only an estimate or a check needs leaves
    that out (a recommendation). It is the same whether the file says unknown or leaves the key out.
    Remedy: find out aboard or ask the maker, and write it; a proof copy can be printed meanwhile.""",
)


describe(
    "file.refused-form",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """No anchors, aliases or tags are used.
    Why: they make one line mean something that stands elsewhere; whoever corrects a date must see what it changes.
    Remedy: write the value out, or put what sister ships share into a class file.""",
)


describe(
    "file.class-file",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """The class file named in based-on is there and stands alone.
    Why: what sister ships share would be missing.
    Remedy: name its path as seen from the vessel file.""",
)


describe(
    "file.class-list",
    LIFE,
    DESCRIPTION,
    _OWN,
    """A list in the boat's own file that stands in the place of her class's names all that the class's does.
    Why: one line written for what is new takes the class's whole list away: six seacocks, the other engine's stop, the way out.
    Where half as many lines or more stand here they are a list of her own; several of fewer are a recommendation.
    Remedy: write all of hers in the list; what she has not, and her sisters have, is deferred with the reason.""",
    deferrable=True,
)


describe(
    "file.outside",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every file of the boat lies, links followed, in the folder that hers lies in: her own files, her class file, her base file.
    Why: a path or a link that leads elsewhere prints what was never meant for a manual.
    Remedy: lay the file where the message says, and write its path from the boat's folder, with / between names.""",
)


describe(
    "file.private-missing",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """Every value marked private has its line in private.yaml.
    Why: the crew's copies would have a hole where a number belongs.
    Remedy: write the line the message names.""",
)


describe(
    "file.no-private",
    NOTICE,
    DESCRIPTION,
    _OWN,
    """Where values stand as private, private.yaml lies beside the file.
    Why: without it no copy for crew or shore is written, and nothing that hangs on these values is looked at.
    Remedy: lay it beside vessel.yaml, with the lines the message names; on a computer for guests' copies alone it may be missing.""",
)


describe(
    "file.private-unused",
    FORM,
    DESCRIPTION,
    _OWN,
    """Nothing in private.yaml is unused.
    Why: a line nobody asks for is often a misspelt one.
    Remedy: correct the key, or delete the line.""",
    deferrable=True,
)


@check("file.letter-missing", TRUTH, "this program's font", deferrable=False)
def every_letter_can_be_drawn(sight: Sight) -> Finds:
    """Every letter in the file is in the font.

    Why: a box would stand where the letter belongs, in a name or a figure that somebody reads out over the radio.
    Remedy: write it in the Latin letters of the ship's papers; accents are no hindrance.
    """
    for block in (sight.vessel, sight.vessel.voyage, sight.vessel.charter_base):
        if block is not None and not _drawn(block) and not plain(block.node):
            for place, text in _texts(block.node, ""):
                lost = missing_characters(text)
                if lost:
                    yield Found(
                        place, f"the font has no {' '.join(lost[:8])}{' ...' if len(lost) > 8 else ''}"
                    )


def _drawn(block: Block) -> bool:
    """Whether no letter of the file that a block comes from is missing; not known of what a class file has filled in."""
    letters = block.node.source.letters
    if letters is None or (isinstance(block, Vessel) and block.class_file is not None):
        return False
    return not letters or (not any(map(combining, letters)) and not missing_characters("".join(letters)))


def plain(node: Scalar | Mapping | Listing) -> bool:
    """Whether all below a node is ASCII, as in most files; keys beside each other may come from two."""
    if isinstance(node, Scalar):
        return node.source.ascii or node.text.isascii()
    if isinstance(node, Listing):
        return node.source.ascii or all(map(plain, node.items))
    return all(map(str.isascii, node.entries)) and all(map(plain, node.entries.values()))


def _texts(node: Scalar | Mapping | Listing, path: str) -> list[tuple[Place, str]]:
    """The values and names below a node that are not plain ASCII, with their places; those of private.yaml are not in the tree."""
    if isinstance(node, Scalar):
        return [] if node.text.isascii() else [(place_of(node, path), node.text)]
    if isinstance(node, Listing):
        return [found for item in node.items for found in _texts(item, path)]
    keys = [
        (place_of(node.keys[key], path), key)
        for key in node.entries
        if isinstance(key, str) and not key.isascii() and key in node.keys
    ]
    return keys + [
        found for key, each in node.entries.items() for found in _texts(each, f"{path}.{key}".lstrip("."))
    ]


_NOBODY = frozenset(("nobody", "no one", "none", "no-one", "n/a", "-", "?", "xx", "xxx", "tbd", "tba"))
_FORGOTTEN_DAYS = 731
"""After two years without a walk round nobody knows where her things are: the manual relies on all of them. Common practice."""


@check("file.checked-aboard", UPKEEP, COMMON_PRACTICE)
def the_description_was_checked_aboard(sight: Sight) -> Finds:
    """Somebody walked round the boat with this description within a year, and it is approved.

    Why: gear moves, and the description does not; the manual prints "not yet checked aboard" until it is done.
    Remedy: go round with the gear list, correct it, then write who and when under 'checked-aboard' and 'approved'.
    """
    vessel = sight.vessel
    if not vessel.checked_aboard:
        yield at(vessel, "checked-aboard", "nobody has checked this description aboard yet")
    elif isinstance(vessel.checked_aboard.date, Stamp):
        for each in overdue(sight, "file.checked-aboard"):
            ago = span(each.last_day, sight.as_of)
            day = vessel.checked_aboard.date.when
            message = f"the last walk round the boat was {day}, and the next was due {ago} ago"
            years = (sight.as_of - vessel.checked_aboard.date.last_day).days > _FORGOTTEN_DAYS
            yield at(vessel.checked_aboard, "date", message, weight=LIFE.weight if years else None)
    for block, key in ((vessel.checked_aboard, "checked-aboard"), (vessel.approved, "approved")):
        if block and str(block.by or "").strip().lower() in _NOBODY:
            yield at(
                block,
                "by",
                f"'{block.by}' is no person: nobody answers for it",
                remedy=f"write who did it, or take '{key}' out",
            )
    if not vessel.approved:
        yield at(vessel, "approved", "nobody has approved this description yet")
    elif (
        vessel.checked_aboard
        and isinstance(vessel.checked_aboard.date, Stamp)
        and isinstance(vessel.approved.date, Stamp)
        and (vessel.approved.date.last_day < vessel.checked_aboard.date.first_day)
    ):
        yield at(
            vessel.approved,
            "date",
            f"it was approved on {vessel.approved.date}, before the walk round the boat on "
            f"{vessel.checked_aboard.date}",
            also=(vessel.checked_aboard.place("date"),),
        )
