"""A role called otherwise than before: the bill, the parties and the jackets still name whom nobody aboard is called."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from generator.manual.own_words import APART
from generator.reading.slips import slip_of
from generator.survey.held import ROLES
from generator.survey.registry import COMMON_PRACTICE, TRUTH, Finds, Found, Sight, check
from generator.vessel.people import Assignment

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from generator.reading.block import Block
    from generator.vessel.people import Person

LEAST = 3
"""In how many places a name must stand to be a role that was once aboard, and no slip of the pen."""


@check("changed.role-renamed", TRUTH, COMMON_PRACTICE)
def a_role_is_called_the_same_everywhere(sight: Sight) -> Finds:
    """A role that three places or more name is one of the people aboard.

    Why: half of the file is of the crew before: whoever reads the bill waits for a deckhand whom nobody aboard is called.
    Remedy: write one name for the role in all those places; where the person has left, give the duties to those aboard.
    """
    people = {str(person.role): person for person in sight.vessel.people if person.role}
    if not people:
        return
    naming = [(block, keys) for block in sight.blocks if (keys := _of_roles(type(block)))]
    if all(who in people for block, keys in naming for who in _told_in(block, keys)):
        return
    named: defaultdict[str, list[tuple[Block, str]]] = defaultdict(list)
    for block, keys in naming:
        for who, key in _named_in(block, keys):
            named[who].append((block, key))
    for who, found in named.items():
        on_the_bill = any(isinstance(block, Assignment) for block, _ in found)
        if who in people or len(found) < LEAST or not on_the_bill:
            continue
        new = _unnamed(people, named)
        if any(slip_of(role, (who,)) for role in people if role not in named):
            continue  # told as another spelling
        places = tuple(dict.fromkeys(block.place(key) for block, key in found))
        yield Found(
            new.place("role") if new is not None else places[0],
            f"'{who}' is no role aboard, and {len(found)} places name it"
            + (f"; '{new.role}' is one, and no place names it" if new is not None else ""),
            f"write role: {who} here, or '{new.role}' in those places" if new is not None else "",
            who,
            None,
            places,
            explains=frozenset(places),
        )


def _told_in(block: Block, keys: tuple[tuple[str, str], ...]) -> list[str]:
    """Whoever a block names."""
    values, found = block.__dict__, list[str]()
    for _, name in keys:
        value = values.get(name)
        if isinstance(value, str):
            found.append(str(value))
        elif isinstance(value, (tuple, list)):
            found += map(str, value)
    return found


def _named_in(block: Block, keys: tuple[tuple[str, str], ...]) -> Iterator[tuple[str, str]]:
    """The roles that a block names, each with its key; of a list each once."""
    for key, name in keys:
        value = block.__dict__.get(name)
        told = (value,) if isinstance(value, str) else value if isinstance(value, (tuple, list)) else ()
        for who in dict.fromkeys(map(str, told)):
            yield who, key


_OF_ROLES: dict[type[Block], tuple[tuple[str, str], ...]] = {}


def _of_roles(kind: type[Block]) -> tuple[tuple[str, str], ...]:
    """The keys of a kind of block that name roles, and their attributes; none of what stands apart."""
    if kind not in _OF_ROLES:
        fields = kind.fields if not issubclass(kind, APART) else {}
        _OF_ROLES[kind] = tuple((key, field.name) for key, field in fields.items() if key in ROLES)
    return _OF_ROLES[kind]


def _unnamed(people: dict[str, Person], named: Mapping[str, Sequence[tuple[Block, str]]]) -> Person | None:
    """The one of the people who can do something, and whom no place names; None where there are none or several."""
    idle = [person for role, person in people.items() if role not in named and person.abilities]
    return idle[0] if len(idle) == 1 else None
