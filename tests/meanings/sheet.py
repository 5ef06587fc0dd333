"""A sheet: one file of a boat with its things, and what can be named in it."""

from __future__ import annotations

import re

import yaml

from generator.reading.fields import Text, Texts
from generator.vessel.people import Person
from meanings.mutant import Edit, Mutant
from meanings.things import Thing, Value, things

ABOARD = ("where", "bottles", "place", "muster-place", "watches", "sounds-in", "buoyancy", "berth")


class Sheet:
    """A file of a boat, its things, and what can be named in it."""

    def __init__(self, boat: str, file: str, text: str, roles: tuple[str, ...] = ()) -> None:
        self.boat, self.file, self.text = boat, file, text
        self.things = things(text, file)
        self.values = [value for thing in self.things for value in thing.values.values()]
        people = [thing for thing in self.things if thing.kind is Person]
        self.people = people
        self.roles = tuple(thing.says("role") for thing in people) or roles
        self.spaces = tuple(
            dict.fromkeys(
                node.value
                for value in self.values
                if names_spaces(value)
                for node in value.texts
                if "," not in node.value
            )
        )

    def put(self, node: yaml.Node, new: str) -> Edit:
        """The edit that writes something else in a value's place."""
        start, end = node.start_mark.index, node.end_mark.index
        end = start + len(self.text[start:end].rstrip())
        return (start, end, new)

    def change(
        self,
        operator: str,
        value: Value,
        node: yaml.ScalarNode,
        new: str,
        *more: Thing,
        anywhere: bool = False,
        words: tuple[str, ...] = (),
    ) -> Mutant:
        """The mutant in which one text of a value is another."""
        return Mutant(
            self.boat,
            self.file,
            operator,
            value.thing,
            value.key,
            node.value,
            new,
            (self.put(node, quoted(new)),),
            (value.thing, *more),
            words,
            anywhere,
        )


def quoted(text: str) -> str:
    """A text as it may stand in a file."""
    plain = re.fullmatch(r"[\w+][^:#,\[\]{}\"']*", text)
    return text if plain else '"' + text.replace('"', '\\"') + '"'


def names_spaces(value: Value) -> bool:
    """Whether a value names spaces of hers."""
    if value.key not in ABOARD or not isinstance(value.field, (Text, Texts)):
        return False
    return (
        value.thing.top not in ("contacts", "voyage", "persons") and value.key != "place"
    ) or value.thing.top == "recovery"
