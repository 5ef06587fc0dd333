"""How long things last: what has outlived its usual life, what has no date to tell by, and what the scales say."""

from __future__ import annotations

from generator.checks.passed import deadlines, span
from generator.manual.deadlines import USUAL_CHECK, things_of
from generator.survey.registry import DEFECT, RECOMMENDATION, Found, at, check


@check(
    "dates.life",
    RECOMMENDATION,
    "templates/lives/lives.yaml, where each life stands with its source and standing",
)
def nothing_has_outlived_its_usual_life(sight):
    """Nothing has outlived what is usual for its kind.

    Why: webbing, hoses, batteries and alarms fail with age, and nothing on them says so.
    Remedy: renew it, have it tested, or write under its 'lives' what its own maker says and where.
    """
    for each in deadlines(sight.vessel):
        if each.check != USUAL_CHECK or each.last_day >= sight.until:
            continue
        ended = (
            f"ended on {each.last_day}, {span(each.last_day, sight.as_of)} ago"
            if each.last_day < sight.as_of
            else f"ends on {each.last_day}, before {sight.until}"
        )
        yield Found(
            each.place,
            f"{each.item}: its {each.what} {ended} ({each.governs}, {each.stamp}; {each.source})",
            item=each.item,
        )


@check("dates.missing", RECOMMENDATION, "templates/lives/lives.yaml, where each need stands with its source")
def what_ages_has_a_date(sight):
    """What ages has a date to tell its age by.

    Why: without one nobody notices when it is over, and on the day it is needed it fails.
    Remedy: read the date on the thing or its papers and write the key the message names; with none to be found, renew the thing.
    """
    for thing in things_of(sight.vessel):
        for line in thing.kind.lines:
            if line.needs and all(
                thing.block.__dict__.get(key.replace("-", "_")) is None for key in line.needs.one_of
            ):
                keys = " nor ".join(f"'{key}'" for key in line.needs.one_of)
                neither = f"neither {keys} is given" if len(line.needs.one_of) > 1 else f"{keys} is not given"
                about = f" ({line.what})" if line.what else ""
                yield at(
                    thing.block,
                    type(thing.block).called,
                    f"{thing.name}{about}: {neither} ({line.needs.source})",
                    item=thing.name,
                )


@check(
    "gear.cylinder-light",
    DEFECT,
    "lifeboat institution's advice: no tolerance below the stamped gross weight (secondary)",
)
def cylinders_weigh_what_is_stamped_on_them(sight):
    """No lifejacket cylinder weighs less than the gross weight stamped on it.

    Why: one that is lighter has leaked, and the jacket fills by half or not at all.
    Remedy: screw in a new cylinder of the same type, weigh it, and write both weights.
    """
    for each in sight.vessel.lifejackets:
        if each.known("cylinder_mass", "cylinder_minimum") and each.cylinder_mass < each.cylinder_minimum:
            yield at(
                each,
                "cylinder-mass",
                f"{each.size} lifejackets: a cylinder weighs {each.cylinder_mass}, less than the "
                f"{each.cylinder_minimum} stamped on it",
                item=f"{each.size} lifejackets",
            )
