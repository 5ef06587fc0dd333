"""One thing, one name, one place, one figure: what the manual would print twice says the same both times."""

from __future__ import annotations

import re

from generator.machine.photos import SMALL_PX, Unreadable, photo_file, photographed, prepared
from generator.reading.values import Stamp
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check

# What people also call the things that steps name; under such a name no step finds them.
OTHER_NAMES = {
    "lifebuoy": (
        "life ring",
        "lifering",
        "life buoy",
        "life-buoy",
        "ring buoy",
        "horseshoe buoy",
        "horseshoe",
    ),
    "danbuoy": ("dan buoy", "man-overboard pole", "mob pole"),
    "throwing line": (
        "throw line",
        "heaving line",
        "rescue line",
        "throw bag",
        "throwing bag",
        "rescue quoit",
    ),
    "fire extinguisher": ("extinguisher", "powder extinguisher", "foam extinguisher"),
    "parachute flares": (
        "parachute rockets",
        "rocket flares",
        "rockets",
        "parachute flare",
        "red parachute rockets",
    ),
    "red hand flares": ("hand flares", "handheld flares", "hand-held flares", "red flares", "red hand flare"),
    "orange smoke": ("smoke signals", "smoke floats", "smoke canisters", "orange smokes", "buoyant smoke"),
    "white hand flares": ("white flares", "collision flares"),
    "first-aid kit": ("first aid kit", "first aid box", "first-aid box", "medical kit", "medikit"),
    "softwood plugs": ("wooden plugs", "soft wood plugs", "wood plugs", "bungs", "tapered plugs"),
    "bucket": ("buckets", "pail"),
    "torch": ("torches", "flashlight", "flashlights"),
    "searchlight": ("search light", "spotlight"),
    "immersion suits": ("survival suits", "immersion suit"),
    "thermal protective aids": ("thermal bags", "space blankets", "thermal protective aid"),
    "bolt cutters": ("bolt croppers", "wire cutters", "rigging cutters", "bolt cutter"),
    "foghorn": ("fog horn", "air horn", "sound signal"),
    "jackstays": ("jacklines", "jack lines", "jackstay"),
    "tethers": ("safety lines", "lifelines with clips", "harness lines", "tether"),
    "emergency tiller": ("spare tiller",),
    "water cans": ("water containers", "jerry cans of water", "water jerrycans"),
}
_BAG = re.compile(r"\bgrab.?bag\b", re.IGNORECASE)


@check("gear.other-name", RECOMMENDATION, COMMON_PRACTICE)
def things_have_the_names_that_steps_use(sight):
    """Gear that a step asks for has the name the step uses.

    Why: two names for one thing make people look for a second one, and the step does not find it.
    Remedy: begin its name with the word the message proposes; your own word may follow after a comma.
    """
    for item in sight.vessel.gear:
        name = item.what.lower().partition(",")[0].strip() if isinstance(item.what, str) else ""
        for ours, others in OTHER_NAMES.items():
            if name in others:
                yield at(
                    item,
                    "what",
                    f"'{item.what}' is what steps call '{ours}'",
                    item=str(item.what),
                    remedy=f'write what: "{ours}, ..." and, if you like, your own word behind the comma',
                )


@check("gear.same-name", RECOMMENDATION, COMMON_PRACTICE)
def two_things_have_two_names(sight):
    """No two rafts, radios, beacons, pumps or holes in the hull have the same name.

    Why: a step that names one of them sends people to the other.
    Remedy: tell them apart in their names: port hand pump, hand pump below.
    """
    vessel, radio = sight.vessel, sight.vessel.radio
    groups = (
        vessel.rafts,
        radio.sets if radio else (),
        radio.beacons if radio else (),
        vessel.pumps,
        vessel.through_hulls,
    )
    for group in groups:
        seen = {}
        for each in group:
            name = getattr(each, each.called)
            if isinstance(name, str) and name.lower() in seen:
                yield at(
                    each,
                    each.called,
                    f"two are called '{name}'",
                    item=name,
                    also=(seen[name.lower()].place(each.called),),
                )
            elif isinstance(name, str):
                seen[name.lower()] = each


