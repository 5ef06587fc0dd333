"""One thing, one name: what is named twice, otherwise than in the steps, or shown on no photo."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from pathlib import Path

from generator.machine.opening import Outside, is_below
from generator.machine.photos import SMALL_PX, Unreadable
from generator.reading.block import Block
from generator.reading.nearest import shortened
from generator.reading.values import Given
from generator.shelves.gear import Kind, kind_begun, kind_renamed, kinds_joined, named_as_asked
from generator.shelves.procedures import shelf
from generator.survey.registry import (
    COMMON_PRACTICE,
    FORM,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.confines import not_from_here
from generator.vessel.gear import Gear, gear_kind
from generator.vessel.installed import Battery
from generator.vessel.photographed import photo, photo_bounds, photo_path, photographed
from generator.vessel.vessel import Vessel

_LONG = 4
"""From how many signs on a serial number is one's own."""


@check("gear.duplicate-name", FORM, COMMON_PRACTICE)
def nothing_is_listed_twice(sight: Sight) -> Finds:
    """Nothing is listed twice in the same place.

    Why: one of the two is counted on and is not there.
    Remedy: write one line with the whole quantity, or say what tells them apart.
    """
    seen: dict[tuple[str, ...], Gear] = {}
    for item in sight.vessel.gear:
        name = (_small(item.what), _small(item.where), _small(item.side), _small(item.spot))
        if name in seen and item.known("what", "where"):
            yield at(
                item,
                "what",
                f"{item.what} is listed twice in the same place ({item.where or 'not told'})",
                item=str(item.what),
                also=(seen[name].place("what"),),
            )
        seen.setdefault(name, item)


@check("gear.other-name", FORM, COMMON_PRACTICE)
def things_have_the_names_that_steps_use(sight: Sight) -> Finds:
    """Gear that a step asks for has the name the step uses.

    Why: two names for one thing make people look for a second one, and what no name fits is in no step.
    Remedy: begin its name with the word the message proposes; your own word may follow after a comma.
    """
    gear = sight.vessel.gear
    odd = [item for item in gear if not named_as_asked(item.what)]
    if not odd:
        return
    aboard = {kind.name for item in gear if (kind := gear_kind(item)) and kind_renamed(item.what) is not kind}
    for item in odd:
        ours = kind_renamed(item.what)
        if ours is not None and ours.name not in aboard:
            yield _renamed(item, f"'{item.what}' is what steps call '{ours.name}'", ours.name)
        for other in kinds_joined(item.what):
            if other is not gear_kind(item) and other.name not in aboard:
                yield at(
                    item,
                    "what",
                    f"'{item.what}' names two things, and steps find the first alone",
                    item=str(item.what),
                    remedy=f"list the {other.name} in a line of its own",
                )
        yield from _of_no_kind(item, aboard)


def _small(said: Given) -> str:
    return str(said or "").lower()


def _of_no_kind(item: Gear, aboard: Collection[str]) -> Finds:
    """What may be a thing that steps ask for, and is none by its name."""
    kind, begun = gear_kind(item), kind_begun(item.what)
    if kind is not None and kind.written_as:
        names = " or ".join(kind.written_as)
        yield at(
            item,
            "what",
            f"no step finds '{item.what}': its name does not say which of them it is",
            item=str(item.what),
            remedy=f"begin its name with {names}, and write the rest behind a comma",
        )
    elif begun is not None and begun.name not in aboard and _is_asked_for(begun):
        yield _renamed(item, f"no step finds '{item.what}', though '{begun.name}' stands in it", begun.name)


def _is_asked_for(kind: Kind) -> bool:
    """Whether a step or a check asks for things of a kind."""
    return bool(kind.properties) or any(kind.name in step.gear for one in shelf() for step in one.steps)


def _renamed(item: Gear, message: str, name: str) -> Found:
    remedy = f'write what: "{name}, ..." and, if you like, your own word behind the comma'
    return at(item, "what", message, item=str(item.what), remedy=remedy)


@check("gear.same-name", FORM, COMMON_PRACTICE)
def two_things_have_two_names(sight: Sight) -> Finds:
    """No two rafts, radios, beacons, pumps, engines, banks of batteries or holes in the hull have the same name.

    Why: a step that names one of them sends people to the other.
    Remedy: tell them apart in their names: port hand pump, hand pump below.
    """
    vessel, radio = sight.vessel, sight.vessel.radio
    groups: tuple[Iterable[Block], ...] = (
        vessel.rafts,
        radio.sets if radio else (),
        radio.beacons if radio else (),
        vessel.pumps,
        vessel.through_hulls,
        vessel.engines,
        vessel.batteries,
    )
    for group in groups:
        seen: dict[str, Block] = {}
        for each in group:
            name = getattr(each, each.called)
            if isinstance(name, str) and name.lower() in seen and not _twins(each, seen[name.lower()]):
                yield at(
                    each,
                    each.called,
                    f"two are called '{name}'",
                    item=name,
                    also=(seen[name.lower()].place(each.called),),
                )
            elif isinstance(name, str):
                seen[name.lower()] = each


