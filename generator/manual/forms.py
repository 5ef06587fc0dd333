"""What words must be where a step prints them: by their form a thing, a place or a signal, as `acts` has it for a way of doing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.manual.acts import GERUND, Told, begins_as_act, doubtful_choice, told_by
from generator.manual.clauses import clauses_of, masked
from generator.manual.nouns import MEASURE, known, no_noun
from generator.manual.orders import empty, orders, somebody, stray, words_of
from generator.manual.own_words import listed
from generator.manual.papers import names_a_paper, sends_away
from generator.reading.worded import DOING, PLACE, SIGNAL, THING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


@dataclass(frozen=True)
class Misfit:
    """What words are instead of what they should be, and whether the step that prints them is surely broken or empty."""

    what: str
    sure: bool = True


_SENT = Misfit("it sends to a paper, a person or another thing")
_OPEN = Misfit("it says nothing yet")
_ORDER = Misfit("it tells what to do")


def asks(text: str) -> bool:
    """Whether words ask, outside what they quote."""
    return "?" in masked(text)


@lru_cache(maxsize=4096)
def misfit(says: str, text: str) -> Misfit | None:
    """How words differ in form from what they are in a sentence; None where they fit, are a question, or none of these."""
    read = _READ.get(says)
    return None if read is None or asks(text) else read(text)


def _doing(text: str) -> Misfit | None:
    choice = doubtful_choice(text)
    if choice:
        return Misfit("leaves open which of two things to do")
    told = told_by(text)
    if told not in (Told.ACT, Told.TURN):
        return Misfit(told.said, told.sure)
    if "=" in masked(text):
        return Misfit("holds a sign, where a step needs the words that one calls out", sure=False)
    if choice is False:
        return Misfit("names two ways of doing it, and a step needs the one that always works", sure=False)
    return None


def _of_any(text: str) -> Misfit | None:
    """What is neither a thing nor a place nor a signal."""
    words = tuple(words_of(masked(text)))
    if not words:
        return None
    if empty(text):
        return Misfit("it names nothing")
    if words[0] in listed("reads.no-answer") or words[:2] in (
        ("to", "be"),
        ("don't", "know"),
        ("no", "idea"),
    ):
        return _OPEN
    if sends_away(words) or names_a_paper(words, "reads.sure-papers"):
        return _SENT
    return None


def unfamiliar(says: str, text: str) -> bool:
    """Whether words pass for a thing or a place, and none of them is known as one or tells where."""
    if says not in (THING, PLACE) or asks(text) or misfit(says, text):
        return False
    return not known(text, place=says == PLACE)


_OF_SEVERAL = (
    (re.compile(r"\bwhichever (?:of (?:the|its|her) (?:two )?)?(\w+?)s? is\b", re.IGNORECASE), r"the \1"),
    (re.compile(r",? \(?whichever (?:side |one )?is [\w ]+\)?$", re.IGNORECASE), ""),
)
"""One of several, told by how it lies: whichever gate is to leeward; the gate, whichever is lower."""


def _thing(text: str) -> Misfit | None:
    for find, instead in _OF_SEVERAL:
        text = find.sub(instead, text)
    words = tuple(words_of(masked(text)))
    if not words and (none := no_noun(text)):
        return Misfit(none)
    if not words or (misplaced := _of_any(text)):
        return misplaced if words else None
    if orders(text) or _acts(words):
        return _ORDER
    if somebody(text):
        return Misfit("it tells what somebody does")
    if _denied(text, words) or words[0] in _nobody_knows() or _only(words, "reads.judged", "one", "ones"):
        return Misfit("it names nothing that a hand finds")
    if none := no_noun(text):
        return Misfit(none)
    if (first := stray(text)) or words[0] in listed("reads.tells") | {
        "as",
        "because",
        "while",
        "unless",
        "until",
    }:
        return Misfit(f"it begins with '{first or words[0]}'")
    if _may_order(words):
        return Misfit(
            f"'{words[0]}' may be read as an order, so write its article: the {words[0]}", sure=False
        )
    return None


def _may_order(words: tuple[str, ...]) -> bool:
    """Whether a name of a thing may as well be read as an order: lift with the halyard; not lift with its winch."""
    if len(words) < 3 or words[0] not in listed("reads.also-things", "reads.acts") - (listed("reads.worked")):
        return False
    return words[1] in listed("reads.moves") and words[2] in ("the", "them", "it", "him", "her")


_SEEKS = ("reach", "feel", "look")
_BEHIND = frozenset(
    ("behind", "beneath", "below", "beside", "inside", "under", "underneath", "above", "left", "right")
)
"""How a place is told by the hand or the eye that looks for a thing: one of these verbs, and where to."""


_GOES_ON = re.compile(r"([^:;,(]{4,}?)(?:[:;,] *| \()(.+)", re.DOTALL)
_WHOSE = re.compile(r",? (?:whose|of which) .*", re.DOTALL)


def _place_alone(text: str) -> str:
    """Words of a place without what they go on to tell: at the bottom edge: press for five seconds; key safe, the code is with the mate."""
    shown = masked(text)
    if whose := _WHOSE.search(shown):
        return shown[: whose.start()] or text
    found = _GOES_ON.fullmatch(shown)
    if not found:
        return text
    told, first = words_of(found[1]), (words_of(found[2]) or [""])[0]
    goes_on = first in listed("reads.orders", "reads.acts") or first in {"the", "it", "its"}
    place = told and (told[0] in _where_to() or (len(told) < 4 and known(found[1])))
    return found[1] if goes_on and place else text


@cache
def _where_to() -> frozenset[str]:
    return listed("reads.places-alone", "reads.sides") - {"before"}


def _place(text: str) -> Misfit | None:
    text = _place_alone(text)
    words = tuple(words_of(masked(text)))
    same = words[:1] == ("same",) and words[1:2] and words[1] not in listed("reads.spots") | {"as"}
    if not words and (none := no_noun(text, place=True)):
        return Misfit(none)
    if not words or same or (misplaced := _of_any(text)):
        return None if same or not words else misplaced
    if listed("reads.knows") & set(words):
        return Misfit("whoever does not know it learns nothing")
    if words[0] in _SEEKS and not _BEHIND.isdisjoint(words[1:3]) and len(words) > 3:
        return None  # reach in behind the cooker: the hand is led to it
    if orders(text) or (_acts(words) and not words[0].endswith(("ing", "ed")) and words[0] not in _where()):
        return _ORDER
    if words[0] in _nobody_knows() - {"where"}:
        return Misfit("nobody finds anything by it")
    if _only(words, "reads.judged", *listed("reads.spots")) or _denied(text, words):
        seen = listed("reads.looks", "reads.plain-joins")
        return Misfit("it names nothing by which a hand finds it", sure=not seen.issuperset(words))
    if none := no_noun(text, place=True):
        return Misfit(none)
    numbered = re.match(r"no\.?\s*\d", text, re.IGNORECASE)
    if somebody(text) or (words[0] in listed("reads.no-place") and not numbered):
        return Misfit("it tells of somebody or something, not of a place", sure=False)
    return None


def _signal(text: str) -> Misfit | None:
    words = words_of(masked(text))
    if any(
        word in listed("reads.either") and words[at + 1 : at + 2] != ["of"] for at, word in enumerate(words)
    ):  # whoever of two gives it, it is heard
        return Misfit("it leaves open which")
    found = [_of_clause(clause.words, conditional=clause.conditional) for clause in clauses_of(text)]
    if not found:
        return None
    if found[0] is _OPEN:
        return _OPEN
    if None in found:
        return None
    return next((each for each in found if each and not each.sure), found[0])


def _of_clause(words: tuple[str, ...], *, conditional: bool) -> Misfit | None:
    heard = "x" in words or not (listed("reads.signals", "reads.numbers")).isdisjoint(words)
    heard = heard or any(
        word.isdigit() and no_noun(" ".join(words[at : at + 2])) != MEASURE for at, word in enumerate(words)
    )
    if words[0] in listed("reads.denies") or (misplaced := _of_any(" ".join(words))):
        return Misfit("it says what is not heard") if words[0] in listed("reads.denies") else misplaced
    counted = not listed("reads.numbers").isdisjoint(words)
    if not counted and _only(words, "reads.judged", *listed("reads.any-signal")):
        return Misfit("it says nothing of what is heard or seen")
    if listed("reads.knows") & set(words):
        return Misfit("whoever does not know it learns nothing")
    if conditional:
        return Misfit("it says when, and not what is heard or seen", sure=not heard)
    if heard:
        if GERUND.fullmatch(words[0]) and words[1:2] and words[1] in listed("reads.articles") | {"on", "it"}:
            return Misfit(f"write it as it is said to whoever does it, without '{words[0]}'", sure=False)
        if words[0] in listed("reads.no-signal") and not counted and "x" not in words:
            return Misfit("it does not say what is heard and how often", sure=False)
        return None
    return _unheard(words)


def _unheard(words: tuple[str, ...]) -> Misfit:
    """What a clause says that tells of nothing heard or seen."""
    if orders(" ".join(words)) or (
        words[0] in listed("reads.orders") and words[1:2] and words[1] in listed("reads.behind-orders")
    ):
        return Misfit("it tells where to go or what to do")
    if words[0] in listed("reads.no-thing") - listed("reads.with-what"):
        return Misfit("it says where, and not what is heard or seen")
    if words[0] in listed("reads.whatever") - listed("reads.who"):
        return Misfit("it says nothing of what is heard or seen")
    return Misfit("it names nothing that is heard or seen, how often and on what", sure=False)


def _acts(words: tuple[str, ...]) -> bool:
    """Whether words are an act with what it is done to, and no name with a letter or number behind it: halyard A, locker one."""
    if len(words) > 1 and words[1] in ("the", "it", "them", "him", "her", "this", "these", "a", "an", "your"):
        return begins_as_act(words) and (
            words[1] not in ("a", "her") or words[2] not in listed("reads.plain-joins")
        )
    particle = (
        len(words) > 1
        and words[0] in listed("reads.acts", "reads.orders")
        and words[1] in listed("reads.off-goes")
    )
    behind = words[2:3]
    return particle and (not behind or behind[0] in _functions())


def _functions() -> frozenset[str]:
    return listed("reads.no-thing", "reads.articles", "reads.plain-joins", "reads.what-of")


def _where() -> frozenset[str]:
    return listed("reads.sides", "reads.ways", "reads.judged", "reads.strokes")


@cache
def _nobody_knows() -> frozenset[str]:
    """Words that mean whatever may be."""
    return frozenset(
        word
        for word in listed("reads.whatever")
        if re.search(r"ever$|thing$|how$|where$|body$|one$|time$|^who$", word)
    )


def _only(words: tuple[str, ...], words_of_list: str, *more: str) -> bool:
    """Whether words hold nothing but these, and articles, pronouns and joins."""
    small = listed("reads.articles", "reads.who", "reads.tells", "reads.also-judged")
    kept = [word for word in words if word not in small | {"x"}]
    known = listed(words_of_list).union(more, small)
    return "x" not in words and all(word in known or word.removesuffix("est") in known for word in kept)


def _denied(text: str, words: tuple[str, ...]) -> bool:
    """Whether words deny and tell nothing besides: not fitted, none of these; not No. 1 halyard, nor not in the locker but on it."""
    if words[0] not in listed("reads.denies") | {"none", "nowhere"}:
        return False
    if re.match(r"no\.?\s*\d", text, re.IGNORECASE):
        return False
    told = listed("reads.no-thing", "reads.articles")
    return words[0] not in ("not", "never") or (told - {"for", "by"}).isdisjoint(words)


_READ: Mapping[str, Callable[[str], Misfit | None]] = {
    DOING: _doing,
    PLACE: _place,
    SIGNAL: _signal,
    THING: _thing,
}
