"""What words are by those they begin with: an order, somebody who does something, a place, a thing that is worked."""

from __future__ import annotations

import re

from generator.manual.own_words import listed

_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")


def words_of(text: str) -> list[str]:
    """Its words in small letters; what hyphens join is one."""
    return _WORD.findall(text.lower())


def orders(text: str) -> bool:
    """Whether words begin as an order does: jump down from the bow, hold the rail; not swim platform, hold locker, lower step."""
    first, *behind = words_of(text) or [""]
    if first not in listed("reads.orders"):
        return False
    also_a_thing = first in listed("reads.also-things")
    if not behind:
        return not also_a_thing
    return behind[0] in listed("reads.what-of") or (
        not also_a_thing and behind[0] in listed("reads.behind-orders")
    )


def somebody(text: str) -> bool:
    """Whether words begin with whoever does something: we pull together."""
    first, *behind = words_of(text) or [""]
    return bool(behind) and first in listed("reads.who")


def stray(text: str) -> str:
    """The word by which a place, a direction or a condition begins where a thing should; "" for "the gate" and "forward gate"."""
    first, *behind = words_of(text) or [""]
    if first not in listed("reads.no-thing"):
        return ""
    functions = listed("reads.no-thing", "reads.what-of", "reads.plain-joins")
    if first in listed("reads.also-which") and behind and behind[0] not in functions:
        return ""
    return first


def empty(text: str) -> bool:
    """Whether all the words together name nothing: on, yes."""
    words = words_of(text)
    return bool(words) and listed("reads.alone-nothing").issuperset(words)
