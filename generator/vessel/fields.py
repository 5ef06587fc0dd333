"""Fields: each gives the text under one key its type, says who may read it and what `unknown` does there."""

from __future__ import annotations

import difflib
import re
import types
from datetime import date

from generator.vessel.values import Band, Quantity, Stamp

NEEDED = "needed"      # unknown stops publishing: a step or an essential check needs it
ESTIMATE = "estimate"  # unknown withholds an estimate
OPEN = "open"          # unknown is printed as such, nothing hangs on it
READERS = ("guest", "crew", "shore")


class Misread(Exception):
    """The text is not what the field holds; `remedy` says what to write."""

    def __init__(self, message: str, remedy: str):
        super().__init__(message)
        self.message, self.remedy = message, remedy


class Field:
    """A key of a block. `question` is what the value answers; `unknown` is NEEDED, ESTIMATE or OPEN."""

    kind = "text"
    example = "text"
    scalar = True
    blank: object = None

    def __init__(self, question: str, *, required: bool = False, unknown: str | None = None,
                 reader: str = "guest", example: str = ""):
        self.question = question
        self.required = required
        self.unknown = unknown or (NEEDED if required else ESTIMATE)
        self.reader = reader
        self.example = example or self.example
        self.key = self.name = ""

    def __set_name__(self, owner, name):
        self.name = name
        self.key = name.rstrip("_").replace("_", "-")

    def __get__(self, block, owner=None):
        if block is None:
            return self
        return block.__dict__.get(self.name, self.blank)

    def read(self, text: str):
        """The value of `text`; raises Misread."""
        return text

    def schema(self) -> dict:
        """What a JSON Schema says of the value."""
        return {"type": ["string", "number", "boolean"]}


class Text(Field):
    """Words as typed."""

    def read(self, text):
        """The words, without curly quotes put where straight ones belong."""
        if text[0] in "“”‘" and text[-1] in "“”’":
            raise Misread(f"{text} stands in curly quotes", f'write it without quotes or with straight ones: "{text[1:-1]}"')
        return text


class Choice(Field):
    """One word out of a fixed list."""

    kind = "choice"

    def __init__(self, question, choices, **options):
        super().__init__(question, **options)
        self.choices = tuple(choices)
        self.example = options.get("example") or self.choices[0]

    def read(self, text):
        """The word as listed, whatever its capitals and hyphens."""
        if text in self.choices:
            return text
        folded = _folded(text)
        for choice in self.choices:
            if _folded(choice) == folded:
                return choice
        raise Misread(f"'{text}' is none of the words this key takes", nearest(text, self.choices))

    def schema(self):
        """The list of words."""
        return {"enum": [*self.choices, "unknown"]}


