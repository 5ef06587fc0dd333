"""Procedures, stowages, holds and stations are read as strictly as a boat's file: each fault is found, where it stands."""

import shutil
from pathlib import Path

import pytest

from generator.__main__ import USAGE, main
from generator.manual import soundness
from generator.manual.soundness import faults_below, faults_of_shelves
from generator.shelves.procedures import PROCEDURES, ShelfFault, shelf
from generator.survey.registry import all_checks

TEMPLATES = Path(__file__).resolve().parents[2] / "templates"
CHECKS = tuple(all_checks())
FIRE, GAS, LAUNCH = "procedures/fire.yaml", "procedures/gas.yaml", "procedures/raft-launch.yaml"
AWAY = "procedures/raft-away.yaml"
STRAP, SLOT = "procedures/held-by/strap.yaml", "procedures/stowage/under-cockpit-slot.yaml"
STOWAGES, HOLDS, STATIONS = "rafts/stowages.yaml", "rafts/holds.yaml", "cards/stations.yaml"


@pytest.fixture
def copy(tmp_path):
    """The shelves in a folder of their own, to be changed."""
    shutil.copytree(TEMPLATES, tmp_path, dirs_exist_ok=True)

    def change(name, old, new):
        text = (tmp_path / name).read_text(encoding="utf-8")
        assert old in text, f"{name} has no {old!r}"
        (tmp_path / name).write_text(text.replace(old, new, 1), encoding="utf-8")
        return tmp_path

    return change


def told(folder):
    """What is found there: place, message and remedy, besides a tally that no longer fits."""
    return [
        (str(each.place).removeprefix("templates/"), each.message, each.remedy)
        for each in faults_below(folder, CHECKS)
        if not each.message.startswith("the tally says")
    ]


def test_the_shelves_are_sound():
    assert faults_of_shelves(CHECKS) == ()


