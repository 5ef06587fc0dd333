"""Words of a boat: the fixed list of slots that steps may print, each filled from the vessel's own description.

A slot is filled by a Word, by words put together, or by what is Missing; what she has not got at all leaves it out.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual import fitting_facts
from generator.manual.alarms import alarms_for
from generator.manual.crew import several_in_command
from generator.manual.dinghy import dinghy_words
from generator.manual.extinguishing import FLOODS, acted_on, handles, of_co2, told_apart
from generator.manual.facts import Aboard, gear_called
from generator.manual.handling_words import handling_words
from generator.manual.party_words import beacon_word, brings_word, loads_word, moves_word, over_word
from generator.manual.radio_words import radio_words
from generator.manual.said import (
    WHOLE,
    Alarms,
    AtSide,
    Commander,
    Driven,
    Missing,
    NextInCommand,
    Opened,
    Rafts,
    Said,
    Several,
    Word,
    all_of,
    brought,
    crew_word,
    crews_word,
    given_word,
    jackets_word,
    knife_word,
    place_word,
)
from generator.manual.stop_words import stop_words
from generator.manual.wearing import everybody_wears_theirs
from generator.shelves.gear import gear_names
from generator.vessel.alarms import Alarm
from generator.vessel.gear import Gear, does
from generator.vessel.installed import Pump
from generator.vessel.medical import Medical

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from generator.manual.inventory import Item
    from generator.reading.block import Block
    from generator.vessel.capsize import Capsize
    from generator.vessel.deck import Hatch
    from generator.vessel.radio import Beacon
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Slot:
    """A word of the vessel by the name of its slot, and how it is found; None where she has nothing of the kind."""

    name: str
    said: Callable[[Aboard], Said | None]


@dataclass(frozen=True)
class RaftSlot:
    """A word of one raft by the name of its slot, and how it is found."""

    name: str
    said: Callable[[Raft, Vessel], Said]


def words_of(vessel: Vessel, items: tuple[Item, ...], raft: Raft | None = None) -> dict[str, Said]:
    """The words a step may print, by slot; Missing where the file does not give one."""
    aboard = Aboard(vessel, items)
    words = {slot.name: said for slot in vessel_words() if (said := slot.said(aboard)) is not None}
    return words | raft_words_of(raft, vessel) if raft is not None else words


def raft_words_of(raft: Raft, vessel: Vessel) -> dict[str, Said]:
    """The words of one raft of a vessel by slot."""
    return {slot.name: slot.said(raft, vessel) for slot in RAFT_WORDS}


def vessel_words() -> tuple[Slot, ...]:
    """Every slot of a vessel; those of stops, pumps and gear are as many as there are kinds of them."""
    return _vessel_words(gear_names())


@functools.lru_cache(maxsize=64)
def _vessel_words(gear_kinds: tuple[str, ...]) -> tuple[Slot, ...]:
    return (
        *_VESSEL,
        *_UPSIDE_DOWN,
        *_beacons(),
        *_stops(),
        *_pumps(),
        *_alarms(),
        *(_gear(name) for name in gear_kinds),
    )


BEACONS = {
    "EPIRB": "epirb",
    "PLB": "plb",
    "SART": "sart",
    "AIS man-overboard device": "man-overboard-device",
}
"""By the kind of a beacon: how the slots of its words begin."""
_ON_THE_BODY = "PLB"


def carrier_of(place: str, vessel: Vessel) -> str:
    """The role that carries on the body what is at the place of a step, and so alone can switch it on; "" where nobody does."""
    beacons = vessel.radio.beacons if vessel.radio else ()
    first = next((each for each in beacons if each.kind == _ON_THE_BODY), None)
    if first is None or place != f"{BEACONS[_ON_THE_BODY]}-place":
        return ""
    role = first.carried_by
    return role if isinstance(role, str) and any(person.role == role for person in vessel.people) else ""


def _beacons() -> Iterator[Slot]:
    for kind, slot in BEACONS.items():
        for ending, name in (("", "what"), ("-place", "where"), ("-use", "use")):
            yield Slot(slot + ending, _beacon(kind, name))


def _beacon(kind: str, name: str) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        first: Beacon | None = next((each for each in aboard.beacons if each.kind == kind), None)
        return None if first is None else given_word(first, name)

    return said


def _stops() -> Iterator[Slot]:
    for name, said in stop_words():
        yield Slot(name, _of_vessel(said))


def _of_vessel(said: Callable[[Vessel], Said | None]) -> Callable[[Aboard], Said | None]:
    return lambda aboard: said(aboard.vessel)


def _places(blocks: Iterable[Block]) -> Said:
    return all_of(map(place_word, blocks))


def _pumps() -> Iterator[Slot]:
    for power in Pump.power.choices:
        yield Slot(f"{power} pump", _pump(power, lambda pumps: given_word(pumps[0], "what")))
        yield Slot(f"{power} pump place", _pump(power, lambda pumps: all_of(map(place_word, pumps))))
        yield Slot(
            f"{power} pump handle",
            _pump(power, lambda pumps: all_of(_handle(each) for each in pumps)),
        )

    yield Slot("deck pump", _deck_pump(lambda pumps: all_of(given_word(each, "what") for each in pumps)))
    yield Slot("deck pump place", _deck_pump(_places))


def _deck_pump(told: Callable[[list[Pump]], Said]) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        found = fitting_facts.deck_pumps(aboard.vessel)
        return told(found) if found else None

    return said


def _alarms() -> Iterator[Slot]:
    for what in Alarm.what.choices:
        yield Slot(f"{what} alarm told", _alarm(what, _told_of_alarms))
        yield Slot(f"{what} alarm place", _alarm(what, _places))


def _alarm(what: str, told: Callable[[list[Alarm]], Said]) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        found = alarms_for(aboard.vessel, what)
        return told(found) if found else None

    return said


def _told_of_alarms(alarms: list[Alarm]) -> Said:
    """What alarms of a kind listen to, and where they sound besides."""
    lost = next((place for each in alarms if isinstance(place := place_word(each), Missing)), None)
    return lost or Alarms(tuple(alarms))


def _pump(power: str, told: Callable[[list[Pump]], Said]) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        found = aboard.pumps(power)
        return told(found) if found else None

    return said


def _handle(pump: Pump) -> Said:
    """Where what works a pump is: at the pump itself, where there is nothing apart from it."""
    return place_word(pump) if pump.says_none("handle") else given_word(pump, "handle")


def _gear(name: str) -> Slot:
    def said(aboard: Aboard) -> Said | None:
        blocks = [item.block for item in gear_called(aboard.items, name)]
        blocks.sort(
            key=lambda each: not each.known("let_go") if isinstance(each, Gear) else True
        )  # what is let go as it lies comes first
        floods = [each for each in blocks if isinstance(each, Gear) and does(each, FLOODS)]
        if floods == blocks and told_apart(floods):
            return handles(floods)
        return all_of(map(acted_on, blocks)) if blocks else None

    return Slot(f"place of {name}", said)


def _rafts(aboard: Aboard) -> Said:
    rafts = aboard.vessel.rafts
    return Rafts(tuple(rafts)) if rafts else Missing("rafts", aboard.vessel.place("rafts"))


def _lifejackets(aboard: Aboard) -> Said | None:
    """Where lifejackets are fetched; nowhere if everybody wears one."""
    told = aboard.vessel.lifejackets
    return jackets_word(told) if told and not everybody_wears_theirs(aboard.vessel) else None


def _hoisted_from(aboard: Aboard) -> Said:
    """Where the hoisting crew stands, with the side over which a person comes aboard."""
    place = _recovery(aboard, "place_")
    return AtSide(place.block, place.name) if isinstance(place, Word) else place


def _next_in_command(aboard: Aboard) -> Said | None:
    people = aboard.vessel.people
    return NextInCommand(tuple(people)) if several_in_command(people) else None


def _medical_advice(aboard: Aboard) -> Said | None:
    """Where medical advice is asked for by radio: the channel of whoever gives it; a telephone number is not for everybody to read."""
    found = (
        each for each in aboard.vessel.contacts if each.kind == "medical advice" and each.known("channel")
    )
    medical = aboard.vessel.medical
    told = medical if isinstance(medical, Medical) and medical.known("advice") else None
    return _of_first(found, "channel") or _of_first([told], "advice")


_VESSEL = (
    Slot("boat", lambda aboard: given_word(aboard.one, "name")),
    Slot("commander", lambda aboard: Commander(tuple(aboard.vessel.people))),
    Slot("second in command", _next_in_command),
    Slot("medical-advice", _medical_advice),
    Slot("persons", lambda aboard: given_word(aboard.one, "persons")),
    Slot("muster-place", lambda aboard: given_word(aboard.one, "muster_place")),
    Slot("general-alarm", lambda aboard: given_word(aboard.one, "general_alarm")),
    Slot("abandon-order", lambda aboard: given_word(aboard.one, "abandon_order")),
    Slot("call-sign", lambda aboard: given_word(aboard.vessel.radio, "call_sign")),
    Slot("mmsi", lambda aboard: given_word(aboard.vessel.radio, "mmsi")),
    Slot("rafts", _rafts),
    Slot("first raft", lambda aboard: given_word(aboard.first_raft, "name")),
    Slot("raft crews", lambda aboard: crews_word(aboard.vessel.rafts, aboard.vessel.people)),
    Slot("ladder", lambda aboard: _recovery(aboard, "ladder")),
    Slot("hoist", lambda aboard: _recovery(aboard, "hoist")),
    Slot("hoist-side", lambda aboard: _recovery(aboard, "side")),
    Slot("hoist-place", _hoisted_from),
    *(Slot(name, _of_vessel(said)) for name, said in (*radio_words(), *handling_words(), *dinghy_words())),
    Slot("grab-bag-place", lambda aboard: _all_places(aboard.vessel.grab_bags)),
    Slot("grab-bag-carrier", lambda aboard: _of_first(aboard.vessel.grab_bags, "carried_by")),
    Slot("lifejackets-place", _lifejackets),
    Slot("co2-serves", lambda aboard: of_co2(aboard.vessel)),
    Slot("fire-port", lambda aboard: given_word(aboard.one, "fire_port_place")),
    Slot("gas-bottles", lambda aboard: _of_first([aboard.vessel.gas], "bottles")),
    Slot("tiller-place", lambda aboard: _of_first([aboard.vessel.steering], "emergency_tiller")),
    Slot("tiller-fits", lambda aboard: _of_first([aboard.vessel.steering], "fits")),
)


def _wholes(found: Iterable[Block]) -> Said | None:
    words = tuple(Word(each, WHOLE) for each in found)
    return Several(words) if words else None


def _capsize(name: str) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        block: Capsize | None = aboard.vessel.capsize
        return None if block is None else given_word(block, name)

    return said


def _gate(name: str) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        gate = aboard.vessel.recovery.gate if aboard.vessel.recovery is not None else None
        return None if gate is None else Word(gate, WHOLE) if name == WHOLE else given_word(gate, name)

    return said


def _ways_out(found: Iterable[Hatch]) -> Said | None:
    words = tuple(Word(each, "where") for each in found)
    return Several(words) if words else None


def _ways_out_opened(found: Sequence[Hatch]) -> Said | None:
    """How each way out is opened; of several that open otherwise, each behind its place."""
    words = [given_word(each, "how") for each in found]
    if len({str(each.how) for each in found}) > 1:
        words = [Opened(each.block, each.name) if isinstance(each, Word) else each for each in words]
    return all_of(words) if found else None


def _drives(aboard: Aboard) -> Said | None:
    found = [Driven(each, "what") for each in fitting_facts.driven(aboard.vessel)]
    return Several(tuple(found)) if found else None


_UPSIDE_DOWN = (
    Slot("swamped", _capsize("swamped")),
    Slot("righted-how", _capsize("righted_how")),
    Slot("inverted hold", lambda aboard: _wholes(fitting_facts.to_hold_on_to(aboard.vessel))),
    Slot("inverted reach", lambda aboard: _wholes(fitting_facts.reached_inverted(aboard.vessel))),
    Slot("inverted way out", lambda aboard: _ways_out(fitting_facts.ways_out_inverted(aboard.vessel))),
    Slot(
        "inverted way out how",
        lambda aboard: _ways_out_opened(fitting_facts.ways_out_inverted(aboard.vessel)),
    ),
    Slot("ways out", lambda aboard: _ways_out(fitting_facts.ways_out(aboard.vessel))),
    Slot("ways in", lambda aboard: _ways_out(fitting_facts.ways_in(aboard.vessel))),
    Slot("ways out how", lambda aboard: _ways_out_opened(fitting_facts.ways_out(aboard.vessel))),
    Slot("to bring", lambda aboard: brought(fitting_facts.things_to_bring(aboard.vessel))),
    Slot("recovery-gate", _gate(WHOLE)),
    Slot("recovery-gate-how", _gate("how")),
    Slot("drives", _drives),
    Slot("spare kill cord", lambda aboard: _wholes(fitting_facts.spare_kill_cords(aboard.vessel))),
)


def _recovery(aboard: Aboard, name: str) -> Said:
    return given_word(aboard.vessel.recovery, name, aboard.vessel, "recovery")


def _all_places(blocks: Iterable[Block]) -> Said | None:
    found = list(blocks)
    return all_of(map(place_word, found)) if found else None


def _of_first(blocks: Iterable[Block | None], name: str) -> Said | None:
    first = next(iter(blocks), None)
    return None if first is None else given_word(first, name)


RAFT_WORDS = (
    RaftSlot("raft", lambda raft, _: given_word(raft, "name")),
    RaftSlot("raft-place", lambda raft, _: place_word(raft)),
    RaftSlot("raft-persons", lambda raft, _: given_word(raft, "persons")),
    RaftSlot("raft crew", lambda raft, vessel: crew_word(raft, vessel.people)),
    RaftSlot("raft moves", moves_word),
    RaftSlot("raft loads", loads_word),
    RaftSlot("raft over", over_word),
    RaftSlot("raft brings", brings_word),
    RaftSlot("raft beacon", beacon_word),
    RaftSlot("raft-beacon-place", lambda raft, vessel: beacon_word(raft, vessel, "where")),
    RaftSlot("raft-beacon-use", lambda raft, vessel: beacon_word(raft, vessel, "use")),
    RaftSlot("strong-point", lambda raft, _: given_word(raft, "strong_point")),
    RaftSlot("launch-from", lambda raft, _: given_word(raft, "launch_from")),
    RaftSlot("board-from", lambda raft, _: given_word(raft, "board_from")),
    RaftSlot("launch-gate", lambda raft, _: given_word(raft, "launch_from")),
    RaftSlot("launch-gate-how", lambda raft, _: given_word(raft.launch_from, "how")),
    RaftSlot("board-gate", lambda raft, _: given_word(raft, "board_from")),
    RaftSlot("board-gate-how", lambda raft, _: given_word(raft.board_from, "how")),
    RaftSlot("knife", lambda raft, _: knife_word(raft)),
    RaftSlot("painter-length", lambda raft, _: given_word(raft.painter, "length", raft, "painter")),
    RaftSlot("release-depth", lambda raft, _: given_word(raft.release, "depth", raft, "release")),
    RaftSlot("righting", lambda raft, _: given_word(raft, "righting")),
)
