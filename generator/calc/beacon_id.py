"""What the id of a distress beacon says, of either generation."""

from __future__ import annotations

from dataclasses import dataclass


class NoBeaconId(ValueError):
    """The text is no beacon id; the message says why and what it may be."""


@dataclass(frozen=True)
class BeaconId:
    """What an id says. Fields that its protocol does not carry are None.

    `id15` is the canonical 15-hex id (position bits at their defaults), `faults` what no valid id can have,
    `bch_right` is None unless a whole message was given.
    """

    generation: int
    country_code: int
    protocol: str
    id15: str
    beacon_type: str | None = None
    mmsi: str | None = None
    call_sign: str | None = None
    aircraft: str | None = None
    aircraft_operator: str | None = None
    beacon_number: str | None = None
    serial: int | None = None
    type_approval: int | None = None
    homing: str | None = None
    position_default: bool | None = None
    epirb_ais: str | None = None
    is_test: bool = False
    bch_right: bool | None = None
    faults: tuple[str, ...] = ()
