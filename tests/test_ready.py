"""The script that makes a checkout ready, run in a copy with stand-ins for the system's commands."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from generator.machine import readiness

ROOT = Path(__file__).resolve().parent.parent
SHELL = shutil.which("sh")
pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(
        SHELL is None or os.name != "posix", reason="ready.sh is for systems with a POSIX shell"
    ),
]

LINUX = sys.platform == "linux"
TOOLS = ("chromium", "pdftoppm", *["strace"] * LINUX)
REAL_COMMANDS = (
    "dirname",
    "cksum",
    "cat",
    "uname",
    "mktemp",
    "rm",
    "grep",
    "mkdir",
    "cp",
    "chmod",
    "sed",
    "sh",
    "touch",
)

# Stands for Python: knows the few calls the script makes and writes each down. What it pretends is told by marker files.
PYTHON = """#!/bin/sh
echo "$0 $*" >>"$STAGE/calls"
case "$*" in
-V) echo "Python $(cat "$STAGE/python-version")" ;;
*"import venv, ensurepip"*) [ ! -e "$STAGE/no-venv" ] ;;
*"import pip"*) [ ! -e "$STAGE/broken-venv" ] ;;
*"importlib.metadata"*) cat "$STAGE/strangers" 2>/dev/null || true ;;
*version_info*) [ ! -e "$STAGE/old-python" ] ;;
"-I -m venv "*)
    mkdir -p "$4/bin" && cp "$0" "$4/bin/python" && echo "#!$4/bin/python" >"$4/bin/pip"
    rm -f "$STAGE/broken-venv" ;;
"-I -m pip uninstall "*) rm -f "$STAGE/strangers" ;;
"-I -m pip install "*" -r "*)
    if [ -e "$STAGE/no-network" ]; then echo "could not reach the index" >&2; exit 1; fi
    cat "${0%/bin/python}/ready-lock" >"$STAGE/locked" ;;
"-I -m pip install "*)
    for name in musterbook pytest; do
        printf '#!/bin/sh\\necho "%s ran: $*"\\n[ "$1" != fail ] || exit 5\\n' $name >"${0%/*}/$name"
        chmod +x "${0%/*}/$name"
    done ;;
*NATIVE_LIBRARIES*|*ALL_LIBRARIES*) [ -e "$STAGE/no-libraries" ] ;;
*) exit 99 ;;
esac
"""

LOCK = "# What runs the program\none==1.0\n\n# What the tests need too\ntwo==2.0\n"

# Stands for the package manager: installing a package takes away what marked it as missing.
APT_GET = """#!/bin/sh
echo "apt-get $*" >>"$STAGE/calls"
case "$*" in
update) touch "$STAGE/updated" ; exit 0 ;;
esac
if [ -e "$STAGE/stale-lists" ] && [ ! -e "$STAGE/updated" ]; then echo "Unable to locate package" >&2; exit 100; fi
for package; do
    case $package in
    libpango-1.0-0) rm -f "$STAGE/no-libraries" ;;
    python3-venv) rm -f "$STAGE/no-venv" ;;
    chromium) printf '#!/bin/sh\\n' >"$STAGE/bin/chromium"; chmod +x "$STAGE/bin/chromium" ;;
    strace) printf '#!/bin/sh\\n' >"$STAGE/bin/strace"; chmod +x "$STAGE/bin/strace" ;;
    poppler-utils) printf '#!/bin/sh\\n' >"$STAGE/bin/pdftoppm"; chmod +x "$STAGE/bin/pdftoppm" ;;
    esac
