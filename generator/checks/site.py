"""Inspection of the pages written, as a browser will read them."""

from __future__ import annotations

import re
from posixpath import dirname, join, normpath
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

from generator.survey.pages import Page, asked_for, page_of
from generator.survey.registry import INSPECTION, RULE, TRUTH, Finds, Found, Sight, check
from generator.survey.written import OUR_OWN, folders, line_of

if TYPE_CHECKING:
    from collections.abc import Iterator

_ELSEWHERE = ("http", "https", "mailto", "tel", "sms")
_NOTHING = re.compile("'none'")
_LETS_IN = {
    "style-src": re.compile(r"'none'|'self'|'sha256-[\w+/]+=*'"),
    "font-src": re.compile("'none'|'self'|data:"),
    "img-src": re.compile("'none'|'self'|data:"),
}
_UNFILLED = re.compile(r"\{\{|\}\}|\{%|%\}|\{[a-z][a-z0-9 -]*\}|\bUndefined\b|^None$")


def _pages(sight: Sight) -> Iterator[tuple[str, str, Page, dict[str, bytes]]]:
    """(reader, file name, page, all files of that reader) of every HTML page."""
    for reader, files in folders(sight).items():
        for name, data in sorted(files.items()):
            if name.endswith((".html", ".htm")):
                yield reader, name, page_of(data), files


def _target(name: str, href: str) -> tuple[str, str] | None:
    """The file and fragment a relative address leads to; None for one that leads elsewhere."""
    parts = urlsplit(href)
    if parts.scheme or parts.netloc:
        return None
    path = normpath(join(dirname(name), unquote(parts.path))) if parts.path else name
    return path, unquote(parts.fragment)


def _leads_out(href: str) -> bool:
    parts = urlsplit(href)
    return bool(parts.scheme and parts.scheme != "data") or bool(parts.netloc) or href.startswith("/")


@check("site.broken-link", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def every_link_leads_to_a_page(sight: Sight) -> Finds:
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
                    line_of(reader, name, line), f"a link leads to '{href}', which was not written", item=name
                )


