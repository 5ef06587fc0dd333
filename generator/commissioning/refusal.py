"""What is wrong with answers, all of it at once."""

from __future__ import annotations

from collections.abc import Sequence


class Refusal(Exception):
    """Nothing was written; the message says why and what to write instead. `reasons` are one for each thing wrong, `lines` the message line by line."""

    def __init__(self, *reasons: str) -> None:
        self.reasons = reasons
        many = f"{len(reasons)} of the answers cannot be taken, and nothing was written:"
        self.lines = reasons if len(reasons) == 1 else (many, *reasons)
        super().__init__("\n  ".join(self.lines))


def all_of(reasons: Sequence[str]) -> None:
    """Raises a Refusal with the reasons, each once, if there are any."""
    if reasons:
        raise Refusal(*dict.fromkeys(reasons))
