"""Who stayed ashore: whether somebody aboard orders in the skipper's place, and stands in for those who stand in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.survey.hands import hands
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, NOTICE, Finds, Found, Sight, check

if TYPE_CHECKING:
    from generator.reading.findings import Place

_ORDERS = "skipper"
"""What steps and pages call the role that orders."""


@check("voyage.no-skipper", HELP, COMMON_PRACTICE)
def somebody_on_the_voyage_is_the_skipper(sight: Sight) -> Finds:
    """Where the boat's file has a skipper, somebody on the voyage has that role.

    Why: steps, cards and the first page say 'listen to the skipper', and nobody aboard is called so.
    Remedy: give whoever commands on this voyage role: skipper in voyage.yaml.
    """
    voyage, crew = sight.vessel.voyage, hands(sight)
    if voyage is not None and _ORDERS in crew and not crew[_ORDERS].aboard:
        yield Found(
            voyage.key_place("persons"),
            "nobody on the voyage is the skipper, whom steps and cards name as the one who orders",
            item=_ORDERS,
        )


@check(
    "voyage.nobody-stands-in",
    NOTICE,
    "SOLAS III/37 (substitutes for key persons); common practice",
    COMPOSITION,
)
def key_duties_of_the_voyage_have_a_substitute(sight: Sight) -> Finds:
    """Every key duty has somebody aboard who takes over, where somebody on the voyage could.

    Why: with the substitute ashore, or in the place of somebody ashore, the duty ends with the first who is hurt.
    Remedy: in the boat's file, write as 'substitute' somebody who is on the voyage; or brief one for it before she leaves.
    """
    crew, voyage = hands(sight), sight.vessel.voyage
    told: list[tuple[str, Place]] = []
    if _ORDERS in crew and not crew[_ORDERS].aboard:
        return  # told by itself: whoever orders has his duties too
    for emergency in sight.manual.bill.emergencies if voyage else ():
        for duty in emergency.duties:
            named = {who for who in (*duty.who, duty.substitute) if who in crew}
            there = [who for who in named if crew[who].aboard]
            heads = sum(crew[who].heads for who in there)
            others = [role for role, hand in crew.items() if role not in named and hand.could(duty)]
            if duty.essential and named and not there:
                return  # told of itself: nobody has it
            if duty.key and len(named) > len(there) and heads == 1 and others:
                told.append((f"{emergency.id}, {duty.id} ({', '.join(others)} could)", duty.place))
    if voyage is not None and told:
        yield Found(
            voyage.key_place("persons"),
            f"with those ashore nobody stands in for: {'; '.join(about for about, _ in told)}",
            item="voyage",
            also=tuple(place for _, place in told),
        )
