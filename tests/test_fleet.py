"""Many vessels: which are found, and that what stops one never stops the next."""

from pathlib import Path

import pytest
from fleet_of_fakes import edit, fakes, held, lay_out, make_unsound, order  # noqa: F401 (a fixture)

from generator import fleet
from generator.fleet import Stopped, discover, publish_all, survey_all
from generator.outputs import EngineMissing
from generator.publishing import Published, Surveyed
from generator.survey.registry import all_checks
from generator.vessel.folders import NoVessel

NAMES = ("ombrelune", "saltmeadow", "zilte-wind")


@pytest.fixture
def three(tmp_path, monkeypatch):
    """Three boats in vessels/, seen from the folder above."""
    lay_out(tmp_path / "vessels", *NAMES)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "vessels"


@pytest.fixture
def bare(tmp_path, monkeypatch):
    """Folders with an empty vessel.yaml: enough to be found."""

    def make(*names):
        for name in names:
            (tmp_path / name).mkdir(parents=True)
            (tmp_path / name / "vessel.yaml").touch()

    monkeypatch.chdir(tmp_path)
    return make


def test_boats_are_found_in_the_order_of_their_names_and_other_folders_passed_over(bare):
    bare("vessels/b", "vessels/a")
    Path("vessels/classes").mkdir()
    Path("vessels/classes/c.yaml").touch()
    found = discover(["vessels"])
    assert [shown for _, shown in found.boats] == ["vessels/a", "vessels/b"]
    assert (found.bare, len(found.entries)) == (("vessels/classes",), 2)


@pytest.mark.parametrize(
    "paths", [["v/a"], ["v/a/vessel.yaml"], ["v/a", "v/a/vessel.yaml", "v/../v/a", "v"], ["v/a/"]]
)
def test_a_boat_is_named_by_folder_or_file_and_found_once(bare, paths):
    bare("v/a")
    assert [shown for _, shown in discover(paths).boats] == ["v/a"]
    assert len(discover(paths).entries) == 1


def test_a_boat_in_the_folder_one_stands_in(bare, monkeypatch):
    bare("v/a")
    monkeypatch.chdir("v/a")
    assert [folder.resolve().name for folder, _ in discover(["."]).boats] == ["a"]
    assert [folder.resolve().name for folder, _ in discover(["vessel.yaml"]).boats] == ["a"]


@pytest.mark.parametrize(
    ("path", "says"),
    [
        (
            "nowhere",
            "there is no folder or file 'nowhere' here; name the vessel's folder, or start one with: musterbook commission NAME",
        ),
        ("v/a/voyage.yaml", "v/a/voyage.yaml is no vessel.yaml; name the vessel's folder or her vessel.yaml"),
        (
            "empty",
            "no vessel.yaml in empty nor in a folder of it; start one with: musterbook commission NAME",
        ),
    ],
)
def test_a_path_that_leads_to_no_boat_is_told(bare, path, says):
    bare("v/a")
    Path("v/a/voyage.yaml").touch()
    Path("empty").mkdir()
    with pytest.raises(NoVessel) as told:
        discover(["v/a", path])
    assert str(told.value) == says


@pytest.mark.parametrize("twin", ["w/a", "w/A"])
def test_two_boats_of_one_folder_name_are_refused(bare, twin):
    bare("v/a", "v/b", twin)
    found = discover(["v/a", twin, "v/b"])
    assert [shown for _, shown in found.boats] == ["v/b"]
    assert [each.told("x") for each in found.entries if isinstance(each, Stopped)] == [
        f"{name}: x: v/a and {twin} would both be published as 'a'; rename one of the folders"
        for name in ("v/a", twin)
    ]


def test_the_name_of_a_proof_copy_is_no_boat_s(bare):
    bare("v/a", "v/a.proof-copy")
    *boats, left = discover(["v"]).entries
    assert [shown for _, shown in boats] == ["v/a"]
    assert "kept for proof copies" in left.why


def all_of(into, **more):
    told = []
    return list(publish_all(discover(["vessels"]), order(into, **more), told.append)), told


def test_each_boat_is_told_of_before_it_is_published(three, fakes, tmp_path):
    done, told = all_of(tmp_path / "site")
    assert told == [f"vessels/{name}" for name in NAMES]
    assert [each.folder.name for each in done] == list(NAMES)


