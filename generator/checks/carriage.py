"""Carriage: what the rule sets she is kept by ask for, and she has not, or the description does not show."""

from __future__ import annotations

from dataclasses import replace

from generator.manual.carriage import NOT_SAID, SHORT, named
from generator.reading.nearest import nearest
from generator.shelves.rulesets import rule_sets
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    NOTE,
    RECOMMENDATION,
    Found,
    all_checks,
    at,
    check,
)

_NEEDS = {
    "lights": "whether they have lights",
    "crotch-straps": "whether they have crotch straps",
    "with": "whether it has {}",
    "rating": "its rating in the system of {}",
    "twice-from": "",
    "dsc": "whether it makes a digital distress call",
    "power-from": "whether it sends with {}",
    "flow-from": "whether it pumps {}",
    "standard": "its standard",
    "pack": "its pack",
    "metres-from": "whether it is {} long",
}
_SOURCE = "the rule sets of templates/carriage; each row has its source"


@check("carriage.unknown-rule-set", DEFECT, "this program's rule sets", COMPOSITION)
def every_rule_set_is_on_the_shelf(sight):
    """Every rule set named is one the program has.

    Why: the manual would say that she is kept by rules against which nothing was compared.
    Remedy: write one of the names listed, with its category if it has any, or take the key out.
    """
    one = sight.vessel.vessel
    for text in _named(sight):
        if named(text)[0] is None:
            yield at(
                one,
                "rule-set",
                f"there is no rule set '{text}'",
                remedy=nearest(text.partition(" category ")[0], rule_sets()),
                item=text,
            )


@check("carriage.category", DEFECT, "this program's rule sets", COMPOSITION)
def every_category_is_one_of_the_set(sight):
    """A rule set that divides boats into categories is named with one of them; others with none.

    Why: how many flares are asked for hangs on it; without it those rows would be left out silently.
    Remedy: write the category behind the name, for example: UK small commercial category 2.
    """
    one = sight.vessel.vessel
    for text in _named(sight):
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


@check("carriage.lacking", DEFECT, _SOURCE, COMPOSITION)
def she_carries_what_her_rules_ask(sight):
    """She carries what the rule sets she is kept by ask for, in date to the end of the passage.

    Why: each row of those lists was written after people died for want of it. Rows whose source was not read itself only
    recommend.
    Remedy: bring it aboard and list it by the name the message gives; where it is aboard under another name, rename it.
    """
    yield from _short(sight, lambda row: not _is_water(row) and row.key != "grab-bags")


@check("grab-bag.short", RECOMMENDATION, _SOURCE, COMPOSITION)
def bag_and_raft_together_are_enough(sight):
    """Grab bag and raft pack together hold what the rule sets ask for.

    Why: in the raft nobody can fetch anything any more.
    Remedy: pack it into the grab bag and list it there; only of SOLAS packs it is known from the name what they hold, so ask
    the service station for the list of any other.
    """
    for each in _short(sight, lambda row: not _is_water(row) and row.key == "grab-bags"):
        yield replace(
            each, weight=RECOMMENDATION
        )  # rules of packs bind the raft's maker; the bag makes good what the pack lacks


@check(
    "grab-bag.only-in-the-raft",
    NOTE,
    "raft pack and grab bag counted together (offshore grab-bag advice, secondary)",
    COMPOSITION,
)
def nothing_lies_in_the_packed_raft_alone(sight):
    """Nothing that the rule sets ask for lies inside the packed raft alone.

    Why: nobody reaches it before the raft is inflated, nobody sees whether it is there, and it goes where the raft goes.
    Remedy: put some of it into the grab bag too; what stays in the raft only the service station can look at.
    """
    lost = [row for row in sight.manual.carriage if row.needs_the_raft]
    if lost:
        raft = next(thing.block for row in lost for thing in row.things if thing.in_raft)
        yield at(
            raft,
            "pack",
            f"only inside the packed raft: {', '.join(dict.fromkeys(row.rule.item for row in lost))}",
            item=str(raft.name),
        )


@check("water.short", RECOMMENDATION, _SOURCE, COMPOSITION)
def there_is_water_for_everybody(sight):
    """There is drinking water for everybody, apart from what is in the tanks.

    Why: tanks are lost with the boat, or run out into the bilge.
    Remedy: fill cans or pouches, list them with 'volume', the litres of all together.
    """
    yield from _short(sight, _is_water)


