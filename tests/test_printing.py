"""Printing: each kind of value in words, in one place, for a reader."""

from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator.manual.printing import Phrase, Printer, first_printer
from generator.reading.values import PRIVATE, UNKNOWN, Band, Quantity, Stamp
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"


@pytest.fixture(scope="module")
def saltmeadow():
    return load(VESSELS / "saltmeadow")[0]


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (None, ""),
        ("", ""),
        (UNKNOWN, "not known"),
        (PRIVATE, "in the private copy only"),
        (True, "yes"),
        (False, "no"),
        (3, "3"),
        ("cockpit", "cockpit"),
        (Quantity(12.0, "12.0 m", "m"), "12.0 m (39 ft)"),
        (Quantity(3.8, "3.8 m", "m"), "3.8 m (12.5 ft)"),
        (Quantity(0.5, "0.5 m", "m"), "0.5 m"),
        (Quantity(1.524, "5 ft", "ft"), "5 ft (1.5 m)"),
        (Quantity(42.0, "42 kg", "kg"), "42 kg (93 lb)"),
        (Quantity(9800.0, "9.8 t", "t"), "9.8 t (21605 lb)"),
        (Quantity(6.0, "6 l", "l"), "6 l"),
        (Band(1.5, 4.0, "1.5-4 m"), "1.5-4 m"),
        ((0.8, 0.6, 0.35), "0.80 × 0.60 × 0.35 m"),
        (["mate", UNKNOWN], "mate, not known"),
        (Stamp(2027, 12), "December 2027"),
        (date(2026, 6, 1), "1 June 2026"),
        (Phrase("thing.release", (("raft", "liferaft"),)), "liferaft: HRU"),
    ],
)
def test_a_value_in_words(value, words):
    assert first_printer().text(value) == words


def test_what_is_no_value_is_a_fault_of_the_program():
    with pytest.raises(TypeError, match="no value of a vessel"):
        first_printer().text(list.append)


@pytest.mark.parametrize(
    ("where", "side", "spot", "words"),
    [
        ("cockpit", "port", None, "cockpit, port"),
        ("cockpit", "centre", "under the seat", "cockpit, under the seat"),
        ("port hull", "port", "at the steps", "port hull, at the steps"),
        ("chart table", "starboard", "under the chart table, starboard", "under the chart table, starboard"),
        ("chart table", "starboard", "under the chart table", "under the chart table, starboard"),
        ("saloon", "port", "under the bunk, port", "saloon, under the bunk, port"),
        ("cockpit", "port", "beside the cockpit locker", "cockpit, port, beside the cockpit locker"),
        ("cockpit", "port", "under the port seat", "cockpit, port, under the port seat"),
        ("galley", "port", "opposite the galley", "galley, port, opposite the galley"),
        ("cockpit", UNKNOWN, UNKNOWN, "cockpit"),
        (None, None, None, ""),
        (UNKNOWN, "port", None, "not known, port"),
    ],
)
def test_whereabouts(where, side, spot, words):
    assert first_printer().whereabouts(SimpleNamespace(where=where, side=side, spot=spot)) == words


def test_whereabouts_without_the_spot():
    thing = SimpleNamespace(where="galley", side="port", spot="by the steps")
    assert first_printer().whereabouts(thing, exactly=False) == "galley, port"


def test_words_that_the_program_offers_are_the_languages(saltmeadow):
    class Shouting(Printer):
        def choice(self, key, word):
            return f"{key}/{word}".upper()

    printer = Shouting(catalogue())
    assert printer.value(saltmeadow.vessel, "type") == "TYPE/MONOHULL"
    assert printer.value(saltmeadow.vessel, "rig") == "cutter"
    assert printer.value(saltmeadow.rafts[0], "overhead") == "OVERHEAD/NOTHING"
    assert (
        printer.value(saltmeadow.rafts[0], "held_by") == "HELD-BY/SENHOUSE SLIP, HELD-BY/HRU, HELD-BY/STRAP"
    )
    assert printer.whereabouts(saltmeadow.pumps[0]).startswith("cockpit, SIDE/PORT")


def test_a_reader_is_shown_nothing_that_is_not_for_him(saltmeadow):
    raft = saltmeadow.rafts[0]
    assert Printer(catalogue(), "crew").value(raft, "serial") == "SPECIMEN-0001"
    assert Printer(catalogue(), "guest").value(raft, "serial") == ""
    assert Printer(catalogue(), "guest").value(raft, "container") == "canister"


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (["liferaft"], "the liferaft"),
        (["port raft", "starboard raft"], "the port raft and the starboard raft"),
        (["a", "b", "c"], "the a and the b and the c"),
    ],
)
def test_names_in_a_row(names, words):
    assert first_printer().in_a_row(names) == words
