"""The steps for this vessel: those of the shelf that hold for her, in an order that respects `after`, in her own words."""

from __future__ import annotations

import functools
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from generator.manual.facts import (
    Missing,
    Word,
    gear_called,
    raft_facts_of,
    raft_words_of,
    words_of,
)
from generator.manual.printing import Printer
from generator.reading.findings import Finding, Weight
from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder
from generator.shelves.languages import Catalogue, fill, markdown
from generator.shelves.words import slots

if TYPE_CHECKING:
    from generator.manual.reckoning import Reckoning

MOST_WORDS = 20
"""What can be taken in at one reading: the limit of an instruction in simplified technical English."""
STANDINGS = ("read", "secondary", "common practice", "from memory, unverified")


@dataclass(frozen=True)
class ShelfStep:
    """A step as the shelf has it; `phase` orders steps of several files, `after` names steps that come before it.

    `hold` names what the step takes off a raft: steps of one phase follow the order in which the boat's file lists its holds.
    `standing` is the lowest of all that the step says; `confirm` marks a wording that a professional is asked to confirm.
    """

    id: str
    phase: int
    source: str
    standing: str
    when: tuple[str, ...] = ()
    when_any: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    duty: str = ""
    gear: tuple[str, ...] = ()
    place: str = ""
    position: int = 0
    words_in: str = ""
    hold: str = ""
    confirm: bool = False


@dataclass(frozen=True)
class ShelfProcedure:
    """A procedure with the steps of its own file and of all files that add to it.

    `own_people`: once in a raft, only those whom it carries can act in it.
    """

    id: str
    order: int
    per: str
    ground: str
    bill: str
    emergency: bool
    cards: tuple[str, ...]
    when: tuple[str, ...]
    when_any: tuple[str, ...]
    duties: tuple[dict, ...]
    steps: tuple[ShelfStep, ...]
    own_people: bool = False


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
    gear: tuple
    place: str
    source: str
    standing: str
    confirm: bool = False


@dataclass(frozen=True)
class Procedure:
    """A procedure as printed. `raft` is the raft it is about, if one; `notes` the skipper's own words as HTML."""

    id: str
    kind: str
    title: str
    intro: str
    ground: str
    emergency: bool
    bill: str
    cards: tuple[str, ...]
    steps: tuple[Step, ...]
    raft: object = None
    notes: tuple[str, ...] = field(default=())


class ShelfFault(Exception):
    """The shelf of procedures contradicts itself: a fault of the program, not of a boat's file."""


@functools.cache
def shelf() -> tuple[ShelfProcedure, ...]:
    """All procedures of templates/procedures in their order."""
    main, added = {}, []
    for path in sorted((templates_folder() / "procedures").rglob("*.yaml")):
        tree, findings = read_file(path, path.name)
        if tree is None or findings:
            raise ShelfFault(f"{path.name}: {findings[0].place}: {findings[0].message}")
        data = plain(tree)
        if "procedure" in data:
            main[data["procedure"]] = (path.stem, data)
        elif "adds-to" in data:
            added.append((path.stem, data))
    made = []
    for name, (stem, data) in main.items():
        steps = _steps(stem, data, (), ())
        for other, more in added:
            if more["adds-to"] == name:
                steps += _steps(other, more, _tuple(more, "when"), _tuple(more, "when-any"))
        made.append(
            ShelfProcedure(
                name,
                int(data["order"]),
                data.get("per", "vessel"),
                data.get("ground", "plain"),
                data.get("bill", name),
                data.get("emergency") == "yes",
                _tuple(data, "cards"),
                _tuple(data, "when"),
                _tuple(data, "when-any"),
                tuple(data.get("duties", ())),
                tuple(replace(step, position=n) for n, step in enumerate(steps)),
                data.get("own-people") == "yes",
            )
        )
    return tuple(sorted(made, key=lambda one: (one.order, one.id)))


def _steps(stem, data, when, when_any):
    made = []
    for each in data["steps"]:
        if each["standing"] not in STANDINGS:
            raise ShelfFault(f"{stem}: step {each['id']} has the standing '{each['standing']}'")
        if when_any and each.get("when-any"):
            raise ShelfFault(f"{stem}: step {each['id']} has when-any under a file's own")
        made.append(
            ShelfStep(
                each["id"],
                int(each["phase"]),
                each["source"],
                each["standing"],
                when + _tuple(each, "when"),
                when_any or _tuple(each, "when-any"),
                _tuple(each, "after"),
                each.get("duty", ""),
                _tuple(each, "gear"),
                each.get("place", ""),
                words_in=stem,
                hold=each.get("hold", ""),
                confirm=each.get("confirm") == "yes",
            )
        )
    return made


def _tuple(data, key):
    value = data.get(key, ())
    return (value,) if isinstance(value, str) else tuple(value)


def holds(when, when_any, facts, about) -> bool:
    """Whether all of `when` and one of `when_any` are true; raises ShelfFault on a fact that is not on the list."""
    for each in (*when, *when_any):
        if each.removeprefix("not ") not in facts:
            raise ShelfFault(f"{about}: there is no fact '{each}'; there are: {', '.join(sorted(facts))}")

    def true(each):
        return not facts[each[4:]] if each.startswith("not ") else facts[each]

    return all(map(true, when)) and (not when_any or any(map(true, when_any)))


