"""What people mean by an answer: their words for none, for not known and for a choice, put into the words of the file."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.commissioning.called import beside_words, meanings
from generator.commissioning.refusal import Refusal
from generator.reading.fields import Choice, Listed
from generator.reading.measures import Count, Measured, in_usual_units, unit_names
from generator.reading.nearest import either, folded, shortened
from generator.shelves.spaces import hull_types

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from generator.commissioning.paths import Target

NONE, UNKNOWN = "none", "unknown"
_NOT_KNOWN = {
    "unknown", "not known", "not known yet", "i don't know", "don't know", "dont know", "do not know", "not sure", "unsure",
    "no idea", "dunno", "?",
}  # fmt: skip
_NO = {
    "no",
    "none",
    "nope",
    "nil",
    "nothing",
    "not any",
    "not fitted",
    "not aboard",
    "we have none",
    "has none",
    "haven't got one",
}
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_FILLERS = {
    "a",
    "an",
    "the",
    "and",
    "of",
    "with",
    "one",
    "two",
    "three",
    "four",
    "twin",
    "double",
    "triple",
    "single",
    "pair",
    "x",
}
_HEADS = r"(?:persons?|people|pax|men|heads|adults)"
_RIGS = re.compile(
    r"(?i)\b(?:\w*sloop|cutter|ketch|yawl|schooner|cat|una|lug\w*|standing|dipping|balance|gaff|gunter|sprit\w*|bermud\w+|marconi|junk|lateen|"
    r"square|brig\w*|barque|solent|fractional|masthead|(?:motor[- ]?)?sail\w*|main(?:sail)?|crab[- ]?claw|wing\w*|kite|genoa|jib|bald\w*|none|no|"
    r"unknown)\b"
)


_RIGGED = re.compile(
    r"(?i)\w*sloops?|cutters?|ketch(?:es)?|yawls?|schooners?|luggers?|catboats?|brigs?|brigantines?|barques?|barquentines?|rig|rigged|"
    r"lugsails?|spritsails?|motor[- ]?sailers?"
)
_MEASURED = re.compile(
    rf"(?i)[0-9]+(?:[.,][0-9]+)?\s*(?:{'|'.join(map(re.escape, sorted(unit_names(), key=len, reverse=True)))}|volts?|v|ah|knots?|kn|nm|miles?)\b"
)
_OF_HER = {"", "long", "wide", "deep", "high", "loa", "overall"}


def no_person(text: str) -> str:
    """What a word is that names nobody aboard: a rig, a hull, a length or another figure with its unit; "" where it may be a role."""
    text = text.strip()
    measured = _MEASURED.match(text)
    if measured and ((rest := text[measured.end() :].strip().lower()) in _OF_HER or no_person(rest)):
        return "a figure with its unit"
    words = re.findall(r"[^\W\d_]+(?:-[^\W\d_]+)*", text)
    if words and _RIGGED.fullmatch(words[-1]) and all(_RIGS.fullmatch(each) for each in words[:-1]):
        return "a rig"
    said = _words(text) - _FILLERS
    return (
        "a hull" if said and any(said == _words(each) for each in (*hull_types(), *meanings("type"))) else ""
    )


def none_meant(text: str, *about: str) -> bool:
    """Whether an answer says that there is none: no; none; no raft, where `about` names what is asked for."""
    said = folded(text).rstrip(".!")
    if said in _NO:
        return True
    denied = re.fullmatch(r"(?:no|none|without|not) (?:an? |any )?(.+)", said)
    if denied is None or said in _NOT_KNOWN:
        return False
    return _words(denied[1]) <= {word for each in about for word in _words(each)}


def unknown_meant(text: str) -> bool:
    """Whether an answer says that nobody knows."""
    return folded(text).replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").rstrip(".!") in _NOT_KNOWN


def in_its_words(one: Target, text: str) -> str:
    """An answer in the words of its key, where it can mean but one thing; as it was typed else. Raises Refusal where it may mean several."""
    text = text.strip()
    if not text or unknown_meant(text):
        return UNKNOWN if text else text
    field = one.read_by
    if isinstance(field, Listed):
        return _listed(one, text, field.choices)
    if isinstance(field, Choice):
        return _chosen(one, text, field.choices)
    if isinstance(field, Count):
        return _number(text)
    if isinstance(field, Measured):
        return in_usual_units(text)
    return _rig(text) if one.path == "vessel.rig" else text


def _listed(one: Target, text: str, choices: Sequence[str] | None) -> str:
    """Several words of a choice: HRU and straps."""
    if choices is None or text.lower() in _NO:
        return text
    text = re.sub(r"\s+(?:and|&|\+|then)\s+", ", ", text)
    return ", ".join(_chosen(one, each.strip(), choices) for each in _parts(text))


def _rig(text: str) -> str:
    """The words for her rig; raises Refusal for what is none."""
    if none_meant(text, "rig", *_TOPICS["vessel.rig"]):
        return NONE
    if not _RIGS.search(text):
        raise Refusal(
            f"vessel.rig: '{shortened(text)}' names no rig; write it like sloop, gaff cutter, ketch, standing lug, or none"
        )
    return text


def _parts(text: str) -> list[str]:
    inner = text[1:-1] if text.startswith("[") and text.endswith("]") else text
    return inner.split(",")


def _number(text: str) -> str:
    """A whole number in figures: six, 6 persons."""
    said = re.sub(rf"(?i)\s*{_HEADS}$", "", text.strip())
    return str(_NUMBERS.index(said.lower()) + 1) if said.lower() in _NUMBERS else said


def _chosen(one: Target, text: str, choices: Sequence[str]) -> str:
    """The word of a choice that an answer is in other clothes: twin outboards, petrol outboard, straps, day boat."""
    if not text or folded(text) in map(folded, choices):
        return text
    if NONE in choices and none_meant(text, one.field.key, *_TOPICS.get(one.path, ())):
        return NONE
    key, said = one.field.key, _words(text)
    for beside in (_FILLERS, _FILLERS | beside_words(key)):
        bare = said - beside
        for choice in choices:
            if bare and (
                bare == _words(choice) or "".join(text.lower().split()) == "".join(folded(choice).split())
            ):
                return choice
    means = meanings(key)
    told = [(words, found) for words, found in means.items() if _words(words) <= said]
    best = max((len(_words(words)) for words, _ in told), default=0)
    meant = dict.fromkeys(each for words, found in told if len(_words(words)) == best for each in found)
    meant_here = [each for each in meant if each in choices]
    exact = best and said - _FILLERS - beside_words(key) <= {
        word for words, _ in told for word in _words(words)
    }
    if exact and isinstance(one.read_by, Listed) and len(meant_here) == 1:
        return meant_here[0]  # another name of the same thing
    if meant_here:
        raise Refusal(
            f"{one.path}: '{shortened(text)}' is none of the words this key takes; "
            f"write {either(meant_here)}? (it takes: {', '.join(choices)})"
        )
    return text


def _words(text: str) -> set[str]:
    """The words of an answer, each in the singular."""
    return {_singular(word) for word in re.findall(r"[^\W\d_]+", folded(text))}


def _singular(word: str) -> str:
    return word.removesuffix("s") if len(word) > 3 and not word.endswith("ss") else word


_TOPICS: dict[str, Iterable[str]] = {
    "gas.fuel": ("cooker", "stove"),
    "vessel.engine": ("motor",),
    "vessel.rig": ("masts", "sails"),
}
