"""Rules for who does what."""

from __future__ import annotations

from generator.shelves.procedures import ShelfDuty, apart, shelf
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import rule
from meanings.things import Thing


def _duty_of(mutant: Mutant, name: str = "") -> ShelfDuty | None:
    """The duty of the bill that a mutant is about, or another of that emergency, as the shelf has it."""
    parts = mutant.thing.path.split(".")
    duties = [duty for one in shelf() if one.id == parts[1] for duty in one.duties]
    return next((duty for duty in duties if duty.id == (name or parts[2])), None)


def _held(thing: Thing, key: str) -> list[str]:
    return [each.value for each in thing.values[key].texts] if key in thing.values else []


def _others(mutant: Mutant, there: list[Thing]) -> list[tuple[ShelfDuty, Thing]]:
    """The other duties of the same emergency, as they were."""
    emergency, own = mutant.thing.path.split(".")[1:3]
    found = []
    for thing in there:
        parts = thing.path.split(".")
        if thing.top == "station-bill" and len(parts) == 3 and parts[1] == emergency and parts[2] != own:
            duty = _duty_of(mutant, parts[2])
            if duty is not None:
                found.append((duty, thing))
    return found


def _bound(mutant: Mutant, there: list[Thing], role: str) -> list[Thing]:
    """The other duties of the same emergency that a role has and that nobody can do at the same time, by the shelf's own relation."""
    own = _duty_of(mutant)
    others = _others(mutant, there) if own is not None else []
    return [thing for duty, thing in others if own and apart(own, duty) and role in _held(thing, "who")]


def _able(sight: Sight, role: str, duty: ShelfDuty | None) -> bool:
    """Whether a role can do a duty: old enough, sound enough, and with the ability where it is said who has it; no duty: any grown-up."""
    person = next((each for each in sight.vessel.people if each.role == role), None)
    if person is None:
        return False
    from_age = duty.from_age if duty is not None else 18
    if any(isinstance(age, int) and age < from_age for age in person.age):
        return False
    if person.needs_help and not (duty is not None and duty.seated):
        return False
    need = duty.needs if duty is not None else ""
    taught = any(need in each.abilities for each in sight.vessel.people)
    return not need or need in person.abilities or not taught


