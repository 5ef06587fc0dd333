"""What a boat of her type, waters and use must speak of and does not: nothing about it was looked at. `none` counts as said, `unknown` does not."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from generator.vessel.alarms import DOES
from generator.vessel.base_file import KIND
from generator.vessel.particulars import FAR, LET_OUT, Particulars
from generator.vessel.vessel import Vessel


class _Boat(NamedTuple):
    """A boat with what she is."""

    one: Particulars
    whole: Vessel


_Holds = Callable[[_Boat], bool]


class Subject(NamedTuple):
    """Something a description may keep silent about.

    `key` is where it is told; `asked` says of which boats it must be; `elsewhere` where another place of the file tells as much.
    """

    key: str
    asked: _Holds
    elsewhere: _Holds = lambda _: False

    def said(self, boat: _Boat) -> bool:
        """Whether the file speaks of it: with an entry, or with `none`."""
        block, _, inner = self.key.rpartition(".")
        holder = getattr(boat.whole, block) if block else boat.whole
        return not holder or holder.answers(inner) or self.elsewhere(boat)


def _out_of_shelter(boat: _Boat) -> bool:
    return boat.one.waters != "sheltered"


def _several(boat: _Boat) -> bool:
    return boat.one.persons != 1


def _has_an_engine(boat: _Boat) -> bool:
    return boat.one.engine != "none"


def _closed_in(boat: _Boat) -> bool:
    return boat.one.hull.closed_in


def _rooms_below(boat: _Boat) -> bool:
    return boat.one.hull.has_rooms


def _has_current(boat: _Boat) -> bool:
    sets = boat.whole.radio.sets if boat.whole.radio else ()
    return (
        boat.one.inboard_engine
        or any(pump.power == "electric" for pump in boat.whole.pumps)
        or any(each.kind in ("VHF", "MF/HF") for each in sets)
    )


def _not_bailed(boat: _Boat) -> bool:
    return not boat.one.hull.is_bailed or boat.one.waters in FAR


def _holed(boat: _Boat) -> bool:
    return boat.one.hull.has_rooms or boat.one.inboard_engine


def _far(boat: _Boat) -> bool:
    return boat.one.waters in FAR


def _may_lie_full(boat: _Boat) -> bool:
    return not boat.one.hull.closed_in or boat.one.hull.multihull is True


def _days_on_end(boat: _Boat) -> bool:
    return boat.one.waters == "ocean" and _several(boat)


def _alarm_in_the_list(boat: _Boat) -> bool:
    return bool(boat.whole.gear_that(*DOES.values()))


def _medicine_in_the_list(boat: _Boat) -> bool:
    return any(item.kind == "medical" for item in boat.whole.gear)


def _base_among_contacts(boat: _Boat) -> bool:
    return any(each.kind == KIND for each in boat.whole.contacts)


SUBJECTS = (
    Subject("rafts", _out_of_shelter),
    Subject("station-bill", _several),
    Subject("radio.beacons", _out_of_shelter),
    Subject("grab-bags", _far),
    Subject("recovery", lambda _: True),
    Subject("stops", _has_an_engine),
    Subject("gas", _closed_in),
    Subject("steering", _rooms_below),
    Subject("escape", _rooms_below),
    Subject("alarms", _rooms_below, _alarm_in_the_list),
    Subject("capsize", _may_lie_full),
    Subject("contacts", _out_of_shelter),
    Subject("batteries", _has_current),
    Subject("pumps", _not_bailed),
    Subject("through-hulls", _holed),
    Subject("medical", _out_of_shelter, _medicine_in_the_list),
    Subject("watches", _days_on_end),
    Subject("voyage.raise-alarm", _out_of_shelter),
    Subject("base", lambda boat: boat.one.use == "charter", _base_among_contacts),
    Subject("vessel.rule-set", lambda boat: boat.one.use in LET_OUT),
)
"""In the order of the file."""


def silence(subject: Subject, say: Callable[[str], str]) -> str:
    """What is said of a subject that the file does not speak of, in the words of a language."""
    return say(f"not-said.{subject.key}")


def not_said(vessel: Vessel) -> tuple[Subject, ...]:
    """The subjects that the file of a boat like her must speak of, and does not; none where it does not say what she is."""
    one = vessel.vessel
    if not one:
        return ()
    boat = _Boat(one, vessel)
    return tuple(each for each in SUBJECTS if each.asked(boat) and not each.said(boat))
