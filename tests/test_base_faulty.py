"""A base file or mark that is faulty is told with its place, and stops no boat but hers."""

import pytest
from fleet_of_fakes import VESSELS, edit, lay_out
from PIL import Image

from generator.__main__ import main
from generator.vessel.loading import load

WRONG = {
    "a list for the operator": ("operator: Gravelin Charter", "operator: [a, b]"),
    "keys for the mark": ("mark: mark.png", "mark: {a: b}"),
    "a list for the mark": ("mark: mark.png", "mark: [mark.png]"),
    "keys for the colours": ('["#5b2a86", "#5a4632"]', "{a: b}"),
    "a list of lists": ('["#5b2a86", "#5a4632"]', "[[a], [b]]"),
    "a list for the phone": ("{value: +33 6 39 98 00 45, for: guests}", "[1, 2]"),
    "keys for the channel": ("channel: VHF 77", "channel: {a: b}"),
    "no operator": ("operator: Gravelin Charter\n", ""),
    "a key twice": ("channel: VHF 77", "channel: VHF 77\nchannel: VHF 72"),
    "a key unknown": ("channel: VHF 77", "chanel: VHF 77"),
    "an alias": ("channel: VHF 77", "channel: &a VHF 77"),
    "a line of its own": ("do-first: call", "do-first: |\n  a\n  call"),
    "letters without end": ("channel: VHF 77", f"channel: {'VHF ' * 400}"),
    "a tab": ("channel: VHF 77", "\tchannel: VHF 77"),
    "another format": ("format: 1", "format: 2"),
    "freed for the crew": ("for: guests", "for: crew"),
}


@pytest.fixture
def fleet(tmp_path, monkeypatch):
    """Ombrelune, who has the base, and Zilte Wind, who has none."""
    lay_out(tmp_path / "boats", "ombrelune", "zilte-wind")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "boats"


@pytest.mark.parametrize("wrong", WRONG)
def test_what_is_wrong_is_told_at_its_place_and_the_other_boat_goes_on(wrong, fleet, capsys):
    edit(fleet, *WRONG[wrong], "base.yaml")
    assert main(["survey", "boats"]) == 1
    out = capsys.readouterr().out
    assert "boats/zilte-wind: no findings" in out
    assert "boats/base.yaml:" in out


@pytest.mark.parametrize(
    "data", [b"", b"\x00" * 50, b"\xff\xfe", b"\x89PNG\r\n\x1a\n" + bytes(range(256)), b"format: 1\n", b"format: 1\n[", b"format: 1\n" + b"a: b\n" * 300_000],
    ids=["nothing", "noughts", "a mark of bytes", "a picture", "its format alone", "broken off", "too large"],
)  # fmt: skip
def test_a_file_of_anything_else_is_told(data, fleet, capsys):
    (fleet / "base.yaml").write_bytes(data)
    assert main(["survey", "boats"]) == 1
    out, err = capsys.readouterr()
    assert "boats/zilte-wind: no findings" in out
    assert err == ""


def test_only_the_boats_that_name_it_are_stopped(fleet, capsys):
    (fleet / "base.yaml").unlink()
    assert main(["publish", "boats", "--only", "calendar", "--into", "site"]) == 1
    out = capsys.readouterr().out
    assert "boats/ombrelune: not published: 1 defect" in out
    assert "there is no base file '../base.yaml'" in out
    assert "boats/zilte-wind: published" in out


@pytest.mark.parametrize(
    "named", ["''", "private", "[a]", "..", "x" * 5000, '"a\\0b"', "../base.yaml/x", "classes"]
)
def test_a_name_that_leads_to_no_base_file(named, fleet):
    edit(fleet, "base: ../base.yaml", f"base: {named}", "ombrelune/vessel.yaml")
    vessel, findings = load(fleet / "ombrelune", "boats/ombrelune")
    assert vessel.charter_base is None
    assert findings
    assert all(str(each.place) == "boats/ombrelune/vessel.yaml:5:7" for each in findings)


@pytest.mark.parametrize(
    ("size", "kind", "message"),
    [((40, 40), "PNG", "40 x 40 points, and 200 are the least"), ((900, 100), "PNG", "more than 4 times as long as wide"), ((100, 900), "JPEG", "more than 4 times")],
)  # fmt: skip
def test_a_mark_that_does_not_print_well_is_told(size, kind, message, fleet, capsys):
    Image.new("RGB", size, "purple").save(fleet / "mark.png", kind)
    assert main(["survey", "boats/ombrelune"]) == 0
    assert message in capsys.readouterr().out


def test_a_photo_is_no_mark(fleet, capsys):
    Image.effect_noise((480, 480), 120).convert("RGB").save(fleet / "mark.png")
    assert main(["survey", "boats/ombrelune"]) == 0
    assert "bytes on every page, and 60,000 are the most" in capsys.readouterr().out


@pytest.mark.parametrize(
    "data",
    [b"", b"<svg xmlns='http://www.w3.org/2000/svg'><script>x</script></svg>", b"\x89PNG\r\n\x1a\n", None],
)
def test_a_mark_that_is_no_picture_is_told_and_not_printed(data, fleet, capsys):
    picture = (VESSELS / "mark.png").read_bytes()[:900] if data is None else data  # broken off
    (fleet / "mark.png").write_bytes(picture)
    assert main(["publish", "boats/ombrelune", "--only", "site", "--into", "site"]) == 0
    assert "boats/base.yaml:5:7: recommendation base.mark-missing" in capsys.readouterr().out
    index = (fleet.parent / "site/ombrelune/guest/index.html").read_text()
    assert "Gravelin Charter" in index
    assert "<img" not in index
