"""Carriage: what the rule sets she is kept by ask for, and she has not, or the description does not show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.aboard import not_said
from generator.manual.carriage import NOT_SAID
from generator.reading.nearest import nearest
from generator.shelves.rulesets import name_and_category, named, rule_sets
from generator.survey.registry import (
    ADVICE,
    COMPOSITION,
    RULE,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.survey.shortfalls import SOURCE, asked, counted, shortfalls

if TYPE_CHECKING:
    from generator.vessel.particulars import Particulars

_NEEDS = {
    "lights": ("whether they have lights", "lights"),
    "crotch-straps": ("whether they have crotch straps", "crotch-straps"),
    "with": ("whether it has {}", "what"),
    "rating": ("its rating in the system of {}", "rating"),
    "dsc": ("whether it makes a digital distress call", "dsc"),
    "power-from": ("whether it sends with {}", "power-w"),
    "flow-from": ("whether it pumps {}", "flow"),
    "standard": ("its standard", "standard"),
    "pack": ("its pack", "pack"),
    "metres-from": ("whether it is {} long", "what"),
}
"""What a rule may ask of a thing: how that is said, and the key of the thing that answers it."""


@check("carriage.unknown-rule-set", RULE, "this program's rule sets", COMPOSITION)
def every_rule_set_is_on_the_shelf(sight: Sight) -> Finds:
    """Every rule set named is one the program has.

    Why: the manual would say that she is kept by rules against which nothing was compared.
    Remedy: write one of the names listed, with its category if it has any, or take the key out.
    """
    for one, text in _named(sight):
        if named(text)[0] is None:
            yield at(
                one,
                "rule-set",
                f"there is no rule set '{text}'",
                remedy=nearest(name_and_category(text)[0], rule_sets()),
                item=text,
            )


@check("carriage.category", RULE, "this program's rule sets", COMPOSITION)
def every_category_is_one_of_the_set(sight: Sight) -> Finds:
    """A rule set that divides boats into categories is named with one of them; others with none.

    Why: how many flares are asked for hangs on it; without it those rows would be left out silently.
    Remedy: write the category behind the name, for example: UK small commercial category 2.
    """
    for one, text in _named(sight):
        found, category = named(text)
        if found is None or category in (found.categories or ("",)):
            continue
        said = (
            f"'{text}' names no category of {found.name}"
            if found.categories
            else f"{found.name} has no categories"
        )
        wanted = (
            f"write one of: {', '.join(f'{found.name} category {each}' for each in found.categories)}"
            if found.categories
            else f"write {found.name}"
        )
        yield at(one, "rule-set", said, remedy=wanted, item=text)


@check("carriage.lacking", RULE, SOURCE, COMPOSITION)
def she_carries_what_her_rules_ask(sight: Sight) -> Finds:
    """She carries what the rule sets she is kept by ask for, in date to the end of the passage.

    Why: each row of those lists was written after people died for want of it. Rows whose source was not read itself only
    recommend.
    Remedy: bring it aboard and list it by the name the message gives; where it is aboard under another name, rename it.
    """
    yield from shortfalls(sight, lambda row: not row.drinking_water and row.key != "grab-bags")


@check("carriage.not-said", ADVICE, SOURCE, COMPOSITION)
def the_description_shows_what_is_asked(sight: Sight) -> Finds:
    """The description says of each thing what her rules ask of it.

    Why: whether the lifebuoy has a light, or the extinguisher the rating, decides whether it counts.
    Remedy: look at the thing and write the key that the finding names.
    """
    for row in sight.manual.carriage:
        if row.state == NOT_SAID:
            thing = row.unsaid[0]
            open_ = not_said(thing.block, thing.what, row.rule.needs)
            said = dict(row.rule.needs.said()) if row.rule.needs else {}
            wanted = ", ".join(_NEEDS[key][0].format(said.get(key, "")) for key in open_)
            keys = dict.fromkeys(_NEEDS[key][1] for key in open_) or {"quantity": None}
            yield Found(
                thing.block.place(),
                f"{asked(row)}: counted {counted(row.aboard, row)}; of {thing.what} it is not said: "
                f"{wanted or 'how many there are'}",
                f"look at the thing and write it there: {', '.join(keys)}"
                + (f" (as in '{thing.what} with …')" if "with" in open_ else ""),
                item=row.rule.item,
            )


def _named(sight: Sight) -> list[tuple[Particulars, str]]:
    one = sight.vessel.vessel
    return [(one, text) for text in one.rule_set] if one else []
