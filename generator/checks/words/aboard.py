"""Words of her own about gear, numbers and roles: they name what is aboard, where it is, as many as there are, and whom there are."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.people import OF_OTHERS, nobodys, of_a_thing, titles_of_hers
from generator.manual.own_words import (
    APART,
    TOLD_OF,
    OwnWords,
    about_people,
    called,
    in_order,
    listed,
    told_in,
)
from generator.manual.sieves import sieve
from generator.reading.nearest import nearest, shortened
from generator.reading.worded import PLACE, ROLE, SIGNAL
from generator.shelves.gear import kind_of, kinds, kinds_that
from generator.survey.apparatus import APPARATUS, BEFORE, BEHIND, apparatus_in
from generator.survey.registry import COMMON_PRACTICE, DEFECT, HELP, Finds, Sight, at, check
from generator.vessel.alarms import DOES, WARNS_OF_GAS
from generator.vessel.fittings import told
from generator.vessel.gear import Gear, GrabItem, Lifejackets
from generator.vessel.particulars import Drill, Note, Signed
from generator.vessel.people import Person
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.values import Given
    from generator.shelves.gear import Kind, Kinds

_NUMBER = r"(?P<number>\d{1,3}|%s)"
_LIES = (
    r"(?:in|on|under|at|by|behind|beside|below|above|inside|with|together|from|hanging|lashed|kept|stowed)\b"
)
_TITLE = re.compile(rf"\bthe (?:first |chief |second )?([a-z]+)(?!['’a-z]){OF_OTHERS}")
"""A title with its article, where it is none of another vessel or of people ashore: the cook of a rescue ship."""
_ROLE_NUMBERED = re.compile(r"\b((?:guest|crew|deckhand|passenger) \d{1,2})\b")


@dataclass(frozen=True)
class Named:
    """A name of gear in a sentence, with what stands before and behind it."""

    name: str
    before: str
    behind: str


_BY_RIG = (
    "man-overboard",
    "back-aboard",
    "man-overboard-search",
    "abandon-ship",
    "dragging",
    "heavy-weather",
)
"""Procedures in which a note that works sails stops or saves nobody aboard a boat without any."""


@check("words.not-aboard", HELP, COMMON_PRACTICE)
def words_name_what_is_aboard(sight: Sight) -> Finds:
    """Words name no gear, raft, dinghy, pump, set or beacon that is not aboard.

    Why: "smother it with the fire blanket" sends somebody to look for a blanket that nobody bought.
    Remedy: add it to the file where it is aboard; else take it out of the words.
    """
    has: tuple[frozenset[str], ...] = ()
    without_a_rig = _without_a_rig(sight)
    for said in sight.words_through(_names_things_or_rig if without_a_rig else _names_things):
        if said.says in (SIGNAL, ROLE):
            continue
        rig = _part_of_a_rig(said.text) if without_a_rig else ""
        if rig:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {rig}, and she has no rig",
                item=said.block.path,
                weight=DEFECT if said.block.__dict__.get("beside") in _BY_RIG else None,
            )
            continue
        if said.names_itself or not _names_things(said.text):
            continue
        has = has or _aboard(sight)
        for name, saves in _lacking(said, sight, has):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {name}, and the file has none",
                item=said.block.path,
                weight=DEFECT if saves and isinstance(said.block, Note) else None,
            )


@sieve
def _names_things(text: str) -> bool:
    return bool(gear_named(text, kinds()) or apparatus_in(text))


@sieve
def _names_things_or_rig(text: str) -> bool:
    return bool(_part_of_a_rig(text)) or _names_things(text)


@sieve
def _says_a_number(text: str) -> bool:
    return not _number_words().isdisjoint(re.findall(r"[a-z]+", text.lower())) or any(map(str.isdigit, text))


@cache
def _number_words() -> frozenset[str]:
    return frozenset(("both", *in_order("reads.numbers")))


@check("words.other-number", HELP, COMMON_PRACTICE)
def words_say_no_other_number(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other number than its quantity.

    Why: whoever has found two stops looking for the third, and whoever looks for three that are two loses time.
    Remedy: count, and write the number under 'quantity' alone.
    """
    for said in sight.words_through(_says_a_number):
        quantity = said.block.__dict__.get("quantity")
        if quantity is None and isinstance(said.block, (Beacon, Person)):
            quantity = 1
        if isinstance(quantity, int) and isinstance(
            said.block, (Gear, GrabItem, Lifejackets, Beacon, Person)
        ):
            named = said.field.key == type(said.block).called
            if not named and said.field.key != "spot":
                continue
            number = _counted(said.text.lower(), quantity, named=named)
            if number is not None and number != quantity:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' says {number}, and quantity says {quantity}",
                    item=said.block.path,
                    also=(said.block.place("quantity"),),
                )


