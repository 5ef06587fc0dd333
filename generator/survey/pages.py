"""A page that was written, as a browser will read it."""

from __future__ import annotations

import re
from functools import lru_cache
from html.parser import HTMLParser

_FOLLOWED = ("a", "area", "use")  # what these name is looked up, or followed by a tap
_LOADED = ("href", "xlink:href", "src", "data", "poster", "background")
_SEVERAL = ("srcset", "imagesrcset")
_STYLED = (
    "style",
    "fill",
    "stroke",
    "filter",
    "mask",
    "clip-path",
    "cursor",
    "marker-start",
    "marker-mid",
    "marker-end",
)
_LIVE_TAGS = frozenset(
    ("script", "iframe", "frame", "frameset", "object", "embed", "applet", "portal", "form", "base", "animate", "set",
     "animatetransform", "animatemotion", "foreignobject", "handler", "audio", "video")
)  # fmt: skip
_LIVE_ATTRIBUTES = frozenset(("srcdoc", "ping", "formaction", "action", "manifest", "attributionsrc"))
_CSS_URL = re.compile(
    r"""(?:url|src)\(\s*['"]?([^'")]+)|(?:@import|image-set\()\s*['"]([^'"]+)""", re.IGNORECASE
)


class Page(HTMLParser):
    """What the inspection needs of an HTML page; each as (value, line)."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.ids: list[tuple[str, int]] = []
        self.links: list[tuple[str, int]] = []
        self.named: list[tuple[str, int]] = []
        self.resources: list[tuple[str, int]] = []
        self.words: list[tuple[str, int]] = []
        self.live: list[tuple[str, int]] = []
        self.policy = ""
        self._in_head = 0
        self._inside = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Notes ids, links, resources and the texts of attributes."""
        line, values = self.getpos()[0], {key: value or "" for key, value in attrs}
        self._inside = tag if tag in ("script", "style") else self._inside
        if "id" in values:
            self.ids.append((values["id"], line))
        self._note_head(tag, values)
        self._note_addresses(tag, values, line)
        self._note_live(tag, values, line)
        for key in ("aria-labelledby", "aria-describedby", "for"):
            self.named += [(name, line) for name in values.get(key, "").split()]
        self.words += [
            (values[key], line)
            for key in ("alt", "title", "aria-label", "content", "value", "placeholder")
            if key in values
        ]

    def _note_head(self, tag: str, values: dict[str, str]) -> None:
        """The policy, where it is the first thing in the head: whatever stands before it is not bound by it."""
        if tag == "head":
            self._in_head = 1
        elif self._in_head == 1:
            self._in_head = 2
            if tag == "meta" and values.get("http-equiv", "").lower() == "content-security-policy":
                self.policy = values.get("content", "")

    def _note_addresses(self, tag: str, values: dict[str, str], line: int) -> None:
        addresses = [values[key] for key in _LOADED if key in values]
        if tag in _FOLLOWED:
            self.links += [(each, line) for each in addresses]
        else:
            self.resources += [(each, line) for each in addresses]
        for key in _SEVERAL:
            self.resources += [
                (each.split()[0], line) for each in values.get(key, "").split(",") if each.strip()
            ]
        for key in _STYLED:
            self.resources += asked_for(values.get(key, ""), line)

    def _note_live(self, tag: str, values: dict[str, str], line: int) -> None:
        if tag in _LIVE_TAGS:
            self.live.append((tag, line))
        self.live += [(key, line) for key in values if key in _LIVE_ATTRIBUTES or key.startswith("on")]
        asks = values.get("http-equiv", "").lower()
        if asks and asks != "content-security-policy":
            self.live.append((asks, line))

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
    return [
        (match[1] or match[2], line + css.count("\n", 0, match.start())) for match in _CSS_URL.finditer(css)
    ]


@lru_cache(maxsize=256)
def page_of(data: bytes) -> Page:
    """A page as written, read once for all checks that ask."""
    return Page(data.decode("utf-8"))
