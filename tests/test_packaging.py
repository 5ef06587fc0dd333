"""What an installation holds: the wheel, built and put into a clean environment, and the licences that go with it."""

import importlib.metadata
import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tomllib
import zipfile
from email.parser import HeaderParser
from pathlib import Path

import pytest
from locked import RUNS, locked
from specimens import files_in

ROOT = Path(__file__).resolve().parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
NOTICE = (ROOT / "NOTICE").read_text(encoding="utf-8")
SCRIPTS = "Scripts" if os.name == "nt" else "bin"

# Files of these kinds are somebody's work under somebody's licence: in the wheel only if NOTICE names them.
BROUGHT_ALONG = {
    ".ttf",
    ".otf",
    ".woff",
    ".woff2",
    ".png",
    ".jpg",
    ".jpeg",
    ".gif",
    ".webp",
    ".pdf",
    ".csv",
    ".js",
    ".so",
}


def quiet_environment():
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "PIP_"))}
    return {**kept, "PYTHONDONTWRITEBYTECODE": "1"}


def run(*command, cwd, **more):
    return subprocess.run(
        command, cwd=cwd, env={**quiet_environment(), **more}, capture_output=True, text=True, check=False
    )


@pytest.fixture(scope="session")
def source(tmp_path_factory):
    """A copy of what is built from, so that a build leaves nothing in the checkout."""
    if shutil.which("pip", path=str(Path(sys.executable).parent)) is None:
        pytest.skip("needs tool: pip in the environment of the tests")
    copy = tmp_path_factory.mktemp("source") / "musterbook"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".*", "__pycache__", "site", "vessels"))
    return copy


@pytest.fixture(scope="session")
def wheel(source, tmp_path_factory):
    """The wheel, built from a copy without the network."""
    folder = tmp_path_factory.mktemp("wheel")
    built = run(
        sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "-w", str(folder), str(source),
        cwd=folder,
    )  # fmt: skip
    assert built.returncode == 0, built.stderr
    return next(folder.glob("musterbook-*.whl"))


@pytest.fixture(scope="session")
def names(wheel):
    """The paths inside the wheel."""
    return zipfile.ZipFile(wheel).namelist()


@pytest.fixture(scope="session")
def installed(wheel, tmp_path_factory):
    """A clean environment with the wheel in it; its dependencies are those of the tests, lent by a path file."""
    scripts, packages = clean_environment(tmp_path_factory.mktemp("clean") / "environment", str(wheel))
    lent = dict.fromkeys((sysconfig.get_path("purelib"), sysconfig.get_path("platlib")))
    # Path files of the lending environment are not followed, so the checkout installed there stays out of sight.
    (packages / "lent.pth").write_text("\n".join(lent) + "\n", encoding="utf-8")
    return scripts


def clean_environment(folder, *install):
    """A new environment with one thing installed into it: the folders of its commands and of its packages."""
    made = run(sys.executable, "-m", "venv", "--without-pip", str(folder), cwd=folder.parent)
    assert made.returncode == 0, made.stderr
    python = folder / SCRIPTS / Path(sys.executable).name
    placed = run(
        sys.executable, "-m", "pip", "--python", str(python), "install", "--quiet", "--no-deps", "--no-index", *install,
        cwd=folder.parent,
    )  # fmt: skip
    assert placed.returncode == 0, placed.stderr
    paths = run(
        str(python), "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=folder.parent
    )
    return folder / SCRIPTS, Path(paths.stdout.strip())


