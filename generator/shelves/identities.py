"""Identities on the air: which state a number or call sign belongs to, and what kind of station a number is.

Tables: templates/identities, from the ITU's own lists; `table_date` is when they were read. The lists are JSON, which is
YAML of a kind, so they are read like any shelf.
"""

from __future__ import annotations

import functools
import re
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Dated, Digits, Many, Misread, Plain, Schema, Single, Text, Texts
from generator.reading.findings import Finding
from generator.reading.names import Reference, standing
from generator.reading.values import given
from generator.shelves.rows import alike, contradiction
from generator.shelves.shelf import File, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

KINDS = (
    "coast station", "group of ships", "rescue aircraft", "handheld VHF", "SART", "man-overboard device",
    "EPIRB with AIS", "autonomous device", "craft of a parent ship", "aid to navigation", "ship",
)  # fmt: skip


COUNTRY = r"(?!AA|Q[M-Z]|X[A-Z]|ZZ)[A-Z]{2}"
"""Two letters of ISO 3166-1, without those that it leaves to users and that are never a country's."""
MOST_BEFORE_MID = 3
"""How many figures stand before a state's at most (111MID: ITU-R M.585, at second hand as the forms themselves)."""


class Allotted(Block):
    """Maritime identification digits, and the state they are allotted to."""

    called = "mid"
    mid = Digits(
        "Which three figures?", r"[2-7]\d{2}", "three figures, the first of them 2 to 7", required=True
    )
    state = Plain("To which administration are they allotted?", required=True)
    territory = Plain("For which of its territories?")
    code = Digits("Which two letters stand for it?", COUNTRY, "two letters")
    also_called = Texts("What else do people call the flag?", of=Plain("What else?"))


class Mids(Tallied):
    """The table of maritime identification digits."""

    source = Text("Whose table is it?", required=True)
    read = Dated("When was it read?", required=True)
    allotted = Many(Allotted, "Which digits are allotted to whom?", required=True)


class SeriesOfCalls(Block):
    """A series of call signs, by the first three signs of its first and last."""

    called = "first"
    first = Digits(
        "With which signs does it begin?", r"[A-Z0-9]{3}", "three letters or figures", required=True
    )
    last = Digits("With which does it end?", r"[A-Z0-9]{3}", "three letters or figures", required=True)
    state = Plain("To which administration is it allotted?", required=True)

    def faults(self) -> Iterator[Fault]:
        """A series runs upwards."""
        if given(self.last, "") < given(self.first, ""):
            yield Fault(
                "last", f"the series ends before {self.first}, with which it begins", "look at both again"
            )


class Calls(Tallied):
    """The table of call sign series."""

    source = Text("Whose table is it?", required=True)
    read = Dated("When was it read?", required=True)
    series = Many(SeriesOfCalls, "Which series are allotted to whom?", required=True)


class FormOfNumber(Single[str]):
    """Nine figures of which some are given, some are a state's (MID), the rest free (X): 98MIDXXXX."""

    kind = "form"
    usual = "98MIDXXXX"

    def read(self, text: str) -> str:
        """The form as written."""
        if len(text) != 9 or not re.fullmatch(r"\d*(MID)?X+", text):
            raise Misread(f"'{text}' is no form of nine figures", f"write it like {self.usual}")
        return text

    def schema(self) -> Schema:
        """Text of figures, MID and X."""
        return {"type": "string", "pattern": "^[0-9]*(MID)?X+$", "minLength": 9, "maxLength": 9}


class Form(Block):
    """A form of numbers, and the kind of station that has it."""

    called = "form"
    form = FormOfNumber("Which form has the number?", required=True)
    kind = Choice("Which kind of station has it?", KINDS, required=True)
    beacon = Reference("Which kind of beacon sends it?", "word of beacon.kind")

    def faults(self) -> Iterator[Fault]:
        """A state's figures stand near the beginning; a beacon is known by figures of its own."""
        form = given(self.form, "")
        at = form.find("MID")
        if at > MOST_BEFORE_MID:
            yield Fault(
                "form",
                f"'{form}' has a state's figures too far back",
                "write MID behind three figures at most",
            )
        if form and not form.strip("X"):
            yield Fault(
                "form", f"every number has the form '{form}'", "write the figures that it begins with"
            )
        if self.beacon is not None and at >= 0:
            yield Fault(
                "beacon",
                f"the number of a beacon begins with figures of its own, and '{form}' has a state's",
                "remove 'beacon', or look at the form",
            )


