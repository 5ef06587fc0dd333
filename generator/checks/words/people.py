"""Words of her own about people: what they say of who carries, helps and sleeps where is said of the same person in the keys."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.crew import COMMAND, the
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import listed, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE
from generator.shelves.procedure_files import RAFT
from generator.shelves.procedures import shelf
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Berth
from generator.vessel.people import Assignment, Person, Traveller

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping

    from generator.manual.own_words import OwnWords

_RADIO = "radio"
_TOLD_OF = re.compile(r"(?:grab.?bag|distress call|mayday|distress alert)")
_CARRIES = r"(?:carries|brings|takes|fetches|grabs|has)"
_OF_A_BERTH = re.compile(r"\b(?:sleeps|berths|lies|berth|bunk|cabin)\b")
_BAG = re.compile(
    rf"(?:\bthe |(?=[a-z]+ \d)\b)(?P<role>[a-z]+(?: \d{{1,2}})?) {_CARRIES} (?:the |our |her )?grab.?bag\b"
)
_CALLS = re.compile(
    r"(?:\bthe |(?=[a-z]+ \d)\b)(?P<role>[a-z]+(?: \d{1,2})?) (?:sends|makes|speaks|gives) (?:the )?(?:distress call|mayday|distress alert)\b"
)


_ORDERS = re.compile(
    r"^(?:on (?:the )?order,? )?(?:the )?(?P<role>[a-z][a-z-]*(?: \d{1,2})?) (?:calls?|gives?|shouts?|orders?|says?|rings?|cries|blows?|sounds?)\b"
)
_LOOKS_AFTER = re.compile(
    r"(?:takes|holds|carries|brings|leads|guides|helps|looks after|minds|dresses|stays with|cares for|keeps hold of)"
)


@check("words.other-person", TRUTH, COMMON_PRACTICE)
def words_name_the_same_person(sight: Sight) -> Finds:
    """Where words say who carries the grab bag, helps somebody or makes the call, they name whom the keys name.

    Why: each of the two thinks that the other has it, and it stays behind.
    Remedy: ask the two, and correct the one that is wrong.
    """
    roles = tuple(role.lower() for role in sight.roles)
    if not roles:
        return
    for said in sight.words_through(_by_somebody):
        if _tells_of_help(said):
            yield from _of_the_helper(said, roles)
    for said in sight.words_through(_tells_of_a_duty):
        if said.says != ROLE and not _tells_of_help(said):
            yield from _of_a_duty(said, sight, roles)
    yield from _of_the_order(sight, roles)
    for said in sight.words_through(_looks_after):
        if said.says != ROLE and not _tells_of_help(said):
            yield from _of_a_charge(said, sight, roles)


def _of_the_order(sight: Sight, roles: tuple[str, ...]) -> Iterator[Found]:
    """The order to abandon, given by somebody else than whoever commands then."""
    one, assigned = sight.vessel.vessel, _commanding(sight)
    if one is None or assigned is None or not assigned.who or not isinstance(one.abandon_order, str):
        return
    commands = {str(who).lower() for who in assigned.who}
    found = _ORDERS.search(one.abandon_order.lower())
    role = found["role"] if found else ""
    if _one_of(role, roles) and not _one_of(role, commands):
        yield at(
            one,
            "abandon-order",
            f"'{shortened(one.abandon_order)}' has the {role} give the order, and 'command' is the duty of {the(assigned.who[0])}",
            remedy="ask who gives it; write that role in both",
            item="abandon-order",
            also=(assigned.place("who"),),
        )


def _commanding(sight: Sight) -> Assignment | None:
    """Who commands when she is abandoned, as the bill has it."""
    for one in shelf():
        lines = [line for line in one.duties if line.needs == COMMAND]
        if lines and any(line.takes == RAFT for line in one.duties):
            assigned: Mapping[str, Assignment] = sight.vessel.station_bill.get(one.id) or {}
            return assigned.get(lines[0].id)
    return None


@sieve
def _by_somebody(text: str) -> bool:
    return "by " in text.lower()


def _tells_of_help(said: OwnWords) -> bool:
    return said.field.key == "needs-help" and isinstance(said.block, (Person, Traveller))


@sieve
def _looks_after(text: str) -> bool:
    return _LOOKS_AFTER.search(text) is not None


@sieve
def _tells_of_a_duty(text: str) -> bool:
    return _TOLD_OF.search(text.lower()) is not None


def _of_the_helper(said: OwnWords, roles: tuple[str, ...]) -> Iterator[Found]:
    """Help by somebody who is not the helper."""
    helper = said.block.__dict__.get("helper")
    if not isinstance(helper, str) or helper.lower() not in roles:
        return
    own = str(said.block.__dict__.get("role") or "").lower()
    words = said.text.lower()
    named = {each for each in roles if re.search(rf"\bby (?:the )?{re.escape(each)}\b(?!['’])", words)}
    named -= listed("reads.held-by")  # led by the hand
    if _BY_TWO.search(words):
        return  # two lift, whom the helper brings
    if named and helper.lower() not in named | {own}:
        yield at(
            said.block,
            said.field.key,
            f"'{shortened(said.text)}' names the {min(named)}, and helper says {helper}",
            item=said.block.path,
            also=(said.block.place("helper"),),
        )


_BY_TWO = re.compile(r"\b(?:lifted|carried)\b[^.;]*? by (?:the )?[a-z-]+(?: \d+)? and\b")


def _of_a_charge(said: OwnWords, sight: Sight, roles: tuple[str, ...]) -> Iterator[Found]:
    """Somebody taken along or looked after by another than the helper."""
    travellers: tuple[Person | Traveller, ...] = (
        tuple(sight.vessel.voyage.persons) if sight.vessel.voyage else ()
    )
    helped = {
        str(person.role).lower(): person
        for person in (*sight.vessel.people, *travellers)
        if isinstance(person.helper, str) and person.helper.lower() in roles
    }
    if not helped:
        return
    find = _charge(roles)
    for sentence in told_in(said.meant):
        for found in find.finditer(sentence):
            for charge in re.findall(rf"\b({one_of(tuple(helped))})\b", found["charges"]):
                person = helped[charge]
                helper = str(person.helper).lower()
                if (
                    not _one_of(found["role"], {helper})
                    and found["role"] != charge
                    and helper not in sentence
                ):
                    yield at(
                        said.block,
                        said.field.key,
                        f"'{shortened(said.text)}' gives the {charge} to the {found['role']}, and helper says {helper}",
                        item=said.block.path,
                        also=(person.place("helper"),),
                    )
                    return


@lru_cache(maxsize=64)
def _charge(roles: tuple[str, ...]) -> re.Pattern[str]:
    role = one_of(roles)
    return re.compile(
        rf"(?<!by )(?:\bthe |(?=[a-z]+ \d)\b)(?P<role>{role}) {_LOOKS_AFTER.pattern} (?P<charges>(?:the |our )?(?:{role})(?:(?:,| and|, and) (?:the |our )?(?:{role}))*)\b(?!['’])"
    )


def _of_a_duty(said: OwnWords, sight: Sight, roles: tuple[str, ...]) -> Iterator[Found]:
    """Who carries the grab bag and who makes the call, in a sentence."""
    bags = sight.vessel.grab_bags
    carriers = {str(bag.carried_by).lower() for bag in bags}
    calls = {
        str(role).lower()
        for duties in sight.vessel.station_bill.values()
        for duty, given in duties.items()
        if duty in _calling()
        for role in (*given.who, given.substitute)
    }
    for sentence in told_in(said.meant):
        for find, known, what in ((_BAG, carriers, "the grab bag"), (_CALLS, calls, "the call")):
            found = find.search(sentence)
            role = found["role"] if found else ""
            if not known or not _one_of(role, roles) or _one_of(role, known):
                continue
            place = bags[0].place("carried-by") if what == "the grab bag" else None
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' gives {what} to the {role}, and the file to the {' and '.join(sorted(known - {'none'}))}",
                item=said.block.path,
                also=(place,) if place else (),
            )


@cache
def _calling() -> frozenset[str]:
    """The duties of those who call for help."""
    return frozenset(line.id for one in shelf() for line in one.duties if line.needs == _RADIO)


def _one_of(role: str, roles: Collection[str]) -> bool:
    """Whether a role, or the title of several of it, is among these: deckhand, of deckhand 1."""
    return bool(role) and any(each == role or each.startswith(f"{role} ") for each in roles)


@sieve
def _of_a_berth(text: str) -> bool:
    return _OF_A_BERTH.search(text) is not None


@check("words.other-berth", HELP, COMMON_PRACTICE, COMPOSITION)
def words_let_people_sleep_where_they_do(sight: Sight) -> Finds:
    """Words that say where somebody sleeps say the berth of the key.

    Why: whoever wakes the others in smoke goes to the wrong cabin.
    Remedy: ask where they sleep, and correct the one that is wrong.
    """
    berths = {
        str(person.role).lower(): person.berth
        for person in sight.vessel.people
        if isinstance(person.berth, Berth) and isinstance(person.berth.where, str)
    }
    if not berths:
        return
    told = sight.words_through(_of_a_berth)
    find = _sleeps(tuple(berths), names_of_spaces(sight)) if told else re.compile(r"(?!)")
    for said in told:
        for found in (one for sentence in told_in(said.meant) for one in find.finditer(sentence)):
            berth = berths[found["role"]]
            here, there = (find_space(sight.spaces, str(each))[0] for each in (found["space"], berth.where))
            if here is not None and there is not None and (here != there and apart(sight, here, there)):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has the {found['role']} sleep in the {here.name}, and berth says {berth.where}",
                    item=said.block.path,
                    also=(berth.place("where"),),
                )
                break


@lru_cache(maxsize=64)
def _sleeps(roles: tuple[str, ...], spaces: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(
        rf"\b(?P<role>{one_of(roles)}) (?:sleeps|berths|lies|has (?:his|her|their|a) (?:berth|bunk|cabin)) (?:in|at) (?:the )?"
        rf"(?P<space>(?:(?:port|starboard) )?(?:{one_of(spaces)}))(?=$|[,.;:)]| (?:and|with|at|on|to|while)\b)"
    )


def nobodys(text: str, aboard: frozenset[str]) -> str:
    """The title in words about people that nobody aboard has, as it stands there; "" where there is none.

    Titles that are held at sea alone, also as the owner of something: the purser's sister. Of those found ashore as well, the doctor,
    only where words have them do something aboard.
    """
    return next((f"the {title}" for title in titles_of_hers(text) if title not in aboard), "")


@lru_cache(maxsize=8192)
def titles_of_hers(text: str) -> tuple[str, ...]:
    """The titles in words that speak of people aboard, in their order."""
    titles: list[str] = []
    for sentence in told_in(text):
        for found in _TITLED.finditer(sentence):
            title, owns, does = found["title"], found["owns"], found["does"]
            if of_a_thing(sentence[found.end("title") :]):
                continue
            at_sea = title in listed("reads.sea-roles") and (not owns or owns in listed("reads.own-things"))
            aboard_only = found["only"] or does in listed("reads.does") or does == "aboard"
            acts = title in listed("reads.shore-roles") and not owns and aboard_only
            if at_sea or acts:
                titles.append(title)
    return tuple(titles)


def of_a_thing(behind: str) -> bool:
    """Whether a title only tells what sort of thing it is, by what stands behind it: the cook stove, the captain's chair is somebody's."""
    noun = re.match(r" ([a-z]+)\b", behind)
    return noun is not None and noun[1] in listed("reads.nouns") and noun[1] not in listed("reads.does")


OF_OTHERS = (
    r"(?! (?:of|from|on|in|at|aboard|on board|ashore)(?: (?:an?|the|any|another|some|that|every|their))?(?: [a-z]+){0,2} "
    r"(?:ship|vessel|lifeboat|helicopter|ferry|tug|freighter|tanker|trawler|base|yard|harbour|school|company|shore|quay|pontoon)s?\b)"
    r"(?! ashore\b)"
)
"""What does not stand behind a title of hers: the cook of a rescue ship, the purser ashore."""
_TITLED = re.compile(
    rf"\b(?P<only>only )?the (?:first |chief |second )?(?P<title>[a-z]+)\b{OF_OTHERS}"
    r"(?:(?:['’]s|s['’]) (?P<owns>[a-z]+)| (?P<does>[a-z]+)|(?![\w'’]))"
)
