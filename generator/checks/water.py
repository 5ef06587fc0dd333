"""Drinking water: enough of it."""

from __future__ import annotations

from dataclasses import replace

from generator.survey.registry import ADVICE, COMPOSITION, LIFE, Finds, Sight, check
from generator.survey.shortfalls import SOURCE, shortfalls
from generator.vessel.particulars import FAR


@check("water.short", ADVICE, SOURCE, COMPOSITION)
def there_is_water_for_everybody(sight: Sight) -> Finds:
    """There is drinking water for everybody, apart from what is in the tanks.

    Why: tanks are lost with the boat, or run out into the bilge.
    Remedy: fill cans or pouches, list them with 'volume', the litres of all together.
    """
    one = sight.vessel.vessel
    none = {row.rule.item for row in sight.manual.carriage if row.drinking_water and not row.aboard}
    far = one is not None and one.waters in FAR and bool(sight.vessel.rafts)
    for each in shortfalls(sight, lambda row: row.drinking_water):
        yield replace(each, weight=LIFE.weight) if far and each.item in none else each
