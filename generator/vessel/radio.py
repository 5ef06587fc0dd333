"""Radio: who she is on the air, and what calls for help."""

import re

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
    YesNo,
)
from generator.reading.measures import Count, Measure
from generator.reading.worded import DOING, NAME, PLACE, SPACE, THING, Worded
from generator.vessel.gear import StillCarried
from generator.vessel.lives import own_lives

# 22 and 30 characters are a whole message: read here so that the survey can say so
_HEX_ID = r"[0-9A-F]{15}|[0-9A-F]{22,23}|[0-9A-F]{30}"
_HEX_ID_SHAPE = "15 hexadecimal characters, 0 to 9 and A to F (23 for second-generation beacons)"

_ALWAYS_ON = re.compile(
    r"(?:(?:it |the set |the radio )?(?:is|stays|runs) |it['’]s )?"
    r"(?:(?:always|permanently|constantly|continuously) (?:(?:switched|left|kept|powered) )?on|(?:always|permanently) powered"
    r"|(?:(?:switched|left|kept) )?on (?:all the time|at all times|permanently|continuously|day and night)"
    r"|never (?:switched|turned) off|(?:it )?stands by day and night"
    r"|(?:(?:it )?(?:is|comes) )?on (?:with|whenever) the batter(?:y|ies)(?: (?:is|are)(?: on)?)?)[.]?"
)


class RadioSet(Block):
    """A transceiver."""

    called = "what"
    what = Worded("What is it called aboard?", says=THING, required=True, example="VHF at the chart table")
    kind = Choice("Which kind?", ("VHF", "handheld VHF", "MF/HF", "satellite telephone"), required=True)
    dsc = YesNo("Does it make a digital distress call (DSC)?", unknown=CHECKED)
    gnss = YesNo("Does it know the position by itself?", unknown=OPEN)
    where = Worded("In which space?", says=SPACE, required=True, unknown=NEEDED, example="chart table")
    side = Choice("On which side?", ("port", "starboard", "centre"), unknown=CHECKED)
    spot = Worded("Exactly where?", says=PLACE, unknown=OPEN)
    photo = Plain("Which photo shows it?", unknown=OPEN)
    distress_button = Worded(
        "Where is its distress button?",
        says=PLACE,
        elsewhere=True,
        unknown=CHECKED,
        example="under the red flap, right of the screen",
    )
    position_shown = Worded(
        "Where does its screen show the position?",
        says=PLACE,
        elsewhere=True,
        unknown=OPEN,
        example="in the bottom line",
    )
    power = Worded(
        "How is it switched on (or: always on)?",
        says=DOING,
        elsewhere=True,
        unknown=CHECKED,
        example="breaker 'VHF', then the knob left",
    )
    mmsi = Digits("Which MMSI is programmed in it?", r"\d{9}", "nine digits", unknown=OPEN)
    battery_expires = Dated("Which expiry has its battery, if that cannot be charged?", unknown=OPEN)
    battery_replaced = Dated("When was its battery, without a date of its own, renewed?", unknown=OPEN)
    lives = own_lives()
    power_w = Measure(
        "With which power does it send?",
        "power",
        high=2000,
        unknown=OPEN,
        example="25 W",
        low=0.1,
        why="from the weakest handheld to the strongest set of a boat",
    )

    @property
    def always_on(self) -> bool:
        """Whether the file says that nobody needs to switch it on."""
        return isinstance(self.power, str) and _ALWAYS_ON.fullmatch(self.power.strip().lower()) is not None


class Beacon(Block):
    """A distress beacon or a device that shows a person's place. Several alike may stand as one: what: {crew beacon: 4, spare beacon: 1}."""

    called = "what"
    several = "quantity"
    what = Worded("What is it called aboard?", says=THING, required=True, example="EPIRB")
    kind = Choice("Which kind?", ("EPIRB", "PLB", "SART", "AIS man-overboard device"), required=True)
    quantity = Count(
        "How many of them, if more than one?",
        low=1,
        high=60,
        unknown=OPEN,
        example="6",
        why="one for each person aboard at most",
    )
    hex_id = Digits(
        "Which 15-hex id has it?", _HEX_ID, _HEX_ID_SHAPE, reader="crew", unknown=ESTIMATE, example="private"
    )
    hex_id_registered = Digits(
        "Which id stands on the proof of registration?",
        _HEX_ID,
        _HEX_ID_SHAPE,
        reader="crew",
        unknown=OPEN,
        example="private",
    )
    type_approval = Count(
        "Which type-approval (TAC) number stands on its label?",
        low=1,
        high=99999,
        reader="crew",
        unknown=OPEN,
        why="numbers of at most five figures",
    )
    ais_number = Digits(
        "Which AIS number does it send (970…, 972…, 974…)?",
        r"\d{9}",
        "nine digits",
        reader="crew",
        unknown=OPEN,
    )
    gnss = YesNo("Does it know its position by itself?", unknown=OPEN)
    programmed = Dated("When was its code last programmed?", unknown=OPEN)
    registered_in = Worded(
        "In which state's registry does it stand?", says=NAME, unknown=OPEN, example="United Kingdom"
    )
    where = Worded("In which space?", says=SPACE, required=True, unknown=NEEDED, example="companionway")
    side = Choice("On which side?", ("port", "starboard", "centre"), unknown=CHECKED)
    spot = Worded("Exactly where?", says=PLACE, unknown=OPEN)
    photo = Plain("Which photo shows it?", unknown=OPEN)
    release = Choice("How does it leave its bracket?", ("by hand", "float-free"), unknown=ESTIMATE)
    release_fitted = Dated("When was its own HRU fitted?", unknown=OPEN)
    release_expires = Dated("Until when is its own HRU good?", unknown=CHECKED)
    use = Worded(
        "How is it switched on?",
        says=DOING,
        unknown=CHECKED,
        example="slide the red cover, hold the button for two seconds",
    )
    battery_expires = Dated("Until when is the battery good?", required=True, unknown=NEEDED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    registered = Dated("When was its registration last confirmed?", unknown=CHECKED)
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    carried_by = Text("Who carries it?", unknown=OPEN)
    lives = own_lives()


class Radio(Block):
    """The vessel's identity on the air, her sets and beacons."""

    call_sign = Digits(
        "What is her call sign?",
        "[A-Z0-9]{3,8}",
        "three to eight letters and digits",
        unknown=OPEN,
        example="MZZZ9",
    )
    mmsi = Digits("What is her MMSI?", "\\d{9}", "nine digits", unknown=CHECKED, example="232000000")
    sets = Many(RadioSet, "Which radios has she?", required=True, most=30, may_be_none=True)
    beacons = Many(Beacon, "Which beacons has she?", most=80)
    language = Worded("In which language does she call for help?", says=NAME, unknown=OPEN)
