"""Names of spaces on the plan, and the hull and spaces as lines: where a name finds no room it stays away."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from generator.manual.drawing import svg
from generator.manual.drawing.hull import Platform
from generator.manual.drawing.level import NAME_MM, Level
from generator.manual.drawing.spaces import Space
from generator.manual.drawing.svg import Point

_LINE_MM = NAME_MM * 1.12
_Half = tuple[Space, str]  # a space, and the side of it
_Size = tuple[float, float]
_Spots = Callable[[Space, str, _Size], Iterable[Point]]


class Namer:
    """Draws the spaces of one level: those always shown, and those in use as (space, side)."""

    def __init__(
        self,
        level: Level,
        spaces: Iterable[Space],
        used: Iterable[_Half],
        named: Callable[[Space], str],
    ):
        self.level = level
        self.named = named
        always = [(space, side) for space in spaces if space.always for side in _halves(space)]
        sides: dict[Space, set[str]] = {}
        for space, side in used:
            if not space.always:
                sides.setdefault(space, set()).add(side if space.half(side) != space.half("") else "")
        self.used = [
            (space, side)
            for space, found in sides.items()
            for side in (sorted(found) if space.paired or len(found) == 1 else [""])
        ]
        self.names: list[tuple[list[str], Point, bool]] = []
        self.masts = [each for each in (*always, *self.used) if each[0].mark == "mast"]
        self.always = [each for each in always if each not in self.masts]
        for mast in self.masts:
            x, y = level.anchor(*mast)
            level.sheet.reserve((x - 1.5, y - 1.5, x + 1.5, y + 1.5))
        level.small += [level.bounds(space, side) for space, side in self.used]

    def name_always(self) -> None:
        """Puts down the names of the spaces that are always shown."""
        for space, side in self.always:
            self._put(space, side, near=False)

    def name_used(self) -> None:
        """Puts down the names of the other spaces in use, inside or just beside them."""
        for space, side in self.used:
            self._put(space, side, near=True)

    def _put(self, space: Space, side: str, near: bool) -> None:
        ways: tuple[_Spots, ...] = (self._inside, self._clear_of_the_edge, self._beside)
        for spots in ways if near else ways[:1]:
            for lines, turned in _settings(self.named(space)):
                width = max(svg.width_mm(each, NAME_MM) for each in lines)
                height = _LINE_MM * len(lines)
                size = (height, width) if turned else (width, height)
                for x, y in spots(space, side, size):
                    box = (x - size[0] / 2, y - size[1] / 2, x + size[0] / 2, y + size[1] / 2)
                    if self.level.sheet.free(box):
                        self.level.sheet.reserve(box)
                        self.names.append((lines, (x, y), turned))
                        return

    def _inside(self, space: Space, side: str, size: _Size) -> list[Point]:
        left, top, right, bottom = self.level.bounds(space, side)
        middle = self.level.anchor(space, side)[0]
        high, low = top + size[1] / 2 + 0.8, bottom - size[1] / 2 - 0.8
        heights = [high + (low - high) * step / 8 for step in range(9)] if high <= low else []
        return [
            (x, y)
            for y in heights
            for x in (middle, left + size[0] / 2 + 0.8, right - size[0] / 2 - 0.8)
            if self._within(space, side, (x, y), size)
        ]

    def _beside(self, space: Space, side: str, size: _Size) -> list[Point]:
        left, top, right, bottom = self.level.bounds(space, side)
        middle = self.level.anchor(space, side)[0]
        return [(middle, top - size[1] / 2 - 0.6), (middle, bottom + size[1] / 2 + 0.6)] + [
            (x, y)
            for y in (top + size[1] / 2, bottom - size[1] / 2)
            for x in (left - size[0] / 2 - 0.8, right + size[0] / 2 + 0.8)
        ]

    def _clear_of_the_edge(self, space: Space, side: str, size: _Size) -> Iterator[Point]:
        """Spots beside the space whose box lies wholly on the vessel or wholly off it."""
        level = self.level
        for x, y in self._beside(space, side, size):
            corners = {
                level.outline.contains(*level.metres((x + a * size[0] / 2, y + b * size[1] / 2)), level.name)
                for a in (-1, 0, 1)
                for b in (-1, 1)
            }
            if len(corners) == 1:
                yield x, y

    def _within(self, space: Space, side: str, at: Point, size: _Size) -> bool:
        port, starboard = space.half(side)
        for y in (at[1] - size[1] / 2, at[1] + size[1] / 2):
            aft, first = self.level.metres((at[0] - size[0] / 2 - 0.5, y))
            _, last = self.level.metres((at[0] + size[0] / 2 + 0.5, y))
            found = self.level.outline.within_m(aft, port, starboard, self.level.name)
            if not found or first < found[0] or last > found[1]:
                return False
        return True

    def drawn_hull(self) -> str:
        """The outline, nets pale, without the lines where hulls and bridgedeck meet."""
        level, parts = self.level, self.level.outline.parts(self.level.name)
        shapes = [
            (
                [level.at(*corner) for corner in level.outline.shape(part)],
                isinstance(part, Platform) and part.net,
            )
            for part in parts
        ]
        edges = "".join(svg.polygon(shape, width=0.35 if net else 1.4) for shape, net in shapes)
        nets = "".join(svg.polygon(shape, fill="#ececec", stroke="none") for shape, net in shapes if net)
        return (
            edges
            + nets
            + "".join(svg.polygon(shape, fill=svg.PAPER, stroke="none") for shape, net in shapes if not net)
        )

    def drawn_spaces(self) -> str:
        """The lines round the spaces, dashed for those inside others."""
        drawn = []
        for shown, dashes in ((self.always, None), (self.used, "1.2 0.9")):
            for space, side in shown:
                corners = self.level.region(space, side)
                if not corners:
                    continue
                if space.mark != "mast":
                    drawn.append(svg.polygon(corners, stroke=svg.GREY, width=0.3, dashes=dashes))
        drawn += [svg.circle(self.level.anchor(*mast), 1.2, fill=svg.PAPER, width=0.6) for mast in self.masts]
        return "".join(drawn)

    def drawn_names(self) -> str:
        """The names as put down."""
        drawn = []
        for lines, (x, y), turned in self.names:
            for row, text in enumerate(lines):
                shift = (row - (len(lines) - 1) / 2) * _LINE_MM
                at = (x + shift, y) if turned else (x, y + shift)
                drawn.append(svg.words(text, at, NAME_MM, turned=turned, halo=True))
        return "".join(drawn)


def _halves(space: Space) -> tuple[str, ...]:
    return ("port", "starboard") if space.paired else ("",)


def _settings(name: str) -> Iterator[tuple[list[str], bool]]:
    """A name on one line, on two, or turned along the vessel."""
    yield [name], False
    first, _, rest = name.partition(" ")
    if rest:
        yield [first, rest], False
    yield [name], True