# what is changed: file, old, new; what is found: place, a part of the message, a part of the remedy
FAULTS = {
    "unknown key": (FIRE, "    duty: fight", "    dutty: fight", f"{FIRE}:78:5", "'dutty' is no key", "write duty?"),
    "key of the order": (FIRE, "    after: [fire.shout]", "    aftr: [fire.shout]", f"{FIRE}:77:5", "'aftr' is no key", "write after?"),
    "key of a file": (FIRE, "emergency: yes", "emergncy: yes", f"{FIRE}:18:1", "'emergncy' is no key", "write emergency?"),
    "standing": (FIRE, "standing: read", "standing: raed", f"{FIRE}:9:82", "'raed' is none of the words", "write read?"),
    "no yes": (FIRE, "essential: yes", "essential: perhaps", f"{FIRE}:26:30", "'perhaps' is none of the words", "yes, no"),
    "no number": (FIRE, "phase: 1", "phase: one", f"{FIRE}:48:12", "'one' is not a whole number", "digits"),
    "ground": (FIRE, "ground: fire", "ground: plian", f"{FIRE}:17:9", "'plian' is none of the words", "write plain?"),
    "no source": (FIRE, "    source: single-handed practice\n", "", f"{FIRE}:55:5", "source' is missing", "write source"),
    "blank": (FIRE, "procedure: fire", "procedure:", f"{FIRE}:2:11", "the value is blank", "write"),
    "fact": (FIRE, "[has fire blanket,", "[has fire blankett,", f"{FIRE}:76:12", "there is no fact 'has fire blankett'", "has fire blanket?"),
    "fact with not": (FIRE, "[not several persons,", "[not severl persons,", f"{FIRE}:57:12", "there is no fact 'severl persons'", "several persons?"),
    "second fact": (LAUNCH, "[has tethers, outside the cockpit]", "[has tethers, outside the cokpit]", f"{LAUNCH}:28:25", "no fact 'outside the cokpit'", "outside the cockpit?"),
    "fact of when-any": (LAUNCH, "when-any: [fixed vhf,", "when-any: [fixed vfh,", f"{LAUNCH}:37:16", "there is no fact 'fixed vfh'", "fixed vhf?"),
    "fact of a file": (SLOT, "when: [under-cockpit slot]", "when: [under-cockpit slit]", f"{SLOT}:3:8", "there is no fact 'under-cockpit slit'", "under-cockpit slot?"),
    "fact of a drill": (FIRE, "[always]", "[allways]", f"{FIRE}:20:11", "there is no fact 'allways'", "always?"),
    "step": (FIRE, "after: [fire.shout]", "after: [fire.shuot]", f"{FIRE}:77:13", "there is no step 'fire.shuot'", "fire.shout"),
    "step of another procedure": (FIRE, "after: [fire.shout]", "after: [flooding.shout]", f"{FIRE}:77:13", "there is no step 'flooding.shout'", "fire.shout"),
    "step of a file that adds": (STRAP, "[raft-launch.painter-also,", "[raft-launch.painter-alzo,", f"{STRAP}:17:13", "there is no step 'raft-launch.painter-alzo'", "raft-launch.painter-also?"),
    "duty": (FIRE, "duty: fight", "duty: figth", f"{FIRE}:78:11", "the bill of 'fire' has no duty 'figth'", "write fight?"),
    "duty of another bill": (LAUNCH, "duty: launch", "duty: fight", f"{LAUNCH}:20:11", "the bill of 'abandon-ship' has no duty 'fight'", "launch"),
    "ability": (FIRE, "needs: radio", "needs: raido", f"{FIRE}:45:117", "there is no ability 'raido'", "write radio?"),
    "gear": (FIRE, "gear: [fire blanket]", "gear: [fire blankets]", f"{FIRE}:79:12", "there is no gear 'fire blankets'", "fire blanket?"),
    "word": (LAUNCH, "place: lifejackets-place", "place: lifejacket-place", f"{LAUNCH}:21:12", "there is no word 'lifejacket-place'", "lifejackets-place?"),
    "hold": (STRAP, "hold: strap", "hold: strapp", f"{STRAP}:7:11", "there is no hold 'strapp'", "write strap?"),
    "procedure added to": (STRAP, "adds-to: raft-launch", "adds-to: raft-lanch", f"{STRAP}:2:10", "there is no procedure 'raft-lanch'", "raft-launch?"),
    "bill": (LAUNCH, "bill: abandon-ship", "bill: abandon-shop", f"{LAUNCH}:14:7", "there is no procedure 'abandon-shop'", "abandon-ship?"),
    "bill without duties": (LAUNCH, "bill: abandon-ship", "bill: boarding", f"{LAUNCH}:14:7", "'boarding' has no duties", "abandon-ship"),
    "station": (FIRE, "cards: [helm, galley]", "cards: [helm, gally]", f"{FIRE}:19:15", "there is no station 'gally'", "write galley?"),
    "step called twice": (FIRE, "id: fire.alone", "id: fire.shout", f"{FIRE}:55:9", "two are called 'fire.shout'", "its own name"),
    "step of another file's name": (FIRE, "id: fire.pan", "id: gas.pan", f"{FIRE}:74:9", "'gas.pan' is no name of a step in fire.yaml", "begin it with 'fire.'"),
    "file of another name": (FIRE, "procedure: fire", "procedure: fires", f"{FIRE}:2:12", "the file of 'fires' is called fire.yaml", "both the same"),
    "neither nor": (STRAP, "adds-to: raft-launch\n", "", f"{STRAP}:2:1", "either a procedure or adds to one", "write 'procedure'"),
    "order in a file that adds": (STRAP, "adds-to: raft-launch", "adds-to: raft-launch\norder: 5", f"{STRAP}:3:8", "'order' belongs to the procedure", "remove it"),
    "procedure without order": (FIRE, "order: 30\n", "", f"{FIRE}:2:1", "'order' is missing", "write order"),
    "procedure without a sign": (GAS, "sign: ", "sing: ", f"{GAS}:2:1", "'sign' is missing", "write sign"),
    "sign that is none": (GAS, "<path d=", "<script d=", f"{GAS}:105:7", "is no sign", "shapes of SVG"),
    "sign in a file that adds": (STRAP, "steps:", "sign: '<path d=\"M8 8h8\"/>'\nsteps:", f"{STRAP}:4:7", "'sign' belongs to the procedure", "remove it"),
    "a step waits for itself": (FIRE, "after: [fire.shout]", "after: [fire.pan]", f"{FIRE}:77:12", "steps wait for each other: fire.pan, fire.pan", "take one name out"),
    "fact of a raft in the vessel's": (FIRE, "[has fire blanket,", "[float-free,", f"{FIRE}:76:12", "'float-free' is said of one raft", "per: raft"),
    "stowage in the vessel's": (FIRE, "[has fire blanket,", "[not davit,", f"{FIRE}:76:12", "'davit' is said of one raft", "per: raft"),
    "word of a raft in the vessel's": (FIRE, "place: place of fire blanket", "place: knife", f"{FIRE}:80:12", "'knife' is said of one raft", "per: raft"),
    "step without words": (FIRE, "id: fire.pan", "id: fire.pann", f"{FIRE}:74:9", "no words for the step 'fire.pann'", "fire.yaml of the language"),
    "duty without words": (FIRE, "{id: close", "{id: closs", f"{FIRE}:44:10", "no words for the duty 'closs'", "fire.yaml of the language"),
    "other words that are none": (FIRE, "words: fight-in-the-open", "words: fight-outside", f"{FIRE}:27:191", "no words for the duty 'fight' where it is said in other words", "fire.yaml of the language"),
    "apart from no duty": (FIRE, "apart-from: [call, backup]", "apart-from: [cal, backup]", f"{FIRE}:27:85", "'cal' is no other duty of fire.yaml", "write call?"),
    "apart from itself": (FIRE, "apart-from: [call, backup]", "apart-from: [fight, backup]", f"{FIRE}:27:85", "'fight' is no other duty", "write one of"),
    "fact of other words": (FIRE, "{when: [not closed in]", "{when: [not closd in]", f"{FIRE}:27:168", "there is no fact 'closd in'", "closed in?"),
    "raft's fact of other words": (FIRE, "{when: [not closed in]", "{when: [davit]", f"{FIRE}:27:168", "'davit' is said of one raft", "per: raft"),
    "fact of a station": (STATIONS, "[somewhere to cook]", "[somewhere to cok]", f"{STATIONS}:12:54", "there is no fact 'somewhere to cok'", "somewhere to cook?"),
    "property": (STOWAGES, "    exposed: yes", "    exposd: yes", f"{STOWAGES}:27:5", "'exposd' is no key", "write exposed?"),
    "property left out": (STOWAGES, "    clip-on: yes\n", "", f"{STOWAGES}:21:5", "clip-on' is missing", "write clip-on"),
    "way over": (STOWAGES, "goes-over: slides", "goes-over: slidse", f"{STOWAGES}:30:16", "'slidse' is none of the words", "slides"),
    "hold of a stowage": (STOWAGES, "[HRU, Senhouse slip,", "[HRU, Senhouse slipp,", f"{STOWAGES}:23:20", "there is no hold 'Senhouse slipp'", "Senhouse slip?"),
    "container": (STOWAGES, "container: [canister, valise]", "container: [canister, valice]", f"{STOWAGES}:22:27", "'valice' is none of the words", "valise"),
    "stowage twice": (STOWAGES, "stowage: coachroof cradle", "stowage: deck cradle", f"{STOWAGES}:36:14", "two are called 'deck cradle'", "its own name"),
    "stowage without steps": (STOWAGES, "stowage: deck cradle", "stowage: foredeck chute", f"{STOWAGES}:21:14", "no file adds steps for the stowage 'foredeck chute'", "procedures/stowage"),
    "stowage called as a fact": (STOWAGES, "stowage: deck cradle", "stowage: several rafts", f"{STOWAGES}:21:14", "a fact is called 'several rafts' already", "otherwise"),
    "engine not stopped": (STOWAGES, "beside-propeller: no", "beside-propeller: yes", f"{STOWAGES}:32:23", "none of its steps stops the engine", "engine stop place"),
    "hold without a step": (HOLDS, "{hold: pin,", "{hold: pelican hook,", f"{HOLDS}:11:12", "no file adds a step that takes off the hold 'pelican hook'", "procedures/held-by"),
    "what a hold frees": (HOLDS, "frees: [strap]", "frees: [starp]", f"{HOLDS}:9:69", "there is no hold 'starp'", "write strap?"),
    "steps taken of none": (AWAY, "of: boarding", "of: bording", f"{AWAY}:18:10", "there is no procedure 'bording'", "boarding?"),
    "steps taken of itself": (AWAY, "of: boarding", "of: raft-away", f"{AWAY}:18:10", "takes steps of itself", "another procedure"),
    "steps taken of the vessel's": (AWAY, "of: boarding", "of: leaving", f"{AWAY}:18:10", "'per' or 'bill' is not the same", "both alike"),
    "parts without a step": (AWAY, "from: 30", "from: 77", f"{AWAY}:18:10", "'boarding' has no step in these parts", "parts that have some"),
    "parts that end before they begin": (AWAY, "from: 30", "from: 30, to: 20", f"{AWAY}:18:34", "ends with part 20", "later part"),
    "parts taken twice": (AWAY, "from: 30", "from: 12", "procedures/raft-inflate.yaml:18:10", "is printed on two faces", "keep the one that is true"),
    "nothing left": (AWAY, "from: 30", "from: 15", "procedures/boarding.yaml:3:12", "all steps of 'boarding' are printed elsewhere", "leave it some"),
    "neither steps nor takes": (AWAY, "takes:\n  - {of: boarding, from: 30}\n", "", f"{AWAY}:2:1", "'steps' is missing", "write steps, or takes"),
    "takes in a file that adds": (STRAP, "steps:", "takes: [{of: boarding}]\nsteps:", f"{STRAP}:4:8", "'takes' belongs to the procedure", "remove it"),
    "station without words": (STATIONS, "station: helm", "station: wheel", f"{STATIONS}:10:15", "no words for the station 'wheel'", "station.wheel"),
    "what a station shows": (STATIONS, "call script", "call scrpt", f"{STATIONS}:11:54", "'call scrpt' is none of the words", "call script"),
}  # fmt: skip


