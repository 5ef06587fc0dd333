"""Composing: one vessel's manual as a tree, before anything is written."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from generator.manual.bill import Bill, compose_bill, launchers
from generator.manual.calling import rescue_numbers, showing_position
from generator.manual.carriage import Row, compare
from generator.manual.crew import in_command
from generator.manual.deadlines import in_time
from generator.manual.drawing.plan import Plan, draw
from generator.manual.estimates import RaftEstimates, estimates_of
from generator.manual.glossary import Glossary
from generator.manual.good_until import GoodUntil, ends_of_deferrals, good_until
from generator.manual.party_sheets import PartySheet, parts_by_role, party_sheets
from generator.manual.printing import Printer
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.manual.steps import Procedure
from generator.manual.unsaid import not_said, silence
from generator.manual.wearing import wearers
from generator.reading.values import known

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from generator.manual.deadlines import Deadline
    from generator.manual.drawing.spaces import Space
    from generator.manual.inventory import Item
    from generator.reading.block import Block
    from generator.reading.findings import Finding
    from generator.shelves.languages import Catalogue
    from generator.vessel.gear import Lifejackets
    from generator.vessel.particulars import Contact, Signed
    from generator.vessel.radio import RadioSet
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Manual:
    """Everything the outputs print. `vessel` holds all; outputs take `seen_by(reader)`.

    `deadlines` are her own, `dates` these with the ends of what is deferred. `checked` is False while the description is not yet checked aboard and approved. `carriage` compares what the
    rule sets ask for with what is aboard. `deferred` are the findings knowingly sailed with, by their entry; `sound` says whether no defect remains. `facts` are hers by name. `parties` say who does what at each raft.
    """

    vessel: Vessel
    as_of: date
    until: date
    printer: Printer
    items: tuple[Item, ...]
    procedures: tuple[Procedure, ...]
    bill: Bill
    plan: Plan
    deadlines: tuple[Deadline, ...]
    checked: bool
    specimen: bool
    estimates: tuple[RaftEstimates, ...] = ()
    deferred: Mapping[Block, Sequence[Finding]] = field(default_factory=dict)
    proof: bool = False
    sound: bool = False
    carriage: tuple[Row, ...] = ()
    spaces: dict[str, Space] | None = field(default=None, repr=False, compare=False)
    facts: Mapping[str, bool] = field(default_factory=dict, repr=False, compare=False)
    parties: tuple[PartySheet, ...] = ()

    @cached_property
    def narrow_plan(self) -> Plan:
        """The plan with its levels one below the other, for a narrow screen."""
        return draw(self.vessel, self.items, self.printer, prefix="narrow", stacked=True, spaces=self.spaces)

    @property
    def catalogue(self) -> Catalogue:
        """The words of its language."""
        return self.printer.catalogue

    @property
    def commander(self) -> str:
        """What whoever has the command is called behind the article of a sentence."""
        return self.printer.without_article(in_command(self.vessel.people, self.printer))

    @property
    def position_set(self) -> RadioSet | None:
        """The radio that the position is read off; None where the file says of none that it shows it."""
        return showing_position(self.vessel)

    @property
    def rescue_centres(self) -> tuple[Contact, ...]:
        """The rescue centres with a telephone number that everybody may read."""
        return rescue_numbers(self.vessel)

    @property
    def slug(self) -> str:
        """The name of the vessel's folder."""
        return self.vessel.slug

    @property
    def boat(self) -> str:
        """Her name, without which no manual is composed."""
        return str(self.vessel.vessel.name) if self.vessel.vessel else self.slug

    @property
    def not_said(self) -> tuple[str, ...]:
        """What the description must speak of and does not, and so was not looked at: a sentence for each."""
        return tuple(silence(each, self.printer.say) for each in not_said(self.vessel))

    def party(self, raft: Raft) -> PartySheet | None:
        """The sheet of one raft's party, as any reader sees the raft; None where whoever is alone does all of it."""
        return next((each for each in self.parties if each.raft.original is raft.original), None)

    @cached_property
    def glossary(self) -> Glossary:
        """What her readers are told of the words of the trade."""
        return Glossary(self.facts, self.catalogue)

    @cached_property
    def dates(self) -> tuple[Deadline, ...]:
        """Her deadlines and the ends of what is deferred, the earliest first."""
        return in_time(
            (*self.deadlines, *ends_of_deferrals(self.vessel, self.deadlines, self.deferred, self.as_of))
        )

    @cached_property
    def good(self) -> GoodUntil:
        """Until when it is good, what ends it, and what is past already."""
        return good_until(self.dates, self.deferred, self.as_of)

    @property
    def good_until(self) -> date | None:
        """The last day on which it is good; None where no day is ahead."""
        return self.good.last_day

    def deferred_until(self, deadline: Deadline) -> date | None:
        """The end of the deferral of a deadline that is past; None where it is not deferred, or not past."""
        return next((each.until for each in self.good.past if each.deadline is deadline), None)

    def seen_by(self, reader: str) -> Vessel:
        """The vessel as `reader` may see her."""
        return self.vessel.seen_by(reader)

    def items_for(self, reader: str) -> tuple[Item, ...]:
        """The gear list with its blocks as `reader` may see them, and without what that reader may not see at all."""
        seen = {each.original: each for each in self.seen_by(reader).inner()}
        return tuple(
            replace(item, block=seen[item.block.original])
            for item in self.items
            if item.block.original in seen
        )

    def deferred_by(self, entry: Block) -> Sequence[Finding]:
        """The findings that an entry of `deferred-defects` covers, or one on a thing itself."""
        return self.deferred.get(entry.original, ())

    @property
    def still_carried(self) -> tuple[Block, ...]:
        """The entries that stand on things themselves and cover what was found of them."""
        listed = {each.original for each in self.vessel.deferred_defects}
        return tuple(each for each in self.deferred if each.original not in listed)

    def wearers(self, jackets: Lifejackets) -> tuple[str, ...]:
        """The roles that wear lifejackets of an entry all the time."""
        return wearers(jackets, self.vessel.people)

    def expired(self, item: Item) -> bool:
        """Whether something of an item of the gear list has run out on the as-of day."""
        return any(each.firm and each.last_day < self.as_of for each in self.deadlines_for(item))

    def overdue(self, raft: Raft | None) -> bool:
        """Whether a raft, its release or its service has run out on the as-of day; never where there is none."""
        dated = self._dated.get(raft.original, []) if raft is not None else []
        return any(each.firm and each.last_day < self.as_of for each in dated)

    def deadlines_for(self, item: Item) -> list[Deadline]:
        """Until when an item of the gear list is good, line by line; what is merely to be done again is left out."""
        return self._dated.get(item.block.original, [])

    @cached_property
    def _dated(self) -> dict[Block, list[Deadline]]:
        """The deadlines that end something, by the block under which the gear list has the thing."""
        found: dict[Block, list[Deadline]] = {}
        for each in self.deadlines:
            if not each.routine:
                found.setdefault(each.thing.kept, []).append(each)
        return found