def _spared(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whether somebody else who can do the duty has nothing in that emergency beside which it cannot be done; to lead can be done beside all."""
    duty, busy = (
        _duty_of(mutant),
        {mutant.new, *_held(mutant.thing, "who"), *_held(mutant.thing, "substitute")},
    )
    if duty is None or duty.needs != "radio" or mutant.key != "substitute":
        return True
    able = [str(each.role) for each in sight.vessel.people if each.role not in busy - {mutant.old}]
    return any(_able(sight, who, duty) and not _bound(mutant, there, who) for who in able)


@rule("a duty goes to somebody who cannot do it", life=True)
def unable(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A child under the duty's age, somebody who cannot move about, or somebody without the ability that the duty takes holds it, or stands in."""
    if mutant.block != "station-bill":
        return False
    if mutant.operator in ("person", "one more"):
        return not _able(sight, mutant.new, _duty_of(mutant)) and _spared(mutant, sight, there)
    if mutant.operator == "persons swapped":
        return not all(_able(sight, who, _duty_of(mutant)) for who in (mutant.old, mutant.new))
    if mutant.operator == "duties swapped":
        other = _duty_of(mutant, mutant.things[1].path.split(".")[2])
        return not (_able(sight, mutant.new, _duty_of(mutant)) and _able(sight, mutant.old, other))
    return False


def _idle(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whether somebody else who could do the duty has none in that emergency, and helps nobody."""
    busy = {mutant.new, mutant.old, *_held(mutant.thing, "who"), *_held(mutant.thing, "substitute")}
    busy |= {who for _, thing in _others(mutant, there) for who in _held(thing, "who")}
    busy |= {str(person.helper) for person in sight.vessel.people if person.helper}
    return any(
        person.role not in busy and not person.needs_help and _able(sight, str(person.role), _duty_of(mutant))
        for person in sight.vessel.people
    )


@rule("whoever stands in passes the other duty on in turn", harmless=True)
def passed_on(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever stands in leaves a duty that has a substitute of its own, who is neither of the two: with one person lost each is still done."""
    if mutant.block != "station-bill" or mutant.key != "substitute" or mutant.operator != "person":
        return False
    gone = {mutant.new, *_held(mutant.thing, "who")}
    bound = _bound(mutant, there, mutant.new)
    return bool(bound) and all(
        set(_held(thing, "who")) - gone or set(_held(thing, "substitute")) - gone for thing in bound
    )


@rule("nobody is free who could have it", harmless=True)
def nobody_free(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """All who could do it have a duty in that emergency, or help somebody: with so few, or with one lost, some pair of hands has two whoever it
    is, or somebody reads the call from the card who was never taught it.
    """
    if mutant.block != "station-bill" or mutant.operator not in ("person", "persons swapped", "one more"):
        return False
    if not _able(sight, mutant.new, _duty_of(mutant)):
        return True  # the rule before has found nobody to spare
    return bool(_bound(mutant, there, mutant.new)) and not _idle(mutant, sight, there)


@rule("a pair of hands more than a duty takes", harmless=True)
def hand_more(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The duty had its hands before; whoever helps besides may come and go, and the duty of his own is as it was."""
    return mutant.operator == "one more" and mutant.block == "station-bill"


@rule("a duty goes to somebody who is bound elsewhere in the same emergency")
def bound(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever has it, or stands in for it, has another duty that nobody can do at the same time: one of the two is not done."""
    if mutant.block != "station-bill" or mutant.operator not in ("person", "persons swapped"):
        return False
    return bool(_bound(mutant, there, mutant.new))


@rule("any able person aboard who is free may do a duty", harmless=True)
def any_able_person(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two roles that can do a duty, and have no other that cannot be done at the same time, the boat is as well served by either."""
    return mutant.block == "station-bill" and mutant.operator in (
        "person",
        "persons swapped",
        "duties swapped",
        "one less",
    )


@rule("who wears a jacket always, or has a key, may be anybody grown up", harmless=True)
def who_wears(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """There are jackets of the size for all of them, and the list only says who keeps his on."""
    return mutant.key in ("worn-by", "opened-by") and mutant.operator in ("person", "one more", "one less")


@rule("a raft with a place to spare", harmless=True)
def other_raft(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever has no part in launching either goes as well into the one as into the other, as long as it holds them all: where not, it is told."""
    return mutant.operator == "other raft" and not any(
        mutant.old in _held(each, key)
        for each in there
        if each.top == "rafts"
        for key in ("launch", "hold", "cut", "bag")
    )


@rule("somebody of the raft's party cannot do it, or goes into the other raft", life=True)
def party(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever holds, cuts or launches a raft is a child, needs help, or belongs to another."""
    return (
        mutant.block == "rafts"
        and mutant.key in ("launch", "hold", "cut", "bag", "carries")
        and not _able(sight, mutant.new, None)
    )


@rule("any able person of a raft may be of its party", harmless=True)
def party_free(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of two grown-ups who go into that raft either can hold it, cut it loose or bring the bag."""
    return mutant.block == "rafts" and mutant.key in ("launch", "hold", "cut", "bag", "carries")


@rule("whoever stayed ashore is stood in for", harmless=True)
def stood_in_for(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Nobody who orders stayed ashore, and each duty of those who did has somebody else, or a substitute, who is aboard: the cards name them."""
    if mutant.block != "persons" or mutant.operator not in ("stays ashore", "two stay ashore", "removed"):
        return False
    gone = {mutant.thing.says("role"), *mutant.words}
    bill = [each for each in there if each.top == "station-bill" and "who" in each.values]
    return "skipper" not in gone and all(
        set(_held(each, "who")) - gone or set(_held(each, "substitute")) - gone for each in bill
    )


@rule("somebody holds a duty who is not aboard on this voyage", life=True)
def ashore(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The voyage's list names who is aboard; a duty, a substitute or a helper is somebody who stayed ashore, and nothing says so."""
    return mutant.operator in ("stays ashore", "two stay ashore")


@rule("nobody has to swim", harmless=True)
def swims(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """No step sends anybody into the water: who swims well is good to know, and no duty takes it."""
    return mutant.operator == "ability lost" and mutant.old == "swim"


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


@rule("what somebody lifts, within what people lift", unknowable=True)
def lifts_more(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Sixteen or thirty-five kilogrammes: there are such people, and nothing else in the file says how strong this one is. A can of water tells."""
    return mutant.key == "lifts" and mutant.operator == "pounds as kilogrammes"


_LIFTED = ("locker", "below", "valise")


@rule("no raft of hers is lifted", harmless=True)
def nothing_lifted(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Her rafts go over by themselves, or are slid: nobody must lift one, and whoever is taken for weaker than he is carries no more for it."""
    return mutant.key == "lifts" and not any(
        word in f"{raft.stowage} {raft.container}" for raft in sight.vessel.rafts for word in _LIFTED
    )


@rule("taken for weaker than he is", harmless=True)
def weaker(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Half of what somebody lifts is on the safe side: where it does not do for the raft, that is said at the raft."""
    return mutant.key == "lifts" and mutant.operator == "kilogrammes as pounds"


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


@rule("a watch of one more, or one less, in which all rest enough", harmless=True)
def rested(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever is in it has eight hours of the day below and no more than twelve on end on deck, as on passages with few; and the watch still has
    somebody who can command or call.
    """
    if mutant.block != "watches" or mutant.operator not in ("one more", "one less"):
        return False
    if mutant.operator == "one less":
        left = [who for who in _held(mutant.thing, "who") if who != mutant.old]
        able = {str(each.role) for each in sight.vessel.people if {"command", "radio"} & set(each.abilities)}
        return bool(able & set(left))
    kept = [each for each in there if each.top == "watches" and mutant.new in _held(each, "who")]
    return sum(map(_hours, [*kept, mutant.thing])) <= 16


def _hours(watch: Thing) -> float:
    first, last = (
        int(hours) + int(minutes) / 60
        for hours, minutes in (watch.says(key).split(":") for key in ("from", "to"))
    )
    return (last - first) % 24 or 24


@rule("somebody keeps two watches on end, or all of them", life=False)
def watch(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A person told off for one watch more never sleeps."""
    return mutant.block == "watches"


@rule("fifteen years old, with nothing to do that takes a grown-up", harmless=True)
def fifteen(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Whoever is fifteen wears a grown-up's jacket and may have nearly every duty; who has one that takes more is told."""
    return mutant.operator == "age" and mutant.new == "age: 15"


@rule("who took part in a drill", unknowable=True)
def took_part(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Of a drill that is over the file has nothing but the names that somebody wrote down."""
    return mutant.block == "drills"


@rule("another age, grown up either way", harmless=True)
def grown_up(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Nineteen, forty or sixty: whoever is grown up may have any duty; what hinders somebody is told by itself."""
    return mutant.operator == "another age" and int(mutant.old) >= 18 <= int(mutant.new)