@check("carriage.not-said", RECOMMENDATION, _SOURCE, COMPOSITION)
def the_description_shows_what_is_asked(sight):
    """The description says of each thing what her rules ask of it.

    Why: whether the lifebuoy has a light, or the extinguisher the rating, decides whether it counts.
    Remedy: look at the thing and write what the message asks for.
    """
    for row in sight.manual.carriage:
        if row.state == NOT_SAID:
            thing = row.unsaid[0]
            needs = [
                _NEEDS[word].format(said if isinstance(said, str) else " and ".join(said))
                for word, said in row.rule.needs.items()
            ]
            wanted = ", ".join(filter(None, needs)) or "how many there are"
            yield Found(
                thing.block.place(),
                f"{_asked(row)}: counted {_count(row.aboard, row)}; of {thing.what} it is not said: {wanted}",
                item=row.rule.item,
            )


@check(
    "voyage.adult-lifejackets",
    DEFECT,
    "33 CFR 175.15; SOR/2010-91 s. 204(a) (a lifejacket of the right size for each)",
    COMPOSITION,
    deferrable=False,
)
def grown_ups_have_their_size(sight):
    """There is an adult's lifejacket for every grown-up on the voyage.

    Why: a child's jacket does not hold a grown-up's head above water.
    Remedy: bring lifejackets of the adult size aboard.
    """
    voyage, jackets = sight.vessel.voyage, sight.vessel.lifejackets
    counts = [each.quantity for each in jackets if each.size not in ("child", "infant")]
    if not voyage or not jackets or not all(isinstance(count, int) for count in counts):
        return
    adults = sum(not (isinstance(each.age, int) and each.age < 13) for each in voyage.persons)
    if adults > sum(counts):
        yield Found(
            voyage.key_place("persons"),
            f"grown-ups on the voyage: {adults}; lifejackets of the adult size: {sum(counts)}",
        )


@check("gear.ratings-mixed", RECOMMENDATION, COMMON_PRACTICE)
def extinguishers_are_rated_in_one_system(sight):
    """Portable extinguishers carry ratings of one system.

    Why: 13A/113B and 5-B are measured on different fires; neither can be turned into the other, so they cannot be added up.
    Remedy: write the ratings as marked; where both are marked, write the one that her rule set uses.
    """
    rated = [
        item
        for item in sight.vessel.gear
        if isinstance(item.rating, str) and str(item.what).lower().startswith("fire extinguisher")
    ]
    first = next(iter(rated), None)
    for item in rated:
        if _american(item.rating) != _american(first.rating):
            yield at(
                item,
                "rating",
                f"{item.what}: {item.rating} is of another system than {first.rating} of {first.what}",
                item=str(item.what),
                also=(first.place("rating"),),
            )
            return


def _american(rating):
    return "-" in rating or ":" in rating


def _named(sight):
    one = sight.vessel.vessel
    return [str(text) for text in (one.rule_set or ())] if one else []


def _is_water(row):
    return "drinking water" in row.rule.counts


def _short(sight, concerns):
    for row in sight.manual.carriage:
        # Where only its date keeps a thing from counting, the finding about that date says it all.
        if row.state == SHORT and concerns(row) and not row.enough_with_past and not _told(row, sight):
            weight = DEFECT if row.rule.standing == "read" else RECOMMENDATION
            past = sum(each.amount for each in row.past)
            late = f", and {_count(past, row)} past the date, which count for nothing" if past else ""
            listed = (
                ""
                if row.rule.counts == (row.rule.item,)
                else f"; what counts is called: {', '.join(row.rule.counts)}"
            )
            yield Found(
                _place(row, sight.vessel),
                f"{_asked(row)}: {_there(row)} {_count(row.aboard, row)}{late}{listed}",
                item=row.rule.item,
                weight=weight,
            )


def _there(row):
    return "in grab bag and raft pack" if row.key == "grab-bags" else "aboard"


def _asked(row):
    standing = "" if row.rule.standing in row.rule.source else f"; {row.rule.standing}"
    return (
        f"{row.rule.item}: {row.rule_set} asks for {_count(row.required, row)} ({row.rule.source}{standing})"
    )


def _count(amount, row):
    return f"{amount:g}{f' {row.rule.unit}' if row.rule.unit else ''}"


def _place(row, vessel):
    return (
        row.things[0].block.place("quantity")
        if row.things and not row.things[0].in_raft
        else vessel.key_place(row.key)
    )


def _told(row, sight):
    """Whether one of the checks that the row names speaks of the same lack already."""
    checks = all_checks()
    return any(True for name in row.rule.told_by for _ in checks[name].find(sight))
