"""What people do on deck: muster, throw, launch, haul aboard; it is done where people stand."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m, gap_m
from generator.shelves.spaces import BELOW, FOR_GEAR, UPPER
from generator.shelves.stowages import DROPS, SLIDES
from generator.survey.places import space_at
from generator.survey.placing import apart_m, no_hand_there, nobody_stands_there, space_of
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
    of,
)
from generator.vessel.fittings import Fitting, Located
from generator.vessel.gear import does
from generator.vessel.particulars import FAR
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.manual.drawing.spaces import Space

KNIFE_M = 3.0
"""How far from the raft its knife may hang: a step or two, one hand on the boat. Common practice."""
_RAFT = r"(?:life ?-?)?raft(?:['’]s)?"
_PACKED = re.compile(
    rf"(?<!not )\b(?:in|inside|within|inside of|part of|packed (?:in|into|with|inside))\s+(?:(?:the|a|an|its|our|port|starboard|"
    rf"forward|aft|first|second|{_RAFT})\s+)*(?:{_RAFT}|canister|container|valise|(?:emergency |sos |survival )?pack|it)"
    rf"(?:['’]s (?:pack|kit|bag|contents|equipment))?(?:\s+(?:itself|already))?(?=\s*(?:$|[,;.:(]|(?:with|and|as|among|near|beside|by|at)\b))"
    rf"|\b(?:beside|by|at|near|inside)\s+(?:the |its )?(?:{_RAFT} )?(?:entrance|canopy)\b|\b(?:sealed|vacuum.packed)\b",
    re.IGNORECASE,
)  # fmt: skip
"""A knife that comes to hand only once the raft has blown up: in its container, in its pack, at its entrance."""
_ONE_EACH = re.compile(r"\b(?:its|their|each|every|both|two|one at|own)\b", re.IGNORECASE)


@check(
    "placed.muster",
    LIFE,
    COMMON_PRACTICE,
    COMPOSITION,
)
def people_muster_where_they_can_leave(sight: Sight) -> Finds:
    """The muster place is on deck, where all can stand: not on a roof, nor, far out, where the seas break.

    Why: whoever waits below is caught when she fills, burns or turns over.
    Remedy: write the place on deck where all gather: muster-place: cockpit; a saloon that stands on deck is told under 'deck', with level: deck.
    """
    one = sight.vessel.vessel
    space = space_of(sight, one, "muster_place")
    if one is not None and space is not None:
        why = nobody_stands_there(space, roof=True) or no_hand_there(space)
        if space.level == UPPER and not space.steering and space.name.endswith("roof"):
            why = "on which nobody stands in a sea"
        seas = space.exposed and not space.stows
        if why and (not seas or (one.hull.closed_in and one.waters in FAR)):
            yield at(one, "muster-place", f"all muster in the {space.name}, {why}")


def _parts(raft: Raft) -> list[tuple[str, str, Fitting]]:
    named = (
        ("launch-from", "it goes over", raft.launch_from),
        ("board-from", "people step into it", raft.board_from),
        ("strong-point", "its painter is made fast", raft.strong_point),
    )
    return [(key, words, part) for key, words, part in named if isinstance(part, Fitting)]


@check("placed.launching", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_raft_is_launched_where_people_stand(sight: Sight) -> Finds:
    """Where a raft goes over, is boarded and is made fast is on deck, and not a level above the raft.

    Why: a step that sends people below, into a locker or onto a roof with the painter in hand loses the raft.
    Remedy: go to the raft, look where each is done, and write that space.
    """
    for raft in sight.vessel.rafts:
        own = space_of(sight, raft)
        for key, words, part in _parts(raft):
            space = space_of(sight, part)
            if (
                space is None
                or space is own
                or (key == "strong-point" and space.stows and space.level != BELOW)
            ):
                yield from _at_the_raft_itself(
                    sight, raft, key, f"{words} in the {space.name if space else ''}", part
                )
                continue
            why = "" if key == "strong-point" and space.mark else nobody_stands_there(space)
            if not why and own is not None and space.level == UPPER != own.level:
                why = "a level above the raft"
            if not why and key != "strong-point":
                why = no_edge(sight, space)
            if not why and key == "launch-from" and own is not None and _carried_far(sight, own, space):
                why = f"{gap_m(own, space):.0f} m from the raft in the {own.name}"
            if not why and key == "board-from" and space.level == UPPER and sight.vessel.vessel is not None:
                why = "a storey above the water"
            seas = not why and space.exposed and (own is None or not own.exposed) and key != "strong-point"
            if why or seas:
                yield of(
                    raft,
                    "where",
                    f"{words} in the {space.name}, {why or 'where the seas break'}",
                    part=part,
                    weight=RECOMMENDATION if seas and key == "launch-from" else None,
                    also=(raft.place(key),),
                )


def _at_the_raft_itself(sight: Sight, raft: Raft, key: str, words: str, part: Fitting) -> Finds:
    """Of a part in the raft's own space, that nobody steps over the side there; of a painter made fast in a locker, that the lid comes down on it."""
    own, space = space_of(sight, raft), space_of(sight, part)
    if space is None or own is None:
        return
    if key == "board-from" and space is own and (why := no_edge(sight, space)):
        yield of(raft, "where", f"{words}, {why}", part=part, also=(raft.place(key),))
    if key == "strong-point" and space is not own and own.open_deck and not (space.own or space.unlike):
        message = f"{words}, in a locker, and it lies in the open: the lid comes down on the painter"
        yield of(raft, "where", message, part=part, also=(raft.place(key),), weight=RECOMMENDATION)


