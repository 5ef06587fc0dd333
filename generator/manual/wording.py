"""Wording: every text that the manual may ask a language for, gathered from fields, shelves and templates."""

from __future__ import annotations

import functools
import re
from pathlib import Path
from typing import TYPE_CHECKING

from generator.manual.inventory import KIND_ORDER
from generator.manual.procedures import slug
from generator.reading.fields import READERS, Choice, Compound, Field, Text, Texts
from generator.reading.findings import Finding, Weight, in_order
from generator.reading.names import STANDINGS
from generator.reading.nearest import nearest
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.gear import GEAR, lives_among
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue, catalogue
from generator.shelves.lives import LIVES, Kind
from generator.shelves.procedure_files import together
from generator.shelves.procedures import PROCEDURES
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import ReadShelves, on, read_below
from generator.shelves.spaces import HULLS
from generator.shelves.stations import STATIONS
from generator.shelves.words import FIRST_LANGUAGE, Counted, ProcedureWords
from generator.vessel.gear import Stop
from generator.vessel.lives import Life
from generator.vessel.particulars import Contact, Particulars
from generator.vessel.people import Voyage
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from generator.reading.block import Block

_TYPED = (
    "months",
    "lives.usual",
    *(f"lives.counted.{key}" for key in Counted.fields),
)  # fields of their block
_TOLD_ELSEWHERE = "station."  # where the station stands
_SAID = re.compile(r"""\bsay\(\s*(["'])([a-z0-9.-]+[a-z0-9])\1""")
_ANSWERS_OF_A_NAME = ("name",)  # a boat may be called Nothing


# What Python asks for, by the first word of the label: a test holds it against what Python says.
_SAID_BY_PYTHON = {
    "": "not-known yes-word no-word assumed",
    "thing": (
        "unnamed grab-bag grab-bag-of-several in-grab-bag lifejackets lifejackets-of-size "
        "lifejackets-of-kind batteries cooking-gas release"
    ),
    "row": "one more crew",
    "mark": (
        "specimen proof-copy not-yet-checked surveyed-on good-until first-to-expire nothing-dated "
        "checked-aboard"
    ),
    "disclaimer": "short",
    "part": (
        "first-words particulars liferaft liferafts afterwards station-bill emergencies plan "
        "gear-list distress deferred-defects sources contacts grab-bag through-hulls radio drills dates "
        "carriage amendments distribution disclaimer about"
    ),
    "particulars": "signals",
    "raft": "title-named not-float-free",
    "drawing": (
        "title deck below bow stern port starboard muster-place raft scale not-to-scale life-saving "
        "fire stops flooding other-gear"
    ),
    "distress": "leaving",
    "calendar": (
        "of of-all summary.ends summary.usual summary.again kind.ends kind.usual kind.again ahead "
        "tomorrow governs source window"
    ),
    "book": (
        "ground.fire ground.lifesaving call-script plan particulars fittings state records raft-facts "
        "estimates"
    ),
    "site": "page.plan page.gear page.bill page.vessel page.contacts page.deferred page.sources",
    "estimates": (
        "release release-water taut-water floats-up floats-up-too-weak floats-up-not-predictable link "
        "link-out-of-order late late-not-predictable by-hand carry carry-untimed lift lift-too-heavy "
        "water food food-none stage-1 stage-2 stage-3 stage-4 stage-5 assumption.sea-water "
        "assumption.band-of-label assumption.upright assumption.still-water assumption.no-drift "
        "assumption.swamped assumption.box assumption.link-tolerance assumption.tube-volume "
        "assumption.boyle assumption.alongside assumption.drill assumption.team-lift "
        "assumption.first-day assumption.ration assumption.all-aboard assumption.never-the-pack-alone"
    ),
    "carriage": "state.short state.not-said",
}


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
    asked = dict(asked_for(asking))
    missing = [
        Finding(
            "file.missing-key",
            Weight.DEFECT,
            f"'{label}' is missing: {asker} asks for it",
            words.place_of(label),
            "write the text",
        )
        for label, asker in asked.items()
        if label not in words.labels and not label.startswith(_TOLD_ELSEWHERE)
    ]
    idle = [
        Finding(
            "file.unknown-key",
            Weight.DEFECT,
            f"nothing prints '{label}'",
            words.place_of(label),
            nearest(label, asked),
        )
        for label in words.labels
        if label not in asked and label not in _TYPED
    ]
    return (*missing, *idle, *_steps(words, asking))


def _installed() -> ReadShelves:
    """All shelves as installed; raises ShelfFault."""
    shelves = read_below(SHELVES, templates_folder())
    if faults := [each for _, _, found in shelves for each in found]:
        raise ShelfFault(faults)
    return shelves


