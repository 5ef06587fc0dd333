"""One thing, one name: what is named twice, otherwise than in the steps, or shown on no photo."""

from __future__ import annotations

from generator.machine.photos import SMALL_PX, Unreadable, prepared
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Finds, Sight, at, check
from generator.vessel.photographed import photo_file, photographed

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


@check("gear.duplicate-name", RECOMMENDATION, COMMON_PRACTICE)
def nothing_is_listed_twice(sight: Sight) -> Finds:
    """Nothing is listed twice in the same place.

    Why: one of the two is counted on and is not there.
    Remedy: write one line with the whole quantity, or say what tells them apart.
    """
    seen = {}
    for item in sight.vessel.gear:
        name = tuple(str(each or "").lower() for each in (item.what, item.where, item.side, item.spot))
        if name in seen and item.known("what", "where"):
            yield at(
                item,
                "what",
                f"{item.what} is listed twice in the same place ({item.where})",
                item=str(item.what),
                also=(seen[name].place("what"),),
            )
        seen.setdefault(name, item)


@check("gear.other-name", RECOMMENDATION, COMMON_PRACTICE)
def things_have_the_names_that_steps_use(sight: Sight) -> Finds:
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
def two_things_have_two_names(sight: Sight) -> Finds:
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


@check("gear.photo-missing", DEFECT, COMMON_PRACTICE)
def photos_named_are_there(sight: Sight) -> Finds:
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
