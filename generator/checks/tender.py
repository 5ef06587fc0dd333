"""The dinghy of a boat without a liferaft: it is all that keeps the small and the weak out of the water."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.dinghy import carries, must_be_dry, people_who_must_be_dry
from generator.reading.values import known
from generator.shelves.spaces import BELOW
from generator.survey.placing import space_of
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.gear import TAKEN_ALONG, Tender

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space

SHELTERED = "sheltered"
ONE_WHO_LEADS = 1


def _who(sight: Sight) -> str:
    """Those who must not be left in the water, in a row."""
    *before, last = [the(str(each.role)) for each in people_who_must_be_dry(sight.vessel.people)]
    return f"{', '.join(before)} and {last}" if before else last


@check("tender.too-small", HELP, COMMON_PRACTICE)
def the_dinghy_carries_the_small_and_the_weak(sight: Sight) -> Finds:
    """Without a liferaft the dinghy carries the children and whoever needs help, and one who leads them.

    Why: they are the first whom the water kills, and a dinghy of too many turns over.
    Remedy: read on its plate how many it carries; take a larger one or fewer people, or keep to waters where help is near.
    """
    vessel, room = sight.vessel, carries(sight.vessel)
    weak = must_be_dry(vessel.people)
    if vessel.rafts or vessel.tender is None or room is None or not weak or room >= weak + ONE_WHO_LEADS:
        return
    message = (
        f"it carries {room}, and {weak} must not be left in the water ({_who(sight)}), with one who leads"
    )
    yield at(vessel.tender, "persons", message, item="tender")


@check("tender.persons-not-said", HELP, COMMON_PRACTICE)
def it_is_said_how_many_the_dinghy_carries(sight: Sight) -> Finds:
    """Without a liferaft it is said how many the dinghy carries.

    Why: the step that fills it can name no number, and the one too many turns it over.
    Remedy: read it on its plate, and write it: tender: {persons: 4, ...}.
    """
    vessel = sight.vessel
    if not vessel.rafts and vessel.tender is not None and carries(vessel) is None:
        message = "she has no liferaft, and nothing says how many the dinghy carries"
        yield at(vessel.tender, "persons", message, item="tender")


@check("tender.packed", ADVICE, COMMON_PRACTICE)
def the_dinghy_is_ready_for_the_small_and_the_weak(sight: Sight) -> Finds:
    """Away from sheltered waters, without a liferaft, a dinghy on which children or others who need help depend is not packed away.

    Why: a boat sinks in minutes, and blowing up a dinghy takes as many.
    Remedy: carry it with its air, on deck or in davits, and write carried: on deck.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if vessel.rafts or vessel.tender is None or one is None or one.waters in (None, SHELTERED):
        return
    if vessel.tender.carried == "packed" and must_be_dry(vessel.people):
        message = f"it is packed, and it is what keeps {_who(sight)} out of the water"
        yield at(vessel.tender, "carried", message, item="tender")


TOWED, ON_DECK, IN_DAVITS, PACKED = TAKEN_ALONG
_WITH_AIR = re.compile(
    r"\b(?:bottom up|upside[- ]down|keel up|right way up|upright|inflated|blown up|with its air|ready|in (?:its )?chocks|on (?:its )?chocks)\b",
    re.IGNORECASE,
)
_HANGS = re.compile(r"\b(?:davits?|falls|hangs?|hanging|slung|hoisted)\b", re.IGNORECASE)
_NOT_PACKED = re.compile(
    r"\b(?:deflated|rolled|folded|packed|in (?:its |a )?(?:bag|valise)|without air)\b", re.IGNORECASE
)


@check("tender.carried-elsewhere", HELP, COMMON_PRACTICE, COMPOSITION)
def the_dinghy_is_taken_along_as_its_place_says(sight: Sight) -> Finds:
    """How she takes her dinghy along fits the place and the words for it: no davits in the bows or below, nothing towed on deck, nothing packed that lies bottom up.

    Why: without a raft the step that launches it is made of both; one of the two is left from another boat or season.
    Remedy: go and look; correct 'carried', or 'where' and 'spot'.
    """
    vessel = sight.vessel
    tender = vessel.tender
    if tender is None or not isinstance(tender.carried, str):
        return
    space = space_of(sight, tender)
    lies_there = _lies_otherwise(tender, None if space is None or space.unlike else space)
    if lies_there:
        yield at(
            tender,
            "carried",
            f"carried says {tender.carried}, and it lies {lies_there}",
            item="tender",
            also=(tender.place("where"),),
            weight=None if vessel.rafts else LIFE.weight,
        )


def _lies_otherwise(tender: Tender, space: Space | None) -> str:
    """Where or how a dinghy lies that is not as it is carried, as words after "it lies"; "" where it may be so."""
    spot = tender.spot if isinstance(tender.spot, str) else ""
    below = space is not None and space.level == BELOW
    shut_in = space is not None and bool(space.stows) and not space.own
    no_place = {
        IN_DAVITS: below or shut_in or (space is not None and space.exposed),
        ON_DECK: below or shut_in,
        TOWED: below,
    }
    if space is not None and no_place.get(str(tender.carried)):
        return f"in the {space.name}"
    with_air = _WITH_AIR.search(spot) is not None
    otherwise = {
        IN_DAVITS: with_air and not _HANGS.search(spot),
        PACKED: with_air,
        ON_DECK: _NOT_PACKED.search(spot),
        TOWED: with_air,
    }
    return f"'{spot}'" if otherwise.get(str(tender.carried)) else ""


SMALL_M, MOST_OF_A_SMALL, MOST_OF_ANY = 18.0, 10, 16
"""Up to which length of hull, in m, a dinghy carries so many at most, and how many any does: plates of dinghies, from memory, unverified."""


@check(
    "tender.persons-many",
    HELP,
    "plates of dinghies that such boats carry (from memory, unverified); common practice",
)
def the_dinghy_carries_what_a_dinghy_carries(sight: Sight) -> Finds:
    """The dinghy is for no more persons than one that such a boat takes along.

    Why: it is what the weak are put into where there is no raft; a slipped figure overloads it by a whole crew.
    Remedy: read on its plate how many it carries, and write that.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    room, length = carries(vessel), known(one.length) if one is not None else None
    if vessel.tender is None or room is None or length is None:
        return
    high = min(MOST_OF_A_SMALL if length <= SMALL_M else MOST_OF_ANY, max(4, round(length)))
    if room > high:
        message = f"it is said to carry {room}; the dinghy of a boat of {length:g} m carries {high} at most"
        yield at(
            vessel.tender, "persons", message, item="tender", weight=None if vessel.rafts else LIFE.weight
        )


_ITS_FUEL = re.compile(
    r"\b(?:petrol|gasoline|fuel can|kill ?cord|outboard|electric motor|spare cord|battery of the dinghy)\b",
    re.IGNORECASE,
)


@check("tender.outboard-bare", ADVICE, COMMON_PRACTICE)
def an_outboard_has_its_cord_and_fuel(sight: Sight) -> Finds:
    """Where the dinghy has an outboard, its kill cord, its fuel or the engine itself is told somewhere.

    Why: whoever falls out of a dinghy without the cord is run over by it; a can of petrol that nobody tells of lies where it should not.
    Remedy: list under 'gear' the kill cord of the dinghy, and the can of petrol with its place on deck; without an outboard write outboard: no.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    tender = vessel.tender
    if tender is None or tender.outboard is not True or one is None or one.petrol:
        return
    told = [
        *(str(item.what) for item in vessel.gear),
        *(f"{stop.what} {stop.serves or ''}" for stop in vessel.stops),
    ]
    if not any(_ITS_FUEL.search(each) for each in (*told, str(tender.what), str(tender.spot or ""))):
        yield at(
            tender,
            "outboard",
            "it has an outboard, and neither its kill cord nor its fuel is told",
            item="tender",
        )
