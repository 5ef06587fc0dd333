"""What paper and site share when they fill templates in: environment, marks, values in the reader's words."""

from __future__ import annotations

import base64
from dataclasses import dataclass

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from generator.machine.photos import SMALL_PX, Unreadable, prepared
from generator.manual.procedures import slug
from generator.reading.values import PRIVATE, UNKNOWN, Band, Quantity, Stamp
from generator.shelves.folder import templates_folder
from generator.vessel.photographed import photo_file

FEET_M, POUNDS_KG = 0.3048, 0.45359237


class _Compiled(BytecodeCache):
    """Templates compiled once a process: site and one file share most of theirs."""

    def __init__(self):
        self._codes = {}

    def load_bytecode(self, bucket):
        """What was compiled of the same text."""
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket):
        """Keeps it."""
        self._codes[bucket.key, bucket.checksum] = bucket.code


_COMPILED = _Compiled()


def environment(catalogue) -> Environment:
    """Templates of templates/ in one language: an undefined name is an error, text is escaped.

    Globals: say(key, ...) and page(name, ...) of the catalogue, day(date or Stamp), value(block, "attribute"),
    place(block).
    Filters: shown (any value of a vessel in words), slug.
    """
    made = Environment(
        loader=FileSystemLoader(templates_folder()),
        bytecode_cache=_COMPILED,
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )

    def shown(value) -> str:
        return in_words(value, catalogue)

    def value(block, name: str) -> str:
        words = in_words(getattr(block, name), catalogue)
        assumed = words and block.basis(name.replace("_", "-")) == "assumed"
        return f"{words} ({catalogue.say('assumed')})" if assumed else words

    def place(block) -> str:
        return whereabouts(block, catalogue)

    made.globals |= {
        "say": catalogue.say,
        "day": catalogue.day,
        "value": value,
        "place": place,
        "page": lambda name, **words: Markup(catalogue.page(name, **words)),
        "language": catalogue.language,
    }
    made.filters |= {"shown": shown, "slug": slug}
    return made


def in_words(value, catalogue) -> str:
    """A value as it is read: quantities with the other unit, dates with the month in words; absent is ""."""
    if value is None or value == "":
        return ""
    if value is UNKNOWN:
        return catalogue.say("not-known")
    if value is PRIVATE:
        return catalogue.say("contact.private")
    if isinstance(value, bool):
        return catalogue.say("yes-word" if value else "no-word")
    if isinstance(value, Stamp):
        return catalogue.day(value)
    if isinstance(value, Quantity):
        return both_units(value)
    if isinstance(value, (list, tuple)) and not isinstance(value, Band):
        if value and all(isinstance(each, float) for each in value):
            return " × ".join(f"{each:.2f}" for each in value) + " m"
        return ", ".join(in_words(each, catalogue) for each in value)
    if callable(value):
        raise TypeError(f"a template prints {value!r}, which is no value of a vessel")
    return str(value)


def both_units(quantity: Quantity) -> str:
    """A quantity as written and, for lengths from 1 m and masses from 1 kg, in the other unit too."""
    value = float(quantity)
    feet = value / FEET_M
    other = {
        "m": f"{feet:.1f} ft" if value < 10 else f"{feet:.0f} ft",
        "ft": f"{value:.1f} m",
        "kg": f"{value / POUNDS_KG:.0f} lb",
        "lb": f"{value:.0f} kg",
    }.get(quantity.unit)
    return f"{quantity.written} ({other})" if other and quantity >= 1 else quantity.written


def whereabouts(block, catalogue) -> str:
    """Space, side and spot of a thing, as its steps say it."""
    where = in_words(block.where, catalogue)
    side = block.side if block.side in ("port", "starboard") and block.side not in where else ""
    parts = (
        where,
        catalogue.say(f"side.{side}") if side else "",
        in_words(getattr(block, "spot", ""), catalogue),
    )
    return ", ".join(part for part in parts if part)


def photo_of(vessel, block, longest_px: int) -> bytes | None:
    """The photo of a thing as it is published; None where it has none, or one that the survey has found fault with."""
    path = photo_file(vessel, block)
    try:
        return prepared(path, longest_px) if path else None
    except Unreadable:
        return None


def embedded(vessel, block, longest_px: int = SMALL_PX) -> str:
    """The small photo of a thing as an address that holds the picture itself, or ""; none at all of 0 points."""
    found = photo_of(vessel, block, longest_px) if longest_px else None
    return f"data:image/jpeg;base64,{base64.b64encode(found).decode()}" if found else ""


@dataclass(frozen=True)
class Marks:
    """What every page, card and screen prints, in words; "" where a mark does not apply.

    `dates` are the standing ones in one line: surveyed on, good until, first to expire. `warnings` are those that
    apply of specimen, proof copy and not yet checked aboard.
    """

    surveyed_on: str
    good_until: str
    first_to_expire: str
    checked: str
    not_yet_checked: str
    specimen: str
    proof: str
    disclaimer: str

    @property
    def dates(self) -> str:
        """Surveyed on ... · good until ... (first to expire: ...)."""
        first = f" ({self.first_to_expire})" if self.first_to_expire else ""
        return f"{self.surveyed_on} · {self.good_until}{first}"

    @property
    def warnings(self) -> tuple[str, ...]:
        """The marks that warn, the gravest first."""
        return tuple(each for each in (self.proof, self.specimen, self.not_yet_checked) if each)


def marks(manual) -> Marks:
    """The marks of a manual in its language."""
    say, day, first = manual.catalogue.say, manual.catalogue.day, manual.first_to_expire
    checked = manual.vessel.checked_aboard if manual.checked else None
    thing = first and (f"{first.item}, {first.what}" if first.what else first.item)
    return Marks(
        surveyed_on=say("mark.surveyed-on", date=day(manual.as_of)),
        good_until=say("mark.good-until", date=day(first.last_day)) if first else say("mark.nothing-dated"),
        first_to_expire=say("mark.first-to-expire", item=thing) if first else "",
        checked=say("mark.checked-aboard", date=day(checked.date), who=checked.by) if checked else "",
        not_yet_checked="" if manual.checked else say("mark.not-yet-checked"),
        specimen=say("mark.specimen") if manual.specimen else "",
        proof=say("mark.proof-copy") if manual.proof else "",
        disclaimer=say("disclaimer.short"),
    )
