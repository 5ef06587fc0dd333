"""The text of a new file read back before it is written: what was set is what loads."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING, Any

from generator.commissioning.answers import PRIVATE, UNKNOWN, listed
from generator.manual.composing import compose
from generator.reading.block import Block
from generator.reading.editing import Entry
from generator.reading.fields import Listed
from generator.reading.nodes import Source
from generator.reading.shares import Shares, word_and_number
from generator.reading.tree import read
from generator.reading.values import NotKnown
from generator.shelves.languages import catalogue
from generator.shelves.words import FIRST_LANGUAGE
from generator.survey.registry import all_checks
from generator.survey.sight import Sight
from generator.vessel.loading import VesselLoader
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from generator.commissioning.paths import Target

_OF_SPACES = ("deck.unknown-space", "deck.muster-place")
_ANY_DAY = date(2000, 1, 1)  # spaces are the same on every day


def loaded(text: str) -> Vessel:
    """The vessel of a text; ValueError where it has not the form of a vessel file, a fault of whoever made it."""
    tree, findings = read(text, Source("vessel.yaml"))
    if tree is None or findings:
        told = ", ".join(f"{each.check} in line {each.place.line}" for each in findings)
        raise ValueError(f"a new file would not read: {told}")
    return VesselLoader().block(Vessel, tree, "")


def same(vessel: Vessel, key: Target, answer: str) -> None:
    """Raises ValueError where the vessel does not say at a key what was answered there."""
    value = _value(vessel, key)
    if answer.lower() in (UNKNOWN, PRIVATE) and isinstance(value, NotKnown):
        return
    if isinstance(key.read_by, Listed):
        wanted: Any = tuple(key.read_by.of.read(_word(key.read_by, each)) for each in listed(answer))
    else:
        wanted = key.read_by.read(answer)  # type: ignore[attr-defined]
    if value != wanted:
        raise ValueError(f"a new file would say otherwise at {key.path} than was answered")


def _word(field: Listed[Any], text: str) -> str:
    """A word of a list without its number."""
    return word_and_number(text)[0] if isinstance(field, Shares) else text


def _value(vessel: Vessel, key: Target) -> Any:
    """What stands at a key; where words stand for a block, those."""
    found: Any = vessel
    for step in key.steps:
        if isinstance(step, Entry):
            found = _entry(found, step)
        elif isinstance(found, Block):
            found = found.__dict__.get(type(found).fields[step.name].name)
        else:
            found = (found or {}).get(step.name)
    if isinstance(found, Block) and type(found).shorthand:
        found = found.__dict__.get(type(found).fields[type(found).shorthand].name)
    return found


def _entry(blocks: list[Block], step: Entry) -> Block | None:
    if not step.called:
        return blocks[int(step.name) - 1]
    named = [each for each in blocks if str(getattr(each, type(each).fields[step.called].name)) == step.name]
    return named[step.which - 1] if len(named) >= step.which else None


def spaces_she_has_not(vessel: Vessel, keys: Iterable[str]) -> list[str]:
    """The answers that name a space which is not on her plan, each with the nearest; none where her type is open."""
    one = vessel.vessel
    if one is None or not one.known("name", "type"):
        return []
    sight = Sight(vessel, _ANY_DAY, _ANY_DAY)
    manual, _ = compose(vessel, _ANY_DAY, _ANY_DAY, catalogue(FIRST_LANGUAGE), reckoning=sight.reckoning)
    sight, answered, checks = sight.composed(manual), set(keys), all_checks()
    looks = [find for name in _OF_SPACES if (find := checks[name].find) is not None]
    found = [each for find in looks for each in find(sight) if each.place.key in answered]
    return [
        f"{each.place.key}: {each.message.partition(': ')[2] or each.message}; {each.remedy}"
        for each in found
    ]
