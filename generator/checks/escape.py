"""Escape: the ways out, which open from inside, and also of a hull that floats upside down."""

from __future__ import annotations

import re

from generator.manual.drawing.spaces import find_space
from generator.reading.nearest import shortened
from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW, DECK
from generator.survey.barring import locked_things, on_ways
from generator.survey.limits import least
from generator.survey.places import has_cabin, space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.deck import Hatch
from generator.vessel.particulars import FAR


@check("escape.one-way", LIFE, COMMON_PRACTICE)
def ways_out_open_from_inside(sight: Sight) -> Finds:
    """Ways out open from inside.

    Why: a hatch that only opens from outside is no way out for those below.
    Remedy: fit a handle inside, or take it out of 'escape'.
    """
    for hatch in sight.vessel.escape:
        if hatch.opens == "outside":
            yield at(
                hatch,
                "opens",
                f"the hatch in the {hatch.where} opens from outside only",
                item=str(hatch.where),
            )


@check(
    "escape.one-only",
    LIFE,
    "Offshore Special Regulations 3.07 (from memory, unverified): two exits from 8.5 m of length on",
)
def there_are_two_ways_out(sight: Sight) -> Finds:
    """From 8.5 m of length on there are two ways out.

    Why: fire or a fallen mast shuts the one there is.
    Remedy: describe the second under 'escape'; if a hatch opens wide enough for a person, that is one.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one
        and isinstance(one.length, Quantity)
        and one.length >= least(vessel, "length with two ways out")
        and has_cabin(vessel)
        and len(vessel.escape) < 2
    ):
        place = vessel.key_place("escape") if vessel.escape else one.place("length")
        yield Found(place, f"{len(vessel.escape) or 'no'} way out is described; she is {one.length} long")


@check(
    "escape.inverted",
    LIFE,
    "Offshore Special Regulations 3.07.2 for multihulls (from memory, unverified)",
)
def each_hull_has_its_way_out(sight: Sight) -> Finds:
    """Offshore, each hull of a catamaran has its own way out.

    Why: she floats upside down, and the companionway is then under water.
    Remedy: describe the escape hatch of each hull under 'escape', the space with its side: port aft cabin.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or not one.hull.lived_in_hulls or one.waters not in FAR or not vessel.escape:
        return
    for side in ("port", "starboard"):
        if not any(_leads_out_of(hatch, side, sight) for hatch in vessel.escape):
            yield Found(
                vessel.key_place("escape"), f"no way out of the {side} hull is described", item=f"{side} hull"
            )


def _leads_out_of(hatch: Hatch, side: str, sight: Sight) -> bool:
    """Whether a way out is that of people in the hull of a side, and not of its engine space."""
    space = space_at(sight, hatch.where)
    return side in str(hatch.where).lower().split() and not (space is not None and space.engine)