@check("words.nobody", HELP, COMMON_PRACTICE)
def words_name_roles_that_are_aboard(sight: Sight) -> Finds:
    """Words name no role that nobody aboard has: nor do drills, approvals, deferrals and contacts.

    Why: everybody waits for the mate's word, and there is no mate.
    Remedy: name the role as it stands under 'people', or add it there; somebody ashore is named so that it is plain: the yard's engineer.
    """
    roles = tuple(role.lower() for role in sight.roles)
    if not roles:
        return
    aboard = frozenset(word for role in roles for word in re.findall(r"[a-z]+", role))
    for said in (*sight.words_through(_may_name_a_role), *about_people(sight.all_of(*TOLD_OF))):
        if said.says == ROLE:
            continue
        bare = _bare_role(said)
        if not bare and not titles_of_hers(said.text) and not _roles_in(said.text):
            continue
        signed = isinstance(said.block, Signed)  # a mate who signed may have gone ashore since
        lost = nobodys(said.text, aboard | {"mate"} if signed else aboard)
        if not lost and bare and bare not in aboard:
            lost = f"the {bare}"
        if not lost and not isinstance(said.block, APART):
            lost = next(
                (
                    f"the {name}" if title else name
                    for name, title in _roles_in(said.text)
                    if name not in (aboard if title else roles)
                ),
                "",
            )
        if lost:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names {lost}, and nobody aboard has that role",
                remedy=nearest(lost.removeprefix("the "), sight.roles),
                item=said.block.path,
            )


@sieve
def _may_name_a_role(text: str) -> bool:
    return bool(titles_of_hers(text) or _roles_in(text)) or text.lower() in listed("reads.roles")


def _bare_role(said: OwnWords) -> str:
    """The role that is all a drill says of who led it: bosun; "" where it says more, or another word."""
    text = said.text.lower()
    return text if isinstance(said.block, Drill) and text in listed("reads.roles") else ""


@lru_cache(maxsize=8192)
def _roles_in(text: str) -> tuple[tuple[str, bool], ...]:
    """The roles that words name: by a title, the skipper, or by number, guest 2; and whether by a title."""
    found: list[tuple[str, bool]] = []
    for sentence in told_in(text):
        found += (
            (each[1], True)
            for each in _TITLE.finditer(sentence)
            if each[1] in listed("reads.roles") and not of_a_thing(sentence[each.end() :])
        )
        found += ((each, False) for each in _ROLE_NUMBERED.findall(sentence))
    return tuple(found)


@lru_cache(maxsize=8192)
def gear_named(text: str, every: Kinds) -> tuple[tuple[Kind, Named], ...]:
    """The kinds of gear that words name with an article, as things that are there."""
    find, meant = _gear_pattern(every)
    return tuple(
        (meant[found["name"]], Named(found["name"], found[1], sentence[found.end() :]))
        for sentence in told_in(text)
        for found in find.finditer(sentence)
    )


@lru_cache(maxsize=8)
def _gear_pattern(every: Kinds) -> tuple[re.Pattern[str], dict[str, Kind]]:
    """What finds the names of gear, and the kind that each means."""
    meant: dict[str, Kind] = {}
    for kind in every:
        for name in () if kind.words else (*kind.names, *kind.other_names):
            if name not in listed("reads.plain-words"):
                meant.setdefault(name, kind)
                if " " in name and name.endswith("s") and not name.endswith("ss"):
                    meant.setdefault(name[:-1], kind)
    longest_first = "|".join(re.escape(name) for name in sorted(meant, key=len, reverse=True))
    return re.compile(rf"({BEFORE})(?P<name>{longest_first}){BEHIND}"), meant


@lru_cache(maxsize=512)
def kinds_meant(what: Given, every: Kinds) -> tuple[Kind, ...]:
    """The kinds that a thing called so may stand for."""
    kind = kind_of(what)
    return (kind,) if kind is not None and kind in every and not kind.words else ()


