"""The 23-hex id of a second-generation beacon (C/S T.018 Rev. 12 of October 2024, section 3.6 and Table 3.11)."""

from __future__ import annotations

from dataclasses import replace

from generator.calc.baudot import letters_of_five, text_of
from generator.calc.beacon_id import BeaconId

_NO_MMSI, _NO_AIS = "000111111", 10922
_KINDS = {
    "000": "none",
    "001": "mmsi",
    "010": "callsign",
    "011": "aircraft-registration",
    "100": "aircraft-24bit",
    "101": "aircraft-operator",
    "110": "spare",
    "111": "system-test",
}


def decode_second(kept: str) -> BeaconId:
    """What 23 hexadecimal characters say; the kind of beacon (EPIRB, PLB) is not among it."""
    bits = f"{int(kept, 16):092b}"

    def part(first: int, last: int) -> str:
        return bits[first - 1 : last]

    faults = []
    if part(1, 1) != "1" or part(12, 14) != "101":
        faults.append("its fixed bits are wrong: one character at least is mistyped")
    kind = _KINDS[part(46, 48)]
    test = part(45, 45) == "1"
    if kind == "system-test" and not test:
        faults.append("it is coded for system tests without saying so")
    if kind == "spare":
        faults.append("its kind of identity is not in use")
    return _identified(
        BeaconId(
            2,
            int(part(2, 11), 2),
            kind,
            kept[:15],
            serial=int(part(31, 44), 2),
            type_approval=int(part(15, 30), 2),
            is_test=test or kind == "system-test",
            faults=tuple(faults),
        ),
        bits[48:],
    )


def _identified(base: BeaconId, field: str) -> BeaconId:
    """The id with what the 44 bits of the vessel's or aircraft's identity say."""
    kind = base.protocol
    if kind == "mmsi":
        mmsi, ais = f"{int(field[:30], 2):09}", int(field[30:44], 2)
        return replace(
            base,
            mmsi=None if mmsi == _NO_MMSI else mmsi,
            epirb_ais=None if ais == _NO_AIS else f"{ais:04}",
        )
    if kind == "callsign":
        return replace(base, call_sign=(text_of(field[:42]) or "").strip() or None)
    if kind == "aircraft-registration":
        return replace(base, aircraft=(text_of(field[:42]) or "").strip() or None)
    if kind == "aircraft-24bit":
        return replace(base, aircraft=f"{int(field[:24], 2):06X}")
    if kind == "aircraft-operator":
        return replace(
            base, aircraft_operator=letters_of_five(field[:15]), beacon_number=str(int(field[15:27], 2))
        )
    return base
