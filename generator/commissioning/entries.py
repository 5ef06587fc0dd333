"""An answer for a whole block or list, as a file has it in braces and brackets or as people say it, taken apart into its keys."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from generator.commissioning.answers import listed
from generator.commissioning.crew import PEOPLE
from generator.commissioning.paths import holds_keys, list_at
from generator.commissioning.refusal import Refusal
from generator.reading.editing import scalar
from generator.reading.fields import Choice
from generator.reading.nearest import folded
from generator.reading.nodes import Listing, Mapping, Node, Scalar, Source
from generator.reading.tree import read
from generator.vessel.watches import Watch

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.fields import Many

_COUNTED = re.compile(
    r"(?P<number>[0-9]{1,3})\s*[x×*]?\s+(?P<what>[^\W\d_].*)|(?P<said>[^\W\d_].*?)\s*[x×*:]\s*(?P<times>[0-9]{1,3})"
)
_TIME = r"[0-9]{1,2}(?:[:.]?[0-5][0-9])?\s*h?"
_SPAN = re.compile(rf"(?i)(?:from\s+)?(?P<start>{_TIME})\s*(?:-|–|—|\bto\b|\buntil\b)\s*(?P<end>{_TIME})")


def apart(path: str, text: str) -> Iterator[tuple[str, str]]:
    """An answer for a block or a list, as a file has it or as people say it, as answers for its keys; any other as it is.

    Raises Refusal, with the form that is right, where some of a list can be read and the rest cannot.
    """
    said = text.strip()
    field = list_at(path)
    node = _read(said) if said[:1] in ("{", "[") else None
    if field is None:
        if isinstance(node, Mapping) and holds_keys(path):
            for key, each in node.entries.items():
                yield from apart(f"{path}.{key}", _typed(each))
            return
    elif found := _of_a_list(path.strip(), field, said, node):
        for key, answer in found:
            yield from apart(key, answer)
        return
    yield path, text


def form_of(path: str, field: Many[Any]) -> str:
    """How a list is answered whole, by way of example."""
    block = field.block
    if block is Watch:
        return f"{path}='skipper 20-24, mate 00-04', or {path}='[{{from: \"20:00\", to: \"24:00\", who: skipper}}]'"
    if block.called and block.several and isinstance(block.fields[block.called], Choice):
        sizes = block.fields[block.called].choices or ()
        return f"{path}='{{{', '.join(f'{each}: {6 - 4 * at}' for at, each in enumerate(sizes[:2]))}}}'"
    key = next(key for key in block.fields if key != block.called)
    return f"{path}='[{{{block.called or block.needed[0].key}: ..., {key}: ...}}]'"


def _read(said: str) -> Mapping | Listing | None:
    """What stands in braces or brackets; None where it is not written as a file has it."""
    tree, findings = read(f"answer: {said}\n", Source("answer"))
    node = tree.entries.get("answer") if isinstance(tree, Mapping) else None
    return node if isinstance(node, (Mapping, Listing)) and not findings else None


def _of_a_list(
    path: str, field: Many[Any], said: str, node: Mapping | Listing | None
) -> list[tuple[str, str]]:
    """The answers that one answer for a whole list holds; none where it names entries alone."""
    block = field.block
    if block is Watch and node is None:
        return _watches(path, said)
    if isinstance(node, Mapping):
        nodes: list[Node] = [node]
    elif isinstance(node, Listing):
        nodes = list(node.items)
    else:
        return _counted(path, field, said)
    if not nodes or not all(isinstance(each, Mapping) and each.entries for each in nodes):
        return []
    found: list[tuple[str, str]] = []
    names: list[str] = []
    for each in nodes:
        assert isinstance(each, Mapping), "looked at above"
        if not any(folded(key) in block.fields for key in each.entries):
            found += _by_name(path, field, each)
            continue
        for name, told in _entries(path, field, each, len(names)):
            names.append(name)
            which = names.count(name)
            entry = f"{path}[{name}]" + (f"[{which}]" if which > 1 else "")
            found += [(f"{entry}.{key}", answer) for key, answer in told]
    return found


def _entries(
    path: str, field: Many[Any], node: Mapping, before: int
) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """The entries that one pair of braces tells of, each with its name, or its number where they have none, and its keys."""
    block = field.block
    told = {folded(key): each for key, each in node.entries.items()}
    if not block.called:
        yield str(before + 1), [(key, _typed(each)) for key, each in told.items()]
        return
    called = told.pop(block.called, None)
    if called is None:
        raise Refusal(
            f"{path}: this entry does not say its '{block.called}'; write it like {form_of(path, field)}"
        )
    rest = [(key, _typed(each)) for key, each in told.items()]
    if isinstance(called, Mapping) and block.several:
        for name, number in called.entries.items():
            yield name, [(block.several, _typed(number)), *rest]
        return
    name = " ".join(_typed(called).split())
    yield name, [(block.called, name), *rest]


def _by_name(path: str, field: Many[Any], node: Mapping) -> Iterator[tuple[str, str]]:
    """Names with a number, or with keys, behind each: {adult: 6, child: 2}; of a watch, who and from when to when."""
    block = field.block
    if block is Watch:
        yield from _watches(path, ", ".join(f"{key} {_typed(each)}" for key, each in node.entries.items()))
        return
    for name, each in node.entries.items():
        entry = f"{path}[{_one_of(field, name)}]"
        if isinstance(each, Mapping):
            yield from ((f"{entry}.{key}", _typed(value)) for key, value in each.entries.items())
        elif path == PEOPLE:
            yield path, ", ".join(f"{_typed(number)} {role}" for role, number in node.entries.items())
            return
        elif block.several and isinstance(each, Scalar):
            yield f"{entry}.{block.several}", each.text
        else:
            raise Refusal(
                f"{path}: what is told of '{name}' has no key; write it like {form_of(path, field)}"
            )


def _counted(path: str, field: Many[Any], said: str) -> list[tuple[str, str]]:
    """Sizes with a number before or behind each: 6 adult, 2 child; none where one of them is without."""
    block = field.block
    if not (block.called and block.several and isinstance(block.fields[block.called], Choice)):
        return []
    found = []
    for part in (each for one in listed(said) for each in re.split(r"\s+and\s+|[;+&]", one) if each.strip()):
        match = _COUNTED.fullmatch(part.strip())
        if match is None:
            return []
        name = _one_of(field, match["what"] or match["said"])
        found.append((f"{path}[{name}].{block.several}", match["number"] or match["times"]))
    return found


def _one_of(field: Many[Any], name: str) -> str:
    """The name of an entry, in the singular where its field knows that alone: adults."""
    choices = field.block.fields[field.block.called].choices if field.block.called else None
    said = folded(name)
    one = {"children": "child"}.get(said, said.removesuffix("s"))
    return one if choices and said not in choices and one in choices else name.strip()


def _watches(path: str, said: str) -> list[tuple[str, str]]:
    """Watches as people say them: skipper 20-24, mate 00:00-04:00; 20-24 skipper and mate. Raises Refusal where one says no times."""
    if said.lower() in ("", "none", "unknown"):
        return []
    first = bool(_SPAN.match(said))
    told: list[tuple[list[str], str, str]] = []
    who: list[str] = []
    for part in (each.strip() for each in re.split(r"[,;]", said)):
        match = _SPAN.search(part)
        name = part if match is None else f"{part[: match.start()]} {part[match.end() :]}".strip(" :()")
        names = [each.strip() for each in re.split(r"\s+(?:and|&|\+)\s+", name) if each.strip()]
        if match is None and first and told:
            told[-1][0].extend(names)
            continue
        who += names
        if match is not None:
            told.append((who, _clock(match["start"]), _clock(match["end"])))
            who = []
    wrong = who or not told or not all(each[0] for each in told)
    if wrong:
        raise Refusal(
            f"{path}: a watch says who is on deck, from when and until when; write {path}='skipper 20-24, mate 00-04', "
            f"or key by key: {path}[1].from=20:00, {path}[1].to=24:00, {path}[1].who=skipper"
        )
    found = []
    for number, (roles, start, end) in enumerate(told, 1):
        found += [(f"{path}[{number}].{key}", value) for key, value in (("from", start), ("to", end))]
        found.append((f"{path}[{number}].who", ", ".join(roles)))
    return found


def _clock(text: str) -> str:
    """A time of day as a file has it: 20, 20h, 2000, 20.30."""
    digits = re.sub(r"[^0-9]", "", text)
    hours, minutes = (digits[:-2], digits[-2:]) if len(digits) > 2 else (digits, "00")
    return f"{int(hours):02}:{minutes}"


def _typed(node: Node) -> str:
    """A value as it is typed for an answer: braces and brackets around what stands in them."""
    if isinstance(node, Mapping):
        return f"{{{', '.join(f'{key}: {_quoted(each)}' for key, each in node.entries.items())}}}"
    if isinstance(node, Listing):
        return f"[{', '.join(map(_typed, node.items))}]"
    assert isinstance(node, Scalar), "a node is keys, a list or a value"
    return node.text


def _quoted(node: Node) -> str:
    return scalar(node.text) if isinstance(node, Scalar) else _typed(node)
