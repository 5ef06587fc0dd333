"""What words are by those they begin with: an order, somebody who does something, a place, a thing that is worked."""

from __future__ import annotations

import re

from generator.manual.own_words import listed

_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
_PARTS = re.compile(r"[,:;]")


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
    functions = listed("reads.no-thing") | listed("reads.what-of") | listed("reads.plain-joins")
    if first in listed("reads.also-which") and behind and behind[0] not in functions:
        return ""
    return first


def empty(text: str) -> bool:
    """Whether all the words together name nothing: on, yes."""
    words = words_of(text)
    return bool(words) and listed("reads.alone-nothing").issuperset(words)


def without_a_hand(text: str) -> bool:
    """Whether words name a place or the thing that is worked, and not what the hand does: in the galley, the red tap."""
    words = words_of(text)
    if not words or _PARTS.search(text) or not listed("reads.ways").isdisjoint(words):
        return False
    sure = listed("reads.orders") - listed("reads.also-things")
    if (words[0] in listed("reads.orders") and len(words) > 1) or not sure.isdisjoint(words):
        return False
    if any(orders(" ".join(words[at:])) for at in range(len(words))):
        return False
    names = words[-1] in listed("reads.worked")
    return (names and len(words) < 5) or words[0] in listed("reads.places-alone")


def no_signal(text: str) -> bool:
    """Whether words tell of nothing heard or seen, but of a way to go or a place: straight aft over the transom."""
    words = words_of(text)
    if not words or re.search("[,:;\"'“‘]", text) or not listed("reads.signals").isdisjoint(words):
        return False
    return orders(text) or empty(text) or words[0] in listed("reads.no-thing") - listed("reads.with-what")
