"""Letters: what the file says can be drawn in the font that paper and site come with."""

from __future__ import annotations

from generator.machine.fonts import missing_characters
from generator.reading.findings import Place
from generator.reading.nodes import Listing, Mapping, Scalar, place_of
from generator.survey.registry import DEFECT, Found, check


@check("file.letter-missing", DEFECT, "this program's font", deferrable=False)
def every_letter_can_be_drawn(sight):
    """Every letter in the file is in the font.

    Why: a box would stand where the letter belongs, in a name or a figure that somebody reads out over the radio.
    Remedy: write it in the Latin letters of the ship's papers; accents are no hindrance.
    """
    for block in (sight.vessel, sight.vessel.voyage):
        if block is not None:
            for place, text in _texts(block._node, ""):
                lost = missing_characters(text)
                if lost:
                    yield Found(
                        place, f"the font has no {' '.join(lost[:8])}{' ...' if len(lost) > 8 else ''}"
                    )


def _texts(node, path) -> list[tuple[Place, str]]:
    """The values and names below a node that are not plain ASCII, with their places; those of private.yaml are not in the tree."""
    if isinstance(node, Scalar):
        return [] if node.text.isascii() else [(place_of(node, path), node.text)]
    if isinstance(node, Listing):
        return [found for item in node.items for found in _texts(item, path)]
    if not isinstance(node, Mapping):
        return []
    keys = [
        (place_of(node.keys[key], path), key)
        for key in node.entries
        if isinstance(key, str) and not key.isascii() and key in node.keys
    ]
    return keys + [
        found for key, each in node.entries.items() for found in _texts(each, f"{path}.{key}".lstrip("."))
    ]
