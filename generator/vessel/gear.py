"""Gear: each thing with its place, its number and its dates; grab bag, lifejackets and what is fixed in the hull."""

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
from generator.shelves.gear import Kind, kind_of
from generator.vessel.deck import Point
from generator.vessel.fittings import SIDES, Fitting, Gate, Kept
from generator.vessel.lives import Made, own_lives
from generator.vessel.people import JACKETS

KINDS = (
    "lifesaving",
    "signal",
    "fire",
    "flooding",
    "navigation",
    "medical",
    "rig",
    "tool",
    "water and food",
    "other",
)


class Placed(Block):
    """Anything with a place aboard."""

    where = Text("In which space?", required=True, unknown=NEEDED, example="cockpit")
    side = Choice("On which side?", SIDES, unknown=CHECKED)
    spot = Text("Exactly where?", unknown=OPEN, example="under the lid")
    point = One(Point, "At which point of the plan?", unknown=OPEN)
    photo = Plain("Which photo shows it?", unknown=OPEN)


class StillCarried(Block):
    """That a thing past its date stays aboard, knowingly."""

    reason = Text(
        "Why is it still carried?", required=True, unknown=NEEDED, example="the new ones come on Friday"
    )
    who = Text("Who decided so?", required=True, unknown=NEEDED, example="the skipper")
    until = Dated("Until when at the latest?", required=True, unknown=NEEDED)


