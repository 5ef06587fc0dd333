"""Figures of hers in words: her numbers on the air, the painter, the persons of a raft, the muster place, the channel of distress."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.checks.words.tallies import of_people, of_the_alarm
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called, in_order, orders_in, sentences_in, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.values import Quantity
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.spaces import BELOW
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.particulars import Note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.manual.own_words import OwnWords
    from generator.reading.findings import Place
    from generator.vessel.raft import Raft

_HERS = r"(?:our|her|the (?:boat|yacht|vessel|ship)['’]s|this (?:boat|yacht|vessel)['’]s)"
_IS = r"(?: number)?(?: is|:| =)? \**"
_MMSI = re.compile(rf"\b{_HERS} (?:own )?mmsi{_IS}(\d(?:[ -]?\d){{8}})\b|(?:^|[(*]|\bthe )mmsi{_IS}(\d(?:[ -]?\d){{8}})\b", re.IGNORECASE)  # fmt: skip
_CALL_SIGN = re.compile(rf"\b(?:{_HERS}|the) call[ -]?sign{_IS}([A-Za-z0-9]{{3,8}})\b", re.IGNORECASE)
_LENGTH = r"(?:\d+(?:\.\d+)?)[ -]?(?:m|metres?|meters?|ft|feet)\b"
_PAINTER = re.compile(
    rf"\bpainter (?:is|measures|has|of|length(?: is|:)?)(?: (?:about|a length of))? {_LENGTH}(?! of\b)|\b{_LENGTH} (?:long )?painter\b|\b(?:all|whole|full|entire)(?: of)?(?: the)? {_LENGTH} of (?:the |its |our )?painter\b"
)
_WEIGHS = re.compile(
    r"\b(?P<thing>(?:life ?)?rafts?|grab.?bags?)\b[^,;:]{0,20}? weighs? (?P<about>about |some |nearly |almost |over |under )?"
    r"(?P<figure>\d{1,3}(?:\.\d+)?) ?(?P<unit>kg|kilos?|kilograms?|lbs?|pounds?)\b"
)
_OF_SO_MANY_KG = re.compile(
    r"\b(?P<thing>(?:life ?)?rafts?|grab.?bags?)(?:, | of |: | has | is )(?P<about>about |some |nearly |almost |over |under )?(?P<figure>\d{1,3}(?:\.\d+)?) ?(?P<unit>kg|kilos?|lbs?|pounds?)\b"
)
_POUND_KG = 0.45359237
_ABOUT, _EXACT = 0.15, 0.03  # parts of the mass: what "about" leaves open, and what rounding does
_METRES = {"f": 0.3048}
_TAKES = r"(?:is (?:only |just )?(?:made |approved |meant )?for(?: only| just)?|only takes|takes|carries|holds|has (?:room|space|places) for)(?: up to| at most)?"
_PERSONS = r"(?:persons?|people|men)"
_MUSTER = r"(?:muster(?: place| station| point)?(?: is|:)?|(?:everybody|everyone|we|all|all hands|the crew|crew|guests|people) (?:then |always )?(?:gathers?|meets?|assembles?|musters?|collects?|goes to muster|go to muster)|gathering place is|gather)"
_COME = r"(?:everybody|everyone|we|all|all hands|all of (?:us|you)|the (?:whole )?crew|crew|the guests|guests|people)(?: then| quickly| all)* (?:comes?|goes?|go|runs?|climbs?)(?: up| out| straight| at once| together)*"
_GATHERING = re.compile(
    r"\b(?:muster|gather|meet|assemble|collect|signal|alarm|bell|siren|blasts?|waits?|stands? by|sits?|together)"
)
_CALLS = re.compile(
    r"\b(?:call|send|shout|mayday|distress|help)\b[^.]*?\b(?:vhf (?:channel |ch\.? ?)?|channel |ch\.? )(\d{1,2})\b|"
    r"\b(?:distress|emergency) channel (?:is )?(?:vhf )?(\d{1,2})\b|"
    r"\b(?:vhf(?: channel)?|channel|ch\.?) (\d{1,2})\b[^.]*? for (?:the |a |our )?(?:distress|mayday|emergency|call for help)"
)
_OF_DISTRESS = re.compile(r"\b(?:mayday|distress|emergency|help|rescue|coastguard|coast guard)\b")
_OTHER_CALLS = frozenset(
    [
        "routine",
        "weather",
        "forecast",
        "marina",
        "harbour",
        "harbor",
        "lock",
        "bridge",
        "berth",
        "handhelds",
        "traffic",
        "pilot",
        "working",
        "ferry",
        "other",
    ]
)
DISTRESS_CHANNELS = frozenset((16, 70))
"""The VHF channels on which distress is called, by voice and by digital call."""


@check("words.other-figure", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_say_her_own_figures(sight: Sight) -> Finds:
    """Where words say a figure of hers they say hers: MMSI, call sign, painter, rafts, persons, masses, muster place, alarm, channel of distress.

    Why: a wrong number is spoken into the only call there is time for, and people gather at two places.
    Remedy: look at the set, the label, the raft; correct the one that is wrong, or leave the figure to the manual, which prints it.
    """
    for said in sight.words_through(_tells_figures):
        if said.says in (ROLE, SIGNAL):
            continue
        for what, hers, place in _others(said, sight):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' says {what}, and the file says {hers}",
                item=said.block.path,
                also=(place,),
            )
            break


_OF_FIGURES = re.compile(
    r"mmsi|sign|painter|person|people| men|-man|weigh| mm|kg|kilo|lb|pound|vhf|channel|alarm|\b(?:souls|heads|faces|us|we|counts?|all)\b"
)
_ON_THE_AIR = re.compile(r"\bvhf|channel\b")


@sieve
def _tells_figures(text: str) -> bool:
    return _OF_FIGURES.search(text.lower()) is not None or _GATHERING.search(text.lower()) is not None


def _others(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    """What words say that is otherwise in the file, how it stands there, and where."""
    text = said.text.lower()
    if any(each in text for each in ("mmsi", "sign")):
        yield from _numbers(said, sight)
    if any(each in text for each in ("painter", "person", "people", " men", "-man")):
        yield from _rafts(said, sight)
    if "weigh" in text or _OF_SO_MANY_KG.search(text):
        yield from _weights(said, sight)
    if " mm" in text:
        yield from _holes(said, sight)
    if _GATHERING.search(text):
        yield from _muster(said, sight)
    if ("vhf" in text or "channel" in text) and _ON_THE_AIR.search(text):
        yield from _channel(said, sight)
    if isinstance(said.block, Note):
        yield from of_people(said, sight)
        yield from of_the_alarm(said, sight)


def _numbers(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    radio = sight.vessel.radio
    if not radio:
        return
    for sentence in sentences_in(said.meant):
        for found in _MMSI.finditer(sentence):
            number = re.sub(r"\D", "", found[1] or found[2])
            if isinstance(radio.mmsi, str) and number != radio.mmsi:
                yield f"MMSI {number}", radio.mmsi, radio.place("mmsi")
        for found in _CALL_SIGN.finditer(sentence):
            sign = found[1]
            meant = sign.isupper() and any(each.isdigit() for each in sign)
            if meant and isinstance(radio.call_sign, str) and sign != radio.call_sign:
                yield f"call sign {sign}", radio.call_sign, radio.place("call-sign")


def _rafts(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    for sentence in told_in(said.meant):
        rafts = _rafts_named(sentence, sight)
        painters = [raft.painter for raft in rafts if raft.painter]
        lengths = [float(each.length) for each in painters if isinstance(each.length, Quantity)]
        for found in _PAINTER.finditer(sentence) if len(lengths) == len(rafts) > 0 else ():
            figure, unit = re.findall(r"([\d.]+)[ -]?(m|f)", found[0])[0]
            metres = float(figure) * _METRES.get(unit, 1)
            if all(abs(metres - each) > 0.02 * each for each in lengths):
                hers = " and ".join(f"{each:g} m" for each in dict.fromkeys(lengths))
                shown = f"a painter of {figure} {'m' if unit == 'm' else 'ft'}"
                yield shown, hers, painters[0].place("length")
        persons = [int(raft.persons) for raft in rafts if isinstance(raft.persons, int)]
        for found in _raft_persons().finditer(sentence) if len(persons) == len(rafts) > 0 else ():
            number = _figure(found["takes"] or found["for"])
            if number not in persons and not re.search(
                r"at a time|at once|each time|already|still", sentence
            ):
                yield (
                    f"a raft for {number}",
                    " and ".join(map(str, dict.fromkeys(persons))),
                    rafts[0].place("persons"),
                )


def _weights(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    """What words say that a raft or a grab bag weighs, where it is another figure than its own."""
    for sentence in told_in(said.meant):
        for found in (*_WEIGHS.finditer(sentence), *_OF_SO_MANY_KG.finditer(sentence)):
            things = (
                sight.vessel.grab_bags if found["thing"].startswith("grab") else _rafts_named(sentence, sight)
            )
            known = [(each, each.mass) for each in things if isinstance(each.mass, Quantity)]
            kilos = float(found["figure"]) * (_POUND_KG if found["unit"].startswith(("lb", "pound")) else 1)
            near = _ABOUT if found["about"] else _EXACT
            if len(known) == len(things) > 0 and all(abs(kilos - mass) > near * mass for _, mass in known):
                hers = " and ".join(f"{float(mass):g} kg" for _, mass in known)
                shown = f"{found['thing']}: {found['figure']} {found['unit']}"
                yield shown, hers, known[0][0].place("mass")


def _holes(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    """How wide words have a hole in the hull that they name, where its own diameter is another."""
    for sentence in told_in(said.meant):
        for found in re.finditer(r"\b(\d{2,3}) mm\b", sentence):
            for hole in sight.vessel.through_hulls:
                named = isinstance(hole.what, str) and re.search(
                    rf"\b{re.escape(hole.what.lower())}\b", sentence
                )
                if named and isinstance(hole.diameter, Quantity) and said.block is not hole:
                    own_mm = float(hole.diameter) * 1000
                    if abs(own_mm - float(found[1])) > _EXACT * own_mm:
                        yield f"{hole.what}: {found[1]} mm", f"{own_mm:g} mm", hole.place("diameter")


def _rafts_named(sentence: str, sight: Sight) -> list[Raft]:
    """The rafts that a sentence tells of: the one it names, where it names one; else all."""
    named = [
        raft
        for raft in sight.vessel.rafts
        if isinstance(raft.name, str) and re.search(rf"\b{re.escape(raft.name.lower())}\b", sentence)
    ]
    return named or list(sight.vessel.rafts)


def _raft_persons() -> re.Pattern[str]:
    number = rf"\d{{1,2}}|{'|'.join(in_order('reads.numbers'))}"
    return re.compile(
        rf"\braft (?:of [a-z]+ )?{_TAKES} (?P<takes>{number})(?: {_PERSONS}\b| of (?:us|you|them)\b|(?=$|[;:,.)]))|\b(?P<for>{number})[ -](?:person|man) (?:life ?)?raft\b"
    )


def _figure(word: str) -> int:
    return int(word) if word.isdigit() else in_order("reads.numbers").index(word) + 1


def _up_or_down(here: Space, named: Space) -> bool:
    """Whether one of two places is below, and the other on deck."""
    return (here.level == BELOW) != (named.level == BELOW)


_WAIT = r"(?:everybody|everyone|all|all hands|the (?:whole )?crew|the guests|guests)(?: then| all| quietly)* (?:waits?|stands? by|sits?|stays? together)"
_CALLED_OUT = re.compile(r"\b(?:signal|alarm|bell|siren|blasts?)\b")
"""What calls everybody to the muster place."""


def _muster(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    particulars = sight.vessel.vessel
    if particulars is None or said.block is particulars:
        return
    here = find_space(sight.spaces, str(particulars.muster_place))[0]
    if here is None:
        return
    space = rf"(?:the )?(?P<space>(?:(?:port|starboard) )?(?:{one_of(names_of_spaces(sight))}))(?=$|[,.;:)*]| (?:and|with|when|at|by|in|on)\b)"
    find = re.compile(rf"\b{_MUSTER} (?:in |at |on |inside )?{space}")
    come = re.compile(rf"\b{_COME} (?:to|into|in|on|onto|at) {space}")
    wait = re.compile(rf"\b{_WAIT} (?:in|on|at) {space}")
    for sentence in orders_in(said.meant):
        called_out = _CALLED_OUT.search(said.text.lower()) is not None
        leaving = said.block.__dict__.get("beside") in called("beside.leaving")
        for found in (
            *find.finditer(sentence),
            *(come.finditer(sentence) if called_out else ()),
            *(wait.finditer(sentence) if leaving else ()),
        ):
            named = find_space(sight.spaces, found["space"])[0]
            if named is not None and (apart(sight, here, named) or _up_or_down(here, named)):
                yield (
                    f"muster: {named.name}",
                    str(particulars.muster_place),
                    particulars.place("muster-place"),
                )


def _channel(said: OwnWords, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    beside = said.block.beside if isinstance(said.block, Note) else ""
    given = DISTRESS_CHANNELS | {
        int(number)
        for contact in (*sight.vessel.contacts, sight.vessel.charter_base)
        for number in re.findall(r"\b\d{1,2}\b", str(contact.channel or "") if contact else "")
    }
    for sentence in told_in(said.meant):
        if not _OTHER_CALLS.isdisjoint(re.findall(r"[a-z]+", sentence)):
            continue
        told = _OF_DISTRESS.search(f"{beside} {sentence}")
        if any(re.search(rf"\b(?:vhf|channel|ch|on|and) {each}\b", sentence) for each in DISTRESS_CHANNELS):
            continue  # called there first, then sent to another
        for found in _CALLS.finditer(sentence) if told else ():
            number = int(found[1] or found[2] or found[3])
            if number not in given:
                channels = ", ".join(map(str, sorted(given)))
                yield f"VHF {number}", f"to call on VHF {channels}", said.block.place(said.field.key)
