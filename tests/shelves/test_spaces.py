"""Hull types: a faulty file is told at its line and column; what a space means is the preset's; a hull type is one file."""

import pytest
from drawing.boats import vessel
from shelves.reading import copied, run, text_of, told

from generator.manual.drawing.spaces import find_space, spaces_of
from generator.shelves.shelf import faults
from generator.shelves.spaces import HULLS, hull, hull_types

MONOHULL, CATAMARAN = "symbols/hulls/monohull.yaml", "symbols/hulls/catamaran.yaml"
HELM = "{name: helm, level: deck, along: 0.11 to 0.19, across: -0.4 to 0.4"


@pytest.mark.parametrize(
    ("old", "new", "mark", "said"),
    [
        ("exposed: yes", "exposd: yes", "exposd", "'exposd' is no key of spaces[foredeck]: write exposed?"),
        ("exposed: yes", "exposed: maybe", "maybe", "'maybe' is none of the words this key takes"),
        ("stands-in: yes", "standsin: yes", "standsin", "write stands-in?"),
        ("level: deck,", "level: dek,", "dek,", "write deck?"),
        ("below: rooms", "below: roomz", "roomz", "write rooms?"),
        ("below: rooms\n", "", "order: 1", "below' is missing"),
        ("order: 1", "order: 1\nasks-for: [bails watr]", "bails watr", "write bails water?"),
        ("shown: always}", "shown: allways}", "allways", "write always?"),
        ("mark: mast", "mark: maste", "maste", "write mast?"),
        ("along: 0.69 to 1,", "along: 1 to 0.69,", "1 to 0.69", "'1 to 0.69' is no stretch from 0 to 1"),
        ("along: 0.69 to 1,", "along: [0.69; 1],", "[0.69; 1]", "a list or block stands where a stretch belongs"),
        ("across: -0.56 to 0.56", "across: -1.56 to 0.56", "-1.56", "is no stretch from -1 to 1"),
        (HELM, HELM.partition(", across")[0], "helm, level", "'helm' says neither 'across' nor 'off'"),
        (HELM, f"{HELM}, off: 0 to 1", "helm, level", "'helm' says both 'across' and 'off'"),
        (", along: 0.11 to 0.19", "", "{name: helm", "along' is missing"),
        ("{name: helm,", "{name: cockpit,", "cockpit, level: deck, along: 0.11", "two are called 'cockpit'"),
        ("also: [wheel, tiller]", "also: [wheel, cockpit]", "cockpit], steering", "'cockpit' is also a name of the space 'cockpit'"),
        ("{length: 11, beam: 3.6}", "{length: long, beam: 3.6}", "long, beam", "'long' is not a number"),
        ("fullest: 0.42", "fulest: 0.42", "fulest", "write fullest?"),
        ("breadth: 0.17 to 0.5", "breadth: 0.17", "0.17\n", "'0.17' is not a stretch"),
    ],
)  # fmt: skip
def test_a_fault_is_told_at_its_place(old, new, mark, said):
    assert any(said in each for each in told(HULLS, MONOHULL, (old, new), mark)), said


def test_one_type_and_only_one_stands_in():
    text = text_of(CATAMARAN).replace("multihull: yes", "multihull: yes\nstands-in: yes")
    files = [HULLS.read_text(text_of(MONOHULL), MONOHULL)[0], HULLS.read_text(text, CATAMARAN)[0]]
    (both,) = faults([(HULLS, tuple(files), ())], {})
    assert "one hull type, and one only" in both.message
    assert (both.place.file, both.place.key) == (f"templates/{CATAMARAN}", "stands-in")
    (none,) = faults([(HULLS, (HULLS.read_text(text_of(CATAMARAN), CATAMARAN)[0],), ())], {})
    assert none.message == both.message


def test_a_type_that_is_not_known_is_taken_for_the_one_that_stands_in():
    assert hull("") is hull("monohull")
    assert hull("catamaran") is not hull("monohull")


