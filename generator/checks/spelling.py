"""Names: what is named in many places is spelt there as where it is described."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, TypeAlias

from generator.manual.drawing.spaces import find_space
from generator.reading.nearest import folded
from generator.reading.slips import slip_of
from generator.reading.values import untold
from generator.shelves.spaces import hull, hull_types
from generator.survey.held import ROLES, SPACES
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, TRUTH, Finds, Found, Sight, check

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping

    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.vessel.deck import Space

FEW = 2
"""So many places that name nothing may each have a slip of their own; from one more on they have a cause in common."""


@check("spelling.role", TRUTH, COMMON_PRACTICE, COMPOSITION, deferrable=False)
def a_role_is_spelt_alike_everywhere(sight: Sight) -> Finds:
    """A role is spelt under 'people' as wherever it is named.

    Why: everything given to a role of another spelling is nobody's.
    Remedy: write the role under 'people' as the other places have it.
    """
    said = _said(sight, ROLES)
    for person in sight.vessel.people:
        if not untold(person.role):
            yield from _another_spelling("role", str(person.role), person.place("role"), said, sight.roles)


@check("spelling.space", TRUTH, COMMON_PRACTICE, COMPOSITION, deferrable=False)
def a_space_is_spelt_alike_everywhere(sight: Sight) -> Finds:
    """A space of her own is spelt under 'deck' as wherever it is named.

    Why: people look for a place by the name they read.
    Remedy: write the name under 'deck' as the other places have it.
    """
    deck, spaces = sight.vessel.deck, sight.spaces
    said = _said(sight, SPACES) if deck and deck.spaces else {}
    known = [word for word in said if find_space(spaces, word)[0] is not None]
    for space in deck.spaces if deck else ():
        if not untold(space.name):
            yield from _another_spelling("name", str(space.name), space.place("name"), said, known)
            yield from _still_named(space, said, known)


@check("spelling.hull-type", TRUTH, COMMON_PRACTICE, COMPOSITION, deferrable=False)
def spaces_are_those_of_her_type(sight: Sight) -> Finds:
    """The places named are spaces of a boat of her type.

    Why: with another type every place would be drawn and searched where it is not.
    Remedy: write the type she is, or the names that the spaces of her type have.
    """
    one, spaces = sight.vessel.vessel, sight.spaces
    if one is None or untold(one.type):
        return
    taken = _taken_out(sight)
    lost = {
        word: places
        for word, places in _said(sight, SPACES).items()
        if find_space(spaces, word)[0] is None and _first(word) not in taken
    }
    number = sum(map(len, lost.values()))
    if number <= FEW:
        return
    theirs = {
        each: [word for word in lost if _first(word) in _names_of(each)]
        for each in hull_types()
        if each != one.type
    }
    meant = max(theirs, key=lambda each: sum(len(lost[word]) for word in theirs[each]))
    words = theirs[meant]
    told = sum(len(lost[word]) for word in words)
    if told > FEW and 2 * told > number:
        yield Found(
            one.place("type"),
            f"{told} places in her files are spaces of {_one(meant)} and none of {_one(str(one.type))}: {', '.join(words[:5])}"
            f"{' ...' if len(words) > 5 else ''}",
            f"write type: {meant}, or call these places as 'musterbook keys deck' has them for {_one(str(one.type))}",
            explains=frozenset(
                (one.place("type"), *(place for word in words for place in _places(lost[word])))
            ),
        )


def _one(kind: str) -> str:
    return f"a{'n' if kind[0] in 'aeiou' else ''} {kind}"


def _first(where: str) -> str:
    return folded(where.partition(",")[0])


def _names_of(hull_type: str) -> frozenset[str]:
    return frozenset(
        folded(name) for space in hull(hull_type).spaces for name in (str(space.name), *(space.also or ()))
    )


Said: TypeAlias = "Mapping[str, list[tuple[Block, str]]]"
"""Words, and the blocks and keys under which each stands."""


def _said(sight: Sight, keys: frozenset[str]) -> Said:
    """The words that stand under these keys anywhere in her files."""
    said: defaultdict[str, list[tuple[Block, str]]] = defaultdict(list)
    for block in sight.blocks:
        for key, name in _of_these(type(block), keys):
            value = block.__dict__.get(name)
            for word in (value,) if isinstance(value, str) else value if isinstance(value, tuple) else ():
                if isinstance(word, str):
                    said[word].append((block, key))
    return said


_OF_THESE: dict[tuple[type[Block], frozenset[str]], tuple[tuple[str, str], ...]] = {}


def _of_these(kind: type[Block], keys: frozenset[str]) -> tuple[tuple[str, str], ...]:
    """Those of the keys that a kind of block has, and their attributes."""
    if (kind, keys) not in _OF_THESE:
        _OF_THESE[kind, keys] = tuple((key, kind.fields[key].name) for key in kind.fields.keys() & keys)
    return _OF_THESE[kind, keys]


def _places(named: Iterable[tuple[Block, str]]) -> Iterator[Place]:
    return (block.place(key) for block, key in named)


def _still_named(space: Space, said: Said, known: Collection[str]) -> Iterator[Found]:
    """That several places name a space of the preset which one of her own stands in the place of."""
    if untold(space.replaces):
        return
    replaced, name = folded(str(space.replaces)), str(space.name)
    words = [word for word in said if _first(word) == replaced and word not in known]
    places = [place for word in words for place in _places(said[word])]
    if len(places) > FEW:
        yield Found(
            space.place("replaces"),
            f"{len(places)} places name '{space.replaces}', and '{name}' stands in its place on her plan",
            f"write {name} there; if she has both, leave 'replaces' out and write where the {name} is: aft and fore",
            name,
            explains=frozenset((space.place("replaces"), *places)),
        )


def _taken_out(sight: Sight) -> frozenset[str]:
    """The spaces of her type's preset that her own file replaces or leaves out."""
    deck = sight.vessel.deck
    if deck is None:
        return frozenset()
    named = (*(space.replaces for space in deck.spaces or ()), *(deck.without or ()))
    return frozenset(folded(str(each)) for each in named if not untold(each))


def _another_spelling(
    key: str, name: str, place: Place, said: Said, known: Collection[str]
) -> Iterator[Found]:
    """That a name which nothing names is, but for a slip, one that several places name and nothing has."""
    if name in said:
        return
    other = slip_of(name, [word for word in said if word not in known])
    if other and len(said[other]) >= FEW:
        yield Found(
            place,
            f"'{name}' is named nowhere else, and {len(said[other])} places name '{other}', which there is not",
            f"write {key}: {other}",
            name,
            explains=frozenset((place, *_places(said[other]))),
        )
