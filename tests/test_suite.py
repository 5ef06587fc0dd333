"""The suite itself: what is shared is made once, no test leaves a trace, and what runs where and when."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from sampled import spread
from specimens import Once

HERE = Path(__file__).parent


def test_what_is_shared_is_made_once_and_each_gets_a_copy(tmp_path):
    made = []
    one, other = Once(tmp_path / "once"), Once(tmp_path / "once")
    first = one("list", lambda: made.append("list") or ["as it was made"])
    first.append("changed by whoever had it first")
    assert other("list", lambda: made.append("again")) == ["as it was made"]
    assert made == ["list"]


def test_what_could_not_be_made_is_tried_by_the_next(tmp_path):
    once = Once(tmp_path / "once")
    with pytest.raises(ZeroDivisionError):
        once("figure", lambda: 1 / 0)
    assert once("figure", lambda: 7) == 7


@pytest.fixture
def suite(tmp_path):
    """A small suite under our rules: suite(test, arguments of pytest) -> what became of it."""
    for name in ("conftest.py", "attacked.py", "sampled.py"):
        shutil.copy(HERE / name, tmp_path)
    (tmp_path / "pytest.ini").write_text(
        "[pytest]\naddopts = -n=auto\npythonpath = .\nmarkers =\n    attack(promise)\n    one_in(number)\n    quick\n    thorough\n"
    )
    inherited = {key: value for key, value in os.environ.items() if not key.startswith("PYTEST_")}

    def run(text, *arguments):
        (tmp_path / "test_one.py").write_text(f"import os\nimport pytest\n\n{text}\n")
        return subprocess.run(
            [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *arguments],
            cwd=tmp_path,
            env={**inherited, "PYTEST_XDIST_AUTO_NUM_WORKERS": "2"},
            capture_output=True,
            text=True,
            check=False,
        )

    return run


@pytest.mark.thorough
@pytest.mark.parametrize("trace", ["os.environ['LEFT'] = 'behind'", "os.chdir('/')"])
def test_a_test_that_leaves_a_trace_fails(suite, trace):
    done = suite(f"def test_one():\n    {trace}", "test_one.py")
    assert done.returncode == 1
    assert "1 passed, 1 error" in done.stdout


@pytest.mark.thorough
def test_quick_is_what_is_not_thorough(suite):
    text = "def test_one():\n    pass\n\n@pytest.mark.thorough\ndef test_two():\n    pass\n\ndef test_three(chromium_path):\n    pass"
    done = suite(text, "test_one.py", "-m", "quick")
    assert done.returncode == 0
    assert "1 passed, 2 deselected" in done.stdout


@pytest.mark.thorough
def test_all_cores_unless_files_are_named_or_documents_renewed(suite):
    text = "def test_one():\n    assert ('PYTEST_XDIST_WORKER' in os.environ) == {}"
    assert suite(text.format(True)).returncode == 0
    assert suite(text.format(True), "test_one.py", "-n", "auto").returncode == 0
    assert suite(text.format(False), "test_one.py::test_one").returncode == 0
    assert suite(text.format(False), "--renew").returncode == 0


@pytest.mark.thorough
@pytest.mark.parametrize(("where", "run"), [((), "os.getppid()"), (("test_one.py",), "os.getpid()")])
def test_an_interrupted_run_says_what_was_under_way(suite, where, run):
    text = f"import time\n\ndef test_one():\n    time.sleep(1)\n    os.kill({run}, 2)\n    time.sleep(3)"
    done = suite(text, *where)
    assert done.returncode == pytest.ExitCode.INTERRUPTED
    assert "under way when it was interrupted: test_one.py::test_one" in done.stdout


@pytest.mark.thorough
def test_of_a_large_family_one_in_so_many_is_looked_at_unless_all_are_asked_for_or_it_is_named(suite):
    text = (
        "@pytest.mark.one_in(3, 'a', 'b')\n@pytest.mark.parametrize('a', range(4))\n@pytest.mark.parametrize('b', range(3))\n"
        "def test_one(a, b):\n    assert (a + b) % 3 == 0"
    )
    assert "4 passed, 8 deselected" in suite(text, "test_one.py").stdout
    assert "4 passed" in (every := suite(text, "test_one.py", "--all-mutants").stdout) and "8 failed" in every
    assert "1 failed" in suite(text, "test_one.py::test_one[0-1]").stdout


def test_of_each_family_the_first_and_every_so_maniest_is_chosen():
    assert spread("aAbBcCdD", 3, str.isupper) == ["a", "A", "d", "D"]
    assert spread(range(5), 1) == [0, 1, 2, 3, 4]
