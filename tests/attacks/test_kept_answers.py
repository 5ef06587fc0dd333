"""What lies where commission keeps answers: only a file of ours is added to or removed, and no answer of a crew's key is kept."""

import os
import random
from pathlib import Path

import pytest

from generator.__main__ import main
from generator.commissioning.conversation import BrokenOff, Wish, carry_out
from generator.commissioning.kept import Kept, kept_for
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission

OURS = "# musterbook commission: first answers for Tern\n"


def typing(*lines):
    left = list(lines)

    def ask(_prompt):
        if not left:
            raise EOFError
        return left.pop(0)

    return ask


def whole(folder):
    """Everything below a folder: kind, text or target of each path."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_symlink():
            found[name] = ("link", str(path.readlink()))
        elif path.is_fifo() or path.is_dir():
            found[name] = ("pipe" if path.is_fifo() else "folder", "")
        else:
            found[name] = ("file", path.read_bytes())
    return found


def _file(text):
    def lay(path):
        path.write_bytes(text)

    return lay


def _link(target):
    def lay(path):
        (path.parent / "mine.txt").write_text(f"{OURS}vessel.type=monohull\n")
        path.symlink_to(target)

    return lay


FOREIGN = {
    "a letter": _file(b"Dear Tern,\n"),
    "her name and what could be answers": _file(b"Tern\nvessel.type=monohull\n"),
    "an empty file": _file(b""),
    "nearly ours": _file(OURS.encode()[1:]),
    "ours, of another boat": _file(OURS.replace("Tern", "TERN'").encode()),
    "no text": _file(b"\xff\xfe\x00\x01"),
    "ours in another coding": _file(OURS.encode("utf-16")),
    "too large": _file(OURS.encode() + b"#" * 200_000 + b"\n"),
    "one line that is not whole": _file(OURS.encode()[:-1]),
    "a folder": lambda path: path.mkdir(),
    "a pipe": os.mkfifo,
    "a link to one of ours": _link("mine.txt"),
    "a link to nowhere": _link("nowhere"),
    "a link to itself": _link("first-answers.txt"),
}


@pytest.mark.attack("ours-alone")
@pytest.mark.parametrize("what", FOREIGN)
def test_what_is_not_ours_is_neither_read_written_nor_removed(tmp_path, what, tried):
    ways = (
        {"ask": typing("monohull")},
        {"ask": typing("monohull"), "start_over": True},
    )
    for number, way in enumerate(ways):
        into = tmp_path / str(number)
        (into / "tern").mkdir(parents=True)
        FOREIGN[what](into / "tern" / "first-answers.txt")
        before = whole(into)
        with pytest.raises(Refusal, match=r"not from 'musterbook commission'|whose folder has the same name"):
            carry_out(
                Wish("Tern", into, way.get("set", ()), way.get("start_over", False)),
                way["ask"],
                lambda _: None,
            )
        assert whole(into) == before
    into = tmp_path / "set"
    (into / "tern").mkdir(parents=True)
    FOREIGN[what](into / "tern" / "first-answers.txt")
    before = whole(into)
    done = carry_out(Wish("Tern", into, ("vessel.type=trimaran",)), None, lambda _: None)
    assert "type: trimaran" in done.path.read_text()
    assert {name: each for name, each in whole(into).items() if name in before} == before
    tried(len(ways) + 1)


@pytest.mark.attack("ours-alone")
def test_what_takes_its_place_meanwhile_is_not_written_to_nor_removed(tmp_path, tried):
    for name, lay in FOREIGN.items():
        into = tmp_path / str(len(list(tmp_path.iterdir())))
        (into / "tern").mkdir(parents=True)
        kept = Kept(into / "tern" / "first-answers.txt", "Tern")
        kept.keep({"vessel.type": "monohull"})
        kept.path.unlink()
        lay(kept.path)
        before = whole(into)
        with pytest.raises(Refusal, match="cannot be kept"):
            kept.keep({"vessel.use": "charter"})
        kept.remove()
        assert whole(into) == before, name
    tried(len(FOREIGN) * 2)


@pytest.mark.attack("private")
def test_no_answer_that_only_the_crew_may_read_is_kept(tmp_path):
    kept = Kept(tmp_path / "tern" / "first-answers.txt", "Tern")
    secret = {
        "vessel.hull-id": "SECRET1",
        "radio.beacons[EPIRB].hex-id": "2024000000FFBFF",
        "people[mate].phone": "SECRET2",
    }
    kept.keep(secret | {"vessel.use": "private"})
    text = kept.path.read_text()
    assert "vessel.use=private" in text
    assert not any(value in text for value in secret.values())


@pytest.mark.attack("no-traceback")
def test_spoilt_answers_kept_are_told_or_read(tmp_path, tried, capsys):
    """Bytes of a file of ours changed at random: it is refused or used, the words say why, and a file that is refused stays."""
    whole_text = (
        OURS
        + "# more\nvessel.type=monohull\npeople=skipper, mate\nrafts[liferaft].stowage=none\nradio.call-sign=none\n"
    ).encode()
    chance = random.Random(7)
    for number in range(150):
        spoilt = bytearray(whole_text)
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(OURS), len(spoilt))
            spoilt[at : at + chance.randint(0, 3)] = bytes(
                chance.choice(b"\x00\xff\n=[].#a0 \t") for _ in range(chance.randint(0, 3))
            )
        into = tmp_path / str(number)
        (into / "tern").mkdir(parents=True)
        path = into / "tern" / "first-answers.txt"
        path.write_bytes(spoilt)
        code = main(["commission", "Tern", "--into", str(into), "--ask-nothing"])
        told = capsys.readouterr()
        assert code in (0, 2), (code, told.err)
        assert "fault of the program" not in told.err
        assert (into / "tern" / "vessel.yaml").exists() == (code == 0)
        assert (path.read_bytes() == spoilt) if path.exists() else code == 0
        assert path.exists() or "kept for Tern" in told.out
    tried(150)


@pytest.mark.attack("ours-alone")
def test_a_line_that_broke_off_is_asked_again_and_the_rest_goes_on(tmp_path):
    path = tmp_path / "tern" / "first-answers.txt"
    path.parent.mkdir()
    path.write_text(f"{OURS}vessel.type=monohull\npeople=skipper, m")
    kept = kept_for(path.with_name("vessel.yaml"), "Tern")
    assert kept.answers == {"vessel.type": "monohull"}
    with pytest.raises(BrokenOff):
        carry_out(Wish("Tern", tmp_path), typing("skipper, mate"), lambda _: None)
    assert path.read_text() == f"{OURS}vessel.type=monohull\npeople=skipper, mate\n"


@pytest.mark.attack("ours-alone")
def test_other_files_of_the_folder_stay(tmp_path):
    folder = tmp_path / "tern"
    folder.mkdir()
    (folder / "private.yaml").write_text("format: 1\n")
    (folder / "photo.jpg").write_bytes(b"x")
    carry_out(Wish("Tern", tmp_path), typing(*["unknown"] * 30), lambda _: None)
    assert {each.name for each in folder.iterdir()} == {"private.yaml", "photo.jpg", "vessel.yaml"}
    with pytest.raises(Refusal, match="is there already"):
        commission("Tern", {}, tmp_path)


def test_where_nothing_can_be_kept_it_is_told_before_more_is_asked(tmp_path):
    (tmp_path / "file").write_text("")
    asked = []

    def ask(prompt):
        asked.append(prompt)
        return "monohull"

    with pytest.raises(Refusal, match="answers cannot be kept in"):
        carry_out(Wish("Tern", Path(tmp_path / "file")), ask, lambda _: None)
    assert len(asked) == 1
