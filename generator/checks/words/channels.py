"""Channels in words: there are such, a set aboard can use them, and whoever is called there listens to them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.own_words import OwnWords, told_in
from generator.reading.fields import Text
from generator.reading.nearest import shortened
from generator.reading.values import untold
from generator.survey.registry import COMMON_PRACTICE, LIFE, RECOMMENDATION, Finds, Sight, at, check
from generator.vessel.particulars import RESCUE_CENTRE, Contact, Note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.vessel.radio import RadioSet

_MORE = r"(?:(?: or |, | and |/)\d{1,3}(?![\d.]|:\d)(?! ?(?:khz|mhz|m\b|h\b|km|miles|o.clock)))*"
_NUMBERS = re.compile(
    rf"\b(?:vhf|channels?|ch\.?)(?: on| dsc)?(?: channels?| ch\.?)? ?(?P<numbers>\d{{1,3}}(?![\d.]|:\d)(?! ?(?:khz|mhz)){_MORE})"
)
_DIGITAL = re.compile(
    r"\b(?:dsc|digital(?: selective)? call(?:ing)?) (?:is )?(?:on )?(?:vhf )?(?:channel |ch\.? ?)?(\d{1,3})(?![\d.])(?! ?(?:khz|mhz))"
)
_WAYS: dict[str, re.Pattern[str]] = {
    "VHF": re.compile(r"\bvhf\b|\bchannel \d"),
    "MF/HF": re.compile(r"\b(?:mf|hf|ssb|short.?wave|medium.?wave)\b|\bkhz\b|\b2182\b"),
    "satellite telephone": re.compile(r"\bsatellite\b|\bsat.?phone\b"),
    "": re.compile(
        r"\b(?:(?<!satellite )(?:telephone|phone)|mobile|e-?mail|message|whatsapp|sms|text|runner|person|office)\b"
    ),
}
"""The ways to call that words name, each by the kind of set that it takes; "" takes none aboard."""
_INTERNATIONAL = frozenset((*range(29), *range(60, 89)))
_LOCAL = frozenset((29, 31, 37))
DIGITAL = 70
"""The VHF channel of digital calls; nobody speaks there."""
CALLING = 16
_NO_DIGITAL = "she has no set that makes a digital call (DSC)"
_SENT_ON = ("MF/HF", "satellite telephone")
"""What is named as a further way beside one that she has, and is looked for in vain all the same."""
_LISTENING = ("rescue centre", "medical advice")


_DIGITAL_KHZ = re.compile(
    r"\b(?:dsc|digital(?: selective)? call(?:ing|s)?)\b[^,;.]{0,24}?\b(\d{4,5}(?:\.\d)?) ?khz"
)
_DIGITAL_KHZ_OF_DISTRESS = frozenset(("2187.5", "4207.5", "6312", "8414.5", "12577", "16804.5"))
_VOICE_KHZ = frozenset(("2182", "4125", "6215", "8291", "12290", "16420"))
"""The frequencies in kHz on which distress is spoken; digital calls go out on others: 2187.5, 4207.5, 6312, 8414.5, 12577, 16804.5."""


@dataclass(frozen=True)
class Called:
    """What words say of how somebody is called: the VHF channels, those for digital calls, the kinds of set that do ("" where none is needed)."""

    channels: tuple[int, ...]
    digital: tuple[int, ...]
    ways: tuple[str, ...]
    speaks_digital: bool
    voice_as_digital: str = ""
    no_digital: str = ""


@lru_cache(maxsize=4096)
def called_in(text: str) -> Called:
    """The channels and ways to call that words name."""
    small = text.lower()
    channels = [
        int(each) for found in _NUMBERS.finditer(small) for each in re.findall(r"\d+", found["numbers"])
    ]
    return Called(
        tuple(channels),
        tuple(int(each) for each in _DIGITAL.findall(small)),
        tuple(kind for kind, find in _WAYS.items() if find.search(small)),
        re.search(r"\b(?:dsc|digital)\b", small) is not None,
        next((found[1] for found in _DIGITAL_KHZ.finditer(small) if found[1].removesuffix(".0") in _VOICE_KHZ), ""),
        next((found[1] for found in _DIGITAL_KHZ.finditer(small) if found[1].removesuffix(".0") not in _DIGITAL_KHZ_OF_DISTRESS | _VOICE_KHZ), ""),
    )  # fmt: skip


@check("words.no-channel", LIFE, "ITU Radio Regulations Appendix 18 (from memory, unverified)")
def channels_in_words_can_be_used(sight: Sight) -> Finds:
    """A channel that words name exists, and somebody aboard has a set for it: contacts, base, medical advice, notes.

    Why: whoever turns to VHF 99, or looks for the MF set she has not, loses the minutes in which help could be called.
    Remedy: read the channel again from the almanac or ask whoever is called; name a way that a set aboard has, or a telephone.
    """
    radio = sight.vessel.radio
    sets = tuple(radio.sets) if radio else ()
    for said in _of_calls(sight):
        sentences = told_in(said.meant) if isinstance(said.block, Note) else (said.text,)
        for sentence in sentences:
            called = called_in(sentence)
            if wrong := _wrong(called, sets):
                second = wrong.startswith(_NO_DIGITAL) and CALLING in called.channels and _has("VHF", sets)
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}': {wrong}",
                    item=said.block.path,
                    weight=RECOMMENDATION if second else None,  # the voice call beside it goes out
                )
                break


def _of_calls(sight: Sight) -> Iterator[OwnWords]:
    """The words that may say how somebody is called."""
    vessel = sight.vessel
    blocks: list[Block] = [*vessel.contacts, *vessel.notes]
    blocks += [each for each in (vessel.charter_base, vessel.medical) if each]
    for block in blocks:
        for key in ("channel", "advice", "text"):
            field = type(block).fields.get(key)
            text = block.__dict__.get(key)
            if isinstance(field, Text) and field.reader == "guest" and isinstance(text, str):
                yield OwnWords(block, field, text)


def _wrong(called: Called, sets: tuple[RadioSet, ...]) -> str:
    """What is wrong with how somebody is called; "" where nothing is. That she has no VHF is said once, of her radio."""
    for number in called.channels:
        if number not in _INTERNATIONAL | _LOCAL:
            return f"there is no VHF channel {number}"
    for number in called.digital:
        if number != DIGITAL:
            return f"digital calls go out on VHF {DIGITAL}, not {number}"
    if called.voice_as_digital or called.no_digital:
        listens = (
            f"{called.voice_as_digital} kHz is for speech"
            if called.voice_as_digital
            else f"nobody listens on {called.no_digital} kHz"
        )
        return f"{listens}; digital calls (DSC) go out on 2187.5 kHz, or 4207.5, 6312, 8414.5, 12577, 16804.5"
    if called.channels and set(called.channels) == {DIGITAL} and not called.speaks_digital:
        return f"VHF {DIGITAL} is for digital calls alone, and nobody speaks there"
    if (
        (called.digital or (called.speaks_digital and DIGITAL in called.channels))
        and sets
        and not any(each.dsc is not False or each.known("distress_button") for each in sets)
    ):
        return f"{_NO_DIGITAL}, which goes out on VHF {DIGITAL}"
    if (
        sets
        and called.ways
        and "VHF" not in called.ways
        and not any(_has(kind, sets) for kind in called.ways)
    ):
        return f"she has no {' and no '.join(called.ways)}"
    lacking = [kind for kind in called.ways if kind in _SENT_ON and not _has(kind, sets)]
    if sets and lacking:
        return f"she has no {lacking[0]}"
    return ""


def _has(kind: str, sets: tuple[RadioSet, ...]) -> bool:
    return not kind or any(str(each.kind).endswith(kind) for each in sets)


@check("words.odd-channel", LIFE, COMMON_PRACTICE)
def a_rescue_centre_is_called_where_it_listens(sight: Sight) -> Finds:
    """A rescue centre, and whoever gives medical advice, is called by voice on VHF 16, whatever other channels are named, or by a digital call on 70 alone.

    Why: on its working channels a rescue centre listens only to those it sent there.
    Remedy: write channel: VHF 16 or DSC on channel 70; a working channel may stand behind it.
    """
    for each in sight.vessel.contacts:
        if each.kind not in _LISTENING or not isinstance(each.channel, str):
            continue
        channels = [one for one in called_in(each.channel).channels if one in _INTERNATIONAL | _LOCAL]
        spoken = [one for one in channels if one != DIGITAL]
        if spoken and CALLING not in spoken:
            yield at(
                each,
                "channel",
                f"'{shortened(each.channel)}' calls on VHF {spoken[0]}, and there nobody need listen",
                item=each.path,
                weight=None if each.kind == RESCUE_CENTRE or _no_other_way(each) else RECOMMENDATION,
            )


def _no_other_way(each: Contact) -> bool:
    """Whether a contact is called by voice on VHF alone: no number, no digital call, no other band is told."""
    called = called_in(str(each.channel))
    return called.ways == ("VHF",) and not called.speaks_digital and untold(each.phone) and untold(each.mmsi)
