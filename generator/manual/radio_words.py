"""Words of radios: what each set that the steps speak of is called, where it is, how it is switched on and where its button is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual import calling
from generator.manual.said import WHERE, Reached, Said, Word, given_word, place_word
from generator.manual.spoken import Numbers, Spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from generator.vessel.radio import Beacon, RadioSet
    from generator.vessel.vessel import Vessel

_ONE_KIND = (
    ("vhf", calling.FIXED, "what"),
    ("vhf-place", calling.FIXED, WHERE),
    ("distress-button", calling.FIXED, "distress_button"),
    ("vhf-power", calling.FIXED, "power"),
    ("handheld", calling.BY_HAND, "what"),
    ("handheld-place", calling.BY_HAND, WHERE),
    ("handheld-button", calling.BY_HAND, "distress_button"),
    ("handheld-power", calling.BY_HAND, "power"),
    ("mf-hf", calling.SHORTWAVE, "what"),
    ("satellite", calling.SATELLITE, "what"),
)
_POSITION = (("position-set", "what"), ("position-set-place", WHERE), ("position-shown", "position_shown"))
_POWER, _BUTTON, _SHOWN = "power", "distress_button", "position_shown"
_REACHED = (
    ("handheld-reached", calling.BY_HAND, (_POWER,)),
    ("handheld-button-reached", calling.BY_HAND, (_POWER, _BUTTON)),
    ("mf-hf-reached", calling.SHORTWAVE, (_POWER, _BUTTON)),
    ("mf-hf-power-reached", calling.SHORTWAVE, (_POWER,)),
    ("satellite-reached", calling.SATELLITE, (_POWER,)),
)
_SENDERS = (("sart-reached", "SART"), ("man-overboard-device-reached", "AIS man-overboard device"))


def radio_words() -> Iterator[tuple[str, Callable[[Vessel], Said | None]]]:
    """Every slot of radios, and how its word is found; None where she has no such set."""
    for slot, kind, name in _ONE_KIND:
        yield slot, _set(kind, name)
    for slot, name in _POSITION:
        yield slot, _position(name)
    for slot, kind, told in _REACHED:
        yield slot, _reached(kind, told)
    for slot, kind in _SENDERS:
        yield slot, _sender(kind)
    yield "radio-place", _place_of_the_first
    yield "position-reached", lambda vessel: _how(calling.showing_position(vessel), (_POWER, _SHOWN))
    yield "mf-hf-button-place", lambda vessel: _told(_with_button(vessel), _BUTTON)
    yield "spoken call", lambda vessel: _spoken(vessel, calling.FIRST_LINES)
    yield "spoken identity", lambda vessel: _spoken(vessel, calling.identity(vessel))
    yield (
        "identity",
        lambda vessel: _spoken(vessel, lines) if (lines := calling.identity(vessel)[:-1]) else None,
    )
    yield "rescue numbers", _numbers


def _set(kind: str, name: str) -> Callable[[Vessel], Said | None]:
    """A value of the radio of a kind that steps speak of; its place where `name` is "where"."""
    return lambda vessel: _told(calling.set_of(vessel, kind), name)


def _position(name: str) -> Callable[[Vessel], Said | None]:
    """A value of the radio that the position is read off."""
    return lambda vessel: _told(calling.showing_position(vessel), name)


def _place_of_the_first(vessel: Vessel) -> Said | None:
    """Where the set is to which somebody goes to call."""
    return _told(calling.calls_first(vessel), WHERE)


def _with_button(vessel: Vessel) -> RadioSet | None:
    """The MF/HF set, where the file says where its button is."""
    found = calling.set_of(vessel, calling.SHORTWAVE)
    return found if found is not None and found.known(_BUTTON) else None


def _told(radio: RadioSet | None, name: str) -> Said | None:
    return None if radio is None else given_word(radio, name)


def _reached(kind: str, told: tuple[str, ...]) -> Callable[[Vessel], Said | None]:
    """Where the radio of a kind is, and how it is worked, as far as the file says so."""
    return lambda vessel: _how(calling.set_of(vessel, kind), told)


def _how(block: RadioSet | Beacon | None, told: tuple[str, ...]) -> Said | None:
    if block is None:
        return None
    place = place_word(block)
    return Reached(block, WHERE, told) if isinstance(place, Word) else place


def _sender(kind: str) -> Callable[[Vessel], Said | None]:
    """Where the first device of a kind is, and how it is switched on, if the file says so."""

    def said(vessel: Vessel) -> Said | None:
        beacons = vessel.radio.beacons if vessel.radio is not None else ()
        return _how(next((each for each in beacons if each.kind == kind), None), ("use",))

    return said


def _spoken(vessel: Vessel, lines: tuple[calling.Line, ...]) -> Said | None:
    one = vessel.vessel
    return Spoken(one, "name", lines, vessel.radio) if one is not None else None


def _numbers(vessel: Vessel) -> Said | None:
    """The telephone numbers of rescue centres that everybody may read; None where there is none."""
    found = calling.rescue_numbers(vessel)
    return Numbers(found[0], "phone", found) if found else None
