"""Rules for where things lie."""

from __future__ import annotations

import re
from collections.abc import Callable

from generator.manual.drawing.spaces import Space, find_space, gap_m
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import RULES, Rule, rule
from meanings.stowing import LOCKER, OPEN, ROOM, SHUT, sort_of, sorts_for
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


@rule("one box, bag or bracket is said to be in two places", life=True)
def two_places(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Things with the same words for their spot ("in the orange flare box") lie in different spaces, or on different sides."""
    return mutant.operator in ("place", "side", "line copied") and _shares_box(mutant, there)


def _names_a_space(mutant: Mutant) -> bool:
    """Whether a thing's name or spot names a space, or what is built into one alone, other than it has been moved to."""
    if mutant.block not in _NAMED or mutant.thing.within is not None or mutant.operator != "place":
        return False
    words = f"{mutant.thing.name.replace('engine-driven', '')} {mutant.thing.says('spot')}".lower()
    said = {place for word, place in _BUILT_IN.items() if re.search(rf"\b{word}\b", words)}
    return bool(said) and not any(place in mutant.new for place in said)


_NAMED = ("gear", "stops", "through-hulls", "radio", "pumps")
_BUILT_IN = {
    "engine": "engine", "galley": "galley", "cooker": "galley", "sink": "galley", "heads": "heads", "bowl": "heads",
    "cockpit": "cockpit", "helm": "helm", "wheel": "helm", "throttle": "helm", "steps": "companionway",
}  # fmt: skip


@rule("a step from where its words say", harmless=True)
def a_step_away(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Its name or spot names a space that touches this one: whoever goes where the words say has the thing in reach."""
    new, old = _space(sight, mutant.new), _space(sight, mutant.old)
    if new is None or old is None or not _names_a_space(mutant):
        return False
    if mutant.block == "through-hulls":
        return gap_m(new, old) <= 0 and new.level == old.level
    return gap_m(new, old) <= 0 and sort_of(new) in (ROOM, OPEN, LOCKER) and sort_of(old) != SHUT


@rule("a name says another space than the field", life=True)
def name_and_space(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """ "Fire extinguisher, galley" in the forepeak: the words of a thing name one space, its `where` another."""
    return _names_a_space(mutant)


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
