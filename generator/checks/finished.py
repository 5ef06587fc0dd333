"""Inspection of what was written: paper as the engine saw it, pages as a browser will."""

from __future__ import annotations

import re
from functools import lru_cache
from html.parser import HTMLParser
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from generator.reading.findings import Place
from generator.survey.registry import DEFECT, INSPECTION, Found, check

_OUR_OWN = "this program's outputs"
_KINDS = ("engine-warning", "foreign-font", "missing-glyph", "clipped-text", "too-small")
_ELSEWHERE = ("http", "https", "mailto", "tel", "sms")
_RESOURCES = {
    "img": ("src",),
    "script": ("src",),
    "link": ("href",),
    "iframe": ("src",),
    "source": ("src",),
    "object": ("data",),
    "image": ("href", "xlink:href"),
    "embed": ("src",),
    "video": ("src",),
    "audio": ("src",),
}
_UNFILLED = re.compile(r"\{\{|\}\}|\{%|%\}|\{[a-z][a-z0-9 -]*\}|\bUndefined\b|^None$")
_CSS_URL = re.compile(r"url\(\s*['\"]?([^'\")]+)")


class Page(HTMLParser):
    """What the inspection needs of an HTML page; each as (value, line)."""

    def __init__(self, text: str):
        super().__init__(convert_charrefs=True)
        self.ids: list[tuple[str, int]] = []
        self.links: list[tuple[str, int]] = []
        self.named: list[tuple[str, int]] = []
        self.resources: list[tuple[str, int]] = []
        self.words: list[tuple[str, int]] = []
        self._inside = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        """Notes ids, links, resources and the texts of attributes."""
        line, values = self.getpos()[0], {key: value or "" for key, value in attrs}
        self._inside = tag if tag in ("script", "style") else self._inside
        if "id" in values:
            self.ids.append((values["id"], line))
        if tag in ("a", "use", "area"):
            self.links += [(values[key], line) for key in ("href", "xlink:href") if key in values]
        self.resources += [(values[key], line) for key in _RESOURCES.get(tag, ()) if key in values]
        for key in ("aria-labelledby", "aria-describedby", "for"):
            self.named += [(name, line) for name in values.get(key, "").split()]
        self.words += [
            (values[key], line)
            for key in ("alt", "title", "aria-label", "content", "value", "placeholder")
            if key in values
        ]

    def handle_startendtag(self, tag, attrs):
        """The same for an element that closes itself."""
        self.handle_starttag(tag, attrs)
        self._inside = ""

    def handle_endtag(self, tag):
        """Leaves scripts and styles."""
        self._inside = "" if tag == self._inside else self._inside

    def handle_data(self, data):
        """Notes words, and what a style sheet asks for."""
        line = self.getpos()[0]
        if self._inside == "style":
            self.resources += _asked_for(data, line)
        elif not self._inside and data.strip():
            self.words.append((data.strip(), line))


def _asked_for(css, line=1):
    return [(match[1], line + css.count("\n", 0, match.start())) for match in _CSS_URL.finditer(css)]


@lru_cache(maxsize=256)
def _page(data: bytes) -> Page:
    return Page(data.decode("utf-8"))


def _folders(sight):
    """For each reader: name and bytes of all files they get, and where these are called so in findings."""
    folders: dict[str, dict[str, bytes]] = {}
    for made in sight.written.values():
        folders.setdefault(getattr(made, "reader", ""), {}).update(made.files)
    return folders


def _pages(sight):
    """(reader, file name, page, all files of that reader) of every HTML page."""
    for reader, files in _folders(sight).items():
        for name, data in sorted(files.items()):
            if name.endswith((".html", ".htm")):
                yield reader, name, _page(data), files


def _at(reader, name, line=1):
    return Place(f"{reader}/{name}" if reader else name, line)


def _records(sight, *kinds):
    for made in sight.written.values():
        for record in made.records:
            if record.kind in kinds:
                yield Found(_at(getattr(made, "reader", ""), record.file), record.text, item=record.file)


