"""Who carries a beacon on the body: somebody aboard, in the jacket that it hangs on."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.told import one_for_each
from generator.manual.wearing import named
from generator.reading.nearest import nearest
from generator.shelves.procedure_files import HALF_GROWN
from generator.shelves.spaces import BELOW
from generator.survey.placing import space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, LIFE, TRUTH, Finds, Sight, check, of

if TYPE_CHECKING:
    from generator.vessel.radio import Beacon

DEVICE = "AIS man-overboard device"
_ONE = re.compile(
    r"(?:the |our )?(?!who|all\b|any|no\b|none|nobody|both|watch|crew)([a-z]+(?: [a-z]+)?(?: \d+)?)",
    re.IGNORECASE,
)
_SHOWS = re.compile(r"\bAIS\b|\bplotter\b|\bmultifunction\b", re.IGNORECASE)
_ON_A_JACKET = re.compile(r"\b(life ?jacket|jacket|vest)\b", re.IGNORECASE)


def _carrier(said: str, roles: tuple[str, ...]) -> str:
    """The one person that words name, a role aboard or not; "" where they name several, or tell more."""
    match = _ONE.fullmatch(said.strip())
    if match is None:
        return ""
    return next(
        (role for role in roles if role.lower() in (said.strip().lower(), match[1].lower())), match[1]
    )


@check("beacon.carrier", TRUTH, COMMON_PRACTICE)
def beacons_are_carried_by_people_aboard(sight: Sight) -> Finds:
    """Whoever carries a beacon is aboard.

    Why: the step sends the beacon to somebody who is not there, and nobody switches it on.
    Remedy: write under 'carried-by' one of the roles under 'people'.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        said = beacon.carried_by
        if not isinstance(said, str) or one_for_each(beacon.spot, said) or not sight.roles:
            continue
        who = _carrier(said, sight.roles)
        if who and who not in sight.roles:
            yield of(
                beacon,
                "carried-by",
                f"'{who}' carries it, who is no role aboard",
                remedy=nearest(who, sight.roles),
            )


@check("beacon.jacket-not-worn", LIFE, COMMON_PRACTICE)
def the_jacket_it_hangs_on_is_worn(sight: Sight) -> Finds:
    """A beacon that hangs on somebody's lifejacket is on one that is worn, where it is said who wears theirs.

    Why: the beacon stays in the locker with the jacket.
    Remedy: write whoever carries it under 'worn-by' of the jackets, or where the beacon hangs when the jacket is off.
    """
    vessel = sight.vessel
    people = list(vessel.people)
    worn = {who for jackets in vessel.lifejackets for who in named(jackets, people)}
    for beacon in vessel.radio.beacons if vessel.radio and worn else ():
        said = beacon.carried_by
        who = _carrier(said, sight.roles) if isinstance(said, str) else ""
        on_it = isinstance(beacon.spot, str) and _ON_A_JACKET.search(beacon.spot)
        if who in sight.roles and on_it and who not in worn:
            yield of(
                beacon,
                "spot",
                f"it hangs on a lifejacket, and {the(who)}, who carries it, wears none all the time",
            )


@check("beacon.carrier-small", HELP, COMMON_PRACTICE)
def a_beacon_is_carried_by_somebody_who_can_use_it(sight: Sight) -> Finds:
    """A PLB is carried by nobody under twelve, where a grown person is aboard.

    Why: it is unfolded, switched on and held up by hand, in cold water; a child lets go of it.
    Remedy: write under 'carried-by' a grown person; give the child what switches itself on, an AIS man-overboard device.
    """
    ages = {str(person.role): person.age for person in sight.vessel.people if person.age}
    small = {role for role, told in ages.items() if max(told) < HALF_GROWN}
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        said = beacon.carried_by
        who = _carrier(said, sight.roles) if isinstance(said, str) else ""
        if beacon.kind == "PLB" and who in small and len(small) < len(sight.roles):
            yield of(beacon, "carried-by", f"{the(who)}, who carries it, is {max(ages[who])}")


@check("beacon.device-unseen", HELP, COMMON_PRACTICE)
def somebody_aboard_sees_a_device(sight: Sight) -> Finds:
    """Where man-overboard devices are carried, something aboard shows them, or is called by them.

    Why: such a device calls the boat itself; with no AIS and no VHF that takes a digital call nobody is told who lies where.
    Remedy: list what shows AIS targets under 'gear' (AIS transponder, plotter with AIS), or say dsc: yes of the VHF if it has it.
    """
    vessel = sight.vessel
    if vessel.radio is None or not vessel.gear or not vessel.radio.sets:
        return
    devices = [each for each in vessel.radio.beacons if each.kind == "AIS man-overboard device"]
    near = [each for each in vessel.radio.sets if each.kind in ("VHF", "handheld VHF")]
    heard = not near or any(each.dsc is not False for each in near)  # with no VHF at all that is told
    seen = any(_SHOWS.search(str(each.what)) for each in vessel.gear) or any(
        _SHOWS.search(str(each.what)) for each in vessel.radio.sets
    )
    if devices and not heard and not seen:
        yield of(
            devices[0],
            "what",
            "nothing aboard shows where it is: no AIS is listed, and no VHF takes a digital call",
            also=tuple(each.place("what") for each in vessel.radio.sets[:1]),
        )


