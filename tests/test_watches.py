"""Watches: times are read, the day is parted where they change, the book says who is below and where; without watches nothing is said."""

import pytest
from checks.survey_patch import TODAY, VESSELS, survey_boat
from open_boats import OPEN_BOAT, changed, surveyed

from generator.manual.watches import stretches
from generator.outputs import Job
from generator.outputs.book import html
from generator.reading.clock import TimeOfDay
from generator.reading.fields import Misread
from generator.vessel.loading import load

TIME = TimeOfDay("When?")
TWO = """\
watches:
  - {from: "22:00", to: "02:00", who: mate}
  - {from: "02:00", to: "22:00", who: [skipper, guest 1]}
radio:
"""


@pytest.mark.parametrize(("text", "minutes"), [("00:00", 0), ("8:05", 485), ("20:00", 1200), ("24:00", 1440)])
def test_times_of_day(text, minutes):
    assert TIME.read(text) == minutes
    assert str(TIME.read(text)) == text.zfill(5)


@pytest.mark.parametrize("text", ["24:01", "25:00", "2000", "20.00", "20h", "8 pm", "20:60", "-1:00", ""])
def test_what_is_no_time_of_day(text):
    with pytest.raises(Misread):
        TIME.read(text)


def vessel_with(tmp_path, watches):
    (tmp_path / "vessel.yaml").write_text(changed(OPEN_BOAT, ("radio:\n", watches)), encoding="utf-8")
    vessel, findings = load(tmp_path, "")
    return vessel, findings


def test_a_watch_over_midnight_is_kept_on_both_sides_of_it(tmp_path):
    vessel, findings = vessel_with(tmp_path, TWO)
    assert findings == []
    assert [(each.span, each.on, [str(one.role) for one in each.below]) for each in stretches(vessel)] == [
        ("00:00-02:00", ("mate",), ["skipper", "guest 1", "guest 2"]),
        ("02:00-22:00", ("skipper", "guest 1"), ["mate", "guest 2"]),
        ("22:00-24:00", ("mate",), ["skipper", "guest 1", "guest 2"]),
    ]
    assert [each.wakes for each in stretches(vessel)] == ["", "guest 1", ""]


def test_watches_that_overlap_have_both_on_deck_meanwhile(tmp_path):
    vessel, _ = vessel_with(tmp_path, TWO.replace('to: "22:00"', 'to: "23:00"'))
    assert [each.on for each in stretches(vessel) if each.span == "22:00-23:00"] == [
        ("mate", "skipper", "guest 1")
    ]


@pytest.mark.parametrize(
    ("old", "new", "check"),
    [
        ('to: "02:00"', 'to: "22:00"', "file.bad-value"),
        ('from: "22:00"', "from: late", "file.bad-value"),
        ('from: "22:00", ', "", "file.missing-key"),
        (", who: mate", "", "file.missing-key"),
        ("who: mate", "who: unknown", "file.not-known-yet"),
    ],
)
def test_what_is_wrong_with_a_watch_is_told(tmp_path, old, new, check):
    _, findings = vessel_with(tmp_path, TWO.replace(old, new))
    assert [each.check for each in findings] == [check]


def test_two_alone_turn_by_turn_are_sound(tmp_path):
    """Skipper and mate by turns: each can command and call, each can take the helm, each has six hours below twice a day."""
    turns = [
        ("00:00", "06:00", "skipper"),
        ("06:00", "12:00", "mate"),
        ("12:00", "18:00", "skipper"),
        ("18:00", "24:00", "mate"),
    ]
    day = "".join(f'  - {{from: "{begins}", to: "{ends}", who: {who}}}\n' for begins, ends, who in turns)
    day = f"watches:\n{day}radio:\n"
    helm = ("lookout: {who: guest 1, substitute: guest 2}", "lookout: {who: skipper, substitute: mate}")
    text = changed(OPEN_BOAT, ("radio:\n", day))
    text = text.replace(*helm) if helm[0] in text else text
    found = [each for each in surveyed(text, tmp_path).findings if each.check.startswith("watches.")]
    assert {each.check for each in found} <= {"watches.duty-below"}


@pytest.mark.parametrize("boat", ["saltmeadow", "ombrelune", "zilte-wind"])
def test_without_watches_nothing_is_said(boat):
    assert not load(VESSELS / boat, "")[0].watches
    assert stretches(load(VESSELS / boat, "")[0]) == ()


def pages(reader):
    return html(Job(survey_boat(VESSELS / "nordgyllen", TODAY).manual, reader))


def test_the_crew_book_says_who_is_below_and_where():
    book = pages("crew")
    assert "Watches, and who sleeps where" in book
    table = book[book.index("Watches, and who sleeps where</h2>") :]
    table = table[: table.index("</table>")]
    assert table.count("<tr>") == 6
    assert "00:00-04:00" in table
    assert "middle watch" in table
    assert "guest 2: forward cabin, starboard, lower bunk" in table


def test_guests_get_no_list_of_watches():
    assert "Watches, and who sleeps where" not in pages("guest")


def test_a_berth_may_be_told_by_space_side_and_spot(tmp_path):
    text = changed(
        OPEN_BOAT, ("{role: guest 1}", "{role: guest 1, berth: {where: foredeck locker, side: port}}")
    )
    vessel, findings = vessel_with(tmp_path, "radio:\n")
    assert findings == []
    (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
    vessel, findings = load(tmp_path, "")
    guest = next(each for each in vessel.people if each.role == "guest 1")
    assert (findings, guest.berth.where, guest.berth.side) == ([], "foredeck locker", "port")
    (tmp_path / "vessel.yaml").write_text(
        text.replace("{where: foredeck locker, side: port}", "foredeck locker")
    )
    guest = next(each for each in load(tmp_path, "")[0].people if each.role == "guest 1")
    assert (guest.berth.where, guest.berth.side) == ("foredeck locker", None)
