"""The main job: all seven boats from vessels/ to book, cards, site and one file, with the real outputs."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from specimens import BOATS, files_in

from generator import __main__ as program

ROOT = Path(__file__).parent.parent
WITHIN_S = 60 * 3  # a boat takes 15 s of one idle core; a busy machine is slower
FOUND = {"ombrelune": "1 note", "tresmare": "no findings (1 deferred)"}
"""What the survey says of a specimen: that the telephone of her base is freed, and with what two people sail knowingly."""
pytestmark = pytest.mark.thorough


def test_there_are_seven():
    assert BOATS == [
        "kelpwren",
        "nordgyllen",
        "ombrelune",
        "saltmeadow",
        "tansywade",
        "tresmare",
        "zilte-wind",
    ]


@pytest.mark.parametrize("boat", BOATS)
def test_each_is_published_without_a_fault(specimen, boat):
    """No page, card or screen left a record either: each would be a finding."""
    done = specimen(boat)
    assert (done.code, done.err) == (0, "")
    assert f"vessels/{boat}: published -> " in done.out
    assert f"; {FOUND.get(boat, 'no findings')})" in done.out
    assert done.took_s < WITHIN_S


def test_all_in_one_order_are_what_each_is_alone(specimen, tmp_path, capsys):
    """The site is the quickest output of all; what stands in one boat's folder owes nothing to the boats before her."""
    assert program.main(["publish", str(ROOT / "vessels"), "--only", "site", "--into", str(tmp_path)]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == BOATS
    for boat in BOATS:
        together, alone = files_in(tmp_path / boat), specimen(boat).files()
        differ = sorted(name for name in together if together[name] != alone[name])
        assert differ == ["guest/manifest.json", "manifest.json"], boat  # they list fewer files, and readers


@pytest.mark.parametrize("boat", ["kelpwren", "tansywade"])
def test_the_pages_of_a_boat_without_a_raft_name_none(specimen, boat):
    pages = {name: text for name, text in specimen(boat).files().items() if name.endswith(".html")}
    assert len(pages) > 40
    for name, page in pages.items():
        shown = re.sub(r"<(style|script).*?</\1>", "", page.decode("utf-8"), flags=re.DOTALL)
        assert re.findall(r"\b(?:life ?)?rafts?\b", shown, re.IGNORECASE) == [], name


@pytest.mark.parametrize("boat", BOATS)
def test_each_reader_gets_a_folder_with_what_is_theirs(specimen, boat):
    folder = specimen(boat).folder
    names = set(specimen(boat).files())
    assert {
        "manifest.json",
        "crew/manifest.json",
        "guest/manifest.json",
        "crew/book.pdf",
        "guest/cards.pdf",
        "guest/index.html",
        "guest/manual.html",
        "guest/style.css",
        "guest/abandon-ship.html",
        "guest/man-overboard.html",
        "guest/fire.html",
        "guest/flooding.html",
        "guest/plan.html",
        "guest/gear.html",
        "guest/bill.html",
        "guest/distress-call.html",
    } <= names
    assert {name.partition("/")[0] for name in names} == {"manifest.json", "crew", "guest"}
    assert [name for name in names if name.startswith("guest/fonts/") and name.endswith(".ttf")]
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    assert manifest["readers"] == ["crew", "guest"]
    for reader in manifest["readers"]:
        own = json.loads((folder / reader / "manifest.json").read_text(encoding="utf-8"))
        assert {f"{reader}/{name}" for name in own["files"]} == {
            name for name in names if name.startswith(f"{reader}/") and not name.endswith("/manifest.json")
        }
    assert "2026-06-01" < manifest["good-until"] < "2027-06-01"  # a test falls due first
    assert manifest["surveyed-on"] == "2026-06-01"


@pytest.mark.parametrize("boat", BOATS)
def test_the_one_file_is_small_enough_to_send(specimen, boat):
    assert (specimen(boat).folder / "guest/manual.html").stat().st_size < 3_000_000


@pytest.mark.one_in(3, "boat")
@pytest.mark.parametrize("boat", BOATS)
def test_every_page_card_and_screen_says_that_she_is_no_real_vessel(specimen, boat):
    folder = specimen(boat).folder
    for name in ("crew/book.pdf", "guest/cards.pdf"):
        for number, text in enumerate(specimen(boat).texts(name), 1):
            if text.strip():
                assert "specimen" in text.lower(), f"{name}, page {number}"
    for path in folder.glob("guest/*.html"):
        assert "specimen" in path.read_text(encoding="utf-8").lower(), path.name


@pytest.mark.one_in(3, "boat")
@pytest.mark.parametrize("boat", BOATS)
def test_every_page_card_and_screen_says_until_when_it_is_good(specimen, boat):
    folder = specimen(boat).folder
    for name in ("crew/book.pdf", "guest/cards.pdf"):
        for number, text in enumerate(specimen(boat).texts(name), 1):
            if text.strip():
                assert "good until" in " ".join(text.split()).lower(), f"{name}, page {number}"
    for path in folder.glob("guest/*.html"):
        assert "good until" in path.read_text(encoding="utf-8").lower(), path.name


def test_the_same_bytes_come_again_in_another_zone_locale_and_order_of_names(specimen, tmp_path):
    """In a process of its own, so that nothing the first run kept in memory helps, and its sets are shuffled differently."""
    environment = {
        **os.environ,
        "TZ": "Pacific/Kiritimati",
        "LC_ALL": "tr_TR.UTF-8",
        "LANG": "tr_TR.UTF-8",
        "PYTHONHASHSEED": "7",
        "PYTHONPATH": str(ROOT),
        "SOURCE_DATE_EPOCH": "1900000000",
    }
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "generator",
            "publish",
            str(ROOT / "vessels" / "zilte-wind"),
            "--into",
            str(tmp_path),
        ],
        env=environment,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    first, second = specimen("zilte-wind").files(), files_in(tmp_path / "zilte-wind")
    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []
