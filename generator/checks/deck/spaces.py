"""The deck: everything lies in a space she has, inside the hull, on the side it says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.drawing.likely import instead
from generator.manual.drawing.spaces import (
    dimensions_m,
    find_space,
    unknown_presets,
    unlocated_spaces,
)
from generator.reading.block import Block
from generator.reading.nearest import folded, nearest
from generator.reading.values import Quantity
from generator.shelves.gear import before_comma
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.survey.sight import once_composed
from generator.vessel.fittings import Berth, Located

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.findings import Place
    from generator.reading.values import Given
    from generator.vessel.deck import Space as OwnSpace

MOST_NAMED = 8  # so many places of one misnamed space are named in its line; the others stand beside it


def _names(sight: Sight) -> list[str]:
    return [space.name for space in sight.spaces.values()]


@dataclass(frozen=True)
class _Misnamed:
    """A place in the file that names a space she has not: under `key` of `block`, for `what`; `of`: the check that tells of such keys."""

    block: Block
    key: str
    where: str
    what: str
    of: str

    @property
    def place(self) -> Place:
        """Where it stands."""
        return self.block.place(self.key)


_GEAR, _PLACE = "deck.unknown-space", "deck.unknown-place"
_MUSTER, _WAY = "deck.muster-place", "deck.unknown-way"


def _told_by(sight: Sight, name: str) -> Finds:
    """What a check tells of spaces she has not: each name once, with all places where it stands, by the first check that it concerns."""
    for group in _groups(sight):
        first = group[0]
        if first.of != name:
            continue
        remedy = instead(first.where, list(sight.spaces.values()))
        if len(group) == 1:
            said = f"{first.what}: " if first.what else ""
            yield Found(
                first.place,
                f"{said}there is no space '{first.where}' on her plan",
                f"{remedy}; or, if she has it, describe it under 'deck'",
                first.what or first.where,
                about=first.block if name != _GEAR else None,
            )
            continue
        named = ", ".join(
            f"{before_comma(each.what or each.key.replace('-', ' '))} (line {each.place.line})"
            for each in group[:MOST_NAMED]
        )
        more = f" and {len(group) - MOST_NAMED} more" if len(group) > MOST_NAMED else ""
        yield Found(
            first.place,
            f"there is no space '{first.where}' on her plan, and {len(group)} places name it: {named}{more}",
            f"{remedy}; or, if she has it, describe it under 'deck'",
            first.where,
            also=tuple(each.place for each in group[1:]),
        )


@once_composed
def _groups(sight: Sight) -> list[list[_Misnamed]]:
    """The same by what the spaces are called."""
    groups: dict[str, list[_Misnamed]] = {}
    for each in _misnamed(sight):
        groups.setdefault(folded(each.where), []).append(each)
    return list(groups.values())


def _misnamed(sight: Sight) -> Iterator[_Misnamed]:
    """Every place that names a space she has not: gear first, then the rest, the muster place and the ways."""
    for item in sight.manual.plan.unknown_spaces:
        yield _Misnamed(item.block, "where", item.where, item.what, _GEAR)
    for block, key, where, what in _places_named(sight):
        if isinstance(where, str) and find_space(sight.spaces, where)[0] is None:
            yield _Misnamed(block, key, where, what, _PLACE)
    one = sight.vessel.vessel
    if one and isinstance(one.muster_place, str) and not sight.manual.plan.muster_drawn:
        yield _Misnamed(one, "muster-place", one.muster_place, "", _MUSTER)
    for way in sight.vessel.deck.ways or () if sight.vessel.deck else ():
        for key, where in (("from", way.from_), ("to", way.to)):
            if isinstance(where, str) and find_space(sight.spaces, where)[0] is None:
                yield _Misnamed(way, key, where, "", _WAY)


@check("deck.unknown-space", TRUTH, COMMON_PRACTICE, COMPOSITION)
def gear_lies_in_spaces_she_has(sight: Sight) -> Finds:
    """Everything lies in a space she has.

    Why: it cannot be drawn on the plan, and the reader looks for a place that has another name.
    Remedy: write the name of the space as it is called aboard, or describe the space under 'deck'.
    """
    yield from _told_by(sight, _GEAR)


@check("deck.unknown-place", TRUTH, COMMON_PRACTICE, COMPOSITION)
def places_named_are_spaces_she_has(sight: Sight) -> Finds:
    """Hatches, berths, engines, gas bottles, fittings, buoyancy, what alarms listen to and the place for hoisting are spaces she has.

    Why: words for one place that differ from page to page make people stop and think.
    Remedy: write the name the plan has, or describe the space under 'deck'.
    """
    yield from _told_by(sight, _PLACE)


def _places_named(sight: Sight) -> list[tuple[Block, str, Given, str]]:
    """Each place beside gear's that names a space: its block, its key, the name, and what it is the place of."""
    vessel = sight.vessel
    named: list[tuple[Block, str, Given, str]] = [
        *((hatch, "where", hatch.where, "the way out") for hatch in vessel.escape),
        *((engine, "where", engine.where, f"{engine.what}") for engine in vessel.engines),
        *(
            (person.berth, "where", person.berth.where, f"{person.role}")
            for person in vessel.people
            if person.berth
        ),
    ]
    if vessel.gas:
        named.append((vessel.gas, "bottles", vessel.gas.bottles, "gas bottles"))
    if vessel.recovery:
        named.append((vessel.recovery, "place", vessel.recovery.place_, "recovery"))
    named += [
        (each, "where", each.where, each.path.rpartition(".")[2].replace("-", " "))
        for each in sight.all_of(Located)
        if not isinstance(each, Berth)
    ]
    for alarm in vessel.alarms:
        heard = (("watches", alarm.watches), ("sounds-in", alarm.sounds_in))
        named += [
            (alarm, key, where, f"{alarm.what} alarm") for key, spaces_ in heard for where in spaces_ or ()
        ]
    if vessel.capsize:
        named += [(vessel.capsize, "buoyancy", where, "buoyancy") for where in vessel.capsize.buoyancy or ()]
    return named


