"""The main job: all four boats from vessels/ to book, cards, site and one file, with the real outputs."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pypdf
import pytest

from generator import __main__ as program

ROOT = Path(__file__).parent.parent
BOATS = ("nordgyllen", "ombrelune", "saltmeadow", "zilte-wind")
WITHIN_S = 60 * 4 * 3  # a boat takes 15 s of one idle core; a busy machine is slower


@pytest.fixture(scope="module")
def site(tmp_path_factory, pdf_engine):
    """The site folder with all four boats, the exit code, and how long it took."""
    into = tmp_path_factory.mktemp("all") / "site"
    start = time.monotonic()
    code = program.main(["publish", str(ROOT / "vessels"), "--into", str(into)])
    return into, code, time.monotonic() - start


def files(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def text_of(path):
    with pypdf.PdfReader(path) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_all_four_are_published_without_defects(site):
    into, code, took_s = site
    assert code == 0
    assert sorted(path.name for path in into.iterdir()) == list(BOATS)
    assert took_s < WITHIN_S


@pytest.mark.parametrize("boat", BOATS)
def test_each_reader_gets_a_folder_with_what_is_theirs(site, boat):
    folder = site[0] / boat
    names = set(files(folder))
    assert {
        "manifest.json",
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
    assert set(manifest["files"]) == names - {"manifest.json"}
    assert manifest["good-until"] >= "2027-06-01"
    assert manifest["surveyed-on"] == "2026-06-01"


@pytest.mark.parametrize("boat", BOATS)
def test_the_one_file_is_small_enough_to_send(site, boat):
    assert (site[0] / boat / "guest/manual.html").stat().st_size < 3_000_000


@pytest.mark.parametrize("boat", BOATS)
def test_every_page_card_and_screen_says_that_she_is_no_real_vessel(site, boat):
    folder = site[0] / boat
    for name in ("crew/book.pdf", "guest/cards.pdf"):
        for number, text in enumerate(text_of(folder / name), 1):
            if text.strip():
                assert "specimen" in text.lower(), f"{name}, page {number}"
    for path in folder.glob("guest/*.html"):
        assert "specimen" in path.read_text(encoding="utf-8").lower(), path.name


@pytest.mark.parametrize("boat", BOATS)
def test_every_page_card_and_screen_says_until_when_it_is_good(site, boat):
    folder = site[0] / boat
    for name in ("crew/book.pdf", "guest/cards.pdf"):
        for number, text in enumerate(text_of(folder / name), 1):
            if text.strip():
                assert "good until" in " ".join(text.split()).lower(), f"{name}, page {number}"
    for path in folder.glob("guest/*.html"):
        assert "good until" in path.read_text(encoding="utf-8").lower(), path.name


def test_the_same_bytes_come_again_in_another_zone_locale_and_order_of_names(site, tmp_path):
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
    first, second = files(site[0] / "zilte-wind"), files(tmp_path / "zilte-wind")
    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []
