"""Who is aboard, as one answer says it: skipper, mate, 2 guests, children of 6 and 9; or a number alone."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.commissioning.answers import UNKNOWN, listed, refuse_unprintable
from generator.commissioning.meaning import no_person, none_meant
from generator.commissioning.refusal import Refusal
from generator.vessel.particulars import Particulars
from generator.vessel.people import MOST_OF_A_CHILD

PEOPLE = "people"
EXAMPLE = "skipper, mate, 10 guests, children of 6 and 9; or a number, 4"
_FIRST = ("skipper", "mate")
_REST = "guest"
_MOST = Particulars.persons.high
_NUMBERS = dict(
    zip(
        ["a", "an", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"],
        (1, 1, *range(1, 11)),
        strict=True,
    )
)
_BETWEEN = re.compile(r"(?i)\s*(?:[;+&]|\band\b|\bplus\b)\s*")
_AGE = r"[0-9]{1,2}"
_OWN = rf"{_AGE}(?![0-9]|\s*[x×*.]|\s+(?!and\b|plus\b|years?\b)[^\W\d_])"  # not the number of those who are named next
_AGES = re.compile(
    r"(?i)(?P<before>(?:\(|\b(?:of|aged?|ages|children|kids|boys|girls)\b)\s*)"
    rf"(?P<ages>{_OWN}(?:\s*(?:,(?:\s*and\b)?|and\b|&)\s*{_OWN})+)"
)
_AGED = re.compile(
    rf"(?i)(?P<what>.*?\w)(?:[ ,]*(?:\(| of | aged | ages? )\s*| (?=[0-9]+/))(?P<ages>{_AGE}(?:/{_AGE})*)\)?"
    r"(?: years?(?: old)?)?"
)
_TIMES = re.compile(r"(?i)(?P<what>[^\W\d_].*?)\s*[x×*:]\s*(?P<number>[0-9]+)")
_CHILDREN = re.compile(r"(?i)\b(?:child|children|kids?|bab(?:y|ies)|infants?|toddlers?|boys?|girls?)\b")
_SEVERAL = {"children": "child", "people": "person", "crew": "crew"}


@dataclass(frozen=True)
class Group:
    """Those whom one word of the answer names: `roles` of one name each, what they are called `together`, and their ages, if told."""

    roles: tuple[str, ...]
    together: str = ""
    ages: tuple[int, ...] = ()

    @property
    def of_children(self) -> bool:
        """Whether it names children, and their ages are not told."""
        return not self.ages and bool(_CHILDREN.search(self.roles[0]))

    @property
    def words(self) -> str:
        """The same in one line, as an answer says it."""
        who = self.roles[0] if len(self.roles) == 1 else f"{len(self.roles)} {self.together}"
        told = self.ages[:1] if len(set(self.ages)) == 1 else self.ages
        return f"{who} of {' and '.join(map(str, told))}" if told else who


@dataclass(frozen=True)
class Line:
    """A line of the file's people: a role, how many have it, and the ages of the children among them, as the file has them."""

    role: str
    quantity: int = 1
    ages: tuple[int, ...] = ()

    @property
    def age(self) -> str:
        """What stands under age: one for all who are of one age; "" where none is told."""
        told = self.ages[:1] if len(set(self.ages)) == 1 else self.ages
        return "" if not told else str(told[0]) if len(told) == 1 else f"[{', '.join(map(str, told))}]"


def roles(text: str) -> tuple[str, ...]:
    """The roles that an answer names, each once; none where it leaves them open. Raises Refusal."""
    return tuple(role for group in groups(text) for role in group.roles)


def ask_ages(text: str) -> None:
    """Raises Refusal where an answer names children and not how old they are."""
    for group in groups(text):
        if group.of_children:
            raise Refusal(how_old(group))


def how_old(group: Group) -> str:
    """That the ages of children are asked for, as whoever named them writes it."""
    number = len(group.roles)
    like = "child of 6" if number == 1 else f"{number} children of {_and_so_on(number)}"
    return (
        f"{PEOPLE}: how old is '{group.words}'? Lifejackets and helpers follow from it; "
        f"write the age with it, like {like} (a child under 1 is of 0)"
    )


def _and_so_on(number: int) -> str:
    *before, last = map(str, range(6, 6 + number))
    return f"{', '.join(before)} and {last}"


def in_one_line(text: str) -> str:
    """The same answer, a number alone put into words. Raises Refusal."""
    return ", ".join(group.words for group in groups(text))


def lines(those: Sequence[Group], busy: Collection[str]) -> list[Line]:
    """The file's people: a line for each who has a duty or of whom more is said; one line for the others of a group, who are alike."""
    own = {role for group in those for role in group.roles if len(group.roles) == 1 or role in busy}
    found: list[Line] = []
    for group in those:
        age = dict(zip(group.roles, group.ages, strict=False))
        idle = [role for role in group.roles if role not in own]
        whole = len(idle) == len(group.roles)
        called = group.together if whole and group.together not in own else f"other {group.together}"
        grown = [role for role in idle if age.get(role, 0) > MOST_OF_A_CHILD]
        alike = len(idle) > 1 and called not in own and len(grown) in (0, len(idle))
        for role in group.roles:
            if role not in idle or not alike:
                found.append(Line(role, ages=_of_a_child(age, [role])))
            elif role == idle[0]:
                found.append(Line(called, len(idle), _of_a_child(age, idle)))
    return found


def _of_a_child(age: Mapping[str, int], of: Iterable[str]) -> tuple[int, ...]:
    return tuple(age[role] for role in of if age.get(role, MOST_OF_A_CHILD + 1) <= MOST_OF_A_CHILD)


def groups(text: str) -> list[Group]:
    """Whom an answer names, word by word; none where it leaves them open. Raises Refusal."""
    text = text.strip()
    if text.lower() in ("", UNKNOWN):
        return []
    refuse_unprintable(PEOPLE, text)
    if none_meant(text, "people", "persons"):
        raise Refusal(f"{PEOPLE}: somebody sails her; write roles, {EXAMPLE}")
    if re.fullmatch("[0-9]+", text) or text.lower() in _NUMBERS:
        return _of_a_number(int(_NUMBERS.get(text.lower(), text)))
    text = _AGES.sub(lambda run: run["before"] + "/".join(re.findall("[0-9]+", run["ages"])), text)
    found = [_of_a_word(word) for part in listed(text) for word in filter(None, _BETWEEN.split(part))]
    names = [role for group in found for role in group.roles]
    if not 0 < len(names) <= _MOST:
        raise Refusal(f"{PEOPLE}: write 1 to {_MOST} roles, {EXAMPLE}")
    found = _numbered(found)
    names = [role for group in found for role in group.roles]
    twice = next((role for role in names if names.count(role) > 1), "")
    if twice:
        raise Refusal(f"{PEOPLE}: two are called '{twice}'; write 2 {twice}s, or give each a name of its own")
    return found


def _numbered(found: Sequence[Group]) -> list[Group]:
    """Those of one name whose ages are told are told apart by a number."""
    named = [group.roles[0] for group in found if group.ages and len(group.roles) == 1]
    count: dict[str, int] = {}
    made = []
    for group in found:
        role = group.roles[0]
        if group.ages and len(group.roles) == 1 and named.count(role) > 1:
            count[role] = count.get(role, 0) + 1
            made.append(Group((f"{role} {count[role]}",), "", group.ages))
        else:
            made.append(group)
    return made


def _of_a_number(persons: int) -> list[Group]:
    if not 1 <= persons <= _MOST:
        raise Refusal(f"{PEOPLE}: {persons} is outside what can be: 1 to {_MOST}; write roles, {EXAMPLE}")
    first, rest = [Group((role,)) for role in _FIRST[:persons]], persons - len(_FIRST)
    return [*first, _several(_REST, f"{_REST}s", rest)] if rest > 0 else first


def _several(one: str, together: str, number: int, ages: tuple[int, ...] = ()) -> Group:
    """As many of a kind, each of a name of its own."""
    if number == 1:
        return Group((one,), together, ages)
    return Group(tuple(f"{one} {each}" for each in range(1, number + 1)), together, ages)


def _of_a_word(word: str) -> Group:
    """One role, or as many of a kind as stand before the word or have ages behind it: 2 guests, a child of 6, children of 6 and 9."""
    if times := _TIMES.fullmatch(word):
        word = f"{times['number']} {times['what']}"
    aged = _AGED.fullmatch(word)
    ages = tuple(map(int, aged["ages"].split("/"))) if aged else ()
    said = " ".join((aged["what"] if aged else word).split())
    first, _, rest = re.sub(r"(?<=[0-9])\s*[x×*]\s+", " ", said).partition(" ")
    number = int(first) if re.fullmatch("[0-9]+", first) else _NUMBERS.get(first.lower())
    if other := no_person(said) or (no_person(rest) if number is not None else ""):
        raise Refusal(f"{PEOPLE}: '{word}' is {other} and no role; write who is aboard, {EXAMPLE}")
    if number is None or not rest:
        if not re.match(r"[^\W\d_]", said) or re.search(r"[\[\]/]|(?i:^aged? [0-9])", said):
            raise Refusal(f"{PEOPLE}: '{word}' is no role; write words, {EXAMPLE}")
        if len(ages) < 2:
            return Group((said,), "", ages)
        number, rest = len(ages), said
    if not re.match(r"[^\W\d_]", rest):
        raise Refusal(f"{PEOPLE}: '{word}' is no role; write words, {EXAMPLE}")
    one = _SEVERAL.get(rest.lower(), rest.removesuffix("s")) if number > 1 else rest
    if not 1 <= number <= _MOST:
        raise Refusal(f"{PEOPLE}: {number} is outside what can be: 1 to {_MOST}; look at the figure again")
    if len(ages) > 1 and len(ages) != number:
        raise Refusal(
            f"{PEOPLE}: {number} {rest}, and {len(ages)} ages; write an age for each, or one for all"
        )
    return _several(one, rest, number, ages * number if len(ages) == 1 else ages)