@check("paper.engine-warning", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def the_engine_had_no_complaint(sight):
    """The PDF engine had no complaint.

    Why: what it could not draw is missing on paper, and it goes on all the same.
    Remedy: look at the value or the picture named; if the vessel's file is right, it is a fault of the program: report it.
    """
    yield from _records(sight, "engine-warning")


@check("paper.foreign-font", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def paper_uses_its_own_font(sight):
    """Paper uses the font that comes with the program.

    Why: a font of this machine looks otherwise on another, and its letters were not looked at.
    Remedy: write the words named in letters the font has; if they are ordinary, report it.
    """
    yield from _records(sight, "foreign-font")


@check("paper.missing-glyph", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def every_letter_is_in_the_font(sight):
    """Every letter is in the font.

    Why: a box stands where the letter belongs, perhaps in a name or a figure.
    Remedy: write the word named with letters the font has.
    """
    yield from _records(sight, "missing-glyph")


@check("paper.clipped-text", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def no_text_is_cut_off(sight):
    """No text is cut off.

    Why: the end of a step is as much needed as its beginning.
    Remedy: shorten the value that is printed there.
    """
    yield from _records(sight, "clipped-text")


@check(
    "cards.too-small",
    DEFECT,
    "letters of one two-hundredth of the reading distance (abstract of an aviation study, secondary)",
    INSPECTION,
)
def cards_can_be_read_from_where_they_hang(sight):
    """A card can be read from where people stand.

    Why: a card that takes a magnifying glass in daylight is none at night.
    Remedy: use larger paper (--paper), or shorten the boat's own words that stand on it.
    """
    yield from _records(sight, "too-small")


@check("paper.other-fault", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def nothing_else_was_wrong_in_writing(sight):
    """Nothing else was wrong in writing.

    Why: a remark that nobody reads is a fault that sails along.
    Remedy: look at what is named; report it if the vessel's file is right.
    """
    kinds = {record.kind for made in sight.written.values() for record in made.records}
    yield from _records(sight, *(kinds - set(_KINDS)))


def _target(name, href):
    """The file and fragment a relative address leads to; None for one that leads elsewhere."""
    parts = urlsplit(href)
    if parts.scheme or parts.netloc:
        return None
    path = normpath(join(dirname(name), unquote(parts.path))) if parts.path else name
    return path, unquote(parts.fragment)


def _leads_out(href):
    parts = urlsplit(href)
    return bool(parts.scheme and parts.scheme != "data") or bool(parts.netloc) or href.startswith("/")


@check("site.broken-link", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def every_link_leads_to_a_page(sight):
    """Every link leads to a file that was written.

    Why: in an emergency a tap that leads nowhere is the end of the search.
    Remedy: it is a fault of the program: report it. A proof copy can be printed meanwhile.
    """
    for reader, name, page, files in _pages(sight):
        for href, line in page.links:
            target = _target(name, href)
            if target is None and urlsplit(href).scheme in _ELSEWHERE:
                continue
            if (
                target is None
                or href.startswith("/")
                or (target[0] not in files and join(target[0], "index.html") not in files)
            ):
                yield Found(
                    _at(reader, name, line), f"a link leads to '{href}', which was not written", item=name
                )


@check("site.broken-anchor", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def every_anchor_is_there(sight):
    """Every link into a page leads to a place that is there.

    Why: the reader lands at the top and thinks that is all.
    Remedy: it is a fault of the program: report it.
    """
    for reader, name, page, files in _pages(sight):
        own = {each for each, _ in page.ids}
        for wanted, line in page.named:
            if wanted not in own:
                yield Found(
                    _at(reader, name, line),
                    f"a label names the id '{wanted}', which is not on the page",
                    item=name,
                )
        for href, line in page.links:
            target = _target(name, href)
            if target is None or not target[1] or target[0] not in files or not target[0].endswith(".html"):
                continue
            if target[1] not in {each for each, _ in _page(files[target[0]]).ids}:
                yield Found(
                    _at(reader, name, line),
                    f"a link leads to '{href}', and there is no such place on the page",
                    item=name,
                )


def _resources(sight):
    """(reader, file, line, address) of all that pages and style sheets load; data addresses left out."""
    for reader, files in _folders(sight).items():
        for name, data in sorted(files.items()):
            if name.endswith((".html", ".htm")):
                asked = _page(data).resources
            else:
                asked = _asked_for(data.decode("utf-8")) if name.endswith(".css") else ()
            yield from (
                (reader, files, name, line, href)
                for href, line in asked
                if not href.startswith(("data:", "#"))
            )


@check("site.missing-image", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def everything_a_page_loads_was_written(sight):
    """Everything a page loads was written: pictures, style, fonts, scripts.

    Why: a diagram that does not appear looks like a boat without gear.
    Remedy: it is a fault of the program, unless a photo named in the vessel's file is missing.
    """
    for reader, files, name, line, href in _resources(sight):
        if not _leads_out(href) and (target := _target(name, href)) and target[0] not in files:
            yield Found(_at(reader, name, line), f"it loads '{href}', which was not written", item=name)


@check("site.outside-link", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def pages_load_nothing_from_outside(sight):
    """Pages load nothing from outside their folder.

    Why: at sea there is no network, and the page waits for it.
    Remedy: it is a fault of the program: report it.
    """
    for reader, _, name, line, href in _resources(sight):
        if _leads_out(href):
            yield Found(_at(reader, name, line), f"it loads '{href}' from outside its folder", item=name)


@check("site.undefined-mark", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def no_template_mark_is_left(sight):
    """No mark of a template is left in the words.

    Why: where a mark stands a word of the boat is missing.
    Remedy: take braces out of the boat's own notes; if there are none, it is a fault of the program: report it.
    """
    for reader, name, page, _ in _pages(sight):
        for words, line in page.words:
            if match := _UNFILLED.search(words):
                yield Found(_at(reader, name, line), f"the mark '{match[0]}' is left in the text", item=name)


@check("site.duplicate-id", DEFECT, _OUR_OWN, INSPECTION, deferrable=False)
def no_id_stands_twice(sight):
    """No id stands twice on a page.

    Why: a link leads to the first of the two, which may be the wrong one.
    Remedy: give the two things different names in the vessel's file; else report it.
    """
    for reader, name, page, _ in _pages(sight):
        seen = set()
        for each, line in page.ids:
            if each in seen:
                yield Found(_at(reader, name, line), f"the id '{each}' stands twice on the page", item=name)
            seen.add(each)


@check(
    "site.font-licence",
    DEFECT,
    "SIL Open Font License 1.1, condition 2: each copy is accompanied by the licence",
    INSPECTION,
    deferrable=False,
)
def a_font_travels_with_its_licence(sight):
    """A font is never handed on without its licence.

    Why: who copies the site to a stick or a host would break the font's licence without knowing.
    Remedy: it is a fault of the program: report it.
    """
    for made in sight.written.values():
        for name in made.files:
            folder, _, file = name.rpartition("/")
            beside = [
                other for other in made.files if other.rpartition("/")[0] == folder and "LICENSE" in other
            ]
            if file.endswith((".ttf", ".woff2", ".otf", ".woff")) and not beside:
                yield Found(
                    _at(made.reader, name, 1), f"the font '{file}' has no licence beside it", item=name
                )
