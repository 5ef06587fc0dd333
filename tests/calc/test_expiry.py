"""Dates against worked cases of public rules, and what must hold of any date."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.expiry import (
    add_months,
    end_of_life,
    governing,
    is_beyond,
    last_of_month,
    last_of_year,
    window,
)

DAYS = st.dates(date(1950, 1, 1), date(2099, 12, 31))
MONTHS = st.integers(0, 600)


@pytest.mark.parametrize(
    ("last", "exact", "months", "expected"),
    [
        (date(2023, 3, 31), False, 42, date(2026, 9, 30)),  # US flare made in March 2023: 46 CFR 160.036-5
        (date(2022, 8, 31), True, 42, date(2026, 2, 28)),  # the same to the day: clamped
        (date(2021, 7, 31), False, 42, date(2025, 1, 31)),  # flare without expiry, US
        (
            date(2021, 7, 31),
            False,
            48,
            date(2025, 7, 31),
        ),  # the same: Offshore Special Regulations 4.23, and Canada
        (
            date(2009, 8, 1),
            True,
            24,
            date(2011, 8, 1),
        ),  # HRU fitted in August 2009, replace August 2011: a maker's manual
        (date(2022, 1, 31), False, 48, date(2026, 1, 31)),  # HRU made in January 2022: the same manual
        (date(2023, 6, 14), True, 36, date(2026, 6, 14)),  # ISO raft: Offshore Special Regulations 4.20.4
        (date(2023, 6, 14), True, 12, date(2024, 6, 14)),  # SOLAS raft: class news 05/2015
        (date(2025, 5, 10), True, 17, date(2026, 10, 10)),  # SOLAS raft, 17 months where 12 are impracticable
        (date(2024, 9, 1), True, 12, date(2025, 9, 1)),  # torch battery without a date: 46 CFR 28.140 table
        (date(2021, 2, 28), False, 60, date(2026, 2, 28)),  # food packed in February 2021: 46 CFR 160.046-9
        (date(2019, 4, 30), False, 60, date(2024, 4, 30)),  # gas hose stamped 04/19: gas fitters' guidance
        (date(2014, 11, 30), False, 120, date(2024, 11, 30)),  # smoke alarm: fire authorities' advice
        (date(2019, 3, 31), False, 60, date(2024, 3, 31)),  # carbon monoxide alarm, five years
        (date(2019, 3, 31), False, 84, date(2026, 3, 31)),  # the same, seven years
        (date(2022, 5, 10), True, 36, date(2025, 5, 10)),  # immersion suit: MGN 529
        (
            date(2024, 2, 29),
            True,
            24,
            date(2026, 2, 28),
        ),  # registration of a beacon confirmed on a leap day: AMSA
        (date(2024, 8, 31), True, 6, date(2025, 2, 28)),  # month-end rule
    ],
)
def test_worked_cases(last, exact, months, expected):
    assert end_of_life(last, exact, months) == expected


def test_a_year_stamp_lasts_to_the_end_of_the_twelfth_year():
    # ACN 002/22: stamped "12" (2012), out of service on 31 December of the 12th year
    assert end_of_life(date(2012, 12, 31), False, 144, year_end=True) == date(2024, 12, 31)
    assert end_of_life(date(2012, 5, 31), False, 144, year_end=True) == date(2024, 12, 31)


def test_a_service_window_lies_a_month_either_side():
    # RYA on small commercial vessels, secondary
    assert window(date(2025, 7, 1), 1) == (date(2025, 6, 1), date(2025, 8, 1))
    assert window(date(2025, 3, 31), 1) == (date(2025, 2, 28), date(2025, 4, 30))
    assert window(date(2026, 1, 15), 1) == (date(2025, 12, 15), date(2026, 2, 15))


@given(DAYS, DAYS, MONTHS)
def test_a_day_lies_beyond_where_it_is_later_than_the_months_added(day, since, months):
    assert is_beyond(day, since, months) == (day > add_months(since, months))


def test_time_does_not_run_backwards():
    with pytest.raises(ValueError, match="0 or more"):
        add_months(date(2026, 1, 1), -1)


def test_of_equal_dates_the_first_named_governs():
    assert governing([("marked", date(2026, 1, 31)), ("made", date(2026, 1, 31))]) == (
        "marked",
        date(2026, 1, 31),
    )


@given(DAYS)
def test_the_day_after_the_last_of_a_month_or_year_starts_the_next(day):
    assert (last_of_month(day) + timedelta(days=1)).day == 1
    assert last_of_month(day).month == day.month
    assert last_of_year(day) + timedelta(days=1) == date(day.year + 1, 1, 1)


@given(DAYS, MONTHS)
def test_months_move_the_month_and_keep_the_day_or_clamp_it(day, months):
    later = add_months(day, months)
    assert (later.year - day.year) * 12 + later.month - day.month == months
    assert later.day == min(day.day, last_of_month(later).day)


@given(DAYS, MONTHS, MONTHS)
def test_more_months_are_never_earlier(day, some, more):
    some, more = sorted((some, more))
    for exact in (True, False):
        assert end_of_life(day, exact, some) <= end_of_life(day, exact, more)


@given(DAYS, DAYS, MONTHS, st.booleans(), st.booleans())
def test_a_later_date_never_ends_earlier(first, second, months, exact, year_end):
    first, second = sorted((first, second))
    assert end_of_life(first, exact, months, year_end) <= end_of_life(second, exact, months, year_end)


@given(DAYS, MONTHS)
def test_a_coarser_date_never_ends_earlier(day, months):
    exact = end_of_life(day, True, months)
    to_the_month = end_of_life(last_of_month(day), False, months)
    assert (
        exact
        <= to_the_month
        <= end_of_life(last_of_year(day), False, months)
        <= last_of_year(end_of_life(last_of_year(day), False, months))
    )
    assert to_the_month == last_of_month(to_the_month)


@given(st.lists(st.tuples(st.text(max_size=3), DAYS), max_size=8))
def test_none_of_the_candidates_is_earlier_than_what_governs(candidates):
    chosen = governing(candidates)
    assert (chosen is None) == (not candidates)
    if chosen:
        assert chosen in candidates
        assert all(chosen[1] <= day for _, day in candidates)
        assert candidates.index(chosen) == [day for _, day in candidates].index(chosen[1])


@given(DAYS, st.integers(0, 24))
def test_the_day_due_lies_in_its_window(day, months):
    first, last = window(day, months)
    assert first <= day <= last
    assert add_months(first, months) <= day
