"""The shelf of kinds of gear: its faults, each at its place; who is of which kind; a kind added on the shelf alone."""

import re
import shutil
from datetime import date

import pytest
from checks.survey_patch import VESSELS

from generator.__main__ import main
from generator.manual import soundness
from generator.manual.composing import compose
from generator.manual.deadlines import deadlines_of
from generator.manual.known_keys import keys_and_words
from generator.manual.reckoning import Reckoning
from generator.shelves import gear, shelf
from generator.shelves.folder import templates_folder
from generator.shelves.gear import (
    answers_to,
    before_comma,
    kind_of,
    kind_renamed,
    kinds,
    kinds_that,
)
from generator.shelves.gear_rows import GEAR, PROPERTIES
from generator.shelves.languages import catalogue
from generator.shelves.lives import LIVES
from generator.survey.registry import COMPOSITION, DESCRIPTION, Sight, all_checks, run
from generator.vessel.loading import load

AS_OF = date(2026, 6, 1)


def own(kind, tally="kinds: 1", more=""):
    return f"kinds:\n  - {{{kind}}}\n{more}tally: {{{tally}}}\n"


def found_in(text):
    file, found = GEAR.read_text(text, "gear/own.yaml")
    known = {**keys_and_words(), "life of gear": ["smoke alarm", "torches"], "check": ["gear.expired"]}
    said = shelf.faults([(GEAR, (file,), found)], known)
    return [(each.place.line, each.place.column, each.message, each.remedy) for each in said]


