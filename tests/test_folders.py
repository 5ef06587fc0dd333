"""A folder held open: no link is followed, no pipe waited for, and nothing replaced, even by who comes between look and step."""

import os

import pytest
from alarm import within

from generator.machine import folders
from generator.machine.folders import Folder, NoPlainFile

SWAPPED = {
    "link to a folder": lambda path, out: path.symlink_to(out),
    "link to a file": lambda path, out: path.symlink_to(out / "letter.txt"),
    "dangling link": lambda path, _: path.symlink_to("nowhere"),
    "pipe": lambda path, _: os.mkfifo(path),
}


@pytest.fixture
def held(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out/letter.txt").write_bytes(b"precious")
    (tmp_path / "in").mkdir()
    with Folder.at(tmp_path / "in") as folder:
        yield folder


@pytest.fixture(params=["seen", "swapped in after the look"])
def late(request, monkeypatch, held):
    """The look at a name tells of a plain folder or file, and what is opened is another thing."""

    def lie(folder):
        if request.param != "seen":
            (held.path / "plain").write_bytes(b"") if not folder else (held.path / "plain").mkdir()
            found = (held.path / "plain").stat()
            monkeypatch.setattr(Folder, "look", lambda self, name: found)

    return lie


@pytest.mark.parametrize("kind", SWAPPED)
def test_no_link_is_followed_into_a_folder(held, late, kind):
    SWAPPED[kind](held.path / "name", held.path.parent / "out")
    late(folder=True)
    with within(5), pytest.raises(OSError, match=r"Not a directory|Too many levels"):
        held.inner("name")


@pytest.mark.parametrize("kind", [*SWAPPED, "folder"])
@pytest.mark.parametrize(
    "step",
    [
        lambda held: held.read("name", 100),
        lambda held: held.digest("name"),
        lambda held: held.remove("name", lambda _: True),
        lambda held: held.remove_plain("name"),
        lambda held: os.close(held.open_to_write("name")),
    ],
)
def test_what_is_no_plain_file_is_neither_read_nor_removed(held, late, kind, step):
    path, out = held.path / "name", held.path.parent / "out"
    path.mkdir() if kind == "folder" else SWAPPED[kind](path, out)
    late(folder=False)
    with within(5), pytest.raises(OSError):  # noqa: PT011 - of which kind, and in whose words, is the system's matter
        step(held)
    assert os.path.lexists(path)
    assert (out / "letter.txt").read_bytes() == b"precious"


@pytest.mark.parametrize("swap", ["another file", "a link", "more in it", "nothing"])
def test_a_file_that_is_another_when_it_goes_stays(held, swap):
    path = held.path / "name"
    path.write_bytes(b"ours")

    def look_away(found):
        if swap == "more in it":
            path.write_bytes(b"ours, and somebody's")
        else:
            path.rename(held.path / "taken")
            if swap != "nothing":
                path.symlink_to("taken") if swap == "a link" else path.write_bytes(b"ours")
        return found == b"ours"

    assert held.remove("name", look_away) is False
    assert swap == "nothing" or os.path.lexists(path)


def test_a_file_goes_only_with_its_own_bytes(held):
    (held.path / "name").write_bytes(b"ours")
    assert held.remove_exactly("name", folders.digest(b"theirs")) is False
    assert held.remove("name", lambda found: found == b"ours", most_bytes=3) is False
    assert held.remove_exactly("name", folders.digest(b"ours")) is True
    assert held.names() == []


@pytest.mark.parametrize("way", ["in one step", "looked at first"])
def test_nothing_is_ever_replaced(held, way, monkeypatch):
    if way != "in one step":
        monkeypatch.setattr(folders, "_library", lambda: None)
    for name in ("one", "other"):
        held.write(name, name.encode())
    with pytest.raises(FileExistsError):
        held.move("one", held, "other")
    with pytest.raises(FileExistsError):
        held.write("other", b"")
    with pytest.raises(FileExistsError):
        held.make("other")
    assert (held.path / "other").read_bytes() == b"other"


def test_what_is_held_open_is_the_folder_whatever_its_name_leads_to(held, tmp_path):
    (tmp_path / "in").rename(tmp_path / "moved")
    (tmp_path / "in").symlink_to("out")
    held.write("new", b"x")
    assert (tmp_path / "moved/new").read_bytes() == b"x"
    assert not (tmp_path / "out/new").exists()


def test_an_error_names_the_file_by_its_whole_path(held):
    with pytest.raises(FileNotFoundError) as told:
        held.read("gone", 1)
    assert told.value.filename == str(held.path / "gone")
    assert not isinstance(told.value, NoPlainFile)
