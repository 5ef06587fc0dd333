"""Answers: text as typed, read by the field it is for and written as the file has it."""

from __future__ import annotations

import unicodedata
from typing import Any

from generator.commissioning.paths import Target
from generator.commissioning.refusal import Refusal
from generator.reading.absent import takes_none
from generator.reading.editing import scalar
from generator.reading.fields import Choice, Listed, Misread, Single, YesNo
from generator.reading.nearest import folded
from generator.reading.shares import Shares, word_and_number
from generator.reading.together import BOTH, SIDE

NONE, UNKNOWN, PRIVATE = "none", "unknown", "private"
MOST_LETTERS = 400


def _refuse_both_sides(key: Target, text: str) -> None:
    """Raises Refusal where one key is to name two things: there the file itself says both, or each is set by itself."""
    if key.path.endswith(f".{SIDE}") and text.strip().lower() == BOTH:
        thing = key.path.removesuffix(f".{SIDE}")
        raise Refusal(
            f"{key.path}: one thing has one side here; set {thing}.{SIDE}=port and {thing}[2].{SIDE}=starboard"
        )


def written(key: Target, text: str) -> str:
    """An answer as it goes into the file, unknown where there is none; raises Refusal with the field's own words."""
    _refuse_both_sides(key, text)
    path, field, text = key.path, key.read_by, text.strip()
    example, seen_by = key.field.example or field.example, key.field.reader
    word = text.lower()
    if word in ("", UNKNOWN):
        return UNKNOWN
    if word == PRIVATE and PRIVATE not in (field.choices or ()):
        if seen_by == "guest":
            raise Refusal(
                f"{path}: this is printed for guests, so it cannot be private; write it like {example}"
            )
        return word
    if word == NONE and takes_none(key.field):
        return word
    refuse_unprintable(path, text)
    if isinstance(field, Listed) and not listed(text):
        raise Refusal(f"{path}: there is no word between the commas; write it like {example}")
    try:
        if isinstance(field, Listed):
            return _in_brackets(field, text)
        assert isinstance(field, Single), "a path ends at a value"
        value = field.read(text)
    except Misread as error:
        if seen_by != "guest":  # it may be on its way into a log
            raise Refusal(f"{path}: this is not {field.kind}; write it like {example}") from None
        raise Refusal(f"{path}: {error.message}; {error.remedy}") from None
    if isinstance(field, YesNo):
        return "yes" if value else "no"
    return scalar(value if isinstance(field, Choice) else text)


def _in_brackets(field: Listed[Any], text: str) -> str:
    """A list as the file has it: words, numbers, or words with a number each. Raises Misread."""
    parts = []
    for each in listed(text):
        word, number = word_and_number(each) if isinstance(field, Shares) else (each, "")
        read = scalar(str(field.of.read(word)))
        parts.append(f"{read}: {field.number.read(number)}" if number and isinstance(field, Shares) else read)
    return f"[{', '.join(parts)}]"


def listed(text: str) -> list[str]:
    """The words of a list with commas, in brackets or not."""
    inner = text[1:-1] if text.startswith("[") and text.endswith("]") else text
    return [word for each in inner.split(",") if (word := each.strip())]


def refuse_unprintable(path: str, text: str) -> None:
    """Raises Refusal for what cannot stand in one line of a file."""
    if "\N{REPLACEMENT CHARACTER}" in text or any(unicodedata.category(letter)[0] == "C" for letter in text):
        raise Refusal(
            f"{path}: the answer holds a line break or a character that cannot be printed; write it in one line"
        )
    if len(text) > MOST_LETTERS:
        raise Refusal(f"{path}: the answer is longer than {MOST_LETTERS} letters; write it in fewer")


def told(key: Target, text: str) -> str:
    """An answer as others are held against it: a word of a choice as the choice has it, else as typed."""
    text = text.strip()
    if isinstance(key.read_by, Choice) and folded(text) in map(folded, key.read_by.choices):
        return key.read_by.read(text)
    return text