@pytest.mark.parametrize(
    ("text", "line", "column", "message", "remedy"),
    [
        (own("is: [loses pressure]", "kinds: 1, is: 1"), 2, 5, "'kinds[1].kind' is missing", "kind"),
        (own("kind: hoop, alsoo: [ring]"), 2, 18, "'alsoo' is no key", "write also?"),
        (own("kind: hoop, is: [must be datd]", "kinds: 1, is: 1"), 2, 23, "'must be datd' is none", "write must be dated?"),
        (own("kind: hoop, lasts-as: smoke alarms", "kinds: 1, lasts-as: 1"), 2, 28, "no life of gear 'smoke alarms'", "write smoke alarm?"),
        (own("kind: hoop, serves-as: [hop]", "kinds: 1, serves-as: 1"), 2, 30, "there is no gear 'hop'", "write hoop?"),
        (own("kind: hoop, serves-as: [hoop]", "kinds: 1, serves-as: 1"), 2, 29, "serves as itself", "other kinds"),
        (own("kind: hoop, lasts-as: torches, lines: [{routine: yes}]", "kinds: 1, lasts-as: 1, lines: 1, routine: 1"), 2, 44, "says already how it lasts", "keep the one"),
        (own("kind: hoop, lines: [{lives: [{from: [mde], months: 6, source: x, edition: x, standing: read, weight: defect}]}]",
             "kinds: 1, lines: 1, lives: 1"), 2, 43, "a gear has no key 'mde'", "write made?"),
        (own("kind: hoop, lines: [{check: gear.expred}]", "kinds: 1, lines: 1, check: 1"), 2, 34, "no check 'gear.expred'", "gear.expired?"),
        (own("kind: hoop, marked-for: {months: 48, source: x}", "kinds: 1, marked-for: 1"), 2, 30, "standing' is missing", "standing"),
        (own("kind: hoop, marked-for: {months: four, source: x, standing: read}", "kinds: 1, marked-for: 1"),
         2, 39, "not a whole number", "digits"),
        (own("kind: hoop", "kinds: 2", "  - {kind: hoop}\n"), 3, 12, "two are called 'hoop'", "its own name"),
        (own("kind: hoop", "kinds: 2, also: 1", "  - {kind: ring, also: [Hoop]}\n"), 3, 25, "two are called 'hoop'", "its own name"),
        (own("kind: hoop", "kinds: 2, other-names: 1", "  - {kind: ring, other-names: [hoop]}\n"),
         3, 32, "two are called 'hoop'", "its own name"),
        (own("kind: hoop", "kinds: 2"), 3, 9, "2 times 'kinds'", "kinds: 1"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_place(text, line, column, message, remedy):
    found = found_in(text)
    assert any(
        (at, across) == (line, column) and message in said and remedy in instead
        for at, across, said, instead in found
    ), found


def test_all_faults_are_told_at_once():
    text = own("kindd: hoop, is: [round], lasts-as: nothing", "kinds: 1, is: 1, lasts-as: 1")
    assert [each[2] for each in found_in(text)] == [
        "'kinds[1].kind' is missing: What do steps and rule sets call it?",
        "'kindd' is no key of kinds[1]",
        "'round' is none of the words this key takes",
    ]


def test_the_shelf_is_sound_and_no_property_is_idle():
    files, found = GEAR.read(templates_folder())
    read = LIVES.read(templates_folder())
    said = shelf.faults([(GEAR, files, found), (LIVES, *read)], {**keys_and_words(), "check": all_checks()})
    assert [each for each in said if each.place.file == "templates/gear/gear.yaml"] == []
    assert [each for each in PROPERTIES if not kinds_that(each)] == []
    assert all(kind.longest_months is None or kind.longest_months % 12 == 0 for kind in kinds())


def test_a_name_stands_before_the_first_comma():
    assert before_comma("Fire extinguisher , galley, port") == "fire extinguisher"
    assert before_comma(None) == ""


@pytest.mark.parametrize(
    ("what", "kind"),
    [
        ("Smoke alarm, forward", "smoke alarm"),
        ("smoke detector", "smoke alarm"),
        ("rocket flares", "parachute flares"),
        ("old rocket", "parachute flares"),
        ("green rockets", "other flares and smokes"),
        ("old extinguisher", "other extinguishers"),
        ("spare EPIRB", "radios and beacons that call for help"),
        ("water pistol", None),
        ("bracket of the lifebuoy", None),
    ],
)
def test_a_thing_is_of_the_kind_its_name_says_or_words_in_it(what, kind):
    found = kind_of(what)
    assert (found.name if found else None) == kind


def test_steps_find_a_thing_by_every_name_of_its_kind():
    assert "torch" in answers_to("torch, by the bunk")
    assert {"torch", "flashlight"} <= answers_to("flashlight")
    assert kind_of("flashlight").name == kind_renamed("flashlight").name == "torch"
    assert kind_renamed("torches") is kind_renamed("torch") is None


def test_a_property_that_is_none_is_a_fault_of_the_program():
    with pytest.raises(LookupError):
        kinds_that("floats about")


TWIN = """\
kinds:
  - kind: rescue hoop
    other-names: [hoop]
    is: [thrown to somebody]
    serves-as: [lifebuoy]
    lasts-as: lights of lifebuoys
tally: {kinds: 1, other-names: 1, is: 1, serves-as: 1, lasts-as: 1}
"""


@pytest.fixture
def twins(tmp_path, monkeypatch):
    """Templates with one file more, and a boat whose lifebuoys may be called otherwise."""
    copy = tmp_path / "templates"
    shutil.copytree(templates_folder(), copy)
    (copy / "gear" / "hoop.yaml").write_text(TWIN, encoding="utf-8")
    monkeypatch.setattr(shelf, "templates_folder", lambda: copy)

    def named(name, **changes):
        text = (VESSELS / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
        assert "what: lifebuoy" in text or 'what: "lifebuoy' in text
        text = text.replace("what: lifebuoy", f"what: {name}").replace('what: "lifebuoy', f'what: "{name}')
        for old, new in changes.items():
            text = text.replace(old, new)
        folder = tmp_path / name
        folder.mkdir(exist_ok=True)
        (folder / "vessel.yaml").write_text(text, encoding="utf-8")
        return load(folder, "boat")[0]

    return named


def blind(text, name):
    return text.replace(name, "*").replace("lifebuoy", "*")


def seen(vessel, name):
    """What is said of a boat, with the name of the kind taken out."""
    reckoning = Reckoning(vessel)
    manual, gaps = compose(vessel, AS_OF, AS_OF, catalogue(), reckoning=reckoning)
    sight = Sight(vessel, AS_OF, AS_OF, reckoning=reckoning).composed(manual)
    findings = [*gaps, *run(DESCRIPTION, sight), *run(COMPOSITION, sight)]
    own_facts = {"has lifebuoy", "has rescue hoop"}
    return {
        "facts": {fact: true for fact, true in reckoning.facts.items() if fact not in own_facts},
        "steps": [(one.id, step.text, len(step.gear)) for one in manual.procedures for step in one.steps],
        "findings": sorted((each.check, blind(each.message, name)) for each in findings),
        "deadlines": sorted((each.last_day, blind(each.item, name), each.what) for each in manual.deadlines),
        "carriage": [(row.rule.item, row.state, row.aboard) for row in manual.carriage],
    }


def test_a_kind_added_in_one_file_does_what_its_twin_does(twins):
    twin = twins("rescue hoop")
    assert Reckoning(twin).facts["has rescue hoop"]
    assert Reckoning(twin).facts["has lifebuoy"], "it serves as one"
    assert seen(twin, "rescue hoop") == seen(twins("lifebuoy"), "lifebuoy")


def test_what_it_lacks_is_found_as_of_its_twin(twins):
    both = []
    for name in ("lifebuoy", "rescue hoop"):
        vessel = twins(name)
        item = next(each for each in vessel.gear if name in str(each.what))
        item.__dict__.update(what=f"{name}, with light", expires=None, replaced=None)
        both.append(seen(vessel, f"{name}, with light"))
    assert both[0] == both[1]
    assert any(check == "dates.missing" and "*" in said for check, said in both[0]["findings"])


def test_faults_of_gear_lives_and_limits_are_told_together_and_nothing_is_begun(
    twins, tmp_path, monkeypatch, capsys
):
    copy = tmp_path / "templates"
    monkeypatch.setattr(soundness, "templates_folder", lambda: copy)
    for name, old, new in (
        ("gear/gear.yaml", "lasts-as: torches", "lasts-as: torchs"),
        ("gear/hoop.yaml", "thrown to somebody", "thrown to nobody"),
        ("lives/lives.yaml", "check: raft.cylinder-test", "check: raft.cylinder-tests"),
        ("limits/boat.yaml", "most: 2 m,", "most: 2 kg,"),
    ):
        text = (copy / name).read_text(encoding="utf-8")
        assert old in text
        (copy / name).write_text(text.replace(old, new, 1), encoding="utf-8")
    assert main(["survey", str(VESSELS / "saltmeadow")]) == 2
    said = capsys.readouterr().out
    for name, message in (
        ("gear/gear.yaml", "there is no life of gear 'torchs'"),
        ("gear/hoop.yaml", "'thrown to nobody' is none"),
        ("lives/lives.yaml", "there is no check 'raft.cylinder-tests'"),
        ("limits/boat.yaml", "'2 kg' is no length"),
    ):
        assert re.search(rf"templates/{name}:\d+:\d+: defect file.bad-value: {re.escape(message)}", said), (
            said
        )


def test_its_other_name_is_told(twins):
    vessel = twins("hoop")
    found = [
        each for each in run(DESCRIPTION, Sight(vessel, AS_OF, AS_OF)) if each.check == "gear.other-name"
    ]
    assert ["rescue hoop" in each.message for each in found] == [True] * len(found) != []


def test_without_any_that_is_thrown_its_absence_is_found(twins):
    vessel = twins("lifebuoy")
    vessel.__dict__["gear"] = [
        each for each in vessel.gear if kind_of(each.what) not in kinds_that("thrown to somebody")
    ]
    sight = Sight(vessel, AS_OF, AS_OF)
    (found,) = [each for each in run(DESCRIPTION, sight) if each.check == "gear.float-missing"]
    assert "nor a rescue hoop" in found.message


def test_deadlines_of_unknown_gear_are_those_marked(twins):
    vessel = twins("lifebuoy")
    kind = gear.lasting("boathook", gear.kind_of("boathook"))
    assert kind.for_others
    assert deadlines_of(vessel)
