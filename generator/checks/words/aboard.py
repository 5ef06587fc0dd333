"""Words of her own about gear, numbers and roles: they name what is aboard, where it is, as many as there are, and whom there are."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.people import OF_OTHERS, nobodys, titles_of_hers
from generator.manual.own_words import APART, OwnWords, about_people, in_order, listed, told_in
from generator.reading.nearest import nearest, shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import kind_of, kinds
from generator.survey.registry import COMMON_PRACTICE, HELP, Finds, Sight, at, check
from generator.vessel.gear import Gear, GrabItem, Lifejackets
from generator.vessel.particulars import Signed
from generator.vessel.people import Person
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from generator.reading.block import Block
    from generator.reading.values import Given
    from generator.shelves.gear import Kind, Kinds

_BEFORE = r"\b(?:the|an?|with|our|its|her|every|each|this) (?:(?:port|starboard|big|small|spare|second|first|nearest|forward|aft) )?"
BEHIND = (
    r"(?=$|[,.;:)!]| (?:in|at|on|from|under|beside|behind|below|above|by|near|of|or|and|over|with|to|into|is|are|hangs?|lies?|stands?|"
    r"then|until|while|through|across|around|for|aboard|ready|out|down|up|away|back|along|there|here|off|first|last|next|now|too|also|as|only|"
    r"before|after|again|fast|quick|hard|if|when|where|that|which|because|so|but|still|instead|once|twice|overboard|together|alongside|ashore|"
    r"yourself|yourselves|already|[a-z]+ly)\b)"
)
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


@check("words.not-aboard", HELP, COMMON_PRACTICE)
def words_name_what_is_aboard(sight: Sight) -> Finds:
    """Words name no gear, raft, dinghy, pump, set or beacon that is not aboard.

    Why: "smother it with the fire blanket" sends somebody to look for a blanket that nobody bought.
    Remedy: add it to the file where it is aboard; else take it out of the words.
    """
    has: tuple[frozenset[str], ...] = ()
    without_a_rig, every = _without_a_rig(sight), kinds()
    for said in sight.own_words:
        if said.says in (SIGNAL, ROLE):
            continue
        rig = _part_of_a_rig(said.text) if without_a_rig else ""
        if rig:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {rig}, and she has no rig",
                item=said.block.path,
            )
            continue
        if said.names_itself or not (gear_named(said.text, every) or _others_in(said.text)):
            continue
        has = has or _aboard(sight)
        for name in _lacking(said, sight, has):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {name}, and the file has none",
                item=said.block.path,
            )


@check("words.other-number", HELP, COMMON_PRACTICE)
def words_say_no_other_number(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other number than its quantity.

    Why: whoever has found two stops looking for the third, and whoever looks for three that are two loses time.
    Remedy: count, and write the number under 'quantity' alone.
    """
    for said in sight.own_words:
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
    for said in (*sight.own_words, *about_people(sight.blocks)):
        if said.says == ROLE:
            continue
        if not titles_of_hers(said.text) and not _roles_in(said.text):
            continue
        signed = isinstance(said.block, Signed)  # a mate who signed may have gone ashore since
        lost = nobodys(said.text, aboard | {"mate"} if signed else aboard)
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


@lru_cache(maxsize=8192)
def _roles_in(text: str) -> tuple[tuple[str, bool], ...]:
    """The roles that words name: by a title, the skipper, or by number, guest 2; and whether by a title."""
    found: list[tuple[str, bool]] = []
    for sentence in told_in(text):
        found += ((each, True) for each in _TITLE.findall(sentence) if each in listed("reads.roles"))
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
    return re.compile(rf"({_BEFORE})(?P<name>{longest_first}){BEHIND}"), meant


@lru_cache(maxsize=512)
def kinds_meant(what: Given, every: Kinds) -> tuple[Kind, ...]:
    """The kinds that a thing called so may stand for."""
    kind = kind_of(what)
    return (kind,) if kind is not None and kind in every and not kind.words else ()


def _aboard(sight: Sight) -> tuple[frozenset[str], ...]:
    """The words of the name of each thing aboard, without the ending of the plural."""
    names = (
        block.__dict__.get("what")
        for block in sight.blocks
        if "what" in type(block).fields and not isinstance(block, APART)
    )
    return tuple(_stems(name) for name in names if isinstance(name, str))


def _without_a_rig(sight: Sight) -> bool:
    particulars = sight.vessel.vessel
    return particulars is not None and particulars.rig == "none"


@lru_cache(maxsize=8192)
def _part_of_a_rig(text: str) -> str:
    """What words name of a rig: the halyard, the boom."""
    words = (each for sentence in told_in(text) for each in re.findall(r"[a-z]+", sentence))
    return next((each for each in words if each in listed("reads.rig")), "")


@lru_cache(maxsize=8192)
def _stems(name: str) -> frozenset[str]:
    return frozenset(word.rstrip("s") for word in re.findall(r"[a-z]+", name.lower()))


def _lacking(said: OwnWords, sight: Sight, has: tuple[frozenset[str], ...]) -> Iterator[str]:
    """What words name that she has not: the first of it."""
    for kind, named in gear_named(said.text, kinds()):
        known = {_stems(name) for name in (named.name, *kind.names, *kind.other_names, *_serving(kind))}
        if not any(stems <= thing for stems in known for thing in has):
            yield kind.name if named.name == kind.name.lower() else named.name
            return
    for number, name in _others_in(said.text):
        stems = _stems(name)
        if not _OTHERS[number][1](sight) and not any(stems <= thing for thing in has):
            yield name
            return


@lru_cache(maxsize=8192)
def _others_in(text: str) -> tuple[tuple[int, str], ...]:
    """What words name that is no gear, each by its number among _OTHERS and as it stands there."""
    return tuple(
        (number, found["name"])
        for number, (pattern, _) in enumerate(_OTHERS)
        for sentence in told_in(text)
        for found in pattern.finditer(sentence)
    )


def _serving(of: Kind) -> tuple[str, ...]:
    """The names of the kinds that do as well."""
    return tuple(name for kind in kinds() if of.name.lower() in kind.serves_as for name in kind.names)


def _named_so(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"{_BEFORE}(?P<name>{pattern}){BEHIND}")


def _on_the_air(kind: str) -> Callable[[Sight], bool]:
    """Whether she has a set or beacon of a kind; a handheld VHF is one too."""

    def there(sight: Sight) -> bool:
        radio = sight.vessel.radio
        every: tuple[Block, ...] = (*radio.sets, *radio.beacons) if radio else ()
        return any(str(each.__dict__.get("kind")).endswith(kind) for each in every)

    return there


_OTHERS: tuple[tuple[re.Pattern[str], Callable[[Sight], bool]], ...] = (
    (_named_so(r"life ?-?rafts?|rafts?"), lambda sight: bool(sight.vessel.rafts)),
    (_named_so(r"dinghy|tender"), lambda sight: sight.vessel.tender is not None),
    (_named_so(r"grab.?bag"), lambda sight: bool(sight.vessel.grab_bags)),
    (_named_so(r"(?:(?:electric|hand|manual) )?bilge pumps?|hand pump"), lambda sight: bool(sight.vessel.pumps)),
    *((_named_so(kind.lower()), _on_the_air(kind)) for kind in ("EPIRB", "PLB", "SART", "VHF")),
)  # fmt: skip


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
