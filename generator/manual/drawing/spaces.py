"""Spaces: where on her levels each named place of the vessel lies, in metres."""

from __future__ import annotations

import functools
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.reading.nearest import folded
from generator.reading.values import Band, Quantity, given
from generator.shelves.gear import before_comma
from generator.shelves.spaces import BELOW, DECK, FOR_GEAR, FOR_NOTHING, PresetSpace, hull, hull_types

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.shelves.spaces import HullType
    from generator.vessel.deck import Space as OwnSpace
    from generator.vessel.vessel import Vessel

_SIDES = ("port", "starboard")


@dataclass(frozen=True)
class Area:
    """A rectangle on one level.

    `aft_m` and `fore_m` count from the transom, `port_m` and `starboard_m` from the centreline, negative to port.
    """

    level: str
    aft_m: float
    fore_m: float
    port_m: float
    starboard_m: float


@dataclass(frozen=True)
class Space(Area):
    """A named place on one level.

    A space that lies on both sides (`paired`) gives its starboard half as `inner_m` to `starboard_m`.
    `always` says whether the plan shows it with nothing in it; `mark` names the drawing inside it, if any. What it means
    is its preset's: the seas break there (`exposed`), the engine stands there, people cook or steer there, it has a roof
    (`inside`), nobody stands in it (`stows`: gear, or nothing), those on watch sit there (`on_watch`). `own`: its name is the boat's own word; `unlike`: no usual
    space is its model, so that what it means is not known.
    """

    name: str
    inner_m: float = 0.0
    paired: bool = False
    always: bool = False
    mark: str = ""
    also: tuple[str, ...] = ()
    exposed: bool = False
    engine: bool = False
    cooking: bool = False
    steering: bool = False
    own: bool = False
    inside: bool = False
    stows: str = ""
    unlike: bool = False
    on_watch: bool = False

    @functools.cached_property
    def also_folded(self) -> tuple[str, ...]:
        """Its other names as they are compared."""
        return tuple(map(folded, self.also))

    @property
    def roofed(self) -> bool:
        """Whether people in it are inside the boat."""
        return not self.stows and (self.inside or self.level == BELOW)

    @property
    def open_deck(self) -> bool:
        """Whether people stand there under the sky; false where that is not known."""
        return not (self.stows or self.inside or self.unlike or self.mark) and self.level != BELOW

    def half(self, side: str) -> tuple[float, float]:
        """The port and starboard edge in metres of what lies on `side`; of the whole space for centre or ""."""
        if self.paired and side in _SIDES:
            return (-self.starboard_m, -self.inner_m) if side == "port" else (self.inner_m, self.starboard_m)
        if side == "port" and self.port_m < 0:
            return self.port_m, min(self.starboard_m, 0.0)
        if side == "starboard" and self.starboard_m > 0:
            return max(self.port_m, 0.0), self.starboard_m
        return self.port_m, self.starboard_m

    def lies_on(self, side: str) -> bool:
        """Whether any of the space lies on that side; true for centre and ""."""
        return not ((side == "port" and self.port_m >= 0) or (side == "starboard" and self.starboard_m <= 0))


def dimensions_m(vessel: Vessel) -> tuple[float, float, bool]:
    """Length and beam in metres, and whether both are the vessel's own; else what is usual for her type."""
    particulars = vessel.vessel
    length = getattr(particulars, "length", None)
    beam = getattr(particulars, "beam", None)
    if isinstance(length, Quantity) and isinstance(beam, Quantity):
        return float(length), float(beam), True
    usual = hull(hull_type(vessel)).usual
    return (given(usual.length, 0.0), given(usual.beam, 0.0), False) if usual else (0.0, 0.0, False)


def hull_type(vessel: Vessel) -> str:
    """The word for her hull type, "" where it is not known."""
    return str(getattr(vessel.vessel, "type", None) or "")


def preset_spaces(hull_type: str, length_m: float, beam_m: float) -> dict[str, Space]:
    """The usual spaces of a hull type at these dimensions, by folded name; of the type that stands in where none is known."""
    return dict(_preset(hull(hull_type), length_m, beam_m))


@functools.lru_cache(maxsize=256)
def _preset(of: HullType, length_m: float, beam_m: float) -> dict[str, Space]:
    made = [_space(entry, length_m, beam_m / 2) for entry in of.spaces]
    return {folded(space.name): space for space in made}


