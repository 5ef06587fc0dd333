"""The deck plan: spaces, levels and the ways between them."""

from generator.reading.block import Block
from generator.reading.fields import OPEN, Choice, Many, Text, Texts, YesNo
from generator.reading.measures import Measure, OffCentre
from generator.reading.worded import DOING, SPACE, Worded
from generator.shelves.spaces import LEVELS
from generator.vessel.fittings import SIDES


class Space(Block):
    """A space that gear and people are in. `aft` and `fore` are the distances of its ends from the transom."""

    called = "name"
    name = Worded("What is it called aboard?", says=SPACE, required=True, example="forepeak")
    replaces = Worded("Which space of the preset does it replace or rename?", says=SPACE, unknown=OPEN)
    level = Choice("On which level is it?", LEVELS, unknown=OPEN)
    aft = Measure(
        "How far is its after end from the transom?",
        "length",
        low=0,
        high=40,
        why="from the transom to the bow of the longest hull",
        unknown=OPEN,
    )
    fore = Measure(
        "How far is its forward end from the transom?",
        "length",
        low=0.1,
        high=40,
        why="from just before the transom to the bow of the longest hull",
        unknown=OPEN,
    )
    port = OffCentre("Where is its port edge?", unknown=OPEN)
    starboard = OffCentre("Where is its starboard edge?", unknown=OPEN)


class Way(Block):
    """A way from one space to another."""

    from_ = Worded("From which space?", says=SPACE, required=True)
    to = Worded("To which space?", says=SPACE, required=True)
    by = Text("By which hatch, ladder or door?", unknown=OPEN)


class Deck(Block):
    """What differs from the preset of the hull type."""

    spaces = Many(
        Space, "Which spaces are named or placed otherwise than in the preset?", most=80, unknown=OPEN
    )
    without = Texts("Which spaces of the preset has she not?", most=80, unknown=OPEN)
    ways = Many(Way, "Which ways lead from one space to another?", unknown=OPEN, most=200)


class Hatch(Block):
    """A way out."""

    called = "where"
    where = Worded(
        "Out of which space does it lead (an engine room is one, named as on the plan)?",
        says=SPACE,
        required=True,
        example="forepeak",
    )
    opens = Choice("From which side can it be opened?", ("inside", "outside", "both"), required=True)
    side = Choice("On which side of the boat is it?", SIDES, unknown=OPEN)
    how = Worded("How is it opened?", says=DOING, unknown=OPEN)
    serves_inverted = YesNo("Is it above the water, and a way out, when she lies upside down?", unknown=OPEN)


class Point(Block):
    """A point on the plan."""

    aft = Measure(
        "How far from the transom?",
        "length",
        low=0,
        high=40,
        why="from the transom to the bow of the longest hull",
        required=True,
        example="3.2 m",
    )
    off = OffCentre("How far off the centreline, to which side?", required=True)
