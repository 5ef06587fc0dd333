"""Numbers within bounds: whole ones, and quantities with their units: lengths, masses, forces and the like, in SI inside."""

from __future__ import annotations

import functools
import math
import re
import unicodedata
from collections.abc import Callable
from typing import Unpack

from generator.reading import letters
from generator.reading.fields import Misread, Options, Schema, Single, T, refuse
from generator.reading.nearest import shortened
from generator.reading.values import Band, Quantity

_UNITS = {
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254},
    "mass": {"kg": 1.0, "g": 0.001, "t": 1000.0, "lb": 0.45359237},
    "force": {"kN": 1000.0, "N": 1.0, "kgf": 9.80665, "lbf": 4.4482216152605},
    "volume": {
        "l": 1.0,
        "L": 1.0,
        "ml": 0.001,
        "US gal": 3.785411784,
        "imp gal": 4.54609,
        "gal": 3.785411784,
    },  # as with gpm
    "flow": {
        "l/min": 1.0,
        "L/min": 1.0,
        "l/h": 1 / 60,
        "m3/h": 1000 / 60,
        "US gph": 3.785411784 / 60,
        "US gpm": 3.785411784,
        "gph": 3.785411784
        / 60,  # as pumps are marked; of the two gallons the smaller, so that none is overstated
        "gpm": 3.785411784,
    },
    "duration": {"months": 1.0, "month": 1.0, "years": 12.0, "year": 12.0},
    "time": {"s": 1.0, "min": 60.0},
    "days": {"days": 1.0, "day": 1.0},
    "power": {"W": 1.0, "kW": 1000.0, "hp": 745.69987},
}
_OTHERWISE = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "feet": "ft", "foot": "ft", "inch": "in",
    "inches": "in", "kilo": "kg", "kilos": "kg", "kgs": "kg", "kilogram": "kg", "kilograms": "kg",
    "lbs": "lb", "tonne": "t", "tonnes": "t", "pound": "lb", "pounds": "lb", "litre": "l", "litres": "l",
    "liter": "l", "liters": "l", "ltr": "l", "gals": "gal", "gallon": "gal", "gallons": "gal",
    "lpm": "l/min", "lph": "l/h", "m³/h": "m3/h", "watt": "W",
    "watts": "W", "newton": "N", "newtons": "N", "month(s)": "months", "yr": "years", "yrs": "years",
}  # fmt: skip
_NOTHING = ("none", "nothing")
_NUMBER = r"([0-9]+(?:\.[0-9]+)?)"
_FEET = re.compile(rf"{_NUMBER}\s*(?:ft|feet|foot|'|′|’)\s*(?:{_NUMBER}\s*(?:in|\"|″|”|''))?")
_INCHES = re.compile(
    r"(?:(?:([0-9]{1,4})[ -])?([0-9]{1,2})/([0-9]{1,2})|([0-9]{0,4}) ?([¼½¾⅛⅜⅝⅞]))\s*(?:in|\"|″|”|'')"
)


def unit_names() -> set[str]:
    """What units are called, as files write them and as people say them."""
    return {*_OTHERWISE, *(name for units in _UNITS.values() for name in units)} - {"in"}


def in_usual_units(text: str) -> str:
    """A figure with its unit as files write it, where that is spelt otherwise: 11 metres; else as it is."""
    match = re.fullmatch(rf"{_NUMBER}\s*([^\W\d_]+)\.?", text)
    return f"{match[1]} {_OTHERWISE[match[2].lower()]}" if match and match[2].lower() in _OTHERWISE else text


Box = tuple[float, float, float]
"""Length, width and height in metres."""


def _inches(text: str) -> float | None:
    """Inches written with a fraction: 1 1/2 in, 3/4", 1½ in; None where it is anything else."""
    found = _INCHES.fullmatch(text)
    if not found or (found[3] and not 0 < int(found[2]) < int(found[3])):
        return None
    if found[5]:
        return int(found[4] or 0) + unicodedata.numeric(found[5])
    return int(found[1] or 0) + int(found[2]) / int(found[3])


