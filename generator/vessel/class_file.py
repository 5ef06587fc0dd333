"""The class file: what sister ships share, filled in where the vessel file says nothing of it."""

from __future__ import annotations

from pathlib import Path

from generator.reading.findings import Finding, Place, Weight
from generator.reading.nodes import Listing, Mapping, Node, Scalar, place_of
from generator.vessel.confines import Confines
from generator.vessel.named_file import Shared, shared_file
from generator.vessel.vessel import OWN_KEYS, Vessel

_CLASS_FILE = Shared(
    "based-on",
    "class file",
    "../classes/name.yaml",
    "this file",
    "file.class-file",
    ("private.yaml", "voyage.yaml"),
    "it tells of one boat's own people",
    Vessel,
)


def fill_from_class(
    tree: Mapping, folder: Path, within: Confines, special: frozenset[str]
) -> tuple[Path | None, list[Finding], bool]:
    """Adds what the class file says and the vessel file does not; its nodes keep their own file and line.

    `special` are words that are no path. Gives the class file, its links resolved, where it was read, and whether one is named and lost.
    """
    base, path, findings = shared_file(_CLASS_FILE, tree, folder, within, special)
    named = tree.entries.get(_CLASS_FILE.key)
    if isinstance(named, Scalar) and named.text.strip().lower() == "unknown":
        message = "nobody knows which class file she is based on, so what it would say is not known"
        remedy = f"{_CLASS_FILE.seen_from_here}, or remove the line and write here what sister ships share"
        place = place_of(named, _CLASS_FILE.key)
        findings.append(Finding("file.class-file", Weight.DEFECT, message, place, remedy))
    if base is not None:
        findings += _own_keys(base)
        findings += _merge(tree, base, "")
    return path, findings, base is None and _CLASS_FILE.key in tree.entries


def _own_keys(base: Mapping) -> list[Finding]:
    """What no class file may say; its format and whatever one vessel alone can say are taken out."""
    base.entries.pop("format", None)
    findings = []
    if "based-on" in base.entries:
        message = "a class file cannot be based on another one"
        place = place_of(base.keys["based-on"], "based-on")
        findings.append(Finding("file.class-file", Weight.DEFECT, message, place, "remove the line"))
    for key in OWN_KEYS:
        if base.entries.pop(key, None) is not None:
            message = f"'{key}' can be said of one vessel only, not of a class"
            remedy = "move it into the file of the vessel it is true of"
            findings.append(
                Finding("file.class-file", Weight.DEFECT, message, place_of(base.keys[key], key), remedy)
            )
    return findings


def _merge(tree: Mapping, base: Mapping, path: str) -> list[Finding]:
    """Fills in what the file does not say itself; gives what falls away where a list of hers stands in the place of the class's."""
    findings = []
    for key, node in base.entries.items():
        here = f"{path}.{key}".lstrip(".")
        if key not in tree.entries:
            tree.entries[key] = node
            tree.keys[key] = base.keys[key]
        elif isinstance(own := tree.entries[key], Mapping) and isinstance(node, Mapping):
            findings += _merge(own, node, here)
        elif isinstance(own, Listing) and isinstance(node, Listing) and not path:
            findings += _fallen(own, node, place_of(tree.keys[key], here), base.keys[key])
    return findings


def _fallen(own: Listing, of_class: Listing, place: Place, key: Node) -> list[Finding]:
    """What of a class's list falls away because the boat's own list stands in its place; things are told by their names."""
    kept, gone = [_name(each) for each in own.items], [_name(each) for each in of_class.items]
    for name in kept:
        if name in gone:
            gone.remove(name)
    if not all(gone) or not gone or len(kept) * 2 >= len(of_class.items):
        return []  # half as many lines as the class's, or more, are a list of her own
    alone = len(kept) == 1 and len(of_class.items) > 1 and place.key in _ENDS_OR_SAVES
    return [
        Finding(
            "file.class-list",
            Weight.DEFECT if alone else Weight.RECOMMENDATION,
            f"'{place.key}' stands here in the place of the class's whole list, so these fall away: {', '.join(gone)}",
            place,
            f"write under '{place.key}' whatever of the class's list she has too; where she has none of it, defer this with the reason",
            item=place.key,
            also=(place_of(key, place.key),),
            explains=frozenset((place,)) if alone else frozenset(),
        )
    ]


def _name(node: Node) -> str:
    """What tells a thing of a list from the others, with its side where one is told."""
    if isinstance(node, Scalar):
        return node.text
    if not isinstance(node, Mapping):
        return ""
    entries = [node.entries.get(key) for key in ("name", "role", "who", "size", "what", "where")]
    name = next((each.text for each in entries if isinstance(each, Scalar)), "")
    more = [node.entries.get(key) for key in ("serves", "side")]
    said = next((each.text for each in more if isinstance(each, Scalar)), "")
    return f"{name} ({said})" if name and said else name


_ENDS_OR_SAVES = ("stops", "escape", "pumps", "through-hulls", "gear", "lifejackets", "alarms")
"""The lists that no boat has one entry of where her sisters have several."""
