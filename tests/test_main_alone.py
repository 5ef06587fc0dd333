"""The command line in a process of its own: what it prints where, and what it does not import."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from fleet_of_fakes import edit, lay_out

ROOT = Path(__file__).parent.parent
pytestmark = pytest.mark.thorough


def alone(*argv, **more):
    """A process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **more.pop("env", {})}
    return subprocess.run(
        [sys.executable, "-m", "generator", *argv], capture_output=True, check=False, env=environment, **more
    )


def test_a_reader_that_went_away_is_no_fault():
    done = subprocess.run(
        f"'{sys.executable}' -m generator why --all | head -n 1",
        shell=True,
        capture_output=True,
        cwd=ROOT,
        check=False,
    )
    assert done.stdout.count(b"\n") == 1
    assert done.stderr == b""


def test_a_terminal_without_unicode_gets_escapes_not_a_trace(tmp_path):
    folder = lay_out(tmp_path / "vessels", "saltmeadow")
    edit(folder, "  name: Saltmeadow", "  name: Sältmeadow\n  nämé: x")
    done = alone("survey", "vessels", cwd=tmp_path, env={"PYTHONIOENCODING": "ascii", "LC_ALL": "C"})
    assert (done.returncode, done.stderr) == (1, b"")
    assert rb"'n\xe4m\xe9' is no key" in done.stdout


HEAVY = {"weasyprint", "pydyf", "fontTools", "PIL", "urllib.request", "http.client", "jinja2", "markdown_it"}


@pytest.mark.parametrize(
    ("argv", "light"),
    [(["--help"], HEAVY | {"yaml", "generator.publishing"}), (["survey", "vessels"], HEAVY)],
)
def test_what_prints_no_page_starts_without_what_makes_pages(argv, light, tmp_path):
    lay_out(tmp_path / "vessels", "saltmeadow")
    code = f"""import sys
from generator.__main__ import main
try:
    main({argv!r})
except SystemExit:
    pass
print(sorted({light!r} & set(sys.modules)), file=sys.stderr)"""
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert done.stderr == "[]\n"
