"""The calendar: strict RFC 5545, read back by another parser, the same event under a new date, nothing private."""

import datetime
import re
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import ics
import pytest
from outputs.rfc5545 import events, faults, unfolded

from generator.manual.composing import compose
from generator.manual.deadlines import Deadline, Thing
from generator.manual.printing import Phrase, first_printer
from generator.outputs import Job
from generator.outputs.calendar import FILE, Entry, base_calendar, calendar_of, write
from generator.publishing import Order, output
from generator.publishing import write as write_all
from generator.reading.block import Block
from generator.reading.findings import Place
from generator.reading.nodes import Mapping, Source
from generator.shelves.languages import catalogue
from generator.shelves.lives import shelf
from generator.vessel.loading import load

ROOT = Path(__file__).resolve().parent.parent.parent
BOATS = sorted(path.parent.name for path in (ROOT / "vessels").glob("*/vessel.yaml"))
AS_OF = date(2026, 6, 1)


def manual_of(folder, as_of=AS_OF, proof=False):
    vessel, _ = load(folder)
    return compose(vessel, as_of, as_of, catalogue(), proof)[0]


@pytest.fixture(scope="module", params=BOATS)
def boat(request):
    manual = manual_of(ROOT / "vessels" / request.param)
    return manual, write(Job(manual, "crew")).files[FILE]


_BLOCK = Block(Mapping(1, 1, Source("v.yaml")), "rafts[raft].service")
SERVICE = Thing("raft", _BLOCK, shelf().kinds["service"][0], _BLOCK, (_BLOCK,))


def entry(**given):
    words = {"called": "raft", "lines": (Phrase("lives.lines.service"),), "last_day": date(2027, 5, 31),
             "counted": Phrase("lives.dates.next"), "place": Place("v.yaml", 3), "check": "raft.service-due", "stamp": "2027-05",
             "thing": SERVICE} | given  # fmt: skip
    return Entry("Tern", "tern", Deadline(**words))


def lies_in(space):
    return SimpleNamespace(where=space, side="")


def calendar(*entries, as_of=AS_OF):
    return calendar_of(entries, "Title", "About", as_of, first_printer())


def test_it_is_strict_rfc_5545(boat):
    assert faults(boat[1]) == []


def test_each_deadline_is_an_event(boat):
    manual, data = boat
    found = [(each["DTSTART"], each["SUMMARY"]) for each in events(data)]
    wanted = [(each.last_day, each) for each in manual.deadlines]
    assert [day for day, _ in found] == [day for day, _ in wanted]
    for day, each in wanted:
        assert any(start == day and each.item in summary and each.what in summary for start, summary in found)


@pytest.mark.thorough
def test_another_parser_reads_the_same(boat):
    manual, data = boat
    read = ics.Calendar(data.decode("utf-8"))
    assert len(read.events) == len(manual.deadlines)
    assert sorted(each.begin.date() for each in read.events) == [each.last_day for each in manual.deadlines]
    assert all(each.all_day for each in read.events)
    assert {each.uid for each in read.events} == {each["UID"] for each in events(data)}
    assert {each.name for each in read.events} == {each["SUMMARY"] for each in events(data)}


def test_alarms_stand_90_and_30_days_ahead_and_a_day_for_what_is_done_monthly(boat):
    manual, data = boat
    routine = {(each.last_day, each.item) for each in manual.deadlines if each.routine}
    for each in events(data):
        name = each["SUMMARY"].split(": ")[1].split(",")[0]
        expected = ["-P1D"] if (each["DTSTART"], name) in routine else ["-P90D", "-P30D"]
        assert each["alarms"] == expected


def test_the_same_day_gives_the_same_bytes(boat):
    manual, data = boat
    assert write(Job(manual_of(ROOT / "vessels" / manual.slug), "crew")).files[FILE] == data


def test_a_specimen_says_so_in_each_event(boat):
    assert all("no real vessel" in each["DESCRIPTION"] for each in events(boat[1]))


def test_a_proof_copy_says_so_in_each_event():
    data = write(Job(manual_of(ROOT / "vessels" / BOATS[0], proof=True), "crew")).files[FILE]
    assert all("Proof copy" in each["DESCRIPTION"] for each in events(data))


def test_nothing_private_stands_in_it(tmp_path):
    text = (ROOT / "vessels/saltmeadow/vessel.yaml").read_text(encoding="utf-8")
    folder = tmp_path / "saltmeadow"
    folder.mkdir()
    for number in ("SPECIMEN-0001", "SPECIMEN-C-17", "1D04000000FFBFF"):
        assert number in text
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    words = "".join(unfolded(write(Job(manual_of(folder), "crew")).files[FILE].decode("utf-8")))
    for number in ("SPECIMEN-0001", "SPECIMEN-C-17", "SPECIMEN-12", "1D04000000FFBFF", "7700 900142"):
        assert number not in words


def test_a_new_date_moves_the_event_and_makes_no_new_one():
    first, later = (
        calendar(entry()),
        calendar(
            entry(last_day=date(2028, 5, 31), counted=Phrase("lives.dates.expires")), as_of=date(2027, 6, 2)
        ),
    )
    (before,), (after,) = events(first), events(later)
    assert before["UID"] == after["UID"]
    assert before["DTSTART"] < after["DTSTART"]
    assert int(before["SEQUENCE"]) < int(after["SEQUENCE"])


