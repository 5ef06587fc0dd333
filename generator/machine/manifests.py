"""Manifests: what stands in a published folder about the manual in it, and whether the folder is still as it was written.

Each reader's folder has its own, with the fingerprints of that reader's files alone, so that a copy of it can be looked at
by itself and nothing in it tells of files that are not its reader's. The boat's folder has a cover: which readers there are.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from typing import TypedDict

from generator.machine.folders import Folder, NoPlainFile, digest, is_file, is_folder

MANIFEST = "manifest.json"
LEFT_BY_SYSTEMS = frozenset((".DS_Store", "Thumbs.db", "desktop.ini"))
MOST_BYTES = 8_000_000
_DEEPEST = 32


class Entry(TypedDict):
    """What a manifest says of a file: the output it belongs to, and its fingerprint."""

    output: str
    sha256: str


Cover = TypedDict(
    "Cover",
    {
        "program": str,
        "vessel": str,
        "surveyed-on": str,
        "until": str,
        "language": str,
        "good-until": str | None,
        "first-to-expire": str | None,
        "proof-copy": bool,
        "readers": list[str],
    },
)
"""What the boat's folder says of the manual in it; days are written YYYY-MM-DD."""

Manifest = TypedDict(
    "Manifest",
    {
        "program": str,
        "vessel": str,
        "surveyed-on": str,
        "until": str,
        "language": str,
        "good-until": str | None,
        "first-to-expire": str | None,
        "proof-copy": bool,
        "reader": str,
        "description": str,
        "beside": dict[str, str],
        "files": dict[str, Entry],
    },
)
"""What a reader's folder says of itself: the same, the fingerprint of what its reader may know of her, and its files.

`beside` holds the fingerprints of the manifests of readers who may see less: copies of two publishings are told apart.
"""

_COMMON: dict[str, tuple[type, ...]] = {
    "program": (str,),
    "vessel": (str,),
    "surveyed-on": (str,),
    "until": (str,),
    "language": (str,),
    "good-until": (str, type(None)),
    "first-to-expire": (str, type(None)),
    "proof-copy": (bool,),
}


@dataclass(frozen=True)
class Found:
    """A published folder as it is found: what its manifests say, and what is otherwise than they say.

    `cover` is None where the boat's folder has none that is whole; of one reader's folder alone it never has one.
    """

    cover: Cover | None
    readers: Mapping[str, Manifest]
    missing: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    foreign: tuple[str, ...] = ()
    left_by_systems: tuple[str, ...] = field(default=(), compare=False)

    @property
    def intact(self) -> bool:
        """Whether everything that is meant to be there is, as it was written."""
        return not (self.missing or self.changed)

    @property
    def strange(self) -> tuple[str, ...]:
        """The files that are not, or no longer, as this program wrote them."""
        return tuple(sorted({*self.changed, *self.foreign}))


def text_of(said: Cover | Manifest) -> bytes:
    """A manifest as it is written; `seal` is the fingerprint of all the rest, so that an edit shows."""
    return _text({**said, "seal": digest(_text(said))})


def _text(said: Mapping[str, object]) -> bytes:
    return (json.dumps(said, indent=1, sort_keys=True, ensure_ascii=False) + "\n").encode()


def cover_of(folder: Folder) -> Cover | None:
    """The cover of a boat's folder; None where there is none, or not one as this program wrote it."""
    said = _read(folder)
    if said is None or said.keys() != _COMMON.keys() | {"readers"} or not _are(said, _COMMON):
        return None
    readers = said["readers"]
    if not isinstance(readers, list) or not all(isinstance(each, str) and _plain(each) for each in readers):
        return None
    cover: Cover = said  # type: ignore[assignment]  # looked at, key by key
    return cover


def manifest_of(folder: Folder) -> Manifest | None:
    """The manifest of one reader's folder; None where there is none, or not one as this program wrote it."""
    said = _read(folder)
    own = {"reader": (str,), "description": (str,), "beside": (dict,), "files": (dict,)}
    if said is None or said.keys() != _COMMON.keys() | own.keys() or not _are(said, {**_COMMON, **own}):
        return None
    beside, files = said["beside"], said["files"]
    assert isinstance(beside, dict)
    assert isinstance(files, dict)
    if not all(isinstance(each, str) for each in beside.values()):
        return None
    if not all(_listed(name, entry) for name, entry in files.items()):
        return None
    manifest: Manifest = said  # type: ignore[assignment]  # looked at, key by key
    return manifest


def _read(folder: Folder) -> dict[str, object] | None:
    """What stands in a manifest, its seal taken off; None where the seal does not hold."""
    try:
        data = folder.read(MANIFEST, MOST_BYTES)
        said = json.loads(data)
        if not isinstance(said, dict):
            return None
        seal = said.pop("seal", None)
        whole = _text({**said, "seal": digest(_text(said))}) == data
    except (OSError, ValueError, RecursionError):
        return None
    return said if whole and seal else None


def _are(said: Mapping[str, object], kinds: Mapping[str, tuple[type, ...]]) -> bool:
    days = [said[key] for key in ("surveyed-on", "until", "good-until") if said[key] is not None]
    return all(isinstance(said[key], kind) for key, kind in kinds.items()) and all(map(_is_day, days))