def compose(
    vessel: Vessel,
    as_of: date,
    until: date,
    catalogue: Catalogue,
    proof: bool = False,
    reckoning: Reckoning | None = None,
) -> tuple[Manual, list[Finding]]:
    """The manual of a vessel, and the gaps found while composing it; `reckoning` is what is worked out of her already."""
    reckoning, printer = Reckoning(vessel) if reckoning is None else reckoning, Printer(catalogue)
    procedures, findings = compose_procedures(reckoning, catalogue)
    manual = Manual(
        vessel,
        as_of,
        until,
        printer,
        reckoning.items,
        procedures,
        replace(compose_bill(reckoning, procedures, catalogue), at_rafts=parts_by_role(reckoning, printer)),
        draw(vessel, reckoning.items, printer, spaces=reckoning.spaces),
        reckoning.deadlines,
        checked_aboard(vessel, as_of),
        vessel.specimen is not None,
        tuple(estimates_of(vessel, raft, lifters(vessel, raft)) for raft in vessel.rafts),
        proof=proof,
        carriage=compare(reckoning, until),
        spaces=reckoning.spaces,
        facts=reckoning.facts,
        parties=party_sheets(reckoning, printer),
    )
    return manual, findings


def lifters(vessel: Vessel, raft: Raft) -> tuple[float | None, ...]:
    """What each of those who launch a raft can lift, in kg; None where the file does not say."""
    able = {str(person.role): known(person.lifts) for person in vessel.people}
    return tuple(able.get(role) for role in launchers(vessel, raft))


def checked_aboard(vessel: Vessel, as_of: date) -> bool:
    """Whether the description is checked aboard and approved, both known and not after the as-of day."""
    return signed(vessel.checked_aboard, as_of) and signed(vessel.approved, as_of)


def signed(entry: Signed | None, as_of: date) -> bool:
    """Whether somebody has signed, on a known day that is not after the as-of day."""
    day = known(entry.date) if entry is not None and entry.by else None
    return day is not None and day.first_day <= as_of
