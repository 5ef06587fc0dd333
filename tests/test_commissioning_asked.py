"""A starter file by questions at the terminal, and the names of vessels it takes and of the folders it makes."""

import re

import pytest

from generator.__main__ import main
from generator.vessel.commissioning import commission, folder_name
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
    assert main(["commission", "Windhover", "--into", str(tmp_path), "--set", "vessel.length=12 m"]) == 0
    printed = capsys.readouterr().out
    assert (
        f"{tmp_path / 'windhover' / 'vessel.yaml'} written; 24 of 25 first answers are missing (they say unknown)."
        in printed
    )
    assert main(["commission", "Windhover", "--into", str(tmp_path)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert main(["commission", "Other", "--into", str(tmp_path), "--set", "vessel.length"]) == 2


def answering(monkeypatch, *lines):
    given = iter(lines)
    asked = []

    def ask(prompt):
        asked.append(prompt)
        try:
            return next(given)
        except StopIteration:
            raise EOFError from None

    monkeypatch.setattr("builtins.input", ask)
    monkeypatch.setattr("sys.stdin", type("Terminal", (), {"isatty": lambda self: True})())
    return asked


def test_asking_again_after_a_misread_answer_and_leaving_out_what_is_moot(tmp_path, monkeypatch, capsys):
    asked = answering(
        monkeypatch, "monohull", "12", "12 m", "", "", "", "", "", "", "", "none", "", "", "", "none", ""
    )
    assert main(["commission", "Windhover", "--into", str(tmp_path)]) == 0
    assert "'12' has no unit" in capsys.readouterr().out
    assert asked[:3] == [
        "What hull is she? [monohull, catamaran, trimaran, motor vessel, open boat, dayboat] ",
        *["How long is her hull? [for example 12.0 m] "] * 2,
    ]
    assert not [prompt for prompt in asked if "painter" in prompt or "battery" in prompt]


def test_answers_that_break_off_write_nothing(tmp_path, monkeypatch, capsys):
    answering(monkeypatch, "monohull")
    assert main(["commission", "Windhover", "--into", str(tmp_path)]) == 2
    assert "the answers broke off; nothing was written" in capsys.readouterr().err
    assert not (tmp_path / "windhover").exists()


def test_a_name_that_cannot_be_used_is_told_before_the_first_question(tmp_path, monkeypatch):
    asked = answering(monkeypatch)
    assert main(["commission", "...", "--into", str(tmp_path)]) == 2
    assert asked == []