@check("deck.outside-hull", TRUTH, COMMON_PRACTICE, COMPOSITION)
def points_lie_on_the_hull(sight: Sight) -> Finds:
    """Every point lies on the hull.

    Why: a point beside the boat comes from a wrong figure, and the reader looks in the wrong place.
    Remedy: measure again: 'aft' from the transom, 'off' from the centreline.
    """
    for item in sight.manual.plan.outside:
        yield Found(
            item.block.place("point"), f"{item.what}: its point lies outside the hull", item=item.what
        )


@check("deck.muster-place", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_muster_place_is_on_the_plan(sight: Sight) -> Finds:
    """The muster place is a space she has.

    Why: everybody must be able to see where it is.
    Remedy: write the name of one of her spaces.
    """
    yield from _told_by(sight, _MUSTER)


@check("deck.unknown-preset", TRUTH, COMMON_PRACTICE, COMPOSITION)
def spaces_replaced_are_of_the_preset(sight: Sight) -> Finds:
    """What 'deck' replaces or leaves out is a space of the preset.

    Why: a misspelt name leaves a space on the plan that she has not.
    Remedy: write the name as the preset of her hull type has it.
    """
    lost = set(unknown_presets(sight.vessel))
    deck = sight.vessel.deck
    if not deck:
        return
    for name in deck.without or ():
        if name in lost:
            yield at(
                deck,
                "without",
                f"the preset has no space '{name}'",
                remedy=nearest(name, _names(sight)),
                item=name,
            )
    for space in deck.spaces or ():
        if space.replaces in lost:
            yield at(
                space,
                "replaces",
                f"the preset has no space '{space.replaces}'",
                remedy=nearest(space.replaces, _names(sight)),
                item=str(space.name),
            )


@check("deck.unlocated-space", TRUTH, COMMON_PRACTICE, COMPOSITION)
def own_spaces_say_where_they_are(sight: Sight) -> Finds:
    """A space of her own says where it is.

    Why: it cannot be drawn.
    Remedy: write 'aft' and 'fore', or which space of the preset it 'replaces'.
    """
    for space in unlocated_spaces(sight.vessel):
        yield at(space, "name", f"nothing says where the space '{space.name}' lies", item=str(space.name))


@check("deck.unknown-way", TRUTH, COMMON_PRACTICE, COMPOSITION)
def ways_lead_between_spaces_she_has(sight: Sight) -> Finds:
    """Ways lead between spaces she has.

    Why: a way to nowhere is no way out.
    Remedy: write the names the plan has.
    """
    yield from _told_by(sight, _WAY)


SLACK_M = 0.3  # what a rail or a bathing platform reaches beyond the hull
SAME = 0.9  # part of the area of two spaces together that both cover


@check("deck.space-figures", TRUTH, COMMON_PRACTICE)
def spaces_lie_in_her(sight: Sight) -> Finds:
    """A space of her own lies inside the hull, its after end behind its forward end, its port edge to port of the other.

    Why: the plan draws it elsewhere, and distances to extinguisher, raft and way out are measured from there.
    Remedy: measure again, 'aft' and 'fore' from the transom, 'port' and 'starboard' from the centreline.
    """
    length, beam, hers = dimensions_m(sight.vessel)
    for own in sight.vessel.deck.spaces if sight.vessel.deck else ():
        name = str(own.name)
        for first, last, what in (("aft", "fore", "after end"), ("port", "starboard", "port edge")):
            low, high = getattr(own, first), getattr(own, last)
            if isinstance(low, Quantity) and isinstance(high, Quantity) and low >= high:
                yield at(
                    own,
                    first,
                    f"{name}: its {what} ({low}) does not lie before the other ({high})",
                    item=name,
                    also=(own.place(last),),
                )
                break
        else:
            for key, limit in (
                ("fore", length),
                ("aft", length),
                ("port", beam / 2),
                ("starboard", beam / 2),
            ):
                figure = getattr(own, key)
                if hers and isinstance(figure, Quantity) and abs(figure) > limit + SLACK_M:
                    said = f"{name}: '{key}' says {figure}, and she is {length:g} m long and {beam:g} m wide"
                    yield at(own, key, said, item=name)
                    break


@check("deck.same-area", TRUTH, COMMON_PRACTICE)
def no_space_lies_on_another(sight: Sight) -> Finds:
    """No two spaces with figures of their own lie one upon the other on the same level.

    Why: what is kept in the one is drawn in the other, and one of the two has the figures of another line.
    Remedy: measure both again, or write 'replaces' where one is another name of a usual space.
    """
    given = [each for each in sight.vessel.deck.spaces if _measured(each)] if sight.vessel.deck else []
    for number, own in enumerate(given):
        here = sight.spaces.get(folded(str(own.name)))
        for other in given[:number]:
            there = sight.spaces.get(folded(str(other.name)))
            if here is None or there is None or here is there or here.level != there.level:
                continue
            if _common(here, there) > SAME:
                yield at(
                    own,
                    "aft",
                    f"{own.name} and {other.name} are said to lie in the same place",
                    item=str(own.name),
                    also=(other.place("aft"),),
                )


def _measured(own: OwnSpace) -> bool:
    return isinstance(own.aft, Quantity) and isinstance(own.fore, Quantity)


def _common(one: Space, other: Space) -> float:
    """What part of two areas together both cover."""
    along = min(one.fore_m, other.fore_m) - max(one.aft_m, other.aft_m)
    across = min(one.starboard_m, other.starboard_m) - max(one.port_m, other.port_m)
    common = max(along, 0.0) * max(across, 0.0)
    areas = sum((each.fore_m - each.aft_m) * (each.starboard_m - each.port_m) for each in (one, other))
    return common / (areas - common) if areas > common else 0.0


@check("deck.point-elsewhere", TRUTH, COMMON_PRACTICE, COMPOSITION)
def points_lie_in_their_space(sight: Sight) -> Finds:
    """A measured point lies in or near the space that is named beside it.

    Why: the plan shows the thing in one place, and the words send the reader to another.
    Remedy: measure 'aft' from the transom and 'off' from the centreline again, or correct 'where'.
    """
    length, _, _ = dimensions_m(sight.vessel)
    for item in sight.manual.items:
        space = find_space(sight.spaces, item.where)[0] if item.where else None
        if space is None or item.aft_m is None or item in sight.manual.plan.outside:
            continue
        off = max(space.aft_m - item.aft_m, item.aft_m - space.fore_m)
        if off > (1.0 if space.own else max(1.5, 0.15 * length)):
            yield Found(
                item.block.place("point"),
                f"{item.what}: its point lies {off:.1f} m from the {space.name} along the boat",
                item=item.what,
                also=(item.block.place("where"),),
            )
