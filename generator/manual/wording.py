"""Wording: whether the first language has every text that is asked for, with its slots, and no other."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from generator.manual.asked import PAGES, TYPED, Asked, asked_for
from generator.manual.facts import vessel_facts
from generator.reading.findings import Finding, Place, Weight, in_order
from generator.reading.nearest import nearest
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue, catalogue
from generator.shelves.pages import FOLDER
from generator.shelves.procedure_files import together
from generator.shelves.procedures import PROCEDURES
from generator.shelves.shelf import ReadShelves, on, read_below
from generator.shelves.trade import TRADE
from generator.shelves.words import FIRST_LANGUAGE, ProcedureWords, TradeWords, slots

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from generator.shelves.procedure_files import DutyRow

_TOLD_ELSEWHERE = "station."  # where the station stands


def faults_of(language: str) -> tuple[Finding, ...]:
    """What is wrong with the words of a language, or of the first one, with which it is compared; nothing if all is well."""
    faults: list[Finding] = []
    for each in dict.fromkeys((FIRST_LANGUAGE, language)):
        try:
            words = catalogue(each)
            faults += gaps(words) if each == FIRST_LANGUAGE else ()
        except ShelfFault as fault:
            faults += fault.findings
    return tuple(in_order(faults))


def gaps(words: Catalogue, shelves: ReadShelves | None = None) -> tuple[Finding, ...]:
    """What is asked for and the first language has not, and what it has and nothing asks for.

    `shelves` are all there are, if others ask than those installed.
    """
    asking = shelves or _installed()
    asked = tuple(asked_for(asking))
    labels = {each.label: each for each in reversed(asked)}
    missing = [
        _fault(
            "file.missing-key",
            f"'{label}' is missing: {each.asker} asks for it",
            words.place_of(label),
            "write the text",
        )
        for label, each in labels.items()
        if label not in words.labels and not label.startswith(_TOLD_ELSEWHERE)
    ]
    idle = [
        _fault("file.unknown-key", f"nothing prints '{label}'", words.place_of(label), nearest(label, labels))
        for label in words.labels
        if label not in labels and label not in TYPED
    ]
    return (
        *missing,
        *idle,
        *_slots(words, asked),
        *_pages(words),
        *_steps(words, asking),
        *_trade(words, asking),
    )


def _slots(words: Catalogue, asked: Iterable[Asked]) -> Iterator[Finding]:
    """The labels that lack a slot, or have one that nothing fills."""
    typed = (Asked(label, "the program", given) for label, given in TYPED.items())
    for each in dict.fromkeys((*asked, *typed)):
        if each.label in words.labels:
            there, place = set(slots(words.labels[each.label])), words.place_of(each.label)
            yield from _other_slots(f"'{each.label}'", dict.fromkeys(there, place), each.slots, place)


def _pages(words: Catalogue) -> Iterator[Finding]:
    """The pages that are not there, are too many, or have other slots than are filled."""
    files = {f"{FOLDER}/{name}.md": given for name, given in PAGES.items()}
    for name, given in files.items():
        shown = words.shown(name)
        if name in words.pages:
            page = words.pages[name]
            yield from _other_slots("the page", page.slots, given, page.place())
            facts = [fact.name for fact in vessel_facts()]
            for fact, place in page.conditions.items():
                if fact not in facts:
                    yield _fault("file.bad-value", f"there is no fact '{fact}'", place, nearest(fact, facts))
        elif shown not in words.told:
            yield _fault("file.missing-key", f"{shown} is not there", Place(shown), "write it")
    for name, page in words.pages.items():
        if name not in files:
            remedy = nearest(name, files)
            yield _fault("file.unknown-key", "nothing prints this page", page.place(), remedy)


def _other_slots(
    what: str, there: Mapping[str, Place], wanted: frozenset[str], place: Place
) -> Iterator[Finding]:
    """A finding for each slot that nothing fills, and for each that a text lacks."""
    lacking = sorted(wanted - there.keys())
    for slot in sorted(there.keys() - wanted):
        remedy = nearest(slot, lacking) if lacking else "take it out"
        yield _fault(
            "file.bad-value", f"{what} has the slot {{{slot}}}, which nothing fills", there[slot], remedy
        )
    for slot in lacking:
        yield _fault("file.bad-value", f"{what} lacks the slot {{{slot}}}", place, "write it into the text")


def _fault(check: str, message: str, place: Place, remedy: str) -> Finding:
    return Finding(check, Weight.DEFECT, message, place, remedy)


def _installed() -> ReadShelves:
    """All shelves as installed; raises ShelfFault."""
    shelves = read_below(SHELVES, templates_folder())
    if faults := [each for _, _, found in shelves for each in found]:
        raise ShelfFault(faults)
    return shelves


def _steps(words: Catalogue, shelves: ReadShelves) -> Iterator[Finding]:
    """The words that no procedure, duty or step has; what these lack is told where they stand."""
    asked: dict[str, set[str]] = {}
    for main, parts in together(on(PROCEDURES, shelves)):
        asked[main.stem] = {
            "title",
            *(f"duties.{name}" for line in main.block.duties for name in _named(line)),
            *(f"intros.{other.words}" for other in main.block.other_intro),
            *(f"leaves.{leave.words}" for leave in main.block.leaves),
            *(f"ends.{other.words}" for other in main.block.other_end),
            *(("end",) if main.block.end is not None else ()),
        }
        for part in parts:
            asked.setdefault(part.stem, set()).update(
                f"steps.{name}"
                for step in part.block.steps
                for name in (step.id, *(other.words for other in step.other_words if other.words is not None))
            )
    for name, sheet in words.sheets.items():
        if isinstance(sheet.block, ProcedureWords):
            wanted = asked.get(Path(name).stem, set())
            there = {key for key in (*sheet.texts, *sheet.blocks) if _names_a_step_or_duty(key)}
            for key in sorted(there - wanted):
                place = sheet.blocks.get(key) or sheet.texts[key].place
                message = f"'{key}' has words, and templates/procedures has it not"
                yield _fault("file.unknown-key", message, place, "remove it, or name it as there")


def _trade(words: Catalogue, shelves: ReadShelves) -> Iterator[Finding]:
    """The words of the trade of which nothing is said, and what is said of words that are none."""
    rows = {str(row.word): row for each in on(TRADE, shelves) for row in each.block.words}
    for sheet in words.sheets.values():
        if not isinstance(sheet.block, TradeWords):
            continue
        said = sheet.block.words
        for name, row in rows.items():
            if name not in said:
                place = sheet.block.place("words")
                yield _fault("file.missing-key", f"'{name}' is not explained", place, "write what it means")
                continue
            named = {str(other.words) for other in row.other_words}
            place = said.places[name]
            for other in sorted(named - said[name].others.keys()):
                yield _fault(
                    "file.missing-key", f"'{name}' lacks '{other}'", place, "write it under 'others'"
                )
            for other in sorted(said[name].others.keys() - named):
                yield _fault(
                    "file.unknown-key",
                    f"nothing prints '{other}' of '{name}'",
                    place,
                    nearest(other, sorted(named)),
                )
        for name in said:
            if name not in rows:
                message = f"'{name}' is explained, and templates/words has it not"
                yield _fault("file.unknown-key", message, said.places[name], nearest(name, sorted(rows)))


def _named(line: DutyRow) -> tuple[str, ...]:
    """The names under which a duty has words."""
    return (str(line.id), *(str(other.words) for other in line.other_words))


def _names_a_step_or_duty(key: str) -> bool:
    return (
        key in ("title", "end")
        or key.startswith(("duties.", "intros.", "leaves.", "ends."))
        or (key.startswith("steps.") and not _PART.search(key))
    )


_PART = re.compile(r"\.(do|unless|caution|why)$")
