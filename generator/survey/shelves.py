"""The program's own shelves, looked at before any boat is."""

from __future__ import annotations

from generator.manual.soundness import faults_of_shelves, whole_as_installed
from generator.manual.wording import faults_of
from generator.shelves.faults import ShelfFault
from generator.shelves.languages import languages
from generator.shelves.words import FIRST_LANGUAGE
from generator.survey.registry import all_checks


def examine(language: str) -> None:
    """Reads every shelf, and the words of a language, before any work is begun; raises ShelfFault with all that is wrong."""
    checks, known = tuple(all_checks()), language if language in languages() else FIRST_LANGUAGE
    if found := (*faults_of_shelves(checks), *(faults_of(known) if whole_as_installed() else ())):
        raise ShelfFault(found)