@pytest.mark.thorough
@pytest.mark.parametrize("case", FAULTS.values(), ids=FAULTS)
def test_a_fault_is_found_where_it_stands(copy, case):
    name, old, new, place, message, remedy = case
    found = told(copy(name, old, new))
    here = [each for each in found if each[0] == place and message in each[1]]
    assert here, found
    assert remedy in here[0][2]


def test_a_deleted_line_is_missed_by_its_count(copy):
    folder = copy(FIRE, "    duty: fight\n", "")
    (finding,) = faults_below(folder, CHECKS)
    assert "the tally says 15 times 'duty', and it stands here 14 times" in finding.message
    assert finding.place.file == f"templates/{FIRE}"


def test_a_circle_of_steps_is_named_once(copy):
    copy(FIRE, "id: fire.shout\n", "id: fire.shout\n    after: [fire.fight]\n")
    found = told(copy(FIRE, "  - id: fire.alone\n", "  - id: fire.alone\n    after: [fire.pan]\n"))
    (circle,) = [message for _, message, _ in found if "wait for each other" in message]
    assert circle in (
        "steps wait for each other: fire.shout, fire.fight, fire.shout",
        "steps wait for each other: fire.fight, fire.shout, fire.fight",
    )


def test_two_when_any_over_each_other(copy):
    copy(SLOT, "when: [under-cockpit slot]", "when: [under-cockpit slot]\nwhen-any: [raft]")
    found = told(copy(SLOT, "    when: [engine]", "    when: [engine]\n    when-any: [sails]"))
    assert [place for place, message, _ in found if "when-any under a file's own" in message] == [
        f"{SLOT}:4:11"
    ]


