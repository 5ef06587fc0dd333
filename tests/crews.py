"""Each specimen with four crews of its own kind: alone, a couple, a family with two children, twelve; the rest of its file as it is."""

import functools
import re
import shutil

from boat_file import without
from specimens import BOATS, VESSELS

from generator.commissioning.first_bill import propose
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

SKIPPER = "  - {role: skipper, abilities: [command, radio, engine, first aid, deck]}\n"
MATE = "  - {role: mate, abilities: [command, radio, engine, first aid, deck]}\n"
HANDS = "".join(f"  - {{role: {each}, abilities: [deck, radio]}}\n" for each in ("engineer", "cook"))
CREWS = {
    "alone": (1, SKIPPER),
    "a couple": (2, SKIPPER + MATE),
    "a family with two children": (
        4,
        SKIPPER + MATE + "  - {role: children, quantity: 2, age: [6, 9], lifejacket: child}\n",
    ),
    "twelve": (12, SKIPPER + MATE + HANDS + "  - {role: guests, quantity: 8}\n"),
}
"""How many, and who."""
CARRIED = {
    "alone": ("[skipper]", "none"),
    "a couple": ("[skipper]", "[mate]"),
    "a family with two children": ("[skipper, children]", "[mate]"),
    "twelve": ("[skipper, engineer, guests: 4]", "[mate, cook, guests: 4]"),
}
"""Whom each of two rafts takes."""
ROLES = {"alone": ("skipper",)}
USUAL = ("skipper", "mate")
"""Who takes over what the file gives to others."""


def with_crew(text, crew):
    """A specimen's file with such people in it, who carry what others carried; without its bill."""
    persons, people = CREWS[crew]
    for key in ("station-bill", "watches", "people"):
        text = without(key, text)
    for key in ("party", "worn-by"):
        text = re.sub(rf"(?m)^ +{key}: .*\n", "", text)
        text = re.sub(rf", {key}: (\[[^\]]*\]|\{{[^}}]*\}}|[^,}}\n]+)", "", text)
    carried = iter(CARRIED[crew])
    text = re.sub(r"(carries: )\[[^\]]*\]", lambda found: found[1] + next(carried), text)
    known = ROLES.get(crew, USUAL)
    text = re.sub(
        r"(carried-by: )([\w -]+)",
        lambda found: found[1] + (found[2] if found[2] in known else known[-1]),
        text,
    )
    return re.sub(r"(?m)^  persons: \d+", f"  persons: {persons}", text) + f"people:\n{people}"


@functools.cache
def composed(boat, crew, folder):
    """What is composed for a specimen with such a crew and the bill proposed for it: (vessel, procedures, gaps)."""
    own = folder / crew.replace(" ", "-") / boat
    own.mkdir(parents=True)
    classes = own.parent / "classes"
    if not classes.exists():
        shutil.copytree(VESSELS / "classes", classes)
    for beside in ("private.yaml",):
        if (VESSELS / boat / beside).exists():
            shutil.copy(VESSELS / boat / beside, own)
    text = with_crew((VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8"), crew)
    written = own / "vessel.yaml"
    written.write_text(text, encoding="utf-8")
    vessel, _ = load(own, boat)
    lines = [
        f"  {each.id}:\n" + "".join(f"    {duty.line}\n" for duty in each.duties)
        for each in propose(Reckoning(vessel))
    ]
    if lines:
        written.write_text(f"{text}station-bill:\n{''.join(lines)}", encoding="utf-8")
        vessel, _ = load(own, boat)
    procedures, gaps = compose_procedures(Reckoning(vessel), catalogue())
    return vessel, procedures, gaps


def everything(folder):
    """Every procedure of every specimen and crew as (boat, crew, vessel, procedure)."""
    for boat in BOATS:
        for crew in CREWS:
            vessel, procedures, _ = composed(boat, crew, folder)
            yield from ((boat, crew, vessel, one) for one in procedures)
