"""Words of her own about gear, numbers and roles: they name what is aboard, where it is, as many as there are, and whom there are."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import gap_m
from generator.manual.drawing.spaces import find_space
from generator.reading.nearest import nearest, shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import before_comma, kinds
from generator.survey.own_words import APART, OwnWords, in_order, listed, own_words
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, RECOMMENDATION, Finds, Sight, at, check
from generator.vessel.gear import Gear, GrabItem, Lifejackets
from generator.vessel.people import Person
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from generator.reading.block import Block
    from generator.shelves.gear import Kind

_BEFORE = r"\b(?:the|an?|with|our|its|her|every|each|this) (?:(?:port|starboard|big|small|spare|second|first|nearest|forward|aft) )?"
_BEHIND = (
    r"(?=$|[,.;:)]| (?:in|at|on|from|under|beside|behind|below|above|by|near|of|or|and|over|with|to|into|is|are|hangs?|lies?|stands?|"
    r"then|until|while|until|while|through|across|around|for|aboard|ready|out|down|up|to port|to starboard)\b)"
)
_NUMBER = r"(?P<number>\d{1,3}|%s)"
_LIES = (
    r"(?:in|on|under|at|by|behind|beside|below|above|inside|with|together|from|hanging|lashed|kept|stowed)\b"
)
_THERE = re.compile(
    r" (?:in|at|on|from|by) (?:the )?(?P<where>[a-z ]+?)(?=$|[,.;:)]| (?:under|on|beside|behind|at|by|to|and|is|in)\b)"
)
_ROLE_NUMBERED = re.compile(r"\b((?:guest|crew|deckhand|passenger) \d{1,2})\b")


@dataclass(frozen=True)
class Named:
    """A kind of gear that words name, and what of the sentence stands behind the name."""

    kind: Kind
    name: str
    before: str
    behind: str


@check("words.not-aboard", RECOMMENDATION, COMMON_PRACTICE)
def words_name_what_is_aboard(sight: Sight) -> Finds:
    """Words name no gear, raft, dinghy, pump, set or beacon that is not aboard.

    Why: "smother it with the fire blanket" sends somebody to look for a blanket that nobody bought.
    Remedy: add it to the file where it is aboard; else take it out of the words.
    """
    has = _aboard(sight)
    for said in own_words(sight):
        if said.says in (SIGNAL, ROLE) or _names_itself(said):
            continue
        for name in _lacking(said, sight, has):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {name}, and the file has none",
                item=said.block.path,
            )


@check("words.elsewhere", RECOMMENDATION, COMMON_PRACTICE, COMPOSITION)
def words_send_to_where_gear_is(sight: Sight) -> Finds:
    """Words that say where a piece of gear is say the space and side of its own entry.

    Why: two places for one thing are searched one after the other.
    Remedy: go and look, and correct the one that is wrong.
    """
    for said in own_words(sight):
        if _names_itself(said):
            continue
        for named in gear_named(said):
            items = [item for item in sight.vessel.gear if named.kind.name in _kind_names(item)]
            wrong = _sent_astray(sight, named, items) if items else ""
            if wrong:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has the {named.name} {wrong}, and the gear list has it elsewhere",
                    item=said.block.path,
                    also=tuple(item.place("where") for item in items),
                )
                break


@check("words.other-number", RECOMMENDATION, COMMON_PRACTICE)
def words_say_no_other_number(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other number than its quantity.

    Why: whoever has found two stops looking for the third, and whoever looks for three that are two loses time.
    Remedy: count, and write the number under 'quantity' alone.
    """
    for said in own_words(sight):
        quantity = said.block.__dict__.get("quantity")
        if quantity is None and isinstance(said.block, (Beacon, Person)):
            quantity = 1
        if isinstance(quantity, int) and isinstance(
            said.block, (Gear, GrabItem, Lifejackets, Beacon, Person)
        ):
            number = _counted(said)
            if number is not None and number != quantity:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' says {number}, and quantity says {quantity}",
                    item=said.block.path,
                    also=(said.block.place("quantity"),),
                )


@check("words.nobody", RECOMMENDATION, COMMON_PRACTICE)
def words_name_roles_that_are_aboard(sight: Sight) -> Finds:
    """Words name no role that nobody aboard has.

    Why: everybody waits for the mate's word, and there is no mate.
    Remedy: name the role as it stands under 'people', or add it there.
    """
    roles = tuple(role.lower() for role in sight.roles)
    if not roles:
        return
    aboard = {word for role in roles for word in re.findall(r"[a-z]+", role)}
    for said in own_words(sight):
        if said.says == ROLE:
            continue
        for sentence in said.told:
            titles = re.findall(r"\bthe (?:first |chief |second )?([a-z]+)(?!['’a-z])", sentence)
            lost = [
                f"the {each}" for each in titles if each in listed("reads.roles") and each not in aboard
            ] + [each for each in _ROLE_NUMBERED.findall(sentence) if each not in roles]
            if lost:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' names {lost[0]}, and nobody aboard has that role",
                    remedy=nearest(lost[0].removeprefix("the "), sight.roles),
                    item=said.block.path,
                )
                break