_ON_BODY = re.compile(
    r"\b(?:jackets?|vests?|belts?|pockets?|wrists?|neck|worn|harness(?:es)?|suits?|arms?|lanyard|on (?:each|everybody|him|her|them)|carries|carried|person)\b",
    re.IGNORECASE,
)
_PUT_AWAY = re.compile(
    r"\b(?:drawers?|lockers?|shel(?:f|ves)|cupboards?|cabinets?|rack|box(?:es)?|case|bracket|hook|holder|clip|bin|chest|bag)\b",
    re.IGNORECASE,
)
_NOT_NOW = re.compile(r"\b(?:when|while|until|harbour|port|otherwise|off watch|below)\b", re.IGNORECASE)


@check("beacon.put-away", LIFE, COMMON_PRACTICE)
def who_carries_a_beacon_has_it_on(sight: Sight) -> Finds:
    """A PLB or man-overboard device that somebody carries is on the body, not in a drawer, a locker or a bag.

    Why: whoever goes overboard has it below in the drawer, and nobody knows where to search.
    Remedy: wear it, and write that: spot: in the mate's lifejacket; or carried-by: none.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        carried = isinstance(beacon.carried_by, str) and beacon.carried_by.lower() not in ("none", "nobody")
        spot = beacon.spot if isinstance(beacon.spot, str) else ""
        if beacon.kind not in ("PLB", "AIS man-overboard device") or not carried:
            continue
        if _PUT_AWAY.search(spot) and not _ON_BODY.search(spot) and not _NOT_NOW.search(spot):
            yield of(
                beacon,
                "spot",
                f"'{spot}', and carried-by says {beacon.carried_by}: who goes overboard has it not",
                also=(beacon.place("carried-by"),),
            )


def _nobody(beacon: Beacon) -> bool:
    return beacon.says_none("carried-by") or str(beacon.carried_by).lower() in ("none", "nobody")


@check("beacon.nobody-carries", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_only_beacon_is_on_somebody_or_at_hand(sight: Sight) -> Finds:
    """Where PLBs are all the beacons there are, one is carried, or lies where a hand reaches it.

    Why: whoever is in the water, or on the turned hull, has nothing to call with: it lies in the locker.
    Remedy: let whoever steers carry it: carried-by: skipper, spot: in the lifejacket.
    """
    beacons = [
        each
        for each in (sight.vessel.radio.beacons if sight.vessel.radio else ())
        if each.kind in ("EPIRB", "PLB")
    ]
    if not beacons or any(each.kind == "EPIRB" or not _nobody(each) for each in beacons):
        return
    spaces = [space_of(sight, each) for each in beacons]
    if all(space is not None and (space.stows or space.level == BELOW) for space in spaces):
        yield of(
            beacons[0],
            "carried-by",
            f"nobody carries it, and it lies in the {beacons[0].where}; no other beacon is aboard",
        )


_ON_SOMEBODY = re.compile(
    r"\b((?:life ?-?)?jackets?|vests?|harness(?:es)?|belts?|body|worn|pockets?)\b", re.IGNORECASE
)


@check("beacon.device-not-worn", HELP, COMMON_PRACTICE)
def a_man_overboard_device_is_on_somebody(sight: Sight) -> Finds:
    """A device that shows who has fallen in is on a lifejacket, or somebody carries it.

    Why: whoever is in the water cannot fetch it, and the boat sails on with it in the locker.
    Remedy: fix it in a lifejacket that is worn, and write so under 'spot'; or write under 'carried-by' who has it.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        if beacon.kind != DEVICE or beacon.says("carried-by") or not beacon.known("spot"):
            continue
        if not _ON_SOMEBODY.search(str(beacon.spot)):
            yield of(beacon, "spot", "nobody carries it, and it is kept in no lifejacket")


_IN_A_RAFT = re.compile(
    r"\b(?:in|inside|packed in|sealed in|part of) (?:the |its |our |her )?(?:pack of the )?(?:(?:port|starboard|first|second) )?(?:life ?-?)?raft(?:['’]s)?(?: pack| canister| container| valise| itself)?(?=$|[,.;)])",
    re.IGNORECASE,
)


@check("beacon.packed-in-raft", LIFE, COMMON_PRACTICE)
def the_only_beacon_is_not_packed_in_a_raft(sight: Sight) -> Finds:
    """Of EPIRB and PLB one at least lies outside the raft.

    Why: nobody calls with it before the raft has opened; and where the raft is lost, so is the call.
    Remedy: keep one in a bracket by the way out, or in the grab bag, and write that place; what is packed in the raft comes on top of it.
    """
    beacons = [
        each
        for each in (sight.vessel.radio.beacons if sight.vessel.radio else ())
        if each.kind in ("EPIRB", "PLB")
    ]
    packed = [each for each in beacons if isinstance(each.spot, str) and _IN_A_RAFT.search(each.spot)]
    if packed and len(packed) == len(beacons):
        yield of(packed[0], "spot", f"'{packed[0].spot}': nobody reaches it before the raft has opened")
