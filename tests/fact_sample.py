"""Boats as facts: a fixed sample of combinations that a boat could have, for crews of one, two, a family and twelve."""

import zlib

from generator.manual.facts import vessel_facts
from generator.manual.left_to_act import left
from generator.manual.procedures import holds, in_sequence
from generator.shelves.procedures import shelf
from generator.vessel.installed import Stop

FACTS = tuple(fact.name for fact in vessel_facts())
CREWS = {"alone": (1, 1), "a couple": (2, 2), "a family with two children": (4, 2), "twelve": (12, 12)}
"""Each crew with how many are aboard, and how many of them can act."""
NEEDS = {
    "rooms below": ["closed in"],
    "multihull": ["rooms below", "closed in"],
    "raft below": ["raft", "rooms below", "closed in"],
    "several rafts": ["raft"],
    "raft order": ["several rafts", "raft"],
    "pack with water": ["raft"],
    "inboard engine": ["engine"],
    "several engines": ["engine"],
    "engine pump": ["engine"],
    "engine stop": ["engine"],
    "kill cord stop": ["engine"],
    "propeller told": ["engine"],
    "jets alone": ["engine"],
    "fire port": ["inboard engine", "engine"],
    "spare kill cord": ["kill cord stop", "engine"],
    "engine stops told apart": ["several engines", "engine stop", "engine"],
    "gas stop": ["gas"],
    "several extinguishers": ["has fire extinguisher"],
    "ladder from the water": ["ladder"],
    "ladder at the side": ["ladder"],
    "lifted in a net": ["hoist"],
    "muster inside": ["closed in"],
    "fixed dsc": ["fixed vhf", "dsc"],
    "handheld dsc": ["handheld vhf", "dsc"],
    "mf/hf dsc": ["mf/hf", "dsc"],
    "vhf always on": ["fixed vhf"],
    "float-free beacon": ["epirb"],
    "handheld vhf always on": ["handheld vhf"],
    "several hand pumps": ["hand pump"],
    "several electric pumps": ["electric pump"],
    "hand pump from deck": ["hand pump"],
    "hand pumps below only": ["hand pump"],
    "fixed extinguishers told apart": ["has fixed extinguisher"],
    "fixed extinguisher of CO2": ["has fixed extinguisher"],
    "some fixed extinguishers of CO2": ["fixed extinguishers told apart", "fixed extinguisher of CO2", "has fixed extinguisher"],
    "ways out told how": ["other ways out", "rooms below", "closed in"],
    "other ways out": ["rooms below", "closed in"],
    "way out upside down": ["closed in"],
    "ways in": ["closed in"],
    "man-overboard device told how": ["man-overboard device"],
    "water and flares to bring": ["things to bring", "flares"],
    "a hole without its plug": ["through-hulls"],
    "every hole without a plug": ["through-hulls"],
    "gas detector": ["closed in"],
    "smoke alarm told": ["closed in"],
    "CO alarm told": ["closed in"],
    "righted by her people": ["floats when swamped"],
    "sailing": ["sails"],
    "outboard engine": ["engine"],
    "drives tilt": ["engine"],
    "several anchors": ["has anchor"],
    "anchor rode told": ["has anchor"],
    "letting the anchor go told": ["has anchor"],
    "slipping the anchor told": ["has anchor"],
    "fit of the tiller told": ["emergency tiller told"],
    "dinghy told for how many": ["dinghy"],
    "dinghy too small": ["dinghy told for how many", "dinghy"],
    "dinghy towed": ["dinghy"],
    "dinghy packed": ["dinghy"],
    "dinghy in davits": ["dinghy"],
    "dinghy with an outboard": ["dinghy"],
}  # fmt: skip
"""What must be so where a fact is."""


def consistent(facts, persons, able):
    """The same facts as a boat with so many aboard could have them."""
    facts |= left(able, 0)
    facts["always"] = True
    facts["several persons"], facts["two persons"] = persons > 1, persons == 2
    for _ in range(3):  # what is needed needs something itself
        for name, needed in NEEDS.items():
            facts[name] &= all(facts[each] for each in needed)
    facts["outboard engine"] &= not facts["inboard engine"]
    facts["jets alone"] &= not facts["propeller told"]
    facts["hand pumps below only"] &= not facts["hand pump from deck"]
    facts["every hole without a plug"] &= not facts["has softwood plugs"]
    facts["position on the set"] &= facts["fixed vhf"] or facts["handheld vhf"] or facts["mf/hf"]
    facts["position on another set"] &= not facts["position on the set"]
    facts["everybody wears a lifejacket"] &= not facts["rooms below"]
    facts["lifejackets worn"] |= facts["everybody wears a lifejacket"]
    facts["beacon"] = facts["epirb"] or facts["plb"]
    facts["has AED"] = facts["has defibrillator"]
    facts["sinks when swamped"] &= not facts["floats when swamped"]
    facts["another in command"] &= persons > 1
    facts["dinghy packed"] &= not facts["dinghy towed"]
    facts["dinghy in davits"] &= not (facts["dinghy towed"] or facts["dinghy packed"])
    facts["children aboard"] = (facts["children aboard"] and persons > 2) or able < persons
    facts["radio aboard"] = any(
        facts[each] for each in ("fixed vhf", "handheld vhf", "mf/hf", "satellite telephone")
    )
    facts["fuel-burning cooker"] |= facts["gas"]
    facts["somewhere to cook"] |= facts["fuel-burning cooker"]
    facts["has bucket"] |= facts["has bailer"] and not facts["rooms below"]
    for what in Stop.what.choices:
        facts[f"electric {what} stop"] &= facts[f"{what} stop"]
        without = facts[f"{what} stop without a spark"] or not facts[f"electric {what} stop"]
        facts[f"{what} stop without a spark"] = facts[f"{what} stop"] and without
        facts[f"{what} stop by hand"] &= facts[f"{what} stop without a spark"]
    facts["something to shut off"] |= facts["gas"] or facts["engine"] or facts["batteries stop"]
    return facts


def boats(number, seed=11):
    """So many boats of each crew as (crew, facts), always the same; the barest and the fullest of each among them.

    Whether a fact is drawn hangs on its name: a new one changes nothing of the others.
    """
    for crew, (persons, able) in CREWS.items():
        for which in range(number):
            share = 0.2 + 0.6 * drawn(seed, crew, which, "")
            facts = (
                dict.fromkeys(FACTS, which == 1)
                if which < 2
                else {name: drawn(seed, crew, which, name) < share for name in FACTS}
            )
            yield crew, consistent(facts, persons, able)


def drawn(*of):
    """A number from 0 to 1 that hangs on what it is drawn of alone."""
    return zlib.crc32(repr(of).encode()) / 2**32


def steps_for(one, facts, able):
    """The steps of a procedure for such a boat, in order; None where she has not got it."""
    known = facts | left(able, one.form.counts_out)
    if not holds(one.when, one.when_any, known):
        return None
    return in_sequence([step for step in one.steps if holds(step.when, step.when_any, known)])


def words_of(step, facts):
    """Under which name the words of a step stand for such a boat, and which parts of them are left out."""
    other = next((each for each in step.other_words if holds(each.when, (), facts)), None)
    return (other.words if other and other.words else step.id), (other.leaves_out if other else ())


def emergencies():
    """The emergencies of the shelf that are the vessel's."""
    return [one for one in shelf() if one.emergency and one.per == "vessel"]
