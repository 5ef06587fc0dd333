"""Hull types: each file of templates/symbols/hulls gives the outline and the usual spaces of one, as parts of her size."""

from __future__ import annotations

import functools
import re
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Misread, One, Schema, Single, Texts, YesNo
from generator.reading.measures import Count
from generator.reading.names import Figure, Name, OtherName
from generator.reading.nearest import folded, shortened
from generator.reading.values import Band, given
from generator.shelves.faults import ShelfFault
from generator.shelves.gear_rows import PROPERTIES
from generator.shelves.rows import contradiction
from generator.shelves.shelf import File, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding, Place

UPPER, DECK, BELOW = "upper", "deck", "below"
LEVELS = (UPPER, DECK, BELOW)
"""The levels of a vessel from the top down; of a boat with nothing below, all of her is `deck`."""
ROOMS, SHELTER, NOTHING = "rooms", "shelter", "nothing"
FOR_GEAR, FOR_NOTHING = "gear", "nothing"
"""What a place in which nobody stands is good for."""
ASKED = ("steering", "engine", "exposed")
"""What checks and steps ask of spaces; on every hull one at least is so, and where people live below, one where they cook."""
BAILS = "bails water"
"""What empties a boat without a pump, by what it does."""
_FOLDER = "symbols/hulls"
_FIGURE = r"(-?[0-9]+(?:\.[0-9]+)?)"


class Stretch(Single[Band]):
    """From one end to the other, as parts of a measure of the hull, the lesser first: -0.5 to 0.5."""

    kind = "stretch"
    usual = "0 to 1"

    def __init__(self, question: str, *, low: float = 0.0, high: float = 1.0, required: bool = False) -> None:
        super().__init__(question, required=required)
        self.low, self.high = low, high

    def read(self, text: str) -> Band:
        """Both ends."""
        match = re.fullmatch(rf"{_FIGURE} to {_FIGURE}", text)
        if not match:
            raise Misread(
                f"'{shortened(text)}' is not a stretch", f"write both ends, for example {self.example}"
            )
        first, last = float(match[1]), float(match[2])
        if not self.low <= first < last <= self.high:
            raise Misread(
                f"'{text}' is no stretch from {self.low:g} to {self.high:g}",
                "write the lesser end first, and look at both figures again",
            )
        return Band(first, last, text)

    def schema(self) -> Schema:
        """Text of two figures."""
        return {"type": "string", "pattern": f"^{_FIGURE} to {_FIGURE}$"}


class Usual(Block):
    """The dimensions that a boat of the type usually has."""

    length = Figure("How long is such a boat usually, in metres?", low=4, high=40, required=True)
    beam = Figure("How wide is she usually, in metres?", low=1, high=20, required=True)


class HullBody(Block):
    """A boat-shaped part of the outline: the hull, one of two hulls, a float."""

    along = Stretch("From where to where of the length does it lie?", required=True)
    off = Stretch("From where to where of half the beam does it lie, each side?", required=True)
    transom = Figure("How wide is its transom, as a part of its width?", high=1, required=True)
    fullest = Figure("At which part of its length is it fullest?", low=0.05, high=0.95, required=True)
    bow = Figure("With which power does it narrow towards the bow?", low=1, high=6, required=True)


class HullPlatform(Block):
    """What joins hulls on one level: a bridgedeck, or a net."""

    level = Choice("On which level is it?", LEVELS, required=True)
    along = Stretch("From where to where of the length does it reach?", required=True)
    across = Stretch("From where to where of half the beam, negative to port?", low=-1, required=True)
    net = YesNo("Is it a net?")


class PresetSpace(Block):
    """A usual space of the type, where it lies and what it means."""

    called = "name"
    name = Name("What is it called?", required=True)
    level = Choice("On which level is it?", LEVELS, required=True)
    along = Stretch("From where to where of the length does it lie?", required=True)
    across = Stretch("From where to where of half the beam, negative to port?", low=-1)
    off = Stretch("The same for a space on both sides: from its inner to its outer edge?")
    shown = Choice("Does the plan always show it, or only when used?", ("always", "used"), required=True)
    mark = Choice("Which drawing stands in it?", ("mast",))
    also = Texts("Which other names has it?", of=OtherName("Which other name has it?"))
    exposed = YesNo("Do the seas break there?")
    inside = YesNo("Are people under a roof there, though it lies on deck?")
    stows = Choice(
        "Where nobody stands: is it a locker for gear, or a place where nothing for an emergency is kept?",
        (FOR_GEAR, FOR_NOTHING),
    )
    engine = YesNo("Does the engine stand there, so that an engine fire burns there?")
    cooking = YesNo("Is that where people cook?")
    steering = YesNo("Is that where she is steered?")
    on_watch = YesNo("Do those on watch stay there, so that what lies beside them is at hand?")
    way_in = YesNo("Is that the way by which everybody goes below and comes out?")

    def faults(self) -> Iterator[Fault]:
        """A space lies across the boat, or on both sides."""
        if (self.across is None) == (self.off is None):
            said = "neither 'across' nor 'off'" if self.off is None else "both 'across' and 'off'"
            yield Fault(
                "name",
                f"'{self.name}' says {said}",
                "write 'across' for a space that lies in one piece, 'off' for one on both sides",
            )


