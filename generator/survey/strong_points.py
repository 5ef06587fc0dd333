"""What a line is made fast to by its name: a part of the hull, or what gives way, for painter and towline alike."""

from __future__ import annotations

import re

RAILS = r"(?:(?:guard|hand|grab|toe|foot|safety|top|life)[- ]?)?(?:rails?|railings?)|guard[- ]?wires?|life ?lines?|stanchions?|pulpits?|pushpits?"
_RIGGED = (
    r"bow ?rollers?|rollers?|fairleads?|furlers?|furling drum|forestay|backstay|shrouds?|spray ?hood|bimini|awning|gate posts?|ladders?|davit falls?|"
    r"binnacle|steering pedestal|door handles?|hatch(?:es)?|ventilators?|flag ?staff|aerial|antenna|cockpit table|grab handles?|cradles?|chocks?|canister|jack ?(?:stays?|lines?)"
)
_HELD_BY_IT = r"(?: (?:foot|feet|base|bases|sockets?|knee|top))?"
_STANDS_THERE = r"(?! ?-?(?:cleats?|eyes?|bollards?|posts?|bitts?|bolts?|pads?|padeyes?|plates?|chainplates?|(?:foot )?(?:eye|ring) ?bolts?|side|lockers?)\b)"
_WEAK = re.compile(rf"\b(?P<named>{RAILS}|{_RIGGED})\b{_STANDS_THERE}", re.IGNORECASE)
_RAIL = re.compile(rf"\b(?P<named>{RAILS})\b{_STANDS_THERE}{_HELD_BY_IT}$", re.IGNORECASE)
OF_THE_HULL = re.compile(
    r"\b(?:[u-]*bolts?|ring ?bolts?|(?:pad|deck|ring|eye)[ -]?(?:eye|bolt|plate)s?|eyes?|cleats?|chain ?plates?|bollards?|samson posts?|towing posts?|bitts?)\b",
    re.IGNORECASE,
)
"""What goes through the deck by its name, though it stands in the space of a rail."""
_BEHIND = re.compile(
    r"[,;(]| (?:at|by|of|below|under|beneath|beside|near|next|behind|between|in|through|before|forward|abaft|aft|inside|outside|within|with|on|onto|to|round|around)\b"
)
"""Behind what the thing itself is no longer named, but where it is."""


_PART_OF = re.compile(
    rf"^(?:the |a |its )?(?:[a-z-]+ )?(?:foot|feet|base|leg|frame|top|end|bar|tube|arm|beam|side) of (?:the |its )?(?:[a-z-]+ )?(?P<named>{RAILS}|{_RIGGED})\b{_STANDS_THERE}",
    re.IGNORECASE,
)
"""A part of what gives way, named before it: the foot of the cradle."""


_FASTENED_WEAKLY = re.compile(
    r"\b(?P<named>(?P<how>glued|taped|stuck|stapled|sewn|nailed|tied with string)(?: on| in| to [a-z ]+)?|suction (?:cup|pad)s?|(?:wood ?|self-tapping )screws?|screwed (?:to|into) the (?:lining|trim|panel|ceiling|plywood|teak)|"
    r"(?:head)?lining|plastic (?:hook|eye|ring|clip)s?|curtain (?:rail|hook)s?|velcro)\b",
    re.IGNORECASE,
)
"""How a thing is fastened that a sea tears out."""


def itself(what: str) -> str:
    """The words for a thing without those for where it is."""
    return _BEHIND.split(what, maxsplit=1)[0].strip()


def gives_way(what: str) -> str:
    """What words name as the thing itself that tears out or only leads a line, in small letters; "" for a part of the hull."""
    if weakly := _FASTENED_WEAKLY.search(what):
        named = weakly["named"].lower()
        return f"thing {named}" if weakly["how"] else named
    named = itself(what)
    found = None if OF_THE_HULL.search(named) else _WEAK.search(named) or _PART_OF.search(what)
    return found["named"].lower() if found is not None else ""


def a_rail(place: str) -> str:
    """The rail that the words for a place end in, in small letters; "" where they end in none."""
    found = _RAIL.search(place)
    return found["named"].lower() if found is not None else ""
