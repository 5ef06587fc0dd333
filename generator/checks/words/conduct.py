"""What sentences have people do in an emergency, against the bill and the signals: nobody stays in bed who has a duty, nobody goes at another's signal."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.checks.words.tallies import blasts_in, like
from generator.manual.own_words import APART, called, orders_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.particulars import Note

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.reading.findings import Place
    from generator.vessel.people import Assignment


@sieve
def _stays(text: str) -> bool:
    return _staying().search(text.lower()) is not None


@cache
def _staying() -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:stay|remain|keep|wait|lie)s?\b[^,;:]{{0,24}}?\b(?:{one_of(called('stays.in-bed'))})\b"
    )


@check("words.stays-in-bed", LIFE, COMMON_PRACTICE, COMPOSITION)
def nobody_stays_in_bed_who_has_a_duty(sight: Sight) -> Finds:
    """A note beside an emergency lets nobody stay in the bunk or below who has a duty in it.

    Why: the hatches stay open and the second extinguisher hangs where it is: those who were to do it were told to lie still.
    Remedy: correct the note, or give the duty to somebody else in the station bill.
    """
    roles = tuple(role.lower() for role in sight.roles)
    for said in sight.words_through(_stays) if roles else ():
        beside = str(said.block.beside) if isinstance(said.block, Note) else ""
        duties: Mapping[str, Assignment] = sight.vessel.station_bill.get(beside, {})
        if not duties or said.says in (ROLE, SIGNAL):
            continue
        for who in (one for sentence in orders_in(said.meant) for one in _stay_in(sentence, roles)):
            bound = next(
                (
                    (role, duty, given.place("who"))
                    for duty, given in duties.items()
                    for role in (each for each in given.who or () if isinstance(each, str))
                    if _means(who, role.lower())
                ),
                None,
            )
            if bound is not None:
                role, duty, place = bound
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' lets the {who} stay there, and the station bill gives {beside}, {duty} to: {role}",
                    item=said.block.path,
                    also=(place,),
                )
                break


@lru_cache(maxsize=8192)
def _stay_in(sentence: str, roles: tuple[str, ...]) -> tuple[str, ...]:
    """Whom a sentence lets stay in bed."""
    found = _who_stays(roles).search(sentence)
    return (found["who"],) if found else ()


@lru_cache(maxsize=64)
def _who_stays(roles: tuple[str, ...]) -> re.Pattern[str]:
    titles = {re.sub(r" \d+$", "", role) for role in roles}
    several = tuple({*roles, *titles, *(f"{each}s" for each in titles)})
    return re.compile(
        rf"\b(?:the |our |all |both )*(?P<who>{one_of(several)}|everybody|everyone|all|off-watch(?: people| crew)?|watch below)(?: all| both| are to| is to| must| should| shall| will| may| can| have to| has to| simply| just)* {_staying().pattern.removeprefix(chr(92) + 'b')}"
    )


def _means(who: str, role: str) -> bool:
    """Whether words for people mean one role: all, guests, guest 2."""
    return (
        who.startswith(("every", "all", "off", "watch"))
        or role == who
        or role.startswith(f"{who.rstrip('s')} ")
    )


@sieve
def _at_blasts(text: str) -> bool:
    return bool(blasts_in(text.lower()))


_LEAVES = re.compile(
    r"\b(?:into|in|to|board|boards|aboard|enter|enters) the (?:life ?)?rafts?\b|\babandon(?:s|ed)?\b|\bleaves? (?:the (?:boat|ship|yacht)|her)\b"
    r"|\b(?:over the side|takes? to the (?:life ?)?rafts?|jumps?|into the water)\b"
)
_COMES = re.compile(
    r"\b(?:come|comes|go|goes|run|runs) (?:up |out |straight )?(?:on|to|onto|into|in) (?:the )?(?:deck|cockpit|muster place|muster station)\b|\bmusters?\b|\bgathers?\b|\blifejackets? on\b"
)
_OF_WHAT = re.compile(r"\b(?:general alarm|man overboard|fire|fog|overboard|stand down|all clear)\b")


@check("words.other-signal", LIFE, COMMON_PRACTICE)
def words_send_people_at_her_own_signals(sight: Sight) -> Finds:
    """At which blasts people muster, and at which they leave her, words say as 'general-alarm' and 'abandon-order' do.

    Why: at the alarm one half climbs into the raft, while the other waits for an order that nobody gives twice.
    Remedy: practise the signals; correct the note, or the signal.
    """
    one = sight.vessel.vessel
    if one is None:
        return
    alarm, order = (
        str(each) if isinstance(each, str) else "" for each in (one.general_alarm, one.abandon_order)
    )
    for said in sight.words_through(_at_blasts):
        if said.says in (ROLE, SIGNAL) or said.block is one or isinstance(said.block, APART):
            continue
        wrong = next(
            (
                found
                for sentence in orders_in(_kept(said.text))
                if (found := _at_another(sentence, alarm.lower(), order.lower()))
            ),
            None,
        )
        if wrong is not None:
            deed, key = wrong
            place: Place = one.place(key)
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has people {deed} at it, and {key} says: {order if key == 'abandon-order' else alarm}",
                item=said.block.path,
                also=(place,),
            )


def _kept(text: str) -> str:
    """Words with what they count kept where they say when: when seven short blasts sound, as at seven short blasts."""
    return re.sub(
        r"\b(?:when|once|as soon as|if) (?=[^,;:]*\b(?:blasts?|rings?|strokes?)\b)", "at ", text.lower()
    )


@lru_cache(maxsize=4096)
def _at_another(sentence: str, alarm: str, order: str) -> tuple[str, str] | None:
    """What people do at the blasts of a sentence that are another signal's, and the key of the right one."""
    told = blasts_in(sentence)
    if not told or _OF_WHAT.search(sentence):
        return None
    hers, orders = blasts_in(alarm), blasts_in(order)
    if _LEAVES.search(sentence):
        if order and not all(any(like(each, own) for own in orders) for each in told):
            return "leave her", "abandon-order"
    elif _COMES.search(sentence) and hers and not all(any(like(each, own) for own in hers) for each in told):
        return "come on deck", "general-alarm"
    return None
