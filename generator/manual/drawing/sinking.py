"""The sinking sequence of a float-free raft to scale: five sections of the boat, seen from astern."""

from __future__ import annotations

from generator.machine.fonts import FAMILY
from generator.manual.drawing import svg

WIDTH_MM = 170.0
DEEPEST_MM = 110.0
_GAP_MM = 4.0
_HEAD_MM = 16.0
_RAFT_M = (0.8, 0.45)  # packed, width and height in the section
_INFLATED_M = (1.9, 1.0)
STAGES = 5


def draw_sinking(
    height_m: float,
    draft_m: float,
    beam_m: float,
    painter_m: float,
    release_m: tuple[float, float],
    title: str,
    prefix: str = "sinking",
) -> str:
    """The drawing as SVG; the stages carry the numbers 1 to 5, depths are written in metres.

    `height_m` is how high the raft lies above the water, `release_m` the HRU's band of depths. Lengths in metres, each above 0.
    """
    deepest = painter_m + height_m + draft_m + 0.6
    column = (WIDTH_MM - (STAGES - 1) * _GAP_MM) / STAGES
    scale = min(DEEPEST_MM / deepest, (column - 9) / max(beam_m, _INFLATED_M[0]))
    tall = _HEAD_MM + (height_m + 1.2) * scale + deepest * scale + 6
    surface = _HEAD_MM + (height_m + 1.2) * scale
    # how deep the mount lies at each stage; negative is above the water
    depths = (-height_m, release_m[1], (release_m[1] + painter_m) / 2, painter_m, painter_m + 0.6)
    parts = [
        svg.element("title", svg.escape(title), id=f"{prefix}-title"),
        svg.rectangle((0, 0, WIDTH_MM, tall), fill=svg.PAPER, stroke="none", width=0),
    ]
    for number, depth in enumerate(depths, 1):
        left = (number - 1) * (column + _GAP_MM)
        parts += _stage(
            number, left, column, surface, scale, depth, height_m, draft_m, beam_m, painter_m, release_m
        )
    parts.append(_bar(scale, tall))
    return svg.element(
        "svg",
        "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {svg.number(WIDTH_MM)} {svg.number(tall)}",
        width="100%",
        role="img",
        aria_labelledby=f"{prefix}-title",
    )


def _stage(
    number: int,
    left: float,
    column: float,
    surface: float,
    scale: float,
    depth: float,
    height: float,
    draft: float,
    beam: float,
    painter: float,
    release: tuple[float, float],
) -> list[str]:
    """One section: the water's surface, the hull with its mount, the raft, the painter and the depths that matter."""
    middle = left + column / 2
    mount = surface + depth * scale
    parts = [
        svg.line((left, surface), (left + column, surface), stroke=svg.GREY, width=0.4),
        _numeral(number, left + 4, 5),
    ]
    parts.append(_hull(middle, mount, scale, height, draft, beam))
    if number == 1:
        parts.append(_box(middle, mount, scale, _RAFT_M))
    elif number == 2:
        parts += [_depth_line(left, column, surface + metres * scale, f"{metres:g} m") for metres in release]
        parts.append(_box(middle, mount, scale, _RAFT_M))
    elif number == 5:
        parts += [
            _box(middle, surface + 0.2 * scale, scale, _INFLATED_M, rounded=True),
            svg.line(
                (middle, surface + 0.2 * scale), (middle + 1.2 * scale, surface + 2.2 * scale), width=0.5
            ),
        ]
    else:
        parts += [
            svg.line((middle, surface), (middle, mount), width=0.5),
            _box(middle, surface + 0.15 * scale, scale, _RAFT_M),
        ]
        if number == 4:
            parts.append(_depth_line(left, column, mount, f"{painter:g} m"))
    return parts


def _hull(middle: float, mount: float, scale: float, height: float, draft: float, beam: float) -> str:
    """The section below the mount: deck, sides and keel; a mount above the deck stands on a coachroof."""
    half = beam / 2 * scale
    deck = mount + 0.45 * scale
    bilge = mount + (height + 0.35 * draft) * scale
    keel = mount + (height + draft) * scale
    points = [
        (middle - half, deck),
        (middle + half, deck),
        (middle + 0.75 * half, bilge),
        (middle + 0.12 * half, bilge + 0.1 * scale),
        (middle + 0.08 * half, keel),
        (middle - 0.08 * half, keel),
        (middle - 0.12 * half, bilge + 0.1 * scale),
        (middle - 0.75 * half, bilge),
    ]
    roof = [
        (middle - 0.45 * half, deck),
        (middle - 0.4 * half, mount),
        (middle + 0.4 * half, mount),
        (middle + 0.45 * half, deck),
    ]
    return svg.polygon(points, fill=svg.PALE) + svg.polygon(roof, fill=svg.PALE)


def _box(middle: float, bottom: float, scale: float, size: tuple[float, float], rounded: bool = False) -> str:
    wide, high = size[0] * scale, size[1] * scale
    return svg.element(
        "rect",
        x=middle - wide / 2,
        y=bottom - high,
        width=wide,
        height=high,
        rx=high / 3 if rounded else 0.4,
        fill=svg.PAPER,
        stroke=svg.INK,
        stroke_width=0.6,
    )


def _depth_line(left: float, column: float, at: float, words: str) -> str:
    return svg.element(
        "line",
        x1=left,
        y1=at,
        x2=left + column,
        y2=at,
        stroke=svg.INK,
        stroke_width=0.25,
        stroke_dasharray="1 1",
    ) + _words(left + 0.5, at - 0.7, words)


def _words(x: float, y: float, words: str, size: float = 3.2, weight: str = "400") -> str:
    return svg.element(
        "text",
        svg.escape(words),
        x=x,
        y=y,
        font_family=FAMILY,
        font_size=size,
        font_weight=weight,
        fill=svg.INK,
    )


def _numeral(number: int, x: float, y: float) -> str:
    return svg.circle((x, y), 3.4, fill=svg.INK) + svg.element(
        "text",
        str(number),
        x=x,
        y=y + 1.6,
        font_family=FAMILY,
        font_size=4.6,
        font_weight="700",
        fill=svg.PAPER,
        text_anchor="middle",
    )


def _bar(scale: float, tall: float) -> str:
    """A scale bar of two metres."""
    return svg.line((1, tall - 2), (1 + 2 * scale, tall - 2), width=0.8) + _words(
        2 + 2 * scale, tall - 1, "2 m"
    )
