"""What paper and site share when they fill templates in: environment, marks, photos."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import CodeType

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup

from generator.machine.opening import Outside
from generator.machine.photos import SMALL_PX, Unreadable
from generator.manual.composing import Manual, signed
from generator.manual.good_until import Worded, worded
from generator.manual.printing import Printer
from generator.manual.procedures import slug
from generator.reading.block import Block
from generator.shelves.folder import templates_folder
from generator.shelves.words import FIRST_LANGUAGE
from generator.vessel.mark import mark
from generator.vessel.photographed import photo
from generator.vessel.vessel import Vessel


class _Compiled(BytecodeCache):
    """Templates compiled once a process: site and one file share most of theirs."""

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], CodeType | None] = {}

    def get_cache_key(self, name: str, filename: str | None = None) -> str:  # noqa: ARG002 - it may not be text in UTF-8
        """The name alone; texts are told apart by their checksums."""
        return name

    def load_bytecode(self, bucket: Bucket) -> None:
        """What was compiled of the same text."""
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keeps it."""
        self._codes[bucket.key, bucket.checksum] = bucket.code


_COMPILED = _Compiled()


def markup(text: str) -> Markup:
    """Text that is markup already: of the language shelf, of a template filled in, or drawn by us."""
    return Markup(text)  # noqa: S704 - what came from a boat's file in it is escaped


MOST_LETTERS, SOFT_HYPHEN = 11, "\u00ad"
"""So many letters of a word stand unbroken in the column of roles."""


def environment(printer: Printer, facts: Mapping[str, bool]) -> Environment:
    """Templates of templates/ in one language, for a boat of these facts: an undefined name is an error, text is escaped.

    Globals: say(key, ...) and page(name, ...) of the catalogue; day(date or Stamp), value(block, "attribute"), bare (the
    same without where it comes from), choice(key, word), named(name), place(block), dated(deadline) and lines(deadline) of
    the printer; first_language, in which findings are quoted.
    Filters: shown (any value of a vessel but a word the program offers), slug, breakable.
    """
    made = Environment(
        loader=FileSystemLoader(templates_folder()),
        bytecode_cache=_COMPILED,
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals |= {
        "say": printer.say,
        "day": printer.day,
        "value": printer.value,
        "bare": printer.bare,
        "choice": printer.choice,
        "named": printer.named,
        "place": printer.whereabouts,
        "dated": printer.dated,
        "lines": printer.lines,
        "page": lambda name, **words: markup(printer.catalogue.page(name, facts, **words)),
        "language": printer.language,
        "first_language": FIRST_LANGUAGE,
    }
    made.filters |= {"shown": printer.text, "slug": slug, "breakable": breakable}
    return made


def breakable(text: str) -> str:
    """The text with a soft hyphen wherever a word that is too long for a narrow column may be broken, in parts of one length."""

    def parted(word: re.Match[str]) -> str:
        letters, parts = word[0], -(-len(word[0]) // MOST_LETTERS)
        each = -(-len(letters) // parts)
        return SOFT_HYPHEN.join(letters[start : start + each] for start in range(0, len(letters), each))

    return re.sub(rf"[^\W\d_]{{{MOST_LETTERS + 1},}}", parted, text)


def photo_of(vessel: Vessel, block: Block, longest_px: int) -> bytes | None:
    """The photo of a thing as it is published; None where it has none, or one that the survey has found fault with."""
    try:
        return photo(vessel, block, longest_px)
    except (Unreadable, Outside):
        return None


def embedded(vessel: Vessel, block: Block, longest_px: int = SMALL_PX) -> str:
    """The small photo of a thing as an address that holds the picture itself, or ""; none at all of 0 points."""
    found = photo_of(vessel, block, longest_px) if longest_px else None
    return f"data:image/jpeg;base64,{base64.b64encode(found).decode()}" if found else ""


def mark_of(vessel: Vessel) -> bytes | None:
    """The operator's mark as it is published; None where there is none, or one that the survey has found fault with."""
    try:
        return mark(vessel)
    except (Unreadable, Outside):
        return None


def mark_embedded(vessel: Vessel) -> str:
    """The operator's mark as an address that holds the picture itself, or ""."""
    found = mark_of(vessel)
    return f"data:image/jpeg;base64,{base64.b64encode(found).decode()}" if found else ""


def policy_of_files() -> Markup:
    """What a page of the site may load: style, fonts and pictures beside it; nothing else, nothing from elsewhere, no script."""
    return _policy("style-src 'self'; font-src 'self'; img-src 'self'")


def policy_of_one_file(style: str) -> Markup:
    """What the manual in one file may load: fonts and pictures within it, and this style sheet by its hash; nothing else, no script."""
    known = base64.b64encode(hashlib.sha256(style.encode("utf-8")).digest()).decode("ascii")
    return _policy(f"style-src 'sha256-{known}'; font-src data:; img-src data:")


def _policy(own: str) -> Markup:
    return markup(f"default-src 'none'; {own}; base-uri 'none'; form-action 'none'")


@dataclass(frozen=True)
class Marks:
    """What every page, card and screen prints, in words; "" where a mark does not apply.

    `dates` are the standing ones in one line: surveyed on, good until with what ends it, what runs out first, what is past.
    `warnings` are those that apply of specimen, proof copy and not yet checked aboard.
    """

    surveyed_on: str
    good: Worded
    checked: str
    not_yet_checked: str
    specimen: str
    proof: str
    disclaimer: str

    @property
    def dates(self) -> str:
        """Surveyed on ... · good until ... (first to expire: ...) · past its date and deferred: ..."""
        return f"{self.surveyed_on} · {self.good.line}"

    @property
    def dates_on_card(self) -> str:
        """The same with one name for each, as short as a card needs it."""
        return f"{self.surveyed_on} · {self.good.short}"

    @property
    def warnings(self) -> tuple[str, ...]:
        """The marks that warn, the gravest first."""
        return tuple(each for each in (self.proof, self.specimen, self.not_yet_checked) if each)


def _unsigned(manual: Manual) -> str:
    """What is still missing of the two that sign a description."""
    walked = signed(manual.vessel.checked_aboard, manual.as_of)
    return (
        manual.printer.say("mark.not-yet-approved") if walked else manual.printer.say("mark.not-yet-checked")
    )


def marks(manual: Manual) -> Marks:
    """The marks of a manual in its language."""
    say, day = manual.printer.say, manual.printer.day
    checked = manual.vessel.checked_aboard if manual.checked else None
    return Marks(
        surveyed_on=say("mark.surveyed-on", date=day(manual.as_of)),
        good=worded(manual.good, manual.printer),
        checked=say("mark.checked-aboard", date=checked.date, who=checked.by) if checked else "",
        not_yet_checked="" if manual.checked else _unsigned(manual),
        specimen=say("mark.specimen") if manual.specimen else "",
        proof=say("mark.proof-copy-sound" if manual.sound else "mark.proof-copy") if manual.proof else "",
        disclaimer=say("disclaimer.short"),
    )
