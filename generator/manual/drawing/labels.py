"""Where labels go: boxes placed one after the other, none on another, each as near to its thing as can be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from generator.manual.drawing.svg import Box, Point
from generator.manual.inventory import Item

GAP_MM = 0.6
_CROSSING_MM = 25  # how much longer a leader may be if it then crosses nothing
_MOST_TOGETHER = 10
Subject = Item | str | None
"""What a label is of: an item of the gear list, what the plan has besides by its name; nothing of its own for a block of them."""


@dataclass(frozen=True)
class Label:
    """Something to place: a box of `width` by `height`, whose symbol is `rise` above or below (+) the box's middle.

    `anchor` is the point it belongs to; `spots` are the places where it needs no leader, best first; `near` are those
    tried next, with a leader; `ends` the points where a leader may end (the anchor if there are none).
    """

    key: Subject
    width: float
    height: float
    anchor: Point
    spots: tuple[Point, ...]
    rise: float = 0.0
    near: tuple[Point, ...] = ()
    ends: tuple[Point, ...] = ()

    def box(self, at: Point) -> Box:
        """The label's box round a point."""
        return (
            at[0] - self.width / 2,
            at[1] - self.height / 2,
            at[0] + self.width / 2,
            at[1] + self.height / 2,
        )


@dataclass(frozen=True)
class Placed:
    """A label in its place: `centre` is the symbol's; `led` tells that it stands elsewhere, with a leader."""

    label: Label
    box: Box
    centre: Point
    led: bool


