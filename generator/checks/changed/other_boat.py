"""Lines copied from another boat: her own words name another boat, another home port, or colours that she has not."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.own_words import sentences_in
from generator.manual.sieves import sieve
from generator.reading.nearest import folded, shortened
from generator.survey.registry import COMMON_PRACTICE, TRUTH, Finds, Sight, at, check

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Place
    from generator.vessel.particulars import Particulars

_PROPER = r"(?P<name>[A-Z][\w'’-]+(?: [A-Z][\w'’-]+){0,2})"
_ABOARD = re.compile(
    rf"\b(?:[Aa]board|[Oo]n board|[Tt]his is|[Hh]ere is|(?:[Tt]he |[Oo]ur )?(?:yacht|vessel|sailing yacht|motor yacht|S/?Y|M/?Y|M/?V))"
    rf" (?:of )?{_PROPER}"
)
_PORT = re.compile(rf"\b[Hh]ome ?port(?: is|:| of)? {_PROPER}")
_COLOURS = "white|black|grey|red|orange|yellow|green|blue|violet|brown|pink|cream|silver"
_PAINTED = re.compile(
    rf"\b(?:our|her|the(?: boat's| yacht's)?) (?:(?:dark|light|pale|bright) )?(?P<colour>{_COLOURS}) (?P<part>hull|underside|bottom|deck)\b"
    rf"|\b(?:our|her|the(?: boat's| yacht's)?) (?P<part_first>(?<!of the )hull|underside|bottom(?: of (?:the|her) hull)?|deck) is (?:painted )?(?:(?:dark|light|pale|bright) )?"
    rf"(?P<colour_last>{_COLOURS})\b",
    re.IGNORECASE,
)
_FIELDS = {
    "hull": "hull-colour",
    "underside": "underside-colour",
    "bottom": "underside-colour",
    "bottom of the hull": "underside-colour",
    "bottom of her hull": "underside-colour",
    "deck": "deck-colour",
}
_NO_BOATS = frozenset(
    (
        "the",
        "all",
        "every",
        "each",
        "vhf",
        "dsc",
        "epirb",
        "plb",
        "sart",
        "ais",
        "gnss",
        "mmsi",
        "mayday",
        "pan",
    )
)


@check("changed.other-boat", TRUTH, COMMON_PRACTICE)
def words_speak_of_this_boat(sight: Sight) -> Finds:
    """Her own words name no other boat as this one, no other home port, and no colour of hull, underside or deck that she has not.

    Why: a line copied from another boat's file is spoken into the distress call, and rescuers look for the other boat.
    Remedy: write her own, or take the name out: the manual prints name, port and colours where they belong.
    """
    one = sight.vessel.vessel
    if not one:
        return
    for said in sight.words_through(_claims_something):
        for what, hers, write, place in _others(_claims_in(said.text), one, sight):
            if place != said.block.place(said.field.key):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' speaks of {what}, and {hers}",
                    remedy=f"write {write} there, or take it out: the manual prints it where it belongs",
                    item=said.block.path,
                    also=(place,),
                )
                break


_NAMED = re.compile(
    r"(?<!former )(?<!old )(?<!earlier )(?<!previous )\bname ['\"“‘]?(?P<name>[A-ZÀ-Þ][\w'’-]+(?: [A-ZÀ-Þ][\w'’-]+)*)"
)
"""A name that words say is painted or sewn on: the name Twinmarrow."""


@check("changed.old-name", TRUTH, COMMON_PRACTICE)
def the_name_in_her_words_is_hers(sight: Sight) -> Finds:
    """Where her words tell of the name that stands on sail, hull, raft or jackets, it is her own.

    Why: rescuers look for the name that was called, and see another; one of the two was left when she was renamed or the file copied.
    Remedy: go and look; write the name as it stands there, or under 'name' the one she has now; of one that was not painted over yet say
    so: the former name Twinmarrow.
    """
    one = sight.vessel.vessel
    if not one or not isinstance(one.name, str):
        return
    texts = [(said.block, said.field.key, said.text) for said in sight.words_through(_tells_a_name)]
    texts += [(one, "sail-mark", one.sail_mark)] if isinstance(one.sail_mark, str) else []
    for block, key, text in texts:
        for found in _NAMED.finditer(text):
            if not _hers(found["name"], one.name, sight):
                yield at(
                    block,
                    key,
                    f"'{shortened(text)}' tells of the name {found['name']}, and she is called {one.name}",
                    item=block.path,
                    also=(one.place("name"),),
                )
                break


@sieve
def _tells_a_name(text: str) -> bool:
    return "name " in text


@sieve
def _claims_something(text: str) -> bool:
    return bool(_claims_in(text))


@lru_cache(maxsize=8192)
def _claims_in(text: str) -> tuple[tuple[str, str], ...]:
    """What words say of this boat, in their order: of its name or port the word and what it is, of a part its colour."""
    found: list[tuple[str, str]] = []
    for sentence in sentences_in(text):
        found += (("name", each["name"]) for each in _ABOARD.finditer(sentence))
        found += (("port", each["name"]) for each in _PORT.finditer(sentence))
        found += (
            ((each["part"] or each["part_first"]).lower(), (each["colour"] or each["colour_last"]).lower())
            for each in _PAINTED.finditer(sentence)
        )
    return tuple(found)


def _others(
    claims: tuple[tuple[str, str], ...], one: Particulars, sight: Sight
) -> Iterator[tuple[str, str, str, Place]]:
    """What is claimed of this boat that is another's, what the file says, and where."""
    for of, said in claims:
        if of == "name":
            if one.known("name") and not _hers(said, str(one.name), sight):
                yield f"the boat {said}", f"she is called {one.name}", str(one.name), one.place("name")
        elif of == "port":
            if one.known("port") and folded(said) not in folded(str(one.port)):
                yield f"the home port {said}", f"hers is {one.port}", str(one.port), one.place("port")
        else:
            told = one.__dict__.get(_FIELDS[of].replace("-", "_"))
            if isinstance(told, str) and said not in told.lower():
                yield f"a {of} that is {said}", f"{_FIELDS[of]} says {told}", told, one.place(_FIELDS[of])


def _hers(name: str, own: str, sight: Sight) -> bool:
    """Whether a name with a capital is hers, or no boat's: a place aboard, a person, a radio word, a thing she has."""
    words = folded(name)
    if words in folded(own) or folded(own) in words or words.split()[0] in _NO_BOATS:
        return True
    spaces = (folded(space.name) for space in sight.spaces.values())
    return words in spaces or any(words in folded(each) for _, each in sight.texts("what"))
