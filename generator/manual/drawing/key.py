"""The foot of the plan: what the forms of the symbols stand for, and the scale."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial

from generator.manual.drawing import svg
from generator.manual.drawing.symbols import CLASSES, Class, form, muster

_SIZE_MM = 5.0
_TEXT_MM = 3.6
_LONGEST_BAR_MM = 42.0


def draw_key(
    used: Collection[Class],
    with_muster: bool,
    words: Callable[[str], str],
    width: float,
    top: float,
    mm_per_m: float | None,
) -> tuple[str, float]:
    """The key of the classes used and the scale bar (None: the drawing has no scale), and the height reached."""
    pieces, x, y = [], 1.0, top + _SIZE_MM / 2 + 1
    entries = [(of.key, partial(form, of, size=_SIZE_MM)) for of in CLASSES if of in used]
    if with_muster:
        entries.append(("muster place", partial(muster, size=_SIZE_MM + 1)))
    for key, drawn in entries:
        reach = _SIZE_MM + 1.4 + svg.width_mm(words(key), _TEXT_MM) + 3
        if x > 1.0 and x + reach > width:
            x, y = 1.0, y + _SIZE_MM + 1.6
        pieces.append(drawn((x + _SIZE_MM / 2, y)))
        pieces.append(svg.words(words(key), (x + _SIZE_MM + 1.4, y), _TEXT_MM, anchor="start"))
        x += reach
    y += _SIZE_MM + 2
    pieces.append(_scale(words, y, mm_per_m))
    return "".join(pieces), y + 6


def _scale(words: Callable[[str], str], y: float, mm_per_m: float | None) -> str:
    if mm_per_m is None:
        return svg.words(words("not to scale"), (1.0, y), _TEXT_MM, anchor="start")
    metres = next((each for each in (10, 5, 2, 1) if each * mm_per_m <= _LONGEST_BAR_MM), 1)
    start = 1.0 + svg.width_mm(words("scale"), _TEXT_MM) + 2.5
    end = start + metres * mm_per_m
    middle = (start + end) / 2
    bar = svg.rectangle((start, y - 0.7, end, y + 0.7), fill=svg.PAPER, width=0.3)
    bar += svg.rectangle((start, y - 0.7, middle, y + 0.7), fill=svg.INK, width=0.3)
    marks = "".join(svg.words(text, (at, y + 3.4), 3.2) for text, at in (("0", start), (f"{metres} m", end)))
    return svg.words(words("scale"), (1.0, y), _TEXT_MM, anchor="start") + bar + marks