@dataclass
class Cluster:
    """Labels that stand together away from their place, with one leader for all."""

    box: Box
    labels: tuple[Label, ...]
    leader: tuple[Point, Point] | None = None


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
    clusters: list[Cluster] = field(default_factory=list)
    beside: dict[tuple[float, float], list[Point]] = field(
        default_factory=dict
    )  # places off the vessel by size of box, worked out once
    refused: list[tuple[float, float]] = field(default_factory=list)  # sizes for which there is no place left

    def reserve(self, box: Box) -> None:
        """Keeps a box free of labels."""
        self.taken.append(box)

    def free(self, box: Box) -> bool:
        """Whether a box is inside the sheet and on nothing reserved or placed."""
        return box[3] <= self.bottom and self._clear(box)

    def _clear(self, box: Box) -> bool:
        return (
            box[0] >= self.left - 1e-6
            and box[2] <= self.right + 1e-6
            and box[1] >= self.top - 1e-6
            and not any(overlap(box, other, GAP_MM) for other in self.taken)
        )

    def place(self, labels: Iterable[Label]) -> None:
        """Puts labels of one kind on their best free spots; those that find none stand together off the vessel."""
        homeless: list[Label] = []
        full: tuple[Point, ...] | None = None
        for label in labels:
            # Where one of the same spots and size found none free, the next one won't.
            spot = (
                None
                if label.spots is full
                else next((at for at in label.spots if self.free(label.box(at))), None)
            )
            if spot:
                self._put(label, spot, led=False)
                continue
            full = label.spots
            spot = next((at for at in label.near if self.free(label.box(at))), None)
            if spot:
                self._put(label, spot, led=True)
                self.clusters.append(Cluster(label.box(spot), (label,)))
            else:
                homeless.append(label)
        while homeless:
            homeless = homeless[self._together(homeless) :]

    def _put(self, label: Label, at: Point, *, led: bool) -> None:
        box = label.box(at)
        self.taken.append(box)
        self.bottom = max(self.bottom, box[3])
        self.placed.append(Placed(label, box, (at[0], at[1] + label.rise), led))

    def _together(self, labels: list[Label]) -> int:
        """Places as many of the labels as find room in one cluster; how many."""
        first = labels[0]
        count = min(len(labels), _MOST_TOGETHER)
        while count:
            found = [
                (cost, at, columns)
                for columns in sorted({1, 2, count})
                if columns <= count
                for cost, at in [self._place_beside(self._block(first, count, columns))]
                if at
            ]
            if found:
                _, at, columns = min(found)
                break
            count //= 2
        else:
            fit = int((self.right - self.left + GAP_MM) / (first.width + GAP_MM + 0.1))
            count = columns = max(min(len(labels), fit), 1)
            at = self._place_below(self._block(first, count, columns))
        block = self._block(first, count, columns)
        left, top, _, _ = box = block.box(at)
        for number, label in enumerate(labels[:count]):
            row, column = divmod(number, columns)
            self._put(
                label,
                (
                    left + first.width / 2 + column * (first.width + GAP_MM + 0.1),
                    top + first.height / 2 + row * (first.height + GAP_MM + 0.1),
                ),
                led=True,
            )
        self.reserve(box)
        self.clusters.append(Cluster(box, tuple(labels[:count])))
        return count

    @staticmethod
    def _block(first: Label, count: int, columns: int) -> Label:
        pitch = GAP_MM + 0.1
        return Label(
            None,
            columns * (first.width + pitch) - pitch,
            math.ceil(count / columns) * (first.height + pitch) - pitch,
            first.anchor,
            (),
            ends=first.ends,
        )

    def _place_beside(self, block: Label) -> tuple[float, Point | None]:
        best: Point | None = None
        least = math.inf
        reach = (block.width + 1e-9, block.height + 1e-9)
        if any(width <= reach[0] and height <= reach[1] for width, height in self.refused):
            return least, best
        size = (round(block.width, 3), round(block.height, 3))
        if size not in self.beside:
            self.beside[size] = [
                at for at in self._lattice(block, self.top, self.bottom) if self.open(block.box(at))
            ]
        for length, at in sorted((math.dist(at, block.anchor), at) for at in self.beside[size]):
            if length >= least:
                break
            if self.free(block.box(at)):
                cost = length + self._crossings(at, block.anchor) * _CROSSING_MM
                if cost < least:
                    best, least = at, cost
        if best is None:
            self.refused.append(size)
        return least, best

    def _place_below(self, label: Label) -> Point:
        row = self.bottom
        while True:
            for at in self._lattice(label, row, row + label.height + GAP_MM):
                if self._clear(label.box(at)):
                    return at
            row += label.height / 2

    def _lattice(self, label: Label, top: float, bottom: float) -> Iterator[Point]:
        across = max(self.right - self.left - label.width, 0.0)
        down = bottom - top - label.height
        columns = max(round(across / 1.4), 1)
        for row in range(int(max(down, 0) / 1.4) + 1):
            for column in range(columns + 1):
                yield (
                    self.left + label.width / 2 + across * column / columns,
                    top + label.height / 2 + row * 1.4,
                )

    def settle(self) -> None:
        """Draws the leader of each cluster where it crosses least."""
        for cluster in self.clusters:
            left, top, right, bottom = cluster.box
            label = cluster.labels[0]
            starts = [((left + right) / 2, top), ((left + right) / 2, bottom)]
            starts += [
                (x, top + (bottom - top) * part / 8) for x in (left, right) for part in (1, 2, 4, 6, 7)
            ]
            others = [box for box in self.taken if not _inside(box, cluster.box)]
            pairs = sorted(
                (round(math.dist(start, end), 3), start, end)
                for start in starts
                for end in label.ends or (label.anchor,)
            )
            least = math.inf
            for length, start, end in pairs:
                if length >= least:
                    break
                cost = length + _CROSSING_MM * self._crossed(start, end, others)
                if cost < least:
                    least, cluster.leader = cost, (start, end)

    def _crossed(self, start: Point, end: Point, others: list[Box]) -> int:
        covered = any(box[0] < end[0] < box[2] and box[1] < end[1] < box[3] for box in others)
        crossed = sum(1 for box in others if _touches(box, start, end))
        lines = sum(1 for each in self.clusters if each.leader and _cross(start, end, *each.leader))
        return crossed + lines + covered

    def _crossings(self, at: Point, anchor: Point) -> int:
        return sum(1 for box in self.taken if _touches(box, at, anchor))


def overlap(first: Box, second: Box, gap: float = 0.0) -> bool:
    """Whether two boxes (left, top, right, bottom) come nearer than `gap`."""
    return (
        first[0] < second[2] + gap
        and second[0] < first[2] + gap
        and first[1] < second[3] + gap
        and second[1] < first[3] + gap
    )


def _inside(box: Box, other: Box) -> bool:
    return (
        box[0] >= other[0] - 1e-6
        and box[1] >= other[1] - 1e-6
        and box[2] <= other[2] + 1e-6
        and box[3] <= other[3] + 1e-6
    )


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    def turn(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def _touches(box: Box, start: Point, end: Point) -> bool:
    """Whether a line passes through a box."""
    left, top, right, bottom = box
    if max(start[0], end[0]) < left or min(start[0], end[0]) > right:
        return False
    if max(start[1], end[1]) < top or min(start[1], end[1]) > bottom:
        return False
    return _cross(start, end, (left, top), (right, bottom)) or _cross(
        start, end, (left, bottom), (right, top)
    )
