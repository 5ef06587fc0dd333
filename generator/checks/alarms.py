"""Alarms: each told once, and heard where people are."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.reading.nearest import folded, shortened
from generator.reading.values import all_known
from generator.shelves.gear import kinds_that
from generator.shelves.spaces import BELOW
from generator.survey.places import space_at
from generator.survey.placing import Lies, a_room, berths, lies, lies_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import DOES, WARNS_OF_GAS, Alarm
from generator.vessel.gear import gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.survey.registry import Found
    from generator.vessel.gear import Gear


@check("alarms.twice", FORM, COMMON_PRACTICE)
def each_alarm_is_told_once(sight: Sight) -> Finds:
    """Each alarm stands once in the file: under 'alarms' or in the gear list, with its quantity.

    Why: one of the two is counted on, and is not there.
    Remedy: keep the line under 'alarms', with 'quantity' where several hang in one place, and take the other out.
    """
    for what, does_what in DOES.items():
        told = [each for each in sight.vessel.alarms if each.what == what and each.known("where")]
        for number, alarm in enumerate(told):
            yield from _again(alarm, [each for each in told[:number] if _place(each) == _place(alarm)])
            listed = sight.vessel.gear_that(does_what)
            yield from _again(alarm, [each for each in listed if _place(each)[:2] == _place(alarm)[:2]])


def _again(alarm: Alarm, others: list[Alarm] | list[Gear]) -> Iterator[Found]:
    for other in others[:1]:
        yield at(
            alarm,
            "what",
            f"the alarm for {alarm.what} in the {alarm.where} is told twice",
            item=f"{alarm.what} alarm, {alarm.where}",
            also=(other.place("what"),),
        )


def _place(each: Alarm | Gear) -> tuple[str, ...]:
    """Where an alarm hangs, as it is compared: space, side, spot."""
    return tuple(folded(str(said or "")) for said in (each.where, each.side, each.spot))


NOBODY_IN = re.compile(
    r"\b(?:locker|bilge|lazarette|void|(?:fore|after|aft)peak|chain|steering space|tank|trunk|hold)\b"
)


@check("alarms.unheard", LIFE, COMMON_PRACTICE)
def alarms_sound_where_people_are(sight: Sight) -> Finds:
    """Each alarm is heard in a space that people are in, not only in the engine space, a locker or the bilge.

    Why: behind a shut hatch with the engine running nobody hears it, asleep or on watch.
    Remedy: listen to it with the hatch shut, and write under 'sounds-in' where it is heard; else fit a repeater there.
    """
    slept = [here.space for here, _ in berths(sight).values()] if sight.vessel.alarms else []
    for alarm in sight.vessel.alarms:
        said = [space_at(sight, where) for where in alarm.sounds_in or ()]
        heard = said or [space_at(sight, alarm.where)]
        nobody = all(
            space is not None and space not in slept and (space.engine or NOBODY_IN.search(space.name))
            for space in heard
        )
        if nobody:
            yield at(
                alarm,
                "sounds-in" if alarm.sounds_in else "where",
                f"the alarm for {alarm.what} is heard in no space that people are in",
                item=f"{alarm.what} alarm, {alarm.where}",
                weight=DEFECT if alarm.sounds_in else None,
            )
            continue
        for number, space in enumerate(said):
            shut = (
                space is not None
                and (space.stows or space.exposed)
                and space.level != BELOW
                and not (space.engine or space in slept)
            )
            if space is not None and shut:
                yield at(
                    alarm,
                    f"sounds-in[{number}]",
                    f"the alarm for {alarm.what} is said to sound in the {space.name}, where nobody hears it",
                    item=f"{alarm.what} alarm, {alarm.where}",
                )


_HIGH = re.compile(
    r"\b(?:under|on|at|against|in|below|near|to) the (?:deckhead|ceiling|headlining|overhead|roof|cabin top|deck ?beams?)\b|\bhigh(?: up)?\b(?! sole)|\bhead height\b"
    r"|\b(?:above|over) the (?:door|window|cooker|stove|hob|oven|settee|worktop|steps|sink|washboards?|companionway)\b|\bat the top\b",
    re.IGNORECASE,
)
_LOW = re.compile(
    r"\bunder the (?:sole|floor|floorboards?|bunks?|berths?|settees?|seats?|cooker|sink|chart table|steps|lowest step)\b|\bat the foot of\b|\blow(?: down)?\b(?! door)"
    r"|\bin the bilge\b|\b(?:at|near|by) (?:the )?(?:sole|floor)(?: level)?\b",
    re.IGNORECASE,
)


@check("alarms.height", LIFE, COMMON_PRACTICE)
def alarms_hang_where_the_danger_gathers(sight: Sight) -> Finds:
    """An alarm for gas hangs low, those for smoke and carbon monoxide at head height or above.

    Why: butane, propane and petrol vapour sink and are at the sole first, smoke rises; an alarm at the other end sounds when all is full.
    Remedy: go and look; have it moved: gas low down near the sole, smoke under the deckhead, carbon monoxide at the height of sleepers' heads;
    of one whose sensor hangs elsewhere say so: spot: above the door, sensor low down by the cooker.
    """
    warns: list[tuple[str, Alarm | Gear]] = [(str(each.what), each) for each in sight.vessel.alarms]
    known = _kinds_by_what_they_warn_of()
    warns += [
        (known[kind.name], each)
        for each in sight.vessel.gear_that(*DOES.values())
        if (kind := gear_kind(each)) is not None and kind.name in known
    ]
    for what, alarm in warns:
        said = alarm.spot if isinstance(alarm.spot, str) else ""
        if what == "gas" and _HIGH.search(said) and not _LOW.search(said) and "hydrogen" not in said.lower():
            message = f"the alarm for gas hangs high: '{shortened(said)}', and gas sinks"
        elif what in ("smoke", "CO") and _LOW.search(said) and not _HIGH.search(said):
            message = f"the alarm for {_TOLD[what]} hangs low: '{shortened(said)}'"
        else:
            continue
        yield at(alarm, "spot", message, item=f"{what} alarm, {alarm.where}")


@cache
def _kinds_by_what_they_warn_of() -> dict[str, str]:
    """Of each kind of gear that is an alarm, what it warns of, in the word of the file."""
    return {kind.name: what for what, does_what in DOES.items() for kind in kinds_that(does_what)}


_TOLD = {"smoke": "smoke, which rises,", "CO": "carbon monoxide"}


_LOW_SPACE = re.compile(r"\b(?:bilge|sump|sole)\b")
_SHUT_OFF = re.compile(r"\b(?:cabin|heads|toilet|shower|berth|peak|locker|workshop)\b")
_AT_THE_COOKER = re.compile(r"\b(?:cooker|stove|hob|oven|galley|burner)\b", re.IGNORECASE)


@check("alarms.gas-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def gas_is_listened_for_where_it_leaks(sight: Sight) -> Finds:
    """An alarm for gas listens where gas is burnt or in the bilge, one for petrol vapour in the engine space or the bilge.

    Why: gas that leaks behind a shut door fills the bilge, and the alarm sounds when somebody strikes a match beside it.
    Remedy: have its sensor moved, or write under 'watches' where it listens: watches: [galley, bilge]; with petrol: watches: [engine space].
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    alarms = [each for each in that_warn(vessel, WARNS_OF_GAS) if "hydrogen" not in str(each.spot).lower()]
    heard = all_known(here for each in alarms for here in listens(sight, each))
    if one is None or not heard or any(here.space.unlike for here in heard):
        return
    low = any(_LOW_SPACE.search(here.space.name) for here in heard)
    asked: list[tuple[str, str]] = []
    if (
        vessel.gas is not None
        and vessel.gas.fuel in ("butane", "propane")
        and not low
        and not _near_the_cooker(sight, alarms, heard)
    ):
        asked.append((f"{vessel.gas.fuel} is burnt in the {_cooks_in(sight)}", "galley, bilge"))
    if one.petrol and one.inboard_engine and not low and not any(here.space.engine for here in heard):
        asked.append(("the engine burns petrol", "engine space, bilge"))
    for why, spaces in asked[:1]:
        there = " and the ".join(dict.fromkeys(str(here) for here in heard))
        yield at(
            alarms[0],
            "watches" if isinstance(alarms[0], Alarm) and alarms[0].watches else "where",
            f"the alarm for gas listens to the {there}, and {why}",
            remedy=f"have its sensor moved low down, and write what it listens to: watches: [{spaces}]",
            item="gas",
        )


