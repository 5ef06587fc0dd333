"""A deferral means one thing exactly: what the real checks find on real boats, by every name that an entry might give it."""

import re
import shutil
from dataclasses import replace
from datetime import date
from types import SimpleNamespace

import pytest
from checks.survey_patch import ROOT, VESSELS, cases, changed, lay_out, read_case, survey_boat
from sampled import spread

from generator import publishing
from generator.reading.findings import Finding, Place, Weight
from generator.survey.deferral import _meant, defer
from generator.survey.registry import all_checks
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
WHY = "reason: ordered, who: the skipper, until: 2026-06-20"
SMALL_BOAT = re.search(r"```yaml\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)[1]


def small_boat(tmp_path, check, *items):
    """The boat of README kept by a rule set that asks for things she has not, with a deferral for each item."""
    text = changed(SMALL_BOAT, "", "  use: private\n", "  use: private\n  rule-set: [Canada small craft]\n")
    if items:
        entries = (f"  - {{check: {check}, item: {item}, {WHY}}}\n" for item in items)
        text += "deferred-defects:\n" + "".join(entries)
    (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
    return survey_boat(tmp_path)


def of(check, findings):
    return [each for each in findings if each.check == check]


@pytest.fixture(params=["carriage.lacking", "gear.missing-for-step"])
def several(request, tmp_path):
    """A check that finds several things of the boat, all placed at one key, and what it finds."""
    found = of(request.param, small_boat(tmp_path, "").findings)
    assert len(found) > 2
    assert {each.place.key for each in found} == {"gear"}
    return request.param, found


def test_the_key_at_which_several_things_stand_defers_none_of_them(several, tmp_path):
    check, found = several
    surveyed = small_boat(tmp_path, check, "gear")
    assert of(check, surveyed.findings) == found
    assert surveyed.deferred == []
    (said,) = [each for each in surveyed.findings if each.subject == "deferral"]
    assert (said.check, said.weight, said.place.key) == (
        "deferral.inexact",
        Weight.DEFECT,
        "deferred-defects[1].item",
    )
    assert f"fits {len(found)} findings" in said.message
    assert re.findall(r'item: "(.*?)"', said.remedy) == [each.item for each in found]
    assert not surveyed.sound


def test_what_the_remedy_says_can_be_pasted_and_defers_one_thing_a_line(several, tmp_path):
    check, found = several
    (said,) = [each for each in small_boat(tmp_path, check, "gear").findings if each.subject == "deferral"]
    items = re.findall(r'item: (".*?")', said.remedy)
    for item in items:
        surveyed = small_boat(tmp_path, check, item)
        assert surveyed.deferred == [each for each in found if each.item == item.strip('"')]
        assert of(check, surveyed.findings) == [each for each in found if each not in surveyed.deferred]
        assert len(surveyed.deferred) == 1
        assert not [each for each in surveyed.findings if each.subject == "deferral"]
    surveyed = small_boat(tmp_path, check, *items)
    assert surveyed.deferred == found
    assert of(check, surveyed.findings) == []


def test_where_one_thing_stands_at_a_key_the_key_path_names_it(tmp_path):
    shutil.copytree(VESSELS / "saltmeadow", tmp_path / "boat")
    path = tmp_path / "boat/vessel.yaml"
    text = path.read_text(encoding="utf-8")
    late = date(2040, 1, 1)
    found = of("gear.expired", survey_boat(tmp_path / "boat", late, late).findings)
    for one in found:
        entry = (
            f"  - {{check: gear.expired, item: '{one.place.key}', {WHY.replace('2026-06-20', '2040-02')}}}"
        )
        path.write_text(
            changed(text, "", "\ndrills:", f"\ndeferred-defects:\n{entry}\ndrills:"), encoding="utf-8"
        )
        surveyed = survey_boat(tmp_path / "boat", late, late)
        assert [each.message for each in surveyed.deferred] == [one.message]


def test_things_of_one_name_are_told_apart_behind_a_comma(tmp_path):
    shutil.copytree(VESSELS / "saltmeadow", tmp_path / "boat")
    path = tmp_path / "boat/vessel.yaml"
    listed = "\n  - {what: bolt cutters, kind: tool, quantity: 1, where: saloon}\n"
    text = changed(path.read_text(encoding="utf-8"), "", "\ngear:\n", f"\ngear:{listed * 2}")
    entry = f"  - {{check: deck.side-missing, item: bolt cutters, {WHY}}}"
    text = changed(text, "", "\ndrills:", f"\ndeferred-defects:\n{entry}\ndrills:")
    path.write_text(text.replace("\n\n  - {what: bolt", "\n  - {what: bolt"), encoding="utf-8")
    surveyed = survey_boat(tmp_path / "boat")
    (said,) = of("deferral.inexact", surveyed.findings)
    assert surveyed.deferred == []
    assert "behind a comma" in said.remedy
    path.write_text(
        path.read_text(encoding="utf-8").replace("what: bolt cutters,", 'what: "bolt cutters, spare",', 1),
        encoding="utf-8",
    )
    surveyed = survey_boat(tmp_path / "boat")
    assert [each.item for each in surveyed.deferred] == ["bolt cutters"]
    assert of("deferral.inexact", surveyed.findings) == []
    assert "bolt cutters, spare" in [each.item for each in of("deck.side-missing", surveyed.findings)]


@pytest.fixture
def looked_at(monkeypatch):
    """Surveys a boat and gives what deferring was given to look at."""
    seen = []

    def noted(vessel, findings, as_of, until=None):
        seen.append(findings)
        return defer(vessel, findings, as_of, until)

    monkeypatch.setattr(publishing, "defer", noted)

    def look(folder, as_of=None, until=None):
        seen.clear()
        survey_boat(folder, as_of, until)
        return [each for found in seen for each in found]

    return look


@pytest.fixture(scope="module")
def entry(tmp_path_factory):
    """An entry whose check and item a test may set."""
    folder = tmp_path_factory.mktemp("entry")
    text = (VESSELS / "saltmeadow/vessel.yaml").read_text(encoding="utf-8")
    line = f"\ndeferred-defects:\n  - {{check: raft.old, item: liferaft, {WHY}}}\ndrills:"
    (folder / "vessel.yaml").write_text(changed(text, "", "\ndrills:", line), encoding="utf-8")
    vessel, _ = load(folder, "")
    return vessel.deferred_defects[0]


def one_thing(one, other):
    """Whether two findings are of one thing, worked out apart from the program: by name, block and place."""
    if one is other:
        return True
    if not one.item or one.item.lower() != other.item.lower():
        return False
    if one.about is None or other.about is None:
        return one.place == other.place
    return one.about in list(other.about.inner()) or other.about in list(one.about.inner())


def strings_near(findings):
    """Whatever somebody might write under `item`: the names, each prefix of them, parts of key paths, blanks, nothing."""
    near = {"", " ", "gear", "vessel", "vessel.yaml", "*", None}
    for each in findings:
        for name in (each.item, each.place.key):
            near |= {
                name,
                name.upper(),
                *(name[:end] for end in range(len(name))),
                *re.split(r"[.\[\], ]", name),
            }
    return near


def wrongly_named(entry, check, findings):
    """Names under which an entry defers other than the one thing that bears them, or things that no name reaches."""
    wrong = []
    vessel = SimpleNamespace(
        deferred_defects=[entry], alarms=(), gear=(), grab_bags=(), lifejackets=(), radio=None
    )
    reached = []
    for name in strings_near(findings):
        entry.__dict__.update(check=check, item=name)
        remaining, deferred, more = defer(vessel, findings, DAY)
        said = (name or "").strip().lower()
        bearers = [each for each in findings if said and said in (each.item.lower(), each.place.key.lower())]
        exact = bearers if all(one_thing(bearers[0], each) for each in bearers) else []
        covered = [each for found in deferred.values() for each in found]
        left = [each for each in findings if each not in exact]
        told = [each.weight for each in more] == ([] if exact else [Weight.DEFECT])
        if covered != exact or remaining != left or not told:
            wrong.append((check, name, [each.message for each in covered]))
        reached += covered
    for each in findings:
        twins = [other for other in findings if other.item == each.item and other.place.key == each.place.key]
        if each not in reached and all(one_thing(each, other) for other in twins):
            wrong.append((check, each.item, "no name reaches it"))
    return wrong


def wrong_names(entry, findings, known):
    """What is wrong with the names of the findings of each check that may be deferred; none is looked at twice."""
    wrong = []
    for check, one in all_checks().items():
        found = of(check, findings)
        seen = (check, *((each.item, each.place.key, each.place.line) for each in found))
        if found and one.deferrable and seen not in known:
            known.add(seen)
            wrong += wrongly_named(entry, check, found)
    return wrong


@pytest.mark.thorough
@pytest.mark.parametrize("boat", sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml")))
def test_every_finding_of_a_specimen_has_its_own_name_and_no_other_defers_it(boat, looked_at, entry):
    known = set()
    for year in (2026, 2040):
        late = date(year, 6, 1)
        assert wrong_names(entry, looked_at(VESSELS / boat, late, late), known) == []
    assert len(known) > 3


@pytest.mark.thorough
def test_every_finding_of_the_bad_cases_has_its_own_name_and_no_other_defers_it(
    looked_at, entry, tmp_path, one_in
):
    """One case in four; with --all-mutants all of them."""
    known, wrong = set(), []
    for path in spread(cases(), one_in(4)):
        case = read_case(path)
        folder = lay_out(case, tmp_path / path.stem)
        wrong += [
            (path.stem, *each)
            for each in wrong_names(entry, looked_at(folder, case.as_of, case.until), known)
        ]
        shutil.rmtree(tmp_path / path.stem)
    assert wrong == []
    assert len({check for check, *_ in known}) > 100


@pytest.mark.parametrize(
    "item", ["batteries", "the batteries shut-off", "Batteries  shut-off", "stops[4].where"]
)
def test_a_thing_goes_by_its_name_and_by_the_words_with_which_its_finding_begins(item):
    found = Finding(
        "fire.shut-off-inside",
        Weight.DEFECT,
        "the batteries shut-off is worked inside the engine space",
        Place("vessel.yaml", 1, 1, "stops[4].where"),
        "",
        "batteries",
    )
    other = replace(
        found,
        message="the fuel shut-off is worked inside the engine space",
        item="fuel",
        place=replace(found.place, key="stops[2].where"),
    )
    assert _meant(item, [found, other]) == [found]


@pytest.mark.parametrize(
    "item", ["the", "the batteries shut", "shut-off", "", "the fuel shut-off", "batteries shut-offs"]
)
def test_and_by_nothing_less(item):
    place = Place("vessel.yaml", 1, 1, "stops[4].where")
    found = Finding(
        "fire.shut-off-inside",
        Weight.DEFECT,
        "the batteries shut-off is worked inside",
        place,
        "",
        "batteries",
    )
    assert _meant(item, [found]) == []
