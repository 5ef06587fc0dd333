"""Rule sets: what must be aboard, as data of templates/carriage, read and checked against a fixed vocabulary."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from datetime import date

from generator.reading.fields import Misread
from generator.reading.measures import Measure
from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder
from generator.shelves.gear import gear_names
from generator.vessel.particulars import WATERS

STANDINGS = ("read", "quoted", "secondary", "common practice", "from memory, unverified")
"""How far a row was verified: in the rule itself, in another's quotation of it, at second hand, or not; none is law's word."""

# What a row may count besides things of the gear list, and the key of the vessel file that holds it.
COUNTED = {
    "lifejackets": "lifejackets",
    "VHF": "radio",
    "handheld VHF": "radio",
    "MF/HF radio": "radio",
    "satellite telephone": "radio",
    "EPIRB": "radio",
    "PLB": "radio",
    "SART": "radio",
    "AIS man-overboard device": "radio",
    "places in liferafts": "rafts",
    "hand pumps": "pumps",
    "electric pumps": "pumps",
    "engine pumps": "pumps",
    "grab bags": "grab-bags",
    "drinking water": "gear",
    "reboarding device": "recovery",
    "hoist for a person": "recovery",
}
WITHIN = ("aboard", "grab bag", "anywhere", "grab bag or raft")
_QUANTITY = (
    "at-least",
    "each",
    "times",
    "plus",
    "percent",
    "of",
    "by-length",
    "by-waters",
    "by-category",
    "sum",
    "when",
)
_WHEN = (
    "length-from",
    "length-above",
    "length-below",
    "length-through",
    "freeboard-above",
    "waters",
    "category",
    "facts",
    "facts-any",
    "facts-none",
)
_NEEDS = (
    "lights",
    "crotch-straps",
    "with",
    "rating",
    "twice-from",
    "dsc",
    "power-from",
    "flow-from",
    "standard",
    "pack",
    "metres-from",
)
_BAND = ("below", "through", "otherwise", "quantity")
_ROW = (
    "item",
    "counts",
    "quantity",
    "when",
    "needs",
    "within",
    "unit",
    "at-most",
    "or",
    "told-by",
    "source",
    "edition",
    "standing",
    "note",
)
_SET = ("name", "edition", "checked-on", "length-means", "categories", "notes", "rows")
_LENGTH = Measure("", "length")


class RuleSetFault(Exception):
    """A rule set uses a word outside the vocabulary: a fault of the shelf, not of a boat's file."""


@dataclass(frozen=True)
class Rule:
    """One row: `item` as printed, `counts` the names whose amounts are added up; `alternatives` each do instead of it.

    `within` says where things count, `at_most` how many of one name do, `told_by` names checks that speak of the same lack.
    """

    item: str
    counts: tuple[str, ...]
    quantity: object
    when: dict
    needs: dict
    within: str
    unit: str
    at_most: dict
    alternatives: tuple[Rule, ...]
    told_by: tuple[str, ...]
    source: str
    edition: str
    standing: str
    note: str


@dataclass(frozen=True)
class RuleSet:
    """A list of what must be aboard. `categories` are those it divides boats into, if any; `length_means` which length counts."""

    name: str
    edition: str
    checked_on: date
    length_means: str
    categories: tuple[str, ...]
    notes: tuple[str, ...]
    rows: tuple[Rule, ...]

    @property
    def standings(self) -> tuple[str, ...]:
        """The standings its rows have, the best first."""
        return tuple(each for each in STANDINGS if any(row.standing == each for row in self.rows))


@dataclass(frozen=True)
class Boat:
    """What quantities and conditions look at: persons, lengths in m, waters, category and facts by name."""

    persons: int
    length_m: float
    freeboard_m: float | None
    waters: str
    category: str
    facts: dict[str, bool]


@functools.cache
def rule_sets() -> dict[str, RuleSet]:
    """All rule sets by name; raises RuleSetFault."""
    made = {}
    for path in sorted((templates_folder() / "carriage").glob("*.yaml")):
        tree, findings = read_file(path, path.name)
        if tree is None or findings:
            raise RuleSetFault(f"{path.name}: {findings[0].place}: {findings[0].message}")
        one = rule_set(plain(tree), path.name)
        made[one.name] = one
    return made


def rule_set(data: dict, file: str) -> RuleSet:
    """A rule set out of plain data; raises RuleSetFault with the place in the file and the words it takes."""
    _only(data, _SET, file)
    categories = tuple(_listed(data.get("categories", ())))
    rows = tuple(
        _rule(row, f"{file}: row {number} ({row.get('item')})", categories)
        for number, row in enumerate(data["rows"], 1)
    )
    return RuleSet(
        data["name"],
        data["edition"],
        date.fromisoformat(data["checked-on"]),
        data["length-means"],
        categories,
        tuple(_listed(data.get("notes", ()))),
        rows,
    )


