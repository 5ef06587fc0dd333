"""Identities of 406 MHz distress beacons: what a 15- or 23-hex id, or a whole message, says.

Sources: first generation C/S T.001 Rev. 12 of October 2024 (Annexes A and B), second generation C/S T.018 Rev. 12 of October 2024.
Bits are numbered as in T.001: the id is message bits 26 to 85; bit 25 and the BCH code are only in a whole message.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from generator.calc.baudot import letters_of_five, text_of
from generator.calc.beacon_id import BeaconId, NoBeaconId
from generator.calc.beacon_second import decode_second

ID_15, ID_23, SHORT_MESSAGE, LONG_MESSAGE = 15, 23, 22, 30
_BCH_1 = 0b1001101101100111100011  # generator of BCH-1, T.001 Annex B1
_USER = {
    "000": "orbitography",
    "001": "aviation-user",
    "010": "maritime-user",
    "011": "serial-user",
    "100": "national-user",
    "101": "sgb-subset",
    "110": "radio-callsign-user",
    "111": "test-user",
}
_LOCATION = {
    "0010": ("standard-location", "EPIRB"),
    "0011": ("standard-location", "ELT"),
    "0100": ("standard-location", "ELT"),
    "0101": ("standard-location", "ELT"),
    "0110": ("standard-location", "EPIRB"),
    "0111": ("standard-location", "PLB"),
    "1000": ("national-location", "ELT"),
    "1010": ("national-location", "EPIRB"),
    "1011": ("national-location", "PLB"),
    "1001": ("elt-dt-location", "ELT"),
    "1100": ("standard-location", "ship-security"),
    "1101": ("rls-location", ""),
    "1110": ("standard-location", "test"),
    "1111": ("national-location", "test"),
}
_SERIAL = {
    "000": "ELT",
    "001": "ELT aircraft-operator",
    "010": "EPIRB float-free",
    "011": "ELT aircraft-24bit",
    "100": "EPIRB non-float-free",
    "110": "PLB",
}
_Part = Callable[[int, int], str]
"""Gives the bits from a first to a last one, numbered as the standard has them."""

_HOMING = {"00": "none", "01": "121.5 MHz", "10": "9 GHz SART", "11": "other"}
# default position bits and the first of them, T.001 A3.2 and A3.3.5 to A3.3.7
_POSITION = {
    "standard-location": (65, "011111111101111111111"),
    "national-location": (59, "011111110000001111111100000"),
    "rls-location": (67, "0111111110111111111"),
    "elt-dt-location": (67, "0111111110111111111"),
}


def plain(text: str) -> str:
    """The hexadecimal characters of an id as written on a label, in capitals; raises NoBeaconId.

    >>> plain("adcd0 08004 40401")
    'ADCD00800440401'
    """
    kept = re.sub(r"[\s-]", "", text).upper()
    odd = sorted(set(kept) - set("0123456789ABCDEF"))
    if odd:
        looks = {"O": "0", "I": "1", "L": "1", "S": "5", "Z": "2", "Q": "0", "G": "6"}
        hints = ", ".join(
            f"{letter} (is it {looks[letter]}?)" if letter in looks else letter for letter in odd
        )
        raise NoBeaconId(f"an id has only 0 to 9 and A to F; it holds {hints}")
    return kept


def decode(text: str) -> BeaconId:
    """What a 15-hex or 23-hex id, or a whole first-generation message of 22 or 30 hex, says.

    Raises NoBeaconId for another length or other characters.

    >>> decode("ADCD00800440401").country_code
    366
    """
    kept = plain(text)
    if len(kept) == ID_23:
        return decode_second(kept)
    if len(kept) == ID_15:
        return _first(_bits(kept), kept)
    if len(kept) in (SHORT_MESSAGE, LONG_MESSAGE):
        return _message(kept)
    raise NoBeaconId(
        f"an id has 15 characters (23 for a second-generation beacon), a whole message 22 or 30; this has {len(kept)}"
    )


def bch_1(bits: str) -> str:
    """The 21 check bits of the 61 bits 25 to 85 (T.001 Annex B1)."""
    rest = int(bits, 2) << 21
    for shift in range(len(bits) - 1, -1, -1):
        if rest >> (shift + 21) & 1:
            rest ^= _BCH_1 << shift
    return f"{rest:021b}"


def _bits(kept: str) -> str:
    return f"{int(kept, 16):0{len(kept) * 4}b}"


def _message(kept: str) -> BeaconId:
    """A whole message: bits 25 to 112 or 144; the id within it, with its position overwritten by the default."""
    bits = _bits(kept)
    inner = bits[1:61]
    found = _first(inner, f"{int(inner, 2):015X}")
    return replace(found, bch_right=bch_1(bits[:61]) == bits[61:82])


def _first(bits: str, kept: str) -> BeaconId:
    """Decodes the 60 bits of a first-generation id."""

    def part(first: int, last: int) -> str:
        return bits[first - 26 : last - 25]

    country = int(part(27, 36), 2)
    if part(26, 26) == "1":
        protocol = _USER[part(37, 39)]
        base = BeaconId(1, country, protocol, kept)
        read = {
            "maritime-user": _maritime,
            "radio-callsign-user": _radio,
            "serial-user": _serial,
            "aviation-user": _aviation,
        }.get(protocol)
        if read:
            return read(base, part)
        faults = {
            "orbitography": ("it is coded for calibration, not for a beacon",),
            "sgb-subset": ("its code belongs to the first 15 characters of a second-generation id",),
        }.get(protocol, ())
        return replace(
            base,
            is_test=protocol == "test-user",
            beacon_type="test" if protocol == "test-user" else None,
            faults=faults,
        )
    code = part(37, 40)
    if code not in _LOCATION:
        return BeaconId(
            1, country, "spare", kept, beacon_type="spare", faults=("its protocol code is not in use",)
        )
    protocol, kind = _LOCATION[code]
    first, default = _POSITION[protocol]
    position = bits[first - 26 :]
    canonical = f"{int(bits[: first - 26] + default, 2):015X}"
    base = BeaconId(
        1,
        country,
        protocol,
        canonical,
        beacon_type=kind,
        position_default=position == default,
        is_test=kind == "test",
    )
    if protocol == "rls-location":
        return _return_link(base, part)
    if protocol == "elt-dt-location":
        return _tracking(base, part)
    if protocol == "national-location":
        return base if kind == "test" else replace(base, serial=int(part(41, 58), 2))
    return _standard(base, code, part)


def _maritime(base: BeaconId, part: _Part) -> BeaconId:
    words = text_of(part(40, 75))
    number = text_of(part(76, 81))
    faults = _spare(part) + (
        () if words is not None and number is not None else ("it holds a character that does not exist",)
    )
    found = replace(
        base, beacon_type="EPIRB", beacon_number=number, homing=_HOMING[part(84, 85)], faults=faults
    )
    words = (words or "").strip()
    if re.fullmatch(r"\d{6}", words):
        return replace(found, mmsi=f"{base.country_code:03}{words}")
    return replace(found, call_sign=words or None)


def _radio(base: BeaconId, part: _Part) -> BeaconId:
    letters, number = text_of(part(40, 63)), text_of(part(76, 81))
    digits = [int(part(n, n + 3), 2) for n in (64, 68, 72)]
    faults = _spare(part)
    if letters is None or number is None or any(digit > 10 for digit in digits):
        faults += ("it holds a character that does not exist",)
    tail = "".join(str(digit) for digit in digits if digit < 10)
    return replace(
        base,
        beacon_type="EPIRB",
        call_sign=((letters or "").strip() + tail) or None,
        beacon_number=number,
        homing=_HOMING[part(84, 85)],
        faults=faults,
    )


def _spare(part: _Part) -> tuple[str, ...]:
    return () if part(82, 83) == "00" else ("two bits that must be zero are not",)


def _serial(base: BeaconId, part: _Part) -> BeaconId:
    kind = _SERIAL.get(part(40, 42))
    approved = part(43, 43) == "1"
    found = replace(
        base,
        beacon_type=kind or "spare",
        homing=_HOMING[part(84, 85)],
        type_approval=int(part(74, 83), 2) if approved else None,
        faults=() if kind else ("its kind of beacon is not in use",),
    )
    if kind == "ELT aircraft-24bit":
        return replace(found, aircraft=f"{int(part(44, 67), 2):06X}", beacon_number=str(int(part(68, 73), 2)))
    if kind == "ELT aircraft-operator":
        return replace(found, aircraft_operator=text_of(part(44, 61)), serial=int(part(62, 73), 2))
    return replace(found, serial=int(part(44, 63), 2))


def _aviation(base: BeaconId, part: _Part) -> BeaconId:
    words = text_of(part(40, 81))
    return replace(
        base,
        beacon_type="ELT",
        aircraft=(words or "").strip() or None,
        beacon_number=str(int(part(82, 83), 2)),
        homing=_HOMING[part(84, 85)],
        faults=() if words is not None else ("it holds a character that does not exist",),
    )


def _standard(base: BeaconId, code: str, part: _Part) -> BeaconId:
    if code in ("0010", "1100"):
        return replace(
            base,
            mmsi=f"{base.country_code:03}{int(part(41, 60), 2):06}",
            beacon_number=str(int(part(61, 64), 2)),
        )
    if code == "0011":
        return replace(base, aircraft=f"{int(part(41, 64), 2):06X}")
    if code == "0101":
        return replace(base, aircraft_operator=letters_of_five(part(41, 55)), serial=int(part(56, 64), 2))
    if code == "1110":
        return base
    return replace(base, type_approval=int(part(41, 50), 2), serial=int(part(51, 64), 2))


def _return_link(base: BeaconId, part: _Part) -> BeaconId:
    kind = part(41, 42)
    if part(43, 46) == "1111":
        names = {"00": "EPIRB", "01": "EPIRB (second)", "10": "PLB", "11": "test"}
        return replace(
            base,
            beacon_type=names[kind],
            mmsi=f"{base.country_code:03}{int(part(47, 66), 2):06}",
            is_test=kind == "11",
            beacon_number={"00": "0", "01": "1"}.get(kind),
        )
    names, series = (
        {"00": "ELT", "01": "EPIRB", "10": "PLB", "11": "test"},
        {"00": 2000, "01": 1000, "10": 3000, "11": 0},
    )
    return replace(
        base,
        beacon_type=names[kind],
        type_approval=series[kind] + int(part(43, 52), 2),
        serial=int(part(53, 66), 2),
        is_test=kind == "11",
    )


def _tracking(base: BeaconId, part: _Part) -> BeaconId:
    identity = part(43, 66)
    if len(set(identity)) == 1:
        return replace(base, is_test=True)
    kind = part(41, 42)
    if kind == "00":
        return replace(base, aircraft=f"{int(identity, 2):06X}")
    if kind == "01":
        return replace(base, aircraft_operator=letters_of_five(part(43, 57)), serial=int(part(58, 66), 2))
    return replace(base, type_approval=int(part(43, 52), 2), serial=int(part(53, 66), 2))