def _aboard(sight: Sight) -> tuple[frozenset[str], ...]:
    """The words of the name of each thing aboard, without the ending of the plural."""
    names = (
        name
        for block, name in sight.texts("what")
        if "what" in type(block).fields and not isinstance(block, APART)
    )
    gas = sight.vessel.gas
    alarms = {str(DOES[each.what]) for each in sight.vessel.alarms if isinstance(each.what, str)}
    alarms |= {WARNS_OF_GAS} if gas is not None and gas.detector is True else set()
    warning = (
        name for what in alarms for kind in kinds_that(what) for name in (*kind.names, *kind.other_names)
    )
    particulars = sight.vessel.vessel
    besides = (
        *warning,
        *(called("medical") if sight.vessel.medical else ()),
        *(called("steering") if _has_a_tiller(sight) else ()),
        particulars.general_alarm if particulars else None,
    )
    return tuple(_stems(name) for name in (*names, *besides) if isinstance(name, str))


def _has_a_tiller(sight: Sight) -> bool:
    steering = sight.vessel.steering
    return steering is not None and bool(told(steering.emergency_tiller))


def _without_a_rig(sight: Sight) -> bool:
    particulars = sight.vessel.vessel
    return particulars is not None and particulars.rig == "none"


@lru_cache(maxsize=8192)
def _part_of_a_rig(text: str) -> str:
    """What words name of a rig: the halyard, the boom."""
    if not _any_part_of_a_rig().search(text.lower()):
        return ""
    words = (each for sentence in told_in(text) for each in re.findall(r"[a-z]+", sentence))
    return next((each for each in words if each in listed("reads.rig")), "")


@cache
def _any_part_of_a_rig() -> re.Pattern[str]:
    return re.compile("|".join(map(re.escape, sorted(listed("reads.rig")))))


@lru_cache(maxsize=8192)
def _stems(name: str) -> frozenset[str]:
    return frozenset(word.rstrip("s") for word in re.findall(r"[a-z]+", name.lower()))


def _lacking(said: OwnWords, sight: Sight, has: tuple[frozenset[str], ...]) -> Iterator[tuple[str, bool]]:
    """What words name that she has not, and whether a life hangs on it: the first of it."""
    for kind, named in gear_named(said.text, kinds()):
        if said.says == PLACE and kind in kinds_that("knows the position"):
            continue  # a display is a landmark that few list as gear
        known = _stems_meant(named.name, kind, kinds())
        if not any(stems <= thing for stems in known for thing in has):
            yield kind.name if named.name == kind.name.lower() else named.name, False
            return
    for number, name in apparatus_in(said.text):
        stems = _stems(name)
        if not APPARATUS[number][1](sight) and not any(stems <= thing for thing in has):
            yield name, APPARATUS[number][2]
            return


@lru_cache(maxsize=1024)
def _stems_meant(name: str, kind: Kind, every: Kinds) -> frozenset[frozenset[str]]:
    """The stems of the names by which a thing of a kind, called so, may be aboard; `every` is the shelf that it is of."""
    del every
    return frozenset(map(_stems, (name, *kind.names, *kind.other_names, *_serving(kind))))


def _serving(of: Kind) -> tuple[str, ...]:
    """The names of the kinds that do as well."""
    return tuple(name for kind in kinds() if of.name.lower() in kind.serves_as for name in kind.names)


@lru_cache(maxsize=8192)
def _counted(text: str, quantity: int, *, named: bool) -> int | None:
    """How many things the words for a name or a place, in small letters, count; None where they count nothing, or some of them."""
    number = _NUMBER % "|".join(in_order("reads.numbers"))
    if named:
        found = re.match(rf"(?:the |all )?{number} (?P<next>[a-z]{{3,}})", text)
        return _figure(found["number"]) if found and found["next"] not in listed("reads.units") else None
    if re.match(rf"both {_LIES}", text):
        return 2
    found = re.match(rf"all {number} {_LIES}", text)
    if found:
        return _figure(found["number"])
    parts = re.split(r",\s*|;\s*|\s+and\s+", text)
    counts = [each for part in parts if (each := re.match(rf"{number} {_LIES}", part))]
    if len(parts) == len(counts) > 1:
        return sum(_figure(each["number"]) for each in counts)
    found = re.match(rf"{number} (?:[a-z]+ed )?{_LIES}", parts[0])
    more = found is not None and _figure(found["number"]) > quantity
    return _figure(found["number"]) if found and more else None


def _figure(word: str) -> int:
    """The number that a figure or a word says."""
    return int(word) if word.isdigit() else in_order("reads.numbers").index(word) + 1
