"""Operators that swap: two things change places or sides, somebody goes into the other raft; and the list of all operators."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

import yaml

from meanings import operators
from meanings.mutant import Mutant
from meanings.operators import SIDES
from meanings.sheet import Sheet, names_spaces, quoted
from meanings.things import Value

PARTNERS = (1, 4, 11)
"""With which of those behind it in the file a thing changes places: a neighbour in its list, one of another, one far away."""


def places_swapped(sheet: Sheet) -> Iterator[Mutant]:
    """Two things lie each where the other does."""
    placed = [value for value in sheet.values if value.key == "where" and value.text and names_spaces(value)]
    for number, one in enumerate(placed):
        for step in PARTNERS:
            other = placed[number + step] if number + step < len(placed) else None
            if other is not None and other.text != one.text and other.thing.own is not one.thing.own:
                yield _swapped(sheet, "places swapped", "place", one, other)


def sides_swapped(sheet: Sheet) -> Iterator[Mutant]:
    """Two things of one block lie each on the other's side."""
    placed = [value for value in sheet.values if value.key == "side" and value.text in SIDES]
    for one, other in pairwise(placed):
        apart = other.thing.own is not one.thing.own and other.text == SIDES[one.text]
        if apart and one.thing.top == other.thing.top:
            yield _swapped(sheet, "sides swapped", "side", one, other)


def _swapped(sheet: Sheet, operator: str, alone: str, one: Value, other: Value) -> Mutant:
    edits = (sheet.put(one.node, quoted(other.text)), sheet.put(other.node, quoted(one.text)))
    parts = tuple(
        Mutant(sheet.boat, sheet.file, alone, each.thing, each.key, each.text, new, (edit,), (each.thing,))
        for each, new, edit in ((one, other.text, edits[0]), (other, one.text, edits[1]))
    )
    said = f"{other.text} of {other.thing.name or other.thing.path}"
    return Mutant(
        sheet.boat, sheet.file, operator, one.thing, one.key, one.text, said, edits, (one.thing, other.thing), parts=parts
    )  # fmt: skip


def other_raft(sheet: Sheet) -> Iterator[Mutant]:
    """Somebody goes into the other raft; what hangs on it is left as it was."""
    lists = [value for value in sheet.values if value.key == "carries" and value.thing.top == "rafts"]
    for one in lists:
        for other in lists:
            both = isinstance(one.node, yaml.SequenceNode) and isinstance(other.node, yaml.SequenceNode)
            if one is other or not both:
                continue
            mine, theirs = ([each.value for each in value.texts] for value in (one, other))
            for role in mine:
                left = [each for each in mine if each != role]
                yield Mutant(
                    sheet.boat, sheet.file, "other raft", one.thing, "carries", role, other.thing.name,
                    (sheet.put(one.node, f"[{', '.join(left)}]"), sheet.put(other.node, f"[{', '.join([*theirs, role])}]")),
                    (one.thing, other.thing), (role,),
                )  # fmt: skip


def other_age(sheet: Sheet) -> Iterator[Mutant]:
    """Whoever has an age is a small child, or grown up."""
    for value in sheet.values:
        if value.key == "age" and value.thing.top in ("people", "persons") and value.text.isdigit():
            for age in ("2", "7", "40"):
                if abs(int(age) - int(value.text)) > 12 or (int(age) < 18) != (int(value.text) < 18):
                    role = value.thing.says("role")
                    yield sheet.change("another age", value, value.node, age, words=(role,))


OPERATORS: tuple[Callable[[Sheet], Iterator[Mutant]], ...] = (
    operators.sides_of_things, operators.sides_in_words, operators.places, operators.persons, operators.duties, operators.dates,
    operators.rafts, operators.roles, operators.rosters, operators.numbers, operators.entries, operators.answers,
    places_swapped, sides_swapped, other_raft, other_age,
)  # fmt: skip
"""All of them, in the order in which they are asked."""