class HullType(Tallied):
    """A hull type: outline, usual spaces, and what else follows from it."""

    order = Count("Which place has it among the hull types?", low=1, required=True)
    usual = One(Usual, "Which dimensions has such a boat usually?", required=True)
    stands_in = YesNo("Is it taken where a boat's type is not known?")
    motor = YesNo("Is she driven by her engine alone, so that nobody asks for her rig?")
    multihull = YesNo("Has she several hulls, so that she may float upside down?")
    lived_in_hulls = YesNo("Do people live in each of her two hulls, so that each needs a way out?")
    breadth = Stretch("Between which parts of the length is the beam of such a boat?", required=True)
    bodies = Many(HullBody, "Which boat-shaped parts has the outline?", required=True)
    platforms = Many(HullPlatform, "What joins her hulls?")
    spaces = Many(PresetSpace, "Which spaces has she usually?", required=True, distinct=True)
    below = Choice("What has she below, where people can be?", (ROOMS, SHELTER, NOTHING), required=True)
    kill_cord = YesNo("Can whoever steers her be thrown out, so that a kill cord must stop the engine?")
    asks_for = Texts("What must be among her gear, by what it does?", PROPERTIES)

    @property
    def closed_in(self) -> bool:
        """Whether people can be inside her, so that there are ways out, and hatches to close."""
        return self.below != NOTHING

    @property
    def is_bailed(self) -> bool:
        """Whether a bucket does what a pump does elsewhere."""
        return BAILS in self.asks_for

    @property
    def has_rooms(self) -> bool:
        """Whether people live below."""
        return self.below not in (SHELTER, NOTHING)


def _one_stands_in(files: Sequence[File[HullType]]) -> Iterator[Finding]:
    """One type stands in where none is known."""
    standing_in = [each for each in files if each.block.stands_in is True]
    for each in standing_in[1:] or ([] if standing_in else files[:1]):
        yield contradiction(
            each.block.place("stands-in"),
            "one hull type, and one only, is taken where a boat's type is not known",
            "write stands-in: yes in the file of that type alone",
            *(first.block.place("stands-in") for first in standing_in[:1]),
        )


def _named_once(hull_type: HullType) -> Iterator[Finding]:
    """No name means two spaces of one type."""
    seen: dict[str, tuple[str, Place]] = {}
    for space in hull_type.spaces:
        own = given(space.name, "")
        for number, name in enumerate((own, *space.also)):
            place = space.place_in("also", number - 1) if number else space.place("name")
            meant, first = seen.setdefault(folded(name), (own, place))
            if first is not place and (number or meant != own):
                message = f"'{name}' is also a name of the space '{meant}'"
                yield contradiction(place, message, "keep it at the space that people mean by it", first)


def _hold_together(files: Sequence[File[HullType]]) -> Iterator[Finding]:
    """One type stands in where none is known and each has its place; no type contradicts itself."""
    yield from _one_stands_in(files)
    by_order: dict[int, HullType] = {}
    for hull_type in (file.block for file in files):
        order = given(hull_type.order, 0)
        if order and order in by_order:
            place, also = hull_type.place("order"), by_order[order].place("order")
            message = f"two hull types have the place {order}"
            yield contradiction(place, message, "give each a place of its own", also)
        by_order.setdefault(order, hull_type)
        yield from _named_once(hull_type)
        yield from _of_its_own_form(hull_type)
        yield from _asked_for(hull_type)
        yield from _below(hull_type)
        for space in hull_type.spaces:
            if not _on_the_hull(space, hull_type):
                yield contradiction(
                    space.place("off" if space.off is not None else "across"),
                    f"'{space.name}' lies beside the hull: no part of the outline reaches there",
                    "look at along and across, or off, again",
                    *(body.place("off") for body in hull_type.bodies),
                )


