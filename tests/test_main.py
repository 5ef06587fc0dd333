"""The command line: what it prints, its exit codes, and what it does not import."""

import json
import re
from datetime import date
from pathlib import Path

import pytest
from fleet_of_fakes import edit, fakes, held, lay_out, make_unsound  # noqa: F401 (a fixture)

from generator import __main__ as program
from generator import __version__, publishing
from generator.options import output_names
from generator.outputs import EngineMissing
from generator.publishing import output
from generator.reading.fields import READERS
from generator.survey.registry import all_checks

ROOT = Path(__file__).parent.parent
VERBS = tuple(program._COMMANDS)


@pytest.fixture
def run(capsys, monkeypatch):
    """Runs a command line in this process: exit code, stdout, stderr."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.delenv("MUSTERBOOK_TRACE", raising=False)

    def call(*argv):
        try:
            code = program.main(list(argv))
        except SystemExit as done:
            code = done.code
        return (code, *capsys.readouterr())

    return call


@pytest.fixture
def boat(tmp_path, monkeypatch):
    """Saltmeadow in vessels/, seen from the folder above."""
    folder = lay_out(tmp_path / "vessels", "saltmeadow")
    monkeypatch.chdir(tmp_path)
    return folder


@pytest.mark.parametrize("verb", VERBS)
def test_every_command_has_help(run, verb):
    code, out, _ = run(verb, "--help")
    assert code == 0
    assert out.startswith(f"usage: musterbook {verb}")
    assert verb in run("--help")[1]


def test_help_names_every_command_and_exit_code(run):
    code, out, _ = run("--help")
    assert code == 0
    assert {"survey", "publish", "why", "commission", "readiness", "schema"} <= set(VERBS)
    assert all(verb in out for verb in VERBS)
    assert "0 sound, 1 defects found, 2 unreadable input or wrong usage, 3 a fault" in " ".join(out.split())


def test_version(run):
    assert run("--version") == (0, f"musterbook {__version__}\n", "")


def test_the_outputs_offered_are_those_there_are():
    assert {"book", "calendar", "cards", "one-file", "site"} <= set(output_names())
    for name in output_names():
        assert output(name).READER in READERS
        assert callable(output(name).write)


@pytest.mark.parametrize(
    ("argv", "says"),
    [
        ([], "the following arguments are required: COMMAND"),
        (["sail"], "invalid choice: 'sail'"),
        (["survey", "--as-of", "1.6.2026"], "'1.6.2026' is no day; write it like 2026-05-20"),
        (["publish", "--only", "poster"], "invalid choice: 'poster'"),
        (["publish", "--paper", "A3"], "invalid choice: 'A3'"),
        (["survey", "--loud"], "unrecognized arguments: --loud"),
        (
            ["survey", "nowhere"],
            "musterbook: there is no folder or file 'nowhere' here; name the vessel's folder, or start one with: musterbook commission NAME\n",
        ),
        (["survey", "vessels", "--language", "zz"], "musterbook: there is no language 'zz'; there are: "),
        (
            ["survey", "vessels", "--report", "out.pdf"],
            "musterbook: --report out.pdf: the ending says the form",
        ),
        (["why"], "musterbook: why which check? Give an id as findings print it, or --all\n"),
        (
            ["why", "water"],
            "musterbook: there is no check 'water'; write one of: water.short; all of them: musterbook why --all\n",
        ),
        (["commission", "Tern", "--set", "length"], "musterbook: --set length: write KEY=VALUE"),
    ],
)
def test_wrong_usage_is_told_with_exit_code_2(run, boat, argv, says):
    code, out, err = run(*argv)
    assert (code, out) == (2, "")
    assert says in err
    assert "Traceback" not in err


def test_a_sound_vessel(run, boat):
    assert run("survey", "vessels") == (
        0,
        "vessels/saltmeadow: no findings\nno vessel in: vessels/classes\n",
        "",
    )


def test_a_vessel_with_defects(run, boat):
    make_unsound(boat)
    code, out, err = run("survey", "vessels/saltmeadow")
    assert (code, err) == (1, "")
    assert "vessels/saltmeadow/vessel.yaml:" in out
    assert " defect raft.capacity: " in out
    assert out.startswith("vessels/saltmeadow: ")
    assert "\033" not in out


def test_a_file_that_cannot_be_read(run, boat):
    (boat / "vessel.yaml").write_text("format: 1\nvessel: {name: [")
    code, out, err = run("survey")
    assert (code, err) == (2, "")
    assert "file.unreadable" in out


@pytest.mark.parametrize(
    ("terminal", "no_color", "coloured"),
    [(True, None, True), (True, "1", False), (True, "", True), (False, None, False)],
)
def test_colour_on_a_terminal_unless_unwanted(run, boat, monkeypatch, terminal, no_color, coloured):
    make_unsound(boat)
    monkeypatch.setattr(program.sys.stdout, "isatty", lambda: terminal, raising=False)
    monkeypatch.delenv("NO_COLOR", raising=False)
    if no_color is not None:
        monkeypatch.setenv("NO_COLOR", no_color)
    assert ("\033[1;31mdefect" in run("survey")[1]) is coloured


def test_reports_go_to_the_files_named_in_every_form(run, boat):
    make_unsound(boat)
    names = ["a.json", "a.sarif", "a.xml", "a.txt"]
    code, _, _ = run("survey", *(f"--report={name}" for name in names))
    assert code == 1
    assert json.loads(Path("a.json").read_text())["counts"]["defect"] >= 1
    assert json.loads(Path("a.sarif").read_text())["version"] == "2.1.0"
    assert '<testsuite name="vessels/saltmeadow"' in Path("a.xml").read_text()
    assert "raft.capacity" in Path("a.txt").read_text()


def test_a_report_in_every_form_says_what_was_not_said(run, boat):
    file = boat / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(re.sub(r"(?m)^gas:.*\n(?: .*\n)*", "gas: unknown\n", text), encoding="utf-8")
    names = ["a.json", "a.sarif", "a.xml", "a.txt"]
    run("survey", *(f"--report={name}" for name in names))
    rows = json.loads(Path("a.json").read_text())["not-said"]
    assert [(row["vessel"], row["key"]) for row in rows] == [("vessels/saltmeadow", "gas")]
    assert json.loads(Path("a.sarif").read_text())["runs"][0]["properties"]["not-said"] == rows
    assert f'<property name="not-said.gas" value="{rows[0]["message"]}"' in Path("a.xml").read_text()
    said = "vessels/saltmeadow: not said, and so not looked at\n  gas: " + rows[0]["message"]
    assert said in Path("a.txt").read_text()


def test_a_report_that_cannot_be_written_is_told(run, boat):
    code, out, err = run("survey", "--report", "nowhere/a.json")
    assert (code, out) == (2, "vessels/saltmeadow: no findings\nno vessel in: vessels/classes\n")
    assert err == "musterbook: --report nowhere/a.json: No such file or directory\n"


def test_publishing_says_where_and_until_when(run, boat, fakes):
    code, out, err = run("publish")
    assert (code, err) == (0, "")
    assert out.startswith(
        "vessels/saltmeadow: published -> site/saltmeadow (good until 2026-06-24; to be done by then: EPIRB"
    )
    assert sorted(held(Path("site/saltmeadow"))) == ["crew/book.txt", "guest/site.txt"]


def test_a_vessel_not_published_names_the_last_good_manual_and_the_way_to_a_proof_copy(run, boat, fakes):
    run("publish")
    make_unsound(boat)
    code, out, _ = run("publish")
    assert code == 1
    assert "vessels/saltmeadow: not published: " in out
    assert (
        "  The last good manual stays: site/saltmeadow, surveyed on 2026-06-01, good until 2026-06-24 (to be"
        in out
    )
    assert (
        "  For a proof copy despite the defects: musterbook publish vessels/saltmeadow --proof-copy\n" in out
    )
    code, out, _ = run("publish", "vessels/saltmeadow", "--proof-copy")
    assert code == 1
    assert "vessels/saltmeadow: proof copy (not for use) -> site/saltmeadow.proof-copy" in out


def test_what_was_dropped_is_told(run, boat, fakes):
    run("publish")
    code, out, _ = run("publish", "--only", "site", "--as-of", "2026-06-02")
    assert code == 0
    assert (
        "removed, for they came from an older description: crew/book.txt; publish without --only to have them again"
        in out
    )


def test_progress_is_shown_on_a_terminal_alone(run, boat, fakes, monkeypatch):
    assert run("publish")[2] == ""
    monkeypatch.setattr(program.sys.stderr, "isatty", lambda: True, raising=False)
    assert run("publish")[2] == "vessels/saltmeadow ...\n"


def test_a_refused_folder_is_exit_code_2_and_in_the_report(run, boat, fakes):
    run("publish")
    Path("site/saltmeadow/mine.txt").write_text("my own")
    code, out, err = run("publish", "--report", "a.xml")
    assert (code, err) == (2, "")
    assert out.startswith(
        "vessels/saltmeadow: not published: site/saltmeadow holds files that musterbook did not write"
    )
    assert 'failures="1"' in Path("a.xml").read_text()


def test_without_the_pdf_engine_the_book_is_refused_with_the_remedy_and_the_site_published(run, boat, fakes):
    def missing(_job):
        raise EngineMissing(
            "The PDF engine needs libpango-1.0.\nBring it with: apt-get install libpango-1.0-0"
        )

    fakes["book"].write = missing
    code, out, err = run("publish")
    assert (code, err) == (2, "")
    assert "not published: The PDF engine needs libpango-1.0.\nBring it with: apt-get install" in out
    assert run("publish", "--only", "site")[0] == 0


def test_the_real_engine_s_message_names_the_way_without_it(run, boat, monkeypatch):
    from generator.machine import readiness
    from generator.outputs.setting import engine

    told = readiness.engine_missing(lambda _names: False, "debian")
    monkeypatch.setattr(readiness, "engine_missing", lambda: told)
    engine._engine.cache_clear()
    code, out, err = run("publish", "--only", "book")
    engine._engine.cache_clear()
    assert (code, err) == (2, "")
    assert "Bring them with: apt-get install" in out
    assert "publish --only site" in out
    assert not Path("site").exists()


def test_a_fault_with_one_boat_is_told_in_one_line_and_the_exit_code_is_3(run, boat, fakes):
    lay_out(boat.parent, "zilte-wind")
    write = fakes["site"].write

    def faulty(job):
        if job.manual.slug == "saltmeadow":
            raise LookupError("en: no label 'x'\nin labels.yaml")
        return write(job)

    fakes["site"].write = faulty
    code, out, err = run("publish", "--report", "a.sarif")
    assert code == 3
    assert err == (
        "musterbook: vessels/saltmeadow: not published: a fault of the program: LookupError: en: no label 'x' in "
        "labels.yaml; nothing was replaced. Set MUSTERBOOK_TRACE=1 to see the trace, and report it.\n"
    )
    assert "zilte-wind: published" in out
    assert '"program.fault"' in Path("a.sarif").read_text()


def test_a_fault_anywhere_else_is_one_line_too(run, monkeypatch):
    def broken(_given):
        raise RuntimeError("odd\nthing")

    monkeypatch.setitem(program._COMMANDS, "schema", broken)
    code, out, err = run("schema")
    assert (code, out) == (3, "")
    assert err == (
        "musterbook: a fault of the program: RuntimeError: odd thing; nothing was replaced half. "
        "Set MUSTERBOOK_TRACE=1 to see the trace, and report it.\n"
    )


@pytest.mark.parametrize("where", ["boat", "elsewhere"])
def test_the_trace_is_shown_when_asked_for(run, boat, monkeypatch, where):
    def broken(*_):
        raise RuntimeError("odd")

    if where == "boat":
        monkeypatch.setattr(publishing, "compose", broken)
    else:
        monkeypatch.setitem(program._COMMANDS, "survey", broken)
    monkeypatch.setenv("MUSTERBOOK_TRACE", "1")
    code, _, err = run("survey")
    assert code == 3
    assert "Traceback" in err
    assert "in broken" in err


def test_ctrl_c_is_told_in_one_line(run, monkeypatch):
    def stop(_given):
        raise KeyboardInterrupt

    monkeypatch.setitem(program._COMMANDS, "schema", stop)
    assert run("schema") == (130, "", "musterbook: stopped; nothing was replaced half\n")


def test_the_clock_stands_still_at_source_date_epoch(run, boat, fakes, monkeypatch):
    edit(boat, "specimen: {as-of: 2026-06-01}\n", "")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1781000000")  # 9 June 2026, UTC
    run("publish")
    assert json.loads(Path("site/saltmeadow/manifest.json").read_text())["surveyed-on"] == "2026-06-09"
    run("publish", "--as-of", "2026-06-20")
    assert json.loads(Path("site/saltmeadow/manifest.json").read_text())["surveyed-on"] == "2026-06-20"
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert program._today() == date.today()  # noqa: DTZ011 - the day it is here


def test_the_specimen_s_day_wins_over_source_date_epoch(run, boat, fakes, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1781000000")
    run("publish")
    assert json.loads(Path("site/saltmeadow/manifest.json").read_text())["surveyed-on"] == "2026-06-01"


@pytest.mark.parametrize("epoch", ["yesterday", "1.5", "9" * 30])
def test_a_source_date_epoch_that_is_no_number_is_told(run, boat, monkeypatch, epoch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    code, _, err = run("survey")
    assert code == 2
    assert f"SOURCE_DATE_EPOCH is '{epoch}'; it must be seconds since 1970, a whole number" in err


def test_until_before_the_day_is_told(run, boat):
    code, out, _ = run("survey", "--until", "2026-01-01")
    assert (code, out) == (
        2,
        "vessels/saltmeadow: not surveyed: --until 2026-01-01 lies before 2026-06-01, the day she is looked at; "
        "write a later day\nno vessel in: vessels/classes\n",
    )


def test_why_prints_what_a_check_is_about(run):
    code, out, _ = run("why", "raft.capacity")
    one = all_checks()["raft.capacity"]
    assert code == 0
    assert out.startswith("raft.capacity (defect, description stage, cannot be deferred)\n\n")
    for part in (one.title, f"Why: {one.why}", f"Remedy: {one.remedy}", f"Source: {one.source}"):
        assert part in out


def test_why_all_has_one_line_a_check_that_starts_with_its_id(run):
    code, out, _ = run("why", "--all")
    assert code == 0
    assert [line.split("  ")[0] for line in out.splitlines()] == list(all_checks())


def test_an_unknown_check_is_answered_with_the_nearest(run):
    code, out, err = run("why", "raft.capasity")
    assert (code, out) == (2, "")
    assert "there is no check 'raft.capasity'" in err
    assert "raft.capacity" in err


def test_commission_without_questions_writes_a_file_that_survey_reads(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    code, out, _ = run("commission", "Little Tern", "--ask-nothing")
    assert code == 0
    assert "written; " in out
    assert run("survey")[0] == 1
    code, _, err = run("commission", "Little Tern", "--ask-nothing")
    assert code == 2
    assert err.startswith("musterbook: ")


def test_readiness_prints_versions(run):
    code, out, _ = run("readiness")
    assert code == 0
    assert __version__ in out


def test_schema_prints_json(run):
    code, out, _ = run("schema")
    assert code == 0
    assert json.loads(out)["type"] == "object"
