"""Good until, from outside: boats with each thing that can end a manual, and what stands at the foot of their pages."""

import datetime as dt
import html
import io
import re
import shutil
from pathlib import Path

import pypdf
import pytest
from checks.survey_patch import cases, lay_out, read_case, survey_boat

from generator.due import fall_due
from generator.fleet import discover
from generator.outputs import Job, book, calendar, cards, site
from generator.outputs.setting.pages import marks
from generator.publishing import Order, survey

ROOT = Path(__file__).resolve().parent.parent
BOAT = (ROOT / "vessels/kelpwren/vessel.yaml").read_text(encoding="utf-8")
_DATES = "expires|next-service|last-service|head-expires|battery-expires|tested|registered|made|replaced|fitted|until"
UNDATED = re.sub(
    rf", (?:{_DATES}): [^,}}]+", "", re.sub(r"(?m)^(?:specimen|checked-aboard|approved):.*\n", "", BOAT)
)
DAY = dt.date(2026, 6, 1)
DEFERRED = "deferred-defects:\n  - {{check: {check}, item: {item}, reason: ordered, who: the skipper, until: {until}}}\n"
FLARES = "what: parachute flares, kind: signal, quantity: 2"
SMOKE = "what: orange smoke, kind: signal, quantity: 2"


@pytest.fixture
def boat(tmp_path):
    """Writes a boat that has no date but what is given her, by what stands before it; surveys and composes her."""

    class Boat:
        folder = tmp_path / "tern"

        def __call__(self, dates=(), more="", as_of=DAY, until=None, voyage="", proof=False):
            text = UNDATED
            for before, date in dict(dates).items():
                assert text.count(before) == 1, before
                text = text.replace(before, f"{before}, {date}")
            self.folder.mkdir(exist_ok=True)
            (self.folder / "vessel.yaml").write_text(text + more, encoding="utf-8")
            if voyage:
                (self.folder / "voyage.yaml").write_text(voyage, encoding="utf-8")
            self.order = Order(dt.date(2040, 1, 1), as_of, until, proof=proof)
            self.surveyed = survey(self.folder, "tern", self.order)
            return self.surveyed.manual

        def foot(self, *given, **more):
            """What the foot says behind the day of the survey."""
            said = marks(self(*given, **more)).dates
            before, _, rest = said.partition(" · ")
            assert before.startswith("surveyed on ")
            return rest

        def due(self):
            return fall_due(discover([str(self.folder)]), self.order).rows

        def found(self, check):
            return [each for each in self.surveyed.findings if each.check == check]

    return Boat()


def test_nothing_dated_at_all(boat):
    assert boat.foot() == "nothing aboard is dated"
    assert boat.due() == ()


def test_an_end_of_life_ends_it_on_its_day_and_not_before(boat):
    flares = {FLARES: "expires: 2026-09-30"}
    said = "good until 30 September 2026 (first to expire: parachute flares)"
    assert boat.foot(flares) == said
    assert boat.foot(flares, as_of=dt.date(2026, 9, 30)) == said
    assert boat.foot(flares, as_of=dt.date(2026, 10, 1)) == (
        "was good until 30 September 2026 (first to expire: parachute flares)"
    )
    assert not boat.surveyed.sound


def test_a_month_is_good_to_its_last_day(boat):
    assert boat({FLARES: "expires: 2028-02"}).good_until == dt.date(2028, 2, 29)
    assert boat.foot({FLARES: "expires: 2028-02"}, as_of=dt.date(2028, 3, 1)).startswith("was good until")


def test_an_earlier_and_a_later_day_of_the_survey(boat):
    dates = {FLARES: "expires: 2026-09", SMOKE: "expires: 2027-09"}
    assert boat(dates, as_of=dt.date(2026, 1, 1)).good_until == dt.date(2026, 9, 30)
    assert boat(dates, as_of=dt.date(2027, 1, 1)).good_until == dt.date(2026, 9, 30)  # a proof copy alone
    assert not boat.surveyed.sound


def test_several_of_one_day_are_named_and_counted(boat):
    dates = {FLARES: "expires: 2026-09", SMOKE: "expires: 2026-09-30"}
    assert (
        boat.foot(dates) == "good until 30 September 2026 (first to expire: orange smoke; parachute flares)"
    )
    dates["what: red hand flares, kind: signal, quantity: 4"] = "expires: 2026-09"
    assert boat.foot(dates).endswith("(first to expire: orange smoke; parachute flares and 1 more)")


def test_what_is_past_and_deferred_is_named_with_the_end_of_that(boat):
    more = DEFERRED.format(check="gear.expired", item="parachute flares", until="2026-08-01")
    dates = {FLARES: "expires: 2026-01", SMOKE: "expires: 2027-09"}
    assert boat.foot(dates, more) == (
        "good until 1 August 2026 (then ends the deferral: parachute flares) · first to expire: orange smoke, "
        "30 September 2027 · past and deferred: parachute flares (until 1 August 2026)"
    )
    assert not boat.found("gear.expired")
    (row,) = (row for row in boat.due() if row.days < 0)
    assert (row.deferred, row.overdue) == (dt.date(2026, 8, 1), False)
    assert [row.then for row in boat.due()] == ["no longer good", "deferral ends", "no longer good"]


