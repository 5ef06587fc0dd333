"""The liferaft: what it is, what holds it, what fires it, how it is boarded and righted."""

from collections.abc import Iterator

from generator.reading.block import Block, Fault
from generator.reading.fields import (
    CHECKED,
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Dated,
    One,
    Plain,
    Text,
    Texts,
    YesNo,
)
from generator.reading.measures import Count, Dimensions, Measure, Range
from generator.reading.shares import Shares
from generator.reading.values import untold
from generator.reading.worded import NAME, SPACE, THING, Worded
from generator.shelves.packs import packs
from generator.shelves.stowages import CONTAINERS, Stowage, holds, hydrostatic, stowages
from generator.vessel.fittings import Fitting, Gate, Kept
from generator.vessel.lives import own_lives

STANDARDS = ("SOLAS", "ISO 9650-1 type 1 group A", "ISO 9650-1 type 1 group B", "ISO 9650-1 type 2", "other")
UNIT = "HRU"
"""The release unit itself, as something that a line may be made fast to."""
ALONG, ACROSS = "along", "across"
ENDS = ("forward", "aft", "port", "starboard")
"""Which way something of a raft or of its place points."""
NO_LID = "none"
LETS_GO = ("cradle", UNIT)
"""What neither painter nor weak link may end at: it lets go."""


class Release(Block):
    """The hydrostatic release unit (HRU)."""

    fitted = Dated("When was it fitted?", required=True)
    expires = Dated("Which expiry is marked on it?", required=True)
    made = Dated("When was it made?", unknown=OPEN)
    kind = Choice(
        "Is it thrown away or serviced?", ("disposable", "serviceable"), required=True, unknown=ESTIMATE
    )
    depth = Range(
        "At which depth does it release?",
        "length",
        high=20,
        unknown=ESTIMATE,
        example="1.5-4 m",
        low=0.5,
        why="from the shallowest to the deepest at which a unit is made to let go",
    )
    serves = Count(
        "How many rafts hang on this one unit?",
        low=1,
        high=4,
        unknown=OPEN,
        why="rafts that hang together at most",
    )
    strap = Choice("How tight is the strap it holds?", ("hand-tight", "slack", "overtight"), unknown=ESTIMATE)
    lives = own_lives()


class Painter(Block):
    """The line from raft to boat that also fires the cylinder."""

    length = Measure(
        "How long is it (on the container's label)?",
        "length",
        low=3,
        high=60,
        required=True,
        example="11 m",
        why="from the shortest painter of a small raft to that of a high side",
    )
    fast_to = Choice(
        "What is the painter's own end fast to as rigged (what lies behind a weak link is 'joins')?",
        ("weak link", "strong point", UNIT, "cradle", "rail", "nothing"),
        required=True,
        unknown=NEEDED,
    )
    strength = Measure(
        "Which load does it bear?",
        "force",
        low=500,
        high=100000,
        unknown=ESTIMATE,
        example="7.5 kN",
        why="from cord to the heaviest painter",
    )
    checked = Dated("When was the joint last looked at after the raft came back?", unknown=CHECKED)
    lead = Choice(
        "How does it run from the container to its end?",
        ("clear", "through the strap", "under the container"),
        unknown=ESTIMATE,
    )
    marked = YesNo("If several lines come out of the container, is this one marked?", unknown=OPEN)


class WeakLink(Block):
    """The part that must break after the raft is inflated, before the boat drags it down."""

    strength = Measure(
        "At which load does it part?",
        "force",
        low=100,
        high=20000,
        required=True,
        unknown=ESTIMATE,
        example="2.2 kN",
        why="from what a wave parts to what a boat would be held by",
    )
    made_by = Choice(
        "Is it the release's own, or home-made?",
        ("release maker", "raft maker", "home-made"),
        required=True,
        unknown=NEEDED,
    )
    joins = Choice(
        "What is the far end of the weak link fast to (the painter's own end is 'fast-to')?",
        ("strong point", *LETS_GO),
        required=True,
        unknown=NEEDED,
    )


class Slip(Block):
    """The Senhouse slip that a hand opens."""

    side = Choice("On which side of the raft is it?", ENDS, unknown=OPEN)
    opens_clear = YesNo("Does its arm swing right open, clear of every loop and hitch?", unknown=ESTIMATE)
    condition = Choice("How does it look?", ("sound", "stiff", "corroded", "cracked"), unknown=ESTIMATE)
    checked = Dated("When was it last opened and greased?", unknown=OPEN)


