"""Wording: labels, pages and the spelling alphabet; what another language lacks is named; nothing said is missing."""

import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from generator.manual.inventory import _KIND_ORDER
from generator.manual.procedures import slug
from generator.reading.fields import READERS
from generator.reading.findings import Weight
from generator.reading.names import STANDINGS
from generator.reading.values import Stamp
from generator.shelves import languages as wording
from generator.shelves.folder import templates_folder
from generator.shelves.languages import MissingWording, catalogue, fill, languages, markdown, missing, slots
from generator.shelves.spaces import hull_types
from generator.shelves.spelling import spelled
from generator.vessel.gear import SIDES
from generator.vessel.particulars import WATERS, Contact, Particulars
from generator.vessel.raft import Raft

ROOT = Path(__file__).resolve().parent.parent

# ITU Radio Regulations, appendix 14, with the ICAO spellings of Alfa and Juliett.
ITU_ALPHABET = [
    "Alfa",
    "Bravo",
    "Charlie",
    "Delta",
    "Echo",
    "Foxtrot",
    "Golf",
    "Hotel",
    "India",
    "Juliett",
    "Kilo",
    "Lima",
    "Mike",
    "November",
    "Oscar",
    "Papa",
    "Quebec",
    "Romeo",
    "Sierra",
    "Tango",
    "Uniform",
    "Victor",
    "Whiskey",
    "X-ray",
    "Yankee",
    "Zulu",
]
PAGES = {
    "disclaimer": {"boat": "Saltmeadow"},
    "about": {},
    "never-rely": {},
    "first-words-alone": {},
    "first-words": {
        "muster_place": "cockpit",
        "general_alarm": "seven blasts",
        "abandon_order": "the skipper calls",
    },
}


@pytest.fixture
def shelf_of(tmp_path, monkeypatch):
    """A copy of the texts in which a second language 'xx' can be spoilt."""
    shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / "en")
    shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / "xx")
    monkeypatch.setattr(wording, "templates_folder", lambda: tmp_path)
    catalogue.cache_clear()
    yield tmp_path / "text" / "xx"
    catalogue.cache_clear()


def test_say_fills_in():
    assert catalogue().say("mark.good-until", date="9 May 2027") == "good until 9 May 2027"
    assert (
        catalogue().say("bill.takes-over", duty="Make the distress call")
        == "takes over: Make the distress call"
    )
    with pytest.raises(MissingWording, match=r"no label 'book\.colour'"):
        catalogue().say("book.colour")
    with pytest.raises(KeyError):
        catalogue().say("mark.good-until")


def test_months_and_days():
    assert len(catalogue().labels["months"].split()) == 12
    assert catalogue().day(date(2026, 6, 1)) == "1 June 2026"
    assert catalogue().day(Stamp(2027, 12)) == "December 2027"
    assert catalogue().day(Stamp(2027, 1, 31)) == "31 January 2027"


def test_fill_and_slots():
    assert slots("{boat} at {place of lifebuoy}") == ["boat", "place of lifebuoy"]
    assert fill("{boat}, {boat}", lambda slot: slot.upper()) == "BOAT, BOAT"
    assert fill("no slot { here }", str.upper) == "no slot { here }"


@pytest.mark.parametrize("name", PAGES)
def test_pages_fill(name):
    html = catalogue().page(name, **PAGES[name])
    assert "<p>" in html or "<ul>" in html or "<ol>" in html
    assert "{" not in html
    for word in PAGES[name].values():
        assert word in html


def test_every_page_is_tried():
    assert {path.stem for path in (catalogue().folder / "pages").glob("*.md")} == set(PAGES)
    with pytest.raises(MissingWording, match="no page 'songs'"):
        catalogue().page("songs")


def test_the_disclaimer_says_what_it_does_not_replace():
    page = catalogue().page("disclaimer", boat="Saltmeadow")
    short = catalogue().say("disclaimer.short")
    for word in ("maker's instructions", "flag", "local codes", "training", "skipper's judgement"):
        assert word in page
        assert word in short
    assert "licensed professional" in page
    assert catalogue().say("disclaimer.survey") == "The survey checked this description, not the vessel."


def test_tags_in_markdown_are_shown_not_obeyed():
    assert markdown("<script>x</script>") == "<p>&lt;script&gt;x&lt;/script&gt;</p>\n"


def test_labels_are_not_blank_and_their_slots_are_plain():
    for key, text in catalogue().labels.items():
        assert text, key
        assert text.strip() == text, key
        assert len(re.findall(r"[{}]", text)) == 2 * len(slots(text)), f"{key}: a slot that is none"


