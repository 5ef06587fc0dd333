"""Just right is right: a sound boat changed close to where a check speaks brings no finding of that check, nor any other;
of others a note for information, which asks for nothing, may stand.

A case is `good/<check-id>.yaml`, written as a bad case is (see survey_patch.py), without marks.
"""

from pathlib import Path

import pytest
from checks.survey_patch import VESSELS, lay_out, new_findings, read_case, survey_boat

from generator.reading.findings import Weight
from generator.survey.registry import all_checks

GOOD = sorted((Path(__file__).parent / "good").glob("*.yaml"))


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)
def test_nothing_is_found(path, tmp_path):
    case = read_case(path)
    assert case.check in all_checks()
    surveyed = survey_boat(lay_out(case, tmp_path), case.as_of, case.until)
    sound = survey_boat(VESSELS / case.boat, case.as_of, case.until)
    assert [
        f"{each.check}: {each.message}"
        for each in new_findings(case, surveyed.findings, sound.findings)
        if each.weight is not Weight.NOTE or each.check == case.check
    ] == []
