"""The base beside the fleet: that its file is read, its telephone reaches guests, and mark and colours do no harm."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.words.channels import CALLING, DIGITAL, called_in
from generator.machine.opening import Outside
from generator.machine.photos import Unreadable, size_px
from generator.manual.operator import why_not
from generator.reading.nearest import shortened
from generator.reading.values import UNKNOWN
from generator.survey.limits import least, most
from generator.survey.registry import (
    COMMON_PRACTICE,
    DESCRIPTION,
    FORM,
    HELP,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
    describe,
)
from generator.survey.sight import once
from generator.vessel.base import Base
from generator.vessel.base_file import KIND
from generator.vessel.mark import mark

if TYPE_CHECKING:
    from generator.reading.values import NotKnown

_OWN = "this program's file format"


describe(
    "base.file",
    TRUTH,
    DESCRIPTION,
    _OWN,
    """The base file named in base is there and is one.
    Why: whom guests call at the base, and on which number, would be missing.
    Remedy: name its path as seen from the boat's folder, ../base.yaml; where she has no base, write base: none.""",
)


@check("base.telephone-missing", HELP, COMMON_PRACTICE)
def guests_can_reach_the_base(sight: Sight) -> Finds:
    """The base has a telephone number that is freed for guests, or a channel.

    Why: guests who do not know whom to ask call a rescue centre for a blocked pump, or nobody for a leak.
    Remedy: free the number in the base file: phone: {value: +33 6 39 98 00 45, for: guests}; or write its channel.
    """
    base = sight.vessel.charter_base
    if base is None or isinstance(base.channel, str):
        return
    if base.phone is None or base.phone is UNKNOWN:
        yield at(base, "phone", "the base has neither a telephone number nor a channel")
    elif not base.is_freed(Base.phone):
        yield at(base, "phone", "guests have no way to reach the base: its number is for the crew alone")


@check("base.contact-differs", FORM, COMMON_PRACTICE)
def the_base_is_told_alike(sight: Sight) -> Finds:
    """A base among the contacts has the number and the channel that the base file gives.

    Why: two numbers for one base are one too many: the old one is the one that is called.
    Remedy: correct the one that is wrong; or take the contact out: the base is then filled in from its file.
    """
    base = sight.vessel.charter_base
    if base is None:
        return
    for each in sight.vessel.contacts:
        if each.kind != KIND or each.path == base.path:
            continue
        for key, what, own, other in (
            ("phone", "telephone number", each.phone, base.phone),
            ("channel", "channel", each.channel, base.channel),
        ):
            if _differ(own, other):
                yield at(
                    each,
                    key,
                    f"the {what} of the base is another one in the base file",
                    item=str(each.who),
                    also=(base.place(key),),
                )


def _differ(own: str | NotKnown | None, other: str | NotKnown | None) -> bool:
    """Whether two say different things, however they are spaced and written."""
    return isinstance(own, str) and isinstance(other, str) and _bare(own) != _bare(other)


def _bare(text: str) -> str:
    return re.sub(r"[\W_]+", "", text).casefold()


@check("base.colour", FORM, "ISO 3864-1 (the safety colours); WCAG 2 success criterion 1.4.3")
def colours_are_seen_and_say_nothing_else(sight: Sight) -> Finds:
    """The operator's colours stand out from white paper, and none is one that safety signs have.

    Why: on these pages red, green, yellow and blue have a meaning; a line that nobody sees is no line. Such a colour is not printed.
    Remedy: choose a darker one, or another hue (violet, brown, black, grey), or leave 'colours' out.
    """
    base = sight.vessel.charter_base
    for number, colour in enumerate(base.colours if base is not None else ()):
        if base is not None and isinstance(colour, str) and (why := why_not(colour)):
            yield Found(
                base.place_in("colours", number), f"the colour {colour} {why}", item=colour, about=base
            )


@check("base.mark-missing", FORM, COMMON_PRACTICE)
def the_mark_is_there(sight: Sight) -> Finds:
    """The operator's mark lies beside the base file, or below it in no boat's folder, and can be shown.

    Why: a path that leads elsewhere shows what was never meant for a manual; a page with a hole is read as one with a fault.
    Remedy: lay the mark, as PNG or JPEG, beside the base file and write its name: mark.png; remove 'mark' if there is none.
    """
    base = sight.vessel.charter_base
    if base is None or not isinstance(base.mark, str):
        return
    found = _mark(sight)
    if isinstance(found, Outside):
        told = "does not lie beside the base file or below it"
        yield at(base, "mark", f"the mark '{shortened(base.mark)}' {told}")
    elif isinstance(found, Unreadable):
        yield at(base, "mark", f"the mark '{shortened(base.mark)}' cannot be shown: {found}")


