"""One slip of the hand brings one finding: what follows from it is not told as another."""

import shutil
from collections import Counter, defaultdict
from fnmatch import fnmatch
from statistics import median

import pytest
from beside import lay_beside
from checks.survey_patch import VESSELS, survey_boat
from single_mistakes import misspelt, mistakes
from specimens import BOATS

from generator.reading.slips import slip_of
from generator.survey.held import BESIDE, COUNTS, LOOKS_FOR, OF_PERSONS, SAID_WITH, SAY_SO
from generator.survey.registry import all_checks
from generator.vessel.vessel import Vessel

MOST, EACH, EVERY = 2, 40, 2
# What brings more than MOST, and why it may.
REASONED = {
    "block left out: station-bill": "a list left out says that there is none: each duty that wants somebody is told",
    "block left out: stops": "a list left out says that there is none: each stop that she must have is told",
    "block left out: based-on": "nothing says that there was a class: each thing that must be said is told",
    "block left out: vessel": "her class gives the rest of the block: each key that it lacks is told",
    "block left out: grab-bags": "where she need not have one: each place that names it, and what would lie in it",
    "type changed: vessel.type": "of a type much like hers the plan differs in few spaces, each told where it is named",
    "value for keys: station-bill.*.*": "a bare word under a duty is its 'who': its substitute and the second person are gone",
    "list for keys: gear*.what": "a list in the place of the keys: the numbers and the other things are gone",
    "value for keys: gear*.what": "a bare word is the one name of the entry: the numbers and the other things are gone",
}  # fmt: skip


def _reasoned(each):
    return any(fnmatch(f"{each.kind}: {each.path}", pattern) for pattern in REASONED)


@pytest.fixture(scope="module")
def counted(tmp_path_factory, one_in):
    """How many findings each of a sample of mistakes brought, by its kind; with --all-mutants the sample is twice as large."""
    wanted = EACH // one_in(EVERY)
    root = tmp_path_factory.mktemp("mistakes")
    lay_beside(root)
    found = defaultdict(list)
    for boat in BOATS:
        folder = root / boat
        shutil.copytree(VESSELS / boat, folder)
        file, seen = folder / "vessel.yaml", Counter()
        text = file.read_text(encoding="utf-8")
        sound = {(each.check, each.message) for each in survey_boat(folder).findings}
        every = Counter(each.kind for each in mistakes(boat, text))
        for each in mistakes(boat, text):
            seen[each.kind] += 1
            if seen[each.kind] % max(1, every[each.kind] * len(BOATS) // wanted):
                continue
            file.write_text(each.text, encoding="utf-8")
            new = [one for one in survey_boat(folder).findings if (one.check, one.message) not in sound]
            found[each.kind].append((each, new))
    return found


@pytest.mark.thorough
def test_one_mistake_is_one_finding(counted, record_property):
    assert len(counted) > 20
    numbers = {kind: [len(new) for _, new in rows] for kind, rows in counted.items()}
    for kind, each in numbers.items():
        record_property("figure", f"{kind}: {len(each)} mistakes, median {median(each):g}, most {max(each)}")
    assert {kind: median(each) for kind, each in numbers.items() if median(each) > 1} == {}
    many = [
        (each.boat, each.kind, each.path, [f"{one.check}: {one.message}" for one in new])
        for rows in counted.values()
        for each, new in rows
        if len(new) > MOST and not _reasoned(each)
    ]
    assert not many, "\n".join(map(str, many))


@pytest.mark.thorough
def test_the_finding_stands_at_the_mistake(counted):
    """Whatever is told of a misspelt key, a missing colon, a list for keys stands on its line."""
    for kind in ("key misspelt", "list for keys", "keys for a list", "value for a list"):
        for each, new in counted[kind]:
            places = [place for one in new for place in (one.place, *one.also)]
            assert any(abs(place.line - each.line) <= 2 for place in places), (each.boat, each.path)


def test_what_is_held_back_is_named_by_checks_and_blocks_there_are():
    checks = all_checks()
    named = [
        *LOOKS_FOR.values(),
        *SAY_SO.values(),
        *COUNTS.values(),
        OF_PERSONS,
        tuple(BESIDE),
        *SAID_WITH.items(),
    ]
    assert {each for those in named for each in those} <= set(checks)
    assert {block.partition(".")[0] for block in (*LOOKS_FOR, *SAY_SO)} <= set(Vessel.fields)


@pytest.mark.parametrize(
    ("said", "meant"),
    [("peopel", "people"), ("raftz", "rafts"), ("duration", ""), ("mas", "mass"), ("x", "")],
)
def test_a_slip_is_known_by_its_letters(said, meant):  # fmt: skip
    assert slip_of(said, ["people", "rafts", "mass", "name"]) == meant
    assert slip_of("gass", ["gas", "mass"]) == "", "either may be meant"
    assert misspelt("people") == "poeple"


def test_two_causes_on_one_item_stay_two_findings(tmp_path):
    """A key that cannot be read holds back nothing else that is wrong with the same thing."""
    folder = tmp_path / "saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", folder)
    file = folder / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    assert text.count("mass: {value: 42 kg, from: label}") == 1
    text = text.replace("mass: {value: 42 kg, from: label}", "mass: 42").replace(
        "next: 2028-09-04", "next: 2025-09-05"
    )
    file.write_text(text.replace("peopel:", "people:").replace("\npeople:", "\npeopel:"), encoding="utf-8")
    said = [(each.check, each.place.key) for each in survey_boat(folder).findings]
    assert ("file.bad-value", "rafts[liferaft].mass") in said
    assert ("file.unknown-key", "peopel") in said
    assert any(key.startswith("rafts[liferaft].service") for _, key in said)
    assert len(said) <= 5, said


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("worn-by: [child 1, child 2]", "worn-by: [cihld 1, child 2]"), "gear.jackets-not-worn"),
        (("worn-by: [skipper, mate, uncle", "worn-by: [skipper, mate, unlce"), "people.worn-by"),
    ],
)
def test_who_is_misspelt_under_worn_by_is_told_once(tmp_path, change, told):
    """With whoever must wear one and is not named, if there is somebody; else by itself."""
    folder = tmp_path / "tansywade"
    shutil.copytree(VESSELS / "tansywade", folder)
    lay_beside(tmp_path)
    file = folder / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    assert text.count(change[0]) == 1
    file.write_text(text.replace(*change), encoding="utf-8")
    (finding,) = survey_boat(folder).findings
    assert finding.check == told
    assert "is no role aboard" in finding.message
    assert finding.remedy.startswith("write ")
