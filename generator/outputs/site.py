"""The site, from a folder, a USB stick or any host: no network, no scripts needed.

It has a page per emergency and procedure, for plan, gear, bill and the rest, as files with relative links. `articles` renders the same pages for the manual in one file.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from itertools import takewhile
from typing import TYPE_CHECKING

from markupsafe import Markup

from generator.machine.fonts import faces_css_for_site, missing_characters, site_font_files
from generator.machine.photos import PAGE_PX
from generator.manual.composing import Manual
from generator.manual.drawing.symbols import SIZE_MM, WIDE_MM, class_of, symbol
from generator.manual.operator import colours
from generator.manual.procedures import slug
from generator.manual.steps import Procedure
from generator.outputs import Job, Made, Record
from generator.outputs.setting.pages import environment, mark_of, marks, markup, photo_of, policy_of_files
from generator.shelves.folder import templates_folder
from generator.shelves.spelling import spelled
from generator.vessel.photographed import photo_path

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.manual.deadlines import Deadline
    from generator.manual.inventory import Item
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

READER = "guest"
FILE = "index.html"
START = "start"
WORDS = "words"
REFERENCE = (
    "first-words",
    "plan",
    "gear",
    "bill",
    WORDS,
    "vessel",
    "contacts",
    "deferred",
    "sources",
    "about",
)
"""The pages beside procedures and rafts, by name; each has its template and its title. Who sails alone has no bill."""


@dataclass(frozen=True)
class Screen:
    """One page of the site. `name` is its file's stem and its anchor in the manual that is one file.

    `ground` is fire, lifesaving or plain; `words` are what its own template needs beside what all get.
    """

    name: str
    title: str
    template: str
    ground: str = "plain"
    words: dict[str, Procedure | int] = field(default_factory=dict)


class TwiceError(Exception):
    """Two pages would have the same file name: a fault of the shelf of procedures."""


def write(job: Job) -> Made:
    """The site's files: index.html and the other pages, style.css, the fonts and their licence."""
    made = Made()
    document = environment(job.printer, job.manual.facts).get_template("pages/document.html")

    def picture(item: Item) -> str:
        """The address of an item's photo, which is laid among the files."""
        found = photo_of(job.manual.vessel, item.block, PAGE_PX)
        if found is None:
            return ""
        file = photo_path(job.manual.vessel, item.block)
        stem = slug(file.stem) if file else ""
        name = f"photos/{stem or 'photo'}-{hashlib.sha256(found).hexdigest()[:8]}.jpg"
        made.files[name] = found
        return name

    mark = ""
    if found := mark_of(job.manual.vessel):
        mark = f"photos/mark-{hashlib.sha256(found).hexdigest()[:8]}.jpg"
        made.files[mark] = found
    for screen, body in articles(job, site_address, picture, mark):
        text = document.render(
            screen=screen, body=body, boat=job.manual.boat, to=site_address, policy=policy_of_files()
        )
        made.files[site_address(screen.name)] = text.encode("utf-8")
        made.records += undrawn(site_address(screen.name), text)
    made.files["style.css"] = (faces_css_for_site("fonts/") + style(job.manual.vessel)).encode("utf-8")
    made.files |= {f"fonts/{name}": content for name, content in site_font_files().items()}
    return made


def undrawn(file: str, text: str) -> list[Record]:
    """A record of each character of a page that the family cannot draw: a screen would borrow it from another font."""
    return [
        Record("missing-glyph", file, f"{letter} (U+{ord(letter):04X})")
        for letter in missing_characters(text)
    ]


def site_address(name: str, anchor: str = "") -> str:
    """Where a page, or an anchor on it, stands in the site."""
    file = FILE if name == START else f"{name}.html"
    return f"{file}#{anchor}" if anchor else file


def style(vessel: Vessel) -> str:
    """The style sheet of screens and of their printing, without the fonts; the operator's colours in it are lines on white."""
    folder = templates_folder() / "style"
    sheets = [(folder / name).read_text(encoding="utf-8") for name in ("site.css", "print.css")]
    edges = zip(("bottom", "top"), colours(vessel), strict=False)
    lines = " ".join(f"border-{edge}: .4rem solid {colour};" for edge, colour in edges)
    if lines:
        sheets.append(f"@media print, (prefers-color-scheme: light) {{ .operator {{ {lines} }} }}\n")
    return "".join(sheets)


