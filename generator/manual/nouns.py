"""What surely names neither a thing nor a place - a measure, a time, a count of persons, a way of doing - and what is known as one."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from generator.manual.clauses import masked
from generator.manual.own_words import in_order, listed
from generator.shelves.gear import kinds_in

_TOKEN = re.compile(r"\d+(?:[.,:/]\d+)*[^\W\d_]*|[^\W\d_]+(?:['’.-][^\W_]+)*|%")
_GLUED = re.compile(r"(\d+(?:[.,:/]\d+)*)([^\W\d_]{2,}|m)?")
MEASURE = "it is a measure"
_OF_ANOTHER = 4
"""Letters of a known noun from which on it is known at the end of another word too: guardrail."""


@lru_cache(maxsize=4096)
def no_noun(text: str, *, place: bool = False) -> str:
    """What words are instead of a thing or a place, where no word among them may be either; "" where one may."""
    words = _tokens(text)
    if said := _statement(words, place=place) or _lasting(words) or _in_turn(words):
        return said
    kinds = [_kind(word) for word in words]
    if not words or None in kinds:
        return ""
    behind = words[-1] in listed("reads.no-thing", "reads.more-places", "reads.ways")
    if (behind and _NUMBER not in kinds) or (place and _measured_place(words)):
        return ""
    if place and kinds[0] == _SMALL and _PERSON in kinds and _NUMBER not in kinds:
        return ""
    if place and words[0] in _NEXT_TO and "the" in words[1:3] and words[-1] in ("time", "date", "clock"):
        return ""  # on a screen
    if words[:1] == ("no",) and _NUMBER in kinds and len(words) == 2:
        return ""
    return next((said for kind, said in _SAID.items() if kind in kinds), "")


_NEXT_TO = ("beside", "next", "under", "below", "above", "over", "behind", "near", "left", "right")


@lru_cache(maxsize=4096)
def known(text: str, *, place: bool = False) -> bool:
    """Whether a word among these names a thing or part of a boat, or they tell a place as one does: in the fiddle."""
    words = _tokens(text)
    if "x" in words or any(_names(part) for word in words for part in {word, *word.split("-")}):
        return True
    if place and (
        words[:1] == ("where",) or not (_places() | listed("reads.laid", "reads.roles")).isdisjoint(words)
    ):
        return True
    return bool(kinds_in(text))


_SMALL, _NUMBER, _MEASURE, _PERSON, _TIME, _MANNER, _UNTOUCHED, _QUALITY = range(8)
_SAID = {
    _PERSON: "it tells of persons",
    _TIME: "it says when",
    _MEASURE: MEASURE,
    _UNTOUCHED: "it is nothing that a hand finds",
    _MANNER: "it says how something is done",
    _QUALITY: "it says how something is, and not what",
    _NUMBER: "it is a number alone",
}


def _tokens(text: str) -> tuple[str, ...]:
    return tuple(word.lower().replace("’", "'") for word in _TOKEN.findall(masked(text)))


def _kind(word: str) -> int | None:
    """What a word is that names no thing; None where it may name one."""
    if glued := _GLUED.fullmatch(word):
        unit = glued[2]
        return _NUMBER if unit is None else _MEASURE if unit in _measures() else None
    for kind, words in _kinds():
        if word in words:
            return kind
    if re.fullmatch(r"[a-z]{2,}ly", word) and word not in listed("reads.ly-things"):
        return _MANNER
    return None


@cache
def _kinds() -> tuple[tuple[int, frozenset[str]], ...]:
    """The words of each kind; the first that holds a word tells."""
    small = listed("reads.carry-nothing", "reads.no-thing", "reads.tells") - listed("reads.sides")
    return (
        (_NUMBER, listed("reads.numbers") | {"once", "twice", "half", "dozen"}),
        (_SMALL, listed("reads.carry-nothing")),
        (_PERSON, listed("reads.persons")),
        (_TIME, listed("reads.times")),
        (_MEASURE, _measures() | {"%"}),
        (_UNTOUCHED, listed("reads.untouched")),
        (_QUALITY, listed("reads.qualities", "reads.judged")),
        (_SMALL, small),
    )


@cache
def _measures() -> frozenset[str]:
    """Units; of the words of `reads.units` those that are nothing else aboard."""
    return listed("reads.measured", "reads.units") - {
        *("way", "part", "stage", "speed", "piece", "cell", "burner", "stroke", "foot", "person", "persons"),
        *("man", "men", "second", "seconds", "minute", "minutes", "hour", "hours"),
    }


@cache
def _places() -> frozenset[str]:
    """Words that tell where something lies, whatever stands behind them."""
    return (
        listed("reads.no-thing", "reads.places-alone", "reads.more-places", "reads.sides")
        | {"outboard", "inboard", "aloft", "midships", "amidships", "overhead", "topmost", "by"}
    ) - {
        *("for", "with", "when", "if", "where", "from", "before", "since", "during", "despite", "of"),
        *("all", "half", "whole", "per", "throughout", "until"),
    }


def _measured_place(words: tuple[str, ...]) -> bool:
    """Whether a measure is told from something: 30 cm above, 2 m aft; not for 30 cm."""
    number = _GLUED.fullmatch(words[0])
    return bool(number) and any(word in _places() - {"in", "at", "on"} for word in words[1:])


def _names(word: str) -> bool:
    """Whether a word is a noun that is known of boats, in singular or plural, or ends as a long one does."""
    stems = {word, word.removesuffix("s"), word.removesuffix("es"), word.removesuffix("'s")}
    nouns = _nouns()
    if not nouns.isdisjoint(stems):
        return True
    return any(stem.endswith(noun) for stem in stems for noun in _long_nouns() if len(stem) > len(noun))


@cache
def _nouns() -> frozenset[str]:
    told = listed(
        *("reads.nouns", "reads.worked", "reads.sides", "reads.fixtures", "reads.openings", "reads.engine"),
        *("reads.parts", "reads.rig", "reads.at-lockers", "reads.at-sides", "reads.at-stern", "reads.at-bow"),
        *("reads.at-middle", "reads.at-deck", "reads.at-wheel", "reads.at-engine", "reads.at-below"),
    )
    small = {"on", "the", "at", "in", "of", "below", "aft"}
    return told - small | _rooms()


def _rooms() -> frozenset[str]:
    return frozenset(in_order("called.rooms")) - {"main"}


@cache
def _long_nouns() -> frozenset[str]:
    return frozenset(noun for noun in listed("reads.nouns", "reads.worked") if len(noun) >= _OF_ANOTHER)


def _statement(words: tuple[str, ...], *, place: bool) -> str:
    """What words tell as a sentence does: the mate has it, it was new, the handle is stiff; not where the bunk is, the water can."""
    relative = {"where", "which", "that", "who", "whose", "as", "you", "when", "if", "unless"}
    keeps, tells = listed("reads.keeps"), listed("reads.tells") | {"depends", "varies"}
    for at, word in enumerate(words[1:], 1):
        before, behind = words[:at], words[at + 1 :]
        if not relative.isdisjoint(before) or (place and not _places().isdisjoint(words)):
            return ""
        if not behind:
            break
        noun = word in {"can", "might", "may", "will", "must", "needs", "being", "am"}
        if word in tells and not (
            noun and (behind[0] in listed("reads.no-thing") or _kind(before[-1]) is None)
        ):
            return "it says how it is"
        person = before[-1] in listed("reads.persons", "reads.roles", "reads.who")
        if person and word in keeps and behind[0] in ("it", "them", "this", "one", "the", "a", "home"):
            return "it says what somebody does"
    return ""


def _lasting(words: tuple[str, ...]) -> str:
    """What says how long or since when: hold for five seconds, bought in 2024, fitted last spring."""
    times = listed("reads.times") - {"second", "minute", "day", "night", "watch", "weather", "time", "hour"}
    for at, word in enumerate(words):
        if word == "for" and words[at + 2 : at + 3] and words[at + 2] in listed("reads.times"):
            return "it says how long"
        year = re.fullmatch(r"(?:19|20)\d\d", word)
        if at and year and words[at - 1] in ("in", "since", "of", "from") and _before_year(words[: at - 1]):
            return "it says when"
        if word in times and at and words[at - 1] in ("last", "next", "every", "this", "each"):
            return "it says when"
    return ""


def _before_year(words: tuple[str, ...]) -> bool:
    return all(
        word in listed("reads.qualities", "reads.carry-nothing") or word.endswith("ed") for word in words
    )


def _in_turn(words: tuple[str, ...]) -> str:
    """What repeats itself, or is a way of holding: step by step, hand over hand, feet first, by hand."""
    repeats = len(words) == 3 and words[0] == words[2] and words[1] in ("by", "over", "after", "to")
    first = len(words) == 2 and words[1] in ("first", "foremost")
    return "it says how something is done" if repeats or first or words in _held() else ""


def _held() -> frozenset[tuple[str, ...]]:
    return frozenset(
        {("by", "hand"), ("with", "both", "hands"), ("by", "force"), ("at", "once"), ("all", "together")}
    )
