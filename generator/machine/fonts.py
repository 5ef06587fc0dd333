"""The one family the manual is set in: where its files are, the style sheets that name them, what it can draw.

The files come with the package ``fontpkg-atkinson-hyperlegible``, never from the machine's own fonts, so that paper and
screen show the same glyphs everywhere. What is heavy is imported inside the functions: a survey needs no font.
"""

import base64
import unicodedata
from dataclasses import dataclass
from functools import cache
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
    return "".join(_rule(face, f"{folder}{face.path.name}", "truetype") for face in FACES)


def faces_css_for_one_file() -> str:
    """The ``@font-face`` rules with the fonts inside, for the manual that is one file; the licence is named before them."""
    rules = [
        f"/*! {FAMILY}: {licence_text().splitlines()[0]} SIL Open Font License 1.1, https://scripts.sil.org/OFL */\n"
    ]
    for face in FACES:
        inside = base64.b64encode(face.path.read_bytes()).decode("ascii")
        rules.append(_rule(face, f"data:font/ttf;base64,{inside}", "truetype"))
    return "".join(rules)


def _rule(face: Face, address: str, file_format: str) -> str:
    return (
        f'@font-face {{ font-family: "{FAMILY}"; font-weight: {face.weight}; font-style: {face.style}; '
        f'src: url("{address}") format("{file_format}"); }}\n'
    )


def site_font_files() -> dict[str, bytes]:
    """The files of a site's font folder by name: the four faces as the font package ships them and, beside them, their licence."""
    files = {face.path.name: face.path.read_bytes() for face in FACES}
    return files | {LICENCE_FILE: licence_text().encode("utf-8")}


@cache
def advances_em(weight: int) -> dict[str, float]:
    """How far each character of the upright face of a weight (400 or 700) moves the line on, in em, without kerning."""
    from fontTools.ttLib import TTFont

    face = next(face for face in FACES if (face.weight, face.style) == (weight, "normal"))
    with TTFont(face.path, lazy=True) as font:
        per_em, advances = font["head"].unitsPerEm, font["hmtx"].metrics
        return {chr(code): advances[name][0] / per_em for code, name in font.getBestCmap().items()}


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
