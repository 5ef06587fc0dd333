"""What people call things in answers, as templates/parts/answers.txt tells it."""

from __future__ import annotations

from functools import cache

from generator.shelves.folder import templates_folder

_FILE = "parts/answers.txt"


@cache
def _rows() -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    lines = (templates_folder() / _FILE).read_text(encoding="utf-8").splitlines()
    parts = [
        [part.strip() for part in line.split("|")] for line in lines if line and not line.startswith("#")
    ]
    return tuple((what, of, tuple(words.split(", "))) for what, of, words in parts)


def meanings(key: str) -> dict[str, tuple[str, ...]]:
    """What people say for the words of a choice, by key: the choices that each may mean."""
    return {
        of.removeprefix(f"{key}: "): words
        for what, of, words in _rows()
        if what == "means" and of.startswith(f"{key}: ")
    }


def beside_words(key: str) -> set[str]:
    """Words that say no more than the choice beside them does."""
    return {word for what, of, words in _rows() if (what, of) == ("beside", key) for word in words}


def instead() -> dict[str, tuple[str, ...]]:
    """The spaces that examples name, each with those that serve on a hull that has it not, in their order."""
    return {of: words for what, of, words in _rows() if what == "instead"}
