"""Whoever helps another is free to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.survey.hands import hands
from generator.survey.registry import COMPOSITION, LIFE, Finds, Found, Sight, check
from generator.vessel.people import heads

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.manual.bill import Duty
    from generator.reading.findings import Place
    from generator.survey.hands import Hand


@check("bill.helper-busy", LIFE, "MGN 71 Amendment 1 Annex 2.4; common practice", COMPOSITION)
def helpers_are_free_to_help(sight: Sight) -> Finds:
    """Whoever helps another has no duty that cannot be left, where somebody else is free for it; who looks out sits beside the one or two whom he helps.

    Why: the person who needs help waits, or the duty stops.
    Remedy: name another helper, or give the duty to somebody else.
    """
    helpers = {person.helper: person for person in sight.vessel.people if isinstance(person.helper, str)}
    crew = hands(sight)
    helped = {
        who: sum(
            heads([each])
            for each in sight.vessel.people
            if each.helper == who and _helped_aboard(crew, str(each.role))
        )
        for who in helpers
    }
    told: dict[str, list[tuple[str, str, Place]]] = {}
    for emergency in sight.manual.bill.emergencies if helpers else ():
        bound = {who for duty in emergency.duties if duty.continuous for who in duty.who}
        for duty in emergency.duties:
            free = [
                hand
                for role, hand in crew.items()
                if role not in bound | set(helpers) and not hand.why_not(duty) and not hand.weak
            ]
            for who in duty.who if duty.continuous and free else ():
                alone = who not in crew or crew[who].heads <= duty.persons
                if who not in helpers or not alone or _beside_them(duty, helped[who]):
                    continue
                if _helped_aboard(crew, str(helpers[who].role)):
                    about = (f"{emergency.id}, {duty.id}", emergency.title, duty.place)
                    told.setdefault(who, []).append(about)
    for who, duties in told.items():
        person, (first, _, place) = helpers[who], duties[0]
        titles = ", ".join(dict.fromkeys(title for _, title, _ in duties))
        them = "them" if duties[1:] else "it"
        others = [str(each.role) for each in sight.vessel.people if each.helper == who]
        yield Found(
            place,
            f"{'; '.join(about for about, _, _ in duties)}: {the(who)} cannot leave {them}, and must help {' and '.join(map(the, others))} ({titles})",
            item=first,
            also=(person.place("helper"), *(each for _, _, each in duties[1:])),
        )


SEATED_WITH = 2
"""How many somebody holds who looks out beside them: one for each hand."""


def _beside_them(duty: Duty, helped: int) -> bool:
    """Whether a duty is done sitting beside those whom one helps: looking out, with no more of them than hands."""
    return duty.seated and duty.at_once and helped <= SEATED_WITH


def _helped_aboard(crew: Mapping[str, Hand], who: str) -> bool:
    """Whether somebody needs the help on board, and not in the water alone."""
    return who not in crew or bool(crew[who].hindered(seated=False)) or not crew[who].needs_help
