"""Style sheets and sizes of the printed outputs."""

from __future__ import annotations

from functools import cache

from generator.machine.fonts import advances_em
from generator.manual.drawing.plan import Plan
from generator.outputs import PAPERS
from generator.outputs.setting.fitting import PT_PER_MM
from generator.shelves.folder import templates_folder

# What the margins of the style sheets leave: width and height of the page's content.
_ROOM_MM: dict[str, dict[str, tuple[float, float]]] = {
    "book": {"A4": (165, 251), "Letter": (170, 237), "A5": (114, 176)},
    "cards": {"A4": (182, 261), "Letter": (187.9, 243.4), "A5": (120, 174)},
}

_REM_PT = {"A4": 12.0, "Letter": 12.0, "A5": 9.5}  # the book's own size of type, as its style sheets have it
_LARGEST_NAME_REM = 6.4
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


def rem_pt(paper: str) -> float:
    """The book's own size of type on `paper`."""
    return _REM_PT[paper]


def room_rem(paper: str) -> tuple[float, float]:
    """Width and height of what a page of the book on `paper` holds, in its own size of type."""
    width, height = room_mm("book", paper)
    rem_mm = _REM_PT[paper] / PT_PER_MM
    return width / rem_mm, height / rem_mm


def name_rem(name: str, paper: str) -> float:
    """In which size a boat's name is printed on the cover, in rem: as large as lets its longest word stand whole in a line."""
    advances = advances_em(700)
    widest_em = max((sum(advances.get(letter, 1.0) for letter in word) for word in name.split()), default=1.0)
    room = room_rem(paper)[0]
    return round(min(_LARGEST_NAME_REM, 0.98 * room / widest_em), 2)


def plan_width_mm(plan: Plan, output: str, paper: str) -> float:
    """How wide the plan is printed so that it stays on one page below its heading."""
    width, height = _ROOM_MM[output][paper]
    return round(min(width, (height - _HEADING_MM) * plan.width_mm / plan.height_mm), 1)
