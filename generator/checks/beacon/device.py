"""The beacon as it is described, against what its id says of it."""

from __future__ import annotations

import re

from generator.reading.nearest import shortened
from generator.survey.barring import on_beacons
from generator.survey.beacons import FIRST_GENERATION, SECOND_GENERATION, coded_beacons
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
    of,
)

_SHUT = re.compile(
    r"\b(?:(?:in|inside) (?:the|a|its) (?:\w+ )?(?:locker|cupboard|drawer|chest|box|bag|recess)|"
    r"(?:under|beneath|below|underneath) (?:the|a|its) (?:\w+ ){0,3}?(?:roof|deckhead|hard ?top|bimini|spray ?hood|awning|cover|tarpaulin|canopy|dinghy|tender|arch|seat|lid|net))\b",
    re.IGNORECASE,
)


@check("beacon.mount", HELP, f"{FIRST_GENERATION} Annex A2.5")
def mount_and_code_agree(sight: Sight) -> Finds:
    """A beacon coded as float-free is mounted so, and the other way round.

    Why: rescuers take it from the code whether somebody switched it on.
    Remedy: correct 'release', or have the beacon programmed for its bracket.
    """
    for beacon, code in coded_beacons(sight.vessel):
        coded = {"EPIRB float-free": "float-free", "EPIRB non-float-free": "by hand"}.get(
            code.beacon_type or ""
        )
        if coded and isinstance(beacon.release, str) and beacon.release != coded:
            yield of(
                beacon,
                "release",
                f"it leaves its bracket {beacon.release}, its id says {coded}",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.kind", LIFE, f"{FIRST_GENERATION} Annex A Table A2")
def kind_and_code_agree(sight: Sight) -> Finds:
    """A beacon is of the kind its id says.

    Why: an aircraft's or a person's beacon is answered in another way.
    Remedy: correct 'kind', or have the beacon programmed right.
    """
    for beacon, code in coded_beacons(sight.vessel):
        coded = (code.beacon_type or "").split(" ")[0]
        if coded in ("EPIRB", "PLB") and beacon.kind in ("EPIRB", "PLB") and coded != beacon.kind:
            yield of(
                beacon,
                "kind",
                f"it is described as {beacon.kind}, its id says {coded}",
                also=(beacon.place("hex-id"),),
            )
        elif coded == "ELT":
            yield of(beacon, "hex-id", "its id is that of an aircraft's beacon (ELT)", weight=RECOMMENDATION)


@check(
    "beacon.type-approval",
    HELP,
    f"{FIRST_GENERATION} 4.5, Annex A2.5, A3.3; {SECOND_GENERATION} App. I",
)
def the_type_approval_on_the_label_is_the_coded_one(sight: Sight) -> Finds:
    """The type-approval number on the label is the one in the id.

    Why: where they differ, the label or the id belongs to another beacon.
    Remedy: read both again; ask the maker if they differ.
    """
    for beacon, code in coded_beacons(sight.vessel):
        label = beacon.type_approval
        if isinstance(label, int) and code.type_approval and code.type_approval != label and not code.faults:
            yield of(
                beacon,
                "type-approval",
                "the type-approval number on the label is not the one in its id",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.position-protocol", HELP, f"{FIRST_GENERATION} 3.3")
def a_location_code_needs_a_receiver(sight: Sight) -> Finds:
    """A beacon coded to send its position has a receiver for it.

    Why: rescuers would wait for a position that never comes.
    Remedy: correct 'gnss', or have the beacon programmed without position.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if beacon.gnss is False and code.position_default is not None:
            yield of(
                beacon,
                "gnss",
                "its id is coded for sending a position, and it has no receiver",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.homing", HELP, f"{FIRST_GENERATION} Annex A2.1")
def an_epirb_can_be_homed_on(sight: Sight) -> Finds:
    """An EPIRB's id says that it has a homing signal.

    Why: aircraft and lifeboats find the last mile by it.
    Remedy: ask the maker whether it has a 121.5 MHz homer, and have the code corrected.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if beacon.kind == "EPIRB" and code.homing == "none" and not code.faults:
            yield of(beacon, "hex-id", "its id says that it has no homing signal")


@check("beacon.shut-in", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_float_free_beacon_floats_free(sight: Sight) -> Finds:
    """A beacon that floats free has nothing above it: no roof, no lid, no locker.

    Why: it is released where the boat sinks, and goes down with her under whatever is above it.
    Remedy: move the bracket to where it can rise, then write where and spot; or write release: by hand if somebody must fetch it.
    """
    radio = sight.vessel.radio
    free = [each for each in radio.beacons if each.release == "float-free"] if radio else []
    for burden in on_beacons(sight) if free else ():
        block = burden.said.block
        if block not in free:
            name = str(block.__dict__.get(type(block).called or "what") or "a note")
            yield at(
                block,
                burden.said.field.key,
                f"{name}: '{shortened(burden.said.text)}': it keeps down the {free[0].what or 'beacon'}, which is to float free",
                remedy="stow it elsewhere, and write that place and spot: lashed bottom up on the foredeck",
                item=name,
                also=(free[0].place("release"),),
            )
    for beacon in radio.beacons if radio else ():
        here = lies(sight, beacon) if beacon.release == "float-free" else None
        if here is not None and (here.space.stows or here.space.roofed):
            shut = "in which it is shut in" if here.space.stows else "under a roof"
            yield of(
                beacon,
                "where",
                f"it is to float free, and its bracket is in the {here}, {shut}",
                also=(beacon.place("release"),),
            )
        elif beacon.release == "float-free" and isinstance(beacon.spot, str) and _SHUT.search(beacon.spot):
            yield of(
                beacon,
                "spot",
                f"it is to float free, and its bracket is '{beacon.spot}'",
                also=(beacon.place("release"),),
            )
