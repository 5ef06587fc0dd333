"""How a thing is set free or set off, as sentences tell it: by itself only what the entries have so, by hand only what a hand works."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.own_words import APART
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import before_comma
from generator.survey.rafts import held_by_hru
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
from generator.vessel.gear import does

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Place

_IF_SHE_GOES = re.compile(
    r"\b(?:if|when|whenever|once|should|as soon as|after) (?:she|the boat|the yacht|the ship|the vessel|her hull|we|it) (?:ever |has |have |should )*"
    r"(?:sinks?|sunk|goes down|go down|founders?|foundered|goes under|gone down|is lost|turns? over|turned over|capsizes?|capsized|is knocked down|rolls? over|rolled over|is rolled)\b"
)
"""When it is to happen: no doubt whether it does."""
_ALONE = r"(?:by (?:itself|themselves)|on (?:its|their) own|of (?:its|their) own accord|automatically|without (?:any )?help|without being touched)"
_FLOATS = (
    rf"(?:(?:will |would )?(?:floats?|rises?|swims?) (?:free|up|off|clear|loose|out)\b|(?:comes?|breaks?|gets?|pops?|bobs?) (?:free|up|off|loose|to the surface)(?: {_ALONE}| after her|$)|(?:inflates?|opens?) {_ALONE} (?:under|when|as)|(?:will )?(?:releases?|frees?|launches|launch|deploys?) (?:itself|themselves|{_ALONE})"
    rf"|(?:is|are) (?:released|freed|launched|set free) (?:{_ALONE}|by the (?:hru|hydrostatic|water pressure))|float-free)"
)
_BEACON = r"(?:epirbs?|(?:distress )?beacons?)"
_RAFT = r"(?:life ?)?rafts?"
_LEAVE = r"(?:leave|let)"
_STAYS = r"(?:where (?:it|they) (?:is|are|hangs?|stands?|lies?)|in (?:its|their|the) (?:brackets?|cradles?|housings?|holders?)|alone|behind)"
_IT_FLOATS = rf"\b{{thing}}\b[^;]*?\b{_FLOATS}|\b{_LEAVE} (?:the |our |both |every )*{{thing}}\b(?: {_STAYS}\b|[:,]? (?:it|they) {_FLOATS})"
_EPIRB_FREE = re.compile(_IT_FLOATS.format(thing=_BEACON))
_RAFT_FREE = re.compile(_IT_FLOATS.format(thing=_RAFT))
_OF_ITSELF = re.compile(
    rf"^\W*(?:it |nothing to do\b|do nothing\b)[^.]*\b{_FLOATS}|^\W*nothing to do\b|^\W*do nothing\b|^\W*it {_FLOATS}|; ?it {_FLOATS}"
)
_GOES_OFF = re.compile(
    rf"\b(?:fixed |built-in |engine )?(?:fire )?(?:extinguishers?|(?:extinguishing|fire-fighting) systems?)\b[^;]*?\b(?:(?:goes|go|is set|are set|sets? itself) off|discharges?|releases?|works?|fires?|starts?|is released|acts?) {_ALONE}"
)
_PULLED = re.compile(
    r"\b(?:pull|press|turn|push|break|set off|release|discharge|fire|work)\b[^;]*?\b(?:handle|knob|button|release|pull|cable|lever|glass)\b[^;]*?\b(?:of|for|on) the (?:automatic )(?:fire )?extinguishers?\b"
    r"|\b(?:set off|release|discharge|fire) the automatic (?:fire )?extinguishers?\b(?! through)"
)
_SELF_INFLATING = re.compile(
    rf"\b(?:life ?jackets?|jackets?)\b[^;]*?\b(?:inflates?|blows? up|fills?) (?:{_ALONE}|themselves|itself|in the water|as soon as)"
)
_INFLATE = re.compile(r"\b(?:inflate|blow up) (?:the |your |a |each |every )?(?:life ?jackets?|jackets?)\b")
_PUMPS = re.compile(
    rf"\b(?:bilge )?pumps?\b[^;]*?\b(?:starts?|runs?|works?|pumps?|comes? on|switch(?:es)? (?:itself|on)|cuts? in)\b[^;]{{0,12}}?{_ALONE}"
)


@sieve
def _tells_how(text: str) -> bool:
    return _MAY.search(text) is not None


_MAY = re.compile(
    r"\b(?:herself|self-right\w*|upright|of her own|on her own|EPIRB|beacons?|rafts?|liferafts?|extinguish|lifejackets?|jackets?|pumps?|fire-fighting)",
    re.IGNORECASE,
)


@check("words.by-itself", LIFE, COMMON_PRACTICE)
def words_let_go_by_itself_what_does(sight: Sight) -> Finds:
    """Words have a beacon, a raft, an extinguisher, a jacket or a pump act by itself only where its entry does, and worked by hand only where a hand works it.

    Why: whoever reads that it floats free leaves it in its bracket, and it goes down with her; whoever looks for the handle of what has none stays in the smoke.
    Remedy: go and look how it is set free or set off; correct the words, or the entry.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        if (
            beacon.kind == "EPIRB"
            and beacon.release == "by hand"
            and isinstance(beacon.use, str)
            and any(_OF_ITSELF.search(each.lower()) for each in re.split(r"[.!?]", beacon.use))
        ):
            yield at(
                beacon,
                "use",
                f"'{shortened(beacon.use)}', and release says by hand: it goes down in its bracket",
                remedy="write what a hand does: use: take it out of the bracket, break the seal, slide the switch to ON",
                item=str(beacon.what),
                also=(beacon.place("release"),),
            )
    for said in sight.words_through(_tells_how):
        if said.says in (ROLE, SIGNAL) or said.names_itself or isinstance(said.block, APART):
            continue
        for wrong, place in (one for sentence in _claimed(said.meant) for one in _otherwise(sight, sentence)):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}': {wrong}",
                item=said.block.path,
                also=(place,),
            )
            break


