"""JSON Schema (2020-12) of files read as blocks, made from the fields, for editors that complete and check while one types."""

from __future__ import annotations

import re
from typing import Any

from generator.reading.block import Block
from generator.reading.fields import (
    Choice,
    Compound,
    Dated,
    Digits,
    Field,
    Listed,
    Many,
    Named,
    One,
    Schema,
    Single,
)
from generator.reading.measures import Count, Measured
from generator.reading.names import Figure
from generator.reading.values import BASES, FREED


class Writer:
    """Writes the schema of a kind of file; `blocks` are the definitions it has come upon.

    `in_part` are kinds of which the file may hold only a part. A subclass says which words may stand in place of a value.
    """

    sourced = False

    def __init__(self, in_part: frozenset[type[Block]] = frozenset()):
        self.in_part = in_part
        self.blocks: dict[str, Schema] = {}

    def words(self, field: Field[Any] | None) -> tuple[str, ...]:
        """The words that may stand for a value of the field; for an entry of a list or a name where it is None."""
        del field
        return ()

    def properties(self, kind: type[Block]) -> Schema:
        """The keys of a kind of block, each with its question."""
        return {
            key: {"description": field.question, **self.value(field)} for key, field in kind.fields.items()
        }

    def whole(self, kind: type[Block], title: str, description: str) -> Schema:
        """The schema of a file that is one block of `kind`."""
        made = {
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            "title": title,
            "description": description,
            "type": "object",
            "properties": self.properties(kind),
            "additionalProperties": False,
            "required": [field.key for field in kind.needed],
        }
        return made | ({"$defs": dict(sorted(self.blocks.items()))} if self.blocks else {})

    def value(self, field: Field[Any]) -> Schema:
        """What may stand at a field: its value, a word in its stead, the value with its source."""
        if isinstance(field, Many):
            items = self._or_words(self.block(field.block), None)
            entries = {"type": "array", "minItems": 1, "maxItems": field.most, "items": items}
            return self._or_words(entries, field)
        if isinstance(field, Named):
            return self._or_words(self._named(field), field)
        if isinstance(field, One):
            return self._or_words(self.block(field.block), field)
        if isinstance(field, Listed):
            return {**self._or_words(field.schema(), field), "examples": [field.example]}
        if isinstance(field, (Choice, Count, Figure)):
            return self._forms(field)
        name = _name(field)
        self.blocks.setdefault(name, self._forms(field))
        return {"$ref": f"#/$defs/{name}", "examples": [field.example]}

    def block(self, kind: type[Block]) -> Schema:
        """A reference to a block's definition, or what its shorthand takes."""
        if kind.__name__ not in self.blocks:
            made = self.blocks[kind.__name__] = {}
            made |= {
                "description": (kind.__doc__ or "").partition("\n")[0],
                "type": "object",
                "properties": self.properties(kind),
                "additionalProperties": False,
            }
            if kind.needed and kind not in self.in_part:
                made["required"] = [field.key for field in kind.needed if field.key != kind.several]
            elif not kind.needed:
                made["minProperties"] = 1
            if kind.several:
                self._several(kind, made)
        reference = {"$ref": f"#/$defs/{kind.__name__}"}
        if not kind.shorthand:
            return reference
        return {"anyOf": [reference, kind.fields[kind.shorthand].schema()]}

    def _several(self, kind: type[Block], made: Schema) -> None:
        """Lets the names of several things, with or without their numbers, stand where one name does."""
        name, number, properties = kind.fields[kind.called], kind.fields[kind.several], made["properties"]
        one = properties[name.key]
        if number.required:
            numbered = {"properties": {name.key: {"type": "object"}}}
            made["anyOf"] = [{"required": [number.key]}, numbered]
        several = [
            {"type": "array", "minItems": 1, "items": name.schema()},
            {"type": "object", "minProperties": 1, "additionalProperties": self.value(number)},
        ]
        said = {key: one.pop(key) for key in ("description", "examples") if key in one}
        properties[name.key] = {**said, "anyOf": [one, *several]}

    def _named(self, field: Named[Any]) -> Schema:
        inner = field.inner
        if not isinstance(inner, Field):
            made = self.block(inner)
        else:
            made = inner.schema() if not isinstance(inner, Compound) else self._inside(inner)
        return {
            "type": "object",
            "minProperties": 1,
            "maxProperties": field.most,
            "additionalProperties": self._or_words(made, None),
        }

    def _inside(self, field: Compound[Any]) -> Schema:
        return self._named(field) if isinstance(field, Named) else self.value(field)

    def _forms(self, field: Field[Any]) -> Schema:
        """A value of the field's type, the word that stands for it, or the value with where it comes from."""
        plain, words = field.schema(), self.words(field)
        word = [{"enum": list(words)}] if words else []
        if not self.sourced or not isinstance(field, Single):
            return {"anyOf": [plain, *word]} if word else plain
        with_source: Schema = {"value": {"anyOf": [plain, *word]}, "from": {"enum": list(BASES)}}
        if isinstance(field, Dated):
            stamp = "The marking as it is read on the device."
            with_source["stamp"] = {"type": ["string", "number"], "description": stamp}
        if field.reader != "guest":
            why = "Frees the value on purpose: guests read it too."
            with_source["for"] = {"enum": [FREED], "description": why}
        sourced = {
            "type": "object",
            "properties": with_source,
            "required": ["value"],
            "additionalProperties": False,
        }
        return {"anyOf": [plain, *word, sourced]}

    def _or_words(self, made: Schema, field: Field[Any] | None) -> Schema:
        words = self.words(field)
        return {"anyOf": [made, {"enum": list(words)}]} if words else made


def _name(field: Field[Any]) -> str:
    """What the definition of a kind of value is called: one for all keys that take the same."""
    if isinstance(field, Digits):
        parts = [field.kind]
    else:
        parts = [type(field).__name__, field.dimension if isinstance(field, Measured) else ""]
    if field.reader != "guest":
        parts.append("private")
    return "-".join(re.findall(r"\w+", " ".join(parts)))
