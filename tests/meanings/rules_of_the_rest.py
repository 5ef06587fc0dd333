"""Rules for dates, numbers, entries and answers."""

from __future__ import annotations

import re

from generator.shelves.gear import kind_of
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import rule
from meanings.things import Thing


@rule("a date too far ahead for its kind", life=True)
def too_far(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten years later than marked: flares, heads, batteries, services, hoses that no maker dates so far, with no making date beside."""
    return mutant.operator == "date by ten years"


@rule("two days of one sort, in no order to each other", harmless=True)
def same_sort(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both are days on which something was done, or both days on which something ends; either may come first, and either is as likely."""
    return mutant.operator == "dates swapped"


_MANY, _MOST_EACH = 50, 8


@rule("a number that boats have", unknowable=True)
def a_number_there_is(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten cups, twenty jackets for children, one smoke alarm for ten: within what boats carry, and nothing else in the file counts them.
    Only whoever opens the locker does.
    """
    if mutant.operator not in ("tenfold", "a tenth") or mutant.key != "quantity":
        return False
    persons = getattr(sight.vessel.vessel, "persons", None)
    most = min(_MANY, _MOST_EACH * persons) if isinstance(persons, int) else _MANY
    return int(_figure(mutant.new)) <= most


@rule("a number of things beyond what a boat has")
def too_many_things(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten times the number hides a shortage: forty flares, ten buoys, sixty jackets for five."""
    return mutant.operator in ("tenfold", "a tenth") and mutant.key == "quantity"


@rule("another size that such a thing has", harmless=True)
def another_size(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A hole of 12 to 110 mm not deeper than the keel, a raft's water, a boat's weight or a set's power within what such have: nothing else in
    the file depends on it.
    """
    if mutant.operator not in _SCALED:
        return False
    if mutant.block == "through-hulls" and mutant.key == "diameter":
        return 12 <= _figure(mutant.new) <= 110
    if mutant.block == "through-hulls":
        draft = float(getattr(sight.vessel.vessel, "draft", None) or 0)
        return 0.01 <= _figure(mutant.new) <= draft
    return mutant.key in ("fuel", "lasts") or (
        mutant.key == "displacement" and "tenfold" not in mutant.operator
    )


_SCALED = (
    "tenfold",
    "a tenth",
    "feet as metres",
    "metres as feet",
    "pounds as kilogrammes",
    "kilogrammes as pounds",
)


def _figure(text: str) -> float:
    """The first figure of a measure."""
    found = re.search(r"[0-9]+(?:\.[0-9]+)?", text)
    return float(found[0]) if found else 0.0


@rule("a measure within her that only the tape tells", unknowable=True)
def within_her(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Where a space ends or a thing lies inside her outline, what a sling or an anchor weighs by half or double: boats have both."""
    if mutant.operator not in _SCALED:
        return False
    if mutant.block == "deck" or mutant.thing.path.endswith(".point"):
        return True
    twice = mutant.operator in ("pounds as kilogrammes", "kilogrammes as pounds")
    return twice and mutant.key == "mass" and mutant.block in ("gear", "grab-bags")


@rule("a draft or a mast that boats of her length have", unknowable=True)
def hulls_have_it(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A third of the draft is that of a leeboarder or of a lifting keel; a third of the height that of a boat whose masts are lowered."""
    return mutant.operator == "metres as feet" and mutant.key in ("draft", "air-draft")


@rule("a measure out of proportion to others of the boat")
def out_of_proportion(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Feet for metres, pounds for kilogrammes, a decimal point: a hole as deep as the keel, a mast of 2 m, fuel for an ocean."""
    return mutant.operator in (
        "tenfold",
        "a tenth",
        "feet as metres",
        "metres as feet",
        "pounds as kilogrammes",
        "kilogrammes as pounds",
    )


@rule("a line stands twice, word for word", life=True)
def twice(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What is counted twice hides a shortage of as many."""
    return mutant.operator == "doubled"


@rule("a contact whom others call, or who rescues nobody", harmless=True)
def contact(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The rescue centre puts through to a doctor and stays in the list; who waits ashore is asked for as soon as there is a voyage; insurers
    and harbour masters rescue nobody.
    """
    return (mutant.operator, mutant.block) == ("removed", "contacts") and mutant.thing.says(
        "kind"
    ) != "rescue centre"


@rule("enough others remain for what it does", harmless=True)
def others_serve(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Two ways out remain beside it, the companionway among them; a pump by hand and as many pumps as her waters ask; another radio that calls
    all ships; a beacon that calls for rescue. Each of these is asked for where it is the last.
    """
    if mutant.operator != "removed":
        return False
    rest = [
        each for each in there if each is not mutant.thing and each.top == mutant.block and each.own is each
    ]
    if mutant.block == "escape":
        return len(rest) >= 2 and "companionway" not in mutant.thing.says("where")
    if mutant.block == "pumps":
        waters = getattr(sight.vessel.vessel, "waters", "")
        by_hand = any(each.says("power") == "hand" for each in rest)
        return by_hand and len(rest) >= (2 if waters in ("offshore", "ocean") else 1)
    if mutant.thing.path.startswith("radio.sets"):
        return any("VHF" in each.says("kind") for each in rest)
    return mutant.thing.path.startswith("radio.beacons") and any(
        each.says("kind") in ("EPIRB", "PLB") for each in rest
    )


_UNTOLD = ("through-hulls", "batteries")


@rule("a hole or a bank of batteries that nobody wrote down", unknowable=True)
def unwritten(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """How many holes a hull has and which batteries stand where, no other line of the file tells; whoever lifts the floorboards sees it."""
    return mutant.operator == "removed" and mutant.block in _UNTOLD


_RELIED_ON = re.compile(
    r"emergency tiller|steering compass|fire blanket|suits|lifebuoy|throwing line|foghorn|buoyancy|"
    r"bailer|water cans|first-aid|medical chest|knife"
)


@rule("gear that no step, plan or rule of hers asks for", unknowable=True)
def not_asked_for(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A searchlight, a drogue, a spare aerial, light sticks: good to have; whether she has one, no other line tells, and no step sends anybody
    for what is not in the list.
    """
    return (
        mutant.operator == "removed"
        and mutant.block in ("gear", "grab-bags")
        and not _RELIED_ON.search(mutant.thing.name)
    )


@rule("the only thing of its kind is gone, and something relied on it", life=True)
def gone(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The last one of a kind that a step, another entry or common practice asks for is not in the file any more."""
    if mutant.operator != "removed":
        return False
    if mutant.block in ("gear", "grab-bags"):
        kind = kind_of(mutant.thing.name)
        return kind is not None and not any(
            each is not mutant.thing
            and each.top == mutant.block
            and (other := kind_of(each.name)) is not None
            and other.name == kind.name
            for each in there
        )
    return not any(
        each is not mutant.thing and each.kind is mutant.thing.kind and each.name == mutant.thing.name
        for each in there
    )


@rule("another of its kind remains", harmless=True)
def another_remains(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A boat with one less of several, or without a thing that nobody asks of her, is as it says: nothing else counts on it."""
    return mutant.operator == "removed"


@rule("a line of another boat that fits her", harmless=True)
def copied_fits(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """It names no place, person, number or raft that she has not: it is as likely hers."""
    return mutant.operator == "line copied"


@rule("under which heading it is listed", harmless=True)
def heading(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What such a thing is for, its name does not say, or the shelf of gear has it for both; the answer only groups the list."""
    if mutant.operator != "answer" or (mutant.block, mutant.key) != ("gear", "kind"):
        return False
    kind = kind_of(mutant.thing.name)
    return kind is None or not kind.purpose or mutant.new in kind.also_for


# What an answer may as well be: by block and key, the words among which any is as sound as any other.
_AS_SOUND = {
    ("batteries", "chemistry"): "lead-acid|AGM|gel",
    ("engines", "drive"): "shaft|saildrive|sterndrive|pod|jet",
    ("escape", "opens"): "both|inside",
    ("rafts", "boarding"): "ramp|ladder|ramp and ladder",
    ("rafts", "floor"): "single|double|insulated",
    ("rafts", "drogue"): "streams itself|by hand",
    ("rafts", "made-by"): "release maker|raft maker",
    ("gear", "agent"): "clean agent|powder|foam|aerosol|water mist",
    ("alarms", "fed-by"): "its own battery|the boat's batteries|both",
    ("lifejackets", "kind"): "inflatable|foam",
    ("radio", "gnss"): "yes|no",
    ("pumps", "from-deck"): "yes|no",
    ("contacts", "kind"): "base|insurer|shore contact|other",
}


@rule("another answer, as sound", harmless=True)
def another_answer(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of these answers each is a sound way to have it, and the steps say it as it is told; nothing else in the file contradicts it."""
    words = _AS_SOUND.get((mutant.block, mutant.key), "").split("|")
    return mutant.operator == "answer" and mutant.old in words and mutant.new in words


_LESS = {
    "waters": ("ocean", "offshore", "coastal", "sheltered"),
    "climate": ("polar", "cold", "temperate", "tropical"),
    "use": ("commercial", "charter", "private"),
}


@rule("a change on which nothing hangs, or of which less hangs than before", harmless=True)
def less_hangs(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Nearer, warmer or less busy waters ask for less; another name, colour or sail is hers wherever it is printed; a raft that is smaller
    still has a place for everybody; a boat without notes has none.
    """
    order = _LESS.get(mutant.key, ())
    if mutant.operator == "half-made change" and mutant.old in order and mutant.new in order:
        return order.index(mutant.new) > order.index(mutant.old)
    sails = ("sloop", "cutter", "ketch", "gaff sloop", "steadying sails")
    if mutant.key == "rig":
        return mutant.old in sails and mutant.new in sails
    if mutant.operator == "block removed":
        return mutant.old in ("notes", "drills", "tender", "deck")
    if mutant.key == "persons" and mutant.block in ("rafts", "tender"):
        aboard = sum(raft.persons for raft in sight.vessel.rafts if isinstance(raft.persons, int))
        one = sight.vessel.vessel
        return mutant.block == "tender" or aboard - int(mutant.old) + int(mutant.new) >= int(
            getattr(one, "persons", 0) or 0
        )
    return mutant.operator == "half-made change" and mutant.key in ("name", "hull-colour")


@rule("a half-made change of the boat", life=True)
def half_made(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Engine, rig, type, flag, raft, persons, waters, use or climate changed and nothing that hangs on it."""
    return mutant.operator in ("half-made change", "block removed", "the other raft's", "rafts swapped")


@rule("an answer turned round that something else contradicts")
def turned(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Yes for no, another kind: what else the file says of the same thing no longer fits, or it is worse and nobody is told."""
    return mutant.operator == "answer"
