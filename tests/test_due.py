"""`musterbook due`: the list over several boats, its spans, its forms and its exit codes."""

import csv
import io
import shutil
from datetime import date
from pathlib import Path

import ics
import pytest
from outputs.rfc5545 import events, faults

from generator.__main__ import main
from generator.due import as_csv, fall_due, text
from generator.fleet import discover
from generator.manual.deadlines import deadlines_of
from generator.publishing import Order
from generator.vessel.loading import load

ROOT = Path(__file__).resolve().parent.parent
VESSELS = str(ROOT / "vessels")
SOUND, DEFECTS, USAGE = 0, 1, 2


def due(within=None, as_of=date(2026, 6, 1), paths=(VESSELS,)):
    return fall_due(discover(list(paths)), Order(date(2031, 1, 1), as_of), within)


def test_everything_of_every_boat_is_there_by_date():
    rows = [row for row in due().rows if row.then != "deferral ends"]
    wanted = [
        each for folder, shown in discover([VESSELS]).boats for each in deadlines_of(load(folder, shown)[0])
    ]
    assert len(rows) == len(wanted)
    assert {(row.deadline.item, row.deadline.what, row.deadline.last_day) for row in rows} == {
        (each.item, each.what, each.last_day) for each in wanted
    }
    assert [row.deadline.last_day for row in rows] == sorted(each.last_day for each in wanted)
    assert len({row.boat for row in rows}) == len(discover([VESSELS]).boats)


def test_the_ends_of_deferrals_are_there_too():
    rows = [row for row in due().rows if row.then == "deferral ends"]
    assert [(row.slug, row.deadline.item, row.deadline.last_day) for row in rows] == [
        ("tresmare", "galley sink outlet", date(2027, 6, 30))
    ]


@pytest.mark.parametrize("within", [0, 14, 90, 500])
def test_a_span_holds_what_has_passed_and_what_falls_due_in_it(within):
    rows = due(within).rows
    assert rows == tuple(row for row in due().rows if row.days <= within)
    assert all(
        row.deadline.last_day <= date.fromordinal(date(2026, 6, 1).toordinal() + within) for row in rows
    )


def test_each_boat_is_looked_at_on_her_own_day_unless_one_is_asked_for():
    assert {row.as_of for row in due(as_of=None).rows} == {date(2026, 6, 1)}  # the specimens' own
    assert {row.as_of for row in due(as_of=date(2027, 3, 4)).rows} == {date(2027, 3, 4)}


def test_what_has_passed_is_overdue_only_where_it_is_no_longer_good():
    rows = due(as_of=date(2028, 10, 1)).rows
    passed = [row for row in rows if row.days < 0]
    assert any(row.overdue for row in passed)
    assert any(row.deadline.routine and not row.overdue for row in passed)
    assert not any(row.overdue for row in rows if row.days >= 0)
    lines = dict(zip(rows, text(rows).splitlines(), strict=True))
    for row, line in lines.items():
        assert ("OVERDUE" in line) == row.overdue
        assert ("passed" in line) == (row.days < 0 and not row.overdue)


def test_the_table_names_date_boat_item_what_governs_and_place():
    row = next(row for row in due().rows if row.deadline.item == "liferaft: HRU")
    line = next(line for line in text(due().rows).splitlines() if "liferaft: HRU" in line)
    for words in (
        str(row.deadline.last_day),
        row.boat,
        "liferaft: HRU, replacement",
        "marked expiry (SEP 27)",
        "vessel.yaml:55:",
    ):
        assert words in line


def test_csv_reads_back():
    rows = due().rows
    read = list(csv.DictReader(io.StringIO(as_csv(rows), newline="")))
    assert [each["date"] for each in read] == [str(row.deadline.last_day) for row in rows]
    assert [each["key"] for each in read] == [row.deadline.place.key for row in rows]
    assert [int(each["days"]) for each in read] == [row.days for row in rows]
    assert [each["then"] for each in read] == [row.then for row in rows]
    assert {each["then"] for each in read} == {
        "no longer good",
        "usual life over",
        "do it again",
        "voyage over",
        "deferral ends",
    }
    assert all(each["item"] and each["governs"] and each["as marked"] and each["file"] for each in read)


def test_csv_holds_no_formulas(tmp_path):
    (tmp_path / "vessel.yaml").write_text(
        'format: 1\nvessel: {name: "=1+1"}\ngear: [{what: "@SUM(A1)", where: "-2", expires: 2027-01}]\n',
        encoding="utf-8",
    )
    (read,) = csv.DictReader(io.StringIO(as_csv(due(paths=[str(tmp_path)]).rows), newline=""))
    assert (read["boat"], read["item"], read["where"]) == ("'=1+1", "'@SUM(A1)", "'-2")


def run(capsys, *words):
    code = main(["due", *words])
    shown = capsys.readouterr()
    rows = [line for line in shown.out.splitlines(keepends=True) if not line.startswith("no vessel in: ")]
    return code, "".join(rows), shown.err


