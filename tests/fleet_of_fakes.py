"""Vessels in a folder of their own and small outputs in place of the real ones, so that publishing is tested quickly."""

import shutil
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest
from beside import lay_beside

from generator import publishing
from generator.outputs import Made
from generator.publishing import Order

VESSELS = Path(__file__).parent.parent / "vessels"
TODAY = date(2027, 1, 15)


def lay_out(into, *boats):
    """The named boats, and what lies beside their folders, in `into`."""
    lay_beside(into)
    for boat in boats:
        shutil.copytree(VESSELS / boat, into / boat)
    return into / boats[0]


def edit(folder, old, new, file="vessel.yaml"):
    """One change in a boat's file; `old` must stand there."""
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def make_unsound(folder):
    """One passenger too many for the raft."""
    edit(folder, "  persons: 6\n  waters", "  persons: 7\n  waters")


def line(output):
    """What a fake output prints of a manual."""

    def write(job):
        manual = job.manual
        words = (
            f"{output} for {job.reader} on {job.paper}: {manual.vessel.vessel.name}, {manual.as_of} to {manual.until}, "
            f"proof {manual.proof}, {len(manual.procedures)} procedures, {len(manual.items)} items, {manual.good_until}"
        )
        return Made({f"{output}.txt": words.encode()})

    return write


@pytest.fixture
def fakes(monkeypatch):
    """Two outputs, a book for the crew and a site for guests; their modules by name, to be spoilt by a test."""
    readers = {"book": "crew", "site": "guest"}
    modules = {name: SimpleNamespace(READER=reader, write=line(name)) for name, reader in readers.items()}
    monkeypatch.setattr(publishing, "output_names", lambda: tuple(modules))
    monkeypatch.setattr(publishing, "output", modules.__getitem__)
    return modules


def order(into, **more):
    """An order for today with everything else as asked."""
    return Order(TODAY, into=into, **more)


def held(folder):
    """The files published for a vessel, the manifest apart, as text."""
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in folder.rglob("*")
        if path.is_file() and path.name != "manifest.json"
    }