class Forms(Tallied):
    """The forms of numbers."""

    source = Text("Who says so?", required=True)
    standing = standing()
    forms = Many(Form, "Which forms are there?", required=True, distinct=True)


def _flags(row: Allotted) -> Iterator[str]:
    """How a state's flag may be called: by its name, as far as a word's end, its territory, two letters or its initials."""
    state = given(row.state, "")
    yield from (
        given(row.territory, state),
        given(row.code, state),
        state.partition(" (")[0],
        *row.also_called,
    )
    words = state.split()
    yield from (" ".join(words[:number]) for number in range(2, len(words) + 1))
    if len(words) > 1:
        yield "".join(word[0] for word in words if word[0].isupper())


def _in_their_order(files: Sequence[File[Calls]]) -> Iterator[Finding]:
    """No series begins within another; territories of one state may share one."""
    for file in files:
        above: SeriesOfCalls | None = None
        for each in file.block.series:
            if above is not None and given(each.first, "") <= given(above.last, ""):
                yield from _within(each, above)
            if above is None or given(each.last, "") >= given(above.last, ""):
                above = each
        yield from alike(
            (((each.first, each.last, each.state), each.place("first")) for each in file.block.series),
            "the same series stands here twice",
            "keep one of the two",
        )


def _within(each: SeriesOfCalls, above: SeriesOfCalls) -> Iterator[Finding]:
    """What is wrong with a series that begins before one above it has ended."""
    if (each.first, each.last) != (above.first, above.last):
        yield contradiction(
            each.place("first"),
            f"the series from {each.first} begins before the one above it has ended, with {above.last}",
            "keep the series in their order, and look at both again",
            above.place("last"),
        )
    elif _administration(each) != _administration(above):
        yield contradiction(
            each.place("state"),
            f"the series from {each.first} is allotted to '{_administration(above)}' already",
            "keep the one that is true: only territories of one state share a series",
            above.place("state"),
        )


def _administration(series: SeriesOfCalls) -> str:
    return given(series.state, "").partition(" - ")[0]


def _one_state_each(files: Sequence[File[Mids]]) -> Iterator[Finding]:
    """Digits are one state's, whatever territories of it share them; two letters are one state's, and a state has one pair."""
    rows = [row for file in files for row in file.block.allotted]
    states: dict[str, Allotted] = {}
    letters: dict[str, Allotted] = {}
    pairs: dict[tuple[str, str], Allotted] = {}
    for row in rows:
        state, code = given(row.state, ""), given(row.code, "")
        first = states.setdefault(given(row.mid, ""), row)
        if given(first.state, "") != state:
            yield contradiction(
                row.place("state"),
                f"{row.mid} is allotted to '{first.state}' already",
                "keep the one that is true: only territories of one state share digits",
                first.place("state"),
            )
        if not code:
            continue
        first = letters.setdefault(code, row)
        if given(first.state, "") != state:
            yield contradiction(
                row.place("code"),
                f"'{code}' stands for '{first.state}' already",
                "look at both again",
                first.place("code"),
            )
        first = pairs.setdefault((state, given(row.territory, "")), row)
        if given(first.code, "") != code:
            yield contradiction(
                row.place("code"),
                f"'{row.territory or state}' has the letters '{first.code}' already",
                "look at both again",
                first.place("code"),
            )
    yield from alike(
        (((row.mid, row.state, row.territory), row.place("mid")) for row in rows),
        "the same digits stand here twice for the same state and territory",
        "keep one of the two",
    )


def _all_found(files: Sequence[File[Forms]]) -> Iterator[Finding]:
    """Of several forms that a number has the first counts: none stands behind one that has all its numbers, none is a beacon's second."""
    rows = [row for file in files for row in file.block.forms]
    for number, row in enumerate(rows):
        form = given(row.form, "")
        for earlier in rows[:number]:
            if form and _has_all(given(earlier.form, ""), form):
                yield contradiction(
                    row.place("form"),
                    f"no number is found by '{form}': the form '{earlier.form}' above has them all",
                    "write the narrower form first",
                    earlier.place("form"),
                )
                break
    yield from alike(
        ((row.beacon, row.place("beacon")) for row in rows if row.beacon is not None),
        "the same beacon has another form already",
        "keep the one that is true",
    )


def _has_all(form: str, other: str) -> bool:
    """Whether every number of the other form has this form too."""
    return len(form) == len(other) and all(
        _figures(form, at) >= _figures(other, at) for at in range(len(form))
    )


def _figures(form: str, at: int) -> frozenset[str]:
    """The figures that a number of a form may have at a place."""
    sign = form[at]
    if sign == "M":
        return frozenset("234567")
    return frozenset("0123456789") if sign in "IDX" else frozenset(sign)


