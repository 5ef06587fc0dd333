"""Who does what, and who goes into which raft, as sentences tell it: as the bill, the rafts' parties and lists have it."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.manual.own_words import APART, called, listed, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.people import Person, Traveller

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from generator.reading.findings import Place
    from generator.vessel.raft import Raft

DEEDS = [
    "command",
    "launch",
    "hold",
    "cut",
    "lookout",
    "helm",
    "throw",
    "recover",
    "fight",
    "close",
    "pump",
    "find",
    "shut-off",
    "ventilate",
    "muster",
]
"""The duties that sentences give to somebody, by their ids, and what is done at a raft; who calls and who brings the bag is asked elsewhere."""
_SOON = r"(?:(?: then| always| also| alone| together| both| all| at once| first| now)*)"
_MUST = r"(?: must| will| shall| has to| have to| is to| are to)"


@dataclass(frozen=True)
class Given:
    """What a sentence gives to somebody: the deed, the roles, the side of the raft that it names; whether it is about gas, shut in a fire by the one and in a leak by the other."""

    deed: str
    roles: tuple[str, ...]
    side: str
    gas: bool = False


@check("words.other-duty", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_give_duties_to_those_who_have_them(sight: Sight) -> Finds:
    """Where words say who does a duty, they name those to whom the station bill or the raft's party gives it, or a substitute.

    Why: two go to the raft and nobody to the helm, each sure of the other.
    Remedy: ask who does it, and correct the note, or 'who' of that duty.
    """
    roles = tuple(role.lower() for role in sight.roles)
    if not roles or not sight.vessel.station_bill:
        return
    for said in sight.words_through(_gives_a_duty):
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, (*APART, Person, Traveller)):
            continue
        beside = str(said.block.__dict__.get("beside") or "")
        for given in (one for sentence in told_in(said.meant) for one in duties_in(sentence, roles)):
            has, place = _those_who_have(sight, given, beside)
            wrong = [role for role in given.roles if not any(_same(role, each) for each in has)]
            if wrong and len(wrong) < len(given.roles):  # those whom the bill gives to all rafts help at each
                by_bill = _those_who_have(sight, replace(given, side=""), beside)[0]
                wrong = [role for role in wrong if not any(_same(role, each) for each in by_bill)]
            if has and wrong and place is not None:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' gives it to the {' and '.join(wrong)}, and the file to: {', '.join(sorted(has))}",
                    item=said.block.path,
                    also=(place,),
                )
                break


@cache
def _verbs() -> dict[str, re.Pattern[str]]:
    """By the deed: what finds it done by one, by several, or done by somebody."""
    return {deed: re.compile(rf"(?:{one_of(called(f'does.{deed}'))})(?![\w-])") for deed in DEEDS}


@sieve
def _gives_a_duty(text: str) -> bool:
    small = text.lower()
    return _any_verb().search(_plain(small)) is not None or _done_by_any().search(small) is not None


@cache
def _any_verb() -> re.Pattern[str]:
    """Finds what any of the deeds is called, as several do it."""
    return _any_of(_verbs().values())


@cache
def _done_by_any() -> re.Pattern[str]:
    """Finds any of the deeds done by somebody."""
    return _any_of(map(_done_by, DEEDS))


def _any_of(patterns: Iterable[re.Pattern[str]]) -> re.Pattern[str]:
    """What finds something where one of these does."""
    return re.compile("|".join(f"(?:{each.pattern})" for each in patterns))


def _plain(text: str) -> str:
    """Words with each verb of one person as of several, so that one list serves both: launches, launch."""
    return _third().sub(lambda found: listed_pairs()[found[0]], text)


@cache
def listed_pairs() -> dict[str, str]:
    """The forms of the verbs of these duties, of one person and done, by which stands in the lists."""
    pairs: dict[str, str] = {}
    for word in sorted(listed("reads.duty-verbs")):
        for form in _forms(word):
            pairs[form] = word
    return pairs


def _forms(verb: str) -> tuple[str, ...]:
    es = re.search(r"(?:ch|sh|ss|x|o)$", verb) is not None
    return (f"{verb}es" if es else f"{verb[:-1]}ies" if verb.endswith("ry") else f"{verb}s",)


@cache
def _third() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of(tuple(listed_pairs()))})\b")


@lru_cache(maxsize=8192)
def duties_in(sentence: str, roles: tuple[str, ...]) -> tuple[Given, ...]:
    """What a sentence gives to roles of hers."""
    found: list[Given] = []
    for named, verb in given_to(sentence, roles):
        for deed, find in _verbs().items():
            done = find.match(_plain(verb))
            if done is not None:
                side = re.search(r"\b(port|starboard)\b", done[0])
                found.append(Given(deed, named, side[1] if side else "", " gas" in done[0]))
    for each in _by(roles).finditer(sentence):
        named = tuple(re.findall(rf"\b({_roles(roles)})\b", each["who"]))
        for deed in DEEDS:
            if one := _done_by(deed).search(each["what"]):
                side = re.search(r"\b(port|starboard)\b", one[0])
                found.append(Given(deed, named, side[1] if side else "", "gas" in one[0]))
    return tuple(found)


def given_to(sentence: str, roles: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    """Roles of hers that are what a sentence tells of, with what they do, to its end."""
    for each in _given(roles).finditer(sentence):
        several = " and " in each["who"] or each["must"] or each["who"].endswith("s")
        does = each["does"]
        if several or does.split(maxsplit=1)[0].endswith("s"):  # not: the mate helps the skipper launch it
            yield tuple(re.findall(rf"\b({_roles(roles)})\b", each["who"])), does


@lru_cache(maxsize=64)
def _roles(roles: tuple[str, ...]) -> str:
    """What matches a role, or the title of several of it: deckhand, of deckhand 1."""
    titles = {re.sub(r" \d+$", "", role) for role in roles}
    return one_of(tuple({*roles, *titles}))


@lru_cache(maxsize=64)
def _given(roles: tuple[str, ...]) -> re.Pattern[str]:
    one = rf"(?:the |our )?(?:{_roles(roles)})(?! \d)(?!['’])s?"
    return re.compile(
        rf"(?<!by )(?<!for )(?<!to )(?<!with )(?<!from )(?<!of )\b(?P<who>{one}(?:(?:,| and|, and) {one})*)(?P<must>{_MUST})?{_SOON} (?P<does>[a-z][^.;]*)"
    )


@lru_cache(maxsize=64)
def _by(roles: tuple[str, ...]) -> re.Pattern[str]:
    one = rf"(?:the |our )?(?:{_roles(roles)})(?! \d)(?!['’])"
    return re.compile(
        rf"(?P<what>[^.;,]*?\b(?:is|are|must be|will be|to be)\b [^.;,]*?) by (?P<who>{one}(?:(?:,| and|, and) {one})*)\b"
    )


@cache
def _done_by(deed: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of(called(f'done.{deed}'))})(?![\w-])")


def _those_who_have(sight: Sight, given: Given, beside: str) -> tuple[set[str], Place | None]:
    """Those to whom bill and parties give a deed, with the place of one who says so; of a raft that is named its own party first."""
    has: set[str] = set()
    place: Place | None = None
    for raft in sight.vessel.rafts:
        mine = not given.side or given.side in (raft.side, str(raft.name).split()[0].lower())
        told = getattr(raft.party, given.deed, None) if raft.party is not None and mine else None
        if given.deed in ("launch", "hold", "cut") and told and raft.party is not None:
            has |= {str(role).lower() for role in told}
            place = place or raft.party.place(given.deed)
    if place is not None and given.side:
        return has, place
    bill = sight.vessel.station_bill
    for name in [beside] if given.deed in bill.get(beside, {}) and not given.gas else list(bill):
        duty = bill[name].get(given.deed)
        if duty is not None:
            others = (
                () if given.deed == "command" else (duty.substitute,)
            )  # of two who command each waits for the other
            has |= {str(role).lower() for role in (*(duty.who or ()), *others) if isinstance(role, str)}
            place = place or duty.place("who")
    return has - {"none"}, place


def _same(role: str, other: str) -> bool:
    return role == other or other.startswith(f"{role} ") or other == f"{role}s"


_INTO = r"(?:go|get|climb|board|step|jump|move|belong|come|are|stay|sit)"
_ALL = re.compile(
    rf"\b(?P<who>all(?: of (?:us|you|them)| (?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+|hands|persons|people|aboard))?|everybody|everyone|the whole crew)"
    rf"(?: then| first| now)* (?:{_INTO}|goes|gets|climbs|boards|steps|belongs|is)(?: down| over| straight| together)?(?: (?:in|into|to|aboard|onto))? the (?P<side>port|starboard|first|second) (?:life ?)?raft\b"
)
_FIRST = re.compile(
    r"\bthe (?P<side>port|starboard) (?:life ?)?raft(?: (?:is launched|goes over|goes|is thrown|over))?,? first\b|\blaunch the (?P<other>port|starboard) (?:life ?)?raft first\b"
)


@sieve
def _of_a_raft(text: str) -> bool:
    return "raft" in text.lower()


@check("words.raft-not-theirs", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_send_people_to_their_raft(sight: Sight) -> Finds:
    """With several rafts words send everybody to the raft whose 'carries' names them, and launch them in the order of 'first-to-launch'.

    Why: six climb into a raft for four, and the other drifts off with nobody in it.
    Remedy: settle who goes where, practise it, and correct the words, or 'carries' of the rafts.
    """
    rafts = [raft for raft in sight.vessel.rafts if isinstance(raft.side, str)]
    if len(sight.vessel.rafts) < 2 or len({raft.side for raft in rafts}) < 2:
        return
    roles = tuple(role.lower() for role in sight.roles)
    for said in sight.words_through(_of_a_raft):
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, APART):
            continue
        wrong = next(
            (each for sentence in told_in(said.meant) for each in _otherwise(sentence, rafts, roles)), None
        )
        if wrong is not None:
            message, place = wrong
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' {message}",
                item=said.block.path,
                also=(place,),
            )


def _otherwise(sentence: str, rafts: list[Raft], roles: tuple[str, ...]) -> Iterator[tuple[str, Place]]:
    """What a sentence says of rafts that their own entries do not, with the place there."""
    takers = {raft: _taken(raft) for raft in rafts}
    for found in _ALL.finditer(sentence):
        named = _named(rafts, found["side"])
        others = [raft for raft in rafts if raft is not named and takers[raft]]
        if named is not None and takers[named] and others and not takers[others[0]] <= takers[named]:
            yield (
                f"sends all to the {named.name}, and carries of the {others[0].name} says: {', '.join(sorted(takers[others[0]]))}",
                others[0].place("carries"),
            )
    for found in _goes_into(roles).finditer(sentence) if roles else ():
        named = _named(rafts, found["side"])
        for role in re.findall(rf"\b({_roles(roles)})\b", found["who"]):
            here = [raft for raft in rafts if any(_same(role, each) for each in takers[raft])]
            if named is not None and here and named not in here:
                yield (
                    f"sends the {role} to the {named.name}, and carries of the {here[0].name} names that role",
                    here[0].place("carries"),
                )
    for found in _FIRST.finditer(sentence):
        named = _named(rafts, found["side"] or found["other"])
        first = next((raft for raft in rafts if raft.first_to_launch == 1), None)
        if named is not None and first is not None and named is not first:
            yield (
                f"launches the {named.name} first, and first-to-launch the {first.name}",
                first.place("first-to-launch"),
            )


def _named(rafts: list[Raft], word: str) -> Raft | None:
    """The raft of a side, or the first or second."""
    if word in ("first", "second"):
        return next(
            (raft for raft in rafts if raft.first_to_launch == ("first", "second").index(word) + 1), None
        )
    there = [raft for raft in rafts if raft.side == word]
    return there[0] if len(there) == 1 else None


def _taken(raft: Raft) -> set[str]:
    """The roles that a raft carries."""
    return {re.sub(r":\s*\d+$", "", str(each)).lower() for each in raft.carries or ()} - {"none"}


@lru_cache(maxsize=64)
def _goes_into(roles: tuple[str, ...]) -> re.Pattern[str]:
    one = rf"(?:the |our )?(?:{_roles(roles)})(?! \d)(?!['’])s?"
    return re.compile(
        rf"\b(?P<who>{one}(?:(?:,| and|, and) {one})*)(?: then| first| also| both)* (?:{_INTO}|goes|gets|climbs|boards|steps|belongs|is)"
        rf"(?: down| over)?(?: (?:in|into|to|aboard))? the (?P<side>port|starboard|first|second) (?:life ?)?raft\b"
    )
