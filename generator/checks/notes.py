"""Own notes: they stand beside procedures there are, and are words."""

from __future__ import annotations

from functools import cache

from generator.manual.notes import pictures_in
from generator.reading.nearest import alike, nearest, shortened
from generator.shelves.procedures import shelf
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)


@check("notes.unknown-procedure", TRUTH, COMMON_PRACTICE, COMPOSITION)
def notes_stand_beside_procedures_there_are(sight: Sight) -> Finds:
    """Own notes stand beside a procedure the manual has.

    Why: beside a misspelt name they are printed nowhere.
    Remedy: write the name the message proposes.
    """
    names = sorted({name for one in sight.manual.procedures for name in (one.id, one.kind)})
    for note in sight.vessel.notes:
        if isinstance(note.beside, str) and note.beside not in names:
            yield at(
                note,
                "beside",
                f"there is no procedure '{note.beside}' in her manual"
                + (": it is another boat's" if note.beside in _orders() else ""),
                remedy=_meant(note.beside, names, sight),
                item=note.beside,
            )


def _meant(beside: str, names: list[str], sight: Sight) -> str:
    """What may be meant: of what other boats have, those of hers that stand nearest; else what is spelt alike, or her most urgent ones."""
    orders = _orders()
    if beside in orders:
        hers = sorted(
            {one.kind for one in sight.manual.procedures if one.kind in orders},
            key=lambda kind: (abs(orders[kind] - orders[beside]), kind),
        )
        return f"write the one of hers that it belongs to: {', '.join(hers[:_NEAREST])}"
    if alike(beside, names):
        return nearest(beside, names)
    first = [one for one in sight.manual.procedures if one.emergency][:_MOST_URGENT]
    urgent = ", ".join(one.id for one in first)
    return f"write the name of its page on the site, without .html; the most urgent are: {urgent}"


@cache
def _orders() -> dict[str, int]:
    """The place of every procedure of the shelf in the book."""
    return {one.id: one.order for one in shelf()}


_MOST_URGENT, _NEAREST = 12, 2


@check("notes.picture", FORM, COMMON_PRACTICE)
def notes_are_words(sight: Sight) -> Finds:
    """Own notes are words: a picture in one is not printed, the words that stand for it are.

    Why: most pictures in notes lie in the network, and where the manual is read there is none.
    Remedy: say it in words, or name a photo of yours under 'photo' at the thing it shows: photo: photos/raft.jpg.
    """
    for note in sight.vessel.notes:
        for words in pictures_in(note.text) if isinstance(note.text, str) else ():
            what = f"the picture '{shortened(words)}'" if words else "a picture"
            yield at(note, "text", f"{what} in this note is not printed", item=str(note.beside))