done
"""


class Stage:
    """A checkout in a temporary folder and a machine of which everything is pretended."""

    def __init__(self, folder):
        self.folder = folder
        self.bin = folder / "bin"
        self.checkout = folder / "a checkout"
        (self.checkout / "generator").mkdir(parents=True)
        self.bin.mkdir()
        shutil.copy(ROOT / "generator" / "ready.sh", self.checkout / "generator")
        (self.checkout / "generator" / "lock.txt").write_text(LOCK)
        shutil.copy(ROOT / "pyproject.toml", self.checkout)
        for name in REAL_COMMANDS:
            (self.bin / name).symlink_to(shutil.which(name))
        (folder / "python-version").write_text("3.11.2\n")
        self.command("python3", PYTHON)
        self.user(0)

    def command(self, name, text):
        (self.bin / name).write_text(text)
        (self.bin / name).chmod(0o755)

    def user(self, number):
        self.command("id", f"#!/bin/sh\necho {number}\n")

    def mark(self, *names):
        for name in names:
            (self.folder / name).touch()

    def ready(self, *arguments):
        return subprocess.run(
            [SHELL, str(self.checkout / "generator" / "ready.sh"), *arguments],
            env={"PATH": str(self.bin), "STAGE": str(self.folder)},
            cwd=self.folder,
            capture_output=True,
            text=True,
            check=False,
        )

    def calls(self):
        """The calls made since last asked."""
        file = self.folder / "calls"
        lines = file.read_text().splitlines() if file.exists() else []
        file.write_text("")
        return lines

    def installs(self):
        return [line for line in self.calls() if "-m pip install" in line or "apt-get install" in line]


@pytest.fixture
def stage(tmp_path):
    return Stage(tmp_path)


def test_a_checkout_is_made_ready_and_the_command_runs(stage):
    done = stage.ready("musterbook", "publish", "vessels")
    assert (done.returncode, done.stdout) == (0, "musterbook ran: publish vessels\n")
    locked, project = stage.installs()
    assert "--no-deps --require-hashes --only-binary :all: -r " in locked
    assert (stage.folder / "locked").read_text() == "# What runs the program\none==1.0\n\n"
    assert "--no-deps --no-build-isolation --no-index " in project
    assert project.endswith(f"-e {stage.checkout}")


def test_once_ready_nothing_is_said_or_installed(stage):
    stage.ready("musterbook")
    stage.calls()
    done = stage.ready("musterbook", "survey", "two words")
    assert (done.returncode, done.stdout, done.stderr) == (0, "musterbook ran: survey two words\n", "")
    assert [call.partition("/bin/python ")[2] for call in stage.calls()] == ["-V"]


@pytest.mark.parametrize("changed", ["pyproject.toml", "generator/lock.txt"])
def test_a_changed_project_file_lock_or_python_installs_again(stage, changed):
    stage.ready("musterbook")
    stage.installs()
    with (stage.checkout / changed).open("a") as file:
        file.write("# changed\n")
    stage.ready("musterbook")
    assert len(stage.installs()) == 2
    (stage.folder / "python-version").write_text("3.11.9\n")
    stage.ready("musterbook")
    assert len(stage.installs()) == 2
    stage.ready("musterbook")
    assert stage.installs() == []


def test_what_is_not_in_the_lock_is_taken_out(stage):
    (stage.folder / "strangers").write_text("three\nfour\n")
    stage.ready("musterbook")
    assert [call.partition(" -I -m ")[2] for call in stage.calls() if "uninstall" in call] == [
        "pip uninstall --yes three four"
    ]
    with (stage.checkout / "pyproject.toml").open("a") as file:
        file.write("# changed\n")
    stage.ready("musterbook")
    assert not [call for call in stage.calls() if "uninstall" in call]


def test_a_half_done_installation_is_not_taken_for_the_old_one(stage):
    """The lock goes forward, cannot be installed, and back: the environment may be anything by now."""
    stage.ready("musterbook")
    (stage.checkout / "generator/lock.txt").write_text("one==2.0\n")
    stage.mark("no-network")
    assert stage.ready("musterbook").returncode == 2
    (stage.checkout / "generator/lock.txt").write_text(LOCK)
    (stage.folder / "no-network").unlink()
    stage.calls()
    stage.ready("musterbook")
    assert len(stage.installs()) == 2


def test_a_moved_checkout_gets_its_environment_anew(stage):
    stage.ready("musterbook")
    moved = stage.folder / "moved"
    stage.checkout.rename(moved)
    stage.checkout = moved
    done = stage.ready("musterbook", "due")
    assert done.returncode == 0
    assert "making .venv anew" in done.stderr
    assert str(moved) in (moved / ".venv/bin/pip").read_text()


def test_a_broken_environment_is_made_anew(stage):
    stage.ready("musterbook")
    with (stage.checkout / "pyproject.toml").open("a") as file:
        file.write("# changed\n")
    stage.mark("broken-venv")
    assert "making .venv anew" in stage.ready("musterbook").stderr


def test_on_debian_as_root_the_libraries_are_brought(stage):
    stage.command("apt-get", APT_GET)
    stage.mark("no-libraries", "stale-lists")
    done = stage.ready("musterbook", "publish")
    assert done.returncode == 0
    assert "going on" not in done.stderr
    calls = [call for call in stage.calls() if call.startswith("apt-get")]
    assert calls[1] == "apt-get update"
    assert calls[2].endswith("libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0")


def test_on_debian_as_root_the_venv_module_is_brought(stage):
    stage.command("apt-get", APT_GET)
    stage.mark("no-venv")
    done = stage.ready("musterbook")
    assert done.returncode == 0
    assert any(call.endswith("python3-venv") for call in stage.installs())


@pytest.mark.parametrize("why", ["not root", "no apt-get"])
def test_without_the_libraries_the_site_can_still_be_made(stage, why):
    if why == "not root":
        stage.command("apt-get", APT_GET)
        stage.user(1000)
    stage.mark("no-libraries")
    done = stage.ready("musterbook", "survey")
    assert (done.returncode, done.stdout) == (0, "musterbook ran: survey\n")
    assert "native libraries of the PDF engine are missing. Bring them with: " in done.stderr
    assert not any(call.startswith("apt-get") for call in stage.calls())
    assert stage.ready("musterbook").stderr == done.stderr.partition("(pip)\n")[2]


@pytest.mark.parametrize("mark", ["no-venv", "old-python", "no-network"])
def test_what_nothing_can_go_on_without_stops_with_2(stage, mark):
    stage.mark(mark)
    done = stage.ready("musterbook", "survey")
    assert (done.returncode, done.stdout) == (2, "")
    assert {
        "no-venv": "venv module is missing. Bring it with: ",
        "old-python": "Python 3.11 or newer is missing. Bring it with: ",
        "no-network": "could not reach the index",
    }[mark] in done.stderr


def test_after_a_failed_installation_the_next_run_installs_again(stage):
    stage.mark("no-network")
    assert stage.ready("musterbook").returncode == 2
    (stage.folder / "no-network").unlink()
    assert stage.ready("musterbook").returncode == 0


def test_for_pytest_the_tests_needs_are_brought_too(stage):
    stage.command("apt-get", APT_GET)
    stage.ready("musterbook")
    stage.calls()
    done = stage.ready("pytest", "-q")
    assert (done.returncode, done.stdout) == (0, "pytest ran: -q\n")
    assert (stage.folder / "locked").read_text() == LOCK
    installs = stage.installs()[2:]
    wanted = ["chromium", "poppler-utils", *["strace"] * LINUX]
    assert [call.rpartition(" ")[2] for call in installs] == wanted
    assert stage.ready("pytest").stderr == ""
    assert stage.ready("musterbook").stderr == ""


@pytest.mark.parametrize("wanting", ["libraries", *TOOLS])
def test_pytest_without_its_tools_stops_and_says_what_to_install(stage, wanting):
    for tool in set(TOOLS) - {wanting}:
        stage.command(tool, "#!/bin/sh\n")
    if wanting == "libraries":
        stage.mark("no-libraries")
    done = stage.ready("pytest")
    assert (done.returncode, done.stdout) == (2, "")
    assert re.findall(r"(libraries|Chromium|pdftoppm|strace).*Bring ", done.stderr) == [
        wanting.replace("chrom", "Chrom")
    ]


def test_the_browsers_driver_gets_the_library_it_needs(stage):
    """On a bare Debian the driver's own node does not start for want of libatomic."""
    stage.command("apt-get", APT_GET)
    stage.ready("pytest")
    stage.calls()
    node = stage.checkout / ".venv/lib/python3.11/site-packages/playwright/driver/node"
    node.parent.mkdir(parents=True)
    node.write_text(f'#!/bin/sh\ntest -e "{stage.folder}/atomic"\n')
    node.chmod(0o755)
    (stage.checkout / ".venv/ready-driver").unlink(missing_ok=True)
    done = stage.ready("pytest")
    assert done.returncode == 2
    assert "libatomic" in done.stderr
    assert stage.installs()[-1].endswith("libatomic1")
    (stage.folder / "atomic").touch()
    assert stage.ready("pytest").returncode == 0
    assert (stage.checkout / ".venv/ready-driver").exists()


