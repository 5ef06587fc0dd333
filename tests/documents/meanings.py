"""tests/meanings/README.md: what the fault factory of meanings makes, what the survey notices of it, and why the rest is no harm or still open."""

from __future__ import annotations

from meanings.classes import RULES
from meanings.figures import Figures, Tally, kept
from meanings.sound import KINDS, plans

from documents.markdown import page, table

INTRODUCTION = """\
Operators change the meaning of the specimens' files, and of small boats': sides, persons, places, dates, rafts, roles, ages, numbers,
entries, answers, lines of other boats, people who stay ashore; two things change places or sides. A mutant is *noticed* if the survey says
something new at the changed thing or naming it, or that its file is silent now on a subject. One that describes a boat as sound as before is *harmless*: a rule says so, with its reason, never a list. One that could hurt somebody,
and of which no other line of the file tells, is *unknowable*: the same, counted apart; only the walk-round sees it. Whatever else nobody
notices is of a class that a surveyor would want caught.

A run of the tests looks at one mutant in sixty, always the same; all of them, and these figures:
`pytest tests/test_meanings.py --all-mutants --renew`, then `pytest tests/test_documented.py --renew`."""


def document() -> str:
    """The whole page."""
    figures = kept()
    whole = figures.whole
    return page(
        "The fault factory of meanings",
        "the rules beside it and the figures that were kept last",
        INTRODUCTION,
        f"**{_looked_at(figures)}: {whole.made:,} mutants, {whole.harmless:,} of them harmless by a rule, {whole.unknowable:,} unknowable; of the others {whole.share:.1%} are noticed.** The goal is 97 %.",
        "## By operator\n\n" + _tallies("operator", figures.operators),
        "## By block\n\n" + _tallies("block", figures.blocks),
        "## Not noticed, and a surveyor would want it caught",
        _classes(figures, harmless=False),
        "## Not noticed, and not to be known from the file",
        _classes(figures, harmless=False, unknowable=True),
        "## Not noticed, and nobody would be hurt",
        _classes(figures, harmless=True),
        _sound(),
    )


def _looked_at(figures: Figures) -> str:
    """How many of all these figures are of."""
    return "All were looked at" if figures.every == 1 else f"One in {figures.every} was looked at"


def _tallies(what: str, tallies: dict[str, Tally]) -> str:
    rows = sorted(tallies.items(), key=lambda each: (each[1].share, each[0]))
    return table(
        (what, "mutants", "harmless", "unknowable", "noticed of the others"),
        [
            (name, f"{one.made:,}", f"{one.harmless:,}", f"{one.unknowable:,}", f"{one.share:.0%}")
            for name, one in rows
        ],
    )


def _classes(figures: Figures, *, harmless: bool, unknowable: bool = False) -> str:
    told = [rule for rule in RULES if figures.classes.get(rule.name)]
    rules = [rule for rule in told if (rule.harmless, rule.unknowable) == (harmless, unknowable)]
    rows = sorted(rules, key=lambda rule: (not rule.life, -figures.classes[rule.name]))
    life = ("",) if harmless else ("a life may hang on it",)
    return table(
        ("class", "mutants", *filter(None, life), "why", "for example"),
        [
            (
                rule.name,
                f"{figures.classes[rule.name]:,}",
                *(() if harmless else ("yes" if rule.life else "no",)),
                rule.why,
                "; ".join(f"`{_shortened(each)}`" for each in figures.examples[rule.name][:2]),
            )
            for rule in rows
        ],
    )


def _shortened(example: str) -> str:
    """An example in one cell."""
    text = example.replace("`", "'")
    return text if len(text) <= 150 else f"{text[:147]}..."


def _sound() -> str:
    made = plans()
    types = ", ".join(dict.fromkeys(kind.type for kind in KINDS))
    return (
        f"## Boats that are sound\n\n`sound.py` makes {len(made)} boats, of {types}, with crews of {min(each.crew for each in made)} to "
        f"{max(each.crew for each in made)}, {min(each.rafts for each in made)} to {max(each.rafts for each in made)} rafts in every stowage, by "
        f"{len({each.rule_set for each in made})} rule sets, metric and imperial. `tests/test_sound_boats.py` holds that none has a defect, and none a "
        "recommendation but for what she truly lacks."
    )