def _bagged(vessel):
    """What says of itself that it is in the grab bag."""
    radio = vessel.radio
    for each in (*(radio.sets if radio else ()), *(radio.beacons if radio else ()), *vessel.gear):
        if isinstance(each.spot, str) and _BAG.search(each.spot) and isinstance(each.what, str):
            yield each


def _in_bags(vessel, name):
    """The lines of the grab bags with that name."""
    return [
        item
        for bag in vessel.grab_bags
        for item in bag.items
        if isinstance(item.what, str)
        and item.what.lower().partition(",")[0].strip() == name.lower().partition(",")[0].strip()
    ]


@check("grab-bag.not-inside", RECOMMENDATION, COMMON_PRACTICE)
def what_is_in_the_bag_is_on_its_list(sight):
    """What says that it is in the grab bag is on the bag's list.

    Why: whoever packs the bag by its list leaves it out.
    Remedy: list it under the bag's 'items' by the same name, or write where it really is.
    """
    for each in _bagged(sight.vessel):
        if sight.vessel.grab_bags and not _in_bags(sight.vessel, each.what):
            yield at(
                each, "spot", f"{each.what}: it says '{each.spot}', and no bag's list has it", item=each.what
            )


@check("grab-bag.elsewhere", DEFECT, COMMON_PRACTICE)
def what_is_in_the_bag_is_where_the_bag_is(sight):
    """What is in the grab bag is where the bag hangs.

    Why: pages that give two places for one thing send two people to one of them.
    Remedy: write the bag's space and side there too.
    """
    places = {(str(bag.where), str(bag.side)) for bag in sight.vessel.grab_bags}
    for each in _bagged(sight.vessel):
        if places and (str(each.where), str(each.side)) not in places:
            yield at(
                each,
                "where",
                f"{each.what}: it is in the grab bag, and lies in the {each.where}, {each.side or 'no side'}; the bag hangs "
                f"elsewhere",
                item=each.what,
                also=tuple(bag.place("where") for bag in sight.vessel.grab_bags),
            )


@check("grab-bag.two-dates", DEFECT, COMMON_PRACTICE)
def a_beacon_in_the_bag_has_one_date(sight):
    """A beacon in the grab bag has one expiry, not two.

    Why: one of the two dates is wrong, and the wrong one may be the later.
    Remedy: read the date on it, and write it in both lines.
    """
    for each in _bagged(sight.vessel):
        battery = getattr(each, "battery_expires", None)
        for line in _in_bags(sight.vessel, each.what):
            if isinstance(battery, Stamp) and isinstance(line.expires, Stamp) and line.expires != battery:
                yield at(
                    line,
                    "expires",
                    f"{line.what}: {line.expires} in the grab bag's list, {battery} among the beacons",
                    item=str(line.what),
                    also=(each.place("battery-expires"),),
                )


@check("grab-bag.two-carriers", DEFECT, COMMON_PRACTICE)
def one_person_carries_the_bag(sight):
    """The grab bag is carried by whoever has that duty on the bill.

    Why: each of the two thinks that the other has it.
    Remedy: write the same role in 'carried-by' and at the duty 'grab-bag'.
    """
    duty = (sight.vessel.station_bill.get("abandon-ship") or {}).get("grab-bag")
    carriers = {bag.carried_by for bag in sight.vessel.grab_bags if isinstance(bag.carried_by, str)}
    for who in duty.who if duty and carriers else ():
        if who not in carriers:
            yield Found(
                duty.place("who"),
                f"the bill gives the grab bag to the {who}, the bag to the {' and the '.join(sorted(carriers))}",
                item="grab bag",
                also=tuple(bag.place("carried-by") for bag in sight.vessel.grab_bags),
            )


