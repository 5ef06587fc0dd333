"""Remedies: how a key is written, as findings tell it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.reading.fields import Compound, Field, Texts


def some(fields: Mapping[str, Field[Any]]) -> str:
    """The first of a block's keys, those it needs before others."""
    keys = [key for key, field in fields.items() if field.required] or list(fields)
    return ", ".join(keys[:5])


def private_remedy(field: Field[Any]) -> str:
    """What to write where the value itself must not be quoted."""
    if field.kind == "text":
        return "write it in words; write unknown if it is not known yet; remove the key if there is none"
    return (
        f"write {field.kind}"
        if field.example in ("private", field.kind)
        else f"write it like {field.example}"
    )


def like(field: Field[Any]) -> str:
    """How the answer to an open question looks: never one answer of several, which would be copied."""
    if field.choices:
        return f"; {'any' if isinstance(field, Texts) else 'one'} of: {', '.join(field.choices)}"
    return (
        ""
        if isinstance(field, Compound) or field.example == Field.usual
        else f", for example {sample(field)}"
    )


def wanted(field: Field[Any]) -> str:
    """How a missing key is written; of several answers all are shown, for the first would be copied."""
    if field.choices and not isinstance(field, Texts):
        return f"{field.key}: and one of {', '.join(field.choices)}"
    return sample(field)


def sample(field: Field[Any]) -> str:
    """A key with a value as it may look."""
    if isinstance(field, Compound):
        return f"what belongs to '{field.key}'"
    return f"{field.key}: {field.example}" if field.example else field.key
