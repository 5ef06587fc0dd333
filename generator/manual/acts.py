"""A way of doing, read by its form: an act with what it is done to; whatever else stands in its place is told by what it is.

An act begins with a word that is known as one, or with any other that "the", "it", "out" and the like stand behind; so what hands do need
not all be listed. A clause without an act tells a turn (lever down), a place, a thing, a paper, a judgement, a denial, or is not understood.
"""

from __future__ import annotations

import re
from enum import Enum
from functools import cache, lru_cache

from generator.manual.clauses import Clause, clauses_of, masked
from generator.manual.orders import empty
from generator.manual.own_words import listed
from generator.manual.papers import names_a_paper, sends_away


class Told(Enum):
    """What a clause tells, the most useful first, how a finding says it, and whether a step that prints it is surely broken or empty."""

    ACT = (0, "", False)
    TURN = (1, "", False)
    DOUBT = (2, "names no act with what it is done to", False)
    STATEMENT = (3, "says how it is, and not what to do", False)
    GERUND = (4, "tells of an act, and does not ask for it", False)
    PLACE = (5, "says no way of doing it, but a place or how something is done", True)
    THING = (6, "says no way of doing it, but names a thing", True)
    ELSEWHERE = (7, "says no way of doing it, but sends to a paper, a person or another thing", True)
    DENIAL = (8, "says no way of doing it, but what not to do", True)
    EMPTY = (9, "says no way of doing it: no hand knows from it what to do", True)

    def __init__(self, rank: int, said: str, sure: bool) -> None:
        self.rank, self.said, self.sure = rank, said, sure


GERUND = re.compile(r"(?:un|re)?[a-z]*[aeiouy][a-z]*ing")
_LIKE_ADJECTIVES = re.compile(r"[a-z-]+(?:able|ible|ous|ical|atic|ly|ful|ive)")


@lru_cache(maxsize=4096)
def told_by(text: str) -> Told:
    """What a way of doing tells, all its clauses taken together: an act in one of them is enough."""
    found = [_of_clause(clause) for clause in clauses_of(text) if not all(map(str.isdigit, clause.words))]
    if not found:
        return Told.DOUBT
    if empty(text):
        return Told.EMPTY
    return min(found, key=lambda told: told.rank)


@lru_cache(maxsize=4096)
def doubtful_choice(text: str) -> bool | None:
    """Whether words leave open what to do: push or pull, turn it left or right; False where two whole acts are named; else None."""
    found = re.search(r"(.*?)[,;]?\s+or\s+(.+)", masked(text).lower(), re.DOTALL)
    if not found:
        return None
    before, behind = clauses_of(found[1]), clauses_of(found[2])
    if not before or not behind:
        return None
    first, last = behind[0], before[-1]
    if first.words[0] in {"not", "whichever", "whatever"} | listed("reads.denies"):
        return True
    turned = listed("reads.ways") | {"in", "on"}
    if {first.words[0], last.words[-1]} <= turned and first.words[0] != last.words[-1]:
        return True
    if (
        first.words[0] not in _verbs()
        or _of_clause(first) is not Told.ACT
        or _of_clause(last) is not Told.ACT
    ):
        return None
    objects = [_object_of(clause) for clause in (last, first)]
    return not all(objects) or objects[0] == objects[1]


def begins_as_act(words: tuple[str, ...]) -> bool:
    """Whether words begin with one that no preposition, pronoun or such is, and "the" or "it" behind it: winch the person up."""
    if len(words) < 2 or words[0] in _no_verbs() or words[1] not in _objects():
        return False
    return len(words) > 2 or words[1] in listed("reads.what-of") - listed("reads.articles")


def _verbs() -> frozenset[str]:
    return listed("reads.orders", "reads.acts")


def _objects() -> frozenset[str]:
    """What stands before a thing: the, it, both."""
    return listed("reads.what-of", "reads.articles")


def _places() -> frozenset[str]:
    return listed("reads.no-thing", "reads.places-alone")


def _no_verbs() -> frozenset[str]:
    """With none of these an act begins."""
    return listed(
        *(
            "reads.no-thing",
            "reads.places-alone",
            "reads.more-places",
            "reads.joins",
            "reads.tells",
            "reads.denies",
        ),
        *(
            "reads.who",
            "reads.articles",
            "reads.whatever",
            "reads.lead",
            "reads.conditions",
            "reads.likewise",
        ),
    )


@cache
def _only_acts() -> frozenset[str]:
    """Of the words that begin an act those that name nothing besides."""
    return _verbs() - listed("reads.also-things", "reads.worked")