@check("site.broken-anchor", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def every_anchor_is_there(sight: Sight) -> Finds:
    """Every link into a page leads to a place that is there.

    Why: the reader lands at the top and thinks that is all.
    Remedy: it is a fault of the program: report it.
    """
    for reader, name, page, files in _pages(sight):
        own = {each for each, _ in page.ids}
        for wanted, line in page.named:
            if wanted not in own:
                yield Found(
                    line_of(reader, name, line),
                    f"a label names the id '{wanted}', which is not on the page",
                    item=name,
                )
        for href, line in page.links:
            target = _target(name, href)
            if target is None or not target[1] or target[0] not in files or not target[0].endswith(".html"):
                continue
            if target[1] not in {each for each, _ in page_of(files[target[0]]).ids}:
                yield Found(
                    line_of(reader, name, line),
                    f"a link leads to '{href}', and there is no such place on the page",
                    item=name,
                )


def _resources(sight: Sight) -> Iterator[tuple[str, dict[str, bytes], str, int, str]]:
    """(reader, file, line, address) of all that pages and style sheets load; data addresses left out."""
    for reader, files in folders(sight).items():
        for name, data in sorted(files.items()):
            if name.endswith((".html", ".htm", ".svg")):
                asked = page_of(data).resources
            else:
                asked = asked_for(data.decode("utf-8")) if name.endswith(".css") else []
            yield from (
                (reader, files, name, line, href)
                for href, line in asked
                if not href.startswith(("data:", "#"))
            )


@check("site.missing-image", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def everything_a_page_loads_was_written(sight: Sight) -> Finds:
    """Everything a page loads was written: pictures, style, fonts, scripts.

    Why: a diagram that does not appear looks like a boat without gear.
    Remedy: it is a fault of the program, unless a photo named in the vessel's file is missing.
    """
    for reader, files, name, line, href in _resources(sight):
        if not _leads_out(href) and (target := _target(name, href)) and target[0] not in files:
            yield Found(line_of(reader, name, line), f"it loads '{href}', which was not written", item=name)


@check("site.outside-link", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def pages_load_nothing_from_outside(sight: Sight) -> Finds:
    """Pages load nothing from outside their folder.

    Why: at sea there is no network, and the page waits for it.
    Remedy: it is a fault of the program: report it.
    """
    for reader, _, name, line, href in _resources(sight):
        if _leads_out(href):
            yield Found(line_of(reader, name, line), f"it loads '{href}' from outside its folder", item=name)


@check("site.live-part", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def pages_hold_nothing_that_runs(sight: Sight) -> Finds:
    """Pages hold nothing that runs or acts by itself: no scripts, frames, forms, handlers, no leading on to another page.

    Why: a manual is opened in an emergency by people who cannot look into it; it shows, and does nothing else.
    Remedy: if it stands in words of your own, take it out there; else it is a fault of the program: report it.
    """
    for reader, files in folders(sight).items():
        for name, data in sorted(files.items()):
            if name.endswith((".html", ".htm", ".svg")):
                for part, line in page_of(data).live:
                    yield Found(
                        line_of(reader, name, line),
                        f"the page holds '{part}', which acts by itself",
                        item=name,
                    )


@check("site.no-policy", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def every_page_says_what_it_may_load(sight: Sight) -> Finds:
    """Every page begins with a content policy that lets it load what lies with it, and nothing else.

    Why: should a foreign address ever slip into a page, the browser that reads it asks for it all the same, and tells where you are.
    Remedy: it is a fault of the program: report it.
    """
    for reader, name, page, _ in _pages(sight):
        if not _is_strict(page.policy):
            what = (
                "has a content policy that lets more in"
                if page.policy
                else "does not begin with a content policy"
            )
            yield Found(line_of(reader, name), f"the page {what}", item=name)


def _is_strict(policy: str) -> bool:
    """Whether a policy begins with nothing at all, and lets in what lies beside the page or within it alone."""
    said: dict[str, list[str]] = {}
    for part in policy.split(";"):
        kind, *sources = part.split() or ("",)
        said.setdefault(kind.lower(), sources)  # of two the first holds
    return (
        said.get("default-src") == ["'none'"]
        and said.get("base-uri") == ["'none'"]
        and said.get("form-action") == ["'none'"]
        and all(
            _LETS_IN.get(kind, _NOTHING).fullmatch(source)
            for kind, sources in said.items()
            for source in sources
        )
    )


@check("site.undefined-mark", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def no_template_mark_is_left(sight: Sight) -> Finds:
    """No mark of a template is left in the words.

    Why: where a mark stands a word of the boat is missing.
    Remedy: take braces out of the boat's own notes; if there are none, it is a fault of the program: report it.
    """
    for reader, name, page, _ in _pages(sight):
        for words, line in page.words:
            if match := _UNFILLED.search(words):
                yield Found(
                    line_of(reader, name, line), f"the mark '{match[0]}' is left in the text", item=name
                )


@check("site.duplicate-id", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def no_id_stands_twice(sight: Sight) -> Finds:
    """No id stands twice on a page.

    Why: a link leads to the first of the two, which may be the wrong one.
    Remedy: give the two things different names in the vessel's file; else report it.
    """
    for reader, name, page, _ in _pages(sight):
        seen = set()
        for each, line in page.ids:
            if each in seen:
                yield Found(
                    line_of(reader, name, line), f"the id '{each}' stands twice on the page", item=name
                )
            seen.add(each)


@check(
    "site.font-licence",
    RULE,
    "SIL Open Font License 1.1, condition 2: each copy is accompanied by the licence",
    INSPECTION,
    deferrable=False,
)
def a_font_travels_with_its_licence(sight: Sight) -> Finds:
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
                    line_of(made.reader, name, 1), f"the font '{file}' has no licence beside it", item=name
                )
