"""Remedies: how a key is written, as findings tell it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from typing import Any

from generator.reading.fields import IF_NONE, IF_OPEN, Compound, Field, Listed, Many
from generator.reading.nearest import MOST_LISTED, alike, folded, nearest


def some(fields: Mapping[str, Field[Any]]) -> str:
    """The first of a block's keys, those it needs before others."""
    keys = [key for key, field in fields.items() if field.required] or list(fields)
    return ", ".join(keys[:5])


def key_for(said: str, fields: Mapping[str, Field[Any]], listed_at: str = "") -> str:
    """What to write instead of a key that there is not: the one spelt like it, the one whose question asks for it, or all there are."""
    spelt = difflib.get_close_matches(folded(said)[:80], [folded(key) for key in fields], n=1, cutoff=0.8)
    near = spelt and spelt[0][0] == folded(said)[:1]
    if not near and (asked := _asking(said, fields)):
        listed = " or ".join(f"{key} ({fields[key].question})" for key in asked)
        return f"write {listed}"
    if len(fields) > MOST_LISTED and not alike(said, fields) and listed_at:
        return f"look it up: {listed_at}"
    return nearest(said, fields)


def _asking(said: str, fields: Mapping[str, Field[Any]]) -> list[str]:
    """The keys whose questions hold a word of a key that there is not, whatever its ending; none where many hold it."""
    words = [each for each in re.findall(r"[^\W\d_]+", said.lower()) if 2 < len(each) < 20]
    asking = [
        key
        for key, field in fields.items()
        if any(
            _akin(word, other) for word in words for other in re.findall(r"[^\W\d_]+", field.question.lower())
        )
    ]
    return asking if len(asking) <= 2 else []


def _akin(word: str, other: str) -> bool:
    """Whether two words are the same but for an ending: weight and weigh."""
    stem = max(5, min(len(word), len(other)) - 1)
    return word == other or word[:stem] == other[:stem]


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
        return f"; {'any' if isinstance(field, Listed) else 'one'} of: {', '.join(field.choices)}"
    if field.example not in (field.kind, Field.usual):
        return f", for example {field.key}: {field.example}"
    inside = field.blocks if isinstance(field, Compound) else None
    if inside is None:
        return ""
    return f"{': a list, each with' if isinstance(field, Many) else ', with'} {some(inside.fields)}"


def removed(field: Field[Any]) -> tuple[str, ...]:
    """What to do where there is none of it; nothing where the key must stand."""
    return () if field.required else (IF_NONE,)


def wanted(field: Field[Any]) -> str:
    """How a missing key is written; of several answers all are shown, for the first would be copied."""
    if field.choices and not isinstance(field, Listed):
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