def gear_named(said: OwnWords) -> Iterator[Named]:
    """The kinds of gear that words name with an article, as things that are there."""
    find, meant = _gear_pattern(kinds())
    for sentence in said.told:
        for found in find.finditer(sentence):
            name = found["name"]
            yield Named(meant[name], name, found[0].removesuffix(name), sentence[found.end() :])


@lru_cache(maxsize=8)
def _gear_pattern(every: tuple[Kind, ...]) -> tuple[re.Pattern[str], dict[str, Kind]]:
    meant: dict[str, Kind] = {}
    for kind in every:
        for name in () if kind.words else (*kind.names, *kind.other_names):
            if name not in listed("reads.plain-words"):
                meant.setdefault(name, kind)
    longest_first = "|".join(re.escape(name) for name in sorted(meant, key=len, reverse=True))
    return re.compile(rf"{_BEFORE}(?P<name>{longest_first}){_BEHIND}"), meant


def _names_itself(said: OwnWords) -> bool:
    """Whether it is the name of a thing: what belongs to it may stand there, "danbuoy, with light and second lifebuoy"."""
    return said.field.key in (type(said.block).called, "what", "for")


def _kind_names(item: Gear) -> tuple[str, ...]:
    """The kinds that an entry of the gear list stands for."""
    name = before_comma(item.what)
    return tuple(kind.name for kind in kinds() if name in (*kind.names, *kind.other_names))


def _aboard(sight: Sight) -> tuple[frozenset[str], ...]:
    """The words of the name of each thing aboard, without the ending of the plural."""
    names = (
        block.__dict__.get("what")
        for block in sight.blocks
        if "what" in type(block).fields and not isinstance(block, APART)
    )
    return tuple(_stems(name) for name in names if isinstance(name, str))


def _stems(name: str) -> frozenset[str]:
    return frozenset(word.rstrip("s") for word in re.findall(r"[a-z]+", name.lower()))


def _lacking(said: OwnWords, sight: Sight, has: tuple[frozenset[str], ...]) -> Iterator[str]:
    """What words name that she has not: the first of it."""
    for named in gear_named(said):
        known = (named.name, *named.kind.names, *named.kind.other_names, *_serving(named.kind))
        if not any(_stems(name) <= thing for name in known for thing in has):
            yield named.kind.name if named.name == named.kind.name.lower() else named.name
            return
    for sentence in said.told:
        for pattern, there in _OTHERS:
            found = pattern.search(sentence)
            if found and not there(sight) and not any(_stems(found["name"]) <= thing for thing in has):
                yield found["name"]
                return


def _serving(of: Kind) -> tuple[str, ...]:
    """The names of the kinds that do as well."""
    return tuple(name for kind in kinds() if of.name.lower() in kind.serves_as for name in kind.names)


def _named_so(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"{_BEFORE}(?P<name>{pattern}){_BEHIND}")


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


def _sent_astray(sight: Sight, named: Named, items: list[Gear]) -> str:
    """Where words send somebody for gear that lies elsewhere: the space or side they say; "" where one of hers is there."""
    spaces = [space for item in items if (space := find_space(sight.spaces, str(item.where))[0]) is not None]
    there = _THERE.match(named.behind)
    meant = find_space(sight.spaces, there["where"])[0] if there else None
    if meant is not None and spaces and all(gap_m(meant, space) > 0 for space in spaces):
        return f"in the {meant.name}"
    side = re.search(r"\b(port|starboard)\b", named.before)
    sides = {item.side for item in items}
    if side and sides <= {"port", "starboard"} and side[1] not in sides:
        return f"to {side[1]}"
    return ""


def _counted(said: OwnWords) -> int | None:
    """How many things the words for a name or a place count; None where they count nothing."""
    text = said.text.lower()
    number = _NUMBER % "|".join(in_order("reads.numbers"))
    if said.field.key == type(said.block).called:
        found = re.match(rf"(?:the |all )?{number} (?P<next>[a-z]{{3,}})", text)
        return _figure(found["number"]) if found and found["next"] not in listed("reads.units") else None
    if said.field.key != "spot":
        return None
    if re.match(rf"both {_LIES}", text):
        return 2
    found = re.match(rf"all {number} {_LIES}", text)
    if found:
        return _figure(found["number"])
    parts = re.split(r",\s*|;\s*|\s+and\s+", text)
    counts = [each for part in parts if (each := re.match(rf"{number} {_LIES}", part))]
    return sum(_figure(each["number"]) for each in counts) if len(parts) == len(counts) > 1 else None


def _figure(word: str) -> int:
    """The number that a figure or a word says."""
    return int(word) if word.isdigit() else in_order("reads.numbers").index(word) + 1
