"""The program reads, writes and asks for what .github/SECURITY.md lists, opens no address and starts no other program."""

import os
import re
import shutil
import sys
import sysconfig
import tempfile
from pathlib import Path

import pytest
from traced import ASKING, Traced, note, traced

ROOT = Path(__file__).parent.parent.parent
SECURITY = (ROOT / ".github" / "SECURITY.md").read_text(encoding="utf-8")
COMMANDS = {
    "publish": ("publish", "vessels/nordgyllen", "--into", "site", "--report", "report.json"),
    "proof copy": ("publish", "vessels/nordgyllen", "--into", "site", "--proof-copy", "--only", "site"),
    "publish all": (
        "publish",
        "vessels",
        "--into",
        "new/site",
        "--only",
        "calendar",
        "--report",
        "report.xml",
    ),
    "survey": ("survey", "vessels", "--report", "report.sarif", "--report", "report.txt"),
    "due": ("due", "vessels", "--report", "report.ics", "--report", "report.csv"),
    "commission": ("commission", "A new boat", "--ask-nothing"),
    "commission, stopped": ("commission", "Another boat"),
    "schema": ("schema",),
    "readiness": ("readiness",),
    "keys": ("keys", "rafts"),
    "why": ("why", "--all"),
    "help": ("--help",),
}
NOTES = """
notes:
  - {beside: fire, text: "See http://127.0.0.1:9/page and ![a picture](http://127.0.0.1:9/x.png)"}
"""
# What may have become of a published folder since.
STATES = {
    "as it was": lambda _site: None,
    "torn": lambda site: (site / "zilte-wind/crew/calendar.ics").write_bytes(b"torn"),
    "with a foreign file": lambda site: (site / "zilte-wind/mine.txt").write_bytes(b"mine"),
    "with a link out": lambda site: (site / "zilte-wind/out").symlink_to("/etc"),
    "without a manifest": lambda site: (site / "zilte-wind/manifest.json").unlink(),
    "gone, with work left": lambda site: (site / "zilte-wind").rename(
        site / f".zilte-wind.musterbook-new-{'0' * 16}"
    ),
}
pytestmark = [pytest.mark.thorough, pytest.mark.attack("trusted")]


def table(name):
    """The rows of a table of SECURITY.md, without its head: what stands in code in the first cell, and the last cell."""
    rows = re.search(rf"<!-- {name} -->\n(.*?)<!-- /{name} -->", SECURITY, re.DOTALL)[1].splitlines()[2:]
    cells = [row.strip("| ").split(" | ") for row in rows]
    return [(re.findall(r"`([^`]+)`", first), last) for first, *_, last in cells]


def pattern(shown, places):
    """A place as SECURITY.md shows it, as an expression: capitals stand for what they name, … for anything below."""
    parts = re.split(
        r"(PROGRAM|PYTHON|VESSELS|INTO|TEMPORARY|REPORT|BOAT|NAME|NUMBER|HEX|RANDOM|PATH|…)", shown
    )
    anything = {"…": ".*", "BOAT": r"[a-z0-9-]+(\.proof-copy)?", "NAME": "[a-z0-9-]+", "NUMBER": "[0-9]+"}
    anything |= {"HEX": "[0-9a-f]{16}", "RANDOM": "[a-z0-9_]{8}"}
    found = "".join(anything.get(part) or places.get(part) or re.escape(part) for part in parts)
    return re.compile(found.replace("/.*", "(/.*)?") + r"\Z")


def any_of(paths):
    return "(" + "|".join(re.escape(os.path.normpath(path)) for path in paths) + ")"


