"""What the boat is: identity, dimensions, waters; and who checked and approved the description."""

from collections.abc import Iterator
from typing import Any

from generator.reading.block import Block, Fault
from generator.reading.fields import (
    CHECKED,
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Dated,
    Digits,
    Field,
    One,
    Plain,
    Text,
    Texts,
    YesNo,
)
from generator.reading.measures import Count, Measure
from generator.reading.nodes import Mapping, Scalar
from generator.reading.worded import NAME, SIGNAL, SPACE, Worded
from generator.shelves.spaces import HullType, hull, hull_types
from generator.vessel.fittings import Fitting, Kept

WATERS = ("sheltered", "coastal", "offshore", "ocean")
FAR = ("offshore", "ocean")
"""Waters where help is far: what a boat lacks there nobody brings."""
LET_OUT = ("charter", "commercial")
"""Uses in which somebody ashore answers for her."""
INBOARD = ("inboard diesel", "inboard petrol")
"""Engines in a space of their own, with fuel and cooling water led through the hull."""
PETROL = ("inboard petrol", "outboard")
"""Engines that burn petrol."""


class Prose(Text):
    """Text of several lines and paragraphs."""

    longest, longest_word, one_line = 10_000, 200, False


class Signed(Block):
    """Who did something, and when."""

    by = Worded("Who?", says=NAME, required=True, unknown=ESTIMATE, reader="guest", example="the skipper")
    date = Dated("On which day?", required=True)


class Specimen(Block):
    """Marks a demo vessel, which alone may state its own as-of date."""

    as_of = Dated("On which day is this specimen looked at?", required=True)


class Particulars(Block):
    """The vessel herself."""

    name = Worded(
        "What is her name?",
        says=NAME,
        required=True,
        example="Saltmeadow",
        answers=("yes", "no", "true", "false", "none", "nothing"),
    )
    type = Choice("What hull is she?", hull_types, required=True)
    rig = Text("How is she rigged?", example="cutter", answers=("none",), unknown=ESTIMATE)
    length = Measure(
        "How long is her hull?",
        "length",
        low=4,
        high=40,
        required=True,
        example="12.0 m",
        why="hulls that this manual draws and words",
    )
    beam = Measure(
        "How wide is she?",
        "length",
        low=1,
        high=20,
        required=True,
        example="3.9 m",
        why="from a narrow open boat to a wide multihull",
    )
    draft = Measure(
        "How deep does she go?",
        "length",
        low=0.2,
        high=8,
        required=True,
        unknown=ESTIMATE,
        example="2.0 m",
        why="from a flat bottom to the deepest keel of a hull of 40 m",
    )
    freeboard = Measure(
        "How high is the deck edge above the water amidships?",
        "length",
        low=0.1,
        high=5,
        required=True,
        unknown=ESTIMATE,
        example="1.2 m",
        why="from an open boat to a hull of 40 m",
    )
    air_draft = Measure(
        "How high is she above the water?",
        "length",
        low=0.5,
        high=60,
        unknown=OPEN,
        example="17.5 m",
        why="from an open boat without a mast to the tallest rig of a hull of 40 m",
    )
    displacement = Measure(
        "What does she weigh?",
        "mass",
        low=100,
        high=500000,
        unknown=OPEN,
        example="9500 kg",
        why="from a light open boat of 4 m to a heavy hull of 40 m",
    )
    flag = Worded(
        "Which flag does she fly (the state's name)?", says=NAME, required=True, example="United Kingdom"
    )
    port = Worded("What is her home port?", says=NAME, unknown=OPEN)
    registration = Text("Under which number is she registered?", reader="crew", unknown=OPEN)
    hull_id = Text("What is her hull identification number?", reader="crew", unknown=OPEN)
    built = Count(
        "In which year was she built?",
        low=1850,
        high=2100,
        unknown=OPEN,
        example="2009",
        why="years in which a boat that still sails can have been built",
    )
    flag_since = Dated("Since when does she fly this flag and have this MMSI?", unknown=OPEN)
    hull_colour = Worded(
        "What colour is her hull, seen from another ship or the air?",
        says=NAME,
        unknown=OPEN,
        example="white with a blue line",
    )
    underside_colour = Worded(
        "What colour is her underside, seen when she has turned over?",
        says=NAME,
        unknown=OPEN,
        example="red antifouling",
    )
    deck_colour = Worded(
        "What colour is her deck, seen from the air?", says=NAME, unknown=OPEN, example="grey"
    )
    sail_mark = Worded("What mark or number is on her mainsail?", says=NAME, unknown=OPEN)
    persons = Count(
        "How many persons at most are aboard on a passage?",
        low=1,
        high=60,
        required=True,
        example="6",
        why="as many as the bill and the rafts of a boat of 40 m are made for",
    )
    waters = Choice("Which waters does she sail?", WATERS, required=True)
    climate = Choice(
        "How cold can the sea be there?", ("tropical", "temperate", "cold", "polar"), required=True
    )
    use = Choice("What is she used for?", ("private", "charter", "commercial"), required=True)
    rule_set = Texts(
        "Which rule set or sets is she kept by, each with its category if it has any?",
        unknown=OPEN,
        most=12,
        example="[good practice, UK small commercial category 2]",
    )
    engine = Choice("What engine has she?", (*INBOARD, "outboard", "none"), required=True)
    fire_port = YesNo(
        "Is there a hole to discharge an extinguisher into the engine space without opening it?",
        unknown=CHECKED,
    )
    fire_port_place = One(
        Kept, "Where is that hole?", unknown=OPEN, example="{where: cockpit, spot: under the step}"
    )
    fuel = Measure(
        "How much fuel does she hold?",
        "volume",
        high=50000,
        unknown=OPEN,
        example="200 l",
        low=1,
        why="from a can to the tanks of a hull of 40 m",
    )
    general_alarm = Worded(
        "How is the general alarm given aboard?",
        says=SIGNAL,
        unknown=NEEDED,
        example="seven short blasts and one long on the horn",
    )
    abandon_order = Worded(
        "How is the order to abandon given, so that nobody mistakes it?",
        says=SIGNAL,
        unknown=NEEDED,
        example="the skipper calls 'Abandon ship' three times",
    )
    muster_place = Worded(
        "Where does everybody gather?", says=SPACE, required=True, unknown=NEEDED, example="cockpit"
    )
    helm = One(
        Kept,
        "Where is she steered, if not where boats of her type usually are?",
        example="{where: side console, side: starboard}",
        unknown=OPEN,
    )

    tow_point = One(
        Fitting,
        "To what is a towline made fast when she is towed?",
        example="{what: both bow cleats, where: foredeck}",
        unknown=OPEN,
    )

    def faults(self) -> Iterator[Fault]:
        """A hole that is there has a place."""
        if self.fire_port is True and self.says_none("fire-port-place"):
            yield Fault(
                "fire-port-place", "'fire-port' says that there is one", "write where it is, or fire-port: no"
            )

    @property
    def inboard_engine(self) -> bool:
        """Whether her engine stands inside her."""
        return self.engine in INBOARD

    @property
    def petrol(self) -> bool:
        """Whether her engine burns petrol."""
        return self.engine in PETROL

    @property
    def hull(self) -> HullType:
        """What her hull type means; the one that stands in where it is not known."""
        return hull(self.type if isinstance(self.type, str) else "")


