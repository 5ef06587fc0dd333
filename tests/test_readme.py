"""What README shows is run: its small boat from the file to a card, its deferral, every command it names."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from generator.options import output_names

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
YAML = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
SHELL = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)
PROSE = re.sub(r"```.*?```", "", README, flags=re.DOTALL)
DAY = "1780272000"  # 1 June 2026, the day the example states
pytestmark = pytest.mark.thorough


def run(folder, *argv):
    """musterbook as somebody runs it in a folder of theirs: exit code and what it printed."""
    inherited = {key: value for key, value in os.environ.items() if not key.startswith("MUSTERBOOK")}
    done = subprocess.run(
        [sys.executable, "-m", "generator", *argv],
        cwd=folder,
        env={**inherited, "PYTHONPATH": str(ROOT), "SOURCE_DATE_EPOCH": DAY},
        capture_output=True,
        text=True,
        check=False,
        stdin=subprocess.DEVNULL,
    )
    assert done.returncode in (0, 1), done.stdout + done.stderr
    return done.returncode, done.stdout


@pytest.fixture
def folder(tmp_path):
    """A folder as README describes it: the small boat alone in vessels/."""
    (tmp_path / "vessels/teasel").mkdir(parents=True)
    (tmp_path / "manuals").mkdir()
    (tmp_path / "vessels/teasel/vessel.yaml").write_text(YAML[0], encoding="utf-8")
    return tmp_path


def commands():
    """Every command in README's shell blocks and, where they are whole, in its text; dates worked out by the shell are given."""
    found = []
    for line in "".join(SHELL).splitlines():
        command = re.sub(r'"\$\(.*?\)"', "2026-07-31", line.removeprefix("sh generator/ready.sh "))
        found.append(command)
    found += [each for each in re.findall(r"`(musterbook [^`]+)`", PROSE) if not re.search(r"[A-Z\[…]", each)]
    return list(dict.fromkeys(found))


def test_the_small_boat_is_small():
    assert len(YAML[0].splitlines()) <= 50
    assert len(YAML) == 2


def test_the_survey_prints_what_readme_says_it_prints(folder):
    code, out = run(folder, "survey", "vessels/teasel")
    said = re.search(r"The survey prints `(.*?)` \(steps ask for (.*?)\):", PROSE.replace("\n", " "))
    assert (code, out.splitlines()[0]) == (0, said[1])
    named = re.findall(r"asks for '(.*?)'", out)
    assert sorted(named) == sorted(re.split(r", | and ", said[2]))
    assert "defect" not in out


def test_the_small_boat_gets_her_cards(folder, pdf_engine):
    from pypdf import PdfReader

    code, out = run(folder, "publish", "vessels/teasel")
    assert code == 0, out
    cards = folder / re.search(r"`(site/teasel/\S+\.pdf)` is ready", PROSE)[1]
    words = " ".join(" ".join(page.extract_text() for page in PdfReader(cards).pages).split())
    assert [
        each for each in ("Teasel", "Man overboard", "turn the top knob to the right") if each not in words
    ] == []
    table = README.split("## What comes out")[1].split("##")[0]
    promised = re.findall(r"`site/<boat>/(\S+)`", table)
    assert len(promised) == len(output_names()) + 1
    assert [each for each in promised if not (folder / "site/teasel" / each).is_file()] == []


def test_what_ran_out_stops_publishing_and_the_deferral_defers_it(folder):
    old, new = "expires: 2029-01", re.search(r"\(`(expires: \S+)`\)", PROSE)[1]
    assert YAML[0].count(old) == 1
    boat = folder / "overdue/teasel/vessel.yaml"
    boat.parent.mkdir(parents=True)
    boat.write_text(YAML[0].replace(old, new), encoding="utf-8")
    code, out = run(folder, "survey", "overdue/teasel")
    found = re.findall(r"defect ([a-z.-]+): ", out)
    assert (code, found) == (1, [re.search(r"the defect `([a-z.-]+)`", PROSE.replace("\n", " "))[1]])
    boat.write_text(YAML[0].replace(old, new) + YAML[1], encoding="utf-8")
    code, out = run(folder, "survey", "overdue/teasel")
    assert code == 0, out
    assert out.splitlines()[0].partition(";")[0].endswith("(1 deferred)")
    assert not re.search(r"defect |deferral\.", out)


@pytest.mark.parametrize("command", commands())
def test_a_command_runs_as_it_is_written(folder, command):
    """Publishing writes the calendar alone here, the boat above has everything; the tests are not run once more by themselves."""
    if command == "pytest":
        assert "sh generator/ready.sh pytest" in (ROOT / ".ci/run").read_text(encoding="utf-8")
        return
    name, *argv = shlex.split(command, comments=True)
    assert name == "musterbook"
    started = "name-of-the-boat" in command
    if started:
        run(folder, *shlex.split(next(each for each in commands() if " commission " in each))[1:])
    code, out = run(folder, *argv, *(("--only", "calendar") if argv[0] == "publish" else ()))
    assert out
    assert code == int(started), out  # what was only just commissioned is full of open questions


def test_the_commands_of_the_text_are_looked_at():
    named = {shlex.split(each)[1] for each in commands() if each.startswith("musterbook")}
    assert named == {"survey", "publish", "due", "why", "keys", "commission", "readiness", "schema"}
