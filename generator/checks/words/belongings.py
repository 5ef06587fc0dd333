"""What a name, a spot and a line alike say of things: where their names have them, and who carries them."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import FAR, apart, one_of
from generator.manual.drawing.spaces import dimensions_m, gap_m
from generator.manual.own_words import called
from generator.manual.sieves import Names, names_alike
from generator.reading.block import Block
from generator.reading.nearest import folded, shortened
from generator.shelves.spaces import BELOW, DECK, FOR_GEAR, UPPER
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.survey.sight import once
from generator.vessel.alarms import Alarm
from generator.vessel.deck import Hatch
from generator.vessel.fittings import Fitting, Kept
from generator.vessel.gear import Gear, GrabBag, Lifejackets
from generator.vessel.installed import Battery, Pump, Stop, ThroughHull
from generator.vessel.radio import Beacon, RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space

PLACED = (Gear, GrabBag, Lifejackets, RadioSet, Beacon, Pump, Stop, Battery, ThroughHull, Alarm, Kept)
"""What lies somewhere and is called something."""
_NOT_WHERE_IT_IS = re.compile(
    r"\b(?:for|from|to|of|serves|and|both|spare|than|towards?)(?: (?:the|each|every|all))? $"
)
"""What stands before a space that a thing serves and need not lie in."""
_FIXTURES: tuple[tuple[str, str], ...] = (
    ("cooker|stove|oven|hob", "cooking"),
    ("toilet|bowl", "heads"),
    (_AT_THE_WHEEL := r"wheel|helmsman|throttle|throttles", "steering"),
    ("washboards", "companionway"),
    (
        _STEPS := r"behind the steps|(?:beside|by|under|below|at) the (?:companionway )?steps",
        _WAY_DOWN := "companionway",
    ),
    ("chart drawer|chart table", "chart table"),
)
"""What is built into one sort of space alone, as spots and ways of opening name it, and into which."""
_OF_A_HOLE = (("galley|sink", "cooking"), ("heads", "heads"), ("engine", "engine"), ("cockpit", "cockpit"))
"""What the name of a hole in the hull says it serves."""


@check("words.name-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def things_lie_where_their_names_say(sight: Sight) -> Finds:
    """A thing whose name or spot names a space, or what is built into one alone, lies there and not elsewhere in the boat.

    Why: whoever reads "fire extinguisher, galley" or "beside the cooker" runs there, and the thing hangs in the forepeak.
    Remedy: go and look; correct the name, the spot or 'where', whichever is wrong.
    """
    length_m = dimensions_m(sight.vessel)[0]
    least_m = 0.25 * FAR * length_m  # shorter is no place to go to by its name: the mast, but for the ends
    rooms = {
        space.name.lower(): space
        for space in sight.spaces.values()
        if space.fore_m - space.aft_m >= least_m
        or space.fore_m <= least_m
        or space.aft_m >= length_m - least_m
    }
    rooms |= {space.name.lower(): space for space in _ways_upside_down(sight)}
    names = names_alike(tuple(rooms))
    for block in sight.all_of(*PLACED, Hatch, Fitting):
        here = space_at(sight, getattr(block, "where", None))
        if here is not None:
            yield from _elsewhere(sight, block, here, rooms, names)


def _elsewhere(sight: Sight, block: Block, here: Space, rooms: dict[str, Space], names: Names) -> Finds:
    for key, words, spaces in _implied(sight, block, rooms, names):
        if _galley_up_here(words, here, spaces) or _second_helm(words, here):
            continue
        doubtful = _doubtful(sight, block, here, key, words, spaces)
        if doubtful is None:
            continue
        yield at(
            block,
            key,
            f"'{shortened(words)}' belongs to the {spaces[0].name}, and where says {here.name}",
            item=block.path,
            also=(block.place("where"),),
            weight=RECOMMENDATION if doubtful else None,
        )
        return
    what = block.__dict__.get("what")
    if (
        isinstance(what, str)
        and not isinstance(block, ThroughHull)
        and (stands := _called_inside(what, here))
    ):
        yield at(
            block,
            "what",
            f"'{shortened(what)}' is {stands}, and where says {here.name}",
            item=block.path,
            also=(block.place("where"),),
        )
        return
    spot = block.__dict__.get("spot")
    lower = spot.lower() if isinstance(spot, str) and not isinstance(block, Fitting) else ""
    if not lower or any(name in lower for name in rooms):
        return  # a space that it names is held against 'where' by itself
    if stands := _stands_elsewhere(lower, here):
        yield at(
            block,
            "spot",
            f"'{shortened(str(spot))}' is {stands}, and where says {here.name}",
            item=block.path,
            also=(block.place("where"),),
        )


def _doubtful(
    sight: Sight, block: Block, here: Space, key: str, words: str, spaces: list[Space]
) -> bool | None:
    """Whether it is no more than doubtful that words have a thing elsewhere than its space; None where they do not."""
    hole = isinstance(block, ThroughHull)
    whole_name = key == "what" and words == block.__dict__.get("what")
    if _of_steps(words) and not whole_name:
        return True if _away_from_steps(here, spaces, dimensions_m(sight.vessel)[0]) else None
    if spaces and all(apart(sight, here, each, near=whole_name) for each in spaces):
        return hole
    reach_m = STEPS * dimensions_m(sight.vessel)[0] + 0.01
    told = hole and whole_name and spaces and not any(each.own or each.unlike for each in (here, *spaces))
    if told and all(gap_m(here, each) > reach_m for each in spaces):
        return True
    if not whole_name:
        return False if _shut_away_from_helm(words, here, spaces) else None
    if hole and spaces and all(_on_deck_above(here, each, block) for each in spaces):
        return True
    away = spaces and (
        apart(sight, here, spaces[0]) or _outside_of(here, spaces[0]) or _inside_of(here, spaces[0])
    )
    if away and (_called_after(words, spaces[0]) or _called_by_the_way_out(sight, words, spaces[0])):
        return spaces[0] not in _ways_upside_down(sight)  # a step away, but behind a wall or a hatch
    return None


def _galley_up_here(words: str, here: Space, spaces: list[Space]) -> bool:
    """Whether people may cook in a room on deck that lies over the galley of her type: a cooker in the wheelhouse."""
    up = here.inside and not here.stows and not here.mark
    cooks = re.search(rf"\b(?:{_FIXTURES[0][0]})\b", words.lower()) is not None
    return up and cooks and any(each.cooking and gap_m(here, each) <= 0 for each in spaces)


def _second_helm(words: str, here: Space) -> bool:
    """Whether words name what steers, in the open above the deck: a flybridge has a helm of its own."""
    return here.level == UPPER and not here.mark and _STEERS.search(words.lower()) is not None


_STEERS = re.compile(r"\b(?:wheel|helm|throttles?|console|dash(?:board)?|steering)\b")


def _on_deck_above(here: Space, meant: Space, hole: Block) -> bool:
    """Whether a hole that serves a space below is said to be on deck, where people stand; words may have it under a hatch there."""
    spot = hole.__dict__.get("spot")
    if not isinstance(spot, str) or here.mark or here.exposed or here.level != DECK:
        return False  # of which another check speaks
    stands = not (here.stows or here.own or here.unlike)
    return stands and meant.level == BELOW and _REACHED.search(spot) is None


_REACHED = re.compile(r"\b(?:hatch|sole|floor|floorboards|lid|grating|locker|box)\b", re.IGNORECASE)


def _outside_of(here: Space, room: Space) -> bool:
    """Whether a space is on deck, in the open or a locker, and the other a room below it."""
    told = not (here.own or here.unlike or room.own)
    return told and room.roofed and room.level == BELOW != here.level and bool(here.open_deck or here.stows)


def _inside_of(here: Space, deck: Space) -> bool:
    """Whether a space is a room below, and the other open deck that nobody reaches out of it: not the foot of the companionway, which may be its part."""
    told = not (here.own or here.unlike or deck.own)
    return told and deck.open_deck and here.level == BELOW and here.roofed and here.always


def _of_steps(words: str) -> bool:
    """Whether words tell of the steps by which people go below."""
    return _word(_STEPS).search(words.lower()) is not None


STEPS = 0.1
"""Of the length: how far from the steps a thing beside them lies, a hole from what its hose serves, and from the stern steps of another
kind. Common practice."""


def _away_from_steps(here: Space, steps: list[Space], length_m: float) -> bool:
    """Whether a space lies away from the steps that go below, so that nothing in it is beside them; at the stern there may be others."""
    told = steps and not (here.own or here.unlike) and here.fore_m > STEPS * length_m
    return bool(told) and all(gap_m(here, each) > STEPS * length_m for each in steps)


def _shut_away_from_helm(words: str, here: Space, helms: list[Space]) -> bool:
    """Whether words have a thing at the wheel or the throttle, all of which are on deck, and its space is a room below, or a locker away from them."""
    if here.own or here.unlike or not helms or not _word(_AT_THE_WHEEL).search(words.lower()):
        return False
    outside = all(each.open_deck for each in helms)
    if here.level == BELOW and here.roofed and here.always and not here.steering:
        return outside
    wheels = [each for each in helms if each.steering]
    return bool(here.stows and wheels) and all(gap_m(here, each) > AT_HAND_M for each in wheels)


AT_HAND_M = 1.0
"""How far from the wheel a locker may be that is told by it. Common practice."""


def _called_after(name: str, space: Space) -> bool:
    """Whether the name of a thing ends in that of its space: fire extinguisher, galley; not where it may be what it is for, as an engine's."""
    end = folded(name.partition(",")[2])
    return not space.engine and folded(space.name) in (end, re.sub(r"^(?:port|starboard) ", "", end))


