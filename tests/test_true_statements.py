"""What is true of a boat is never told: every statement made from her own entries, in many wordings; and the same of another place is."""

import copy
from datetime import date

import pytest
from checks.survey_patch import VESSELS

from generator.checks.words.things import things_of
from generator.manual.drawing.spaces import find_space, gap_m
from generator.survey.registry import Sight, all_checks
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
READ = tuple(one for one in all_checks().values() if one.id.startswith("words.") and one.find)
BOATS = tuple(sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml")))
OF_A_PART = ("release of",)
MUST_BE_FOUND = 0.97


@pytest.fixture(scope="module")
def note():
    return load(VESSELS / "nordgyllen", "")[0].notes[0]


def told(vessel, note, texts):
    """Of notes laid beside hers the texts that the checks of words tell, each with what they say."""
    before = {(one.id, each.message) for one in READ for each in one.find(Sight(vessel, DAY, DAY))}
    laid = []
    for text in texts:
        one = copy.copy(note)
        one.__dict__ = {**note.__dict__, "beside": "fire", "text": text}
        laid.append(one)
    vessel.__dict__["notes"] = [*vessel.notes, *laid]
    sight = Sight(vessel, DAY, DAY)
    found = [each for one in READ for each in one.find(sight) if (one.id, each.message) not in before]
    return {id(each.about): each.message for each in found}, laid


def true_of(vessel):
    """True statements of her: places of her things by each of their names, what is in the bag, how stops are worked, helpers, rafts, the alarm."""
    for thing in things_of(Sight(vessel, DAY, DAY)):
        where, side = thing.places[0] if thing.places else ("", "")
        spot = thing.block.__dict__.get("spot")
        for name in thing.names if where else ():
            if name.startswith(OF_A_PART):
                continue
            yield from (
                f"The {name} is in the {where}.",
                f"Take the {name} from the {where}.",
                f"In the {where} hangs the {name}.",
            )
            if side in ("port", "starboard"):
                yield from (
                    f"The {name} is in the {where} to {side}.",
                    f"The {name} lies in the {where}, {side}.",
                )
            if isinstance(spot, str):
                yield from (f"The {name} is {spot}.", f"Take the {name} from the {where}, {spot}.")
    for item in (item for bag in vessel.grab_bags for item in bag.items):
        yield f"The {str(item.what).partition(',')[0]} is in the grab bag."
        yield f"The grab bag holds the {str(item.what).partition(',')[0]}."
    for stop in vessel.stops:
        yield f"The {stop.what} {'are' if stop.what == 'batteries' else 'is'} shut off in the {stop.where}."
        yield f"To shut the {stop.what}, {stop.how}."
    for raft in vessel.rafts:
        if raft.launch_from and raft.launch_from.side in ("port", "starboard"):
            yield f"The {raft.name} goes over to {raft.launch_from.side}."
    yield f"The general alarm is {vessel.vessel.general_alarm}."
    yield f"Everybody musters in the {vessel.vessel.muster_place}."
    yield from (
        f"The {each.helper} takes the {each.role} along."
        for each in vessel.people
        if isinstance(each.helper, str)
    )


@pytest.mark.thorough
@pytest.mark.parametrize("boat", BOATS)
def test_what_is_true_of_her_is_not_told(boat, note):
    vessel = load(VESSELS / boat, "")[0]
    texts = tuple(dict.fromkeys(true_of(vessel)))
    assert len(texts) > 100
    found, _ = told(vessel, note, texts)
    assert list(found.values()) == []


@pytest.mark.thorough
def test_another_place_is_told(note):
    missed, number = [], 0
    for boat in BOATS:
        vessel = load(VESSELS / boat, "")[0]
        texts = tuple(_of_another_place(vessel))
        found, laid = told(vessel, note, texts)
        missed += [each.text for each in laid if id(each) not in found]
        number += len(texts)
    assert number > 1000
    assert len(missed) < (1 - MUST_BE_FOUND) * number, missed


def _of_another_place(vessel):
    """Statements of each thing of hers that have it a quarter of her length away, or on the other side."""
    sight = Sight(vessel, DAY, DAY)
    things = [each for each in things_of(sight) if each.names and not each.names[0].startswith(OF_A_PART)]
    for thing in things:
        name = thing.names[0]
        places = [place for each in things if name in each.names for place in each.places if place[0]]
        here = [find_space(sight.spaces, where)[0] for where, _ in places]
        far = [
            space
            for space in sight.spaces.values()
            if here
            and all(each is not None and gap_m(each, space) > 0.25 * vessel.vessel.length for each in here)
        ]
        if far:
            other = far[len(name) % len(far)].name
            yield from (
                f"The {name} is in the {other}.",
                f"Take the {name} from the {other}.",
                f"The {name} is kept in the {other}, so that it is at hand.",
            )
        sides = {side for _, side in places}
        if sides in ({"port"}, {"starboard"}):
            side = "starboard" if sides == {"port"} else "port"
            yield from (
                f"The {name} is in the {places[0][0]} to {side}.",
                f"The {name} hangs in the {places[0][0]} on the {side} side.",
            )