@cache
def _before_no_act() -> frozenset[str]:
    """Behind these no act begins inside a clause."""
    return (_objects() | listed("reads.who", "reads.tells")) - listed("reads.alone-nothing")


@cache
def _ways() -> frozenset[str]:
    """Which way something is moved; how it is held says nothing of that."""
    return listed("reads.ways") - {"by", "hand", "hands"}


def _object_of(clause: Clause) -> str:
    """The thing that an act is done to: its last word that is neither a turn nor an article; "" where it has none or says it."""
    small = listed("reads.what-of", "reads.ways", "reads.articles", "reads.no-thing", "reads.places-alone")
    return next((word for word in reversed(clause.words[1:]) if word not in small), "")


def _of_clause(clause: Clause) -> Told:  # noqa: C901, PLR0912 - a case a kind of clause
    words = clause.words
    first, behind = words[0], words[1:]
    if first in listed("reads.denies") or words[:2] == ("do", "not"):
        return Told.DENIAL
    if told := _of_somebody(clause):
        return told
    if first in ("leave", "let") and words[-1] in ("alone", "be"):
        return Told.DENIAL
    if first in listed("reads.no-answer") or words[:2] in (("to", "be"), ("don't", "know"), ("no", "idea")):
        return Told.EMPTY
    if sends_away(words) or names_a_paper(words, "reads.sure-papers"):
        return Told.ELSEWHERE
    if "-".join(words) in listed("reads.idle"):
        return Told.DENIAL
    if clause.conditional:
        return Told.ACT if _act_within(words[1:]) else Told.PLACE
    if first in listed("reads.who") and behind:
        knows = listed("reads.knows") & set(behind)
        return Told.EMPTY if knows else Told.STATEMENT
    if first in listed("reads.whatever"):
        return Told.EMPTY
    if first in listed("reads.tells"):
        return Told.STATEMENT if _turns(clause) else Told.EMPTY
    if first in listed("reads.plain-acts") and not _says_how(behind):
        return Told.EMPTY
    if (listed("reads.judged", "reads.also-judged", "reads.ways-of")).issuperset(words):
        return Told.EMPTY
    if first in listed("reads.judged") and behind[:1] == ("to",) and (_verbs() & set(behind[1:2])):
        return Told.EMPTY
    if first in listed("reads.articles") and listed("reads.ways-of") & set(behind[:1]):
        return Told.EMPTY
    if (listed("reads.sides", "reads.articles")).issuperset(words) and not listed("reads.ways").intersection(
        words
    ):
        return Told.PLACE
    if len(words) == 1 and first not in _verbs() and _LIKE_ADJECTIVES.fullmatch(first):
        return Told.EMPTY
    if GERUND.fullmatch(first) and first not in _verbs():
        return Told.GERUND
    if _begins(words):
        return Told.ACT
    if first in listed("reads.no-thing", "reads.places-alone", "reads.more-places", "reads.joins"):
        if _act_within(behind[1:]):
            return Told.ACT
        if behind and GERUND.fullmatch(behind[0]):
            return Told.GERUND
        return Told.TURN if first not in listed("reads.places-alone") and _turns(clause) else Told.PLACE
    if third := _third_person(words):
        return Told.STATEMENT if _turns(clause) else third
    if _turns(clause):
        return Told.TURN if len(words) > 1 else Told.DOUBT
    if _act_within(behind):
        return Told.ACT
    return _thing(clause)


def _of_somebody(clause: Clause) -> Told | None:
    """What a clause tells that names first who does it, or what it tells of: all stand on the keel, it is on the left; None for others."""
    words = clause.words
    start = int(words[0] == "the")
    start += len(words) > start + 1 and words[start] in listed("reads.numbers")
    doer = words[start] if len(words) > start else ""
    rest = words[start + 1 :]
    if doer in listed("reads.doers") and len(rest) > 1 and rest[1] in _behind_an_act():
        stem = rest[0] if rest[0] in _verbs() else rest[0].removesuffix("s").removesuffix("e")
        if {rest[0], rest[0].removesuffix("s"), stem} & _verbs():
            return Told.ACT
    is_said = {"is", "are"} & set(words[1:4])
    if not is_said or words[0] not in listed("reads.articles") | {"it", "they"}:
        return None
    said = words[words.index(min(is_said)) + 1 :] if len(is_said) == 1 else ()
    if words[0] in ("it", "they") and len(said) > 1 and said[0] in _places() and not _turns(clause):
        return Told.PLACE
    return Told.EMPTY if said and listed("reads.judged").issuperset(said) else None


