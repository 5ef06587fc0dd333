"""Rules for dates, numbers, entries and answers."""

from __future__ import annotations

from generator.shelves.gear import kind_of
from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.rules import rule
from meanings.things import Thing


@rule("a date too far ahead for its kind", life=True)
def too_far(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten years later than marked: flares, heads, batteries, services, hoses that no maker dates so far, with no making date beside."""
    return mutant.operator == "date by ten years"


@rule("two days of one sort, in no order to each other", harmless=True)
def same_sort(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Both are days on which something was done, or both days on which something ends; either may come first, and either is as likely."""
    return mutant.operator == "dates swapped"


@rule("a number of things beyond what a boat has")
def too_many_things(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Ten times the number hides a shortage: forty flares, ten buoys, sixty jackets for five."""
    return mutant.operator in ("tenfold", "a tenth") and mutant.key == "quantity"


@rule("a measure out of proportion to others of the boat")
def out_of_proportion(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Feet for metres, pounds for kilogrammes, a decimal point: a hole as deep as the keel, a mast of 2 m, fuel for an ocean."""
    return mutant.operator in (
        "tenfold",
        "a tenth",
        "feet as metres",
        "metres as feet",
        "pounds as kilogrammes",
        "kilogrammes as pounds",
    )


@rule("a line stands twice, word for word", life=True)
def twice(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What is counted twice hides a shortage of as many."""
    return mutant.operator == "doubled"


@rule("the only thing of its kind is gone, and something relied on it", life=True)
def gone(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """The last one of a kind that a step, another entry or common practice asks for is not in the file any more."""
    if mutant.operator != "removed":
        return False
    if mutant.block in ("gear", "grab-bags"):
        kind = kind_of(mutant.thing.name)
        return kind is not None and not any(
            each is not mutant.thing
            and each.top == mutant.block
            and (other := kind_of(each.name)) is not None
            and other.name == kind.name
            for each in there
        )
    return not any(
        each is not mutant.thing and each.kind is mutant.thing.kind and each.name == mutant.thing.name
        for each in there
    )


@rule("another of its kind remains", harmless=True)
def another_remains(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """A boat with one less of several, or without a thing that nobody asks of her, is as it says: nothing else counts on it."""
    return mutant.operator == "removed"


@rule("a line of another boat that fits her", harmless=True)
def copied_fits(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """It names no place, person, number or raft that she has not: it is as likely hers."""
    return mutant.operator == "line copied"


@rule("under which heading it is listed", harmless=True)
def heading(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """What such a thing is for, its name does not say; the answer only groups the list."""
    if mutant.operator != "answer" or (mutant.block, mutant.key) != ("gear", "kind"):
        return False
    kind = kind_of(mutant.thing.name)
    return kind is None or not kind.purpose


@rule("a half-made change of the boat", life=True)
def half_made(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Engine, rig, type, flag, raft, persons, waters, use or climate changed and nothing that hangs on it."""
    return mutant.operator in ("half-made change", "block removed", "the other raft's", "rafts swapped")


@rule("an answer turned round that something else contradicts")
def turned(mutant: Mutant, sight: Sight, there: list[Thing]) -> bool:
    """Yes for no, another kind: what else the file says of the same thing no longer fits, or it is worse and nobody is told."""
    return mutant.operator == "answer"
