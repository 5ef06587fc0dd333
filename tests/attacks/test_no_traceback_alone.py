"""No traceback for a user's mistake, in processes of their own: streams, environment, folders, answers, spoilt words of the program."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from readme_boat import TEASEL
from rights import as_a_user

ROOT = Path(__file__).resolve().parent.parent.parent
pytestmark = [pytest.mark.attack("no-traceback"), pytest.mark.thorough]


@pytest.fixture
def here(tmp_path):
    """Teasel in vessels/ of a folder."""
    (tmp_path / "vessels/teasel").mkdir(parents=True)
    (tmp_path / "vessels/teasel/vessel.yaml").write_text(TEASEL)
    return tmp_path


def alone(*argv, python=(), shell="", cwd=None, **env):
    """The real command in a process of its own; `shell` is what the shell puts behind it."""
    command = [sys.executable, *python, "-m", "generator", *argv]
    if shell:
        command = ["sh", "-c", f'"$@" {shell}', "sh", *command]
    return subprocess.run(
        command, capture_output=True, check=False, cwd=cwd, timeout=120, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(ROOT), **env},
    )  # fmt: skip


SAID = b"vessels/teasel: 4 recommendations"


@pytest.mark.one_in(8, "command", "stream")
@pytest.mark.parametrize(
    "command",
    [
        ["survey"],
        ["due"],
        ["why", "--all"],
        ["keys"],
        ["schema"],
        ["--help"],
        ["survey", "--help"],
        ["--version"],
        ["publish", "--only", "calendar"],
        ["commission", "Tern", "--ask-nothing"],
        ["survey", "nowhere"],
        ["survey", "--loud"],
    ],
    ids=" ".join,
)
@pytest.mark.parametrize(
    "stream", [">/dev/full", ">&-", "2>/dev/full", "2>&-", "<&-", "<&- >&- 2>&-", ">/dev/full 2>&1", "| true"]
)
def test_streams(here, command, stream):
    done = alone(*command, shell=stream, cwd=here)
    said = done.stdout + done.stderr
    assert b"Traceback" not in said and b"Exception" not in said and b"fault of the program:" not in said
    usual = 2 if "nowhere" in command or "--loud" in command else 0
    if stream == "| true":
        assert done.stderr == b"" if not usual else True
    elif stream.startswith(">/dev/full") and not usual:
        assert done.returncode == 2
        assert done.stderr == (
            b""
            if "2>" in stream
            else b"musterbook: standard output cannot be written: No space left on device\n"
        )
    else:
        assert done.returncode == usual
    if stream == "2>&-" and not usual:
        assert done.stdout
    if stream == "2>&-" and usual:
        assert done.stdout == b""  # nothing goes where it does not belong
    if command[0] == "publish":  # the work is done all the same
        assert (here / "site/teasel/manifest.json").is_file()


def test_a_full_disk_under_what_is_said_stops_no_boat(here):
    """More than is kept back at once; and the reader may go away in the midst of it."""
    text = TEASEL.replace("2029-01", "2020-01").replace("people:", "x" * 50 + ": 1\npeople:")
    for number in range(40):
        shutil.copytree(here / "vessels/teasel", here / f"vessels/tern-{number}")
        (here / f"vessels/tern-{number}/vessel.yaml").write_text(text)
    shutil.move(here / "vessels/teasel", here / "vessels/zeta")
    for shell, code in ((">/dev/full", 2), ("| head -n 1", 0)):
        done = alone("publish", "--only", "calendar", shell=shell, cwd=here)
        assert done.returncode == code
        assert b"Traceback" not in done.stderr
        assert (here / "site/zeta/manifest.json").is_file()
        shutil.rmtree(here / "site")


@pytest.mark.parametrize("flag", ["-O", "-OO"])
def test_python_that_leaves_out(here, flag, tried):
    tried(8)
    for command in (
        ["survey"],
        ["publish", "--only", "site"],
        ["due"],
        ["why", "raft.capacity"],
        ["keys", "rafts"],
        ["schema"],
        ["readiness"],
        ["commission", "Tern", "--ask-nothing"],
    ):
        done = alone(*command, python=[flag], cwd=here)
        if flag == "-O":
            assert (done.returncode, done.stderr) == (0, b"")
        else:
            assert (done.returncode, done.stdout) == (2, b"")
            assert (
                done.stderr
                == b"musterbook: Python runs with -OO (PYTHONOPTIMIZE=2), which takes out the texts of the checks; run it without\n"
            )


ENVIRONMENTS = {
    "C": {"LC_ALL": "C"},
    "ASCII": {"LC_ALL": "C", "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    "strict ASCII": {"PYTHONIOENCODING": "ascii:strict"},
    "UTF-16": {"PYTHONIOENCODING": "utf-16"},
    "a locale that is none": {"LC_ALL": "xx_XX.nowhere"},
    "no HOME": {"HOME": "", "XDG_CACHE_HOME": ""},
    "a HOME that is not there": {"HOME": "/nowhere", "XDG_CACHE_HOME": "/nowhere"},
    "a HOME that is a file": {"HOME": os.devnull, "XDG_CACHE_HOME": os.devnull},
    "no place for temporary files": {"TMPDIR": "/nowhere"},
    "a terminal that is none": {"TERM": "\x1b[2J", "COLUMNS": "0", "LINES": "x"},
    "an odd zone": {"TZ": "nowhere/\udcff"},
    "a narrow terminal": {"COLUMNS": "1"},
}


PAPER = ("ASCII", "a locale that is none", "a HOME that is not there", "no place for temporary files")


@pytest.mark.one_in(3, "name")
@pytest.mark.parametrize("name", ENVIRONMENTS)
def test_environments(here, name, tried, one_in, pdf_engine):
    """Paper is laid out where letters or folders are the matter, in all of them with --all-mutants; a site in the others."""
    tried(4)
    paper = name in PAPER or one_in(2) == 1
    for command in (["survey"], ["publish", "--only", "cards" if paper else "site"], ["due"], ["--help"]):
        done = alone(*command, cwd=here, **ENVIRONMENTS[name])
        assert done.returncode == 0, done.stderr
        assert b"Traceback" not in done.stderr and b"fault of the program:" not in done.stderr


@pytest.mark.parametrize("command", ["survey", "publish", "due"])
@pytest.mark.parametrize("where", ["gone", "shut"])
def test_the_folder_one_stands_in(here, command, where):
    (here / "in").mkdir()
    before = {"gone": 'cd in && rmdir ../in && "$@"', "shut": 'cd in && chmod 0 . && "$@"'}[where]
    done = subprocess.run(
        [*as_a_user(), "sh", "-c", before, "sh", sys.executable, "-P", "-m", "generator", command],
        capture_output=True, check=False, cwd=here, env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr.startswith(b"musterbook: ") and done.stderr.count(b"\n") == 1


@pytest.mark.parametrize(
    "into",
    [
        "a-file",
        "/dev/null",
        "/dev/full",
        "read-only",
        "a-file/x",
        "x" * 300,
        "\udcff",
        "a\nb",
        "linked",
        "loop",
        ".",
        "vessels",
    ],
)
def test_where_manuals_cannot_go(here, into, tried):
    (here / "a-file").touch()
    (here / "read-only").mkdir(mode=0o555)
    (here / "linked").symlink_to("nowhere/at/all")
    (here / "loop").symlink_to("loop")
    done = subprocess.run(
        [*as_a_user(), sys.executable, "-m", "generator", "publish", "--only", "calendar", "--into", os.fsencode(into)],
        capture_output=True, check=False, cwd=here, env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    said = done.stdout + done.stderr
    assert b"Traceback" not in said and b"fault of the program:" not in said
    assert done.returncode == (0 if into in ("\udcff", "a\nb", ".") else 2), said
    assert len(done.stdout.partition(b"\nNot said")[0].splitlines()) < 12
    assert (here / "vessels/teasel/vessel.yaml").read_text() == TEASEL


@pytest.mark.one_in(2, "target")
@pytest.mark.parametrize("target", ["/dev/full", "read-only/a.json", "\udcff.json", "a\nb.json", "link.json"])
def test_where_reports_cannot_go(here, target, tried):
    (here / "read-only").mkdir(mode=0o555)
    (here / "link.json").symlink_to("/dev/full")
    name = "full.json" if target == "/dev/full" else target
    if target == "/dev/full":
        (here / name).symlink_to(target)
    done = subprocess.run(
        [*as_a_user(), sys.executable, "-m", "generator", "survey", "--report", os.fsencode(name)],
        capture_output=True, check=False, cwd=here, env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert done.returncode == (0 if target in ("\udcff.json", "a\nb.json") else 2)
    assert SAID in done.stdout
    assert b"Traceback" not in done.stderr and done.stderr.count(b"\n") <= 1


@pytest.mark.parametrize(
    "typed",
    [
        b"",
        b"\n" * 500,
        b"\xff\xfe\n" * 50,
        b"\x1b[2J\n\x00\n" * 50,
        b"9" * 100_000 + b"\n",
        b"unknown\n" * 3,
        b"\x04",
        "ünknöwn\n".encode() * 30,
        b"a\rb\n" * 40,
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "ascii:strict"])
def test_answers_that_break_off_or_are_none(here, typed, encoding):
    """As typed on a terminal: the program asks only there."""
    import pty
    import select

    mine, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "generator", "commission", "Tern"],
        stdin=theirs, stdout=theirs, stderr=subprocess.PIPE, cwd=here,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": encoding, "TERM": "dumb"},
    )  # fmt: skip
    os.close(theirs)
    rest = typed + b"\n\x04\x04"
    said = b""
    while process.poll() is None:
        readable, writable, _ = select.select([mine], [mine] if rest else [], [], 1)
        if readable:
            try:
                said += os.read(mine, 65_536)
            except OSError:
                break
        if writable and rest:
            rest = rest[os.write(mine, rest[:200]) :]
        elif not rest and not readable:
            rest = b"\x04"
    err = process.stderr.read()
    process.stderr.close()
    os.close(mine)
    assert process.wait(60) in (0, 2), err
    assert b"Traceback" not in err + said and b"fault of the program:" not in err + said


@pytest.mark.one_in(2, "spoil")
@pytest.mark.parametrize("spoil", ["a label", "a whole file", "a step", "a page", "a schema's key"])
def test_a_catalogue_that_lacks_a_word(here, spoil, tried):
    tried(3)
    shutil.copy(ROOT / "pyproject.toml", here)
    for name in ("generator", "templates"):
        shutil.copytree(ROOT / name, here / name, ignore=shutil.ignore_patterns("__pycache__"))
    english = here / "templates/text/en"
    labels = english / "labels.yaml"
    match spoil:
        case "a label":
            labels.write_text(re.sub(r"(?m)^  not-known:.*\n", "", labels.read_text()))
        case "a whole file":
            labels.unlink()
        case "a step":
            path = english / "procedures/fire.yaml"
            path.write_text("\n".join(path.read_text().splitlines()[:-3]) + "\n")
        case "a page":
            (english / "pages/disclaimer.md").unlink()
        case "a schema's key":
            labels.write_text(labels.read_text() + "\nno-such-label: x\n")
    for command in (["survey"], ["publish", "--only", "site"], ["due"]):
        done = subprocess.run(
            [sys.executable, "-m", "generator", *command], capture_output=True, check=False, cwd=here,
            env={**os.environ, "PYTHONPATH": str(here)},
        )  # fmt: skip
        assert done.returncode == 2, done.stdout + done.stderr
        assert done.stdout.startswith(b"the program's own data files (templates/) are faulty: ")
        assert b"templates/text/en" in done.stdout
        assert done.stderr == b""