@cache
def _behind_an_act() -> frozenset[str]:
    """What stands behind an act whose doer is named before it: on, to, the, back, together."""
    return (
        _objects()
        | listed("reads.no-thing", "reads.places-alone", "reads.ways")
        | {"together", "hard", "well", "back"}
    )


def _begins(words: tuple[str, ...]) -> bool:
    """Whether a clause begins as an act."""
    first, behind = words[0], words[1:]
    if begins_as_act(words):
        return True
    if first not in _verbs():
        return (
            bool(behind)
            and first not in _no_verbs()
            and first not in listed("reads.judged")
            and behind[0] in (listed("reads.off-goes") | {"out", "hard"})
        )
    if not behind:
        return first not in listed("reads.worked")
    noun = first in listed("reads.also-things", "reads.worked")
    return not (
        noun and behind[0] in ("on", "at", "in") and (listed("reads.sides") & set(behind)) and len(behind) < 5
    )


def _act_within(words: tuple[str, ...]) -> bool:
    """Whether an act begins inside: on the panel press OFF; not behind whoever does it, nor behind an article."""
    sure = _only_acts()
    for at, word in enumerate(words):
        if at and words[at - 1] in _before_no_act():
            continue
        if word in sure or (
            word in _verbs() and (begins_as_act(words[at:]) or {"on", "off"} & set(words[at + 1 :]))
        ):
            return at == 0 or word in sure or words[at - 1] not in _places()
    return False


def _says_how(behind: tuple[str, ...]) -> bool:
    """Whether a plain act names what is worked, or which way: the lever, it up and down; not it, properly, as shown, the usual way."""
    if not behind or behind[0] in listed("reads.likewise"):
        return False
    if "".join(behind) in ("itout", "themout") or (
        behind[0] in ("out", "both") and not listed("reads.worked") & set(behind)
    ):
        return False
    if (listed("reads.ways") | {"with", "by"}) & set(behind):
        return not listed("reads.judged").issuperset(behind[-1:]) and "care" not in behind
    names = [word for word in behind if word not in _objects() and not _LIKE_ADJECTIVES.fullmatch(word)]
    return (
        bool(names)
        and not {"shown", "marked", "told", *listed("reads.ways-of")} & set(names)
        and (names[0] not in listed("reads.likewise", "reads.whatever") | {"that", "so"})
    )


def _turns(clause: Clause) -> bool:
    """Whether a clause says which way, beside the places it names: lever down; not knob on the left."""
    words, ways = list(clause.words), _ways()
    for at, word in enumerate(words):
        if word in ("on", "at", "in", "from") and set(words[at + 1 : at + 3]) & listed("reads.sides"):
            return not ways.isdisjoint(words[:at])
    return (
        not ways.isdisjoint(words)
        or (
            (words[0] in listed("reads.numbers") | {"a"} or words[0].isdigit())
            and not listed("reads.strokes").isdisjoint(words[1:])
        )
        or (len(words) > 2 and "to" in words[1:-1] and words[0] in listed("reads.worked"))
    )


def _third_person(words: tuple[str, ...]) -> Told | None:
    """What a clause tells that begins as a statement does: works by itself; None where it does not."""
    first = words[0]
    stem = first.removesuffix("es") if first.endswith("shes") else first.removesuffix("s")
    if first == stem or stem not in _verbs() or stem in listed("reads.also-things") & listed("reads.worked"):
        return None
    if stem in listed("reads.worked") or len(words) < 2 or words[1] in _objects():
        return None
    return Told.EMPTY


def _thing(clause: Clause) -> Told:
    """Of a clause without an act: a thing where its form or its last word says so, else a doubt."""
    words = clause.words
    if names_a_paper(words):
        return Told.ELSEWHERE
    if listed("reads.tells") & set(words):
        return Told.STATEMENT
    if words[0] in listed("reads.articles"):
        if words[-1] in listed("reads.units") and words[0] in listed("reads.numbers"):
            return Told.DOUBT
        acts = (_verbs() | listed("reads.plain-acts")) - listed("reads.worked")
        finite = [word for word in words[2:] if word.removesuffix("s") in acts]
        more = any(word.endswith("s") or word == "does" for word in finite)
        return Told.STATEMENT if more and words[-1] not in listed("reads.worked") else Told.THING
    named = words
    for at, word in enumerate(words[1:], 1):
        if word in _places() | {"of"}:
            named = words[:at]
            break
    return (
        Told.THING
        if named[-1].rpartition("-")[2] in listed("reads.worked") and len(named) < 5
        else Told.DOUBT
    )
