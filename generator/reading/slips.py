"""Slips of the hand in keys: told once, and read as meant, so that nothing that follows from one is told as another."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from collections.abc import Mapping as Fields
from typing import TYPE_CHECKING, Any, NamedTuple

from generator.reading.nearest import folded, shortened
from generator.reading.nodes import Listing, Mapping, Node, Scalar, breaks_off
from generator.reading.remedies import key_for, some

if TYPE_CHECKING:
    from generator.reading.fields import Field

MANY = 300
LONG = 8
"""Letters from which on a word may be two slips away from what was meant."""


class Slip(NamedTuple):
    """A key as written, the key that it can only mean, and whether the colon behind it was left out."""

    said: str
    meant: str
    no_colon: bool = False


def slip_of(said: str, words: Iterable[str]) -> str:
    """The one of the words that `said` is a slip away from: a letter too many, too few, another or two changed over; "" for none or several."""
    text = folded(said)
    if not 2 < len(text) < 60:
        return ""
    near: dict[int, list[str]] = {}
    for word in words:
        most = 2 if min(len(text), len(word)) >= LONG else 1
        if abs(len(word) - len(text)) <= most and (steps := _steps(text, folded(word), most)) <= most:
            near.setdefault(steps, []).append(word)
    nearest = near[min(near)] if near else []
    return nearest[0] if len(nearest) == 1 else ""


def _steps(one: str, other: str, most: int) -> int:
    """How many slips lie between two words (optimal string alignment); more than `most` where they are further apart."""
    before: list[int] = []
    last = list(range(len(other) + 1))
    for row, letter in enumerate(one, 1):
        now = [row]
        for column, beside in enumerate(other, 1):
            steps = min(last[column] + 1, now[-1] + 1, last[column - 1] + (letter != beside))
            if row > 1 and column > 1 and letter == other[column - 2] and one[row - 2] == beside:
                steps = min(steps, before[column - 2] + 1)
            now.append(steps)
        if min(now) > most:
            return most + 1
        before, last = last, now
    return last[-1]


def put_right(node: Mapping, keys: Collection[str]) -> Iterator[Slip]:
    """Renames what can only mean one of the keys that is not there yet, in its place among the others; gives each slip."""
    if len(node.entries) > MANY:
        return  # a file with so many keys in a block is none of ours
    free = [key for key in keys if key not in node.entries]
    renamed: dict[str, Slip] = {}
    words: dict[
        str, list[str]
    ] = {}  # by such a key: what follows the commas of its text, which no colon made a value
    open_quote = ""
    for said in node.entries:
        if open_quote and breaks_off(node, said):
            words[open_quote].append(said)
            open_quote = "" if said.rstrip().endswith(('"', "'")) else open_quote
        elif said not in keys:
            slip = _left_out_colon(node, said, free) or Slip(said, slip_of(said, free))
            if slip.meant:
                renamed[said], words[said] = slip, []
                free.remove(slip.meant)
                open_quote = said if slip.no_colon and _opens_a_quote(said[len(slip.meant) :]) else ""
    if not renamed:
        return
    entries, places = node.entries, node.keys
    node.entries, node.keys = {}, {}
    taken = {word for each in words.values() for word in each}
    for said, value in entries.items():
        found = renamed.get(said)
        meant = found.meant if found else said
        if said not in taken:
            node.entries[meant] = (
                _behind(places[said], meant, words[said]) if found and found.no_colon else value
            )
            node.keys[meant] = places[said]
    yield from renamed.values()


def _opens_a_quote(text: str) -> bool:
    text = text.strip()
    return text[:1] in ('"', "'") and not text.endswith(text[0])


def said_of(slip: Slip, where: str, quoted: bool) -> tuple[str, str]:
    """What is told of a slip in a block, and what to write; `quoted` is whether the value behind the key may be repeated."""
    if slip.no_colon:
        value = shortened(slip.said[len(slip.meant) :]) if quoted else "and its value"
        return f"no colon stands behind '{slip.meant}'", f"write {slip.meant}: {value}"
    return (
        f"'{shortened(slip.said)}' is no key of {where}; it is read as '{slip.meant}'",
        f"write {slip.meant}:",
    )


def unknown(
    node: Mapping, key: str, where: str, fields: Fields[str, Field[Any]], listed_at: str, *, suggested: bool
) -> tuple[str, str]:
    """What is told of a key that there is not, and what to write; `suggested` is whether one is still looked for."""
    if breaks_off(node, key):
        return (
            f"'{shortened(key)}' is no key of {where}, and no colon follows it",
            f"text that holds a comma goes in quotes; a key is followed by a colon: {some(fields)}",
        )
    remedy = key_for(key, fields, listed_at) if suggested else "see the first findings for what it takes"
    return f"'{shortened(key)}' is no key of {where}", remedy


def _left_out_colon(node: Mapping, said: str, free: Collection[str]) -> Slip | None:
    """A key of { } with its value behind it and no colon between them."""
    meant, blank, rest = said.partition(" ")
    if not (blank and rest.strip() and meant in free and breaks_off(node, said)):
        return None
    return Slip(said, meant, no_colon=True)


def _behind(key: Scalar, meant: str, more: Collection[str]) -> Scalar:
    """The value that stands behind a key without a colon, with what follows its commas."""
    text = ", ".join((key.text[len(meant) :].strip(), *more)).strip("\"'")
    return Scalar(text, key.line, key.column + len(meant) + 1, True, key.source)


def as_keys(node: Node) -> Mapping | None:
    """What stands as a list where keys belong, as the keys that it can only mean: of entries none of which has a key twice."""
    if not isinstance(node, Listing) or not node.items:
        return None
    whole = Mapping(node.line, node.column, node.source)
    for item in node.items:
        if not isinstance(item, Mapping) or not item.entries.keys().isdisjoint(whole.entries):
            return None
        whole.entries.update(item.entries)
        whole.keys.update(item.keys)
    return whole


def as_list(node: Node, keys: Collection[str]) -> Listing | None:
    """What stands as the keys of one thing where a list of things belongs, as a list of that one."""
    if not isinstance(node, Mapping) or not node.entries or not node.entries.keys() <= set(keys):
        return None
    alone = Listing(node.line, node.column, node.source)
    alone.items.append(node)
    return alone
