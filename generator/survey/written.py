"""What was written, by the reader who gets it, and what the making of it remarked."""

from __future__ import annotations

from generator.reading.findings import Place
from generator.survey.registry import Finds, Found, Sight

OUR_OWN = "this program's outputs"


def folders(sight: Sight) -> dict[str, dict[str, bytes]]:
    """For each reader: name and bytes of all files they get, and where these are called so in findings."""
    found: dict[str, dict[str, bytes]] = {}
    for made in sight.written.values():
        found.setdefault(made.reader, {}).update(made.files)
    return found


def line_of(reader: str, name: str, line: int = 1) -> Place:
    """A line of a file that a reader gets."""
    return Place(f"{reader}/{name}" if reader else name, line)


def records(sight: Sight, *kinds: str) -> Finds:
    """What the writing of the outputs remarked, of these kinds."""
    for made in sight.written.values():
        for record in made.records:
            if record.kind in kinds:
                yield Found(line_of(made.reader, record.file), record.text, item=record.file)
