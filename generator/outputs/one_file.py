"""The site in one file, to send to a telephone: every page, drawing and font is in it."""

from __future__ import annotations

import re

from generator.machine.fonts import faces_css_for_one_file
from generator.machine.photos import SMALL_PX
from generator.outputs import Job, Made
from generator.outputs.setting.pages import embedded, environment, mark_embedded, policy_of_one_file
from generator.outputs.site import articles, style, undrawn
from generator.vessel.photographed import photographed
from generator.vessel.vessel import Vessel

READER = "guest"
FILE = "manual.html"
MOST_PHOTO_BYTES = 1_400_000  # of the 3 MB that go by message
SIZES_PX = (SMALL_PX, 400, 280, 180)


def write(job: Job) -> Made:
    """The file `manual.html`: the pages one below the other, joined by links inside the file."""
    longest_px = _photos_px(job.manual.vessel)
    document = environment(job.printer, job.manual.facts).get_template("pages/onefile.html")
    sheet = f"\n{faces_css_for_one_file()}{style(job.manual.vessel)}\n"
    text = document.render(
        articles=articles(
            job,
            inside,
            lambda item: embedded(job.manual.vessel, item.block, longest_px),
            mark_embedded(job.manual.vessel),
        ),
        boat=job.manual.boat,
        style=sheet,
        policy=policy_of_one_file(sheet),
    )
    text = drawn_once(text)
    return Made({FILE: text.encode("utf-8")}, undrawn(FILE, text))


_DRAWN = re.compile(
    r'<svg class="(?P<kind>symbol|sign)" (?P<box>viewBox="[^"]*") aria-hidden="true"(?: focusable="false")?(?P<look>[^>]*)>\s*(?P<shapes>.*?)\s*</svg>',
    re.DOTALL,
)


def drawn_once(text: str) -> str:
    """The document with each sign drawn once, before its pages, and used wherever it stands: every page leads to all emergencies by theirs."""
    drawn: dict[tuple[str, str, str], str] = {}

    def used(found: re.Match[str]) -> str:
        name = drawn.setdefault((found["box"], found["look"], found["shapes"]), f"drawn-{len(drawn) + 1}")
        return f'<svg class="{found["kind"]}" aria-hidden="true"><use href="#{name}"/></svg>'

    pages = _DRAWN.sub(used, text)
    signs = "".join(
        f'<symbol id="{name}" {box}{look}>{shapes}</symbol>' for (box, look, shapes), name in drawn.items()
    )
    return pages.replace("<main", f"<div hidden><svg>{signs}</svg></div>\n<main", 1)


def _photos_px(vessel: Vessel) -> int:
    """How large photos may be so that all of them together stay within MOST_PHOTO_BYTES; 0 where none fits."""
    shown = photographed(vessel)
    return next(
        (px for px in SIZES_PX if sum(len(embedded(vessel, each, px)) for each in shown) <= MOST_PHOTO_BYTES),
        0,
    )


def inside(name: str, anchor: str = "") -> str:
    """Where a page, or an anchor on it, stands in the one file; anchors are unique among all pages."""
    return f"#{anchor or name}"