class Steering(Block):
    """Steering her when the wheel is dead."""

    main = Text("How is she steered?", example="wheel with cables to a quadrant", unknown=OPEN)
    emergency_tiller = One(
        Kept, "Where is the emergency tiller?", example="{where: cockpit locker, side: port}", unknown=CHECKED
    )
    fits = One(
        Kept,
        "Where does the emergency tiller fit?",
        example="{where: cockpit, spot: under the helm seat}",
        unknown=CHECKED,
    )


class Deferred(Block):
    """A finding the skipper knowingly sails with."""

    check = Text("Which check?", required=True)
    item = Text("At which item?", unknown=OPEN)
    reason = Text("Why does she sail with it?", required=True, unknown=NEEDED)
    who = Text("Who decided so?", required=True, unknown=NEEDED)
    until = Dated("Until when at the latest?", required=True, unknown=NEEDED)


class Note(Block):
    """Words of the skipper's own beside a procedure."""

    beside = Worded("Beside which procedure?", says=NAME, required=True, example="man-overboard")
    text = Prose("What does it say (Markdown)?", required=True)


RESCUE_CENTRE = "rescue centre"


class Contact(Block):
    """Somebody to call. The telephone number of a rescue centre is no secret: whoever finds the telephone dials it."""

    called = "who"
    who = Worded("Who is it?", says=NAME, required=True, example="rescue centre")
    kind = Choice(
        "What for?",
        (RESCUE_CENTRE, "medical advice", "base", "insurer", "shore contact", "other"),
        required=True,
    )
    channel = Worded("On which channel or frequency?", says=NAME, example="VHF 16", unknown=CHECKED)
    phone = Worded("On which telephone number?", says=NAME, reader="crew", unknown=CHECKED)
    mmsi = Digits("With which MMSI, for a routine digital call?", "\\d{9}", "nine digits", unknown=CHECKED)

    def is_freed(self, field: Field[Any]) -> bool:
        """Whether guests may read what stands under a key: a rescue centre's number too, unless the file says that it is private."""
        if super().is_freed(field):
            return True
        return field is Contact.phone and self.kind == RESCUE_CENTRE and not self._kept_private(field.key)

    def _kept_private(self, key: str) -> bool:
        node = self.node.entries.get(key) if isinstance(self.node, Mapping) else None
        if isinstance(node, Mapping):
            node = node.entries.get("value")
        return isinstance(node, Scalar) and node.text.strip().lower() == "private"


class Drill(Block):
    """A drill held."""

    emergency = Worded("Which emergency was practised?", says=NAME, required=True)
    date = Dated("When?", required=True)
    led_by = Worded("Who led it?", says=NAME, unknown=CHECKED)
    took_part = Texts("Which roles took part?", most=100, unknown=OPEN)


class Posted(Block):
    """A card hanging aboard."""

    station = Worded("At which station does it hang?", says=NAME, required=True)
    code = Plain("Which code is printed on it?", required=True)
    date = Dated("Since when?", required=True)
