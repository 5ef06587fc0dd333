"""The vessel file as a whole: its blocks in their order, what saves lives first."""

from collections.abc import Mapping as Map
from collections.abc import Sequence
from pathlib import Path
from types import MappingProxyType

from generator.reading.block import Block
from generator.reading.fields import CHECKED, OPEN, Digits, Many, Named, One, Plain
from generator.reading.findings import Place
from generator.shelves.gear import EVERY_PROPERTY
from generator.vessel.alarms import Alarm
from generator.vessel.base import Base
from generator.vessel.capsize import Capsize
from generator.vessel.confines import Confines
from generator.vessel.deck import Deck, Hatch
from generator.vessel.gear import Gear, GrabBag, Lifejackets, Recovery, Tender, gear_kind
from generator.vessel.installed import Battery, Engine, Gas, Pump, Stop, ThroughHull
from generator.vessel.medical import Medical
from generator.vessel.particulars import (
    Contact,
    Deferred,
    Drill,
    Note,
    Particulars,
    Posted,
    Signed,
    Specimen,
    Steering,
)
from generator.vessel.people import Assignment, Person, Voyage
from generator.vessel.radio import Radio
from generator.vessel.raft import Raft
from generator.vessel.watches import Watch

FORMAT = "1"
# What one vessel alone can say; a class file that said it would say it of her sisters too.
OWN_KEYS = ("specimen", "checked-aboard", "approved", "drills", "posted", "deferred-defects")


class Vessel(Block):
    """One vessel, as described.

    `folder`, `confines` and `slug` come from where the file lies.
    """

    format = Digits("Which format has the file?", r"[0-9]+", "a whole number", required=True, example=FORMAT)
    based_on = Plain("On which class file is she based?")
    base = Plain(
        "Which base file tells of the base that lets her out or looks after her? (none where there is none)",
        unknown=OPEN,
    )
    specimen = One(Specimen, "Is this a demo vessel?", unknown=OPEN)
    checked_aboard = One(Signed, "Who walked round the boat with this description?", unknown=OPEN)
    approved = One(Signed, "Who approved it?", unknown=OPEN)
    vessel = One(Particulars, "What is she?", required=True)
    rafts = Many(Raft, "Which liferafts has she?", most=12)
    people = Many(Person, "Which roles are aboard?", required=True, most=100)
    watches = Many(Watch, "Which watches are kept on passage, if any?", unknown=OPEN, most=24)
    radio = One(Radio, "How does she call for help?", required=True, may_be_none=True)
    station_bill = Named(
        Named(Assignment, "Who does this duty?", most=60), "Who does what in each emergency?", most=40
    )
    grab_bags = Many(GrabBag, "Which grab bags has she?", most=12)
    lifejackets = Many(Lifejackets, "Which lifejackets has she?", required=True, most=40)
    recovery = One(Recovery, "How does somebody get back aboard?")
    tender = One(Tender, "Which dinghy has she?", unknown=OPEN)
    engines = Many(Engine, "Which engines has she, if more than one?", unknown=OPEN, most=12)
    stops = Many(
        Stop, "Where are the engine stop, the fuel and gas shut-offs, the battery switches?", most=40
    )
    gas = One(Gas, "Which cooking gas has she?")
    steering = One(Steering, "How is she steered when the wheel is dead?")
    escape = Many(Hatch, "Which hatches are ways out?", most=60)
    alarms = Many(Alarm, "Which alarms sound by themselves, and where?", unknown=CHECKED, most=60)
    capsize = One(
        Capsize, "How does she lie full of water or upside down, and what serves then?", unknown=CHECKED
    )
    contacts = Many(Contact, "Who is called?", unknown=CHECKED, most=60)
    deck = One(Deck, "Where does her plan differ from the preset?", unknown=OPEN)
    batteries = Many(Battery, "Where are the batteries?", most=40)
    pumps = Many(Pump, "Which bilge pumps has she?", most=40)
    through_hulls = Many(ThroughHull, "Which holes has the hull?", most=100)
    gear = Many(Gear, "What else is aboard, and where?", required=True, most=400)
    notes = Many(Note, "What of your own stands beside a procedure?", unknown=OPEN, most=60)
    drills = Many(Drill, "Which drills were held?", unknown=OPEN, most=200)
    posted = Many(Posted, "Which cards hang aboard?", unknown=OPEN, most=60)
    deferred_defects = Many(Deferred, "With which findings does she knowingly sail?", most=100)
    medical = One(Medical, "Where is the medical chest, and who may open it?", unknown=OPEN)
    voyage: Voyage | None = None  # from voyage.yaml
    charter_base: Base | None = None  # from the base file
    base_file: Path | None = None  # the base file that was read, its links resolved
    slug = ""  # the name of the folder the file lies in
    folder: Path | None = None  # where the file lies, and the photos it names
    confines: Confines | None = None  # under which folder all of it must lie
    class_file: Path | None = None  # the class file that was read, its links resolved
    unasked: Map[str, str] = MappingProxyType({})  # of private.yaml, by their keys: lines nothing asks for
    unread: Map[str, Place] = MappingProxyType({})  # by key path: what could not be read, or must be there
    class_lost = False  # whether a class file is named that could not be read
    lacks_private = False  # whether a value stands as `private` with no private.yaml to fill it

    def gear_that(self, *any_of: str) -> Sequence[Gear]:
        """Her gear of the kinds that have one of these properties, in the order of the file; LookupError where there is no such property."""
        sorted_out: _SortedOut | None = self.__dict__.get("_gear_that")
        if (
            sorted_out is None or sorted_out[0] is not self.gear
        ):  # a reader's copy of her has a list of its own
            sorted_out = self.__dict__["_gear_that"] = (self.gear, _by_property(self.gear))
        _, found = sorted_out
        if any_of not in found:
            for what in any_of:
                if what not in EVERY_PROPERTY:
                    raise LookupError(f"there is no property '{what}' of gear")
            meant = {id(item) for what in any_of for item in found.get((what,), ())}
            found[any_of] = [item for item in self.gear if id(item) in meant] if meant else []
        return found[any_of]


_SortedOut = tuple[Sequence[Gear], dict[tuple[str, ...], list[Gear]]]
"""A gear list, and by properties what of it has one of them."""


def _by_property(gear: Sequence[Gear]) -> dict[tuple[str, ...], list[Gear]]:
    """By each property of the shelf of gear the things of kinds that have it."""
    found: dict[tuple[str, ...], list[Gear]] = {}
    for item in gear:
        kind = gear_kind(item)
        for what in kind.properties if kind is not None else ():
            found.setdefault((what,), []).append(item)
    return found
