"""Boats with every combination of sets, beacons, signals and crews, and the three cards of the call for help as composed for them."""

import functools
from dataclasses import dataclass
from itertools import cycle, product
from pathlib import Path
from tempfile import TemporaryDirectory

from open_boats import OPEN_BOAT, changed

from generator.manual import procedures
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

FACES = ("distress-call", "call-unheard", "be-seen")
SHORT = {
    "VHF": "fixed",
    "handheld VHF": "handheld",
    "MF/HF": "shortwave",
    "satellite telephone": "satellite",
}
"""What the sets are called, by their kinds, in the order of their reach at once."""
CAN = [*product((True, False), (True, False), (True, False))]
"""What a set can do: whether it makes a digital distress call, knows the position by itself, shows it."""
OLD = "    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: helm, side: starboard, power: turn the top knob to the right}\n"
BEACONS = {
    "bracket": "{what: EPIRB in a bracket, kind: EPIRB, where: helm, side: port, spot: on the shelf of bracket, release: by hand, use: press the key of bracket, battery-expires: 2031-05}",
    "floating": "{what: floating EPIRB, kind: EPIRB, where: helm, side: port, spot: on the shelf of floating, release: float-free, use: press the key of floating, battery-expires: 2031-05}",
    "worn": "{what: PLB, kind: PLB, where: helm, side: port, spot: on the mate's lifejacket, carried-by: mate, use: press the key of worn, battery-expires: 2031-05}",
    "radar": "{what: transponder, kind: SART, where: helm, side: port, spot: on the shelf of radar, use: press the key of radar, battery-expires: 2031-05}",
    "jacket": "{what: device, kind: AIS man-overboard device, where: helm, side: port, spot: on the shelf of jacket, use: press the key of jacket, battery-expires: 2031-05}",
}
CARRIED = [(), ("bracket",), ("floating",), ("worn",), ("radar", "jacket"), (*BEACONS,), ("jacket",), ("floating", "worn")]  # fmt: skip
CENTRES = ("the rescue centre of the north", "the rescue centre of the south")
NUMBERS = ("+44 1632 960120", "+353 20 915 0147")
CREWS = (1, 2, 4)
FLARES = "  - {what: red hand flares, kind: signal, quantity: 3, where: foredeck locker, side: port, expires: 2028-10}\n"
SIGNALS = """\
  - {what: parachute flares, kind: signal, quantity: 2, where: foredeck locker, side: port, expires: 2028-10}
  - {what: orange smoke, kind: signal, quantity: 2, where: foredeck locker, side: port, expires: 2028-10}
  - {what: foghorn, kind: signal, quantity: 1, where: helm, side: port}
"""


def can(kind):
    """What is tried of a kind: of a telephone no step asks for the first two, of shortwave none for the second."""
    return [
        each
        for each in CAN
        if not (kind == "satellite telephone" and each[0])
        and not (kind not in ("VHF", "handheld VHF") and each[1])
    ]


def _line(kind, dsc, gnss, shows):
    name, yes = f"{SHORT[kind]} {dsc:d}{gnss:d}{shows:d}", {True: "yes", False: "no"}
    button = f", distress-button: under the flap of {name}" if dsc else ""
    shown = f", position-shown: on the screen of {name}" if shows else ""
    return (
        f"    - {{what: {name}, kind: {kind}, dsc: {yes[dsc]}, gnss: {yes[gnss]}, where: helm, side: port, spot: on the shelf of {name}, "
        f"power: press the knob of {name}{button}{shown}}}\n"
    )


@dataclass(frozen=True)
class Line:
    """A step of a card: where it stands and what it prints."""

    face: str
    name: str
    text: str
    place: str
    unless: str
    caution: str
    why: str
    who: tuple[str, ...] = ()

    @property
    def said(self):
        """All of it."""
        return f"{self.text} {self.place} {self.unless} {self.caution} {self.why}"


@dataclass(frozen=True)
class Called:
    """The cards of one boat: her sets by name, her beacons, whom she can ring, how many sail, and the steps in order."""

    sets: tuple[str, ...]
    beacons: tuple[str, ...]
    numbers: tuple[str, ...]
    persons: int
    lines: tuple[Line, ...]
    leaves: tuple[tuple[str, str], ...]

    def on(self, face):
        """The steps of a card."""
        return [line for line in self.lines if line.face == face]

    def at(self, name):
        """Where a step of the first card stands, from 0; None where it has none of the name."""
        return next((at for at, line in enumerate(self.on(FACES[0])) if line.name == name), None)

    @property
    def spoken_into(self):
        """The set that the call is said on; None where there is no such set."""
        return next((each for each in self.sets if not each.startswith("satellite")), None)


