"""Commissioning: the commented first file of a vessel, from a few answers."""

from __future__ import annotations

import json
import os
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from textwrap import wrap
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.reading.block import Block
from generator.reading.fields import Choice, Field, Many, Misread, One, Single, Texts, YesNo
from generator.reading.nearest import nearest
from generator.shelves.folder import templates_folder
from generator.shelves.procedures import shelf
from generator.shelves.stowages import hydrostatic
from generator.vessel.vessel import FORMAT, Vessel

_RAFT, _RELEASE, _SET, _BEACON = (
    "rafts[liferaft]",
    "rafts[liferaft].release",
    "radio.sets[fixed VHF]",
    "radio.beacons[EPIRB]",
)
_LINE_LENGTH, _COMMENT_COLUMN = 120, 40
_NONE, _UNKNOWN = "none", "unknown"
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
_TYPED_BY_EDITORS = {"yes", "no", "on", "off", "y", "n", "true", "false", "null"}

# What a first proof copy needs most, in the order it is asked; each stands for a key of the file.
_FIRST = (
    "vessel.type", "vessel.length", "vessel.beam", "vessel.draft", "vessel.freeboard", "vessel.flag",
    "vessel.persons", "vessel.waters", "vessel.climate",
    f"{_RAFT}.stowage", f"{_RAFT}.where", f"{_RAFT}.side", f"{_RAFT}.persons", f"{_RAFT}.container", f"{_RAFT}.held-by",
    f"{_RAFT}.painter.length", f"{_RAFT}.painter.fast-to", f"{_RELEASE}.expires", f"{_RAFT}.service.next",
    "radio.call-sign", "radio.mmsi", f"{_SET}.where", f"{_BEACON}.where", f"{_BEACON}.battery-expires",
    "lifejackets[adult].next-service",
)  # fmt: skip
# Where the answer "none" leaves the whole block out.
_MAY_BE_NONE = {f"{_RAFT}.stowage": _RAFT, f"{_SET}.where": _SET, f"{_BEACON}.where": _BEACON}

# Where it leaves out the key alone.
_LEFT_OUT = ("radio.call-sign", "radio.mmsi")


class Refusal(Exception):
    """Nothing was written; the message says why and what to write instead."""


@dataclass(frozen=True)
class Question:
    """A question of the first round: the key it fills in, the words, and what an answer looks like."""

    key: str
    text: str
    example: str

    @property
    def shown(self) -> str:
        """The words to choose from, or an example that nobody takes for what Enter would answer."""
        return self.example if _has_words(self.key) else f"for example {self.example}"

    def moot(self, answers: Mapping[str, str]) -> bool:
        """Whether the answers so far leave nothing to ask here (no raft, no HRU, no beacon)."""
        return _moot(self.key, answers)

    def refused(self, text: str) -> str:
        """Why `text` is no answer and what to write instead; "" if it is one."""
        try:
            _written(self.key, text)
        except Refusal as error:
            return str(error)
        return ""


@dataclass(frozen=True)
class Done:
    """The file written; of `asked` first questions `missing` have no answer yet."""

    path: Path
    missing: int
    asked: int


@cache
def questions() -> tuple[Question, ...]:
    """The questions of the first round, in the order to ask them; their words are those of the fields."""
    return tuple(Question(key, _topic(key) + _field(key).question, _example(key)) for key in _FIRST)


def commission(name: str, answers: Mapping[str, str], into: Path) -> Done:
    """Writes the commented vessel file of `name` into a folder of hers under `into`; unanswered keys say unknown.

    `answers` holds text by key path, of the first questions or of any other key the starter file writes.
    Raises Refusal, with nothing written: an unknown key, a misread answer, answers that contradict each other,
    a name no folder can be called by, a file that is there already.
    """
    path, title = file_for(name, into), " ".join(name.split())
    written = {"vessel.name": _written("vessel.name", title)}
    for key, text in answers.items():
        if key not in _keys():
            raise Refusal(f"'{key}' is no key of a starter file; {nearest(key, sorted(_keys()))}")
        written[key] = _written(key, text)
    _agree(written)
    text = _filled(title, path.parent, written)[0]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        raise Refusal(f"{path} cannot be written: {error.strerror}; name another folder") from None
    asked = [key for key in _FIRST if not _moot(key, written)]
    return Done(path, sum(written.get(key, _UNKNOWN) == _UNKNOWN for key in asked), len(asked))


