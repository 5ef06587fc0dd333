"""No traceback for a user's mistake, and no fault of the program: each class has its message and exit code, and nothing said is forged."""

import csv
import io
import json
import os
import re
import shutil
from pathlib import Path
from random import Random

import pytest
from readme_boat import TEASEL
from spoilt import spoil_bytes

from generator.__main__ import main
from generator.due import as_csv, fall_due
from generator.fleet import discover

ROOT = Path(__file__).resolve().parent.parent.parent
HIDDEN = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\udc80-\udcff]"
)
pytestmark = [pytest.mark.attack("no-traceback"), pytest.mark.thorough]


@pytest.fixture
def here(tmp_path, monkeypatch):
    """Teasel in vessels/, seen from the folder above."""
    (tmp_path / "vessels/teasel").mkdir(parents=True)
    (tmp_path / "vessels/teasel/vessel.yaml").write_text(TEASEL)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(capsys, *argv):
    """(code, stdout, stderr) of a command in this process."""
    try:
        code = main(list(argv))
    except SystemExit as left:
        code = left.code
    shown = capsys.readouterr()
    assert "Traceback" not in shown.err and "fault of the program:" not in shown.err, shown.err
    assert not HIDDEN.search(shown.out + shown.err), ascii(shown)
    return code, shown.out, shown.err


# What stands on the command line -> words of the message; exit code 2 and nothing on standard output.
ARGUMENTS = {
    **{f"{option} {day}": ([command, option, day], "outside what can be: 1900 to 2099")
       for command in ("survey", "publish") for option in ("--as-of", "--until") for day in ("9999-12-31", "0001-01-01", "1899-12-31", "2100-01-01")},
    **{f"due --as-of {day}": (["due", "--as-of", day], "outside what can be") for day in ("9999-12-31", "0001-01-01")},
    **{f"--as-of {day!a}": (["survey", f"--as-of={day}"], "is no day") for day in ("", "0000-00-00", "2026-02-30", "x" * 5000, "2026-06-01\nx", "\x1b[2J", "\udcff", "-1", "2026-6-1", "١٢٣٤-٠١-٠١")},
    **{f"--within {span!a}": (["due", f"--within={span}"], "is no span of time") for span in ("", "d", "-1d", "1e9", "99999d", "9" * 5000, "1.5m", "\x1b", "\udcff", "²d")},
    **{f"{option} empty": ([command, option, ""], "") for command, option in (("survey", "--report"), ("publish", "--into"), ("publish", "--only"), ("publish", "--for"), ("publish", "--paper"), ("survey", "--language"), ("due", "--report"), ("commission", "--into"))},
    **{f"--language {code!a}": (["survey", "--language", code], "there is no language") for code in ("zz", "../en", "en\n", "EN", "\x1b[2J", "\udcff", ".", "/", "e" * 5000)},
    **{f"--report {name!a}": (["survey", f"--report={name}"], "--report") for name in ("a", "a.pdf", ".", "/", "nowhere/a.json", "vessels/teasel/vessel.yaml/a.json", "x" * 300 + ".json", "folder.json", "\udcff", "a.json\n")},
    **{f"due --report {name!a}": (["due", f"--report={name}"], "--report") for name in ("a.json", "nowhere/a.csv", "folder.ics", "x" * 300 + ".csv")},
    **{f"vessel {name!a}": (["survey", name], "") for name in ("nowhere", "\udcff", "a\nvessels/x: published", "\x1b[2J", "x" * 5000, "vessels/teasel/vessel.yaml/x", "pyproject", "\u202e", os.devnull)},
    **{f"why {name!a}": (["why", name], "there is no check") for name in ("x", "\udcff", "a\nb", "\x1b[2J", "raft", ".", "x" * 5000)},
    **{f"keys {name!a}": (["keys", name], "there is no block") for name in ("x", "\udcff", "a\nb", "\x1b[2J", "rafts.", "rafts.rafts", "x" * 5000)},
    **{f"commission {name!a}": (["commission", name, "--ask-nothing"], "") for name in ("", " ", "..", "\udcff", "a\x00b", "a\x1b[2Jb", "x" * 5000, "unknown", "\u202e", "---")},
    **{f"--set {text!a}": (["commission", "Tern", "--set", text], "") for text in ("", "=", "length", "x=1", "vessel.length=", "vessel.length=0 m", "vessel.length=\x1b", "vessel.length=\udcff", "vessel.flag=a\nb",
       "rafts=1", "vessel=1", "vessel.length=" + "9" * 5000, "\udcff=1", "rafts[0].name=x", "..=..", "vessel.persons=-1") if text != "vessel.length="},
    **{f"{' '.join(argv)} empty": ([*argv, ""], "is empty") for argv in (["publish", "--into"], ["publish"], ["inspect"], ["inspect", "site", "--vessel"], ["commission", "Tern", "--ask-nothing", "--into"])},
    **{f"inspect {name!a}": (["inspect", name], "") for name in ("nowhere", "vessels", "vessels/teasel/vessel.yaml", "loop", "folder.json", "\udcff", "a\nsite: whole", "\x1b[2J", "x" * 5000, os.devnull, "/proc/self/fd")},
    **{f"inspect --as-of {day}": (["inspect", f"--as-of={day}"], "") for day in ("9999-12-31", "x", "")},
    **{f"--into {name!a}": (["commission", "Tern", "--ask-nothing", "--into", name], "") for name in ("loop", "vessels/teasel/vessel.yaml", "x" * 5000, os.devnull)},
    "no command": ([], "required"),
    "an unknown option": (["survey", "--loud\nx"], "unrecognized"),
    "an odd number": (["survey", "--expect", "9" * 5000], "no number"),
}  # fmt: skip


