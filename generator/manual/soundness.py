"""Whether the program's own shelves are sound: every file, and everything they say of each other, found at once."""

from __future__ import annotations

import functools
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.manual.facts import vessel_facts
from generator.manual.known_keys import keys_and_words
from generator.manual.raft_facts import AMONG_RAFTS, RAFT_FACTS
from generator.manual.words import RAFT_WORDS, vessel_words
from generator.reading.findings import Finding, Place, Weight, in_order
from generator.reading.names import condition
from generator.reading.nearest import nearest
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue
from generator.shelves.procedure_files import together
from generator.shelves.procedures import PROCEDURES
from generator.shelves.quantities import When
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import faults, on, read_below, whole
from generator.shelves.stations import STATIONS
from generator.shelves.stowages import HOLDS, STOWAGES
from generator.shelves.words import FIRST_LANGUAGE, slots
from generator.vessel.names import names_of_a_vessel
from generator.vessel.people import ABILITIES

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from pathlib import Path

    from generator.reading.block import Block
    from generator.shelves.languages import Sheet
    from generator.shelves.procedure_files import DutyRow, Files, ProcedureFile, StepRow
    from generator.shelves.shelf import File, Names, ReadShelves
    from generator.shelves.words import ProcedureWords

ENGINE_STOP = "engine stop place"


@functools.cache
def known() -> Names:
    """The names that the program itself gives, by what references call their kind."""
    return {
        "fact": [
            *(fact.name for fact in vessel_facts()),
            *(fact.name for fact in (*RAFT_FACTS, *AMONG_RAFTS)),
        ],
        "word": [*(slot.name for slot in vessel_words()), *(slot.name for slot in RAFT_WORDS)],
        "ability": ABILITIES,
        **keys_and_words(),
        **names_of_a_vessel(),
    }


def faults_of_shelves(checks: tuple[str, ...]) -> tuple[Finding, ...]:
    """Everything that is wrong on the shelves as installed, in order; nothing if they are sound. `checks` are all there are."""
    return faults_below(templates_folder(), checks)


def whole_as_installed() -> bool:
    """Whether the shelves as installed could be read whole, so that their words can be compared with what asks for them."""
    return whole(read_below(SHELVES, templates_folder()))


@functools.cache
def faults_below(folder: Path, checks: tuple[str, ...]) -> tuple[Finding, ...]:
    """The same for another folder of templates."""
    return tuple(faults_among(read_below(SHELVES, folder), checks))


def faults_among(shelves: ReadShelves, checks: tuple[str, ...]) -> list[Finding]:
    """The same for shelves that were read already, all there are."""
    found = faults(shelves, {**known(), "check": checks})
    if not whole(shelves):
        return found
    files = on(PROCEDURES, shelves)
    return in_order(
        [
            *found,
            *_for_whom(files, shelves),
            *_steps_of_rows(files, shelves),
            *_unworded(files, shelves),
        ]
    )


def _for_whom(files: Files, shelves: ReadShelves) -> Iterator[Finding]:
    """What is said of one raft stands in the procedures of a raft alone; bill and drills are the vessel's."""
    words = {slot.name for slot in RAFT_WORDS}
    facts = {fact.name for fact in (*RAFT_FACTS, *AMONG_RAFTS)}
    facts |= set(STOWAGES.gives(on(STOWAGES, shelves))["fact"])
    facts |= set(HOLDS.gives(on(HOLDS, shelves))["fact"])
    yield from _asked_by_rules(facts, shelves)
    for main, parts in together(files):
        asked: list[tuple[Block, str]] = [
            (main.block, "drilled"),
            (main.block, "likely-where"),
            *((duty, "when") for duty in main.block.duties),
            *((other, "when") for duty in main.block.duties for other in duty.other_words),
        ]
        others: list[tuple[Block, str]] = [
            *((other, "when") for other in (*main.block.other_intro, *main.block.other_end)),
            *((leave, "when") for leave in main.block.leaves),
            *((other, "when") for part in parts for step in part.block.steps for other in step.other_words),
        ]
        if main.block.per != "raft":
            for part in parts:
                asked += [
                    (block, key) for block in (part.block, *part.block.steps) for key in ("when", "when-any")
                ]
                for step in part.block.steps:
                    if step.place_ in words:
                        yield _of_one_raft(step.place("place"), str(step.place_))
            asked += others
        for block, key in asked:
            for number, said in enumerate(getattr(block, key.replace("-", "_"))):
                if (name := condition(said)[0]) in facts:
                    yield _of_one_raft(block.place_in(key, number), name)


