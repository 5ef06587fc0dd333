"""Each field reads what a skipper types, or says what is wrong and what to write instead."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.reading.fields import Choice, Dated, Digits, Misread, Plain, Text, Texts, YesNo
from generator.reading.measures import _UNITS, Count, Dimensions, Measure, OffCentre, Range
from generator.reading.nearest import nearest, shortened
from generator.reading.other_words import Renamed
from generator.reading.values import PRIVATE, UNKNOWN, Band, Quantity, Stamp

LENGTH = Measure("How long?", "length", low=1, high=40, example="12.0 m")
HOLE = Measure("", "length", low=0.005, high=0.3)
MASS = Measure("How heavy?", "mass", high=600, example="36 kg")
FORCE = Measure("How strong?", "force", high=100_000)
VOLUME = Measure("How much?", "volume", high=500)
FLOW = Measure("How fast?", "flow", high=10_000)
LAST = Measure("How long?", "duration", high=240)
DEPTH = Range("How deep?", "length", high=20, example="1.5-4 m")
BOX = Dimensions("How large?")
OFF = OffCentre("How far off?")
DATE = Dated("When?")
COUNT = Count("How many?", low=1, high=60, example="6")
TYPE = Choice("Which?", ("monohull", "catamaran", "motor vessel"))
FIXED = YesNo("Is it?")
MMSI = Digits("Which?", r"\d{9}", "nine digits", example="232000000")
CALL = Digits("Which?", r"[A-Z0-9]{3,8}", "three to eight letters and digits", example="MZZZ9")
NAME = Text("Which?", example="cutter")


@pytest.mark.parametrize(("field", "text", "value"), [
    (LENGTH, "12 m", 12), (LENGTH, "12.0m", 12), (LENGTH, "1200 cm", 12), (LENGTH, "36 ft", 10.9728), (LENGTH, "36 feet", 10.9728),
    (LENGTH, "36'", 10.9728), (LENGTH, "5' 6\"", 1.6764), (LENGTH, "5′6″", 1.6764), (LENGTH, "5 ft 6 in", 1.6764),
    (HOLE, "1 1/2 in", 0.0381), (HOLE, "3/4 in", 0.01905), (HOLE, '1-1/4"', 0.03175), (HOLE, "1½ in", 0.0381), (HOLE, '¾"', 0.01905),
    (LENGTH, "5 ft 6.5 in", 1.6891), (LENGTH, "12\u00a0m", 12), (LENGTH, "240 in", 6.096),
    (MASS, "80 lb", 36.28738960), (MASS, "42 kg", 42), (MASS, "9000 g", 9), (FORCE, "2.2 kN", 2200), (FORCE, "10 kgf", 98.0665),
    (VOLUME, "6 l", 6), (VOLUME, "6 L", 6), (VOLUME, "1 US gal", 3.785411784), (VOLUME, "1 imp gal", 4.54609),
    (FLOW, "60 l/min", 60), (FLOW, "3.6 m3/h", 60), (LAST, "3 years", 36), (LAST, "12 months", 12),
    (OFF, "0.8 m port", -0.8), (OFF, "2 ft starboard", 0.6096), (OFF, "centre", 0),
])  # fmt: skip
def test_quantities_in_si_as_written(field, text, value):
    read = field.read(text)
    assert read == pytest.approx(value, rel=1e-9)
    assert isinstance(read, Quantity)
    assert str(read) == text


@pytest.mark.parametrize(("field", "text", "value", "written"), [
    (LENGTH, "12 metres", 12, "12 m"), (MASS, "80 lbs.", 36.2873896, "80 lb"), (MASS, "3 Tonnes", 3000, "3 t"),
    (VOLUME, "5 gallons", 18.92705892, "5 gal"), (VOLUME, "18 litres", 18, "18 l"),
])  # fmt: skip
def test_units_in_full_are_read_as_files_write_them(field, text, value, written):
    if field is MASS and value > 600:
        field = Measure("How heavy?", "mass", high=9000)
    read = field.read(text)
    assert read == pytest.approx(value, rel=1e-9)
    assert str(read) == written
    assert re.match(field.schema()["pattern"], text.rstrip(".").lower())


def test_a_word_of_elsewhere_means_one_of_the_list():
    field = Renamed("What is burnt?", ("butane", "paraffin"), also={"kerosene": "paraffin"})
    assert [field.read(each) for each in ("butane", "Kerosene")] == ["butane", "paraffin"]
    assert field.schema() == {"enum": ["butane", "paraffin", "kerosene"]}
    with pytest.raises(Misread):
        field.read("coal")


def test_the_factors_are_the_defined_ones():
    """NIST Special Publication 811 (2008), appendix B: exact factors of foot, inch, pound, gallons, kilogram-force."""
    assert (_UNITS["length"]["ft"], _UNITS["length"]["in"]) == (0.3048, 0.0254)
    assert _UNITS["mass"]["lb"] == 0.45359237
    assert _UNITS["force"]["kgf"] == 9.80665
    assert _UNITS["force"]["lbf"] == pytest.approx(0.45359237 * 9.80665, rel=1e-12)
    assert (_UNITS["volume"]["US gal"], _UNITS["volume"]["imp gal"]) == (3.785411784, 4.54609)


def test_bands_and_boxes():
    assert DEPTH.read("1.5-4 m") == Band(1.5, 4)
    assert tuple(DEPTH.read("5 to 13 ft")) == pytest.approx((1.524, 3.9624))
    assert str(DEPTH.read("1.5 – 4 m")) == "1.5 – 4 m"
    assert BOX.read("0.90 x 0.60 x 0.40 m") == (0.9, 0.6, 0.4)
    assert BOX.read("90×60×40 cm") == pytest.approx((0.9, 0.6, 0.4))


def test_dates_to_the_day_and_to_the_month():
    day, month = DATE.read("2026-05-20"), DATE.read("2028-02")
    assert (str(day), day.exact, day.first_day, day.last_day) == (
        "2026-05-20",
        True,
        day.first_day,
        day.first_day,
    )
    assert (str(month), month.exact, str(month.first_day), str(month.last_day)) == (
        "2028-02",
        False,
        "2028-02-01",
        "2028-02-29",
    )
    assert Stamp(2026, 5) == DATE.read("2026-05")
    for typed in ("05/2026", "5.2026", "May 2026", "may, 2026", "2026 May", "2026/5", "2026-5"):
        assert DATE.read(typed) == Stamp(2026, 5)
    for typed in (
        "20.05.2026",
        "2026/5/20",
        "20/5/2026",
        "20 May 2026",
        "20th May 2026",
        "May 20, 2026",
        "2026-5-20",
    ):
        assert DATE.read(typed) == Stamp(2026, 5, 20)
    assert DATE.read("5/5/2026") == Stamp(2026, 5, 5)
    assert Stamp(2026, 5) != DATE.read("2026-05-01")


def test_words():
    assert TYPE.read("Motor-Vessel") == "motor vessel"
    assert [FIXED.read(text) for text in ("yes", "Yes", "true", "on", "y")] == [True] * 5
    assert [FIXED.read(text) for text in ("no", "NO", "false", "off", "n")] == [False] * 5
    assert COUNT.read("6") == 6
    assert COUNT.read("06") == 6
    assert (MMSI.read("232 000 000"), CALL.read("mzzz-9")) == ("232000000", "MZZZ9")
    assert NAME.read("the skipper calls “Abandon ship”") == "the skipper calls “Abandon ship”"
    assert NAME.read("“Anna” and “Berta”") == "“Anna” and “Berta”"


LENGTHS = "(units: m, cm, mm, ft, in)"
MISREAD = [
    (LENGTH, "12", "'12' has no unit", f"write the unit with it, for example 12 m {LENGTHS}"),
    (LENGTH, "12,5 m", "'12,5 m' has a comma in the figure", "write a point: 12.5 m"),
    (LENGTH, "12,5", "'12,5' has a comma in the figure", "write a point: 12.5"),
    (MASS, "1,250 kg", "'1,250 kg' has a comma in the figure", "write 1250 kg for thousands, 1.250 kg for a decimal"),
    (LENGTH, "12 M", "'12 M' writes its unit otherwise than a vessel file does", f"write 12 m {LENGTHS}"),
    (MASS, "80 Lb", "'80 Lb' writes its unit otherwise than a vessel file does", "write 80 lb (units: kg, g, t, lb)"),
    (VOLUME, "12 metres", "'12 metres' is not a volume", "write a figure and its unit, for example 1 l (units: l, L, ml, US gal, imp gal, gal)"),
    (LENGTH, "12 kg", "'12 kg' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "5' 16\"", "'5' 16\"' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "٣٦ ft", "'٣٦ ft' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "-3 m", "'-3 m' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "about 12 m", "'about 12 m' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "1e1 m", "'1e1 m' is not a length", f"write a figure and its unit, for example 12.0 m {LENGTHS}"),
    (LENGTH, "400 m", "400 m is outside what can be: 1 to 40 m", "look at the figure and its unit again"),
    (LENGTH, "0.5 m", "0.5 m is outside what can be: 1 to 40 m", "look at the figure and its unit again"),
    (DEPTH, "4-1.5 m", "'4-1.5 m' starts with the higher figure", "write the lower figure first"),
    (DEPTH, "4 m", "'4 m' is not a band", "write lowest and highest with one unit, for example 1.5-4 m"),
    (BOX, "0.9 x 0.6 m", "'0.9 x 0.6 m' is not length x width x height", "write it like 0.90 x 0.60 x 0.40 m"),
    (OFF, "0.8 m", "'0.8 m' does not say which side", "write it like 0.8 m port, or centre"),
    (OFF, "0.8 port", "'0.8' has no unit", f"write the unit with it, for example 0.8 m {LENGTHS}"),
    (COUNT, "six", "'six' is not a whole number", "write digits only, for example 6"),
    (COUNT, "6.0", "'6.0' is not a whole number", "write digits only, for example 6"),
    (COUNT, "６", "'６' is not a whole number", "write digits only, for example 6"),
    (COUNT, "61", "61 is outside what can be: 1 to 60", "look at the figure again"),
    (TYPE, "catamran", "'catamran' is none of the words this key takes", "write catamaran? (it takes: monohull, catamaran, motor vessel)"),
    (TYPE, "submarine", "'submarine' is none of the words this key takes", "write one of: monohull, catamaran, motor vessel"),
    (FIXED, "maybe", "'maybe' is none of the words this key takes", "write one of: yes, no"),
    (MMSI, "23200000", "'23200000' is not nine digits", "write nine digits, for example 232000000"),
    (MMSI, "٢٣٢٠٠٠٠٠٠", "'٢٣٢٠٠٠٠٠٠' is not nine digits", "write nine digits, for example 232000000"),
    (CALL, "none", "'none' is not three to eight letters and digits", "write three to eight letters and digits, for example MZZZ9"),
    (NAME, "“cutter”", "“cutter” stands in curly quotes", 'write it without quotes or with straight ones: "cutter"'),
    (NAME, "tbd", "'tbd' is no answer", "write it in words; write unknown if it is not known yet; remove the key if there is none"),
    (NAME, "N/A", "'N/A' is no answer", "write it in words; write unknown if it is not known yet; remove the key if there is none"),
    (NAME, "Yes", "'Yes' does not answer: Which?", "write it in words, for example cutter"),
    (NAME, "none", "'none' would be printed as the answer to: Which?", "remove the key if there is none; write unknown if it is not known yet"),
    (TYPE, "‘monohull’", "‘monohull’ stands in curly quotes", 'write it without quotes or with straight ones: "monohull"'),
    (NAME, "???", "'???' is no answer", "write it in words; write unknown if it is not known yet; remove the key if there is none"),
    (DATE, "05/06/2026", "'05/06/2026' can be read as more than one date", "write 2026-06-05 or 2026-05-06, whichever is meant"),
    (DATE, "5.6.26", "'5.6.26' can be read as more than one date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "26-05", "'26-05' can be read as more than one date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "SEP 27", "'SEP 27' is not a date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "2026", "'2026' is not a date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "soon", "'soon' is not a date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "2026-02-30", "there is no day 2026-02-30", "look at the day again, or write the month alone: 2026-02"),
    (DATE, "2026-13", "there is no month 13 in 2026-13", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "2206-05", "the year of 2206-05 is outside what can be: 1900 to 2099", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
    (DATE, "٢٠٢٦-٠٥", "'٢٠٢٦-٠٥' is not a date", "write year-month or year-month-day: 2026-05 or 2026-05-20"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("field", "text", "message", "remedy"), MISREAD, ids=lambda value: value if isinstance(value, str) else ""
)
def test_what_cannot_be_read_is_told_with_what_to_write(field, text, message, remedy):
    with pytest.raises(Misread) as caught:
        (field.of if isinstance(field, Texts) else field).read(text)
    assert (caught.value.message, caught.value.remedy) == (message, remedy)


@pytest.mark.parametrize("field", [LENGTH, MASS, DEPTH, BOX, OFF, COUNT, TYPE, FIXED, MMSI, DATE])
def test_long_text_is_quoted_in_part(field):
    for text in ("9" * 5000, "9" * 5000 + " m", "wrong " * 1000, "1," + "0" * 5000):
        with pytest.raises(Misread) as caught:
            (field.of if isinstance(field, Texts) else field).read(text)
        assert len(caught.value.message) < 200
        assert len(caught.value.remedy) < 400


def test_a_number_of_five_hundred_digits_is_out_of_range():
    with pytest.raises(Misread, match="outside what can be"):
        LENGTH.read("9" * 500 + " m")


def test_nearest_looks_past_capitals_and_hyphens():
    assert nearest("Held_By", ("held-by", "knife")) == "write held-by? (it takes: held-by, knife)"
    assert nearest("zzz", ("held-by", "knife")) == "write one of: held-by, knife"
    assert shortened("a\nb  c" + "d" * 100) == "a b c" + "d" * 55 + " ..."


ALL = (
    LENGTH,
    MASS,
    FORCE,
    VOLUME,
    FLOW,
    LAST,
    DEPTH,
    BOX,
    OFF,
    DATE,
    COUNT,
    TYPE,
    FIXED,
    MMSI,
    CALL,
    NAME,
    Texts("Which?"),
    Plain("Which?"),
)


@settings(deadline=None, max_examples=600)
@given(
    st.sampled_from(ALL),
    st.text(max_size=30)
    | st.from_regex(r"[0-9]{1,4}[-./ ,][0-9]{1,4}([-./ ][0-9a-z]{0,4})?", fullmatch=True),
)
def test_any_text_is_a_value_or_misread(field, text):
    try:
        (field.of if isinstance(field, Texts) else field).read(text)
    except Misread as error:
        assert error.message
        assert error.remedy


@settings(deadline=None)
@given(
    st.sampled_from([(dimension, unit) for dimension, units in _UNITS.items() for unit in units]),
    st.decimals(min_value=0, max_value=9999, places=3),
)
def test_units_go_there_and_back(pair, figure):
    dimension, unit = pair
    read = Measure("How?", dimension, high=1e12).read(f"{figure} {unit}")
    assert math.isclose(float(read) / _UNITS[dimension][unit], float(figure), rel_tol=1e-12, abs_tol=1e-12)
    assert (read.unit, read.written) == (unit, f"{figure} {unit}")


@settings(deadline=None)
@given(st.dates(min_value=DATE.read("1900-01-01").first_day, max_value=DATE.read("2099-12-31").first_day))
def test_dates_go_there_and_back(day):
    assert DATE.read(day.isoformat()).first_day == day
    assert DATE.read(str(Stamp(day.year, day.month))).last_day >= day


@settings(deadline=None)
@given(
    st.dates(min_value=DATE.read("1900-01-01").first_day, max_value=DATE.read("2099-12-31").first_day),
    st.sampled_from(
        [
            "{0.day}.{0.month}.{0.year}",
            "{0.month}/{0.day}/{0.year}",
            "{0:%d %B %Y}",
            "{0.year}/{0.month}/{0.day}",
        ]
    ),
)
def test_a_date_in_another_order_is_taken_or_offered_among_what_may_be_meant(day, order):
    try:
        assert DATE.read(order.format(day)) == Stamp(day.year, day.month, day.day)
    except Misread as error:
        assert day.isoformat() in error.remedy
        assert day.day <= 12


def test_what_is_not_known_is_no_number():
    assert not UNKNOWN
    assert not PRIVATE
    assert (str(UNKNOWN), repr(PRIVATE)) == ("unknown", "PRIVATE")
    with pytest.raises(TypeError):
        UNKNOWN + 1


def test_of_many_words_only_those_alike_are_named():
    words = [f"raft.{letter}{other}" for letter in "abcdefg" for other in "abcdefg"]
    assert nearest("raft.aa", words).startswith("write raft.aa? (or one of: ")
    assert len(nearest("raft.ab", words)) < 100
    assert nearest("zzz", words) == "look it up: musterbook keys, or musterbook why --all"


def test_a_date_is_said_with_its_preposition():
    assert [DATE.read(text).when for text in ("2026-05-19", "2026-05")] == ["on 2026-05-19", "in 2026-05"]
