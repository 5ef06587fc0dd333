"""Words of how a thing is worked, against the yes, the no, the place and the rig that stand beside them."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import APART, told_in
from generator.manual.sieves import Names, sieve
from generator.reading.nearest import shortened
from generator.reading.worded import DOING
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space

_ENGINE_SPACE = r"engine (?:space|room|box|compartment|bay|hatch|cover|casing|lid)"
_OPENS = r"(?:open|lift|raise|remove|take off|take away|unscrew|unclip|unlatch|slide back|pull off|swing out)"
_ENTERS = r"(?:reach|climb|crawl|go|get|lean|step|put (?:a|your|one) (?:hand|arm)) (?:down |through )?(?:into|inside|in)"
_ENDS = r"(?: (?:hatch|door|lid|cover|panel|box|casing))?(?=$|[,.;:)]| (?:and|then|up|off|first|to)\b)"


@lru_cache(maxsize=64)
def _into(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds that a space of these names is opened or entered."""
    space = rf"(?:{one_of(names)}|{_ENGINE_SPACE})" if names else _ENGINE_SPACE
    return re.compile(rf"\b(?:{_OPENS}|{_ENTERS})(?: up)? (?:the |its )?{space}{_ENDS}")


_UNOPENED = re.compile(
    r"\b(?:without opening|from (?:the )?outside|leave (?:it|the .+?) shut|with (?:it|the .+?) shut)\b"
)


