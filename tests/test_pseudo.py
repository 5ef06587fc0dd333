"""Nothing printed stands outside the language shelf: every boat published in a pseudo-language, and what is left over."""

import shutil
from datetime import date
from pathlib import Path

import pytest
from pseudo import bracketed, citations, leftover, own_words, said_in, write_language

from generator.manual.composing import compose
from generator.publishing import Order, write
from generator.shelves.folder import templates_folder
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
AS_OF, LATER = date(2026, 6, 1), date(2029, 1, 1)


@pytest.fixture(scope="module")
def words(tmp_path_factory):
    """The pseudo-language."""
    templates = tmp_path_factory.mktemp("templates")
    shutil.copytree(templates_folder() / "text" / "en", templates / "text" / "en")
    catalogue = write_language(templates)
    assert not catalogue.findings
    return catalogue


def unexplained(vessel, words, as_of=AS_OF, only=()):
    """What the outputs say that is neither bracketed nor the boat's own, by file."""
    manual, _ = compose(vessel, as_of, as_of, words, proof=True)
    known = own_words(manual) | citations(manual)
    found = {}
    for output, made in write(manual, Order(as_of, only=only, proof=True)).items():
        for name, data in made.files.items():
            if left := leftover(said_in(name, data), known):
                found[f"{output}: {name}"] = left
    return found


@pytest.mark.parametrize("boat", BOATS)
def test_every_printed_word_is_the_languages_or_the_boats_own(boat, words, pdf_engine):
    assert unexplained(load(VESSELS / boat)[0], words) == {}
