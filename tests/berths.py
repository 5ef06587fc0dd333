"""Manuals of a few files, put into a boat's place by the real swap: in the test's process, or in one of its own to be killed."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

from generator.machine.folders import Folder, Refused, digest
from generator.machine.manifests import find, text_of
from generator.machine.swapping import at_work

OLD = {"guest/index.html": b"old start", "guest/fonts/a.woff2": b"font", "crew/book.pdf": b"old book"}
NEW = {"guest/index.html": b"new start", "guest/plan.html": b"new plan", "crew/book.pdf": b"new book"}
NAMED = {"old": OLD, "new": NEW}


def said_of(files, day="2026-06-01"):
    """A cover and the manifests of the readers of `files`, the crew's last: it knows of the guests'."""
    common = {
        "program": "musterbook 0.1.0",
        "vessel": "Boat",
        "surveyed-on": day,
        "until": day,
        "language": "en",
        "good-until": None,
        "first-to-expire": None,
        "proof-copy": False,
    }
    readers = sorted({name.partition("/")[0] for name in files}, key=("guest", "shore", "crew").index)
    manifests = {}
    for reader in readers:
        own = {name.partition("/")[2]: data for name, data in files.items() if name.startswith(f"{reader}/")}
        manifests[reader] = {
            **common,
            "reader": reader,
            "description": digest(repr(sorted(files.items())).encode()),
            "beside": {each: digest(text_of(manifests[each])) for each in manifests if reader == "crew"},
            "files": {name: {"output": "site", "sha256": digest(data)} for name, data in own.items()},
        }
    return {**common, "readers": sorted(readers)}, manifests


def put(into, files, slug="boat", *, wait_s=10.0, aside=False):
    """Publishes `files` as a boat's manual; returns what was told of it."""
    with at_work(Path(into), slug, wait_s) as berth:
        cover, manifests = said_of(files)
        assert berth.swap_in(cover, manifests, files, aside=aside) == Path(into) / slug
        return berth.said


def held(folder):
    """The files of a folder, its manifests apart; nothing of the program's own reading is used."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in Path(folder).rglob("*")
        if path.is_file() and path.name != "manifest.json"
    }


def is_whole(folder, files):
    """Whether a folder is exactly the manual of `files`, its manifests and folders included."""
    cover, manifests = said_of(files)
    meant = {"manifest.json": text_of(cover), **files}
    meant |= {f"{reader}/manifest.json": text_of(each) for reader, each in manifests.items()}
    above = {"/".join(name.split("/")[:depth]) for name in meant for depth in range(1, name.count("/") + 1)}
    if Path(folder).is_symlink() or not Path(folder).is_dir():
        return False
    there = {path.relative_to(folder).as_posix(): path for path in Path(folder).rglob("*")}
    return there.keys() == meant.keys() | above and all(
        not there[name].is_symlink() and there[name].is_file() and there[name].read_bytes() == data
        for name, data in meant.items()
    )


def holds(folder, files):
    """Whether all of `files` stand in a folder, whatever else does."""
    paths = {Path(folder, name): data for name, data in files.items()}
    return all(
        path.is_file() and not path.is_symlink() and path.read_bytes() == data for path, data in paths.items()
    )


def found(folder):
    """A folder as the program finds it."""
    with Folder.at(Path(folder)) as opened:
        return find(opened)


def main():
    """One swap in a process of its own: INTO, which manual, how; exit code 2 and why where it is refused, as the program has it."""
    into, which, *how = sys.argv[1:]
    if how == ["recover"]:
        with at_work(Path(into), "boat"):
            return 0
    try:
        said = put(into, NAMED[which], aside=how == ["aside"])
    except (Refused, OSError) as error:
        sys.stderr.write(f"{type(error).__name__}: {error}\n")
        return 2
    sys.stdout.write(json.dumps(said))
    return 0


if __name__ == "__main__":
    code = main()
    sys.stdout.flush()
    os._exit(code)
