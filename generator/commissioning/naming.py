"""What a new vessel's folder is called, and where her file goes."""

from __future__ import annotations

import os
import re
import unicodedata
from pathlib import Path

from generator.commissioning.answers import UNKNOWN, written
from generator.commissioning.paths import target
from generator.commissioning.refusal import Refusal

_LETTERS = str.maketrans(
    {"æ": "ae", "œ": "oe", "ø": "o", "ß": "ss", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i"}
)
_DEVICES = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)),
}
TITLE = target("vessel.name")
"""The key of her name, which no answer fills in but NAME."""
FILE = "vessel.yaml"


def file_for(name: str, into: Path) -> Path:
    """Where the file of a vessel of that name goes; raises Refusal for an odd name and for a file that is there already."""
    title = " ".join(name.split())
    refuse_no_name(title)
    written(TITLE, title)
    path = into / folder_name(title) / FILE
    if os.path.lexists(path):
        raise Refusal(
            f"{path} is there already, and a vessel file is never overwritten; edit it, or give another name or folder"
        )
    return path


def refuse_no_name(title: str) -> None:
    """Raises Refusal for words that would say in the file that the name is not known."""
    if title.lower() in ("", UNKNOWN):
        raise Refusal(
            "this word cannot be a vessel's name in the file, for it says that the name is not known"
            if title
            else "a vessel's name needs a letter or a digit; write it as it stands on her stern"
        )


def folder_name(name: str) -> str:
    """The folder of a vessel's name: small letters, digits and hyphens, no accents. Raises Refusal for an odd name."""
    plain = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", name.lower().translate(_LETTERS))
        if not unicodedata.combining(letter)
    )
    kept = "-".join(re.findall(r"[^\W_]+", plain))
    if not kept:
        raise Refusal("a vessel's name needs a letter or a digit; write it as it stands on her stern")
    if len(kept) > 80 or any(unicodedata.category(letter)[0] == "C" for letter in name):
        raise Refusal(
            "this name is too long or holds characters that cannot be printed; write it as it stands on her stern"
        )
    return f"{kept}-vessel" if kept in _DEVICES else kept
