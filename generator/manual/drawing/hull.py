"""The outline of a hull by type and dimensions, in metres from the transom and off the centreline."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import Area, dimensions_m, hull_type
from generator.reading.values import Band, given
from generator.shelves.spaces import DECK, HullBody, HullPlatform, hull, joins_on

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.vessel.vessel import Vessel

_STATIONS = 48


@dataclass(frozen=True)
class Body:
    """A boat-shaped part: a hull or a float. All in metres; `bow` is the power of the curve forward of `fullest`."""

    aft_m: float
    fore_m: float
    axis_m: float
    half_m: float
    transom: float
    fullest: float
    bow: float

    def edges_m(self, aft_m: float) -> tuple[float, float] | None:
        """The port and starboard edge at a station, None beyond the ends."""
        if not self.aft_m <= aft_m <= self.fore_m:
            return None
        along = (aft_m - self.aft_m) / (self.fore_m - self.aft_m)
        if along <= self.fullest:
            part = self.transom + (1 - self.transom) * math.sin(math.pi / 2 * along / self.fullest)
        else:
            part = 1 - ((along - self.fullest) / (1 - self.fullest)) ** self.bow
        return self.axis_m - self.half_m * part, self.axis_m + self.half_m * part


@dataclass(frozen=True)
class Platform(Area):
    """What joins hulls on one level: a bridgedeck, or a net."""

    net: bool = False

    def edges_m(self, aft_m: float) -> tuple[float, float] | None:
        """The port and starboard edge at a station, None beyond the ends."""
        return (self.port_m, self.starboard_m) if self.aft_m <= aft_m <= self.fore_m else None


@dataclass(frozen=True)
class Outline:
    """Her shape seen from above. Points are (metres from the transom, metres off the centreline, negative to port)."""

    length_m: float
    beam_m: float
    bodies: tuple[Body, ...]
    platforms: tuple[Platform, ...]

    def parts(self, level: str) -> tuple[Body | Platform, ...]:
        """The bodies and platforms of a level."""
        return (*self.bodies, *(each for each in self.platforms if joins_on(each.level, level)))

    def contains(self, aft_m: float, off_m: float, level: str) -> bool:
        """Whether a point lies on the vessel."""
        return any(
            edges and edges[0] <= off_m <= edges[1]
            for edges in (part.edges_m(aft_m) for part in self.parts(level))
        )

    def within_m(
        self, aft_m: float, port_m: float, starboard_m: float, level: str
    ) -> tuple[float, float] | None:
        """What of a stretch athwartships lies on the vessel, from its first to its last point; None if nothing."""
        pieces = []
        for part in self.parts(level):
            edges = part.edges_m(aft_m)
            if edges and min(edges[1], starboard_m) > max(edges[0], port_m):
                pieces.append((max(edges[0], port_m), min(edges[1], starboard_m)))
        return (
            (min(port for port, _ in pieces), max(starboard for _, starboard in pieces)) if pieces else None
        )

    def shape(self, part: Body | Platform) -> list[tuple[float, float]]:
        """The corners of a body or platform."""
        return _ring(part.edges_m, part.aft_m, part.fore_m)

    def region(
        self, aft_m: float, fore_m: float, port_m: float, starboard_m: float, level: str
    ) -> list[tuple[float, float]]:
        """The corners of a rectangle as far as it lies on the vessel; empty if it lies outside."""

        def edges(station: float) -> tuple[float, float] | None:
            return self.within_m(station, port_m, starboard_m, level)

        return _ring(edges, max(aft_m, 0.0), min(fore_m, self.length_m))


def _ring(
    edges_m: Callable[[float], tuple[float, float] | None], aft_m: float, fore_m: float
) -> list[tuple[float, float]]:
    if fore_m <= aft_m:
        return []
    stations = [aft_m + (fore_m - aft_m) * step / _STATIONS for step in range(_STATIONS)] + [fore_m]
    found = [(station, edges) for station in stations if (edges := edges_m(station))]
    return (
        (
            [(station, edges[0]) for station, edges in found]
            + [(station, edges[1]) for station, edges in reversed(found)]
        )
        if len(found) > 1
        else []
    )


def outline_of(vessel: Vessel) -> Outline:
    """The outline by her type and dimensions (the usual ones of the type where they are not known)."""
    length, beam, _ = dimensions_m(vessel)
    type_ = hull(hull_type(vessel))
    bodies = [body for entry in type_.bodies for body in _bodies(entry, length, beam / 2)]
    platforms = [_platform(entry, length, beam / 2) for entry in type_.platforms]
    return Outline(length, beam, tuple(bodies), tuple(platforms))


_WHOLE = Band(0.0, 1.0)


def _bodies(entry: HullBody, length: float, half_beam: float) -> list[Body]:
    aft, fore = (each * length for each in given(entry.along, _WHOLE))
    inner, outer = (each * half_beam for each in given(entry.off, _WHOLE))
    shape = given(entry.transom, 1.0), given(entry.fullest, 0.5), given(entry.bow, 2.0)
    if inner == 0:
        return [Body(aft, fore, 0.0, outer, *shape)]
    return [Body(aft, fore, side * (inner + outer) / 2, (outer - inner) / 2, *shape) for side in (-1, 1)]


def _platform(entry: HullPlatform, length: float, half_beam: float) -> Platform:
    aft, fore = (each * length for each in given(entry.along, _WHOLE))
    port, starboard = (each * half_beam for each in given(entry.across, _WHOLE))
    return Platform(given(entry.level, DECK), aft, fore, port, starboard, entry.net is True)
