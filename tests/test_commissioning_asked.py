"""A starter file by questions at the terminal, and the names of vessels it takes and of the folders it makes."""

import re

import pytest

from generator.__main__ import main
from generator.commissioning.naming import folder_name
from generator.commissioning.questions import questions
from generator.commissioning.writing import commission
from generator.vessel.loading import load


@pytest.mark.parametrize(("name", "folder"), [
    ("Windhover", "windhover"), ("Ørnen af Ærø II", "ornen-af-aero-ii"), ("L'Étoile", "l-etoile"), ("Straße 7", "strasse-7"),
    ("Con", "con-vessel"), ("../etc/passwd", "etc-passwd"), ("Αργώ", "αργω"), ("海風", "海風"), ("No. 5", "no-5"),
])  # fmt: skip
def test_folder_names(name, folder):
    assert folder_name(name) == folder


@pytest.mark.parametrize(
    "name",
    [
        "No",
        "null",
        "12:30",
        "Anna: the second",
        "#1",
        "- dash",
        "Salt & Pepper",
        "'Quoted'",
        '"Q"',
        "Back\\slash",
        "{{ 7 * 7 }}",
        "{% raw %}",
        "Ørnen",
        "Αργώ",
        "007",
        "1e3",
        "~",
        "[x]",
        "* star",
        "a # b",
    ],
)
def test_names_are_written_so_that_they_read_back(tmp_path, name):
    if not re.search(r"\w", name) or name == "null":
        return
    vessel, _ = load(commission(name, {}, tmp_path).path.parent)
    assert vessel.vessel.name == name


