"""Carriage: what the rule sets a boat is kept by ask for, against what is aboard, where, and until when it is good."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from generator.reading.measures import Measure
from generator.shelves.gear import answers_to, mentioned
from generator.shelves.rulesets import COUNTED, Boat, Rule, RuleSet, amount, fine, holds, rule_sets
from generator.vessel.gear import GrabItem

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.manual.deadlines import Deadline
    from generator.manual.reckoning import Reckoning
    from generator.reading.block import Block

MET, SHORT, NOT_SAID = "met", "short", "not said"
RAFT_CONTENTS = "SOLAS raft contents"
_PACKS = {"SOLAS A": "A", "SOLAS B": "B"}
_MEASURES = {
    "power-from": Measure("", "power"),
    "flow-from": Measure("", "flow"),
    "metres-from": Measure("", "length"),
}
_SET_KINDS = ("VHF", "handheld VHF", "satellite telephone")
_NO_END = ("raft.cylinder-test",)  # what passes there is to be looked at; the thing still counts
_PUMPS = {"hand pumps": "hand", "electric pumps": "electric", "engine pumps": "engine"}


@dataclass(frozen=True)
class Thing:
    """Something aboard that counts for a row; `at` is the block that says where it lies, None where that is no space.

    `fit` is None where the description does not say what the rule asks of it. `in_raft`: only inside the packed raft.
    """

    what: str
    amount: float
    block: object
    at: object = None
    last_day: date | None = None
    fit: bool | None = True
    in_raft: bool = False


@dataclass(frozen=True)
class Row:
    """A line of the comparison: required, aboard, where, good until.

    `things` count now; `past` are aboard and past their date, so they count for nothing; `unsaid` might count if the
    description said more. `state` is MET, SHORT or NOT_SAID. `key` is the key of the vessel file that holds such things.
    """

    rule_set: str
    rule: Rule
    required: float
    things: tuple[Thing, ...]
    past: tuple[Thing, ...]
    unsaid: tuple[Thing, ...]
    state: str

    @property
    def aboard(self) -> float:
        """How much of it counts."""
        return _sum(self.things)

    @property
    def good_until(self) -> date | None:
        """The last day on which all that counts is good; None where nothing is dated."""
        return min((each.last_day for each in self.things if each.last_day), default=None)

    @property
    def places(self) -> tuple:
        """The blocks that say where it is, each place once."""
        seen = {}
        for each in self.things:
            if each.at is not None:
                seen.setdefault(
                    tuple(str(getattr(each.at, name, None) or "") for name in ("where", "side", "spot")),
                    each.at,
                )
        return tuple(seen.values())

    @property
    def needs_the_raft(self) -> bool:
        """Whether it is met only by what lies inside the packed raft."""
        reach = [each for each in self.things if not each.in_raft]
        return self.state == MET and _sum(reach) < self.required

    @property
    def enough_with_past(self) -> bool:
        """Whether only the date of what is aboard keeps it from being met."""
        return self.state == SHORT and self.aboard + _sum(self.past) >= self.required

    @property
    def key(self) -> str:
        """The key of the vessel file that holds what it counts."""
        if self.rule.within.startswith("grab bag"):
            return "grab-bags"
        return COUNTED.get(self.rule.counts[0], "gear")


def named(text: str) -> tuple[RuleSet | None, str]:
    """The rule set that a vessel file names, and the category written after it: "... category 2"."""
    name, _, category = text.partition(" category ")
    wanted = " ".join(name.lower().split())
    found = next((one for one in rule_sets().values() if one.name.lower() == wanted), None)
    return found, category.strip()


def by_rule_set(rows: Iterable[Row]) -> tuple[tuple[str, RuleSet, tuple[Row, ...]], ...]:
    """The rows of each rule set together, with the name by which the vessel's file calls the set."""
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(row.rule_set, []).append(row)
    return tuple((text, named(text)[0], tuple(group)) for text, group in groups.items())


def persons_of(vessel) -> int | None:
    """For how many persons is counted: the most she may carry, or more where more travel; None where it is not known."""
    most = vessel.vessel.persons if vessel.vessel else None
    if not isinstance(most, int):
        return None
    return max(most, len(vessel.voyage.persons) if vessel.voyage else 0)


def compare(reckoning: Reckoning, until: date) -> tuple[Row, ...]:
    """The rows of all rule sets that the vessel names with a category they have; rows that ask nothing of her are left out.

    Nothing counts that runs out before `until`. Empty where persons or waters are not known.
    """
    vessel = reckoning.vessel
    one, persons = vessel.vessel, persons_of(vessel)
    if not one or persons is None or not one.known("length", "waters"):
        return ()
    aboard = _Aboard(vessel, reckoning.items, reckoning.deadlines, until)
    facts, rows = _facts(reckoning), []
    for text in one.rule_set or ():
        found, category = named(str(text))
        if found and category in (found.categories or ("",)):
            freeboard = float(one.freeboard) if isinstance(one.freeboard, float) else None
            boat = Boat(persons, float(one.length), freeboard, one.waters, category, facts)
            rows += [row for rule in found.rows if (row := _row(str(text), rule, boat, aboard))]
    return tuple(rows)


