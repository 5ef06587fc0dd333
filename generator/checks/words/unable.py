"""What sentences have somebody do who cannot, by what stands under 'needs-help' or 'medical' of that person."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.assigned import given_to
from generator.checks.words.places import one_of
from generator.manual.own_words import APART, called, orders_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.ailments import limits_in
from generator.survey.hands import hands
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
from generator.vessel.people import Person, Traveller

if TYPE_CHECKING:
    from collections.abc import Iterator

TAKEN = ("move", "swim", "hear", "see", "speak", "lift")
"""What deeds in words are looked at for, of `ailments.LIMITS`."""
_ASIDE = re.compile(
    r"\b(?:is|are|gets?|being) (?:then |first |always |both )*(?:carried|lifted|lowered|hoisted|helped|led|held|passed|handed|pulled|brought|taken|winched|swung)\b"
    r"|\b(?:with help|with the help|on (?:her|his|the) (?:back|seat)|by the hand|in the sling)\b"
)
"""Words by which others do it with the person."""
_ANOTHER = re.compile(
    r"\b(?:while|when|until|before|after|and the|and all|and everybody|and somebody|and one)\b"
)
"""Where a sentence goes on to somebody or something else."""


@sieve
def _takes_a_limb(text: str) -> bool:
    return any(_deeds(each).search(text.lower()) for each in TAKEN)


@cache
def _deeds(limit: str) -> re.Pattern[str]:
    """Finds a deed that takes what somebody may lack."""
    verbs = one_of(called(f"takes.to-{limit}"))
    climbed = (
        rf"|(?:up|down|by|over) (?:the |a |her )?(?:[a-z]+ )?(?:{one_of(called('climbed'))})"
        if limit == "move"
        else ""
    )
    return re.compile(rf"(?<![\w-])(?:{verbs}{climbed})(?![\w-])")


@check("words.unable", LIFE, COMMON_PRACTICE)
def words_have_nobody_do_what_they_cannot(sight: Sight) -> Finds:
    """A sentence that names somebody has that person do nothing that 'needs-help' or 'medical' says he cannot: climb, swim, hear, lift.

    Why: she stands at the ladder that she cannot go down, and everybody behind her waits.
    Remedy: write how the others bring that person there; or correct 'needs-help'.
    """
    crew = {role.lower(): hand for role, hand in hands(sight).items()}
    lacks = {
        role: lacking for role, hand in crew.items() if (lacking := limits_in(hand.needs_help) | hand.limits)
    }
    if not lacks:
        return
    for said in sight.words_through(_takes_a_limb):
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, (*APART, Person, Traveller)):
            continue
        for role, deed, limit in (
            one for sentence in orders_in(said.meant) for one in _done_by(sentence, tuple(crew))
        ):
            if limit not in lacks.get(role, ()):
                continue
            by_help = limit in limits_in(crew[role].needs_help)
            why = (
                f"needs-help says: {crew[role].needs_help}"
                if by_help
                else "is not fit for it, by what stands under 'medical'"
            )
            person = next(each for each in sight.vessel.people if str(each.role).lower() == role)
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has the {role} do that ({deed}), and {why if by_help else f'the {role} {why}'}",
                item=said.block.path,
                also=(person.place("needs-help" if by_help else "medical"),),
            )
            break


_STOP = r"(?:the )?(?:first |second |third |next |last |other |half of the |middle of the )*(?:port|harbour|leg|week|stop|island|passage|crossing|month|day)s?"
_LEAVES = re.compile(
    rf"(?:then |first |always |only |already )*(?:leaves? (?:us|her|the (?:boat|ship|yacht))|(?:goes|go|went) (?:home|ashore for good)|fl(?:ies|y) home|signs? off|"
    rf"(?:gets? off|joins?(?: us)?|comes? aboard) (?:only )?(?:later|tomorrow|(?:in|at|after|on) {_STOP})|"
    r"(?:is|are) (?:not with us|no longer aboard|not aboard|on holiday|away (?:until|for|this|next)|ashore until)|stays? (?:ashore|at home))\b"
)
_IN_THE_MINUTE = re.compile(
    r"\b(?:first|last|when|if|into|raft|before|after (?:the|everybody|all|everyone)|with the)\b"
)
"""Words by which somebody leaves her as all do, in the emergency."""


@sieve
def _leaves(text: str) -> bool:
    return _LEAVES.search(text.lower()) is not None


@check("words.not-with-us", LIFE, COMMON_PRACTICE)
def words_have_nobody_gone_who_has_a_duty(sight: Sight) -> Finds:
    """No words have somebody leave her on the way, or join her later, who has a duty, unless a voyage says who is aboard.

    Why: the bill counts on that person, and on the second leg nobody is at that station.
    Remedy: write who is aboard in voyage.yaml, for each leg anew, and give the duties to those who are; or take the words out.
    """
    crew = {role.lower(): role for role in sight.roles}
    bound = {
        str(role).lower(): given.place("who")
        for duties in sight.vessel.station_bill.values()
        for given in duties.values()
        for role in given.who or ()
    }
    if sight.vessel.voyage is not None or not bound:
        return
    for said in sight.words_through(_leaves):
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, (*APART, Person, Traveller)):
            continue
        gone = next(
            (
                role
                for sentence in _SENTENCE.split(said.text.lower())
                for who, does in given_to(sentence, tuple(crew))
                for role in who
                if role in bound and _LEAVES.match(does) and not _in_the_minute(does)
            ),
            None,
        )
        if gone is not None:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has the {crew[gone]} not aboard on a part of the way, and the station bill counts on the {crew[gone]}",
                item=said.block.path,
                also=(bound[gone],),
            )


_SENTENCE = re.compile(r"[.;!?\n]")


def _in_the_minute(does: str) -> bool:
    """Whether somebody leaves her as all do, in the emergency: leaves the boat last."""
    found = _LEAVES.match(does)
    behind = does[found.end() :] if found is not None else ""
    return re.search(
        r"\b(?:port|harbour|leg|week|monday|tuesday|wednesday|thursday|friday|saturday|sunday|home|\d+)\b",
        behind,
    ) is None and (_IN_THE_MINUTE.search(behind) is not None or (not behind.strip() and "leave" in does))


@lru_cache(maxsize=8192)
def _done_by(sentence: str, roles: tuple[str, ...]) -> tuple[tuple[str, str, str], ...]:
    """Who does what in a sentence, with what that takes of `TAKEN`."""
    return tuple(_each_done_by(sentence, roles))


def _each_done_by(sentence: str, roles: tuple[str, ...]) -> Iterator[tuple[str, str, str]]:
    for who, rest in given_to(sentence, roles):
        does = _ANOTHER.split(rest, maxsplit=1)[0]
        if _ASIDE.search(does):
            continue
        for limit in TAKEN:
            found = _deeds(limit).search(does)
            if found is not None:
                yield from ((role, found[0], limit) for role in who)
