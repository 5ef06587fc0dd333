"""Words of her own that send out of her: to a place ashore, or to a space she has not."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.aboard import gear_named
from generator.checks.words.places import names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called, listed, told_in
from generator.manual.sieves import Names, names_alike, sieve
from generator.reading.nearest import nearest, shortened
from generator.reading.worded import DOING, PLACE, ROLE, SIGNAL
from generator.shelves.gear import kinds
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, TRUTH, Finds, Sight, at, check

if TYPE_CHECKING:
    from generator.manual.own_words import OwnWords

_KEPT = r"(?:is|are|lies?|stands?|hangs?|stays?|(?:is|are) (?:kept|stored|stowed|left)|(?:was|were) left|remains?)"


@check("words.ashore", LIFE, COMMON_PRACTICE)
def words_place_what_is_aboard_aboard(sight: Sight) -> Finds:
    """The words for the place of a thing that is aboard name no place ashore.

    Why: what lies in the boot of a car or in a loft is not there when somebody reaches for it.
    Remedy: bring it aboard and write where it is; or take it off the list, and see what she lacks then.
    """
    for said in sight.words_through(_may_be_ashore):
        if said.says in (SIGNAL, ROLE):
            continue
        named = _kept_ashore(said.text) if _of_a_place(said) or said.says == DOING else ""
        named = named or _ashore(without_spent(said.text), stated=not _of_a_place(said))
        named = named or (_gear_ashore(said.meant) if not _of_a_place(said) else "")
        if named:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has it ashore: {named}",
                item=said.block.path,
            )


def _of_a_place(said: OwnWords) -> bool:
    """Whether words say where something is, and nothing else."""
    placed = "where" in type(said.block).fields
    return placed and (said.says == PLACE or said.names_itself)


@lru_cache(maxsize=8192)
def _ashore(text: str, *, stated: bool) -> str:
    """The place ashore where words have a thing: any they name, or one where they say it is kept."""
    find = (
        re.compile(rf"\b{_KEPT}\b[^,;:]{{0,30}}?{_places_ashore().pattern}") if stated else _places_ashore()
    )
    found = (one for sentence in told_in(text) if (one := find.search(sentence)))
    of_hers = (
        one
        for one in found
        if not (
            stated
            and (
                _ANOTHER.search(one.string[: one.start()]) or _OF_PEOPLE.search(f"{one.string[: one.end()]}")
            )
        )
    )
    first = next(of_hers, None)
    return first["place"] if first else ""


_OF_PEOPLE = re.compile(
    r"\b(?:with|while|when) (?:the |our |all |everybody|everyone|no)?[^,;:]{0,20}\bashore$|\b(?:dog|cat|family|children|child|kids|guests?|people|everybody|everyone|nobody|passengers|crew|mate|skipper|cook|one of us|some of us|bicycles?|dinghy|tender)\b[^,;:]{0,30}\bashore$"
)
"""People, animals and the dinghy may be ashore; so may whoever watches while tanks are filled."""
_ANOTHER = re.compile(
    r"\b(?:old|spare|former|second|other|previous|borrowed|hired)\b"
    r"|\b(?:harbour|harbor|marina|pontoon|club|quay|jetty|station|base|neighbour|fire brigade)['’]s\b|\bof the (?:harbour|harbor|marina|pontoon|club|quay|jetty|fire brigade)\b",
    re.IGNORECASE,
)
"""Another of its kind than the one that is aboard, or somebody else's."""


_HOLDERS = (
    r"doctor|pharmacist|agent|owner|dealer|chandlers?|electrician|rigger|sailmaker|office|neighbours?|mechanic|service station|charter base|base|workshop|yard|boatyard|"
    r"customs|harbour office|club|shop|repairer|manufacturer|maker"
)
_HELD = re.compile(
    rf"\b(?:with|at|from|to) (?:the |our |my |his |her |their |a )?(?P<place>(?:[a-z]+['’]?s? ){{0,2}}?(?:{_HOLDERS})(?:['’]s)?)(?=$|[,.;:)]| (?:ashore|for|until|on|in|to be|being|since|at)\b)|\b(?P<there>(?<!go )(?<!goes )(?<!step )(?<!contact )(?<!run )(?<!run her )(?<!from )(?<!while )(?<!when )ashore)\b|\b(?P<sent>sent (?:in|away|off|back)|away for (?:repair|service|a new)|in for (?:service|repair))\b"
)
_SAVED = re.compile(
    r"\b(?:not|never|no|if|when|unless|until|call|calls|ring|ask|telephone|phone|radio|before|once|while|spare|copy|second|other)\b"
)


_SPENT = re.compile(
    r"\b(?:used|spent|expired|outdated|out-of-date|old) [a-z-]+ (?:(?:is|are) (?:always )?(?:thrown|given|taken|handed|landed)|goe?s?)\b[^,;.!?]*",
    re.IGNORECASE,
)


def without_spent(text: str) -> str:
    """Words less what they tell of those that have served: a custom, and nothing of the one aboard."""
    return _SPENT.sub("", text)


