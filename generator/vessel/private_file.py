"""private.yaml as it is written: what it keeps back, whether or not anything asks for it, and even where it is no YAML."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

from generator.machine.opening import NotPlain, Outside, content
from generator.reading.nodes import Mapping, Node, Scalar, Source
from generator.reading.tree import SIZE_LIMIT_BYTES, read
from generator.vessel.confines import confines_of

NAME = "private.yaml"
_COLON = re.compile(r":(?:\s|$)")


def lines_of(private: Mapping) -> dict[str, str]:
    """Its lines by their keys: whatever is written there, lists and blocks with all they hold."""
    found: dict[str, str] = {}
    waiting: list[tuple[str, Node]] = [
        (key, node) for key, node in private.entries.items() if key != "format"
    ]
    while waiting:
        key, node = waiting.pop()
        if isinstance(node, Mapping):
            waiting += [(f"{key}.{inner}", child) for inner, child in node.entries.items()]
        elif isinstance(node, Scalar):
            found[key] = node.text
        else:
            waiting += [(f"{key}[{number}]", child) for number, child in enumerate(node.items, 1)]
    return found


def _as_it_lies(path: Path) -> str:
    """Whatever text there is, as far as a file of ours may go: what is no text at all is read too."""
    try:
        data = content(path, confines_of(path.parent, "").bounds, SIZE_LIMIT_BYTES)
    except (OSError, Outside, NotPlain):  # then nothing of it is taken
        return ""
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    return data.decode("utf-16" if wide else "utf-8-sig", "replace")


def lines_in(folder: Path) -> dict[str, str]:
    """The same of the file in a folder, empty where there is none; line by line where it is faulty, whatever YAML makes of them."""
    text = _as_it_lies(folder / NAME)
    if not text.strip():
        return {}
    tree, faults = read(text, Source(NAME, private=True))
    found = lines_of(tree) if tree is not None else {}
    if faults or tree is None:
        for number, line in enumerate(text.splitlines(), 1):
            if not line.lstrip().startswith("#"):
                for at, part in enumerate(_COLON.split(line)):
                    found[f"line {number}.{at}"] = part.strip(" \"'[]{},")
    return found
