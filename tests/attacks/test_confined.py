"""Confined: a boat's files lie with the boats, are plain, and of what is none of ours not a letter is told."""

import json
import os
import re
import shutil

import pytest
from alarm import within
from attacks import outsiders
from attacks.outsiders import CANARY, LEADS_OUT, LIMIT_S, NO_PLAIN_FILE, NONE_OF_OURS, PATHS, PUBLIC, SOUND

from generator import __main__ as program
from generator.machine import opening
from generator.machine.opening import Outside, open_plain
from generator.outputs.setting.pages import embedded, mark_embedded
from generator.vessel.loading import load
from generator.vessel.photographed import photographed

pytestmark = [
    pytest.mark.attack("confined"),
    pytest.mark.thorough,
    pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes"),
]
REPORTS = ("said.txt", "said.json", "said.sarif", "said.xml")
OUTSIDE = ("file.outside", "gear.photo-outside", "base.mark-missing")
PLACES = {"class": "classes/shared.yaml", "photo": "saltmeadow/photos/raft.jpg"}
PLACES |= {"base": "bases/base.yaml", "mark": "bases/raft.jpg"}
NAMED = {
    "class": "../classes/shared.yaml",
    "photo": "photos/raft.jpg",
    "base": "../bases/base.yaml",
    "mark": "raft.jpg",
}
PLACES |= {name: f"saltmeadow/{name}" for name in ("vessel.yaml", "voyage.yaml", "private.yaml")}


@pytest.fixture
def survey(tmp_path, monkeypatch, capsys):
    """Surveys the boat; (findings, all that was said, reported and taken from her files). Of some a proof copy is tried too."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("MUSTERBOOK_TRACE", raising=False)

    def run(*argv):
        with within(LIMIT_S):
            try:
                code = program.main(list(argv))
            except SystemExit as done:
                code = done.code
        return code, "".join(capsys.readouterr())

    def call(*, alone=True, proof=True):
        reports = [word for name in REPORTS for word in ("--report", name)]
        code, said = run("survey", "boats/saltmeadow" if alone else "boats", *reports)
        found = json.loads((tmp_path / "said.json").read_text())["findings"]
        written = [said, *((tmp_path / name).read_text() for name in REPORTS)]
        assert code in (1, 2)
        vessel, _ = load(tmp_path / "boats/saltmeadow", "boats/saltmeadow")
        written += values_of(vessel)
        if proof:
            code, said = run(
                "publish",
                "boats/saltmeadow",
                "--proof-copy",
                "--only",
                "one-file",
                "--for",
                "crew",
                "--into",
                "site",
            )
            assert code in (1, 2)
            written.append(said)
            written += [path.read_text() for path in (tmp_path / "site").rglob("*.*") if path.is_file()]
        return found, "\n".join(written)

    return call


def names(boat, target, path):
    """Writes into the boat's file that her class or base file, or the photo of her raft, is at `path`; into her base file, the mark."""
    if target == "mark":
        (boat.parent / PLACES["base"]).write_text(
            f'format: 1\noperator: Quay\nchannel: VHF 77\nmark: "{path}"\n'
        )
        target, path = "base", f"../{PLACES['base']}"
    old = "    where: coachroof\n" if target == "photo" else "format: 1\n"
    new = {
        "class": f'format: 1\nbased-on: "{path}"\n',
        "base": f'format: 1\nbase: "{path}"\n',
        "photo": f'    where: coachroof\n    photo: "{path}"\n',
    }[target]
    assert SOUND.count(old) == 1
    (boat / "vessel.yaml").write_text(SOUND.replace(old, new), encoding="utf-8")


def lay(boats, target, how, outside):
    """What is laid where a file belongs; the boat's file asks for it."""
    place = boats / PLACES[target]
    place.unlink(missing_ok=True)
    if target in NAMED:
        names(boats / "saltmeadow", target, NAMED[target])
    elif target == "private.yaml":
        path = boats / "saltmeadow/vessel.yaml"
        path.write_text(SOUND.replace("phone: +44 7700 900142", "phone: private"), encoding="utf-8")
    how(place, outside)


def values_of(vessel):
    """Every value that was read, and every photo, as it would be published."""
    if vessel is None:
        return
    for block in vessel.inner():
        values = (str(vars(block).get(field.name)) for field in type(block).fields.values())
        yield from (re.sub(r" at 0x[0-9a-f]+", "", value) for value in values)  # digits of no file
    for each in photographed(vessel):
        yield embedded(vessel, each)
    yield mark_embedded(vessel)


