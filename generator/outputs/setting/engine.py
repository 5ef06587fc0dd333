"""The PDF engine: HTML in, bytes out, and what is wrong with the pages it made.

It is imported when the first page is laid out, never before; its fonts are loaded once a process. The engine is
silent about text it cuts off and about letters it takes from a font of the machine, so the pages are looked at from
inside (private names of the pinned version: a test holds them).
"""

from __future__ import annotations

import gc
import logging
import warnings
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache, cached_property
from html.parser import HTMLParser
from types import ModuleType
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from generator.machine import fonts, readiness
from generator.machine.surroundings import nothing_run
from generator.outputs import EngineMissing, Record

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydyf import PDF
    from pydyf import Object as Part
    from weasyprint import CSS, Document
    from weasyprint.document import Page
    from weasyprint.formatting_structure.boxes import Box
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

SLACK_PX = 0.6  # a letter's own shape may stand this far outside its box
NEW_OBJECTS = 20_000  # between two collections while the engine works

Edges = tuple[float, float, float, float]
"""Left, top, right and bottom of what something stands in, in the engine's points."""


@dataclass(frozen=True)
class Layout:
    """Pages laid out but not yet written; `warnings` is what the engine said meanwhile."""

    document: Document
    html: str
    warnings: tuple[str, ...]

    @property
    def pages(self) -> int:
        """How many pages it takes."""
        return len(self.document.pages)

    @cached_property
    def written(self) -> tuple[str, ...]:
        """The texts of its HTML, those in drawings too."""
        reader = _Text()
        reader.feed(self.html)
        return tuple(reader.parts)

    @cached_property
    def set(self) -> str:
        """All text set on its pages, what style sheets put in too (page numbers, marks): lines in order, a form feed between blocks."""
        return "".join(piece for page in self.document.pages for piece in _pieces(_sheet_of(page)))

    @property
    def drawn(self) -> str:
        """All text on its pages: what is set, and what stands in drawings."""
        return "\f".join((self.set, *dict.fromkeys(self.written)))

    def page_of(self, anchor: str) -> int:
        """The number of the page on which an anchor stands, from 1. Raises ValueError where it stands on none."""
        for number, page in enumerate(self.document.pages, 1):
            if anchor in page.anchors:
                return number
        raise ValueError(f"no page has the anchor {anchor}")

    @property
    def filled(self) -> float:
        """How many pages' height the content takes: 1.5 is a full page and half of another."""
        sheet = _sheet_of(self.document.pages[-1])
        root = next(box for box in sheet.children if not _is_margin(box))
        reached: float = max(
            (box.position_y + box.height for box in root.descendants() if type(box).__name__ == "TextBox"),
            default=0.0,
        )
        height: float = sheet.height
        top: float = sheet.content_box_y()
        return self.pages - 1 + max(0.0, reached - top) / height