def test_everything_expired_and_deferred(boat):
    own = "still-carried: {reason: ordered, who: the skipper, until: %s}"
    dates = {
        FLARES: f"expires: 2026-01, {own % '2026-07-15'}",
        SMOKE: f"expires: 2026-02, {own % '2026-07-20'}",
    }
    assert boat.foot(dates) == (
        "good until 15 July 2026 (then ends the deferral: parachute flares) · past and deferred: "
        "parachute flares (until 15 July 2026); orange smoke (until 20 July 2026)"
    )
    assert not any(row.overdue for row in boat.due())
    assert boat.foot(dates, as_of=dt.date(2026, 7, 16)).startswith("was good until 31 January 2026")


def test_the_deferral_of_what_has_no_date_ends_it_too(tmp_path):
    folder = tmp_path / "tresmare"
    shutil.copytree(ROOT / "vessels/tresmare", folder)
    text = (folder / "vessel.yaml").read_text(encoding="utf-8")
    (folder / "vessel.yaml").write_text(
        text.replace("until: 2027-06-30", "until: 2026-06-10"), encoding="utf-8"
    )
    on_day, after = (survey(folder, "tresmare", Order(day, day)) for day in (DAY, dt.date(2026, 6, 11)))
    assert on_day.sound
    assert marks(on_day.manual).good.line.startswith(
        "good until 10 June 2026 (then ends the deferral: galley sink outlet) · first to"
    )
    assert not after.sound
    assert marks(after.manual).good.day == "was good until 10 June 2026"
    order = Order(DAY, dt.date(2026, 6, 11))
    late = [row for row in fall_due(discover([str(folder)]), order).rows if row.overdue]
    assert [row.then for row in late] == ["deferral ends"]


@pytest.mark.parametrize(
    ("use", "day", "wanted"),
    [("private", "2025-07-10", "10 July 2026"), ("commercial", "2026-05-20", "20 June 2026")],
)
def test_a_drill_falls_due_first_and_is_told_apart(boat, use, day, wanted):
    drills = f"drills:\n  - {{emergency: fire, date: 2024-01-01}}\n  - {{emergency: fire, date: {day}}}\n"
    text = boat.foot({FLARES: "expires: 2026-09"}, drills)
    if use == "commercial":
        boat.folder.joinpath("vessel.yaml").write_text(
            (boat.folder / "vessel.yaml").read_text("utf-8").replace("use: private", "use: commercial"),
            "utf-8",
        )
        text = marks(survey(boat.folder, "tern", boat.order).manual).dates.partition(" · ")[2]
    assert text == (
        f"good until {wanted} (to be done by then: fire, drill) · first to expire: parachute flares, 30 September 2026"
    )


def test_a_drill_not_held_again_is_named_and_ends_nothing(boat):
    drills = "drills:\n  - {emergency: fire, date: 2025-05-10}\n"
    assert boat.foot({FLARES: "expires: 2026-09"}, drills) == (
        "good until 30 September 2026 (first to expire: parachute flares) · past: fire, drill (10 May 2026)"
    )
    assert boat.found("drills.overdue")


def test_the_walk_round_is_over_after_a_year(boat):
    signed = (
        "checked-aboard: {by: the skipper, date: 2025-06-20}\napproved: {by: the owner, date: 2025-06-21}\n"
    )
    foot = boat.foot({FLARES: "expires: 2026-09"}, signed)
    assert foot.startswith("good until 20 June 2026 (to be done by then: walk round the boat")
    assert not boat.found("file.checked-aboard")
    boat({FLARES: "expires: 2026-09"}, signed, as_of=dt.date(2026, 6, 21))
    assert boat.found("file.checked-aboard")


def test_the_test_of_a_beacon_and_a_service_are_done_again(boat):
    beacon, jackets = "spot: on the mate's lifejacket", "kind: inflatable, quantity: 4"
    dates = {beacon: "tested: 2025-07-10", jackets: "next-service: 2026-08", FLARES: "expires: 2026-09"}
    assert boat.foot(dates) == (
        "good until 10 July 2026 (to be done by then: PLB, test) · first to expire: parachute flares, 30 September 2026"
    )
    assert [row.then for row in boat.due()] == ["do it again", "do it again", "no longer good"]


VOYAGE = (
    "format: 1\nuntil: 2026-06-14\npersons:\n  - {role: skipper, name: Ann}\n  - {role: mate, name: Ben}\n"
)


def test_the_voyage_ends_it(boat):
    assert boat.foot({FLARES: "expires: 2026-09"}, voyage=VOYAGE) == (
        "good until 14 June 2026 (then ends: the voyage) · first to expire: parachute flares, 30 September 2026"
    )
    assert boat.foot({FLARES: "expires: 2026-09"}, voyage=VOYAGE, as_of=dt.date(2026, 6, 15)).endswith(
        "past: the voyage (14 June 2026)"
    )


