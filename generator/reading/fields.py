"""Fields: each gives the text under one key its type, says who may read it and what `unknown` does there."""

from __future__ import annotations

import re
import types

from generator.reading import dates
from generator.reading.nearest import folded, nearest, shortened
from generator.reading.values import Band, Quantity

NEEDED = "needed"  # unknown stops publishing: a step or an essential check needs it
ESTIMATE = "estimate"  # unknown withholds an estimate
OPEN = "open"  # unknown is printed as such, nothing hangs on it
READERS = ("guest", "crew", "shore")

# Words that stand for an answer and give none; printed in a step they would look like one.
_NO_ANSWER = frozenset(
    (
        "??",
        "???",
        "-",
        "--",
        "---",
        "...",
        "…",
        "xxx",
        "tbd",
        "tba",
        "tbc",
        "todo",
        "to do",
        "n/a",
        "na",
        "n.a.",
        "nil",
        "not known",
        "unkown",
        "unknow",
        "unknown?",
        "don't know",
        "no idea",
        "private?",
    )
)
# Answers to another question, which a step would print: "cut the painter with the knife: yes".
_NO_WORDS = frozenset(("yes", "no", "true", "false", "none", "nothing"))


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

    def __init__(
        self,
        question: str,
        *,
        required: bool = False,
        unknown: str | None = None,
        reader: str = "guest",
        example: str = "",
    ):
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
        """What a JSON Schema says of a plain value; editors turn some text into numbers, dates into text."""
        return {"type": ["string", "number", "boolean"], "minLength": 1}


class Text(Field):
    """Words as typed. `answers` are words such as none that elsewhere are no answer, and are one here."""

    def __init__(self, question, *, answers=(), **options):
        super().__init__(question, **options)
        self.answers = answers

    def read(self, text):
        """The words; refuses curly quotes put where straight ones belong, and words that are no answer to the question."""
        _refuse_curly(text)
        if len(text) < 12 and text.lower() in _NO_ANSWER:
            raise Misread(
                f"'{text}' is no answer",
                "write it in words; write unknown if it is not known yet; remove the key if there is none",
            )
        if len(text) < 8 and (word := text.lower()) in _NO_WORDS and word not in self.answers:
            raise self._no_words(text, word)
        return text

    def _no_words(self, text, word):
        if word in ("none", "nothing") and not self.required:
            return Misread(
                f"'{text}' would be printed as the answer to: {self.question}",
                "remove the key if there is none; write unknown if it is not known yet",
            )
        shown = f", for example {self.example}" if self.example != Field.example else ""
        return Misread(f"'{text}' does not answer: {self.question}", f"write it in words{shown}")


def _refuse_curly(text):
    if text[:1] in _OPENING and text[-1:] in _CLOSING and not _CURLY.search(text, 1, len(text) - 1):
        raise Misread(
            f"{shortened(text)} stands in curly quotes",
            f'write it without quotes or with straight ones: "{shortened(text[1:-1])}"',
        )


_OPENING, _CLOSING, _CURLY = ("“", "”", "„", "‘"), ("“", "”", "’"), re.compile("[“”„]")


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
        wanted = folded(text)
        for choice in self.choices:
            if folded(choice) == wanted:
                return choice
        _refuse_curly(text)
        raise Misread(f"'{shortened(text)}' is none of the words this key takes", nearest(text, self.choices))

    def schema(self):
        """The list of words."""
        return {"enum": list(self.choices)}


class YesNo(Choice):
    """yes or no."""

    kind = "yes or no"

    def __init__(self, question, **options):
        super().__init__(question, ("yes", "no"), **options)

    def read(self, text):
        """True for yes; other ways of saying it are told to write yes or no."""
        word = super().read(
            {"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}.get(
                text.lower(), text
            )
        )
        return word == "yes"

    def schema(self):
        """yes, no, and what editors turn them into."""
        return {"enum": ["yes", "no", True, False]}


