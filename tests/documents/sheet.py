"""A sheet to sketch on: shapes with outline and shade, lines as round as a pen's, arrows; in points of a picture of 960 by 720."""

from __future__ import annotations

import io
import itertools
import math
from collections.abc import Sequence

from PIL import Image, ImageDraw, ImageFont

WIDE, HIGH = 960, 720
FINE = 3  # points of the drawing for one of the picture, so that edges come out smooth
COLOURS = 160
INK, PAPER = (38, 44, 52), (250, 250, 247)
HAND = (214, 84, 24)
"""What a hand takes hold of, and which way it moves."""

Point = tuple[float, float]
Colour = tuple[int, int, int]


def between(one: Colour, other: Colour, share: float) -> Colour:
    """The colour that lies so far from one towards the other."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(one, other, strict=True))
    return red, green, blue


def curve(start: Point, bend: Point, other: Point, end: Point, steps: int = 40) -> list[Point]:
    """Points along a curve that leaves `start` towards `bend` and comes to `end` from `other`."""
    made = []
    for step in range(steps + 1):
        far = step / steps
        near = 1 - far
        weights = (near**3, 3 * near**2 * far, 3 * near * far**2, far**3)
        points = (start, bend, other, end)
        made.append(
            (
                sum(weight * point[0] for weight, point in zip(weights, points, strict=True)),
                sum(weight * point[1] for weight, point in zip(weights, points, strict=True)),
            )
        )
    return made


def rounded(left: float, top: float, right: float, bottom: float, radius: float) -> list[Point]:
    """A box with round corners, clockwise."""
    made: list[Point] = []
    for x, y, first in (
        (right - radius, top + radius, -90),
        (right - radius, bottom - radius, 0),
        (left + radius, bottom - radius, 90),
        (left + radius, top + radius, 180),
    ):
        made += [
            (
                x + radius * math.cos(math.radians(first + turn)),
                y + radius * math.sin(math.radians(first + turn)),
            )
            for turn in range(0, 91, 6)
        ]
    return made


def ring(x: float, y: float, across: float, down: float) -> list[Point]:
    """An ellipse about a point, of those half widths."""
    return [
        (x + across * math.cos(math.radians(turn)), y + down * math.sin(math.radians(turn)))
        for turn in range(0, 360, 4)
    ]


class Sheet:
    """What is drawn, in the order of drawing."""

    def __init__(self) -> None:
        self.image = Image.new("RGB", (WIDE * FINE, HIGH * FINE), PAPER)
        self.pen = ImageDraw.Draw(self.image)

    def line(self, points: Sequence[Point], width: float = 3, colour: Colour = INK) -> None:
        """A line through the points, its ends and corners round."""
        fine = [(x * FINE, y * FINE) for x, y in points]
        self.pen.line(fine, fill=colour, width=round(width * FINE), joint="curve")
        half = width * FINE / 2
        for x, y in (fine[0], fine[-1]):
            self.pen.ellipse((x - half, y - half, x + half, y + half), fill=colour)

    def dashes(
        self, points: Sequence[Point], width: float = 3, colour: Colour = INK, dash: float = 12
    ) -> None:
        """A broken line along the points, which lie close together."""
        gone, run = 0.0, [points[0]]
        for one, other in itertools.pairwise(points):
            gone += math.dist(one, other)
            run.append(other)
            if gone >= dash:
                if len(run) > 1:
                    self.line(run, width, colour)
                gone, run = -dash, [other]
            elif gone <= 0:
                run = [other]

    def shape(self, points: Sequence[Point], fill: Colour, width: float = 3, colour: Colour = INK) -> None:
        """A closed shape of one colour with its outline; none of width 0."""
        self.pen.polygon([(x * FINE, y * FINE) for x, y in points], fill=fill)
        if width:
            self.line([*points, points[0]], width, colour)

    def shaded(
        self,
        points: Sequence[Point],
        light: Colour,
        dark: Colour,
        *,
        slant: Point = (0, 1),
        width: float = 3,
        steps: int = 24,
    ) -> None:
        """A closed shape that goes from light to dark along a direction, in even steps."""
        area = Image.new("L", self.image.size, 0)
        fine = [(x * FINE, y * FINE) for x, y in points]
        ImageDraw.Draw(area).polygon(fine, fill=255)
        along = [x * slant[0] + y * slant[1] for x, y in fine]
        low, high = min(along), max(along)
        # one row of shades, stretched and turned: slanted shades are those of the box round the shape
        box = [round(edge) for edge in _bounds(fine)]
        wide, high_ = max(1, box[2] - box[0]), max(1, box[3] - box[1])
        shade = Image.new("RGB", (wide, high_), light)
        pen = ImageDraw.Draw(shade)
        for step in range(1, steps):
            edge = low + (high - low) * step / steps
            colour = between(light, dark, step / (steps - 1))
            pen.polygon(_beyond(edge, slant, (box[0], box[1]), (wide, high_)), fill=colour)
        self.image.paste(shade, (box[0], box[1]), area.crop((box[0], box[1], box[0] + wide, box[1] + high_)))
        if width:
            self.line([*points, points[0]], width)

    def arrow(self, points: Sequence[Point], width: float = 9, colour: Colour = HAND) -> None:
        """A line along the points with a head at its end."""
        (x0, y0), (x1, y1) = points[-4] if len(points) > 4 else points[0], points[-1]
        way = math.atan2(y1 - y0, x1 - x0)
        long = width * 3.2
        back = (x1 - long * math.cos(way), y1 - long * math.sin(way))
        shaft = [point for point in points[:-1] if math.dist(point, points[-1]) > long] or [points[0]]
        self.line([*shaft, back], width, colour)
        sides = [
            (
                back[0] + width * 1.5 * math.cos(way + turn),
                back[1] + width * 1.5 * math.sin(way + turn),
            )
            for turn in (math.pi / 2, -math.pi / 2)
        ]
        self.shape([points[-1], *sides], colour, 2, colour)

    def letters(self, at: Point, text: str, font: str, size: float, colour: Colour = INK) -> None:
        """Letters about a point, in the font of that file."""
        face = ImageFont.truetype(font, round(size * FINE))
        self.pen.text((at[0] * FINE, at[1] * FINE), text, font=face, fill=colour, anchor="mm")

    def png(self) -> bytes:
        """The picture, in few colours."""
        small = self.image.resize((WIDE, HIGH), Image.Resampling.LANCZOS)
        made = io.BytesIO()
        small.quantize(COLOURS, kmeans=1, dither=Image.Dither.NONE).save(made, "PNG", optimize=True)
        return made.getvalue()


def _bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _beyond(edge: float, slant: Point, corner: Point, size: tuple[int, int]) -> list[Point]:
    """What of a box lies beyond an edge across the slant, seen from its corner; large enough to be cut off."""
    far = 4.0 * (size[0] + size[1]) + edge
    length = math.hypot(*slant)
    ux, uy = slant[0] / length, slant[1] / length
    at = edge / length
    px, py = ux * at - corner[0], uy * at - corner[1]
    # the edge goes through the point where it crosses the slant's own line
    across = (-uy, ux)
    return [
        (px + across[0] * far, py + across[1] * far),
        (px - across[0] * far, py - across[1] * far),
        (px - across[0] * far + ux * far, py - across[1] * far + uy * far),
        (px + across[0] * far + ux * far, py + across[1] * far + uy * far),
    ]