@lru_cache(maxsize=8192)
def _kept_ashore(text: str) -> str:
    """Who or what ashore words for a place, or for what a hand does, have a thing with: the key with the doctor, the beacon at the chandler."""
    for part in re.split(r"[.;!?]", without_spent(text.lower())):
        found = _HELD.search(part)
        if found is not None and not _SAVED.search(part[: found.start()]):
            return found["place"] or found["there"] or found["sent"]
    return ""


@lru_cache(maxsize=8192)
def _gear_ashore(text: str) -> str:
    """Who or what ashore a sentence has gear with that is aboard: two of the lifejackets are with the service agent."""
    for sentence in told_in(text):
        found = _IS_HELD.search(sentence)
        if found is None or _ANOTHER.search(sentence[: found.start()]):
            continue
        if gear_named(sentence[: found.start()], kinds()) or _hers().search(sentence[: found.start()]):
            return found["place"]
    return ""


@cache
def _hers() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of((*called('lifejackets'), *called('short'), *called('raft')))})s?\b")


_IS_HELD = re.compile(
    rf"\b{_KEPT}(?: still| now| all| both| away)* (?P<place>(?:with|at) (?:the |our |her |a )?(?:[a-z]+['’]?s? ){{0,2}}?(?:{_HOLDERS}))(?=$|[,.;:)]| (?:for|until|since|to be|in|on)\b)"
)


@sieve
def _may_be_ashore(text: str) -> bool:
    return _any_place_ashore().search(text.lower()) is not None


@cache
def _any_place_ashore() -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:{one_of(tuple(listed('reads.ashore')))}|home|ashore|lent|loan|away|maker|station|doctor|pharmacist|agent|owner|dealer|chandlers?|electrician|rigger|sailmaker|neighbours?|mechanic|base|customs|club|shop|repairer|manufacturer|sent|service)\b"
    )


@cache
def _places_ashore() -> re.Pattern[str]:
    places = one_of(tuple(listed("reads.ashore")))
    return re.compile(
        rf"\b(?P<place>(?:in|on|at|inside|of|under) (?:(?:the|my|our|a|his|her|their) )?(?:[a-z]+(?:['’]s)? ){{0,2}}?(?:{places})(?: (?:boot|roof|rack))?"
        rf"(?=$|[,.;:)]| (?:at|in|on|by|of|until|with|and|ashore)\b)|at home\b|lent (?:out|to)\b|on loan\b|away (?:for|at)\b|at the (?:maker|service station|workshop)\b|(?<!doctor )(?<!contact )\bashore\b)"
    )


@sieve
def _names_a_room(text: str) -> bool:
    return _any_room().search(text.lower()) is not None


@cache
def _any_room() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of(called('rooms')) or '(?!)'})\b")


@check("words.no-such-space", TRUTH, COMMON_PRACTICE, COMPOSITION)
def words_name_spaces_she_has(sight: Sight) -> Finds:
    """Words send nobody to a space that her plan has not.

    Why: whoever is sent to the wheelhouse of a boat without one looks for it while the thing lies elsewhere.
    Remedy: name a space of hers; where she has it after all, add it under 'deck: {spaces: ...}'.
    """
    particulars = sight.vessel.vessel
    if particulars is None or not isinstance(particulars.type, str):
        return  # her plan is another's
    told = {"", *(where.lower() for _, where in sight.texts("where"))}  # what is asked of 'where'
    lacks = names_alike(tuple(name for name in _not_among(names_of_spaces(sight)) if name not in told))
    for said in sight.words_through(_names_a_room):
        if said.says in (SIGNAL, ROLE) or said.field.key in ("where", "replaces", "name"):
            continue
        for name in _sent_to(said.meant, lacks):
            if find_space(sight.spaces, name)[0] is not None:
                continue
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' names the {name}, and her plan has none",
                remedy=nearest(name, tuple(space.name for space in sight.spaces.values())),
                item=said.block.path,
            )
            break
    for card in sight.vessel.posted:
        name = str(card.station).lower().removeprefix("at the ").removeprefix("the ")
        if name in lacks and find_space(sight.spaces, name)[0] is None:
            yield at(card, "station", f"a card hangs at the {name}, and her plan has none", item=name)


@lru_cache(maxsize=256)
def _not_among(hers: Names) -> tuple[str, ...]:
    """The names of rooms so that no space of hers is called so, or begins or ends so: the roof of the wheelhouse roof."""
    begin_or_end = [f" {own} " for own in hers]
    return tuple(
        name
        for name in sorted(called("rooms"))
        if not any(own.startswith(f" {name} ") or own.endswith(f" {name} ") for own in begin_or_end)
    )


@lru_cache(maxsize=8192)
def _sent_to(text: str, lacks: Names) -> tuple[str, ...]:
    """The spaces among these that words name as places to be in or to go to."""
    find = _in_one_of(lacks)
    return tuple(found[1] for sentence in told_in(text) for found in find.finditer(sentence))


@lru_cache(maxsize=64)
def _in_one_of(names: Names) -> re.Pattern[str]:
    if not names:
        return re.compile(r"(?!)")
    return re.compile(
        rf"\b(?:in|inside|on|at|from|to|into|under|of|behind|by|through|via|leave|leaves|leaving|enter|enters|reach|clear|search|empty|ventilate|wake) the (?:port |starboard )?({one_of(names)})(?=$|[,.;:)!]| (?!deck|key|radio|rescue|boat)[a-z])"
    )
