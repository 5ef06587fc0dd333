"""templates/README.md: what lies where."""

from __future__ import annotations

from pathlib import Path

from documents.markdown import page, table

HERE = Path(__file__).resolve().parents[2] / "templates"

# What each folder and file holds; one that is not named here fails the test.
HOLDS = {
    "book": "the pages of the book (HTML, filled in by Jinja)",
    "cards": "the cards, and the stations where they hang",
    "carriage": "rule sets: what must be aboard, as data",
    "deeds": "deeds that cost lives, how things are not worked, and the words in which people tell it, as data",
    "gear": "kinds of gear: what things are called, what they are and do, as data",
    "identities": "the states' numbers and call signs, each table with its source and when it was read",
    "limits": "what rules and practice set, as data",
    "lives": "how long each kind of thing lasts, as data",
    "pages": "the pages of the site and of the one file",
    "parts": "what several outputs share, and the starter of a new vessel's file",
    "procedures": "the steps: conditions, order, people, gear, sources",
    "rafts": "where rafts are kept, what holds them and what is packed in them, as data",
    "style": "style sheets of paper and site",
    "symbols": "outlines and usual spaces of each hull type",
    "text": "every word that is printed, one folder a language",
    "words": "words of the trade that are explained where they are printed, as data",
    "base.schema.json": "the JSON Schema of a base file, for editors: `musterbook schema base` prints it",
    "vessel.schema.json": "the JSON Schema of a vessel file, for editors: `musterbook schema` prints it",
}


def document() -> str:
    """The whole page."""
    rows = []
    for path in sorted(HERE.iterdir()):
        if path.name == "README.md" or path.name.startswith("."):
            continue
        own = path / "README.md"
        name = (
            f"[`{path.name}/`]({path.name}/README.md)"
            if own.is_file()
            else f"`{path.name}{'/' * path.is_dir()}`"
        )
        rows.append((name, HOLDS[path.name], _kinds(path)))
    return page(
        "Templates",
        "the folders",
        "What is printed for the reader of a manual, and what grows without Python: steps, words, rule sets, lives, limits. Each step, limit and "
        "figure carries its public source and how far it was verified; that standing is never raised without reading the source. An "
        "installation carries this folder inside the package; the README files stay behind. Beside the files of each shelf lies their "
        "JSON Schema (`*.schema.json`), for editors.",
        table(("here", "holds", "files"), rows),
    )


def _kinds(path: Path) -> str:
    files = [each for each in (path, *path.rglob("*")) if each.is_file() and each.name != "README.md"]
    return ", ".join(sorted({each.suffix for each in files}))
