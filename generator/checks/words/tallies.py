"""What sentences say of all hands, of the alarm and of her rafts, against what the file says of them."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called, in_order, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, at, check
from generator.vessel.particulars import Note
from generator.vessel.people import heads

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.manual.own_words import OwnWords
    from generator.manual.sieves import Names
    from generator.reading.findings import Place
    from generator.survey.sight import Sight
    from generator.vessel.raft import Raft

Other = tuple[str, str, "Place"]
"""What words say, how it stands in the file, and where."""
_PEOPLE = r"(?:people|persons|souls|heads|faces|of us)"
_OF_PEOPLE = re.compile(r"\b(?:people|persons|souls|heads|faces|us|we|count|counts|all)\b")
_BLASTS = r"(?:blasts?|rings?|strokes?|tones?|toots?|whistles?|signals?|hoots?|beeps?)"
_OF_THE_ALARM = re.compile(r"\bgeneral alarm\b|(?:^|[,:] )\W*(?:the |our )?alarm (?:is|sounds|:)")
_RAFT = r"(?:(?:life ?)?raft|canister)"
_OVER = r"(?:over|overboard|out|down|in)?"
_SIDE = r"(?:to|on|over|at) (?:the |our )?(?P<side>port|starboard)(?: side| rail| quarter| bow)?(?=$|[,.;:)*]| (?:and|then|with|by|at|whatever|first|only)\b)"
_LAUNCHED = (
    re.compile(rf"\b{_RAFT} (?:always )?(?:goes|slides|swings|rolls|drops|is (?:then |always )?(?:thrown|launched|pushed|heaved|lowered|slid|swung|put)) ?{_OVER} {_SIDE}"),
    re.compile(rf"\b(?:throw|launch|push|slide|heave|tip|lower|swing|put|drop|kick) (?:the |our )?(?:packed )?{_RAFT} ?{_OVER} {_SIDE}"),
)  # fmt: skip
_IT_GOES = (
    re.compile(rf"(?:^|[,;:] )\W*(?:it|she) (?:always )?(?:goes|slides|is (?:thrown|launched|pushed|heaved|lowered|slid)) ?{_OVER} {_SIDE}"),
    re.compile(rf"\b(?:throw|launch|push|slide|heave|tip|lower|kick) it ?{_OVER} {_SIDE}"),
)  # fmt: skip
_OF_A_RAFT = re.compile(r"raft|canister")
_OF_LAUNCHING = re.compile(r"raft|canister|painter|port|starboard")
_SENTENCE = re.compile(r"[.!?;]")
_RAFT_OF_A_SIDE = re.compile(r"\b(?P<side>port|starboard) (?:life ?)?raft\b")
_WEAK_LINK = "weak link"
_MADE_FAST_FIRST = re.compile(
    r"(?=.*\bpainter\b).*\b(?:make|tie|shackle|hitch|clip|hook|knot) (?:it|the painter|its end|the end|the end of the painter|the painter['’]s end) (?:fast|on|to )[^,;]{0,30}?\b(?:before|first)\b"
)
_NO = re.compile(r"\b(?:no|not|never|other boat|lifeboat|ship['’]s)\b")
_BOTH_RAFTS = re.compile(
    r"\bboth (?:of )?(?:the |our )?(?:life ?)?rafts\b|\beither (?:life ?)?raft\b|\bsecond (?:life ?)?raft\b"
)


def of_people(said: OwnWords, sight: Sight) -> Iterator[Other]:
    """How many people words count aboard, where neither the crew list nor the voyage nor 'persons' has so many."""
    particulars = sight.vessel.vessel
    if particulars is None or not _OF_PEOPLE.search(said.text.lower()):
        return
    numbers = {int(particulars.persons)} if isinstance(particulars.persons, int) else set()
    numbers |= {heads(sight.vessel.people)}
    numbers |= {len(sight.vessel.voyage.persons)} if sight.vessel.voyage else set()
    numbers -= {0}
    if not numbers:
        return
    for sentence in told_in(_WHEN_ALL.sub("", said.text)):
        for found in _counted().finditer(sentence):
            number = _figure(next(filter(None, found.groups())))
            if number not in numbers:
                hers = " or ".join(map(str, sorted(numbers)))
                yield f"{number} people", hers, particulars.place("persons")


_WHEN_ALL = re.compile(r"\b(?:when|once|as soon as|until) (?=(?:all|the|we) )", re.IGNORECASE)


@cache
def _counted() -> re.Pattern[str]:
    """Finds a number that counts everybody."""
    number = _number()
    return re.compile(
        rf"\bcount(?:s|ed)?:? (?:to |the |all |until )*{number} {_PEOPLE}\b"
        rf"|\bcounts? (?:up )?to {number}[:,;]? (?:and )?(?:then )?(?:(?:all|everybody|everyone) (?:are|is|must|have|has|sit|in|aboard|there)|nobody is missing)\b"
        rf"|\b(?<!one of )(?<!two of )(?<!any of )(?<!each of )(?<!either of )(?<!some of )(?:the|there are|all) {number} of us\b(?! (?:who|that|can|left|know)\b)"
        rf"|\ball {number} (?:are|must be|have to be|sit|get) (?:in the raft|in the liferaft|aboard|on board|there|in|on deck|out)\b"
        rf"|\bwe (?:are|sail as|go as) {number}(?= (?:people|persons|of us|in all|aboard|on board)\b|$|[,.:;!)])"
        rf"|\bwe (?:sail|go|travel|cruise|leave|set out) with {number}(?= (?:people|persons|of us|in all|aboard|on board)\b|$|[,.:;!)])"
        rf"|(?:^|[.:] )\W*{number} (?:people|persons|souls) (?:are |sail )?(?:aboard|on board|in all)\b"
        rf"|\ball {number} (?:people|persons|of us)\b(?! in)|^\W*{number} (?:people|persons), {_number(named=False)}\b"
    )


def _number(*, named: bool = True) -> str:
    words = rf"\d{{1,2}}|{'|'.join(in_order('reads.numbers'))}"
    return rf"({words})" if named else rf"(?:{words})"


def _figure(word: str) -> int:
    return int(word) if word.isdigit() else in_order("reads.numbers").index(word) + 1


def of_the_alarm(said: OwnWords, sight: Sight) -> Iterator[Other]:
    """The blasts of the general alarm that words tell, where it is given with others."""
    particulars = sight.vessel.vessel
    if particulars is None or said.block is particulars or not isinstance(particulars.general_alarm, str):
        return
    hers = blasts_in(particulars.general_alarm.lower())
    for sentence in told_in(said.meant):
        alarm = _OF_THE_ALARM.search(sentence)
        told = blasts_in(sentence[alarm.end() :]) if alarm and hers else ()
        wrong = [each for each in told if not any(like(each, own) for own in hers)]
        if wrong:
            number, kind = wrong[0]
            yield f"{number} {kind}".strip(), particulars.general_alarm, particulars.place("general-alarm")


def blasts_in(text: str) -> tuple[tuple[int, str], ...]:
    """The blasts that words in small letters tell: how many, and of which kind; "" of none that is said."""
    found = re.findall(rf"\b{_number()} (?:(short|long|quick)\b(?: {_BLASTS})?|{_BLASTS})", text)
    return tuple((_figure(number), kind) for number, kind in found)


def like(one: tuple[int, str], other: tuple[int, str]) -> bool:
    """Whether blasts told twice may be the same."""
    return one[0] == other[0] and (not one[1] or not other[1] or one[1] == other[1])


@check("words.other-raft", LIFE, COMMON_PRACTICE)
def words_launch_the_raft_she_has(sight: Sight) -> Finds:
    """Words name a raft that she has, have it go over where it is launched from, and its painter as fast as it is.

    Why: two hands look for the starboard raft of a boat with one, or heave the raft to the rail that it does not pass.
    Remedy: go and look; correct the words, or 'launch-from', 'name' and 'fast-to' of the raft.
    """
    for said in sight.words_through(_may_launch) if sight.vessel.rafts else ():
        if said.says in (ROLE, SIGNAL) or not (
            isinstance(said.block, Note) or _OF_A_RAFT.search(said.text.lower())
        ):
            continue
        for what, hers, place in _of_launching(said, sight):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' says {what}, and the file says {hers}",
                item=said.block.path,
                also=(place,),
            )
            break


@sieve
def _may_launch(text: str) -> bool:
    words = text.lower()
    if not _OF_LAUNCHING.search(words):
        return False
    if _OF_A_RAFT.search(words) and _puts_something_over(words):
        return True
    finds = (*_LAUNCHED, *_IT_GOES)
    return (
        any(find.search(sentence) for sentence in told_in(text) for find in finds)
        or any(
            find.search(sentence)
            for sentence in _SENTENCE.split(words)
            for find in (_RAFT_OF_A_SIDE, _BOTH_RAFTS, _MADE_FAST_FIRST, _TIED_DOWN)
        )
        or (_OF_A_RAFT.search(words) is not None and _GOES_OVER.search(words) is not None)
    )


def _of_launching(said: OwnWords, sight: Sight) -> Iterator[Other]:
    """The side over which words have a raft go, where the place she is launched from is on the other; and rafts of a side that she has not."""
    rafts = sight.vessel.rafts
    if not rafts or said.block in rafts:
        return
    beside = said.block.beside if isinstance(said.block, Note) else ""
    patterns = (*_LAUNCHED, *(_IT_GOES if str(beside).startswith("raft") else ()))
    for sentence in _SENTENCE.split(said.text.lower()):
        if not _NO.search(sentence):
            yield from _no_such_raft(sentence, rafts)
            yield from _fast_already(sentence, rafts)
            yield from _tied_down(sentence, rafts)
    for sentence in told_in(said.meant):
        yield from _over_another_end(sentence, rafts)
        yield from _over_a_side(sentence, rafts)
        meant = [each for each in rafts if str(each.name).lower() in sentence] or list(rafts)
        sides = [each.launch_from.sides_told if each.launch_from else frozenset[str]() for each in meant]
        for find in patterns if all(sides) and all(len(each) == 1 for each in sides) else ():
            for found in find.finditer(sentence):
                if all(found["side"] not in each for each in sides) and (place := _launched_from(meant[0])):
                    yield f"over to {found['side']}", f"{min(sides[0])}: {meant[0].launch_from}", place
        yield from _put_over_elsewhere(sentence, sight)


def _fast_already(sentence: str, rafts: Sequence[Raft]) -> Iterator[Other]:
    """The painter that words have made fast first, where it is fast at all times, for a release to free the raft."""
    painters = [each.painter for each in rafts if each.painter]
    if (
        painters
        and all(each.fast_to == _WEAK_LINK for each in painters)
        and _MADE_FAST_FIRST.search(sentence)
    ):
        yield (
            "the painter made fast first",
            f"that it is fast to the {_WEAK_LINK}",
            painters[0].place("fast-to"),
        )


_TURNS = r"(?:rope|line|lashing|lashings|strap|straps|webbing|cord|chain|net|tie|ties)"
_TIED_DOWN = re.compile(
    rf"\b{_RAFT}s?(?: (?:and|with) (?:its|the) cradle)? (?:is|are|gets?|must be|will be|stays?) (?:then |also |always |both )?(?:tied|lashed|roped|strapped|secured|made fast|bound|fastened)(?: (?:down|up|on|again|twice))?"
    rf" (?:with|by) (?:an?|the|two|a second|an extra|another|more|extra|some) (?:[a-z-]+ )?{_TURNS}\b"
    rf"|\b{_TURNS} (?:is|are|goes|go|gets?|must be) (?:then |also |always )?(?:tied|passed|put|led|laid|wound|thrown|drawn|over|round|slung|set)?(?: [a-z]+)? ?(?:round|around|over|across) (?:the |both |each )*{_RAFT}s?\b"
    rf"|\b(?:tie|lash|put|pass|lead|throw|wind|sling|set|rig) (?:an?|two|another|a second|extra|some) (?:[a-z-]+ )?{_TURNS} (?:[a-z]+ )?(?:round|around|over|across) (?:the |both |each )*{_RAFT}s?\b"
    rf"|\b(?:tie|lash|strap|rope|secure) (?:the |both )*{_RAFT}s? (?:down )?(?:with|by) (?:an?|two|another|a second|extra|more) (?:[a-z-]+ )?{_TURNS}\b"
)


def _tied_down(sentence: str, rafts: Sequence[Raft]) -> Iterator[Other]:
    """A second lashing over a raft that a release is to set free, where no raft is said to be lashed over."""
    freed = [each for each in rafts if each.hydrostatic]
    lashed = any(each.lashed_over is True for each in rafts)
    if freed and not lashed and _TIED_DOWN.search(sentence):
        hers = "that the HRU alone lets it go: what is tied over it goes down with her"
        yield "the raft tied down a second time", hers, freed[0].place("held-by")


_ENDS = ("aft", "fore")


@cache
def _over_an_end() -> re.Pattern[str]:
    """Finds the end of her over which a raft goes."""
    ends = "|".join(rf"(?P<{end}>{'|'.join(map(re.escape, called(f'ends.{end}')))})" for end in _ENDS)
    return re.compile(
        rf"(?:\b{_RAFT}\b|\bit\b|\bher\b)[^.;]{{0,40}}?\b(?:over|off|from|down|to) (?:the |our )?(?:{ends})\b"
    )


_GOES_OVER = re.compile(
    r"\b(?:throw|thrown|throws|launch|launched|push|pushed|slide|slid|slides|goes|heave|heaved|tip|tipped|lower|lowered|drop|dropped|kick|kicked|roll|rolled|carried|drag|dragged|tip)\b"
)


def _over_another_end(sentence: str, rafts: Sequence[Raft]) -> Iterator[Other]:
    """The stern or bow over which words have a raft go, where the place she is launched from is said to be another."""
    if not _OF_A_RAFT.search(sentence) or not _GOES_OVER.search(sentence) or "painter" in sentence:
        return
    places = [each.launch_from for each in rafts if each.launch_from is not None]
    told = [each for each in places if isinstance(each.where, str)]
    for found in _over_an_end().finditer(sentence) if told else ():
        end = next(each for each in _ENDS if found[each])
        if not any(word in each.words.lower() for each in told for word in called(f"lies.{end}")):
            yield f"over the {found[end]}", str(told[0]), told[0].place("what")
            return


_OVER_A_SIDE = re.compile(
    r"\bover (?:the |our )?(?P<side>port|starboard) (?:side|rail|bulwark|gunwale|guard ?rail)\b"
)


def _over_a_side(sentence: str, rafts: Sequence[Raft]) -> Iterator[Other]:
    """The side over which words have a raft go that goes over the stern."""
    found = _OVER_A_SIDE.search(sentence) if _OF_A_RAFT.search(sentence) else None
    places = [each.launch_from for each in rafts if each.launch_from is not None]
    if not found or not _GOES_OVER.search(sentence) or not places or len(places) < len(rafts):
        return
    if all(
        not each.sides_told and any(word in each.words.lower() for word in called("ends.aft"))
        for each in places
    ):
        yield f"over the {found['side']} side", str(places[0]), places[0].place("what")


def _launched_from(raft: Raft) -> Place | None:
    return raft.launch_from.place("side") if raft.launch_from else None


def _no_such_raft(sentence: str, rafts: Sequence[Raft]) -> Iterator[Other]:
    names = " and ".join(str(each.name) for each in rafts)
    for found in _RAFT_OF_A_SIDE.finditer(sentence):
        if not any(found["side"] in _sides_of(each) for each in rafts):
            yield f"the {found[0]}", names, rafts[0].place("name")
            return
    both = _BOTH_RAFTS.search(sentence)
    if both and len(rafts) == 1:
        yield both[0], f"one: {names}", rafts[0].place("name")


def _sides_of(raft: Raft) -> str:
    """What tells a raft's side: her name, her place, where she goes over."""
    return " ".join(
        (str(raft.name).lower(), str(raft.side), *(raft.launch_from.sides_told if raft.launch_from else ()))
    )


