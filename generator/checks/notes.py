"""Own notes: they stand beside procedures there are."""

from __future__ import annotations

from generator.reading.nearest import nearest
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, DEFECT, Finds, Sight, at, check


@check("notes.unknown-procedure", DEFECT, COMMON_PRACTICE, COMPOSITION)
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
                f"there is no procedure '{note.beside}' in her manual",
                remedy=nearest(note.beside, names),
                item=note.beside,
            )
