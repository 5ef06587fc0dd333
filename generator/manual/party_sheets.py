"""The party of each raft as it is printed: who goes into it, who does what, how that is known, and where all go if it is gone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.bill import alone
from generator.manual.parties import IN_THE_FILE, PROPOSED, going_into
from generator.manual.party_words import in_a_list, thing_of
from generator.manual.raft_gone import if_gone
from generator.shelves.procedure_files import BEACON, CUT, HOLD, LEAD

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from generator.manual.parties import RaftParty, Share
    from generator.manual.printing import Printer
    from generator.manual.raft_gone import Gone
    from generator.manual.reckoning import Reckoning
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Line:
    """A line of a sheet: what it is about, who, and how that is known, "" where nothing is to be said of it."""

    about: str
    who: str
    note: str = ""


@dataclass(frozen=True)
class PartySheet:
    """What is printed of one raft's party. `gone` is what follows if it is lost, of several rafts; `rule` by what it is proposed, "" where nothing is."""

    raft: Raft
    title: str
    lines: tuple[Line, ...]
    gone: tuple[Line, ...]
    rule: str

    @property
    def said(self) -> tuple[str, ...]:
        """All that it says."""
        told = (text for line in (*self.lines, *self.gone) for text in (line.about, line.who, line.note))
        return (*told, self.rule)


def party_sheets(reckoning: Reckoning, printer: Printer) -> tuple[PartySheet, ...]:
    """A sheet for each raft; none for whoever sails alone, who does all of it."""
    vessel = reckoning.vessel
    if alone(vessel):
        return ()
    return tuple(_sheet(party, vessel, printer) for party in reckoning.parties)


def _sheet(party: RaftParty, vessel: Vessel, printer: Printer) -> PartySheet:
    raft, several = party.raft, len(vessel.rafts) > 1
    name = printer.without_article(str(raft.name))
    lines = [*(_who_goes(party, vessel, printer) if several else ())]
    shares = [share for share in party.shares if several or share.part != LEAD]
    lines += [_line(share, party, vessel, printer) for share in shares]
    return PartySheet(
        raft,
        printer.say("party.title", raft=name),
        tuple(lines),
        tuple(_if_gone(if_gone(raft, vessel), vessel, printer))
        if several and going_into(raft, vessel)
        else (),
        printer.say("party.rule") if any(share.known == PROPOSED for share in shares) else "",
    )


def _who_goes(party: RaftParty, vessel: Vessel, printer: Printer) -> Iterator[Line]:
    """Who goes into one of several rafts, and in which order it is launched."""
    raft, rafts = party.raft, vessel.rafts
    nobody = printer.say("party.spare" if raft.says_none("carries") else "not-known")
    going = in_a_list(party.going, vessel.people, printer) or nobody
    yield Line(printer.say("raft.carries"), going)
    numbers = [each.first_to_launch for each in rafts if isinstance(each.first_to_launch, int)]
    if isinstance(raft.first_to_launch, int):
        place = 1 + sum(number < raft.first_to_launch for number in numbers)
        yield Line(printer.say("party.order"), printer.say("party.order-told", number=place, all=len(rafts)))
    else:
        yield Line(printer.say("party.order"), printer.say("party.order-by-the-lee"))


def _line(share: Share, party: RaftParty, vessel: Vessel, printer: Printer) -> Line:
    about = printer.say(f"raft.party-{share.part}")
    if not share.who:
        return Line(
            about, printer.say("party.nobody"), printer.say(f"party.why.{share.why.replace(' ', '-')}")
        )
    note = printer.say("party.proposed") if share.known == PROPOSED else ""
    who = in_a_list(share.who, vessel.people, printer)
    if share.part == BEACON and party.beacon is not None:
        who = printer.say("row.serves", serves=thing_of(party, BEACON, printer), said=who)
    return Line(about, who, note)


def _if_gone(gone: Gone, vessel: Vessel, printer: Printer) -> Iterator[Line]:
    for load in gone.loads:
        if load.comes:
            yield Line(
                printer.say("party.goes-into", raft=printer.without_article(str(load.raft.name))),
                in_a_list(load.comes, vessel.people, printer),
                printer.say("party.load", persons=load.persons, approved=load.approved)
                if load.approved is not None
                else "",
            )
    if gone.over:
        yield Line(printer.say("party.over"), in_a_list(gone.over, vessel.people, printer))


def parts_by_role(reckoning: Reckoning, printer: Printer) -> Mapping[str, tuple[str, ...]]:
    """For the bill: what each role does at which raft, beside the duties that the bill has; nothing for whoever sails alone."""
    vessel = reckoning.vessel
    several = len(vessel.rafts) > 1
    if alone(vessel):
        return {}
    found: dict[str, list[str]] = {}
    for party in reckoning.parties:
        name = printer.without_article(str(party.raft.name))
        for role in reckoning.roles:
            parts = [
                printer.say(f"party.do.{share.part}")
                for share in _in_the_bill(party.shares, several)
                if role in share.who
            ]
            if parts:
                said = printer.say("party.at", raft=f"{name[:1].upper()}{name[1:]}", parts=", ".join(parts))
                found.setdefault(role, []).append(said)
    return {role: tuple(said) for role, said in found.items()}


def _in_the_bill(shares: Iterable[Share], several: bool) -> Iterator[Share]:
    """The parts that the bill prints: of several rafts all, of the only one those that are no duty of the bill."""
    for share in shares:
        own = share.part in (HOLD, CUT) or (share.part == BEACON and share.known == IN_THE_FILE)
        if several or own:
            yield share
