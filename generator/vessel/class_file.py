"""The class file: what sister ships share, filled in where the vessel file says nothing of it."""

from __future__ import annotations

from pathlib import Path

from generator.machine.opening import NOT_THERE, NotPlain, Outside, content, resolved
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import shortened
from generator.reading.nodes import Mapping, Refused, Scalar, Source, place_of
from generator.reading.tree import SIZE_LIMIT_BYTES, read_bytes
from generator.vessel.confines import Confines, joined, not_from_here
from generator.vessel.ours import is_ours, of_old, said_none, says_format, wrong_format
from generator.vessel.vessel import OWN_KEYS, Vessel

_SEEN_FROM_HERE = "write its path as seen from this file, for example ../classes/name.yaml"
_OF_ONE_BOAT = ("private.yaml", "voyage.yaml")


class _Refused(Exception):
    """The class file is not read: for what, of which check, and what to do."""

    def __init__(self, check: str, message: str, remedy: str = _SEEN_FROM_HERE):
        super().__init__(message)
        self.check, self.message, self.remedy = check, message, remedy


def fill_from_class(
    tree: Mapping, folder: Path, within: Confines, special: frozenset[str]
) -> tuple[Path | None, list[Finding]]:
    """Adds what the class file says and the vessel file does not; its nodes keep their own file and line.

    `special` are words that are no path. Gives the class file, its links resolved, where it was read.
    """
    named = tree.entries.get("based-on")
    if (
        named is None
        or isinstance(named, Refused)
        or (isinstance(named, Scalar) and named.text.strip() in special)
    ):
        return None, []
    place = place_of(named, "based-on")
    if not isinstance(named, Scalar):
        remedy = "write the path of the class file, seen from this file: ../classes/name.yaml"
        return None, [
            Finding("file.bad-value", Weight.DEFECT, "'based-on' names no class file", place, remedy)
        ]
    path, shown = folder / named.text, joined(within.shown, named.text)
    try:
        data = _bytes_of(named.text, path, within)
    except _Refused as refused:
        return None, [Finding(refused.check, Weight.DEFECT, refused.message, place, refused.remedy)]
    base, findings = read_bytes(data, Source(shown))
    said = says_format(base, data)
    if said is None and of_old(base, Vessel):
        findings.append(said_none(Place(shown), f"'{shortened(named.text)}'"))
    elif not is_ours(said):
        return None, [wrong_format(said, place, f"'{shortened(named.text)}'", readable=base is not None)]
    if base is not None:
        findings += _own_keys(base)
        _merge(tree, base)
    return resolved(path), findings


def _bytes_of(named: str, path: Path, within: Confines) -> bytes:
    """What the class file holds; it lies below the folder that the boat's lies in, and is nothing that one boat alone is told."""
    told = f"'{shortened(named)}'"
    if why := not_from_here(named):
        raise _Refused("file.outside", f"the path {told} of the class file {why}")
    try:
        if resolved(path).name.lower() in _OF_ONE_BOAT:
            raise _Refused("file.class-file", f"{told} is no class file: it tells of one boat's own people")
        return content(path, within.bounds, SIZE_LIMIT_BYTES)
    except Outside:
        raise _Refused(
            "file.outside",
            f"the class file {told} lies outside '{within.root_shown}', the folder that the boat's own lies in",
            f"lay it into a folder of '{within.root_shown}', and write its path as seen from this file: "
            "../classes/name.yaml",
        ) from None
    except NotPlain as error:
        a_folder = str(error) == "a folder"
        message = (
            f"there is no class file {told}"
            if a_folder
            else f"{told} is {error}, and a class file belongs here"
        )
        raise _Refused("file.class-file", message) from None
    except OSError as error:
        gone = error.errno in NOT_THERE
        message = (
            f"there is no class file {told}"
            if gone
            else f"the class file {told} cannot be opened: {error.strerror}"
        )
        raise _Refused("file.class-file", message) from None


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


def _merge(tree: Mapping, base: Mapping) -> None:
    for key, node in base.entries.items():
        if key not in tree.entries:
            tree.entries[key] = node
            tree.keys[key] = base.keys[key]
        elif isinstance(own := tree.entries[key], Mapping) and isinstance(node, Mapping):
            _merge(own, node)