def _asked_by_rules(raft_facts: set[str], shelves: ReadShelves) -> Iterator[Finding]:
    """Rule sets ask of the vessel alone."""
    for file in on(RULE_SETS, shelves):
        for block in file.block.inner():
            if isinstance(block, When):
                for key in ("facts", "facts-any", "facts-none"):
                    for number, said in enumerate(getattr(block, key.replace("-", "_"))):
                        if (name := condition(said)[0]) in raft_facts:
                            yield _of_one_raft(block.place_in(key, number), name)


def _of_one_raft(place: Place, name: str) -> Finding:
    message = f"'{name}' is said of one raft, and this is the vessel's"
    return _fault(place, message, "name something of the vessel, or say it in a procedure with per: raft")


def _steps_of_rows(files: Files, shelves: ReadShelves) -> Iterator[Finding]:
    """Every stowage and every hold has its steps; where a raft comes down beside the propeller, one stops the engine."""
    facts = set(known()["fact"])
    stowages = on(STOWAGES, shelves)
    for row in (row for each in stowages for row in each.block.stowages):
        if row.name in facts:
            yield _fault(row.place("stowage"), f"a fact is called '{row.name}' already", "call it otherwise")
        steps = _steps_when(files, row.name)
        if not steps:
            yield _fault(
                row.place("stowage"),
                f"no file adds steps for the stowage '{row.name}'",
                f"write one in procedures/stowage with adds-to, when: [{row.name}] and its steps",
            )
        elif row.beside_propeller is True and not any(step.place_ == ENGINE_STOP for step in steps):
            yield _fault(
                row.place("beside-propeller"),
                f"'{row.name}': the raft comes down beside the propeller, and none of its steps stops the engine",
                f"give the step that stops it place: {ENGINE_STOP}",
            )
    holds = on(HOLDS, shelves)
    for hold in (row for each in holds for row in each.block.holds):
        if hold.name in facts:
            yield _fault(hold.place("hold"), f"a fact is called '{hold.name}' already", "call it otherwise")
        if not any(step.hold == hold.name for step in _steps_when(files, hold.name)):
            yield _fault(
                hold.place("hold"),
                f"no file adds a step that takes off the hold '{hold.name}'",
                f"write one in procedures/held-by with adds-to, when: [{hold.name}] and a step with hold: {hold.name}",
            )


def _steps_when(files: Files, fact: str) -> list[StepRow]:
    """The steps of the files that add them where a fact is so."""
    return [step for each in files if fact in each.block.when for step in each.block.steps]


def _unworded(files: Files, shelves: ReadShelves) -> Iterator[Finding]:
    """Titles, duties, steps and stations have their words in the first language, with slots that are filled."""
    words = Catalogue(FIRST_LANGUAGE, templates_folder(), shelves)
    if words.findings:  # told already
        return
    for main, parts in together(files):
        filled = [slot.name for slot in vessel_words()]
        if main.block.per == "raft":
            filled += [slot.name for slot in RAFT_WORDS]
        for part in parts:
            found = words.procedures.get(part.stem)
            if found is None:
                yield _no_file(part, words)
                continue
            if part is main:
                if not found.title:
                    what = f"the title of '{main.block.procedure}'"
                    yield _no_words(main.block, "procedure", what, main.stem)
                yield from _lacking(main.block.duties, found.duties, "the duty", main.stem)
                yield from _without_other_words(main, found)
                yield from _form_without_words(main, found)
            yield from _steps_without_other_words(part, found)
            yield from _lacking(part.block.steps, found.steps, "the step", part.stem)
            yield from _unfilled(part, words.sheet_of(found), filled)
    yield from _unworded_stations(words, shelves)


