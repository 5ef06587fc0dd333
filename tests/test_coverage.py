"""Published emergency instructions are covered item by item."""

from pathlib import Path

from documents.evidence import confirm_table
from evidence.lists import rules

from generator.manual.procedures import to_confirm
from generator.reading.names import STANDINGS
from generator.shelves.procedures import shelf

ROOT = Path(__file__).resolve().parent.parent
STEPS = {step.id for one in shelf() for step in one.steps}
PAGES = {path.stem for path in (ROOT / "templates/book").glob("*.html")} | {
    path.stem for path in (ROOT / "templates/text/en/pages").glob("*.md")
}


def test_every_item_has_its_steps_its_page_or_a_reason():
    for rule in rules():
        assert rule.standing in STANDINGS
        assert rule.items, rule.name
        for item in rule.items:
            assert item.steps or item.page or len(item.reason) > 15, (rule.name, item.text)


def test_every_step_and_page_named_exists():
    for rule in rules():
        for item in rule.items:
            assert set(item.steps) <= STEPS, (item.text, set(item.steps) - STEPS)
            assert not item.page or item.page in PAGES, (item.text, item.page)


def test_every_published_list_asked_for_is_there():
    names = " ".join(rule.name for rule in rules())
    for wanted in (
        "26.03-2",
        "28.265",
        "131.340",
        "185.510",
        "SOLAS III/35",
        "MGN 280 13.11",
        "MGN 280 Annex 7",
    ):
        assert wanted in names
    heads = next(rule for rule in rules() if "III/35" in rule.name)
    assert [item.text.split()[0] for item in heads.items] == [str(number) for number in range(1, 19)]


def test_nothing_asked_for_of_raft_and_abandoning_is_left_to_a_reason():
    """What has no step and no page is named here, so that a new gap is seen."""
    bare = [item.text for rule in rules() for item in rule.items if not item.steps and not item.page]
    allowed = (
        "seated",
        "fire pumps",
        "anchoring",
        "heavy weather",
        "185.512",
        "from within the craft",
        "protection in launching areas",
        "engine and accessories",
        "booklet",
        "navigation lights",
        "port of refuge",
    )
    assert [text for text in bare if not any(word in text for word in allowed)] == []


def test_the_list_to_confirm_has_every_step_that_is_marked():
    assert confirm_table().count("\n") == len(to_confirm(shelf())) + 1
