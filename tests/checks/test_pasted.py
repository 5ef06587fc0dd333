"""What a remedy tells to write can be pasted: with the line in place the finding of a bad case is gone."""

from collections import Counter

import pytest
from checks.survey_patch import cases, lay_out, read_case, survey_boat
from pasted import lines_of, pasted
from sampled import spread

from generator.reading.fields import Choice, Compound, Dated, Texts, YesNo
from generator.survey.lines import field_at

# Of so many bad cases at least the remedy gives a line that ends the finding.
FEWEST = 60
# Why the line, once pasted, leaves something to be found.
REASONED = {
    "bill.no-raft-for": "the word stands among others in a list",
    "fire.engine-without-guard": "an extinguisher is listed, or there is a port for both: only looking tells",
    "raft.mount-not-told": "the line tells the first of several things that are not told",
    "bill.unknown-duty": "the word is the name of a duty: it stands for the key, not behind it",
    "carriage.not-said": "it names the words that may stand in a name, not a line",
    "dates.stamp-differs": "which of the two is wrong, the date or its stamp, is read on the thing",
    "dates.stretched": "which of the two dates is wrong is read on the thing",
    "gas.sparks": "the line is for a switch built so that it cannot spark; this one is to be moved",
    "grab-bag.two-dates": "one date is read on the thing and stands in two lines",
    "placed.asleep": "an alarm is fitted first: the line is its entry among the others",
    "placed.asleep-over-petrol": "an alarm is fitted first: the line is its entry among the others",
    "placed.cabin-unwarned": "an alarm is fitted first: the line is its entry among the others",
    "placed.lithium-unwarned": "an alarm is fitted first: the line is its entry among the others",
    "raft.reach-not-told": "two things are asked, and only looking tells",
    "steering.no-rudder": "how she is steered is told by two keys together",
    "people.help-unsaid": "the line stands with the person, and the note that says so is taken out",
    "people.helper": "a helper for somebody of whom nothing says what for: that is told beside it",
    "radio.nothing-on-the-body": "the line is for what is worn, which is not aboard yet",
    "raft.contents-before-service": "the date is the station's",
    "release.expired": "a new unit has three dates, and what counts is the first to run out",
    "words.broken-sentence": "the file cannot be read there before the mark is taken out",
}


def _why_none(finding):
    """What keeps a remedy from giving a line, by the field that the finding stands at."""
    field = field_at(finding.place.key)
    if finding.check.startswith("file."):
        return "what cannot be read, or is not known, is the keeper's to say"
    if field is None:
        return "no key of hers: another file, a name, or the whole of it"
    if isinstance(field, (Compound, Texts)):
        return "an entry of a list, or a list of words, is missing or too many"
    if field.reader != "guest":
        return "a value for her crew alone is not repeated"
    if isinstance(field, (Choice, YesNo, Dated)):
        return "what is so, or which date is marked, only looking tells"
    return "a figure is measured, a name is read: an example would be copied"


@pytest.mark.thorough
def test_a_pasted_line_ends_the_finding(tmp_path, record_property, one_in):
    """One case in four; with --all-mutants all of them."""
    ended, none, stays = 0, Counter(), []
    for path in spread(cases(), one_in(4)):
        case = read_case(path)
        folder = lay_out(case, tmp_path / case.name)
        found = survey_boat(folder, case.as_of, case.until).findings
        finding = next((each for each in found if each.check == case.check), None)
        if finding is None:
            continue
        lines = lines_of(finding.remedy)
        if not lines:
            none[_why_none(finding)] += 1
        elif _ends(case, folder, finding, lines):
            ended += 1
        else:
            stays.append((case.name, finding.remedy))
    record_property("figure", f"{ended} remedies end their finding; none given: {dict(none)}")
    left = [each for each in stays if each[0].partition("--")[0] not in REASONED]
    assert not left, "\n".join(map(str, left))
    assert ended >= FEWEST


def _ends(case, folder, finding, lines):
    file = folder / finding.place.file
    text = file.read_text(encoding="utf-8")
    for key, value in lines:
        changed = pasted(text, finding.place.line, finding.place.column, key, value)
        if changed is None:
            continue
        file.write_text(changed, encoding="utf-8")
        after = survey_boat(folder, case.as_of, case.until).findings
        file.write_text(text, encoding="utf-8")
        if not any((each.check, each.place.key) == (finding.check, finding.place.key) for each in after):
            return True
    return False
