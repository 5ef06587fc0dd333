"""Lists are bounded, each where it is declared: beyond its bound a list is told of, and a file at every bound is still surveyed at once."""

import copy
import json
import time
from datetime import date

import pytest
from spoilt import VESSEL, VOYAGE, base, tree_of

from generator.publishing import Order, survey
from generator.reading.fields import MOST_ENTRIES, Compound, Listed, Many, Named, One
from generator.vessel.people import Voyage
from generator.vessel.schema import vessel_schema
from generator.vessel.vessel import Vessel

AT_ONCE_S = 5
pytestmark = pytest.mark.attack("no-traceback")


def lists(kind, path=""):
    """(path, field) of every list and block of names in a file."""
    for field in kind.fields.values():
        here = f"{path}.{field.key}".lstrip(".")
        yield from bounded(field, here)
        if isinstance(field, Compound) and field.blocks is not None:
            yield from lists(field.blocks, here + ".*" * isinstance(field, Named))


def bounded(field, path):
    """A list or block of names, and those that its entries are."""
    if isinstance(field, (Many, Listed, Named)):
        yield path, field
    if isinstance(field, Named):
        yield from bounded(field.inner, f"{path}.*")


LISTS = [*lists(Vessel), *lists(Voyage, "voyage")]


def test_every_list_has_a_bound_of_its_own(tried):
    tried(len(LISTS))
    assert len(LISTS) > 35
    assert [path for path, field in LISTS if field.most >= MOST_ENTRIES] == []


def put(tree, path, entries):
    """Entries at a path, through the first entry of each list on the way; False where the boat has none of it."""
    *way, last = path.replace(".*", "").split(".")
    for key in way:
        tree = tree.get(key)
        tree = tree[0] if isinstance(tree, list) and tree else tree
        if not isinstance(tree, dict):
            return False
    tree[last] = entries
    return True


def many(field, number):
    if isinstance(field, Named):
        return {f"x{each}": {} for each in range(number)}
    if isinstance(field, Many):
        called = field.block.called
        return [{called: f"thing {each}"} if called else {} for each in range(number)]
    return ["x"] * number


@pytest.mark.parametrize(
    ("path", "field"),
    [each for each in LISTS if ".*" not in each[0]],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_one_more_than_the_most_is_told(tmp_path, path, field, tried):
    tried(2)
    for boat in ("nordgyllen", "ombrelune", "zilte-wind", "saltmeadow"):
        name = VOYAGE if path.startswith("voyage.") else VESSEL
        if name not in base(boat):
            continue
        tree = copy.deepcopy(tree_of(boat, name))
        tree.pop("based-on", None)
        tree.pop("base", None)
        if put(tree, path.removeprefix("voyage."), many(field, field.most + 1)):
            break
    else:
        pytest.skip("no specimen has it")
    folder = tmp_path / "boat"
    folder.mkdir()
    (folder / VESSEL).write_text(base("saltmeadow")[VESSEL])
    said = f"{field.most + 1:,} entries stand here, and {field.most:,} are the most"
    (folder / name).write_text(json.dumps(tree))
    done = survey(folder, "boat", Order(date(2026, 6, 1)))
    assert any(each.message == said for each in done.findings)
    if "." not in path:  # and no more than that is read
        assert len(done.vessel.__dict__[field.name]) <= field.most
    put(tree, path.removeprefix("voyage."), many(field, field.most))
    (folder / name).write_text(json.dumps(tree))
    found = survey(folder, "boat", Order(date(2026, 6, 1))).findings
    assert not any("entries stand here" in each.message for each in found)


def test_the_schema_says_the_same():
    text = json.dumps(vessel_schema())
    for _, field in lists(Vessel):
        assert f'"max{"Properties" if isinstance(field, Named) else "Items"}": {field.most}' in text


@pytest.mark.thorough
@pytest.mark.parametrize("boat", ["saltmeadow", "nordgyllen"])
def test_a_file_at_every_bound_is_surveyed_at_once(tmp_path, boat):
    tree = copy.deepcopy(tree_of(boat, VESSEL))

    def fill(block, kind):
        for key, value in block.items():
            field = kind.fields.get(key)
            if isinstance(field, Many):
                called, entries = field.block.called, [each for each in value if isinstance(each, dict)]
                for each in entries[:1]:
                    fill(each, field.block)
                block[key] = [
                    {
                        **entries[number % len(entries)],
                        **({called: f"thing {number}"} if called and number >= len(entries) else {}),
                    }
                    for number in range(field.most if entries else 0)
                ] or value
            elif isinstance(field, One) and isinstance(value, dict):
                fill(value, field.block)

    fill(tree, Vessel)
    (tmp_path / VESSEL).write_text(json.dumps(tree))
    start = time.process_time()
    done = survey(tmp_path, "boat", Order(date(2026, 6, 1)))
    took_s = time.process_time() - start
    print(took_s, len(done.findings))
    assert done.manual is not None
    assert took_s < AT_ONCE_S