def places(folder):
    base = Path(sys.base_prefix)
    python = [
        sys.prefix,
        sysconfig.get_path("stdlib"),
        sysconfig.get_path("platstdlib"),
        os.path.realpath(sys.executable),
    ]
    python += [
        base / "pyvenv.cfg",
        base / "bin/pyvenv.cfg",
        base / "lib/python3",
        base / "lib/python3.dist-packages",
    ]
    if base != Path("/usr"):
        python.append(base)
    python += [os.path.realpath(path) for path in python]
    return {
        "PROGRAM": any_of([ROOT / "generator", ROOT / "templates", ROOT / "pyproject.toml"]),
        "PYTHON": any_of(dict.fromkeys(python)),
        "VESSELS": any_of([folder / "vessels"]),
        "INTO": any_of([folder / "site", folder / "new", folder / "new/site"]),
        "TEMPORARY": any_of([tempfile.gettempdir()]),
        "REPORT": re.escape(str(folder / "report.")) + "[a-z]+",
        "PATH": any_of(os.environ["PATH"].split(os.pathsep)),
    }


def unlisted(found, folder, command):
    """What a command read, changed and asked for that SECURITY.md does not list."""
    where = places(folder)
    read = [pattern(each, where) for shown, _ in table("read") for each in shown]
    written = [
        pattern(each, where) for shown, by in table("written") if command in by.split(", ") for each in shown
    ]
    asked = [pattern(each, {}) for shown, _ in table("asked") for each in shown]
    # A path is walked to from above.
    above = {str(folder)} | {
        str(parent) for start in (*found.read, *found.changed) for parent in Path(start).parents
    }
    return {
        "read": sorted(
            path
            for path in found.read - found.changed - above
            if not any(each.match(path) for each in [*read, *written])
        ),
        "changed": sorted(path for path in found.changed if not any(each.match(path) for each in written)),
        "asked": sorted(name for name in found.asked if not any(each.match(name) for each in asked)),
    }


@pytest.fixture
def folder(tmp_path, strace_path):
    """A folder with the specimens in it."""
    shutil.copytree(ROOT / "vessels", tmp_path / "vessels")
    return tmp_path


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_touches_what_is_listed_and_nothing_else(name, folder, pdf_engine, one_in):
    """Every path of every call to the system, the native libraries' included; every variable asked for by name."""
    smaller = name == "publish" and one_in(2) > 1
    argv = [each.replace("nordgyllen", "kelpwren") if smaller else each for each in COMMANDS[name]]
    stopped = name == "commission, stopped"
    typed = b"monohull\n\x04" if stopped else None
    found = traced(folder, *argv, typed=typed, HB_SHAPER_LIST="fallback", https_proxy="http://127.0.0.1:9")
    assert found.code == (2 if stopped else 0), found.out
    assert str(ROOT / "generator" / "__main__.py") in found.read
    found.asked.discard("*" if name == "publish" else "")  # the engine's library, for proxies
    assert unlisted(found, folder, argv[0]) == {"read": [], "changed": [], "asked": []}


@pytest.mark.one_in(4, "state")
@pytest.mark.parametrize("state", STATES)
def test_publish_and_inspect_touch_no_more_where_a_folder_is_not_as_it_was(state, folder, tried):
    """Looked at, torn, foreign, left half done by a run that ended: nothing is touched but the places listed."""
    calendar = ("publish", "vessels/zilte-wind", "--into", "site", "--only", "calendar")
    traced(folder, *calendar)
    STATES[state](folder / "site")
    for argv in (("inspect", "site"), calendar, (*calendar, "--set-aside"), ("inspect", "site/zilte-wind")):
        found = traced(folder, *argv)
        assert found.code in (0, 1, 2), found.out
        assert unlisted(found, folder, argv[0]) == {"read": [], "changed": [], "asked": []}, argv
    tried(4)
    assert (folder / "site/zilte-wind/crew/calendar.ics").is_file()


