"""What one hand lets go in a moment, or floats free, is not tied, taped or lashed so that it does not come: what is thrown, beacon, kill cord."""

from __future__ import annotations

import re

from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check, of
from generator.vessel.gear import does

_BOUND = re.compile(
    r"\b(?:cable|zip|wire)[- ]?ties?\b|\b(?:cable|zip)[- ]tied\b|\b(?:\d+|two|three|four|five|six|several|many|tight|reef|good) knots\b|\bknotted\b"
    r"|(?:^|[,;] ?|\b(?:is|are|both|well|firmly|tightly|securely|hard|all) )(?:lashed|tied|bound|wired|taped|chained|shackled|roped|strapped down|screwed|bolted|seized)\b",
)
_ONE_PULL = re.compile(
    r"\b(?:slip(?:ped|s|knots?|-knots?)?|quick[- ]release|one (?:pull|hand|tug)|bows?|velcro|hook[- ]and[- ]loop|shock ?cord|bungee|elastic|toggle|snap ?(?:shackle|hook)|"
    r"clip|carabiner|thin (?:thread|line|twine|cotton)|breaks|cotton|weak|rotten line|pull(?:s|ed)? (?:off|free|out|the)|lets? go|light line|pelican)\b"
)
_OF_A_PART = re.compile(
    r"\b(?:lines?|ropes?|lights?|lamps?|lanyards?|painters?|tails?|ends?|drogues?|whistles?|brackets?|holders?|racks?|frames?|bags?|pouch|tubes?|baskets?|cradles?|clips?|sheath)\b[^,;]*$"
)
"""What stands before such a word where it is a part that is fast: its line tied to the rail, in the bracket bolted there."""
_TO_ITS_PART = re.compile(
    r"^\W*\w+ (?:to|with) (?:the|its|a) (?:danbuoy|lifebuoy|horseshoe|sling|light|drogue)\b"
)


@check("placed.tied-fast", LIFE, COMMON_PRACTICE)
def what_is_thrown_comes_off_by_one_hand(sight: Sight) -> Finds:
    """What is thrown to somebody in the water is held by what one hand lets go.

    Why: at six knots the swimmer is 90 m astern after half a minute at knots and cable ties.
    Remedy: hang it in an open bracket, or under shock cord, or on one slip knot, then write that: spot: in the open bracket.
    """
    for item in sight.vessel.gear:
        spot = item.spot.lower() if isinstance(item.spot, str) and does(item, "thrown to somebody") else ""
        found = _BOUND.search(spot)
        if (
            found is not None
            and not _ONE_PULL.search(spot)
            and not _OF_A_PART.search(spot[: found.start()])
            and not _TO_ITS_PART.search(spot[found.start() :])
        ):
            yield of(item, "spot", f"'{item.spot}' is undone by no one hand in a moment")


_ITS_BRACKET = re.compile(
    r"\b(?:brackets?|holders?|cradles?|housings?|cases?)\b,? *(?:which |that )?(?:is |are )?(?:screwed|bolted|shackled|wired|tied)? ?$"
)
_TO_THE_BOAT = re.compile(
    r"^\W*(?:is |are |well |firmly |securely )?\w+ (?:to|on|onto) (?:the |its )?(?!it\b|lid|beacon|cover)[a-z-]+"
)
"""What follows where it is the bracket that is fast: bolted to the wheelhouse roof."""


@check("placed.held-down", LIFE, COMMON_PRACTICE)
def what_floats_free_is_not_held_down(sight: Sight) -> Finds:
    """A beacon that is to float free is not lashed, tied, screwed or locked in its bracket.

    Why: she goes down with it, and nobody ashore is told that she has.
    Remedy: take the lashing off, go and see that the lid comes away, then write that: spot: in the float-free bracket.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        if beacon.release != "float-free" or not isinstance(beacon.spot, str):
            continue
        spot = beacon.spot.lower()
        found = _HELD.search(spot)
        if found is None or re.search(r"\b(?:not|never|no|un)\b", spot[: found.start()]):
            continue
        before, after = spot[: found.start()].rstrip(" ,;"), spot[found.start() :]
        if not (_ITS_BRACKET.search(before) and _TO_THE_BOAT.search(after)):
            yield at(beacon, "spot", f"'{beacon.spot}': so it goes down with the boat", item=str(beacon.what))


_HELD = re.compile(
    r"\b(?:cable|zip|wire)[- ]?ties?\b|\b(?:cable|zip)[- ]tied\b|\bknotted\b|\bpadlock(?:ed)?\b|\block(?:ed)?\b"
    r"|\b(?:lashed|tied|bound|wired|taped|chained|shackled|roped|strapped|screwed|bolted|seized|wedged|glued|clamped)\b"
)

_KEPT_IN = re.compile(
    r"\b(?:taped|wired|wedged|glued|clamped|bridged|bypassed|jammed|lashed|screwed)\b|\b(?:cable|zip)[- ]?tie[sd]?\b"
    r"|\bti(?:e|es) (?:it|the cord)\b|\btied (?:in|into|on|onto|down|to (?:the |its )?(?:switch|console|throttle|wheel|dash\w*|knob|lever|stop|seat|boat|engine))\b"
    r"|\b(?:cannot|can['’]t|never|will not|won['’]t|does not|doesn['’]t) (?:come|pull|slip|fall|pop|jump|be pulled) (?:off|out|away|loose)\b(?! (?:of |from )?(?:the |his |her |your )?(?:wrist|knee|leg|arm|thigh|ankle|life ?jacket|jacket|belt))"
    r"|\bleft (?:hanging )?(?:in|on) (?:the |its )?(?:switch|console|lever)\b"
)
_SPARE = re.compile(r"\bspare\b|\bwrist|\bknee|\bleg\b|\bthigh|\bankle")


@check("placed.kill-cord-kept-in", LIFE, COMMON_PRACTICE)
def the_kill_cord_comes_off_its_switch(sight: Sight) -> Finds:
    """No words have the kill cord taped, tied or wedged on its switch.

    Why: whoever goes over the side is run down by the own boat, which goes on in circles until the tank is empty.
    Remedy: free it, clip it to whoever steers, and write that: how: pull the cord off its switch.
    """
    for stop in sight.vessel.stops:
        if stop.what != "kill cord":
            continue
        for key in ("how", "spot"):
            words = stop.__dict__.get(key)
            for part in re.split(r"[.,;]", words.lower()) if isinstance(words, str) else ():
                if (
                    _KEPT_IN.search(part)
                    and not _SPARE.search(part)
                    and not re.search(r"\b(?:never|not|no) (?:be )?(?:taped|tied?|ties|wedged)", part)
                ):
                    yield at(stop, key, f"kill cord: '{words}': so it stops nothing", item="kill cord")
                    break