class Service(Block):
    """What the service station wrote."""

    last = Dated("When was the raft last serviced?", required=True)
    next = Dated("When is the next service due?", required=True)
    certificate = Text("Which number has the certificate?", reader="crew", unknown=OPEN)
    station = Worded("Which station did it?", says=NAME, unknown=OPEN)
    contents_expire = Dated("Which dated thing inside the pack runs out first?", unknown=ESTIMATE)
    cylinder_test = Dated("Until when is the cylinder tested?", unknown=ESTIMATE)
    pressure_test = Dated(
        "When were the tubes of a raft over ten years old last tested under over-pressure?", unknown=CHECKED
    )
    cylinder_weighed = YesNo(
        "Does the certificate say that the gas cylinder was weighed and full?", unknown=ESTIMATE
    )
    ballast_bags = YesNo("Does the certificate say that the ballast bags were all there?", unknown=ESTIMATE)
    station_approved = YesNo("Has the raft's maker approved the station?", unknown=OPEN)
    lives = own_lives()


class Party(Block):
    """Who of those aboard does what at this raft; the bill says it for all rafts alike."""

    launch = Texts("Which roles launch it?", unknown=OPEN, most=12, example="[deckhand 1, cook]")
    hold = Texts(
        "Which role holds it alongside while people board?", unknown=OPEN, most=12, example="skipper"
    )
    cut = Texts("Which role keeps the knife and cuts it loose?", unknown=OPEN, most=12, example="skipper")
    bag = Texts("Which role brings the bag to it?", unknown=OPEN, most=12, example="cook")
    beacon = Texts("Which role brings a beacon to it, switched on?", unknown=OPEN, most=12, example="mate")


