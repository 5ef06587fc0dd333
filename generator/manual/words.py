"""Words of a boat: the fixed list of slots that steps may print, each filled from the vessel's own description.

A slot is filled by a Word, by words put together, or by what is Missing; what she has not got at all leaves it out. None
is text yet: a printer says it in its language.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING, Self, cast

from generator.manual.facts import Aboard, gear_called
from generator.reading.findings import Place
from generator.reading.values import NotKnown
from generator.shelves.gear import gear_names
from generator.vessel.fittings import Located
from generator.vessel.gear import Pump, Stop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from generator.manual.inventory import Item
    from generator.manual.printing import Printer, Situated
    from generator.reading.block import Block
    from generator.vessel.radio import Beacon, RadioSet
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Missing:
    """A word the file does not give: which key would, and where it belongs."""

    key: str
    place: Place


@dataclass(frozen=True, eq=False)
class Word:
    """What a step prints of the boat's own: the value under a key of a block, of "where" the whole place."""

    block: Block
    name: str

    @property
    def key(self) -> str:
        """The key path it comes from."""
        return f"{self.block.path}.{_key(self.name)}".lstrip(".")

    @property
    def place(self) -> Place:
        """Where that stands."""
        return self.block.place(_key(self.name))

    def said_by(self, printer: Printer) -> str:
        """The word in a language."""
        if self.name != WHERE:
            return printer.in_step(self.block, self.name)
        return printer.whereabouts(cast("Situated", self.block))


@dataclass(frozen=True, eq=False)
class Several:
    """Words one after the other, each said once."""

    words: tuple[Word, ...]

    @property
    def first(self) -> Word:
        """The first of them, which stands for all where one place must be named."""
        return self.words[0]

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        return "; ".join(dict.fromkeys(word.said_by(printer) for word in self.words))


@dataclass(frozen=True, eq=False)
class Rafts:
    """The rafts by their names."""

    rafts: tuple[Raft, ...]

    def said_by(self, printer: Printer) -> str:
        """The names in a row."""
        return printer.in_a_row([str(raft.name) for raft in self.rafts])


@dataclass(frozen=True, eq=False)
class Crews:
    """Every raft with who goes into it."""

    rafts: tuple[Raft, ...]

    def said_by(self, printer: Printer) -> str:
        """One sentence a raft."""
        return " ".join(
            printer.crew(str(raft.name), Word(raft, "carries").said_by(printer)) for raft in self.rafts
        )


class Printed(str):
    """A word as a step prints it, with the key it comes from and where that stands; neither where it is put together."""

    __slots__ = ("key", "place")

    key: str
    place: Place | None

    def __new__(cls, text: str, word: Word | None = None) -> Self:
        """A plain text for whoever prints it."""
        made = super().__new__(cls, text)
        made.key, made.place = (word.key, word.place) if word is not None else ("", None)
        return made


Said = Word | Several | Rafts | Crews | Missing
WHERE = "where"


def printed(words: Mapping[str, Said], printer: Printer) -> dict[str, Printed | Missing]:
    """The words in a language; what is missing stays so."""
    return {
        slot: said if isinstance(said, Missing) else _printed(said, printer) for slot, said in words.items()
    }


def _printed(said: Word | Several | Rafts | Crews, printer: Printer) -> Printed:
    source = said if isinstance(said, Word) else said.first if isinstance(said, Several) else None
    return Printed(said.said_by(printer), source)


