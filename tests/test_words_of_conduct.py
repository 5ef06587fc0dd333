"""Words of conduct held against fields: each contradiction of the tables is told, and no honest wording."""

import pytest
from test_words_held import boats, told
from words_of_conduct import MEDICAL, RIGHT, WRONG

from generator.survey.ailments import limits_in
from generator.survey.registry import all_checks

__all__ = ["boats"]
READ = tuple(one for one in all_checks().values() if one.id.startswith("words.") or one.id == "placed.stuck")


@pytest.mark.thorough
def test_each_contradiction_is_told(boats):
    assert len(WRONG) > 50
    assert [row for row in WRONG if not told(boats, row, READ)] == []


@pytest.mark.thorough
def test_no_honest_wording_is_told(boats):
    assert len(RIGHT) > 50
    assert [(row, check) for row in RIGHT for check, _ in told(boats, row, READ)] == []


@pytest.mark.parametrize(("words", "limits"), MEDICAL, ids=[words for words, _ in MEDICAL])
def test_medical_words_say_what_somebody_is_not_fit_for(words, limits):
    assert limits_in(words) == limits
