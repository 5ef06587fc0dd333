"""Boats for attacks on what is private: a value under any key that guests may not read, and any words of a boat's own to hide it in."""

import disguises
import yaml
from boat_file import ROOT

from generator.reading.block import Block
from generator.reading.fields import Compound, Many, Misread, Named, Single, Text
from generator.reading.measures import Count
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

BOAT = "saltmeadow"
VOYAGE = {
    "format": "1",
    "from": "Marram Quay",
    "to": "Port-Gravelin",
    "departs": "2026-06-01",
    "until": "2026-06-10",
    "briefed": "2026-06-01",
    "persons": [
        {"name": "Ada Vanterpool", "role": "skipper"},
        {"name": "Bo Lindqvist", "role": "mate"},
        {"name": "Cy Ostrander", "role": "deckhand"},
        {"name": "Di Ferncastle", "role": "cook"},
        {"name": "Ed Quillmore", "role": "guest 1"},
        {"name": "Fay Wetherden", "role": "guest 2"},
    ],
}
# Keys whose words name something that stands elsewhere: other words there would be no boat's own.
REFERENCES = {
    "role", "helper", "who", "substitute", "where", "check", "item", "beside", "emergency", "station", "carries", "flag",
    "carried-by", "serves", "fast-to", "photo", "muster-place", "place", "bottles", "overhead", "joins", "rig", "rating", "made-by",
}  # fmt: skip
CANDIDATES = (*disguises.VALUES, "970345681", "41827", "7")


def kinds():
    """Every kind of block of a boat's files with the keys that lead to it: ("rafts", "service")."""
    waiting, found = [((), Vessel), ((), Voyage)], []
    while waiting:
        path, kind = waiting.pop()
        found.append((path, kind))
        for key, field in kind.fields.items():
            inner = field.blocks if isinstance(field, Compound) else None
            if isinstance(inner, type) and issubclass(inner, Block) and not isinstance(field, Named):
                waiting.append(((*path, key), inner))
    return found


def kept_keys():
    """Every key that not everybody reads, as (file, path, field), whatever keys there will be."""
    for path, kind in sorted(kinds(), key=lambda each: each[0]):
        root = "voyage" if kind is Voyage or (path and path[0] == "persons") else "vessel"
        for field in kind.fields.values():
            if field.reader != "guest":
                yield root, path, field


def values_for(field):
    """Values that a key takes, and that are long enough to tell: a number of a few digits stands everywhere."""
    taken = []
    for each in CANDIDATES:
        try:
            field.read(each)
        except Misread:
            continue
        taken.append(each)
    assert taken, f"write a candidate for {field.key}"
    return [] if isinstance(field, Count) else taken


def described():
    """The specimen as plain mappings, lists and texts, with a voyage."""
    text = (ROOT / f"vessels/{BOAT}/vessel.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.BaseLoader), {
        **VOYAGE,
        "persons": [dict(each) for each in VOYAGE["persons"]],
    }


def at(tree, path, kind=Vessel):
    """The first block under keys that lead to it, made where it is not there."""
    for key in path:
        field = kind.fields[key]
        tree = tree.setdefault(key, [{}])[0] if isinstance(field, Many) else tree.setdefault(key, {})
        kind = field.blocks
    return tree


def write(folder, vessel, voyage=None, private=None):
    """Lays a boat's files into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, tree in (("vessel", vessel), ("voyage", voyage), ("private", private)):
        if tree is not None:
            text = yaml.safe_dump(tree, allow_unicode=True, default_style='"', sort_keys=False, width=10_000)
            (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


def marked(tree, kind=Vessel, marks=None, path=""):
    """The tree with a mark behind all words of the boat's own that guests may read, and where each mark stands."""
    marks = {} if marks is None else marks
    for key, value in tree.items():
        field = kind.fields.get(key)
        if isinstance(field, Named) or field is None or key in ("specimen", "checked-aboard"):
            continue
        if isinstance(field, Compound):
            for each in value if isinstance(value, list) else [value]:
                if isinstance(each, dict):
                    marked(each, field.blocks, marks, f"{path}.{key}")
        elif (
            isinstance(field, Text)
            and field.reader == "guest"
            and key not in REFERENCES
            and isinstance(value, str)
        ):
            mark = f"zq{len(marks)}zq"
            marks[mark] = f"{path}.{key}".lstrip(".")
            tree[key] = f"{value} {mark}"
    return marks


def is_single(field):
    """Whether one value stands under a key."""
    return isinstance(field, Single)
