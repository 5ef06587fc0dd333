"""The builders of the generated documents: one module a document. They stand apart from the program, which ships without them."""

from __future__ import annotations

from collections.abc import Callable

from documents import (
    carriage,
    checks,
    deeds,
    evidence,
    gear,
    limits,
    lives,
    meanings,
    procedures,
    rafts,
    templates,
    text,
    vessels,
    words,
)

DOCUMENTS: dict[str, Callable[[], str]] = {
    "vessels/README.md": vessels.document,
    "generator/checks/README.md": checks.document,
    "templates/procedures/README.md": procedures.document,
    "templates/carriage/README.md": carriage.document,
    "templates/deeds/README.md": deeds.document,
    "templates/gear/README.md": gear.document,
    "templates/limits/README.md": limits.document,
    "templates/lives/README.md": lives.document,
    "templates/rafts/README.md": rafts.document,
    "templates/text/README.md": text.document,
    "templates/words/README.md": words.document,
    "tests/evidence/README.md": evidence.document,
    "tests/meanings/README.md": meanings.document,
    # After those of its folders, to which it links.
    "templates/README.md": templates.document,
}
"""Every generated document by its path in the checkout, and what builds it."""
