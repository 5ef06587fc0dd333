"""Wording: labels, pages and the spelling alphabet; what another language lacks is named; nothing said is missing."""

import re
import shutil
from pathlib import Path

import pytest

from generator.__main__ import main
from generator.manual import asked
from generator.manual.asked import asked_for
from generator.manual.facts import vessel_facts
from generator.manual.wording import gaps
from generator.shelves import languages as shelf
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue, catalogue, differences, fill, languages, markdown
from generator.shelves.shelf import read_below
from generator.shelves.spelling import spelled
from generator.shelves.words import slots

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
FACTS = [fact.name for fact in vessel_facts()]
PAGES = {
    "disclaimer": {"boat": "Saltmeadow"},
    "about": {},
    "never-rely": {"commander": "instructor"},
    "first-words-alone": {},
    "what-not": {},
    "first-words": {
        "muster_place": "cockpit",
        "general_alarm": "seven blasts",
        "abandon_order": "the skipper calls",
        "commander": "instructor",
    },
}


@pytest.fixture
def other(tmp_path, monkeypatch):
    """A copy of the texts in which a second language 'xx' can be spoilt."""
    for language in ("en", "xx"):
        shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / language)
    monkeypatch.setattr(shelf, "templates_folder", lambda: tmp_path)
    catalogue.cache_clear()
    yield tmp_path / "text" / "xx"
    catalogue.cache_clear()


@pytest.fixture(params=languages())
def words(request):
    """The catalogue of each language on the shelf."""
    return catalogue(request.param)


def faults(language="xx"):
    with pytest.raises(ShelfFault) as caught:
        catalogue(language)
    return [(f"{each.place}", each.check, each.message) for each in caught.value.findings]


def test_say_fills_in():
    assert catalogue().say("mark.good-until", date="9 May 2027") == "good until 9 May 2027"
    assert (
        catalogue().say("bill.takes-over", duty="Make the distress call")
        == "takes over: Make the distress call"
    )
    with pytest.raises(KeyError, match=r"no label 'book\.colour'"):
        catalogue().say("book.colour")
    with pytest.raises(KeyError):
        catalogue().say("mark.good-until")


def test_fill_and_slots():
    assert slots("{boat} at {place of lifebuoy}") == ["boat", "place of lifebuoy"]
    assert fill("{boat}, {boat}", lambda slot: slot.upper()) == "BOAT, BOAT"
    assert fill("no slot { here }", str.upper) == "no slot { here }"


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("so", [True, False])
def test_pages_fill(name, words, so):
    html = words.page(name, dict.fromkeys(FACTS, so), **PAGES[name])
    assert "when:" not in html
    assert "<p>" in html or "<ul>" in html or "<ol>" in html
    assert "{" not in html
    for word in (
        PAGES[name].values() if so or name != "never-rely" else ()
    ):  # one alone has no order to wait for
        assert word in html


def test_every_page_is_tried(words):
    assert {Path(name).stem for name in words.pages} == set(PAGES)
    with pytest.raises(KeyError, match="no page 'songs'"):
        words.page("songs", {})


def test_the_disclaimer_says_what_it_does_not_replace():
    page = catalogue().page("disclaimer", {}, boat="Saltmeadow")
    short = catalogue().say("disclaimer.short")
    for word in ("maker's instructions", "flag", "local codes", "training", "skipper's judgement"):
        assert word in page
        assert word in short
    assert "licensed professional" in page
    assert catalogue().say("disclaimer.survey") == "The survey checked this description, not the vessel."


def test_tags_in_markdown_are_shown_not_obeyed():
    assert markdown("<script>x</script>") == "<p>&lt;script&gt;x&lt;/script&gt;</p>\n"


def test_every_text_is_there_once_for_its_asker(words):
    assert languages()[0] == "en"
    assert gaps(words) == ()
    assert labels_asked_for() <= set(words.labels)
    assert list(differences(catalogue(), words)) == []


def labels_asked_for():
    return {each.label for each in asked_for(read_below(SHELVES, templates_folder()))}


def _said_in_python():
    for path in (ROOT / "generator").rglob("*.py"):
        for key in re.findall(
            r"""\bsay\(\s*["']([a-z0-9.-]+)["']\s*[,)]""", path.read_text(encoding="utf-8")
        ):
            yield pytest.param(key, id=f"{path.stem}: {key}")
        for key in re.findall(
            r"""\bPhrase\(\s*["']([a-z0-9.-]+)["']\s*[,)]""", path.read_text(encoding="utf-8")
        ):
            yield pytest.param(key, id=f"{path.stem}: {key}")


