"""Gear: each thing with its place, its number and its dates; grab bag, lifejackets and what is fixed in the hull."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.reading.block import Block
from generator.reading.fields import (
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Count,
    Dated,
    Digits,
    Field,
    Many,
    One,
    Plain,
    Text,
    Texts,
    YesNo,
)
from generator.reading.measures import Measure
from generator.reading.worded import DOING, PLACE, ROLE, SPACE, THING, Worded
from generator.shelves.gear import PURPOSES, Kind, kind_of
from generator.vessel.deck import Point
from generator.vessel.fittings import SIDES, Fitting, Gate, Kept
from generator.vessel.lives import Made, own_lives
from generator.vessel.people import JACKETS


class Placed(Block):
    """Anything with a place aboard."""

    where = Worded("In which space?", says=SPACE, required=True, unknown=NEEDED, example="cockpit")
    side = Choice("On which side?", SIDES, unknown=NEEDED)
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
    what = Text("What is it?", required=True, example="red hand flares")
    kind = Choice("What is it for, if its name does not say so?", PURPOSES, unknown=NEEDED, example="tool")
    quantity = Count("How many?", low=1, high=500, required=True, unknown=NEEDED, example="6")
    serial = Text("Which serial number?", reader="crew", unknown=OPEN)
    made = Made("When was it made?", unknown=ESTIMATE)
    expires = Dated("Which expiry is marked on it?", unknown=NEEDED)
    battery_expires = Dated("Until when is its battery good, if that has a date of its own?", unknown=NEEDED)
    pads_expire = Dated("Until when are the pads of a defibrillator good?", unknown=NEEDED)
    fitted = Dated("When was it fitted?", unknown=ESTIMATE)
    replaced = Dated("When was it, or its battery, renewed?", unknown=ESTIMATE)
    tested = Dated("When was it last tested?", unknown=ESTIMATE)
    last_service = Dated("When was it last serviced?", unknown=ESTIMATE)
    service_interval = Measure(
        "How often is it serviced?", "duration", high=240, unknown=ESTIMATE, example="12 months"
    )
    next_service = Dated("When is the next service due?", unknown=NEEDED)
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    mass = Measure(
        "What does it weigh, if somebody must carry it?", "mass", high=200, unknown=OPEN, example="12 kg"
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
    rating = Text("Which rating is marked on it?", unknown=OPEN, example="13A/113B")
    volume = Measure(
        "How much water do they hold in all?", "volume", high=500, unknown=ESTIMATE, example="18 l"
    )
    lasts = Measure(
        "How long does it last in use (a bottle of oxygen)?",
        "time",
        low=60,
        high=86_400,
        unknown=OPEN,
        example="40 min",
    )
    lives = own_lives()

    def complete(self) -> Iterator[Field[Any]]:
        """What it is for follows from its name, where that is one of the shelf of gear."""
        kind = gear_kind(self) if self.kind is None else None
        if kind is not None and kind.purpose:
            self.__dict__["kind"] = kind.purpose
        if self.kind is None:
            yield Gear.kind


class GrabItem(Block):
    """One thing in the grab bag. Several that share all else may stand as one: what: [light sticks, seasickness tablets]."""

    called = "what"
    several = "quantity"
    shorthand = "what"
    what = Text("What is it?", required=True)
    quantity = Count("How many?", low=1, high=500, unknown=OPEN)
    made = Made("When was it made or packed?", unknown=ESTIMATE)
    expires = Dated("Which expiry is marked on it?", unknown=NEEDED)
    replaced = Dated("When was it, or its battery, renewed?", unknown=ESTIMATE)
    tested = Dated("When was it last tested?", unknown=ESTIMATE)
    volume = Measure("How much is it?", "volume", high=200, unknown=ESTIMATE, example="1.5 l")
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    lives = own_lives()


class GrabBag(Placed):
    """The bag that goes into the raft."""

    carried_by = Worded("Which role carries it to the raft?", says=ROLE, required=True, unknown=NEEDED)
    mass = Measure("What does it weigh when packed?", "mass", low=0.5, high=80, unknown=OPEN, example="11 kg")
    floats = YesNo("Does it float when packed?", unknown=ESTIMATE)
    lanyard = YesNo("Has it a line and clip?", unknown=ESTIMATE)
    items = Many(GrabItem, "What is in it?", required=True, most=100)


class Lifejackets(Placed):
    """Lifejackets of one size and kind. Several sizes that share all else may stand as one: size: {adult: 6, child: 2}."""

    called = "size"
    several = "quantity"
    size = Choice("Which size?", JACKETS, required=True)
    kind = Choice("Which kind?", ("inflatable", "foam"), required=True)
    quantity = Count("How many?", low=1, high=100, required=True, unknown=NEEDED)
    worn_by = Texts(
        "Which roles wear theirs all the time on deck?", unknown=OPEN, most=60, example="[skipper, mate]"
    )
    crotch_straps = YesNo("Have they crotch straps?", unknown=ESTIMATE)
    lights = YesNo("Have they lights?", unknown=ESTIMATE)
    last_service = Dated("When were they last serviced?", unknown=ESTIMATE)
    next_service = Dated("When is the next service due?", unknown=NEEDED)
    head_expires = Dated("Until when is the firing head good?", unknown=NEEDED)
    cylinder_mass = Measure(
        "What does the lightest of their cylinders weigh?",
        "mass",
        low=0.01,
        high=2,
        unknown=ESTIMATE,
        example="138 g",
    )
    cylinder_minimum = Measure(
        "Which least gross weight is stamped on that cylinder?",
        "mass",
        low=0.01,
        high=2,
        unknown=ESTIMATE,
        example="135 g",
    )
    lives = own_lives()


class Tender(Placed):
    """The dinghy."""

    called = "what"
    what = Worded("What is it?", says=THING, required=True, example="inflatable dinghy")
    persons = Count("How many persons does it carry?", low=1, high=30, unknown=OPEN)
    mmsi = Digits("Which number is programmed in its AIS or radio?", r"\d{9}", "nine digits", unknown=OPEN)


class Recovery(Block):
    """How a person gets back aboard."""

    ladder = One(Kept, "Where is the ladder?", example="{where: transom, side: starboard}")
    ladder_from_water = YesNo("Can somebody in the water let it down?", unknown=NEEDED)
    hoist = One(
        Fitting,
        "What lifts a helpless person?",
        example="{what: the main halyard, where: cockpit, side: starboard}",
    )
    gate = One(
        Gate,
        "Which gate in the rail is opened for it?",
        example="{what: the gate, where: side deck, side: port, how: lift the pin}",
    )
    side = Choice("At which side?", SIDES, unknown=NEEDED)
    place_ = Worded(
        "In which space does the hoisting crew stand?", says=SPACE, unknown=NEEDED, example="cockpit"
    )


class Engine(Placed):
    """One of several engines, or one with a drive of its own kind."""

    called = "what"
    what = Worded("What is it called aboard?", says=THING, required=True, example="port engine")
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
    from_outside = YesNo("Can it be worked without opening the space where the danger is?", unknown=ESTIMATE)
    electric = YesNo("Is it worked by electricity, so that it may spark?", unknown=OPEN)
    serves = Text("Which engine or space does it serve, if not all?", unknown=OPEN, example="port engine")
    spare = One(Kept, "Where is its spare (of a kill cord)?", unknown=OPEN)
    how = Worded(
        "How is it worked?", says=DOING, required=True, unknown=NEEDED, example="pull the red knob right out"
    )


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
        required=True,
        unknown=ESTIMATE,
        example="25 mm",
    )
    below_water = Measure(
        "How deep below the water is it?", "length", high=5, unknown=ESTIMATE, example="0.4 m"
    )
    closes = Text("How is it closed?", unknown=NEEDED, example="lever across the hose")
    plug = Worded("Where is its plug?", says=PLACE, elsewhere=True, unknown=NEEDED, example="tied beside it")
    plug_size = Measure(
        "How wide is the plug at its thick end?", "length", low=0.005, high=0.4, unknown=OPEN, example="45 mm"
    )
    fitted = Dated("When was its seacock fitted?", unknown=OPEN)
    hose_fitted = Dated("When was its hose fitted?", unknown=OPEN)
    lives = own_lives()


class Pump(Placed):
    """A bilge pump."""

    called = "what"
    what = Worded("What is it called aboard?", says=THING, required=True, example="hand pump at the helm")
    power = Choice("What drives it?", ("hand", "electric", "engine"), required=True)
    flow = Measure("What is its rated flow?", "flow", high=10_000, unknown=ESTIMATE, example="60 l/min")
    handle = One(
        Kept, "Where is its handle or switch?", example="{where: cockpit, spot: in the clip beside it}"
    )
    from_deck = YesNo("Is it worked, or switched, from on deck?", unknown=ESTIMATE)


class Gas(Block):
    """Cooking gas."""

    fuel = Choice("What is burnt?", ("butane", "propane", "none", "alcohol", "paraffin"), required=True)
    bottles = Worded("In which space are the bottles?", says=SPACE, unknown=NEEDED)
    detector = YesNo("Is there a gas detector?", unknown=ESTIMATE)
    hose_expires = Dated("Until when is the hose good?", unknown=NEEDED)
    hose_made = Dated("Which date is printed on the hose?", unknown=ESTIMATE)
    hose_fitted = Dated("When was the hose fitted?", unknown=ESTIMATE)
    regulator_made = Dated("When was the regulator made?", unknown=ESTIMATE)
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
