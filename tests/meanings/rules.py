"""Which mutants are harmless, and of which class the others are that nobody noticed: each by a rule with its reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from generator.survey.registry import Sight
from meanings.mutant import Mutant
from meanings.things import Thing


@dataclass(frozen=True)
class Rule:
    """A class of mutants: `why` says why nobody would be hurt, or what a surveyor would want caught, and `life` whether one hangs on it."""

    name: str
    harmless: bool
    why: str
    holds: Callable[[Mutant, Sight, list[Thing]], bool] = field(repr=False)
    life: bool = False
    unknowable: bool = False
    """Whether somebody could be hurt and nothing in the file tells: counted apart, neither harmless nor missed."""


RULES: list[Rule] = []
Held = Callable[[Mutant, Sight, list[Thing]], bool]


def rule(
    name: str, *, harmless: bool = False, life: bool = False, unknowable: bool = False
) -> Callable[[Held], Held]:
    """Registers a rule; its docstring is the reason."""

    def register(holds: Held) -> Held:
        RULES.append(Rule(name, harmless, " ".join((holds.__doc__ or "").split()), holds, life, unknowable))
        return holds

    return register


def rule_of(mutant: Mutant, sight: Sight, there: list[Thing]) -> Rule | None:
    """The first rule that holds for a mutant; of a swap that of the half which could hurt somebody, where one could."""
    if mutant.parts:
        halves = [rule_of(each, sight, there) for each in mutant.parts]
        return next((each for each in halves if each is None or not each.harmless), halves[0])
    return next((each for each in RULES if each.holds(mutant, sight, there)), None)
