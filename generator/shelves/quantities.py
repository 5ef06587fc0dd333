"""How much a rule set asks of a boat: amounts for each person, by length, waters and category, and their conditions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Named, One, Texts, YesNo
from generator.reading.measures import Measure
from generator.reading.names import Figure, Name, Reference, references
from generator.reading.values import Keyed, NotKnown, given
from generator.reading.values import Quantity as Measured

if TYPE_CHECKING:
    from collections.abc import Iterator


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
    waters = references("In which waters?", "word of vessel.waters")
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
    by_waters = Named(
        Amount, "How many by the waters she sails?", names=Reference("Which waters?", "word of vessel.waters")
    )
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