def _rule(row, place, categories, outer=None):
    _only(row, _ROW, place)
    outer = outer or {"source": "", "standing": "", "edition": ""}
    names = COUNTED.keys() | {*gear_names()}
    counts = tuple(_listed(row.get("counts", ())))
    for name in counts:
        _one_of(name, names, place)
    _check_quantity(row.get("quantity"), place, categories)
    for amount in row.get("at-most", {}).values():
        _check_quantity(amount, place, categories)
    _check_when(row.get("when", {}), place, categories)
    _only(row.get("needs", {}), _NEEDS, place)
    _one_of(row.get("within", "aboard"), WITHIN, place)
    source, standing = row.get("source", outer["source"]), row.get("standing", outer["standing"])
    _one_of(standing, STANDINGS, place)
    if not counts or not source:
        raise RuleSetFault(f"{place}: a row says what it counts and its source")
    inner = {"source": source, "standing": standing, "edition": row.get("edition", outer["edition"])}
    alternatives = tuple(
        _rule({"item": row.get("item", ""), **each}, place, categories, inner) for each in row.get("or", ())
    )
    return Rule(
        row.get("item") or counts[0],
        counts,
        row["quantity"],
        row.get("when", {}),
        row.get("needs", {}),
        row.get("within", "aboard"),
        row.get("unit", ""),
        row.get("at-most", {}),
        alternatives,
        tuple(_listed(row.get("told-by", ()))),
        source,
        inner["edition"],
        standing,
        row.get("note", ""),
    )


def amount(quantity, boat: Boat) -> float:
    """How many (or how much) a quantity asks of a boat; 0 where it asks for nothing."""
    if isinstance(quantity, str):
        return float(quantity)
    if "when" in quantity and not holds(quantity["when"], boat):
        return 0
    if "sum" in quantity:
        return sum(amount(each, boat) for each in quantity["sum"])
    if "by-length" in quantity:
        return next(
            (amount(band["quantity"], boat) for band in quantity["by-length"] if _in_band(band, boat)), 0
        )
    if "by-waters" in quantity:
        return amount(quantity["by-waters"].get(boat.waters, "0"), boat)
    if "by-category" in quantity:
        return amount(quantity["by-category"].get(boat.category, "0"), boat)
    if "percent" in quantity:
        return max(
            math.ceil(boat.persons * float(quantity["percent"]) / 100), int(quantity.get("at-least", 0))
        )
    if "each" in quantity:
        return boat.persons * float(quantity.get("times", 1)) + float(quantity.get("plus", 0))
    return float(quantity["at-least"])


def holds(when: dict, boat: Boat) -> bool:
    """Whether every condition of a row holds for a boat; lengths are compared to a thousandth of a millimetre."""
    length = fine(boat.length_m)
    for word, said in when.items():
        if word == "freeboard-above":
            true = boat.freeboard_m is None or fine(boat.freeboard_m) > _metres(said)
        elif word.startswith("length"):
            limit = _metres(said)
            true = {
                "length-from": length >= limit,
                "length-above": length > limit,
                "length-below": length < limit,
                "length-through": length <= limit,
            }[word]
        elif word in ("waters", "category"):
            true = getattr(boat, word) in _listed(said)
        else:
            facts = [_fact(name, boat) for name in _listed(said)]
            true = {"facts": all(facts), "facts-any": any(facts), "facts-none": not any(facts)}[word]
        if not true:
            return False
    return True


def fine(length_m: float) -> int:
    """A length in whole thousandths of a millimetre: 16 ft are then 4.8768 m, whichever of the two was written."""
    return round(length_m * 1_000_000)


@functools.cache
def _metres(text):
    return fine(_LENGTH.read(text))


def _in_band(band, boat):
    length = fine(boat.length_m)
    return (
        "otherwise" in band
        or ("below" in band and length < _metres(band["below"]))
        or ("through" in band and length <= _metres(band["through"]))
    )


def _fact(name, boat):
    if name not in boat.facts:
        raise RuleSetFault(f"there is no fact '{name}'; there are: {', '.join(sorted(boat.facts))}")
    return boat.facts[name]


def _check_quantity(quantity, place, categories):
    if isinstance(quantity, str):
        _number(quantity, place)
        return
    if not isinstance(quantity, dict) or not quantity:
        raise RuleSetFault(f"{place}: a quantity is a number or one of: {', '.join(_QUANTITY)}")
    _only(quantity, _QUANTITY, place)
    if "each" in quantity:
        _one_of(quantity["each"], ("person",), place)
    if "percent" in quantity:
        _one_of(quantity.get("of"), ("persons",), place)
    for word in ("at-least", "times", "plus", "percent"):
        if word in quantity:
            _number(quantity[word], place)
    for band in quantity.get("by-length", ()):
        _only(band, _BAND, place)
        for word in ("below", "through"):
            if word in band:
                _length(band[word], place)
        _check_quantity(band.get("quantity"), place, categories)
    for word, known in (("by-waters", WATERS), ("by-category", categories)):
        for key, inner in quantity.get(word, {}).items():
            _one_of(key, known, place)
            _check_quantity(inner, place, categories)
    for inner in quantity.get("sum", ()):
        _check_quantity(inner, place, categories)
    _check_when(quantity.get("when", {}), place, categories)


def _check_when(when, place, categories):
    _only(when, _WHEN, place)
    for word, said in when.items():
        if word.startswith(("length", "freeboard")):
            _length(said, place)
    for word, known in (("waters", WATERS), ("category", categories)):
        for each in _listed(when.get(word, ())):
            _one_of(each, known, place)


def _length(text, place):
    try:
        _LENGTH.read(text)
    except Misread as error:
        raise RuleSetFault(f"{place}: {error.message}: {error.remedy}") from None


def _number(text, place):
    try:
        float(text)
    except (TypeError, ValueError):
        raise RuleSetFault(f"{place}: '{text}' is not a number") from None


def _one_of(word, words, place):
    if word not in words:
        raise RuleSetFault(f"{place}: '{word}' is none of: {', '.join(sorted(words))}")


def _only(data, words, place):
    for word in data:
        _one_of(word, words, place)


def _listed(said):
    return [said] if isinstance(said, str) else list(said)
