"""The lock as it is written: what stands in it, in which part, with which fingerprints."""

import re
from dataclasses import dataclass
from pathlib import Path

LOCK = Path(__file__).parent.parent / "generator" / "lock.txt"
RUNS, BUILDS, TESTS = (
    "What runs the program",
    "What puts a checkout into its environment",
    "What the tests need too",
)


@dataclass(frozen=True)
class Entry:
    """One thing that is installed; `marker` says where, "" everywhere."""

    part: str
    name: str
    version: str
    marker: str
    fingerprints: tuple[str, ...]


def locked(text: str | None = None) -> list[Entry]:
    """The entries in their order; raises ValueError where a line is none of an entry."""
    part, found = "", []
    text = LOCK.read_text(encoding="utf-8") if text is None else text
    for line in text.replace("\\\n", " ").splitlines():
        if line in (f"# {RUNS}", f"# {BUILDS}", f"# {TESTS}"):
            part = line[2:]
        elif line and not line.startswith("#"):
            entry = re.fullmatch(r"([a-z0-9-]+)==(\S+)( ; [^#]+?)?((?: +--hash=\S+)*) *", line)
            if entry is None:
                raise ValueError(f"no entry: {line}")
            fingerprints = re.findall(r"--hash=(\S+)", entry[4])
            found.append(
                Entry(part, entry[1], entry[2], (entry[3] or "").removeprefix(" ; "), tuple(fingerprints))
            )
    return found