def _space(entry: PresetSpace, length: float, half_beam: float) -> Space:
    aft, fore = (each * length for each in given(entry.along, _NOWHERE))
    paired = entry.off is not None
    inner, outer = (each * half_beam for each in given(entry.off if paired else entry.across, _NOWHERE))
    return Space(
        given(entry.level, DECK),
        aft,
        fore,
        -outer if paired else inner,
        outer,
        given(entry.name, ""),
        inner if paired else 0.0,
        paired,
        entry.shown == "always",
        given(entry.mark, ""),
        tuple(entry.also),
        entry.exposed is True,
        entry.engine is True,
        entry.cooking is True,
        entry.steering is True,
        inside=entry.inside is True,
        stows=given(entry.stows, ""),
        on_watch=entry.on_watch is True,
    )


_NOWHERE = Band(0.0, 0.0)


class Spaces(dict[str, Space]):
    """The spaces of one boat by folded name. Nobody changes them, so that what a place means among them is looked for once."""

    def __init__(self, spaces: Mapping[str, Space]) -> None:
        super().__init__(spaces)
        self._meant: dict[str, tuple[Space | None, str]] = {}

    def meant(self, where: str) -> tuple[Space | None, str]:
        """See `find_space`."""
        found = self._meant.get(where)
        if found is None:
            found = self._meant[where] = _find(self, where)
        return found


def spaces_of(vessel: Vessel) -> Spaces:
    """Her spaces by folded name (see `folded`): the preset of her type as changed by the `deck` block.

    An own space without ends takes those of the preset space it replaces or is called like, on any hull type; what
    has no such model is left out and told by `unlocated_spaces`.
    """
    length, beam, _ = dimensions_m(vessel)
    spaces = preset_spaces(hull_type(vessel), length, beam)
    models = dict(spaces)
    deck = vessel.deck
    for name in deck.without if deck else ():
        spaces.pop(_key_of(spaces, name), None)
    for own in deck.spaces if deck else ():
        spaces.pop(_key_of(spaces, given(own.replaces, "")), None)
    for own in deck.spaces if deck else ():
        space = _own_space(own, models, length, beam)
        if space:
            spaces[folded(space.name)] = space
    return Spaces(spaces | _steered(vessel, spaces))


def _steered(vessel: Vessel, spaces: Mapping[str, Space]) -> dict[str, Space]:
    """The space at which she is steered, laid where the boat says so: as large as it is usually, within that space.

    Nothing where she does not say it, or gives the ends of it herself under `deck`.
    """
    told = vessel.vessel.helm if vessel.vessel else None
    key = next((key for key, space in spaces.items() if space.steering), "")
    within, side = find_space(spaces, given(told.where, "")) if told else (None, "")
    if told is None or within is None or not key or spaces[key].own:
        return {}
    helm = spaces[key]
    port, starboard = within.half(given(told.side, side))
    aft, fore = _middle(within.aft_m, within.fore_m, helm.fore_m - helm.aft_m)
    port, starboard = _middle(port, starboard, helm.starboard_m - helm.port_m)
    laid = replace(
        helm, level=within.level, aft_m=aft, fore_m=fore, port_m=port, starboard_m=starboard, paired=False
    )
    return {key: laid}


def _middle(first: float, last: float, most: float) -> tuple[float, float]:
    """The ends of the middle of a stretch, of as much of it as `most`."""
    middle, half = (first + last) / 2, min(last - first, most) / 2
    return middle - half, middle + half


def unlocated_spaces(vessel: Vessel) -> tuple[OwnSpace, ...]:
    """The entries of `deck.spaces` that give no ends and no model to take them from."""
    length, beam, _ = dimensions_m(vessel)
    models = preset_spaces(hull_type(vessel), length, beam)
    return tuple(
        own
        for own in (vessel.deck.spaces if vessel.deck else ())
        if own.name and not _own_space(own, models, length, beam)
    )


def unknown_presets(vessel: Vessel) -> tuple[str, ...]:
    """The names in `deck.without` and `replaces` that her preset doesn't hold."""
    if not vessel.deck:
        return ()
    models = preset_spaces(hull_type(vessel), *dimensions_m(vessel)[:2])
    named = [
        *vessel.deck.without,
        *(given(own.replaces, "") for own in vessel.deck.spaces if own.replaces),
    ]
    return tuple(name for name in named if not _key_of(models, name))


