"""Who is aboard, as one answer says it: skipper, mate, 2 guests; or a number alone."""

from __future__ import annotations

import re

from generator.commissioning.answers import NONE, UNKNOWN, listed, refuse_unprintable
from generator.commissioning.refusal import Refusal
from generator.vessel.particulars import Particulars

PEOPLE = "people"
EXAMPLE = "skipper, mate, 2 guests; or a number, 4"
_FIRST = ("skipper", "mate")
_REST = "guest"
_MOST = Particulars.persons.high


def roles(text: str) -> tuple[str, ...]:
    """The roles that an answer names, each once; none where it leaves them open. Raises Refusal."""
    text = text.strip()
    if text.lower() in ("", UNKNOWN):
        return ()
    refuse_unprintable(PEOPLE, text)
    if text.lower() == NONE:
        raise Refusal(f"{PEOPLE}: somebody sails her; write roles, {EXAMPLE}")
    if re.fullmatch("[0-9]+", text):
        return _of_a_number(int(text))
    found: list[str] = []
    for word in listed(text):
        found += _of_a_word(word)
    if not found or len(found) > _MOST:
        raise Refusal(f"{PEOPLE}: write 1 to {_MOST} roles, {EXAMPLE}")
    twice = next((role for role in found if found.count(role) > 1), "")
    if twice:
        raise Refusal(f"{PEOPLE}: two are called '{twice}'; write 2 {twice}s, or give each a name of its own")
    return tuple(found)


def _of_a_number(persons: int) -> tuple[str, ...]:
    if not 1 <= persons <= _MOST:
        raise Refusal(f"{PEOPLE}: {persons} is outside what can be: 1 to {_MOST}; look at the figure again")
    rest = persons - len(_FIRST)
    guests = (_REST,) if rest == 1 else tuple(f"{_REST} {number}" for number in range(1, rest + 1))
    return (*_FIRST[:persons], *guests)


def _of_a_word(word: str) -> list[str]:
    """One role, or as many of a kind as stand before the word: 2 guests."""
    several = re.fullmatch(r"([0-9]+) +([^\W\d_].*)", word)
    if not several:
        if not re.search(r"[^\W\d_]", word) or re.search(r"[\[\]]", word):
            raise Refusal(f"{PEOPLE}: '{word}' is no role; write words, {EXAMPLE}")
        return [" ".join(word.split())]
    number, kind = int(several[1]), " ".join(several[2].split())
    one = kind.removesuffix("s") if number > 1 else kind
    if not 1 <= number <= _MOST:
        raise Refusal(f"{PEOPLE}: {number} is outside what can be: 1 to {_MOST}; look at the figure again")
    return [one] if number == 1 else [f"{one} {each}" for each in range(1, number + 1)]