def test_an_installation_that_can_be_edited_holds_no_copy_that_goes_stale(source, tmp_path):
    """One line of path and what tells of it: code and templates are read where they are edited."""
    made = run(
        sys.executable, "-c", "import sys, hatchling.build; print(hatchling.build.build_editable(sys.argv[1]))", str(tmp_path),
        cwd=source,
    )  # fmt: skip
    assert made.returncode == 0, made.stderr
    scripts, packages = clean_environment(tmp_path / "environment", str(tmp_path / made.stdout.strip()))
    ours = {path.name for path in packages.iterdir()}
    assert ours == {"_musterbook.pth", next(name for name in ours if name.endswith(".dist-info"))}
    code = "import generator.shelves.folder as s; print(s.__file__); print(s.templates_folder())"
    done = run(str(scripts / "python"), "-c", code, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    wanted = ("generator/shelves/folder.py", "templates")
    assert [Path(line) for line in done.stdout.splitlines()] == [source.resolve() / each for each in wanted]


def shipped(folder, inside):
    """The files of a folder as the wheel holds them: all but what was built, what a README tells developers, and the lock."""
    return {
        f"{inside}/{path.relative_to(ROOT / folder).as_posix()}"
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts and path.name not in ("README.md", "lock.txt")
    }


def test_the_wheel_holds_the_program_and_the_templates_and_nothing_else(names):
    wanted = shipped("generator", "generator") | shipped("templates", "generator/_templates")
    assert {name for name in names if ".dist-info/" not in name} == wanted


def test_evidence_for_developers_stays_with_the_developers(names):
    """Published lists, the documents' builders and the documents are no data of a skipper's manual."""
    from documents import DOCUMENTS

    evidence = [path for path in (ROOT / "tests/evidence").rglob("*.yaml") if path.is_file()]
    assert evidence
    kept_back = {path.name for path in evidence} - {
        path.name for path in (ROOT / "templates").rglob("*.yaml")
    }
    kept_back |= {Path(name).name for name in DOCUMENTS}
    assert {"README.md", "coverage.yaml", "raft.yaml"} <= kept_back
    assert [name for name in names if Path(name).name in kept_back] == []


def test_licence_and_notice_travel_in_the_wheel(wheel, names):
    with zipfile.ZipFile(wheel) as archive:
        for file in ("LICENSE", "NOTICE"):
            inside = next(name for name in names if name.endswith(f".dist-info/licenses/{file}"))
            assert archive.read(inside) == (ROOT / file).read_bytes()
        metadata = HeaderParser().parsestr(
            archive.read(next(name for name in names if name.endswith("METADATA"))).decode("utf-8")
        )
    assert metadata["License-Expression"] == "Apache-2.0"
    assert metadata["Version"] == "0.1.0"


def test_the_licence_is_the_apache_licence():
    text = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert "Apache License" in text
    assert "Version 2.0, January 2004" in text
    assert text.rstrip().endswith("limitations under the License.")


def test_what_others_made_is_in_the_wheel_only_if_the_notice_names_it(names):
    brought = [name for name in names if Path(name).suffix.lower() in BROUGHT_ALONG]
    assert [name for name in brought if Path(name).name not in NOTICE] == []


def rows(section):
    """The rows of one table of NOTICE, split at the bars."""
    part = NOTICE.split(f"\n{section}\n", 1)[1]
    part = re.split(r"\n[A-Z][A-Z ]+\n\n", part)[0]
    return [[cell.strip() for cell in line.split("|")] for line in part.splitlines() if "|" in line]


def closure(name, extras=()):
    """The distributions that come with one, itself included, by the metadata of what is installed here."""
    from packaging.requirements import Requirement

    found = {canonical(name)}
    for line in importlib.metadata.requires(name) or []:
        needed = Requirement(line)
        marker = needed.marker
        if marker is None or any(marker.evaluate({"extra": extra}) for extra in ("", *extras)):
            found |= closure(needed.name, tuple(needed.extras))
    return found


def canonical(name):
    return re.sub(r"[-_.]+", "-", name).lower()


def dependencies():
    from packaging.requirements import Requirement

    found = set()
    for line in PROJECT["dependencies"]:
        needed = Requirement(line)
        found |= closure(needed.name, tuple(needed.extras))
    return found


def test_the_notice_names_every_library_that_comes_along_and_no_other():
    """As metadata have it here, and as the lock has it for every system: what runs, not what builds and tests."""
    named = [canonical(row[0]) for row in rows("LIBRARIES")]
    assert set(named) == dependencies()
    assert sorted(named) == sorted(entry.name for entry in locked() if entry.part == RUNS)


def test_the_licence_beside_a_dependency_is_that_of_the_notice():
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    for name, licence, *_ in rows("LIBRARIES"):
        above = text.split(f'"{name}==')[0].rstrip().splitlines()[-1]
        assert above.endswith(f". {licence}."), name


@pytest.mark.parametrize("row", rows("LIBRARIES"), ids=lambda row: row[0])
def test_the_notice_states_each_librarys_own_licence(row):
    """Held against the library's metadata: its licence expression, or the family its older fields name."""
    metadata = importlib.metadata.metadata(row[0])
    stated = metadata["License-Expression"] or ""
    if stated:
        assert row[1] == stated
        return
    classifiers = [line for line in metadata.get_all("Classifier") or [] if line.startswith("License ::")]
    old_fields = " ".join([metadata["License"] or "", *classifiers])
    families = {
        "BSD": r"\bBSD", "MIT": r"\bMIT\b", "Apache": r"Apache", "LGPL": r"LGPL|Lesser General", "MPL": r"MPL|Mozilla",
        "GPL": r"\bGPL|GNU General",
    }  # fmt: skip
    for family, pattern in families.items():
        named = re.search(rf"\b{family}\b", row[1])
        assert bool(named) == bool(re.search(pattern, old_fields)), (row, old_fields)


def test_the_notice_names_the_family_with_its_copyright_and_licence():
    from generator.machine import fonts

    family, licence, copyright_line, package = rows("FONTS")[0]
    assert family == fonts.FAMILY
    assert licence == importlib.metadata.metadata(package)["License-Expression"]
    assert fonts.licence_text().startswith(copyright_line)


def test_all_that_runs_is_pinned_exactly_and_the_tools_of_tests_have_bounds():
    pin = r"[a-z0-9-]+==[\w.]+(; python_version < '[\d.]+')?"
    assert [line for line in PROJECT["dependencies"] if not re.fullmatch(pin, line)] == []
    ranges = [line for extra in PROJECT["optional-dependencies"].values() for line in extra]
    assert [line for line in ranges if line != "hatchling>=1.25" and not re.search(r">=.*,<", line)] == []


def test_every_dependency_has_its_reason_and_licence_beside_it():
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8").split("\n[project]\n")[1]
    wanted = [
        *PROJECT["dependencies"],
        *(line for extra in PROJECT["optional-dependencies"].values() for line in extra),
    ]
    for line in wanted:
        before = text.split(f'"{line}"')[0].rstrip().splitlines()[-1].strip()
        assert re.fullmatch(r"# .+\. [A-Z][\w.-]+( OR [\w.-]+)*\.", before), f"{line}: {before}"


def test_the_installed_program_uses_what_came_with_it(installed, tmp_path):
    code = "import generator.shelves.folder as s; print(s.__file__); print(s.templates_folder())"
    done = run(str(installed / "python"), "-c", code, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    for line in done.stdout.splitlines():
        assert Path(line).is_relative_to(installed.parent.resolve())


def test_the_command_and_the_module_say_what_they_do(installed, tmp_path):
    for command in ([str(installed / "musterbook")], [str(installed / "python"), "-m", "generator"]):
        done = run(*command, "--help", cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "musterbook" in done.stdout
        assert "publish" in done.stdout


def test_a_boat_published_by_it_from_an_empty_folder_is_the_same_to_the_byte(
    installed, specimen, tmp_path, one_in
):
    """In another zone, in a locale of ASCII alone, and with sets shuffled differently."""
    shutil.copytree(ROOT / "vessels", tmp_path / "fleet")
    boat = "saltmeadow" if one_in(2) == 1 else "kelpwren"
    empty = tmp_path / "empty"
    empty.mkdir()
    elsewhere = {"TZ": "Asia/Tokyo", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONHASHSEED": "9"}
    command = (str(installed / "musterbook"), "publish", str(tmp_path / "fleet" / boat))
    done = run(*command, cwd=empty, **elsewhere)
    assert done.returncode == 0, done.stdout + done.stderr
    assert [path.name for path in (empty / "site").iterdir()] == [boat]
    written, here = files_in(empty / "site" / boat), specimen(boat).files()
    assert {"manifest.json", "guest/index.html", "guest/cards.pdf", "crew/book.pdf"} <= set(written)
    assert sorted(written) == sorted(here)
    assert [name for name in written if written[name] != here[name]] == []
