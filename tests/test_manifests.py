"""What a published folder says of itself, and that nothing else passes for it."""

import json

import pytest
from berths import NEW, OLD, found, put, said_of

from generator.machine.folders import Folder, digest
from generator.machine.manifests import MANIFEST, cover_of, find_copy, manifest_of, text_of


@pytest.fixture
def boat(tmp_path):
    put(tmp_path, OLD)
    return tmp_path / "boat"


def sealed(said):
    return text_of({key: value for key, value in said.items() if key != "seal"})


def read(folder):
    return json.loads((folder / MANIFEST).read_text())


def test_a_whole_folder_is_found_whole(boat):
    whole = found(boat)
    assert (whole.intact, whole.strange) == (True, ())
    assert whole.readers.keys() == {"crew", "guest"}
    assert whole.cover["vessel"] == "Boat"


@pytest.mark.parametrize(
    "name", ["", "..", "../crew/book.pdf", "/etc/passwd", "a//b", "a/./b", "C:x", "a\\b", "a\0b", MANIFEST]
)
def test_a_manifest_that_lists_what_no_folder_holds_is_none(boat, name):
    said = read(boat / "guest")
    said["files"][name] = {"output": "site", "sha256": digest(b"")}
    (boat / "guest" / MANIFEST).write_bytes(sealed(said))
    with Folder.at(boat / "guest") as folder:
        assert manifest_of(folder) is None


@pytest.mark.parametrize(
    "spoil",
    [
        lambda said: said.pop("files"),
        lambda said: said.update(more="x"),
        lambda said: said.update(files=[]),
        lambda said: said["files"]["index.html"].update(size=3),
        lambda said: said["files"].update({"a": None}),
        lambda said: said["files"]["index.html"].update(sha256=3),
        lambda said: said.update({"surveyed-on": "1 June"}),
        lambda said: said.update({"good-until": "2026-02-30"}),
        lambda said: said.update({"good-until": 3}),
        lambda said: said.update({"proof-copy": "no"}),
        lambda said: said.update(beside={"crew": 3}),
        lambda said: said.update(vessel=None),
    ],
)
def test_a_manifest_of_another_shape_is_none_even_if_it_is_sealed(boat, spoil):
    said = read(boat / "guest")
    spoil(said)
    (boat / "guest" / MANIFEST).write_bytes(sealed(said))
    with Folder.at(boat / "guest") as folder:
        assert manifest_of(folder) is None
    assert found(boat).strange


@pytest.mark.parametrize(
    "text", [b"", b"{}", b"[]", b"null", b"\xff\xfe", b"[" * 100_000, b'{"seal": 1}', b" " * 9_000_000]
)
def test_what_is_no_manifest_is_none(boat, text):
    (boat / MANIFEST).write_bytes(text)
    with Folder.at(boat) as folder:
        assert (cover_of(folder), manifest_of(folder)) == (None, None)
    assert MANIFEST in found(boat).changed


def test_every_edit_of_a_manifest_shows(boat):
    """Each letter, one by one, of the cover."""
    text = (boat / MANIFEST).read_bytes()
    for at in range(0, len(text), 3):
        (boat / MANIFEST).write_bytes(text[:at] + bytes([text[at] ^ 1]) + text[at + 1 :])
        assert MANIFEST in found(boat).changed, at


def test_a_reader_s_folder_speaks_for_itself_wherever_it_is_copied_to(boat, tmp_path):
    (boat / "guest").rename(tmp_path / "stick")
    with Folder.at(tmp_path / "stick") as folder:
        alone = find_copy(folder)
    assert (alone.intact, alone.strange, list(alone.readers)) == (True, (), ["guest"])
    assert found(boat).missing == ("guest/manifest.json",)


def test_copies_of_two_readers_do_not_pass_for_one_another(boat, tmp_path):
    (boat / "guest").rename(tmp_path / "kept")
    (boat / "crew").rename(boat / "guest")
    (tmp_path / "kept").rename(boat / "crew")
    assert {"guest/manifest.json", "crew/manifest.json"} <= set(found(boat).changed)


@pytest.mark.parametrize("day", ["2026-06-01", "2026-06-02"])
def test_copies_of_two_publishings_are_told_apart(boat, tmp_path, day):
    """Each whole in itself, published on one day or on two."""
    other = tmp_path / "other"
    put(other, NEW)
    if day != "2026-06-01":
        for path in (other / "boat").rglob(MANIFEST):
            said = read(path.parent)
            path.write_bytes(sealed(said | {"surveyed-on": day, "until": day}))
    (boat / "guest").rename(tmp_path / "kept")
    (other / "boat/guest").rename(boat / "guest")
    changed = found(boat).changed
    assert "crew/manifest.json" in changed
    assert ("guest/manifest.json" in changed) == (day != "2026-06-01")


def test_a_guest_s_manifest_tells_nothing_of_other_readers_files():
    """Other words for the crew, the same for guests: not a byte of what guests get is another, the cover's neither."""
    cover, manifests = said_of(OLD)
    guests = [text_of(cover), text_of({**manifests["guest"], "description": "0"})]
    cover, manifests = said_of({**OLD, "crew/book.pdf": b"another telephone number"})
    assert [text_of(cover), text_of({**manifests["guest"], "description": "0"})] == guests