@pytest.mark.parametrize("key", list(_said_in_python()))
def test_what_python_says_is_on_the_shelf(key):
    assert key in catalogue().labels


# Said of other boats than the specimens, or of families that Python puts together.
BUILT = (
    "calendar.",
    "carriage.state.",
    "drawing.",
    "estimates.",
    "lives.",
    "part.",
    "particulars.",
    "site.page.",
    "station.",
    "book.ground.",
)


def test_every_label_is_said_by_somebody():
    wanted = labels_asked_for()
    code = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "generator").rglob("*.py"))
    templates = "\n".join(path.read_text(encoding="utf-8") for path in templates_folder().rglob("*.html"))
    quoted = set(re.findall(r"""["']([a-z0-9][a-zA-Z0-9 .-]*)["']""", code + templates)) | {"months"}
    idle = {
        label for label in catalogue().labels if label not in wanted | quoted and not label.startswith(BUILT)
    }
    assert idle == set()


@pytest.mark.parametrize(
    ("file", "pattern", "place", "told"),
    [
        ("labels.yaml", r"^  not-known: .*\n", "labels.yaml:4:1", "'not-known' is missing"),
        ("choices.yaml", r"^    motor vessel: .*\n", "choices.yaml:4:3", "'type.motor vessel' is missing"),
        ("lives.yaml", r"^usual: .*\n", "lives.yaml:2:1", "'usual' is missing"),
        (
            "procedures/gas.yaml",
            r"^    caution: \"Switching off .*\n",
            "procedures/gas.yaml:24:3",
            "'steps.gas.switches.caution'",
        ),
        (
            "procedures/fire.yaml",
            r"^  command: .*\n",
            "procedures/fire.yaml:18:1",
            "'duties.command' is missing",
        ),
    ],
)
def test_a_missing_text_is_named_with_its_place(other, file, pattern, place, told):
    text, count = re.subn(pattern, "", (other / file).read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert count == 1
    (other / file).write_text(text, encoding="utf-8")
    found = faults()
    assert len(found) == 1
    assert found[0][0] == f"templates/text/xx/{place}"
    assert found[0][1] == "file.missing-key"
    assert found[0][2].startswith(told)


def test_all_that_differs_is_told_at_once(other):
    labels = (other / "labels.yaml").read_text(encoding="utf-8")
    labels = labels.replace(
        'manual-of: "Emergency manual of {boat}"', "manual-of: Emergency manual of {bote}"
    )
    labels = labels.replace("  none: none\n", "  nonne: none\n").replace("January, February", "January")
    (other / "labels.yaml").write_text(labels, encoding="utf-8")
    (other / "pages" / "about.md").unlink()
    (other / "pages" / "song.md").write_text("la", encoding="utf-8")
    (other / "procedures" / "flooding.yaml").unlink()
    (other / "procedures" / "famine.yaml").write_text("steps: {famine.eat: {do: Eat.}}\n", encoding="utf-8")
    (other / "spelling.yaml").unlink()
    told = {
        (place.removeprefix("templates/text/xx/").partition(":")[0], check) for place, check, _ in faults()
    }
    assert told == {
        ("labels.yaml", "file.bad-value"),
        ("labels.yaml", "file.missing-key"),
        ("labels.yaml", "file.unknown-key"),
        ("pages/about.md", "file.missing-key"),
        ("pages/song.md", "file.unknown-key"),
        ("procedures/flooding.yaml", "file.missing-key"),
        ("procedures/famine.yaml", "file.unknown-key"),
        ("spelling.yaml", "file.missing-key"),
    }
    messages = [message for _, _, message in faults()]
    assert "'manual-of' has the slots {bote} where the first language has {boat}" in messages
    assert "11 months are named" in messages


@pytest.fixture
def swedish(tmp_path, monkeypatch):
    """A shelf with a Swedish catalogue of three labels."""
    (tmp_path / "text" / "sv").mkdir(parents=True)
    shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / "en")
    labels = "texts:\n  page: Sida\n  none: inga\n  yes-word: ja\n"
    (tmp_path / "text" / "sv" / "labels.yaml").write_text(labels, encoding="utf-8")
    monkeypatch.setattr(shelf, "templates_folder", lambda: tmp_path)
    catalogue.cache_clear()
    yield
    catalogue.cache_clear()


