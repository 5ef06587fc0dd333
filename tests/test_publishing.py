"""One vessel's way from her description to a folder swapped in, with small outputs in place of the real ones."""

import json
from datetime import date

import pytest
from fleet_of_fakes import edit, fakes, held, lay_out, make_unsound, order  # noqa: F401 (a fixture)

from generator import publishing
from generator.machine.folders import Folder, Refused
from generator.machine.removing import MARK, PART, mark_of
from generator.manual import fingerprints
from generator.outputs import EngineMissing, Made
from generator.publishing import Impossible, publish, survey

pytestmark = pytest.mark.usefixtures("fakes")


@pytest.fixture
def boat(tmp_path):
    return lay_out(tmp_path / "vessels", "saltmeadow")


@pytest.fixture
def into(tmp_path):
    return tmp_path / "site"


def published(boat, into, **more):
    return publish(boat, "vessels/saltmeadow", order(into, **more))


def cover(folder):
    return json.loads((folder / "manifest.json").read_text())


def checks(done):
    return [finding.check for finding in done.surveyed.findings]


def test_a_sound_vessel_is_swapped_in_with_a_folder_for_each_reader(boat, into):
    done = published(boat, into)
    assert done.folder == into / "saltmeadow"
    files = held(done.folder)
    assert sorted(files) == ["crew/book.txt", "guest/site.txt"]
    assert files["crew/book.txt"].startswith("book for crew on A4: Saltmeadow, 2026-06-01")
    ends = done.surveyed.manual.good_until.isoformat()
    for folder in (done.folder, done.folder / "guest", done.folder / "crew"):
        said = cover(folder)
        assert (said["vessel"], said["surveyed-on"], said["proof-copy"]) == (
            "Saltmeadow",
            "2026-06-01",
            False,
        )
        assert (said["good-until"], bool(said["first-to-expire"])) == (ends, True)
    assert cover(done.folder)["readers"] == ["crew", "guest"]
    assert cover(done.folder / "crew")["files"].keys() == {"book.txt"}
    assert cover(done.folder / "guest")["files"]["site.txt"]["output"] == "site"


def test_a_vessel_with_a_defect_is_not_published_and_the_last_good_manual_is_named(boat, into):
    first = published(boat, into)
    before = held(first.folder)
    make_unsound(boat)
    done = published(boat, into)
    assert (done.folder, done.stands) == (None, into / "saltmeadow")
    assert done.last_good["good-until"] == first.surveyed.manual.good_until.isoformat()
    assert "raft.capacity" in checks(done)
    assert held(into / "saltmeadow") == before


def test_a_file_that_cannot_be_read_names_the_last_good_manual_too(boat, into):
    published(boat, into)
    (boat / "vessel.yaml").write_text("format: 1\na: [")
    done = published(boat, into)
    assert (done.folder, done.surveyed.vessel) == (None, None)
    assert done.stands == into / "saltmeadow"
    assert done.last_good["surveyed-on"] == "2026-06-01"
    assert checks(done) == ["file.unreadable"]


def test_nothing_is_written_for_a_vessel_never_published(boat, into):
    make_unsound(boat)
    done = published(boat, into)
    assert (done.folder, done.last_good) == (None, None)
    assert not into.exists()


def test_a_proof_copy_stands_beside_the_sound_one(boat, into):
    published(boat, into)
    before = held(into / "saltmeadow")
    make_unsound(boat)
    done = published(boat, into, proof=True)
    assert done.folder == into / "saltmeadow.proof-copy"
    assert "proof True" in held(done.folder)["guest/site.txt"]
    assert cover(done.folder)["proof-copy"] is True
    assert held(into / "saltmeadow") == before
    assert "raft.capacity" in checks(done)
    published(boat, into, proof=True)
    assert sorted(path.name for path in into.iterdir()) == ["saltmeadow", "saltmeadow.proof-copy"]


def test_a_defect_found_in_what_was_written_stops_it_as_well(boat, into, monkeypatch):
    from generator.survey import registry

    def seen(stage, sight):
        if stage == registry.INSPECTION:
            assert sorted(sight.written) == ["book", "site"]
            assert sight.written["book"].reader == "crew"
            return [
                publishing.Finding(
                    "site.broken-link",
                    publishing.Weight.DEFECT,
                    "leads nowhere",
                    publishing.Place("guest/x.html"),
                )
            ]
        return []

    published(boat, into)
    before = held(into / "saltmeadow")
    monkeypatch.setattr(registry, "run", seen)
    edit(boat, "name: Saltmeadow", "name: Saltmarsh")
    done = published(boat, into)
    assert (done.folder, checks(done)) == (None, ["site.broken-link"])
    assert held(into / "saltmeadow") == before


