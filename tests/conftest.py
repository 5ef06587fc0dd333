"""What holds for every test: in CI a test that is skipped for want of a tool has failed."""

import os

import pytest

WANT_OF_A_TOOL = "needs tool"


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
