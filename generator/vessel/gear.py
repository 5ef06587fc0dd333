"""Gear: each thing with its place, its number and its dates; grab bag, lifejackets, what brings a person back aboard."""

from __future__ import annotations

from generator.reading.block import Block
from generator.reading.fields import (
    CHECKED,
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Dated,
    Digits,
    Many,
    One,
    Plain,
    Text,
    Texts,
    YesNo,
)
from generator.reading.measures import Count, Measure
from generator.reading.nearest import folded
from generator.reading.together import BOTH
from generator.reading.values import UNKNOWN
from generator.reading.worded import DOING, PLACE, ROLE, SPACE, THING, Worded
from generator.shelves.gear import EVERY_PROPERTY, Kind, kind_of
from generator.shelves.gear_rows import PURPOSES
from generator.vessel.deck import Point
from generator.vessel.fittings import SIDES, Fitting, Gate, Kept
from generator.vessel.lives import Made, own_lives
from generator.vessel.people import JACKETS

HOLDS = "holds her to the ground"
"""What an anchor does."""
CUTS = "cuts a line"
"""What a knife does, and whatever else frees her of a line under load."""
SLOWS = "slows her astern"
"""What a drogue does, which also steers her."""
LIFTS = "lifts a person by hand"
"""What gear does that rolls a helpless person aboard without a hoist."""
BROUGHT = "brought to somebody alongside"
"""What gear does that goes round a person at the side: sling, net."""
FIRST_MINUTES = "for the first minutes"
"""What gear is that nobody can wait for."""
WITHOUT_MAST = "an aerial without the mast"
"""What lets a fixed radio be heard when the mast is down."""
SUFFOCATES = "CO2"
"""Of what a fixed extinguisher sends out, that which kills whoever is in the space."""


TAKEN_ALONG = ("towed", "on deck", "in davits", "packed")
"""How a dinghy goes along: afloat behind her, ready on deck, hanging, or without its air in a locker."""
ALL = "all"
WORN = ("worn all the time", "worn at all times", "worn all the time on deck", "always worn", "worn")
"""What is said of lifejackets that are kept on people and in no space."""


class Placed(Block):
    """Anything with a place aboard."""

    where = Worded("In which space?", says=SPACE, required=True, unknown=NEEDED, example="cockpit")
    side = Choice("On which side?", SIDES, unknown=CHECKED)
    spot = Worded(
        "Exactly where in that space, in words that a hand finds it by (figures are 'point')?",
        says=PLACE,
        unknown=OPEN,
        example="under the lid",
    )
    point = One(Point, "At which measured point of the plan (words are 'spot')?", unknown=OPEN)
    photo = Plain("Which photo shows it?", unknown=OPEN)


class StillCarried(Block):
    """That a thing past its date stays aboard, knowingly."""

    reason = Text(
        "Why is it still carried?", required=True, unknown=NEEDED, example="the new ones come on Friday"
    )
    who = Text("Who decided so?", required=True, unknown=NEEDED, example="the skipper")
    until = Dated("Until when at the latest?", required=True, unknown=NEEDED)


