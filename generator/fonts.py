"""The one family the manual is set in: where its files are, the style sheets that name them, what it can draw.

The files come with the package ``fontpkg-atkinson-hyperlegible``, never from the machine's own fonts, so that paper and
screen show the same glyphs everywhere. What is heavy is imported inside the functions: a survey needs no font.
"""

import base64
import unicodedata
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

FAMILY = "Atkinson Hyperlegible"
"""The family's name, as style sheets and the fonts in a PDF state it."""

LICENCE_FILE = "AtkinsonHyperlegible-LICENSE.txt"
"""The name the licence bears beside the font files of a site."""

_PACKAGE = "fontpkg_atkinson_hyperlegible"
_LAYOUT_CHARACTERS = frozenset("\n\r\t")


@dataclass(frozen=True)
class Face:
    """One font file of the family: the start of its file name, its weight (400 or 700), ``normal`` or ``italic``."""

    stem: str
    weight: int
    style: str

    @property
    def path(self) -> Path:
        """The TrueType file in the font package. Raises ModuleNotFoundError when the package isn't installed."""
        return _package_folder() / "files" / f"{self.stem}.ttf"


FACES = (
    Face("AtkinsonHyperlegible-Regular", 400, "normal"),
    Face("AtkinsonHyperlegible-Italic", 400, "italic"),
    Face("AtkinsonHyperlegible-Bold", 700, "normal"),
    Face("AtkinsonHyperlegible-BoldItalic", 700, "italic"),
)
"""The four faces, regular first."""


def _package_folder() -> Path:
    from importlib import resources

    return Path(str(resources.files(_PACKAGE)))


def licence_text() -> str:
    """The family's licence (OFL-1.1) with its copyright line, word for word as the font package ships it."""
    return (_package_folder() / "LICENSE").read_text(encoding="utf-8")


def faces_css_for_paper() -> str:
    """The ``@font-face`` rules for the PDF engine, with ``file:`` addresses of the TrueType files.

    No ``unicode-range`` and no range of weights: with the first the engine takes Latin letters from a font of the system,
    the second it doesn't read.
    """
    return "".join(_rule(face, face.path.as_uri(), "truetype") for face in FACES)


def faces_css_for_site(folder: str) -> str:
    """The ``@font-face`` rules for a site page; ``folder`` leads from the style sheet to the fonts (``"fonts/"``)."""
    return "".join(_rule(face, f"{folder}{face.stem}.woff2", "woff2") for face in FACES)


def faces_css_for_one_file() -> str:
    """The ``@font-face`` rules with the fonts inside, for the manual that is one file; the licence is named before them."""
    files = site_font_files()
    rules = [
        f"/*! {FAMILY}: {licence_text().splitlines()[0]} SIL Open Font License 1.1, https://scripts.sil.org/OFL */\n"
    ]
    for face in FACES:
        inside = base64.b64encode(files[f"{face.stem}.woff2"]).decode("ascii")
        rules.append(_rule(face, f"data:font/woff2;base64,{inside}", "woff2"))
    return "".join(rules)


def _rule(face: Face, address: str, file_format: str) -> str:
    return (
        f'@font-face {{ font-family: "{FAMILY}"; font-weight: {face.weight}; font-style: {face.style}; '
        f'src: url("{address}") format("{file_format}"); }}\n'
    )


@cache
def _site_font_files() -> tuple[tuple[str, bytes], ...]:
    files = [(f"{face.stem}.woff2", _as_woff2(face.path)) for face in FACES]
    files.append((LICENCE_FILE, licence_text().encode("utf-8")))
    return tuple(files)


def site_font_files() -> dict[str, bytes]:
    """The files of a site's font folder by name: four woff2 files and, beside them, their licence.

    The conversion keeps every glyph and the names and dates inside the font, so the bytes are the same each time.
    """
    return dict(_site_font_files())


def _as_woff2(path: Path) -> bytes:
    from fontTools.ttLib import TTFont

    with TTFont(path, recalcTimestamp=False, recalcBBoxes=False) as font:
        font.flavor = "woff2"
        written = BytesIO()
        font.save(written)
    return written.getvalue()


@cache
def covered_characters() -> frozenset[str]:
    """The characters that all four faces can draw."""
    from fontTools.ttLib import TTFont

    covered: set[str] | None = None
    for face in FACES:
        with TTFont(face.path, lazy=True) as font:
            drawn = {chr(code) for code in font.getBestCmap()}
        covered = drawn if covered is None else covered & drawn
    return frozenset(covered or ())


def missing_characters(text: str) -> list[str]:
    """The characters of ``text`` that the family can't draw, each once, in code-point order.

    Letters are composed first (e and a combining acute are one é, as the text engine draws them); line ends and tabs are
    layout, not glyphs.
    """
    composed = set(unicodedata.normalize("NFC", text))
    return sorted(composed - covered_characters() - _LAYOUT_CHARACTERS)
