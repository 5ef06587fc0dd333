"""Spelling a name, a call sign or a number aloud, letter by letter, for the distress page and the radio card."""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from generator.shelves.languages import Catalogue
    from generator.shelves.words import Spelling


def spelled(text: str, catalogue: Catalogue) -> list[tuple[str, str]]:
    """(character, word to speak) for each character of `text`, in order.

    A letter with a mark (é) is spelled as the bare letter, one written as two (ø) as those two. What has no word, such as
    an apostrophe, is left out. Figures are spoken as plain digits.

    Source of the letters: ITU Radio Regulations, appendix 14, as reproduced by others.
    """
    table = catalogue.spelling
    hyphen = str(table.hyphen)
    marks = {" ": str(table.space), "-": hyphen, "‐": hyphen, "–": hyphen, ".": str(table.stop)}
    said = []
    for character in text.strip():
        for letter in _plain_letters(character, table):
            word = table.letters.get(letter.lower()) or table.figures.get(letter) or marks.get(letter)
            if word:
                said.append((letter.upper(), word))
    return said


def _plain_letters(character: str, table: Spelling) -> list[str]:
    """The characters the table has words for that stand for `character`."""
    if character.lower() in table.doubled:
        return list(table.doubled[character.lower()])
    return [each for each in unicodedata.normalize("NFKD", character) if not unicodedata.combining(each)]