def some(kinds):
    """Each of the kinds, and whether a proof copy is tried of it: of every fifth."""
    return [pytest.param(kind, number % 5 == 0, id=str(kind)) for number, kind in enumerate(kinds)]


def nothing_told(written):
    for each in PUBLIC:
        assert each not in written
    assert "data:image/jpeg" not in written


def found_of(findings, *checks):
    """The findings of these checks: at least one, each with its place and remedy."""
    own = [each for each in findings if each["check"] in checks]
    assert own, findings
    for each in own:
        of_the_mark = each["check"] == "base.mark-missing"
        assert each["file"].startswith("boats/bases/" if of_the_mark else "boats/saltmeadow/")
        assert each["line"] >= 1
        assert each["message"]
        assert each["remedy"]
        assert each["weight"] == ("recommendation" if of_the_mark else "defect")
    return own


def from_the_loader(boat, *checks):
    """The findings of a boat whose vessel.yaml the command line takes for no file, straight from the reader of it."""
    with within(LIMIT_S):
        vessel, findings = load(boat, "boats/saltmeadow")
    assert vessel is None
    assert [each.check for each in findings] == [*checks]
    assert str(findings[0].place) == "boats/saltmeadow/vessel.yaml:1:1"
    assert findings[0].remedy
    nothing_told(repr(findings))
    return findings


@pytest.mark.one_in(4, "target", "path")
@pytest.mark.parametrize(("path", "proof"), some(PATHS))
@pytest.mark.parametrize("target", ["class", "photo", "base", "mark"])
def test_a_path_that_leads_elsewhere_is_refused(target, path, proof, tmp_path, survey):
    _, boat, outside = outsiders.lay_out(tmp_path)
    name, check, key, shown = {
        "class": ("shared.yaml", "file.outside", "based-on", "'boats'"),
        "base": ("base.yaml", "file.outside", "base", "'boats'"),
        "photo": ("raft.jpg", "gear.photo-outside", "photo", "'boats/saltmeadow'"),
        "mark": ("raft.jpg", "base.mark-missing", "base.mark", "the mark"),
    }[target]
    names(boat, target, path.format(name=name, outside=outside))
    findings, written = survey(proof=proof)
    (told,) = found_of(findings, check)
    assert told["key"].endswith(key)
    assert (
        shown in told["message"]
        or "starts at the top of the disk" in told["message"]
        or "\\" in told["message"]
    )
    nothing_told(written)


@pytest.mark.one_in(4, "target", "kind")
@pytest.mark.parametrize(("kind", "proof"), some(LEADS_OUT))
@pytest.mark.parametrize("target", PLACES)
def test_a_link_that_leads_out_is_refused(target, kind, proof, tmp_path, survey):
    boats, boat, outside = outsiders.lay_out(tmp_path)
    for name in ("class", "base"):
        (outside / PLACES[name]).parent.mkdir()
    lay(boats, target, LEADS_OUT[kind], outside)
    if target == "vessel.yaml" and not (boat / "vessel.yaml").is_file():
        from_the_loader(boat, "file.outside")
        return
    findings, written = survey(proof=proof)
    (told,) = found_of(findings, *OUTSIDE)
    assert "'boats" in told["message"] or target == "mark"
    nothing_told(written)


@pytest.mark.one_in(4, "target", "kind")
@pytest.mark.parametrize(("kind", "proof"), some(NO_PLAIN_FILE))
@pytest.mark.parametrize("target", PLACES)
def test_what_is_no_plain_file_is_never_waited_for(target, kind, proof, tmp_path, survey):
    boats, boat, outside = outsiders.lay_out(tmp_path)
    lay(boats, target, NO_PLAIN_FILE[kind], outside)
    if target == "vessel.yaml":
        assert says(kind, from_the_loader(boat, "file.unreadable")[0].message)
        return
    findings, written = survey(proof=proof)
    told = found_of(findings, *UNREAD)
    assert any(says(kind, each["message"]) for each in told)
    nothing_told(written)


UNREAD = ("file.unreadable", "file.class-file", "base.file", "gear.photo-missing", "base.mark-missing")