def test_the_command_line(tmp_path, capsys):
    assert main(["commission", "Windhover", "--into", str(tmp_path), "--set", "vessel.engine=outboard"]) == 0
    printed = capsys.readouterr().out
    assert f"{tmp_path / 'windhover' / 'vessel.yaml'} written; 24 of 25 first answers are missing" in printed
    assert printed.splitlines()[-1].endswith(f"musterbook publish {tmp_path / 'windhover'} --proof-copy")
    assert main(["commission", "Windhover", "--into", str(tmp_path)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert main(["commission", "Other", "--into", str(tmp_path), "--set", "vessel.length"]) == 2


def test_all_wrong_answers_are_told_at_once(tmp_path, capsys):
    wrong = [
        "vessel.lenght=12 m",
        "vessel.beam=3,9 m",
        "vessel.use=privat",
        "beam",
        "vessel.flag=a",
        "vessel.flag=b",
    ]
    wrong += ["lifejackets[adult].where=hangar", "station-bill.fire.comand.who=mate"]
    given = [each for one in wrong for each in ("--set", one)]
    assert main(["commission", "Windhover", "--into", str(tmp_path), *given]) == 2
    told = capsys.readouterr().err
    for said in ("--set beam: write KEY=VALUE", "vessel.flag is answered twice, 'a' and 'b'"):
        assert said in told
    given = [each for one in wrong if one not in ("beam", "vessel.flag=b") for each in ("--set", one)]
    assert main(["commission", "Windhover", "--into", str(tmp_path), *given]) == 2
    told = capsys.readouterr().err
    for said in (
        "4 of the answers cannot be taken, and nothing was written:",
        "'vessel.lenght' is no key of a vessel file; write vessel.length?",
        "vessel.beam: '3,9 m' has a comma",
        "vessel.use: 'privat' is none of the words this key takes; write private?",
        "station-bill.fire has no 'comand'; write station-bill.fire.command?",
    ):
        assert said in told
    assert list(tmp_path.iterdir()) == []
    place = ["--set", "vessel.type=monohull", "--set", "lifejackets[adult].where=hangar"]
    assert main(["commission", "Windhover", "--into", str(tmp_path), *place]) == 2
    assert "lifejackets[adult].where: there is no space 'hangar' on her plan" in capsys.readouterr().err


class Terminal:
    """Stands in for the terminal: types lines, then ends as `end` says; `prompts` counts how often it was asked."""

    def __init__(self, monkeypatch, *lines, end=EOFError):
        self.lines, self.end, self.prompts = list(lines), end, 0
        monkeypatch.setattr("builtins.input", self.typed)
        monkeypatch.setattr("sys.stdin", type("Stdin", (), {"isatty": lambda self: True})())

    def typed(self, prompt):
        assert prompt == " > "
        self.prompts += 1
        if not self.lines:
            raise self.end
        return self.lines.pop(0)


SMALL = (
    "monohull", "skipper, mate", "none", "none", "cockpit, port", "none", "none", "cockpit locker, port", "cockpit",
    "outboard", "none", "sloop", "sheltered", "temperate", "private", "6.5 m, 2.4 m", "Ireland",
)  # fmt: skip


def commissioned(tmp_path, *more):
    return main(["commission", "Windhover", "--into", str(tmp_path), *more])


def test_a_small_boat_by_seventeen_questions(tmp_path, monkeypatch, capsys):
    Terminal(monkeypatch, *SMALL)
    assert commissioned(tmp_path) == 0
    told = capsys.readouterr().out
    assert "all 17 first answers stand in it" in told
    assert "17 of 17. Which flag does she fly" in told
    for never in ("painter", "battery", "Until when", "packed in"):
        assert never not in told.partition("written;")[0]
    vessel, _ = load(tmp_path / "windhover")
    assert (vessel.vessel.engine, vessel.vessel.use, vessel.vessel.persons) == ("outboard", "private", 2)
    assert (vessel.gas.fuel, vessel.rafts, vessel.radio.beacons) == ("none", (), ())
    assert [str(each.what) for each in vessel.radio.sets] == ["handheld VHF"]
    assert [str(each.role) for each in vessel.people] == ["skipper", "mate"]
    assert {each.name for each in tmp_path.iterdir()} == {"windhover", "vessel.schema.json"}
    assert [each.name for each in (tmp_path / "windhover").iterdir()] == ["vessel.yaml"]
    text = (tmp_path / "windhover" / "vessel.yaml").read_text()
    assert not [line for line in text.splitlines() if "what: engine," in line or "engine space" in line]


def test_a_motor_vessel_is_not_asked_for_her_rig(tmp_path, monkeypatch, capsys):
    Terminal(monkeypatch, "motor vessel", *[""] * 30)
    assert commissioned(tmp_path) == 0
    assert "How is she rigged" not in capsys.readouterr().out
    assert "rig:" not in (tmp_path / "windhover" / "vessel.yaml").read_text()


def test_a_misread_answer_is_told_and_asked_again(tmp_path, monkeypatch, capsys):
    terminal = Terminal(monkeypatch, "submarine", "\N{REPLACEMENT CHARACTER}", "x" * 500, "motor vessel")
    assert commissioned(tmp_path) == 2
    told = capsys.readouterr()
    assert terminal.prompts == 5
    assert "'submarine' is none of the words" in told.out
    assert "character that cannot be printed" in told.out
    assert "longer than 400 letters" in told.out
    assert "the answers broke off; 1 answer is kept in" in told.err
    Terminal(monkeypatch, "2", "none", "chart table")
    commissioned(tmp_path)
    assert "(still open: radio.sets[fixed VHF].side)" in capsys.readouterr().out


def test_a_question_mark_explains(tmp_path, monkeypatch, capsys):
    for question in questions():
        lines = question.explained({})
        assert lines[0] and any(line.startswith("unknown ") for line in lines), question.key
        assert lines[-1] == f"in the file: {', '.join(question.keys)}"
    Terminal(monkeypatch, "trimaran", "2", "transom recess", "?", "transom recess, centre")
    commissioned(tmp_path)
    told = capsys.readouterr().out
    assert "   Somebody is sent there in the dark, and the plan shows it there." in told
    assert "   For example coachroof, centre." in told
    assert told.count("on deck: foredeck, coachroof, cockpit, net,") == 2


@pytest.mark.parametrize(("end", "code", "why"), [
    (KeyboardInterrupt, 130, "stopped"), (EOFError, 2, "the answers broke off"), (OSError(5, "gone"), 2, "the answers broke off"),
])  # fmt: skip
def test_answers_are_kept_and_the_next_run_goes_on(tmp_path, monkeypatch, capsys, end, code, why):
    Terminal(monkeypatch, *SMALL[:6], end=end)
    assert commissioned(tmp_path) == code
    kept = tmp_path / "windhover" / "first-answers.txt"
    assert (
        f"{why}; 6 answers are kept in {kept}, and the same command goes on there" in capsys.readouterr().err
    )
    assert not (tmp_path / "windhover" / "vessel.yaml").exists()
    assert "people=skipper, mate\n" in kept.read_text()
    terminal = Terminal(monkeypatch, *SMALL[6:])
    assert commissioned(tmp_path) == 0
    told = capsys.readouterr().out
    assert f"6 answers are kept for Windhover in {kept}: going on with the next question" in told
    assert "7 of 18. EPIRB" in told
    assert terminal.prompts == 11
    assert not kept.exists()
    assert load(tmp_path / "windhover")[0].vessel.type == "monohull"


def test_what_is_kept_can_be_dropped(tmp_path, monkeypatch, capsys):
    Terminal(monkeypatch, *SMALL[:3])
    commissioned(tmp_path)
    terminal = Terminal(monkeypatch, "trimaran", *[""] * 30)
    assert commissioned(tmp_path, "--start-over") == 0
    told = capsys.readouterr().out
    assert "is dropped." in told
    assert "1 of 25. What hull is she?" in told.partition("dropped")[2]
    assert terminal.prompts == 25
    assert load(tmp_path / "windhover")[0].vessel.type == "trimaran"


def test_answers_of_the_command_line_come_on_top_of_those_kept(tmp_path, monkeypatch, capsys):
    Terminal(monkeypatch, *SMALL[:6])
    commissioned(tmp_path)
    assert commissioned(tmp_path, "--set", "vessel.use=charter", "--set", "people=3") == 0
    assert "6 answers are kept for Windhover in" in capsys.readouterr().out
    vessel = load(tmp_path / "windhover")[0]
    assert (vessel.vessel.type, vessel.vessel.use, len(vessel.people)) == ("monohull", "charter", 3)
    assert not (tmp_path / "windhover" / "first-answers.txt").exists()


def test_a_name_that_cannot_be_used_is_told_before_the_first_question(tmp_path, monkeypatch):
    terminal = Terminal(monkeypatch)
    assert main(["commission", "...", "--into", str(tmp_path)]) == 2
    assert terminal.prompts == 0
