"""Numbers and call signs against the ITU's lists and the forms of ITU-R M.585."""

import pytest
from shelves.reading import told

from generator.shelves import identities
from generator.shelves.identities import CALL_SIGNS, MIDS

# Radio sourcebooks: 17 MIDs on which four published tables agree.
AGREED = {
    "201": "Albania",
    "211": "Germany",
    "219": "Denmark",
    "226": "France",
    "232": "United Kingdom",
    "244": "Netherlands",
    "247": "Italy",
    "257": "Norway",
    "265": "Sweden",
    "316": "Canada",
    "338": "United States",
    "366": "United States",
    "503": "Australia",
    "512": "New Zealand",
    "538": "Marshall Islands",
    "563": "Singapore",
    "636": "Liberia",
}
# RR Appendix 42, entries checked one by one.
SERIES = {
    "LA1": "Norway",
    "PA1": "Netherlands",
    "PI1": "Netherlands",
    "9H1": "Malta",
    "C61": "Bahamas",
    "V71": "Marshall",
    "2AB": "United Kingdom",
    "MZZ": "United Kingdom",
    "W1A": "United States",
    "VHA": "Australia",
    "ZKA": "New Zealand",
    "OUA": "Denmark",
    "DAA": "Germany",
    "3FA": "Panama",
    "HPA": "Panama",
    "3DA": "Eswatini",
    "3DN": "Fiji",
    "SSA": "Egypt",
    "SSN": "Sudan",
}
# Forms by use: ITU-R M.585 and the US Coast Guard's pages.
FORMS = {
    "232000000": "ship",
    "002320001": "coast station",
    "023200001": "group of ships",
    "111232001": "rescue aircraft",
    "823200001": "handheld VHF",
    "970010001": "SART",
    "972010001": "man-overboard device",
    "974010001": "EPIRB with AIS",
    "982320001": "craft of a parent ship",
    "992321001": "aid to navigation",
    "123456789": None,
    "900000000": None,
}


@pytest.mark.parametrize(("mid", "state"), AGREED.items())
def test_mids(mid, state):
    assert any(name.startswith(state) for name in identities.states_of_mid(mid))


def test_the_table_is_whole():
    """The ITU's list had 292 MIDs when it was read."""
    rows = [row for file in identities.MIDS.files() for row in file.block.allotted]
    assert len({row.mid for row in rows}) == 292


@pytest.mark.parametrize(("call_sign", "state"), SERIES.items())
def test_call_sign_series(call_sign, state):
    assert any(state in name for name in identities.states_of_call_sign(call_sign))


@pytest.mark.parametrize(("number", "kind"), FORMS.items())
def test_forms(number, kind):
    assert identities.kind_of(number) == kind


def test_the_mid_within_a_number():
    assert [identities.mid_of(number) for number in ("232000000", "002320001", "982320001", "972010001")] == [
        "232",
        "232",
        "232",
        None,
    ]


@pytest.mark.parametrize(
    ("flag", "state"),
    [
        ("Norway", "Norway"),
        ("the Netherlands", "Netherlands"),
        ("Bermuda", "United Kingdom"),
        ("FR", "France"),
        ("united states", "United States"),
        ("UK", "United Kingdom"),
        ("USA", "United States"),
        ("Great Britain", "United Kingdom"),
        ("Isle of Man", "United Kingdom"),
        ("Holland", "Netherlands"),
        ("Republic of Ireland", "Ireland"),
        ("Kingdom of Denmark", "Denmark"),
    ],
)
def test_flags_as_people_write_them(flag, state):
    assert any(name.startswith(state) for name in identities.states_of_flag(flag))


def test_a_flag_nobody_flies_is_not_recognised():
    assert identities.states_of_flag("Brandewijk") == ()


@pytest.mark.parametrize(
    ("shelf", "old", "new", "mark", "said"),
    [
        (MIDS, '{"mid": "201", "state"', '{"mid": "201", "stat"', '"stat"', "'stat' is no key of allotted[201]: write state?"),
        (MIDS, '"mid": "201", ', "", '{"state": "Albania', "mid' is missing"),
        (MIDS, '"mid": "201"', '"mid": "2o1"', '"2o1"', "'2o1' is not three figures, the first of them 2 to 7"),
        (MIDS, '"code": "AL"', '"code": "ALB"', '"ALB"', "'ALB' is not two letters"),
        (MIDS, '"code": "AL"', '"code": ["AL"]', '["AL"]', "a list or block stands where a two letters belongs"),
        (MIDS, '"code": "AL"', '"code": null', "null}", "'null' stands where a value belongs"),
        (MIDS, '"read": "2026-11"', '"read": "November"', '"November"', "'November' is not a date"),
        (CALL_SIGNS, '"last": "2ZZ"', '"last": "1ZZ"', '"1ZZ"', "the series ends before 2AA"),
        (CALL_SIGNS, '"last": "2ZZ"', '"lasst": "2ZZ"', '"lasst"', "write last?"),
        (CALL_SIGNS, '"first": "3BA"', '"first": "3AB"', '"3AB"', "begins before the one above it has ended"),
        (identities.FORMS, "form: 98MIDXXXX", "form: 98MIDXXX", "98MIDXXX,", "'98MIDXXX' is no form of nine figures"),
        (identities.FORMS, "kind: SART, beacon", "kind: SARTS, beacon", "SARTS,", "write SART?"),
        (identities.FORMS, "beacon: SART", "beacon: SRAT", "SRAT", "there is no word of beacon.kind 'SRAT': write SART?"),
        (identities.FORMS, "standing: secondary", "standing: secundary", "secundary", "write secondary?"),
    ],
)  # fmt: skip
def test_a_fault_is_told_at_its_place(shelf, old, new, mark, said):
    assert any(said in each for each in told(shelf, shelf.pattern, (old, new), mark)), said


def test_what_a_beacon_s_number_begins_with_stands_with_the_forms():
    assert identities.beginning_of("SART") == "970"
    assert identities.beginning_of("AIS man-overboard device") == "972"
    assert identities.beginning_of("EPIRB") == "974"
    assert identities.beginning_of("PLB") == ""
    assert identities.beginnings() == {"970", "972", "974"}