@pytest.mark.parametrize(
    "command", [["survey"], ["publish", "--only", "site", "--into", "out"], ["due"]], ids=lambda each: each[0]
)
def test_three_labels_make_no_language(swedish, command, capsys, tmp_path, monkeypatch):
    boat = ROOT / "vessels" / "saltmeadow"
    monkeypatch.chdir(tmp_path)
    assert main([command[0], str(boat), "--language", "sv", *command[1:]]) == 2
    said = capsys.readouterr()
    assert said.out.startswith("the program's own data files (templates/) are faulty: ")
    assert not (tmp_path / "out").exists()
    first = catalogue("en")
    texts = first.sheets["labels.yaml"].block.texts
    lost = [label for label in texts if label not in ("page", "none", "yes-word")]
    assert len(lost) == len(texts) - 3 > 300
    for label in lost:
        assert f"templates/text/sv/labels.yaml:1:1: defect file.missing-key: '{label}' is missing" in said.out
    assert "templates/text/sv/labels.yaml:1:1: defect file.missing-key: 'months' is missing" in said.out
    for file in [*first.sheets, *first.pages]:
        if file != "labels.yaml":
            assert f"templates/text/sv/{file}:1:1: defect file.missing-key: the file is not there" in said.out


def test_a_language_that_is_not_there_is_told_which_are():
    assert faults("tlh") == [
        (
            "templates/text/tlh/labels.yaml:1:1",
            "file.unreadable",
            f"there is no language 'tlh'; there are: {', '.join(languages())}",
        )
    ]


def test_a_broken_file_names_its_line(other):
    (other / "labels.yaml").write_text("texts:\n  none: [January\n", encoding="utf-8")
    assert ("templates/text/xx/labels.yaml:2:9", "file.unreadable") in [each[:2] for each in faults()]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('  none: ""\n', "the value is blank"),
        ("  none: a {slot\n", "'a {slot' has braces that are no slot"),
        ("  none: [a, b]\n", "a list or block stands where a value belongs"),
    ],
)
def test_what_is_no_text_is_refused(other, line, told):
    labels = (other / "labels.yaml").read_text(encoding="utf-8")
    (other / "labels.yaml").write_text(labels.replace("  none: none\n", line), encoding="utf-8")
    assert any(told in message for _, _, message in faults())


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("å: aa", "åå: aa", "'åå' is no letter without a word"),
        ("å: aa", "q: aa", "'q' is no letter without a word"),
        ("å: aa", "å: aé", "'aé' is not spoken"),
    ],
)
def test_what_stands_for_a_letter_without_a_word_is_one_and_is_spoken(other, old, new, told):
    spelling = (other / "spelling.yaml").read_text(encoding="utf-8")
    assert old in spelling
    (other / "spelling.yaml").write_text(spelling.replace(old, new), encoding="utf-8")
    assert [message for _, _, message in faults()] == [told]


def test_a_word_that_a_shelf_asks_for_and_english_lacks_is_told(monkeypatch):
    of_fields = asked._of_fields
    monkeypatch.setattr(asked, "_of_fields", lambda: [*of_fields(), "choices.stowage.foredeck chute"])
    found = gaps(catalogue())
    assert [(each.message, each.place.file) for each in found] == [
        (
            "'choices.stowage.foredeck chute' is missing: a vessel file asks for it",
            "templates/text/en/choices.yaml",
        )
    ]
    place = found[0].place
    line = (
        (templates_folder() / "text/en/choices.yaml").read_text(encoding="utf-8").splitlines()[place.line - 1]
    )
    assert line.strip() == "stowage:"


def test_words_that_no_step_or_duty_has_are_told(tmp_path):
    shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / "en")
    gas = tmp_path / "text" / "en" / "procedures" / "gas.yaml"
    text = gas.read_text(encoding="utf-8")
    gas.write_text(
        text.replace("gas.shout:", "gas.whistle:").replace("  muster:", "  sing:"), encoding="utf-8"
    )
    assert {each.message for each in gaps(Catalogue("en", tmp_path))} == {
        "'duties.sing' has words, and templates/procedures has it not",
        "'steps.gas.whistle' has words, and templates/procedures has it not",
    }


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
