"""What is built into the hull: engines, stops, batteries, through-hulls, pumps, cooking gas."""

from __future__ import annotations

from generator.reading.block import Block
from generator.reading.fields import (
    CHECKED,
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Dated,
    One,
    Text,
    YesNo,
)
from generator.reading.measures import Measure
from generator.reading.other_words import Renamed
from generator.reading.worded import DOING, PLACE, SPACE, THING, Worded
from generator.vessel.fittings import Kept
from generator.vessel.gear import Placed
from generator.vessel.lives import own_lives


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
    from_outside = YesNo("Can it be worked without opening the space where the danger is?", unknown=CHECKED)
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
    chemistry = Renamed(
        "Of which kind?",
        ("lead-acid", "AGM", "gel", "lithium"),
        also={
            "lifepo4": "lithium",
            "lithium-ion": "lithium",
            "lithium iron phosphate": "lithium",
            "wet": "lead-acid",
            "flooded": "lead-acid",
        },
        required=True,
    )


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
        why="from the hole of a transducer to that of a thruster",
    )
    below_water = Measure(
        "How deep below the water is it?",
        "length",
        high=5,
        unknown=OPEN,
        example="0.4 m",
        low=0,
        why="from the waterline to the deepest hull",
    )
    closes = Text("How is it closed?", unknown=CHECKED, example="lever across the hose")
    plug = Worded("Where is its plug?", says=PLACE, elsewhere=True, unknown=CHECKED, example="tied beside it")
    plug_size = Measure(
        "How wide is the plug at its thick end?",
        "length",
        low=0.005,
        high=0.4,
        unknown=OPEN,
        example="45 mm",
        why="plugs for the holes of a boat",
    )
    fitted = Dated("When was its seacock fitted?", unknown=OPEN)
    hose_fitted = Dated("When was its hose fitted?", unknown=OPEN)
    lives = own_lives()


class Pump(Placed):
    """A bilge pump."""

    called = "what"
    what = Worded("What is it called aboard?", says=THING, required=True, example="hand pump at the helm")
    power = Choice("What drives it?", ("hand", "electric", "engine"), required=True)
    flow = Measure(
        "What is its rated flow?",
        "flow",
        high=10000,
        unknown=CHECKED,
        example="60 l/min",
        low=1,
        why="from a few strokes a minute to the largest pump of a boat",
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

    fuel = Renamed(
        "What is burnt?",
        ("butane", "propane", "none", "alcohol", "paraffin"),
        also={
            "spirit": "alcohol",
            "methylated spirit": "alcohol",
            "meths": "alcohol",
            "kerosene": "paraffin",
        },
        required=True,
    )
    bottles = Worded("In which space are the bottles?", says=SPACE, unknown=NEEDED)
    detector = YesNo("Is there a gas detector?", unknown=CHECKED)
    hose_expires = Dated("Until when is the hose good?", unknown=CHECKED)
    hose_made = Dated("Which date is printed on the hose?", unknown=CHECKED)
    hose_fitted = Dated("When was the hose fitted?", unknown=CHECKED)
    regulator_made = Dated("When was the regulator made?", unknown=CHECKED)
    lives = own_lives()
