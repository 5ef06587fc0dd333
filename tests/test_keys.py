"""`musterbook keys` tells every key of a vessel's files, from the fields, and the names on the shelves that they take."""

import pytest

from generator.__main__ import main
from generator.manual import vocabulary
from generator.reading.fields import Compound
from generator.shelves.procedures import shelf
from generator.shelves.spaces import hull_types
from generator.vessel.base import Base
from generator.vessel.keys import find, key_blocks
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel


@pytest.fixture
def keys(capsys):
    def run(*argv):
        code = main(["keys", *argv])
        out, err = capsys.readouterr()
        return code, out, err

    return run


def unwrapped(text):
    return " ".join(text.split())


def fields(kind, seen):
    """Every field of a block and of those within, each block once."""
    seen.add(kind)
    for field in kind.fields.values():
        yield kind, field
        inner = field.blocks if isinstance(field, Compound) else None
        if inner is not None and inner not in seen:
            yield from fields(inner, seen)


def test_every_field_of_both_files_is_told():
    seen = set()
    wanted = sorted(
        (field.key, field.question) for file in (Vessel, Voyage, Base) for _, field in fields(file, seen)
    )
    assert sorted((key.name, key.question) for block in key_blocks() for key in block.keys) == wanted


def test_without_a_name_all_blocks_are_listed_and_each_can_be_asked_for(keys):
    code, out, _ = keys()
    assert code == 0
    listed = out.split("\n\n")[0].splitlines()
    assert [line.split()[0] for line in listed] == [block.name for block in key_blocks()]
    assert all(len(line.split()) > 2 for line in listed)
    for line in listed:
        code, told, _ = keys(line.split()[0])
        assert code == 0
        for key in find(line.split()[0]).keys:
            assert f"\n  {key.name}{' (must be there)' if key.must else ''}: " in told
            assert unwrapped(key.question) in unwrapped(told)


def test_a_key_is_told_whole(keys):
    _, out, _ = keys("rafts.painter")
    assert unwrapped(out).startswith(
        "rafts.painter (block): The line from raft to boat that also fires the cylinder. length"
    )
    assert (
        "fast-to (must be there): What is the painter's own end fast to as rigged (what lies behind a weak link is 'joins')? "
        "written weak link · strong point · HRU · cradle · rail · nothing; unknown or left out stops publishing; "
        "read by everybody"
    ) in unwrapped(out)
    assert "unknown or left out is asked for where it ends at a weak link" in unwrapped(out)
    assert "unknown or left out is asked for" in unwrapped(keys("rafts")[1])
    assert "hex-id" in keys("radio.beacons")[1]
    assert "read by the crew alone" in unwrapped(keys("radio.beacons")[1])
    assert "written block (musterbook keys rafts.painter)" in unwrapped(keys("rafts")[1])


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("painter", "rafts.painter"),
        ("Gear", "gear"),
        ("gear.lives", "rafts.release.lives"),
        ("voyage.yaml", "voyage.yaml"),
    ],
)
def test_a_block_is_found_by_its_path_or_its_last_key(asked, found):
    assert find(asked).name == found


def test_an_unknown_block_is_told_the_nearest(keys):
    assert keys("raft") == (
        2,
        "",
        "musterbook: there is no block 'raft'; write rafts; all of them: musterbook keys\n",
    )
    assert keys("zzz") == (2, "", "musterbook: there is no block 'zzz'; all of them: musterbook keys\n")


def test_the_names_a_block_takes_are_told_beside_it(keys):
    deck = unwrapped(keys("deck")[1])
    assert all(f"The spaces of a {hull}: " in deck for hull in hull_types())
    assert all(name in deck for hull in hull_types() for name, _ in vocabulary.spaces(hull))
    bill = keys("station-bill")[1]
    for one in shelf():
        assert (f"The duties of {one.id}:" in bill) == bool(one.duties)
    assert "\n  backup (may be left open): " in bill
    gear = unwrapped(keys("gear")[1])
    assert "softwood plugs" in gear
    assert "radar reflector" in gear
    assert "Names that steps" not in keys("people")[1]
