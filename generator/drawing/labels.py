"""Where labels go: boxes placed one after the other, none on another, each as near to its thing as can be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

GAP_MM = 0.6
Box = tuple[float, float, float, float]
Point = tuple[float, float]


@dataclass(frozen=True)
class Label:
    """Something to place: a box of `width` by `height`, whose symbol is `rise` above or below (+) the box's middle.

    `anchor` is the point it belongs to; `spots` are the places where it needs no leader, best first; `near` are those
    tried next, with a leader.
    """

    key: object
    width: float
    height: float
    anchor: Point
    spots: tuple[Point, ...]
    rise: float = 0.0
    near: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Placed:
    """A label in its place: `centre` is the symbol's, `leader` the point it is led to, or None."""

    label: Label
    box: Box
    centre: Point
    leader: Point | None


@dataclass
class Sheet:
    """The area that labels share: `left` to `right` and from `top` down; it grows downwards when all is taken.

    `open` tells whether a box may stand where nothing of the vessel is, for what is led there by a line.
    """

    left: float
    right: float
    top: float
    bottom: float
    open: Callable[[Box], bool]
    taken: list[Box] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)

    def reserve(self, box: Box) -> None:
        """Keeps a box free of labels."""
        self.taken.append(box)

    def free(self, box: Box) -> bool:
        """Whether a box is inside the sheet (or below it) and on nothing reserved or placed."""
        return (box[0] >= self.left and box[2] <= self.right and box[1] >= self.top
                and not any(overlap(box, other, GAP_MM) for other in self.taken))

    def place(self, label: Label) -> Placed:
        """Puts a label on its best free spot, else beside the vessel with a leader, else in a row below."""
        spot = next((at for at in label.spots if self._fits(label, at)), None)
        leader = None
        if spot is None:
            spot = next((at for at in label.near if self._fits(label, at)), None) or self._beside(label)
            leader = label.anchor
        box = _box(label, spot)
        self.taken.append(box)
        self.bottom = max(self.bottom, box[3])
        made = Placed(label, box, (spot[0], spot[1] + label.rise), leader)
        self.placed.append(made)
        return made

    def _fits(self, label, at):
        box = _box(label, at)
        return box[3] <= self.bottom and self.free(box)

    def _beside(self, label) -> Point:
        best, least = None, math.inf
        for at in self._lattice(label, self.top, self.bottom):
            cost = math.dist(at, label.anchor)
            if cost >= least:
                continue
            box = _box(label, at)
            if self.open(box) and self.free(box):
                cost += self._crossings(at, label.anchor) * 25
                if cost < least:
                    best, least = at, cost
        row = self.bottom
        while best is None:
            best = next((at for at in self._lattice(label, row, row + label.height + GAP_MM) if self.free(_box(label, at))),
                        None)
            row += label.height / 2
        return best

    def _lattice(self, label, top, bottom) -> Iterable[Point]:
        across = max(self.right - self.left - label.width, 0.0)
        down = bottom - top - label.height
        columns = max(round(across / 2.4), 1)
        for row in range(int(max(down, 0) / 1.8) + 1):
            for column in range(columns + 1):
                yield (self.left + label.width / 2 + across * column / columns, top + label.height / 2 + row * 1.8)

    def _crossings(self, at, anchor):
        leaders = sum(1 for each in self.placed if each.leader and _cross(at, anchor, each.centre, each.leader))
        return leaders + sum(1 for box in self.taken if _touches(box, at, anchor))


def overlap(first: Box, second: Box, gap: float = 0.0) -> bool:
    """Whether two boxes (left, top, right, bottom) come nearer than `gap`."""
    return (first[0] < second[2] + gap and second[0] < first[2] + gap
            and first[1] < second[3] + gap and second[1] < first[3] + gap)


def _box(label, at):
    x, y = at
    return (x - label.width / 2, y - label.height / 2, x + label.width / 2, y + label.height / 2)


def _cross(a, b, c, d):
    def turn(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def _touches(box, start, end):
    """Whether a line passes through a box."""
    left, top, right, bottom = box
    corners = ((left, top), (right, bottom)), ((left, bottom), (right, top))
    return any(_cross(start, end, *diagonal) for diagonal in corners)