MIDS = Shelf(
    "maritime identification digits",
    "identities/mid.json",
    Mids,
    "Which state the first figures of a ship's number belong to; the issuer's table.",
    gives=lambda files: {
        "word of vessel.flag": sorted(
            {name for file in files for row in file.block.allotted for name in _flags(row)}
        )
    },
    holds_together=_one_state_each,
)
CALL_SIGNS = Shelf(
    "call sign series",
    "identities/call_signs.json",
    Calls,
    "Which state a call sign belongs to; the issuer's table.",
    holds_together=_in_their_order,
)
FORMS = Shelf(
    "forms of numbers",
    "identities/forms.yaml",
    Forms,
    "Which kind of station has a number of which form.",
    holds_together=_all_found,
)


def kind_of(number: str) -> str | None:
    """What kind of station a nine-digit number is, None where it has no known form."""
    form = _form_of(number)
    return given(form.kind, "") if form else None


def mid_of(number: str) -> str | None:
    """The maritime identification digits within a number; None for devices, which have none."""
    form = _form_of(number)
    at = given(form.form, "").find("MID") if form else -1
    return number[at : at + 3] if at >= 0 else None


def beginning_of(beacon: str) -> str:
    """The figures that the number of a kind of beacon begins with; "" where it has no number of its own."""
    form = next((each for each in _forms() if each.beacon == beacon), None)
    return given(form.form, "").rstrip("X") if form else ""


def beginnings() -> frozenset[str]:
    """The figures that the numbers of beacons begin with."""
    return frozenset(beginning_of(given(each.beacon, "")) for each in _forms() if each.beacon)


def _forms() -> tuple[Form, ...]:
    return tuple(form for file in FORMS.files() for form in file.block.forms)


def _form_of(number: str) -> Form | None:
    return next((each for each in _forms() if _pattern(given(each.form, "")).fullmatch(number)), None)


@functools.cache
def _pattern(form: str) -> re.Pattern[str]:
    return re.compile(form.replace("MID", r"[2-7]\d\d").replace("X", r"\d"))


def table_date() -> str:
    """When the tables were read, year and month."""
    return str(_mids().read)


def _mids() -> Mids:
    return MIDS.files()[0].block


@functools.cache
def states_of_mid(mid: str) -> tuple[str, ...]:
    """The administrations that a MID is allotted to; empty where it is allotted to none."""
    return tuple(dict.fromkeys(given(row.state, "") for row in _mids().allotted if row.mid == mid))


@functools.cache
def states_of_call_sign(call_sign: str) -> tuple[str, ...]:
    """The administrations whose series a call sign lies in (Radio Regulations Appendix 42); empty where none."""
    if len(call_sign) < 2:
        return ()
    third = call_sign[2] if len(call_sign) > 2 and call_sign[2].isalpha() else "A"
    # RR 19.50.1: these series are known by their first character alone
    start = call_sign[0] + "AA" if call_sign[0] in "BFGIKMNRW2" else call_sign[:2] + third
    return tuple(
        dict.fromkeys(
            given(each.state, "").partition(" - ")[0]
            for each in CALL_SIGNS.files()[0].block.series
            if given(each.first, "") <= start <= given(each.last, "")
        )
    )


@functools.cache
def states_of_flag(flag: str) -> tuple[str, ...]:
    """The administrations that a flag's name, territory or two-letter code may mean; empty where it is not recognised."""
    wanted = _folded(flag)
    found, initials = [], []
    for row in _mids().allotted:
        state = given(row.state, "")
        names = [_folded(state), _folded(state.partition(" (")[0])]
        others = (
            *map(_folded, (given(row.territory, ""), *row.also_called)),
            given(row.code, "").lower(),
        )
        if wanted in _initials(state):
            initials.append(state)
        if wanted in (*names, *others) or (len(wanted) > 4 and names[0].startswith(wanted)):
            found.append(state)
    return tuple(dict.fromkeys(found or initials))


def _initials(state: str) -> Iterator[str]:
    """The first letters of a name and of its first two words, in small letters, where there are several: uk, usa."""
    words = [word for word in state.split() if word[0].isupper()]
    if len(words) > 1:
        yield from ("".join(word[0] for word in some).lower() for some in (words, words[:2]))


def _folded(name: str) -> str:
    """A name in small letters, without what stands before a country's: the Kingdom of, Republic of."""
    return re.sub(
        r"^(?:the )?(?:(?:kingdom|republic|state|principality) of (?:the )?)?", "", name.strip().lower()
    )