def _called_by_the_way_out(sight: Sight, name: str, space: Space) -> bool:
    """Whether the name of a thing has it at the way out that serves when she lies upside down: torch, at the escape hatch."""
    end = re.sub(r"^(?:at|in|by|on|beside) (?:the |its )?", "", folded(name.partition(",")[2]))
    return end == folded(space.name) and space in _ways_upside_down(sight)


@once
def _ways_upside_down(sight: Sight) -> tuple[Space, ...]:
    """The spaces of the ways out that serve when she lies upside down."""
    ways = (space_at(sight, hatch.where) for hatch in sight.vessel.escape if hatch.serves_inverted is True)
    return tuple(space for space in ways if space is not None)


def _called_inside(name: str, here: Space) -> str:
    """Where the end of a name has a thing, if her space of it is no such place: "fire extinguisher, cabin" in the pushpit."""
    end = folded(name.partition(",")[2])
    if not end or here.unlike or here.own:
        return ""
    under_a_roof = here.roofed or here.level == BELOW
    if end in called("inside") and not under_a_roof:
        return "inside her"
    return "on deck" if end in called("on-deck") and under_a_roof else ""


def _stands_elsewhere(spot: str, here: Space) -> str:
    """Where the furniture that a spot names stands, if her space of the thing is no such place: bunks inside her, rails in the open."""
    if here.unlike:
        return ""
    inside = bool(_furniture(called("indoors")).search(spot))
    if inside == bool(_furniture(called("outdoors")).search(spot)):
        return ""
    if inside:
        under_a_roof = here.roofed or (here.level == BELOW and not here.engine)
        return "" if under_a_roof or (here.stows == FOR_GEAR and here.own) else "inside her"
    return "" if here.open_deck or here.inside or here.mark else "on the open deck"