@pytest.mark.parametrize("name", ["publish", "survey", "due", "readiness"])
def test_no_address_is_opened_and_no_program_started(name, folder, pdf_engine, one_in):
    """With proxies set, addresses in the notes, and tools of the linker first on PATH that leave a trace; the book is laid out too with --all-mutants."""
    fewer = ("--only", "site", "--only", "cards") if name == "publish" and one_in(2) > 1 else ()
    tools = folder / "tools"
    tools.mkdir()
    for tool in ("gcc", "cc", "ld", "ldconfig", "objdump", "fc-match", "fc-cache", "sh", "git"):
        (tools / tool).write_text(f"#!/bin/sh\ntouch {folder}/{tool}-ran\n")
        (tools / tool).chmod(0o755)
    file = folder / "vessels/nordgyllen/vessel.yaml"
    text = file.read_text(encoding="utf-8")
    assert text.count("\nnotes:\n") == 1
    file.write_text(text.replace("\nnotes:\n", NOTES), encoding="utf-8")
    path = os.pathsep.join((str(tools), os.environ["PATH"]))
    found = traced(
        folder,
        *COMMANDS[name],
        *fewer,
        PATH=path,
        http_proxy="http://127.0.0.1:9",
        ALL_PROXY="http://127.0.0.1:9",
    )
    assert found.code in (0, 1), found.out
    assert any("weasyprint-" in path for path in found.changed) == (name == "publish")
    assert found.network == []
    assert [call for call in found.run if str(sys.executable) not in call.partition("[")[0]] == []
    assert list(folder.glob("*-ran")) == []


def test_a_call_to_the_system_is_seen_for_what_it_is(tmp_path):
    found = Traced(0, "")
    for line in (
        'openat(AT_FDCWD</a>, "read.txt", O_RDONLY|O_CLOEXEC) = 3</a/read.txt>',
        'openat(AT_FDCWD</a>, "missing.txt", O_RDONLY) = -1 ENOENT (No such file or directory)',
        'openat(AT_FDCWD</a>, "/b/written.txt", O_WRONLY|O_CREAT|O_TRUNC, 0666) = 3</b/written.txt>',
        'renameat2(AT_FDCWD</a>, "one", AT_FDCWD</a>, "/b/two", RENAME_EXCHANGE) = 0',
        'unlinkat(3</c>, "gone", 0) = 0', 'mkdir("/d", 0777) = 0', "fchmod(4</e>, 0600) = 0",
        "socket(AF_INET, SOCK_STREAM, IPPROTO_TCP) = 5", 'execve("/usr/bin/gcc", ["gcc"], 0x1) = 0',
        'execve("/nowhere/gcc", ["gcc"], 0x1) = -1 ENOENT (No such file or directory)', "vfork() = 7",
        "clone3({flags=CLONE_VM|CLONE_THREAD}, 88) = 8",
    ):  # fmt: skip
        call, _, rest = line.partition("(")
        note(found, call, rest, tmp_path)
    assert found.read == {"/a/read.txt"}
    assert found.changed == {"/b/written.txt", "/a/one", "/b/two", "/c/gone", "/d", "/e"}
    assert len(found.network) == 1
    assert len(found.run) == 2


def test_what_is_not_listed_is_seen(tmp_path):
    found = Traced(
        0, "", read={"/etc/shadow"}, changed={"/etc/passwd", str(tmp_path / "site/boat/x")}, asked={"SECRET"}
    )
    assert unlisted(found, tmp_path, "publish") == {
        "read": ["/etc/shadow"],
        "changed": ["/etc/passwd"],
        "asked": ["SECRET"],
    }
    assert unlisted(found, tmp_path, "survey")["changed"] == ["/etc/passwd", str(tmp_path / "site/boat/x")]


def test_the_code_asks_for_no_variable_that_is_not_listed():
    text = (ROOT / "generator" / "__main__.py").read_text(encoding="utf-8")
    ours = set(re.findall(r"environ(?:\.get\(|\[)\"(\w+)\"", text))
    assert {"SOURCE_DATE_EPOCH", "NO_COLOR", "MUSTERBOOK_TRACE"} <= ours
    assert ours - {each for shown, _ in table("asked") for each in shown} == set()
    assert "Asked" in ASKING


def test_what_the_script_leaves_behind_is_listed():
    script = (ROOT / "generator" / "ready.sh").read_text(encoding="utf-8")
    stamps = set(re.findall(r"\$venv/(ready[\w-]*)", script)) | set(
        re.findall(r"make_environment (ready[\w-]*)", script)
    )
    assert len(stamps) > 4
    assert [stamp for stamp in stamps if f"`{stamp}`" not in SECURITY] == []
