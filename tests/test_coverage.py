"""Published emergency instructions are covered item by item."""

from documents.evidence import confirm_table, to_confirm
from evidence.lists import rules

from generator.shelves.procedures import shelf


def test_every_published_list_asked_for_is_there():
    names = " ".join(rule.rule for rule in rules())
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
    heads = next(rule for rule in rules() if "III/35" in rule.rule)
    assert [item.item.split()[0] for item in heads.items] == [str(number) for number in range(1, 19)]


def test_nothing_asked_for_of_raft_and_abandoning_is_left_to_a_reason():
    """What has no step and no page is named here, so that a new gap is seen."""
    bare = [item.item for rule in rules() for item in rule.items if not item.steps and not item.page]
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
