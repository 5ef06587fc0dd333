"""The lock: whole, as installed, without addresses; what does not match it is refused."""

import base64
import hashlib
import importlib.metadata
import os
import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from locked import BUILDS, LOCK, RUNS, TESTS, locked
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parent.parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
WHAT_TO_DO = "remove .venv and run: sh generator/ready.sh pytest"
# The Pythons and systems that the lock is written for.
PLACES = [
    {
        "python_version": python, "python_full_version": f"{python}.0", "sys_platform": system,
        "platform_system": {"linux": "Linux", "darwin": "Darwin", "win32": "Windows"}[system],
        "os_name": "nt" if system == "win32" else "posix", "platform_machine": machine, "extra": "",
        "implementation_name": "cpython", "platform_python_implementation": "CPython",
    }
    for python in ("3.11", "3.12", "3.13", "3.14")
    for system, machine in (("linux", "x86_64"), ("linux", "aarch64"), ("darwin", "arm64"), ("win32", "AMD64"))
]  # fmt: skip
pytestmark = pytest.mark.attack("trusted")


def in_part(*parts):
    return {entry.name: entry for entry in locked() if entry.part in parts}


def wanted(name, place, extras=()):
    """What comes with a distribution at a place, by the metadata of what is installed here."""
    found = set()
    for line in importlib.metadata.requires(name) or []:
        needed = Requirement(line)
        asked = any(
            needed.marker is None or needed.marker.evaluate({**place, "extra": each})
            for each in ("", *extras)
        )
        if asked:
            found |= {(canonicalize_name(needed.name), tuple(sorted(needed.extras)))}
    return found


def closure(roots, place):
    """All that comes with requirements at a place, with the requirements that hold for each."""
    seen, left = set(), list(roots)
    while left:
        name, extras = left.pop()
        if (name, extras) in seen:
            continue
        seen.add((name, extras))
        try:
            left += wanted(name, place, extras)
        except (
            importlib.metadata.PackageNotFoundError
        ):  # what only another system needs is not installed here
            continue
    return {name for name, _ in seen}


def roots(lines, place):
    found = map(Requirement, lines)
    return [
        (canonicalize_name(each.name), tuple(sorted(each.extras)))
        for each in found
        if each.marker is None or each.marker.evaluate(place)
    ]


def test_every_entry_has_fingerprints_and_there_is_no_address(tried):
    entries, text = locked(), LOCK.read_text(encoding="utf-8")
    tried(len(entries))
    assert len(entries) > 50
    assert [
        entry.name
        for entry in entries
        if not entry.fingerprints
        or not all(re.fullmatch(r"sha256:[0-9a-f]{64}", each) for each in entry.fingerprints)
    ] == []
    for address in (
        "://",
        "index-url",
        "find-links",
        "trusted-host",
        "@",
        "www.",
        "file:",
        "--extra",
        "--pre",
    ):
        assert address not in text
    assert re.findall(r"^(?![a-z0-9]|#|    --hash=|$).*", text, re.MULTILINE) == []


def test_each_part_is_sorted_and_a_name_stands_once():
    names = [entry.name for entry in locked()]
    assert len(names) == len(set(names))
    parts = [entry.part for entry in locked()]
    assert list(dict.fromkeys(parts)) == [RUNS, BUILDS, TESTS]
    for part in (RUNS, BUILDS, TESTS):
        of_part = [entry.name for entry in locked() if entry.part == part]
        assert of_part == sorted(of_part)


@pytest.mark.parametrize(
    "text",
    ["jinja2==3.1.6 --hash md5", "jinja2>=3", "-e .", "jinja2 @ file:///x", "--pre", "jinja2==3.1.6 # new"],
)
def test_a_line_that_is_no_entry_is_seen(text):
    with pytest.raises(ValueError, match="no entry"):
        locked(f"# {RUNS}\n{text}\n")


@pytest.mark.parametrize(
    "place",
    PLACES,
    ids=lambda place: f"{place['python_version']} {place['sys_platform']} {place['platform_machine']}",
)
def test_the_lock_covers_all_that_is_reached_from_the_project(place, tried):
    """On every Python and system: what runs it, what builds it, what tests it; and each part holds nothing else."""
    project = PROJECT["project"]
    runs = closure(roots(project["dependencies"], place), place)
    builds = closure(roots(PROJECT["build-system"]["requires"], place), place)
    tests = closure(roots(project["optional-dependencies"]["test"], place), place)
    tried(len(runs | builds | tests))
    here = {entry.name for entry in locked() if not entry.marker or Marker(entry.marker).evaluate(place)}
    assert runs | builds | tests <= here
    assert runs <= set(in_part(RUNS))
    assert runs | builds <= set(in_part(RUNS, BUILDS))


def test_nothing_in_the_lock_is_reached_from_nowhere():
    lines = [
        *PROJECT["project"]["dependencies"],
        *PROJECT["build-system"]["requires"],
        *PROJECT["project"]["optional-dependencies"]["test"],
    ]
    reached = set().union(*(closure(roots(lines, place), place) for place in PLACES))
    assert set(in_part(RUNS, BUILDS, TESTS)) - reached == set()