def listens(sight: Sight, alarm: Alarm | Gear) -> list[Lies | None]:
    """Where an alarm listens: the spaces it says, or where it hangs."""
    told = alarm.watches if isinstance(alarm, Alarm) else ()
    return [lies_at(sight, each) for each in told] or [lies(sight, alarm)]


def _burners(sight: Sight) -> list[Lies]:
    """Where gas is burnt or shut off for what burns it: where she cooks, and the tap."""
    taps = [lies(sight, stop) for stop in sight.vessel.stops if stop.what == "gas"]
    return [
        *(Lies(space) for space in sight.spaces.values() if space.cooking),
        *(tap for tap in taps if tap is not None and tap.space.roofed),
    ]


def _cooks_in(sight: Sight) -> str:
    return next((here.space.name for here in _burners(sight)), a_room(sight))


def _near_the_cooker(sight: Sight, alarms: list[Alarm | Gear], heard: list[Lies]) -> bool:
    """Whether one listens where gas is burnt, or in a space open to it; true where nobody says where that is."""
    burners = _burners(sight)
    return (
        not burners
        or any(
            _AT_THE_COOKER.search(str(each.spot or ""))
            for each in alarms
            if not (isinstance(each, Alarm) and each.watches)
        )
        or any(
            here.space is each.space
            or (
                here.apart_m(each) == 0
                and here.space.level == each.space.level
                and not _SHUT_OFF.search(here.space.name)
            )
            for here in heard
            for each in burners
        )
    )


