"""Numbers and figures of gear: how many of a thing a boat has, what is in a can, what a cylinder weighs, how often it is serviced."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.naming import lifejackets_of_size
from generator.reading.values import Quantity, known
from generator.survey.limits import least, most
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import does, gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.reading.values import NotKnown
    from generator.shelves.gear import Kind
    from generator.survey.registry import Found
    from generator.vessel.gear import Gear, GrabItem
    from generator.vessel.vessel import Vessel

_CAN = re.compile(r"\b(?:cans|jerry ?cans?|jerrycans?|canisters?)\b", re.IGNORECASE)
_JERRY = re.compile(r"\b(?:jerry|canister)", re.IGNORECASE)
_DRINK_CAN_L = 0.6  # the largest can that one drinks from, in litres: common practice
_JACKETS = 12.0  # as many as lie about on any boat
_BEACONS: dict[str, tuple[float, float]] = {
    "EPIRB": (3, 0),
    "SART": (6, 0),
    "PLB": (6, 2),
    "AIS man-overboard device": (12, 2),
}
"""How many a boat has at most, and how many for each person where that is more."""


@check("gear.so-many", LIFE, "numbers that boats carry: the shelf of gear; common practice")
def numbers_are_those_of_a_boat(sight: Sight) -> Finds:
    """Of nothing there is more aboard than a boat for so many persons carries.

    Why: a slipped figure hides a shortage, and makes everybody count on what is not there.
    Remedy: count again, and write how many there are.
    """
    one = sight.vessel.vessel
    persons = one.persons if one and isinstance(one.persons, int) else 1
    for block, name, number, (pieces, each) in _counted(sight.vessel):
        high = max(pieces, each * persons)
        if isinstance(number, int) and number > high:
            said = f"{name}: there are said to be {number}; a boat for {persons} has {high:g} at most"
            yield at(block, "quantity", said, item=name)


_Most = tuple[float, float]
"""How many pieces at most, and how many for each person."""


def _counted(vessel: Vessel) -> Iterator[tuple[Block, str, int | NotKnown | None, _Most]]:
    """Whatever is told by its number: what it is called, how many there are said to be and how many a boat has at most."""
    whole = (most(vessel, "pieces of one thing"), most(vessel, "pieces of one thing a person"))
    for item in _listed(vessel):
        yield item, str(item.what), item.quantity, _of_kind(gear_kind(item)) or whole
    for alarm in vessel.alarms:
        yield alarm, f"{alarm.what} alarm", alarm.quantity, _of_kind(alarm.gear_kind) or whole
    for beacon in vessel.radio.beacons if vessel.radio else ():
        yield beacon, str(beacon.what), beacon.quantity, _BEACONS.get(str(beacon.kind), whole)
    for jackets in vessel.lifejackets:
        each_has = most(vessel, "lifejackets a person")
        yield jackets, str(lifejackets_of_size(jackets)), jackets.quantity, (_JACKETS, each_has)


def _listed(vessel: Vessel) -> list[Gear | GrabItem]:
    """What stands in the gear list and in the bags."""
    return [*vessel.gear, *(each for bag in vessel.grab_bags for each in bag.items)]


def _of_kind(kind: Kind | None) -> _Most | None:
    """How many of a kind a boat has at most, and how many for each person; None where the shelf does not say so."""
    return kind.at_most if kind is not None else None


@check("gear.figures", TRUTH, COMMON_PRACTICE)
def figures_of_gear_are_those_of_such_gear(sight: Sight) -> Finds:
    """Cans hold what cans hold, oxygen lasts until a doctor is asked, a cylinder weighs about what is stamped on it, and nothing is serviced but once in a lifetime.

    Why: water that is not there is counted on, a cylinder misread passes for full, a service that never falls due is never done.
    Remedy: read it again, and the unit with it.
    """
    for item in _listed(sight.vessel):
        if "volume" in item.__dict__:
            yield from _volume(item, sight)
    longest = most(sight.vessel, "time between services of gear")
    for item in sight.vessel.gear:
        interval = known(item.service_interval) if "service_interval" in item.__dict__ else None
        if interval is not None and interval >= longest and not does(item, "loses pressure"):
            yield of(
                item,
                "service-interval",
                f"it is serviced every {item.service_interval}; nothing waits so long",
            )
        lasts = known(item.lasts)
        if lasts is not None and lasts < OXYGEN_S:
            yield of(
                item,
                "lasts",
                f"it lasts {item.lasts}; a bottle that is carried for somebody hurt lasts {OXYGEN_S / 60:.0f} min and more",
                weight=RECOMMENDATION,
            )
    for jackets in sight.vessel.lifejackets:
        mass, stamped = known(jackets.cylinder_mass), known(jackets.cylinder_minimum)
        if (
            mass is not None
            and stamped is not None
            and mass > stamped * most(sight.vessel, "cylinder to its stamped mass")
        ):
            named = str(lifejackets_of_size(jackets))
            yield at(
                jackets,
                "cylinder-mass",
                f"{named}: a cylinder weighs {jackets.cylinder_mass}, far more than the {jackets.cylinder_minimum} stamped on it",
                item=named,
                also=(jackets.place("cylinder-minimum"),),
            )


def _volume(item: Gear | GrabItem, sight: Sight) -> Iterator[Found]:
    """What is told of them together is what so many of them hold."""
    volume, number = item.volume, item.quantity if isinstance(item.quantity, int) else 1
    if not isinstance(volume, Quantity):
        return
    low, high = (limit(sight.vessel, "water in one can") for limit in (least, most))
    drunk_from = volume / number <= _DRINK_CAN_L and not _JERRY.search(str(item.what))
    if isinstance(item.what, str) and _CAN.search(item.what) and not drunk_from:
        low = least(sight.vessel, "water in one can with a handle")
    if not low <= volume / number <= high:
        yield of(
            item,
            "volume",
            f"{number} hold{'s' * (number == 1)} {volume} together, {_each(float(volume) / number)} l each; one holds {low:g} to {high:g} l",
            also=(item.place("quantity"),),
        )


OXYGEN_S = 600.0
"""What lasts less than this, in s, is empty before a doctor is asked: common practice."""
_SPANS = {"throwing line": (8.0, 60.0), "tethers": (0.5, 3.0), "lifebuoy": (5.0, 60.0)}
"""From how many metres to how many the line of such a thing is: what an arm throws, and what keeps somebody on deck. Common practice."""
_LONG = re.compile(
    r"\b(\d+(?:\.\d+)?) ?(m|metres?|meters?|ft|feet|foot)\b(?! (?:wide|high|broad))", re.IGNORECASE
)
_FOOT_M = 0.3048


@check("gear.line-length", LIFE, COMMON_PRACTICE)
def lines_are_of_a_length_that_serves(sight: Sight) -> Finds:
    """A length in the name of a line that is thrown, or of a tether, is one that serves.

    Why: a line too short ends before the swimmer; on a tether too long somebody hangs in the water beside her.
    Remedy: measure it, and the point in the figure with it; write the length behind the name of the thing.
    """
    for item in sight.vessel.gear:
        kind = gear_kind(item)
        span = _SPANS.get(kind.name) if kind is not None else None
        if span is None or not isinstance(item.what, str):
            continue
        for figure, unit in _LONG.findall(item.what):
            long_m = float(figure) * (_FOOT_M if unit.lower().startswith("f") else 1.0)
            if not span[0] <= long_m <= span[1]:
                yield of(
                    item,
                    "what",
                    f"{figure} {unit} is none that serves; such lines have {span[0]:g} to {span[1]:g} m",
                )


_BRIM = re.compile(
    r"\b(?:brim[- ]?full|brimful|full to the (?:brim|top|neck|cap)|topped (?:right )?up|completely full)\b",
    re.IGNORECASE,
)


@check("gear.cans-full", HELP, COMMON_PRACTICE)
def water_cans_float(sight: Sight) -> Finds:
    """Cans of water that go along into a raft are not filled to the brim.

    Why: a full can sinks as it is thrown after the raft; one filled to nine tenths floats beside it.
    Remedy: pour a tenth out, and name them so: water cans, nine tenths full so that they float.
    """
    for item in sight.vessel.gear:
        if item.kind == "water and food" and _BRIM.search(f"{item.what} {item.spot or ''}"):
            yield of(item, "what", "what is full to the brim sinks")


def _each(litres: float) -> str:
    """Litres of one, as people write them: 0.5, 12.5, 100."""
    return f"{litres:.0f}" if litres >= 20 else f"{litres:.2g}"
