"""The signals: general alarm and order to abandon are two, and what gives them is aboard."""

from __future__ import annotations

import re
from functools import cache

from generator.manual.clauses import masked
from generator.manual.own_words import in_order, listed
from generator.shelves.gear import kinds_in, kinds_that
from generator.survey.hanging import for_rafts
from generator.survey.registry import COMMON_PRACTICE, LIFE, RECOMMENDATION, Finds, Sight, at, check


@check(
    "bill.same-signal",
    LIFE,
    "46 CFR 199.80(b) (general alarm); SOLAS III/6 (secondary): the order to abandon is another",
)
def general_alarm_and_order_to_abandon_differ(sight: Sight) -> Finds:
    """General alarm and order to abandon are not the same signal.

    Why: on the general alarm people muster, on the order they leave her; whoever mixes them up jumps.
    Remedy: write for the order what cannot be mistaken: by word of mouth, three times.
    """
    one = sight.vessel.vessel
    if (
        one
        and isinstance(one.general_alarm, str)
        and isinstance(one.abandon_order, str)
        and _alike(one.general_alarm, one.abandon_order)
    ):
        yield at(
            one,
            "abandon-order",
            "the order to abandon is given just as the general alarm",
            also=(one.place("general-alarm"),),
        )


def _alike(alarm: str, order: str) -> bool:
    """Whether alarm and order are one signal: the same words, the same thing sounded in the same way, or called on both."""
    if alarm.strip().lower() == order.strip().lower():
        return True
    sounded = _sounded(alarm)
    if sounded and sounded <= _sounded(order):
        return True
    called_out = {each.strip().lower() for each in _QUOTED.findall(order)}
    return any(each and re.search(rf"\b{re.escape(each)}\b", alarm.lower()) for each in called_out)


def _sounded(signal: str) -> frozenset[str]:
    """What is sounded and how, where a signal names a horn or bell: the words that matter, by their stems; nothing where it is called."""
    told = _QUOTED.sub("", signal).lower()
    if not any(_word(name).search(told) for name in _soundings()):
        return frozenset()
    return frozenset(_stem(word) for word in re.findall(r"[a-z]+", told)) - _OF_NO_WEIGHT


@cache
def _soundings() -> tuple[str, ...]:
    """What sounds, by every name."""
    kinds = (name.lower() for kind in kinds_that("sounds an alarm") for name in kind.names)
    return (*kinds, *in_order("reads.sounders"), "horn")


_STEMS = {"rung": "ring", "rang": "ring", "blown": "blow", "blew": "blow", "blast": "blow"}


def _stem(word: str) -> str:
    """A word as it is compared: ring of rings, ringing and rung."""
    plain = re.sub(r"(?<=[a-z]{3})(?:ing|ed|s)$", "", word)
    return _STEMS.get(word, _STEMS.get(plain, plain))


_OF_NO_WEIGHT = frozenset(
    (
        "the",
        "a",
        "an",
        "on",
        "of",
        "by",
        "with",
        "is",
        "are",
        "it",
        "sound",
        "ring",
        "blow",
        "give",
        "given",
        "skipper",
        "mate",
    )
)
"""What tells one signal from another no more than that it is one."""
_A_RAFT = re.compile(r"\b(?:life ?|life-)?rafts?\b", re.IGNORECASE)
_QUOTED = re.compile(r"[\"“”'‘]([A-Za-z][^\"“”]*?)[\"“”'’](?![a-z])")
"""What words have somebody call out."""


@check("bill.order-mistaken", LIFE, COMMON_PRACTICE)
def the_order_to_abandon_is_no_other_cry(sight: Sight) -> Finds:
    """The order to abandon is no cry that means something else aboard, and sends nobody to a liferaft that she has not.

    Why: some run to the lifebuoy or the sheets while the others leave her.
    Remedy: write what means this alone: the skipper calls "Abandon ship" three times.
    """
    one = sight.vessel.vessel
    if one is None or not isinstance(one.abandon_order, str):
        return
    cries = [each.strip(" .!,").lower() for each in _QUOTED.findall(one.abandon_order)]
    other = next(
        (each for each in cries if each.replace(" ", "-").removesuffix("!") in listed("reads.cries")), ""
    )
    if other:
        yield at(one, "abandon-order", f"the order to abandon is '{other}', which means something else")
    elif not sight.vessel.rafts and _A_RAFT.search(one.abandon_order) and not any(for_rafts(sight)):
        yield at(one, "abandon-order", f"'{one.abandon_order}', and she has no liferaft")


