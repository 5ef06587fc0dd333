"""What holds for every test: its tools, how the work is spread over the cores, what is quick, and that no test leaves a trace.

In CI a test skipped for want of a tool has failed.
"""

import compileall
import gc
import os
import shutil
import sys
import time
from collections import Counter
from locale import LC_ALL, setlocale
from pathlib import Path

import attacked
import hypothesis
import pytest
import sampled

from generator.machine import readiness

WANT_OF_A_TOOL = "needs tool"
# Whoever asks for one of these publishes, lays out pages, starts a program or composes thousands of rafts.
THOROUGH_FIXTURES = {
    "specimen",
    "pdf_engine",
    "pdftoppm_path",
    "strace_path",
    "chromium_path",
    "source",
    "cases",
}
QUICK_S = 40
STARTED_S = time.monotonic()
UNDER_WAY = set()

# That an example takes long on a busy machine is no fault; the rest stays as it is here or in CI.
hypothesis.settings.register_profile(
    "unhurried",
    parent=hypothesis.settings(),
    deadline=None,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
hypothesis.settings.load_profile("unhurried")


def pytest_addoption(parser):
    """--renew rewrites generated documents and kept files instead of comparing; --all-mutants looks at every case there is."""
    parser.addoption(
        "--renew", action="store_true", help="renew generated sections of documents and kept files"
    )
    parser.addoption(
        "--all-mutants",
        action="store_true",
        help="look at every mutant, spoilt file, attack and combination of the large families, not at one in so many",
    )


def pytest_configure(config):
    """In CI nothing is written beside the code while tests run: what they start hundreds of times is compiled once, before."""
    within_a_test = hasattr(config, "workerinput") or "PYTEST_CURRENT_TEST" in os.environ
    if os.environ.get("CI") and not within_a_test:
        compileall.compile_dir(Path(readiness.__file__).parent.parent, quiet=2)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config):
    """Files named one by one run in this process, at once and with prints seen, unless -n is given; so does --renew.

    Renewing rewrites documents of several sections, each by a test of its own: two at a time would lose one of them.
    """
    asked = any(each.startswith(("-n", "--numprocesses")) for each in config.invocation_params.args)
    named = config.args_source is pytest.Config.ArgsSource.ARGS and not asked
    in_files = named and all(Path(each.partition("::")[0]).suffix == ".py" for each in config.args)
    return 0 if in_files or config.getoption("--renew") else None


def pytest_collection_modifyitems(config, items):
    """Of the large families some; whatever is not thorough, by its own mark or by what it asks for, is quick."""
    named = any("[" in each for each in config.args)
    items[:], left_out = sampled.parted(items, every=named or config.getoption("--all-mutants"))
    if left_out:
        config.hook.pytest_deselected(items=left_out)
    for item in items:
        heavy = THOROUGH_FIXTURES.intersection(getattr(item, "fixturenames", ()))
        if heavy or item.get_closest_marker("thorough"):
            item.add_marker("thorough")
        else:
            item.add_marker("quick")


def pytest_collection_finish():
    """The thousands of tests stay; looking through them for rubbish again and again takes a tenth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)


def pytest_runtest_logstart(nodeid):
    """Notes what is under way, whichever process does it."""
    UNDER_WAY.add(nodeid)


def pytest_runtest_logfinish(nodeid):
    """The same, at its end."""
    UNDER_WAY.discard(nodeid)


def pytest_terminal_summary(terminalreporter, exitstatus, config):
    """The figures that tests recorded; where an interrupted run stood; what made a quick run slow."""
    for report in terminalreporter.getreports("passed") + terminalreporter.getreports("failed"):
        for figure in [value for name, value in report.user_properties if name == "figure"]:
            terminalreporter.write_line(f"{report.nodeid}: {figure}")
    _tell_attacks(terminalreporter, config)
    if exitstatus == pytest.ExitCode.INTERRUPTED:
        for name in sorted(UNDER_WAY):
            terminalreporter.write_line(f"under way when it was interrupted: {name}")
    if config.getoption("-m") != "quick" or time.monotonic() - STARTED_S < QUICK_S:
        return
    took_s = Counter()
    for report in terminalreporter.getreports("passed") + terminalreporter.getreports("failed"):
        took_s[report.nodeid] += report.duration
    terminalreporter.write_line(f"over {QUICK_S} s; those that took longest may be marked thorough:")
    for name, seconds in took_s.most_common(5):
        terminalreporter.write_line(f"{seconds:5.1f} s {name}")


def _tell_attacks(terminalreporter, config):
    """The table of attacks, into DEVELOPERS with --renew if all were made."""
    tally = attacked.Tally(terminalreporter.getreports("passed") + terminalreporter.getreports("failed"))
    if not tally.tried:
        return
    terminalreporter.write_line(tally.table())
    if tally.whole and config.getoption("--renew") and config.getoption("--all-mutants"):
        tally.renew()


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session, exitstatus):
    """A run that attacked every promise fails where DEVELOPERS says that there are more attacks."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None or exitstatus or session.config.getoption("--renew"):
        return
    tally = attacked.Tally(reporter.getreports("passed"))
    if tally.whole and (found := tally.differences()):
        reporter.write_line(
            "DEVELOPERS.md says otherwise of the attacks; renew with pytest tests/attacks --all-mutants --renew:"
        )
        for each in found:
            reporter.write_line(each)
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@pytest.fixture
def tried(request):
    """Says how many attacks one test makes, and of how many: tried(100, of=400). The test bears the mark attack(promise)."""

    def counted(times, of=None):
        request.node.user_properties.extend((("tried", times), ("of", of or times)))

    return counted


