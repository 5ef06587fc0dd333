"""Rafts as they may be: every valid combination of stowage, container, holds and painter, composed for a boat."""

import functools
import itertools
from dataclasses import dataclass, field
from pathlib import Path

from generator.manual.facts import facts_of
from generator.manual.inventory import list_items
from generator.manual.procedures import compose_procedures
from generator.manual.raft_facts import raft_facts_of
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.shelves.stowages import Stowage, float_free_containers, hydrostatic, stowages
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
BOATS = ("saltmeadow", "zilte-wind", "nordgyllen", "ombrelune", "tresmare")
KINDS = (
    "abandon-ship",
    "ready-to-leave",
    "leaving",
    "raft-launch",
    "raft-ready",
    "raft-overboard",
    "raft-inflate",
    "raft-trouble",
    "raft-awry",
    "raft-gone",
    "raft-automatic",
    "raft-capsized",
    "righting",
    "boarding",
    "raft-away",
    "in-the-raft",
    "raft-dry",
    "raft-routine",
    "raft-days",
    "being-found",
    "picked-up",
    "boat-recovered",
)
FACES = {
    "raft-launch": ("raft-launch", "raft-ready", "raft-overboard", "raft-inflate"),
    "raft-trouble": ("raft-trouble", "raft-awry", "raft-capsized"),
    "raft-automatic": ("raft-automatic", "raft-rises"),
    "boarding": ("raft-inflate", "boarding", "raft-away"),
    "in-the-raft": ("in-the-raft", "raft-dry"),
    "raft-routine": ("raft-routine", "raft-days"),
    "being-found": ("being-found", "picked-up"),
}
"""The faces on which the steps of one file stand, one after the other."""
OF_BOARDING = "boarding."


@dataclass(frozen=True)
class Case:
    """One raft on one boat as composed: the procedures by kind, the facts, and what was asked for."""

    asked: dict
    procedures: dict
    facts: dict
    held_by: tuple[str, ...] = field(default=())
    kept: Stowage | None = None

    def steps(self, kind):
        """The steps of a procedure in order, over all its faces."""
        found = [step for name in FACES.get(kind, (kind,)) for step in self.on_face(name)]
        if kind in ("raft-launch", "boarding"):
            found = [step for step in found if step.id.startswith(OF_BOARDING) == (kind == "boarding")]
        return found

    def on_face(self, kind):
        """The steps of one face; none where she has it not."""
        return self.procedures[kind].steps if kind in self.procedures else ()

    def ids(self, kind="raft-launch"):
        """Their ids."""
        return [step.id for step in self.steps(kind)]

    @property
    def many(self):
        """Whether more than two are aboard, and more than one of them can act."""
        return not (self.facts["two persons"] or self.facts["one left"])

    def at(self, *ends, kind="raft-launch"):
        """Where the steps stand whose ids end so, from 0."""
        return [number for number, name in enumerate(self.ids(kind)) if name.endswith(ends)]

    def step(self, name):
        """A step by its id, None if this raft has not got it."""
        return next((step for one in self.procedures.values() for step in one.steps if step.id == name), None)


def fitting(words, like):
    """A fitting told in words, where `like` stands in the file."""
    made = type(like)(like.node, like.path)
    made.__dict__[type(like).shorthand] = words
    return made


@functools.cache
def boat(name):
    """A specimen with its gear list."""
    vessel, _ = load(VESSELS / name)
    return vessel, list_items(vessel)


def compose(name, hull=None, persons=None, radios=None, **raft_values):
    """The case of a boat, values of her first raft overridden (`fast_to` is the painter's); she is put back afterwards."""
    vessel, items = boat(name)
    raft = vessel.rafts[0]
    blocks = (vessel.vessel, vessel.radio, raft, raft.painter)
    before = [dict(block.__dict__) for block in blocks]
    if "launch_from" in raft_values:
        raft_values["launch_from"] = fitting(raft_values["launch_from"], raft.launch_from)
    asked = {"name": name, "hull": hull, "persons": persons, "radios": radios, **raft_values}
    for block, key, value in (
        (vessel.vessel, "type", hull),
        (vessel.vessel, "persons", persons),
        (vessel.radio, "sets", radios),
        (raft.painter, "fast_to", raft_values.pop("fast_to", None)),
    ):
        if value is not None:
            block.__dict__[key] = value
    raft.__dict__.update(raft_values)
    try:
        composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
        facts = facts_of(vessel, items) | raft_facts_of(raft, vessel)
        held_by, kept = tuple(raft.held_by), raft.kept
    finally:
        for block, values in zip(blocks, before, strict=True):
            block.__dict__.clear()
            block.__dict__.update(values)
    assert gaps == [], (asked, gaps)
    by_kind = {}
    for one in composed:
        if one.raft in (None, raft):
            by_kind.setdefault(one.kind, one)
    return Case(asked, by_kind, facts, held_by, kept)


def hold_lists(holds):
    """Every order of up to two holds, every three of them in two orders; none at all first."""
    for size in range(3):
        yield from itertools.permutations(holds, size)
    for three in itertools.combinations(holds, 3):
        yield from (three, three[::-1])


def painters(row, container, held):
    """What the painter may be fast to as rigged, so that no check of the description calls it a defect."""
    if set(held) & set(hydrostatic()):
        return ("weak link",)
    free = not held and row.float_free == "yes" and container in float_free_containers()
    return (
        "strong point",
        *(("weak link",) if free else ()),
        *(("nothing",) if container == "valise" else ()),
    )


def combinations():
    """The raft values of every valid combination."""
    for row in stowages().values():
        for container, held in itertools.product(row.container, hold_lists(row.held_by)):
            if set(held) & set(hydrostatic()) and container not in float_free_containers():
                continue
            for fast_to, lift in itertools.product(painters(row, container, held), (True, False)):
                yield {
                    "stowage": row.name,
                    "container": container,
                    "held_by": held,
                    "fast_to": fast_to,
                    "lift_needed": lift,
                }