def file_for(name: str, into: Path) -> Path:
    """Where the file of a vessel of that name goes; raises Refusal for an odd name and for a file that is there already."""
    title = " ".join(name.split())
    _written("vessel.name", title)
    path = into / folder_name(title) / "vessel.yaml"
    if os.path.lexists(path):
        raise Refusal(
            f"{path} is there already, and a vessel file is never overwritten; edit it, or give another name or folder"
        )
    return path


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


def _field(key: str) -> Field[Any]:
    """The field at a key path such as rafts[liferaft].painter.length."""
    *blocks, last = re.sub(r"\[[^\]]*\]", "", key).split(".")
    kind: type[Block] = Vessel
    for part in blocks:
        field = kind.fields[part]
        assert isinstance(field, (One, Many)), f"{part} of {key} holds no block"
        kind = field.block
    return kind.fields[last]


def _in_words(field: Field[Any]) -> Field[Any]:
    """The field of what may be told in words alone, where a block may be told so; else the field itself."""
    return field.block.fields[field.block.shorthand] if isinstance(field, One) else field


def _has_words(key: str) -> bool:
    return bool(_field(key).choices)


def _topic(key: str) -> str:
    """What the question is about, where its words alone do not say: "EPIRB: "."""
    named = re.search(r"\[(.*)\]", key)
    if not named:
        return ""
    topic = "lifejackets" if key.startswith("lifejackets") else named[1]
    inner = key.partition("].")[2].rpartition(".")[0]
    return f"{topic}, {inner}: " if inner else f"{topic}: "


def _example(key: str) -> str:
    field = _field(key)
    example = ", ".join(field.choices) if field.choices else field.example
    return f"{example}; or none" if _takes_none(key) else example


def _written(key: str, text: str) -> str:
    """An answer as it goes into the file; raises Refusal with the field's own words."""
    field, text = _in_words(_field(key)), text.strip()
    word = text.lower()
    if word in ("", _UNKNOWN):
        if key == "vessel.name":
            raise Refusal(
                "this word cannot be a vessel's name in the file, for it says that the name is not known"
                if text
                else "a vessel's name needs a letter or a digit; write it as it stands on her stern"
            )
        return _UNKNOWN
    if word == _NONE and _takes_none(key):
        return _NONE
    if word == "private":
        if field.reader == "guest":
            raise Refusal(
                f"{key}: this is printed for guests, so it cannot be private; write it like {field.example}"
            )
        return word
    if any(unicodedata.category(letter)[0] == "C" for letter in text):
        raise Refusal(
            f"{key}: the answer holds a line break or a character that cannot be printed; write it in one line"
        )
    try:
        if isinstance(field, Texts):
            return (
                "["
                + ", ".join(_scalar(field.of.read(each.strip())) for each in text.strip("[]").split(","))
                + "]"
            )
        assert isinstance(field, Single), f"{key} takes one value"
        value = field.read(text)
    except Misread as error:
        raise Refusal(f"{key}: {error.message}; {error.remedy}") from None
    if isinstance(field, YesNo):
        return "yes" if value else "no"
    return _scalar(value if isinstance(field, Choice) else text)


def _scalar(text: str) -> str:
    """Text as YAML: plain where that is safe, else in quotes."""
    plain = re.fullmatch(r"[^\W_](?:[^:#\[\]{},\"'&*!|>%@`\\]*[^\s:#\[\]{},\"'&*!|>%@`\\])?", text)
    return text if plain and text.lower() not in _TYPED_BY_EDITORS else json.dumps(text, ensure_ascii=False)


def _takes_none(key: str) -> bool:
    return key in _MAY_BE_NONE or key in _LEFT_OUT or key == f"{_RAFT}.held-by"


