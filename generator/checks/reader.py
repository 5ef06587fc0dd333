"""Readers: no reader gets what is not meant for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.findings import Place
from generator.reading.values import NotKnown
from generator.survey.registry import (
    COMMON_PRACTICE,
    INSPECTION,
    NOTICE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
    describe,
)
from generator.survey.withheld.matching import Matcher
from generator.survey.withheld.plain import plain
from generator.survey.withheld.values import kept_from
from generator.vessel.people import Person
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.survey.sight import Written
    from generator.survey.withheld.files import Seen

_OWN = "this program's file format"
_GRAVE = (Person.medical, Beacon.hex_id, Beacon.hex_id_registered)
"""What does harm in a stranger's hands: an illness, the id that a beacon can be silenced or hoaxed with."""


describe(
    "reader.skipped",
    NOTICE,
    INSPECTION,
    _OWN,
    """Every output asked for is written.
    Why: values that stand as private lie in private.yaml; without it a crew's copy would have holes where numbers belong.
    Remedy: lay private.yaml beside vessel.yaml and publish again.""",
)


@check("reader.freed", NOTICE, COMMON_PRACTICE)
def what_is_freed_is_named(sight: Sight) -> Finds:
    """Whatever was freed for guests is named.

    Why: guests' copies lie open and are passed on; what was freed once is forgotten, and printed in each of them.
    Remedy: if guests need it no more, write the value alone, without 'for: guests'.
    """
    told: set[Place] = set()
    for block in sight.blocks:
        for field in block.freed if "_freed" in block.__dict__ else ():
            place = block.place(field.key)
            if isinstance(block.__dict__.get(field.name), NotKnown) or place in told:
                continue
            told.add(place)  # a base stands among the contacts too
            path, grave = f"{block.path}.{field.key}".lstrip("."), field in _GRAVE
            yield at(
                block,
                field.key,
                f"the value of '{path}' is printed for guests: it was freed for them",
                remedy="write it for the crew alone: guests need to know that somebody needs help, or that there is a beacon"
                if grave
                else "",
                item=path,
                weight=RECOMMENDATION if grave else None,
            )


@check("reader.private-leak", TRUTH, COMMON_PRACTICE, INSPECTION, deferrable=False)
def readers_get_only_what_is_theirs(sight: Sight) -> Finds:
    """No copy holds what is not meant for its reader.

    Why: guests' copies lie open and are passed on; telephone numbers, medical facts and beacon ids do not belong there.
    Remedy: if the value stands in words of your own (a note, a place, a name), take it out there, or free it: {value: …, for: guests}; else report it.
    """
    from generator.survey.withheld import files  # what takes files apart is wanted here alone

    by_reader: dict[str, list[Written]] = {}
    for made in sight.written.values():
        by_reader.setdefault(made.reader or "guest", []).append(made)
    for reader, outputs in by_reader.items():
        if reader == "crew":  # who may see everything
            continue
        matcher, seen = Matcher(kept_from(reader, sight.vessel, sight.vessel.unasked)), files.Seen()
        if not any(any(_held(made, name, matcher, seen)) for made in outputs for name in made.files):
            continue
        for made in outputs:
            for name in sorted(made.files):
                for key in dict.fromkeys(_held(made, name, matcher)):
                    yield Found(
                        Place(f"{reader}/{name}"),
                        f"this copy is for: {reader}; it holds the value of '{key}' or a part of it, which is not",
                        item=key,
                    )


def _held(made: Written, name: str, matcher: Matcher, seen: Seen | None = None) -> Iterator[str]:
    """The key paths of what a file holds and should not; of what was `seen` in another file nothing is said."""
    from generator.survey.withheld import files

    if matcher.forms:
        for part in files.parts_of(name, made.files[name], made.drawn.get(name, ""), seen):
            yield from (each.key for each in matcher.found(plain(part.text), is_text=part.is_text))
