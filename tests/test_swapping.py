"""One boat's folder is replaced as a whole or not at all, and what was there before goes only if it is ours."""

import json
import os
from pathlib import Path

import pytest
from berths import NEW, OLD, found, held, is_whole, put, said_of

from generator.machine import folders, swapping
from generator.machine.folders import Folder, Refused
from generator.machine.removing import MARK, PART, mark_of
from generator.machine.swapping import at_work, traces

WORK = ".boat.musterbook-new-0123456789abcdef"
BEFORE = ".boat.musterbook-old-0123456789abcdef"
JOURNAL = ".boat.musterbook-journal"


@pytest.fixture(params=["exchanged", "renamed", "by path"], autouse=True)
def variant(request, monkeypatch):
    """With the system's exchange, without, and as where the system has no descriptors of folders either."""
    if request.param != "exchanged":
        monkeypatch.setattr(folders, "_library", lambda: None)
    if request.param == "by path":
        monkeypatch.setattr(folders, "_BY_HANDLE", False)
    return request.param


def names(into):
    return sorted(path.name for path in into.iterdir())


def recovered(into):
    with at_work(into, "boat") as berth:
        return berth.said


def half_written(into, files, name=WORK):
    """A work folder as a killed run leaves it: marked, with its cover and one reader's manifest, and some files."""
    put(into / "elsewhere", OLD)
    (into / "elsewhere/boat").rename(into / name)
    (into / "elsewhere").rmdir()
    (into / name / MARK).write_bytes(mark_of(name))
    for each in files:
        path = into / name / each
        path.rmdir() if path.is_dir() else path.unlink()
    return into / name


def test_the_first_publishing_makes_the_folder(tmp_path):
    put(tmp_path / "deep/site", OLD)
    assert is_whole(tmp_path / "deep/site/boat", OLD)
    assert names(tmp_path / "deep/site") == ["boat"]


def test_a_second_one_replaces_it_whole(tmp_path):
    put(tmp_path, OLD)
    assert put(tmp_path, NEW) == []
    assert is_whole(tmp_path / "boat", NEW)
    assert names(tmp_path) == ["boat"], "something was left behind"


def test_the_same_manual_is_the_same_bytes(tmp_path):
    put(tmp_path, OLD)
    before = (tmp_path / "boat/crew/manifest.json").read_bytes()
    put(tmp_path, dict(reversed(OLD.items())))
    assert (tmp_path / "boat/crew/manifest.json").read_bytes() == before
    assert b"\r" not in before


def spoil_added(folder):
    (folder / "guest/notes.txt").write_text("my own")
    return "guest/notes.txt"


def spoil_changed(folder):
    (folder / "guest/index.html").write_text("edited by hand")
    return "guest/index.html"


def spoil_linked(folder):
    (folder / "guest/link").symlink_to(folder.parent)
    return "guest/link"


def spoil_listed_by_a_link(folder):
    (folder / "guest/index.html").rename(folder.parent / "elsewhere")
    (folder / "guest/index.html").symlink_to(folder.parent / "elsewhere")
    return "guest/index.html"


def spoil_reader_by_a_link(folder):
    (folder / "guest").rename(folder.parent / "elsewhere")
    (folder / "guest").symlink_to(folder.parent / "elsewhere")
    return "guest"


def spoil_manifest_removed(folder):
    (folder / "guest/manifest.json").unlink()
    return "guest/fonts/a.woff2, guest/index.html"


def spoil_cover_removed(folder):
    (folder / "manifest.json").unlink()
    return "crew/book.pdf, crew/manifest.json, guest/fonts/a.woff2 and 2 more"


def spoil_manifest_edited(folder):
    path = folder / "crew/manifest.json"
    path.write_text(path.read_text().replace('"good-until": null', '"good-until": "2030-01-01"'))
    return "crew/book.pdf, crew/manifest.json"


def spoil_manifest_of_another_program(folder):
    (folder / "manifest.json").write_text('{"files": {"guest/index.html": 1}}')
    return "crew/book.pdf, crew/manifest.json, guest/fonts/a.woff2 and 3 more"


