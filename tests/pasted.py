"""Remedies that give a line: the line, and the file with it pasted where the finding stands."""

from __future__ import annotations

import re

import yaml

# "write side: port", "write: fitted: 2026-05", never "write it in words: ...".
_LINE = re.compile(
    r"(?:\bwrite(?:, for example| for example)?|\bfor example|\bset|\() ?(?: it)?(?: under '[a-z-]+':)? ?([a-z][a-z-]*): (\{.*?\}|\[.*?\]|\"[^\"]*\"|[^;,()]+?)(?=$|[;,.()]| \(| when | if | or | for (?:thousands|a decimal))"
)
_ONE_OF = re.compile(r"(?:\bwrite |\()([a-z][a-z-]*): and one of:? ([^;()]+)")
_LIKE = re.compile(
    r"\bwrite (?:a point: |the unit with it, for example )?([^;?()]+?)(\?| (?=\()|$|, whichever| for )"
)


def lines_of(remedy: str) -> list[tuple[str, str]]:
    """(key, value) of each line that a remedy gives; the key is "" where it gives the value alone."""
    found = [
        (key, value.strip().removesuffix("?"))
        for key, value in _LINE.findall(remedy)
        if key not in ("units", "there") and not value.startswith("and ") and "..." not in value
    ]
    for key, words in _ONE_OF.findall(remedy):
        found += [(key, word.strip()) for word in words.split(",")]
    renamed = re.match(r"write ([a-z-]+):$", remedy)
    if renamed:
        return [(renamed[1], "")]
    likely = _LIKE.search(remedy)
    if not found and likely and (likely[2] == "?" or remedy.startswith(("write a point", "write the unit"))):
        return [("", likely[1].strip())]
    return found


def pasted(text: str, line: int, column: int, key: str, value: str) -> str | None:
    """The text with a key set in the block that a finding stands in; None where no such block stands there."""
    starts = [0]
    for row in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(row))
    at = starts[line - 1] + column - 1
    try:
        tree = yaml.compose(text)
    except yaml.YAMLError:
        return None
    for block, pairs in _blocks(tree):
        for name, node in pairs:
            if at in (name.start_mark.index, node.start_mark.index):
                return _set(text, block, pairs, (name, node), key, value)
        if block.start_mark.index == at:
            return _set(text, block, pairs, None, key, value)
    return None


def _set(text, block, pairs, here, key, value):
    if here is not None and key and not value:
        return text[: here[0].start_mark.index] + key + text[here[0].end_mark.index :]
    for name, node in pairs:
        if (here is not None and node is here[1] and key in ("", name.value)) or name.value == key:
            start = node.start_mark.index
            end = start + len(text[start : node.end_mark.index].rstrip())
            return f"{text[:start]}{value}{text[end:]}"
    if not key:
        return None
    first = pairs[0][0].start_mark
    gap = ", " if block.flow_style else "\n" + " " * first.column
    return f"{text[: first.index]}{key}: {value}{gap}{text[first.index :]}"


def _blocks(node):
    """Every block of a text, the inner ones first."""
    if isinstance(node, yaml.MappingNode):
        for _, each in node.value:
            yield from _blocks(each)
        yield node, node.value
    elif isinstance(node, yaml.SequenceNode):
        for each in node.value:
            yield from _blocks(each)
