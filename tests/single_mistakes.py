"""Single mistakes: a demo boat's file with one slip of the hand in it, of a kind that people make, and what the survey tells of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from generator.reading.fields import Choice, Compound, Dated, Many, Named, Texts
from generator.reading.measures import Measure
from generator.shelves.spaces import hull_types
from generator.vessel.vessel import Vessel

# Keys under which a role, a space, a raft's name stands that is said elsewhere.
ROLES = {"who", "substitute", "carried-by", "helper", "carries", "worn-by", "took-part"}
SPACES = {"where", "berth", "bottles", "muster-place"}
SAID_BESIDE = ("format", "specimen", "deferred-defects")


@dataclass(frozen=True)
class Mistake:
    """A file with one mistake: of which kind, at which key path, on which line."""

    boat: str
    kind: str
    path: str
    line: int
    text: str = field(repr=False)


def mistakes(boat: str, text: str) -> Iterator[Mistake]:
    """Every single mistake of a boat's file, in the order of its lines, kind by kind at each key."""
    root = yaml.compose(text)
    for kind, path, node, start, end, words in _changes(text, root):
        yield Mistake(boat, kind, path, node.start_mark.line + 1, f"{text[:start]}{words}{text[end:]}")


def misspelt(word: str) -> str:
    """A word with two neighbouring letters in the wrong order, behind its first; one too many where they are alike."""
    at = next((number for number in range(1, len(word) - 1) if word[number] != word[number + 1]), None)
    if at is None:
        return word + word[-1:]
    return word[:at] + word[at + 1] + word[at] + word[at + 2 :]


def _changes(text, root):
    for key, value, one, path in _pairs(root, Vessel, ""):
        start, end = value.start_mark.index, value.end_mark.index
        end = start + len(text[start:end].rstrip())
        at = key.start_mark.index, key.end_mark.index
        if path.split(".")[0] in SAID_BESIDE:
            continue
        yield "key misspelt", path, key, *at, misspelt(key.value)
        if text[at[1]] == ":":
            yield "colon left out", path, key, at[1], at[1] + 1, ""
        if isinstance(value, yaml.ScalarNode):
            yield from _of_scalar(text, key, value, one, path, start, end)
        elif isinstance(value, yaml.MappingNode):
            yield "list for keys", path, key, start, end, "[one, another]"
            yield "value for keys", path, key, start, end, "something"
        elif isinstance(one, Compound):
            yield "value for a list", path, key, start, end, "something"
            yield "keys for a list", path, key, start, end, "{one: another}"
        yield "left blank", path, key, start, end, ""
        if "." not in path:
            yield "block left out", path, key, at[0], value.end_mark.index, ""


# By the last key, or the path: what a misspelt word there is called.
NAMED = {
    "role": "role misspelt",
    "side": "side misspelt",
    **dict.fromkeys(ROLES, "reference to a role misspelt"),
    **dict.fromkeys(SPACES, "space misspelt"),
    "vessel.type": "type misspelt",
    "name": "raft name misspelt",
}


def _of_scalar(text, key, value, one, path, start, end):
    word, name = value.value, path.rpartition(".")[2]
    of = one.of if isinstance(one, Texts) else one
    if word in ("unknown", "private"):
        return
    kind = NAMED.get(path) or NAMED.get(name if name != "name" or path.startswith("rafts") else "")
    if path in ("based-on", "base"):
        yield f"{path} misspelt", path, key, start, end, misspelt(word[:-5]) + ".yaml"
        yield f"{path} unknown", path, key, start, end, "unknown"
    elif kind or isinstance(of, Choice):
        yield kind or "word misspelt", path, key, start, end, misspelt(word)
    elif isinstance(of, Measure) and re.fullmatch(r"[\d.,]+ ?\D+", word):
        yield "unit left out", path, key, start, end, re.match(r"[\d.,]+", word)[0]
        yield "decimal letter", path, key, start, end, re.sub(r"\d(?=\D|$)", "o", word, count=1)
    elif isinstance(of, Dated):
        yield "date both ways", path, key, start, end, "05/04/2028"
    for other in hull_types() if path == "vessel.type" else ():
        if other != word:
            yield "type changed", path, key, start, end, other
    if text[start] == '"':
        yield "quote left open", path, key, end - 1, end, ""


def _pairs(node, block, path):
    """Each key of a vessel's file with its value, its field and its path."""
    for key, value in node.value:
        one = block.fields.get(key.value)
        if one is None:
            continue
        here = f"{path}.{key.value}".lstrip(".")
        yield key, value, one, here
        if isinstance(one, Named):
            yield from _named(value, one, here)
        elif isinstance(one, Compound):
            for number, each in enumerate(value.value if isinstance(value, yaml.SequenceNode) else [value]):
                if isinstance(each, yaml.MappingNode):
                    yield from _pairs(
                        each, one.blocks, f"{here}[{number}]" if isinstance(one, Many) else here
                    )


def _named(node, one, path):
    if not isinstance(node, yaml.MappingNode):
        return
    for key, value in node.value:
        here = f"{path}.{key.value}"
        yield key, value, one.inner, here
        if isinstance(one.inner, Named):
            yield from _named(value, one.inner, here)
        elif isinstance(value, yaml.MappingNode) and not hasattr(one.inner, "kind"):
            yield from _pairs(value, one.inner, here)
