"""Where things for an emergency are kept, people sleep, and ways lead out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.shelves.gear_rows import AT_ONCE, SAVES, USED_THERE
from generator.shelves.spaces import BELOW
from generator.survey.placing import no_hand_there, space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.fittings import Berth
from generator.vessel.gear import does
from generator.vessel.radio import RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.vessel.gear import Gear

BELONGS = (
    "guards the engine space",
    "floods a space",
    "holds her to the ground",
    "keeps her afloat",
    "carried to a fire",
    "warns of smoke",
    "warns of carbon monoxide",
    "warns of gas",
    "warns of water",
)
"""What has its place there, or of which another check speaks."""


FIXED = ("VHF", "MF/HF")
"""The radios that are built in, and spoken into where they are."""


def _vital(sight: Sight) -> Iterator[tuple[Block, str]]:
    vessel = sight.vessel
    yield from ((each, "it calls for help") for each in (vessel.radio.sets if vessel.radio else ()))
    yield from ((each, "it calls for help") for each in (vessel.radio.beacons if vessel.radio else ()))
    yield from ((each, "it goes into the raft") for each in vessel.grab_bags)
    yield from ((each, "all put them on") for each in vessel.lifejackets)
    if vessel.medical is not None:
        yield vessel.medical, "it is wanted at once"


def _out_of_place(item: Gear, why: str) -> bool:
    """Whether a thing of the gear list has no business there: tools and plugs lie where
    they are used, deck gear where the seas break.
    """
    if any(does(item, each) for each in BELONGS) or item.kind in USED_THERE:
        return False
    return why not in ("where the seas break", "above the deck") or item.kind in AT_ONCE


@check("placed.kept", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_saves_is_kept_where_a_hand_gets_at_it(sight: Sight) -> Finds:
    """Radios, beacons, jackets, bags, signals and medicine are not kept with engine, anchor, gas or bilge water, nor aloft.

    Why: it is wet, buried under chain or behind the flames just when it is wanted.
    Remedy: bring it where people are, near the way out, then write where and side.
    """
    for thing, words in _vital(sight):
        space = space_of(sight, thing)
        why = no_hand_there(space) if space is not None else ""
        if space is not None and why:
            yield of(thing, "where", f"{words}, and is kept in the {space.name}, {why}")
        elif space is not None and space.stows and isinstance(thing, RadioSet) and thing.kind in FIXED:
            yield of(
                thing, "where", f"{words}, and is fixed in the {space.name}, in which nobody stands to speak"
            )
    for item in sight.vessel.gear:
        space = space_of(sight, item)
        why = no_hand_there(space) if space is not None else ""
        if space is not None and why and _out_of_place(item, why):
            yield of(
                item,
                "where",
                f"it is kept in the {space.name}, {why}",
                weight=None if item.kind in SAVES else RECOMMENDATION,
            )


@check("placed.berth", TRUTH, COMMON_PRACTICE, COMPOSITION)
def people_sleep_where_people_can(sight: Sight) -> Finds:
    """A berth is in a space where somebody can sleep.

    Why: whoever is missing is looked for in the berth.
    Remedy: write the cabin or the berth by its name on the plan.
    """
    for person in sight.vessel.people:
        berth = person.berth
        space = space_of(sight, berth if isinstance(berth, Berth) else None)
        if space is not None and (space.stows or space.mark or space.exposed or space.engine):
            yield of(
                person,
                "where",
                f"nobody sleeps in the {space.name}",
                part=berth if isinstance(berth, Berth) else None,
            )


@check("placed.way-out", TRUTH, COMMON_PRACTICE, COMPOSITION)
def ways_out_lead_out(sight: Sight) -> Finds:
    """A way out leads out of a space that people are inside of.

    Why: from the open deck nobody needs one, and one that is none is tried while the water rises.
    Remedy: write the cabin, the passage or the engine room that it leads out of.
    """
    for hatch in sight.vessel.escape:
        space = space_of(sight, hatch)
        if space is not None and (
            space.open_deck or space.mark or (space.stows and not space.engine and space.level != BELOW)
        ):
            yield of(hatch, "where", f"the {space.name} is no space that people are shut in")