class Raft(Block):
    """One liferaft in its stowage."""

    called = "name"
    name = Worded("What is it called aboard?", says=THING, required=True, example="liferaft")
    standard = Choice("Which standard is marked on it?", STANDARDS, required=True)
    persons = Count(
        "For how many persons is it approved?",
        low=1,
        high=50,
        required=True,
        example="6",
        why="sizes that rafts are made in",
    )
    mass = Measure(
        "What does it weigh?",
        "mass",
        low=8,
        high=600,
        required=True,
        unknown=ESTIMATE,
        example="36 kg",
        why="from the lightest raft in a valise to the heaviest in a canister",
    )
    packed_size = Dimensions("How large is the container?", unknown=ESTIMATE)
    container = Choice("What is it packed in?", CONTAINERS, required=True)
    lies = Choice("Does the container lie along or across the boat?", (ALONG, ACROSS), unknown=OPEN)
    painter_end = Choice("At which end of the container does the painter come out?", ENDS, unknown=OPEN)
    made = Dated("When was it made?", unknown=ESTIMATE)
    serial = Text("Which serial number has it?", reader="crew", unknown=OPEN)
    stowage = Choice(
        "In what is it kept, a cradle, bracket or locker (its space is 'where')?",
        stowages,
        required=True,
    )
    where = Worded(
        "In which space of the plan is that, unless the stowage says it, as a pushpit bracket does?",
        says=SPACE,
        unknown=NEEDED,
        example="coachroof",
    )
    side = Choice("On which side?", ("port", "starboard", "centre"), required=True, unknown=NEEDED)
    photo = Plain("Which photo shows it where it is kept?", unknown=OPEN)
    height = Measure(
        "How high above the water does it lie?",
        "length",
        high=20,
        required=True,
        unknown=ESTIMATE,
        example="1.6 m",
        low=0,
        why="from the waterline to the highest deck of a hull of 40 m",
    )
    held_by = Texts(
        "What holds it, in the order you take it off?", holds, unknown=CHECKED, partly=NEEDED, most=12
    )
    strap_fixed = Choice("On which side is the strap or lashing fixed to the boat?", ENDS, unknown=OPEN)
    lid_hinge = Choice(
        "On which side is the lid over it hinged, if it has one?", (*ENDS, NO_LID), unknown=OPEN
    )
    sill = Measure(
        "How high is the sill it must be lifted over?",
        "length",
        nothing=True,
        high=2,
        unknown=OPEN,
        example="0.3 m",
        low=0,
        why="from none to what nobody lifts a raft over",
    )
    release = One(Release, "Which hydrostatic release unit (HRU) holds it?")
    painter = One(Painter, "Which painter has it?", required=True)
    weak_link = One(WeakLink, "Which weak link has it?")
    strong_point = One(
        Fitting,
        "Which strong point on the hull takes the painter?",
        required=True,
        example="{what: the U-bolt, where: coachroof, side: port}",
    )
    strong_point_reached = YesNo(
        "Can a hand reach that strong point while the raft lies in its place?", unknown=CHECKED
    )
    launch_from = One(
        Gate,
        "At which gate, rail or gunwale does it go into the water?",
        required=True,
        example="{what: the gate, where: side deck, side: port}",
    )
    knife = One(
        Kept,
        "Where is the knife to cut it loose, outside its container?",
        required=True,
        may_be_none=True,
        example="{where: coachroof, spot: in the sheath on the cradle}",
    )
    lift_needed = YesNo("Must it be lifted to go over the side?", unknown=ESTIMATE)
    label_height = Measure(
        "Which greatest height does its label allow it to lie at?",
        "length",
        high=60,
        unknown=OPEN,
        example="6 m",
        low=1,
        why="heights that rafts are tested from",
    )
    slip = One(Slip, "How is its Senhouse slip?", unknown=OPEN, example="{side: aft, opens-clear: yes}")
    snug = YesNo("Does the container sit snugly, without play?", unknown=ESTIMATE)
    drains_down = YesNo("Do the drain holes of the container point down?", unknown=ESTIMATE)
    compartment_drains = YesNo("Does its locker or recess drain overboard by itself?", unknown=ESTIMATE)
    reached_heeled = YesNo(
        "Can it be reached and sent over when she lies on her side or is down by the stern?", unknown=ESTIMATE
    )
    reached_inverted = YesNo("Can it be reached when she floats upside down?", unknown=CHECKED)
    ready_in = Measure(
        "How long did it take in a drill until it lay ready to go over?",
        "time",
        high=3600,
        unknown=OPEN,
        example="15 s",
        low=3,
        why="from one slip pulled and the raft pushed over to an hour; in less nobody frees it",
    )
    lashed_over = YesNo("Is anything lashed, locked or stacked over it?", unknown=ESTIMATE)
    overhead = Text(
        "What is above it that could stop it floating free?",
        unknown=ESTIMATE,
        example="nothing",
        answers=("nothing", "none"),
    )
    carries = Shares(
        "Who goes into it (only with several rafts; none of a spare), and how many of a role of several?",
        Count("How many of them?", low=1, high=60, why="as many as a boat of 40 m has aboard"),
        unknown=CHECKED,
        most=100,
        example="[skipper, guests: 6]",
    )
    party = One(Party, "Who launches it, holds it, cuts it loose, brings bag and beacon to it?", unknown=OPEN)
    board_from = One(
        Gate,
        "At which place do people step into it?",
        required=True,
        example="{what: the gate, where: side deck, side: port}",
    )
    entrances = Count(
        "How many entrances has it?", low=1, high=4, unknown=OPEN, why="entrances that rafts are made with"
    )
    boarding = Choice(
        "What helps someone in the water to climb in?",
        ("ramp", "ladder", "ramp and ladder", "none"),
        unknown=CHECKED,
    )
    righting = Choice("What turns it upright?", ("strap", "ladder", "none"), required=True, unknown=NEEDED)
    cylinder_side = Choice(
        "Is the gas cylinder's side marked on the raft's bottom?", ("marked", "not marked"), unknown=OPEN
    )
    tubes = Count(
        "How many buoyancy tubes has it?", low=1, high=3, unknown=OPEN, why="tubes that rafts are made with"
    )
    canopy = YesNo("Has it a canopy?", unknown=ESTIMATE)
    floor = Choice("What floor has it?", ("single", "double", "insulated"), unknown=ESTIMATE)
    drogue = Choice("How does the drogue go out?", ("streams itself", "by hand"), unknown=OPEN)
    pack = Choice("Which pack is inside?", packs, required=True)
    pack_water = Measure(
        "How much water is inside?",
        "volume",
        nothing=True,
        high=500,
        unknown=ESTIMATE,
        example="6 l",
        low=0,
        why="from none to ten litres for each of fifty persons",
    )
    service = One(Service, "When was it serviced?", required=True)
    first_to_launch = Count(
        "In which order is it launched?",
        low=1,
        high=9,
        unknown=OPEN,
        example="1",
        why="as many rafts as one after the other are launched at most",
    )

    def complete(self) -> None:
        """The space follows from the stowage, where that says it itself."""
        if untold(self.where) and self.kept is not None and self.kept.where is not None:
            self.__dict__["where"] = str(self.kept.where)

    def faults(self) -> Iterator[Fault]:
        """The ends of a container lie where it lies: forward and aft along the boat, to port and starboard across her."""
        ends = {ALONG: ("forward", "aft"), ACROSS: ("port", "starboard")}
        if self.lies in ends and self.painter_end in ENDS and self.painter_end not in ends[str(self.lies)]:
            yield Fault(
                "painter-end",
                f"the container lies {self.lies}, and its painter is said to come out at an end that points {self.painter_end}",
                f"go and look; of a container that lies {self.lies} write one of: {', '.join(ends[str(self.lies)])}",
            )

    @property
    def kept(self) -> Stowage | None:
        """What the shelf says of the place where it is kept; None where the file names none."""
        return stowages().get(self.stowage) if isinstance(self.stowage, str) else None

    @property
    def launching_aid(self) -> bool:
        """Whether a davit or another device takes it over the side."""
        return self.kept is not None and self.kept.launching_aid

    @property
    def hydrostatic(self) -> bool:
        """Whether something holds it that lets go by itself under water, an HRU."""
        return any(name in self.held_by for name in hydrostatic())
