"""The base that lets several boats out or looks after them: what is the same on all of them, told in a file beside the fleet."""

from __future__ import annotations

from generator.reading.block import Block
from generator.reading.colours import Colour
from generator.reading.fields import OPEN, Digits, Plain, Text, Texts
from generator.reading.worded import DOING, Worded

COLOURS = 2


class Short(Text):
    """Words that stand in the foot of a card beside its dates: no more letters than half a line there."""

    longest, longest_word = 48, 30


class Base(Block):
    """The charter base of a boat, from the file that her own file, or her class file, names under `base`."""

    format = Digits("Which format has the file?", r"[0-9]+", "a whole number", required=True, example="1")
    operator = Short("What is the operator called?", required=True, example="Gravelin Charter")
    mark = Plain(
        "Which picture is the operator's mark (PNG or JPEG, beside this file)?",
        unknown=OPEN,
        example="mark.png",
    )
    colours = Texts(
        "Which are the operator's colours (two at most, none of the safety signs')?",
        of=Colour("Which colour?"),
        unknown=OPEN,
        most=COLOURS,
    )
    phone = Text(
        "On which telephone number is the base reached?",
        reader="crew",
        unknown=OPEN,
        example="+33 6 39 98 00 45",
    )
    channel = Text("On which channel or frequency?", unknown=OPEN, example="VHF 77")
    hours = Text("When does somebody answer there?", unknown=OPEN, example="every day from 08:00 to 20:00")
    address = Text("Where is the base ashore?", unknown=OPEN, example="2 Quai du Phare, Port-Gravelin")
    berth = Text("Where do its boats lie?", unknown=OPEN, example="pontoon C, berths 1 to 14")
    do_first = Worded(
        "What do guests do first where something is broken and nobody is in danger?",
        says=DOING,
        unknown=OPEN,
        example="call the base before you repair anything",
    )
