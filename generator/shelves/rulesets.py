"""Rule sets: what must be aboard, as data of templates/carriage; each row is a block that says how much it asks of a boat."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import (
    Choice,
    Dated,
    Many,
    Misread,
    Named,
    One,
    Schema,
    Single,
    Text,
    Texts,
    YesNo,
)
from generator.reading.findings import Finding, Place, Weight
from generator.reading.measures import Measure
from generator.reading.names import STANDINGS, Name, OtherName, Reference, references, standing
from generator.reading.nearest import nearest, shortened
from generator.reading.values import Keyed, Stamp, given
from generator.shelves.countables import COUNTABLE
from generator.shelves.quantities import Boat, Quantity, When
from generator.shelves.rows import alike, contradiction
from generator.shelves.rule_rows import disagreements, limits_nothing, said_by
from generator.shelves.shelf import File, Shelf, Tallied, twice

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

WITHIN = ("aboard", "grab bag", "anywhere", "grab bag or raft")
_CATEGORY = " category "  # between a rule set's name and its category, in a vessel file


class Rating(Single[str]):
    """What a portable extinguisher is rated: 13A/113B, or 5-B in the other system."""

    kind = "rating"
    usual = "13A/113B"

    def read(self, text: str) -> str:
        """The rating as typed."""
        if not re.fullmatch(_RATING, text):
            raise Misread(f"'{shortened(text)}' is no rating", f"write it like {self.usual} or 5-B")
        return text

    def schema(self) -> Schema:
        """Text of either system."""
        return {"type": "string", "pattern": f"^({_RATING})$"}


_RATING = r"[0-9]+A/[0-9]+B|[0-9]+-[AB]"


class Needs(Block):
    """What a thing must have to count."""

    lights = YesNo("Must it have a light?")
    crotch_straps = YesNo("Must it have crotch straps?")
    with_ = Texts("Which words must stand in its name?", of=OtherName("Which word?"))
    rating = Rating("Which rating must it reach?")
    twice_from = Rating("From which rating on does one count as two?", example="20-B")
    dsc = YesNo("Must it make a digital distress call?")
    power_from = Measure("With how much power must it send?", "power")
    flow_from = Measure("How much must it pump?", "flow")
    standard = references("Of which of these standards must it be?", "word of raft.standard")
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
    note = Name("By which key of the languages' words is something said of it?")


class RuleFile(Tallied):
    """A rule set as it stands on the shelf."""

    name = Name("What is it called?", required=True)
    edition = Text("Which edition is it, or who gives it how?", required=True)
    checked_on = Dated("On which day was it last compared with its source?", required=True)
    length_means = Name(
        "By which key of the languages' words is the length named that its rows mean?", required=True
    )
    categories = Texts("Into which categories does it divide boats?", of=Name("Which category?"))
    notes = Texts(
        "By which keys of the languages' words is something said of it as a whole?", of=Name("Which key?")
    )
    rows = Many(RuleRow, "What must be aboard?", required=True)

    def faults(self) -> Iterator[Fault]:
        """The day of comparison is a day."""
        if isinstance(self.checked_on, Stamp) and not self.checked_on.exact:
            yield Fault("checked-on", f"{self.checked_on} is no day", "write year, month and day")


@dataclass(frozen=True)
class Rule:
    """One row: `item` is what it asks for, `counts` the names whose amounts are added up; `alternatives` each do instead.

    `within` says where things count, `at_most` how many of one name do, `told_by` names checks that speak of the same lack.
    `item` is printed as text/<language>/rule-sets.yaml has it; `note` is the key of a sentence there.
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

    @property
    def counts_listed(self) -> bool:
        """Whether what the vessel file lists outside the grab bags counts."""
        return self.within in ("aboard", "anywhere")

    @property
    def counts_bagged(self) -> bool:
        """Whether what is in the grab bags counts."""
        return self.within != "aboard"

    @property
    def counts_in_rafts(self) -> bool:
        """Whether what is packed in the rafts counts."""
        return self.within == "grab bag or raft"


@dataclass(frozen=True)
class RuleSet:
    """A list of what must be aboard. `categories` are those it divides boats into, if any.

    `length_means`, which length counts, and `notes` are keys of text/<language>/rule-sets.yaml.
    """

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
        yield from _each_category_used(file.block)
        yield from _asked_once(file.block)
        yield from disagreements(file.block)
        for option in file.block.inner():
            if isinstance(option, Option):
                yield from _limited(option)


def _each_category_used(block: RuleFile) -> Iterator[Finding]:
    """Boats of two categories are asked for different things, so some row names each: all but one at least."""
    named = {name for each in block.inner() for name, _ in _categories_named(each)}
    for number, name in enumerate(block.categories):
        if name not in named:
            yield contradiction(
                block.place_in("categories", number),
                f"no row says anything of category '{name}'",
                "write what is asked of it, or take it out of 'categories'",
            )
    yield from alike(
        ((name, block.place_in("categories", number)) for number, name in enumerate(block.categories)),
        "this category stands here twice",
        "keep one of the two",
    )


def _asked_once(block: RuleFile) -> Iterator[Finding]:
    """No two rows ask for the same things, of the same make, in the same place, on the same boats."""
    yield from alike(
        (
            (
                (
                    tuple(sorted(row.counts)),
                    tuple(row.needs.said()) if row.needs else (),
                    given(row.within, WITHIN[0]),
                    said_by(row.when),
                ),
                row.place("counts"),
            )
            for row in block.rows
        ),
        "another row asks for the same on the same boats",
        "keep the one that is true, or say under 'when' on which boats each holds",
    )


def _limited(option: Option) -> Iterator[Finding]:
    """Less of one name counts than is asked for, else nothing is limited; what is counted is named once."""
    for name, limit in option.at_most.items():
        if option.quantity is not None and limits_nothing(limit, option.quantity):
            yield contradiction(
                option.at_most.places[name],
                f"'{name}' is not limited: as much of it counts as is asked for at all",
                "write less than the quantity, or remove it",
                option.place("quantity"),
            )
    yield from alike(
        ((name, option.place_in("counts", number)) for number, name in enumerate(option.counts)),
        "this is counted twice",
        "name it once",
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
    return tuple(f"{name}{_CATEGORY}{each}" for each in categories) or (name,)


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


def name_and_category(text: str) -> tuple[str, str]:
    """How a vessel file calls a rule set, and the category that it writes after it, "" where it writes none."""
    name, _, category = text.partition(_CATEGORY)
    return name, category.strip()


def named(text: str) -> tuple[RuleSet | None, str]:
    """The rule set that a vessel file names, and the category written after it: "... category 2"."""
    name, category = name_and_category(text)
    wanted = " ".join(name.lower().split())
    found = next((one for one in rule_sets().values() if one.name.lower() == wanted), None)
    return found, category


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