def test_a_deferral_must_last_as_long_as_everything_else(boat):
    more = DEFERRED.format(check="gear.expired", item="parachute flares", until="2026-08-01")
    dates = {FLARES: "expires: 2026-01"}
    boat(dates, more, until=dt.date(2026, 8, 1))
    assert not boat.found("deferral.expired")
    boat(dates, more, until=dt.date(2026, 8, 2))
    (found,) = boat.found("deferral.expired")
    assert "ends on 2026-08-01, before 2026-08-02" in found.message
    assert found.place.key.endswith("until")
    assert not boat.found("gear.expired")


def read(page):
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())


@pytest.mark.thorough
def test_each_page_of_the_site_and_the_calendar_say_it(boat):
    more = DEFERRED.format(check="gear.expired", item="parachute flares", until="2026-08-01")
    manual = boat({FLARES: "expires: 2026-01", SMOKE: "expires: 2026-07"}, more)
    said = marks(manual).dates
    assert "good until 31 July 2026 (first to expire: orange smoke)" in said
    files = site.write(Job(manual, "guest")).files
    pages = [read(data.decode("utf-8")) for name, data in files.items() if name.endswith(".html")]
    assert pages and all(said in page for page in pages)
    made = calendar.write(Job(manual, "crew")).files[calendar.FILE].decode("utf-8").replace("\r\n ", "")
    assert "deferral ends: mend it" in made


@pytest.mark.parametrize("day", [DAY, dt.date(2027, 1, 20)])
@pytest.mark.parametrize("boats", ["saltmeadow", "kelpwren", "tresmare"])
def test_until_that_day_the_survey_says_nothing_new_of_dates_and_then_it_does(boats, day):
    """The rule against what the survey itself says, day by day."""
    folder = ROOT / "vessels" / boats

    def dated(seen):
        found = survey(folder, boats, Order(seen, seen)).findings
        return {
            (each.check, each.place.line, each.place.column) for each in found if each.check != "dates.soon"
        }

    end = survey(folder, boats, Order(day, day)).manual.good_until
    assert dated(end) <= dated(day)
    assert dated(end + dt.timedelta(1)) - dated(day)


@pytest.mark.thorough
@pytest.mark.usefixtures("pdf_engine")
@pytest.mark.parametrize(("output", "reader", "paper"), [(book, "crew", "A4"), (cards, "guest", "A5")])
def test_every_printed_page_says_it_and_nothing_is_clipped(boat, output, reader, paper):
    """Proof copy, unchecked, many past: the longest foot there is."""
    own = "still-carried: {reason: ordered, who: the skipper, until: %s}"
    dates = {
        FLARES: f"expires: 2026-01, {own % '2026-07-15'}",
        SMOKE: f"expires: 2026-02, {own % '2026-07-20'}",
        "what: red hand flares, kind: signal, quantity: 4": "expires: 2026-10",
    }
    manual = boat(dates, "drills:\n  - {emergency: fire, date: 2025-06-10}\n", proof=True)
    made = output.write(Job(manual, reader, paper))
    assert made.records == []
    said = marks(manual)
    wanted = said.dates_on_card if output is cards else said.dates
    assert "good until 10 June 2026 (to be done by then: fire, drill)" in wanted
    assert "parachute flares (until 15 July 2026)" in wanted
    pages = pypdf.PdfReader(io.BytesIO(made.files[output.FILE])).pages
    texts = ["".join(page.extract_text().split()) for page in pages]
    bare = [number for number, text in enumerate(texts) if "".join(wanted.split()) not in text]
    assert bare == ([0] if output is book else [])  # the cover has it in lines of its own
    if output is book:
        dated = next(text for text in texts if "Whatrunsout" in text)
        assert dated.index("Whatrunsout") < dated.index("Whatisdoneagain") < dated.index("Whatwasdecided")
        assert "deferreduntil15July2026" in dated


@pytest.mark.thorough
def test_what_is_sound_is_good_on_its_own_day_and_names_what_is_past(tmp_path):
    """Over all bad cases that are about days, whatever is wrong with them."""
    about = (
        "dates.",
        "deferral.",
        "drills.",
        "gear.expired",
        "raft.",
        "release.expired",
        "radio.",
        "voyage.",
    )
    looked_at = [read_case(path) for path in cases() if path.stem.startswith(about)]
    assert len(looked_at) > 20
    for case in looked_at:
        done = survey_boat(lay_out(case, tmp_path / case.name), case.as_of, case.until)
        good, day = done.manual.good, done.manual.as_of
        assert not (done.sound and good.over), case.name
        assert good.over == (good.last_day is not None and good.last_day < day), case.name
        named = {each.deadline.item for each in good.past}
        assert {each.item for each in done.manual.dates if each.last_day < day} <= named, case.name
        assert all(each.last_day == good.last_day for each in good.ends), case.name
