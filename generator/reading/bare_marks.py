"""Bare question marks as values, at which a parser gives up: each is read as the text it is, which is no value of any field."""

from __future__ import annotations

import re

from generator.reading.nodes import Listing, Mapping, Scalar

MOST = 500
"""A file with more of them is none of ours."""
_MARK = re.compile(r"(?m)(?:^[ ]*-|[\[{,:-])[ ]+(\?)(?=[ ]*(?:$|[,\]}]|[ ]#))|\[(\?)(?=[ ]*[,\]])")
_PUT_IN = "~"

At = tuple[int, int]
"""Line and column, from 0."""


def put_out(text: str) -> tuple[str, frozenset[At]]:
    """The text with a sign that reads in the place of each mark, and where they stand; none where there are too many."""
    found: list[At] = []
    line, start = 0, 0
    letters = list(text)
    for match in _MARK.finditer(text):
        at = match.start(1) if match[1] else match.start(2)
        line += text.count("\n", start, at)
        start = at
        found.append((line, at - text.rfind("\n", 0, at) - 1))
        letters[at] = _PUT_IN
        if len(found) > MOST:
            return text, frozenset()
    return "".join(letters), frozenset(found)


def put_back(tree: Mapping, marks: frozenset[At]) -> bool:
    """Gives each value that was a mark its text again; false where a mark is no value."""
    left = set(marks)
    waiting: list[Mapping | Listing] = [tree]
    while waiting:
        each = waiting.pop()
        inside = list(each.entries.values()) if isinstance(each, Mapping) else each.items
        for node in inside:
            if not isinstance(node, Scalar):
                waiting.append(node)
            elif node.plain and node.text == _PUT_IN and (node.line, node.column) in left:
                node.text = "?"
                left.discard((node.line, node.column))
    return not left
