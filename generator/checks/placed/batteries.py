"""Batteries and their switches: inside her, dry, and not beside what burns."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.shelves.spaces import BELOW, FOR_NOTHING, UPPER
from generator.survey.placing import away_from_seats, shut_off, space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space

_BOXED = re.compile(r"\b(?:box|casing|case|cabinet|locker|chest|compartment|hatch|lid)\b", re.IGNORECASE)


@check("placed.batteries", TRUTH, COMMON_PRACTICE, COMPOSITION)
def batteries_are_inside_her(sight: Sight) -> Finds:
    """Batteries stand below, or in a locker; not where the water comes first, nor lithium beside the engine.

    Why: whoever is to switch them off, or fights their fire, is sent to the wrong place.
    Remedy: write the space where the bank stands.
    """
    one = sight.vessel.vessel
    lived_in = one is not None and one.hull.has_rooms
    for bank in sight.vessel.batteries:
        space = space_of(sight, bank)
        boxed = isinstance(bank.spot, str) and _BOXED.search(bank.spot) is not None
        if space is not None and space.level == UPPER and boxed:
            continue  # as the reserve of the radio is kept, above whatever fills or burns
        if space is not None and (space.mark or space.level == UPPER or (space.exposed and not space.stows)):
            yield of(bank, "where", f"batteries do not stand on the {space.name}")
        elif space is not None and shut_off(space):
            yield of(bank, "where", f"batteries do not stand in the {space.name}")
        elif space is not None and _FOR_CALLS.search(str(bank.what)) and (why := _drowned(space)):
            yield of(
                bank,
                "where",
                f"it feeds the radio when all else is out, and stands in the {space.name}, {why}",
            )
        elif space is not None and not space.engine and _drowned(space):
            yield of(
                bank,
                "where",
                f"they stand in the {space.name}, {_drowned(space)}: pumps, lights and fixed radio go out with them",
                weight=RECOMMENDATION,
                remedy="have the bank moved higher, and write that space; until then know what works without it",
            )
        elif (
            space is not None
            and space.engine
            and bank.chemistry == "lithium"
            and one is not None
            and one.inboard_engine
        ):
            petrol = one.petrol
            if one.engine == "electric" or _DRIVES.search(str(bank.what)):
                continue
            yield of(
                bank,
                "where",
                f"lithium cells stand in the {space.name}, {'in petrol vapour' if petrol else 'which is hot, and burns first'}",
                weight=LIFE.weight if petrol else RECOMMENDATION,
                remedy="have the bank moved to a dry place of its own away from the engine, and write that space",
            )
        elif (
            space is not None
            and not boxed
            and (
                away_from_seats(sight, space)
                or (space.open_deck and lived_in and not isinstance(bank.spot, str))
            )
        ):
            yield of(
                bank,
                "where",
                f"they stand in the open: {space.name}",
                weight=None if lived_in else RECOMMENDATION,
                remedy="write the space where the bank stands, or under 'spot' what shuts it in: in the locker under the seat",
            )


_DRIVES = re.compile(r"\b(?:propulsion|traction|drive|motor|thruster)\b", re.IGNORECASE)
"""Of a bank: that it drives her."""
_FOR_CALLS = re.compile(r"\b(?:emergency|reserve|radio|radios|gmdss|vhf)\b", re.IGNORECASE)
"""Of a bank: that it is for the call for help."""


def _drowned(space: Space) -> str:
    """Why the bank of the radio goes out first in a space, as words after its name; "" where it stands high and apart."""
    if space.level == BELOW and space.stows == FOR_NOTHING:
        return "where the engine burns first" if space.engine else "where the water comes first"
    return ""


@check("placed.switch-in-the-open", HELP, COMMON_PRACTICE, COMPOSITION)
def battery_switches_are_not_in_the_spray(sight: Sight) -> Finds:
    """In a boat that can be shut, the battery switch is inside, in a locker, or where she is steered; not on the open deck.

    Why: a switch that salt water gets into burns away or does not turn; and whoever is sent there finds none, while the cables burn.
    Remedy: go and look; write the space in which it is, and of one in a box on deck say so: spot: in the box under the rail.
    """
    for stop in sight.vessel.stops:
        space = space_of(sight, stop) if stop.what == "batteries" else None
        boxed = isinstance(stop.spot, str) and _BOXED.search(stop.spot) is not None
        if space is not None and away_from_seats(sight, space) and not (space.exposed or boxed):
            yield of(stop, "where", f"it is in the open: {space.name}")
