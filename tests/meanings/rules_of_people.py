"""Rules for who does what."""

from __future__ import annotations

from generator.shelves.procedures import shelf
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import rule
from meanings.things import Thing


def _bound(mutant: Mutant, there: list[Thing], role: str) -> bool:
    """Whether a role has another duty in the same emergency that cannot be left."""
    emergency = mutant.thing.path.split(".")[1]
    own = mutant.thing.path.split(".")[2]
    lasting = {duty.id for one in shelf() if one.id == emergency for duty in one.duties if duty.continuous}
    for thing in there:
        parts = thing.path.split(".")
        other = thing.top == "station-bill" and len(parts) == 3 and parts[1] == emergency and parts[2] != own
        if other and parts[2] in lasting and role in [each.value for each in thing.values["who"].texts]:
            return True
    return False


def _able(sight: Sight, role: str, need: str) -> bool:
    person = next((each for each in sight.vessel.people if each.role == role), None)
    if person is None or isinstance(person.age, int) or person.needs_help:
        return False
    return not need or not person.abilities or need in person.abilities


def _need(mutant: Mutant, key: str = "") -> str:
    parts = mutant.thing.path.split(".")
    return next(
        (
            str(duty.needs or "")
            for one in shelf()
            if one.id == parts[1]
            for duty in one.duties
            if duty.id == (key or parts[2])
        ),
        "",
    )


@rule("a duty goes to somebody who cannot do it", life=True)
def unable(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A child, somebody who needs help, or somebody without the ability that the duty takes holds it, or stands in for it."""
    if mutant.block != "station-bill":
        return False
    if mutant.operator in ("person", "one more"):
        return not _able(sight, mutant.new, _need(mutant))
    if mutant.operator == "persons swapped":
        return not (_able(sight, mutant.old, _need(mutant)) and _able(sight, mutant.new, _need(mutant)))
    if mutant.operator == "duties swapped":
        other = mutant.things[1]
        return not (
            _able(sight, mutant.new, _need(mutant))
            and _able(sight, mutant.old, _need(mutant, other.path.split(".")[2]))
        )
    return False


@rule("a duty goes to somebody who is bound elsewhere in the same emergency")
def bound(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever has it, or stands in for it, has another duty that cannot be left: one of the two is not done."""
    if mutant.block != "station-bill" or mutant.operator not in ("person", "persons swapped", "one more"):
        return False
    return _bound(mutant, there, mutant.new)


@rule("any able person aboard who is free may do a duty", harmless=True)
def any_able_person(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two roles that can do a duty and are not bound elsewhere in that emergency the boat is as well served by either."""
    return mutant.block == "station-bill" and mutant.operator in (
        "person",
        "persons swapped",
        "duties swapped",
        "one more",
        "one less",
    )


@rule("who wears a jacket always, or has a key, may be anybody grown up", harmless=True)
def who_wears(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """There are jackets of the size for all of them, and the list only says who keeps his on."""
    return mutant.key in ("worn-by", "opened-by") and mutant.operator in ("person", "one more", "one less")


@rule("somebody of the raft's party cannot do it, or goes into the other raft", life=True)
def party(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever holds, cuts or launches a raft is a child, needs help, or belongs to another."""
    return (
        mutant.block == "rafts"
        and mutant.key in ("launch", "hold", "cut", "bag", "carries")
        and not _able(sight, mutant.new, "")
    )


@rule("any able person of a raft may be of its party", harmless=True)
def party_free(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two grown-ups who go into that raft either can hold it, cut it loose or bring the bag."""
    return mutant.block == "rafts" and mutant.key in ("launch", "hold", "cut", "bag", "carries")


@rule("somebody holds a duty who is not aboard on this voyage", life=True)
def ashore(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The voyage's list names who is aboard; a duty, a substitute or a helper is somebody who stayed ashore, and nothing says so."""
    return mutant.operator in ("stays ashore", "two stay ashore")


@rule("the only one who can do it lost an ability")
def ability(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Somebody with a duty that takes the ability has it no more, or nobody aboard has it now (first aid, engine, swimming)."""
    left = [
        each
        for each in sight.vessel.people
        if mutant.old in (each.abilities or ()) and each.role != mutant.thing.says("role")
    ]
    return mutant.operator == "ability lost" and not left


@rule("others aboard have that ability", harmless=True)
def ability_kept(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """No duty of this person takes it, and somebody else aboard can do it."""
    return mutant.operator == "ability lost"


@rule("whoever launches the raft or carries the bag cannot lift it", life=True)
def lifts(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What the party lifts together is less than what is to be lifted, or the bag weighs more than its carrier lifts."""
    if mutant.key != "lifts":
        return False
    role = mutant.thing.says("role")
    for each in there:
        named = [
            node.value
            for key in ("who", "carried-by", "launch", "substitute")
            if key in each.values
            for node in each.values[key].texts
        ]
        if role in named and (
            each.path.endswith(("launch", "grab-bag")) or each.top in ("rafts", "grab-bags")
        ):
            return True
    return False


@rule("nobody counts on what this person lifts", harmless=True)
def lifts_nothing(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The person neither launches a raft nor carries a bag."""
    return mutant.key == "lifts"


@rule("somebody keeps two watches on end, or all of them", life=False)
def watch(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A person told off for one watch more never sleeps."""
    return mutant.block == "watches"
