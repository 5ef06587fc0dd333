"""The steps for this vessel: those of the shelf that hold for her, in an order that respects `after`, in her own words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.bill import alone
from generator.manual.emergencies import in_order_of_need, joined
from generator.manual.facts import Aboard, gear_called
from generator.manual.left_to_act import able, left
from generator.manual.measuring import MOST_WORDS, Long, Measuring, long_pieces, place_too_long, too_long
from generator.manual.notes import html_of
from generator.manual.parties import IN_THE_FILE
from generator.manual.printed import Printed, Words
from generator.manual.printing import Printer
from generator.manual.raft_facts import raft_facts_of
from generator.manual.said import Missing
from generator.manual.steps import End, Leave, Procedure, Step, holds
from generator.manual.words import BEACONS, carrier_of, raft_words_of
from generator.reading.findings import Finding, Weight
from generator.shelves.languages import Catalogue, fill
from generator.shelves.procedure_files import BAG, BEACON, TAKEN_BY
from generator.shelves.procedures import ShelfProcedure, ShelfStep, confirmed, shelf
from generator.shelves.stowages import holds as rows_of_holds

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from generator.manual.parties import RaftParty
    from generator.manual.reckoning import Reckoning
    from generator.shelves.words import ProcedureWords
    from generator.vessel.people import Assignment
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


def taken_off(held_by: Sequence[str]) -> list[str]:
    """The holds in the order in which they come off: as the boat's file has it, one that another frees behind that."""
    order, rows = list(held_by), rows_of_holds()
    for name in held_by:
        for freed in rows[name].frees if name in rows else ():
            if freed in order and order.index(freed) < order.index(name):
                order.remove(freed)
                order.insert(order.index(name) + 1, freed)
    return order


def in_sequence(steps: Iterable[ShelfStep], held_by: Sequence[str] = ()) -> list[ShelfStep]:
    """The steps by phase, the boat's order of holds and place on the shelf, each moved behind all it comes `after`."""
    rank = {hold: number for number, hold in enumerate(taken_off(held_by))}
    waiting = sorted(steps, key=lambda step: (step.phase, rank.get(step.hold, -1), step.position))
    names = {step.id for step in waiting}
    done: list[ShelfStep] = []
    seen: set[str] = set()
    while waiting:
        ready = next(
            (
                step
                for step in waiting
                if not step.after or all(name in seen or name not in names for name in step.after)
            ),
            None,
        )
        if ready is None:  # found when the shelf is read
            raise ValueError("steps wait for each other: " + ", ".join(step.id for step in waiting))
        waiting.remove(ready)
        done.append(ready)
        seen.add(ready.id)
    return done


def compose_procedures(
    reckoning: Reckoning, catalogue: Catalogue
) -> tuple[tuple[Procedure, ...], list[Finding]]:
    """Every procedure that holds for the vessel, and the gaps found (one finding for each missing key)."""
    facts, gaps, printer = reckoning.facts, _Gaps(catalogue), Printer(catalogue)
    vessel, words = reckoning.vessel, Words(reckoning.words, printer)
    alone: list[tuple[Raft | None, Mapping[str, bool], Words]] = [(None, facts, words)]
    of_rafts: list[tuple[Raft | None, Mapping[str, bool], Words]] = [
        (raft, facts | raft_facts_of(raft, vessel), Words(raft_words_of(raft, vessel), printer, words))
        for raft in vessel.rafts
    ]
    composed = []
    hands = able(reckoning.vessel)
    for one in shelf():
        for raft, facts_of_it, own in of_rafts if one.per == "raft" else alone:
            known = {**facts_of_it, **left(hands, one.form.counts_out)}
            if not holds(one.when, one.when_any, known):
                continue
            chosen = [step for step in one.steps if holds(step.when, step.when_any, known)]
            steps = in_sequence(chosen, raft.held_by if raft is not None else ())
            composed.append(_compose(one, steps, reckoning, raft, known=known, words=own, gaps=gaps))
    first = Aboard(reckoning.vessel, reckoning.items).first_raft
    ordered = in_order_of_need(composed, facts)
    return joined(ordered, str(first.name) if first is not None else ""), gaps.findings