@check("alarms.water-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def water_is_listened_for_where_it_comes_in(sight: Sight) -> Finds:
    """An alarm for water listens to the bilge or the engine space, and where she has two engine spaces, to each.

    Why: most water comes in at the stern gland, the cooling and the hoses there, and nobody looks in while the engine runs.
    Remedy: fit a float switch there and write its space under 'watches'.
    """
    one, alarms = sight.vessel.vessel, [each for each in sight.vessel.alarms if each.warns_of_water]
    heard = all_known(here for each in alarms for here in listens(sight, each))
    if one is None or not one.inboard_engine or not heard or any(here.space.unlike for here in heard):
        return
    machinery = {str(here): here for here in _engine_spaces(sight)}
    deaf = [
        name
        for name, here in machinery.items()
        if not any(each.space is here.space and each.meets(here) for each in heard)
    ]
    if not deaf or any(_LOW_SPACE.search(each.space.name) for each in heard):
        return
    near = any(each.apart_m(here) == 0 for each in heard for here in machinery.values())
    if len(deaf) == len(machinery) and near:
        return  # it stands in the sole beside it
    yield at(
        alarms[0],
        "watches" if alarms[0].watches else "where",
        f"no alarm for water listens to the {' or the '.join(deaf)}",
        item="bilge",
    )


def _engine_spaces(sight: Sight) -> list[Lies]:
    """Where her engines stand, and where engine spaces are pierced."""
    told = [*sight.vessel.engines, *sight.vessel.through_hulls]
    return [here for each in told if (here := lies(sight, each)) is not None and here.space.engine]


@check("alarms.one-hull", LIFE, COMMON_PRACTICE, COMPOSITION)
def water_is_noticed_in_each_hull(sight: Sight) -> Finds:
    """Of two hulls in which people live, each is listened to for water where the other is, beside the engine spaces.

    Why: one hull fills to the berths in silence, and a multihull that lists so far does not come up again.
    Remedy: fit a float switch in that hull and write its space under 'watches', with its side.
    """
    vessel = sight.vessel
    alarms = [each for each in vessel.alarms if each.warns_of_water]
    if vessel.vessel is None or not vessel.vessel.hull.lived_in_hulls or not alarms:
        return
    heard = all_known(
        lies_at(sight, name)
        for each in alarms
        for name in (each.watches or [_sided(each)] if isinstance(each.where, str) else each.watches)
    )
    hulls = {_hull_of(each) for each in heard or () if not each.space.engine} - {""}
    if heard is None or len(hulls) != 1:
        return
    (deaf,) = {"port", "starboard"} - hulls
    holes = [
        hole
        for hole in vessel.through_hulls
        if (here := lies(sight, hole)) is not None and here.hull == deaf and not here.space.engine
    ]
    slept = [person for here, person in berths(sight).values() if _hull_of(here) == deaf]
    if holes or slept:
        why = f"the {holes[0].what} goes through it" if holes else f"{the(str(slept[0].role))} sleeps there"
        yield at(
            alarms[0],
            "watches",
            f"no alarm for water listens to the {deaf} hull, and {why}",
            item=f"{deaf} hull",
            also=(holes[0].place("where") if holes else slept[0].place("berth"),),
        )


def _sided(alarm: Alarm) -> str:
    """Where an alarm that listens where it hangs is, with its side before it where the name has none."""
    side = alarm.side if isinstance(alarm.side, str) and alarm.side in ("port", "starboard") else ""
    return str(alarm.where) if not side or side in str(alarm.where) else f"{side} {alarm.where}"


def _hull_of(here: Lies) -> str:
    """The hull that words name, by the side they begin with, or by the space."""
    return here.hull or (here.side if here.side in ("port", "starboard") and here.space.paired else "")
