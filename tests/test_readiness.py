"""The machine as it is, and machines that lack something."""

import subprocess
import sys

import pytest

from generator.machine import readiness


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
    ):
        assert expected in text
    assert "missing" not in text
    assert text.endswith("Ready.")


def test_the_report_tells_what_brings_each_missing_thing():
    stock = readiness.take_stock(all_but("libfontconfig"), lambda _name: None, "alpine")
    assert [item.name for item in stock.missing()] == ["libfontconfig", "chromium", "pdftoppm"]
    text = readiness.report(stock)
    for item in stock.missing():
        assert f"bring it with: {item.remedy}" in text
    assert text.endswith("Not ready: 1 missing.")


def test_a_missing_tool_of_the_tests_does_not_make_the_program_unready():
    assert readiness.report(readiness.take_stock(everything, lambda _name: None, "fedora")).endswith("Ready.")
