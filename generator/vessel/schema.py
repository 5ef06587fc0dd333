"""JSON Schema (2020-12) of a vessel file, made from the fields, for editors that complete and check while one types."""

from __future__ import annotations

import re

from generator.reading.fields import Choice, Count, Dated, Digits, Many, Named, One, Texts, YesNo
from generator.reading.values import BASES
from generator.vessel.vessel import FORMAT, OWN_KEYS, Vessel


def vessel_schema() -> dict:
    """The schema of vessel.yaml.

    It is looser than the survey where editors turn text into other types (yes, 2026-05-20, 232000000), and stricter in that
    it knows each word of a choice in one spelling only. A file that is based on a class file may leave out what that one gives.
    """
    blocks: dict[str, dict] = {}
    properties = _properties(Vessel, blocks)
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
        "$defs": dict(sorted(blocks.items())),
    }


def _properties(kind, blocks):
    return {
        key: {"description": field.question, **_value(field, blocks)} for key, field in kind.fields.items()
    }


def _value(field, blocks):
    """What may stand at a field: its value, the words unknown or private, the value with its source."""
    if field is Vessel.format:
        return {"enum": [FORMAT, int(FORMAT)]}
    word = _words("unknown") if field.reader == "guest" else _words("unknown", "private")
    if isinstance(field, Many):
        return {
            "anyOf": [
                {
                    "type": "array",
                    "minItems": 1,
                    "items": {"anyOf": [_block(field.block, blocks), _words("unknown")]},
                },
                word,
            ]
        }
    if isinstance(field, Named):
        return {"anyOf": [_named(field, blocks), word]}
    if isinstance(field, One):
        return {"anyOf": [_block(field.block, blocks), word]}
    if isinstance(field, Texts):
        return {"anyOf": [field.schema(), word], "examples": [field.example]}
    if isinstance(field, (Choice, Count)) and not isinstance(field, YesNo):
        return _forms(field, word)
    name = _name(field)
    blocks.setdefault(name, _forms(field, word))
    return {"$ref": f"#/$defs/{name}", "examples": [field.example]}


def _name(field):
    """What the definition of a kind of value is called: one for all keys that take the same."""
    parts = (
        [field.kind] if isinstance(field, Digits) else [type(field).__name__, getattr(field, "dimension", "")]
    )
    if field.reader != "guest":
        parts.append("private")
    return "-".join(re.findall(r"\w+", " ".join(parts)))


def _forms(field, word):
    """A value of the field's type, the word that stands for it, or the value with where it comes from."""
    with_source = {"value": {"anyOf": [field.schema(), word]}, "from": {"enum": list(BASES)}}
    if isinstance(field, Dated):
        with_source["stamp"] = {
            "type": ["string", "number"],
            "description": "The marking as it is read on the device.",
        }
    sourced = {
        "type": "object",
        "properties": with_source,
        "required": ["value"],
        "additionalProperties": False,
    }
    return {"anyOf": [field.schema(), word, sourced]}


def _words(*words):
    return {"enum": list(words)}


def _named(field, blocks):
    inner = _named(field.block, blocks) if isinstance(field.block, Named) else _block(field.block, blocks)
    return {
        "type": "object",
        "minProperties": 1,
        "additionalProperties": {"anyOf": [inner, _words("unknown")]},
    }


def _block(kind, blocks):
    """A reference to a block's definition, or what its shorthand takes."""
    if kind.__name__ not in blocks:
        made = blocks[kind.__name__] = {}
        made |= {
            "description": (kind.__doc__ or "").partition("\n")[0],
            "type": "object",
            "properties": _properties(kind, blocks),
            "additionalProperties": False,
        }
        if kind.needed and kind not in _shared():
            made["required"] = [field.key for field in kind.needed]
        elif not kind.needed:
            made["minProperties"] = 1
    reference = {"$ref": f"#/$defs/{kind.__name__}"}
    return {"anyOf": [reference, kind.fields[kind.shorthand].schema()]} if kind.shorthand else reference


def _shared():
    """The blocks that a class file may give in part, so that the vessel's own file may leave keys of them out."""
    return {
        field.block for field in Vessel.fields.values() if type(field) is One and field.key not in OWN_KEYS
    }


def _required():
    """What a file that stands alone must hold."""
    parts = {
        key: {"required": [each.key for each in field.block.needed]}
        for key, field in Vessel.fields.items()
        if type(field) is One and field.block in _shared() and field.block.needed
    }
    return {"required": [field.key for field in Vessel.needed], "properties": parts}
