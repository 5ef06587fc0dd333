"""The shortest sound file of an open boat without a raft, found by taking out of hers whatever the survey can do without."""

import re

import pytest
from open_boats import AS_OF, surveyed
from shortest import CLEAN, SOUND, bare, explained, pieces, shortest
from specimens import VESSELS

COMMAND = "pytest tests/test_shortest.py --renew"
WHOLE = VESSELS / "kelpwren" / "vessel.yaml"


@pytest.fixture
def is_sound(tmp_path):
    """Whether a text is a sound boat's."""
    return lambda text: surveyed(text, tmp_path).sound


@pytest.fixture
def is_clean(tmp_path):
    """Whether the survey finds nothing at all in a text."""

    def clean(text):
        done = surveyed(text, tmp_path)
        return done.sound and not done.findings

    return clean


@pytest.mark.thorough
def test_of_the_shortest_file_that_leaves_nothing_to_say_nothing_can_be_taken_out(is_clean, renew):
    if renew:
        found = shortest(WHOLE.read_text(encoding="utf-8"), is_clean)
        CLEAN.write_text(found, encoding="utf-8", newline="\n")
    text = CLEAN.read_text(encoding="utf-8")
    assert is_clean(text), f"it is out of date; renew it with: {COMMAND}"
    assert shortest(text, is_clean) == text, f"it is out of date; renew it with: {COMMAND}"


@pytest.mark.thorough
def test_the_shortest_sound_file_is_what_taking_out_leaves_of_that(is_sound, renew):
    left = shortest(CLEAN.read_text(encoding="utf-8"), is_sound)
    if renew:
        SOUND.write_text(left, encoding="utf-8", newline="\n")
    assert left == SOUND.read_text(encoding="utf-8"), f"it is out of date; renew it with: {COMMAND}"


def test_all_that_is_left_stands_in_the_open_boats_file_too():
    whole = bare(WHOLE.read_text(encoding="utf-8"))
    for file in (SOUND, CLEAN):
        for line in file.read_text(encoding="utf-8").splitlines():
            words = re.split(r"[,\]}]", line.strip(" -{"))[0]
            assert words in whole, line


@pytest.mark.parametrize(
    "block", ["people:", "radio:", "station-bill:", "lifejackets:", "recovery:", "gear:"]
)
def test_what_somebody_aboard_asks_first_is_in_the_shortest_sound_file(block):
    """Who is aboard, how help is called, who does what, where the jackets are, how one gets back aboard, what puts a fire out."""
    assert f"\n{block}\n" in SOUND.read_text(encoding="utf-8")


def test_of_the_shortest_sound_file_the_survey_says_what_an_open_boat_lacks(tmp_path):
    """What rows, floats and anchors is still asked for; what stops, bails, is thrown, heard and seen is in the file."""
    text = SOUND.read_text("utf-8")
    said = "\n".join(f"{each.check} {each.message}" for each in surveyed(text, tmp_path).findings)
    for what in ("oars", "anchor", "buoyancy"):
        assert what in said
    for what in ("kill cord", "bucket", "throwing line", "whistle", "flares", "extinguisher"):
        assert what in text


def test_every_line_answers_a_question(tmp_path):
    """Behind an item of a list none stands: its list has asked."""
    text = SOUND.read_text(encoding="utf-8")
    told = explained(text, {"fire.fight": "Fight the fire"}).splitlines()
    assert [line.split("  #")[0].rstrip() for line in told] == text.splitlines()
    assert next(line for line in told if "muster-place" in line).endswith("# Where does everybody gather?")
    assert next(line for line in told if "fight:" in line).endswith("# Fight the fire")
    silent = [line for line in told if "#" not in line and not line.lstrip().startswith("- ")]
    assert all(line.startswith("  ") for line in silent), silent


@pytest.mark.parametrize(
    ("text", "paths"),
    [
        ("a: 1\nb: {c: 2, d: [3, 4]}\n", {"a", "b", "b.c", "b.d", "b.d[0]", "b.d[1]"}),
        ("a:\n  - b: 1\n    c: 2\n  - {d: 3}\n", {"a", "a[0]", "a[1]", "a[0].b", "a[0].c", "a[1].d"}),
        ("a: {b: 1}\n", {"a", "a.b"}),
    ],
)
def test_whatever_is_taken_out_leaves_yaml_without_just_that(text, paths):
    import yaml

    assert {each.path for each in pieces(text)} == paths
    for piece in pieces(text):
        left = yaml.safe_load(text[: piece.start] + text[piece.end :])
        assert left != yaml.safe_load(text)


def test_taking_out_goes_on_until_no_piece_can_be_missed():
    """Of two that do instead of one another one stays; comments go first."""
    text = "# head\na: 1   # why\nb: 2\nc: {d: 3, e: 4}\n"
    left = shortest(text, lambda less: ("a:" in less or "b:" in less) and "e: 4" in less)
    assert left == "b: 2\nc: {e: 4}\n"
    assert AS_OF.year == 2026


def test_what_every_item_says_is_taken_out_of_all_of_them_at_once():
    """Of people it may be said what all can do or what none can: not of one alone."""
    text = "a:\n  - {b: 1, c: 2}\n  - {b: 3, c: 4}\n"
    left = shortest(text, lambda less: less.count("c:") != 1 and less.count("- {b") == 2)
    assert left == "a:\n  - {b: 1}\n  - {b: 3}\n"
