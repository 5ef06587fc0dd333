"""Every check has its text, its family and its weight; none is wordy, none speaks of the program's insides."""

import re
from datetime import timedelta

import pytest
from checks.survey_patch import VESSELS, survey_boat
from documents.checks import checks_table

from generator.reading.findings import Weight
from generator.survey import registry
from generator.survey.registry import COMPOSITION, DESCRIPTION, INSPECTION, Sight, all_checks
from generator.survey.stakes import Stake

CHECKS = all_checks()
BOATS = sorted(path.parent for path in VESSELS.glob("*/vessel.yaml"))
INSIDES = re.compile(r"\b(None|True|False|str|int|dict|list index|attribute|exception|traceback)\b")


@pytest.mark.parametrize("one", CHECKS.values(), ids=lambda one: one.id)
def test_a_check_says_what_holds_why_and_what_to_do(one):
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*\.[a-z]+(-[a-z]+)*", one.id)
    assert one.stage in (DESCRIPTION, COMPOSITION, INSPECTION)
    assert one.source
    assert one.title.endswith(".")
    for text in (one.title, one.why, one.remedy):
        assert len(text) > 12
        assert not INSIDES.search(text)


def test_the_weight_follows_from_what_hangs_on_it():
    """The policy: life, and what the manual says, stop publishing; slower help, upkeep, advice and form never do."""
    assert {one.word for one in Stake if one.weight == Weight.DEFECT} == {"life", "truth", "rule"}
    assert all(one.weight == one.stake.weight for one in CHECKS.values())
    assert {one.stake for one in CHECKS.values()} == set(Stake)


def test_a_claim_about_a_rule_is_only_made_of_what_was_read():
    assert not [one.id for one in CHECKS.values() if one.stake == Stake.RULE and "unverified" in one.source]


def test_what_cannot_be_deferred_is_a_defect():
    assert all(
        one.weight == registry.DEFECT
        for one in CHECKS.values()
        if one.find is not None and not one.deferrable
    )


def test_the_table_has_a_row_for_every_check():
    rows = checks_table().splitlines()[2:]
    assert [row.split("`")[1] for row in rows] == sorted(CHECKS)
    assert all(row.count(" | ") == 7 for row in rows)


FREED = ("ombrelune",)  # her base's telephone, for guests
FOUND = {("ombrelune", "reader.freed"): 1, ("tresmare", "through-hulls.no-seacock"): 1}
"""What the checks find in the specimens: what is freed on purpose, and what she sails with knowingly (deferred)."""


@pytest.mark.parametrize("folder", BOATS, ids=lambda path: path.name)
def test_the_specimens_are_sound(folder):
    surveyed = survey_boat(folder)
    found = [f"{each.place}: {each.check}: {each.message}" for each in surveyed.findings]
    assert [each for each in found if ": reader.freed: " not in each] == []
    assert len(found) == (folder.name in FREED)
    assert surveyed.sound


@pytest.mark.parametrize("folder", BOATS, ids=lambda path: path.name)
def test_the_specimens_stay_free_of_defects_for_a_year(folder):
    until = survey_boat(folder).manual.as_of + timedelta(days=365)
    surveyed = survey_boat(folder, until=until)
    assert [
        f"{each.place}: {each.check}: {each.message}"
        for each in surveyed.findings
        if each.weight == registry.DEFECT
    ] == []


def test_every_check_runs_on_the_specimens():
    ran = set()
    for folder in BOATS:
        surveyed = survey_boat(folder)
        for stage in (DESCRIPTION, COMPOSITION):
            sight = Sight(
                surveyed.vessel, surveyed.manual.as_of, surveyed.manual.until, manual=surveyed.manual
            )
            for one in CHECKS.values():
                if one.stage == stage and one.find is not None:
                    assert len(list(one.find(sight))) == FOUND.get((folder.name, one.id), 0)
                    ran.add(one.id)
    assert ran == {one.id for one in CHECKS.values() if one.stage != INSPECTION and one.find is not None}


def test_a_check_without_its_text_is_refused():
    with pytest.raises(ValueError, match="has no title, 'Why:' and 'Remedy:'"):

        @registry.check("raft.nameless", registry.NOTICE, registry.COMMON_PRACTICE)
        def nameless(_sight):
            """Only a title."""
            yield