@pytest.fixture(scope="session")
def one_in(request):
    """How many cases to pass over for each that is looked at: one_in(8); with --all-mutants none."""
    return lambda number: 1 if request.config.getoption("--all-mutants") else number


def _surroundings():
    environment = {key: value for key, value in os.environ.items() if key != "PYTEST_CURRENT_TEST"}
    return {
        "folder": Path.cwd(),
        "environment": environment,
        "path": list(sys.path),
        "locale": setlocale(LC_ALL),
    }


@pytest.fixture(autouse=True)
def _nothing_is_left_behind():
    """A test that changes the process for those after it fails here, where it is to blame, and not in some other order."""
    before = _surroundings()
    yield
    assert _surroundings() == before


@pytest.fixture(scope="session")
def once(tmp_path_factory):
    """Makes a thing once in a run, whichever worker asks first: once(name, make)."""
    from specimens import Once

    folder = tmp_path_factory.getbasetemp()
    if os.environ.get("PYTEST_XDIST_WORKER"):
        folder = folder.parent  # that of the whole run
    return Once(folder / "once")


@pytest.fixture(scope="session")
def specimen(once, pdf_engine):
    """A specimen published by the real command: specimen("saltmeadow").folder; to be read only."""
    from specimens import publish

    return lambda boat: publish(boat, once)


@pytest.fixture
def renew(request):
    """Whether generated sections are to be rewritten."""
    return request.config.getoption("--renew")


def _fail_if_a_tool_was_wanting(report):
    if not os.environ.get("CI") or not report.skipped or not isinstance(report.longrepr, tuple):
        return
    path, line, reason = report.longrepr
    reason = reason.removeprefix("Skipped: ")
    if reason.startswith(WANT_OF_A_TOOL):
        report.outcome = "failed"
        report.longrepr = f"{path}:{line}: skipped in CI: {reason}"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """A test skipped with a reason that starts with "needs tool" fails in CI: it would hide an unchecked output."""
    report = yield
    _fail_if_a_tool_was_wanting(report)
    attacked.counted(item, report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector):
    """The same for a whole file skipped at import."""
    report = yield
    _fail_if_a_tool_was_wanting(report)
    return report


@pytest.fixture(scope="session")
def chromium_path():
    """The path of the system's Chromium, for tests that look at the site."""
    found = next((path for name in readiness.CHROMIUM_NAMES if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip(f"{WANT_OF_A_TOOL}: chromium")
    return found


@pytest.fixture(scope="session")
def browser(chromium_path):
    """The browser, started once in a process of the run; a test opens a context of its own and closes it."""
    playwright = pytest.importorskip("playwright.sync_api", reason=f"{WANT_OF_A_TOOL}: playwright")
    with playwright.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=chromium_path)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def pdftoppm_path():
    """The path of Poppler's pdftoppm, for tests that look at pages as pictures."""
    found = shutil.which("pdftoppm")
    if found is None:
        pytest.skip(f"{WANT_OF_A_TOOL}: pdftoppm")
    return found


@pytest.fixture(scope="session")
def strace_path():
    """The path of strace, for tests that strike a process at its system calls or look at what it asks; only Linux has it."""
    if sys.platform != "linux":
        pytest.skip("strace is for Linux")
    found = shutil.which("strace")
    if found is None:
        pytest.skip(f"{WANT_OF_A_TOOL}: strace")
    return found


@pytest.fixture(scope="session")
def pdf_engine():
    """Asked for by tests that write a PDF: they need the engine's native libraries."""
    missing = readiness.engine_missing()
    if missing:
        pytest.skip(f"{WANT_OF_A_TOOL}: {missing}")
