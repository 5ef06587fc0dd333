"""The machine as it is, and machines that lack something."""

import re
import subprocess
import sys

import pytest

from generator.machine import readiness, versions


def all_but(library):
    names = readiness.NATIVE_LIBRARIES[library]
    return lambda asked: asked != names


def everything(_names):
    return True


@pytest.mark.parametrize("library", readiness.NATIVE_LIBRARIES)
@pytest.mark.parametrize("family", readiness.REMEDIES)
def test_a_missing_library_is_named_with_the_command_that_brings_it(library, family):
    message = readiness.engine_missing(all_but(library), family)
    assert message is not None
    assert library in message
    assert readiness.REMEDIES[family].libraries in message
    assert "publish --only site" in message


def test_nothing_is_said_when_all_libraries_load():
    assert readiness.engine_missing(everything, "debian") is None


def test_the_loader_finds_what_is_there_and_only_that():
    assert readiness.native_library_loads(
        ("libno-such-thing-9.so.9", "libc.so.6", "libSystem.dylib", "kernel32")
    )
    assert not readiness.native_library_loads(("libno-such-thing-9.so.9",))


@pytest.mark.thorough
def test_the_verdict_agrees_with_the_engine_itself():
    started = subprocess.run([sys.executable, "-c", "import weasyprint"], capture_output=True, check=False)
    assert (readiness.engine_missing() is None) == (started.returncode == 0)


def test_looking_does_not_import_the_engine():
    code = "import sys; from generator.machine import readiness as r; r.engine_missing(); r.report(r.take_stock())"
    code += "; sys.exit('weasyprint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    ("os_release", "family"),
    [
        ('ID=debian\nVERSION_ID="12"\n', "debian"),
        ("NAME=Ubuntu\nID=ubuntu\nID_LIKE=debian\n", "debian"),
        ("ID=linuxmint\nID_LIKE='ubuntu debian'\n", "debian"),
        ('ID="rocky"\nID_LIKE="rhel centos fedora"\n', "fedora"),
        ("ID=manjaro\nID_LIKE=arch\n", "arch"),
        ("ID=alpine\n", "alpine"),
        ("ID=somethingelse\n", "other"),
        ("", "other"),
    ],
)
def test_the_system_is_known_by_its_release_file(os_release, family):
    assert readiness.system_family(os_release, "linux") == family


@pytest.mark.parametrize(("name", "family"), [("darwin", "macos"), ("win32", "windows")])
def test_macos_and_windows_are_known_by_name(name, family):
    assert readiness.system_family("ID=debian\n", name) == family


def test_the_report_names_versions_libraries_fonts_and_tools():
    text = readiness.report(readiness.take_stock(everything, lambda name: f"/bin/{name}", "debian"))
    for expected in (
        "Python",
        readiness.__version__,
        "weasyprint",
        "70.0",
        "libpango-1.0",
        "400 normal",
        "/bin/pdftoppm",
        "/bin/strace",
    ):
        assert expected in text
    assert "missing" not in text
    assert text.endswith("Ready, as locked.")


def test_the_report_tells_what_brings_each_missing_thing():
    stock = readiness.take_stock(all_but("libfontconfig"), lambda _name: None, "alpine")
    assert [item.name for item in stock.missing()] == ["libfontconfig", "chromium", "pdftoppm", "strace"]
    text = readiness.report(stock)
    for item in stock.missing():
        assert f"bring it with: {item.remedy}" in text
    assert text.endswith("Not ready: 1 missing.")


def test_a_missing_tool_of_the_tests_does_not_make_the_program_unready():
    assert readiness.report(readiness.take_stock(everything, lambda _name: None, "fedora")).endswith(
        "Ready, as locked."
    )


@pytest.mark.parametrize(("family", "has"), [("debian", True), ("macos", False), ("windows", False)])
def test_strace_is_looked_for_only_where_it_is_to_be_had(family, has):
    text = readiness.report(readiness.take_stock(everything, lambda _name: None, family))
    assert ("strace" in text) == has


def test_versions_that_decide_bytes_are_told():
    stock = dict(readiness.take_stock().groups)
    told = {item.name: item.found for item in stock["Native libraries"]}
    assert "zlib" in told
    assert [name for name, version in told.items() if version and not re.match(r"\d+\.\d+", version)] == []


def test_another_version_than_the_locked_one_is_told(monkeypatch):
    """Also one that only looks newer; 1.006 is 1.6."""
    locked = versions.pinned_versions("musterbook")
    assert locked["weasyprint"]
    monkeypatch.setattr(
        readiness, "pinned_versions", lambda _name: {**locked, "weasyprint": "70.1", "jinja2": "3.1.60"}
    )
    stock = readiness.take_stock(everything, lambda name: f"/bin/{name}", "debian")
    assert {item.name: item.locked for item in stock.unlike()} == {"weasyprint": "70.1", "jinja2": "3.1.60"}
    text = readiness.report(stock)
    assert "70.0, not 70.1: pages may not be the same to the byte" in text
    assert "pip install weasyprint==70.1" in text
    assert text.endswith("Ready, but 2 not in the version that is locked.")