@cache
def _furniture(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds what stands inside her alone, or in the open alone, where the words end with it or go on to say where that is."""
    return re.compile(
        rf"\b(?:{one_of(names)})(?=$|[,.;:)]| (?:under|on|beside|behind|below|above|at|by|in|and|over|to|of|with|aft|forward)\b)"
    )


def _implied(
    sight: Sight, block: Block, rooms: dict[str, Space], names: Names
) -> Iterator[tuple[str, str, list[Space]]]:
    """(key, its words, the spaces one of which they mean) of a thing; `rooms` are those that a name may name, by `names`."""
    hole = isinstance(block, ThroughHull)
    what, spot, how = (block.__dict__.get(key) for key in ("what", "spot", "how"))
    spot = None if isinstance(block, Fitting) else spot  # parts of a cradle or a rail are called as they like
    if isinstance(what, str) and not isinstance(block, (ThroughHull, Alarm, Stop)):
        named = _named_in(what.lower(), names)
        yield "what", what, [rooms[named]] if named else []
        end = what.partition(",")[2].strip()
        yield from (("what", end, _of_sort(sight, sort)) for sort in _of_fixtures(end) if _AT.match(end))
    for key, words, told in (
        ("what", what if hole else None, _of_a_hole),
        ("spot", spot, _of_fixtures),
        ("how", how if isinstance(block, Hatch) else None, _of_fixtures),
    ):
        for sort in told(words) if isinstance(words, str) else ():
            if key != "how" or sort != "steering" or _BESIDE_THE_WHEEL.search(str(words).lower()):
                yield key, str(words), _of_sort(sight, sort)


_AT = re.compile(r"(?:at|by|beside|near|next to|behind|under|below|above|over) ")
_BESIDE_THE_WHEEL = re.compile(
    rf"\b(?:by|at|beside|behind|below|under|near|next to|abaft|forward of|aft of) (?:the )?(?:\w+ )?(?:{_AT_THE_WHEEL})\b"
)
"""Where a way of opening tells of her wheel: any other is that of the hatch, and turned."""


@lru_cache(maxsize=8192)
def _of_a_hole(words: str) -> tuple[str, ...]:
    """The sorts of spaces whose holes the name of one tells of."""
    return tuple(sort for pattern, sort in _OF_A_HOLE if _word(pattern).search(words.lower()))


@lru_cache(maxsize=8192)
def _of_fixtures(words: str) -> tuple[str, ...]:
    """The sorts of spaces in which that is built which words tell of."""
    return tuple(sort for pattern, sort in _FIXTURES if _word(pattern).search(words.lower()))


@cache
def _word(pattern: str) -> re.Pattern[str]:
    """What finds one of the words of the tables above."""
    return re.compile(rf"\b(?:{pattern})\b")


@lru_cache(maxsize=8192)
def _named_in(said: str, names: Names) -> str:
    """The last space that a name names as its place; "" for none."""
    found = [
        match[1]
        for match in re.finditer(rf"\b({one_of(names)})\b", said)
        if not _NOT_WHERE_IT_IS.search(said[: match.start()])
    ]
    return found[-1] if found else ""


def _of_sort(sight: Sight, sort: str) -> list[Space]:
    """Her spaces of a sort; where she is steered is near the cockpit as well."""
    return [
        space
        for space in sight.spaces.values()
        if (sort == "cooking" and space.cooking)
        or (sort == "engine" and space.engine)
        or (sort == "steering" and (space.steering or space.name in ("cockpit", "wheelhouse")))
        or folded(space.name).endswith(sort)
        or (sort == _WAY_DOWN and any("steps" in each for each in space.also_folded))
    ]


@check("words.other-carrier", TRUTH, COMMON_PRACTICE)
def whoever_it_is_called_after_carries_it(sight: Sight) -> Finds:
    """A beacon or a bag that is called somebody's, or lies in somebody's jacket, is carried by that person.

    Why: two count on one beacon, and whoever goes overboard has none.
    Remedy: look in whose jacket it is, and correct 'carried-by', or the words.
    """
    if not sight.roles:
        return
    owner = re.compile(rf"\b({one_of(tuple(role.lower() for role in sight.roles))})['’]s?\b")
    for block in sight.all_of(Beacon, GrabBag):
        carrier = block.__dict__.get("carried_by")
        if not isinstance(carrier, str) or carrier not in sight.roles:
            continue
        for key in ("what", "spot"):
            words = block.__dict__.get(key)
            if not isinstance(words, str):
                continue
            owners = owner.findall(words.lower())
            if owners and carrier.lower() not in owners:
                yield at(
                    block,
                    "carried-by",
                    f"'{shortened(words)}' is the {owners[0]}'s, and carried-by says {carrier}",
                    item=block.path,
                    also=(block.place(key),),
                )
                break