def _twins(one: Block, other: Block) -> bool:
    """Whether two banks of batteries are one bank in two halves: in one space, one to each side."""
    if not (isinstance(one, Battery) and isinstance(other, Battery) and one.where == other.where):
        return False
    return {one.side, other.side} == {"port", "starboard"}


@check("gear.photo-missing", TRUTH, COMMON_PRACTICE)
def photos_named_are_there(sight: Sight) -> Finds:
    """Every photo that is named lies beside the file and can be shown.

    Why: a page with a hole where the picture should be is read as a page with a fault.
    Remedy: lay the photo, as JPEG or PNG, into the vessel's folder, or correct its name; remove 'photo' if there is none.
    """
    for each in photographed(sight.vessel):
        try:
            photo(sight.vessel, each, SMALL_PX)
        except Outside:
            pass  # told by the check of that
        except Unreadable as error:
            yield at(
                each,
                "photo",
                f"the photo '{shortened(str(each.photo))}' cannot be shown: {error}",
                item=str(getattr(each, each.called or "where") or each.path),
            )


@check("gear.photo-outside", TRUTH, COMMON_PRACTICE, deferrable=False)
def photos_lie_with_the_boat(sight: Sight) -> Finds:
    """Every photo lies in the boat's own folder or, for sister ships, in that of their class file, links followed.

    Why: a path that leads elsewhere shows what was never meant for a manual, or another boat's gear.
    Remedy: lay a copy of the photo into the vessel's folder and write its path from there, such as photos/raft.jpg.
    """
    for each in photographed(sight.vessel):
        path, named = photo_path(sight.vessel, each), str(each.photo)
        if path is None or not (why := _leads_out(sight.vessel, path, named)):
            continue
        yield at(
            each,
            "photo",
            f"the photo '{shortened(named)}' {why}",
            item=str(getattr(each, each.called or "where") or each.path),
        )


def _leads_out(vessel: Vessel, path: Path, named: str) -> str:
    """Why a photo is not taken, in words; "" where it lies with the boat, or nowhere."""
    if why := not_from_here(named):
        return f"has a path that {why}"
    try:
        if is_below(path, photo_bounds(vessel)):
            return ""
    except OSError:
        return ""
    own = f"'{vessel.confines.shown}', the boat's own folder" if vessel.confines else "the boat's own folder"
    return f"lies outside {own}" + (", and outside that of her class file" if vessel.class_file else "")


@check("gear.kind-differs", FORM, COMMON_PRACTICE)
def gear_is_for_what_its_name_says(sight: Sight) -> Finds:
    """What gear is said to be for is what its name says.

    Why: a flare among the tools is drawn, counted and looked for among the tools.
    Remedy: leave 'kind' out, it follows from the name; or correct the name.
    """
    for item in sight.vessel.gear:
        kind = gear_kind(item)
        if (
            kind is not None
            and kind.purpose
            and isinstance(item.kind, str)
            and item.kind not in (kind.purpose, *kind.also_for)
        ):
            yield at(
                item,
                "kind",
                f"{item.what}: its name says {kind.purpose}, and kind says {item.kind}",
                item=str(item.what),
            )


@check("gear.same-serial", TRUTH, COMMON_PRACTICE)
def no_two_things_have_one_serial(sight: Sight) -> Finds:
    """No two things have the same serial number.

    Why: one thing is told twice and counted twice, or the dates of one of them are those of the other.
    Remedy: read both numbers again; take the line out that tells the same thing a second time.
    """
    seen: dict[str, Block] = {}
    for block, serial in sight.texts("serial"):
        number = re.sub(r"\W", "", serial).lower()
        if len(number) < _LONG or not any(letter.isdigit() for letter in number):
            continue
        first = seen.setdefault(number, block)
        if first is not block and type(first) is type(block):
            name = str(block.__dict__.get(type(block).called) or block.path)
            also = (first.place("serial"),)
            yield at(
                block, "serial", f"{name}: it has the serial number of another line", item=name, also=also
            )
