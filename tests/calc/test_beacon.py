"""Beacon ids against published examples: C/S T.001, C/S T.018, coding guide pages and open decoders' test data.

Each vector of tests/data/beacon_vectors.json names its source; comparison is exact, for an id has no tolerance.
"""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc import baudot
from generator.calc.beacon import NoBeaconId, bch_1, decode, plain

DATA = json.loads((Path(__file__).parent.parent / "data" / "beacon_vectors.json").read_text(encoding="utf-8"))
# what a vector calls a field -> what we call it
NAMES = {
    "serial_number": "serial",
    "tac": "type_approval",
    "callsign": "call_sign",
    "aircraft_24bit": "aircraft",
    "aircraft_registration": "aircraft",
    "specific_beacon_number": "beacon_number",
    "hex15": "id15",
    "vessel_id_type": "protocol",
}
OTHERWISE = {
    "mmsi_last6": lambda found: found.mmsi[3:],
    "tac_present": lambda found: found.type_approval is not None,
    "fixed_ok": lambda found: not found.faults,
    "text": lambda found: found.call_sign or found.aircraft,
    "operator_serial": lambda found: found.beacon_number,
}


@pytest.mark.parametrize("vector", DATA["vectors"], ids=lambda vector: vector["hex"])
def test_published_ids(vector):
    found = decode(vector["hex"])
    for name, value in vector["expected"].items():
        got = OTHERWISE[name](found) if name in OTHERWISE else getattr(found, NAMES.get(name, name))
        assert got == value or str(got) == str(value), f"{name}: {got!r}, {vector['source']} has {value!r}"


def test_every_protocol_occurs_among_the_vectors():
    assert {
        "standard-location",
        "national-location",
        "rls-location",
        "elt-dt-location",
        "maritime-user",
        "radio-callsign-user",
        "serial-user",
        "aviation-user",
        "test-user",
        "national-user",
        "orbitography",
    } <= {decode(vector["hex"]).protocol for vector in DATA["vectors"]}


@pytest.mark.parametrize("row", DATA["written"], ids=lambda row: row["text"])
def test_ids_as_people_write_them(row):
    """Label groupings are read; whole messages give their id; anything else is told why."""
    if "then valid" in row["why"] or "whole" in row["why"]:
        assert len(decode(row["text"]).id15) == 15
    else:
        with pytest.raises(NoBeaconId):
            decode(row["text"])


def test_a_letter_that_looks_like_a_figure_is_pointed_out():
    with pytest.raises(NoBeaconId, match=r"O \(is it 0\?\)"):
        plain("ADCD0O800440401")


@pytest.mark.parametrize(
    ("message", "id15"),
    [
        ("56E6804002202009655250", "ADCD00800440401"),  # C/S T.001 Annex B1
        ("90127B92922BC022FF103504422535", "2024F72524FFBFF"),
    ],
)  # a test file citing a coding guide page
def test_whole_messages(message, id15):
    found = decode(message)
    assert found.id15 == id15
    assert found.bch_right


@given(st.integers(0, 60))
def test_one_wrong_bit_is_seen_by_the_check_bits(bit):
    """BCH-1 finds any single error (T.001 Annex B1)."""
    bits = list(f"{int('56E6804002202009655250', 16):088b}")
    bits[bit] = "1" if bits[bit] == "0" else "0"
    assert bch_1("".join(bits[:61])) != "".join(bits[61:82])


@given(st.text("0123456789ABCDEF", min_size=15, max_size=15))
def test_any_fifteen_characters_are_decoded_or_refused_never_worse(text):
    found = decode(text)
    assert 0 <= found.country_code <= 1023


@given(st.text("0123456789ABCDEF", min_size=23, max_size=23))
def test_any_twenty_three_too(text):
    assert decode(text).generation == 2


@given(st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 -/", max_size=7))
def test_the_code_goes_both_ways(text):
    codes = {letter: code for code in map("{:06b}".format, range(64)) if (letter := baudot.text_of(code))}
    assert baudot.text_of("".join(codes[letter] for letter in text)) == text


def test_a_position_left_in_an_id_is_spotted():
    """The id 202E05001600000 (a test file citing a coding guide page) carries no default position bits."""
    found = decode("202E05001600000")
    assert found.position_default is False
    assert found.id15.endswith("FFBFF")