def _facts(reckoning: Reckoning) -> dict[str, bool]:
    vessel = reckoning.vessel
    return reckoning.facts | {
        "inflatable lifejackets": any(each.kind == "inflatable" for each in vessel.lifejackets),
        "fuel-burning cooker": bool(vessel.gas) and vessel.gas.fuel not in (None, "none"),
    }


def _row(name, rule, boat, aboard):
    if not holds(rule.when, boat) or amount(rule.quantity, boat) <= 0:
        return None
    tried = [
        _tried(name, rule, each, boat, aboard)
        for each in (rule, *(other for other in rule.alternatives if holds(other.when, boat)))
    ]
    order = {MET: 0, NOT_SAID: 1, SHORT: 2}
    return min(
        tried, key=lambda row: order[row.state]
    )  # the first of equals: the rule's own words before its alternatives


def _tried(name, rule, option, boat, aboard):
    required = amount(option.quantity, boat)
    all_things = aboard.things(option)
    things = [each for each in all_things if each.fit and not aboard.past(each)]
    unsaid = tuple(each for each in all_things if each.fit is None and not aboard.past(each))
    for called, most in option.at_most.items():
        things = _capped(things, called, amount(most, boat))
    counted = _sum(things)
    state = MET if counted >= required else NOT_SAID if counted + _sum(unsaid) >= required else SHORT
    shown = replace(option, item=rule.item, told_by=rule.told_by, note=rule.note)
    return Row(
        name,
        shown,
        required,
        tuple(things),
        tuple(each for each in all_things if aboard.past(each)),
        unsaid,
        state,
    )


def _capped(things, name, most):
    kept = []
    for each in things:
        if name.lower() in answers_to(each.what):
            if most <= 0:
                continue
            each, most = replace(each, amount=min(each.amount, most)), most - each.amount
        kept.append(each)
    return kept


def _sum(things: Iterable[Thing]) -> float:
    return sum(each.amount for each in things)


class _Aboard:
    """What is aboard, ready to be counted; the deadlines are sorted to the things they are about once."""

    def __init__(self, vessel, items, deadlines, until):
        self.vessel, self.items, self.until = vessel, items, until
        self.named = [(each, answers_to(each.what)) for each in vessel.gear]
        self.last_days = _last_days(deadlines)

    def past(self, thing):
        return thing.last_day is not None and thing.last_day < self.until

    def things(self, rule):
        found = {}
        for name in rule.counts:
            for thing in self._named(name, rule):
                found.setdefault((id(thing.block), thing.what), thing)
        return list(found.values())

    def _named(self, name, rule):
        listed = [] if rule.within.startswith("grab bag") else self._listed(name)
        packed = self._packed(name) if rule.within != "aboard" else []
        if listed and packed:
            listed = _without_those_in_the_bag(listed)
        things = [self._thing(what, count, block, block, rule) for what, count, block in listed]
        things += [self._thing(what, count, block, bag, rule) for what, count, block, bag in packed]
        if rule.within == "grab bag or raft":
            things += self._in_rafts(name)
        return [each for each in things if each.fit is not False and each.amount > 0]

    def _listed(self, name):
        vessel = self.vessel
        radio = vessel.radio
        sets, beacons = (radio.sets, radio.beacons) if radio else ((), ())
        if name in _SET_KINDS or name == "MF/HF radio":
            return [(each.what, 1, each) for each in sets if each.kind == name.removesuffix(" radio")]
        if COUNTED.get(name) == "radio":
            return [(each.what, 1, each) for each in beacons if each.kind == name]
        if name in _PUMPS:
            return [(each.what, 1, each) for each in vessel.pumps if each.power == _PUMPS[name]]
        simple = {
            "lifejackets": [
                (f"{each.size} lifejackets, {each.kind}", each.quantity, each) for each in vessel.lifejackets
            ],
            "places in liferafts": [(each.name, each.persons, each) for each in vessel.rafts],
            "grab bags": [("grab bag", 1, each) for each in vessel.grab_bags],
            "reboarding device": _part(vessel.recovery, "ladder"),
            "hoist for a person": _part(vessel.recovery, "hoist"),
        }
        if name in simple:
            return simple[name]
        if name == "drinking water":
            return [
                (each.what, each.volume, each)
                for each in vessel.gear
                if each.kind == "water and food" and "water" in str(each.what).lower()
            ]
        asked = name.lower()
        return [(each.what, each.quantity, each) for each, names in self.named if asked in names]

    def _packed(self, name):
        found, inside = [], mentioned(name)
        for bag in self.vessel.grab_bags:
            for item in bag.items:
                if inside.search(str(item.what)):
                    found.append(
                        (
                            item.what,
                            item.volume if name == "drinking water" else item.quantity or 1,
                            item,
                            bag,
                        )
                    )
        return found

    def _thing(self, what, count, block, at, rule):
        count = float(count) if isinstance(count, (int, float)) else 0.0
        fit = _fits(block, str(what), rule.needs)
        if "AIS man-overboard device" in rule.counts and re.search(
            r"\b(each|every|everybody)\b", f"{block.spot} {block.carried_by}"
        ):
            fit, count = None, float(persons_of(self.vessel) or 1)  # the description does not say how many
        twice = rule.needs.get("twice-from")
        if twice and fit and _rated(str(block.rating or ""), twice):
            count *= 2
        return Thing(
            str(what), count, block, at if hasattr(at, "where") else None, self.last_days.get(block), fit
        )

    def _in_rafts(self, name):
        found = []
        for raft in self.vessel.rafts:
            have = pack_contents(raft).get(name, 0.0)
            if have:
                found.append(Thing(name, have, raft, raft, self.last_days.get(raft), True, True))
        return found