def test_the_lock_satisfies_what_the_project_asks_for():
    """What runs is pinned to the very versions; the tests' tools lie in their ranges, and so do those of the backend."""
    pins = {
        canonicalize_name(each.name): str(each.specifier)
        for each in map(Requirement, PROJECT["project"]["dependencies"])
    }
    assert pins == {name: f"=={entry.version}" for name, entry in in_part(RUNS).items()}
    entries = in_part(RUNS, BUILDS, TESTS)
    for line in (*PROJECT["build-system"]["requires"], *PROJECT["project"]["optional-dependencies"]["test"]):
        asked = Requirement(line)
        assert entries[canonicalize_name(asked.name)].version in asked.specifier


def test_what_each_locked_thing_asks_of_the_others_is_satisfied():
    entries = in_part(RUNS, BUILDS, TESTS)
    wrong = []
    for name in entries:
        try:
            lines = importlib.metadata.requires(name) or []
        except importlib.metadata.PackageNotFoundError:
            continue
        for asked in map(Requirement, lines):
            other = entries.get(canonicalize_name(asked.name))
            if (
                other
                and (asked.marker is None or asked.marker.evaluate({"extra": ""}))
                and other.version not in asked.specifier
            ):
                wrong.append(f"{name}: {asked}")
    assert wrong == []


def test_what_is_installed_here_is_what_is_locked(tried):
    """Nothing else, nothing in another version; pip apart, which comes with Python."""
    entries = {entry.name: entry for entry in locked() if not entry.marker or Marker(entry.marker).evaluate()}
    installed = {}
    for each in importlib.metadata.distributions(
        path=[path for path in sys.path if path.startswith(sys.prefix)]
    ):
        installed[canonicalize_name(each.name)] = Version(each.version)
    for ours in ("pip", "musterbook"):
        installed.pop(ours, None)
    tried(len(entries))
    assert installed == {name: Version(entry.version) for name, entry in entries.items()}, WHAT_TO_DO


def test_the_script_installs_the_first_parts_for_the_program_and_all_for_the_tests():
    script = (ROOT / "generator" / "ready.sh").read_text(encoding="utf-8")
    cut = re.search(r"sed '/\^# (.+)\$/,\$d' \"\$lock\"", script)[1]
    assert cut == TESTS
    installs = re.findall(r"pip install (.*?)(?: \|\||$)", script, re.MULTILINE)
    assert len(installs) == 2
    assert "--no-deps --require-hashes --only-binary :all: -r" in installs[0]
    assert "--no-deps --no-build-isolation --no-index -e" in installs[1]


def test_the_recipe_for_a_new_lock_exists_and_the_lock_names_it():
    recipe = ROOT / ".ci" / "lock"
    command = "python3 .ci/lock"
    assert command in LOCK.read_text(encoding="utf-8").partition(f"# {RUNS}")[0]
    assert f"`{command}` writes it" in (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    if os.name == "posix":
        assert os.access(recipe, os.X_OK)
    told = subprocess.run(
        [sys.executable, str(recipe), "--wrong"], capture_output=True, text=True, check=False
    )
    assert told.returncode == 1
    assert f"{command} --upgrade" in told.stderr


@pytest.fixture
def wheel(tmp_path):
    """A wheel of nothing, beside it a lock that names it: wheel(what is said of its fingerprint) -> the lock."""
    folder = tmp_path / "wheels"
    folder.mkdir()
    file = folder / "nothing_aboard-1.0-py3-none-any.whl"
    inside = {
        "nothing_aboard.py": "",
        "nothing_aboard-1.0.dist-info/METADATA": "Metadata-Version: 2.1\nName: nothing-aboard\nVersion: 1.0\n",
        "nothing_aboard-1.0.dist-info/WHEEL": "Wheel-Version: 1.0\nGenerator: none\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(
        f"{name},sha256={base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b'=').decode()},{len(text)}\n"
        for name, text in inside.items()
    )
    with zipfile.ZipFile(file, "w") as archive:
        for name, text in inside.items():
            archive.writestr(name, text)
        archive.writestr(
            "nothing_aboard-1.0.dist-info/RECORD", record + "nothing_aboard-1.0.dist-info/RECORD,,\n"
        )

    def installs(said):
        text = said(hashlib.sha256(file.read_bytes()).hexdigest())
        (tmp_path / "lock.txt").write_text(f"nothing-aboard==1.0{text}\n")
        return subprocess.run(
            [sys.executable, "-I", "-m", "pip", "install", "--quiet", "--no-index", "--find-links", str(folder), "--target",
             str(tmp_path / "target"), "--no-deps", "--require-hashes", "--only-binary", ":all:", "-r", str(tmp_path / "lock.txt")],
            capture_output=True, text=True, check=False, env={**os.environ, "PIP_DISABLE_PIP_VERSION_CHECK": "1"},
        )  # fmt: skip

    return installs


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("said", "refused"),
    [
        (lambda right: f" --hash=sha256:{right}", ""),
        (lambda right: f" --hash=sha256:{'0' * 64} --hash=sha256:{right}", ""),
        (lambda right: f" --hash=sha256:{right[:-1]}{'0' if right[-1] != '0' else '1'}", "THESE PACKAGES DO NOT MATCH THE HASHES"),
        (lambda _right: "", "Hashes are required"),
    ],
    ids=["right", "one of several", "one digit tampered with", "none"],
)  # fmt: skip
def test_a_file_that_is_not_the_locked_one_is_refused(wheel, said, refused):
    done = wheel(said)
    assert (done.returncode != 0) == bool(refused), done.stderr
    assert refused in done.stderr
