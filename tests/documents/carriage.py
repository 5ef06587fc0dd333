"""templates/carriage/README.md: the rule sets, and how a row is written."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves import rulesets
from generator.shelves.countables import countables
from generator.shelves.languages import catalogue

INTRODUCTION = """\
What must be aboard, as data. A boat's `rule-set` names the list or lists she is kept by, each with its category where it has any:
`[good practice, UK small commercial category 2]`. The survey compares each row with what is aboard; the book prints required, aboard,
where, good until. What is past its date by the end of the passage never counts, nor do flares packed in the raft; an extinguisher's rating
is never converted from one system to another. A row read in the rule itself makes a defect; one quoted, at second hand, common practice
or from memory only recommends. Nobody's certificate: compare with the rule's own text."""


def document() -> str:
    """The whole page."""
    return page(
        "Rule sets",
        "the rule sets beside it",
        INTRODUCTION,
        sets_table(),
        "## A row",
        "`item` is what is printed, `counts` the names whose amounts are added up, `quantity` how many, `when` for which boats, `needs` what "
        "must hold of the things themselves, `within` where they count, `or` what does instead, `told-by` the checks that speak of the same lack; "
        "`source`, `edition` and `standing` say who asks for it and how far that was read. A key, a word or a name that "
        "nothing has is refused with its place in the file and the nearest there is.",
        "Rows count things of the gear list, and of what is packed, by the names of the [kinds of gear](../gear/README.md).",
        "Besides, what other blocks of the file hold:",
        table(
            ("counted", "from the block"),
            [(name, f"`{each.key}`") for name, each in countables().items()],
        ),
    )


def sets_table() -> str:
    """The rule sets: name, categories, edition, day of comparison, rows by standing, file."""
    rows = []
    for one in rulesets.rule_sets().values():
        counted = "; ".join(
            f"{sum(row.standing == each for row in one.rows)} {each}" for each in one.standings
        )
        rows.append(
            (
                f"`{one.name}`",
                ", ".join(one.categories) or "-",
                one.edition,
                str(one.checked_on),
                catalogue().say(f"rule-sets.lengths.{one.length_means}"),
                counted,
            )
        )
    return table(
        (
            "`rule-set`",
            "categories",
            "edition",
            "compared on",
            "length is",
            "rows, by how far they were verified",
        ),
        rows,
    )