def test_a_defect_of_one_never_stops_another(three, fakes, tmp_path):
    make_unsound(three / "saltmeadow")
    (three / "ombrelune/vessel.yaml").write_text("a: [")
    done, _ = all_of(tmp_path / "site")
    assert [isinstance(each, Published) and each.folder is not None for each in done] == [False, False, True]
    assert [path.name for path in (tmp_path / "site").iterdir()] == ["zilte-wind"]


@pytest.mark.parametrize(
    "fault",
    [
        KeyError("en: no label 'x'"),
        KeyError("x"),
        RecursionError("deep"),
        AssertionError(),
        UnicodeDecodeError("utf-8", b"x", 0, 1, "bad"),
    ],
    ids=lambda one: type(one).__name__,
)
def test_a_fault_of_the_program_with_one_never_stops_another(bare, tmp_path, monkeypatch, fault):
    def faulty(folder, shown, _order):
        if folder.name == "b":
            raise fault
        return shown

    bare("vessels/a", "vessels/b", "vessels/c")
    monkeypatch.setattr(fleet, "publish", faulty)
    done, _ = all_of(tmp_path / "site")
    assert done == ["vessels/a", Stopped("vessels/b", done[1].why, fault), "vessels/c"]
    assert type(fault).__name__ in done[1].why
    assert done[1].finding.check == "program.fault"


def test_a_fault_while_composing_one_never_stops_the_survey_of_another(three, monkeypatch, tmp_path):
    from generator import publishing

    compose = publishing.compose

    def faulty(vessel, *rest):
        if vessel.slug == "ombrelune":
            raise KeyError("en: no label 'x'")
        return compose(vessel, *rest)

    monkeypatch.setattr(publishing, "compose", faulty)
    done = list(survey_all(discover(["vessels"]), order(tmp_path / "site")))
    assert [type(each) for each in done] == [Stopped, Surveyed, Surveyed]


@pytest.mark.parametrize(
    ("fault", "says"),
    [
        (EngineMissing("needs libpango-1.0"), "needs libpango-1.0"),
        (
            OSError(28, "No space left on device", "site/x"),
            "the disk refused: No space left on device (site/x); nothing was replaced",
        ),
        (PermissionError(13, "Permission denied"), "the disk refused: Permission denied ("),
    ],
)
def test_what_the_machine_refuses_is_told_without_blaming_the_program(
    bare, tmp_path, monkeypatch, fault, says
):
    def refuse(*_):
        raise fault

    bare("vessels/a", "vessels/b")
    monkeypatch.setattr(fleet, "publish", refuse)
    done, _ = all_of(tmp_path / "site")
    assert [each.name for each in done] == ["vessels/a", "vessels/b"]
    assert done[0].fault is None
    assert says in done[0].why
    assert done[0].finding.check == "output.not-written"


def test_a_refused_folder_stops_that_boat_alone(three, fakes, tmp_path):
    all_of(tmp_path / "site")
    (tmp_path / "site/ombrelune/mine.txt").write_text("my own")
    edit(three / "saltmeadow", "name: Saltmeadow", "name: Saltmarsh")
    done, _ = all_of(tmp_path / "site")
    assert [type(each) for each in done] == [Stopped, Published, Published]
    assert "mine.txt" in done[0].why
    assert "Saltmarsh" in held(tmp_path / "site/saltmeadow")["guest/site.txt"]


def test_a_target_that_is_the_boats_own_folder_is_refused_and_nothing_lost(three, fakes):
    before = (three / "saltmeadow/vessel.yaml").read_bytes()
    done, _ = all_of(three)
    assert [type(each) for each in done] == [Stopped] * 3
    assert "vessel.yaml" in done[1].why
    assert (three / "saltmeadow/vessel.yaml").read_bytes() == before


def test_where_the_target_is_a_file_it_is_told(tmp_path, fakes, monkeypatch):
    lay_out(tmp_path / "vessels", "saltmeadow")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "site").write_text("a file")
    done, _ = all_of(tmp_path / "site")
    assert done[0].fault is None
    assert "the disk refused" in done[0].why


def test_ctrl_c_stops_everything(three, fakes, tmp_path):
    def stop(_job):
        raise KeyboardInterrupt

    fakes["site"].write = stop
    with pytest.raises(KeyboardInterrupt):
        all_of(tmp_path / "site")
    assert not list((tmp_path / "site").glob("*"))


def test_what_is_said_of_a_stopped_boat_is_described():
    for stopped in (Stopped("a", "why"), Stopped("a", "why", ValueError())):
        assert stopped.finding.check in all_checks()
        assert stopped.finding.place.file == "a/vessel.yaml"
