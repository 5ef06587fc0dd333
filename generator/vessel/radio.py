"""Radio: who she is on the air, and what calls for help."""

from generator.vessel.block import Block
from generator.vessel.fields import ESTIMATE, NEEDED, OPEN, Choice, Dated, Digits, Many, Measure, Text, YesNo


class RadioSet(Block):
    """A transceiver."""

    called = "what"
    what = Text("What is it called aboard?", required=True, example="VHF at the chart table")
    kind = Choice("Which kind?", ("VHF", "handheld VHF", "MF/HF", "satellite telephone"), required=True)
    dsc = YesNo("Does it make a digital distress call (DSC)?", unknown=NEEDED)
    gnss = YesNo("Does it know the position by itself?", unknown=ESTIMATE)
    where = Text("In which space?", required=True, unknown=NEEDED, example="chart table")
    side = Choice("On which side?", ("port", "starboard", "centre"))
    spot = Text("Exactly where?", unknown=OPEN)
    distress_button = Text("Where is its distress button?", unknown=NEEDED, example="under the red flap, right of the screen")
    power = Text("How is it switched on?", unknown=NEEDED, example="breaker 'VHF', then the knob left")
    power_w = Measure("With which power does it send?", "power", high=2000, unknown=OPEN, example="25 W")


class Beacon(Block):
    """A distress beacon or a device that shows a person's place."""

    called = "what"
    what = Text("What is it called aboard?", required=True, example="EPIRB")
    kind = Choice("Which kind?", ("EPIRB", "PLB", "SART", "AIS man-overboard device"), required=True)
    hex_id = Digits("Which 15-hex id has it?", r"[0-9A-F]{15}|[0-9A-F]{23}", "15 hexadecimal characters (23 for second-generation beacons)",
                    reader="crew", unknown=ESTIMATE, example="private")
    where = Text("In which space?", required=True, unknown=NEEDED, example="companionway")
    side = Choice("On which side?", ("port", "starboard", "centre"))
    spot = Text("Exactly where?", unknown=OPEN)
    release = Choice("How does it leave its bracket?", ("by hand", "float-free"), unknown=ESTIMATE)
    release_expires = Dated("Until when is its own HRU good?")
    use = Text("How is it switched on?", unknown=NEEDED, example="slide the red cover, hold the button for two seconds")
    battery_expires = Dated("Until when is the battery good?", required=True, unknown=NEEDED)
    tested = Dated("When was it last tested?", unknown=ESTIMATE)
    registered = Dated("When was its registration last confirmed?", unknown=ESTIMATE)
    carried_by = Text("Who carries it?", unknown=OPEN)


class Radio(Block):
    """The vessel's identity on the air, her sets and beacons."""

    call_sign = Digits("What is her call sign?", r"[A-Z0-9]{3,8}", "three to eight letters and digits", required=True, example="MZZZ9")
    mmsi = Digits("What is her MMSI?", r"\d{9}", "nine digits", required=True, example="232000000")
    sets = Many(RadioSet, "Which radios has she?", required=True)
    beacons = Many(Beacon, "Which beacons has she?")
    language = Text("In which language does she call for help?", unknown=OPEN)