@pytest.mark.parametrize("name", hull_types())
def test_each_type_says_where_people_cook_steer_and_where_the_engine_stands(name):
    spaces = spaces_of(vessel(name, "12 m", "6 m")).values()
    for what in ("steering", "engine", *(("cooking",) if hull(name).has_rooms else ())):
        assert any(getattr(space, what) for space in spaces), what
    assert any(space.exposed for space in spaces)


@pytest.mark.parametrize(
    ("where", "exposed"),
    [("foredeck", True), ("Pulpit", True), ("anchor locker", True), ("cockpit", False), ("pushpit", False)],
)
def test_where_the_seas_break(where, exposed):
    assert find_space(spaces_of(vessel()), where)[0].exposed is exposed


def test_a_space_by_another_name_means_the_same():
    spaces = spaces_of(
        vessel(deck="{spaces: [{name: bow deck, replaces: foredeck}, {name: pantry, replaces: galley}]}")
    )
    assert find_space(spaces, "bow deck")[0].exposed
    assert find_space(spaces, "pantry")[0].cooking


PROA = """\
order: 9
below: rooms
usual: {length: 12, beam: 7}
multihull: yes
breadth: 0.3 to 0.8
bodies:
  - {along: 0 to 1, off: 0 to 0.3, transom: 0.3, fullest: 0.5, bow: 2}
spaces:
  - {name: cockpit, level: deck, along: 0.1 to 0.34, across: -0.24 to 0.24, shown: always}
  - {name: fore net, level: deck, along: 0.6 to 0.9, across: -0.3 to 0.3, shown: used, exposed: yes}
  - {name: saloon, level: below, along: 0.43 to 0.6, across: -0.3 to 0.3, shown: always}
  - {name: helm, level: deck, along: 0.1 to 0.2, across: -0.2 to 0.2, shown: used, steering: yes}
  - {name: galley, level: below, along: 0.35 to 0.43, across: -0.3 to 0.3, shown: used, cooking: yes}
  - {name: engine space, level: below, along: 0.2 to 0.35, across: -0.2 to 0.2, shown: used, engine: yes}
tally: {across: 6, bodies: 1, cooking: 1, engine: 1, exposed: 1, multihull: 1, spaces: 6, steering: 1}
"""


@pytest.mark.thorough
def test_a_hull_type_is_one_file(tmp_path):
    """A boat of a new type is read, drawn and surveyed like one of a type with the same properties."""
    copied(tmp_path)
    (tmp_path / "templates/symbols/hulls/proa.yaml").write_text(PROA, encoding="utf-8")
    boat = tmp_path / "vessels/saltmeadow/vessel.yaml"
    text = boat.read_text(encoding="utf-8")
    assert "type: monohull" in text
    raft = text.index("    where: ", text.index("rafts:"))
    end = text.index("\n", raft)
    text = text[:raft] + "    where: fore net" + text[end:]
    boat.write_text(
        text.replace("type: monohull", "type: proa").replace("beam: 3.9 m", "beam: 7 m"), encoding="utf-8"
    )
    code, said = run(tmp_path, code=SURVEYED)
    assert (code, said.splitlines()[-1]) == (0, "multihull True, drawn True, no fault of the program"), said
    # her places are a monohull's: the cause is told, and not what follows from it
    assert said.splitlines()[0] == "spelling.hull-type", said
    assert "found escape.none-inverted\n" in said
    assert "vessel.proportions\n" not in said


SURVEYED = """
import pathlib
from datetime import date
from generator.publishing import Order, survey
from generator.survey import registry
from generator.survey.sight import Sight
boat = survey(pathlib.Path("vessels/saltmeadow"), "", Order(date(2026, 6, 1)))
for each in boat.findings:
    print(each.check)
for each in registry.run(registry.DESCRIPTION, Sight(boat.vessel, date(2026, 6, 1), date(2026, 6, 1))):
    print("found", each.check)
drawn = "fore net" in boat.manual.plan.svg
print(f"multihull {boat.vessel.vessel.hull.multihull}, drawn {drawn}, no fault of the program")
"""
