"""Own notes: the skipper's Markdown as it is printed, on paper, on a page and in one file alike.

Headings stand below that of the procedure. Pictures are not printed, their words are. Links to telephone and mail stay; any
other is printed as words with its address after them, for there is no network where the manual is read.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from markdown_it import MarkdownIt
    from markdown_it.token import Token

FIRST_LEVEL, LAST_LEVEL = 3, 6  # of headings: a procedure's own are the first two
_TAPPED = re.compile(r"(tel|mailto|sms):", re.IGNORECASE)


def html_of(text: str) -> str:
    """A note as HTML; tags in it are shown as typed."""
    tokens = _parsed(text)
    _set_below(tokens)
    for token in tokens:
        if token.type == "inline":
            token.children = _in_words(token.children or [])
        else:
            token.content, token.info = _seen(token.content), ""
    reader = _reader()
    return str(reader.renderer.render(tokens, reader.options, {}))


def pictures_in(text: str) -> list[str]:
    """The words of each picture in a note, "" for one without."""
    if "![" not in text:
        return []
    return [_alt(each) for token in _parsed(text) for each in token.children or () if each.type == "image"]


@functools.cache
def _reader() -> MarkdownIt:
    from markdown_it import MarkdownIt

    class Reader(MarkdownIt):
        """Takes every address for one: what becomes of it is decided here, and none goes unseen."""

        def validateLink(self, url: str) -> bool:  # noqa: N802 - its name in the library
            del url
            return True

    return Reader("commonmark", {"html": False})


def _parsed(text: str) -> list[Token]:
    return _reader().parse(text)


def _set_below(tokens: Sequence[Token]) -> None:
    """Headings begin below the page's own, and none is skipped; not deeper than there are levels."""
    above: list[int] = []
    for token in tokens:
        if token.type == "heading_open":
            typed = int(token.tag[1:])
            while above and above[-1] >= typed:
                above.pop()
            above.append(typed)
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(FIRST_LEVEL - 1 + len(above), LAST_LEVEL)}"


def _in_words(tokens: Sequence[Token]) -> list[Token]:
    """A line of a note without pictures, and with links to telephone and mail alone."""
    made: list[Token] = []
    open_links: list[
        tuple[str, int]
    ] = []  # the address that is printed, and where the words of the link begin
    for token in tokens:
        if token.type == "image":
            made.append(_words(_alt(token)))
        elif token.type == "link_open":
            href = str(token.attrs.get("href", ""))
            stays = bool(_TAPPED.match(href))
            open_links.append(("" if stays else _reader().normalizeLinkText(href), len(made)))
            if stays:
                token.attrs = {"href": href}
                made.append(token)
        elif token.type == "link_close":
            address, start = open_links.pop()
            words = "".join(each.content for each in made[start:])
            if not address:
                made.append(token)
            elif address != words:
                made.append(_words(f" ({address})" if words else address))
        else:
            token.content = _seen(token.content)
            made.append(token)
    return made


def _words(text: str) -> Token:
    from markdown_it.token import Token

    return Token("text", "", 0, content=_seen(text))


def _alt(image: Token) -> str:
    """The words of a picture, those of a picture within them too."""
    words = (
        _alt(each) if each.type == "image" else " " if each.type.endswith("break") else each.content
        for each in image.children or ()
    )
    return "".join(words).strip()


def _seen(text: str) -> str:
    """The text without signs that nobody sees, which entities can bring in: controls, and what turns the direction of writing."""
    if text.isprintable():
        return text
    return "".join(each for each in text if each in "\n\t" or unicodedata.category(each) not in ("Cc", "Cf"))
