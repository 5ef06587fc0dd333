"""Inspection of paper as the engine saw it."""

from __future__ import annotations

from generator.survey.registry import INSPECTION, TRUTH, Finds, Sight, check
from generator.survey.written import OUR_OWN, records

_KINDS = ("engine-warning", "foreign-font", "missing-glyph", "clipped-text", "too-small")


@check("paper.engine-warning", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def the_engine_had_no_complaint(sight: Sight) -> Finds:
    """The PDF engine had no complaint.

    Why: what it could not draw is missing on paper, and it goes on all the same.
    Remedy: look at the value or the picture named; if the vessel's file is right, it is a fault of the program: report it.
    """
    yield from records(sight, "engine-warning")


@check("paper.foreign-font", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def paper_uses_its_own_font(sight: Sight) -> Finds:
    """Paper uses the font that comes with the program.

    Why: a font of this machine looks otherwise on another, and its letters were not looked at.
    Remedy: write the words named in letters the font has; if they are ordinary, report it.
    """
    yield from records(sight, "foreign-font")


@check("paper.missing-glyph", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def every_letter_is_in_the_font(sight: Sight) -> Finds:
    """Every letter is in the font.

    Why: a box stands where the letter belongs, perhaps in a name or a figure.
    Remedy: write the word named with letters the font has.
    """
    yield from records(sight, "missing-glyph")


@check("paper.clipped-text", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def no_text_is_cut_off(sight: Sight) -> Finds:
    """No text is cut off.

    Why: the end of a step is as much needed as its beginning.
    Remedy: shorten the value that is printed there.
    """
    yield from records(sight, "clipped-text")


@check("paper.other-fault", TRUTH, OUR_OWN, INSPECTION, deferrable=False)
def nothing_else_was_wrong_in_writing(sight: Sight) -> Finds:
    """Nothing else was wrong in writing.

    Why: a remark that nobody reads is a fault that sails along.
    Remedy: look at what is named; report it if the vessel's file is right.
    """
    kinds = {record.kind for made in sight.written.values() for record in made.records}
    yield from records(sight, *(kinds - set(_KINDS)))