@pytest.mark.parametrize("name", ARGUMENTS)
def test_arguments(here, capsys, name):
    argv, words = ARGUMENTS[name]
    (here / "folder.json").mkdir()
    (here / "loop").symlink_to("loop")
    (here / "folder.ics").mkdir()
    code, out, err = run(capsys, *argv)
    assert code == 2
    assert words in err
    if not any(each.startswith("--report") for each in argv):
        assert out == ""
    if "usage:" not in err:  # one message of one line
        assert err.startswith("musterbook: ") and len(err.splitlines()) == 1, err
    assert not (here / "vessels/tern").exists()


JSON = ("null", "0", "-1", "[]", "{}", '""', '"\\u001b[2J"', '"9999-99-99"', "1e999", '"\\ud800"', '"../../x"', '"\\nsite: whole"', "true", "[" * 9999 + "]" * 9999)  # fmt: skip


def test_manifests_that_are_spoilt(here, capsys, tried, one_in):
    """What stands in a published folder may have been changed by anybody: inspecting it, or publishing over it, is never a fault."""
    run(capsys, "publish", "--only", "calendar", "--only", "site")
    whole = {path: path.read_bytes() for path in (here / "site").rglob("*.json")}
    assert whole
    shutil.copytree(here / "site", here / "kept")
    chance = Random(8)
    tried(240 // one_in(3))
    for number in range(0, 120, one_in(3)):
        path = chance.choice(sorted(whole))
        if number % 2:
            spoilt = spoil_bytes(chance, whole[path], [])
        else:
            text = whole[path].decode()
            found = chance.choice(list(re.finditer(r'(?<=": )("[^"]*"|\w+)', text)))
            spoilt = (text[: found.start()] + chance.choice(JSON) + text[found.end() :]).encode()
        path.write_bytes(spoilt)
        code, out, _ = run(capsys, "inspect")
        assert code in (0, 1, 2)
        assert "\nsite: whole" not in out
        assert run(capsys, "publish", "--only", "calendar")[0] in (0, 2)
        shutil.rmtree(here / "site")
        shutil.copytree(here / "kept", here / "site")


@pytest.mark.parametrize(
    "epoch",
    [
        "-1e9",
        "1e9",
        "9" * 30,
        "-" + "9" * 30,
        "253402300799",
        "-62135596800",
        "4102444800",
        "-2208988801",
        "x",
        " ",
        "0x10",
        "\udcff",
    ],
)
def test_the_clock(here, capsys, monkeypatch, epoch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    for command in (["survey"], ["publish"], ["due"], ["survey", "--as-of", "2026-06-01"]):
        code, out, err = run(capsys, *command)
        assert (code, out) == (2, "")
        assert "SOURCE_DATE_EPOCH" in err


@pytest.mark.parametrize("day", ["1900-01-01", "2099-12-31"])
def test_the_ends_of_the_calendar(here, capsys, day):
    for command in ("survey", "due"):
        code, _, _ = run(
            capsys,
            command,
            "--as-of",
            day,
            *(["--until", "2099-12-31"] if command == "survey" else ["--report=a.ics", "--report=a.csv"]),
        )
        assert code in (0, 1)
    assert run(capsys, "publish", "--proof-copy", "--only", "calendar", "--as-of", day)[0] in (0, 1)
    for span in ("9999d", "9999m", "0", "all"):
        assert run(capsys, "due", "--as-of", day, "--within", span)[0] in (0, 1)


# What stands in vessel.yaml: (old, new) -> words of a finding there.
SECOND = "rafts:\n" + "".join(
    f"  - {{{name}standard: SOLAS, persons: 6, mass: 60 kg, container: canister, made: 2020-01, stowage: deck cradle, where: foredeck, side: centre, "
    "height: 1 m, held-by: [strap], painter: {length: 11 m, fast-to: strong point}, strong-point: x1, launch-from: y1, knife: z1, board-from: y1, "
    "righting: strap, packed-size: SIZE, pack: SOLAS A, service: {last: 2026-01, next: 2027-01}}\n"
    for name in ("", "name: aft raft, ", "")
)  # fmt: skip
LEGION = "".join(f"  - {{role: hand {number}}}\n" for number in range(2000))
FILES = {
    "rafts without a name beside another": ("radio:\n", SECOND.replace("SIZE", "0.9 x 0.6 x 0.4 m") + "radio:\n", "'rafts[1].name' is not known yet"),
    "a raft of no size": ("radio:\n", SECOND.replace("SIZE", "0 x 0 x 0 m") + "radio:\n", "outside what can be"),
    "a raft of hardly any size": ("radio:\n", SECOND.replace("SIZE", "0.9 x 0.6 x 0.000001 m") + "radio:\n", "outside what can be"),
    "a huge raft": ("radio:\n", SECOND.replace("SIZE", "9999999 x 1 x 1 m") + "radio:\n", "outside what can be"),
    "2,000 rafts": ("radio:\n", "rafts:\n" + "  - {persons: 6, mass: 60 kg}\n" * 2000 + "radio:\n", "2,000 entries stand here, and 12 are the most"),
    "2,000 rafts in full": ("radio:\n", "rafts:\n" + SECOND.splitlines(keepends=True)[1].replace("SIZE", "1 x 1 x 1 m") * 2000 + "radio:\n", "more than 60,000 keys and values"),
    "2,000 people": ("people:\n", "people:\n" + LEGION, "2,003 entries stand here, and 100 are the most"),
    "2,000 roles for one duty": ("recover: {who: [skipper, mate]", f"recover: {{who: [{', '.join(['mate'] * 2000)}]", "2,000 entries stand here, and 30 are the most"),
    "2,000 emergencies": ("  flooding: {", "".join(f"  x{number}: {{}}\n" for number in range(2000)) + "  flooding: {", "2,004 entries stand here, and 40 are the most"),
    **{f"a line of {measure}": (old, new, words) for measure, old, new, words in (
        ("no length", "length: 6.5 m", "length: 0 m", "outside what can be"), ("a negative one", "length: 6.5 m", "length: -6.5 m", "is not a length"),
        ("no beam", "beam: 2.4 m", "beam: 0.0 m", "outside what can be"), ("a giant beam", "beam: 2.4 m", f"beam: {'9' * 400} m", "outside what can be"),
        ("a thousand digits", "beam: 2.4 m", f"beam: 2.4{'0' * 1000} m", "letters stand here"), ("not a number", "beam: 2.4 m", "beam: nan m", "is not a length"),
        ("infinity", "beam: 2.4 m", "beam: inf", "is not a length"), ("no persons", "persons: 3", "persons: 0", "outside what can be"),
        ("a crowd", "persons: 3", "persons: 999999999999", "whole number"), ("no freeboard", "freeboard: 0.6 m", "freeboard: 0 m", "outside what can be"))},
    **{f"a date {day}": ("expires: 2029-01", f"expires: {day}", words) for day, words in (("9999-12-31", "outside what can be"), ("0001-01", "outside what can be"), ("0000-00", "outside what can be"), ("2026-02-30", "no day"), ("10000-01-01", "is not a date"))},
    "a line in a name": ("name: Teasel", 'name: "Teasel\\nvessels/x: published"', "a line break stands in this value"),
    "lines in a name": ("name: Teasel", "name: |\n    Teasel\n    vessels/x: published", "a line break stands in this value"),
    "a line in the name of a thing": ("what: whistle", 'what: "whistle\\nvessels/x: published"', "a line break stands in this value"),
    "a line in a key": ("  flooding:", '  "flooding\\nvessels/x: published":', "a line break stands in this key"),
    "a line in a measure": ("length: 6.5 m", 'length: "6.5\\n m"', "a line break stands in this value"),
    "a code of the terminal in a name": ("name: Teasel", 'name: "Tea\\e[2Jsel"', "a backslash in double quotes"),
    "a bell in a name": ("name: Teasel", "name: Tea\x07sel", "an invisible character"),
    "a name that reads backwards": ("name: Teasel", "name: Tea\u202esel", "an invisible character"),
    "a hidden letter in a name": ("name: Teasel", "name: Tea\U000e0041sel", "an invisible character"),
    "a name of 3,000 letters": ("name: Teasel", "name: " + "x" * 3000, "3,000 letters stand here"),
    "a word of 100 letters": ("name: Teasel", "name: " + "x" * 100, "a word of 100 letters"),
    "a key of 5,000 letters": ("  flooding:", f"  ? {'x' * 5000}\n  :", "a key of 5,000 letters"),
    "brackets 10,000 deep": ("name: Teasel", "name: " + "[" * 10_000 + "]" * 10_000, "deeper than any file goes"),
    "an alias of itself": ("name: Teasel", "name: &a [*a]", "anchors and aliases"),
    "a stamp of lines": ("expires: 2029-01", 'expires: {value: 2029-01, stamp: "2029\\nvessels/x: published"}', ""),
}  # fmt: skip


@pytest.mark.parametrize("name", FILES)
def test_files(here, capsys, name, tried):
    """Every command, on the terminal and in its reports: one boat's mistake is a finding, and no line of it is forged."""
    old, new, words = FILES[name]
    tried(5)
    path = here / "vessels/teasel/vessel.yaml"
    assert TEASEL.count(old) == 1
    path.write_text(TEASEL.replace(old, new))
    reports = [f"--report=a.{form}" for form in ("json", "sarif", "xml", "txt")]
    code, out, _ = run(capsys, "survey", *reports)
    assert code in ((1, 2) if words else (0,))
    assert words in out
    for form in ("json", "sarif", "xml", "txt"):
        text = Path(f"a.{form}").read_text()
        assert not HIDDEN.search(text)
        assert "\nvessels/x" not in text
    assert json.loads(Path("a.json").read_text())["counts"]["defect"] == int(bool(words)) or words
    assert "\nvessels/x" not in out
    for command in (
        ["publish", "--only", "site"],
        ["publish", "--only", "calendar", "--proof-copy"],
        ["due", "--within", "all", "--report=a.csv", "--report=a.ics"],
    ):
        code, out, _ = run(capsys, *command)
        assert code in (0, 1, 2)
        assert "\nvessels/x" not in out
    for form in ("csv", "ics"):
        if Path(f"a.{form}").exists():
            assert "\nvessels/x" not in Path(f"a.{form}").read_bytes().decode().replace("\r\n ", "")


FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", " =1", "\N{NO-BREAK SPACE}=1", "x;=1+1", "x; =1+1", "x;;@a", 'x;"=1"', "x;'=1", '"";=1', "\N{FULLWIDTH EQUALS SIGN}1+1", "x;\N{FULLWIDTH PLUS SIGN}1", "\N{FULLWIDTH COMMERCIAL AT}x",
            "\N{FULLWIDTH HYPHEN-MINUS}1", "a,=1", "a\t=1", "=cmd|' /C x'!A0", "-2+3+cmd", "=HYPERLINK(1)"]  # fmt: skip


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_is_a_formula(here, text, tried):
    """Whichever sign a spreadsheet takes for the end of a cell."""
    from datetime import date

    from generator.publishing import Order

    tried(4)
    quoted = json.dumps(text, ensure_ascii=False)
    (here / "vessels/teasel/vessel.yaml").write_text(
        f"format: 1\nvessel: {{name: {quoted}}}\ngear: [{{what: {quoted}, where: {quoted}, expires: {{value: 2027-01, stamp: {quoted}}}}}]\n"
    )
    rows = fall_due(discover(["vessels"]), Order(date(2026, 6, 1))).rows
    written = as_csv(rows)
    assert len(rows) == 1 and "2027-01" in written
    for mark in ",;\t|":
        for row in csv.reader(io.StringIO(written, newline=""), delimiter=mark):
            for one in row:
                start = one.lstrip("\"' \N{NO-BREAK SPACE}")[:1]
                guarded = one.lstrip('" ').startswith("'") or re.search(r"^[\s\"']*'", one)
                figure = re.fullmatch(r"-?[0-9.]+", one)
                assert (
                    start
                    not in "=+-@\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH PLUS SIGN}\N{FULLWIDTH HYPHEN-MINUS}\N{FULLWIDTH COMMERCIAL AT}"
                    or not start
                    or guarded
                    or figure
                ), (mark, one)