def _compose(
    one: ShelfProcedure,
    chosen: Sequence[ShelfStep],
    reckoning: Reckoning,
    raft: Raft | None,
    *,
    known: Mapping[str, bool],
    words: Mapping[str, Printed | Missing],
    gaps: _Gaps,
) -> Procedure:
    vessel, catalogue = reckoning.vessel, gaps.catalogue
    page = catalogue.procedures[one.id]
    other_intro = next((name for when, name in one.other_intro if holds(when, (), known)), "")
    intro = page.intros[other_intro] if other_intro else page.intro
    apart = raft if len(vessel.rafts) > 1 else None
    party = next((each for each in reckoning.parties if each.raft is raft and not alone(vessel)), None)
    name = f"{one.id}-{slug(str(apart.name))}" if apart is not None else one.id
    gaps.page = f"{one.id.replace('-', ' ')} {'card' if one.cards else 'page'}"
    assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.bill) or {}
    lost = bool(one.form.counts_out) and known["two persons"]  # nobody knows which of the two is left
    steps = []
    for number, step in enumerate(chosen, 1):
        other = next((each for each in step.other_words if holds(each.when, (), known)), None)
        texts = catalogue.procedures[step.words_in].steps[other.words if other and other.words else step.id]
        said = {
            key: gaps.fill(texts.__dict__.get(key) or "", words, vessel)
            if other is None or key not in other.leaves_out
            else ""
            for key in ("do", "unless", "caution", "why")
        }
        gaps.measure(said["do"], str(texts.do), words, step.id)
        assignment = assigned.get(step.duty)
        gear = tuple(item for wanted in step.gear for item in gear_called(reckoning.items, wanted))
        place = words.get(step.place, "") if step.place else ""
        if place and not isinstance(place, Missing):
            gaps.measure_place(str(place), step.place, words, step.id)
        steps.append(
            Step(
                step.id,
                number,
                said["do"],
                said["unless"],
                said["caution"],
                said["why"],
                _carrier(step, vessel)
                or _brings_beacon(step, reckoning)
                or _of_party(step, one.bill, party, known)
                or (() if lost else _who(assignment, apart if one.own_people else None)),
                gear,
                "" if isinstance(place, Missing) else str(place),
                other.source if other and other.source else step.source,
                standing := other.standing if other and other.standing else step.standing,
                confirmed(step.confirm, standing),
            )
        )
    notes = tuple(html_of(str(note.text)) for note in vessel.notes if note.beside in (one.id, name))
    return Procedure(
        name,
        one.id,
        gaps.fill(str(page.title), words, vessel),
        gaps.fill(intro or "", words, vessel),
        one.ground,
        one.sign,
        one.emergency,
        one.bill,
        one.cards,
        tuple(steps),
        raft,
        notes,
        one.aside,
        one.call_script,
        one.form.urgency,
        sum(step.phase <= one.form.first_minute for step in chosen),
        tuple(
            Leave(
                gaps.fill(str(page.leaves[each.words]), words, vessel),
                each.to,
                each.source,
                each.standing,
                other_raft=each.other_raft is True,
            )
            for each in one.form.leaves
            if holds(each.when, (), known)
        ),
        _end(one, page, known, lambda text: gaps.fill(text, words, vessel)),
        when_over=one.when_over,
    )


def _end(
    one: ShelfProcedure, page: ProcedureWords, known: Mapping[str, bool], said: Callable[[str], str]
) -> End | None:
    """When it is over, in the words that are true for her."""
    end = next((each for each in one.form.ends if holds(each.when, (), known)), None)
    if end is None:
        return None
    words = page.ends[end.words] if end.words else page.end
    return End(said(str(words)), end.source, end.standing)


def _carrier(step: ShelfStep, vessel: Vessel) -> tuple[str, ...]:
    """Who does a step with what is carried on the body: whoever carries it, whatever the bill says; else nobody."""
    role = carrier_of(step.place, vessel)
    return (role,) if role else ()


