"""The manual that is one file: every page, drawing and font in it, to be sent by message and opened anywhere."""

from __future__ import annotations

from generator.fonts import faces_css_for_one_file
from generator.outputs import Job, Made
from generator.outputs.pages import environment
from generator.outputs.site import articles, style, undrawn

NAME = "manual.html"


def write(job: Job) -> Made:
    """The file `manual.html`: the pages one below the other, joined by links inside the file."""
    document = environment(job.manual.catalogue).get_template("pages/onefile.html")
    text = document.render(articles=articles(job, inside), boat=job.manual.vessel.vessel.name,
                           style=faces_css_for_one_file() + style())
    return Made({NAME: text.encode("utf-8")}, undrawn(NAME, text))


def inside(name: str, anchor: str = "") -> str:
    """Where a page, or an anchor on it, stands in the one file; anchors are unique among all pages."""
    return f"#{anchor or name}"