@functools.cache
def _boat():
    with TemporaryDirectory() as folder:
        lines = "".join(_line(kind, *each) for kind in SHORT for each in can(kind))
        beacons = "  beacons:\n" + "".join(f"    - {each}\n" for each in BEACONS.values())
        centres = "".join(
            f"  - {{who: {who}, kind: rescue centre, channel: VHF 16, phone: {number}}}\n"
            for who, number in zip(CENTRES, NUMBERS, strict=True)
        )
        text = changed(
            OPEN_BOAT,
            (OLD, lines + beacons),
            ("call-sign: EIXZ7", "call-sign: EIXZ7\n  mmsi: 250000000"),
            ("  - {who: the rescue centre, kind: rescue centre, channel: VHF 16}\n",
             centres + "  - {who: the aunt ashore, kind: shore contact, phone: +44 7700 900142}\n"),
            (FLARES, FLARES + SIGNALS),
        )  # fmt: skip
        (Path(folder) / "vessel.yaml").write_text(text, encoding="utf-8")
        vessel, findings = load(Path(folder))
    assert vessel is not None, findings
    return vessel, dict(vessel.__dict__), dict(vessel.radio.__dict__)


def called_with(*sets, beacons=(), centres=0, persons=4, signals=True, **radio):
    """The cards of the boat with these sets, beacons, numbers of rescue centres, people and signals alone."""
    vessel, own, of_radio = _boat()
    vessel.radio.__dict__.update(of_radio)
    named = {str(each.what): each for each in of_radio["sets"]}
    every = dict(zip(BEACONS, of_radio["beacons"], strict=True))
    vessel.radio.__dict__.update(
        sets=[named[each] for each in sets], beacons=[every[each] for each in beacons], **radio
    )
    contacts = [each for each in own["contacts"] if each.kind != "rescue centre"]
    contacts[:0] = [each for each in own["contacts"] if each.kind == "rescue centre"][:centres]
    signal = [each for each in own["gear"] if signals or each.kind != "signal"]
    vessel.__dict__.update(contacts=contacts, people=own["people"][:persons], gear=signal)
    vessel.vessel.__dict__["persons"] = persons
    vessel.__dict__["station_bill"] = own["station_bill"] if persons == 4 else {}
    alone = tuple(one for one in procedures.shelf() if one.id in FACES)
    whole, procedures.shelf = procedures.shelf, lambda: alone
    try:
        made, gaps = compose_procedures(Reckoning(vessel), catalogue())
    finally:
        procedures.shelf = whole
    assert [each.message for each in gaps] == []
    return Called(
        sets,
        beacons,
        NUMBERS[:centres],
        persons,
        tuple(
            Line(one.id, step.id.partition(".")[2], step.text, step.place, step.unless, step.caution, step.why, step.who)
            for name in FACES for one in made if one.id == name for step in one.steps
        ),
        tuple((one.id, link.id) for one in made for leave in one.leaves for link in leave.to),
    )  # fmt: skip


def _choices(kind):
    return [None, *(f"{SHORT[kind]} {dsc:d}{gnss:d}{shows:d}" for dsc, gnss, shows in can(kind))]


@functools.cache
def every_call():
    """Every combination of what sets can do; beacons, numbers, crews and signals go round, each at a pace of its own."""
    turns = zip(cycle(CARRIED), cycle((0, 1, 2)), cycle((*CREWS, 2, 4)), cycle((True, False) * 5 + (True,)))
    return tuple(
        called_with(
            *(each for each in sets if each),
            beacons=beacons,
            centres=centres,
            persons=persons,
            signals=signals,
        )
        for sets, (beacons, centres, persons, signals) in zip(
            product(*map(_choices, SHORT)), turns, strict=False
        )
    )


NAMED = {
    "a mobile telephone or nothing": {"centres": 1},
    "none but flares": {},
    "a handheld alone": {"sets": ("handheld 000",)},
    "a handheld with its button": {"sets": ("handheld 111",), "beacons": ("worn",)},
    "VHF without DSC": {"sets": ("fixed 001",), "beacons": ("bracket",)},
    "VHF without DSC and a handheld with": {"sets": ("fixed 000", "handheld 111")},
    "MF/HF without a VHF": {"sets": ("shortwave 101",), "beacons": ("floating",), "persons": 1},
    "a satellite telephone alone": {"sets": ("satellite 001",), "centres": 2},
    "a satellite telephone without a number": {"sets": ("satellite 000",), "persons": 2},
    "a PLB worn": {"sets": ("handheld 000",), "beacons": ("worn",), "persons": 1},
    "an EPIRB that floats free, alone": {"sets": ("fixed 111",), "beacons": ("floating",), "persons": 1},
    "what ships see": {"sets": ("fixed 101",), "beacons": ("radar", "jacket")},
    "everything": {"sets": ("fixed 111", "handheld 111", "shortwave 101", "satellite 001"), "beacons": (*BEACONS,), "centres": 2},
}  # fmt: skip
"""Combinations that a reader would ask after."""


@functools.cache
def named_call(name):
    """The cards of one of those."""
    told = dict(NAMED[name])
    return called_with(*told.pop("sets", ()), **told)
