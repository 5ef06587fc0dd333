"""Swamping and capsize: how she lies full of water, whether she is turned upright, what is reached when she is upside down."""

from __future__ import annotations

from generator.reading.block import Block
from generator.reading.fields import CHECKED, OPEN, Choice, Many, Texts, YesNo
from generator.reading.worded import DOING, Worded
from generator.vessel.fittings import Fitting

LEVEL, AWASH, SINKS = "level", "gunwale awash", "sinks"
FLOATS = (LEVEL, AWASH)
"""The ways in which a boat full of water still floats."""


class Capsize(Block):
    """How she lies when she is full of water or upside down, and what serves then."""

    swamped = Choice("How does she lie when she is full of water?", (*FLOATS, SINKS), unknown=OPEN)
    buoyancy = Texts(
        "In which spaces is buoyancy built in?", unknown=OPEN, most=12, example="[bow tank, side tank]"
    )
    righted = YesNo("Can her own people turn her upright again?", unknown=CHECKED)
    righted_how = Worded(
        "How do they do that?",
        says=DOING,
        unknown=CHECKED,
        example="stand on the centreboard and lean back",
    )
    reached = Many(
        Fitting,
        "What is reached from outside, without diving, when she lies upside down?",
        unknown=OPEN,
        most=20,
    )
    hold_on = Many(
        Fitting,
        "Which strong points or lines are there to hold on to when she lies upside down?",
        unknown=OPEN,
        most=20,
    )
