"""The languages that somebody speaks, as words name them."""

from __future__ import annotations

import re


def tongues(said: str) -> set[str]:
    """The words for languages in what is said of them: "English and some Dutch" gives two."""
    return {
        word
        for word in re.findall(r"\w+", said.casefold())
        if word not in ("and", "or", "some", "a", "little", "bit", "of")
    }