def test_only_keeps_the_other_outputs_of_the_same_description(boat, into):
    published(boat, into)
    whole = (into / "saltmeadow/crew/manifest.json").read_text()
    done = published(boat, into, only=("book",), paper="A5")
    assert done.dropped == ()
    files = held(done.folder)
    assert "on A5" in files["crew/book.txt"]
    assert "on A4" in files["guest/site.txt"]
    published(boat, into, only=("book",))
    assert (into / "saltmeadow/crew/manifest.json").read_text() == whole


def test_only_for_another_reader_adds_a_copy(boat, into):
    published(boat, into)
    done = published(boat, into, only=("book",), reader="guest")
    assert sorted(held(done.folder)) == ["crew/book.txt", "guest/book.txt", "guest/site.txt"]


@pytest.mark.parametrize("change", ["description", "day", "program"])
def test_only_drops_the_other_outputs_of_an_older_description(boat, into, monkeypatch, change):
    published(boat, into)
    more = {}
    if change == "description":
        edit(boat, "name: Saltmeadow", "name: Saltmarsh")
    elif change == "day":
        more = {"as_of": date(2026, 6, 2)}
    else:
        monkeypatch.setattr(fingerprints, "program", lambda: "another")
    done = published(boat, into, only=("site",), **more)
    assert done.dropped == ("crew/book.txt",)
    assert list(held(done.folder)) == ["guest/site.txt"]


def test_a_changed_file_of_another_output_is_refused_not_kept(boat, into):
    done = published(boat, into)
    (done.folder / "crew/book.txt").write_text("notes in the margin")
    with pytest.raises(Refused, match=r"crew/book\.txt"):
        published(boat, into, only=("site",))


@pytest.fixture
def private_boat(tmp_path):
    return lay_out(tmp_path / "vessels", "nordgyllen")


def test_without_private_values_guests_get_theirs_and_the_rest_is_left_out_with_a_note(private_boat, into):
    done = published(private_boat, into)
    assert sorted(held(done.folder)) == ["crew/book.txt", "guest/site.txt"]
    (private_boat / "private.yaml").unlink()
    done = published(private_boat, into)
    assert list(held(done.folder)) == ["guest/site.txt"]
    notes = [finding for finding in done.surveyed.findings if finding.check == "reader.skipped"]
    assert [note.weight.word for note in notes] == ["note"]
    assert notes[0].message.endswith(": book")
    assert str(notes[0].place) == "vessels/saltmeadow/vessel.yaml:1:1"
    assert "private.yaml" in notes[0].remedy


def test_the_as_of_day_of_the_order_wins_over_the_specimen_s_and_that_over_the_clock(boat, into):
    surveyed = survey(boat, "b", order(into))
    assert surveyed.manual.as_of == date(2026, 6, 1)
    assert survey(boat, "b", order(into, as_of=date(2026, 7, 1))).manual.as_of == date(2026, 7, 1)
    edit(boat, "specimen: {as-of: 2026-06-01}\n", "")
    assert survey(boat, "b", order(into)).manual.as_of == date(2027, 1, 15)


def test_until_is_the_day_everything_must_last_to(boat, into):
    ends = survey(boat, "b", order(into)).manual.good_until
    assert survey(boat, "b", order(into, until=ends)).sound
    late = survey(boat, "b", order(into, until=date(2027, 12, 1)))
    assert not late.sound
    assert {finding.check for finding in late.findings if finding.weight.word == "defect"} >= {
        "release.expired"
    }
    assert "short of 2027-12-01" in next(
        each.message for each in late.findings if each.check == "release.expired"
    )


def test_until_before_the_as_of_day_is_told(boat, into):
    with pytest.raises(Impossible, match="--until 2026-05-01 lies before 2026-06-01"):
        survey(boat, "b", order(into, until=date(2026, 5, 1)))


def test_a_voyage_sets_the_day_to_last_to(tmp_path, into):
    boat = lay_out(tmp_path / "vessels", "zilte-wind")
    assert survey(boat, "b", order(into)).manual.until == date(2026, 6, 21)
    assert survey(boat, "b", order(into, until=date(2026, 9, 1))).manual.until == date(2026, 9, 1)


def test_a_deferred_defect_lets_her_publish_and_is_kept_for_printing(boat, into):
    edit(boat, "strength: 7.5 kN, checked: 2026-05-24", "strength: 7.5 kN, checked: 2025-01-24")
    found = [
        each for each in survey(boat, "b", order(into)).findings if each.check == "raft.painter-unchecked"
    ]
    assert found, "the patch no longer gives the finding that the test defers"
    with (boat / "vessel.yaml").open("a", encoding="utf-8") as file:
        file.write(
            "\ndeferred-defects:\n  - {check: raft.painter-unchecked, item: liferaft, reason: the yard looks in July, who: the skipper, "
            "until: 2026-08-01}\n"
        )
    done = published(boat, into)
    assert done.folder is not None
    assert [each.check for each in done.surveyed.deferred] == ["raft.painter-unchecked"]
    (covered,) = done.surveyed.manual.deferred.values()
    assert [each.check for each in covered] == ["raft.painter-unchecked"]
    assert "raft.painter-unchecked" not in checks(done)
    late = published(boat, into, as_of=date(2026, 8, 2))
    assert "deferral.expired" in checks(late)