class Gear(Placed):
    """An item of the gear list. Several that share all else may stand as one: what: {red hand flares: 4, orange smoke: 2}."""

    called = "what"
    several = "quantity"
    either_side = True
    what = Text("What is it?", required=True, example="red hand flares")
    side = Choice(
        "On which side, or on both, as many on the one as on the other?", (*SIDES, BOTH), unknown=CHECKED
    )
    kind = Choice(
        "What is it for, if its name does not say so, and not for something other?",
        PURPOSES,
        unknown=OPEN,
        example="tool",
    )
    quantity = Count(
        "How many?",
        low=1,
        high=500,
        required=True,
        unknown=NEEDED,
        example="6",
        why="as many pieces as somebody counts one by one",
    )
    serial = Text("Which serial number?", reader="crew", unknown=OPEN)
    made = Made("When was it made?", unknown=CHECKED)
    expires = Made("Which expiry is marked on it?", unknown=CHECKED)
    battery_expires = Dated("Until when is its battery good, if that has a date of its own?", unknown=CHECKED)
    pads_expire = Dated("Until when are the pads of a defibrillator good?", unknown=CHECKED)
    fitted = Dated("When was it fitted?", unknown=CHECKED)
    replaced = Dated("When was it, or its battery, renewed?", unknown=CHECKED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    last_service = Dated("When was it last serviced?", unknown=CHECKED)
    service_interval = Measure(
        "How often is it serviced?",
        "duration",
        high=240,
        unknown=OPEN,
        example="12 months",
        low=1,
        why="from a month to twenty years",
    )
    next_service = Dated("When is the next service due?", unknown=CHECKED)
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    mass = Measure(
        "What does it weigh, if somebody must carry it?",
        "mass",
        high=200,
        unknown=OPEN,
        example="12 kg",
        low=0.05,
        why="from what a hand does not feel to what nobody carries",
    )
    for_ = Text("Whose or what for?", unknown=OPEN)
    released_from = One(
        Kept,
        "Where is it released, if not where it is?",
        unknown=OPEN,
        example="{where: cockpit, side: starboard}",
    )
    agent = Choice(
        "What does it send out?",
        (SUFFOCATES, "clean agent", "powder", "foam", "aerosol", "water mist"),
        unknown=OPEN,
    )
    tied_in = YesNo(
        "Is it tied in, so that it stays with the boat when she fills or turns over?", unknown=OPEN
    )
    rode = Measure(
        "How much line and chain has it in all (an anchor)?",
        "length",
        low=5,
        high=500,
        unknown=OPEN,
        example="40 m",
        why="from the anchor of a dinghy to all that a hull of 40 m carries",
    )
    let_go = Worded(
        "How is it let go, without electricity (an anchor)?",
        says=DOING,
        unknown=OPEN,
        example="lift the pawl and slacken the clutch of the windlass",
    )
    slip = Worded(
        "How is its line let go for good (an anchor)?",
        says=DOING,
        unknown=OPEN,
        example="cut the lashing at the end of the chain",
    )
    rating = Text("Which rating is marked on it?", unknown=CHECKED, example="13A/113B")
    volume = Measure(
        "How much water do they hold in all?",
        "volume",
        high=500,
        unknown=ESTIMATE,
        example="18 l",
        low=0.1,
        why="from a small bottle to a row of cans",
    )
    lasts = Measure(
        "How long does it last in use (a bottle of oxygen)?",
        "time",
        low=60,
        high=86400,
        unknown=OPEN,
        example="40 min",
        why="from a minute to a day",
    )
    lives = own_lives()

    def complete(self) -> None:
        """What it is for follows from its name, where that is one of the shelf of gear; else it is for something other."""
        if self.kind is None or self.kind is UNKNOWN:
            kind = gear_kind(self)
            self.__dict__["kind"] = kind.purpose if kind is not None and kind.purpose else PURPOSES[-1]


class GrabItem(Block):
    """One thing in the grab bag. Several that share all else may stand as one: what: [light sticks, seasickness tablets]."""

    called = "what"
    several = "quantity"
    shorthand = "what"
    what = Text("What is it?", required=True)
    quantity = Count(
        "How many?", low=1, high=500, unknown=OPEN, why="as many pieces as somebody counts one by one"
    )
    made = Made("When was it made or packed?", unknown=CHECKED)
    expires = Dated("Which expiry is marked on it?", unknown=CHECKED)
    replaced = Dated("When was it, or its battery, renewed?", unknown=CHECKED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    volume = Measure(
        "How much is it?",
        "volume",
        high=200,
        unknown=ESTIMATE,
        example="1.5 l",
        low=0.05,
        why="from a sachet to more than a bag holds",
    )
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    lives = own_lives()


class GrabBag(Placed):
    """The bag that goes into the raft."""

    carried_by = Worded("Which role carries it to the raft?", says=ROLE, required=True, unknown=NEEDED)
    mass = Measure(
        "What does it weigh when packed?",
        "mass",
        low=0.5,
        high=80,
        unknown=OPEN,
        example="11 kg",
        why="from an empty bag to what nobody carries",
    )
    floats = YesNo("Does it float when packed?", unknown=ESTIMATE)
    lanyard = YesNo("Has it a line and clip?", unknown=ESTIMATE)
    items = Many(GrabItem, "What is in it?", required=True, most=100)


class Lifejackets(Placed):
    """Lifejackets of one size and kind. Several sizes that share all else may stand as one: size: {adult: 6, child: 2}."""

    called = "size"
    several = "quantity"
    size = Choice("Which size?", JACKETS, required=True)
    kind = Choice("Which kind?", ("inflatable", "foam"), required=True)
    quantity = Count(
        "How many?",
        low=1,
        high=100,
        required=True,
        unknown=NEEDED,
        why="from one to more than there are people on a boat of 40 m",
    )
    worn_by = Texts(
        "Which roles wear theirs all the time on deck (or all: everybody whom it fits)?",
        unknown=OPEN,
        most=60,
        example="all",
    )
    crotch_straps = YesNo("Have they crotch straps?", unknown=ESTIMATE)
    lights = YesNo("Have they lights?", unknown=ESTIMATE)
    last_service = Dated("When were they last serviced?", unknown=CHECKED)
    next_service = Dated("When is the next service due?", unknown=CHECKED)
    head_expires = Dated("Until when is the firing head good?", unknown=CHECKED)
    cylinder_mass = Measure(
        "What does the lightest of their cylinders weigh?",
        "mass",
        low=0.01,
        high=2,
        unknown=OPEN,
        example="138 g",
        why="from the smallest cylinder of a child to the largest, empty or full",
    )
    cylinder_minimum = Measure(
        "Which least gross weight is stamped on that cylinder?",
        "mass",
        low=0.01,
        high=2,
        unknown=OPEN,
        example="135 g",
        why="from the smallest cylinder of a child to the largest",
    )
    still_carried = One(
        StillCarried,
        "If they are past their date: why are they still carried, who decided so, until when?",
        unknown=OPEN,
    )
    lives = own_lives()

    def complete(self) -> None:
        """Those that are worn all the time are kept nowhere: where: worn, or no 'where' at all where worn-by says all."""
        told = self.__dict__.get("where")
        if isinstance(told, str) and folded(told) in WORN and not self.worn_by:
            self.__dict__["worn_by"] = (ALL,)
        if (isinstance(told, str) and folded(told) in WORN) or (
            told is None and tuple(self.worn_by or ()) == (ALL,)
        ):
            self.__dict__["where"] = ""


class Tender(Placed):
    """The dinghy."""

    called = "what"
    what = Worded("What is it?", says=THING, required=True, example="inflatable dinghy")
    persons = Count(
        "How many persons does it carry?",
        low=1,
        high=30,
        unknown=OPEN,
        why="from a board to the largest tender of a boat of 40 m",
    )
    carried = Choice("How does she take it along?", TAKEN_ALONG, unknown=OPEN, example="on deck")
    outboard = YesNo("Has it an outboard?", unknown=OPEN)
    mmsi = Digits("Which number is programmed in its AIS or radio?", r"\d{9}", "nine digits", unknown=OPEN)


class Recovery(Block):
    """How a person gets back aboard."""

    ladder = One(Kept, "Where is the ladder?", example="{where: transom, side: starboard}", unknown=CHECKED)
    ladder_from_water = YesNo("Can somebody in the water let it down?", unknown=CHECKED)
    hoist = One(
        Fitting,
        "What lifts a helpless person?",
        example="{what: the main halyard, where: cockpit, side: starboard}",
        unknown=CHECKED,
    )
    gate = One(
        Gate,
        "Which gate in the rail is opened for it?",
        example="{what: the gate, where: side deck, side: port, how: lift the pin}",
        unknown=CHECKED,
    )
    side = Choice("At which side?", SIDES, unknown=CHECKED)
    place_ = Worded(
        "In which space does the hoisting crew stand?", says=SPACE, unknown=CHECKED, example="cockpit"
    )


def gear_kind(thing: Gear | GrabItem) -> Kind | None:
    """Which kind of gear a thing is of by its name, looked up once; None where it is of none."""
    known = thing.__dict__
    if "_gear_kind" not in known:
        known["_gear_kind"] = kind_of(thing.what)
    kind: Kind | None = known["_gear_kind"]
    return kind


def does(thing: Gear | GrabItem, what: str) -> bool:
    """Whether things of its kind have a property of the shelf of gear."""
    known = thing.__dict__
    kind = known["_gear_kind"] if "_gear_kind" in known else gear_kind(thing)
    return kind is not None and (what in kind.properties or (what not in EVERY_PROPERTY and kind.does(what)))