def spoil_an_empty_folder(folder):
    (folder / "guest/mine").mkdir()
    return "guest/mine"


def spoil_pipe(folder):
    os.mkfifo(folder / "guest/pipe")
    return "guest/pipe"


def spoil_mixed(folder):
    """The guests' copy of another day beside the crew's of this one, each whole in itself."""
    put(folder.parent / "other", NEW)
    for path in sorted(folder.glob("guest/**/*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()
    (folder / "guest").rmdir()
    (folder.parent / "other/boat/guest").rename(folder / "guest")
    return "crew/manifest.json"


SPOILT = [value for name, value in sorted(globals().items()) if name.startswith("spoil_")]


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda one: one.__name__)
def test_a_folder_with_strange_files_is_refused_until_it_is_set_aside(tmp_path, spoil):
    put(tmp_path, OLD)
    name = spoil(tmp_path / "boat")
    before = sorted((tmp_path / "boat").rglob("*"))
    beside = [each for each in names(tmp_path) if each != "boat"]
    with pytest.raises(Refused, match="that musterbook did not write") as refused:
        put(tmp_path, NEW)
    assert f": {name}. Move them elsewhere, choose another folder with --into, or add --set-aside, " in str(
        refused.value
    )
    assert sorted((tmp_path / "boat").rglob("*")) == before
    assert names(tmp_path) == sorted(["boat", *beside])
    assert put(tmp_path, NEW, aside=True) == [
        f"set aside, nothing of it removed: {tmp_path}/boat.set-aside-1"
    ]
    assert is_whole(tmp_path / "boat", NEW)
    aside = tmp_path / "boat.set-aside-1"
    assert sorted(aside.rglob("*")) == [aside / path.relative_to(tmp_path / "boat") for path in before]


@pytest.mark.parametrize("kind", ["file", "link", "dead link", "pipe"])
def test_something_else_in_the_folder_s_place_is_refused_until_it_is_set_aside(tmp_path, kind):
    target = tmp_path / "boat"
    if kind == "file":
        target.write_text("a file")
    elif kind == "pipe":
        os.mkfifo(target)
    else:
        target.symlink_to(tmp_path.parent if kind == "link" else tmp_path / "nowhere")
    before = target.lstat()
    with pytest.raises(Refused, match="is no plain folder"):
        put(tmp_path, NEW)
    assert target.lstat() == before
    (tmp_path / "boat.set-aside-1").write_text("taken")
    put(tmp_path, NEW, aside=True)
    assert is_whole(target, NEW)
    assert (tmp_path / "boat.set-aside-2").lstat().st_ino == before.st_ino
    assert (tmp_path / "boat.set-aside-1").read_text() == "taken"


def test_setting_aside_leaves_a_folder_that_is_ours_where_it_is(tmp_path):
    put(tmp_path, OLD)
    assert put(tmp_path, NEW, aside=True) == []
    assert names(tmp_path) == ["boat"]


def test_what_systems_leave_in_folders_is_no_strange_file_and_moves_along(tmp_path):
    put(tmp_path, OLD)
    for name in (".DS_Store", "guest/Thumbs.db", "guest/fonts/desktop.ini"):
        (tmp_path / "boat" / name).write_bytes(name.encode())
    assert found(tmp_path / "boat").strange == ()
    assert put(tmp_path, NEW) == []
    assert held(tmp_path / "boat") == NEW | {
        ".DS_Store": b".DS_Store",
        "guest/Thumbs.db": b"guest/Thumbs.db",
        "guest/desktop.ini": b"guest/fonts/desktop.ini",  # there is no guest/fonts any more
    }
    assert names(tmp_path) == ["boat"]


def test_a_listed_file_that_somebody_removed_hinders_nothing(tmp_path):
    put(tmp_path, OLD)
    (tmp_path / "boat/guest/index.html").unlink()
    put(tmp_path, NEW)
    assert is_whole(tmp_path / "boat", NEW)


def test_an_empty_folder_is_ours_to_fill(tmp_path):
    (tmp_path / "boat").mkdir()
    put(tmp_path, NEW)
    assert is_whole(tmp_path / "boat", NEW)


def test_what_stands_beside_the_folder_is_left_alone(tmp_path):
    (tmp_path / "README.md").write_text("ours")
    (tmp_path / "other").mkdir()
    put(tmp_path, OLD)
    put(tmp_path, NEW)
    assert names(tmp_path) == ["README.md", "boat", "other"]


def test_a_file_laid_into_the_folder_while_writing_is_not_lost(tmp_path, monkeypatch):
    put(tmp_path, OLD)
    write = swapping._write

    def write_slowly(*args):
        write(*args)
        spoil_added(tmp_path / "boat")

    monkeypatch.setattr(swapping, "_write", write_slowly)
    with pytest.raises(Refused):
        put(tmp_path, NEW)
    assert held(tmp_path / "boat") == OLD | {"guest/notes.txt": b"my own"}
    assert names(tmp_path) == ["boat"]


@pytest.mark.parametrize("left", [WORK, BEFORE])
def test_a_manual_left_by_a_killed_swap_goes_unless_something_strange_lies_in_it(tmp_path, left):
    put(tmp_path, OLD)
    (tmp_path / "boat").rename(tmp_path / left)
    put(tmp_path, NEW)
    assert names(tmp_path) == ["boat"]
    put(tmp_path / "elsewhere", OLD)
    (tmp_path / "elsewhere/boat").rename(tmp_path / left)
    (tmp_path / "elsewhere").rmdir()
    spoil_added(tmp_path / left)
    (said,) = put(tmp_path, OLD)
    assert (
        said
        == f"moved aside: {tmp_path}/boat.set-aside-1: it holds what musterbook did not write: guest/notes.txt"
    )
    assert is_whole(tmp_path / "boat", OLD)
    assert held(tmp_path / "boat.set-aside-1") == OLD | {"guest/notes.txt": b"my own"}


@pytest.mark.parametrize(
    "gone",
    [
        (),
        ("guest/index.html",),
        ("guest/index.html", "guest/fonts/a.woff2", "guest/fonts", "guest/manifest.json", "crew/book.pdf"),
    ],
)
def test_what_a_killed_run_wrote_is_cleared_away(tmp_path, gone):
    left = half_written(tmp_path, gone)
    (left / f"{PART}0123456789abcdef").write_bytes(b"half")
    assert recovered(tmp_path) == []
    assert names(tmp_path) == []


@pytest.mark.parametrize("words", [None, b"", b"mine"])
def test_a_work_folder_that_does_not_prove_itself_ours_is_left_alone(tmp_path, words):
    left = tmp_path / WORK
    left.mkdir()
    if words is not None:
        (left / MARK).write_bytes(words)
    said = recovered(tmp_path)
    if words == b"mine":
        assert said == [f"left alone: {left}: nothing in it proves that it is musterbook's"]
        assert (left / MARK).read_bytes() == b"mine"
    else:  # nothing is in it
        assert (said, left.exists()) == ([], False)


def test_the_mark_of_one_folder_proves_nothing_of_another(tmp_path):
    left = tmp_path / WORK
    left.mkdir()
    (left / MARK).write_bytes(mark_of(WORK.replace("0", "1")))
    (left / "notes.txt").write_text("my own")
    assert "nothing in it proves" in recovered(tmp_path)[0]
    assert (left / "notes.txt").read_text() == "my own"


def test_the_window_between_two_renames_is_finished_with_the_new_manual(tmp_path):
    put(tmp_path, OLD)
    (tmp_path / "boat").rename(tmp_path / BEFORE)
    put(tmp_path / "elsewhere", NEW)
    (tmp_path / "elsewhere/boat").rename(tmp_path / WORK)
    (tmp_path / "elsewhere").rmdir()
    (tmp_path / JOURNAL).write_bytes(swapping._Journal(WORK, BEFORE).text)
    assert traces(tmp_path) == {"boat"}
    assert recovered(tmp_path) == []
    assert is_whole(tmp_path / "boat", NEW)
    assert names(tmp_path) == ["boat"]


@pytest.mark.parametrize("journal", [True, False])
def test_the_window_is_undone_where_the_new_manual_is_not_whole(tmp_path, journal):
    put(tmp_path, OLD)
    (tmp_path / "boat").rename(tmp_path / BEFORE)
    half_written(tmp_path, ["guest/index.html"])
    if journal:
        (tmp_path / JOURNAL).write_bytes(swapping._Journal(WORK, BEFORE).text)
    assert recovered(tmp_path) == []
    assert is_whole(tmp_path / "boat", OLD)
    assert names(tmp_path) == ["boat"]


def test_the_manual_that_stood_before_is_kept_while_no_whole_one_stands(tmp_path):
    put(tmp_path, OLD)
    (tmp_path / "boat").rename(tmp_path / BEFORE)
    (tmp_path / "boat").mkdir()
    (tmp_path / "boat/notes.txt").write_text("my own")
    assert recovered(tmp_path) == [
        f"left alone, for no whole manual stands in its stead: {tmp_path / BEFORE}"
    ]
    assert is_whole(tmp_path / BEFORE, OLD)


@pytest.mark.parametrize(
    "text",
    [
        b"mine",
        b'{"new": "a", "old": "b"}\n',
        json.dumps({"musterbook": "", "new": WORK, "old": "../precious"}).encode(),
        swapping._Journal(WORK, "boat").text,
        swapping._Journal(".boat2.musterbook-new-0123456789abcdef", BEFORE).text,
        b"[" * 3000,
    ],
)
def test_a_journal_that_is_not_ours_is_refused_and_left(tmp_path, text):
    put(tmp_path, OLD)
    (tmp_path / JOURNAL).write_bytes(text)
    with pytest.raises(Refused, match="is no file of musterbook's"):
        put(tmp_path, NEW)
    assert (tmp_path / JOURNAL).read_bytes() == text
    assert is_whole(tmp_path / "boat", OLD)


@pytest.mark.parametrize("harm", ["changed", "removed", "linked", "exchanged"])
def test_what_is_read_back_otherwise_than_it_was_meant_is_never_called_published(tmp_path, monkeypatch, harm):
    put(tmp_path, OLD)
    flush, target = Folder.flush, tmp_path / "boat"

    def spoil(self):
        flush(self)
        page = target / "guest/index.html"
        if self.path == tmp_path and page.exists() and page.read_bytes() == NEW["guest/index.html"]:
            if harm == "exchanged":
                target.rename(tmp_path / "taken")
                target.mkdir()
                return
            page.unlink()
            if harm != "removed":
                page.symlink_to(__file__) if harm == "linked" else page.write_bytes(b"torn")

    monkeypatch.setattr(Folder, "flush", spoil)
    with pytest.raises(Refused, match="the manual that stood there before was put back") as refused:
        put(tmp_path, NEW)
    monkeypatch.undo()
    if harm == "exchanged":
        assert "was exchanged for something else" in str(refused.value)
    else:
        assert "does not hold what was written: guest/index.html" in str(refused.value)
    assert is_whole(target, OLD)
    put(tmp_path, NEW)
    assert is_whole(target, NEW)


def test_a_name_that_is_one_of_our_own_is_no_boat_s(tmp_path):
    with pytest.raises(Refused, match="rename the folder"), at_work(tmp_path, "a.musterbook-lock"):
        pass
    assert names(tmp_path) == []


def test_a_manifest_lists_what_the_test_thinks_it_does(tmp_path):
    put(tmp_path, OLD)
    cover, manifests = said_of(OLD)
    text = json.loads((tmp_path / "boat/guest/manifest.json").read_text())
    assert text.pop("seal")
    assert text == manifests["guest"]
    assert cover["readers"] == ["crew", "guest"]
    assert manifests["crew"]["beside"].keys() == {"guest"}
    assert not (Path(tmp_path) / "boat/guest/manifest.json").read_text().count("book.pdf")