@check(
    "escape.none-inverted",
    LIFE,
    "Offshore Special Regulations 3.07.2 for multihulls (from memory, unverified)",
)
def a_way_out_serves_upside_down(sight: Sight) -> Finds:
    """Offshore, one way out of a multihull, or of each hull that people live in, serves when she lies upside down.

    Why: she floats so for days, and whoever is shut in drowns or starves of air behind hatches that are under water.
    Remedy: look which hatch is above the water then, and write serves-inverted: yes there; with none, have one fitted.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or one.hull.multihull is not True or one.waters not in FAR or not vessel.escape:
        return
    if not any(hatch.serves_inverted is True for hatch in vessel.escape):
        said = next((hatch for hatch in vessel.escape if hatch.serves_inverted is False), vessel.escape[0])
        yield at(
            said,
            "serves-inverted",
            "of none it is said that it serves when she lies upside down",
            item="escape",
            weight=None if any(hatch.serves_inverted is False for hatch in vessel.escape) else RECOMMENDATION,
        )
        return
    for side in ("port", "starboard") if one.hull.lived_in_hulls else ():
        own = [hatch for hatch in vessel.escape if _leads_out_of(hatch, side, sight)]
        shut = [hatch for hatch in own if hatch.serves_inverted is False]
        if shut and not any(hatch.serves_inverted is True for hatch in own):
            yield at(
                shut[0],
                "serves-inverted",
                f"of none in the {side} hull it is said that it serves when she lies upside down",
                item=f"{side} hull",
            )


@check("escape.way-up", LIFE, COMMON_PRACTICE)
def a_wheelhouse_has_its_way_out(sight: Sight) -> Finds:
    """A wheelhouse or deckhouse that she uses has its way out.

    Why: the door that everybody knows is not in the list, and another stands there that may be none.
    Remedy: describe it under 'escape': {where: wheelhouse, opens: both, how: ...}.
    """
    vessel, ways = sight.vessel, [space_at(sight, hatch.where) for hatch in sight.vessel.escape]
    if not ways or None in ways or any(each is not None and (each.unlike or each.own) for each in ways):
        return
    named = (space_at(sight, where) for where in dict.fromkeys(said for _, said in sight.texts("where")))
    on_deck = {each.name: each for each in named if each is not None and each.inside and each.level == DECK}
    for each in on_deck.values():
        if each not in ways:
            yield Found(
                vessel.key_place("escape"), f"no way out of the {each.name} is described", item=each.name
            )


_CLEARED_FIRST = re.compile(
    r"\b(?:move|shift|push|lift|unlash|untie|clear|remove|drag|haul|slide|take|throw)s? (?:away |off |aside )?(?:the |our |both |all )?"
    r"(?:[a-z-]+ ){0,2}?(?P<what>liferaft|raft|canister|dinghy|tender|kayaks?|paddleboards?|sails?|sail ?bags?|fenders?|outboard|cans?|jerry ?cans?|crates?|boxes|stores|bicycles?|gangway|passerelle)\b",
    re.IGNORECASE,
)
"""What words on opening a way out have cleared away first."""
_A_WAY = re.compile(r"\b(?:hatch(?:es)?|doors?|companionway|skylight|ways? out|escapes?)\b")


@check("escape.barred", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_bars_a_way_out(sight: Sight) -> Finds:
    """Nothing lies over or before a way out, and none is locked at sea.

    Why: whoever is below in smoke or rising water pushes against a dinghy, a sail or a lock.
    Remedy: stow it elsewhere and write that in its 'spot': lashed bottom up, clear of the hatch; leave ways out unlocked, or bolted from inside.
    """
    for lies, hatch in on_ways(sight):
        name = str(lies.said.block.__dict__.get(type(lies.said.block).called or "what") or "a note")
        yield at(
            lies.said.block,
            lies.said.field.key,
            f"{name}: '{shortened(lies.said.text)}': that bars the way out of the {hatch.where}",
            item=name,
            also=(hatch.place("where"),),
        )
    ways = sight.vessel.escape
    for hatch in ways:
        if isinstance(hatch.how, str) and (first := _CLEARED_FIRST.search(hatch.how)):
            yield at(
                hatch,
                "how",
                f"'{shortened(hatch.how)}': it cannot be opened until somebody takes away: {first['what']}",
                item=str(hatch.where),
            )
        if (
            isinstance(hatch.how, str)
            and _LOCKED_OUTSIDE.search(hatch.how)
            and not _NEVER_LOCKED.search(hatch.how)
        ):
            yield at(
                hatch,
                "how",
                f"'{shortened(hatch.how)}': whoever is below cannot take that off",
                remedy="take the lock off for good while she is at sea, and write how it is opened from inside",
                item=str(hatch.where),
                also=(hatch.place("opens"),),
            )
    for locked in locked_things(sight) if ways else ():
        space = space_at(sight, locked.what)
        meant = [hatch for hatch in ways if space is not None and space_at(sight, hatch.where) is space]
        if meant or _A_WAY.search(locked.what):
            yield at(
                locked.said.block,
                locked.said.field.key,
                f"'{shortened(locked.said.text)}': nobody below gets out by a way that is locked",
                item=locked.said.block.path,
                also=tuple(hatch.place("opens") for hatch in meant),
            )


_LOCKED_OUTSIDE = re.compile(
    r"\bpadlock|\bhasps?\b|\b(?:bolts?|locks?|latch|hook|bar)(?: that is| is| are)? (?:on the |from )?(?:outside|on deck|above|on top)\b",
    re.IGNORECASE,
)
_NEVER_LOCKED = re.compile(
    r"\b(?:never|not|no|without|gone|removed|ashore|only in|inside too|both sides|from (?:below|inside))\b",
    re.IGNORECASE,
)


@check("escape.serves-inverted", LIFE, COMMON_PRACTICE)
def ways_out_upside_down_open_from_both_sides(sight: Sight) -> Finds:
    """A way out that serves when she lies upside down opens from inside and from outside.

    Why: then people are on both sides of it: some shut in, some on her bottom who must get in to them.
    Remedy: fit a handle on the other side, then write opens: both; or take 'serves-inverted' out.
    """
    for hatch in sight.vessel.escape:
        if hatch.serves_inverted is True and hatch.opens in ("inside", "outside"):
            yield at(
                hatch,
                "serves-inverted",
                f"the hatch in the {hatch.where} serves upside down, and opens from {hatch.opens} only",
                item=str(hatch.where),
                also=(hatch.place("opens"),),
            )
        elif (
            hatch.serves_inverted is False
            and isinstance(hatch.how, str)
            and (told := _WHEN_OVER.search(hatch.how))
            and not _NOT_OVER.search(hatch.how)
        ):
            yield at(
                hatch,
                "serves-inverted",
                f"'{shortened(hatch.how)}' tells how it is opened {told[0].lower()}, and serves-inverted says no",
                remedy="look whether it is above the water then, and correct the one that is wrong",
                item=str(hatch.where),
                also=(hatch.place("how"),),
            )


_WHEN_OVER = re.compile(
    r"\b(?:upside down|inverted|capsized|turned over|when (?:she|the boat) (?:is|lies) over)\b", re.IGNORECASE
)
_NOT_OVER = re.compile(r"\b(?:not|never|no|nobody)\b", re.IGNORECASE)


_UPWARDS = re.compile(r"\b(?:up|upwards?|overhead)\b", re.IGNORECASE)


_BELOW_HER = re.compile(
    r"\b(?:sole|floor(?:boards?)?|bottom|under(?:side|neath)|escape|inner side|outer side|hull side|side of the (?:main )?hull|trunk|tunnel|inverted|upside down|from below)\b",
    re.IGNORECASE,
)
_DOOR = re.compile(
    r"\bdoors?\b|\bwash ?boards?\b|\bslid(?:e|es|ing)\b|\bcompanion ?way\b|\bsteps\b", re.IGNORECASE
)


def _onto_her_deck(sight: Sight, hatch: Hatch, how: str) -> str:
    """What a way out of a multihull is that leads onto her deck, and no hatch in a hull; "" where it may be one."""
    one, space = sight.vessel.vessel, space_at(sight, hatch.where)
    if one is None or one.hull.multihull is not True or _BELOW_HER.search(f"{hatch.where} {how}"):
        return ""
    if space is None or (space.own and not space.inside and not _DOOR.search(how)):
        return "a door" if space is not None and _DOOR.search(how) else ""
    if "companionway" in space.name:
        return "the companionway"
    if space.level != BELOW:
        return "on deck"
    if _DOOR.search(how):
        return "a door, or slides, as those onto the deck do"
    between = one.hull.lived_in_hulls and not space.paired and space.port_m < 0 < space.starboard_m
    return "that of the room between the hulls" if between else ""


@check("escape.opens-under-water", LIFE, COMMON_PRACTICE)
def a_way_out_upside_down_is_no_deck_hatch(sight: Sight) -> Finds:
    """A way out that serves when she lies upside down is not one that is pushed up through the deck, nor of a multihull the companionway, or a door onto her deck.

    Why: it is under her then, and whoever opens it lets the sea in and the air out.
    Remedy: look which hatch is above the water then; write serves-inverted: no here, or say how it is worked from below her:
    how: lift the sole board and turn both handles of the hatch in the bridgedeck.
    """
    for hatch in sight.vessel.escape:
        how = hatch.how if isinstance(hatch.how, str) else ""
        onto = _onto_her_deck(sight, hatch, how) if hatch.serves_inverted is True else ""
        if onto:
            yield at(
                hatch,
                "serves-inverted",
                f"the way out of the {hatch.where} is said to serve upside down, and it is {onto}, which is under water then",
                item=str(hatch.where),
                also=(hatch.place("how"),),
            )
            continue
        if (
            hatch.serves_inverted is True
            and hatch.opens not in ("inside", "outside")
            and _UPWARDS.search(how)
            and "down" not in how
        ):
            yield at(
                hatch,
                "serves-inverted",
                f"the hatch in the {hatch.where} is said to serve upside down, and it opens upwards: {how}",
                item=str(hatch.where),
                also=(hatch.place("how"),),
            )


@check("escape.nobody-there", TRUTH, COMMON_PRACTICE)
def a_way_out_is_where_people_are(sight: Sight) -> Finds:
    """A way out is told of a space that people are in.

    Why: whoever looks for it in the bilge is lost; one of the two words is wrong.
    Remedy: go and look, and write the space from which people get out by it.
    """
    for hatch in sight.vessel.escape:
        space = space_at(sight, hatch.where)
        if space is not None and space.stows and space.level == BELOW and not space.engine:
            yield at(
                hatch,
                "where",
                f"a way out is told in the {space.name}, and nobody is in there",
                item=str(hatch.where),
            )


def ways_in_left_out(sight: Sight) -> list[str]:
    """Where ways out are listed: the spaces by which everybody goes below that are not among them, by name."""
    ways, one = sight.vessel.escape, sight.vessel.vessel
    found = [space for space in one.hull.spaces if space.way_in is True] if one is not None and ways else []
    names = [str(each.name) for each in found if find_space(sight.spaces, str(each.name))[0]]
    return [name for name in names if not any(name in str(each.where or "") for each in ways)]


@check("escape.companionway", TRUTH, COMMON_PRACTICE)
def the_way_everybody_goes_is_listed(sight: Sight) -> Finds:
    """Where ways out are listed, the one by which everybody goes below is among them.

    Why: it is the way out that most take; how it opens in the dark, with the washboards in, nobody reads.
    Remedy: write under 'escape' for example: {where: companionway, opens: both, how: slide the hatch forward and lift the washboards}
    """
    for name in ways_in_left_out(sight):
        yield Found(sight.vessel.key_place("escape"), f"her {name} is not among the ways out", item=name)


@check("escape.none-from-deck", HELP, COMMON_PRACTICE)
def one_way_out_opens_from_deck(sight: Sight) -> Finds:
    """Of the ways out of a boat that people live in, one at least opens from outside.

    Why: whoever lies hurt behind it, or asleep in smoke, opens nothing, and those on deck cannot either.
    Remedy: try each from deck; fit a handle outside, then write opens: both.
    """
    ways = sight.vessel.escape
    if len(ways) > 1 and has_cabin(sight.vessel) and all(each.opens == "inside" for each in ways):
        yield Found(ways[0].place("opens"), "every way out opens from inside only", item="ways out")
