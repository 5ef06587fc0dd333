"""What is aboard, ready to be counted: each thing with how much it is, where, and until when it is good."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from generator.manual.told import has_words, in_grab_bag, length_of, one_for_each
from generator.reading.block import Block
from generator.reading.values import Given, NotKnown, Quantity, given, untold
from generator.shelves.countables import Countable, countables
from generator.shelves.gear import answers_to, is_called
from generator.shelves.packs import packs
from generator.shelves.quantities import Boat, fine
from generator.shelves.rulesets import Needs, Rule, named
from generator.vessel.alarms import Alarm
from generator.vessel.gear import GrabItem

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from generator.manual.deadlines import Deadline
    from generator.manual.reckoning import Reckoning
    from generator.vessel.gear import Gear
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

_Value = str | float | tuple[str, ...] | Block | list[Block] | NotKnown | None
"""What a key of a vessel file may give that a rule asks for."""


@dataclass(frozen=True)
class Thing:
    """Something aboard that counts for a row; `at` is the block that says where it lies, None where that is no space.

    `fit` is None where the description does not say what the rule asks of it. `in_raft`: only inside the packed raft.
    """

    what: str
    amount: float
    block: Block
    at: Block | None = None
    last_day: date | None = None
    fit: bool | None = True
    in_raft: bool = False


@dataclass(frozen=True)
class _Entry:
    """An entry of a vessel file that may count: what it is called, how much it is, and the block that says where."""

    what: str
    amount: float
    block: Block
    at: Block


class Outfit:
    """What is aboard a vessel on a day; the deadlines are sorted to the things they are about once."""

    def __init__(self, reckoning: Reckoning, until: date) -> None:
        self.vessel, self.until = reckoning.vessel, until
        self.called = {id(item.block): item.what for item in reckoning.items}
        self.named: list[tuple[Gear | Alarm, frozenset[str]]] = [
            (each, answers_to(each.what)) for each in self.vessel.gear
        ]
        self.named += [
            (each, answers_to(each.gear_kind.name)) for each in self.vessel.alarms if each.gear_kind
        ]
        self.countables = countables()
        self.packs = [(raft, pack_contents(raft)) for raft in self.vessel.rafts]
        self.last_days = _last_days(reckoning.deadlines)

    def past(self, thing: Thing) -> bool:
        """Whether a thing runs out before the day."""
        return thing.last_day is not None and thing.last_day < self.until

    def things(self, rule: Rule) -> list[Thing]:
        """Everything that may count for a row, each once."""
        found: dict[tuple[int, str], Thing] = {}
        for name in rule.counts:
            for thing in self._named(name, rule):
                found.setdefault((id(thing.block), thing.what), thing)
        return list(found.values())

    def _named(self, name: str, rule: Rule) -> list[Thing]:
        listed = list(self._listed(name)) if rule.counts_listed else []
        packed = list(self._packed(name)) if rule.counts_bagged else []
        if listed and packed:
            listed = [each for each in listed if not _in_bag(each.block)]  # the bag lists it too
        things = [self._thing(entry, name, rule.needs) for entry in (*listed, *packed)]
        if rule.counts_in_rafts:
            things += self._in_rafts(name)
        return [each for each in things if each.fit is not False and each.amount > 0]

    def _listed(self, name: str) -> Iterator[_Entry]:
        """What the vessel file lists of a countable, or of a kind of gear."""
        countable = self.countables.get(name)
        if countable is None:
            for each, names in self.named:
                if name.lower() in names:
                    single = isinstance(each, Alarm) and untold(each.quantity)
                    yield self._entry(each, 1 if single else each.quantity)
            return
        for block in _blocks_at(self.vessel, countable.list_path):
            if _counts(block, countable):
                amount = _at(block, _last(countable.amount)) if countable.amount else 1
                if untold(amount) and _last(countable.amount) == "quantity":  # one at least stands there
                    amount = 1
                yield self._entry(block, amount, _last(countable.has))

    def _entry(self, block: Block, amount: _Value, what: str = "") -> _Entry:
        return _Entry(what or self.called.get(id(block), ""), _number(amount), block, block)

    def _packed(self, name: str) -> Iterator[_Entry]:
        """What the lists of the grab bags hold of it."""
        countable = self.countables.get(name)
        measured = _last(countable.packed) if countable else ""
        for bag in self.vessel.grab_bags:
            for item in bag.items:
                if is_called(item.what, name):
                    amount = _at(item, measured) if measured else item.quantity or 1
                    yield _Entry(str(item.what), _number(amount), item, bag)

    def _thing(self, entry: _Entry, name: str, needs: Needs | None) -> Thing:
        block, amount = entry.block, entry.amount
        fit = _fits(block, entry.what, needs)
        countable = self.countables.get(name)
        if (
            countable
            and countable.for_each is True
            and untold(_at(block, "quantity"))
            and one_for_each(_words(block, "spot"), _words(block, "carried-by"))
        ):
            fit, amount = None, float(persons_of(self.vessel) or 1)  # the description does not say how many
        twice = given(needs.twice_from, "") if needs else ""
        if twice and fit and _rated(_words(block, "rating"), twice):
            amount *= 2
        at = entry.at if "where" in type(entry.at).fields else None
        return Thing(entry.what, amount, block, at, self.last_days.get(block), fit)

    def _in_rafts(self, name: str) -> Iterator[Thing]:
        for raft, contents in self.packs:
            have = contents.get(name, 0.0)
            if have:
                yield Thing(name, have, raft, raft, self.last_days.get(raft), True, True)


def persons_of(vessel: Vessel) -> int | None:
    """For how many persons is counted: the most she may carry, or more where more travel; None where it is not known."""
    most = vessel.vessel.persons if vessel.vessel else None
    if not isinstance(most, int):
        return None
    return max(most, len(vessel.voyage.persons) if vessel.voyage else 0)


def pack_contents(raft: Raft) -> dict[str, float]:
    """What the packed raft holds, in pieces, or litres of water: known of packs whose contents a rule lists, by their name;
    of others what the shelf of packs says, and what the vessel file says itself.
    """
    contents: dict[str, float] = {}
    pack = packs().get(str(raft.pack))
    if pack and isinstance(raft.persons, int):
        found, category = named(given(pack.contents, ""))
        boat = Boat(raft.persons, 0.0, None, "", category, {})
        contents = {rule.counts[0]: rule.quantity.asked_of(boat) for rule in (found.rows if found else ())}
        contents |= {name: amount.asked_of(boat) for name, amount in pack.holds.items()}
    for name, countable in countables().items():
        said = _at(raft, _last(countable.in_raft)) if countable.in_raft else None
        if isinstance(said, float):
            contents[name] = float(said)
    return contents


def _blocks_at(vessel: Vessel, path: str) -> list[Block]:
    """The entries of a list of the vessel file, or the one block of that name."""
    found: list[Block] = [vessel]
    for key in path.split("."):
        values = [_at(block, key) for block in found]
        inside = [each for value in values for each in (value if isinstance(value, list) else [value])]
        found = [each for each in inside if isinstance(each, Block)]
    return found


def _counts(block: Block, countable: Countable) -> bool:
    """Whether an entry of the list is the countable."""
    if countable.has is not None and not _at(block, _last(countable.has)):
        return False
    word = given(countable.word, "")
    return all(str(_at(block, _last(path))) == said for path, said in countable.where.items()) and (
        not word or word in str(_at(block, type(block).called)).lower()
    )


def _at(block: Block, key: str) -> _Value:
    """The value of a key, None where the block has no such key."""
    field = type(block).fields.get(key)
    value: _Value = block.__dict__.get(field.name) if field else None
    return value


def _words(block: Block, key: str) -> str:
    """The words of a key, "" where the block gives none."""
    said = _at(block, key)
    return said if isinstance(said, str) else ""


def _last(path: Given) -> str:
    """The key at the end of a path."""
    return path.rpartition(".")[2] if isinstance(path, str) else ""


def _number(amount: _Value) -> float:
    return float(amount) if isinstance(amount, (int, float)) else 0.0


def _in_bag(block: Block) -> bool:
    """Whether a thing that the vessel file lists says of its place that this is the grab bag."""
    return in_grab_bag(_words(block, "where"), _words(block, "spot"))


def _fits(block: Block, what: str, needs: Needs | None) -> bool | None:
    """Whether a thing has what a rule asks: False if it has not, None if the description does not say."""
    answers = [each for _, each in _answers(block, what, needs)] if needs else []
    return False if False in answers else None if None in answers else True


def not_said(block: Block, what: str, needs: Needs | None) -> tuple[str, ...]:
    """Which of the keys of what a rule asks the description of a thing does not answer."""
    return tuple(key for key, answer in _answers(block, what, needs) if answer is None) if needs else ()


def _answers(block: Block, what: str, needs: Needs) -> Iterator[tuple[str, bool | None]]:
    for key, asked in (("lights", needs.lights), ("crotch-straps", needs.crotch_straps), ("dsc", needs.dsc)):
        if asked:
            flag = _at(block, key)
            yield key, flag if isinstance(flag, bool) else None
    if needs.with_:
        yield "with", True if has_words(what, needs.with_) else None
    if needs.rating:
        rating = _words(block, "rating")
        yield "rating", _rated(rating, given(needs.rating, "")) if rating else None
    for key, allowed in (("standard", needs.standard), ("pack", needs.pack)):
        if allowed:
            yield key, _at(block, key) in allowed
    for need, key, least in (
        ("power-from", "power-w", needs.power_from),
        ("flow-from", "flow", needs.flow_from),
    ):
        if least is not None:
            said = _at(block, key)
            yield need, said >= given(least, said) if isinstance(said, float) else None
    if needs.metres_from is not None:
        long, least_m = length_of(what), given(needs.metres_from, Quantity(0.0))
        yield "metres-from", fine(long) >= fine(least_m) if long is not None else None


def _rated(rating: str, wanted: str) -> bool | None:
    """Whether a marked rating reaches the one asked for; None in another system: 13A/113B and 5-B are never converted."""
    if ("-" in wanted) != _american(rating):
        return None
    have, want = _figures(rating), _figures(wanted)
    return all(have.get(letter, 0) >= figure for letter, figure in want.items())


def _american(rating: str) -> bool:
    return "-" in rating or ":" in rating


def _figures(rating: str) -> dict[str, int]:
    return {letter: int(figure) for figure, letter in re.findall(r"(\d+)-?([AB])", rating.upper())}


def _last_days(deadlines: Iterable[Deadline]) -> dict[Block, date]:
    """The last good day of each thing that counts, by its block: of what is in a bag each by itself, of a raft all its parts."""
    days: dict[Block, date] = {}
    for each in deadlines:
        if each.firm and not each.still_counts:
            thing = each.thing
            block = thing.block if isinstance(thing.block, GrabItem) else thing.kept
            days[block] = min(each.last_day, days.get(block, date.max))
    return days
