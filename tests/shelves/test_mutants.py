"""Whatever is deleted from a shelf, misspelt on it or given a wrong value is noticed when the shelves are read.

Of a large shelf a run looks at one mutant in thirty-two, by each way to spoil each file; with `--all-mutants` it looks at all.
"""

import shutil
from collections import Counter

import pytest
from plain_tree import plain
from sampled import spread
from shelves.mutants import (
    ALL,
    DELETED,
    MISSPELT,
    NAME_MISSPELT,
    OPERATORS,
    WRONG,
    Judge,
    folder_of,
    mutants,
    spoilt_pages,
)

from generator.manual.wording import gaps
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue
from generator.shelves.shelf import read_below
from generator.shelves.words import FIRST_LANGUAGE

EVERY = 64
SMALL = 400  # a shelf with fewer mutants is looked at as a whole
SHARES = 2  # the mutants of a shelf are looked at in so many tests, to keep all cores busy
WANTED, WANTED_OF_EACH = 0.99, 0.97
NAMES = [shelf.name for shelf in ALL]
pytestmark = pytest.mark.thorough

MISSPELT_NAMES = (
    (
        "gear/gear.yaml: kinds[{}].kind",
        "rescue sling, floating line, carbon monoxide alarm, gas detector, light sticks, "
        "emergency steering, emergency rudder, GNSS receiver, oars",
        "no step, rule set, pack or check asks for it by its name; only gear lists do, in which anything may stand",
    ),
    (
        "gear/gear.yaml: kinds[{}].kind",
        "other extinguishers, other flares and smokes, radios and beacons that call for help",
        "it is found by words in a thing's name; its own is for whoever reads the shelf",
    ),
    (
        "lives/lives.yaml: kinds[{}].kind",
        "raft service; hydrostatic release unit, disposable; hydrostatic release unit, serviced; beacon of a boat; "
        "beacon of a person; radar transponder or man-overboard device; radio set; lifejackets, inflatable; "
        "lifejackets of foam; gas hose and regulator; through-hull fittings; all other gear; slip of a raft; "
        "last drill of an emergency; walk round the boat; deferral of a defect; voyage of the voyage file",
        "it is found by its block and conditions; its name is for whoever reads the shelf",
    ),
    (
        "carriage/{}.yaml: name",
        "canada-small-craft, good-practice, us-recreational",
        "only boats' files name the set, and they are told that there is none of that name",
    ),
    (
        "rafts/packs.yaml: packs[{}].name",
        "under 24 h, coastal, none",
        "only boats' files name the pack, and they are told that there is none of that name",
    ),
    ("carriage/aboard/countables.yaml: countables[{}].name", "SART", "no rule set counts it"),
)
"""The mutants that leave the shelves sound: where a name may be misspelt, which names, and why nothing else can tell."""
SURVIVORS = {
    f"{path.format(name)}: {NAME_MISSPELT}"
    for path, names, _ in MISSPELT_NAMES
    for name in names.split("; " if ";" in names else ", ")
}


@pytest.mark.parametrize("share", range(SHARES))
@pytest.mark.parametrize("shelf", ALL, ids=NAMES)
def test_what_is_spoilt_is_told_but_for_what_is_listed(shelf, share, one_in):
    found = list(mutants(shelf))
    every = 1 if len(found) < SMALL else one_in(EVERY)
    chosen = spread(found, every, lambda each: (each.file, each.operator))[share::SHARES]
    judge = Judge(shelf)
    assert [each.name for each in chosen if not judge.found(each) and each.name not in SURVIVORS] == []
    assert chosen


@pytest.mark.parametrize("shelf", ALL, ids=NAMES)
def test_what_is_listed_as_silent_is_so(shelf):
    listed = {mutant.name: mutant for mutant in mutants(shelf) if mutant.name in SURVIVORS}
    judge = Judge(shelf)
    assert [name for name, mutant in listed.items() if judge.found(mutant)] == []


def test_what_is_listed_as_silent_is_there():
    assert {mutant.name for shelf in ALL for mutant in mutants(shelf)} >= SURVIVORS


def test_hardly_any_is_missed(record_property):
    """Of all there are, for what is listed as silent is silent, and nothing else is."""
    made, silent = Counter(), Counter()
    for shelf in ALL:
        found = Counter(mutant.operator for mutant in mutants(shelf))
        lost = Counter(mutant.operator for mutant in mutants(shelf) if mutant.name in SURVIVORS)
        made, silent = made + found, silent + lost
        told = 1 - lost.total() / found.total()
        record_property("figure", f"{shelf.name}: {said(found, lost)}")
        assert told >= WANTED_OF_EACH, shelf.name
    record_property("figure", f"all shelves: {said(made, silent)}")
    assert 1 - silent.total() / made.total() >= WANTED


def said(made, silent):
    """The figures of a shelf: how many mutants, how many of them are noticed, and both by operator."""
    each = ", ".join(f"{made[one]} {one} ({silent[one]} silent)" for one in OPERATORS if made[one])
    return f"{made.total()} mutants, {1 - silent.total() / made.total():.2%} noticed: {each}"


def test_whatever_is_spoilt_of_a_page_is_told(tmp_path):
    """Pages of standing text are no trees: their bytes, their slots and they themselves are spoilt."""
    sound = read_below(SHELVES, templates_folder())
    made = list(spoilt_pages())
    assert len(made) > 50
    silent = []
    for number, (name, how, data) in enumerate(made):
        templates = tmp_path / str(number)
        pages = templates / "text" / FIRST_LANGUAGE
        shutil.copytree(templates_folder() / "text" / FIRST_LANGUAGE / "pages", pages / "pages")
        (pages / name).unlink()
        if data is not None:
            (pages / name).write_bytes(data)
        words = Catalogue(FIRST_LANGUAGE, templates, sound)
        found = words.findings or gaps(words, sound)
        if {each.place.file for each in found} != {f"templates/text/{FIRST_LANGUAGE}/{name}"}:
            silent.append((name, how))
    assert silent == []


def test_every_file_of_every_shelf_has_mutants_of_each_kind():
    """Each key is deleted, misspelt and given a wrong value."""
    for shelf in ALL:
        made = Counter(mutant.operator for mutant in mutants(shelf))
        assert {DELETED, MISSPELT, WRONG} <= set(made), shelf.name
        folder = folder_of(shelf)
        files = {path.relative_to(folder).as_posix() for path in folder.glob(shelf.pattern)}
        assert {mutant.file for mutant in mutants(shelf)} == files


def test_a_mutant_is_taken_back():
    """The tree is as it was after each."""
    shelf = next(each for each in ALL if each.name == "holds")
    found = list(mutants(shelf))
    before = plain(found[0].tree)
    for mutant in found:
        with mutant.made() as tree:
            assert plain(tree) != before, mutant.name
        assert plain(mutant.tree) == before


@pytest.mark.parametrize("shelf", [ALL[0], ALL[-1]], ids=["the program's", "evidence"])
def test_the_sound_shelves_have_no_findings(shelf):
    judge = Judge(shelf)
    assert judge.between(judge.sound) == []