def in_sequence(steps, held_by=()) -> list[ShelfStep]:
    """The steps by phase, the boat's order of holds and place on the shelf, each moved behind all it comes `after`."""
    rank = {hold: number for number, hold in enumerate(held_by)}
    waiting = sorted(steps, key=lambda step: (step.phase, rank.get(step.hold, -1), step.position))
    names = {step.id for step in waiting}
    done: list[ShelfStep] = []
    seen: set[str] = set()
    while waiting:
        ready = next(
            (step for step in waiting if all(name in seen or name not in names for name in step.after)), None
        )
        if ready is None:
            raise ShelfFault("steps wait for each other: " + ", ".join(step.id for step in waiting))
        waiting.remove(ready)
        done.append(ready)
        seen.add(ready.id)
    return done


def compose_procedures(
    reckoning: Reckoning, catalogue: Catalogue
) -> tuple[tuple[Procedure, ...], list[Finding]]:
    """Every procedure that holds for the vessel, and the gaps found (one finding for each missing key)."""
    vessel, items, facts = reckoning.vessel, reckoning.items, reckoning.facts
    printer = Printer(catalogue)
    words = words_of(vessel, items, printer)
    gaps = _Gaps(catalogue)
    composed = []
    for one in shelf():
        rafts = vessel.rafts if one.per == "raft" else (None,)
        for raft in rafts:
            known = facts | raft_facts_of(raft) if raft is not None else facts
            if not holds(one.when, one.when_any, known, one.id):
                continue
            chosen = [step for step in one.steps if holds(step.when, step.when_any, known, step.id)]
            own = words | raft_words_of(raft, printer) if raft is not None else words
            composed.append(
                _compose(
                    one,
                    in_sequence(chosen, raft.held_by if raft else ()),
                    vessel,
                    items,
                    raft,
                    own,
                    catalogue,
                    gaps,
                )
            )
    return tuple(composed), gaps.findings


def _compose(one, chosen, vessel, items, raft, words, catalogue, gaps):
    page = catalogue.procedures[one.id]
    several = raft is not None and len(vessel.rafts) > 1
    name = f"{one.id}-{slug(str(raft.name))}" if several else one.id
    assigned = vessel.station_bill.get(one.bill) or {}
    steps = []
    for number, step in enumerate(chosen, 1):
        texts = catalogue.procedures[step.words_in].steps[step.id]
        said = {
            key: gaps.fill(getattr(texts, key) or "", words, step.id, vessel)
            for key in ("do", "unless", "caution", "why")
        }
        gaps.measure(said["do"], str(texts.do), words, step.id)
        assignment = assigned.get(step.duty)
        gear = tuple(item for wanted in step.gear for item in gear_called(items, wanted))
        place = words.get(step.place, "") if step.place else ""
        steps.append(
            Step(
                step.id,
                number,
                said["do"],
                said["unless"],
                said["caution"],
                said["why"],
                _who(assignment, raft if several and one.own_people else None),
                gear,
                "" if isinstance(place, Missing) else str(place),
                step.source,
                step.standing,
                step.confirm,
            )
        )
    notes = tuple(markdown(str(note.text)) for note in vessel.notes if note.beside in (one.id, name))
    return Procedure(
        name,
        one.id,
        gaps.fill(str(page.title), words, one.id, vessel),
        gaps.fill(page.intro or "", words, one.id, vessel),
        one.ground,
        one.emergency,
        one.bill,
        one.cards,
        tuple(steps),
        raft,
        notes,
    )


def _who(assignment, raft):
    """Who has the duty; of several rafts, those of them whom this one carries."""
    who = tuple(assignment.who) if assignment else ()
    return who if raft is None else tuple(one for one in who if one in (raft.carries or ()))


def slug(text: str) -> str:
    """A name for file names and anchors: small letters, digits and hyphens."""
    kept = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in text.lower())
    return "-".join(part for part in kept.split("-") if part) or "x"


def to_confirm(procedures) -> tuple:
    """The steps, of the shelf or composed, whose wording a professional is asked to confirm."""
    return tuple(step for one in procedures for step in one.steps if step.confirm)


class _Gaps:
    """Fills words in and collects the keys that are missing, or make a step too long, each once."""

    def __init__(self, catalogue):
        self.findings: list[Finding] = []
        self._seen: set[str] = set()
        self._long: set[str] = set()
        self._blank = catalogue.say("not-known")

    def fill(self, text, words, step, vessel):
        def word(slot):
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
                        f"the step '{step}' must print '{slot}', and '{value.key}' does not say it",
                        value.place,
                        f"write {value.key}",
                    )
                )
            return self._blank

        return fill(text, word)

    def measure(self, said, text, words, step):
        """A finding where the boat's own words carry a step over MOST_WORDS; it names the longest of them."""
        count = len(said.split())
        own = [word for slot in slots(text) if isinstance(word := words.get(slot), Word)]
        longest = max(own, key=lambda word: len(word.split()), default=None)
        if count > MOST_WORDS and longest is not None and longest.key not in self._long:
            self._long.add(longest.key)
            self.findings.append(
                Finding(
                    "steps.too-long",
                    Weight.RECOMMENDATION,
                    f"with '{longest}' the step '{step}' has {count} words, more than {MOST_WORDS}",
                    longest.place,
                    f"say {longest.key} in fewer words, as people aboard would call it",
                )
            )