@lru_cache(maxsize=8192)
def _claimed(text: str) -> tuple[str, ...]:
    """The sentences of words that neither deny nor set a condition; that nothing is to be done denies nothing."""
    sentences = (_IF_SHE_GOES.sub(" ", each).strip(" ,:") for each in re.split(r"[.!?;\n]", text.lower()))
    return tuple(each for each in sentences if not _NO.search(each))


_NO = re.compile(
    r"\b(?:not|never|no|none|neither|nor|without|unless|if|cannot|can['’]t|don['’]t|isn['’]t|doesn['’]t|won['’]t|aren['’]t|only|when|whenever|once|should|until|nobody)\b"
)


def _otherwise(sight: Sight, sentence: str) -> Iterator[tuple[str, Place]]:
    """What a sentence has act otherwise than its entry, with the place there."""
    vessel = sight.vessel
    epirbs = [each for each in (vessel.radio.beacons if vessel.radio else ()) if each.kind == "EPIRB"]
    if epirbs and all(each.release == "by hand" for each in epirbs) and _EPIRB_FREE.search(sentence):
        yield f"the {epirbs[0].what} is taken by hand, as its entry says", epirbs[0].place("release")
    if (
        vessel.rafts
        and not held_by_hru(vessel)
        and _RAFT_FREE.search(sentence)
        and not _AFLOAT.search(sentence)
    ):
        raft = vessel.rafts[0]
        yield f"nothing sets the {raft.name} free by itself, as its entry has it", raft.place("stowage")
    one = vessel.vessel
    stays = vessel.capsize is not None and vessel.capsize.righted is False
    if (
        one is not None
        and (one.hull.multihull or stays)
        and _RIGHTS.search(sentence)
        and "knock" not in sentence
    ):
        yield f"a {one.type} that has turned over stays so", one.place("type")
    guards = vessel.gear_that("guards the engine space")
    by_hand = [item for item in guards if item.released_from is not None or does(item, "floods a space")]
    if guards and len(by_hand) == len(guards) and _GOES_OFF.search(sentence):
        item = by_hand[0]
        yield (
            f"the {before_comma(item.what)} is released by hand, as its entry says",
            item.place("released-from" if item.released_from is not None else "what"),
        )
    if guards and not by_hand and _PULLED.search(sentence):
        yield (
            f"the {before_comma(guards[0].what)} has no release by hand, as its entry has it",
            guards[0].place("what"),
        )
    jackets = vessel.lifejackets
    if (
        jackets
        and all(each.kind == "foam" for each in jackets)
        and (_SELF_INFLATING.search(sentence) or _INFLATE.search(sentence))
    ):
        yield "all her lifejackets are of foam", jackets[0].place("kind")
    if vessel.pumps and all(each.power == "hand" for each in vessel.pumps) and _PUMPS.search(sentence):
        yield "all her pumps are worked by hand", vessel.pumps[0].place("power")


_RIGHTS = re.compile(
    r"\b(?:she|the boat|the yacht|the catamaran|the trimaran|the hull|our boat)\b[^,;]{0,25}?\b(?:(?:rights|turns|rolls) herself(?: (?:up|upright|back|over again))?"
    r"|self-rights|is self-righting|(?:comes?|turns?|rolls?|swings?|gets?) (?:back )?(?:up|upright|round|back)(?: again)? (?:by herself|on her own|of her own accord|again by herself)"
    r"|(?:comes?|rolls?|turns?) (?:back )?upright(?: again)?)\b"
)
_AFLOAT = re.compile(r"\b(?:painter|cut|ice|tied|drift|boat|lifeboat|canopy|inflat\w*)\b")
