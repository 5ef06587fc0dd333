"""Answers looked at together: read, held against each other, and set in the text of the starter file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from generator.commissioning import crew, moot
from generator.commissioning.answers import NONE, UNKNOWN, listed, told, written
from generator.commissioning.entries import apart, form_of
from generator.commissioning.meaning import in_its_words
from generator.commissioning.names import BEACON, FIXED, HANDHELD, HELD_BY, RAFT, RELEASE, kind_of
from generator.commissioning.paths import Target, answered, target
from generator.commissioning.places import refuse_no_side
from generator.commissioning.read_back import same
from generator.commissioning.refusal import Refusal, all_of
from generator.reading.absent import takes_none
from generator.reading.editing import Entry, set_value
from generator.reading.fields import Many
from generator.shelves.stowages import stowages

if TYPE_CHECKING:
    from generator.commissioning.starter import Starter
    from generator.vessel.vessel import Vessel

_NO_LISTS = {
    "rafts": (f"{RAFT}.stowage",),
    "radio.sets": (f"{FIXED}.where", f"{HANDHELD}.where"),
    "radio.beacons": (f"{BEACON}.where",),
}
"""The lists of which an answer may say that they are empty, with the answers that say so of their first entries."""


class Given:
    """The answers looked at: `answers` as they are held against each other, `written` as the file has them, both by key path.

    `named` are the entries of lists that they name; `people` those aboard, as one answer names them.
    """

    def __init__(self, answers: Mapping[str, str]) -> None:
        self.answers: dict[str, str] = {}
        self.written: dict[str, str] = {}
        self.targets: dict[str, Target] = {}
        self.named: dict[str, list[str]] = {}
        self.people: list[crew.Group] = []
        self.lists: dict[str, str] = {}
        self.twins: list[Target] = []
        reasons: list[str] = []
        for key, text in (each for answer in answers.items() for each in apart(*answer)):
            try:
                self._take(key, text)
            except Refusal as refused:
                reasons += refused.reasons
        reasons += self._contradictions() + self._ages_left_out() + self._first_left_out()
        all_of(reasons)
        self._derive()

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles of those aboard, each of a name of its own."""
        return tuple(role for group in self.people for role in group.roles)

    @property
    def spoken_of(self) -> frozenset[str]:
        """The roles of which another answer says more, or to which it gives something to do."""
        said = " ".join(text for key, text in self.written.items() if key != crew.PEOPLE)
        more = {role for role in self.roles if re.search(rf"(?<!\w){re.escape(role)}(?!\w)", said)}
        return frozenset(more.union(self.named.get(crew.PEOPLE, ())))

    def open(self, key: str) -> bool:
        """Whether a first question's key has no answer yet."""
        if key == crew.PEOPLE:
            return not (self.roles or self.named.get(key))
        return self.answers.get(key, UNKNOWN).lower() in ("", UNKNOWN)

    def _take(self, key: str, text: str) -> None:
        one = answered(key)
        if one.path in self.answers:
            before = self.answers[one.path]
            if before != text.strip():
                raise Refusal(f"{one.path} is answered twice; keep one of the answers{of_one_name(one)}")
            return
        if isinstance(one.field, Many):
            self._take_list(one, one.field, text.strip())
            return
        text = in_its_words(one, text)
        if one.field.key == "where":
            refuse_no_side(one.path, text)
        none = (
            text.strip().lower() == NONE
            and moot.takes_none(one.path)
            and NONE not in (one.field.choices or ())
        )
        self.written[one.path] = NONE if none else written(one, text)
        self.answers[one.path] = told(one, text)
        self.targets[one.path] = one
        if one.entry is not None and one.entry[1].which > 1:
            self.twins.append(one)
        elif one.entry is not None and one.entry[1].called:
            self._name(one.entry[0], one.entry[1].name)
        last, within = one.steps[-1], one.steps[-2] if len(one.steps) > 1 else None
        if (
            isinstance(within, Entry)
            and last.name == within.called
            and self.written[one.path] != within.written
        ):
            raise Refusal(
                f"{one.path}: this entry is called {within.name} in brackets; write that name there"
            )

    def _name(self, listed_in: str, name: str) -> None:
        names = self.named.setdefault(listed_in, [])
        if name not in names:
            names.append(name)

    def _take_list(self, one: Target, field: Many[Any], text: str) -> None:
        """A whole list: none, unknown, or what its entries are called."""
        word = text.lower()
        self.answers[one.path] = text
        if one.path == crew.PEOPLE:
            self.people = crew.groups(text)
        elif word == NONE:
            if field.required and one.path not in _NO_LISTS:
                raise Refusal(
                    f"{one.path}: she has some, or her file says unknown; write which: {_names_like(one, field)}"
                )
            for key in _NO_LISTS.get(one.path, ()):
                self.answers[key] = self.written[key] = NONE
        elif word in ("", UNKNOWN):
            self.lists[one.path] = UNKNOWN
        elif not field.block.called:
            raise Refusal(
                f"{one.path}: its entries have no names; write it like {form_of(one.path, field)}, "
                f"or a key of one: {one.path}[1].{field.block.needed[0].key}=..."
            )
        else:
            for name in listed(text):
                if re.fullmatch(r"[0-9]+|(?i:two|three|four|five|six)|.*[{}:].*", name):
                    if field.block.several and field.block.fields[field.block.called].choices:
                        raise Refusal(
                            f"{one.path}: '{name}' does not say which; write how many of each, like "
                            f"{form_of(one.path, field)}"
                        )
                    raise Refusal(
                        f"{one.path}: '{name}' is no name of one of them; write what each is called: "
                        f"{_names_like(one, field)}; then a key of one: {one.path}[NAME].{_first_key(field)}=..."
                    )
                entry = target(f"{one.path}[{name}].{field.block.called}").entry
                assert entry is not None, "the path leads through an entry"
                self._name(one.path, entry[1].name)

    def _contradictions(self) -> list[str]:
        """Answers about what another answer says is not aboard."""
        found = []
        for key, text in self.written.items():
            if text in (UNKNOWN, NONE):
                continue
            missing = any(
                key.startswith(f"{block}.") and key != asked and moot.says_none(asked, self.answers)
                for asked, block in moot.MAY_BE_NONE.items()
            )
            released = key.startswith(f"{RELEASE}.") and not moot.may_let_go_by_itself(self.answers)
            if missing or released:
                cause = "another answer says there is none aboard" if missing else f"{HELD_BY} names no HRU"
                found.append(f"{key} is answered, but {cause}; correct one of the two")
        return found

    def _first_left_out(self) -> list[str]:
        """The answers about the second or third of one name of which none tells anything of the one before."""
        found = []
        for one in self.twins:
            listed_in, entry = one.entry or ("", Entry("", ""))
            before = f"{listed_in}[{entry.name}]" + (f"[{entry.which - 1}]" if entry.which > 2 else "")
            if not any(key.startswith(f"{before}.") for key in self.written):
                found.append(
                    f"{one.path}: nothing is said of the one before; write {before}.{one.field.key} too"
                )
        return found

    def _ages_left_out(self) -> list[str]:
        """The children of whom no answer says how old they are."""
        return [
            crew.how_old(group)
            for group in self.people
            if group.of_children
            and not all(f"{crew.PEOPLE}[{role}].age" in self.answers for role in group.roles)
        ]

    def _derive(self) -> None:
        """What follows from the answers: how many are aboard, what a raft kept where one thing alone will do is packed in, and of which kind a set or beacon is
        whose name says it.
        """
        if self.roles and "vessel.persons" not in self.written:
            self.written["vessel.persons"] = str(len(self.roles))
        for key, said in list(self.answers.items()):
            kept = stowages().get(said) if key.endswith("].stowage") else None
            container = key.removesuffix("stowage") + "container"
            if kept is not None and len(kept.container) == 1 and container not in self.written:
                self.written[container] = kept.container[0]
        for path in ("radio.sets", "radio.beacons"):
            for name in self.named.get(path, ()):
                kind = f"{path}[{name}].kind"
                absent = self.written.get(f"{path}[{name}].where") == NONE
                if (
                    (meant := kind_of(name))
                    and kind not in self.written
                    and not absent
                    and path in self.answers
                ):
                    self.answers[kind], self.written[kind], self.targets[kind] = meant, meant, target(kind)

    def set_in(self, text: str, starter: Starter) -> str:
        """The starter's text with every answer in it for which it has no line of its own."""
        left = [
            path
            for path, one in self.targets.items()
            if path not in starter.used
            and (self.written[path] != NONE or _said(one))
            and not (path.startswith((f"{RELEASE}.", "vessel.rig")) and self.written[path] == UNKNOWN)
        ]
        words_first = sorted(
            left,
            key=lambda path: (
                entry[1].which if (entry := self.targets[path].entry) else 0,
                not any(other.startswith(f"{path}.") for other in left),
            ),
        )
        for path in words_first:
            text = set_value(text, self.targets[path].steps, self.written[path])
        for path, names in self.named.items():
            for name in names if path in self.answers else ():
                steps = target(f"{path}[{name}].{_called(path)}").steps[:-1]
                text = set_value(text, steps, "")
        for path in self.lists:
            if path not in self.named:
                text = set_value(text, target(path).steps, UNKNOWN)
        return text

    def hold_against(self, vessel: Vessel) -> None:
        """Makes sure that what was set is what loads."""
        for path, one in self.targets.items():
            if self.written[path] not in (NONE, UNKNOWN):
                same(vessel, one, self.answers[path])


def of_one_name(one: Target) -> str:
    """How the second of one name is told, where a path leads through an entry of a list."""
    if one.entry is None or not one.entry[1].called:
        return ""
    listed_in, entry = one.entry
    rest = one.path.partition("].")[2]
    return f"; if she has two that are called so, write {listed_in}[{entry.name}][2].{rest} for the second"


def _said(one: Target) -> bool:
    """Whether the file itself says that there is none of it: where the key takes the word, and no answer leaves its block out."""
    return takes_none(one.field) and not moot.takes_none(one.path)


def _called(path: str) -> str:
    field = target(path).field
    assert isinstance(field, Many), "a list is named"
    return str(field.block.called)


def _first_key(field: Many[Any]) -> str:
    """A key of an entry that is not its name."""
    return str(next(key for key in field.block.fields if key != field.block.called))


def _names_like(one: Target, field: Many[Any]) -> str:
    return (
        f"{one.path}={field.block.fields[field.block.called].example}"
        if field.block.called
        else f"{one.path}[1]"
    )