def _is_day(text: object) -> bool:
    with suppress(ValueError):
        return isinstance(text, str) and date.fromisoformat(text).isoformat() == text
    return False


def _listed(name: str, entry: object) -> bool:
    parts = name.split("/")
    return (
        all(map(_plain, parts))
        and len(parts) < _DEEPEST
        and name != MANIFEST
        and isinstance(entry, dict)
        and entry.keys() == Entry.__annotations__.keys()
        and all(isinstance(each, str) for each in entry.values())
    )


def _plain(name: str) -> bool:
    """Whether it names something in the folder itself, on any system."""
    return name not in ("", ".", "..") and not set(name) & set("/\\:\0")


def find(folder: Folder) -> Found:
    """A boat's folder as it is found; raises OSError where a folder in it cannot be read."""
    cover = cover_of(folder)
    readers: dict[str, Manifest] = {}
    missing, changed, foreign, left = list[str](), list[str](), list[str](), list[str]()
    if cover is None and folder.look(MANIFEST) is not None:
        changed.append(MANIFEST)
    for name in folder.names():
        found = folder.look(name)
        if name == MANIFEST or found is None:
            continue
        if name in LEFT_BY_SYSTEMS and is_file(found):
            left.append(name)
        elif not is_folder(found) or cover is None or name not in cover["readers"]:
            foreign += _all_in(folder, name)
        else:
            with folder.inner(name) as inner:
                one = find_copy(inner, name)
            readers |= one.readers
            for into, names in (
                (missing, one.missing),
                (changed, one.changed),
                (foreign, one.foreign),
                (left, one.left_by_systems),
            ):
                into += [f"{name}/{each}" for each in names]
    if cover is not None:
        missing += [f"{name}/{MANIFEST}" for name in cover["readers"] if folder.look(name) is None]
        changed += [f"{name}/{MANIFEST}" for name in readers if not _together(cover, readers, name)]
    return Found(cover, readers, *map(_sorted, (missing, changed, foreign, left)))


def _together(cover: Cover, readers: Mapping[str, Manifest], name: str) -> bool:
    """Whether a reader's manifest is of the same publishing as the cover, and as those it knows of."""
    said = readers[name]
    return all(said[key] == cover[key] for key in _COMMON) and all(  # type: ignore[literal-required]
        digest(text_of(readers[other])) == sha256
        for other, sha256 in said["beside"].items()
        if other in readers
    )


def find_copy(folder: Folder, name: str = "") -> Found:
    """One reader's folder as it is found, wherever it was copied to; `name` is the reader it must be for, if known."""
    manifest = manifest_of(folder)
    files = manifest["files"] if manifest is not None and name in ("", manifest["reader"]) else None
    missing, changed, foreign, left = list[str](), list[str](), list[str](), list[str]()
    if files is None or manifest is None:
        bears = folder.look(MANIFEST) is not None
        changed += [MANIFEST] if bears else []
        others = [each for each in folder.names() if each != MANIFEST]
        missing += [MANIFEST] if not bears and others else []
        return Found(
            None,
            {},
            _sorted(missing),
            _sorted(changed),
            _sorted([each for other in others for each in _all_in(folder, other)]),
        )
    seen = set[str]()
    known = {
        "/".join(parts[:end]) for parts in (each.split("/") for each in files) for end in range(1, len(parts))
    }
    for path, inner, base in walk(folder):
        at = inner.look(base)
        if at is None or path == MANIFEST:
            continue
        if is_folder(at):
            foreign += [] if path in known else [path]
        elif path in files:
            seen.add(path)
            if not _as_written(inner, base, files[path]["sha256"]):
                changed.append(path)
        elif base in LEFT_BY_SYSTEMS and is_file(at):
            left.append(path)
        else:
            foreign.append(path)
    missing += sorted(files.keys() - seen)
    return Found(None, {manifest["reader"]: manifest}, *map(_sorted, (missing, changed, foreign, left)))


def _as_written(folder: Folder, name: str, sha256: str) -> bool:
    with suppress(NoPlainFile, FileNotFoundError):
        return folder.digest(name) == sha256
    return False


def walk(folder: Folder, above: str = "") -> Iterator[tuple[str, Folder, str]]:
    """Everything in a folder and the folders in it, no link followed: its path, the folder that holds it, its name there.

    What is in a folder comes before the folder itself.
    """
    for name in folder.names():
        path = f"{above}{name}"
        found = folder.look(name)
        if found is not None and is_folder(found) and path.count("/") < _DEEPEST:
            with folder.inner(name) as inner:
                yield from walk(inner, f"{path}/")
        yield path, folder, name


def _all_in(folder: Folder, name: str) -> list[str]:
    """A thing, or every file in it where it is a folder with files."""
    found = folder.look(name)
    if found is None or not is_folder(found):
        return [name]
    files = []
    with suppress(OSError), folder.inner(name) as inner:
        for path, above, base in walk(inner, f"{name}/"):
            at = above.look(base)
            files += [path] if at is None or not is_folder(at) else []
    return files or [name]


def _sorted(names: list[str]) -> tuple[str, ...]:
    return tuple(sorted(set(names)))