def test_sound_boats(capsys):
    code, out, err = run(capsys, VESSELS, "--as-of", "2026-06-01")
    assert (code, err) == (SOUND, "")
    assert {line.split("  ")[0] for line in out.splitlines()} == {
        str(row.deadline.last_day) for row in due(90).rows
    }


def test_nothing_due(capsys):
    assert run(capsys, VESSELS, "--as-of", "2026-06-01", "--within", "3d") == (
        SOUND,
        "nothing falls due within 3 days; --within all shows everything dated\n",
        "",
    )


def test_something_overdue(capsys):
    code, out, _ = run(capsys, f"{VESSELS}/saltmeadow", "--as-of", "2028-10-01", "--within", "0")
    assert code == DEFECTS
    assert "OVERDUE" in out


def test_merely_routine_is_no_defect(capsys):
    code, out, _ = run(capsys, f"{VESSELS}/saltmeadow", "--as-of", "2026-07-01", "--within", "0")
    assert (code, out.count("passed")) == (SOUND, 1)


@pytest.mark.parametrize(
    ("span", "days"), [("14", 14), ("90d", 90), ("12w", 84), ("18m", 540), ("all", None)]
)
def test_spans(capsys, span, days):
    _, out, _ = run(capsys, VESSELS, "--as-of", "2026-06-01", "--within", span)
    assert len(out.splitlines()) == max(1, len(due(days).rows))


@pytest.mark.parametrize("span", ["soon", "-3d", "d", "1.5m", "99999", "٣d", ""])
def test_a_span_that_is_none_is_refused(capsys, span):
    with pytest.raises(SystemExit) as stopped:
        main(["due", VESSELS, f"--within={span}"])
    assert stopped.value.code == USAGE
    assert "write it like 90d" in capsys.readouterr().err


def test_reports_hold_what_the_table_holds(capsys, tmp_path):
    run(
        capsys,
        VESSELS,
        "--as-of",
        "2026-06-01",
        "--within",
        "all",
        "--report",
        str(tmp_path / "base.ics"),
        "--report",
        str(tmp_path / "due.CSV"),
    )
    data = (tmp_path / "base.ics").read_bytes()
    assert faults(data) == []
    assert len(events(data)) == len(ics.Calendar(data.decode("utf-8")).events) == len(due().rows)
    assert all("no real vessel" in each["DESCRIPTION"] for each in events(data))
    assert (tmp_path / "due.CSV").read_bytes().decode("utf-8") == as_csv(due().rows)


def test_one_boats_events_have_the_uids_of_her_own_calendar(capsys, tmp_path):
    from generator.manual.composing import compose
    from generator.outputs import Job
    from generator.outputs.calendar import FILE, write
    from generator.shelves.languages import catalogue

    run(capsys, VESSELS, "--within", "all", "--report", str(tmp_path / "base.ics"))
    base = {each["UID"] for each in events((tmp_path / "base.ics").read_bytes())}
    for folder, shown in discover([VESSELS]).boats:
        vessel, _ = load(folder, shown)
        manual, _ = compose(vessel, date(2026, 6, 1), date(2026, 6, 1), catalogue())
        assert {each["UID"] for each in events(write(Job(manual, "crew")).files[FILE])} <= base


def test_a_report_of_another_form_is_refused_before_any_work(capsys, tmp_path):
    code, out, err = run(capsys, VESSELS, "--report", str(tmp_path / "due.pdf"))
    assert (code, out) == (USAGE, "")
    assert ".csv or .ics" in err


def test_a_report_that_cannot_be_written(capsys, tmp_path):
    code, _, err = run(capsys, VESSELS, "--report", str(tmp_path / "no" / "due.csv"))
    assert code == USAGE
    assert "No such file" in err


def test_one_unreadable_file_stops_no_other(capsys, tmp_path):
    shutil.copytree(ROOT / "vessels/saltmeadow", tmp_path / "saltmeadow")
    (tmp_path / "broken").mkdir()
    (tmp_path / "broken" / "vessel.yaml").write_text("format: 1\nvessel: [\n", encoding="utf-8")
    code, out, _ = run(capsys, str(tmp_path), "--within", "all")
    assert code == USAGE
    assert "Saltmeadow" in out
    assert "broken: cannot be read" in out
    assert str(tmp_path / "broken" / "vessel.yaml") in out


def test_no_vessel_there(capsys, tmp_path):
    code, _, err = run(capsys, str(tmp_path))
    assert code == USAGE
    assert "no vessel.yaml" in err


def test_a_file_with_almost_nothing_in_it(capsys, tmp_path):
    (tmp_path / "vessel.yaml").write_text("format: 1\n", encoding="utf-8")
    assert run(capsys, str(tmp_path)) == (
        SOUND,
        "nothing falls due within 90 days; --within all shows everything dated\n",
        "",
    )