def _of_party(
    step: ShelfStep, bill: str, party: RaftParty | None, known: Mapping[str, bool]
) -> tuple[str, ...]:
    """Who of the raft's own party does a step, as the file says or as it is dealt out; nobody where it is no part of it.

    Of several rafts the bag of one goes into it with its beacon, and with whoever brings that.
    """
    if party is None:
        return ()
    duties = (line for one in shelf() if one.id == bill for line in one.duties if line.id == step.duty)
    takes = next((line.takes for line in duties), "")
    part = step.part or TAKEN_BY.get(takes, "")
    both = (BAG, BEACON) if part == BAG and known.get("beacon for it") else (part,) if part else ()
    return tuple(dict.fromkeys(who for each in both for who in party.share(each).who))


def _brings_beacon(step: ShelfStep, reckoning: Reckoning) -> tuple[str, ...]:
    """Who switches on a beacon and takes it along, where the file says who brings it to a raft."""
    kind = next((kind for kind, slot in BEACONS.items() if step.place == f"{slot}-place"), "")
    beacons = reckoning.vessel.radio.beacons if kind and reckoning.vessel.radio is not None else ()
    first = next((each for each in beacons if each.kind == kind), None)
    named = (
        party.share(BEACON) for party in reckoning.parties if first is not None and party.beacon is first
    )
    return next((share.who for share in named if share.known == IN_THE_FILE), ())


def _who(assignment: Assignment | None, raft: Raft | None) -> tuple[str, ...]:
    """Who has the duty; of several rafts, those of them whom this one carries; into a spare one anybody may come."""
    who = tuple(assignment.who) if assignment else ()
    if raft is not None and raft.says_none("carries"):
        return who
    there = {str(one): one for one in (raft.carries or () if raft is not None else ())}
    return who if raft is None else tuple(there[one] for one in who if one in there)


def slug(text: str) -> str:
    """A name for file names and anchors: small letters, digits and hyphens."""
    kept = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in text.lower())
    return "-".join(part for part in kept.split("-") if part) or "x"


class _Gaps:
    """Fills words in and collects the keys that are missing, or make a step too long, each once."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.findings: list[Finding] = []
        self._seen: set[str] = set()
        self._long: dict[str, tuple[int, int]] = {}
        self._blank = catalogue.say("not-known")
        self.page = ""  # what is composed, in words

    def fill(self, text: str, words: Mapping[str, Printed | Missing], vessel: Vessel) -> str:
        if "{" not in text:
            return text

        def word(slot: str) -> str:
            value = words.get(slot)
            if value is None:
                value = Missing(slot, vessel.place(""))
            if not isinstance(value, Missing):
                return value
            if value.key not in self._seen:
                self._seen.add(value.key)
                self.findings.append(
                    Finding(
                        "steps.gap",
                        Weight.DEFECT,
                        f"the {self.page} needs {value.in_words} ({value.key})"
                        + f": {value.question}" * bool(value.question),
                        value.place,
                        f"find out and write {value.written or value.key}",
                    )
                )
            return self._blank

        return fill(text, word)

    def measure(self, said: str, text: str, words: Mapping[str, Printed | Missing], step: str) -> None:
        """The finding on a step that the boat's own words make too long: once a key, of the step that is longest by it."""
        if len(said.split()) > MOST_WORDS and any(long_pieces(said)):
            self._keep(too_long(text, words, step, Measuring(self.catalogue)))

    def measure_place(self, said: str, slot: str, words: Mapping[str, Printed | Missing], step: str) -> None:
        """The same of the line beside a step that says where it is done."""
        if any(long_pieces(said)):
            self._keep(place_too_long(slot, words, step, Measuring(self.catalogue)))

    def _keep(self, found: Iterable[Long]) -> None:
        for over, finding in found:
            at, most = self._long.get(finding.place.key, (len(self.findings), 0))
            if over > most:
                self._long[finding.place.key] = (at, over)
                self.findings[at : at + 1] = [finding]
