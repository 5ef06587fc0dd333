"""A file that a vessel's file names and several boats share: found below the folder that hers lies in, or told why not."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.machine.opening import NOT_THERE, NotPlain, Outside, content, resolved
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import either, near, shortened
from generator.reading.nodes import Mapping, Node, Refused, Scalar, Source, place_of
from generator.reading.tree import SIZE_LIMIT_BYTES, read_bytes
from generator.vessel.confines import Confines, joined, not_from_here
from generator.vessel.ours import is_ours, of_old, said_none, says_format, wrong_format
from generator.vessel.vessel import Vessel

_MOST_BESIDE = 200


@dataclass(frozen=True)
class Shared:
    """What sort of file it is: the key that names it, what it is called, how its path looks and from where, the check that tells of it.

    `others` are names of files that are never one, in small letters, and `why_not` says why. `of_old` is what it tells of, where once
    such files said no format.
    """

    key: str
    called: str
    example: str
    seen_from: str
    check: str
    others: tuple[str, ...]
    why_not: str
    of_old: type[Vessel] | None = None

    @property
    def seen_from_here(self) -> str:
        """What to write."""
        return f"write its path as seen from {self.seen_from}, for example {self.example}"


class _Refused(Exception):
    """The file is not read: for what, of which check, and what to do."""

    def __init__(self, check: str, message: str, remedy: str):
        super().__init__(message)
        self.check, self.message, self.remedy = check, message, remedy


def shared_file(
    sort: Shared, tree: Mapping, folder: Path, within: Confines, special: frozenset[str]
) -> tuple[Mapping | None, Path | None, list[Finding]]:
    """The tree of the file that a vessel's file names, where it lies, its links resolved, and what is wrong with it.

    Of a file that does not say our format nothing is given or quoted. `special` are words that are no path.
    """
    named = tree.entries.get(sort.key)
    if named is None or isinstance(named, Refused) or _is_one_of(named, special):
        return None, None, []
    place = place_of(named, sort.key)
    if not isinstance(named, Scalar):
        remedy = f"write the path of the {sort.called}, seen from {sort.seen_from}: {sort.example}"
        return (
            None,
            None,
            [Finding("file.bad-value", Weight.DEFECT, f"'{sort.key}' names no {sort.called}", place, remedy)],
        )
    path, shown = folder / named.text, joined(within.shown, named.text)
    try:
        data = _bytes_of(sort, named.text, path, within)
    except _Refused as refused:
        return None, None, [Finding(refused.check, Weight.DEFECT, refused.message, place, refused.remedy)]
    found, findings = read_bytes(data, Source(shown))
    said, told = says_format(found, data), f"'{shortened(named.text)}'"
    if said is None and sort.of_old is not None and of_old(found, sort.of_old):
        findings.append(said_none(Place(shown), told))
    elif not is_ours(said):
        return None, None, [wrong_format(said, place, told, readable=found is not None)]
    return found, resolved(path), findings


def _is_one_of(named: Node, words: frozenset[str]) -> bool:
    return isinstance(named, Scalar) and named.text.strip() in words


def _bytes_of(sort: Shared, named: str, path: Path, within: Confines) -> bytes:
    """What the file holds; it lies below the folder that the boat's lies in, and is nothing that one boat alone is told."""
    told, called, write = f"'{shortened(named)}'", sort.called, sort.seen_from_here
    if why := not_from_here(named):
        raise _Refused("file.outside", f"the path {told} of the {called} {why}", write)
    try:
        if resolved(path).name.lower() in sort.others:
            raise _Refused(sort.check, f"{told} is no {called}: {sort.why_not}", write)
        return content(path, within.bounds, SIZE_LIMIT_BYTES)
    except Outside:
        raise _Refused(
            "file.outside",
            f"the {called} {told} lies outside '{within.root_shown}', the folder that the boat's own lies in",
            f"lay it into {_there(sort, within)}, and write its path as seen from {sort.seen_from}: {sort.example}",
        ) from None
    except NotPlain as error:
        a_folder = str(error) == "a folder"
        message = (
            f"there is no {called} {told}" if a_folder else f"{told} is {error}, and a {called} belongs here"
        )
        raise _Refused(sort.check, message, write) from None
    except OSError as error:
        gone = error.errno in NOT_THERE
        message = (
            f"there is no {called} {told}"
            if gone
            else f"the {called} {told} cannot be opened: {error.strerror}"
        )
        close = _beside(sort, path, within) if gone else []
        if close:
            write = f"write {either([named.rpartition('/')[0] + '/' + each for each in close]).lstrip('/')}?"
        raise _Refused(sort.check, message, write) from None


def _beside(sort: Shared, path: Path, within: Confines) -> list[str]:
    """The files in the folder that is named whose names the last part of a path may mean; none outside the confines of the boat."""
    folder = resolved(path.parent)
    if within.root not in (folder, *folder.parents):
        return []
    try:
        names = sorted(each.name for each in folder.iterdir() if each.suffix in (".yaml", ".yml"))[
            :_MOST_BESIDE
        ]
    except OSError:
        return []
    return near(path.name, [each for each in names if each.lower() not in sort.others and each.isprintable()])


def _there(sort: Shared, within: Confines) -> str:
    """Where such a file lies, in words: in the folder of all boats, or in one of its folders."""
    return f"{'a folder of ' if sort.example.count('/') > 1 else ''}'{within.root_shown}'"
