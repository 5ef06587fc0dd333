"""What is wanted in an emergency does what it is for: no words say that it is seized, empty, switched off, torn, ashore or without a part."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.placed.reach import spoken, told_of
from generator.checks.placed.worked import deeds
from generator.checks.words.outside import without_spent
from generator.checks.words.places import one_of
from generator.manual.own_words import called, listed
from generator.shelves.gear_rows import FETCHED
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import Alarm
from generator.vessel.fittings import Fitting
from generator.vessel.gear import Gear, Lifejackets, does
from generator.vessel.installed import Pump
from generator.vessel.medical import Medical
from generator.vessel.radio import Beacon, RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block

_STUCK = (
    r"seized|jammed|jams|stuck(?! (?:to|on|in|into|over|under|beside)\b)|rusted (?:solid|in|fast|shut|up|through)|corroded (?:solid|shut|through)|frozen(?! (?:food|fish))|"
    r"painted (?:over|shut|in|up)|broken(?! white)|snapped(?! (?:to|on|onto|in|into|over|under|round|around)\b)|sheared|out of order|out of action|defective|faulty|unserviceable|fails? (?:its|the|every|each|any) (?:\w+[ -])?tests?|failed (?:its|the|at|in|when)\b"
)
_STIFF = re.compile(
    r"\b(?:stiff|hard to (?:turn|open|close|move|shut|pull)|sticks|binds|leaks|weeps|weeping)\b"
)
_TAKEN = re.compile(
    r"\b(?:pull|take|lift|slip|slide|twist|turn|rotate|knock|draw|screw|tug|tear|snap|yank|switch|click|push|press|swing|move|throw|flick|put|get|break|prise|unclip)\b"
    r"(?: (?!and\b|then\b|it\b)[\w'’/-]+){0,5} $"
)
"""What a hand does to a handle that comes off, or to a knob that is turned off, before the word for it."""
_STICKS = re.compile(r"\b(light|glow|rubber|match) ?sticks?\b")
"""Sticks that are things, and do not stick."""
_PARTS = re.compile(r"[.;!?]\s|\n")
_HAS = r"(?:is|are|was|were|has|have|had|has been|have been|got|stays?|still|now|at present|currently|again|also|long)"
_FEEDS = r"batter(?:y|ies)|cells?|fuse|(?:gas )?cartridge|(?:gas )?cylinder|capsule|firing head|impeller|aerial|antenna|sim card|contract|credit"
_COMING = r"rigger|electrician|engineer|mechanic|surveyor|technician|fitter|yard|sailmaker|parts?|bracket|battery|cartridge|kit|spares?|replacement|one|delivery|parcel"
_ENDS = r"(?=$|[,.;:)]| (?:and|but|since|because|for (?:a|the|want|lack)|at the moment|at present|now|yet|again|last (?:week|month|year|season|spring|summer|autumn|winter)|in (?:january|february|march|april|may|june|july|august|september|october|november|december|20\d\d))\b)"


@check("placed.stuck", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_does_nothing(sight: Sight) -> Finds:
    """What is wanted in an emergency is not said to be seized, broken, empty, torn, switched off, ashore for repair or without a part.

    Why: the step sends somebody to it, and it does nothing; what was to be done instead is begun minutes too late, and no count should have it.
    Remedy: free, fill or renew it, try it, then take the word out; until then take it off the list, or write what is used instead, and defer it with reason and date.
    """
    for thing, key, said, name, vital in (*deeds(sight), *_named(sight), *_warning(sight)):
        said_so = moves_ill(said, key) or _is_off(thing, said) or _is_packed(thing, said)
        saves = vital or thing.path.startswith("steering")
        if said_so is not None:
            yield at(
                thing,
                key,
                f"{name}: it does not do what it is for"
                if key == "what"
                else f"{spoken(thing, name)}: '{said}': it does not do what it is for",
                item=name,
                weight=RECOMMENDATION if said_so == "stiff" or not saves else None,
            )


def _named(sight: Sight) -> Iterator[tuple[Block, str, str, str, bool]]:
    """The names of gear, where they go on to say what it is like: "fire extinguisher, cabin, discharged"."""
    for item in sight.vessel.gear:
        if (
            item.kind in FETCHED
            and isinstance(item.what, str)
            and re.search(r",| (?:with|without|no) ", item.what)
        ):
            yield item, "what", item.what, item.what, True
    vessel = sight.vessel
    fittings = [raft.strong_point for raft in vessel.rafts]
    fittings += [vessel.recovery.hoist, vessel.recovery.gate] if vessel.recovery else []
    fittings += vessel.capsize.hold_on if vessel.capsize else []
    for part in fittings:
        if isinstance(part, Fitting) and isinstance(part.what, str):
            yield part, "what", part.what, part.what, True


def _warning(sight: Sight) -> Iterator[tuple[Block, str, str, str, bool]]:
    """Alarms, the medical chest and its key."""
    for alarm in sight.vessel.alarms:
        for key, said, _ in told_of(alarm):
            yield alarm, key, said, f"{alarm.what} alarm", True
    medical = sight.vessel.medical
    if isinstance(medical, Medical):
        parts: tuple[Block, ...] = (medical, medical.key_) if medical.key_ is not None else (medical,)
        for part in parts:
            for key, said, _ in told_of(part):
                yield (
                    part,
                    key,
                    said,
                    called("medical")[0] if part is medical else "key of the medical chest",
                    True,
                )


@lru_cache(maxsize=8192)
def moves_ill(said: str, key: str) -> str | None:
    """Whether words have a thing do nothing, or no more than stiff; None where they say neither, or only what is done in that case."""
    for part in _PARTS.split(without_spent(_STICKS.sub(r"\1 rods", said.lower()))):
        for pattern, how in ((_does_nothing(key in _DONE), "stuck"), (_STIFF, "stiff")):
            found = pattern.search(part)
            if found is not None and found[0].endswith(" off") and _TAKEN.search(part[: found.start()]):
                continue
            if found is not None and _is_so(
                part[: found.start() + (found[0][0] in ",(:")], part[found.end() :]
            ):
                return how
    return None


def _is_off(thing: Block, said: str) -> str | None:
    """Whether an alarm is said to be switched off."""
    warns = isinstance(thing, Alarm) or (
        isinstance(thing, Gear) and any(does(thing, each) for each in _WARNS)
    )
    found = _switched_off().search(said.lower()) if warns else None
    return "stuck" if found and _is_so(said.lower()[: found.start()], said.lower()[found.end() :]) else None


_FITTED = (Beacon, RadioSet, Alarm, Pump, Lifejackets)
"""What serves nobody while it is packed as it was delivered."""
_PACKED = re.compile(
    r"\b(?:in|inside) (?:its|the|their|a) (?:original |sealed |shipping )?(?:carton|cardboard box|packaging|packing case|parcel|bubble wrap|delivery box)\b"
    r"|\bstill (?:in (?:its|their|the) (?:box|boxes|wrapping|plastic)|packed|wrapped|boxed)\b|\b(?:unopened|not yet unpacked|as delivered)\b"
)


def _is_packed(thing: Block, said: str) -> str | None:
    """Whether a radio, beacon, alarm, pump or jackets are said to be packed as they came."""
    found = _PACKED.search(said.lower()) if isinstance(thing, _FITTED) else None
    return "stuck" if found and _is_so(said.lower()[: found.start()], said.lower()[found.end() :]) else None


_WARNS = ("warns of smoke", "warns of carbon monoxide", "warns of gas", "warns of water")


@cache
def _switched_off() -> re.Pattern[str]:
    return re.compile(rf"(?:^|, ?|\b(?:{_HAS} )+)(?:{one_of(called('unfit-off'))}){_ENDS}")


_DONE = frozenset(("how", "closes", "use", "power"))
"""Keys whose words say what a hand does: "with the pin taken out" tells of no fault there."""


def _is_so(before: str, behind: str) -> bool:
    """Whether what stands round such words leaves them as they are said: no case, no precaution, no denial."""
    words = re.findall(r"[a-z']+", before.replace("’", "'"))
    clause = re.findall(r"[a-z']+", re.split(r"[,;:]", before.replace("’", "'"))[-1])
    return (
        listed("reads.unfit-condition").isdisjoint(words)
        and listed("reads.unfit-cases").isdisjoint(clause)
        and not re.match(
            r"\W*(?:only )?(?:when|in harbour|in port|while|until|if|at anchor|alongside|unless|ashore in)\b",
            behind,
        )
    )


@cache
def _does_nothing(done: bool) -> re.Pattern[str]:
    """Finds words that have a thing do nothing; of what a hand does only where they are a statement."""
    state, part, of_part = (one_of(called(each)) for each in ("unfit", "unfit-parts", "unfit-of-parts"))
    deed, to_do = (one_of(called(each)) for each in ("unfit-deeds", "unfit-to-do"))
    by_turns, held = (one_of(called(each)) for each in ("unfit-by-turns", "unfit-held"))
    first = one_of(called("unfit-done-first"))
    begins = r"(?:^|[,(:] ?(?:but |now |and )?)" if not done else r"(?:[,(:] ?(?:but |now )?)"
    states = [
        rf"{begins}(?:(?:is|are|it is|they are|its? was|still|now|all|both|has|have|had|been|long) )*(?:{state}){_ENDS}",
        rf"\b(?:{_HAS} )+(?:{state}){_ENDS}",
        rf", ?(?:only )?(?:one|two|three|four|five|six|seven|eight|half|some|most|several|\d+)(?: of (?:them|which|these|the \w+))?(?: (?:is|are))? (?:{state}){_ENDS}",
        rf"{begins}(?:it was |was |were )?(?:lost|stolen|mislaid) (?:in|last|at|on|over)\b",
        rf"\b(?:{part})s? (?:{_HAS} )+(?:{of_part}){_ENDS}",
        rf"\b(?:has|have|with) (?:no|lost (?:its|the)) (?:{_FEEDS}){_ENDS}",
        rf"{begins}no (?:{_FEEDS})(?: in it| aboard)?{_ENDS}",
        rf"\b(?:is|are|still|yet|has|have)(?: \w+)? to be (?:{to_do}){_ENDS}",
        r"\b(?:contract|subscription) (?:has )?(?:ended|expired|run out|lapsed|been cancelled)\b",
    ]
    if not done:
        states += [
            rf"\b(?:that|which|it|they|(?:{held})s?)(?: often| always| sometimes| now| easily)? (?:{by_turns})(?:{_ENDS}| (?:under|when|at|with|after|in) )",
            rf"\buntil (?:[\w'’-]+ ){{1,6}}?(?:is|are|has been|have been|gets?)(?: \w+)? (?:{first}){_ENDS}",
            rf"\buntil (?:the |a |an |its |our )?(?:new |spare )?(?:[\w'’-]+ )?(?:{_COMING}) (?:comes?|arrives?|has come|is here)\b",
            r"\buntil (?:spring|autumn|next \w+|the next \w+|we (?:get|find|have|buy)|somebody (?:finds|buys|mends))\b",
            r"\b(?:wait(?:s|ing) for|awaits|awaiting) (?:the|an?|its|their|new|spare|repair|parts?|delivery)\b",
            rf"(?<!with the )\b(?:{part})s? (?:all |both |partly |badly |half )?(?:{of_part}){_ENDS}",
            rf"\b(?:batter(?:y|ies)|cells?|fuses?) out{_ENDS}",
            rf"\bwithout (?:its|the|their) (?!bag|cover|lid|box|strap)(?:{part})s?{_ENDS}",
            rf"(?:^|, ?)(?:still )?to be (?:{to_do}){_ENDS}",
            rf"\b(?:without (?:its |a |the |any )?|no )(?:{_FEEDS})(?: in it| aboard)?{_ENDS}",
            r"\b(?:registered|programmed) (?:to|for|in the name of|under) (?:the |her |its |our |a )?(?:former|old|previous|last|other|another) \w+",
            rf"\b(?:not (?:yet )?|never |still un)(?:registered|programmed){_ENDS}",
            r"\b(?:carries|holds|bears|supports) (?:only (?:an? )?(?:child|children|light (?:person|people))|(?:an? )?(?:child|children|light (?:person|people)) only)\b",
            r"\b(?:is|are) only (?:rigged|rove|fitted|carried|mounted|aboard) in (?:harbour|port)\b",
            r"\bneeds (?:a new|new|repair|mending|refilling|recharging|replacing|a refill)\b",
            r"\b(?:gauge|needle|pointer)(?: is| stands)? (?:on|in|at) (?:the )?(?:red|empty|zero)\b",
        ]
    stuck = rf"\b(?:{_STUCK})(?!\w)|\b(?:handle|lever|wheel|knob) (?:is )?(?:off|gone|missing|broken|lost)\b"
    refuses = (
        rf"\b(?:does not|doesn['’]t|do not|don['’]t|will not|won['’]t|no longer|cannot be|can['’]t be|could not be|never|refuses to) (?:quite |fully |really |yet )?"
        rf"(?:{deed}|turned|opened|closed|moved|worked|started|lifted|switched on|charged|shut)\b(?! by (?:accident|mistake|itself|a child|children|waves|the sea|chance)\b)"
    )
    return re.compile("|".join((stuck, refuses, *states)))
