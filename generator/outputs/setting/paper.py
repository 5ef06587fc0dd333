"""Style sheets and sizes of the printed outputs."""

from __future__ import annotations

from functools import cache

from generator.manual.drawing.plan import Plan
from generator.outputs import PAPERS
from generator.shelves.folder import templates_folder

# What the margins of the style sheets leave: width and height of the page's content.
_ROOM_MM: dict[str, dict[str, tuple[float, float]]] = {
    "book": {"A4": (165, 251), "Letter": (170, 237), "A5": (114, 176)},
    "cards": {"A4": (182, 261), "Letter": (187.9, 243.4), "A5": (120, 174)},
}

_HEADING_MM = 24


@cache
def sheets(output: str, paper: str) -> tuple[str, ...]:
    """The style sheets of `output` (book, cards) on `paper`, in the order in which they apply."""
    if paper not in PAPERS:
        raise ValueError(f"there is no paper '{paper}'; there are: {', '.join(PAPERS)}")
    names = ("paper", f"paper-{output}", f"paper-{output}-{paper.lower()}")
    return tuple((templates_folder() / "style" / f"{name}.css").read_text(encoding="utf-8") for name in names)


def room_mm(output: str, paper: str) -> tuple[float, float]:
    """Width and height of what a page of `output` on `paper` holds between its margins."""
    return _ROOM_MM[output][paper]


def plan_width_mm(plan: Plan, output: str, paper: str) -> float:
    """How wide the plan is printed so that it stays on one page below its heading."""
    width, height = _ROOM_MM[output][paper]
    return round(min(width, (height - _HEADING_MM) * plan.width_mm / plan.height_mm), 1)
