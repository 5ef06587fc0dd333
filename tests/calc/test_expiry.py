"""Dates against published rules and worked cases; exact, for a day is a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.expiry import add_months, end_of_life, governing, last_of_month, last_of_year, window

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


@pytest.mark.parametrize(("last", "exact", "months", "year_end", "ends"), [
    # 46 CFR 160.036-5: "The expiration date must be not more than 42 months from the date of manufacture".
    (date(2023, 3, 31), False, 42, False, date(2026, 9, 30)),
    (date(2022, 8, 31), True, 42, False, date(2026, 2, 28)),
    (date(2021, 7, 31), False, 42, False, date(2025, 1, 31)),
    # Offshore Special Regulations 4.23: four years where no expiry is stamped; the same four years in Canada (boat-ed.com/canada).
    (date(2021, 7, 31), False, 48, False, date(2025, 7, 31)),
    # ACN 002/22 of the US Coast Guard: out of service "on December 31 of the 12th year", a stamp of the year alone.
    (date(2012, 12, 31), False, 144, True, date(2024, 12, 31)),
    # A beacon maker's manual: fitted 1 August 2009, "will need to be replaced in August of 2011".
    (date(2009, 8, 1), True, 24, False, date(2011, 8, 1)),
    # Offshore Special Regulations 4.20.4: SOLAS rafts yearly, ISO 9650 canisters every three years.
    (date(2023, 6, 14), True, 12, False, date(2024, 6, 14)),
    (date(2023, 6, 14), True, 36, False, date(2026, 6, 14)),
    # 46 CFR 28.140: an undated battery yearly.
    (date(2024, 9, 1), True, 12, False, date(2025, 9, 1)),
    # 46 CFR 160.046-9: "The month and year of expiration (5 years after the date of packing)".
    (date(2021, 2, 28), False, 60, False, date(2026, 2, 28)),
    # Gas fitters' guidance: five years from the month stamped on the hose.
    (date(2019, 4, 30), False, 60, False, date(2024, 4, 30)),
    # AMSA: registration of a beacon renewed every two years; 29 February has none.
    (date(2024, 2, 29), True, 24, False, date(2026, 2, 28)),
])
def test_the_last_good_day_of_published_lives(last, exact, months, year_end, ends):
    assert end_of_life(last, exact, months, year_end) == ends


def test_the_earlier_of_two_lives_governs():
    # A beacon maker's manual on a disposable release: two years from fitting or four from making, "whichever comes first".
    lives = [("fitted", end_of_life(date(2025, 3, 10), True, 24)), ("made", end_of_life(date(2022, 1, 31), False, 48))]
    assert lives[0][1] == date(2027, 3, 10)
    assert governing(lives) == ("made", date(2026, 1, 31))


def test_of_equal_dates_the_first_named_governs_and_of_none_none():
    assert governing([("marked", date(2026, 1, 31)), ("made", date(2026, 1, 31))]) == ("marked", date(2026, 1, 31))
    assert governing([]) is None


def test_a_service_window():
    # UK small commercial vessels: a lifejacket due on 1 July is in time from 1 June to 1 August.
    assert window(date(2025, 7, 1), 1) == (date(2025, 6, 1), date(2025, 8, 1))
    assert window(date(2026, 3, 31), 1) == (date(2026, 2, 28), date(2026, 4, 30))
    assert window(date(2026, 1, 15), 1)[0] == date(2025, 12, 15)


def test_a_negative_life_is_a_fault():
    with pytest.raises(ValueError, match="0 or more, got -1"):
        add_months(date(2026, 1, 1), -1)


@given(DAYS, st.integers(0, 240), st.integers(0, 240))
def test_more_months_are_never_earlier_and_a_month_is_never_skipped(day, months, more):
    later = add_months(day, months)
    assert add_months(day, months + more) >= later
    assert (later.year * 12 + later.month) - (day.year * 12 + day.month) == months
    assert later.day == day.day or (later == last_of_month(later) and later.day < day.day)


@given(DAYS)
def test_the_last_day_of_a_month_and_of_a_year(day):
    assert (last_of_month(day) + timedelta(days=1)).day == 1
    assert last_of_month(day).month == day.month
    assert (last_of_year(day) + timedelta(days=1)) == date(day.year + 1, 1, 1)


@given(DAYS, st.integers(0, 240))
def test_what_is_known_to_the_month_is_good_to_a_month_s_end(day, months):
    end = end_of_life(last_of_month(day), False, months)
    assert end == last_of_month(end)
    assert end >= end_of_life(day, True, months)
