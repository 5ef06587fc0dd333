"""Which mutants are harmless, and of which class the others are that nobody noticed: each by a rule with its reason."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from meanings.mutant import Mutant
from meanings.stowing import sort_of, sorts_for
from meanings.things import Thing, things

from generator.manual.drawing.spaces import find_space
from generator.reading.fields import YesNo
from generator.shelves.gear import kind_of
from generator.shelves.procedures import shelf
from generator.survey.registry import Sight


@dataclass(frozen=True)
class Rule:
    """A class of mutants: `why` says why nobody would be hurt, or what a surveyor would want caught, and `life` whether one hangs on it."""

    name: str
    harmless: bool
    why: str
    holds: Callable[[Mutant, Sight, list[Thing]], bool] = field(repr=False)
    life: bool = False


RULES: list[Rule] = []
Held = Callable[[Mutant, Sight, list[Thing]], bool]


def rule(name: str, *, harmless: bool = False, life: bool = False) -> Callable[[Held], Held]:
    """Registers a rule; its docstring is the reason."""

    def register(holds: Held) -> Held:
        RULES.append(Rule(name, harmless, " ".join((holds.__doc__ or "").split()), holds, life))
        return holds

    return register


def rule_of(mutant: Mutant, sight: Sight, there: list[Thing]) -> Rule | None:
    """The first rule that holds for a mutant."""
    return next((each for each in RULES if each.holds(mutant, sight, there)), None)


def _plain(path: str) -> str:
    return re.sub(r"\[\d+\]", "", path)


def _space(sight: Sight, name: str):
    return find_space(sight.spaces, name)[0]


def _shares_box(mutant: Mutant, there: list[Thing]) -> bool:
    spot = mutant.thing.says("spot")
    return bool(spot) and "in" in spot.split() and sum(each.says("spot") == spot for each in there) > 1


# --- Persons -----------------------------------------------------------------------------------------------------------------


def _bound(mutant: Mutant, there: list[Thing], role: str) -> bool:
    """Whether a role has another duty in the same emergency that cannot be left."""
    emergency = mutant.thing.path.split(".")[1]
    own = mutant.thing.path.split(".")[2]
    lasting = {duty.id for one in shelf() if one.id == emergency for duty in one.duties if duty.continuous}
    for thing in there:
        parts = thing.path.split(".")
        if thing.top == "station-bill" and len(parts) == 3 and parts[1] == emergency and parts[2] != own:
            if parts[2] in lasting and role in [each.value for each in thing.values["who"].texts]:
                return True
    return False


def _able(sight: Sight, role: str, need: str) -> bool:
    person = next((each for each in sight.vessel.people if each.role == role), None)
    if person is None or isinstance(person.age, int) or person.needs_help:
        return False
    return not need or not person.abilities or need in person.abilities


def _need(mutant: Mutant, key: str = "") -> str:
    parts = mutant.thing.path.split(".")
    return next(
        (
            str(duty.needs or "")
            for one in shelf()
            if one.id == parts[1]
            for duty in one.duties
            if duty.id == (key or parts[2])
        ),
        "",
    )


@rule("a duty goes to somebody who cannot do it", life=True)
def unable(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A child, somebody who needs help, or somebody without the ability that the duty takes holds it, or stands in for it."""
    if mutant.block != "station-bill":
        return False
    if mutant.operator in ("person", "one more"):
        return not _able(sight, mutant.new, _need(mutant))
    if mutant.operator == "persons swapped":
        return not (_able(sight, mutant.old, _need(mutant)) and _able(sight, mutant.new, _need(mutant)))
    if mutant.operator == "duties swapped":
        one, other = mutant.things
        return not (
            _able(sight, mutant.new, _need(mutant))
            and _able(sight, mutant.old, _need(mutant, other.path.split(".")[2]))
        )
    return False