def says(kind, message):
    """Whether a message tells what lies there; it is not read, so nothing is said of what is in it."""
    if kind == "circle of links":
        return "cannot be" in message or "there is no " in message
    if kind == "folder":
        return "a folder" in message or "there is no " in message
    return "no plain file" in message


@pytest.mark.one_in(4, "target", "kind")
@pytest.mark.parametrize(("kind", "proof"), some(NONE_OF_OURS))
@pytest.mark.parametrize("target", PLACES)
def test_of_a_file_that_is_none_of_ours_nothing_is_told(target, kind, proof, tmp_path, survey):
    boats, _, outside = outsiders.lay_out(tmp_path)
    lay(boats, target, NONE_OF_OURS[kind], outside)
    findings, written = survey(proof=proof)
    nothing_told(written)
    if target == "photo":
        found_of(findings, "gear.photo-missing")
    elif target == "mark":
        found_of(findings, "base.mark-missing")
    elif target == "private.yaml":
        assert found_of(findings, "file.private-missing", "file.unreadable")
    else:
        (told,) = found_of(findings, "file.format", "file.unreadable", "file.class-file")
        assert (told["line"] == 1) == (target not in ("class", "base")), "no place within it is told"


@pytest.mark.parametrize("linked", [False, True])
def test_what_lies_in_a_boat_s_folder_is_no_mark(linked, tmp_path, survey):
    boats, boat, _ = outsiders.lay_out(tmp_path)
    outsiders.fill(boat / "photos/raft.jpg", "raft.jpg")
    names(boat, "base", "../base.yaml")
    (boats / "base.yaml").write_text(
        f"format: 1\noperator: Quay\nchannel: VHF 77\nmark: {'raft.jpg' if linked else 'saltmeadow/photos/raft.jpg'}\n"
    )
    if linked:
        (boats / "raft.jpg").symlink_to("saltmeadow/photos/raft.jpg")
    findings, written = survey()
    assert [each["key"] for each in findings if each["check"] == "base.mark-missing"] == ["base.mark"]
    nothing_told(written)


TOLD_ALONE = ["private.yaml", "voyage.yaml", "PRIVATE.yaml"]
NEVER_SHARED = [
    *(("class", name) for name in TOLD_ALONE),
    *(("base", name) for name in (*TOLD_ALONE, "vessel.yaml")),
]


@pytest.mark.parametrize(("target", "name"), NEVER_SHARED)
@pytest.mark.parametrize("linked", [False, True])
def test_what_another_boat_is_told_is_no_file_of_several(target, name, linked, tmp_path, survey):
    boats, boat, _ = outsiders.lay_out(tmp_path)
    (boats / "sister").mkdir()
    said = f"format: 1\n{CANARY}: {CANARY}\nmedical: {CANARY}\noperator: {CANARY}\n"
    (boats / "sister" / name).write_text(said)
    if linked:
        (boats / PLACES[target]).symlink_to(f"../sister/{name}")
    names(boat, target, NAMED[target] if linked else f"../sister/{name}")
    findings, written = survey()
    found_of(findings, {"class": "file.class-file", "base": "base.file"}[target])
    nothing_told(written)


@pytest.mark.parametrize("where", ["sister/raft.jpg", "raft.jpg", "classes/raft.jpg"])
@pytest.mark.parametrize("shared", [None, "shared.yaml", "classes/shared.yaml"])
def test_a_photo_lies_with_the_boat_or_with_her_class(where, shared, tmp_path, survey):
    boats, boat, _ = outsiders.lay_out(tmp_path)
    (boats / "sister").mkdir()
    outsiders.fill(boats / where, "raft.jpg")
    names(boat, "photo", f"../{where}")
    if shared:
        (boats / shared).write_text("format: 1\ngas: {detector: no}\n")
        path = boat / "vessel.yaml"
        path.write_text(path.read_text().replace("format: 1\n", f"format: 1\nbased-on: ../{shared}\n", 1))
    if shared == "classes/shared.yaml" and where == "classes/raft.jpg":
        vessel, _ = load(boat, "boats/saltmeadow")
        assert vessel.class_file == boats.resolve() / shared
        return  # taken: shown in test_what_lies_inside_is_taken
    findings, written = survey()
    found_of(findings, "gear.photo-outside")
    nothing_told(written)