def _carried_far(sight: Sight, own: Space, space: Space) -> bool:
    """Whether a raft would be carried over half the deck to where it goes over."""
    told = not (own.unlike or space.unlike or own.own or space.own)
    return told and gap_m(own, space) > CARRIED * dimensions_m(sight.vessel)[0]


CARRIED = 0.4
"""Of the length: no raft is carried further to where it goes over. Common practice."""


def no_edge(sight: Sight, space: Space) -> str:
    """Why nothing goes over the side from a space, as words after its name: it reaches neither the rail nor the stern."""
    if space.unlike or space.own or space.paired:
        return ""
    length_m, beam_m, _ = dimensions_m(sight.vessel)
    across_m = max(-space.port_m, space.starboard_m)
    inside = across_m < INBOARD * beam_m / 2 and space.aft_m > ASTERN * length_m
    return "which reaches neither the rail nor the stern" if inside and space.open_deck else ""


def _carried(sight: Sight, raft: Raft, own: Space, space: Space) -> str:
    """Why a raft that goes over where it is does not do so in a space, as words after its name: too far from it; "" where it may."""
    kept = raft.kept
    told = (
        raft.lift_needed is False
        and kept is not None
        and kept.one_side is True
        and kept.goes_over in BY_ITSELF
    )
    if not told or own.unlike or space.unlike:
        return ""
    gap = gap_m(own, space)
    farthest = max(OVER_M, OVER * dimensions_m(sight.vessel)[0])
    return f"{gap:.0f} m from where it lies, and it goes over there" if gap > farthest else ""


BY_ITSELF = (SLIDES, DROPS)
"""How a raft goes over that no davit swings out."""
OVER_M, OVER = 2.0, 0.15
"""How far the place where a raft goes over by itself may be from its own, in m and as a part of the length, the greater. Common practice."""
INBOARD, ASTERN = 0.6, 0.3
"""Of half the beam and of the length: what reaches further out or aft has a rail beside it, or the open stern. Common practice."""


def _of_the_holder(part: Located) -> bool:
    """Whether words have a part at what holds the raft: on the bracket, at the foot of the cradle."""
    return isinstance(part.spot, str) and _HOLDER.search(part.spot.lower()) is not None


_HOLDER = re.compile(
    r"^(?:[\w ]+ )?(?:on|beside|at|inside|in|under|foot of|end of|mouth of) the (?:\w+ )?(?:bracket|cradle|slot|canister|raft)$"
)


