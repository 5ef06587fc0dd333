"""Several things written as one entry of a list: their names, with or without numbers, share all else that stands there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.reading.findings import Finding
from generator.reading.nearest import shortened
from generator.reading.nodes import Listing, Mapping, Node, Refused, Scalar

_OF_ONE_VALUE = frozenset(("value", "from", "stamp", "for"))


@dataclass(frozen=True)
class Clash:
    """What does not go together in such an entry: at which node and key, what, and what to do."""

    node: Node
    key: str
    message: str
    remedy: str
    check: str = "file.bad-value"


def is_together(item: Node, called: str, number: str) -> bool:
    """Whether an entry stands for several things: under the key that names it stand several names."""
    if not number or not isinstance(item, Mapping):
        return False
    names = item.entries.get(called)
    if isinstance(names, Mapping):
        return "value" not in names.entries or not _OF_ONE_VALUE.issuperset(names.entries)
    return isinstance(names, Listing)


def one_by_one(item: Mapping, called: str, number: str) -> tuple[list[Mapping], list[Clash]]:
    """An entry for each of several things, standing where its name stands, as if each had been written by itself.

    `called` is the key of the names, `number` that of how many there are of each.
    """
    names, clashes = item.entries[called], []
    if isinstance(names, Mapping) and number in item.entries:
        message = f"'{number}' stands beside '{called}', which gives each thing its own number"
        clashes.append(Clash(item.entries[number], number, message, "keep the one that is true"))
    made: list[Mapping] = []
    seen: set[str] = set()
    for name, amount in _named(names):
        if isinstance(name, Refused):
            continue
        if not isinstance(name, Scalar):
            message = "a list or block stands where a name belongs"
            clashes.append(Clash(name, called, message, f"write {called}: [one, another]"))
            continue
        if name.text.strip().lower() in seen:
            message = f"'{shortened(name.text)}' stands twice in one entry"
            clashes.append(Clash(name, called, message, "write it once, with the whole number"))
            continue
        seen.add(name.text.strip().lower())
        made.append(_apart(item, called, name, number, amount))
    if not made and not clashes:
        message, remedy = "no name stands here", f"write the names: {called}: [one, another]"
        clashes.append(Clash(names, called, message, remedy, "file.blank-value"))
    return made, clashes


def _named(names: Node) -> Iterator[tuple[Node, Node | None]]:
    """Each name with its number, if numbers are given."""
    if isinstance(names, Mapping):
        yield from ((names.keys[key], amount) for key, amount in names.entries.items())
    elif isinstance(names, Listing):
        yield from ((name, None) for name in names.items)


def _apart(item: Mapping, called: str, name: Scalar, number: str, amount: Node | None) -> Mapping:
    own = Mapping(name.line, name.column, name.source)
    for key, node in item.entries.items():
        if key == called:
            own.entries[key], own.keys[key] = name, item.keys[key]
        elif key != number or amount is None:
            own.entries[key], own.keys[key] = node, item.keys[key]
    if amount is not None:
        own.entries[number], own.keys[number] = amount, name
    own.shared = frozenset(item.entries) - ({called} if amount is None else {called, number})
    return own


def each_of(
    item: Mapping, called: str, number: str, *, either_side: bool
) -> tuple[list[Mapping], list[Clash]]:
    """What an entry of a list stands for, one by one, and what does not go together in it: the entry itself where it stands for one thing."""
    named, clashes = one_by_one(item, called, number) if is_together(item, called, number) else ([item], [])
    things: list[Mapping] = []
    for each in named:
        if either_side and is_on_both_sides(each):
            halves, wrong = on_either_side(each, called, number)
            things += halves
            clashes += wrong
        else:
            things.append(each)
    return things, clashes


SIDE, BOTH = "side", "both"


def is_on_both_sides(item: Node) -> bool:
    """Whether an entry stands for as many things on the one side as on the other: jackstays on both side decks."""
    side = item.entries.get(SIDE) if isinstance(item, Mapping) else None
    return isinstance(side, Scalar) and side.text.strip().lower() == BOTH


def on_either_side(item: Mapping, called: str, number: str) -> tuple[list[Mapping], list[Clash]]:
    """An entry for each side, with half of the number, called by its side as well: jackstays, port."""
    side, name, amount = item.entries[SIDE], item.entries.get(called), item.entries.get(number)
    clashes: list[Clash] = []
    half = amount
    if isinstance(amount, Scalar) and amount.text.strip().isdecimal():
        if int(amount.text) % 2:
            message = f"{amount.text.strip()} of them lie on both sides, and nothing says how many on which"
            clashes.append(Clash(amount, number, message, "write an entry for each side with its number"))
        half = _as(amount, str(max(1, int(amount.text) // 2)))
    made: list[Mapping] = []
    for each in ("port", "starboard"):
        own = Mapping(item.line, item.column, item.source)
        own.entries, own.keys = dict(item.entries), dict(item.keys)
        own.entries[SIDE] = _as(side, each)
        if isinstance(name, Scalar) and name.__class__ is Scalar:
            own.entries[called] = _as(name, f"{name.text}, {each}")
        if half is not None:
            own.entries[number] = half
        own.shared = frozenset(item.entries) - {called, SIDE} - ({number} if half is not amount else set())
        made.append(own)
    return made, clashes


def _as(node: Node, text: str) -> Node:
    """A value that stands where another does."""
    return Scalar(text, node.line, node.column, isinstance(node, Scalar) and node.plain, node.source)


def told_once(findings: Sequence[Finding], before: int) -> list[Finding]:
    """What was told since `before`, without what was told before of the same value, for another thing of its entry.

    What is private has a line of its own for each of them.
    """
    told = {_of_value(each) for each in findings[:before]}
    return [
        each
        for each in findings[before:]
        if each.check.startswith("file.private") or _of_value(each) not in told
    ]


def _of_value(finding: Finding) -> tuple[str, str, int, int]:
    place = finding.place
    return finding.check, place.file, place.line, place.column
