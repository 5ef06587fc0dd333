"""Carriage: what the rule sets a boat is kept by ask for, against what is aboard, where, and until when it is good."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.manual.aboard import Outfit, Thing, persons_of
from generator.shelves.countables import countables
from generator.shelves.gear import answers_to
from generator.shelves.quantities import Boat
from generator.shelves.rulesets import Rule, RuleSet, named

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from generator.manual.reckoning import Reckoning
    from generator.reading.block import Block

MET, SHORT, NOT_SAID = "met", "short", "not said"


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
    def places(self) -> tuple[Block, ...]:
        """The blocks that say where it is, each place once."""
        seen: dict[tuple[str, ...], Block] = {}
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
    def drinking_water(self) -> bool:
        """Whether it asks for drinking water."""
        known = countables()
        return any(name in known and known[name].drinking_water is True for name in self.rule.counts)

    @property
    def key(self) -> str:
        """The key of the vessel file that holds what it counts."""
        if not self.rule.counts_listed:
            return "grab-bags"
        countable = countables().get(self.rule.counts[0])
        return countable.key if countable else "gear"


def by_rule_set(rows: Iterable[Row]) -> tuple[tuple[str, RuleSet, tuple[Row, ...]], ...]:
    """The rows of each rule set together, with the name by which the vessel's file calls the set."""
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(row.rule_set, []).append(row)
    return tuple((text, found, tuple(group)) for text, group in groups.items() if (found := named(text)[0]))


def compare(reckoning: Reckoning, until: date) -> tuple[Row, ...]:
    """The rows of all rule sets that the vessel names with a category they have; rows that ask nothing of her are left out.

    Nothing counts that runs out before `until`. Empty where persons or waters are not known.
    """
    one, persons = reckoning.vessel.vessel, persons_of(reckoning.vessel)
    if not one or persons is None or not isinstance(one.length, float) or not isinstance(one.waters, str):
        return ()
    freeboard = float(one.freeboard) if isinstance(one.freeboard, float) else None
    boat = Boat(persons, float(one.length), freeboard, one.waters, "", reckoning.facts)
    aboard, rows = Outfit(reckoning, until), []
    for text in one.rule_set:
        found, category = named(text)
        if found and category in (found.categories or ("",)):
            here = replace(boat, category=category)
            rows += [row for rule in found.rows if (row := _row(text, rule, here, aboard))]
    return tuple(rows)


def _row(name: str, rule: Rule, boat: Boat, aboard: Outfit) -> Row | None:
    if not rule.holds(boat) or rule.quantity.asked_of(boat) <= 0:
        return None
    options = (rule, *(other for other in rule.alternatives if other.holds(boat)))
    order = {MET: 0, NOT_SAID: 1, SHORT: 2}
    return min(
        (_tried(name, each, boat, aboard) for each in options), key=lambda row: order[row.state]
    )  # the first of equals: the rule's own words before its alternatives


def _tried(name: str, option: Rule, boat: Boat, aboard: Outfit) -> Row:
    required = option.quantity.asked_of(boat)
    all_things = aboard.things(option)
    things = [each for each in all_things if each.fit and not aboard.past(each)]
    unsaid = tuple(each for each in all_things if each.fit is None and not aboard.past(each))
    for thing, most in option.at_most.items():
        things = _capped(things, thing, most.asked_of(boat))
    counted = _sum(things)
    state = MET if counted >= required else NOT_SAID if counted + _sum(unsaid) >= required else SHORT
    past = tuple(each for each in all_things if aboard.past(each))
    return Row(name, option, required, tuple(things), past, unsaid, state)


def _capped(things: Sequence[Thing], name: str, most: float) -> list[Thing]:
    kept = []
    for each in things:
        if name.lower() not in answers_to(each.what):
            kept.append(each)
        elif most > 0:
            kept.append(replace(each, amount=min(each.amount, most)))
            most -= each.amount
    return kept


def _sum(things: Iterable[Thing]) -> float:
    return sum(each.amount for each in things)