def test_an_edited_date_keeps_the_uid_in_a_whole_file(tmp_path):
    text = (ROOT / "vessels/saltmeadow/vessel.yaml").read_text(encoding="utf-8")
    uids = []
    for number, words in enumerate(
        (
            text,
            text.replace("next: 2028-09-04", "next: 2028-08-04"),
            text.replace("made: 2025-02}", "expires: 2029-02}"),
        )
    ):
        folder = tmp_path / str(number) / "saltmeadow"
        folder.mkdir(parents=True)
        (folder / "vessel.yaml").write_text(words, encoding="utf-8")
        uids.append({each["UID"] for each in events(write(Job(manual_of(folder), "crew")).files[FILE])})
    assert uids[0] == uids[1]
    assert len(uids[0] ^ uids[2]) == 2  # of the tethers the usual life gave way to a marked expiry


def test_things_of_one_name_keep_apart():
    pair = [
        entry(at=lies_in("cockpit")),
        entry(at=lies_in("saloon"), place=Place("v.yaml", 9)),
        entry(at=lies_in("saloon"), place=Place("v.yaml", 12)),
    ]
    assert len({each["UID"] for each in events(calendar(*pair))}) == 3
    assert {each["UID"] for each in events(calendar(*pair))} == {
        each["UID"] for each in events(calendar(*reversed(pair)))
    }
    other = Entry("Tern", "tern-2", pair[0].deadline)
    assert len({each["UID"] for each in events(base_calendar([pair[0], other], AS_OF, first_printer()))}) == 2


@pytest.mark.parametrize(
    "words",
    [
        'a; b, c\\d: "e"',
        "ÆØÅ " * 40 + ".",
        "長い名前" * 30,
        "x" * 500,
        "🛟" * 60,
        "line\nbreak",
        "\\n",
        "END:VEVENT",
    ],
)
def test_any_words_come_back_as_they_were(words):
    data = calendar(entry(called=words, at=lies_in(words)))
    assert faults(data) == []
    (found,) = events(data)
    assert found["SUMMARY"] == f"Tern: {words}, service: last good day"
    assert found["LOCATION"] == f"Tern: {words}"
    if "\\n" not in words:  # the other parser takes an escaped backslash before an n for a line break
        (read,) = ics.Calendar(data.decode("utf-8")).events
        assert read.location == f"Tern: {words}"


def test_the_window_of_a_service_is_told():
    (found,) = events(calendar(entry(window=(date(2027, 4, 30), date(2027, 6, 30)))))
    assert "In time from 30 April 2027 to 30 June 2027" in found["DESCRIPTION"]


def test_it_is_written_for_the_crew():
    assert output("calendar").READER == "crew"
    manual = manual_of(ROOT / "vessels" / BOATS[0])
    made = write_all(manual, Order(AS_OF, only=("calendar",)))
    assert made["calendar"].reader == "crew"
    assert list(made["calendar"].files) == [FILE]


# The validator itself: what it must not let pass.


GOOD = calendar(entry())


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        (b"\r\n", b"\n", "line ends"),
        (b"VERSION:2.0\r\n", b"", "VERSION"),
        (b"PRODID:", b"X-PRODID:", "PRODID"),
        (b"UID:", b"X-UID:", "UID"),
        (b"DTSTAMP:20260601T000000Z", b"DTSTAMP:20260601", "DTSTAMP"),
        (b"DTSTAMP:20260601T000000Z", b"DTSTAMP:20260601T000000", "DTSTAMP"),
        (b"DTSTART;VALUE=DATE:20270531", b"DTSTART:20270531", "DTSTART"),
        (b"DTSTART;VALUE=DATE:20270531", b"DTSTART;VALUE=DATE:20270532", "DTSTART"),
        (b"DTEND;VALUE=DATE:20270601", b"DTEND;VALUE=DATE:20270531", "DTEND"),
        (b"SUMMARY:", b"SUMMARY:" + b"x" * 80, "75"),
        (b"SEQUENCE:", b"SEQUENCE:-", "SEQUENCE"),
        (b"TRANSP:TRANSPARENT", b"TRANSP:MAYBE", "TRANSP"),
        (b"TRANSP:TRANSPARENT\r\n", b"TRANSP:TRANSPARENT\r\nTRANSP:OPAQUE\r\n", "TRANSP"),
        (b"TRIGGER:-P90D", b"TRIGGER:90 days", "TRIGGER"),
        (b"ACTION:DISPLAY\r\n", b"", "ACTION"),
        (b"END:VALARM\r\nBEGIN", b"BEGIN", "END"),
        (b"raft\\, service", b"raft; service", "escape"),
        (b"END:VCALENDAR\r\n", b"", "END"),
        (b"SUMMARY:", b"SUM MARY:", "name"),
    ],
)
def test_the_validator_finds(old, new, fault):
    assert faults(GOOD) == []
    assert old in GOOD
    assert any(fault in each for each in faults(GOOD.replace(old, new)))


def test_the_validator_finds_a_uid_used_twice():
    event = re.search(rb"BEGIN:VEVENT.*END:VEVENT\r\n", GOOD, re.DOTALL)[0]
    assert any("twice" in each for each in faults(GOOD.replace(event, event * 2)))


def test_the_day_of_the_stamp_is_the_as_of_day():
    (read,) = ics.Calendar(GOOD.decode("utf-8")).events
    assert read.created.datetime == datetime.datetime(2026, 6, 1, tzinfo=datetime.UTC)
    assert all(each["DTSTAMP"] == datetime.datetime(2026, 6, 1, tzinfo=datetime.UTC) for each in events(GOOD))
