"""Boats of one to three rafts and up to twenty people, always the same, whose parties and lost rafts are looked at."""

import random
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace

from generator.manual.parties import parties_of, works
from generator.reading.values import Counted
from generator.shelves.procedure_files import BAG, BEACON, CUT, HOLD, LAUNCH
from generator.vessel.loading import load
from generator.vessel.people import meant_by

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
NAMES = ("port liferaft", "starboard liferaft", "third liferaft")
BEACONS = ("EPIRB", "EPIRB", "SART", "PLB")


def like(block, **values):
    """A block as another one, with other values."""
    made = object.__new__(type(block))
    made.__dict__.update(block.__dict__ | values)
    return made


@dataclass(frozen=True)
class Boat:
    """A boat with the parties of her rafts."""

    number: int
    vessel: object
    parties: tuple

    def able(self, party):
        """Those who go into a raft and can work at it."""
        people = {str(person.role): person for person in self.vessel.people}
        return [who for who in party.going if works(people[str(who)])]

    def heads(self, who):
        """How many of a role are meant."""
        return meant_by(who, self.vessel.people)


def boats(number):
    """So many boats, each from its own seed: crews of one and two among them, and all in one raft, some in none."""
    specimen, _ = load(VESSELS / "nordgyllen")
    return [_boat(specimen, which) for which in range(number)]


def _boat(specimen, which):
    draw = random.Random(which)
    people = _people(specimen, draw)
    shares = _shares(people, draw)
    bags = [
        like(specimen.grab_bags[0], carried_by=str(draw.choice(people).role))
        for _ in range(draw.choice((0, 1, 1, 2)))
    ]
    rafts = [
        _raft(
            specimen, name, going, people, draw, spare=len(shares) > 1 and not going and draw.random() < 0.7
        )
        for name, going in zip(NAMES, shares, strict=False)
    ]
    vessel = SimpleNamespace(
        vessel=SimpleNamespace(persons=sum(meant_by(str(each.role), people) for each in people)),
        people=people,
        rafts=rafts,
        grab_bags=bags,
        radio=SimpleNamespace(sets=[], beacons=_beacons(specimen, people, bags, draw)),
        station_bill={"abandon-ship": _bill(specimen, people, draw)} if len(people) > 1 else {},
    )
    return Boat(which, vessel, parties_of(vessel))


def _people(specimen, draw):
    """Up to twenty, some of them children, some who need help, some several of one role."""
    model, made, left = specimen.people[0], [], draw.choice((1, 2, 2, 3, 5, 8, 12, 20))
    while left:
        many = min(left, draw.choice((1, 1, 1, 1, 4)))
        first = not made
        child = not first and draw.random() < 0.2
        helped = not first and not child and draw.random() < 0.1
        able = (
            ("command", "deck", "radio") if first else draw.choice((("deck",), ("command",), (), ("radio",)))
        )
        made.append(
            like(
                model,
                role=f"role {len(made) + 1}",
                quantity=many if many > 1 else None,
                age=(draw.randint(1, 13),)
                if child
                else (draw.choice((78, 16)),)
                if draw.random() < 0.1
                else (),
                abilities=() if child else able,
                needs_help="cannot climb a ladder" if helped else None,
                helper=str(made[0].role) if child or helped else None,
                lifejacket=(),
            )
        )
        left -= many
    return made


def _shares(people, draw):
    """Who goes into which of one to three rafts; a role of several may be shared out."""
    shares = [[] for _ in range(draw.choice((1, 2, 2, 3)))]
    for person in people:
        role, many = str(person.role), meant_by(str(person.role), people)
        if len(shares) > 1 and many > 1 and draw.random() < 0.5:
            first = draw.randint(1, many - 1)
            one, other = draw.sample(range(len(shares)), 2)
            shares[one].append(Counted(role, first))
            shares[other].append(Counted(role, many - first))
        else:
            shares[draw.randrange(len(shares))].append(role)
    return shares


def _raft(specimen, name, going, people, draw, *, spare):
    able = [str(who) for who in going if works(next(each for each in people if each.role == str(who)))]
    model, party = specimen.rafts[0], None
    if able and draw.random() < 0.5:
        parts = {
            part: (draw.choice(able),) if draw.random() < 0.4 else ()
            for part in (LAUNCH, HOLD, CUT, BAG, BEACON)
        }
        party = like(model.party, **parts)
    heads = sum(meant_by(who, people) for who in going)
    return SimpleNamespace(
        name=name,
        path=f"rafts[{name}]",
        carries=tuple(going),
        party=party,
        persons=max(4, heads + draw.choice((0, 0, 2, 4, 10))),
        lift_needed=draw.choice((True, False)),
        first_to_launch=None,
        says_none=lambda key: spare and key == "carries",
    )


def _beacons(specimen, people, bags, draw):
    model = specimen.radio.beacons[0]
    return [
        like(
            model,
            kind=kind,
            what=f"{kind} {number}",
            spot=draw.choice((None, "in the grab bag" if bags else None)),
            carried_by=draw.choice((None, None, str(draw.choice(people).role))),
        )
        for number, kind in enumerate(draw.sample(BEACONS, draw.randint(0, 4)), 1)
    ]


def _bill(specimen, people, draw):
    model = specimen.station_bill["abandon-ship"]
    roles = [str(each.role) for each in people if works(each)]
    told = {"launch": 2, "call": 1, "command": 1, "grab-bag": 1}
    return {
        duty: like(model[duty], who=tuple(draw.sample(roles, min(many, len(roles)))))
        for duty, many in told.items()
        if draw.random() < 0.8
    }