class Count(Single[int]):
    """A whole number from `low` to `high`; `why` is the reason of these bounds, as the message gives it."""

    kind = "whole number"

    def __init__(
        self, question: str, *, low: int = 0, high: int = 1000, why: str = "", **options: Unpack[Options]
    ):
        super().__init__(question, **options)
        self.low, self.high, self.why = low, high, why
        self._example = self._example or str(max(low, 2))

    def read(self, text: str) -> int:
        """The number."""
        if not (text.isascii() and text.isdigit() and len(text) <= 9):
            digits = f"write digits only, for example {self.example}"
            raise Misread(
                f"'{shortened(text)}' is not a whole number", digits, unquoted="is not a whole number"
            )
        value = int(text)
        if not self.low <= value <= self.high:
            outside = f"is outside what can be: {_reasoned(f'{self.low} to {self.high}', self.why)}"
            raise Misread(f"{value} {outside}", "look at the figure again", unquoted=outside)
        return value

    def schema(self) -> Schema:
        """An integer in its range."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


_TOO_MANY = 20_000
"""Of so many of a unit nobody has an idea: 200000 g are told as 200 kg."""


def _reasoned(bounds: str, why: str) -> str:
    return f"{bounds}, {why}" if why else bounds


class Measured(Single[T]):
    """Something written with the units of one dimension, within bounds in SI; `why` is their reason, as the message gives it."""

    def __init__(
        self,
        question: str,
        dimension: str,
        *,
        low: float = 0.0,
        high: float = 1e6,
        why: str = "",
        **options: Unpack[Options],
    ):
        super().__init__(question, **options)
        self.kind = self.dimension = dimension
        self.low, self.high, self.why = low, high, why
        self.units = _UNITS[dimension]
        self._example = self._example or f"{max(low, 1):g} {next(iter(self.units))}"

    def _in_range(self, value: float, text: str, unit: str) -> float:
        if not self.low <= value <= self.high:
            in_unit = unit if self.high / self.units[unit] < _TOO_MANY else next(iter(self.units))
            low, high = (
                _plain(bound / self.units[in_unit], towards)
                for bound, towards in ((self.low, math.ceil), (self.high, math.floor))
            )
            raise Misread(
                f"{shortened(text)} is outside what can be: {_reasoned(f'{low} to {high} {in_unit}', self.why)}",
                "look at the figure and its unit again",
            )
        if len(text) > letters.LONGEST_WORD or "\n" in text:
            refuse(letters.unfit(text, letters.LONGEST_WORD))
        return value


class Measure(Measured[Quantity]):
    """A quantity with its unit, in SI inside (litres and litres a minute for volumes and flows)."""

    def __init__(
        self,
        question: str,
        dimension: str,
        *,
        low: float = 0.0,
        high: float = 1e6,
        why: str = "",
        nothing: bool = False,
        **options: Unpack[Options],
    ):
        super().__init__(question, dimension, low=low, high=high, why=why, **options)
        self._pattern = _pattern(dimension)
        self.nothing = nothing
        """Whether the word none says as well that there is 0 of it."""

    def read(self, text: str) -> Quantity:
        r"""The quantity; 5 ft 6 in, 5' 6\", 1 1/2 in and 12 metres are read, a figure without unit is not guessed."""
        if self.nothing and text.lower() in _NOTHING:
            unit = next(iter(self.units))
            return Quantity(0.0, f"0 {unit}", unit)
        match = self._pattern.fullmatch(text)
        as_it_is = self.dimension == "length" and _FEET.fullmatch(text) is not None
        if match is None and not as_it_is and (usual := in_usual_units(text)) != text:
            match = self._pattern.fullmatch(usual)
            text = usual if match else text
        if match:
            value, unit = float(match[1]) * self.units[match[2]], match[2]
        elif self.dimension == "length" and (inches := _inches(text)) is not None:
            value, unit = inches * self.units["in"], "in"
        else:
            feet = _FEET.fullmatch(text) if self.dimension == "length" else None
            if not feet or float(feet[2] or 0) >= 12:
                raise self._misread(text)
            value, unit = float(feet[1]) * 0.3048 + float(feet[2] or 0) * 0.0254, "ft"
        return Quantity(self._in_range(value, text, unit), text, unit)

    def _unit_for(self, figure: float) -> str:
        """The unit in which a figure can be meant: that of the example before others."""
        usual = self.example.rpartition(" ")[2]
        those = [usual] if usual in self.units else []
        for unit in (*those, *self.units):
            if self.low <= figure * self.units[unit] <= self.high:
                return unit
        return next(iter(self.units))

    def _misread(self, text: str) -> Misread:
        shown = shortened(text)
        units = f"(units: {', '.join(self.units)})"
        if re.fullmatch(_NUMBER, text):
            likely = self._unit_for(float(text))
            return Misread(
                f"'{shown}' has no unit", f"write the unit with it, for example {shown} {likely} {units}"
            )
        feet = re.fullmatch(rf"{_NUMBER}\s*['′’]\s*{_NUMBER}", text) if self.dimension == "length" else None
        if feet:
            return Misread(f"'{shown}' does not say what follows the feet", f"write {feet[1]}' {feet[2]}\"")
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
            if unit := known.get(word):
                return Misread(
                    f"'{shown}' writes its unit otherwise than a vessel file does",
                    f"write {figure[1]} {unit} {units}",
                )
        return Misread(
            f"'{shown}' is not a {self.dimension}",
            f"write a figure and its unit, for example {self.example} {units}",
        )

    def schema(self) -> Schema:
        """Text with one of the units."""
        feet = r"|ft *[0-9.]+ *in|'( *[0-9.]+ *\")?" if self.dimension == "length" else ""
        spelt = [re.escape(word) for word, unit in _OTHERWISE.items() if unit in self.units]
        plain = f"{_PLAIN_NUMBER} *({'|'.join((*self.units, *spelt))}{feet})"
        pattern = f"({plain}|{_FRACTIONS})" if self.dimension == "length" else plain
        pattern = f"({pattern}|{'|'.join(_NOTHING)})" if self.nothing else pattern
        return {"type": "string", "pattern": f"^{pattern}$"}