def _own_space(own: OwnSpace, models: Mapping[str, Space], length: float, beam: float) -> Space | None:
    name = given(own.name, "")
    if not name:
        return None
    model = models.get(_key_of(models, given(own.replaces, "") or name)) or _elsewhere(name, length, beam)
    aft, fore, port, starboard = (
        float(each) if isinstance(each, Quantity) else None
        for each in (own.aft, own.fore, own.port, own.starboard)
    )
    if model is None:
        if aft is None or fore is None:
            return None
        model = replace(Space(DECK, aft, fore, -beam / 2, beam / 2, name), stows=_stows(name), unlike=True)
    aft, fore = sorted((model.aft_m if aft is None else aft, model.fore_m if fore is None else fore))
    across = port is not None or starboard is not None
    port, starboard = sorted(
        (model.port_m if port is None else port, model.starboard_m if starboard is None else starboard)
    )
    renamed = folded(name) != folded(model.name)
    raised = model.level == BELOW and own.level == DECK and not (model.stows or model.mark or model.engine)
    return replace(
        model,
        name=name,
        level=given(own.level, model.level),
        aft_m=aft,
        fore_m=fore,
        port_m=port,
        starboard_m=starboard,
        paired=model.paired and not across,
        always=True,
        also=() if renamed else model.also,
        own=True,
        inside=model.inside or raised,  # a saloon on deck is a room there too
    )


def _stows(name: str) -> str:
    """What a space of her own is good for, by the usual space whose name ends it, else whose last word does: "port fuel tank"."""
    words = folded(name).split()
    usual = _stowing(tuple(map(hull, hull_types())))
    for count in range(len(words), 0, -1):
        alike = {stows for named, stows in usual if named[-count:] == words[-count:]}
        if alike:
            return FOR_GEAR if FOR_GEAR in alike else FOR_NOTHING
    return ""


@functools.lru_cache(maxsize=64)
def _stowing(hulls: tuple[HullType, ...]) -> list[tuple[list[str], str]]:
    """The words of the names of the spaces in which nobody stands, and what each is good for."""
    return [
        (folded(given(each.name, "")).split(), given(each.stows, ""))
        for one in hulls
        for each in one.spaces
        if given(each.stows, "")
    ]


def _elsewhere(name: str, length: float, beam: float) -> Space | None:
    """The space of that name on another hull type: a wheelhouse on a sailing yacht."""
    for other in hull_types():
        spaces = _preset(hull(other), length, beam)
        key = _key_of(spaces, name)
        if key:
            return spaces[key]
    return None


def _key_of(spaces: Mapping[str, Space], name: str) -> str:
    """The key of the space called `name`, also by another of its names; "" if there is none."""
    name = folded(name)
    if name in spaces:
        return name
    return next((key for key, space in spaces.items() if name in space.also_folded), "")


def names_in(where: str) -> tuple[str, str]:
    """The names that a place may mean, folded: all of it, or what stands before its first comma."""
    return folded(where), folded(before_comma(where))


def find_space(spaces: Mapping[str, Space], where: str) -> tuple[Space | None, str]:
    """The space that `where` names, and the side if the name begins with one ("port hull" of a paired space).

    Capitals don't matter; what stands after a comma is left aside ("cockpit, under the seat").
    """
    return spaces.meant(where) if isinstance(spaces, Spaces) else _find(spaces, where)


def _find(spaces: Mapping[str, Space], where: str) -> tuple[Space | None, str]:
    for name in names_in(where):
        key = _key_of(spaces, name)
        if key:
            return spaces[key], ""
        side, _, rest = name.partition(" ")
        if side in _SIDES:
            key = _key_of(spaces, rest) or _key_of(spaces, rest.removeprefix("hull "))
            if key and spaces[key].lies_on(side):
                return spaces[key], side
    return None, ""


def gap_m(one: Space, other: Space) -> float:
    """How far two spaces lie apart in plan, in metres; 0 where they touch or overlap, on whatever levels."""
    along = max(one.aft_m - other.fore_m, other.aft_m - one.fore_m)
    across = max(one.port_m - other.starboard_m, other.port_m - one.starboard_m)
    return max(0.0, along, across)
