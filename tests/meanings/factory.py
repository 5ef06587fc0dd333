"""Every mutant of every boat; voyages and lines of other boats need more than one file."""

from __future__ import annotations

from collections.abc import Iterator

from meanings.boats import OWN, VOYAGE, Boat, boats
from meanings.mutant import Mutant
from meanings.operators import entry_of
from meanings.sheet import Sheet
from meanings.swaps import OPERATORS

COPIED = (
    "gear", "stops", "pumps", "escape", "batteries", "through-hulls", "contacts", "radio", "alarms", "lifejackets", "people",
    "grab-bags", "engines", "watches",
)  # fmt: skip


def mutants(boat: Boat) -> Iterator[Mutant]:
    """The mutants of one boat, file by file, operator by operator."""
    roles = Sheet(boat.name, OWN, boat.text()).roles
    for file in boat.changed:
        sheet = Sheet(boat.name, file, boat.text(file), roles)
        for operator in OPERATORS:
            yield from operator(sheet)
        yield from copied(sheet, boat)
    yield from alone(boat, Sheet(boat.name, OWN, boat.text()))


def copied(sheet: Sheet, boat: Boat) -> Iterator[Mutant]:
    """A line is that of another specimen, as when her file was made from another boat's: of the same kind, or name."""
    others = [Sheet(each.name, OWN, each.text()) for each in boats() if each.name != boat.name]
    for thing in sheet.things:
        if thing.item_of is None or thing.top not in COPIED or thing.lines().start + 1 != thing.lines().stop:
            continue
        start, end, _ = sheet.put(thing.node, "")
        mine, seen = sheet.text[start:end], set()
        for other in others:
            for line in other.things:
                fits = line.top == thing.top and line.kind is thing.kind and line.node.flow_style
                if not fits or line.lines().start + 1 != line.lines().stop:
                    continue
                same = (
                    line.says("kind") == thing.says("kind") != ""
                    if thing.top in ("radio", "contacts")
                    else line.name.partition(",")[0] == thing.name.partition(",")[0]
                    or thing.top in ("escape", "batteries", "pumps", "through-hulls")
                )
                a, b, _ = other.put(line.node, "")
                theirs = other.text[a:b]
                if same and theirs != mine and theirs not in seen and len(seen) < 3:
                    seen.add(theirs)
                    yield Mutant(
                        sheet.boat, sheet.file, "line copied", thing, "", mine, f"{other.boat}'s {theirs}",
                        ((start, end, theirs),), (thing,), (line.name, thing.name),
                    )  # fmt: skip


def voyage_of(boat: Boat) -> str:
    """A voyage with every role aboard."""
    sheet = Sheet(boat.name, OWN, boat.text())
    lines = [
        "format: 1",
        "departs: 2026-06-06",
        "until: 2026-06-21",
        "raise-alarm: no message by 20.00 on 22 June 2026",
        "persons:",
    ]
    for number, person in enumerate(sheet.people):
        age = person.says("age") or "40"
        help_ = ", ".join(
            f"{key}: {person.says(key)}" for key in ("needs-help", "helper") if person.says(key)
        )
        lines.append(
            f"  - {{name: Person {chr(65 + number)}, role: {person.says('role')}, age: {age}{', ' + help_ if help_ else ''}}}"
        )
    return "\n".join(lines) + "\n"


def alone(boat: Boat, sheet: Sheet) -> Iterator[Mutant]:
    """The voyage's people stay ashore, one by one and two by two."""
    if not sheet.people:
        return
    text = boat.text(VOYAGE) if VOYAGE in boat.files else voyage_of(boat)
    voyage = Sheet(boat.name, VOYAGE, text, sheet.roles)
    there = [thing for thing in voyage.things if thing.item_of is not None]
    for number, one in enumerate(there):
        start, end = entry_of(text, one)
        role = one.says("role")
        yield Mutant(
            boat.name, VOYAGE, "stays ashore", one, "", role, "", ((start, end, ""),), (), (role,), True
        )
        if number + 1 < len(there):
            other = there[number + 1]
            first, second = entry_of(text, other)
            both = ((start, end, ""), (first, second, ""))
            yield Mutant(
                boat.name, VOYAGE, "two stay ashore", one, "", f"{role} and {other.says('role')}", "", both, (),
                (role, other.says("role")), True,
            )  # fmt: skip
