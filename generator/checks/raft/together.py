"""What of a raft goes together: units, tubes and standard, painter and weak link, lid and launch, certificates and orders of several."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.drawing.spaces import dimensions_m
from generator.reading.values import NotKnown, Quantity
from generator.survey.hands import hands
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.vessel.raft import Raft

_IMPERIAL = ("ft", "in", "lb")


SHORT_M, LIGHT_KG = 6.0, 4.0
"""A painter shorter, and a raft lighter for each person, in m and kg, than most are: common practice."""


@check("raft.odd-unit", HELP, COMMON_PRACTICE)
def figures_of_a_raft_are_in_her_units(sight: Sight) -> Finds:
    """Where she is told in metres, no raft is told in pounds or feet that would be a light one, or on a short painter.

    Why: eleven metres of painter typed as eleven feet end above the water, and a raft typed in pounds is lifted by nobody.
    Remedy: read the label again; if it really says feet or pounds, write the figure in metres or kilogrammes.
    """
    one = sight.vessel.vessel
    hers = [one.length, one.beam, one.freeboard, one.draft] if one is not None else []
    if any(_imperial(each) for each in hers):
        return
    for raft in sight.vessel.rafts:
        length, mass = raft.painter.length if raft.painter else None, raft.mass
        told = isinstance(raft.height, Quantity) and isinstance(length, Quantity) and length < 2 * raft.height
        if (
            raft.painter
            and isinstance(length, Quantity)
            and _imperial(length)
            and length < SHORT_M
            and not told
        ):
            yield of(
                raft,
                "length",
                f"its painter is {length} long, {float(length):.1f} m; all else of her is in metres",
                part=raft.painter,
            )
        if (
            isinstance(mass, Quantity)
            and _imperial(mass)
            and isinstance(raft.persons, int)
            and mass < LIGHT_KG * raft.persons
        ):
            yield of(
                raft,
                "mass",
                f"{mass} is {float(mass):.0f} kg, little for {raft.persons} persons; all else of her is in kilogrammes",
            )


def _imperial(figure: Quantity | NotKnown | None) -> bool:
    return isinstance(figure, Quantity) and figure.unit in _IMPERIAL


@check(
    "raft.tubes",
    TRUTH,
    "ISO 9650-1 and LSA Code 4.1: two buoyancy compartments, each of which carries all (secondary)",
)
def a_raft_for_the_open_sea_has_two_tubes(sight: Sight) -> Finds:
    """A raft of type 1, or of SOLAS, has two tubes.

    Why: with one tube holed the other carries everybody; with one alone nothing does.
    Remedy: look at the raft at its next service; write tubes: 2, or the standard that is on its label.
    """
    for raft in sight.vessel.rafts:
        standard = str(raft.standard)
        if raft.tubes == 1 and standard.startswith(("ISO 9650-1 type 1", "SOLAS")):
            yield of(
                raft,
                "tubes",
                f"it has one tube, and its standard is {standard}",
                also=(raft.place("standard"),),
            )


@check("raft.weak-link-by-hand", LIFE, COMMON_PRACTICE)
def a_raft_launched_by_hand_hangs_on_no_weak_link(sight: Sight) -> Finds:
    """A raft that does not float free is not made fast by a weak link.

    Why: with no HRU it goes down with her, whatever the link; launched by hand it tears the link at the first sea and drifts off empty.
    Remedy: go and look: write into 'held-by' and 'release' the HRU that is there; with none make the painter fast to the strong point,
    write fast-to: strong point and take 'weak-link' out.
    """
    for raft in sight.vessel.rafts:
        painter = raft.painter
        if (
            painter
            and raft.weak_link
            and painter.fast_to == "weak link"
            and raft.held_by
            and not raft.hydrostatic
            and not raft.release
        ):
            yield of(
                raft,
                "fast-to",
                f"the painter is fast to a weak link, and no HRU lets the raft go: held-by is {', '.join(raft.held_by)}",
                part=painter,
                also=(raft.place("held-by"),),
            )


@check("raft.lid-in-the-way", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_lid_opens_away_from_where_it_slides(sight: Sight) -> Finds:
    """The lid over a raft that slides out aft, or over the side, is not hinged on that edge.

    Why: the opened lid stands between the raft and the water, and the raft must be lifted over it.
    Remedy: open it and look; correct 'lid-hinge'; of a lid that folds right down out of the way defer this and say so.
    """
    for raft in sight.vessel.rafts:
        row = raft.kept
        if row is None or not row.compartment or raft.lift_needed is True:
            continue
        over = raft.launch_from.side if raft.launch_from is not None else None
        if raft.lid_hinge in ("port", "starboard") and over == raft.lid_hinge:
            yield of(
                raft,
                "lid-hinge",
                f"its lid is hinged {raft.lid_hinge}, and out of its {row.name} it goes over to {over}",
                also=(raft.place("launch-from"),),
            )
        if raft.lid_hinge != "aft":
            continue
        space = space_at(sight, raft.where if isinstance(raft.where, str) else row.where)
        if space is not None and space.aft_m <= AT_THE_STERN * dimensions_m(sight.vessel)[0]:
            yield of(raft, "lid-hinge", f"its lid is hinged aft, and out of its {row.name} it goes over aft")


AT_THE_STERN = 0.08
"""What begins so near the transom, as a part of her length, goes over aft."""


@check("raft.same-certificate", LIFE, COMMON_PRACTICE)
def each_raft_has_a_certificate_of_its_own(sight: Sight) -> Finds:
    """No two rafts have one certificate.

    Why: one of them was serviced and the other only copied, and nobody has seen its inside.
    Remedy: look at both certificates, and correct 'certificate'; if the station wrote both rafts on one, defer this and say so.
    """
    seen: dict[str, Raft] = {}
    for raft in sight.vessel.rafts:
        number = raft.service.certificate if raft.service else None
        if isinstance(number, str):
            first = seen.setdefault(re.sub(r"\W", "", number).lower(), raft)
            if first is not raft and first.service and raft.service:
                yield of(
                    raft,
                    "certificate",
                    f"it has the certificate of the {first.name}: {number}",
                    part=raft.service,
                    also=(first.service.place("certificate"),),
                )


@check("raft.nobody-commands", LIFE, COMMON_PRACTICE)
def somebody_leads_in_each_raft(sight: Sight) -> Finds:
    """Of several rafts each has somebody who can take command, where two aboard can.

    Why: the rafts part in the first night, and in one of them nobody knows the course, the signals or the water.
    Remedy: share those who can command between the rafts under 'carries'.
    """
    crew, rafts = hands(sight), sight.vessel.rafts
    able = [role for role, hand in crew.items() if "command" in hand.abilities]
    if len(rafts) < 2 or len(able) < 2 or not all(raft.carries for raft in rafts):
        return
    for raft in rafts:
        going = {str(who) for who in raft.carries}
        other = next(
            (
                each
                for each in rafts
                if each is not raft and len({str(who) for who in each.carries}.intersection(able)) > 1
            ),
            None,
        )
        if going.isdisjoint(able) and going <= crew.keys() and other is not None:
            both = [who for who in able if who in {str(each) for each in other.carries}]
            yield of(
                raft,
                "carries",
                f"nobody who goes into it can take command; {' and '.join(map(the, both))} go into the {other.name}",
                also=(other.place("carries"),),
            )


_LOAD = re.compile(
    r"\b(?:(?:fuel|water|petrol|diesel|jerry) ?cans?|cans|barbecue|grill|dinghy|tender|outboard|kayaks?|paddle ?boards?|sails|sail ?bags?|fenders|crates?|boxes|bicycles?|gas bottles?|gangway|passerelle|warps|anchor)\b(?![^.;]*\bdavits?\b)",
    re.IGNORECASE,
)
"""What is stowed on top of a raft and must first be cleared away."""


@check("raft.load-above", LIFE, COMMON_PRACTICE)
def nothing_is_stowed_over_a_raft(sight: Sight) -> Finds:
    """Nothing that must be cleared away first is said to be above a raft that goes over by hand.

    Why: in the dark and with the deck under water nobody lifts cans and barbecues off the raft.
    Remedy: stow that elsewhere, and write what is above it then: overhead: nothing, or the lid.
    """
    for raft in sight.vessel.rafts:
        load = (
            _LOAD.search(raft.overhead) if isinstance(raft.overhead, str) and not raft.hydrostatic else None
        )
        if load is not None:
            yield of(raft, "overhead", f"above it is stowed: {raft.overhead}")
