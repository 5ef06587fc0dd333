"""The steps for this vessel: those of the shelf that hold for her, in an order that respects `after`, in her own words."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.manual.facts import gear_called
from generator.manual.measuring import Measuring, long_pieces, too_long
from generator.manual.notes import html_of
from generator.manual.printing import Printer
from generator.manual.raft_facts import raft_facts_of
from generator.manual.said import Missing, Printed, printed
from generator.manual.words import carrier_of, raft_words_of
from generator.reading.findings import Finding, Weight
from generator.reading.names import condition
from generator.shelves.languages import Catalogue, fill
from generator.shelves.procedure_files import TAKEN_BY
from generator.shelves.procedures import ShelfProcedure, ShelfStep, shelf
from generator.shelves.stowages import holds as rows_of_holds

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from generator.manual.inventory import Item
    from generator.manual.reckoning import Reckoning
    from generator.vessel.people import Assignment
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Step:
    """A step as printed: `text` one action, `unless` its exceptions, `who` the roles, `gear` the items it takes."""

    id: str
    number: int
    text: str
    unless: str
    caution: str
    why: str
    who: tuple[str, ...]
    gear: tuple[Item, ...]
    place: str
    source: str
    standing: str
    confirm: bool = False


@dataclass(frozen=True)
class Procedure:
    """A procedure as printed. `raft` is the raft it is about, if one; `notes` the skipper's own words as HTML.

    `sign`: the shapes beside its title, as SVG. `aside`: it says what happens otherwise, nobody is sent on to it; `call_script`: the words of the call for help stand with it.
    """

    id: str
    kind: str
    title: str
    intro: str
    ground: str
    sign: str
    emergency: bool
    bill: str
    cards: tuple[str, ...]
    steps: tuple[Step, ...]
    raft: Raft | None = None
    notes: tuple[str, ...] = field(default=())
    aside: bool = False
    call_script: bool = False


def holds(when: Iterable[str], when_any: Iterable[str], facts: Mapping[str, bool]) -> bool:
    """Whether all of `when`, and one of `when_any` if there are any, are true."""

    def true(each: str) -> bool:
        name, wanted = condition(each)
        return facts[name] == wanted

    one_of = tuple(when_any)
    return all(map(true, when)) and (not one_of or any(map(true, one_of)))


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
            (step for step in waiting if all(name in seen or name not in names for name in step.after)), None
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
    words = printed(reckoning.words, printer)
    composed = []
    for one in shelf():
        rafts: Sequence[Raft | None] = reckoning.vessel.rafts if one.per == "raft" else (None,)
        for raft in rafts:
            known = facts | raft_facts_of(raft, reckoning.vessel) if raft is not None else facts
            if not holds(one.when, one.when_any, known):
                continue
            chosen = [step for step in one.steps if holds(step.when, step.when_any, known)]
            own = (
                words | printed(raft_words_of(raft, reckoning.vessel), printer) if raft is not None else words
            )
            steps = in_sequence(chosen, raft.held_by if raft is not None else ())
            composed.append(_compose(one, steps, reckoning, raft, known=known, words=own, gaps=gaps))
    return tuple(composed), gaps.findings


def _compose(
    one: ShelfProcedure,
    chosen: Iterable[ShelfStep],
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
    name = f"{one.id}-{slug(str(apart.name))}" if apart is not None else one.id
    gaps.page = f"{one.id.replace('-', ' ')} {'card' if one.cards else 'page'}"
    assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.bill) or {}
    steps = []
    for number, step in enumerate(chosen, 1):
        other = next((each for each in step.other_words if holds(each.when, (), known)), None)
        texts = catalogue.procedures[step.words_in].steps[other.words if other and other.words else step.id]
        said = {
            key: gaps.fill(getattr(texts, key) or "", words, vessel)
            if other is None or key not in other.leaves_out
            else ""
            for key in ("do", "unless", "caution", "why")
        }
        gaps.measure(said["do"], str(texts.do), words, step.id)
        assignment = assigned.get(step.duty)
        gear = tuple(item for wanted in step.gear for item in gear_called(reckoning.items, wanted))
        place = words.get(step.place, "") if step.place else ""
        steps.append(
            Step(
                step.id,
                number,
                said["do"],
                said["unless"],
                said["caution"],
                said["why"],
                _carrier(step, vessel)
                or _of_party(step, one.bill, raft)
                or _who(assignment, apart if one.own_people else None),
                gear,
                "" if isinstance(place, Missing) else str(place),
                other.source if other and other.source else step.source,
                other.standing if other and other.standing else step.standing,
                step.confirm,
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
    )


def _carrier(step: ShelfStep, vessel: Vessel) -> tuple[str, ...]:
    """Who does a step with what is carried on the body: whoever carries it, whatever the bill says; else nobody."""
    role = carrier_of(step.place, vessel)
    return (role,) if role else ()


def _of_party(step: ShelfStep, bill: str, raft: Raft | None) -> tuple[str, ...]:
    """Who of the raft's own party does a step, where the file names one for its part; else nobody."""
    if raft is None or raft.party is None or not step.duty:
        return ()
    duties = (line for one in shelf() if one.id == bill for line in one.duties if line.id == step.duty)
    takes = next((line.takes for line in duties), "")
    part = step.part or TAKEN_BY.get(takes, "")
    return tuple(raft.party.__dict__.get(part) or ()) if part else ()


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
        if not any(long_pieces(said)):
            return
        for over, finding in too_long(text, words, step, Measuring(self.catalogue)):
            at, most = self._long.get(finding.place.key, (len(self.findings), 0))
            if over > most:
                self._long[finding.place.key] = (at, over)
                self.findings[at : at + 1] = [finding]
