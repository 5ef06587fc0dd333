"""Facts of what is fitted aboard: stops and pumps by how they are worked, alarms, gates, drives, and what serves when she lies upside down.

Each is a name, what is so where it is true, and how that is seen; they join the facts of the vessel.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from generator.manual.alarms import alarms_for
from generator.manual.calling import calls_first, floats_free, rescue_numbers
from generator.manual.crew import several_in_command
from generator.manual.extinguishing import flooding, suffocates_of_some, suffocating
from generator.manual.extinguishing import told_apart as apart_extinguishers
from generator.manual.wearing import everybody_wears_theirs, some_wear_theirs
from generator.reading.values import untold
from generator.vessel.alarms import Alarm
from generator.vessel.capsize import FLOATS, SINKS
from generator.vessel.fittings import Located
from generator.vessel.gear import does
from generator.vessel.installed import Stop

if TYPE_CHECKING:
    from generator.vessel.deck import Hatch
    from generator.vessel.fittings import Fitting, Kept
    from generator.vessel.installed import Engine, Pump
    from generator.vessel.vessel import Vessel

True_ = Callable[["Vessel"], bool]


def stops_worked(vessel: Vessel, what: str, *, electric: bool) -> list[Stop]:
    """The stops of a kind that the file says are electric, or all the others."""
    return [each for each in vessel.stops if each.what == what and (each.electric is True) == electric]


def spare_kill_cords(vessel: Vessel) -> list[Kept]:
    """The spares of kill cords whose place the file tells."""
    return [
        each.spare for each in vessel.stops if each.what == "kill cord" and isinstance(each.spare, Located)
    ]


def told_apart(stops: Sequence[Stop]) -> bool:
    """Whether there are several stops, worked differently, and the file says what one of them serves."""
    ways = {(str(each.how), each.from_outside) for each in stops}
    return len(ways) > 1 and any(each.known("serves") for each in stops)


def deck_pumps(vessel: Vessel) -> list[Pump]:
    """The hand pumps that the file says are worked from on deck."""
    return [each for each in vessel.pumps if each.power == "hand" and each.from_deck is True]


def driven(vessel: Vessel) -> list[Engine]:
    """The engines of which the file says what they turn."""
    return [each for each in vessel.engines if each.known("what", "drive")]


def _jets_alone(vessel: Vessel) -> bool:
    return bool(driven(vessel)) and all(each.drive == "jet" for each in driven(vessel))


def _pumps_below_only(vessel: Vessel) -> bool:
    hand = [each for each in vessel.pumps if each.power == "hand"]
    return bool(hand) and all(each.from_deck is False for each in hand)


def ways_out_inverted(vessel: Vessel) -> list[Hatch]:
    """The hatches that serve as a way out when she lies upside down."""
    return [each for each in vessel.escape if each.serves_inverted is True]


def ways_out(vessel: Vessel) -> list[Hatch]:
    """The ways out that somebody inside can open, where there are several, for one may be barred; those upside down last."""
    found = [each for each in vessel.escape if each.opens != "outside"]
    found.sort(key=lambda each: each.serves_inverted is True)
    return found if len(found) > 1 else []


def ways_in(vessel: Vessel) -> list[Hatch]:
    """The ways out that the file says are opened from outside too: by them somebody is reached who cannot open one."""
    return [each for each in vessel.escape if each.opens in ("outside", "both")]


def to_hold_on_to(vessel: Vessel) -> list[Fitting]:
    """What there is to hold on to when she lies upside down."""
    return list(vessel.capsize.hold_on) if vessel.capsize is not None else []


def reached_inverted(vessel: Vessel) -> list[Fitting]:
    """What is reached from outside when she lies upside down."""
    return list(vessel.capsize.reached) if vessel.capsize is not None else []


def _stops() -> list[tuple[str, str, True_]]:
    return [
        fact
        for what in Stop.what.choices
        for fact in (
            (
                f"{what} stop without a spark",
                f"A stop for this is described that is not said to be electric: {what}",
                _worked(what, electric=False),
            ),
            (
                f"{what} stop by hand",
                f"Those not said to be electric are all said not to be: {what}",
                _by_hand(what),
            ),
            (
                f"electric {what} stop",
                f"A stop for this is said to be electric: {what}",
                _worked(what, electric=True),
            ),
            (
                f"{what} stops told apart",
                f"Several are worked differently, and the file says which engine or space one serves: {what}",
                _told_apart(what),
            ),
        )
    ]


def _worked(what: str, *, electric: bool) -> True_:
    return lambda vessel: bool(stops_worked(vessel, what, electric=electric))


def _told_apart(what: str) -> True_:
    return lambda vessel: told_apart([each for each in vessel.stops if each.what == what])


def _by_hand(what: str) -> True_:
    def true(vessel: Vessel) -> bool:
        found = stops_worked(vessel, what, electric=False)
        return bool(found) and all(each.electric is False for each in found)

    return true


def _alarms() -> list[tuple[str, str, True_]]:
    return [
        (
            f"{what} alarm told",
            f"The file says which spaces an alarm for this listens to: {what}",
            _told(what),
        )
        for what in Alarm.what.choices
    ]


def _told(what: str) -> True_:
    return lambda vessel: bool(alarms_for(vessel, what))


def _several_engines(vessel: Vessel) -> bool:
    return len(vessel.engines) > 1


def _beacon(vessel: Vessel) -> bool:
    return vessel.radio is not None and any(each.kind in ("EPIRB", "PLB") for each in vessel.radio.beacons)


def _device_told(vessel: Vessel) -> bool:
    beacons = vessel.radio.beacons if vessel.radio is not None else ()
    first = next((each for each in beacons if each.kind == "AIS man-overboard device"), None)
    return first is not None and first.known("use")


def _has_that(*properties: str) -> True_:
    """Whether something of the gear list has all of these properties."""
    return lambda vessel: any(all(does(item, each) for each in properties) for item in vessel.gear)


FLARES = ("shows distress", "must be dated")
BROUGHT = (("drinking water",), FLARES, ("keeps warm",))
"""What is brought along when the boat is left, by the properties of such gear."""


def things_to_bring(vessel: Vessel) -> list[tuple[str, ...]]:
    """Those sorts of things to be brought along that the gear list has."""
    return [sort for sort in BROUGHT if _has_that(*sort)(vessel)]


FITTING_FACTS: tuple[tuple[str, str, True_], ...] = (
    *_stops(),
    *_alarms(),
    (
        "fixed extinguisher of CO2",
        "The file says that a fixed extinguisher sends out CO2",
        lambda vessel: bool(suffocating(vessel)),
    ),
    (
        "fixed extinguishers told apart",
        "There are several fixed extinguishers, and the file says what each is for",
        lambda vessel: apart_extinguishers(flooding(vessel)),
    ),
    (
        "some fixed extinguishers of CO2",
        "Of several fixed extinguishers told apart some send out CO2 and others do not",
        suffocates_of_some,
    ),
    (
        "hand pump from deck",
        "The file says that a hand pump is worked from on deck",
        lambda vessel: bool(deck_pumps(vessel)),
    ),
    (
        "hand pumps below only",
        "The file says of every hand pump that it is not worked from on deck",
        _pumps_below_only,
    ),
    (
        "propeller told",
        "The file says what her engines turn, and one turns a propeller",
        lambda vessel: bool(driven(vessel)) and not _jets_alone(vessel),
    ),
    ("jets alone", "The file says what her engines turn, and all of it is jets", _jets_alone),
    (
        "floats when swamped",
        "Full of water she still floats",
        lambda vessel: vessel.capsize is not None and vessel.capsize.swamped in FLOATS,
    ),
    (
        "sinks when swamped",
        "The file says that she sinks when she is full of water",
        lambda vessel: vessel.capsize is not None and vessel.capsize.swamped == SINKS,
    ),
    (
        "righted by her people",
        "Her own people can turn her upright",
        lambda vessel: vessel.capsize is not None and vessel.capsize.righted is True,
    ),
    (
        "held on to upside down",
        "The file says what there is to hold on to when she lies upside down",
        lambda vessel: bool(to_hold_on_to(vessel)),
    ),
    (
        "things reached upside down",
        "The file says what is reached from outside when she lies upside down",
        lambda vessel: bool(reached_inverted(vessel)),
    ),
    (
        "other ways out",
        "There is more than one way out that somebody inside can open",
        lambda vessel: bool(ways_out(vessel)),
    ),
    (
        "ways out told how",
        "The file says of each of these ways out how it is opened",
        lambda vessel: all(each.known("how") for each in ways_out(vessel)),
    ),
    (
        "ways in",
        "The file says of a way out that it is opened from outside too",
        lambda vessel: bool(ways_in(vessel)),
    ),
    (
        "way out upside down",
        "The file says which way out serves when she lies upside down",
        lambda vessel: bool(ways_out_inverted(vessel)),
    ),
    (
        "everybody wears a lifejacket",
        "Everybody aboard wears a lifejacket all the time, and there are no rooms below to take it off in",
        everybody_wears_theirs,
    ),
    ("lifejackets worn", "Somebody aboard wears a lifejacket all the time", some_wear_theirs),
    (
        "spare kill cord",
        "The file says where a spare kill cord is",
        lambda vessel: bool(spare_kill_cords(vessel)),
    ),
    ("several engines", "The file describes more than one engine", _several_engines),
    (
        "every hole without a plug",
        "The file says of every hole through the hull that no plug is kept beside it",
        lambda vessel: (
            bool(vessel.through_hulls) and all(each.says_none("plug") for each in vessel.through_hulls)
        ),
    ),
    (
        "a hole without its plug",
        "Of a hole through the hull no plug is told, or that there is none",
        lambda vessel: any(untold(each.plug) for each in vessel.through_hulls),
    ),
    (
        "another in command",
        "Somebody else can take the command where whoever has it is down",
        lambda vessel: several_in_command(vessel.people),
    ),
    (
        "radio aboard",
        "There is a set on which somebody calls: a VHF, an MF/HF set or a satellite telephone",
        lambda vessel: calls_first(vessel) is not None,
    ),
    ("beacon", "There is an EPIRB or a personal locator beacon", _beacon),
    ("float-free beacon", "The file says that the first EPIRB floats free", floats_free),
    (
        "rescue number",
        "The telephone number of a rescue centre is among the contacts, for everybody to read",
        lambda vessel: bool(rescue_numbers(vessel)),
    ),
    (
        "man-overboard device told how",
        "The file says how the first AIS man-overboard device is switched on",
        _device_told,
    ),
    ("flares", "The gear list has signals that burn or smoke and are seen from afar", _has_that(*FLARES)),
    ("moved by hand", "Something of the gear list moves her by hand", _has_that("moves her by hand")),
    (
        "things to bring",
        "The gear list has water, flares or what keeps people warm",
        lambda vessel: bool(things_to_bring(vessel)),
    ),
    (
        "water and flares to bring",
        "The gear list has both water and flares",
        lambda vessel: set(BROUGHT[:2]) <= set(things_to_bring(vessel)),
    ),
    (
        "gate for recovery",
        "A gate in the rail is opened to get somebody aboard",
        lambda vessel: vessel.recovery is not None and vessel.recovery.gate is not None,
    ),
)
