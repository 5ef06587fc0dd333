"""templates/text/README.md: what a language consists of, how to add one, and how much each has."""

from __future__ import annotations

from pathlib import Path

from documents.markdown import page, table
from generator.shelves.folder import templates_folder
from generator.shelves.languages import Catalogue, catalogue, differences, languages
from generator.shelves.words import FIRST_LANGUAGE

HERE = Path(__file__).resolve().parents[2] / "templates" / "text"

INTRODUCTION = """\
Every word of a manual that is not the boat's own stands here, one folder a language. `labels.yaml` holds the labels by the key under which
templates ask for them; `choices.yaml` the words that a vessel file offers, by its keys; `spaces.yaml` the names of the presets' spaces;
`lives.yaml` how dates and lives are named; `rule-sets.yaml` what rule sets ask for, their notes and lengths; `procedures/` the words of the
steps, by the ids of [`templates/procedures/`](../procedures/README.md) (`do`, and where they are needed `unless`, `caution`, `why`); `pages/`
the standing text, in Markdown; `spelling.yaml` the spelling alphabet; `trade.yaml` what the
[words of the trade](../words/README.md) mean. `{slots}` are filled in by the program and keep their names in every
language: each text has just the slots that are filled where it is printed. The first language's files tally their own lines, so that none
is lost unnoticed. No text, page or source is blank, nor one of the words that say nothing (unknown, tbd, yes, …) but for the labels of these
words. Words are looked up by the names of their files, so no two files below `procedures/` share one.

One thing that is printed stands here in no language: beside a deferred defect the book and the site quote what the survey said of it, and
the survey speaks English. Both mark the quotation as English for whoever reads it aloud.

A language is added by its folder alone: copy `en/` to the language's code, leave out each `tally`, translate, keep the `{slots}`. Any command
with `--language CODE` first names every text that is missing, too much or has other slots, and ends with exit code 2 while there is one. The font must cover its letters: `pytest tests/test_fonts.py`.
A step is one sentence that begins with the act or its condition, at most 20 words with the boat's own in it; no wording is made safer or bolder
than its source."""


def document() -> str:
    """The whole page."""
    rows = [_row(code) for code in languages()]
    return page(
        "Texts",
        "the languages beside it",
        INTRODUCTION,
        table(
            ("language", "labels", "steps with words", "pages", f"wanting against `{FIRST_LANGUAGE}`"), rows
        ),
    )


def _row(code: str) -> tuple[str, ...]:
    words = Catalogue(code, templates_folder())
    wanting = len(list(differences(catalogue(), words)))
    steps = sum(len(one.steps) for one in words.procedures.values())
    pages = len(list((HERE / code / "pages").glob("*.md")))
    return (
        f"`{code}`",
        str(len(words.labels)),
        str(steps),
        str(pages),
        str(wanting) if wanting else "nothing",
    )
