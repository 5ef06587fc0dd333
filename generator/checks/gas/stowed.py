"""Gas and sparks that come as gear: spare bottles and cartridges, chargers and inverters."""

from __future__ import annotations

import re

from generator.shelves.spaces import BELOW
from generator.survey.places import space_at
from generator.survey.placing import in_the_open, lies, with_bottles
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, check, of

_BOTTLE = re.compile(
    r"\b(?:gas|butane|propane|lpg) ?-?(?:bottles?|cylinders?|cartridges?|canisters?|cans?)\b|\b(?:bottles?|cylinders?|cartridges?) of (?:gas|butane|propane|lpg)\b",
    re.IGNORECASE,
)
_NOT_TO_BURN = re.compile(
    r"\b(?:horn|jackets?|lifejackets?|raft|CO2|re-?arming|rearm|inflat|soda|empty|diving|air|oxygen|inert|extinguisher)",
    re.IGNORECASE,
)


@check(
    "gas.bottle-stowed",
    LIFE,
    "from memory, unverified: rules for gas aboard ask for a locker that drains overboard",
    COMPOSITION,
)
def spare_bottles_are_kept_as_the_others_are(sight: Sight) -> Finds:
    """Spare gas bottles and cartridges are in the locker of the bottles or on open deck, not below nor among other gear.

    Why: a valve that weeps fills the bilge as well as one that is connected, and no tap or alarm stands by it.
    Remedy: keep it in the gas locker, or lashed on deck in the open, then write where, side and spot.
    """
    gas = sight.vessel.gas
    bottles = space_at(sight, gas.bottles) if gas and isinstance(gas.bottles, str) else None
    for item in sight.vessel.gear:
        name = str(item.what)
        here = lies(sight, item) if _BOTTLE.search(name) and not _NOT_TO_BURN.search(name) else None
        if here is None or here.space.unlike or in_the_open(here.space) or here.space is bottles:
            continue
        if with_bottles(sight, here.space):
            continue
        if here.space.level == BELOW or here.space.inside or here.space.stows:
            yield of(item, "where", f"it is in the {here}, and not with the other bottles or in the open")


_SPARKS = re.compile(
    r"\b(?:battery chargers?|chargers?|inverters?|converters?|switchboard|relays?|compressor|generator)\b",
    re.IGNORECASE,
)
_SAFE = re.compile(r"\b(?:ignition|explosion|spark)[- ]?(?:protected|proof|safe|free)\b", re.IGNORECASE)


@check("gas.charger-sparks", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_that_sparks_is_gear_of_a_petrol_engine_space(sight: Sight) -> Finds:
    """No charger, inverter or relay is in the space of a petrol engine, unless its name says that it cannot spark.

    Why: petrol vapour lies there until a contact opens.
    Remedy: have it moved; of one made for it say so: what: "battery charger, ignition protected".
    """
    one = sight.vessel.vessel
    petrol = one is not None and one.petrol and one.inboard_engine
    for item in sight.vessel.gear:
        name = str(item.what)
        if not _SPARKS.search(name) or _SAFE.search(name) or item.kind in ("lifesaving", "medical"):
            continue
        space = space_at(sight, item.where)
        if space is not None and petrol and space.engine:
            yield of(item, "where", f"it is in the {space.name}, with a petrol engine")
