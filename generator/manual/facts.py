"""Facts and words of a boat: the fixed lists that procedures may name, each worked out from the vessel's description.

A fact is true or false; a word is what a step prints. A procedure file names them, it never holds an expression.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.findings import Place
from generator.reading.values import NotKnown
from generator.shelves.gear import gear_names, mentions
from generator.shelves.packs import brings_food, brings_water
from generator.shelves.stowages import float_free_containers, stowages
from generator.vessel.raft import HOLDS, STOWAGES

if TYPE_CHECKING:
    from generator.manual.inventory import Item


@dataclass(frozen=True)
class Missing:
    """A word the file does not give: which key would, and where it belongs."""

    key: str
    place: Place


class Word(str):
    """What a step prints of the boat's own, with the key it comes from and where that stands."""

    __slots__ = ("key", "place")

    def __new__(cls, text: str, key: str, place: Place):
        """A word; it is a plain text for whoever prints it."""
        word = super().__new__(cls, text)
        word.key, word.place = key, place
        return word


def gear_called(items: Iterable[Item], name: str) -> list[Item]:
    """The items of the gear list that are `name`, or serve as that."""
    asked = name.lower()
    return [item for item in items if asked in item.answers_to]


def facts_of(vessel, items) -> dict[str, bool]:
    """The facts of the vessel by name."""
    one, radio = vessel.vessel, vessel.radio
    sets, beacons = (radio.sets, radio.beacons) if radio else ((), ())
    kinds = {beacon.kind for beacon in beacons}
    stops = {stop.what for stop in vessel.stops}
    recovery = vessel.recovery
    facts = {
        "multihull": one.hull.multihull is True,
        "sails": bool(one.rig) and one.rig != "none",
        "engine": one.engine not in (None, "none"),
        "inboard engine": str(one.engine).startswith("inboard"),
        "petrol": one.engine in ("inboard petrol", "outboard"),
        "cold waters": one.climate in ("cold", "polar"),
        "charter": one.use == "charter",
        "raft": bool(vessel.rafts),
        "several rafts": len(vessel.rafts) > 1,
        "raft below": any(raft.stowage == "below deck" for raft in vessel.rafts),
        "pack with water": any(brings_water(raft.pack) for raft in vessel.rafts),
        "food aboard": _food(vessel),
        "raft order": _first_raft(vessel) is not None,
        "several persons": bool(one.persons) and one.persons > 1,
        "two persons": one.persons == 2,
        "call sign": bool(radio) and radio.call_sign is not None,
        "mmsi": bool(radio) and radio.mmsi is not None,
        "dsc": any(each.dsc is True for each in sets),
        "fixed vhf": any(each.kind == "VHF" for each in sets),
        "fixed dsc": _with_dsc(sets, "VHF"),
        "handheld dsc": _with_dsc(sets, "handheld VHF"),
        "handheld vhf": any(each.kind == "handheld VHF" for each in sets),
        "mf/hf": any(each.kind == "MF/HF" for each in sets),
        "satellite telephone": any(each.kind == "satellite telephone" for each in sets),
        "epirb": "EPIRB" in kinds,
        "plb": "PLB" in kinds,
        "sart": "SART" in kinds,
        "man-overboard device": "AIS man-overboard device" in kinds,
        "grab bag": bool(vessel.grab_bags),
        "gas": bool(vessel.gas) and vessel.gas.fuel in ("butane", "propane"),
        "gas detector": bool(vessel.gas) and vessel.gas.detector is True,
        "lithium": any(each.chemistry == "lithium" for each in vessel.batteries),
        "ladder": bool(recovery) and bool(recovery.ladder),
        "ladder from the water": bool(recovery) and recovery.ladder_from_water is True,
        "hoist": bool(recovery) and bool(recovery.hoist),
        "hand pump": bool(_pumps(vessel, "hand")),
        "electric pump": bool(_pumps(vessel, "electric")),
        "several hand pumps": len(_pumps(vessel, "hand")) > 1,
        "several electric pumps": len(_pumps(vessel, "electric")) > 1,
        "through-hulls": bool(vessel.through_hulls),
        "needs help": any(person.needs_help for person in vessel.people),
    }
    for what in ("engine", "fuel", "gas", "batteries", "ventilation", "kill cord"):
        facts[f"{what} stop"] = what in stops
    there = frozenset().union(*(item.answers_to for item in items))
    facts |= {f"has {name}": name.lower() in there for name in gear_names()}
    return facts


def _food(vessel):
    """Whether a raft's pack or a grab bag holds food."""
    return any(brings_food(raft.pack) for raft in vessel.rafts) or any(
        mentions(item.what, "food") for bag in vessel.grab_bags for item in bag.items
    )