class Gear(Placed):
    """An item of the gear list."""

    called = "what"
    what = Text("What is it?", required=True, example="red hand flares")
    kind = Choice("What is it for?", KINDS, required=True)
    quantity = Count(
        "How many?",
        low=1,
        high=500,
        why="as many pieces as somebody counts one by one",
        required=True,
        unknown=NEEDED,
        example="6",
    )
    serial = Text("Which serial number?", reader="crew", unknown=OPEN)
    made = Made("When was it made?", unknown=CHECKED)
    expires = Dated("Which expiry is marked on it?", unknown=CHECKED)
    battery_expires = Dated("Until when is its battery good, if that has a date of its own?", unknown=CHECKED)
    pads_expire = Dated("Until when are the pads of a defibrillator good?", unknown=CHECKED)
    fitted = Dated("When was it fitted?", unknown=CHECKED)
    replaced = Dated("When was it, or its battery, renewed?", unknown=CHECKED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    last_service = Dated("When was it last serviced?", unknown=CHECKED)
    service_interval = Measure(
        "How often is it serviced?",
        "duration",
        low=1,
        high=240,
        why="from a month to twenty years",
        example="12 months",
        unknown=OPEN,
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
        low=0.05,
        high=200,
        why="from what a hand does not feel to what nobody carries",
        unknown=OPEN,
        example="12 kg",
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
        ("CO2", "clean agent", "powder", "foam", "aerosol", "water mist"),
        unknown=OPEN,
    )
    tied_in = YesNo(
        "Is it tied in, so that it stays with the boat when she fills or turns over?", unknown=OPEN
    )
    rating = Text("Which rating is marked on it?", example="13A/113B", unknown=CHECKED)
    volume = Measure(
        "How much water do they hold in all?",
        "volume",
        low=0.1,
        high=500,
        why="from a small bottle to a row of cans",
        unknown=ESTIMATE,
        example="18 l",
    )
    lasts = Measure(
        "How long does it last in use (a bottle of oxygen)?",
        "time",
        low=60,
        high=86_400,
        why="from a minute to a day",
        unknown=OPEN,
        example="40 min",
    )
    lives = own_lives()


class GrabItem(Block):
    """One thing in the grab bag."""

    called = "what"
    shorthand = "what"
    what = Text("What is it?", required=True)
    quantity = Count(
        "How many?", low=1, high=500, why="as many pieces as somebody counts one by one", unknown=OPEN
    )
    made = Made("When was it made or packed?", unknown=CHECKED)
    expires = Dated("Which expiry is marked on it?", unknown=CHECKED)
    replaced = Dated("When was it, or its battery, renewed?", unknown=CHECKED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    volume = Measure(
        "How much is it?",
        "volume",
        low=0.05,
        high=200,
        why="from a sachet to more than a bag holds",
        unknown=ESTIMATE,
        example="1.5 l",
    )
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    lives = own_lives()


class GrabBag(Placed):
    """The bag that goes into the raft."""

    carried_by = Text("Which role carries it to the raft?", required=True, unknown=NEEDED)
    mass = Measure(
        "What does it weigh when packed?",
        "mass",
        low=0.5,
        high=80,
        why="from an empty bag to what nobody carries",
        unknown=OPEN,
        example="11 kg",
    )
    floats = YesNo("Does it float when packed?", unknown=ESTIMATE)
    lanyard = YesNo("Has it a line and clip?", unknown=ESTIMATE)
    items = Many(GrabItem, "What is in it?", required=True, most=100)


class Lifejackets(Placed):
    """Lifejackets of one size and kind."""

    called = "size"
    size = Choice("Which size?", JACKETS, required=True)
    kind = Choice("Which kind?", ("inflatable", "foam"), required=True)
    quantity = Count(
        "How many?",
        low=1,
        high=100,
        why="from one to more than there are people on a boat of 40 m",
        required=True,
        unknown=NEEDED,
    )
    worn_by = Texts(
        "Which roles wear theirs all the time on deck?", unknown=OPEN, most=60, example="[skipper, mate]"
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
        why="from the smallest cylinder of a child to the largest, empty or full",
        example="138 g",
        unknown=OPEN,
    )
    cylinder_minimum = Measure(
        "Which least gross weight is stamped on that cylinder?",
        "mass",
        low=0.01,
        high=2,
        why="from the smallest cylinder of a child to the largest",
        example="135 g",
        unknown=OPEN,
    )
    lives = own_lives()


class Tender(Placed):
    """The dinghy."""

    called = "what"
    what = Text("What is it?", required=True, example="inflatable dinghy")
    persons = Count(
        "How many persons does it carry?",
        low=1,
        high=30,
        why="from a board to the largest tender of a boat of 40 m",
        unknown=OPEN,
    )
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
    place_ = Text("In which space does the hoisting crew stand?", example="cockpit", unknown=CHECKED)


class Engine(Placed):
    """One of several engines, or one with a drive of its own kind."""

    called = "what"
    what = Text("What is it called aboard?", required=True, example="port engine")
    kind = Choice("Which kind?", ("inboard diesel", "inboard petrol", "outboard", "electric"), required=True)
    drive = Choice(
        "What does it turn?", ("shaft", "saildrive", "sterndrive", "outboard leg", "pod", "jet"), unknown=OPEN
    )


class Stop(Placed):
    """A switch, valve or shut-off that ends a danger."""

    called = "what"
    what = Choice(
        "What does it stop?",
        ("engine", "fuel", "gas", "batteries", "ventilation", "kill cord"),
        required=True,
    )
    from_outside = YesNo("Can it be worked without opening the space where the danger is?", unknown=CHECKED)
    electric = YesNo("Is it worked by electricity, so that it may spark?", unknown=OPEN)
    serves = Text("Which engine or space does it serve, if not all?", unknown=OPEN, example="port engine")
    spare = One(Kept, "Where is its spare (of a kill cord)?", unknown=OPEN)
    how = Text("How is it worked?", required=True, unknown=NEEDED, example="pull the red knob right out")


class Battery(Placed):
    """A bank of batteries."""

    called = "what"
    what = Text("What does it feed?", required=True, example="house")
    chemistry = Choice("Of which kind?", ("lead-acid", "AGM", "gel", "lithium"), required=True)


class ThroughHull(Placed):
    """A hole in the hull with its seacock."""

    called = "what"
    what = Text("What is it for?", required=True, example="engine cooling inlet")
    diameter = Measure(
        "How wide is it inside?",
        "length",
        low=0.005,
        high=0.3,
        why="from the hole of a transducer to that of a thruster",
        required=True,
        unknown=ESTIMATE,
        example="25 mm",
    )
    below_water = Measure(
        "How deep below the water is it?",
        "length",
        low=0,
        high=5,
        why="from the waterline to the deepest hull",
        example="0.4 m",
        unknown=OPEN,
    )
    closes = Text("How is it closed?", example="lever across the hose", unknown=CHECKED)
    plug = Text("Where is its plug?", example="tied beside it", unknown=CHECKED)
    plug_size = Measure(
        "How wide is the plug at its thick end?",
        "length",
        low=0.005,
        high=0.4,
        why="plugs for the holes of a boat",
        unknown=OPEN,
        example="45 mm",
    )
    fitted = Dated("When was its seacock fitted?", unknown=OPEN)
    hose_fitted = Dated("When was its hose fitted?", unknown=OPEN)
    lives = own_lives()


class Pump(Placed):
    """A bilge pump."""

    called = "what"
    what = Text("What is it called aboard?", required=True, example="hand pump at the helm")
    power = Choice("What drives it?", ("hand", "electric", "engine"), required=True)
    flow = Measure(
        "What is its rated flow?",
        "flow",
        low=1,
        high=10_000,
        why="from a few strokes a minute to the largest pump of a boat",
        example="60 l/min",
        unknown=CHECKED,
    )
    handle = One(
        Kept,
        "Where is its handle or switch?",
        example="{where: cockpit, spot: in the clip beside it}",
        unknown=CHECKED,
    )
    from_deck = YesNo("Is it worked, or switched, from on deck?", unknown=OPEN)


class Gas(Block):
    """Cooking gas."""

    fuel = Choice("What is burnt?", ("butane", "propane", "none", "alcohol", "paraffin"), required=True)
    bottles = Text("In which space are the bottles?", unknown=NEEDED)
    detector = YesNo("Is there a gas detector?", unknown=CHECKED)
    hose_expires = Dated("Until when is the hose good?", unknown=CHECKED)
    hose_made = Dated("Which date is printed on the hose?", unknown=CHECKED)
    hose_fitted = Dated("When was the hose fitted?", unknown=CHECKED)
    regulator_made = Dated("When was the regulator made?", unknown=CHECKED)
    lives = own_lives()


def gear_kind(thing: Gear | GrabItem) -> Kind | None:
    """Which kind of gear a thing is of by its name, looked up once; None where it is of none."""
    known = thing.__dict__
    if "_gear_kind" not in known:
        known["_gear_kind"] = kind_of(thing.what)
    kind: Kind | None = known["_gear_kind"]
    return kind


def does(thing: Gear | GrabItem, what: str) -> bool:
    """Whether things of its kind have a property of the shelf of gear."""
    kind = gear_kind(thing)
    return kind is not None and kind.does(what)
