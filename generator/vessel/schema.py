"""JSON Schema of a vessel file, and of a base file, for editors that complete and check while one types."""

from __future__ import annotations

from typing import Any

from generator.reading.absent import NONE, takes_none
from generator.reading.block import Block
from generator.reading.fields import Field, One, Schema
from generator.reading.schema import Writer
from generator.vessel.base import Base
from generator.vessel.vessel import FORMAT, OWN_KEYS, Vessel


class _VesselWriter(Writer):
    """Any value may stand as unknown, and what guests do not see as private; each may say where it comes from."""

    sourced = True

    def words(self, field: Field[Any] | None) -> tuple[str, ...]:
        """The word unknown, private where the value may be, and none where there may be none."""
        private = ("private",) if field is not None and field.reader != "guest" else ()
        return ("unknown", *private, *((NONE,) if field is not None and takes_none(field) else ()))

    def value(self, field: Field[Any]) -> Schema:
        """The format is one figure; else what may stand at any field."""
        return (
            {"enum": [FORMAT, int(FORMAT)]} if field in (Vessel.format, Base.format) else super().value(field)
        )


def vessel_schema() -> Schema:
    """The schema of vessel.yaml.

    It is looser than the survey where editors turn text into other types (yes, 2026-05-20, 232000000), and stricter in that
    it knows each word of a choice in one spelling only. A file that is based on a class file may leave out what that one gives.
    """
    writer = _VesselWriter(_shared())
    properties = writer.properties(Vessel)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"A vessel's description, format {FORMAT}",
        "description": "What a vessel's emergency manual is made from. The word unknown stands wherever an answer is not known yet.",
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
        "required": ["format"],
        "if": {"required": ["based-on"]},
        "else": _required(),
        "$defs": dict(sorted(writer.blocks.items())),
    }


def base_schema() -> Schema:
    """The schema of base.yaml, as loose and as strict as that of a vessel file."""
    title, description = f"A base's description, format {FORMAT}", "What is the same on all boats of a base."
    return _VesselWriter().whole(Base, title, description)


SCHEMAS = {"vessel": vessel_schema, "base": base_schema}
"""What makes the schema of each file that `musterbook schema` prints."""


def _shared() -> frozenset[type[Block]]:
    """The blocks that a class file may give in part, so that the vessel's own file may leave keys of them out."""
    return frozenset(
        field.block
        for field in Vessel.fields.values()
        if isinstance(field, One) and field.key not in OWN_KEYS
    )


def _required() -> Schema:
    """What a file that stands alone must hold."""
    parts = {
        key: {"required": [each.key for each in field.block.needed]}
        for key, field in Vessel.fields.items()
        if isinstance(field, One) and field.block in _shared() and field.block.needed
    }
    return {"required": [field.key for field in Vessel.needed], "properties": parts}