def _first_raft(vessel):
    """The raft that the file says is launched first; None where it leaves that to wind and side."""
    numbered = [raft for raft in vessel.rafts if isinstance(raft.first_to_launch, int)]
    return min(numbered, key=lambda raft: raft.first_to_launch) if numbered else None


def _pumps(vessel, power):
    """The bilge pumps driven by `power`."""
    return [each for each in vessel.pumps if each.power == power]


def _with_dsc(sets, kind):
    """Whether the first set of the kind, the one that steps speak of, makes a digital distress call."""
    return next((each.dsc is True for each in sets if each.kind == kind), False)


def raft_facts_of(raft) -> dict[str, bool]:
    """The facts of one raft by name; they join those of the vessel."""
    held = set(raft.held_by)
    facts = {stowage: raft.stowage == stowage for stowage in STOWAGES}
    facts |= {hold: hold in held for hold in HOLDS}
    facts |= {
        "canister": raft.container == "canister",
        "valise": raft.container == "valise",
        "nothing holds it": not held,
        "HRU only": held == {"HRU"},
        "painter on strong point": raft.painter is not None and raft.painter.fast_to == "strong point",
        "launch side named": _names_a_side(raft.launch_from),
        "float-free": float_free(raft),
        "lift": raft.lift_needed is not False,
        "ramp": raft.boarding in ("ramp", "ramp and ladder"),
        "boarding ladder": raft.boarding in ("ladder", "ramp and ladder"),
        "righting gear": raft.righting in ("strap", "ladder"),
        "cylinder side marked": raft.cylinder_side == "marked",
        "canopy": raft.canopy is True,
        "drogue by hand": raft.drogue != "streams itself",
        "single floor": raft.floor in (None, "single") or isinstance(raft.floor, NotKnown),
        "two entrances": bool(raft.entrances) and raft.entrances > 1,
        "food in the pack": brings_food(raft.pack),
    }
    return facts


def _names_a_side(place) -> bool:
    """Whether a place lies on one named side of the boat, so that nobody can choose lee or weather."""
    words = str(place).lower().replace(",", " ").split()
    return (
        ("port" in words or "starboard" in words)
        and not ("port" in words and "starboard" in words)
        and "lee" not in words
    )


def float_free(raft) -> bool:
    """Whether the raft is rigged to leave by itself: held by an HRU, or by nothing; its painter on a weak link."""
    free = "HRU" in raft.held_by or (
        not raft.held_by
        and raft.container in float_free_containers()
        and raft.stowage in STOWAGES
        and stowages()[raft.stowage].float_free == "yes"
    )
    return free and raft.painter is not None and raft.painter.fast_to == "weak link"


