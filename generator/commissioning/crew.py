"""Who is aboard, as one answer says it: skipper, mate, 2 guests; or a number alone."""

from __future__ import annotations

import re

from generator.commissioning.answers import NONE, UNKNOWN, listed, refuse_unprintable
from generator.commissioning.refusal import Refusal
from generator.vessel.particulars import Particulars
from generator.vessel.people import MOST_OF_A_CHILD

PEOPLE = "people"
EXAMPLE = "skipper, mate, 2 guests, child of 6; or a number, 4"
_FIRST = ("skipper", "mate")
_REST = "guest"
_MOST = Particulars.persons.high
_NUMBERS = dict(
    zip(
        ["a", "an", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"],
        (1, 1, *range(1, 11)),
        strict=True,
    )
)
_BETWEEN = re.compile(r"(?i)\s*(?:[;+&]|\band\b|\bplus\b)\s*")
_AGED = re.compile(
    r"(?i)(?P<what>.*?\w)[ ,]*(?:\(| of | aged | age )\s*(?P<age>[0-9]{1,2})\)?(?: years?(?: old)?)?"
)
_TIMES = re.compile(r"(?i)(?P<what>[^\W\d_].*?)\s*[x×*:]\s*(?P<number>[0-9]+)")
_UNITS = {"m", "cm", "ft", "kg", "t", "lb", "kn", "l", "nm"}
_SEVERAL = {"children": "child", "people": "person", "crew": "crew"}


def roles(text: str) -> tuple[str, ...]:
    """The roles that an answer names, each once; none where it leaves them open. Raises Refusal."""
    return tuple(role for role, _ in _people(text))


def ages(text: str) -> dict[str, int]:
    """How old the children are of whom an answer says so, by their roles. Raises Refusal."""
    return {role: age for role, age in _people(text) if age is not None and age <= MOST_OF_A_CHILD}


def in_one_line(text: str) -> str:
    """The same answer with every person in it named. Raises Refusal."""
    return ", ".join(role if age is None else f"{role} of {age}" for role, age in _people(text))


def _people(text: str) -> list[tuple[str, int | None]]:
    text = text.strip()
    if text.lower() in ("", UNKNOWN):
        return []
    refuse_unprintable(PEOPLE, text)
    if text.lower() == NONE:
        raise Refusal(f"{PEOPLE}: somebody sails her; write roles, {EXAMPLE}")
    if re.fullmatch("[0-9]+", text):
        return [(role, None) for role in _of_a_number(int(text))]
    found: list[tuple[str, int | None]] = []
    for part in listed(text):
        for word in filter(None, _BETWEEN.split(part)):
            found += _of_a_word(word)
    if not found or len(found) > _MOST:
        raise Refusal(f"{PEOPLE}: write 1 to {_MOST} roles, {EXAMPLE}")
    found = _numbered(found)
    names = [role for role, _ in found]
    twice = next((role for role in names if names.count(role) > 1), "")
    if twice:
        raise Refusal(f"{PEOPLE}: two are called '{twice}'; write 2 {twice}s, or give each a name of its own")
    return found


def _numbered(found: list[tuple[str, int | None]]) -> list[tuple[str, int | None]]:
    """Those of one name whose ages are told are told apart by a number."""
    named = [role for role, age in found if age is not None]
    count: dict[str, int] = {}
    made: list[tuple[str, int | None]] = []
    for role, age in found:
        if age is not None and named.count(role) > 1:
            count[role] = count.get(role, 0) + 1
            made.append((f"{role} {count[role]}", age))
        else:
            made.append((role, age))
    return made


def _of_a_number(persons: int) -> tuple[str, ...]:
    if not 1 <= persons <= _MOST:
        raise Refusal(f"{PEOPLE}: {persons} is outside what can be: 1 to {_MOST}; look at the figure again")
    rest = persons - len(_FIRST)
    guests = (_REST,) if rest == 1 else tuple(f"{_REST} {number}" for number in range(1, rest + 1))
    return (*_FIRST[:persons], *guests)


def _of_a_word(word: str) -> list[tuple[str, int | None]]:
    """One role, or as many of a kind as stand before the word: 2 guests, a child of 6."""
    if times := _TIMES.fullmatch(word):
        word = f"{times['number']} {times['what']}"
    aged = _AGED.fullmatch(word)
    age = int(aged["age"]) if aged else None
    said = " ".join((aged["what"] if aged else word).split())
    first, _, rest = re.sub(r"(?<=[0-9])\s*[x×*]\s+", " ", said).partition(" ")
    number = int(first) if re.fullmatch("[0-9]+", first) else _NUMBERS.get(first.lower())
    if number is None or not rest:
        if not re.match(r"[^\W\d_]", said) or re.search(r"[\[\]]|(?i:^aged? [0-9])", said):
            raise Refusal(f"{PEOPLE}: '{word}' is no role; write words, {EXAMPLE}")
        return [(said, age)]
    if not re.match(r"[^\W\d_]", rest) or rest.lower() in _UNITS:
        raise Refusal(f"{PEOPLE}: '{word}' is no role; write words, {EXAMPLE}")
    one = _SEVERAL.get(rest.lower(), rest.removesuffix("s")) if number > 1 else rest
    if not 1 <= number <= _MOST:
        raise Refusal(f"{PEOPLE}: {number} is outside what can be: 1 to {_MOST}; look at the figure again")
    return [(one, age)] if number == 1 else [(f"{one} {each}", age) for each in range(1, number + 1)]
