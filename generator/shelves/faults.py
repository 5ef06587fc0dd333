"""The one exception for a shelf that contradicts itself: what is wrong, where, all at once."""

from __future__ import annotations

from collections.abc import Iterable

from generator.reading.findings import Finding


class ShelfFault(Exception):
    """The program's own shelves are not as they must be; `findings` say where and what to write instead.

    It is no fault of a boat's file: every command that needs the shelves ends with exit code 2.
    """

    def __init__(self, findings: Iterable[Finding]):
        self.findings = tuple(sorted(set(findings), key=lambda finding: finding.order))
        super().__init__(
            "; ".join(f"{each.place}: {each.message}" for each in self.findings[:3])
            + (f"; and {len(self.findings) - 3} more" if len(self.findings) > 3 else "")
        )
