"""Being towed: the towline is made fast to what holds, forward of the middle."""

from __future__ import annotations

import re

from generator.reading.values import known
from generator.shelves.spaces import UPPER
from generator.survey.placing import lies, nobody_stands_there
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.survey.strong_points import gives_way, itself
from generator.vessel.fittings import Located

_TOWS_NOTHING = re.compile(
    r"\b(?:windlass|davits?|gantry|arch|dodger|bowsprit|anchor|mast step|steps?|deck ?lights?|wheelhouse (?:roof|door))\b"
    r"(?! (?:cleats?|eyes?|posts?|bitts?|bollards?)\b)",
    re.IGNORECASE,
)
"""What may hold a painter, and no towline: its gear strips, its frame bends."""


@check("towing.weak-point", LIFE, "articles on being towed (secondary); common practice")
def a_towline_is_fast_to_what_holds(sight: Sight) -> Finds:
    """A towline is made fast to cleats, a post or an eye of the hull, not to a rail, a windlass or what only leads a line.

    Why: what tears out flies back with the line, and kills whoever stands in its way.
    Remedy: look what is bolted through the deck, and write that: tow-point: {what: both bow cleats, where: foredeck}.
    """
    one = sight.vessel.vessel
    point = one.tow_point if one else None
    if one is None or not isinstance(point, Located):
        return
    what = str(point.what or "")
    bends = _TOWS_NOTHING.search(itself(what))
    if weak := gives_way(what) or (bends[0].lower() if bends is not None else ""):
        yield at(
            one,
            "tow-point",
            f"'{what}' is a {weak}, which gives way or only leads a line",
            item="tow point",
            also=(point.place("what"),),
        )


_FROM_FORWARD = re.compile(r"\b(?:bow|bows|fore\w*|stem|bridle|winch(?:es)?|samson|mast)\b", re.IGNORECASE)


@check("towing.from-astern", LIFE, COMMON_PRACTICE, COMPOSITION)
def she_is_towed_by_the_bow(sight: Sight) -> Finds:
    """A towline is made fast forward, or leads over the bow.

    Why: towed by the stern she buries it, steers no more and fills.
    Remedy: write what is at the bow, or that a bridle leads over it to the winches.
    """
    one = sight.vessel.vessel
    point = one.tow_point if one else None
    there = lies(sight, point)
    length = known(one.length) if one else None
    if one is None or not isinstance(point, Located) or there is None or length is None:
        return
    words = f"{point.what} {point.spot or ''}"
    if there.space.fore_m < BOW * length and _AT_THE_BOW.search(words) and not _LED_AFT.search(words):
        yield at(
            one,
            "tow-point",
            f"'{point.what}' is at her bow, and where says {there}",
            item="tow point",
            also=(point.place("where"),),
        )
    elif there.space.fore_m < length / 3 and not _FROM_FORWARD.search(words):
        yield at(one, "tow-point", f"'{point.what}' in the {there} is at her stern", item="tow point")


BOW = 0.71
"""Of the length: what ends further aft has no bow. Common practice."""
_AT_THE_BOW = re.compile(
    r"\b(?:(?:on|at) (?:both |the |each )?(?:bows?|stem|foredeck)|(?:bow|stem|foredeck|fore) (?:cleats?|eyes?|bitts?|posts?|bollards?))\b",
    re.IGNORECASE,
)
_LED_AFT = re.compile(r"\b(?:winch(?:es)?|mast|aft|astern|led)\b", re.IGNORECASE)
"""What a towline is made fast to that only leads over the bow."""


@check("towing.out-of-reach", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_towline_is_made_fast_on_deck(sight: Sight) -> Finds:
    """A towline is made fast on deck where somebody stands, or at the mast; not below, under a roof, on a roof, nor in a locker aft.

    Why: whoever is sent below with the line has nothing to make it fast to, and the tug takes the strain meanwhile.
    Remedy: go and look where the line is made fast, and write that space: tow-point: {what: both bow cleats, where: foredeck}.
    """
    one = sight.vessel.vessel
    point = one.tow_point if one else None
    there = lies(sight, point)
    if (
        one is None
        or not isinstance(point, Located)
        or there is None
        or there.space.mark
        or there.space.unlike
    ):
        return
    space = there.space
    if why := nobody_stands_there(space) or ("a level above the deck" if space.level == UPPER else ""):
        at_the_bow = space.stows and space.exposed  # let into the foredeck
        if not at_the_bow:
            yield at(
                one,
                "tow-point",
                f"'{point.what}' is in the {there}, {why}",
                item="tow point",
                also=(point.place("where"),),
            )


_ONE_CLEAT = re.compile(r"(?:the |a |one |our )?(?:\w+ )*cleat(?: [a-z ]+)?", re.IGNORECASE)
_MORE = re.compile(
    r"\bboth\b|\btwo\b|\bbridle\b|\band\b|\bwinch|\bpost\b|\bbitts?\b|\bcleats\b", re.IGNORECASE
)


@check("towing.one-cleat", HELP, "articles on being towed (secondary)")
def a_towline_is_shared_out(sight: Sight) -> Finds:
    """In open waters a towline is made fast to more than one cleat.

    Why: in a sea it comes taut with a jerk that tears one cleat out, and the line flies back with it.
    Remedy: lead a bridle to two cleats, to the winches or to the mast's foot, and write that: tow-point: {what: both bow cleats, where: foredeck}.
    """
    one = sight.vessel.vessel
    point = one.tow_point if one else None
    if one is None or one.waters == "sheltered" or not isinstance(point, Located):
        return
    said = str(point.what or "")
    if _ONE_CLEAT.fullmatch(said) and not _MORE.search(said) and "samson" not in said.lower():
        yield at(one, "tow-point", f"'{said}' alone takes each jerk of the line", item="tow point")
