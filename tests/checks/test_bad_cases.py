"""Each check finds its bad case, at the marked line, and nothing else comes with it."""

import pytest
from checks.survey_patch import VESSELS, cases, lay_out, marked, new_findings, read_case, survey_boat

from generator.survey.registry import INSPECTION, all_checks


@pytest.fixture(scope="module")
def sound():
    """What the survey says of each boat as she is, on the days asked for."""
    seen = {}

    def of(case):
        key = (case.boat, case.as_of, case.until)
        if key not in seen:
            seen[key] = survey_boat(VESSELS / case.boat, case.as_of, case.until).findings
        return seen[key]

    return of


@pytest.mark.parametrize("path", cases(), ids=lambda path: path.stem)
def test_the_fault_is_found_where_it_stands_and_nothing_else(path, tmp_path, sound):
    case = read_case(path)
    folder = lay_out(case, tmp_path)
    surveyed = survey_boat(folder, case.as_of, case.until)
    everything = surveyed.findings + surveyed.deferred
    new = new_findings(case, everything, sound(case))
    expected = marked(case, folder)
    assert case.check in {check for check, _, _ in expected}, "no line is marked for the check itself"
    beside = [each for each in new if each.check in case.comes_with]
    assert {each.check for each in beside} == case.comes_with & set(all_checks())
    assert (
        sorted((each.check, each.place.file, each.place.line) for each in new if each not in beside)
        == expected
    )
    own = [each for each in new if each.check == case.check]
    assert all(each.message and each.remedy for each in own)
    if case.column_of:
        line = (folder / own[0].place.file).read_text(encoding="utf-8").splitlines()[own[0].place.line - 1]
        assert own[0].place.column == line.index(case.column_of) + 1
    assert case.message in own[0].message


def test_every_check_has_a_bad_case():
    covered = {path.stem.partition("--")[0] for path in cases()}
    wanted = {name for name, one in all_checks().items() if one.stage != INSPECTION}
    assert sorted(wanted - covered) == [], "write a bad case for these"
    assert sorted(covered - wanted) == [], "these cases name no check of the first two stages"