def articles(
    job: Job, to: Callable[..., str], picture: Callable[[Item], str], mark: str = ""
) -> list[tuple[Screen, Markup]]:
    """Every page with its content.

    `to(name, anchor)` gives the address of a page, `picture(item)` that of a photo, or ""; `mark` is that of the operator's.
    """
    manual = job.manual
    templates = environment(job.printer, job.manual.facts)
    templates.globals |= {
        "to": to,
        "picture": picture,
        "mark": mark,
        "manual": manual,
        "seen": manual.seen_by(job.reader),
        "reader": job.reader,
        "marks": marks(manual),
        "emergencies": [one for one in manual.procedures if one.emergency],
        "others": [one for one in manual.procedures if not one.emergency],
        "rafts": [(raft_page(manual, raft), _raft_title(manual, raft), raft) for raft in manual.vessel.rafts],
        "deadline": lambda item: first_deadline(manual, item),
        "numeral": numeral,
        "spelled": lambda text: spelled(str(text), manual.catalogue),
        "chain": lambda one: chain_of(manual.procedures, one),
        "before": lambda one: neighbours(manual.procedures, one, -1),
        "after": lambda one: neighbours(manual.procedures, one, 1),
        "otherwise": lambda one: asides_of(manual.procedures, one),
        "duties": {one.id: one for one in manual.bill.emergencies},
        "drawing": lambda narrow: drawing(manual, narrow),
        "reference": [screen for screen in _reference(manual) if screen.name not in ("first-words", "about")],
    }
    shown, pages = screens(manual), dict[str, str]()
    for screen in sorted(
        shown, key=lambda one: one.name == WORDS
    ):  # the words of all other pages are explained there
        explained = manual.glossary.of_page(" ".join(pages.values())) if screen.name == WORDS else ()
        pages[screen.name] = templates.get_template(screen.template).render(
            screen=screen, explained=explained, **screen.words
        )
    return [(screen, markup(pages[screen.name])) for screen in shown]


def screens(manual: Manual) -> list[Screen]:
    """The pages of a manual in the order they are read. Raises TwiceError."""
    say = manual.printer.say
    made = [Screen(START, say("manual-of", boat=manual.boat), "pages/start.html")]
    made += [
        Screen(one.id, one.title, "pages/procedure.html", one.ground, {"procedure": one})
        for one in manual.procedures
    ]
    made += [
        Screen(
            raft_page(manual, raft),
            _raft_title(manual, raft),
            "pages/raft.html",
            "lifesaving",
            {"raft_index": n},
        )
        for n, raft in enumerate(manual.vessel.rafts)
    ]
    made += _reference(manual)
    names = [screen.name for screen in made]
    double = {name for name in names if names.count(name) > 1}
    if double:
        raise TwiceError(f"two pages would be called {', '.join(sorted(double))}")
    return made


def _reference(manual: Manual) -> list[Screen]:
    return [
        Screen(name, manual.printer.say(f"site.page.{name}"), f"pages/{name}.html")
        for name in REFERENCE
        if name != "bill" or manual.bill.emergencies
    ]


def raft_page(manual: Manual, raft: Raft) -> str:
    """The name of a raft's page."""
    return "liferaft" if len(manual.vessel.rafts) == 1 else f"liferaft-{slug(str(raft.name))}"


def _raft_title(manual: Manual, raft: Raft) -> str:
    say = manual.printer.say
    return say("raft.title") if len(manual.vessel.rafts) == 1 else say("raft.title-named", name=raft.name)


def chain_of(procedures: tuple[Procedure, ...], one: Procedure) -> list[Procedure]:
    """The procedures that follow each other in the emergency `one` belongs to, itself among them; empty if it has no chain.

    A chain is what stands under one column of the bill: abandon ship, launch, board, right, in the raft. Another
    emergency under that column (the distress call) runs beside it. With several rafts each has its own links.
    """
    links = [
        other
        for other in procedures
        if other.bill == one.bill
        and (not other.emergency or other.kind == other.bill)
        and (one.raft is None or other.raft is None or other.raft is one.raft)
    ]
    return links if one in links and len(links) > 1 else []


def neighbours(procedures: tuple[Procedure, ...], one: Procedure, step: int) -> list[Procedure]:
    """The links of the chain that come next (`step` 1) or before (-1): several where the chain forks to several rafts."""
    links = [other for other in chain_of(procedures, one) if other is one or not other.aside]
    kinds = list(dict.fromkeys(other.kind for other in links))
    at = kinds.index(one.kind) + step if links else -1
    return [other for other in links if other.kind == kinds[at]] if 0 <= at < len(kinds) else []


def asides_of(procedures: tuple[Procedure, ...], one: Procedure) -> list[Procedure]:
    """What to turn to when `one` goes otherwise: the asides that stand between it and the next link of its chain."""
    links = chain_of(procedures, one)
    kinds = list(dict.fromkeys(other.kind for other in links))
    aside = {other.kind for other in links if other.aside}
    behind = kinds[kinds.index(one.kind) + 1 :] if links and not one.aside else []
    wanted = list(takewhile(lambda kind: kind in aside, behind))
    return [other for other in links if other.kind in wanted]


def drawing(manual: Manual, narrow: bool) -> Markup:
    """The plan with its levels side by side, as in the book, or one below the other for a narrow screen."""
    plan = manual.narrow_plan if narrow else manual.plan
    return markup(plan.svg)


def numeral(item: Item) -> Markup:
    """The number of an item of the gear list in the form and on the ground it has on the plan."""
    size = WIDE_MM if item.number > 99 else SIZE_MM
    drawn = symbol(str(item.number), class_of(item.kind), (size / 2, size / 2), size)
    return markup(f'<svg class="form" viewBox="0 0 {size} {size}" aria-hidden="true">{drawn}</svg>')


def first_deadline(manual: Manual, item: Item) -> Deadline | None:
    """The deadline of an item of the gear list that comes first, None if it is not dated."""
    return min(manual.deadlines_for(item), key=lambda each: each.last_day, default=None)
