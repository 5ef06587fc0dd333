"""Rows of a rule set that ask for the same twice, can hold for no boat, or limit nothing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from generator.reading.values import Quantity as Measured
from generator.shelves.quantities import Quantity, When, fine
from generator.shelves.rows import contradiction

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from generator.reading.block import Block
    from generator.reading.findings import Finding
    from generator.shelves.quantities import Amount


def disagreements(block: Block) -> Iterator[Finding]:
    """What is wrong with the conditions and quantities within a rule set, each by itself."""
    for each in block.inner():
        if isinstance(each, When):
            yield from _some_length(each)
        elif isinstance(each, Quantity):
            yield from _bands_rise(each)


def said_by(when: When | None) -> Hashable:
    """What a condition says, however it is written: words in any order, lengths in any unit."""
    said: list[tuple[str, Hashable]] = []
    for field in type(when).fields.values() if when is not None else ():
        value = when.__dict__.get(field.name)
        if isinstance(value, tuple):
            said.append((field.key, tuple(sorted(map(str, value)))))
        elif isinstance(value, Measured):
            said.append((field.key, fine(value)))
    return tuple(sorted(said))


def _some_length(when: When) -> Iterator[Finding]:
    """A boat can be as long as a condition asks."""
    low = [
        (fine(each), open_, key)
        for key, open_, each in (
            ("length-from", False, when.length_from),
            ("length-above", True, when.length_above),
        )
        if isinstance(each, Measured)
    ]
    high = [
        (fine(each), open_, key)
        for key, open_, each in (
            ("length-through", False, when.length_through),
            ("length-below", True, when.length_below),
        )
        if isinstance(each, Measured)
    ]
    for first, after, key in low:
        for last, before, other in high:
            if first > last or (first == last and (after or before)):
                yield contradiction(
                    when.place(other),
                    f"no boat is of the lengths that '{key}' and '{other}' ask for",
                    "look at both figures again",
                    when.place(key),
                )


def _bands_rise(quantity: Quantity) -> Iterator[Finding]:
    """The first band that she lies in counts: each ends behind the one before, and what is left comes last."""
    above, key_above = -math.inf, ""
    before = None
    for band in quantity.by_length:
        key = next(
            (each for each in ("below", "through", "otherwise") if each.replace("-", "_") in band.__dict__),
            "",
        )
        value = band.__dict__.get(key)
        end = math.inf if key == "otherwise" else fine(value) if isinstance(value, Measured) else None
        if end is None:
            continue
        rises = end > above or (end == above and (key_above, key) == ("below", "through"))
        if before is not None and not rises:
            yield contradiction(
                band.place(key),
                "no boat comes to this band of lengths: the one above has them all",
                "write the shorter lengths first, 'otherwise' last",
                before.place(key_above),
            )
        else:
            above, key_above, before = end, key, band


def limits_nothing(limit: Quantity, whole: Quantity) -> bool:
    """Whether so much of one name is, for every boat, as much as is asked for at all; as far as both are plain figures."""
    pairs = list(_paired(limit, whole))
    return bool(pairs) and all(most >= asked for most, asked in pairs)


def _paired(limit: Quantity, whole: Quantity) -> Iterator[tuple[float, float]]:
    """Figures of the same case; nothing where the cases of the two differ, or one of them goes by persons."""
    own, others = _figures(limit), _figures(whole)
    if own.keys() == others.keys():
        yield from ((own[case], others[case]) for case in own)
    elif own.keys() == {""}:
        yield from ((own[""], asked) for asked in others.values())
    elif others.keys() == {""}:
        yield from ((most, others[""]) for most in own.values())


def _figures(quantity: Quantity) -> dict[Hashable, float]:
    """The plain figures of a quantity by the case that they are for; none where one of them is no plain figure."""
    rows: dict[Hashable, Amount | None]
    if quantity.by_length:
        rows = {
            tuple(
                (key, str(value))
                for key, value in band.__dict__.items()
                if key in ("below", "through", "otherwise")
            ): band.quantity
            for band in quantity.by_length
        }
    elif quantity.by_waters or quantity.by_category:
        rows = {(name,): amount for name, amount in (quantity.by_waters or quantity.by_category).items()}
    else:
        rows = {"": quantity}
    figures: dict[Hashable, float] = {}
    for case, amount in rows.items():
        least = amount.at_least if amount is not None and amount.when is None else None
        if amount is None or amount.percent is not None or not isinstance(least, float):
            return {}
        figures[case] = least
    return figures