@rule("a duty goes to somebody who is bound elsewhere in the same emergency")
def bound(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever has it, or stands in for it, has another duty that cannot be left: one of the two is not done."""
    if mutant.block != "station-bill" or mutant.operator not in ("person", "persons swapped", "one more"):
        return False
    return _bound(mutant, there, mutant.new)


@rule("any able person aboard who is free may do a duty", harmless=True)
def any_able_person(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two roles that can do a duty and are not bound elsewhere in that emergency the boat is as well served by either."""
    return mutant.block == "station-bill" and mutant.operator in (
        "person",
        "persons swapped",
        "duties swapped",
        "one more",
        "one less",
    )


@rule("who wears a jacket always, or has a key, may be anybody grown up", harmless=True)
def who_wears(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """There are jackets of the size for all of them, and the list only says who keeps his on."""
    return mutant.key in ("worn-by", "opened-by") and mutant.operator in ("person", "one more", "one less")


@rule("somebody of the raft's party cannot do it, or goes into the other raft", life=True)
def party(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever holds, cuts or launches a raft is a child, needs help, or belongs to another."""
    return (
        mutant.block == "rafts"
        and mutant.key in ("launch", "hold", "cut", "bag", "carries")
        and not _able(sight, mutant.new, "")
    )


@rule("any able person of a raft may be of its party", harmless=True)
def party_free(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two grown-ups who go into that raft either can hold it, cut it loose or bring the bag."""
    return mutant.block == "rafts" and mutant.key in ("launch", "hold", "cut", "bag", "carries")


@rule("somebody holds a duty who is not aboard on this voyage", life=True)
def ashore(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The voyage's list names who is aboard; a duty, a substitute or a helper is somebody who stayed ashore, and nothing says so."""
    return mutant.operator in ("stays ashore", "two stay ashore")


@rule("the only one who can do it lost an ability")
def ability(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Somebody with a duty that takes the ability has it no more, or nobody aboard has it now (first aid, engine, swimming)."""
    left = [
        each
        for each in sight.vessel.people
        if mutant.old in (each.abilities or ()) and each.role != mutant.thing.says("role")
    ]
    return mutant.operator == "ability lost" and not left


@rule("others aboard have that ability", harmless=True)
def ability_kept(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """No duty of this person takes it, and somebody else aboard can do it."""
    return mutant.operator == "ability lost"


@rule("whoever launches the raft or carries the bag cannot lift it", life=True)
def lifts(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What the party lifts together is less than what is to be lifted, or the bag weighs more than its carrier lifts."""
    if mutant.key != "lifts":
        return False
    role = mutant.thing.says("role")
    for each in there:
        named = [
            node.value
            for key in ("who", "carried-by", "launch", "substitute")
            if key in each.values
            for node in each.values[key].texts
        ]
        if role in named and (
            each.path.endswith(("launch", "grab-bag")) or each.top in ("rafts", "grab-bags")
        ):
            return True
    return False


@rule("nobody counts on what this person lifts", harmless=True)
def lifts_nothing(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The person neither launches a raft nor carries a bag."""
    return mutant.key == "lifts"


@rule("somebody keeps two watches on end, or all of them", life=False)
def watch(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A person told off for one watch more never sleeps."""
    return mutant.block == "watches"


# --- Places ------------------------------------------------------------------------------------------------------------------


@rule("one box, bag or bracket is said to be in two places", life=True)
def two_places(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Things with the same words for their spot ("in the orange flare box") lie in different spaces, or on different sides."""
    return mutant.operator in ("place", "side", "line copied") and _shares_box(mutant, there)


@rule("a name says another space than the field", life=True)
def name_and_space(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """ "Galley sink outlet" in the forward cabin: the words of a thing name one space, its `where` another."""
    if mutant.operator != "place":
        return False
    words = f"{mutant.thing.name} {mutant.thing.says('spot')} {mutant.thing.says('what')} {mutant.thing.says('how')}".lower()
    stems = {"engine": "engine", "galley": "galley", "cooker": "galley", "sink": "galley", "heads": "heads", "cockpit": "cockpit",
             "helm": "helm", "forward": "forward", "bow": "bow", "hatch": "companionway", "steps": "companionway",
             "washboards": "companionway", "door": "saloon", "wheel": "helm", "rudder": "lazarette"}  # fmt: skip
    said = {place for word, place in stems.items() if re.search(rf"\b{word}\b", words)}
    return bool(said) and not any(place in mutant.new for place in said)


@rule("as good a place", harmless=True)
def as_good_a_place(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both spaces are of a sort in which such a thing serves (stowing.py): rooms, lockers or the open deck. Whether it lies there only the
    walk-round sees.
    """
    if mutant.operator != "place":
        return False
    path = _plain(f"{mutant.thing.path}.{mutant.key}")
    sorts = sorts_for(path, mutant.thing.name)
    new = _space(sight, mutant.new)
    return sorts is not None and new is not None and sort_of(new) in sorts


def _placed(name: str, life: bool, why: str, fits: Callable[[str, Mutant], bool]) -> None:
    def holds(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
        return mutant.operator == "place" and fits(_plain(f"{mutant.thing.path}.{mutant.key}"), mutant)

    RULES.append(Rule(name, False, why, holds, life))


_placed("a part of the raft's launching is where the raft is not", True,
        "The gate it goes through, the place where people board it, its strong point, its knife lie below, aloft or far from it.",
        lambda path, mutant: path.startswith("rafts"))  # fmt: skip
_placed("a stop out of reach, or inside the danger it ends", True,
        "An engine stop far from the helm, a battery switch on deck, a gas tap away from cooker and bottle, a fuel tap nobody gets at.",
        lambda path, mutant: path.startswith(("stops", "vessel.fire-port", "gas")))  # fmt: skip
_placed("a way out where there is none", True,
        "A hatch that opens out of a locker, the bilge or the open deck; two ways out of one space, none of another.",
        lambda path, mutant: path.startswith("escape"))  # fmt: skip
_placed("a pump away from its handle, or where no water collects", True,
        "The handle is kept in another space than the pump it works; a bilge pump lies on deck or aloft.",
        lambda path, mutant: path.startswith("pumps"))  # fmt: skip
_placed("an alarm where it cannot serve", True,
        "A smoke alarm on deck, a bilge alarm that listens to the pushpit or sounds in the bilge, a gas alarm that watches no low place.",
        lambda path, mutant: path.startswith("alarms") or bool(re.search("alarm|detector", mutant.thing.name)))  # fmt: skip
_placed("what is thrown to somebody is out of reach", True,
        "Lifebuoy, danbuoy or line below, in a locker, on the foredeck or aloft.",
        lambda path, mutant: bool(re.search("lifebuoy|danbuoy|throwing line|rescue sling", mutant.thing.name)))  # fmt: skip
_placed("what puts out a fire is behind the fire, shut in or aloft", True,
        "An extinguisher in the engine space, a gas locker, the anchor locker; the automatic one outside the space it guards.",
        lambda path, mutant: bool(re.search("extinguisher|fire blanket", mutant.thing.name)))  # fmt: skip
_placed("the way back aboard is where nobody climbs or stands", True,
        "A ladder in a cabin, who hoists standing below or in a locker, a hoist that the gate does not lead to.",
        lambda path, mutant: path.startswith("recovery"))  # fmt: skip
_placed("people muster where they cannot", True, "The muster place is a locker, a tank, a cabin without a second way out.",
        lambda path, mutant: path.startswith("vessel.muster"))  # fmt: skip
_placed("what calls for help is shut in, wet or aloft", True,
        "Radio or beacon in a bilge, an engine space, an anchor locker, on the mast; a fixed set in the open.",
        lambda path, mutant: path.startswith("radio"))  # fmt: skip
_placed("jackets and suits where nobody gets at them", True, "Lifejackets, suits in the anchor locker, the engine space, aloft, on open deck.",
        lambda path, mutant: path.startswith("lifejackets") or "suits" in mutant.thing.name)  # fmt: skip
_placed("signals where they get wet or nobody gets at them", True, "Flares in a bilge, a gas locker, on open deck, beside the engine.",
        lambda path, mutant: bool(re.search("flares|smoke|foghorn|whistle|torch|searchlight", mutant.thing.name)))  # fmt: skip
_placed("batteries on deck or aloft", False, "Batteries where seas come, or where nobody builds them.",
        lambda path, mutant: path.startswith("batteries"))  # fmt: skip
_placed("an engine in a cabin or on deck", False, "An inboard engine in a galley, an outboard in a locker.",
        lambda path, mutant: path.startswith("engines"))  # fmt: skip
_placed("the emergency tiller fits where no rudder is", True, "A tiller that fits in the galley steers nothing.",
        lambda path, mutant: path.startswith("steering"))  # fmt: skip
_placed("buoyancy, berth or hold where it cannot be", False, "Buoyancy on open deck, a berth aloft, a line to hold on to inside.",
        lambda path, mutant: path.startswith(("capsize", "people", "tender", "medical")))  # fmt: skip
_placed("a hole in the hull where none can be", True, "A through-hull fitting on deck, or in another space than its name says.",
        lambda path, mutant: path.startswith("through-hulls"))  # fmt: skip
_placed("other gear in a space nobody goes into, on open deck or aloft", False,
        "First aid, water, plugs, tools in the engine space, a gas locker, on the mast.", lambda path, mutant: True)  # fmt: skip


# --- Sides -------------------------------------------------------------------------------------------------------------------


@rule("two things that belong together lie on different sides", life=True)
def apart(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A raft and its strong point, gate, knife; a pump and its handle; ladder, gate and hoist; an engine and its own space."""
    return mutant.operator == "side" and mutant.block in (
        "rafts",
        "recovery",
        "pumps",
        "engines",
        "steering",
        "capsize",
    )


@rule("the other side of the same space", harmless=True)
def other_side(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Nothing else in the file says on which side it is: its words, its box and its parts do not. Only the walk-round sees it."""
    return mutant.operator == "side"


@rule("words of a side with nothing beside them to tell", harmless=True)
def side_words(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """ "Under the red flap, left of the screen", a bunk, a colour: no field says the same."""
    return mutant.operator == "side in words"


# --- Dates -------------------------------------------------------------------------------------------------------------------


@rule("a date too far ahead for its kind", life=True)
def too_far(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten years later than marked: flares, heads, batteries, services, hoses that no maker dates so far, with no making date beside."""
    return mutant.operator == "date by ten years"


@rule("two days of one sort, in no order to each other", harmless=True)
def same_sort(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both are days on which something was done, or both days on which something ends; either may come first, and either is as likely."""
    return mutant.operator == "dates swapped"


# --- Numbers -----------------------------------------------------------------------------------------------------------------


@rule("a number of things beyond what a boat has")
def too_many_things(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten times the number hides a shortage: forty flares, ten buoys, sixty jackets for five."""
    return mutant.operator in ("tenfold", "a tenth") and mutant.key == "quantity"


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


# --- Entries -----------------------------------------------------------------------------------------------------------------


@rule("a line stands twice, word for word", life=True)
def twice(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What is counted twice hides a shortage of as many."""
    return mutant.operator == "doubled"


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


# --- Answers -----------------------------------------------------------------------------------------------------------------


@rule("under which heading it is listed", harmless=True)
def heading(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What such a thing is for, its name does not say; the answer only groups the list."""
    if mutant.operator != "answer" or (mutant.block, mutant.key) != ("gear", "kind"):
        return False
    kind = kind_of(mutant.thing.name)
    return kind is None or not kind.purpose


@rule("a half-made change of the boat", life=True)
def half_made(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Engine, rig, type, flag, raft, persons, waters, use or climate changed and nothing that hangs on it."""
    return mutant.operator in ("half-made change", "block removed", "the other raft's", "rafts swapped")


@rule("an answer turned round that something else contradicts")
def turned(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Yes for no, another kind: what else the file says of the same thing no longer fits, or it is worse and nobody is told."""
    return mutant.operator == "answer"
