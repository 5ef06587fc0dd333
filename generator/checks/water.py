"""Drinking water: enough of it."""

from __future__ import annotations

from generator.survey.registry import ADVICE, COMPOSITION, Finds, Sight, check
from generator.survey.shortfalls import SOURCE, shortfalls


@check("water.short", ADVICE, SOURCE, COMPOSITION)
def there_is_water_for_everybody(sight: Sight) -> Finds:
    """There is drinking water for everybody, apart from what is in the tanks.

    Why: tanks are lost with the boat, or run out into the bilge.
    Remedy: fill cans or pouches, list them with 'volume', the litres of all together.
    """
    yield from shortfalls(sight, lambda row: row.drinking_water)