_PUT = r"(?:lift|throw|launch|push|slide|heave|drop|lower|put|roll|tip|carry|bring)(?:s|es)?"
_IS_PUT = r"(?:lifted|thrown|launched|pushed|slid|heaved|dropped|lowered|put|rolled|tipped|carried|goes|go)"
_PUT_OUT = r"(?: (?:over|overboard|out|into the water|over the side|over the rail|over the guardrails|down))*"


@lru_cache(maxsize=64)
def _put_over(spaces: Names) -> re.Pattern[str]:
    """Finds a raft put over, with the side or the space from which."""
    raft = rf"(?:the |our |both )?(?P<raft>(?:port |starboard )?(?:{one_of(called('raft'))}))s?"
    from_where = (
        rf"(?: (?:to|on|over|at|from) (?:the )?(?P<side>port|starboard)(?: side| rail| gate| quarter)?(?=$|[,.;:)]| (?:side|rail|and|then|as|when)\b)"
        rf"|(?: (?:over|at|from|off|through) (?:the )?(?P<space>(?:(?:port|starboard) )?(?:{one_of(spaces)})))(?![\w-]))"
    )
    return re.compile(
        rf"\b(?:{_PUT} {raft}|{raft.replace('raft>', 'other>')} (?:is |are )?{_IS_PUT}){_PUT_OUT}{from_where}"
    )