def _key(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


@dataclass(frozen=True)
class Slot:
    """A word of the vessel by the name of its slot, and how it is found; None where she has nothing of the kind."""

    name: str
    said: Callable[[Aboard], Said | None]


@dataclass(frozen=True)
class RaftSlot:
    """A word of one raft by the name of its slot, and how it is found."""

    name: str
    said: Callable[[Raft], Said]


def words_of(vessel: Vessel, items: tuple[Item, ...], raft: Raft | None = None) -> dict[str, Said]:
    """The words a step may print, by slot; Missing where the file does not give one."""
    aboard = Aboard(vessel, items)
    words = {slot.name: said for slot in vessel_words() if (said := slot.said(aboard)) is not None}
    return words | raft_words_of(raft) if raft is not None else words


def raft_words_of(raft: Raft) -> dict[str, Said]:
    """The words of one raft by slot."""
    return {slot.name: slot.said(raft) for slot in RAFT_WORDS}


def vessel_words() -> tuple[Slot, ...]:
    """Every slot of a vessel; those of stops, pumps and gear are as many as there are kinds of them."""
    return _vessel_words(gear_names())


@functools.lru_cache(maxsize=64)
def _vessel_words(gear_kinds: tuple[str, ...]) -> tuple[Slot, ...]:
    return (*_VESSEL, *_beacons(), *_stops(), *_pumps(), *(_gear(name) for name in gear_kinds))


def _set(kind: str, name: str) -> Callable[[Aboard], Said | None]:
    """A value of the first radio of a kind; its place where `name` is "where"."""

    def said(aboard: Aboard) -> Said | None:
        first: RadioSet | None = next((each for each in aboard.sets if each.kind == kind), None)
        return None if first is None else _given(first, name)

    return said


def _beacons() -> Iterator[Slot]:
    kinds = {
        "EPIRB": "epirb",
        "PLB": "plb",
        "SART": "sart",
        "AIS man-overboard device": "man-overboard-device",
    }
    for kind, slot in kinds.items():
        for ending, name in (("", "what"), ("-place", "where"), ("-use", "use")):
            yield Slot(slot + ending, _beacon(kind, name))


def _beacon(kind: str, name: str) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        first: Beacon | None = next((each for each in aboard.beacons if each.kind == kind), None)
        return None if first is None else _given(first, name)

    return said


def _stops() -> Iterator[Slot]:
    for what in Stop.what.choices:
        yield Slot(f"{what} stop place", _stop(what, lambda stops: _and(map(_where, stops))))
        yield Slot(f"{what} stop how", _stop(what, lambda stops: _and(_given(each, "how") for each in stops)))


def _stop(what: str, told: Callable[[list[Stop]], Said]) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        found = [stop for stop in aboard.vessel.stops if stop.what == what]
        return told(found) if found else None

    return said


def _pumps() -> Iterator[Slot]:
    for power in Pump.power.choices:
        yield Slot(f"{power} pump", _pump(power, lambda pumps: _given(pumps[0], "what")))
        yield Slot(f"{power} pump place", _pump(power, lambda pumps: _and(map(_where, pumps))))
        yield Slot(
            f"{power} pump handle", _pump(power, lambda pumps: _and(_given(each, "handle") for each in pumps))
        )


def _pump(power: str, told: Callable[[list[Pump]], Said]) -> Callable[[Aboard], Said | None]:
    def said(aboard: Aboard) -> Said | None:
        found = aboard.pumps(power)
        return told(found) if found else None

    return said


def _acted_on(block: Block) -> Said:
    """Where a hand acts on a thing: where it is released, if the file says so, else where it is."""
    released = block.__dict__.get("released_from")
    return _given(block, "released_from") if isinstance(released, Located) else _where(block)


def _gear(name: str) -> Slot:
    def said(aboard: Aboard) -> Said | None:
        found = gear_called(aboard.items, name)
        return _and(_acted_on(item.block) for item in found) if found else None

    return Slot(f"place of {name}", said)


def _rafts(aboard: Aboard) -> Said:
    rafts = aboard.vessel.rafts
    return Rafts(tuple(rafts)) if rafts else Missing("rafts", aboard.vessel.place("rafts"))


def _crew(raft: Raft) -> Said:
    """Who goes into a raft, as listed, or Missing."""
    if not raft.carries or isinstance(raft.carries, NotKnown):
        return Missing(f"{raft.path}.carries", raft.place("carries"))
    return Word(raft, "carries")


def _crews(aboard: Aboard) -> Said:
    """Every raft with who goes into it, or Missing."""
    rafts = tuple(aboard.vessel.rafts)
    return next((lost for raft in rafts if isinstance(lost := _crew(raft), Missing)), Crews(rafts))


def _given(block: Block | None, name: str, parent: Block | None = None, parent_key: str = "") -> Said:
    """A value as a step prints it, or Missing."""
    key = _key(name)
    if block is None:
        place = parent.place(parent_key) if parent is not None else Place("vessel.yaml")
        return Missing(f"{parent_key}.{key}".lstrip("."), place)
    value = getattr(block, name)
    if value is None or isinstance(value, NotKnown) or value == "":
        return Missing(f"{block.path}.{key}".lstrip("."), block.place(key))
    return Word(block, name)


def _where(block: Block) -> Said:
    """Space, side and spot of a thing, or Missing."""
    return _given(block, WHERE)


def _and(parts: Iterable[Said]) -> Said:
    """Several places one after the other; Missing if one is missing."""
    found = list(parts)
    lost = next((part for part in found if isinstance(part, Missing)), None)
    return lost or Several(tuple(part for part in found if isinstance(part, Word)))


_VESSEL = (
    Slot("boat", lambda aboard: _given(aboard.one, "name")),
    Slot("persons", lambda aboard: _given(aboard.one, "persons")),
    Slot("muster-place", lambda aboard: _given(aboard.one, "muster_place")),
    Slot("general-alarm", lambda aboard: _given(aboard.one, "general_alarm")),
    Slot("abandon-order", lambda aboard: _given(aboard.one, "abandon_order")),
    Slot("call-sign", lambda aboard: _given(aboard.vessel.radio, "call_sign")),
    Slot("mmsi", lambda aboard: _given(aboard.vessel.radio, "mmsi")),
    Slot("rafts", _rafts),
    Slot("first raft", lambda aboard: _given(aboard.first_raft, "name")),
    Slot("raft crews", _crews),
    Slot("ladder", lambda aboard: _recovery(aboard, "ladder")),
    Slot("hoist", lambda aboard: _recovery(aboard, "hoist")),
    Slot("hoist-side", lambda aboard: _recovery(aboard, "side")),
    Slot("hoist-place", lambda aboard: _recovery(aboard, "place_")),
    Slot("vhf", _set("VHF", "what")),
    Slot("vhf-place", _set("VHF", "where")),
    Slot("distress-button", _set("VHF", "distress_button")),
    Slot("vhf-power", _set("VHF", "power")),
    Slot("vhf-position", _set("VHF", "position_shown")),
    Slot("handheld", _set("handheld VHF", "what")),
    Slot("handheld-place", _set("handheld VHF", "where")),
    Slot("handheld-button", _set("handheld VHF", "distress_button")),
    Slot("handheld-power", _set("handheld VHF", "power")),
    Slot("grab-bag-place", lambda aboard: _all_places(aboard.vessel.grab_bags)),
    Slot("grab-bag-carrier", lambda aboard: _of_first(aboard.vessel.grab_bags, "carried_by")),
    Slot("lifejackets-place", lambda aboard: _all_places(aboard.vessel.lifejackets)),
    Slot("fire-port", lambda aboard: _given(aboard.one, "fire_port_place")),
    Slot("gas-bottles", lambda aboard: _of_first([aboard.vessel.gas], "bottles")),
    Slot("tiller-place", lambda aboard: _of_first([aboard.vessel.steering], "emergency_tiller")),
    Slot("tiller-fits", lambda aboard: _of_first([aboard.vessel.steering], "fits")),
)


def _recovery(aboard: Aboard, name: str) -> Said:
    return _given(aboard.vessel.recovery, name, aboard.vessel, "recovery")


def _all_places(blocks: Iterable[Block]) -> Said | None:
    found = list(blocks)
    return _and(map(_where, found)) if found else None


def _of_first(blocks: Iterable[Block | None], name: str) -> Said | None:
    first = next(iter(blocks), None)
    return None if first is None else _given(first, name)


RAFT_WORDS = (
    RaftSlot("raft", lambda raft: _given(raft, "name")),
    RaftSlot("raft-place", _where),
    RaftSlot("raft-persons", lambda raft: _given(raft, "persons")),
    RaftSlot("raft crew", _crew),
    RaftSlot("strong-point", lambda raft: _given(raft, "strong_point")),
    RaftSlot("launch-from", lambda raft: _given(raft, "launch_from")),
    RaftSlot("board-from", lambda raft: _given(raft, "board_from")),
    RaftSlot("knife", lambda raft: _given(raft, "knife")),
    RaftSlot("painter-length", lambda raft: _given(raft.painter, "length", raft, "painter")),
    RaftSlot("release-depth", lambda raft: _given(raft.release, "depth", raft, "release")),
    RaftSlot("righting", lambda raft: _given(raft, "righting")),
)
