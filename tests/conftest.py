"""What holds for every test: the tools some need, and that in CI a test skipped for want of a tool has failed."""

import os
import shutil

import pytest

from generator.machine import readiness

WANT_OF_A_TOOL = "needs tool"


def pytest_addoption(parser):
    """--renew rewrites generated documents and kept files instead of comparing; --all-mutants looks at every mutant."""
    parser.addoption(
        "--renew", action="store_true", help="renew generated sections of documents and kept files"
    )
    parser.addoption(
        "--all-mutants",
        action="store_true",
        help="look at every mutant of the demo boats, not at every eighth",
    )


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
def pdftoppm_path():
    """The path of Poppler's pdftoppm, for tests that look at pages as pictures."""
    found = shutil.which("pdftoppm")
    if found is None:
        pytest.skip(f"{WANT_OF_A_TOOL}: pdftoppm")
    return found


@pytest.fixture(scope="session")
def pdf_engine():
    """Asked for by tests that write a PDF: they need the engine's native libraries."""
    missing = readiness.engine_missing()
    if missing:
        pytest.skip(f"{WANT_OF_A_TOOL}: {missing}")