_ANY_PUT = re.compile(rf"\b(?:{_PUT}|{_IS_PUT})\b")


def _puts_something_over(text: str) -> bool:
    """Whether a text may have a raft put over."""
    return _ANY_PUT.search(text) is not None


def _put_over_elsewhere(sentence: str, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    """The side or space at which a sentence has a raft put over, where 'launch-from' of none that it may mean is there: as it is told, hers, and where."""
    rafts = [raft for raft in sight.vessel.rafts if raft.launch_from is not None]
    for found in _put_over(names_of_spaces(sight)).finditer(sentence) if rafts else ():
        named = found["raft"] or found["other"] or ""
        meant = [raft for raft in rafts if str(raft.name).lower() == named] or rafts
        place = meant[0].launch_from
        if place is not None and not any(
            _fits(sight, raft, found["side"] or "", found["space"] or "") for raft in meant
        ):
            yield f"over {_at(found)}", str(place), place.place("where")


def _at(found: re.Match[str]) -> str:
    return f"to {found['side']}" if found["side"] else f"at the {found['space']}"


def _fits(sight: Sight, raft: Raft, side: str, space: str) -> bool:
    """Whether a raft may be put over so by its entry; a side that its entry does not tell may be any."""
    place = raft.launch_from
    if place is None:
        return True
    if side:
        own = place.side if isinstance(place.side, str) else ""
        return own in ("", side, "centre", "either")
    here, there = space_at(sight, place.where), find_space(sight.spaces, space)[0]
    return here is None or there is None or here is there or not apart(sight, here, there)
