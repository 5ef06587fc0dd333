"""Words of a single thing or way: one thing is named, a way leads where it is said to lead."""

from __future__ import annotations

import re

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import listed
from generator.reading.nearest import shortened
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, FORM, TRUTH, Finds, Sight, at, check
from generator.vessel.fittings import Fitting

_TWO = re.compile(r"^(?!.*\b(?:with|between|where)\b).* (?:and|or) (?:the|an?|our)\b")

_OPEN = re.compile(r" or (?:the|an?|our)\b")
"""Of what hoists, which is a lift and a strop: that it is one or the other."""


@check("words.two-names", FORM, COMMON_PRACTICE)
def one_thing_is_named_where_one_is_meant(sight: Sight) -> Finds:
    """A strong point, gate, hoist or launch place is one thing, and a contact one to call.

    Why: "made fast to the eye and the cleat" leaves whoever holds the end to choose; of two to call in one line neither has a number.
    Remedy: name the one that is meant, and give the other an entry of its own.
    """
    vessel = sight.vessel
    fittings = [
        each for raft in vessel.rafts for each in (raft.strong_point, raft.launch_from, raft.board_from)
    ]
    fittings += [vessel.recovery.hoist, vessel.recovery.gate] if vessel.recovery else []
    for thing in fittings:
        two = _OPEN if vessel.recovery and thing is vessel.recovery.hoist else _TWO
        if isinstance(thing, Fitting) and isinstance(thing.what, str) and two.search(thing.what.lower()):
            yield at(
                thing,
                "what",
                f"'{shortened(thing.what)}' names two things, and one is meant",
                item=thing.path,
            )
    for contact in vessel.contacts:
        if isinstance(contact.who, str):
            parts = re.split(r" and | & |/", contact.who.lower())
            if len(parts) > 1 and all(not listed("reads.offices").isdisjoint(each.split()) for each in parts):
                yield at(contact, "who", f"'{shortened(contact.who)}' are two to call", item=contact.path)


@check("words.other-way", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_way_lies_between_its_ends(sight: Sight) -> Finds:
    """The hatch, ladder or door of a way lies in or between the spaces that it joins.

    Why: whoever feels for the steps in smoke goes to where the words have them.
    Remedy: walk it, and name the hatch, ladder or door under 'by'.
    """
    find = re.compile(
        rf"\b(?:in|of|inside) (?:the )?((?:(?:port|starboard) )?(?:{one_of(names_of_spaces(sight))}))(?=$|[,.;:)])"
    )
    for way in sight.vessel.deck.ways if sight.vessel.deck else ():
        if not isinstance(way.by, str):
            continue
        ends = [find_space(sight.spaces, str(end))[0] for end in (way.from_, way.to)]
        for found in find.finditer(way.by.lower()):
            named = find_space(sight.spaces, found[1])[0]
            if named is None or any(end is None or end == named for end in ends):
                continue
            if named.always or any(end is not None and apart(sight, end, named, near=True) for end in ends):
                yield at(
                    way,
                    "by",
                    f"'{shortened(way.by)}' lies in the {named.name}, and the way leads from {way.from_} to {way.to}",
                    item=way.path,
                )
                break