def _moot(key: str, answers: Mapping[str, str]) -> bool:
    for asked, block in _MAY_BE_NONE.items():
        if key.startswith(f"{block}.") and key != asked and answers.get(asked, "").strip().lower() == _NONE:
            return True
    held = answers.get(f"{_RAFT}.held-by", _UNKNOWN).strip() or _UNKNOWN
    return key.startswith(f"{_RELEASE}.") and held.lower() != _UNKNOWN and not _lets_go_by_itself(held)


def _lets_go_by_itself(held: str) -> bool:
    """Whether an answer names a hold that lets go under water."""
    return any(re.search(rf"\b{re.escape(name)}\b", held, re.IGNORECASE) for name in hydrostatic())


def _agree(written: Mapping[str, str]) -> None:
    """An answer about what another answer says is not aboard."""
    for key, text in written.items():
        if text not in (_UNKNOWN, _NONE) and _moot(key, written):
            cause = (
                f"{_RAFT}.held-by names no HRU"
                if key.startswith(_RELEASE) and written.get(f"{_RAFT}.stowage") != _NONE
                else "another answer says there is none aboard"
            )
            raise Refusal(f"{key} is answered, but {cause}; correct one of the two")


@cache
def _keys() -> frozenset[str]:
    """The key paths the starter file can write."""
    everything = {
        f"{_RAFT}.held-by": f"[{', '.join(hydrostatic())}]",
        f"{_BEACON}.where": _UNKNOWN,
        f"{_BEACON}.side": "port",
    }
    return _filled("x", Path("x"), everything)[1]


def _filled(title: str, folder: Path, written: Mapping[str, str]) -> tuple[str, frozenset[str]]:
    """The starter file's text, and the key paths it wrote."""
    used: set[str] = set()

    def has(what: str) -> bool:
        about = {key for key, text in written.items() if text != _UNKNOWN}
        return {
            "raft": written.get(f"{_RAFT}.stowage") != _NONE,
            "holds": written.get(f"{_RAFT}.held-by") != _NONE,
            "release": _lets_go_by_itself(written.get(f"{_RAFT}.held-by", ""))
            or any(key.startswith(_RELEASE) for key in about),
            "vhf": written.get(f"{_SET}.where") != _NONE,
            "beacon": written.get(f"{_BEACON}.where") != _NONE
            and any(key.startswith(_BEACON) for key in about),
            "open beacon": written.get(f"{_BEACON}.where") != _NONE,
        }[what]

    def line(key: str) -> str:
        used.add(key)
        if key in _LEFT_OUT and written.get(key) == _NONE:
            return f"  # {_field(key).key}: {_field(key).example}"
        return _line(key, written.get(key, _UNKNOWN))

    made = Environment(
        loader=FileSystemLoader(templates_folder() / "parts"),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 - it is YAML, and goes nowhere near a browser
    )
    text = made.get_template("starter.yaml.j2").render(
        title=title,
        folder=folder.name if folder.is_absolute() else folder.as_posix(),
        format=FORMAT,
        has=has,
        emergencies=", ".join(one.id for one in shelf() if one.duties),
        line=line,
    )
    return text, frozenset(used)


def _line(key: str, value: str) -> str:
    """A key with its value, and the field's question as a comment beside it or, where that is too long, above."""
    field = _field(key)
    indent = "  " * (key.count(".") + key.count("["))
    entry = f"{indent}{field.key}: {value}"
    if field.choices and not isinstance(field, YesNo):
        comment = (
            f"{field.question} {'Any' if isinstance(field, Texts) else 'One'} of: {', '.join(field.choices)}"
        )
    elif value == _UNKNOWN and isinstance(field, YesNo):
        comment = f"{field.question} yes or no"
    elif value == _UNKNOWN:
        comment = (
            f"{field.question} For example: {field.example}"
            if field.example != Field.usual
            else field.question
        )
    else:
        comment = field.question
    beside = f"{entry:<{_COMMENT_COLUMN}}  # {comment}"
    if len(beside) <= _LINE_LENGTH:
        return beside
    return "\n".join(
        [*(f"{indent}# {part}" for part in wrap(comment, _LINE_LENGTH - len(indent) - 2)), entry]
    )
