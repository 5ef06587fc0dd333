"""Anchors: there is one, it reaches the ground, and it is let go and slipped when nothing else works."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.handling_facts import anchors
from generator.reading.values import Band, known, untold
from generator.shelves.gear import before_comma
from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.limits import least
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Found,
    Sight,
    check,
    of,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import CUTS, HOLDS, does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear


@check("anchor.missing", HELP, COMMON_PRACTICE)
def an_anchor_is_in_the_gear_list(sight: Sight) -> Finds:
    """The gear list of a boat with an engine or sails names an anchor.

    Why: it is the only brake when the engine stops off a lee shore, and without one in the list no step says where it is.
    Remedy: list it under 'gear': - {what: anchor, quantity: 1, where: anchor locker, rode: 40 m}.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or not vessel.gear or HOLDS in one.hull.asks_for:  # told as gear.for-her-type
        return
    if not anchors(vessel) and (one.engine != "none" or one.rig not in (None, "none")):
        yield Found(
            vessel.key_place("gear"),
            "no anchor is in the gear list: nothing is said of anchoring in an emergency",
            item="ground tackle",
        )


@check("anchor.rode-short", LIFE, "California boating course, 65-66 (read); the limits on the shelf")
def the_longest_line_reaches(sight: Sight) -> Finds:
    """The longest anchor line holds her at least in water that she only just floats in.

    Why: with too little line the anchor is lifted, not dug in, and she drags ashore.
    Remedy: measure line and chain together and write both as rode; carry more of it if that is all.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    draft, freeboard = (known(one.draft), known(one.freeboard)) if one else (None, None)
    told = [(length, item) for item in anchors(vessel) if (length := known(item.rode)) is not None]
    if draft is None or freeboard is None or not told or len(told) < len(anchors(vessel)):
        return
    longest, item = max(told, key=lambda each: each[0])
    depth, times = draft + freeboard, least(vessel, "anchor line to the depth")
    if longest < times * depth:
        yield of(
            item,
            "rode",
            f"{item.rode} of line and chain; from her bow to the bottom that she just floats above it is {depth:.1f} m,"
            f" and {times:g} times that is {times * depth:.0f} m",
        )


LINE, MASS = Band(2.5, 15.0), Band(0.05, 1.0)
"""Of the anchor at the bow: how many times her length its line is, and its mass in kg to the square of her length in m. Common practice."""


@check("anchor.out-of-proportion", HELP, COMMON_PRACTICE)
def the_anchor_is_one_of_a_boat_of_her_length(sight: Sight) -> Finds:
    """The anchor at the bow has line for two and a half of her lengths, outside of sheltered waters, and for fifteen at most; its mass fits her.

    Why: feet taken for metres, pounds for kilogrammes, a slipped point: line and weight are counted on that are not there.
    Remedy: measure line and chain together and weigh the anchor, or read its mark; write what they are as 'rode' and 'mass'.
    """
    one = sight.vessel.vessel
    length = known(one.length) if one else None
    if one is None or length is None:
        return
    for item in anchors(sight.vessel):
        if _SECOND.search(str(item.what)):
            continue
        rode, mass = known(item.rode), known(item.mass)
        if rode is not None and (
            rode > LINE[1] * length or (rode < LINE[0] * length and one.waters != "sheltered")
        ):
            said = f"{item.rode} of line and chain, and she is {one.length} long"
            yield of(item, "rode", said, also=(one.place("length"),))
        if mass is not None and not MASS[0] <= mass / length**2 <= MASS[1]:
            said = f"an anchor of {item.mass}, and she is {one.length} long"
            yield of(item, "mass", said, also=(one.place("length"),))


_NAMED = re.compile(
    r"\b(\d+(?:[.,]\d+)?) ?(?:m|metres?|meters?) (?:of )?(?:\d+ ?mm )?(?:anchor )?(rode|line|rope|warp|chain|cable)\b",
    re.IGNORECASE,
)


@check("anchor.rode-differs", TRUTH, COMMON_PRACTICE)
def one_length_is_told_of_the_line(sight: Sight) -> Finds:
    """The length of an anchor line is one, in the name of the anchor and under rode.

    Why: whoever lets go counts on line that is not there.
    Remedy: measure it; write line and chain together under rode, and take the length out of the name.
    """
    for item in anchors(sight.vessel):
        rode = known(item.rode)
        if rode is None or not isinstance(item.what, str):
            continue
        named = [
            (float(length.replace(",", ".")), what.lower()) for length, what in _NAMED.findall(item.what)
        ]
        whole = [length for length, what in named if what == "rode"]
        parts = sum(length for length, what in named if what != "rode")
        if any(abs(length - rode) >= 1 for length in whole) or parts >= rode + 1:
            told = max([*whole, parts])
            yield of(
                item,
                "rode",
                f"its name tells of {told:g} m, and rode of {item.rode}",
                also=(item.place("what"),),
            )


_OF_ANY = re.compile(
    r"\b(\d+(?:[.,]\d+)?) ?(?:m|metres?|meters?) (?:of )?(?:\d+ ?mm )?(?:anchor )?(?:rode|line|rope|warp|chain|cable)\b",
    re.IGNORECASE,
)


@check("anchor.line-useless", HELP, "California boating course, 65-66 (read); the limits on the shelf")
def each_anchor_has_a_line_that_reaches(sight: Sight) -> Finds:
    """Where one anchor's line holds her, each other's does, the dinghy's apart: no second anchor has five metres.

    Why: it is bent on and let go when the first drags, and does not reach the bottom; mostly a nought is lost.
    Remedy: measure line and chain together, and write rode: 40 m, or the length in the name.
    """
    one = sight.vessel.vessel
    draft, freeboard = (known(one.draft), known(one.freeboard)) if one else (None, None)
    if draft is None or freeboard is None:
        return
    lines = [
        (item, _line_m(item)) for item in anchors(sight.vessel) if not _OF_A_DINGHY.search(str(item.what))
    ]
    need_m = least(sight.vessel, "anchor line to the depth") * (draft + freeboard)
    for item, line_m in lines:
        longest_m = max((each or 0.0 for _, each in lines), default=0.0)
        if line_m is not None and line_m < need_m / 2 and longest_m >= need_m:
            yield of(
                item,
                "rode" if known(item.rode) is not None else "what",
                f"it has {line_m:g} m of line; from her bow to the bottom that she just floats above and back it takes {need_m:.0f} m at least",
            )


def _line_m(item: Gear) -> float | None:
    """How much line and chain an anchor has, in m, as the file or its own name says."""
    rode = known(item.rode)
    if rode is not None:
        return float(rode)
    named = [float(length.replace(",", ".")) for length in _OF_ANY.findall(str(item.what))]
    return sum(named) if named else None


_OF_A_DINGHY = re.compile(
    r"\b(?:dinghy|tender|canoe|kayak)['’]?s?\b|\bfor the (?:dinghy|tender)\b", re.IGNORECASE
)


_OF_ANCHORS = ("rode", "let-go", "slip")
_IN_ANCHORS = frozenset(key.replace("-", "_") for key in _OF_ANCHORS)


@check("anchor.not-one", TRUTH, COMMON_PRACTICE)
def only_an_anchor_is_let_go(sight: Sight) -> Finds:
    """Only of an anchor is it said how much line it has, how it is let go and how it is slipped.

    Why: no step prints it of anything else, and the anchor that was meant has none.
    Remedy: write these lines at the anchor; begin its name with the word: what: "anchor, ...".
    """
    for item in sight.vessel.gear:
        if _IN_ANCHORS.isdisjoint(item.__dict__):
            continue
        said = [key for key in _OF_ANCHORS if item.known(key.replace("-", "_"))]
        if said and not does(item, HOLDS):
            yield of(item, said[0], f"the {before_comma(item.what)} is no anchor by its name")


_SECOND = re.compile(r"\b(?:second|spare|kedge|stern|reserve|storm|dinghy|tender)\b", re.IGNORECASE)
"""What another anchor than the one at the bow is called; of a list that names it alone nobody knows where that one is."""


@check("anchor.buried", HELP, COMMON_PRACTICE, COMPOSITION)
def one_anchor_lies_where_it_is_let_go(sight: Sight) -> Finds:
    """One anchor lies on deck, or in its locker at the bow.

    Why: she is ashore in the minutes in which one is dragged up through a cabin.
    Remedy: keep one ready at the bow, and list it with that space.
    """
    found = [item for item in anchors(sight.vessel) if not _SECOND.search(str(item.what))]
    there = [space_of(sight, item) for item in found]
    if found and all(
        space is not None
        and space.level == BELOW
        and not (space.stows == FOR_NOTHING and _at_the_bow(sight, space.fore_m))
        for space in there
    ):
        yield of(
            found[0],
            "where",
            "no anchor but what is below deck",
            also=tuple(item.place("where") for item in found[1:]),
        )


def _at_the_bow(sight: Sight, fore_m: float) -> bool:
    length = known(sight.vessel.vessel.length) if sight.vessel.vessel else None
    return length is not None and fore_m > 0.85 * length


BOW = 0.71
"""Of the length: what ends further aft has no bow. Common practice."""
_AT_THE_BOW = re.compile(
    r"\b(?:at|on|in|over) (?:the |her )?(?:bow|stem|bows)\b|\bbower\b|\bbow anchor\b", re.IGNORECASE
)


@check("anchor.not-at-the-bow", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_anchor_at_the_bow_is_there(sight: Sight) -> Finds:
    """An anchor that is called the one at the bow lies forward.

    Why: with the engine dead off a lee shore somebody runs forward to let it go, and it lies under the cockpit's seat.
    Remedy: go and look; correct where, or the name: what: "second anchor, with 50 m of rode".
    """
    length = known(sight.vessel.vessel.length) if sight.vessel.vessel else None
    for item in anchors(sight.vessel) if length is not None else ():
        space = space_of(sight, item)
        told = space is not None and not (space.own or space.unlike)
        if (
            told
            and space is not None
            and length is not None
            and _AT_THE_BOW.search(str(item.what))
            and space.fore_m < BOW * length
        ):
            yield of(item, "where", f"it lies in the {space.name}, away from the bow")


_ELECTRIC = re.compile(
    r"\b(?:button|switch|press|remote|electric(?:ally)?|foot ?switch|breaker|control(?:ler)?)\b",
    re.IGNORECASE,
)
_BY_HAND = re.compile(
    r"\b(?:clutch|brake|pawl|by hand|pin|lashing|hand ?spike|handle|lever|slacken|loosen|cast off|untie|unhook)\b",
    re.IGNORECASE,
)


@check("anchor.electric", LIFE, COMMON_PRACTICE)
def the_anchor_falls_without_electricity(sight: Sight) -> Finds:
    """How an anchor is let go does not hang on electricity alone.

    Why: the engine has stopped, the batteries may be off or under water, and the windlass does nothing.
    Remedy: try it with the breaker off, and write that way: let-go: slacken the clutch of the windlass with its handle.
    """
    for item in anchors(sight.vessel):
        said = item.let_go if isinstance(item.let_go, str) else ""
        if _ELECTRIC.search(said) and not _BY_HAND.search(said):
            yield of(item, "let-go", f"'{said}' works with electricity alone")


_CUT = re.compile(r"\b(?:cut|saw|slash|chop|sever)\b", re.IGNORECASE)


@check("anchor.slip-uncut", HELP, COMMON_PRACTICE)
def what_is_cut_can_be_cut(sight: Sight) -> Finds:
    """Where an anchor is slipped by cutting, something to cut with is aboard.

    Why: a line under load is not untied, and the boat astern comes nearer.
    Remedy: carry a knife at the bow and list it under 'gear'.
    """
    for item in anchors(sight.vessel):
        if isinstance(item.slip, str) and _CUT.search(item.slip) and not _something_cuts(sight):
            yield of(item, "slip", f"'{item.slip}', and nothing aboard cuts")


_OF_A_DINGHY = re.compile(r"\b(?:dinghy|tender|raft|kayak|trip line)\b", re.IGNORECASE)


@check("anchor.second-bare", HELP, COMMON_PRACTICE)
def each_anchor_has_a_line_of_its_own(sight: Sight) -> Finds:
    """Where it is told how much line one anchor has, it is told of each.

    Why: the second one is let go when the first drags; without a line of its own it goes to the bottom alone.
    Remedy: measure its line and chain and write both as rode; of one that is bent on first, say what lies ready: rode: 40 m.
    """
    found = anchors(sight.vessel)
    told = [item for item in found if known(item.rode) is not None]
    for item in found if told else ():
        if (
            untold(item.rode)
            and not _NAMED.search(str(item.what))
            and not _OF_A_DINGHY.search(str(item.what))
        ):
            yield of(
                item,
                "what",
                f"nothing says how much line it has, as the {told[0].what} has {told[0].rode}",
                also=(told[0].place("rode"),),
            )


_SHACKLE = re.compile(
    r"\b(?:undo|unscrew|unshackle|open|unpin|release|take off|disconnect)\b[^;,.]*\b(?:d-?)?shackles?\b|\bunshackle\b|\bspanner\b|\bpliers\b|\bscrewdriver\b",
    re.IGNORECASE,
)


_TOOL = re.compile(
    r"\b(?:spanner|pliers|screwdriver|wrench|shackle key|hammer|marlin ?spike)\b", re.IGNORECASE
)


@check("anchor.slip-under-load", HELP, COMMON_PRACTICE)
def an_anchor_is_slipped_under_load(sight: Sight) -> Finds:
    """How an anchor is slipped works while the line pulls: no shackle is unscrewed, nor is a tool looked for.

    Why: the boat hangs on that line in the sea that drives her ashore, and a shackle under load does not turn.
    Remedy: end the chain in a rope lashing that reaches the deck, and write: slip: cut the lashing at the end of the chain.
    """
    for item in anchors(sight.vessel):
        if isinstance(item.slip, str) and (match := _SHACKLE.search(item.slip)):
            tool = _TOOL.search(item.slip)
            yield of(
                item,
                "slip",
                f"'{match[0]}' is not done while the line pulls{', and the ' + tool[0].lower() + ' to be found first' if tool else ''}",
                weight=LIFE.weight if tool else None,
            )


def _something_cuts(sight: Sight) -> bool:
    vessel = sight.vessel
    bags: list[Gear] = [*vessel.gear]
    packed = (each for bag in vessel.grab_bags for each in bag.items)
    return (
        any(does(each, CUTS) for each in bags)
        or any(does(each, CUTS) for each in packed)
        or any(isinstance(raft.knife, Located) for raft in vessel.rafts)
    )
