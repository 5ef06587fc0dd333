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


@rule("which of two ends first, only their labels tell", unknowable=True)
def both_end(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both are days on which something runs out or falls due, within what each such thing has: nothing else in the file says which is whose.
    Whoever goes round with the list reads it on the thing.
    """
    return mutant.operator == "dates swapped" and all(_ends(each) for each in (mutant.key, mutant.new))


def _ends(key: str) -> bool:
    return re.search(r"expire|next|test\b|until|replace-by", key.split(" ", maxsplit=1)[0]) is not None


@rule("two days of one sort, in no order to each other", harmless=True)
def same_sort(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both are days on which something was done; either may come first, and either is as likely."""
    return mutant.operator == "dates swapped" and not any(_ends(each) for each in (mutant.key, mutant.new))


@rule("a number that boats have", unknowable=True)
def a_number_there_is(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten cups, twenty jackets for children, one smoke alarm for ten: not more than the shelf of gear has boats carry, which the survey holds
    every number against, and nothing else in the file counts them. Only whoever opens the locker does.
    """
    if mutant.operator not in ("tenfold", "a tenth") or mutant.key != "quantity":
        return False
    persons = getattr(sight.vessel.vessel, "persons", None)
    kind = kind_of(mutant.thing.name)
    most, each = kind.at_most if kind is not None and kind.at_most is not None else (50, 8)
    return int(_figure(mutant.new)) <= max(most, each * persons if isinstance(persons, int) else 0)


@rule("a number of things beyond what a boat has")
def too_many_things(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten times the number hides a shortage: forty flares, ten buoys, sixty jackets for five."""
    return mutant.operator in ("tenfold", "a tenth") and mutant.key == "quantity"


@rule("how wide and how deep a hole is, or how full a bottle, only a look tells", unknowable=True)
def another_hole(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A hole of 12 to 110 mm, not deeper than the keel; oxygen for more or fewer minutes: how much comes in, or how long it lasts, is reckoned from
    that, and no other line of the file says it.
    """
    if mutant.operator in _SCALED and mutant.key == "lasts":
        return True
    if mutant.operator not in _SCALED or mutant.block != "through-hulls":
        return False
    if mutant.key == "diameter":
        return 12 <= _figure(mutant.new) <= 110
    draft = float(getattr(sight.vessel.vessel, "draft", None) or 0)
    return 0.01 <= _figure(mutant.new) <= draft


@rule("another size that such a thing has", harmless=True)
def another_size(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A boat's weight, her fuel, within what such have: nothing that is done in an emergency goes by it."""
    if mutant.operator not in _SCALED:
        return False
    return mutant.key == "fuel" or (mutant.key == "displacement" and "tenfold" not in mutant.operator)


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


# What only the thing's own label, or a look at it, tells: by block, the keys.
_ON_THE_THING = {
    "batteries": ("chemistry",),
    "gear": ("agent", "from"),
    "stops": ("electric",),
    "gas": ("fuel",),
    "capsize": ("swamped",),
    "escape": ("serves-inverted",),
    "rafts": (
        "pack",
        "standard",
        "righting",
        "cylinder-side",
        "held-by",
        "label-height",
        "certificate",
        "height",
        "sill",
    ),
}


@rule("what only the thing's own label, or a look at it, tells", unknowable=True)
def on_the_thing(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Lithium or gel, CO2 or another gas, an electric knob or a cable, the pack printed on a container, how high it lies within what its level
    allows: both are in use, each as the steps then have it, and no other line of the file says which it is.
    """
    changed = mutant.operator in ("answer", "the other raft's", "rafts swapped", *_SCALED)
    if mutant.key == "swamped" and mutant.new == "sinks":
        return False
    return changed and mutant.key in _ON_THE_THING.get(mutant.block, ())


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
    return mutant.operator in ("removed", "block removed") and mutant.block in _UNTOLD


_RELIED_ON = re.compile(
    r"emergency tiller|steering compass|fire blanket|suits|lifebuoy|throwing line|foghorn|buoyancy|"
    r"bailer|first-aid|medical chest|knife"
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


@rule("another thing does the same, or another block tells it", harmless=True)
def done_by_another(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What is thrown, bails, sounds or is a knife remains in another thing of that use; what also stands under 'capsize', 'medical' or
    'steering' is told there; suits where the water is not cold; a first-aid kit of a bag where another is in the gear list.
    """
    if mutant.operator != "removed" or mutant.block not in ("gear", "grab-bags"):
        return False
    kind = kind_of(mutant.thing.name)
    if kind is None:
        return False
    vessel, one = sight.vessel, sight.vessel.vessel
    told = {
        "keeps her afloat": bool(vessel.capsize and vessel.capsize.buoyancy),
        "steers without the wheel": bool(vessel.steering and vessel.steering.emergency_tiller),
        "suit against cold": one is not None and one.climate not in ("cold", "polar"),
    }
    if any(kind.does(what) and holds for what, holds in told.items()) or (
        kind.purpose == "medical" and vessel.medical is not None
    ):
        return True
    others = [
        other
        for each in there
        if each is not mutant.thing
        and each.top in ("gear", "grab-bags", "pumps")
        and each.path != mutant.thing.path
        and (other := kind_of(each.name)) is not None
    ]
    if any(other.name == kind.name for other in others):
        return True
    uses = ("thrown to somebody", "makes a sound signal", "keeps warm", "drinking water")
    bails = kind.does("bails water") and any(each.top == "pumps" for each in there)
    return bails or any(kind.does(use) and any(other.does(use) for other in others) for use in uses)


@rule("an alarm that nothing aboard asks for", unknowable=True)
def alarm_gone(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Where people sleep, cook or have gas the survey asks for its alarm; of one for water in the bilge no other line tells."""
    kind = mutant.operator == "answer" and mutant.key == "what"
    return (mutant.operator in ("removed", "block removed") or kind) and mutant.block == "alarms"


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
    return kind is None or not kind.purpose or mutant.new == "other" or mutant.new in kind.also_for


# What an answer may as well be: by block and key, the words among which any is as sound as any other.
_AS_SOUND = {
    ("batteries", "chemistry"): "lead-acid|AGM|gel",
    ("engines", "drive"): "shaft|saildrive|sterndrive|pod|jet|outboard leg",
    ("rafts", "fast-to"): "strong point|nothing",
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


@rule("a bucket that need not be tied in", harmless=True)
def not_bailed(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """In a boat with a deck it does not float away when she fills: she is pumped."""
    one = sight.vessel.vessel
    return mutant.key == "tied-in" and one is not None and not one.hull.is_bailed


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
    """Nearer or less busy waters ask for less; what colder ones, or guests, ask is asked, and she has it; with no number of hers another flag
    could disagree; another name, colour or sail is hers wherever it is printed; a raft that is smaller still has a place for everybody; a boat
    without notes has none, and one whose engines or medicine are not described has them told under 'vessel' or in the gear list.
    """
    one = sight.vessel.vessel
    if mutant.operator == "half-made change" and mutant.key in ("climate", "use"):
        return True  # what colder waters, or guests, ask of a boat is asked, and she has it
    if mutant.operator == "half-made change" and mutant.key == "flag":
        radio = sight.vessel.radio
        return radio is None or (radio.call_sign is None and radio.mmsi is None)
    if mutant.operator == "half-made change" and mutant.key == "persons" and mutant.block == "vessel":
        return int(mutant.new) < int(mutant.old)
    order = _LESS.get(mutant.key, ())
    if mutant.operator == "half-made change" and mutant.old in order and mutant.new in order:
        return order.index(mutant.new) > order.index(mutant.old)
    sails = ("sloop", "cutter", "ketch", "gaff sloop", "steadying sails")
    if mutant.key == "rig":
        return mutant.new in sails and (
            mutant.old in sails or (one is not None and one.hull.has_rooms is False)
        )
    if mutant.operator == "block removed":
        return mutant.old in ("notes", "drills", "tender", "deck", "engines", "medical")
    if mutant.key == "persons" and mutant.block in ("rafts", "tender"):
        aboard = sum(raft.persons for raft in sight.vessel.rafts if isinstance(raft.persons, int))
        return mutant.block == "tender" or aboard - int(mutant.old) + int(mutant.new) >= int(
            getattr(one, "persons", 0) or 0
        )
    return mutant.operator == "half-made change" and mutant.key in ("name", "hull-colour", "call-sign")


@rule("a half-made change of the boat", life=True)
def half_made(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Engine, rig, type, flag, raft, persons, waters, use or climate changed and nothing that hangs on it."""
    return mutant.operator in ("half-made change", "block removed", "the other raft's", "rafts swapped")


@rule("an answer turned round that something else contradicts")
def turned(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Yes for no, another kind: what else the file says of the same thing no longer fits, or it is worse and nobody is told."""
    return mutant.operator == "answer"
