"""A page that was written, as a browser will read it."""

from __future__ import annotations

import re
from functools import lru_cache
from html.parser import HTMLParser

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
_CSS_URL = re.compile(r"url\(\s*['\"]?([^'\")]+)")


class Page(HTMLParser):
    """What the inspection needs of an HTML page; each as (value, line)."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.ids: list[tuple[str, int]] = []
        self.links: list[tuple[str, int]] = []
        self.named: list[tuple[str, int]] = []
        self.resources: list[tuple[str, int]] = []
        self.words: list[tuple[str, int]] = []
        self._inside = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
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

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """The same for an element that closes itself."""
        self.handle_starttag(tag, attrs)
        self._inside = ""

    def handle_endtag(self, tag: str) -> None:
        """Leaves scripts and styles."""
        self._inside = "" if tag == self._inside else self._inside

    def handle_data(self, data: str) -> None:
        """Notes words, and what a style sheet asks for."""
        line = self.getpos()[0]
        if self._inside == "style":
            self.resources += asked_for(data, line)
        elif not self._inside and data.strip():
            self.words.append((data.strip(), line))


def asked_for(css: str, line: int = 1) -> list[tuple[str, int]]:
    """The addresses that a style sheet loads, each with its line; the sheet begins in `line`."""
    return [(match[1], line + css.count("\n", 0, match.start())) for match in _CSS_URL.finditer(css)]


@lru_cache(maxsize=256)
def page_of(data: bytes) -> Page:
    """A page as written, read once for all checks that ask."""
    return Page(data.decode("utf-8"))
