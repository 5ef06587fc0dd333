"""Pumps: enough of them."""

from __future__ import annotations

from generator.survey.limits import least
from generator.survey.registry import RECOMMENDATION, Finds, Found, Sight, check
from generator.vessel.particulars import FAR


@check(
    "pumps.too-few",
    RECOMMENDATION,
    "ISO 15083 5.1.3 (a second pump, read in an excerpt); common practice offshore",
)
def there_are_pumps_enough(sight: Sight) -> Finds:
    """There is a bilge pump; offshore there are two. Inshore, a boat whose type is bailed needs none.

    Why: the one pump chokes on what floats in the bilge.
    Remedy: list each under 'pumps'; fit a second that drains all of her.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    needed = least(vessel, "bilge pumps")
    if one and one.hull.is_bailed and one.waters not in FAR:
        return
    if one and isinstance(one.waters, str) and len(vessel.pumps) < needed:
        place = vessel.key_place("pumps") if vessel.pumps else one.place("waters")
        yield Found(
            place,
            f"she sails {one.waters} waters, and {len(vessel.pumps) or 'no'} bilge pump{' is' if len(vessel.pumps) < 2 else 's are'} described",
        )
