"""What is fixed aboard, and where a hand finds a thing: told by what, space, side and spot, or in words as a sentence holds them."""

from __future__ import annotations

import re

from generator.reading.block import Block
from generator.reading.fields import CHECKED, NEEDED, OPEN, Choice
from generator.reading.values import NotKnown
from generator.reading.worded import DOING, PLACE, SPACE, THING, Worded

SIDES = ("port", "starboard", "centre")


class Located(Block):
    """Where something is: space, side, spot; each as far as it is told."""

    where = Worded("In which space?", says=SPACE, unknown=OPEN, example="coachroof")
    side = Choice("On which side?", SIDES, unknown=OPEN)
    spot = Worded("Exactly where?", says=PLACE, unknown=OPEN, example="beside the forward foot of the cradle")

    @property
    def words(self) -> str:
        """All that is told of it, in the file's own words."""
        told = (self.__dict__.get(name) for name in ("what", "where", "side", "spot"))
        return ", ".join(each for each in told if isinstance(each, str))

    @property
    def sides_told(self) -> frozenset[str]:
        """The sides that field and words name: port, starboard."""
        named = set(re.findall(r"[a-z]+", self.words.lower()))
        return frozenset(each for each in ("port", "starboard") if each in named)

    def __str__(self) -> str:
        return self.words


class Kept(Located):
    """Where a thing is that the step itself names: the knife, the ladder, a handle. Words alone are its spot."""

    shorthand = "spot"


class Berth(Located):
    """Where somebody sleeps. Words alone are the space."""

    shorthand = "where"


class Fitting(Located):
    """A part of the boat that a step names: a strong point, a gate, a hoist. Words alone are all of it."""

    shorthand = "what"
    what = Worded("What is it?", says=THING, required=True, unknown=NEEDED, example="the U-bolt")


class Gate(Fitting):
    """An opening in the rail at which a raft goes over or people come aboard, and how a hand opens it."""

    how = Worded(
        "How is it opened, if it must be?",
        says=DOING,
        unknown=CHECKED,
        example="lift the pin and swing it inboard",
    )


def told(thing: Located | NotKnown | None) -> str:
    """What is told of a fitting in the file's own words; "" where nothing is."""
    return thing.words if isinstance(thing, Located) else ""