NUMBER = "number"
DIMENSIONS = (NUMBER, *_UNITS)
"""What a figure may measure; a number has no unit."""


class AnyMeasure(Single[Quantity]):
    """A quantity of any dimension, or a plain number: what it measures is told by its unit."""

    kind = "figure with its unit"
    usual = "2 m"

    def read(self, text: str) -> Quantity:
        """The quantity in SI."""
        if re.fullmatch(_NUMBER, text):
            return Quantity(float(text), text)
        for dimension, units in _UNITS.items():
            match = _pattern(dimension).fullmatch(text)
            if match:
                return Quantity(float(match[1]) * units[match[2]], text, match[2])
        raise Misread(
            f"'{shortened(text)}' is no figure with its unit",
            f"write it like {self.example} (units: {', '.join(unit for each in _UNITS.values() for unit in each)})",
        )


def dimension_of(quantity: Quantity) -> str:
    """What a quantity measures, told by its unit."""
    return next((name for name, units in _UNITS.items() if quantity.unit in units), NUMBER)


class Range(Measured[Band]):
    """Two figures of one unit, lowest first: 1.5-4 m."""

    def read(self, text: str) -> Band:
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
        return Band(self._in_range(low, text, match[3]), self._in_range(high, text, match[3]), text)

    def schema(self) -> Schema:
        """Text of two figures and a unit."""
        return {
            "type": "string",
            "pattern": f"^{_PLAIN_NUMBER} *(-|–|to) *{_PLAIN_NUMBER} *({'|'.join(self.units)})$",
        }


class Dimensions(Measured[Box]):
    """Length x width x height of a box."""

    def __init__(self, question: str, **options: Unpack[Options]):
        options.setdefault("example", "0.90 x 0.60 x 0.40 m")
        super().__init__(
            question, "length", low=0.1, high=4, why="sides of containers that people can move", **options
        )

    def read(self, text: str) -> Box:
        """Three lengths in metres."""
        match = re.fullmatch(rf"{_NUMBER}\s*[x×]\s*{_NUMBER}\s*[x×]\s*{_NUMBER}\s*(m|cm|mm|in|ft)", text)
        if not match:
            raise Misread(
                f"'{shortened(text)}' is not length x width x height", f"write it like {self.example}"
            )
        length, width, height = (
            self._in_range(float(match[n]) * self.units[match[4]], text, match[4]) for n in (1, 2, 3)
        )
        return length, width, height

    def schema(self) -> Schema:
        """Text of three figures and a unit."""
        return {
            "type": "string",
            "pattern": f"^{' *[x×] *'.join([_PLAIN_NUMBER] * 3)} *({'|'.join(self.units)})$",
        }


class OffCentre(Measure):
    """A distance to one side of the centreline: 0.8 m port, 1.2 m starboard, or centre."""

    def __init__(self, question: str, **options: Unpack[Options]):
        options.setdefault("example", "0.8 m port")
        super().__init__(
            question,
            "length",
            low=0,
            high=10,
            why="half the beam of the widest boat this manual draws",
            **options,
        )

    def read(self, text: str) -> Quantity:
        """Metres, negative to port."""
        if text == "centre":
            return Quantity(0.0, text, "m")
        figure, _, side = text.rpartition(" ")
        if side not in ("port", "starboard"):
            raise Misread(
                f"'{shortened(text)}' does not say which side", f"write it like {self.example}, or centre"
            )
        return Quantity(super().read(figure) * (-1 if side == "port" else 1), text, "m")

    def schema(self) -> Schema:
        """Text of a distance and a side."""
        return {
            "type": "string",
            "pattern": f"^({_PLAIN_NUMBER} *({'|'.join(self.units)}) (port|starboard)|centre)$",
        }


def _plain(bound: float, towards: Callable[[float], int]) -> str:
    """A bound as people write it, in three figures, rounded inwards so that what is named can be written."""
    if not bound:
        return "0"
    step = 10.0 ** (math.floor(math.log10(bound)) - 2)
    return f"{towards(round(bound / step, 6)) * step:.6f}".rstrip("0").rstrip(".")


_PLAIN_NUMBER = r"[0-9]+(\.[0-9]+)?"
_FRACTIONS = r"([0-9]+[ -])?[0-9]+/[0-9]+ *(in|\")|[0-9]* ?[¼½¾⅛⅜⅝⅞] *(in|\")"


@functools.cache
def _pattern(dimension: str) -> re.Pattern[str]:
    units = "|".join(re.escape(unit) for unit in sorted(_UNITS[dimension], key=len, reverse=True))
    return re.compile(rf"{_NUMBER}\s*({units})")
