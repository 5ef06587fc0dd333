"""Who carries a beacon on the body: somebody aboard, in the jacket that it hangs on."""

from __future__ import annotations

import re

from generator.manual.crew import the
from generator.manual.told import one_for_each
from generator.manual.wearing import named
from generator.reading.nearest import nearest
from generator.survey.registry import COMMON_PRACTICE, HELP, TRUTH, Finds, Sight, check, of

_ONE = re.compile(
    r"(?:the |our )?(?!who|all\b|any|no\b|none|nobody|both|watch|crew)([a-z]+(?: [a-z]+)?(?: \d+)?)",
    re.IGNORECASE,
)
_ON_A_JACKET = re.compile(r"\b(life ?jacket|jacket|vest)\b", re.IGNORECASE)


def _carrier(said: str, roles: tuple[str, ...]) -> str:
    """The one person that words name, a role aboard or not; "" where they name several, or tell more."""
    match = _ONE.fullmatch(said.strip())
    if match is None:
        return ""
    return next(
        (role for role in roles if role.lower() in (said.strip().lower(), match[1].lower())), match[1]
    )


@check("beacon.carrier", TRUTH, COMMON_PRACTICE)
def beacons_are_carried_by_people_aboard(sight: Sight) -> Finds:
    """Whoever carries a beacon is aboard.

    Why: the step sends the beacon to somebody who is not there, and nobody switches it on.
    Remedy: write under 'carried-by' one of the roles under 'people'.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        said = beacon.carried_by
        if not isinstance(said, str) or one_for_each(beacon.spot, said) or not sight.roles:
            continue
        who = _carrier(said, sight.roles)
        if who and who not in sight.roles:
            yield of(
                beacon,
                "carried-by",
                f"'{who}' carries it, who is no role aboard",
                remedy=nearest(who, sight.roles),
            )


@check("beacon.jacket-not-worn", HELP, COMMON_PRACTICE)
def the_jacket_it_hangs_on_is_worn(sight: Sight) -> Finds:
    """A beacon that hangs on somebody's lifejacket is on one that is worn, where it is said who wears theirs.

    Why: the beacon stays in the locker with the jacket.
    Remedy: write whoever carries it under 'worn-by' of the jackets, or where the beacon hangs when the jacket is off.
    """
    vessel = sight.vessel
    people = list(vessel.people)
    worn = {who for jackets in vessel.lifejackets for who in named(jackets, people)}
    for beacon in vessel.radio.beacons if vessel.radio and worn else ():
        said = beacon.carried_by
        who = _carrier(said, sight.roles) if isinstance(said, str) else ""
        on_it = isinstance(beacon.spot, str) and _ON_A_JACKET.search(beacon.spot)
        if who in sight.roles and on_it and who not in worn:
            yield of(
                beacon,
                "spot",
                f"it hangs on a lifejacket, and {the(who)}, who carries it, wears none all the time",
            )