def pack_contents(raft) -> dict[str, float]:
    """What the packed raft holds by its pack's name, in pieces, or litres of water: known for SOLAS packs; else water, food."""
    contents: dict[str, float] = {}
    category = _PACKS.get(raft.pack)
    if category and isinstance(raft.persons, int):
        boat = Boat(raft.persons, 0.0, None, "ocean", category, {})
        contents = {rule.counts[0]: amount(rule.quantity, boat) for rule in rule_sets()[RAFT_CONTENTS].rows}
    elif raft.pack == "over 24 h":
        contents["food"] = float(raft.persons) if isinstance(raft.persons, int) else 0.0
    if isinstance(raft.pack_water, float):
        contents["drinking water"] = float(raft.pack_water)
    return contents


def _part(recovery, name):
    given = getattr(recovery, name) if recovery else None
    return [(name, 1, recovery)] if given else []


def _without_those_in_the_bag(listed):
    """Listed things without those whose spot is the grab bag and which the bag lists too: counted once."""
    return [
        each
        for each in listed
        if "grab bag" not in f"{each[2].where} {getattr(each[2], 'spot', '') or ''}".lower()
    ]


def _fits(block, what, needs):
    """Whether a thing has what a rule asks: False if it has not, None if the description does not say."""
    answers = []
    for word, wanted in needs.items():
        if word in ("lights", "crotch-straps", "dsc"):
            said = getattr(block, word.replace("-", "_"), None)
            answers.append(said if isinstance(said, bool) else None)
        elif word == "with":
            words = [wanted] if isinstance(wanted, str) else wanted
            answers.append(
                True if all(re.search(rf"\b{each}\b", what, re.IGNORECASE) for each in words) else None
            )
        elif word == "rating":
            rating = getattr(block, "rating", None)
            answers.append(_rated(rating, wanted) if isinstance(rating, str) and rating else None)
        elif word in ("standard", "pack"):
            answers.append(getattr(block, word) in wanted)
        elif word in ("power-from", "flow-from"):
            said = getattr(block, "power_w" if word == "power-from" else "flow", None)
            answers.append(said >= _MEASURES[word].read(wanted) if isinstance(said, float) else None)
        elif word == "metres-from":
            said = re.search(r"([0-9.]+) ?(m|ft)\b", what)
            limit = _MEASURES[word].read(wanted)
            answers.append(
                fine(_MEASURES[word].read(f"{said[1]} {said[2]}")) >= fine(limit) if said else None
            )
    return False if False in answers else None if None in answers else True


def _rated(rating: str, wanted: str) -> bool | None:
    """Whether a marked rating reaches the one asked for; None in another system: 13A/113B and 5-B are never converted."""
    if ("-" in wanted) != _american(rating):
        return None
    have, want = _figures(rating), _figures(wanted)
    return all(have.get(letter, 0) >= figure for letter, figure in want.items())


def _american(rating):
    return "-" in rating or ":" in rating


def _figures(rating):
    return {letter: int(figure) for figure, letter in re.findall(r"(\d+)-?([AB])", rating.upper())}


def _last_days(deadlines: Iterable[Deadline]) -> dict[Block, date]:
    """The last good day of each thing that counts, by its block: of what is in a bag each by itself, of a raft all its parts."""
    days: dict[Block, date] = {}
    for each in deadlines:
        if each.firm and each.check not in _NO_END:
            thing = each.thing
            block = thing.block if isinstance(thing.block, GrabItem) else thing.kept
            days[block] = min(each.last_day, days.get(block, date.max))
    return days


__all__ = [
    "MET",
    "NOT_SAID",
    "RAFT_CONTENTS",
    "SHORT",
    "Row",
    "Thing",
    "by_rule_set",
    "compare",
    "named",
    "pack_contents",
    "persons_of",
]