def _of_its_own_form(hull_type: HullType) -> Iterator[Finding]:
    """Her usual beam is one that her type has; two hulls are a multihull's, and so is what joins them."""
    usual, breadth = hull_type.usual, hull_type.breadth
    if usual is not None and isinstance(breadth, Band):
        length, beam = given(usual.length, 0.0), given(usual.beam, 0.0)
        if length and beam and not breadth[0] <= beam / length <= breadth[1]:
            yield contradiction(
                usual.place("beam"),
                f"the usual beam is {beam / length:.2f} of the usual length, and 'breadth' says {breadth}",
                "look at all three figures again",
                hull_type.place("breadth"),
            )
    if hull_type.multihull is True:
        return
    apart = next((each for each in hull_type.bodies if given(each.off, Band(0.0, 1.0))[0] > 0), None)
    several: list[tuple[Block, str, str]] = [(apart, "off", "has a body on each side")] if apart else []
    several += [(each, "across", "has what joins hulls") for each in hull_type.platforms[:1]]
    if hull_type.lived_in_hulls is True:
        several.append((hull_type, "lived-in-hulls", "is lived in in two hulls"))
    for block, key, message in several:
        yield contradiction(
            block.place(key), f"the type {message} and is no multihull", "write multihull: yes, or look again"
        )


def _asked_for(hull_type: HullType) -> Iterator[Finding]:
    """Where she is steered, where the engine stands and the seas break is asked of every boat; where people live, the galley."""
    for key in (*ASKED, *(("cooking",) if hull_type.below == ROOMS else ())):
        if not any(space.__dict__.get(key) is True for space in hull_type.spaces):
            yield contradiction(
                hull_type.place("spaces"),
                f"no space says '{key}: yes'",
                f"write {key}: yes at the space where it is so",
            )


def _below(hull_type: HullType) -> Iterator[Finding]:
    """What has nothing below has no space there, and what people can be in is a space."""
    lower = [space for space in hull_type.spaces if space.level == BELOW]
    if hull_type.below == NOTHING and lower:
        yield contradiction(
            lower[0].place("level"),
            f"'{lower[0].name}' lies below, and the type has nothing below",
            "correct the one that is wrong",
            hull_type.place("below"),
        )
    elif hull_type.below in (ROOMS, SHELTER) and not lower:
        yield contradiction(
            hull_type.place("below"),
            f"the type says below: {hull_type.below}, and no space of it lies there",
            f"write the spaces there are, or below: {NOTHING}",
        )


def _on_the_hull(space: PresetSpace, hull_type: HullType) -> bool:
    """Whether part of a space lies on a body of the outline, or on what joins hulls on its level."""
    along = space.along
    reach = space.across if space.across is not None else space.off
    if not isinstance(along, Band) or not isinstance(reach, Band):
        return True
    sides = (reach, *([_mirrored(reach)] if space.off is not None else ()))
    parts: list[tuple[object, object]] = [(each.along, each.off) for each in hull_type.bodies]
    parts += [(each.along, _mirrored(each.off)) for each in hull_type.bodies if isinstance(each.off, Band)]
    parts += [(each.along, each.across) for each in hull_type.platforms if joins_on(each.level, space.level)]
    return any(
        isinstance(length, Band)
        and isinstance(breadth, Band)
        and _meet(along, length)
        and _meet(side, breadth)
        for length, breadth in parts
        for side in sides
    )


def joins_on(platform: object, level: object) -> bool:
    """Whether what joins hulls on one level does so on another: the upper one stands on what joins them on deck."""
    return platform == level or (platform == DECK and level == UPPER)


def _mirrored(band: Band) -> Band:
    """The same on the other side."""
    return Band(-band[1], -band[0], str(band))


def _meet(one: Band, other: Band) -> bool:
    return max(one[0], other[0]) < min(one[1], other[1])


HULLS = Shelf(
    "hull types",
    f"{_FOLDER}/*.yaml",
    HullType,
    "Outline and usual spaces of a hull type; the name of the file is the word for it.",
    gives=lambda files: {
        "hull type": [each.stem for each in files],
        "space": sorted({str(space.name) for each in files for space in each.block.spaces}),
    },
    holds_together=_hold_together,
)


def hull_types() -> tuple[str, ...]:
    """The hull types on the shelf in their order, by the names of their files; raises ShelfFault."""
    return tuple(each.stem for each in sorted(HULLS.files(), key=lambda file: given(file.block.order, 0)))


def hull(name: str) -> HullType:
    """The hull type of that name; where there is none, the one that stands in. Raises ShelfFault."""
    files = HULLS.files()
    found = _named(files).get(name) or next(
        (each.block for each in files if each.block.stands_in is True), None
    )
    if found is None:
        raise ShelfFault(_hold_together(files))
    return found


@functools.lru_cache(maxsize=64)
def _named(files: tuple[File[HullType], ...]) -> dict[str, HullType]:
    return {each.stem: each.block for each in files}
