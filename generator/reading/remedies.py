"""Remedies: how a key is written, as findings tell it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.reading.fields import IF_NONE, IF_OPEN, Compound, Field, Texts


def some(fields: Mapping[str, Field[Any]]) -> str:
    """The first of a block's keys, those it needs before others."""
    keys = [key for key, field in fields.items() if field.required] or list(fields)
    return ", ".join(keys[:5])


def private_remedy(field: Field[Any]) -> str:
    """What to write where the value itself must not be quoted."""
    if field.kind == "text":
        return "; ".join(("write it in words", IF_OPEN, *removed(field)))
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


def removed(field: Field[Any]) -> tuple[str, ...]:
    """What to do where there is none of it; nothing where the key must stand."""
    return () if field.required else (IF_NONE,)


def wanted(field: Field[Any]) -> str:
    """How a missing key is written; of several answers all are shown, for the first would be copied."""
    if field.choices and not isinstance(field, Texts):
        return f"{field.key}: and one of {', '.join(field.choices)}"
    return answer(field)


def answer(field: Field[Any]) -> str:
    """A key with an answer, marked as an example where it could be taken for the boat's own."""
    telling = not isinstance(field, Compound) and field.example not in (field.kind, field.usual)
    return f"{field.key}, for example {sample(field)}" if telling else sample(field)


def sample(field: Field[Any]) -> str:
    """A key with a value as it may look."""
    if isinstance(field, Compound):
        return f"what belongs to '{field.key}'"
    return f"{field.key}: {field.example}" if field.example else field.key