def _without_other_words(main: File[ProcedureFile], found: ProcedureWords) -> Iterator[Finding]:
    """The duties that are said in other words somewhere, and have none for it."""
    for duty in main.block.duties:
        for other in duty.other_words:
            if not found.duties.get(str(other.words)):
                what = f"the duty '{duty.id}' where it is said in other words"
                yield _no_words(other, "words", what, main.stem)
    for other in main.block.other_intro:
        if not found.intros.get(str(other.words)):
            yield _no_words(other, "words", "the introduction where it is said in other words", main.stem)


def _form_without_words(main: File[ProcedureFile], found: ProcedureWords) -> Iterator[Finding]:
    """What an emergency of the common form needs, and has no words for: its condition line, its ends, when it is left."""
    block = main.block
    if block.urgency is not None and not found.intro:
        yield _no_words(block, "urgency", f"the condition line (intro) of '{block.procedure}'", main.stem)
    if block.end is not None and not found.end:
        yield _no_words(block, "end", f"the end of '{block.procedure}'", main.stem)
    for other in block.other_end:
        if not found.ends.get(str(other.words)):
            yield _no_words(other, "words", "the end where it is said in other words", main.stem)
    for leave in block.leaves:
        if not found.leaves.get(str(leave.words)):
            yield _no_words(leave, "words", f"leaving '{block.procedure}' for '{leave.to}'", main.stem)


def _steps_without_other_words(part: File[ProcedureFile], found: ProcedureWords) -> Iterator[Finding]:
    """The steps that are said in other words somewhere, and have none for it."""
    for step in part.block.steps:
        for other in step.other_words:
            if other.words is not None and not found.steps.get(str(other.words)):
                what = f"the step '{step.id}' where it is said in other words"
                yield _no_words(other, "words", what, part.stem)


def _no_file(part: File[ProcedureFile], words: Catalogue) -> Finding:
    shown = words.shown(part.path)
    message = f"{shown} is not there; it has the words of {part.path}"
    return Finding(
        "file.missing-key", Weight.DEFECT, message, Place(shown), "write it", also=(part.block.place(),)
    )


def _unfilled(part: File[ProcedureFile], sheet: Sheet, filled: Sequence[str]) -> Iterator[Finding]:
    """The slots of a file of words that nothing fills, where they stand; duties have none at all."""
    steps = {f"steps.{step.id}": step for step in part.block.steps}
    for key, entry in sheet.texts.items():
        step = steps.get(key.rpartition(".")[0])
        given = () if key.startswith("duties.") else filled
        for slot in dict.fromkeys(slots(entry.text)):
            if slot not in given:
                remedy = nearest(slot, sorted(given)) if given else "take it out"
                message = f"'{key}' has the slot '{slot}', which nothing fills"
                also = (step.place("id"),) if step is not None else ()
                yield replace(_fault(entry.place, message, remedy), also=also)


def _unworded_stations(words: Catalogue, shelves: ReadShelves) -> Iterator[Finding]:
    for row in (row for each in on(STATIONS, shelves) for row in each.block.stations):
        label = f"station.{row.name.replace(' ', '-')}"
        if label not in words.labels:
            place, remedy = row.place("station"), f"write the label {label} in labels.yaml"
            yield _fault(place, f"there are no words for the station '{row.name}'", remedy)


def _lacking(
    rows: Iterable[StepRow | DutyRow], there: Mapping[str, object], what: str, stem: str
) -> Iterator[Finding]:
    for row in rows:
        if not there.get(str(row.id)):
            yield _no_words(row, "id", f"{what} '{row.id}'", stem)


def _no_words(block: Block, key: str, what: str, stem: str) -> Finding:
    return _fault(
        block.place(key), f"there are no words for {what}", f"write them in {stem}.yaml of the language"
    )


def _fault(place: Place, message: str, remedy: str) -> Finding:
    return Finding("file.bad-value", Weight.DEFECT, message, place, remedy)
