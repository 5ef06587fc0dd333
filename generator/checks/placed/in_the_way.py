"""What saves and is taken up by something else: the davit that lifts people holds the tender, the halyard holds the radar reflector."""

from __future__ import annotations

import re
from functools import lru_cache

from generator.manual.drawing.spaces import dimensions_m
from generator.manual.own_words import listed, told_in
from generator.survey.placing import lies, side_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.fittings import Fitting, Located
from generator.vessel.gear import TAKEN_ALONG, Gear, Tender, does

_LIFTERS = re.compile(
    r"\b(?P<noun>davit|derrick|crane|halyard|topping lift|boom|pole|gantry|arch|tackle)s?\b"
)
_GEAR_TAKES = frozenset({"davit", "derrick", "halyard", "topping lift"})
"""What gear takes up as well as a dinghy; a boathook lashed along the boom leaves it free to lift."""
_APART = frozenset(
    (
        "port",
        "starboard",
        "main",
        "spare",
        "jib",
        "genoa",
        "spinnaker",
        "staysail",
        "mizzen",
        "other",
        "second",
        "lee",
        "flag",
        "burgee",
    )
)
_WORDS = re.compile(r"[a-z]+")
TOWED, _, _, PACKED = TAKEN_ALONG


@check("placed.hoist-taken", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_hoist_is_free(sight: Sight) -> Finds:
    """What lifts somebody out of the water holds nothing else.

    Why: the dinghy must first come down from the davit, or the reflector from the halyard, while somebody drowns below it.
    Remedy: stow what hangs there elsewhere and write that place; or write under 'hoist' the davit, derrick or halyard that is free.
    """
    recovery, vessel = sight.vessel.recovery, sight.vessel
    hoist = recovery.hoist if recovery is not None else None
    if not isinstance(hoist, Fitting) or not isinstance(hoist.what, str):
        return
    lifters = tuple(dict.fromkeys(found["noun"] for found in _LIFTERS.finditer(hoist.what.lower())))
    things: list[Gear | Tender] = [*([vessel.tender] if vessel.tender is not None else []), *vessel.gear]
    for thing in things if lifters else ():
        spot = thing.spot if isinstance(thing.spot, str) else ""
        if isinstance(thing, Gear) and (
            does(thing, "lifts a person by hand") or _BELONGS.search(str(thing.what))
        ):
            continue
        where = thing.where if isinstance(thing.where, str) else ""
        takes = _taken(f"{spot}. in the {where}" if where else spot)
        for noun, words in takes:
            if noun not in lifters or (isinstance(thing, Gear) and noun not in _GEAR_TAKES):
                continue
            if isinstance(thing, Gear) and _IN_THE_DINGHY.search(f"{thing.what} {spot}"):
                continue  # it goes where the dinghy goes
            if {side_of(thing), side_of(hoist)} == {"port", "starboard"} or not _one_of(
                words, hoist.what.lower()
            ):
                continue
            yield at(
                thing,
                "spot" if isinstance(thing.spot, str) else "where",
                f"{thing.what}: it hangs in the {noun} that lifts people: hoist: {hoist.what}",
                item=str(thing.what),
                also=(hoist.place("what"),),
            )
            break


_IN_THE_DINGHY = re.compile(
    r"\b(?:of|in|on|inside|aboard) (?:the |its )?(?:dinghy|tender|rib)\b", re.IGNORECASE
)
_BELONGS = re.compile(
    r"\b(?:sling|strop|harness|hook|tackle|net|winch|handles?|remote|control|light|flag|ensign|lamp|burgee)s?\b",
    re.IGNORECASE,
)
_TAKEN = re.compile(
    r"\b(?:in|on|from|under|to|up|with|by) (?:the |its |our |both |two |a )?(?P<words>(?:[a-z'’-]+ ){0,3}?)(?P<noun>davit|derrick|crane|halyard|topping lift|boom|pole|gantry|arch|tackle)s?(?=$|[,.;:)]| )"
)


@lru_cache(maxsize=4096)
def _taken(text: str) -> tuple[tuple[str, frozenset[str]], ...]:
    """What words hang a thing in, each with the words that tell which one."""
    return tuple(
        (found["noun"], frozenset(_WORDS.findall(found["words"])))
        for sentence in told_in(text)
        for found in _TAKEN.finditer(sentence)
    )


def _one_of(words: frozenset[str], hoist: str) -> bool:
    """Whether words that tell which davit or halyard it is are not at odds with those of the hoist."""
    own = frozenset(_WORDS.findall(hoist))
    telling = words - listed("reads.carry-nothing")
    return telling <= own or telling.isdisjoint(_APART)


SHORT = 0.25
"""Of her length: a space that is shorter is all one place, and what lies in it lies in the way. Common practice."""
_CLEAR = re.compile(
    r"\b(?:clear of|out of the way|folded away|swung|outboard of|under the (?:platform|step))\b",
    re.IGNORECASE,
)


@check("placed.dinghy-in-the-way", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_dinghy_lies_clear_of_raft_and_gate(sight: Sight) -> Finds:
    """The dinghy is not stowed on the very place where the raft goes over, where people step into it or come aboard.

    Why: it must first be cast off and dragged away, with the raft in the arms of those who drag, or somebody in the water behind it.
    Remedy: stow it elsewhere and write that place; if it lies clear of the gate, say so: spot: on the after edge, clear of the gate.
    """
    vessel, tender = sight.vessel, sight.vessel.tender
    here = lies(sight, tender)
    if tender is None or here is None or here.space.unlike or tender.carried in (TOWED, PACKED):
        return
    length_m = dimensions_m(vessel)[0]
    if here.space.fore_m - here.space.aft_m > SHORT * length_m or _CLEAR.search(str(tender.spot or "")):
        return
    recovery = vessel.recovery
    parts: list[tuple[str, Located | None]] = [
        part
        for raft in vessel.rafts
        for part in (
            (f"the {raft.name} goes over", raft.launch_from),
            ("people step into the raft", raft.board_from),
        )
    ]
    parts += [("people come aboard", recovery.gate)] if recovery is not None else []
    for words, part in parts:
        there = lies(sight, part)
        if part is None or there is None or there.space is not here.space or _apart(tender, part):
            continue
        yield at(
            tender,
            "where",
            f"{tender.what}: it lies in the {here}, where {words}",
            item="tender",
            also=(part.place("where"),),
        )
        return


def _apart(tender: Tender, part: Located) -> bool:
    """Whether the dinghy and a gate in one space are said to be on two sides of it."""
    one, other = side_of(tender), side_of(part)
    return bool(one and other) and one != other