def words_of(vessel, items, raft=None) -> dict[str, object]:
    """The words a step may print, by slot; Missing where the file does not give one."""
    one, radio, recovery = vessel.vessel, vessel.radio, vessel.recovery
    words = {
        "boat": _given(one, "name"),
        "persons": _given(one, "persons"),
        "muster-place": _given(one, "muster_place"),
        "general-alarm": _given(one, "general_alarm"),
        "abandon-order": _given(one, "abandon_order"),
        "call-sign": _given(radio, "call_sign"),
        "mmsi": _given(radio, "mmsi"),
        "rafts": " and ".join(f"the {each.name}" for each in vessel.rafts)
        or Missing("rafts", vessel.place("rafts")),
        "first raft": _given(_first_raft(vessel), "name"),
        "raft crews": _crews(vessel),
        "ladder": _given(recovery, "ladder", vessel, "recovery"),
        "hoist": _given(recovery, "hoist", vessel, "recovery"),
        "hoist-side": _given(recovery, "side", vessel, "recovery"),
        "hoist-place": _given(recovery, "place_", vessel, "recovery"),
    }
    vhf = next((each for each in (radio.sets if radio else ()) if each.kind == "VHF"), None)
    if vhf:
        words |= {
            "vhf": _given(vhf, "what"),
            "vhf-place": _where(vhf),
            "distress-button": _given(vhf, "distress_button"),
            "vhf-power": _given(vhf, "power"),
        }
    for kind, slot in (
        ("EPIRB", "epirb"),
        ("PLB", "plb"),
        ("SART", "sart"),
        ("AIS man-overboard device", "man-overboard-device"),
    ):
        beacon = next((each for each in (radio.beacons if radio else ()) if each.kind == kind), None)
        if beacon:
            words |= {
                slot: _given(beacon, "what"),
                f"{slot}-place": _where(beacon),
                f"{slot}-use": _given(beacon, "use"),
            }
    handheld = next((each for each in (radio.sets if radio else ()) if each.kind == "handheld VHF"), None)
    if handheld:
        words |= {
            "handheld": _given(handheld, "what"),
            "handheld-place": _where(handheld),
            "handheld-button": _given(handheld, "distress_button"),
            "handheld-power": _given(handheld, "power"),
        }
    if vessel.grab_bags:
        words["grab-bag-place"] = _and(_where(bag) for bag in vessel.grab_bags)
        words["grab-bag-carrier"] = _given(vessel.grab_bags[0], "carried_by")
    for what in {stop.what for stop in vessel.stops if stop.what}:
        stops = [stop for stop in vessel.stops if stop.what == what]
        words[f"{what} stop place"] = _and(_where(stop) for stop in stops)
        words[f"{what} stop how"] = _given(stops[0], "how")
    for kind in ("hand", "electric", "engine"):
        pumps = _pumps(vessel, kind)
        if pumps:
            words |= {
                f"{kind} pump": _given(pumps[0], "what"),
                f"{kind} pump place": _and(map(_where, pumps)),
                f"{kind} pump handle": _and(_given(each, "handle") for each in pumps),
            }
    if vessel.lifejackets:
        words["lifejackets-place"] = _and(_where(each) for each in vessel.lifejackets)
    if vessel.gas:
        words["gas-bottles"] = _given(vessel.gas, "bottles")
    if vessel.steering:
        words |= {
            "tiller-place": _given(vessel.steering, "emergency_tiller"),
            "tiller-fits": _given(vessel.steering, "fits"),
        }
    for name in gear_names():
        found = gear_called(items, name)
        if found:
            words[f"place of {name}"] = _and(_where(item.block) for item in found)
    if raft is not None:
        words |= raft_words_of(raft)
    return words


def raft_words_of(raft) -> dict[str, object]:
    """The words of one raft by slot."""
    return {
        "raft": _given(raft, "name"),
        "raft-place": _where(raft),
        "raft-persons": _given(raft, "persons"),
        "raft crew": _crew(raft),
        "strong-point": _given(raft, "strong_point"),
        "launch-from": _given(raft, "launch_from"),
        "board-from": _given(raft, "board_from"),
        "knife": _given(raft, "knife"),
        "painter-length": _given(raft.painter, "length", raft, "painter"),
        "release-depth": _given(raft.release, "depth", raft, "release"),
        "righting": _given(raft, "righting"),
    }


def _given(block, name, parent=None, parent_key=""):
    """A value as a step prints it, or Missing."""
    key = name.rstrip("_").replace("_", "-")
    if block is None or isinstance(block, NotKnown):
        return Missing(
            f"{parent_key}.{key}".lstrip("."),
            parent.place(parent_key) if parent is not None else Place("vessel.yaml"),
        )
    value = getattr(block, name)
    if value is None or isinstance(value, NotKnown) or value == "":
        return Missing(f"{block.path}.{key}".lstrip("."), block.place(key))
    return Word(str(value), f"{block.path}.{key}".lstrip("."), block.place(key))


def _crew(raft):
    """Who goes into a raft, as listed, or Missing."""
    if not raft.carries or isinstance(raft.carries, NotKnown):
        return Missing(f"{raft.path}.carries", raft.place("carries"))
    return Word(", ".join(map(str, raft.carries)), f"{raft.path}.carries", raft.place("carries"))


def _crews(vessel):
    """Every raft with who goes into it, or Missing."""
    crews = [_crew(raft) for raft in vessel.rafts]
    lost = next((crew for crew in crews if isinstance(crew, Missing)), None)
    return lost or " ".join(
        f"{raft.name[:1].upper()}{raft.name[1:]}: {crew}."
        for raft, crew in zip(vessel.rafts, crews, strict=True)
    )


def _where(block):
    """Space, side and spot of a thing in words, or Missing."""
    where = _given(block, "where")
    if isinstance(where, Missing):
        return where
    side = block.side if block.side in ("port", "starboard") else ""
    if side and side in where:
        side = ""
    spot = getattr(block, "spot", "") or ""
    return Word(", ".join(part for part in (where, side, str(spot)) if part), where.key, where.place)


def _and(parts):
    """Several places one after the other; Missing if one is missing."""
    found = list(dict.fromkeys(parts))
    lost = next((part for part in found if isinstance(part, Missing)), None)
    return lost or (
        found[0] if len(found) == 1 else Word("; ".join(found), found[0].key, found[0].place) if found else ""
    )
