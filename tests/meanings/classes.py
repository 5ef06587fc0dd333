"""All classes of mutants, in the order in which they are asked: the first whose rule holds counts."""

from meanings import rules_of_people, rules_of_places, rules_of_the_rest
from meanings.rules import RULES, Rule, rule_of

FAMILIES_OF_RULES = (rules_of_people, rules_of_places, rules_of_the_rest)
"""They register their rules where they are imported."""
__all__ = ["FAMILIES_OF_RULES", "RULES", "Rule", "rule_of"]