@check("bill.alarm-unsounded", LIFE, COMMON_PRACTICE)
def what_gives_the_alarm_is_aboard(sight: Sight) -> Finds:
    """The foghorn, bell, whistle or siren that gives the general alarm, or the order to abandon, is in the gear list.

    Why: nobody finds it in the moment it is needed.
    Remedy: list it under 'gear' with its place, or write what really gives the alarm.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if not one:
        return
    listed = [str(item.what).lower() for item in vessel.gear]
    known = {kind.name for item in vessel.gear for kind in kinds_in(item.what)}
    sounders = (*(kind.name for kind in kinds_that("sounds an alarm")), *in_order("reads.sounders"))
    for key, given_by, words in (
        ("general-alarm", one.general_alarm, "the alarm is given on"),
        ("abandon-order", one.abandon_order, "the order to abandon is given on"),
    ):
        told = masked(given_by).lower() if isinstance(given_by, str) else ""
        named = [name for name in sounders if name in told and _word(name).search(told)]
        lacking = [name for name in named if name not in known and not any(map(_word(name).search, listed))]
        if " or " in told and len(lacking) < len(named):
            continue  # another of those that may be used is there
        if name := next(iter(lacking), ""):
            yield at(
                one,
                key,
                f"{words} the {name}, and the gear list has none",
                item=name,
                weight=RECOMMENDATION if key == "abandon-order" and _called_too(told) else None,
            )
            return
    if not isinstance(one.general_alarm, str):
        return
    horn = _HORN.search(one.general_alarm.lower())
    others = [what for what in listed if "horn" in what]
    if horn is not None and others and not any(_sounds(what, _WAY_OF[horn["way"]]) for what in others):
        yield at(
            one,
            "general-alarm",
            f"the alarm is given on the {horn[0]}, and what the gear list has is: {others[0]}",
            item=horn[0],
        )


def _called_too(told: str) -> bool:
    """Whether an order is given by word of mouth as well: all have mustered by then, and hear it."""
    return not listed("reads.aloud").isdisjoint(re.findall(r"[a-z]+", told))


_HORN = re.compile(r"\b(?P<way>electric|air|gas|aerosol|mouth) (?:fog)?horn\b")
_WAY_OF = {"electric": "electric", "air": "gas", "gas": "gas", "aerosol": "gas", "mouth": "mouth"}
_WAYS = {
    "electric": re.compile(r"\belectric\b|\bship['’]s horn\b"),
    "gas": re.compile(r"\bgas\b|\bair\b|\baerosol\b|\bcan\b"),
    "mouth": re.compile(r"\bmouth\b|\bblown\b"),
}
"""What makes a horn sound, as words tell it."""


@cache
def _word(name: str) -> re.Pattern[str]:
    """What finds the name of something that sounds."""
    return re.compile(rf"\b{name}\b")


def _sounds(what: str, way: str) -> bool:
    """Whether a horn sounds in that way, or none is told of it; an electric one says so."""
    if way == "electric" and not _WAYS[way].search(what):
        return False
    told = [each for each, words in _WAYS.items() if words.search(what)]
    return (not told and "spare" not in what) or way in told


_BY_A_LINE = re.compile(
    r"\b(?:tele)?phones?\b|\bmobiles?\b|\btext(?:s|ed)?(?: message)?\b|\bmessages?\b|\bgroup chat\b|\be-?mails?\b|\bapp\b",
    re.IGNORECASE,
)


@check("bill.signal-by-line", LIFE, COMMON_PRACTICE)
def signals_reach_everybody_at_once(sight: Sight) -> Finds:
    """Neither the general alarm nor the order to abandon is given by telephone or message.

    Why: who sleeps, works on deck or has wet hands gets no message, and one is reached after the other.
    Remedy: write what all hear at once: the skipper calls "Abandon ship" three times.
    """
    one = sight.vessel.vessel
    if one is None:
        return
    for key, given in (("general-alarm", one.general_alarm), ("abandon-order", one.abandon_order)):
        told = masked(given) if isinstance(given, str) else ""
        found = _BY_A_LINE.search(told)
        if found is not None and " and " not in told and " or " not in told:
            yield at(
                one, key, f"'{given}': that reaches one after the other, and nobody who sleeps", item=key
            )