def test_pytest_names_all_it_lacks_at_once(stage):
    stage.mark("no-libraries")
    done = stage.ready("pytest")
    assert done.returncode == 2
    assert re.findall(r"(libraries|Chromium|pdftoppm|strace).*Bring ", done.stderr) == [
        "libraries",
        "Chromium",
        "pdftoppm",
        *["strace"] * LINUX,
    ]


def test_the_exit_code_of_the_command_comes_through(stage):
    assert stage.ready("musterbook", "fail").returncode == 5


@pytest.mark.parametrize("arguments", [(), ("no-such-command",)])
def test_wrong_usage_stops_with_2(stage, arguments):
    done = stage.ready(*arguments)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].startswith("ready: ")


def test_once_ready_the_overhead_is_small(stage):
    stage.ready("musterbook")
    fastest_s = min(_seconds_worked(stage.ready, "musterbook") for _ in range(3))
    assert fastest_s < 0.3


def _seconds_worked(run, *arguments):
    """The time its processes worked, not that on the clock: other tests are at work beside it."""
    before = os.times()
    run(*arguments)
    after = os.times()
    return after.children_user + after.children_system - before.children_user - before.children_system


def test_the_script_and_the_program_name_the_same_packages_and_browsers():
    script = (ROOT / "generator" / "ready.sh").read_text(encoding="utf-8")
    libraries = re.search(r"^libraries='([^']+)'", script, re.MULTILINE).group(1)
    assert readiness.REMEDIES["debian"].libraries.endswith(" " + libraries)
    browsers = re.search(r"for browser in ([^;]+);", script).group(1).split()
    assert tuple(browsers) == readiness.CHROMIUM_NAMES
    oldest = ", ".join(str(part) for part in readiness.OLDEST_PYTHON)
    assert f"sys.version_info >= ({oldest})" in script