def test_a_boat_that_is_a_link_out_is_refused(tmp_path, survey):
    _, boat, outside = outsiders.lay_out(tmp_path)
    shutil.rmtree(outside)
    boat.rename(outside)
    (outside / "vessel.yaml").write_text(outsiders.WELL_FORMED["vessel.yaml"])
    boat.symlink_to(outside)
    for alone in (True, False):
        findings, written = survey(alone=alone)
        found_of(findings, "file.outside")
        nothing_told(written)


def test_what_lies_inside_is_taken_linked_or_not(tmp_path, monkeypatch, capsys):
    """The boundary keeps honest users working: links that stay inside, photos of the class, either way of naming the boat."""
    monkeypatch.chdir(tmp_path)
    boats, boat, _ = outsiders.lay_out(tmp_path)
    for link in (boat / "out", boat / "deep/out"):  # another vessel's file lies there
        link.unlink()
    outsiders.fill(boats / "classes/true.jpg", "raft.jpg")
    (boat / "photos/raft.jpg").symlink_to("../../classes/true.jpg")
    names(boat, "photo", "photos/raft.jpg")
    path = boat / "vessel.yaml"
    path.write_text(
        path.read_text().replace("format: 1\n", "format: 1\nbased-on: ../classes/shared.yaml\n", 1)
    )
    (boats / "classes/true.yaml").write_text("format: 1\nvessel: {hull-colour: white}\n")
    (boats / "classes/shared.yaml").symlink_to("true.yaml")
    path.rename(boats / "classes/described.txt")
    path.symlink_to("../classes/described.txt")
    said = []
    for given in ("boats/saltmeadow", "boats/saltmeadow/vessel.yaml", "boats", str(boats), str(boat)):
        code = program.main(["survey", given])
        out = capsys.readouterr().out.replace(f"{tmp_path}/", "")
        said.append(out.replace("no vessel in: boats/bases, boats/classes\n", ""))
        assert code == 0, said
    assert len(set(said)) == 1
    assert program.main(["publish", "boats", "--only", "one-file", "--into", "site"]) == 0
    assert "data:image/jpeg" in (tmp_path / "site/saltmeadow/guest/manual.html").read_text()
    monkeypatch.chdir(boat)
    assert program.main(["survey", "."]) == 0


def test_at_the_top_of_the_disk_a_boat_has_her_own_folder_alone(tmp_path, monkeypatch, tried):
    from generator.vessel import confines

    tried(2)
    monkeypatch.setattr(
        confines, "resolved", lambda path: {"boat": tmp_path}.get(path.name, tmp_path.__class__("/"))
    )
    found = confines.confines_of(tmp_path.__class__("/boat"), "/boat")
    assert found.bounds == (tmp_path,)
    with pytest.raises(Outside):
        open_plain(tmp_path.__class__("/etc/passwd"), found.bounds)


SWAPS = ["file for a link", "file for a pipe", "folder for a link"]


@pytest.mark.parametrize("swap", SWAPS)
def test_what_is_swapped_between_look_and_use_is_not_read(swap, tmp_path, monkeypatch):
    """At the moment the path has been looked at, what lies there is exchanged."""
    boats, _, outside = outsiders.lay_out(tmp_path)
    place = boats / "classes/raft.jpg"
    outsiders.fill(place, "raft.jpg")
    look = opening.resolved

    def then_swapped(path):
        real = look(path)
        if swap == "folder for a link":
            shutil.move(place.parent, boats / "moved")
            place.parent.symlink_to(outside)
        else:
            place.unlink()
            place.symlink_to(outside / "raft.jpg") if swap == "file for a link" else os.mkfifo(place)
        return real

    monkeypatch.setattr(opening, "resolved", then_swapped)
    with within(LIMIT_S), pytest.raises((OSError, opening.NotPlain)):
        open_plain(place, (boats,))


def test_a_pipe_laid_after_the_last_look_is_not_waited_for(tmp_path, monkeypatch):
    bounds, place = (tmp_path.resolve(),), tmp_path / "a"
    place.touch()
    look, looks = os.stat, []

    def then_swapped(path, **options):
        found = look(path, **options)
        place.unlink()
        os.mkfifo(place)
        looks.append(path)
        return found

    monkeypatch.setattr(opening.os, "stat", then_swapped)
    with within(LIMIT_S), pytest.raises(opening.NotPlain):
        open_plain(place, bounds)
    assert looks == ["a"]
