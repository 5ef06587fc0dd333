"""One level of the plan: the hull on paper, and where in its spaces labels may stand."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from generator.manual.drawing.hull import Outline
from generator.manual.drawing.labels import GAP_MM, Label, Sheet, Subject
from generator.manual.drawing.spaces import Space
from generator.manual.drawing.svg import Box, Point

NAME_MM = 3.2
"""Font size of the names of spaces."""
_HEADROOM_MM = 5.0
# Where the first row and the first column of a lattice stand, the plainest first.
_STARTS = tuple(
    (row, column)
    for row in ("middle", "beside", "low", "high")
    for column in ("middle", "beside", "low", "high")
)

_Spot = tuple[float, float, float]  # what it costs, and the point


class Level:
    """The hull drawn bow up at `mm_per_m`, its centreline at `middle`, inside a sheet from `left` to `right`.

    Coordinates are millimetres on paper; the vessel's are metres from the transom and off the centreline.
    """

    def __init__(self, name: str, outline: Outline, left: float, right: float, top: float, mm_per_m: float):
        self.name = name
        self.outline = outline
        self.mm_per_m = mm_per_m
        self.middle = (left + right) / 2
        self.bow = top + _HEADROOM_MM
        self.stern = self.bow + outline.length_m * mm_per_m
        self.across: dict[float, list[tuple[float, float]]] = {}
        self.sheet = Sheet(left + 0.5, right - 0.5, top, self.stern + _HEADROOM_MM, self._off_the_vessel)
        # boxes of spaces inside others, which labels of the larger space leave alone
        self.small: list[Box] = []

    def at(self, aft_m: float, off_m: float) -> Point:
        """A point of the vessel on paper."""
        return self.middle + off_m * self.mm_per_m, self.stern - aft_m * self.mm_per_m

    def metres(self, point: Point) -> tuple[float, float]:
        """A point on paper as metres from the transom and off the centreline."""
        return (self.stern - point[1]) / self.mm_per_m, (point[0] - self.middle) / self.mm_per_m

    def region(self, space: Space, side: str) -> list[Point]:
        """The corners of a space, or its half on `side`, as far as it lies on the vessel."""
        corners = self.outline.region(space.aft_m, space.fore_m, *space.half(side), self.name)
        return [self.at(*corner) for corner in corners]

    def bounds(self, space: Space, side: str) -> Box:
        """The box on paper round a space or its half."""
        corners = self.region(space, side) or [
            self.at((space.aft_m + space.fore_m) / 2, sum(space.half(side)) / 2)
        ]
        return (
            min(x for x, _ in corners),
            min(y for _, y in corners),
            max(x for x, _ in corners),
            max(y for _, y in corners),
        )

    def anchor(self, space: Space, side: str) -> Point:
        """The point that stands for a space on that side: its middle, on the centreline where the side is centre."""
        left, top, right, bottom = self.bounds(space, side)
        y = (top + bottom) / 2
        stretch = self._stretch(space, side, y) or (left, right)
        x = sum(stretch) / 2
        if side not in ("port", "starboard"):
            x = min(max(self.middle, stretch[0]), stretch[1])
        return x, y

    def labels(
        self, keys: Sequence[Subject], space: Space, side: str, size: tuple[float, float], rise: float = 0.0
    ) -> list[Label]:
        """Labels that belong into a space on that side, laid out together."""
        anchor = self.anchor(space, side)
        spots = tuple(self._spots(space, side, size, anchor, len(keys)))
        ends = tuple(self._ends(space, side))
        return [Label(key, *size, anchor, spots, rise, ends=ends) for key in keys]

    def _ends(self, space: Space, side: str) -> Iterator[Point]:
        """Points of a space where a leader may end, just inside its edge and farther in."""
        _, top, _, bottom = self.bounds(space, side)
        for down in (0.12, 0.3, 0.5, 0.7, 0.88):
            y = top + (bottom - top) * down
            stretch = self._stretch(space, side, y)
            if stretch:
                left, right = stretch
                inset = min(1.2, (right - left) / 4)
                yield from ((x, y) for x in (left + inset, (left + right) / 2, right - inset))

    def label_at(self, key: Subject, point_m: tuple[float, float], size: tuple[float, float]) -> Label:
        """A label that belongs to a point of the vessel."""
        x, y = self.at(*point_m)
        near = [
            (x + reach * math.cos(turn * math.pi / 6), y + reach * math.sin(turn * math.pi / 6))
            for reach in (size[0] + GAP_MM * 2, size[0] * 1.6)
            for turn in range(12)
        ]
        inside = [
            at
            for at in near
            if self.outline.contains(*self.metres(at), self.name)
            and (at[0] - self.middle) * (x - self.middle) >= 0
        ]
        return Label(key, *size, (x, y), ((x, y),), near=tuple(inside))

    def _stretch(self, space: Space, side: str, y: float) -> tuple[float, float] | None:
        """What of a space lies on the vessel at a height of the paper, in millimetres."""
        found = self.outline.within_m((self.stern - y) / self.mm_per_m, *space.half(side), self.name)
        return (
            (self.middle + found[0] * self.mm_per_m, self.middle + found[1] * self.mm_per_m)
            if found
            else None
        )

    def _spots(
        self, space: Space, side: str, size: tuple[float, float], anchor: Point, count: int
    ) -> list[Point]:
        """Places for `count` boxes inside the space: the plainest lattice that holds them all, then a narrow one."""
        _, top, _, bottom = self.bounds(space, side)
        low, high = top + size[1] / 2, bottom - size[1] / 2
        if low > high:
            low = high = (top + bottom) / 2
        pitch_x, pitch_y = size[0] + GAP_MM + 0.1, size[1] + GAP_MM + 0.1
        stretches: dict[float, tuple[float, float] | None] = {}
        best: list[_Spot] = []
        for first, start in _STARTS:
            rows = _steps(_from(first, anchor[1], low, high, pitch_y), low, high, pitch_y)
            lattice = self._lattice(space, side, size, anchor, rows, (start, pitch_x), stretches)
            free = [spot for spot in lattice if self.sheet.free(self._box(spot[1:], size))]
            if len(free) > len(best):
                best = free
            if len(best) >= count:
                break
        in_order = sorted(sorted(best)[:count], key=lambda spot: (spot[2], spot[1]))
        rows = _steps(anchor[1], low, high, pitch_y / 5)
        narrow = self._lattice(space, side, size, anchor, rows, ("middle", pitch_x / 4), stretches)
        return [(x, y) for _, x, y in (*in_order, *sorted(narrow))]

    @staticmethod
    def _box(at: Point, size: tuple[float, float]) -> Box:
        return at[0] - size[0] / 2, at[1] - size[1] / 2, at[0] + size[0] / 2, at[1] + size[1] / 2

    def _lattice(
        self,
        space: Space,
        side: str,
        size: tuple[float, float],
        anchor: Point,
        rows: list[float],
        columns: tuple[str, float],
        stretches: dict[float, tuple[float, float] | None],
    ) -> list[_Spot]:
        """Spots as (cost, x, y) in rows; `columns` are where the first one stands, and the pitch."""
        found: list[_Spot] = []
        for y in rows:
            if y not in stretches:
                stretches[y] = self._reach(space, side, size, anchor, y)
            stretch = stretches[y]
            if stretch:
                left, right = stretch
                start = _from(columns[0], anchor[0], left, right, columns[1])
                found += [(self._cost((x, y), anchor), x, y) for x in _steps(start, left, right, columns[1])]
        return found

    def _reach(
        self, space: Space, side: str, size: tuple[float, float], anchor: Point, y: float
    ) -> tuple[float, float] | None:
        """Between which points the middle of a box may lie at a height of the paper; None if nowhere."""
        stretch = self._stretch(space, side, y)
        if not stretch:
            return None
        left, right = stretch[0] + size[0] / 2, stretch[1] - size[0] / 2
        if left > right and side in ("port", "starboard"):
            # Too narrow a half: the box may stand over the hull's edge, not over the centreline.
            edge = self.middle - size[0] / 2 if side == "port" else self.middle + size[0] / 2
            middle = sum(stretch) / 2
            return (min(middle, edge),) * 2 if side == "port" else (max(middle, edge),) * 2
        if left > right:
            return (sum(stretch) / 2,) * 2
        if side == "centre":
            reach = (right - left) / 4
            left, right = max(left, anchor[0] - reach), min(right, anchor[0] + reach)
        return (left, right) if left <= right else None

    def _cost(self, at: Point, anchor: Point) -> float:
        inner = sum(1 for box in self.small if box[0] < at[0] < box[2] and box[1] < at[1] < box[3])
        return round(abs(at[0] - anchor[0]) * 1.01 + abs(at[1] - anchor[1]) + inner * 40, 3)

    def _off_the_vessel(self, box: Box) -> bool:
        left, top, right, bottom = box
        port, starboard = (self.metres((x, top))[1] for x in (left, right))
        rows = max(math.ceil((bottom - top) / 2.5), 1)
        return not any(
            max(edges[0], port) < min(edges[1], starboard)
            for row in range(rows + 1)
            for edges in self._edges(top + (bottom - top) * row / rows)
        )

    def _edges(self, y: float) -> list[tuple[float, float]]:
        """The edges of each part of her at a height on paper, worked out once: many boxes are tried there."""
        if y not in self.across:
            station = self.metres((0.0, y))[0]
            edges = (part.edges_m(station) for part in self.outline.parts(self.name))
            self.across[y] = [each for each in edges if each]
        return self.across[y]


def _from(name: str, middle: float, low: float, high: float, pitch: float) -> float:
    middle = min(max(middle, low), high)
    return {"middle": middle, "beside": middle + pitch / 2, "low": low, "high": high}[name]


def _steps(start: float, low: float, high: float, pitch: float) -> list[float]:
    """Values from `low` to `high`, a pitch apart, one of them `start`."""
    if low > high:
        return []
    first = math.ceil((low - start) / pitch - 1e-9)
    last = math.floor((high - start) / pitch + 1e-9)
    return [start + step * pitch for step in range(first, last + 1)]
