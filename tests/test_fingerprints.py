"""A reader's fingerprint is another where that reader's copy could be, and tells of nothing that reader may not know."""

import shutil
from datetime import date

import pytest
from beside import lay_beside
from fleet_of_fakes import VESSELS
from PIL import Image

from generator.manual import fingerprints
from generator.manual.composing import compose
from generator.manual.fingerprints import fingerprint, program
from generator.outputs import Job, one_file
from generator.reading.fields import Compound
from generator.reading.values import PRIVATE, Band, NotKnown, Quantity, Stamp
from generator.shelves.languages import catalogue
from generator.vessel.loading import load
from generator.vessel.particulars import Contact

BOATS = ("nordgyllen", "ombrelune", "saltmeadow", "zilte-wind")
DAY = date(2026, 6, 1)


def manual_of(vessel, day=DAY, until=DAY, **more):
    return compose(vessel, day, until, catalogue("en"), **more)[0]


def another(value):
    """A value of the same kind that is another."""
    if isinstance(value, Quantity):
        return Quantity(float(value) + 0.001, value.written, value.unit)
    if isinstance(value, Stamp):
        return Stamp(
            value.year + 1, value.month, None if value.day is None else min(value.day, 28), value.stamp
        )
    if isinstance(value, Band):
        return Band(value[0], value[1] + 0.001, value.written)
    if isinstance(value, bool):
        return not value
    if isinstance(value, (int, float)):
        return value + 1
    if isinstance(value, tuple):
        return (*value, "more")
    return value[:-1] + ("1" if value[-1] != "1" else "2")


def values(vessel):
    """Every given plain value: its block, its field."""
    for block in vessel.inner():
        for field in type(block).fields.values():
            value = block.__dict__.get(field.name)
            if value is not None and not isinstance(field, Compound) and not isinstance(value, NotKnown):
                yield block, field, value


@pytest.mark.thorough
@pytest.mark.parametrize("boat", BOATS)
def test_every_value_that_a_reader_may_see_counts_and_no_other(boat, one_in):
    """One value in three, of each boat others; with --all-mutants each."""
    vessel, _ = load(VESSELS / boat, boat)
    manual = manual_of(vessel)
    before = {reader: fingerprint(manual, reader) for reader in ("guest", "shore", "crew")}
    assert len(set(before.values())) == 3
    for block, field, value in list(values(vessel))[BOATS.index(boat) % one_in(3) :: one_in(3)]:
        block.__dict__[field.name] = another(value)
        for reader, mark in before.items():
            changed = fingerprint(manual, reader) != mark
            assert changed == block.readable(field, reader), (block.path, field.key, reader)
        block.__dict__[field.name] = value
    assert {reader: fingerprint(manual, reader) for reader in before} == before


@pytest.mark.attack("private")
@pytest.mark.thorough
@pytest.mark.parametrize("boat", BOATS)
def test_what_guests_may_not_see_gives_neither_another_number_nor_another_page(boat, tried, one_in):
    """One number for two descriptions: then both give one copy. Each kind of hidden value, changed and private.

    Of each boat one kind in three, of another boat others; with --all-mutants each.
    """
    vessel, _ = load(VESSELS / boat, boat)
    mark, page = marked(vessel)
    hidden = {
        (type(each[0]), each[1]): each for each in values(vessel) if not each[0].readable(each[1], "guest")
    }
    chosen = list(hidden.values())[BOATS.index(boat) % one_in(3) :: one_in(3)]
    assert chosen
    for block, field, value in chosen:
        for instead in (another(value), PRIVATE):
            block.__dict__[field.name] = instead
            told = isinstance(block, Contact) and instead is PRIVATE  # that there is a number is said
            now = marked(vessel)
            assert (now[0] == mark) == (now[1] == page) == (not told), (block.path, field.key, instead)
        block.__dict__[field.name] = value
    tried(2 * len(chosen), of=2 * len(hidden))


def marked(vessel):
    manual = manual_of(vessel)
    return fingerprint(manual, "guest"), one_file.write(Job(manual, "guest")).files


def test_days_language_kind_of_copy_and_program_count(monkeypatch):
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    marks = [
        fingerprint(manual_of(vessel), "guest"),
        fingerprint(manual_of(vessel, date(2026, 5, 30)), "guest"),
        fingerprint(manual_of(vessel, until=date(2026, 7, 1)), "guest"),
        fingerprint(manual_of(vessel, proof=True), "guest"),
    ]
    monkeypatch.setattr(fingerprints, "program", lambda: "another")
    marks.append(fingerprint(manual_of(vessel), "guest"))
    assert len(set(marks)) == 5


def test_the_photo_as_it_is_printed_counts(tmp_path):
    lay_beside(tmp_path)
    folder = shutil.copytree(VESSELS / "saltmeadow", tmp_path / "saltmeadow")
    path = folder / "vessel.yaml"
    text = path.read_text()
    path.write_text(text.replace("  - {what: ", "  - {photo: a.jpg, what: ", 1))
    Image.new("RGB", (8, 8), "red").save(folder / "a.jpg")
    vessel, _ = load(folder, "saltmeadow")
    before = fingerprint(manual_of(vessel), "guest")
    Image.new("RGB", (8, 8), "navy").save(folder / "a.jpg")
    assert fingerprint(manual_of(vessel), "guest") != before


def test_a_template_counts_as_part_of_the_program_and_what_is_said_beside_it_does_not(monkeypatch, tmp_path):
    before = program()
    shelf = tmp_path / "templates"
    shelf.mkdir()
    (shelf / "label").write_text("a")
    monkeypatch.setattr(fingerprints, "templates_folder", lambda: shelf)

    def now():
        fingerprints._program.cache_clear()
        return program()

    first = now()
    (shelf / "README.md").write_text("for developers")
    (shelf / ".label.swp").write_text("an editor's")
    assert now() == first
    (shelf / "label").write_text("b")
    assert len({before, first, now()}) == 3
    fingerprints._program.cache_clear()
