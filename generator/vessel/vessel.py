"""The vessel file as a whole: its blocks in their order, what saves lives first."""

from pathlib import Path

from generator.reading.block import Block
from generator.reading.fields import ESTIMATE, OPEN, Digits, Many, Named, One, Plain, Text
from generator.vessel.deck import Deck, Hatch
from generator.vessel.gear import (
    Battery,
    Engine,
    Gas,
    Gear,
    GrabBag,
    Lifejackets,
    Pump,
    Recovery,
    Stop,
    Tender,
    ThroughHull,
)
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

FORMAT = "1"
# What one vessel alone can say; a class file that said it would say it of her sisters too.
OWN_KEYS = ("specimen", "checked-aboard", "approved", "drills", "posted", "deferred-defects")


class Vessel(Block):
    """One vessel, as described.

    `folder` and `slug` come from where the file lies.
    """

    format = Digits("Which format has the file?", r"[0-9]+", "a whole number", required=True, example=FORMAT)
    based_on = Plain("On which class file is she based?")
    specimen = One(Specimen, "Is this a demo vessel?", unknown=OPEN)
    checked_aboard = One(Signed, "Who walked round the boat with this description?", unknown=OPEN)
    approved = One(Signed, "Who approved it?", unknown=OPEN)
    vessel = One(Particulars, "What is she?", required=True)
    rafts = Many(Raft, "Which liferafts has she?")
    people = Many(Person, "Which roles are aboard?", required=True)
    radio = One(Radio, "How does she call for help?", required=True)
    station_bill = Named(Named(Assignment, "Who does this duty?"), "Who does what in each emergency?")
    grab_bags = Many(GrabBag, "Which grab bags has she?")
    lifejackets = Many(Lifejackets, "Which lifejackets has she?", required=True)
    recovery = One(Recovery, "How does somebody get back aboard?")
    tender = One(Tender, "Which dinghy has she?", unknown=OPEN)
    engines = Many(Engine, "Which engines has she, if more than one?", unknown=OPEN)
    stops = Many(Stop, "Where are the engine stop, the fuel and gas shut-offs, the battery switches?")
    gas = One(Gas, "Which cooking gas has she?")
    steering = One(Steering, "How is she steered when the wheel is dead?")
    escape = Many(Hatch, "Which hatches are ways out?")
    contacts = Many(Contact, "Who is called?", unknown=ESTIMATE)
    deck = One(Deck, "Where does her plan differ from the preset?", unknown=ESTIMATE)
    batteries = Many(Battery, "Where are the batteries?")
    pumps = Many(Pump, "Which bilge pumps has she?")
    through_hulls = Many(ThroughHull, "Which holes has the hull?")
    gear = Many(Gear, "What else is aboard, and where?", required=True)
    notes = Many(Note, "What of your own stands beside a procedure?", unknown=OPEN)
    drills = Many(Drill, "Which drills were held?", unknown=OPEN)
    posted = Many(Posted, "Which cards hang aboard?", unknown=OPEN)
    deferred_defects = Many(Deferred, "With which findings does she knowingly sail?")
    medical = Text("Where is the medical chest, and who may open it?")
    voyage: Voyage | None = None  # from voyage.yaml
    slug = ""  # the name of the folder the file lies in
    folder: Path | None = None  # where the file lies, and the photos it names
    lacks_private = False  # whether a value stands as `private` with no private.yaml to fill it
