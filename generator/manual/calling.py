"""Which of her sets a distress call is made on: whose button is pressed, which is spoken into, which shows the position."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.vessel.particulars import RESCUE_CENTRE, Contact

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.radio import RadioSet
    from generator.vessel.vessel import Vessel

FIXED, BY_HAND, SHORTWAVE, SATELLITE = "VHF", "handheld VHF", "MF/HF", "satellite telephone"
SPOKEN_INTO = (FIXED, BY_HAND, SHORTWAVE)
"""The kinds of set that the whole call is said on: the first of them that she has, for it carries farthest at once."""


@dataclass(frozen=True)
class Line:
    """A line of the words to speak: its label, and with what of hers it is filled."""

    label: str
    filled_with: tuple[str, ...] = ()


FIRST_LINES = (Line("distress.mayday"), Line("distress.this-is", ("boat",)))
_CALL_SIGN, _MMSI = Line("distress.call-sign", ("call_sign",)), Line("distress.mmsi", ("mmsi",))
_AGAIN = Line("distress.mayday-again", ("boat",))


def identity(vessel: Vessel) -> tuple[Line, ...]:
    """The lines that say who she is, those that she can fill in, behind the first ones; the message begins with the last."""
    radio = vessel.radio
    told = [
        line
        for line, name in ((_CALL_SIGN, "call_sign"), (_MMSI, "mmsi"))
        if radio is not None and radio.known(name)
    ]
    return (*told, _AGAIN)


def rescue_numbers(vessel: Vessel) -> tuple[Contact, ...]:
    """The rescue centres of which a telephone number may be read by everybody."""
    return tuple(
        each
        for each in vessel.contacts
        if each.kind == RESCUE_CENTRE and each.known("phone") and each.is_freed(Contact.phone)
    )


def sets_of(vessel: Vessel) -> Sequence[RadioSet]:
    """Her radios."""
    return vessel.radio.sets if vessel.radio is not None else ()


def set_of(vessel: Vessel, kind: str) -> RadioSet | None:
    """The set of a kind that steps speak of: the first that makes a digital distress call, else the first; None without one."""
    alike = [each for each in sets_of(vessel) if each.kind == kind]
    return next((each for each in alike if each.dsc is True), alike[0] if alike else None)


def with_dsc(vessel: Vessel, kind: str) -> bool:
    """Whether a set of the kind makes a digital distress call."""
    found = set_of(vessel, kind)
    return found is not None and found.dsc is True


def always_on(vessel: Vessel, kind: str) -> bool:
    """Whether the file says that the set of the kind is always on."""
    found = set_of(vessel, kind)
    return found is not None and found.always_on


def floats_free(vessel: Vessel) -> bool:
    """Whether the file says that the EPIRB that steps speak of leaves its bracket by itself."""
    beacons = vessel.radio.beacons if vessel.radio is not None else ()
    first = next((each for each in beacons if each.kind == "EPIRB"), None)
    return first is not None and first.release == "float-free"


def spoken_into(vessel: Vessel) -> RadioSet | None:
    """The set that the whole call is said on; None where she has nothing but a telephone, or nothing."""
    return next((found for kind in SPOKEN_INTO if (found := set_of(vessel, kind))), None)


def calls_first(vessel: Vessel) -> RadioSet | None:
    """The set to which somebody goes to call: the one spoken into, else a satellite telephone; None where she has neither."""
    return spoken_into(vessel) or set_of(vessel, SATELLITE)


def showing_position(vessel: Vessel) -> RadioSet | None:
    """The set that the position is read off: the one spoken into, if the file says where it shows it, else the next that does."""
    in_hand = spoken_into(vessel)
    every = [each for each in sets_of(vessel) if each.known("position_shown")]
    if in_hand in every:
        return in_hand
    order = (*SPOKEN_INTO, SATELLITE)
    every.sort(key=lambda each: order.index(str(each.kind)) if each.kind in order else len(order))
    return every[0] if every else None


def position_in_hand(vessel: Vessel) -> bool:
    """Whether the set spoken into shows the position."""
    found = showing_position(vessel)
    return found is not None and found is spoken_into(vessel)


def position_elsewhere(vessel: Vessel) -> bool:
    """Whether another set than the one spoken into shows the position."""
    found = showing_position(vessel)
    return found is not None and found is not spoken_into(vessel)
