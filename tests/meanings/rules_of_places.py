"""Rules for where things lie."""

from __future__ import annotations

import re
from collections.abc import Callable

from generator.checks.placed.machinery import HELM_M
from generator.checks.words.belongings import STEPS
from generator.manual.drawing.spaces import Space, dimensions_m, find_space, gap_m
from generator.shelves.gear import kind_of
from generator.shelves.procedures import shelf
from generator.survey.placing import away_from_seats
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import RULES, Rule, rule
from meanings.stowing import ALOFT, LOCKER, LOW, OPEN, ROOM, SHUT, sort_of, sorts_for
from meanings.things import Thing


def _plain(path: str) -> str:
    return re.sub(r"\[\d+\]", "", path)


def _space(sight: Sight, name: str) -> Space | None:
    """Her space of that name."""
    return find_space(sight.spaces, name)[0]


def _shares_box(mutant: Mutant, there: list[Thing]) -> bool:
    spot = mutant.thing.says("spot")
    box = re.search(r"^in the [\w ]*(?:bag|box|case|chest)\b|\bbeside it$|^in the locker with", spot)
    return bool(box) and ("beside it" in spot or sum(each.says("spot") == spot for each in there) > 1)


@rule("beside it, in a part of the same space", harmless=True)
def beside_it(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The handle hangs in a space that lies over that of its pump in plan, on its level: the helm in the cockpit, the recess in its after end."""
    if mutant.operator != "place" or mutant.block != "pumps" or mutant.thing.within is None:
        return False
    new, own = _space(sight, mutant.new), _space(sight, mutant.thing.within.says("where"))
    return new is not None and own is not None and gap_m(new, own) <= 0 and new.level == own.level


@rule("a raft or its part a step from where it was", harmless=True)
def raft_a_step_away(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Raft and part still lie in spaces that touch, on one level, where people stand or in a locker in which the raft itself is: whoever is at
    the raft has it in sight and in reach.
    """
    if mutant.operator != "place" or mutant.block != "rafts" or mutant.key != "where":
        return False
    new, own = _space(sight, mutant.new), _space(sight, mutant.thing.own.says("where"))
    part = mutant.thing is not mutant.thing.own
    near = new is not None and own is not None and gap_m(new, own) <= 0 and new.level == own.level
    return (
        near
        and new is not None
        and (sort_of(new) == OPEN or (sort_of(new) == LOCKER and (new is own or not part)))
    )


@rule("one box, bag or bracket is said to be in two places", life=True)
def two_places(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Things with the same words for their spot ("in the orange flare box") lie in different spaces, or on different sides."""
    kept = mutant.operator != "line copied" or mutant.thing.says("spot") in mutant.new
    return mutant.operator in ("place", "side", "line copied") and kept and _shares_box(mutant, there)


def _said(mutant: Mutant, sight: Sight) -> list[list[Space]]:
    """Her spaces that the words of a thing name, or have it beside what is built into one alone: of each such word those it may mean."""
    if mutant.block not in _NAMED or mutant.thing.within is not None or mutant.operator != "place":
        return []
    name = re.sub(
        r"engine-driven|for the engine space", "", mutant.thing.name
    )  # what drives it, and what it serves
    kind = kind_of(mutant.thing.name)
    spot = (
        "" if kind is not None and kind.does("is fixed in the open") else mutant.thing.says("spot")
    )  # of its button
    name = "" if mutant.block == "stops" else name  # what it stops
    words, new = f"{name} {spot}".lower(), _space(sight, mutant.new)
    found = []
    for word, means in _BUILT_IN.items():
        if not re.search(rf"\b{word}\b", words):
            continue
        if means == "companionway" and new is not None and new.fore_m <= STEPS * _length_m(sight):
            continue  # the stern has steps of its own
        found.append([each for each in sight.spaces.values() if _is_meant(means, each)])
    return found


def _is_meant(means: str, space: Space) -> bool:
    marked = {"engine": space.engine, "galley": space.cooking, "helm": space.steering}
    steps = means == "companionway" and any("steps" in each for each in space.also)
    return marked.get(means, False) or means in space.name or steps


def _length_m(sight: Sight) -> float:
    return float(dimensions_m(sight.vessel)[0])


def _names_a_space(mutant: Mutant, sight: Sight) -> bool:
    """Whether a thing's name or spot names a space, or what is built into one alone, other than it has been moved to."""
    new, said = _space(sight, mutant.new), _said(mutant, sight)
    return bool(said) and not any(new in those for those in said)


_NAMED = ("gear", "stops", "through-hulls", "radio", "pumps")
_BUILT_IN = {
    "engine": "engine", "galley": "galley", "cooker": "galley", "sink": "galley", "heads": "heads", "bowl": "heads",
    "cockpit": "cockpit", "helm": "helm", "wheel": "helm", "throttle": "helm", "steps": "companionway",
}  # fmt: skip


@rule("a step from where its words say", harmless=True)
def a_step_away(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The space touches the one that its name or spot names, is so near the steps that they mean, or so near what a hole in the hull serves
    that its hose reaches: whoever goes where the words say has the thing in reach.
    """
    new = _space(sight, mutant.new)
    if new is None or not _names_a_space(mutant, sight):
        return False
    hole = mutant.block == "through-hulls"
    drain = hole and "cockpit" in mutant.thing.name and "below-water" not in mutant.thing.values
    if sort_of(new) not in (ROOM, LOCKER, LOW if hole else OPEN, OPEN if drain else ROOM):
        return False
    steps = "steps" in mutant.thing.says("spot")
    reach_m = STEPS * _length_m(sight) if hole or steps else 0.0
    return all(those and min(gap_m(new, each) for each in those) <= reach_m for those in _said(mutant, sight))


@rule("a name says another space than the field", life=True)
def name_and_space(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """ "Fire extinguisher, galley" in the forepeak: the words of a thing name one space, its `where` another."""
    return _names_a_space(mutant, sight)


@rule("as good a place", harmless=True)
def as_good_a_place(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The space is of a sort in which such a thing serves (stowing.py), near enough for what the survey measures: she is as sound with it
    there. Whether it lies there only the walk-round sees.
    """
    if mutant.operator != "place":
        return False
    path = _plain(f"{mutant.thing.path}.{mutant.key}")
    one = sight.vessel.vessel
    open_boat = one is not None and not one.hull.closed_in
    new = _space(sight, mutant.new)
    return new is not None and sort_of(new) in sorts_for(path, mutant.thing.name, open_boat=open_boat)


@rule("in the cockpit, at hand", harmless=True)
def in_the_cockpit(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Where she is steered, or the watch sits, somebody always is, and gets at it; whether a pocket, a bag or a seat holds it there only the
    walk-round sees. Of what hears or warns the panel may be there, within sight of the wheel.
    """
    new = _space(sight, mutant.new) if mutant.operator == "place" else None
    if new is None:
        return False
    at_hand = new.steering or new.name == "cockpit" or (new.open_deck and not away_from_seats(sight, new))
    switch = mutant.block == "stops" and mutant.thing.says("what") == "batteries"
    if mutant.block == "alarms" and mutant.key == "where":
        helms = [each for each in sight.spaces.values() if each.steering]
        return new.open_deck and any(gap_m(new, each) <= HELM_M for each in helms)
    return at_hand and (switch or mutant.block in ("gear", "lifejackets", "medical", "batteries"))


_SHUT_IN = re.compile(
    r"\b(?:box|locker|case|casing|chest|bin|canister|cabinet|compartment|bag|pouch|hatch|lid)\b"
)


@rule("shut in on deck, by its own words", harmless=True)
def shut_in(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Its spot has it in a locker, a box or a bag, or under a lid: there spray and seas do not reach it on deck either. Whether that locker is
    there only the walk-round sees.
    """
    new = _space(sight, mutant.new) if mutant.operator == "place" else None
    shut = mutant.block in ("gear", "lifejackets", "medical", "batteries", "stops") and "." not in _plain(
        mutant.thing.path
    )
    deck = new is not None and sort_of(new) in (OPEN, ALOFT) and not new.mark
    return deck and shut and bool(_SHUT_IN.search(mutant.thing.says("spot")))


@rule("worn, not kept", harmless=True)
def worn(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """All jackets of the line are on somebody from the quay to the quay: where they hang in harbour nobody asks at sea."""
    if mutant.operator != "place" or mutant.block != "lifejackets" or "worn-by" not in mutant.thing.values:
        return False
    new = _space(sight, mutant.new)
    shut = new is None or sort_of(new) in (SHUT, LOW)
    return not shut and len(mutant.thing.values["worn-by"].texts) >= int(mutant.thing.says("quantity") or 99)


@rule("an alarm that still sounds where people are", harmless=True)
def still_heard(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of the spaces in which it sounds, or listens, another remains: one where she is steered or people sleep, or the bilge."""
    if mutant.operator != "place" or mutant.block != "alarms" or mutant.key not in ("sounds-in", "watches"):
        return False
    rest = [each.value for each in mutant.thing.values[mutant.key].texts if each.value != mutant.old]
    spaces = [space for each in rest if (space := _space(sight, each)) is not None]
    if mutant.key == "watches":
        return any(sort_of(each) == LOW for each in spaces)
    return any(each.steering or each.name == "cockpit" or each.roofed for each in spaces)


@rule("what is worked from outside", harmless=True)
def from_outside(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A stop of which it is said that it is worked from outside is shut without going into its space, whatever burns there."""
    new = _space(sight, mutant.new) if mutant.operator == "place" else None
    return (
        new is not None
        and new.engine
        and mutant.block == "stops"
        and mutant.thing.says("from-outside") == "yes"
    )


_NOT_SENT_FOR = ("navigation", "rig", "tool", "other")


@rule("nobody is sent for it", harmless=True)
def not_sent_for(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A hand bearing compass, an ice mallet: it does nothing that a step, a plan or a check asks for, so nobody runs for it in an emergency."""
    if mutant.operator != "place" or mutant.block != "gear" or mutant.thing.within is not None:
        return False
    kind, new = kind_of(mutant.thing.name), _space(sight, mutant.new)
    asked = kind is not None and (
        kind.properties or any(kind.name in step.gear for one in shelf() for step in one.steps)
    )
    return not asked and mutant.thing.says("kind") in _NOT_SENT_FOR and new is not None and not new.engine


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


_OF_ITS_OWN = ("strap-fixed", "painter-end", "lid-hinge", "cylinder-side")


@rule("how a container lies in its place", unknowable=True)
def container(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """At which end of a cradle its strap is fixed, where the hinge of a lid is: whoever stands before it sees it, and nothing else in the file says it."""
    return mutant.key in _OF_ITS_OWN


_FROM_ALOFT = re.compile(r"\bhalyard\b|\bboom\b|\bderrick\b|\bmast\b")


def _either_side(mutant: Mutant) -> bool:
    """Whether a part may be on the one side as well as on the other: of a raft that lies across the middle, or at no side; a ladder that stands
    elsewhere than the gate; what lifts from aloft, or is carried to where it lifts; two rudder stocks.
    """
    own = mutant.thing.own
    if mutant.block == "rafts":
        return own.says("side") not in ("port", "starboard") and mutant.thing is not own
    if mutant.block == "steering":
        return "two rudders" in " ".join(each.says("main") for each in own.every())
    if mutant.block != "recovery":
        return False
    parts = {each.path: each for each in (mutant.thing.within or mutant.thing).every()}
    hoist, gate = parts.get("recovery.hoist"), parts.get("recovery.gate")
    if mutant.thing.path == "recovery.ladder":
        return gate is None or gate.says("where") != mutant.thing.says("where")
    lifts = f"{hoist.says('what')} {hoist.says('spot')}".lower() if hoist is not None else ""
    carried = (hoist is not None and "sling" in lifts) or "net" in lifts
    return gate is None and (bool(_FROM_ALOFT.search(lifts)) or carried)


@rule("two things that belong together lie on different sides", life=True)
def apart(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A raft and its strong point, gate, knife; a pump and its handle; gate and hoist; an engine and its own space."""
    if mutant.operator != "side" or mutant.block not in ("rafts", "recovery", "pumps", "engines", "steering"):
        return False
    if _either_side(mutant):
        return False
    if mutant.block == "pumps" and "beside it" not in mutant.thing.says("spot"):
        return False  # a switch is where the wires lead
    own = mutant.thing.own
    rest = [
        part for each in there if each.own.path == own.path for part in [each] if part is not mutant.thing
    ]
    sides = {each.says("side") for each in rest if each.path != mutant.thing.path}
    return bool(sides & {"port", "starboard"})


@rule("the other side of the same space", harmless=True)
def other_side(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Nothing else in the file says on which side it is: its words, its box and its parts do not. Only the walk-round sees it."""
    return mutant.operator == "side"


@rule("words of a side with nothing beside them to tell", harmless=True)
def side_words(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """ "Under the red flap, left of the screen", a bunk, a colour: no field says the same."""
    return mutant.operator == "side in words"