class YesNo(Choice):
    """yes or no."""

    kind = "yes or no"

    def __init__(self, question, **options):
        super().__init__(question, ("yes", "no"), **options)

    def read(self, text):
        """True for yes; other ways of saying it are told to write yes or no."""
        word = super().read({"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}.get(text.lower(), text))
        return word == "yes"

    def schema(self):
        """yes, no, and what editors turn them into."""
        return {"enum": ["yes", "no", True, False, "unknown"]}


class Count(Field):
    """A whole number from `low` to `high`."""

    kind = "whole number"

    def __init__(self, question, *, low=0, high=1000, **options):
        super().__init__(question, **options)
        self.low, self.high = low, high
        self.example = options.get("example") or str(max(low, 2))

    def read(self, text):
        """The number."""
        if not re.fullmatch(r"\d{1,9}", text):
            raise Misread(f"'{text}' is not a whole number", f"write digits only, for example {self.example}")
        value = int(text)
        if not self.low <= value <= self.high:
            raise Misread(f"{value} is outside what can be: {self.low} to {self.high}", "look at the figure again")
        return value

    def schema(self):
        """An integer in its range."""
        return {"anyOf": [{"type": "integer", "minimum": self.low, "maximum": self.high}, {"const": "unknown"}]}


_UNITS = {
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254},
    "mass": {"kg": 1.0, "g": 0.001, "lb": 0.45359237},
    "force": {"kN": 1000.0, "N": 1.0, "kgf": 9.80665, "lbf": 4.4482216152605},
    "volume": {"l": 1.0, "L": 1.0, "ml": 0.001, "US gal": 3.785411784, "imp gal": 4.54609},
    "flow": {"l/min": 1.0, "L/min": 1.0, "l/h": 1 / 60, "m3/h": 1000 / 60, "US gph": 3.785411784 / 60,
             "US gpm": 3.785411784},
    "duration": {"months": 1.0, "month": 1.0, "years": 12.0, "year": 12.0},
    "power": {"W": 1.0, "kW": 1000.0, "hp": 745.69987},
}
_NUMBER = r"(\d+(?:\.\d+)?)"
_FEET = re.compile(r"(\d+(?:\.\d+)?)\s*(?:ft|feet|'|′|’)\s*(?:(\d+(?:\.\d+)?)\s*(?:in|\"|″|”|''))?")


class Measure(Field):
    """A quantity with its unit, in SI inside (litres and litres a minute for volumes and flows)."""

    def __init__(self, question, dimension, *, low=0.0, high=1e6, **options):
        super().__init__(question, **options)
        self.kind = self.dimension = dimension
        self.low, self.high = low, high
        self.units = _UNITS[dimension]
        self._pattern = _pattern(dimension)
        first = next(iter(self.units))
        self.example = options.get("example") or f"{max(low, 1):g} {first}"

    def read(self, text):
        """The quantity; 5 ft 6 in and 5' 6\" are read, a figure without unit is not guessed."""
        match = self._pattern.fullmatch(text)
        if match:
            value, unit = float(match[1]) * self.units[match[2]], match[2]
        else:
            feet = _FEET.fullmatch(text) if self.dimension == "length" else None
            if not feet:
                raise self._misread(text)
            value, unit = float(feet[1]) * 0.3048 + float(feet[2] or 0) * 0.0254, "ft"
        return Quantity(self._in_range(value, text), text, unit)

    def _in_range(self, value, text):
        if not self.low <= value <= self.high:
            unit = next(iter(self.units))
            factor = self.units[unit]
            raise Misread(f"{text} is outside what can be: {self.low / factor:g} to {self.high / factor:g} {unit}",
                          "look at the figure and its unit again")
        return value

    def _misread(self, text):
        units = ", ".join(self.units)
        if re.fullmatch(_NUMBER, text):
            return Misread(f"'{text}' has no unit", f"write the unit with it: {text} {next(iter(self.units))} (units: {units})")
        comma = re.match(r"(\d+),(\d+)(.*)", text)
        if comma:
            return Misread(f"'{text}' has a comma in the figure",
                           f"write a point for decimals and nothing between thousands: {comma[1]}.{comma[2]}{comma[3]}")
        return Misread(f"'{text}' is not a {self.dimension}", f"write a figure and its unit, for example {self.example} (units: {units})")

    def schema(self):
        """Text with one of the units."""
        return {"anyOf": [{"type": "string", "pattern": rf"^[0-9.]+ ?({'|'.join(self.units)})|^[0-9.]+ ?(ft|')|^unknown$"}, _with_basis()]}


class Range(Measure):
    """Two figures of one unit, lowest first: 1.5-4 m."""

    def read(self, text):
        """The band in SI."""
        match = re.fullmatch(rf"{_NUMBER}\s*(?:-|–|to)\s*{_NUMBER}\s*({'|'.join(map(re.escape, self.units))})", text)
        if not match:
            raise Misread(f"'{text}' is not a band", f"write lowest and highest with one unit, for example {self.example}")
        low, high = float(match[1]) * self.units[match[3]], float(match[2]) * self.units[match[3]]
        if low > high:
            raise Misread(f"'{text}' starts with the higher figure", "write the lower figure first")
        return Band(self._in_range(low, text), self._in_range(high, text), text)

    def schema(self):
        """Text of two figures and a unit."""
        return {"type": "string"}


class Dimensions(Measure):
    """Length x width x height of a box."""

    def __init__(self, question, **options):
        super().__init__(question, "length", high=10, example="0.90 x 0.60 x 0.40 m", **options)

    def read(self, text):
        """Three lengths in metres."""
        match = re.fullmatch(rf"{_NUMBER}\s*[x×]\s*{_NUMBER}\s*[x×]\s*{_NUMBER}\s*(m|cm|mm|in|ft)", text)
        if not match:
            raise Misread(f"'{text}' is not length x width x height", f"write it like {self.example}")
        return tuple(self._in_range(float(match[n]) * self.units[match[4]], text) for n in (1, 2, 3))

    def schema(self):
        """Text of three figures and a unit."""
        return {"type": "string"}


class Dated(Field):
    """A date to the day (2026-05-20) or the month (2026-05)."""

    kind = "date"
    example = "2026-05 or 2026-05-20"

    def read(self, text):
        """The date as marked."""
        match = re.fullmatch(r"((?:19|20)\d\d)-(\d\d)(?:-(\d\d))?", text)
        if not match:
            if re.fullmatch(r"\d{1,4}[./ -]\d{1,2}([./ -]\d{2,4})?", text):
                raise Misread(f"'{text}' can be read as more than one date", f"write year-month or year-month-day: {self.example}")
            raise Misread(f"'{text}' is not a date", f"write it like {self.example}")
        year, month, day = int(match[1]), int(match[2]), int(match[3]) if match[3] else None
        try:
            date(year, month, day or 1)
        except ValueError:
            raise Misread(f"there is no day {text}", f"write it like {self.example}") from None
        return Stamp(year, month, day)

    def schema(self):
        """A date, also inside {value, from, stamp}."""
        return {"anyOf": [{"type": "string", "pattern": r"^\d{4}-\d{2}(-\d{2})?$|^unknown$|^private$"}, _with_basis()]}


class Digits(Field):
    """A number that is a name: kept as text, spaces dropped."""

    def __init__(self, question, pattern, shape, **options):
        super().__init__(question, **options)
        self.kind, self._pattern, self.example = shape, re.compile(pattern), options.get("example", shape)

    def read(self, text):
        """The digits or letters without spaces and hyphens, in capitals."""
        plain = re.sub(r"[\s-]", "", text).upper()
        if not self._pattern.fullmatch(plain):
            raise Misread(f"'{text}' is not {self.kind}", f"write {self.kind}")
        return plain


class OffCentre(Measure):
    """A distance to one side of the centreline: 0.8 m port, 1.2 m starboard, or centre."""

    def __init__(self, question, **options):
        super().__init__(question, "length", high=20, example="0.8 m port", **options)

    def read(self, text):
        """Metres, negative to port."""
        if text == "centre":
            return Quantity(0.0, text, "m")
        figure, _, side = text.rpartition(" ")
        if side not in ("port", "starboard"):
            raise Misread(f"'{text}' does not say which side", f"write it like {self.example}, or centre")
        return Quantity(super().read(figure) * (-1 if side == "port" else 1), text, "m")

    def schema(self):
        """Text."""
        return {"type": "string"}


class Texts(Field):
    """A list of words or of choices, or a single one."""

    scalar = False
    blank = ()

    def __init__(self, question, choices=None, **options):
        super().__init__(question, **options)
        self.of = Choice(question, choices) if choices else Text(question)
        self.choices = choices
        self.example = options.get("example") or f"[{self.of.example}]"

    def schema(self):
        """A list, or one word."""
        one = self.of.schema()
        return {"anyOf": [{"type": "array", "items": one}, one]}


class One(Field):
    """A block under a key."""

    scalar = False

    def __init__(self, block, question, **options):
        super().__init__(question, **options)
        self.block = block


class Many(One):
    """A list of blocks."""

    blank = ()


class Named(One):
    """Blocks under names the skipper gives, or that a shelf gives (emergencies, duties)."""

    blank = types.MappingProxyType({})


def nearest(text: str, words) -> str:
    """What to write instead of `text`: the nearest word, or all there are."""
    words = [str(word) for word in words]
    close = difflib.get_close_matches(_folded(text), [_folded(word) for word in words], n=1, cutoff=0.6)
    meant = next((word for word in words if close and _folded(word) == close[0]), None)
    listed = ", ".join(words)
    if meant and len(words) > 8:
        return f"write {meant}? (or one of: {listed})"
    return f"write {meant}? (it takes: {listed})" if meant else f"write one of: {listed}"


def _folded(text):
    return re.sub(r"[\s_-]+", " ", text.strip().lower())


def _with_basis():
    return {"type": "object", "required": ["value"], "properties": {
        "value": {"type": ["string", "number"]}, "from": {"enum": ["label", "certificate", "measured", "assumed"]},
        "stamp": {"type": "string"}}, "additionalProperties": False}


_PATTERNS: dict = {}


def _pattern(dimension):
    if dimension not in _PATTERNS:
        units = "|".join(re.escape(unit) for unit in sorted(_UNITS[dimension], key=len, reverse=True))
        _PATTERNS[dimension] = re.compile(rf"{_NUMBER}\s*({units})")
    return _PATTERNS[dimension]
