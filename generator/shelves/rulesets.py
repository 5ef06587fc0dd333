"""Rule sets: what must be aboard, as data of templates/carriage; each row is a block that says how much it asks of a boat."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Dated, Many, Named, One, Text, Texts, YesNo
from generator.reading.findings import Finding, Place, Weight
from generator.reading.measures import Measure
from generator.reading.names import STANDINGS, Figure, Name, Reference, references, standing
from generator.reading.nearest import nearest
from generator.reading.values import Keyed, NotKnown, Stamp, given
from generator.reading.values import Quantity as Measured
from generator.shelves.shelf import File, Shelf, Tallied, twice

COUNTABLE = "gear or countable"
"""What references call the things that rows count: names of the gear list, and what stands on the shelf of countables."""

WITHIN = ("aboard", "grab bag", "anywhere", "grab bag or raft")


@dataclass(frozen=True)
class Boat:
    """What quantities and conditions look at: persons, lengths in m, waters, category and facts by name."""

    persons: int
    length_m: float
    freeboard_m: float | None
    waters: str
    category: str
    facts: dict[str, bool]


def fine(length_m: float) -> int:
    """A length in whole thousandths of a millimetre: 16 ft are then 4.8768 m, whichever of the two was written."""
    return round(length_m * 1_000_000)


def _fine(length: Measured | NotKnown | None) -> int:
    return fine(given(length, Measured(0.0)))


class When(Block):
    """Conditions of a row or an amount; all of them must hold."""

    length_from = Measure("From which length on, itself included?", "length")
    length_above = Measure("Above which length?", "length")
    length_below = Measure("Below which length?", "length")
    length_through = Measure("Up to which length, itself included?", "length")
    freeboard_above = Measure("Above which freeboard?", "length")
    waters = references("In which waters?", "waters")
    category = Texts("In which categories of this rule set?", of=Name("In which category?"))
    facts = references("Which facts are all true of her?", "fact")
    facts_any = references("Of which facts is at least one true?", "fact")
    facts_none = references("Which facts are not true of her?", "fact")

    def holds(self, boat: Boat) -> bool:
        """Whether every condition holds for a boat; lengths are compared to a thousandth of a millimetre."""
        length, facts = fine(boat.length_m), boat.facts
        return (
            (self.length_from is None or length >= _fine(self.length_from))
            and (self.length_above is None or length > _fine(self.length_above))
            and (self.length_below is None or length < _fine(self.length_below))
            and (self.length_through is None or length <= _fine(self.length_through))
            and self._freeboard_holds(boat)
            and (not self.waters or boat.waters in self.waters)
            and (not self.category or boat.category in self.category)
            and all(facts[name] for name in self.facts)
            and (not self.facts_any or any(facts[name] for name in self.facts_any))
            and not any(facts[name] for name in self.facts_none)
        )

    def _freeboard_holds(self, boat: Boat) -> bool:
        """Where her freeboard is not known it may be above any."""
        if self.freeboard_above is None or boat.freeboard_m is None:
            return True
        return fine(boat.freeboard_m) > _fine(self.freeboard_above)


class Amount(Block):
    """How many, or how much: a number, so many for each person, or a part of the persons."""

    shorthand = "at-least"
    ways: ClassVar[tuple[str, ...]] = ("at-least", "each", "percent")
    at_least = Figure("How many at least?")
    each = Choice("For each of whom?", ("person",))
    times = Figure("How many for each of them?")
    plus = Figure("And how many more?")
    percent = Figure("For how many of a hundred?", high=100)
    of = Choice("Of whom?", ("persons",))
    when = One(When, "When is it asked for?")

    def faults(self) -> Iterator[Fault]:
        """An amount is said in one way, and whole; the least number may stand beside a percentage."""
        said = [key for key in self.ways if key.replace("-", "_") in self.__dict__]
        if "percent" in said and "at-least" in said:
            said.remove("at-least")
        if not said:
            yield Fault(
                "", "nothing says how much is asked for", f"write a number, or one of: {', '.join(self.ways)}"
            )
        elif len(said) > 1:
            yield Fault(
                said[1], f"'{said[0]}' says already how much is asked for", f"keep {said[0]} or {said[1]}"
            )
        for key in ("times", "plus"):
            if key in self.__dict__ and self.each is None:
                yield Fault(key, f"'{key}' stands without 'each'", "write each: person with it, or remove it")
        if (self.percent is None) != (self.of is None):
            lone = "of" if self.percent is None else "percent"
            yield Fault(
                lone, f"'{lone}' stands alone", "write both, percent: 10 and of: persons, or remove it"
            )

    def asked_of(self, boat: Boat) -> float:
        """How many (or how much) it asks of a boat; 0 where it asks for nothing."""
        return self._said(boat) if self.when is None or self.when.holds(boat) else 0

    def _said(self, boat: Boat) -> float:
        least = given(self.at_least, 0.0)
        if self.percent is not None:
            return max(math.ceil(boat.persons * given(self.percent, 0.0) / 100), int(least))
        if self.each is not None:
            return boat.persons * given(self.times, 1.0) + given(self.plus, 0.0)
        return least


class Length(Block):
    """A band of lengths with what is asked for in it."""

    below = Measure("Below which length?", "length")
    through = Measure("Up to which length, itself included?", "length")
    otherwise = YesNo("For every length that is left?")
    quantity = One(Amount, "How many there?", required=True)

    def faults(self) -> Iterator[Fault]:
        """A band has one end."""
        said = [key for key in ("below", "through", "otherwise") if key in self.__dict__]
        if len(said) != 1 or self.otherwise is False:
            yield Fault(
                said[-1] if said else "",
                "a band of lengths ends in one way",
                "write one of: below, through, otherwise: yes",
            )

    def holds(self, boat: Boat) -> bool:
        """Whether a boat lies in the band."""
        length = fine(boat.length_m)
        return (
            self.otherwise is True
            or (self.below is not None and length < _fine(self.below))
            or (self.through is not None and length <= _fine(self.through))
        )


class Quantity(Amount):
    """An amount, or one by length, waters or category, or several added up."""

    ways = (*Amount.ways, "by-length", "by-waters", "by-category", "sum")
    by_length = Many(Length, "How many by her length? The first band that she lies in counts.")
    by_waters = Named(Amount, "How many by the waters she sails?", names=Reference("Which waters?", "waters"))
    by_category = Named(Amount, "How many by the category of this rule set?")
    sum = Many(Amount, "Which amounts are added up?")

    def _said(self, boat: Boat) -> float:
        if self.sum:
            return sum(each.asked_of(boat) for each in self.sum)
        if self.by_length:
            band = next((each for each in self.by_length if each.holds(boat)), None)
            return band.quantity.asked_of(boat) if band and band.quantity else 0
        if self.by_waters:
            return _by(self.by_waters, boat.waters, boat)
        if self.by_category:
            return _by(self.by_category, boat.category, boat)
        return super()._said(boat)


def _by(amounts: Keyed[Amount], name: str, boat: Boat) -> float:
    return amounts[name].asked_of(boat) if name in amounts else 0


class Needs(Block):
    """What a thing must have to count."""

    lights = YesNo("Must it have a light?")
    crotch_straps = YesNo("Must it have crotch straps?")
    with_ = Texts("Which words must stand in its name?")
    rating = Text("Which rating must it reach?", example="13A/113B")
    twice_from = Text("From which rating on does one count as two?", example="20-B")
    dsc = YesNo("Must it make a digital distress call?")
    power_from = Measure("With how much power must it send?", "power")
    flow_from = Measure("How much must it pump?", "flow")
    standard = references("Of which of these standards must it be?", "standard of rafts")
    pack = references("Which of these packs must it have?", "pack of rafts")
    metres_from = Measure("How long must it be, by its name?", "length")

    def said(self) -> Iterator[tuple[str, str]]:
        """What is asked for, by key, as it is written, in the order of the keys above."""
        for field in type(self).fields.values():
            value = self.__dict__.get(field.name)
            if value is not None:
                yield field.key, " and ".join(value) if isinstance(value, tuple) else str(value)

    def faults(self) -> Iterator[Fault]:
        """What must be there is asked for; what need not is left out."""
        for key, said in (("lights", self.lights), ("crotch-straps", self.crotch_straps), ("dsc", self.dsc)):
            if said is False:
                yield Fault(key, f"'{key}: no' asks for nothing", "write yes, or remove the key")


class Option(Block):
    """What does: so much of these things, of this make, in that place."""

    counts = references("What is counted? Several names are added up.", COUNTABLE, required=True)
    quantity = One(Quantity, "How much of it?", required=True)
    when = One(When, "On which boats?")
    needs = One(Needs, "What must a thing have to count?")
    within = Choice("Where does it count?", WITHIN)
    at_most = Named(Quantity, "How much of one name counts at most?", names=Reference("Of what?", COUNTABLE))
    source = Text("In which rule does it stand?")
    edition = Text("In which edition of that rule, if it is another than the set's?")
    standing = standing(required=False)

    def faults(self) -> Iterator[Fault]:
        """What is limited is counted."""
        for name in self.at_most:
            if name not in self.counts:
                yield Fault(
                    "at-most",
                    f"'{name}' is limited and not counted",
                    f"write one of: {', '.join(self.counts)}",
                )


class RuleRow(Option):
    """A row of a rule set."""

    called = "item"
    item = Text("What is asked for?", required=True)
    unit = Choice("In which unit is it counted, if not in pieces?", ("l",))
    or_ = Many(Option, "What does instead of it?")
    told_by = references("Which checks speak of the same lack?", "check")
    source = Text("In which rule does it stand?", required=True)
    standing = standing()
    note = Text("What is to be said of it?")


class RuleFile(Tallied):
    """A rule set as it stands on the shelf."""

    name = Name("What is it called?", required=True)
    edition = Text("Which edition is it, or who gives it how?", required=True)
    checked_on = Dated("On which day was it last compared with its source?", required=True)
    length_means = Text("Which length do its rows mean?", required=True)
    categories = Texts("Into which categories does it divide boats?", of=Name("Which category?"))
    notes = Texts("What is to be said of it as a whole?")
    rows = Many(RuleRow, "What must be aboard?", required=True)

    def faults(self) -> Iterator[Fault]:
        """The day of comparison is a day."""
        if isinstance(self.checked_on, Stamp) and not self.checked_on.exact:
            yield Fault("checked-on", f"{self.checked_on} is no day", "write year, month and day")


@dataclass(frozen=True)
class Rule:
    """One row: `item` is what it asks for, `counts` the names whose amounts are added up; `alternatives` each do instead.

    `within` says where things count, `at_most` how many of one name do, `told_by` names checks that speak of the same lack.
    """

    item: str
    counts: tuple[str, ...]
    quantity: Quantity
    when: When | None
    needs: Needs | None
    within: str
    unit: str
    at_most: Keyed[Quantity]
    alternatives: tuple[Rule, ...]
    told_by: tuple[str, ...]
    source: str
    edition: str
    standing: str
    note: str

    def holds(self, boat: Boat) -> bool:
        """Whether the row speaks of a boat."""
        return self.when is None or self.when.holds(boat)


@dataclass(frozen=True)
class RuleSet:
    """A list of what must be aboard. `categories` are those it divides boats into, if any; `length_means` which length counts."""

    name: str
    edition: str
    checked_on: date
    length_means: str
    categories: tuple[str, ...]
    notes: tuple[str, ...]
    rows: tuple[Rule, ...]

    @property
    def standings(self) -> tuple[str, ...]:
        """The standings its rows have, the best first."""
        return tuple(each for each in STANDINGS if any(row.standing == each for row in self.rows))


def _hold_together(files: Sequence[File[RuleFile]]) -> Iterator[Finding]:
    """Each set has a name of its own, and names no category that it has not."""
    yield from twice((given(file.block.name, ""), file.block, "name") for file in files)
    for file in files:
        for each in file.block.inner():
            for name, place in _categories_named(each):
                if name not in file.block.categories:
                    yield Finding(
                        "file.bad-value",
                        Weight.DEFECT,
                        f"this rule set has no category '{name}'",
                        place,
                        nearest(name, file.block.categories)
                        if file.block.categories
                        else "list it under 'categories'",
                    )


def _categories_named(block: Block) -> Iterator[tuple[str, Place]]:
    if isinstance(block, When):
        for number, name in enumerate(block.category):
            yield name, block.place_in("category", number)
    elif isinstance(block, Quantity):
        for name in block.by_category:
            yield name, block.by_category.places[name]


def _gives(files: Sequence[File[RuleFile]]) -> dict[str, list[str]]:
    named = [(given(file.block.name, ""), file.block.categories) for file in files]
    return {
        "rule set": [name for name, _ in named],
        "rule set with its category": [
            each for name, categories in named for each in written(name, categories)
        ],
    }


def written(name: str, categories: Sequence[str]) -> tuple[str, ...]:
    """How a vessel file may name a rule set: with each of its categories, or alone where it has none."""
    return tuple(f"{name} category {each}" for each in categories) or (name,)


RULE_SETS = Shelf(
    "rule sets",
    "carriage/*.yaml",
    RuleFile,
    "What a rule asks to be aboard: quantities by length, waters, category and persons, each row with its source.",
    gives=_gives,
    holds_together=_hold_together,
)


def rule_sets() -> dict[str, RuleSet]:
    """All rule sets by name; raises ShelfFault."""
    return {each.name: each for each in map(_rule_set, RULE_SETS.files())}


def named(text: str) -> tuple[RuleSet | None, str]:
    """The rule set that a vessel file names, and the category written after it: "... category 2"."""
    name, _, category = text.partition(" category ")
    wanted = " ".join(name.lower().split())
    found = next((one for one in rule_sets().values() if one.name.lower() == wanted), None)
    return found, category.strip()


@functools.lru_cache(maxsize=256)
def _rule_set(file: File[RuleFile]) -> RuleSet:
    block = file.block
    return RuleSet(
        given(block.name, ""),
        given(block.edition, ""),
        block.checked_on.last_day if isinstance(block.checked_on, Stamp) else date.min,
        given(block.length_means, ""),
        tuple(block.categories),
        tuple(block.notes),
        tuple(_rule(row, row, row.quantity) for row in block.rows if row.quantity),
    )


def _rule(row: RuleRow, option: Option, quantity: Quantity) -> Rule:
    """A row, or what does instead of it; that is told as the row itself, and by the row's rule where it names none."""
    others = row.or_ if option is row else ()
    return Rule(
        given(row.item, ""),
        tuple(option.counts),
        quantity,
        option.when,
        option.needs,
        given(option.within, WITHIN[0]),
        given(row.unit, "") if option is row else "",
        option.at_most,
        tuple(_rule(row, each, each.quantity) for each in others if each.quantity),
        tuple(row.told_by),
        given(option.source, given(row.source, "")),
        given(option.edition, given(row.edition, "")),
        given(option.standing, given(row.standing, "")),
        given(row.note, ""),
    )