class _Collector(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


class _Listening:
    """Collects what the engine says at WARNING and above."""

    def __enter__(self) -> list[str]:
        self.handler = _Collector()
        logging.getLogger("weasyprint").addHandler(self.handler)
        return self.handler.said

    def __exit__(self, *_: object) -> None:
        logging.getLogger("weasyprint").removeHandler(self.handler)


@contextmanager
def _few_collections() -> Iterator[None]:
    """Garbage is collected more rarely: boxes live as long as their page, and looking for dead ones takes a sixth of the time."""
    before = gc.get_threshold()
    gc.set_threshold(NEW_OBJECTS, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


@dataclass(frozen=True)
class _Engine:
    module: ModuleType
    font_configuration: FontConfiguration
    faces: CSS
    fetcher: URLFetcher


@cache
def _engine() -> _Engine:
    if message := readiness.engine_missing():
        raise EngineMissing(message)
    try:
        with nothing_run(), warnings.catch_warnings():
            # None of the machine's is wanted, and what is said of it stands on the terminal.
            warnings.filterwarnings("ignore", "No fonts configured")
            import weasyprint
            from weasyprint.text.fonts import FontConfiguration
            from weasyprint.urls import URLFetcher, URLFetcherResponse
    except (ImportError, OSError) as error:
        raise EngineMissing(readiness.engine_missing() or str(error)) from error
    files = {face.path.as_uri(): face.path for face in fonts.FACES}

    class OwnFilesOnly(URLFetcher):  # type: ignore[misc] # the engine comes without types
        """Opens the font files and data addresses, nothing else on this machine or any other."""

        def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
            if url in files:  # by its path, which need be no text in UTF-8
                return URLFetcherResponse(url, files[url].read_bytes())
            if urlsplit(url).scheme != "data":
                raise ValueError(f"a page may not load {url}")
            return super().fetch(url, headers)

    fetcher = OwnFilesOnly(allowed_protocols=("file", "data"), allow_redirects=False)
    configuration = FontConfiguration()
    with _Listening() as said:
        faces = weasyprint.CSS(
            string=fonts.faces_css_for_paper(), font_config=configuration, url_fetcher=fetcher
        )
    if said:
        raise EngineMissing(f"The PDF engine cannot use the fonts of the manual: {'; '.join(said)}")
    return _Engine(weasyprint, configuration, faces, fetcher)


@cache
def _sheet(text: str) -> CSS:
    """A style sheet parsed once; the same text is the same sheet."""
    engine = _engine()
    return engine.module.CSS(string=text, font_config=engine.font_configuration, url_fetcher=engine.fetcher)


def lay_out(html: str, sheets: tuple[str, ...]) -> Layout:
    """Lay a document out; `sheets` are style sheets as text. Raises EngineMissing."""
    engine = _engine()
    with _Listening() as said, _few_collections():
        page = engine.module.HTML(string=html, url_fetcher=engine.fetcher)
        document = page.render(
            font_config=engine.font_configuration,
            pdf_variant="pdf/ua-1",
            stylesheets=[engine.faces, *map(_sheet, sheets)],
        )
    return Layout(document, html, tuple(dict.fromkeys(said)))


def join(layouts: list[Layout]) -> Layout:
    """The pages of several layouts as one; title, author and dates are the first one's. A link ends in its own layout."""
    document = layouts[0].document.copy([page for layout in layouts for page in layout.document.pages])
    said = dict.fromkeys(text for layout in layouts for text in layout.warnings)
    return Layout(document, "\n".join(layout.html for layout in layouts), tuple(said))


def write(layout: Layout, file: str) -> tuple[bytes, list[Record]]:
    """The PDF of a layout, tagged (PDF/UA-1), and what is wrong with it; `file` is the name records bear."""
    families: list[str] = []

    def list_fonts(_document: Document, pdf: PDF) -> None:
        families.extend(name for name in map(_base_font, pdf.objects) if name)

    with _Listening() as said, _few_collections():
        written = layout.document.write_pdf(finisher=list_fonts, pdf_variant="pdf/ua-1")
    found = [("engine-warning", text) for text in dict.fromkeys((*layout.warnings, *said))]
    own = fonts.FAMILY.replace(" ", "")
    found += [
        ("foreign-font", name)
        for name in sorted(set(families))
        if own not in name.replace("-", "").replace(" ", "")
    ]
    text = _all_text(layout)
    if (
        text.strip() and not families
    ):  # the engine writes pages without a letter, and says so on the terminal alone
        found.append(("foreign-font", "no font at all: the pages are bare of letters"))
    found += [
        ("missing-glyph", f"{letter} (U+{ord(letter):04X})") for letter in fonts.missing_characters(text)
    ]
    found += [("clipped-text", text) for text in clipped(layout)]
    return written, [Record(kind, file, text) for kind, text in found]


def _base_font(item: Part) -> str:
    """The name of the font that a PDF object is, without the tag of its subset; "" for other objects."""
    name = item.get("BaseFont") if isinstance(item, dict) else None
    return str(name).strip("/'").rpartition("+")[2].replace('"', "").replace("'", "") if name else ""


def clipped(layout: Layout) -> list[str]:
    """Text that runs out of its page's content, its table cell or the paper: "page: text" each."""
    found = []
    for number, page in enumerate(layout.document.pages, 1):
        sheet = _sheet_of(page)
        left, top = sheet.content_box_x(), sheet.content_box_y()
        content = (left, top, left + sheet.width, top + sheet.height)
        for root in sheet.children:
            within = (0, 0, page.width, page.height) if _is_margin(root) or _stands_free(root) else content
            found += [f"{number}: {text}" for text in _outside(root, within)]
    return found


def _sheet_of(page: Page) -> Box:
    """The box of a page with all boxes in it: the engine keeps it to itself."""
    return page._page_box  # noqa: SLF001 - there is no other way to what stands on it


def _is_margin(box: Box) -> bool:
    return type(box).__name__ == "MarginBox"


def _stands_free(box: Box) -> bool:
    return box.style["position"] in ("absolute", "fixed")


def _outside(box: Box, within: Edges) -> Iterator[str]:
    """The texts below a box that reach outside of `within`, which tables narrow to their cells."""
    if type(box).__name__ == "TextBox":
        if box.text.strip() and not _inside(box, within):
            yield box.text
        return
    cut = getattr(box, "style", None) and box.style["overflow"] != "visible"
    if cut or type(box).__name__ == "TableCellBox":
        within = (box.position_x, within[1], box.position_x + box.border_width(), within[3])
    for child in getattr(box, "children", ()):
        yield from _outside(child, within)


def _inside(box: Box, within: Edges) -> bool:
    left, top, right, bottom = within
    return bool(
        box.position_x >= left - SLACK_PX
        and box.position_x + box.width <= right + SLACK_PX
        and box.position_y >= top - SLACK_PX
        and box.position_y + box.height <= bottom + SLACK_PX
    )


class _Text(HTMLParser):
    """All text a reader sees of a document."""

    def __init__(self) -> None:
        super().__init__()
        self.parts: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del attrs
        self._hidden += tag in ("style", "script", "title") and not self._hidden

    def handle_endtag(self, tag: str) -> None:
        if tag in ("style", "script", "title") and self._hidden:
            self._hidden -= 1

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.parts.append(data)


def _all_text(layout: Layout) -> str:
    """The text of the document and what style sheets put in (page numbers, marks)."""
    return "".join((*layout.written, layout.set.replace("\f", "\n")))


def _pieces(box: Box) -> Iterator[str]:
    """The texts below a box, each line ended, each block parted from the next."""
    kind = type(box).__name__
    if kind == "TextBox":
        yield box.text
        return
    for child in getattr(box, "children", ()):
        yield from _pieces(child)
    if kind == "LineBox":
        yield "\n"
    elif not kind.startswith("Inline") and not kind.endswith("Page"):
        yield "\f"
