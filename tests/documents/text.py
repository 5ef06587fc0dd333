"""templates/text/README.md: what a language consists of, how to add one, and how much each has."""

from __future__ import annotations

from pathlib import Path

from documents.markdown import page, table
from generator.shelves.languages import FIRST_LANGUAGE, catalogue, languages, missing

HERE = Path(__file__).resolve().parents[2] / "templates" / "text"

INTRODUCTION = """\
Every word of a manual that is not the boat's own stands here, one folder a language. `labels.yaml` holds the labels by the part that prints
them; `procedures/` the words of the steps, by the ids of [`templates/procedures/`](../procedures/README.md) (`do`, and where they are needed
`unless`, `caution`, `why`); `pages/` the standing text, in Markdown; `spelling.yaml` the spelling alphabet. `{slots}` are filled in by
the program and keep their names in every language.

A language is added by its folder alone: copy `en/` to the language's code, translate, keep the `{slots}`. `pytest tests/test_wording.py` names
what is missing; `musterbook publish --language CODE` prints in it. The font must cover its letters: `pytest tests/test_fonts.py`.
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
    words = catalogue(code)
    steps = sum(len(one.get("steps", {})) for one in words.procedures.values())
    pages = len(list((HERE / code / "pages").glob("*.md")))
    return (
        f"`{code}`",
        str(len(words.labels)),
        str(steps),
        str(pages),
        str(len(missing(code))) if missing(code) else "nothing",
    )
