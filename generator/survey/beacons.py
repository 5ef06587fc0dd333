"""Beacons with an id that can be read, as several checks ask for them. Ids are crew-only, so no message repeats one."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from generator.calc import beacon as calc
from generator.shelves.identities import states_of_mid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.calc.beacon_id import BeaconId
    from generator.vessel.radio import Beacon
    from generator.vessel.vessel import Vessel

FIRST_GENERATION = "C/S T.001 Rev. 12"
SECOND_GENERATION = "C/S T.018 Rev. 12"


@lru_cache(maxsize=16)
def decode(hex_id: str) -> BeaconId:
    """What an id says, read once for all checks that ask."""
    return calc.decode(hex_id)


def coded_beacons(vessel: Vessel) -> Iterator[tuple[Beacon, BeaconId]]:
    """The beacons with an id that can be read, and what the id says."""
    for beacon in vessel.radio.beacons if vessel.radio else ():
        if isinstance(beacon.hex_id, str):
            yield beacon, decode(beacon.hex_id)


def states_of_code(code: BeaconId) -> tuple[str, ...]:
    """The names of the state to which the country code of an id is allotted; empty where it is allotted to none."""
    return states_of_mid(f"{code.country_code:03}")
