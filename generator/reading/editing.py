"""Setting a key in the text of a file, its comments and layout kept: a value replaced, a line, an entry or a block put in."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass

from generator.reading.layout import Laid
from generator.reading.tree import laid_out

OPEN = "unknown"
_OPEN_WORDS = (OPEN, "private")
_INDENT = 2
_TYPED_BY_EDITORS = {"yes", "no", "on", "off", "y", "n", "true", "false", "null"}
_PLAIN = re.compile(r"[^\W_](?:[^:#\[\]{},\"'&*!|>%@`\\]*[^\s:#\[\]{},\"'&*!|>%@`\\])?")


@dataclass(frozen=True)
class Key:
    """A step down by a key. What is new below it gets the keys it `needs` as unknown.

    `order` are the keys that may stand beside it, in their order. Words that stand where keys shall be go under `shorthand`.
    """

    name: str
    needs: tuple[str, ...] = ()
    order: tuple[str, ...] = ()
    shorthand: str = ""


@dataclass(frozen=True)
class Entry:
    """A step down into a list: the entry whose key `called` says `name`, or where `called` is empty the one of that number.

    `written` is the name as it goes into the file; of several that are called alike, `which` is meant. Where one entry may stand
    for several things, `number` is the key of how many.
    """

    called: str
    name: str
    needs: tuple[str, ...] = ()
    shorthand: str = ""
    written: str = ""
    number: str = ""
    which: int = 1


Step = Key | Entry
Piece = str | dict[str, "Piece"] | list["Piece"]
"""What is put in: a value as the file writes it, keys, or a list."""


def scalar(text: str) -> str:
    """Text as YAML: plain where that is safe, else in quotes."""
    safe = _PLAIN.fullmatch(text) and text.lower() not in _TYPED_BY_EDITORS
    return text if safe else json.dumps(text, ensure_ascii=False)


def set_value(text: str, path: Sequence[Step], value: str) -> str:
    """The text with `value`, written as the file writes it, at the end of the path; all else stays letter by letter.

    An empty value asks only that the path be there. Raises ValueError where keys in lines of their own stand for one value.
    """
    text = text if text.endswith("\n") else f"{text}\n"
    node = above = laid_out(text)
    for number, step in enumerate(path):
        child = _child(node, step)
        together = _together(node, step) if child is None else None
        if together is not None and isinstance(step, Entry):
            return set_value(_apart(text, node, together, step), path, value)
        if child is None:
            return _put_in(text, node, above, path[number:], value)
        node, above = child, node
    if not value:
        return text
    if not node.flow and (node.keys is not None or node.items is not None):
        raise ValueError("keys or a list stand where one value is to be set")
    return text[: node.start] + value + text[node.end :]


def _child(node: Laid, step: Step) -> Laid | None:
    if isinstance(step, Key):
        return (node.keys or {}).get(step.name)
    items = node.items or []
    if not step.called:
        return items[int(step.name) - 1] if int(step.name) <= len(items) else None
    left = step.which
    for each in items:
        named = each.keys.get(step.called) if each.keys is not None else each
        left -= named is not None and named.text == step.name
        if not left:
            return each
    return None


def _together(node: Laid, step: Step) -> Laid | None:
    """The entry that stands for several things, of which one has the name of a step."""
    if not isinstance(step, Entry) or not step.number or step.which > 1:
        return None
    for each in node.items or []:
        names = (each.keys or {}).get(step.called)
        if names is not None and step.name in (names.keys or [name.text for name in names.items or []]):
            return each
    return None


def _apart(text: str, listing: Laid, entry: Laid, step: Entry) -> str:
    """The text with one of several things in an entry of its own, behind that of the others."""
    names = (entry.keys or {})[step.called]
    amounts = {name: text[laid.start : laid.end] for name, laid in (names.keys or {}).items()}
    others = [name for name in amounts or [laid.text for laid in names.items or []] if name != step.name]
    start, end = (names.start, names.end) if names.flow else (len(text[: names.start].rstrip()), names.last)
    blank = "" if names.flow else " "

    def said(names_now: str) -> str:
        return text[entry.start : start] + blank + names_now + text[end : entry.last]

    own = step.written
    if amounts:
        between = ", " if entry.flow else f"\n{' ' * entry.column}"
        own += f"{between}{step.number}: {amounts[step.name]}"
    if not others:
        return text[: entry.start] + said(own) + text[entry.last :]
    rest = _flow(
        {scalar(name): amounts[name] for name in others} if amounts else [scalar(name) for name in others]
    )
    kept = text[: entry.start] + said(rest)
    if listing.flow:
        return f"{kept}, {said(own)}{text[entry.last :]}"
    line_end = text.index("\n", entry.last)
    return f"{kept}{text[entry.last : line_end]}\n{' ' * listing.column}- {said(own)}{text[line_end:]}"


def _put_in(text: str, node: Laid, above: Laid, rest: Sequence[Step], value: str) -> str:
    """The text with what the rest of a path names put in below a node that has it not; `above` holds the node."""
    piece = _built(rest, value)
    if node.keys is None and node.items is None:
        return _instead(text, node, above, rest[0], piece)
    if node.flow:
        comma = ", " if node.keys or node.items else ""
        return text[: node.end - 1] + comma + _flow(piece)[1:-1] + text[node.end - 1 :]
    block = _block(piece, node.column)
    if isinstance(rest[0], Key) and rest[0].order:
        return _at_the_top(text, node, rest[0], block)
    return _after_line(text, node.last, block)


def _instead(text: str, node: Laid, above: Laid, step: Step, piece: Piece) -> str:
    """The text with a piece in place of the words of a value, which are kept where they have a key."""
    if step.shorthand and isinstance(piece, dict) and node.text.strip().lower() not in _OPEN_WORDS:
        piece = piece | {step.shorthand: text[node.start : node.end]}
    if above.flow or above.items is not None:
        return text[: node.start] + _flow(piece) + text[node.end :]
    head = text[: node.start].rstrip(" ")
    return _after_line(head + text[node.end :], len(head), _block(piece, above.column + _INDENT))


def _after_line(text: str, at: int, block: str) -> str:
    """The text with lines put in behind the line of a character."""
    end = text.index("\n", at) + 1
    return text[:end] + block + text[end:]


def _at_the_top(text: str, root: Laid, step: Key, block: str) -> str:
    """The text with a block of its own put in: behind an example of it in a comment, else where its key has its place."""
    example = re.search(rf"(?m)^# {re.escape(step.name)}:.*\n(?:#  +.*\n)*", text)
    if example:
        return text[: example.end()] + block + text[example.end() :]
    before = step.order[: step.order.index(step.name)]
    above = [laid.last for key, laid in (root.keys or {}).items() if key in before]
    if not above:
        return text + block
    end = text.index("\n", max(above)) + 1
    own = re.compile(r"(?: +#.*\n)*").match(text, end)  # comments that are indented belong to the block above
    end = own.end() if own else end
    return f"{text[:end]}\n{block}{text[end:]}"


def _built(path: Sequence[Step], value: str) -> Piece:
    """What the steps of a path lead through, made anew: keys that must be there say unknown."""
    if not path:
        return value
    step, rest = path[0], path[1:]
    needed: dict[str, Piece] = dict.fromkeys(step.needs, OPEN) if rest or isinstance(step, Entry) else {}
    inner = _built(rest, value)
    if isinstance(step, Entry):
        named: dict[str, Piece] = {step.called: step.written} if step.called else {}
        return [named | needed | _keys(inner) | named]
    return {step.name: needed | _keys(inner) if needed and isinstance(inner, dict) else inner}


def _keys(piece: Piece) -> dict[str, Piece]:
    return piece if isinstance(piece, dict) else {}


def _flow(piece: Piece) -> str:
    """A piece in one line, in brackets."""
    if isinstance(piece, dict):
        return "{" + ", ".join(f"{key}: {_flow(value)}" for key, value in piece.items()) + "}"
    if isinstance(piece, list):
        return "[" + ", ".join(map(_flow, piece)) + "]"
    return piece


def _block(piece: Piece, indent: int) -> str:
    """A piece in lines of its own; an entry of a list in one line."""
    lead = " " * indent
    if isinstance(piece, list):
        return "".join(f"{lead}- {_flow(each)}\n" for each in piece)
    assert isinstance(piece, dict), "a value stands behind its key"
    return "".join(
        f"{lead}{key}: {value}\n"
        if isinstance(value, str)
        else f"{lead}{key}:\n{_block(value, indent + _INDENT)}"
        for key, value in piece.items()
    )
