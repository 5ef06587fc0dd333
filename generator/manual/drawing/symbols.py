"""Symbols: a numeral in a shape that tells what the thing is for, by form first and ground colour second.

Green for life-saving and red for fire are the grounds of ISO 3864; the forms are our own, and every class keeps its
own form and a light or dark ground when colour is lost.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.manual.drawing import svg

GREEN = "#00693c"
RED = "#b5121b"
NUMERAL_MM = 4.2
"""Font size of the numerals: figures of 2.8 mm."""
SIZE_MM = 7.2
"""Side of the box of a symbol with one or two figures."""
WIDE_MM = 9.4
"""The same with three figures."""


@dataclass(frozen=True)
class Class:
    """What a form stands for: `key` is the word for the key of the plan, `kinds` the kinds of gear in it."""

    key: str
    kinds: tuple[str, ...]
    form: str
    ground: str
    numeral: str


CLASSES = (
    Class("life-saving", ("raft", "lifesaving", "signal", "medical"), "disc", GREEN, svg.PAPER),
    Class("fire", ("fire",), "square", RED, svg.PAPER),
    Class("stops", ("stop",), "frame", svg.PAPER, svg.INK),
    Class("flooding", ("flooding", "through-hull"), "hexagon", svg.PAPER, svg.INK),
    Class("other gear", (), "ring", svg.PAPER, svg.INK),
)


def class_of(kind: str) -> Class:
    """The class of a kind of gear; the last one takes what no other names."""
    return next((each for each in CLASSES if kind in each.kinds), CLASSES[-1])


def symbol(numeral: str, of: Class, centre: svg.Point, size: float = SIZE_MM) -> str:
    """The form with its numeral, inside a box of `size` millimetres round `centre`."""
    written = svg.words(numeral, centre, NUMERAL_MM, bold=True, fill=of.numeral) if numeral else ""
    return form(of, centre, size) + written


def form(of: Class, centre: svg.Point, size: float = SIZE_MM) -> str:
    """The form alone, with a white edge that parts it from what it lies on."""
    x, y = centre
    half = size / 2
    inner = half - 0.35
    if of.form == "disc":
        return svg.circle(centre, half, stroke="none") + svg.circle(
            centre, inner, fill=of.ground, stroke="none"
        )
    if of.form == "ring":
        return svg.circle(centre, half, stroke="none") + svg.circle(centre, inner - 0.25, width=0.5)
    if of.form == "square":
        return svg.rectangle(
            (x - half, y - half, x + half, y + half), fill=svg.PAPER, stroke="none"
        ) + svg.rectangle((x - inner, y - inner, x + inner, y + inner), fill=of.ground, stroke="none")
    if of.form == "frame":
        edge = inner - 0.45
        return svg.rectangle(
            (x - half, y - half, x + half, y + half), fill=svg.PAPER, stroke="none"
        ) + svg.rectangle((x - edge, y - edge, x + edge, y + edge), fill=of.ground, width=0.9)
    corners = [(-1.0, 0.0), (-0.55, -0.95), (0.55, -0.95), (1.0, 0.0), (0.55, 0.95), (-0.55, 0.95)]
    return svg.polygon(
        [(x + half * a, y + half * b) for a, b in corners], fill=svg.PAPER, stroke="none"
    ) + svg.polygon(
        [(x + (inner - 0.2) * a, y + (inner - 0.2) * b) for a, b in corners], fill=of.ground, width=0.5
    )


def muster(centre: svg.Point, size: float = SIZE_MM) -> str:
    """The muster place: a green lozenge with four white dots gathered round a fifth."""
    x, y = centre
    half, inner = size / 2, size / 2 - 0.3

    def lozenge(reach: float) -> list[svg.Point]:
        return [(x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach)]

    dots = "".join(
        svg.circle((x + a, y + b), 0.55, fill=svg.PAPER, stroke="none")
        for a, b in ((0, 0), (-1.5, 0), (1.5, 0), (0, -1.5), (0, 1.5))
    )
    return (
        svg.polygon(lozenge(half), fill=svg.PAPER, stroke="none")
        + svg.polygon(lozenge(inner), fill=GREEN, stroke="none")
        + dots
    )
