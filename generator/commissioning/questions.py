"""The questions of the first round, in the order of what saves lives: what a first proof copy needs most."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from generator.commissioning import crew
from generator.commissioning.answers import NONE, UNKNOWN, told, written
from generator.commissioning.meaning import in_its_words, none_meant, unknown_meant
from generator.commissioning.moot import moot, takes_none
from generator.commissioning.names import BEACON, FIXED, HANDHELD, JACKETS, RAFT
from generator.commissioning.paths import target
from generator.commissioning.places import no_such_space, of_her_type, place_and_side, spaces_of_type, type_in
from generator.commissioning.refusal import Refusal
from generator.reading.fields import CHECKED, ESTIMATE, NEEDED, Field, Listed
from generator.shelves.spaces import ROOMS, hull
from generator.shelves.stowages import stowages

Answers = Mapping[str, str]
_UNKNOWN_MEANS = {
    NEEDED: "unknown will do for now: until it is known, nothing but a proof copy can be published",
    ESTIMATE: "unknown will do; what is worked out or checked from it is left out",
    CHECKED: "unknown will do for now; the step or check that needs it asks again",
}


_TELLS_APART = {
    "vessel.type": (
        "open boat: nothing below and no cabin, all who are aboard sit in the open, in a RIB, a dinghy, a launch",
        "dayboat: an open cockpit behind a small cuddy, to shelter and stow in and not to live in, under sail or engine",
        "motor vessel: cabins below, and an engine alone drives her; monohull: one hull, cabins below, under sail",
    ),
}
"""What tells the words of a choice apart, where people ask."""


@dataclass(frozen=True)
class Question:
    """A question of the first round: the keys it fills in, its words, why it is asked and what an answer looks like.

    `asks` is one of: a value; a place (space and side); a space; several values, one for each key; roles.
    """

    keys: tuple[str, ...]
    why: str
    words: str = ""
    example: str = ""
    asks: str = "value"

    @property
    def key(self) -> str:
        """The key it is known by."""
        return self.keys[0]

    @property
    def text(self) -> str:
        """The words, with what they are about where they alone do not say it: "EPIRB: "."""
        return _topic(self.key) + (self.words or _field(self.key).question)

    def shown(self, answers: Answers) -> str:
        """The words to choose from, or an example that nobody takes for what Enter would answer."""
        choices = self._choices(answers)
        none = f"; or {NONE}" if takes_none(self.key) or self.key == "vessel.rig" else ""
        several = "one or more, with commas: " if choices and isinstance(_field(self.key), Listed) else ""
        return (
            several
            + (
                ", ".join(choices)
                if choices
                else f"for example {of_her_type(self._example(answers), answers)}"
            )
            + none
        )

    def spaces(self, answers: Answers) -> tuple[tuple[str, ...], ...]:
        """Where a space is asked for: those of her type, on deck and below."""
        return spaces_of_type(answers) if self.asks in ("place", "space") else ()

    def moot(self, answers: Answers) -> bool:
        """Whether the answers so far leave nothing to ask here (no raft, no HRU, no beacon, no rig)."""
        return moot(self.key, answers)

    def overtaken(self, answers: Answers) -> bool:
        """Whether what was answered here names a space, or a stowage in one, that her type, answered since, has not."""
        said = answers.get(self.key, UNKNOWN)
        if self.key == f"{RAFT}.stowage":
            kept = stowages().get(said)
            where = str(kept.where or "") if kept else ""
        else:
            where = said if self.asks in ("place", "space") else ""
        return where.lower() not in ("", UNKNOWN, NONE) and bool(no_such_space(where, answers))

    def told(self, answers: Answers) -> str:
        """What was answered here, as it would be answered again."""
        return ", ".join(dict.fromkeys(answers[key] for key in self.keys if key in answers))

    def read(self, text: str, answers: Answers) -> dict[str, str]:
        """The answer to each of its keys; raises Refusal with why it is none and what to write instead."""
        text = text.strip()
        if not text or unknown_meant(text):
            return dict.fromkeys(self.keys, UNKNOWN)
        if takes_none(self.key) and none_meant(text, *self._about()):
            return {key: NONE for key in self.keys if takes_none(key)}
        try:
            return self._read(text, answers)
        except Refusal as refused:
            if not takes_none(self.key) or not re.search("write one of|is no answer", refused.reasons[-1]):
                raise
            raise Refusal(*refused.reasons, f"(if she has none: {NONE})") from None

    def _read(self, text: str, answers: Answers) -> dict[str, str]:
        if re.fullmatch(r"[-\u2013\u2014./*_~!]+", text):
            raise Refusal(f"{self.key}: '{text}' is no answer; where nobody knows, write {UNKNOWN}")
        return _READ[self.asks](self, text, answers)

    def _about(self) -> tuple[str, ...]:
        """What is asked for, as somebody names it who has none: no raft, no VHF."""
        return (
            self.text.partition(":")[0],
            self.key.partition("[")[0].replace(".", " "),
            self.key.rpartition(".")[2],
        )

    def explained(self, answers: Answers) -> list[str]:
        """What is said to whoever answers with a question mark: why, what to write, what unknown does, and where it stands."""
        shown = self.shown(answers)
        return [
            self.why,
            shown if shown.startswith(("for example", "one or more")) else f"one of: {shown}",
            *_TELLS_APART.get(self.key, ()),
            _UNKNOWN_MEANS.get(_unknown(self.key), "unknown will do; it is printed as not known"),
            "back goes to the question before",
            f"in the file: {', '.join(self.keys)}",
        ]

    def _choices(self, answers: Answers) -> tuple[str, ...]:
        """The words it takes; of what goes with the place where a raft is kept, those."""
        kept = stowages().get(answers.get(f"{RAFT}.stowage", ""))
        if kept and self.key == f"{RAFT}.container":
            return kept.container
        if kept and self.key == f"{RAFT}.held-by":
            return kept.held_by
        return _choices_of(self.key) or ()

    def _example(self, answers: Answers) -> str:
        if self.key == "vessel.rig" and hull(type_in(answers)).below != ROOMS:
            return "standing lug"
        return self.example or ("" if self.key == crew.PEOPLE else str(_field(self.key).example))


def _value(question: Question, text: str, _answers: Answers) -> dict[str, str]:
    text = in_its_words(target(question.key), text)
    written(target(question.key), text)
    return {question.key: told(target(question.key), text)}


def _space(question: Question, text: str, answers: Answers) -> dict[str, str]:
    text = re.sub(r"(?i)^(?:(?:in|on|at) )?the ", "", text)
    written(target(question.key), text)
    if wrong := no_such_space(text, answers):
        raise Refusal(f"{question.key}: {wrong}")
    return {question.key: text}


def _place(question: Question, text: str, answers: Answers) -> dict[str, str]:
    where, side = place_and_side(question.key, text)
    found = _space(question, where, answers)
    return found | {question.keys[1]: side or UNKNOWN}


def _several(question: Question, text: str, _answers: Answers) -> dict[str, str]:
    """Values in their order; one that is left out is unknown."""
    found = dict.fromkeys(question.keys, UNKNOWN)
    left = list(question.keys)
    for part in re.split(r",\s+|;|\s+x\s+", text):
        if not left:
            raise Refusal(
                f"{question.key}: '{part.strip()}' is one too many; write it like {question.example}"
            )
        refused: list[Refusal] = []
        for key in left:
            try:
                said = in_its_words(target(key), part)
                written(target(key), said)
            except Refusal as error:
                refused.append(error)
                continue
            found[key] = said
            left = left[left.index(key) + 1 :]
            break
        else:
            raise refused[0]
    return found


def _people(_question: Question, text: str, _answers: Answers) -> dict[str, str]:
    crew.ask_ages(text)
    return {crew.PEOPLE: crew.in_one_line(text)}


_READ: dict[str, Callable[[Question, str, Answers], dict[str, str]]] = {
    "value": _value,
    "space": _space,
    "place": _place,
    "several": _several,
    "roles": _people,
}


def _placed(about: str, why: str, example: str) -> Question:
    words = "In which space, and on which side?"
    return Question((f"{about}.where", f"{about}.side"), why, words, example, "place")


_ABOUT = {crew.PEOPLE: "people: ", "gas.fuel": "cooker: "}


def _one(key: str, why: str) -> Question:
    return Question((key,), why)


@cache
def questions() -> tuple[Question, ...]:
    """The questions in the order to ask them."""
    return (
        _one("vessel.type", "her spaces, her plan and some of the steps follow from it"),
        Question(
            (crew.PEOPLE,),
            "cards name roles, never persons; the first station bill is written for them, and heads are counted against the number",
            "Which roles are aboard on a passage, or how many persons?",
            crew.EXAMPLE,
            "roles",
        ),
        _one(f"{RAFT}.stowage", "each place has steps of its own to free the raft and send it over the side"),
        _placed(RAFT, "somebody is sent there in the dark, and the plan shows it there", "coachroof, centre"),
        _one(f"{RAFT}.container", "the steps that take it over the side depend on it"),
        _one(f"{RAFT}.held-by", "the hand must know what to open and in which order, and what lets go by itself under water"),
        _one(f"{RAFT}.persons", "there must be a place in it for everybody aboard"),
        _one(f"{RAFT}.painter.length", "all of it is pulled out before the raft inflates; it is marked on the container"),
        _one(f"{RAFT}.painter.fast-to", "a painter that is fast to nothing loses the raft; go and look where its end is"),
        _one(f"{RAFT}.release.expires", "past that date nobody can rely on it to free the raft under water"),
        _one(f"{RAFT}.service.next", "a raft past its service stops publishing: nobody can say that it still inflates"),
        _placed(FIXED, "whoever calls for help is sent there", "chart table, port"),
        _placed(HANDHELD, "without a fixed set it is what calls for help", "companionway, port"),
        Question(
            ("radio.call-sign", "radio.mmsi"),
            "they say on the air who is calling",
            "What are her call sign and her MMSI?",
            "MZZZ9, 232000000",
            "several",
        ),
        _placed(BEACON, "whoever leaves her switches it on or takes it along", "companionway, starboard"),
        _one(f"{BEACON}.battery-expires", "past that date nobody can rely on it"),
        _placed(JACKETS, "everybody fetches one there", "cockpit locker, port"),
        Question(("vessel.muster-place",), "heads are counted there, and everybody must know where it is", asks="space"),
        _one("vessel.engine", "fire, fuel and propeller: which of those steps and stops she has"),
        _one("gas.fuel", "whether there are steps for gas, and what is shut first; none if nothing burns"),
        _one("vessel.rig", "a boat under sail is stopped otherwise than one under engine when somebody is in the water"),
        _one("vessel.waters", "how far help is, and what should be aboard"),
        _one("vessel.climate", "how soon cold water disables somebody, and what is asked for against it"),
        _one("vessel.use", "a boat that is let or works has steps and rules of her own"),
        Question(
            ("vessel.length", "vessel.beam"),
            "the plan is drawn to them",
            "How long is her hull, and how wide is she?",
            "12.0 m, 3.9 m",
            "several",
        ),
        _one("vessel.flag", "call sign and MMSI are held against it"),
    )  # fmt: skip


def _field(key: str) -> Field[Any]:
    return target(key).field


def _unknown(key: str) -> str:
    return NEEDED if key == crew.PEOPLE else _field(key).unknown


def _choices_of(key: str) -> tuple[str, ...] | None:
    return None if key == crew.PEOPLE else _field(key).choices


def _topic(key: str) -> str:
    named = re.search(r"\[(.*)\]", key)
    if not named:
        return _ABOUT.get(key, "")
    about = "lifejackets" if key.startswith(JACKETS) else named[1]
    inner = key.partition("].")[2].rpartition(".")[0]
    return f"{about}, {inner}: " if inner else f"{about}: "