@check("words.opened-after-all", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_stop_worked_from_outside_opens_nothing(sight: Sight) -> Finds:
    """How a stop is worked opens the space where the danger is only where 'from-outside' says no.

    Why: the step says that the fire need not be given air, and the hand that follows it opens the engine space.
    Remedy: go and look; write from-outside: no, or how it is worked with the space shut.
    """
    engines = tuple(
        name.lower() for space in sight.spaces.values() if space.engine for name in (space.name, *space.also)
    )
    for stop in sight.vessel.stops:
        if not isinstance(stop.how, str) or stop.what == "gas":
            continue
        told = told_in(stop.how)
        if stop.from_outside is True and any(map(_into(engines).search, told)):
            message, remedy = f"'{shortened(stop.how)}' opens the space, and from-outside says yes", ""
        elif stop.from_outside is False and _UNOPENED.search(stop.how.lower()):
            message = f"'{shortened(stop.how)}' leaves the space shut, and from-outside says no"
            remedy = "go and look; write from-outside: yes, or how it is worked inside the space."
        else:
            continue
        also = (stop.place("from-outside"),)
        yield at(stop, "how", message, item=str(stop.what), also=also, remedy=remedy)


_AT_THE_ENGINE = re.compile(
    r"\b(?:on|at|behind|beside|under|above|below|next to|by|near|against|over)(?: the| its)? (?:\w+ )?(?:tank|engine|gearbox|filter|separator|injection pump|lift pump|motor|manifold|exhaust|alternator|block)\b"
)
_REACHED = re.compile(
    r"\b(?:holes?|flaps?|openings?|ports?|remote|cables?|through|outside|plates?|glass|pull|reached|handle comes|led|hatch|door|lid|steps?|bulkhead)\b"
)


@check("words.reached-inside", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_stop_worked_from_outside_is_reached_from_outside(sight: Sight) -> Finds:
    """A stop inside the engine space that is worked from outside is not told as standing on the tank or behind the engine.

    Why: the step says that the fire need not be given air, and the tap is found by climbing in to the fire.
    Remedy: go and look; write from-outside: no, or under 'spot' by what a hand reaches it with the space shut: through the round hole beside the steps.
    """
    for stop in sight.vessel.stops:
        here = space_at(sight, stop.where) if isinstance(stop.where, str) else None
        if stop.from_outside is not True or here is None or not here.engine or not isinstance(stop.spot, str):
            continue
        spot = stop.spot.lower()
        how = stop.how.lower() if isinstance(stop.how, str) else ""
        words = f"{spot}, {how}"
        if (_AT_THE_ENGINE.search(spot) and not _REACHED.search(words)) or (
            _IN_IT.search(spot) and not _THROUGH.search(words)
        ):
            yield at(
                stop,
                "spot",
                f"'{shortened(stop.spot)}' is inside the {here.name}, and from-outside says yes",
                item=str(stop.what),
                also=(stop.place("from-outside"),),
            )
        elif _LIFTED_OFF.search(spot if _into(()).search(how) else words):
            yield at(
                stop,
                "spot",
                f"'{shortened(stop.spot)}': the {here.name} is opened for it, and from-outside says yes",
                item=str(stop.what),
                also=(stop.place("from-outside"),),
            )


_IN_IT = re.compile(
    r"\b(?:inside|within|in|under|below|beneath) (?:the |its )?engine (?:space|room|compartment|bay|hatch|cover|box|lid|casing|door)\b"
    r"|\bbehind (?:the |its )?engine (?:hatch|cover|casing|door)\b"
)
_THROUGH = re.compile(
    r"\b(?:holes?|flaps?|openings?|ports?|remote|cables?|through|outside|pull|just inside|reached|led)\b"
)
_LIFTED_OFF = re.compile(
    r"\b(?:with|after|once|when|behind) (?:the )?(?:\w+ )?(?:hatch|cover|lid|box|casing|panel|steps?|ladder|companionway)(?: is| are)? (?:lifted|taken|opened?|removed|unscrewed|swung|off|up|away|pulled)\b"
    r"|\b(?:lift|take|pull|swing|slide|unscrew|unclip|remove|open) (?:the )?(?:engine |companionway )?(?:hatch|cover|box|casing|panel|steps|ladder)\b(?! (?:flap|hole|port))"
    r"|\b(?:hatch|cover|lid|box|casing|panel|steps?|ladder|companionway) (?:has|have|must|needs?|is|are|comes?)(?: to)?(?: first)?(?: be)? (?:lifted|taken|opened|removed|unscrewed|swung|off|up|away)\b"
)


_FROM_OUTSIDE = re.compile(
    r"\b(?:from|on|at) (?:the |its )?outside\b|\bfrom (?:on |the )?deck\b|\bfrom (?:the )?(?:cockpit|foredeck)\b"
)
_INSIDE_TOO = re.compile(r"\b(?:inside|within|below|either|both sides|also|too|same)\b")


@check("words.opened-outside", LIFE, COMMON_PRACTICE)
def a_way_out_opens_from_inside_as_its_words_say(sight: Sight) -> Finds:
    """How a way out is opened is done from inside, where 'opens' does not say outside.

    Why: whoever is below in smoke turns what only somebody on deck can turn.
    Remedy: go and open it from inside once; write how, or opens: outside.
    """
    for hatch in sight.vessel.escape:
        how = hatch.how.lower() if isinstance(hatch.how, str) else ""
        if (
            hatch.opens in ("both", "inside")
            and _FROM_OUTSIDE.search(how)
            and not _INSIDE_TOO.search(how)
            and told_in(how)
        ):
            yield at(
                hatch,
                "how",
                f"'{shortened(str(hatch.how))}' is done from outside, and opens says {hatch.opens}",
                item=str(hatch.where),
                also=(hatch.place("opens"),),
            )


_KEYS = re.compile(
    r"\b(?P<number>both|two|all three|three|all four|four|all five|five)\b(?: \w+){0,2} (?:keys|switches|isolators)\b"
)
_AS_MANY = {"both": 2, "two": 2, "three": 3, "four": 4, "five": 5}


@check("words.fewer-keys", HELP, COMMON_PRACTICE)
def as_many_keys_are_turned_as_there_are_banks(sight: Sight) -> Finds:
    """Battery stops turn at least as many keys as there are banks of batteries.

    Why: the bank that was added since stays on, and feeds the fire.
    Remedy: go and look which key cuts the last bank off; write under 'how' how many are turned, or a stop of its own for that bank.
    """
    stops = [each for each in sight.vessel.stops if each.what == "batteries"]
    banks = sight.vessel.batteries
    told = [_KEYS.search(each.how.lower()) if isinstance(each.how, str) else None for each in stops]
    if not stops or not all(told):
        return
    keys = sum(_AS_MANY[each["number"].split()[-1]] for each in told if each)
    if keys < len(banks):
        yield at(
            stops[0],
            "how",
            f"'{shortened(str(stops[0].how))}' turns {keys}, and there are {len(banks)} banks of batteries",
            item="batteries",
            also=tuple(each.place("what") for each in banks[keys:]),
        )


_BY_WIRE = re.compile(
    r"\b(?:solenoid|electric(?:al|ally)?|electro-?\w+|breaker|relay|fuse|remote switch|ignition|blower)\b"
)
_SPARKLESS = re.compile(r"\bspark(?:s|less|-free|ing)?\b|\bex-proof\b|\bexplosion\b")
_A_SWITCH = re.compile(r"\b(?:switch|button)\b")
_PRESSED = re.compile(r"\b(?:press|hold)(?: down)?\b[^,;.]{0,24}\b(?:STOP|button)\b")
_BY_HAND = re.compile(
    r"\b(?:stopcock|petcock|(?:\w+ )?tap|bowden|mechanical(?:ly)?|by hand|pull[- ]cable|pull[- ]wire|lever (?:across|square))\b"
)


@check("words.sparks", TRUTH, COMMON_PRACTICE)
def a_stop_is_electric_as_its_words_say(sight: Sight) -> Finds:
    """How a stop is worked says an electric switch only where 'electric' does not say no, and a tap only where it does not say yes.

    Why: where gas lies in the bilge the steps keep hands off what makes a spark, and call safe what the file says makes none.
    Remedy: go and look what it works by, and correct 'electric' or 'how'.
    """
    outboard = sight.vessel.vessel is not None and sight.vessel.vessel.engine == "outboard"
    for stop in sight.vessel.stops:
        if not isinstance(stop.how, str) or not isinstance(stop.electric, bool) or stop.what == "batteries":
            continue
        if _SPARKLESS.search(stop.how.lower()):
            continue
        words = " ".join(told_in(stop.how))
        wired = _BY_WIRE.search(words)
        if stop.electric and not wired and not _A_SWITCH.search(words) and _BY_HAND.search(words):
            said = "works by hand, and electric says yes"
        elif not stop.electric and (wired or (stop.what == "gas" and _A_SWITCH.search(words))):
            said = "works by electricity, and electric says no"
        elif not stop.electric and stop.what == "engine" and not outboard and _PRESSED.search(stop.how):
            said = "presses what works by electricity, as a rule, and electric says no"
        else:
            continue
        sure = stop.what == "gas" or (not stop.electric and not said.startswith("presses"))
        weight = None if sure else RECOMMENDATION
        yield at(
            stop,
            "how",
            f"'{shortened(stop.how)}' {said}",
            item=str(stop.what),
            also=(stop.place("electric"),),
            weight=weight,
        )


@check("words.worked-elsewhere", HELP, COMMON_PRACTICE, COMPOSITION)
def a_hand_acts_where_the_thing_is(sight: Sight) -> Finds:
    """How a thing is worked sends the hand to no other space than 'where' and 'spot' do.

    Why: the step prints both: "at the chart table" and "saloon, under the settee", and whoever reads it goes to one of them.
    Remedy: go and look where the hand acts, and write that space under 'where', and under 'spot' where in it.
    """
    names = names_of_spaces(sight)
    for said in sight.own_words:
        where = said.block.__dict__.get("where")
        if said.says != DOING or not said.of_itself or not isinstance(where, str):
            continue
        here, spot = space_at(sight, where), str(said.block.__dict__.get("spot") or "").lower()
        for name in _at_a_space(said.meant, names):
            there = find_space(sight.spaces, name)[0]
            if here is None or there is None or there is here or name in spot or _shares(here, there):
                continue
            if not spot and (here.always or there.always):
                continue  # a part of a room, as the chart table of the saloon
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' is at the {there.name}, and where says {where}{', ' if spot else ''}{spot}",
                item=said.block.path,
                also=(said.block.place("where"),),
            )
            break


@lru_cache(maxsize=8192)
def _at_a_space(text: str, names: Names) -> tuple[str, ...]:
    """The spaces at which words have a hand act."""
    if " at " not in text and " beside " not in text:
        return ()
    find = re.compile(rf"\b(?:at|beside) the ({one_of(names)})(?=$|[,.;:)]| (?:and|then)\b)")
    return tuple(found[1] for sentence in told_in(text) for found in find.finditer(sentence))


def _shares(one: Space, other: Space) -> bool:
    """Whether two spaces lie over each other in plan: the helm in the cockpit."""
    along = min(one.fore_m, other.fore_m) - max(one.aft_m, other.aft_m)
    across = min(one.starboard_m, other.starboard_m) - max(one.port_m, other.port_m)
    return along > 0 and across > 0


_ONE_MAST = re.compile(r"\b(?:sloop|cutter|una|cat(?:boat| rig(?:ged)?)?)$")
_AFT_MAST = re.compile(r"\bmizzens?\b|\bmizzenmast\b|\bmizzen mast\b")
_FORE_MAST = re.compile(r"\bforemasts?\b|\bfore mast\b")


@sieve
def _names_a_mast(text: str) -> bool:
    return _AFT_MAST.search(text.lower()) is not None or _FORE_MAST.search(text.lower()) is not None


@check("words.other-rig", TRUTH, COMMON_PRACTICE)
def words_name_masts_she_has(sight: Sight) -> Finds:
    """Words name the mizzen of no boat with one mast, and the foremast of no boat whose forward mast is the main.

    Why: whoever is sent to the mizzen winch of a sloop looks for it while the thing lies elsewhere; such words come from another boat's file.
    Remedy: go and look; correct the words, or 'rig'.
    """
    one = sight.vessel.vessel
    rig = one.rig.lower().strip() if one is not None and isinstance(one.rig, str) else ""
    if not (_ONE_MAST.search(rig) or rig.endswith(("ketch", "yawl"))):
        return
    two = rig.endswith(("ketch", "yawl"))
    for said in sight.words_through(_names_a_mast):
        patterns = (_FORE_MAST,) if two else (_AFT_MAST, _FORE_MAST)
        found = next(
            (m for sentence in told_in(said.meant) for p in patterns if (m := p.search(sentence))), None
        )
        if found is not None and not isinstance(said.block, APART) and one is not None:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {found[0]}, and rig says {rig}",
                item=said.block.path,
                also=(one.place("rig"),),
            )
