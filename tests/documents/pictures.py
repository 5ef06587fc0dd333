"""The pictures of README.md, made by the program itself: the card to launch a raft by, the plan and the phone's first page of a specimen."""

from __future__ import annotations

import io
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image, ImageChops, ImageStat
from PIL.PngImagePlugin import PngInfo

from generator.shelves.languages import catalogue

if TYPE_CHECKING:
    from playwright.sync_api import Browser

FOLDER = Path(__file__).resolve().parents[2] / "vessels" / "pictures"
HIGH_PX = 844  # all three as high as the phone, so that they stand in one row
PHONE = (390, HIGH_PX)
A4_HIGH_PT = 841.89
LAUNCH = "Launch the liferaft"
"""The title of the card README.md shows, as the first language of the templates has it."""
COLOURS = 24
MOST_BYTES = 60_000
MOST_DIFFERENCE = 2.0
"""How far two pictures may differ, of 255, as `difference` has it: another version of a rasteriser, never another page."""


@dataclass(frozen=True)
class Picture:
    """A picture as PNG, with the words on the page it shows (they travel in it as its description)."""

    png: bytes
    words: str


def draw(guest: Path, pdftoppm: str, browser: Browser) -> dict[str, Picture]:
    """The pictures by the names of their files, from the folder of a published specimen that is for guests."""
    texts = _pages(guest / "cards.pdf")
    plan, launch = (
        next(number for number, text in enumerate(texts, 1) if title in text)
        for title in (catalogue().say("plan.title"), LAUNCH)
    )
    return {
        "card.png": Picture(_page(guest / "cards.pdf", launch, pdftoppm), texts[launch - 1]),
        "plan.png": Picture(_page(guest / "cards.pdf", plan, pdftoppm), texts[plan - 1]),
        "phone.png": _phone(guest / "index.html", browser),
    }


def _pages(pdf: Path) -> list[str]:
    """The words of each page."""
    from pypdf import PdfReader

    return [" ".join(page.extract_text().split()) for page in PdfReader(pdf).pages]


def _page(pdf: Path, number: int, pdftoppm: str) -> bytes:
    """One page as a picture."""
    resolution = HIGH_PX / A4_HIGH_PT * 72
    page = [pdftoppm, "-png", "-r", f"{resolution:.2f}", "-f", str(number), "-l", str(number), str(pdf)]
    return subprocess.run(page, check=True, capture_output=True).stdout


def _phone(page: Path, browser: Browser) -> Picture:
    """A page of the site as a telephone shows it at first."""
    shown = browser.new_page(viewport={"width": PHONE[0], "height": PHONE[1]}, device_scale_factor=1)
    try:
        shown.goto(page.resolve().as_uri())
        shown.evaluate("document.fonts.ready")
        return Picture(shown.screenshot(), " ".join(shown.inner_text("body").split()))
    finally:
        shown.close()


def as_file(picture: Picture) -> bytes:
    """The picture as it is kept: few colours, its words beside it."""
    kept = PngInfo()
    kept.add_itxt("Description", picture.words, zip=True)
    made = io.BytesIO()
    few = Image.open(io.BytesIO(picture.png)).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(made, "PNG", optimize=True, pnginfo=kept)
    return made.getvalue()


def words_of(file: Path) -> str:
    """The words that travel in a kept picture."""
    with Image.open(file) as kept:
        kept.load()
        return str(kept.text["Description"])


def difference(one: Image.Image, other: Image.Image) -> float:
    """How far two pictures of one size differ in brightness, 0 to 255: the mean over squares of four by four points."""
    if one.size != other.size:
        return 255.0
    small = (one.width // 4, one.height // 4)
    first, second = (each.convert("L").resize(small, Image.Resampling.BOX) for each in (one, other))
    return float(ImageStat.Stat(ImageChops.difference(first, second)).mean[0])