@once
def _mark(sight: Sight) -> bytes | Outside | Unreadable | None:
    """Her mark as it is published, None where she has none, or why it is not."""
    try:
        return mark(sight.vessel)
    except (Outside, Unreadable) as why:
        return why


@check("base.mark-size", FORM, COMMON_PRACTICE)
def the_mark_has_a_size_that_prints(sight: Sight) -> Finds:
    """The mark has points enough to be printed, is not much wider than high or higher than wide, and is no photo.

    Why: a blurred mark looks like a copy of unknown origin; one that is too long, or a photo, takes room that steps need.
    Remedy: save the mark as a PNG whose longer edge has some 500 points, without words below it.
    """
    vessel, base = sight.vessel, sight.vessel.charter_base
    found = _mark(sight)
    if base is None or not isinstance(found, bytes):  # why it is none is told by the check of that
        return
    width, height = size_px(found)
    if max(width, height) < (points := least(vessel, "points of a mark")):
        yield at(base, "mark", f"the mark has {width} x {height} points, and {points:g} are the least")
    if max(width, height) > min(width, height) * (ratio := most(vessel, "width of a mark to its height")):
        yield at(
            base, "mark", f"the mark is {width} x {height} points, more than {ratio:g} times as long as wide"
        )
    if len(found) > (weight := most(vessel, "bytes of a mark")):
        told = f"the mark takes {len(found):,} bytes on every page, and {weight:,.0f} are the most"
        yield at(base, "mark", told)


@check("base.on-the-distress-channel", HELP, "ITU Radio Regulations appendix 18 (from memory, unverified)")
def the_base_has_a_channel_of_its_own(sight: Sight) -> Finds:
    """The base, or the insurer, is not called on the channel of distress calls alone, nor on that of digital ones.

    Why: talk of a blocked pump on channel 16 covers somebody's Mayday; on channel 70 nobody speaks.
    Remedy: ask at the base for its working channel, and write that: channel: VHF 77.
    """
    base = sight.vessel.charter_base
    ashore = [each for each in sight.vessel.contacts if each.kind in _ASHORE]
    for each in (*([base] if base is not None else ()), *ashore):
        if not isinstance(each.channel, str) or each.path == (base.path if base and each is not base else ""):
            continue
        channels = set(called_in(each.channel).channels)
        if DIGITAL in channels:
            yield at(
                each, "channel", f"'{each.channel}': there sets call, and nobody speaks", weight=TRUTH.weight
            )
        elif channels == {CALLING}:
            yield at(each, "channel", f"'{each.channel}' is the channel of distress calls")


_ASHORE = (KIND, "insurer")
_FROM_TO = re.compile(
    r"\b(\d{1,2})(?:[:.h]([0-5]\d))?(?: ?h| o.clock)? ?(?:to|-|–|until|till) ?(\d{1,2})(?:[:.h]([0-5]\d))?(?!\d)(?! ?(?:am|pm|a\.m|p\.m))",
    re.IGNORECASE,
)
_AT_ANY_HOUR = re.compile(
    r"\b(?:nights?|24|always|day and night|any (?:time|hour)|all hours|duty|emergency|round the clock|mobile|otherwise|outside|after hours|answering)\b",
    re.IGNORECASE,
)
_BY = re.compile(r"\b(?:by|at|until|before|after|till) ([01]?\d|2[0-4])[.:h]([0-5]\d)\b", re.IGNORECASE)


@check("base.shut-at-the-alarm", HELP, COMMON_PRACTICE)
def the_base_is_awake_when_it_is_to_raise_the_alarm(sight: Sight) -> Finds:
    """Where the base raises the alarm, somebody answers there at that time.

    Why: nobody looks for the message that has not come until the office opens, and the search begins a night later.
    Remedy: name an hour at which the base answers, or somebody else who waits for the message; or write who answers at night.
    """
    base, voyage = sight.vessel.charter_base, sight.vessel.voyage
    if base is None or voyage is None or not isinstance(base.hours, str):
        return
    told, hours = voyage.raise_alarm, list(_FROM_TO.finditer(base.hours))
    if not isinstance(told, str) or len(hours) != 1 or _AT_ANY_HOUR.search(base.hours):
        return
    name = str(base.operator).lower()
    if not re.search(r"\b(?:the|our|charter) base\b", told.lower()) and name not in told.lower():
        return
    by = _BY.search(told)
    opens, shuts = (int(hours[0][n]) * 60 + int(hours[0][n + 1] or 0) for n in (1, 3))
    if by is not None and opens < shuts and not opens <= int(by[1]) * 60 + int(by[2]) <= shuts:
        yield at(
            voyage,
            "raise-alarm",
            f"the base is to raise the alarm at {by[1]}:{by[2]}, and somebody answers there: {base.hours}",
            item="raise-alarm",
            also=(base.place("hours"),),
        )
