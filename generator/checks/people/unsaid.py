"""Who needs help by what stands under 'medical', and of whom nobody says so where the crew reads it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.own_words import APART
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.values import untold
from generator.survey.ailments import limits_in
from generator.survey.hands import offered
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
from generator.vessel.people import Person, Traveller

if TYPE_CHECKING:
    from collections.abc import Iterator

_HELP_FOR = {
    "mind": "is not left alone",
    "move": "is helped along and up the steps",
    "see": "is led by the hand",
    "hear": "is woken by hand",
    "asleep": "is woken by hand",
}
"""What help others give, by what somebody cannot, as a line that can be pasted says it."""
_CANNOT = {
    "mind": "cannot look after anything",
    "move": "cannot move about alone",
    "see": "cannot see",
    "hear": "does not hear",
    "asleep": "sleeps on through an alarm",
}
_SLEEPS_ON = re.compile(
    r"\b(?:sleeping (?:tablets?|pills?|draughts?|medicine)|sedatives?|ear ?plugs?|sleeps (?:very |so )?(?:deeply|soundly|heavily|through)|heavy sleeper|hard to wake|cannot be woken)\b",
    re.IGNORECASE,
)
_NOT_SO = re.compile(r"\b(?:no|never|without|stopped|no longer)\b[^.;,]*$", re.IGNORECASE)


@check("people.help-unsaid", LIFE, COMMON_PRACTICE)
def whoever_cannot_is_said_to_need_help(sight: Sight) -> Finds:
    """Whoever by 'medical', or by a note, cannot move about, see or hear, or sleeps on through an alarm, has the help said under 'needs-help'.

    Why: what stands there one person reads at last; nobody goes down for the one who does not hear the alarm.
    Remedy: write under 'needs-help' what the others do, without the illness, and under 'helper' who does it.
    """
    silent = {
        str(person.role).lower(): person
        for person in sight.vessel.people
        if isinstance(person.role, str) and untold(person.needs_help)
    }
    for person in silent.values():
        lacking = _lacking(person.medical) if isinstance(person.medical, str) else ()
        if lacking:
            yield at(
                person,
                "medical",
                f"{the(str(person.role))}, by what stands here, {_cannot(lacking)}; 'needs-help' says nothing",
                remedy=_remedy(sight, person, lacking),
                item=str(person.role),
                also=(person.place("needs-help"),),
            )
    for said in sight.words_through(_tells_an_ailment):
        if isinstance(said.block, (*APART, Person, Traveller)):
            continue
        for role, lacking in _ailing(said.text, tuple(silent)):
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}': the {role}, by that, {_cannot(lacking)}; 'needs-help' says nothing",
                remedy=f"take it out here, and in the line of {the(str(silent[role].role))} {_remedy(sight, silent[role], lacking)}",
                item=said.block.path,
                also=(silent[role].place("needs-help"),),
            )
            break


def _remedy(sight: Sight, person: Person, lacking: tuple[str, ...]) -> str:
    helpers = [role for role in offered(sight) if role != person.role]
    told = [f"needs-help: {_HELP_FOR[lacking[0]]}"]
    told += [f"helper: {helpers[0]}"] if helpers and untold(person.helper) else []
    return f"write {', '.join(told)}"


def _cannot(lacking: tuple[str, ...]) -> str:
    return " and ".join(_CANNOT[each] for each in lacking)


@lru_cache(maxsize=4096)
def _lacking(text: str, *, by_deeds: bool = True) -> tuple[str, ...]:
    """What words have somebody lack, of `_CANNOT`."""
    lacks = limits_in(text, by_deeds=by_deeds) | ({"asleep"} if _sleeps_on(text) else set())
    return tuple(each for each in _CANNOT if each in lacks)


@sieve
def _tells_an_ailment(text: str) -> bool:
    return bool(_lacking(text, by_deeds=False))


def _ailing(text: str, roles: tuple[str, ...]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The roles of which a sentence of a note tells an ailment, as its subject, and what they lack by it."""
    for sentence in re.split(r"[.;!?\n]", text.lower()):
        lacking = _lacking(sentence, by_deeds=False)
        if not lacking or (_A_CASE.search(sentence) and "asleep" not in lacking):
            continue
        yield from (
            (role, lacking)
            for role in roles
            if re.search(rf"\b(?<!for )the {re.escape(role)} (?!['’])", sentence)
        )


_A_CASE = re.compile(r"\b(?:if|when|whoever|once|should|until|whether|in case)\b")


def _sleeps_on(medical: str) -> bool:
    found = _SLEEPS_ON.search(medical)
    return found is not None and not _NOT_SO.search(medical[: found.start()])
