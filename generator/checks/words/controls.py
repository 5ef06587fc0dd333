"""By which knob, key or flap sentences have a thing worked: the colour, the sort and the place of it are those of the thing's own entry."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.manual.own_words import APART, called, in_order, listed, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import before_comma
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
from generator.survey.sight import once
from generator.vessel.installed import Stop
from generator.vessel.radio import Beacon, RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.own_words import OwnWords
    from generator.reading.block import Block

_KEYS = ("how", "use", "spot", "closes", "distress_button", "power")
"""The attributes whose words tell by what a thing is worked."""


@sieve
def _tells_of_a_control(text: str) -> bool:
    return _control().search(text.lower()) is not None


@cache
def _control() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of(tuple(_groups()))})s?\b")


@cache
def _groups() -> dict[str, frozenset[int]]:
    """By each name of a control the sorts, each a list of its own, that it may be."""
    found: dict[str, frozenset[int]] = {}
    for number, sort in enumerate(called("controls")):
        for name in sort.split("/"):
            found[name.strip()] = found.get(name.strip(), frozenset()) | {number}
    return found


@cache
def _coloured() -> re.Pattern[str]:
    """Finds a control with its colour."""
    colours = one_of(tuple(listed("reads.colours")))
    return re.compile(
        rf"\b(?P<colour>{colours})(?:[ -](?:and[ -])?[a-z-]+)?[ ](?P<control>{one_of(tuple(_groups()))})s?\b"
    )


@cache
def _articled() -> re.Pattern[str]:
    """Finds a control behind its article, so that no verb is taken for one: switch the engine off."""
    return re.compile(
        rf"\b(?:the|an?|its|both|each|one|two|three|all|this|that) (?:(?!of\b|for\b|to\b|and\b|on\b|off\b|in\b|at\b)[\w-]+ ){{0,2}}?({one_of(tuple(_groups()))})s?(?=$|[,.;:)]| (?!of\b|for\b))"
    )


@cache
def _whose() -> re.Pattern[str]:
    """Finds of what a control is, where words say it."""
    return re.compile(rf"\b(?:{one_of(tuple(_groups()))})s? (?:of|for) the (?P<whose>[^,;:]+)")


@cache
def _besides() -> re.Pattern[str]:
    """Finds on which side of what a thing is."""
    pairs = one_of(tuple(each.replace("-", " ") for each in in_order("reads.opposite-places")))
    return re.compile(rf"\b(?P<where>{pairs})(?: of)? the (?P<what>[a-z]+)\b")


@check("words.other-control", LIFE, COMMON_PRACTICE)
def words_work_a_thing_by_its_own_control(sight: Sight) -> Finds:
    """Words that say by which knob, key, button or flap a stop, a beacon or a distress call is worked say its colour, sort and place as the entry does.

    Why: in smoke the hand that was told of a black knob passes the red one.
    Remedy: go and look; correct the words, or 'how', 'use', 'distress-button' of the thing.
    """
    for said in sight.words_through(_tells_of_a_control):
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, (*APART, Stop, Beacon, RadioSet)):
            continue
        if said.names_itself:
            continue
        wrong = next(
            (found for sentence in told_in(said.meant) for found in _otherwise(sentence, said, sight)), None
        )
        if wrong is not None:
            thing, what, key, hers = wrong
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has {what}, and {key} of the {thing.__dict__.get('what') or 'release'} says: {hers}",
                item=said.block.path,
                also=(thing.place(key),),
            )


def _otherwise(sentence: str, said: OwnWords, sight: Sight) -> Iterator[tuple[Block, str, str, str]]:
    """What a sentence has otherwise than the entry of the one thing that it names: the thing, what, under which key, how that has it."""
    meant = [each for names, each in _things(sight) if names.search(sentence) and each is not said.block]
    if not meant or len({_sort_of(each) for each in meant}) > 1 or _OF_ELSE.search(sentence):
        return
    whose = _whose().search(sentence)
    if whose and not any(names.search(whose["whose"]) for names, each in _things(sight) if each in meant):
        return
    told = [(each, *_told_of(each)) for each in meant]
    colours = {found["colour"] for found in _coloured().finditer(sentence)}
    every = [_colours_of(words) for _, _, words in told]
    if colours and all(every) and all(colours.isdisjoint(each) for each in every):
        thing, key, words = told[0]
        yield thing, f"the {min(colours)} one", key, words
        return
    sorts = _sorts(sentence) if _articled().search(sentence) else frozenset()
    every_sort = [_sorts(words) for _, _, words in told]
    worked = _WORKED.search(sentence) is not None
    if worked and sorts and all(every_sort) and all(sorts.isdisjoint(each) for each in every_sort):
        thing, key, words = told[0]
        control = _control().search(sentence)
        yield thing, f"a {control[0] if control else 'control'}", key, words
        return
    for found in _besides().finditer(sentence):
        if all(_opposite(found["where"], found["what"], words) for _, _, words in told):
            thing, key, words = told[0]
            yield thing, f"it {found[0]}", key, words
            return


_WORKED = re.compile(
    r"\b(?:pull|push|press|turn|slide|flip|twist|squeeze|break)\b|\b(?:stop|shut|cut|release|switch|kill)\w*\b[^.;]*\b(?:by|with)\b"
)
_OF_ELSE = re.compile(
    r"\b(?:test|tests|tested|spare|second|other|starter|start|starts|lid|cupboard|box|bag|valve of)\b"
)


def _sorts(words: str) -> frozenset[int]:
    """The sorts of all controls that words name."""
    found = (
        each.rstrip("s") if each not in _groups() else each for each in _control().findall(words.lower())
    )
    return frozenset(number for each in found for number in _groups().get(each, frozenset()))


def _colours_of(words: str) -> set[str]:
    return {found["colour"] for found in _coloured().finditer(words.lower())}


def _opposite(where: str, what: str, words: str) -> bool:
    """Whether words have something on the other side of the same thing."""
    pairs = [each.replace("-", " ") for each in in_order("reads.opposite-places")]
    at_it = {found["where"] for found in _besides().finditer(words.lower()) if found["what"] == what}
    other = pairs[pairs.index(where) ^ 1]
    return other in at_it and where not in at_it


def _sort_of(thing: Block) -> str:
    """What a thing is one of, so that words may mean each of several: fuel, EPIRB, a radio."""
    if isinstance(thing, Stop):
        return str(thing.what)
    return str(thing.kind) if isinstance(thing, Beacon) else type(thing).__name__ + _own_name(thing)


def _own_name(thing: Block) -> str:
    """The name by which a hole or a release is one apart from others; "" of a radio."""
    return "" if isinstance(thing, RadioSet) else thing.path


def _told_of(thing: Block) -> tuple[str, str]:
    """The key under which an entry says by what the thing is worked, and all its words of that."""
    told = {key: str(thing.__dict__[key]) for key in _KEYS if isinstance(thing.__dict__.get(key), str)}
    first = next((key for key in ("how", "use", "distress_button", "closes", "spot") if key in told), "what")
    return first.replace("_", "-"), "; ".join(told.values())


@once
def _things(sight: Sight) -> tuple[tuple[re.Pattern[str], Block], ...]:
    """What is worked by a knob, key or flap, each with what finds its names in a sentence."""
    radio = sight.vessel.radio
    found: list[tuple[re.Pattern[str], Block]] = []
    for stop in sight.vessel.stops:
        kind = str(stop.what).replace(" ", "-")
        names = (*called(f"stop.{kind}"), *called(f"shut.{kind}"))
        if names:
            found.append((_named(names), stop))
    found += (
        (_named((str(beacon.what).lower(), str(beacon.kind).lower())), beacon)
        for beacon in (radio.beacons if radio else ())
    )
    found += (
        (_named((before_comma(hole.what).lower(),)), hole)
        for hole in sight.vessel.through_hulls
        if isinstance(hole.what, str)
    )
    found += (
        (_named((before_comma(item.what).lower(),)), item.released_from)
        for item in sight.vessel.gear
        if isinstance(item.what, str) and item.released_from is not None
    )
    found += (
        (_named(called("distress-button")), one)
        for one in (radio.sets if radio else ())
        if isinstance(one.distress_button, str)
    )
    return tuple(found)


@lru_cache(maxsize=256)
def _named(names: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of(names)})\b")


@sieve
def _tells_of_all(text: str) -> bool:
    return _ALL.search(text.lower()) is not None


_ALL = re.compile(r"\b(?:both|all|all two|all three|the two|the whole)\b")


@cache
def _serves_all(kind: str) -> re.Pattern[str]:
    """Finds that one stop of a kind ends all of what has one each."""
    names = one_of((*called(f"stop.{kind}"), *called(f"works.{kind}")))
    return re.compile(
        rf"\b(?:the |one |this |that |a |a single |only one )(?:[a-z]+ )?(?:{names})\b(?!s| and)[^;:]{{0,40}}?\b(?:shuts?|stops?|cuts?|serves?|turns?|isolates?|works|kills?|is for|ends)(?: off)?"
        rf" (?:both|all|all three|the two|all four)(?: of)?(?: the)? (?:{one_of(called(f'served.{kind}'))})\b"
    )


@check("words.shuts-all", LIFE, COMMON_PRACTICE)
def words_have_no_stop_serve_what_has_its_own(sight: Sight) -> Finds:
    """Words have one stop end both engines, all fuel or all batteries only where the file has one stop for them.

    Why: whoever has shut the one goes back on deck, and the other engine feeds the fire.
    Remedy: go and shut it, and look what runs on; correct the words, or 'serves' of the stops.
    """
    for kind in ("engine", "fuel", "batteries"):
        stops = [each for each in sight.vessel.stops if each.what == kind]
        serving = {str(each.serves) for each in stops if isinstance(each.serves, str)}
        if len(stops) < 2 or (len(serving) < 2 and len({(each.where, each.spot) for each in stops}) < 2):
            continue
        for said in sight.words_through(_tells_of_all):
            if said.says in (ROLE, SIGNAL) or isinstance(said.block, APART) or said.block in stops:
                continue
            if any(_serves_all(kind).search(sentence) for sentence in told_in(said.meant)):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has one stop end all of them, and the file has {len(stops)} stops for {kind}",
                    item=said.block.path,
                    also=tuple(each.place("serves") for each in stops),
                )