def asked_for(shelves: ReadShelves | None = None) -> Iterator[tuple[str, str]]:
    """Each label that is asked for, and who asks: program, templates, fields, and the shelves installed or given."""
    asking = shelves or _installed()
    for head, keys in _SAID_BY_PYTHON.items():
        yield from ((f"{head}.{key}".lstrip("."), "the program") for key in keys.split())
    yield from _asked_by_templates(templates_folder())
    yield from ((label, "a vessel file") for label in _of_fields())
    yield from (
        (label, "templates/lives") for label in _of_lives(lives_among(on(GEAR, asking), on(LIVES, asking)))
    )
    for table in on(STATIONS, asking):
        yield from ((f"station.{slug(each.name)}", "a station of cards") for each in table.block.stations)
    for hull in on(HULLS, asking):
        yield from ((f"spaces.{space.name}", f"the hull type {hull.stem}") for space in hull.block.spaces)
    for file in on(RULE_SETS, asking):
        block = file.block
        asked = [f"lengths.{block.length_means}", *(f"notes.{note}" for note in block.notes)]
        for row in block.rows:
            asked += [f"items.{row.item}", *([f"notes.{row.note}"] if row.note else [])]
        yield from ((f"rule-sets.{key}", f"the rule set {block.name}") for key in asked)


@functools.cache
def _asked_by_templates(folder: Path) -> tuple[tuple[str, str], ...]:
    return tuple(
        (match[2], f"templates/{path.relative_to(folder).as_posix()}")
        for path in sorted(folder.rglob("*.html"))
        for match in _SAID.finditer(path.read_text(encoding="utf-8"))
    )


def _of_fields() -> Iterator[str]:
    """What is printed of the fields of a vessel file: the words they offer, and what some of them are called."""
    for field in _fields(Vessel) | _fields(Voyage):
        yield from (f"choices.{field.key}.{word}" for word in offered_by(field))
    yield from (f"particulars.{key}" for key in Particulars.fields)
    yield from (f"raft.{key}" for key in Raft.fields)
    yield from (f"contact.{slug(kind)}" for kind in Contact.kind.choices)
    yield from (f"thing.stop.{what}" for what in Stop.what.choices)
    yield from (f"gear.kind.{slug(kind)}" for kind in KIND_ORDER)
    yield from (f"reader.{reader}" for reader in READERS)
    for standing in STANDINGS:
        yield f"carriage.standing.{slug(standing)}"
    yield from (f"standing.{slug(standing)}" for standing in STANDINGS)


def offered_by(field: Field[object]) -> tuple[str, ...]:
    """The words that a field offers and the manual prints in its language."""
    if isinstance(field, Choice):
        return field.choices
    if isinstance(field, Texts):
        return field.choices or ()
    if isinstance(field, Text) and field.key not in _ANSWERS_OF_A_NAME:
        return field.answers
    return ()


def _fields(kind: type[Block]) -> dict[Field[object], None]:
    """The fields of a block and of all blocks in it; but a life's, whose words are those of the shelf of lives."""
    found: dict[Field[object], None] = {}
    for field in kind.fields.values():
        found[field] = None
        if isinstance(field, Compound) and field.blocks is not None and field.blocks is not Life:
            found |= _fields(field.blocks)
    return found


def _of_lives(kinds: Iterable[Kind]) -> Iterator[str]:
    for line in (line for kind in kinds for line in kind.lines):
        yield from (f"lives.lines.{line.what}" for _ in (line.what,) if line.what)
        keys = [*line.marked, *(key for life in line.lives for key in life.since)]
        yield from (f"lives.dates.{key}" for key in keys)
        yield from (f"lives.standings.{life.standing}" for life in line.lives)


def _steps(words: Catalogue, shelves: ReadShelves) -> Iterator[Finding]:
    """The words that no procedure, duty or step has; what these lack is told where they stand."""
    asked: dict[str, set[str]] = {}
    for main, parts in together(on(PROCEDURES, shelves)):
        asked[main.stem] = {"title", *(f"duties.{line.id}" for line in main.block.duties)}
        for part in parts:
            asked.setdefault(part.stem, set()).update(f"steps.{step.id}" for step in part.block.steps)
    for name, sheet in words.sheets.items():
        if isinstance(sheet.block, ProcedureWords):
            wanted = asked.get(Path(name).stem, set())
            there = {key for key in (*sheet.texts, *sheet.blocks) if _names_a_step_or_duty(key)}
            for key in sorted(there - wanted):
                place = sheet.blocks.get(key) or sheet.texts[key].place
                message = f"'{key}' has words, and templates/procedures has it not"
                yield Finding(
                    "file.unknown-key", Weight.DEFECT, message, place, "remove it, or name it as there"
                )


def _names_a_step_or_duty(key: str) -> bool:
    return key == "title" or key.startswith("duties.") or (key.startswith("steps.") and not _PART.search(key))


_PART = re.compile(r"\.(do|unless|caution|why)$")