@check("steering.two-places", DEFECT, COMMON_PRACTICE)
def the_tiller_has_one_place(sight):
    """The emergency tiller has one place, not two.

    Why: without steering nobody has time to search two lockers.
    Remedy: go and look; write the same place under 'steering' and in the gear list.
    """
    text = sight.vessel.steering.emergency_tiller if sight.vessel.steering else None
    for item in _called(sight.vessel, "emergency tiller"):
        if isinstance(text, str) and _other_place(text, item):
            yield at(
                sight.vessel.steering,
                "emergency-tiller",
                f"the emergency tiller: '{text}' here, {item.where} {item.side or ''} in the gear list",
                item="emergency tiller",
                also=(item.place("where"),),
            )


@check("medical.two-places", RECOMMENDATION, COMMON_PRACTICE)
def the_medical_chest_has_one_place(sight):
    """The medical chest has one place, not two.

    Why: whoever bleeds cannot wait while two cabins are searched.
    Remedy: go and look; write the same place under 'medical' and in the gear list.
    """
    text = sight.vessel.medical
    chests = [item for item in sight.vessel.gear if item.kind == "medical"]
    if isinstance(text, str) and chests and all(_other_place(text, item) for item in chests):
        yield Found(
            sight.vessel.place("medical"),
            f"'{text}', and the gear list has it elsewhere",
            item="medical chest",
            also=tuple(item.place("where") for item in chests),
        )


def _called(vessel, name):
    return [item for item in vessel.gear if isinstance(item.what, str) and item.what.lower().startswith(name)]


def _other_place(text, item):
    """Whether words name another space, or the other side, than an item of the gear list says."""
    words = re.findall(r"[a-z]+", text.lower())
    if not isinstance(item.where, str) or not all(
        word in words for word in re.findall(r"[a-z]+", item.where.lower())
    ):
        return True
    other = {"port": "starboard", "starboard": "port"}.get(item.side)
    return other in words and item.side not in words


@check(
    "bill.same-signal",
    DEFECT,
    "46 CFR 199.80(b) (general alarm); SOLAS III/6 (secondary): the order to abandon is another",
)
def general_alarm_and_order_to_abandon_differ(sight):
    """General alarm and order to abandon are not the same signal.

    Why: on the general alarm people muster, on the order they leave her; whoever mixes them up jumps.
    Remedy: write for the order what cannot be mistaken: by word of mouth, three times.
    """
    one = sight.vessel.vessel
    if (
        one
        and isinstance(one.general_alarm, str)
        and isinstance(one.abandon_order, str)
        and one.general_alarm.strip().lower() == one.abandon_order.strip().lower()
    ):
        yield at(
            one,
            "abandon-order",
            "the order to abandon is given just as the general alarm",
            also=(one.place("general-alarm"),),
        )


@check("bill.alarm-unsounded", RECOMMENDATION, COMMON_PRACTICE)
def what_gives_the_alarm_is_aboard(sight):
    """The foghorn, bell or whistle that gives the general alarm is in the gear list.

    Why: nobody finds it in the moment it is needed.
    Remedy: list it under 'gear' with its place, or write what really gives the alarm.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    for word in ("foghorn", "bell", "whistle") if one and isinstance(one.general_alarm, str) else ():
        if re.search(rf"\b{word}\b", one.general_alarm.lower()) and not any(
            word in str(item.what).lower() for item in vessel.gear
        ):
            yield at(
                one,
                "general-alarm",
                f"the alarm is given on the {word}, and the gear list has none",
                item=word,
            )


@check("gear.photo-missing", DEFECT, COMMON_PRACTICE)
def photos_named_are_there(sight):
    """Every photo that is named lies beside the file and can be shown.

    Why: a page with a hole where the picture should be is read as a page with a fault.
    Remedy: lay the photo, as JPEG or PNG, into the vessel's folder, or correct its name; remove 'photo' if there is none.
    """
    for each in photographed(sight.vessel):
        path = photo_file(sight.vessel, each)
        try:
            if path is not None:
                prepared(path, SMALL_PX)
        except Unreadable as error:
            yield at(
                each,
                "photo",
                f"the photo '{each.photo}' cannot be shown: {error}",
                item=str(getattr(each, each.called or "where")),
            )