def _label_keys():
    keys = [f"particulars.{field}" for field in Particulars.fields]
    keys += [f"raft.{field}" for field in Raft.fields]
    keys += [f"contact.{slug(kind)}" for kind in Contact.fields["kind"].choices]
    keys += [f"hull.{slug(hull)}" for hull in hull_types()] + [f"waters.{each}" for each in WATERS]
    keys += [f"climate.{each}" for each in Particulars.fields["climate"].choices]
    keys += [f"use.{each}" for each in Particulars.fields["use"].choices]
    keys += [f"gear.kind.{slug(kind)}" for kind in _KIND_ORDER] + [f"side.{side}" for side in SIDES]
    keys += [f"standing.{slug(standing)}" for standing in STANDINGS] + [f"reader.{each}" for each in READERS]
    keys += [f"weight.{weight.word}" for weight in Weight]
    keys += [f"station.{slug(each)}" for each in ("raft", "radio", "helm", "galley", "muster place")]
    return keys


@pytest.mark.parametrize("key", _label_keys())
def test_what_the_model_knows_has_a_label(key):
    assert key in catalogue().labels


def test_every_label_said_is_there():
    sources = [
        *(ROOT / "generator").rglob("*.py"),
        *(path for path in templates_folder().rglob("*") if path.suffix in (".html", ".svg")),
    ]
    said = {}
    for path in sources:
        for key in re.findall(
            r"""\bsay\(\s*["']([a-z0-9.-]+)["']\s*[,)]""", path.read_text(encoding="utf-8")
        ):
            said.setdefault(key, path.name)
    assert said, "nothing is said at all"
    lost = {key: name for key, name in said.items() if key not in catalogue().labels}
    assert not lost


def test_a_whole_language_lacks_nothing(shelf_of):
    assert languages() == ["en", "xx"]
    assert missing("xx") == []


def test_missing_names_each_lost_text(shelf_of):
    for path, pattern in (
        (shelf_of / "labels.yaml", r"^not-known: .*\n"),
        (shelf_of / "procedures" / "gas.yaml", r"^  gas\.flames:\n    do: .*\n"),
        (shelf_of / "procedures" / "fire.yaml", r"^  command: .*\n"),
    ):
        text, count = re.subn(pattern, "", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
        assert count == 1
        path.write_text(text, encoding="utf-8")
    (shelf_of / "procedures" / "flooding.yaml").unlink()
    (shelf_of / "pages" / "about.md").unlink()
    (shelf_of / "spelling.yaml").unlink()
    lost = missing("xx")
    assert {
        "labels: not-known",
        "gas: steps.gas.flames.do",
        "fire: duties.command",
        "flooding: title",
        "page: about.md",
        "spelling.yaml",
    } <= set(lost)
    assert all(
        each.startswith(
            (
                "labels: not-known",
                "gas: steps.gas.flames",
                "fire: duties.command",
                "flooding: ",
                "page: about.md",
                "spelling.yaml",
            )
        )
        for each in lost
    )


def test_a_language_that_is_not_there_is_told_which_are():
    with pytest.raises(MissingWording, match=r"there is no language 'tlh'; there are: .*en"):
        catalogue("tlh")


def test_a_broken_text_names_file_and_line(shelf_of):
    (shelf_of / "labels.yaml").write_text("months: [January\n", encoding="utf-8")
    with pytest.raises(MissingWording, match=r"labels.yaml cannot be read: labels.yaml:\d+:\d+"):
        catalogue("xx")


def test_the_alphabet_is_the_itus():
    said = spelled("abcdefghijklmnopqrstuvwxyz", catalogue())
    assert [word for _, word in said] == ITU_ALPHABET
    assert all(word[0] == letter for letter, word in said)


def test_figures_are_plain_digits():
    said = spelled("0123456789", catalogue())
    assert said == list(
        zip(
            "0123456789",
            ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"],
            strict=True,
        )
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("MZZZ9", "Mike Zulu Zulu Zulu nine"),
        ("Bølge", "Bravo Oscar Echo Lima Golf Echo"),
        ("L'Été", "Lima Echo Tango Echo"),
        ("  Sea-Tern 2 ", "Sierra Echo Alfa dash Tango Echo Romeo November space two"),
        ("Straße", "Sierra Tango Romeo Alfa Sierra Sierra Echo"),
        ("ЧАЙКА", ""),
        ("", ""),
    ],
)
def test_names_are_spelled(text, words):
    assert " ".join(word for _, word in spelled(text, catalogue())) == words


def test_spelling_needs_its_file(shelf_of):
    (shelf_of / "spelling.yaml").unlink()
    with pytest.raises(MissingWording, match=r"xx: spelling.yaml"):
        spelled("a", catalogue("xx"))