@check("placed.at-the-raft", TRUTH, COMMON_PRACTICE, COMPOSITION)
def what_is_at_the_raft_lies_there(sight: Sight) -> Finds:
    """Knife and strong point that are told to be at the raft's own bracket or cradle are in the raft's space, on its side.

    Why: whoever cuts or makes fast looks beside the raft, and it is elsewhere.
    Remedy: go and look; correct 'where' or 'side' of the part, or its 'spot'.
    """
    for raft in sight.vessel.rafts:
        found = list(_away_from(sight, raft))
        if len(found) == 1:  # of both, it is the raft's own place that is wrong
            key, message, part = found[0]
            yield of(raft, key, message, part=part)


def _away_from(sight: Sight, raft: Raft) -> Iterator[tuple[str, str, Located]]:
    """What of a raft's knife and strong point is not where their words, or its own side, have them: key, message, part."""
    own, meant = space_of(sight, raft), space_at(sight, raft.kept.where if raft.kept is not None else None)
    if own is not None and meant is not None and gap_m(own, meant) > 0:
        return  # of which another check speaks
    for words, part in (("its knife", raft.knife), ("its strong point", raft.strong_point)):
        space = space_of(sight, part if isinstance(part, Located) else None)
        if own is None or space is None or not isinstance(part, Located):
            continue
        gap = apart_m(sight, raft, part) or 0.0
        if words == "its knife" and (gap > KNIFE_M or space.level != own.level):
            continue  # of which another check speaks
        elsewhere = gap > 0 or space.level != own.level or space.exposed != own.exposed
        if space is not own and elsewhere and _of_the_holder(part):
            message = (
                f"{words} is said to be {part.spot}, and is in the {space.name}, the raft in the {own.name}"
            )
            yield "where", message, part
        elif words == "its knife" and space is not own and space.stows and own.stows != space.stows:
            yield "where", f"{words} is shut in the {space.name}, the raft lies in the {own.name}", part
        elif space is own and {part.side, raft.side} == {"port", "starboard"}:
            yield "side", f"{words} is to {part.side}, and it lies to {raft.side}", part


def _lies_elsewhere(sight: Sight, raft: Raft) -> bool:
    """Whether its strong point is far too, so that it is the raft's own place that is wrong."""
    point = raft.strong_point
    gap = apart_m(sight, raft, point) if isinstance(point, Fitting) else None
    return gap is not None and gap > KNIFE_M


@check("placed.knife", HELP, COMMON_PRACTICE, COMPOSITION)
def the_knife_is_at_the_raft(sight: Sight) -> Finds:
    """The knife that cuts a raft loose hangs on deck, a step or two from the raft, outside its container.

    Why: the last person aboard cuts with one hand on the boat, and has no time to fetch it; what is packed in the raft cuts nothing until the raft is out.
    Remedy: hang a knife at the raft, or write where one hangs nearer: knife: {where: ..., spot: ...}.
    """
    for raft in sight.vessel.rafts:
        knife = raft.knife
        if raft.says_none("knife"):
            yield of(raft, "knife", "no knife to cut it loose is kept at it", weight=LIFE.weight)
            continue
        if not isinstance(knife, Located):
            continue
        if isinstance(knife.spot, str) and _PACKED.search(knife.spot):
            message = f"its knife is '{knife.spot}', and comes to hand only when the raft is out"
            remedy = "hang another at the raft and write where; until there is one, knife: none"
            yield of(raft, "spot", message, part=knife, weight=LIFE.weight, remedy=remedy)
            continue
        space = space_of(sight, knife)
        if space is None:
            continue
        gap, own = apart_m(sight, raft, knife), space_of(sight, raft)
        if message := _on_another_level(space, own):
            above = space.level == UPPER
            yield of(raft, "where", message, part=knife, weight=None if above else LIFE.weight)
        elif gap is not None and gap > KNIFE_M and not _lies_elsewhere(sight, raft):
            yield of(
                raft, "where", f"its knife is in the {space.name}, {gap:.0f} m from the raft", part=knife
            )
        elif (other := _shares_its_knife(raft, sight.vessel.rafts)) is not None:
            message = f"its knife is that of the {other.name} too, and one of the two rafts is left without"
            yield of(raft, "where", message, part=knife, also=(other.place("knife"),))


def _on_another_level(space: Space, own: Space | None) -> str:
    """That a knife is not on the level of its raft, and where it is; "" where it is, or nobody can tell."""
    if space.level == BELOW and (own is None or own.level != BELOW):
        return f"its knife is in the {space.name}, below deck"
    if own is None or UPPER not in (own.level, space.level) or own.level == space.level:
        return ""
    if space.level == UPPER:
        return f"its knife is on the {space.name}, a level above the raft"
    told = not (own.unlike or space.unlike)
    return f"its knife is in the {space.name}, a level below the raft" if told else ""


def _shares_its_knife(raft: Raft, rafts: Sequence[Raft]) -> Raft | None:
    """The raft before this one that lies elsewhere and has the very same knife."""
    knife = raft.knife
    if knife is None or (isinstance(knife.spot, str) and _ONE_EACH.search(knife.spot)):
        return None
    if knife.where == raft.where and {knife.side, raft.side} == {"port", "starboard"}:
        return None  # of a knife on the other side of the raft's own space another check speaks
    for other in rafts[: list(rafts).index(raft)]:
        theirs, apart = other.knife, (other.where, other.side) != (raft.where, raft.side)
        told = apart and isinstance(theirs, Located) and theirs.known("where")
        if told and theirs is not None and theirs.words.lower() == knife.words.lower():
            return other
    return None


@check("placed.helm", TRUTH, COMMON_PRACTICE, COMPOSITION)
def she_is_steered_where_somebody_can(sight: Sight) -> Finds:
    """The place at which she is steered is one where somebody stands or sits.

    Why: the stop, the kill cord and the look-out are all told by it.
    Remedy: write under 'helm' the space in which the wheel or the tiller is.
    """
    one = sight.vessel.vessel
    space = space_of(sight, one.helm) if one is not None and one.helm is not None else None
    if one is not None and one.helm is not None and space is not None and (space.stows or space.mark):
        yield at(one.helm, "where", f"nobody steers in the {space.name}", item="helm")


@check("placed.recovery", LIFE, COMMON_PRACTICE, COMPOSITION)
def people_come_aboard_where_others_stand(sight: Sight) -> Finds:
    """Ladder, gate, hoist and those who hoist are on deck.

    Why: whoever is told to stand or climb where nobody can leaves the person in the water.
    Remedy: try it in harbour; then write the space where it is and where people stand.
    """
    recovery = sight.vessel.recovery
    if recovery is None:
        return
    told = [
        (recovery, "place", space_of(sight, recovery, "place_"), "whoever hoists stands in"),
        *(
            (part, "where", space_of(sight, part), words)
            for part, words in (
                (recovery.ladder, "the ladder is in"),
                (recovery.gate, "the gate is in"),
                (recovery.hoist, "the hoist is in"),
            )
            if isinstance(part, Located)
        ),
    ]
    for block, key, space, words in told:
        hoist, gate = words.startswith("the hoist"), words.startswith("the gate")
        if space is None or (space.mark and hoist):
            continue
        beside = isinstance(recovery.hoist, Located) and space_of(sight, recovery.hoist) is space
        aloft = (
            space.level == UPPER
            and not (hoist or space.steering)
            and not (beside and words.startswith("whoever"))
        )
        why = (
            nobody_stands_there(space)
            or ("out of reach of the water" if aloft else "")
            or (no_hand_there(space) if words.startswith("whoever") else "")
            or ("" if hoist or space.stows else no_edge(sight, space))
        )
        if why and (gate or not (space.stows == FOR_GEAR and key == "where")):
            yield at(block, key, f"{words} the {space.name}, {why}", item="recovery")


@check("placed.compass-shut-in", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_compass_is_where_she_is_steered(sight: Sight) -> Finds:
    """What she is steered by is not in a locker, nor where the seas break.

    Why: with the lights and the plotter out nobody steers by what lies under the seat.
    Remedy: write the space in which whoever steers looks at it: where: helm; of a spare in the locker say so: what: spare compass.
    """
    for item in sight.vessel.gear:
        space = space_of(sight, item) if does(item, "is steered by") else None
        if space is not None and not space.unlike and (space.stows or space.exposed):
            yield of(item, "where", f"it is in the {space.name}, and nobody sees it from the helm")