def test_all_faults_are_told_at_once_in_the_order_of_the_files(copy):
    copy(FIRE, "duty: fight", "dutty: fight")
    copy(STRAP, "hold: strap", "hold: strapp")
    found = told(copy(STOWAGES, "exposed: yes", "exposd: yes"))
    assert [place.partition(":")[0] for place, _, _ in found] == sorted(
        place.partition(":")[0] for place, _, _ in found
    )
    assert {place.partition(":")[0] for place, _, _ in found} == {FIRE, STRAP, STOWAGES}


@pytest.mark.parametrize(
    "argv",
    [
        ["survey", "vessels"],
        ["publish", "vessels"],
        ["due", "vessels"],
        ["why", "--all"],
        ["keys", "gear"],
        ["schema"],
        ["commission", "Tern", "--ask-nothing"],
    ],
)
def test_a_command_begins_nothing_on_faulty_shelves(copy, monkeypatch, capsys, argv):
    folder = copy(FIRE, "duty: fight", "duty: figth")
    monkeypatch.setattr(soundness, "templates_folder", lambda: folder)
    assert main(argv) == USAGE
    out = capsys.readouterr().out
    assert out.startswith(
        "the program's own data files (templates/) are faulty: 1 defect; nothing was begun.\n"
    )
    assert f"templates/{FIRE}:78:11: defect file.bad-value: the bill of 'fire' has no duty 'figth'" in out


def test_a_faulty_shelf_is_never_composed_from(copy, monkeypatch):
    folder = copy(FIRE, "after: [fire.shout]", "after: [fire.shuot]")
    files, found = PROCEDURES.read(folder)
    assert found == ()
    monkeypatch.setattr(type(PROCEDURES), "files", lambda _self: files)
    shelf.cache_clear()
    try:
        with pytest.raises(ShelfFault, match=r"there is no step 'fire\.shuot'"):
            shelf()
    finally:
        shelf.cache_clear()


def test_an_editor_gets_a_schema_of_each_file():
    schema = PROCEDURES.schema()
    assert set(schema["properties"]) >= {"procedure", "adds-to", "steps", "duties", "tally"}
    assert schema["$defs"]["StepRow"]["required"] == ["id", "phase", "source", "standing"]
