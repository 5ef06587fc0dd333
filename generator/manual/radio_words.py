"""Words of radios: what each set that the steps speak of is called, where it is, how it is switched on and where its button is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual import calling
from generator.manual.said import WHERE, Reached, Said, Word, all_of, given_word, place_word

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from generator.vessel.radio import RadioSet
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


def radio_words() -> Iterator[tuple[str, Callable[[Vessel], Said | None]]]:
    """Every slot of radios, and how its word is found; None where she has no such set."""
    for slot, kind, name in _ONE_KIND:
        yield slot, _set(kind, name)
    for slot, name in _POSITION:
        yield slot, _position(name)
    yield "mf-hf-reached", _reached(calling.SHORTWAVE)
    yield "satellite-reached", _reached(calling.SATELLITE)
    yield "other-sets-reached", _reached(calling.SHORTWAVE, calling.SATELLITE)


def _set(kind: str, name: str) -> Callable[[Vessel], Said | None]:
    """A value of the radio of a kind that steps speak of; its place where `name` is "where"."""
    return lambda vessel: _told(calling.set_of(vessel, kind), name)


def _position(name: str) -> Callable[[Vessel], Said | None]:
    """A value of the radio that the position is read off."""
    return lambda vessel: _told(calling.showing_position(vessel), name)


def _told(radio: RadioSet | None, name: str) -> Said | None:
    return None if radio is None else given_word(radio, name)


def _reached(*kinds: str) -> Callable[[Vessel], Said | None]:
    """Where the radio of each kind is and how it is switched on; each by its name where they are of several kinds."""

    def said(vessel: Vessel) -> Said | None:
        sets = [calling.set_of(vessel, kind) for kind in kinds]
        found = [(each, place_word(each)) for each in sets if each is not None]
        places = [
            Reached(each, WHERE, len(kinds) > 1) if isinstance(place, Word) else place
            for each, place in found
        ]
        return all_of(places) if places else None

    return said
