"""The hands aboard: who can do what, and whether a bill could do better with them."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.own_words import called
from generator.reading.values import Stamp, known
from generator.shelves.procedure_files import HALF_GROWN
from generator.shelves.procedures import apart, shelf
from generator.survey.ailments import limits_in
from generator.survey.sight import once
from generator.vessel.people import ADULT, heads, jacket_sizes

if TYPE_CHECKING:
    from generator.manual.bill import Duty, Emergency
    from generator.shelves.procedures import ShelfDuty
    from generator.survey.sight import Sight
    from generator.vessel.people import Person, Voyage

STRONG = 14
"""From which age, in years, somebody carries, launches and helps others: common practice."""
OLD = 75
"""From which age, in years, nobody hauls and lifts where somebody younger can: common practice."""
SMALL = 10
"""Of more hands than these every duty finds somebody free: so many are tried, one by one."""
TRIED = 20_000
"""How many ways of dealing out the duties are tried at most."""
_LACKS = {
    "sight": re.compile(r"\b(blind|see|sees|sight|eye|eyes|eyesight)\b", re.IGNORECASE),
    "hearing": re.compile(r"\b(deaf|hear|hears|hearing)\b", re.IGNORECASE),
    "speech": re.compile(r"\b(mute|dumb|speak|speaks|speech|talk)\b", re.IGNORECASE),
}
_MOVES = re.compile(
    r"\b(legs?|walks?|hips?|arms?|backs?|knees?|climbs?|heart|led|held|carried|stairs|steps)\b", re.IGNORECASE
)
"""Words for what hinders somebody in moving about."""
_MINDED = re.compile(
    r"\b(is|as) (a|an|still a) (small |young )?(child|baby|infant|toddler)\b|\b(confused|dementia|demented|unconscious|asleep|sedated|looked after)\b",
    re.IGNORECASE,
)
"""Words for who is looked after, and so looks after nothing, seated or not."""
_SWIMS_NOT = re.compile(
    r"\b(?:is |are )?(?:no |a non-?|not a |a (?:poor|bad|weak) )swimmers?\b|\b(?:can ?not|can['’]t|can hardly|does not|do not|doesn['’]t|never learnt to) swim\b(?: (?:well|far|at all|much))?",
    re.IGNORECASE,
)
"""Words for what hinders nobody on board: only in the water."""
_SENSED = {"sight": "see", "hearing": "hear", "speech": "speak"}
"""What a duty takes, as `ailments.LIMITS` has it."""
_HELPS_BY = frozenset(("lift", "move", "see", "mind"))
"""What nobody is without who carries, launches and helps."""
_BY_MEDICAL = "is not fit for it, by what stands under 'medical',"
_LETTERS = re.compile(r"[a-z]", re.IGNORECASE)
_TOUCHED = re.compile(r"\b(on|by) the (arm|hand|shoulder)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Hand:
    """A role as the bill asks for it: how many have it, the youngest's age in years (None where nobody says), what they need help
    with, "" for nothing; what they can do, () where nobody says; whether one at least is on the voyage, where there is one; the oldest's age;
    what they are not fit for by what stands under 'medical'.
    """

    role: str
    heads: int = 1
    age: int | None = None
    small: bool = False
    needs_help: str = ""
    abilities: tuple[str, ...] = ()
    aboard: bool = True
    oldest: int | None = None
    limits: frozenset[str] = frozenset()

    def why_not(self, duty: Duty | ShelfDuty) -> str:
        """Why nobody of this role can do a duty, in words after "the skipper"; "" where they can, as far as is said."""
        if self.age is not None and self.age < duty.from_age:
            return self._young
        if self.small and self.age is None and duty.from_age >= HALF_GROWN:
            return self._a_child
        return self.hindered(duty.seated, duty.senses) or self._ails(duty)

    def _ails(self, duty: Duty | ShelfDuty) -> str:
        """Why nobody of this role is fit for a duty by what stands under 'medical', which is not said; "" where they are, as far as is told."""
        taken = {_SENSED[each] for each in duty.senses if each in _SENSED}
        taken |= (
            {"mind"}
            | ({"steer"} if duty.id in called("takes.steering") else set())
            | ({"lift"} if duty.strength else set())
        )
        taken |= set() if duty.seated else {"move", "see"}
        taken |= {"smoke"} if duty.id in called("takes.breath") else set()
        return "" if self.limits.isdisjoint(taken) else _BY_MEDICAL

    def could(self, duty: Duty) -> bool:
        """Whether it is fair to ask somebody of this role to do a duty: grown, sound, aboard, and taught what it needs."""
        taught = not duty.needs or duty.needs in self.abilities
        said = bool(self.abilities) or not duty.key
        return (
            said
            and taught
            and self.aboard
            and not self.needs_help
            and not self.weak
            and not self.why_not(duty)
        )

    def hindered(self, seated: bool, senses: Sequence[str] = ()) -> str:
        """Why the help that they need stands in the way; "" where it does not."""
        if _MINDED.search(self.needs_help):
            return f"needs help ({self.needs_help})"
        if not _LETTERS.search(_SWIMS_NOT.sub("", self.needs_help)):
            return ""  # aboard it hinders nobody
        lacks = {each for each, words in _LACKS.items() if words.search(self.needs_help)}
        moves = bool(lacks) and "sight" not in lacks and not _MOVES.search(_TOUCHED.sub("", self.needs_help))
        if self.needs_help and (lacks.intersection(senses) if seated or moves else True):
            return f"{'need' if self.heads > 1 else 'needs'} help ({self.needs_help})"
        return ""

    def serves(self, duty: Duty | ShelfDuty) -> bool:
        """Whether somebody of this role may have a duty, as far as is said of age, help and what each can do."""
        taught = not duty.needs or not self.abilities or duty.needs in self.abilities
        return self.aboard and taught and not self.why_not(duty)

    @property
    def _young(self) -> str:
        return f"are as young as {self.age}" if self.heads > 1 else f"is {self.age} years old"

    @property
    def _a_child(self) -> str:
        return "are children" if self.heads > 1 else "is a child"

    @property
    def weak(self) -> str:
        """Why nobody of this role can carry, launch or help another; "" where they can."""
        if self.age is not None and self.age < STRONG:
            return self._young
        if self.small and self.age is None:
            return self._a_child
        return self.hindered(seated=False) or ("" if self.limits.isdisjoint(_HELPS_BY) else _BY_MEDICAL)

    @property
    def unfit(self) -> str:
        """Why nobody of this role can carry, launch or help on this voyage; "" where they can."""
        return self.weak or ("" if self.aboard else f"{'are' if self.heads > 1 else 'is'} not on this voyage")


@once
def hands(sight: Sight) -> Mapping[str, Hand]:
    """Each role aboard with what the crew list and the voyage say of it."""
    vessel = sight.vessel
    travellers = vessel.voyage.persons if vessel.voyage and not _over(sight, vessel.voyage) else ()
    aboard = {str(each.role) for each in travellers}
    if not aboard <= set(sight.roles):
        aboard = set()
    found = {}
    for person in vessel.people:
        role = str(person.role)
        with_it = [each for each in travellers if each.role == role]
        ages = [age for age in (*_ages(person), *(known(each.age) for each in with_it)) if age is not None]
        told = [
            each
            for each in (person.needs_help, *(each.needs_help for each in with_it))
            if isinstance(each, str)
        ]
        found[role] = Hand(
            role,
            heads([person]),
            min(ages) if ages else None,
            not ages and ADULT not in jacket_sizes(person),
            "; ".join(dict.fromkeys(each for each in told if each != "none")),
            tuple(person.abilities),
            not aboard or role in aboard,
            max(ages) if ages else None,
            limits_in(person.medical) if isinstance(person.medical, str) else frozenset(),
        )
    return found


def offered(sight: Sight, duty: Duty | ShelfDuty | None = None) -> list[str]:
    """The roles that a remedy may offer: for a duty whoever may have it, else whoever carries, launches and helps; all where none can."""
    able = [role for role, hand in hands(sight).items() if (hand.serves(duty) if duty else not hand.unfit)]
    return able or list(sight.roles)


def duty_of(emergency: str, duty: str) -> ShelfDuty | None:
    """A duty of the shelf by its names; None for none of hers."""
    return next(
        (line for one in shelf() if one.id == emergency for line in one.duties if line.id == duty), None
    )


def _over(sight: Sight, voyage: Voyage) -> bool:
    """Whether a voyage has ended, so that it says nothing of who is aboard."""
    return isinstance(voyage.until, Stamp) and voyage.until.last_day < sight.as_of


def _ages(person: Person) -> list[int | None]:
    return [known(each) for each in person.age]


def wanting(emergency: Emergency, crew: Mapping[str, Hand]) -> int:
    """What the bill of an emergency leaves undone: hands short, hands that cannot, and people bound twice at once."""
    duties = [duty for duty in emergency.duties if duty.who]
    lacking = sum(short(duty, crew) + len(unable(duty, crew)) for duty in duties)
    return lacking + sum(clash(one, other, crew) for one, other in itertools.combinations(duties, 2))


def short(duty: Duty, crew: Mapping[str, Hand]) -> int:
    """How many hands a duty is short of, of those it takes, or of all aboard where they are fewer."""
    return max(0, min(duty.persons, _all(crew)) - _count(set(duty.who), crew))


def spared(duty: Duty, crew: Mapping[str, Hand]) -> bool:
    """Whether a duty is still done by as many as it takes with any one of those lost who have it."""
    return _count(set(duty.who), crew) > max(1, duty.persons)


def taught_besides(duty: Duty, crew: Mapping[str, Hand]) -> bool:
    """Whether it is said of somebody who has not a duty that he can do what it needs."""
    others = (hand for role, hand in crew.items() if role not in duty.who)
    return bool(duty.needs) and any(duty.needs in hand.abilities and hand.could(duty) for hand in others)


def unable(duty: Duty, crew: Mapping[str, Hand]) -> dict[str, str]:
    """Those told off for a duty who cannot do it, with the reason."""
    told = {who: crew[who].why_not(duty) for who in duty.who if who in crew}
    return {who: why for who, why in told.items() if why}


def clash(
    one: Duty, other: Duty, crew: Mapping[str, Hand], unlike: Callable[[Duty, Duty], bool] = apart
) -> int:
    """How many hands two duties that cannot be done at once are short of together; 0 where they can, or have hands enough."""
    first, second = set(one.who), set(other.who)
    if not unlike(one, other) or not first & second:
        return 0
    wanted = sum(min(duty.persons, _count(set(duty.who), crew)) for duty in (one, other))
    return max(0, wanted - _count(first | second, crew))


def _all(crew: Mapping[str, Hand]) -> int:
    return sum(hand.heads for hand in crew.values())


def _count(roles: set[str], crew: Mapping[str, Hand]) -> int:
    return sum(crew[role].heads if role in crew else 1 for role in roles)


def idle(emergency: Emergency, duty: Duty, crew: Mapping[str, Hand], helpers: Collection[str]) -> list[str]:
    """Who has nothing to do in an emergency, helps nobody, and could do a duty of it, as far as is said: a key one only if it is said what they can do."""
    busy = {who for one in emergency.duties for who in one.who} | {duty.substitute, *helpers}
    return [role for role, hand in crew.items() if role not in busy and hand.could(duty)]


def best(emergency: Emergency, crew: Mapping[str, Hand]) -> int:
    """The least that any bill of this emergency must leave undone with these people, as `wanting` counts it."""
    people = [hand for hand in crew.values() for _ in range(hand.heads)][:SMALL]
    duties = [duty for duty in emergency.duties if duty.who or duty.essential]
    least, tried = len(duties) * len(people) + 1, 0
    dealt: list[tuple[Duty, frozenset[int]]] = []

    def deal(number: int, cost: int) -> None:
        nonlocal least, tried
        tried += 1
        if cost >= least or tried > TRIED:
            return
        if number == len(duties):
            least = cost
            return
        duty = duties[number]
        able = [each for each, hand in enumerate(people) if not hand.why_not(duty)]
        wanted = min(duty.persons, len(people))
        for count in range(min(wanted, len(able)), -1 if not able else 0, -1):
            for chosen in itertools.combinations(able, count):
                taken = frozenset(chosen)
                bound = sum(len(taken & held) for other, held in dealt if apart(duty, other))
                dealt.append((duty, taken))
                deal(number + 1, cost + wanted - count + bound)
                dealt.pop()
                if least == 0:
                    return

    deal(0, 0)
    return least


def improvable(emergency: Emergency, crew: Mapping[str, Hand]) -> bool:
    """Whether the people aboard could do better than the bill has them do; a crew of one or two is judged by what can be done."""
    wants = wanting(emergency, crew)
    return wants > 0 and wants > best(emergency, crew)


@once
def sole(sight: Sight) -> str:
    """The role of the one person aboard: she never carries more, or one alone is on the voyage; "" where there are others."""
    one = sight.vessel.vessel
    aboard = [hand for hand in hands(sight).values() if hand.aboard]
    alone = len(aboard) == 1 and (
        (one is not None and one.persons == 1) or (sight.vessel.voyage is not None and aboard[0].heads == 1)
    )
    return aboard[0].role if alone else ""
