"""The facts of rafts beside those of the boats of the sample: each raft one that a boat could have, worked out as those of any raft."""

import functools
import zlib

from fact_sample import boats
from rafts import boat, combinations

from generator.manual.raft_facts import AMONG_RAFTS, raft_facts
from generator.reading.values import UNKNOWN

OTHERS = {
    "boarding": ("ramp", "ladder", "ramp and ladder", "none"),
    "righting": ("strap", "ladder", "none"),
    "drogue": ("by hand", "streams itself", None),
    "canopy": (True, False, None),
    "cylinder_side": ("marked", "not marked", None),
    "lid_hinge": ("aft", "none", None),
    "strong_point_reached": (True, False, None),
    "reached_inverted": (True, False, None),
}
UNTOLD = 12
"""Of one raft in so many is not known what holds it, of one to what its painter is fast."""
NEEDS = {
    "use of its beacon told": ["beacon for it"],
    "brings for another": ["others take its people"],
    "launcher calls": ["several persons"],
    "one able in it": ["several persons"],
}
"""What must be so where something among rafts is."""
OF_SEVERAL = [fact.name for fact in AMONG_RAFTS if fact.name != "launcher calls"]


@functools.cache
def _combinations():
    return tuple(combinations())


def _drawn(*of):
    return zlib.crc32(repr(of).encode())


def raft_of(crew, which):
    """The facts of one raft, always the same for a boat of the sample."""
    asked = _combinations()[_drawn("raft", crew, which) % len(_combinations())]
    vessel, _ = boat("saltmeadow")
    raft = vessel.rafts[0]
    before, painter = dict(raft.__dict__), dict(raft.painter.__dict__)
    values = {key: options[_drawn(key, crew, which) % len(options)] for key, options in OTHERS.items()}
    values |= {key: value for key, value in asked.items() if key != "fast_to"}
    untold = _drawn("untold", crew, which) % UNTOLD
    raft.__dict__.update(values)
    raft.painter.__dict__["fast_to"] = UNKNOWN if untold == 1 else asked["fast_to"]
    try:
        facts = {fact.name: fact.true(raft) for fact in raft_facts()}
    finally:
        for block, was in ((raft, before), (raft.painter, painter)):
            block.__dict__.clear()
            block.__dict__.update(was)
    for name in ("gate to launch", "gate to board", "boarded at the stern", "launch side named"):
        facts[name] = _drawn(name, crew, which) % 2 == 0
    facts["launch side named"] &= not facts["one side only"]
    return facts


def rafts(number):
    """Boats of the sample that have a raft, as (crew, facts of the boat and of her raft)."""
    for count, (crew, hers) in enumerate(boats(number)):
        facts = hers | raft_of(crew, count) | {"raft": True}
        among = {fact.name: _drawn(fact.name, crew, count) % 2 == 0 for fact in AMONG_RAFTS}
        for name in OF_SEVERAL:
            among[name] &= facts["several rafts"]
        facts.update(among)
        for name, needed in NEEDS.items():
            facts[name] &= all(facts[each] for each in needed)
        facts["grab bag elsewhere"] &= facts["grab bag"]
        yield crew, facts