def test_a_capacity_defect_cannot_be_deferred(boat, into):
    make_unsound(boat)
    with (boat / "vessel.yaml").open("a", encoding="utf-8") as file:
        file.write(
            "\ndeferred-defects:\n  - {check: raft.capacity, reason: short trip, who: the skipper, until: 2026-08-01}\n"
        )
    done = published(boat, into)
    assert done.folder is None
    assert {"raft.capacity", "deferral.not-allowed"} <= set(checks(done))


def test_what_an_output_cannot_write_replaces_nothing(boat, into, fakes):
    published(boat, into)
    before = held(into / "saltmeadow")

    def missing(_job):
        raise EngineMissing("the PDF engine needs libpango-1.0")

    fakes["book"].write = missing
    edit(boat, "name: Saltmeadow", "name: Saltmarsh")
    with pytest.raises(EngineMissing):
        published(boat, into)
    assert held(into / "saltmeadow") == before
    assert published(boat, into, only=("site",)).folder == into / "saltmeadow"


def test_the_same_description_gives_the_same_bytes(boat, into, tmp_path):
    def bytes_of(folder):
        return {path.relative_to(folder): path.read_bytes() for path in folder.rglob("*") if path.is_file()}

    first = bytes_of(published(boat, into).folder)
    assert bytes_of(published(boat, into).folder) == first
    assert bytes_of(published(boat, tmp_path / "elsewhere").folder) == first


def test_the_manifests_say_nothing_of_the_machine(private_boat, into, tmp_path):
    folder = published(private_boat, into).folder
    common = {
        "program",
        "vessel",
        "surveyed-on",
        "until",
        "language",
        "good-until",
        "first-to-expire",
        "proof-copy",
        "seal",
    }
    assert set(cover(folder)) == common | {"readers"}
    assert set(cover(folder / "guest")) == common | {"reader", "description", "beside", "files"}
    for path in folder.rglob("manifest.json"):
        assert str(tmp_path) not in path.read_text()


def test_files_left_by_a_killed_run_are_cleared_even_when_a_defect_stops_this_one(boat, into):
    left = into / ".saltmeadow.musterbook-new-0123456789abcdef"
    left.mkdir(parents=True)
    (left / MARK).write_bytes(mark_of(left.name))
    (left / f"{PART}0123456789abcdef").write_text("half")
    make_unsound(boat)
    published(boat, into)
    assert list(into.iterdir()) == []


def test_an_older_description_never_replaces_a_newer_one(boat, into, monkeypatch):
    """The lock is held from before the description is read: another publish meanwhile waits, or is refused."""
    read = publishing.survey

    def slowly(*args):
        with pytest.raises(Refused, match="another publish is at work"):
            published(boat, into, wait_s=0)
        return read(*args)

    monkeypatch.setattr(publishing, "survey", slowly)
    assert published(boat, into).folder


def test_a_refused_folder_is_set_aside_whole_when_asked_for(boat, into):
    folder = published(boat, into).folder
    (folder / "guest/notes.txt").write_text("my own")
    with pytest.raises(Refused, match="add --set-aside"):
        published(boat, into, only=("site",))
    done = published(boat, into, only=("site",), set_aside=True)
    assert done.said == [f"set aside, nothing of it removed: {into / 'saltmeadow.set-aside-1'}"]
    assert list(held(done.folder)) == ["guest/site.txt"]
    assert set(held(into / "saltmeadow.set-aside-1")) == {
        "crew/book.txt",
        "guest/notes.txt",
        "guest/site.txt",
    }
    assert published(boat, into, set_aside=True).said == []
    assert f"  {done.said[0]}" in publishing.told(done, order(into)).splitlines()


def test_a_publish_that_fails_sets_nothing_aside(boat, into, monkeypatch):
    folder = published(boat, into).folder
    (folder / "guest/notes.txt").write_text("my own")
    before = held(folder)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Folder, "write", full)
    with pytest.raises(OSError, match="No space left"):
        published(boat, into, set_aside=True)
    assert held(folder) == before
    assert [path.name for path in into.iterdir()] == ["saltmeadow"]


def test_a_torn_manual_is_no_last_good_one(boat, into):
    folder = published(boat, into).folder
    (folder / "crew/book.txt").write_text("torn")
    make_unsound(boat)
    assert published(boat, into).last_good is None


def test_an_output_may_hold_folders(boat, into, fakes):
    fakes["site"].write = lambda _job: Made({"fonts/a.bin": b"1", "index.txt": b"2"})
    assert sorted(held(published(boat, into).folder)) == [
        "crew/book.txt",
        "guest/fonts/a.bin",
        "guest/index.txt",
    ]
