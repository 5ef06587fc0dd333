"""Plain SVG: shapes with attributes only, so that the PDF engine and every browser draw the same."""

from __future__ import annotations

import html
from collections.abc import Iterable

from generator.machine.fonts import FAMILY

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""
Point = tuple[float, float]

INK = "#000000"
PAPER = "#ffffff"
PALE = "#d9d9d9"
GREY = "#767676"


def escape(text: str) -> str:
    """Text as it stands between tags."""
    return html.escape(text, quote=False)


def number(value: float) -> str:
    """A coordinate in hundredths of a millimetre, without trailing zeros, so that the same drawing is the same text."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def element(name: str, content: str = "", **attributes: str | float | None) -> str:
    """An element; underscores in attribute names are hyphens, numbers are rounded by `number`."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{html.escape(_text(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def _text(value: str | float) -> str:
    return value if isinstance(value, str) else number(value)


def polygon(
    points: Iterable[Point],
    fill: str = "none",
    stroke: str = INK,
    width: float = 0.3,
    dashes: str | None = None,
) -> str:
    """A closed line through points in millimetres."""
    path = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"
    return element(
        "path",
        d=path,
        fill=fill,
        stroke=stroke,
        stroke_width=width,
        stroke_linejoin="round",
        stroke_dasharray=dashes,
    )


def line(start: Point, end: Point, stroke: str = INK, width: float = 0.3) -> str:
    """A straight line between two points."""
    return element(
        "line",
        x1=start[0],
        y1=start[1],
        x2=end[0],
        y2=end[1],
        stroke=stroke,
        stroke_width=width,
        stroke_linecap="round",
    )


def circle(centre: Point, radius: float, fill: str = PAPER, stroke: str = INK, width: float = 0.3) -> str:
    """A circle."""
    return element(
        "circle", cx=centre[0], cy=centre[1], r=radius, fill=fill, stroke=stroke, stroke_width=width
    )


def rectangle(box: Box, fill: str = "none", stroke: str = INK, width: float = 0.3) -> str:
    """A rectangle given as left, top, right, bottom."""
    left, top, right, bottom = box
    return element(
        "rect",
        x=left,
        y=top,
        width=right - left,
        height=bottom - top,
        fill=fill,
        stroke=stroke,
        stroke_width=width,
    )


def words(
    text: str,
    at: Point,
    size: float,
    *,
    bold: bool = False,
    fill: str = INK,
    anchor: str = "middle",
    turned: bool = False,
    halo: bool = False,
) -> str:
    """A line of text whose capitals are centred on the height of `at`; `halo` keeps lines beneath off the letters."""
    x, y = at
    attributes: dict[str, str | float | None] = {
        "x": x,
        "y": y + 0.334 * size,
        "font_family": FAMILY,
        "font_size": size,
        "font_weight": "700" if bold else None,
        "text_anchor": anchor,
        "transform": f"rotate(-90 {number(x)} {number(y)})" if turned else None,
    }
    written = element("text", escape(text), **attributes, fill=fill)
    if not halo:
        return written
    return (
        element(
            "text",
            escape(text),
            **attributes,
            fill=PAPER,
            stroke=PAPER,
            stroke_width=0.9,
            stroke_linejoin="round",
        )
        + written
    )


_NARROW = (
    {
        ".": 0.24,
        "w": 0.72,
        "m": 0.89,
        "W": 0.88,
        "M": 0.84,
        "%": 0.98,
        "O": 0.77,
        "Q": 0.78,
        "@": 0.78,
        "#": 0.78,
    }
    | dict.fromkeys(",:;'|", 0.24)
    | dict.fromkeys("!jilI ", 0.33)
    | dict.fromkeys("()[]{}frt-1", 0.45)
    | dict.fromkeys("csvxyz", 0.53)
    | dict.fromkeys("abdeghknopqu", 0.6)
    | dict.fromkeys("23456789", 0.63)
)


def width_mm(text: str, size: float) -> float:
    """How wide a line of text is at most, in millimetres, for a font size in millimetres, bold or not.

    A little too wide on purpose: the drawing is laid out without opening the font.
    """
    return size * sum(_NARROW.get(letter, 0.73) for letter in text)
