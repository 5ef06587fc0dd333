"""Counts what the attacks of the suite tried and how often they came through, a row a promise, for the table in DEVELOPERS.

There stands what a run with --all-mutants tries. Any other tries some of the large families and counts of how many these are.
"""

import re
from collections import Counter
from pathlib import Path

from sampled import STANDS_FOR

PROMISES = {
    "one-writer": "One writer at a time",
    "ours-alone": "Only what is ours is removed",
    "none-left-out": "No boat is left out in silence",
    "confined": "Confined",
    "private": "Private stays private",
    "no-traceback": "No traceback for a user's mistake",
    "trusted": "Built to be trusted",
}
DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
SECTION = re.compile(r"(<!-- attacks[^>]*-->\n).*(<!-- /attacks -->)", re.DOTALL)
FEWER = 0.9  # of what is written: system calls of another machine are not as many


def counted(item, report):
    """Adds to a report of a marked test what it tried; all of that failed where the test did."""
    mark = item.get_closest_marker("attack")
    if mark is None or report.when != "call" or report.skipped:
        return
    promise = mark.args[0]
    assert promise in PROMISES, promise
    tried, of = (
        sum(value for name, value in item.user_properties if name == counted) or 1
        for counted in ("tried", "of")
    )
    of *= item.stash.get(STANDS_FOR, 1)
    report.user_properties.append(("attack", (promise, tried, of, tried if report.failed else 0)))


class Tally:
    """What was tried in a run, of how many, and what failed, by promise."""

    def __init__(self, reports):
        self.tried, self.of, self.failed = Counter(), Counter(), Counter()
        for report in reports:
            for name, value in report.user_properties:
                if name == "attack":
                    promise, tried, of, failed = value
                    self.tried[promise] += tried
                    self.of[promise] += of
                    self.failed[promise] += failed

    @property
    def whole(self):
        """Whether every promise was attacked in this run."""
        return set(self.tried) == set(PROMISES)

    def table(self):
        """The rows as they stand in DEVELOPERS."""
        rows = [
            f"| {words} | {self.tried[promise]:,} | {self.failed[promise]} |"
            for promise, words in PROMISES.items()
        ]
        return "\n".join(["| promise | tried | failed |", "| --- | --- | --- |", *rows]) + "\n"

    def renew(self):
        """Writes the table into DEVELOPERS."""
        text = DEVELOPERS.read_text()
        DEVELOPERS.write_text(SECTION.sub(lambda match: match[1] + self.table() + match[2], text))

    def differences(self):
        """How DEVELOPERS says otherwise than this run; none where there is as much to try, and it failed as seldom."""
        section = SECTION.search(DEVELOPERS.read_text())
        stated = dict(
            re.findall(r"^\| (.+?) \| ([\d,]+) \| 0 \|$", section[0] if section else "", re.MULTILINE)
        )
        found = []
        for promise, words in PROMISES.items():
            said = int(stated.get(words, "0").replace(",", ""))
            if not said or self.of[promise] < FEWER * said or self.failed[promise]:
                found.append(
                    f"{words}: {self.tried[promise]} tried of {self.of[promise]:.0f}, {self.failed[promise]} failed; "
                    f"written: {said or 'nothing'}"
                )
        return found