def test_ci_runs_the_tests_through_the_script():
    text = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "export CI=true" in text
    assert re.search(r"^exec timeout .* sh generator/ready\.sh pytest ", text, re.MULTILINE)
    grace_s, limit_s = map(int, re.search(r"--kill-after=(\d+) (\d+)", text).groups())
    assert grace_s >= 30, "pytest needs a moment to say where it stood"
    assert limit_s + grace_s <= 75 * 60


SKIPPING = {
    "a test": "import pytest\ndef test_one():\n    pytest.skip('needs tool: a thing')\n",
    "a mark": "import pytest\n@pytest.mark.skip(reason='needs tool: a thing')\ndef test_one():\n    pass\n",
    "a file": "import pytest\npytest.skip('needs tool: a thing', allow_module_level=True)\n",
}


@pytest.mark.parametrize("text", SKIPPING.values(), ids=SKIPPING)
@pytest.mark.parametrize(
    ("ci", "reason", "code"), [("true", "needs tool", 1), ("", "needs tool", 0), ("true", "other", 0)]
)
def test_in_ci_a_test_skipped_for_want_of_a_tool_fails(tmp_path, text, ci, reason, code):
    for name in ("conftest.py", "attacked.py", "sampled.py"):
        shutil.copy(ROOT / "tests" / name, tmp_path)
    (tmp_path / "test_one.py").write_text(text.replace("needs tool", reason))
    (tmp_path / "test_two.py").write_text("def test_two():\n    pass\n")
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "--rootdir", str(tmp_path), str(tmp_path)],
        env={**os.environ, "CI": ci}, cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.returncode != 0) == bool(code), done.stdout
    assert ("skipped in CI: needs tool" in done.stdout) == bool(code)