class Count(Field):
    """A whole number from `low` to `high`."""

    kind = "whole number"

    def __init__(self, question, *, low=0, high=1000, **options):
        super().__init__(question, **options)
        self.low, self.high = low, high
        self.example = options.get("example") or str(max(low, 2))

    def read(self, text):
        """The number."""
        if not re.fullmatch(r"[0-9]{1,9}", text):
            raise Misread(
                f"'{shortened(text)}' is not a whole number", f"write digits only, for example {self.example}"
            )
        value = int(text)
        if not self.low <= value <= self.high:
            raise Misread(
                f"{value} is outside what can be: {self.low} to {self.high}", "look at the figure again"
            )
        return value

    def schema(self):
        """An integer in its range."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


_UNITS = {
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254},
    "mass": {"kg": 1.0, "g": 0.001, "lb": 0.45359237},
    "force": {"kN": 1000.0, "N": 1.0, "kgf": 9.80665, "lbf": 4.4482216152605},
    "volume": {"l": 1.0, "L": 1.0, "ml": 0.001, "US gal": 3.785411784, "imp gal": 4.54609},
    "flow": {
        "l/min": 1.0,
        "L/min": 1.0,
        "l/h": 1 / 60,
        "m3/h": 1000 / 60,
        "US gph": 3.785411784 / 60,
        "US gpm": 3.785411784,
    },
    "duration": {"months": 1.0, "month": 1.0, "years": 12.0, "year": 12.0},
    "time": {"s": 1.0, "min": 60.0},
    "power": {"W": 1.0, "kW": 1000.0, "hp": 745.69987},
}
_OTHERWISE = {
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "feet": "ft",
    "foot": "ft",
    "inch": "in",
    "inches": "in",
    "kilo": "kg",
    "kilos": "kg",
    "kgs": "kg",
    "kilogram": "kg",
    "kilograms": "kg",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "litre": "l",
    "litres": "l",
    "liter": "l",
    "liters": "l",
    "ltr": "l",
    "lpm": "l/min",
    "lph": "l/h",
    "m³/h": "m3/h",
    "watt": "W",
    "watts": "W",
    "newton": "N",
    "newtons": "N",
    "month(s)": "months",
    "yr": "years",
    "yrs": "years",
}
_NUMBER = r"([0-9]+(?:\.[0-9]+)?)"
_FEET = re.compile(rf"{_NUMBER}\s*(?:ft|feet|foot|'|′|’)\s*(?:{_NUMBER}\s*(?:in|\"|″|”|''))?")


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
            if not feet or float(feet[2] or 0) >= 12:
                raise self._misread(text)
            value, unit = float(feet[1]) * 0.3048 + float(feet[2] or 0) * 0.0254, "ft"
        return Quantity(self._in_range(value, text), text, unit)

    def _in_range(self, value, text):
        if not self.low <= value <= self.high:
            unit = next(iter(self.units))
            factor = self.units[unit]
            raise Misread(
                f"{shortened(text)} is outside what can be: {self.low / factor:g} to {self.high / factor:g} {unit}",
                "look at the figure and its unit again",
            )
        return value

    def _misread(self, text):
        shown, first = shortened(text), next(iter(self.units))
        units = f"(units: {', '.join(self.units)})"
        if re.fullmatch(_NUMBER, text):
            return Misread(
                f"'{shown}' has no unit", f"write the unit with it, for example {shown} {first} {units}"
            )
        comma = re.fullmatch(r"([0-9]+),([0-9]+)(.*)", shown)
        if comma and len(comma[2]) == 3:
            return Misread(
                f"'{shown}' has a comma in the figure",
                f"write {comma[1]}{comma[2]}{comma[3]} for thousands, {comma[1]}.{comma[2]}{comma[3]} for a decimal",
            )
        if comma:
            return Misread(
                f"'{shown}' has a comma in the figure", f"write a point: {comma[1]}.{comma[2]}{comma[3]}"
            )
        figure = re.fullmatch(rf"{_NUMBER}\s*(.+?)\.?", text)
        if figure:
            word = figure[2].lower()
            known = {unit.lower(): unit for unit in self.units}
            unit = known.get(word) or (_OTHERWISE[word] if _OTHERWISE.get(word) in self.units else None)
            if unit:
                return Misread(
                    f"'{shown}' writes its unit otherwise than a vessel file does",
                    f"write {figure[1]} {unit} {units}",
                )
        return Misread(
            f"'{shown}' is not a {self.dimension}",
            f"write a figure and its unit, for example {self.example} {units}",
        )

    def schema(self):
        """Text with one of the units."""
        feet = r"|ft *[0-9.]+ *in|'( *[0-9.]+ *\")?" if self.dimension == "length" else ""
        return {"type": "string", "pattern": f"^{_PLAIN_NUMBER} *({'|'.join(self.units)}{feet})$"}


class Range(Measure):
    """Two figures of one unit, lowest first: 1.5-4 m."""

    def read(self, text):
        """The band in SI."""
        match = re.fullmatch(
            rf"{_NUMBER}\s*(?:-|–|to)\s*{_NUMBER}\s*({'|'.join(map(re.escape, self.units))})", text
        )
        if not match:
            raise Misread(
                f"'{shortened(text)}' is not a band",
                f"write lowest and highest with one unit, for example {self.example}",
            )
        low, high = float(match[1]) * self.units[match[3]], float(match[2]) * self.units[match[3]]
        if low > high:
            raise Misread(
                f"'{shortened(text)}' starts with the higher figure", "write the lower figure first"
            )
        return Band(self._in_range(low, text), self._in_range(high, text), text)

    def schema(self):
        """Text of two figures and a unit."""
        return {
            "type": "string",
            "pattern": f"^{_PLAIN_NUMBER} *(-|–|to) *{_PLAIN_NUMBER} *({'|'.join(self.units)})$",
        }


class Dimensions(Measure):
    """Length x width x height of a box."""

    def __init__(self, question, **options):
        super().__init__(question, "length", high=10, example="0.90 x 0.60 x 0.40 m", **options)

    def read(self, text):
        """Three lengths in metres."""
        match = re.fullmatch(rf"{_NUMBER}\s*[x×]\s*{_NUMBER}\s*[x×]\s*{_NUMBER}\s*(m|cm|mm|in|ft)", text)
        if not match:
            raise Misread(
                f"'{shortened(text)}' is not length x width x height", f"write it like {self.example}"
            )
        return tuple(self._in_range(float(match[n]) * self.units[match[4]], text) for n in (1, 2, 3))

    def schema(self):
        """Text of three figures and a unit."""
        return {
            "type": "string",
            "pattern": f"^{' *[x×] *'.join([_PLAIN_NUMBER] * 3)} *({'|'.join(self.units)})$",
        }


class Dated(Field):
    """A date to the day (2026-05-20) or the month (2026-05)."""

    kind = "date"
    example = "2026-05 or 2026-05-20"

    def read(self, text):
        """The date as marked."""
        try:
            return dates.read(text)
        except ValueError as error:
            raise Misread(*error.args) from None

    def schema(self):
        """A day or a month."""
        return {"type": "string", "pattern": "^(19|20)[0-9]{2}-[0-9]{2}(-[0-9]{2})?$"}


class Digits(Field):
    """A number that is a name: kept as text, spaces dropped."""

    def __init__(self, question, pattern, shape, **options):
        super().__init__(question, **options)
        self.kind, self._pattern, self.example = (
            shape,
            re.compile(pattern, re.ASCII),
            options.get("example", shape),
        )

    def read(self, text):
        """The digits or letters without spaces and hyphens, in capitals."""
        plain = re.sub(r"[\s-]", "", text).upper()
        if not self._pattern.fullmatch(plain) or plain in ("NONE", "NIL", "TBD", "TODO", "XXX"):
            raise Misread(
                f"'{shortened(text)}' is not {self.kind}", f"write {self.kind}, for example {self.example}"
            )
        return plain

    def schema(self):
        """Text or, where editors take the digits for one, a number."""
        figures = re.fullmatch(r"\\d\{(\d+)\}", self._pattern.pattern)
        if not figures:
            return {
                "anyOf": [
                    {"type": "string", "pattern": "^[0-9A-Za-z -]+$"},
                    {"type": "integer", "minimum": 0},
                ]
            }
        text = {"type": "string", "pattern": f"^([ -]*[0-9]){{{figures[1]}}}$"}
        return {"anyOf": [text, {"type": "integer", "minimum": 0, "maximum": 10 ** int(figures[1]) - 1}]}


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
            raise Misread(
                f"'{shortened(text)}' does not say which side", f"write it like {self.example}, or centre"
            )
        return Quantity(super().read(figure) * (-1 if side == "port" else 1), text, "m")

    def schema(self):
        """Text of a distance and a side."""
        return {
            "type": "string",
            "pattern": f"^({_PLAIN_NUMBER} *({'|'.join(self.units)}) (port|starboard)|centre)$",
        }


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
        return {"anyOf": [{"type": "array", "minItems": 1, "items": one}, one]}


class One(Field):
    """A block under a key; if it is `unknown` nothing is published, for an absent block means that there is none."""

    scalar = False

    def __init__(self, block, question, *, unknown=NEEDED, **options):
        super().__init__(question, unknown=unknown, **options)
        self.block = block


class Many(One):
    """A list of blocks."""

    blank = ()


class Named(One):
    """Blocks under names the skipper gives, or that a shelf gives (emergencies, duties)."""

    blank = types.MappingProxyType({})


_PLAIN_NUMBER = r"[0-9]+(\.[0-9]+)?"
_PATTERNS: dict = {}


def _pattern(dimension):
    if dimension not in _PATTERNS:
        units = "|".join(re.escape(unit) for unit in sorted(_UNITS[dimension], key=len, reverse=True))
        _PATTERNS[dimension] = re.compile(rf"{_NUMBER}\s*({units})")
    return _PATTERNS[dimension]
