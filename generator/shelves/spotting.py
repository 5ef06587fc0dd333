"""Spotting words: which of many words, each in several forms, stand in a text; one pattern for all of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

_PARTS = re.compile(r"[\s-]+")
_CAPITALS = re.compile(r"[A-Z]{2}")


class Spotter:
    """Finds whole words in texts, in capitals or not; of several that begin at one place the longest.

    A form in capitals (CO) is found only so. Blank and hyphen between the words of a form are the same. What `otherwise` names is
    passed over with all that is in it.
    """

    def __init__(self, forms: Mapping[str, Iterable[str]], otherwise: Iterable[str] = ()) -> None:
        self._found: dict[str, tuple[str, str]] = {}
        for name, several in (("", otherwise), *forms.items()):
            for form in several:
                exact = form if _CAPITALS.search(form) else ""
                self._found.setdefault(_alike(form), (name, exact))
        beginning: dict[str, list[str]] = {}
        for form in sorted(self._found, key=len, reverse=True):
            beginning.setdefault(form[:1], []).append(r"[\s-]+".join(map(re.escape, form[1:].split(" "))))
        groups = (f"{re.escape(first)}(?:{'|'.join(rest)})" for first, rest in sorted(beginning.items()))
        lettered = all(re.match(r"\w.*\w$|\w$", form) for form in self._found)
        # Of forms that begin and end in letters both say the same, the first three times as fast.
        before, behind = (r"\b", r"\b") if lettered else (r"(?<!\w)", r"(?!\w)")
        self._pattern = re.compile(f"{before}(?:{'|'.join(groups)}){behind}") if beginning else None

    def found_in(self, text: str) -> frozenset[str]:
        """The names of the words that stand in a text."""
        if self._pattern is None:
            return frozenset()
        names = set()
        small = _small(text)
        for match in self._pattern.finditer(small):
            name, exact = self._found[_alike(match[0])]
            if name and (not exact or text[match.start() : match.end()] == exact):
                names.add(name)
        return frozenset(names)


def _alike(form: str) -> str:
    return " ".join(_PARTS.split(form.lower()))


def _small(text: str) -> str:
    """The text in small letters, each where it stood."""
    small = text.replace("’", "'").lower()
    return small if len(small) == len(text) else "".join(one.lower()[:1] for one in text.replace("’", "'"))
