"""Whatever is taken out of a demo boat's file, or falsified in it, the survey points at the place.

A run looks at one mutant in twenty-four, by each way to spoil one; `pytest tests/test_mutants.py --all-mutants` looks at all and prints the figure.
"""

import re
import shutil
from datetime import date

import pytest
from beside import lay_beside
from checks.survey_patch import VESSELS, survey_boat
from mutants import mutants, points_at
from sampled import spread

from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
AS_OF = date(2026, 6, 1)
WANTED = 0.99
EVERY = 24
SHARES = 2  # the mutants of a boat are looked at in so many tests, to keep all cores busy
pytestmark = pytest.mark.thorough
# Mutants that no check can tell from a true description, by pattern, with the reason.
TOLERATED = {
    r"\.substitute: (deleted|unknown)": "a duty that is neither key nor essential needs no substitute",
    r"\.side: (deleted|unknown)": "a narrow space is a place without a side; a wide one, or one on both sides, is not",
    r"radio\.sets\[\d+\]\.dsc: (deleted|unknown)": "a satellite telephone makes no digital call",
    r"kelpwren: radio\.beacons: deleted": "along the coast a boat may have none",
    r"tansywade: contacts\[0\]\.(channel|mmsi): (deleted|unknown)": "her rescue centre is reached in two ways, by either alone",
    r"kelpwren: contacts\[2\]\.(channel|phone): (deleted|unknown)": "her shore contact is reached in two ways, by either alone",
    r"tansywade: stops\[\d+\]\.from-outside: (deleted|unknown)": "nothing of an outboard's tap is shut in with the fire",
    r"rafts\[\d+\]\.held-by: deleted": "a raft in a locker is held by nothing",
    r"pumps\[\d+\]\.handle: deleted": "an engine's pump is worked where it is",
    r"alarms\[\d+\]\.tested: long past": "no life on the shelf counts from the test of an alarm",
    r": \.(batteries|gas|grab-bags|rafts|vessel): deleted": "a boat may have none of it; a class file may say the rest",
}


@pytest.fixture
def look(once, tmp_path, one_in):
    """Looks at a share of a boat's mutants, once in a run: how many there are, and the names of those not noticed."""

    def seen(boat, share):
        return once(
            f"mutants-{boat}-{share}",
            lambda: looked_at(lay_out(boat, tmp_path / boat), boat, one_in(EVERY), share),
        )

    return seen


def lay_out(boat, into):
    """The boat's folder, the class files beside it; her own file is written anew for each mutant."""
    lay_beside(into)
    return shutil.copytree(VESSELS / boat, into / "boat", dirs_exist_ok=True)


def looked_at(folder, boat, every, share):
    made = mutants(boat, (VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8"))
    chosen = spread(made, every, lambda each: each.how)[share::SHARES]
    return {"looked at": len(chosen), "missed": [each.name for each in chosen if not noticed(folder, each)]}


def noticed(folder, mutant):
    """Whether the survey points at the mutated key; the composition is looked at only if the description is silent."""
    (folder / "vessel.yaml").write_text(mutant.text, encoding="utf-8")
    vessel, findings = load(folder, "")
    if any(points_at(each, mutant) for each in findings):
        return True
    described = run(DESCRIPTION, Sight(vessel, AS_OF, AS_OF)) if vessel is not None and vessel.vessel else []
    if any(points_at(each, mutant) for each in described):
        return True
    return any(points_at(each, mutant) for each in survey_boat(folder).findings)


@pytest.mark.parametrize("share", range(SHARES))
@pytest.mark.parametrize("boat", BOATS)
def test_what_is_taken_out_or_falsified_is_noticed(boat, share, look):
    missed = look(boat, share)["missed"]
    assert [name for name in missed if not any(re.search(pattern, name) for pattern in TOLERATED)] == []


def test_in_all_boats_together_hardly_any_is_missed(look, record_property):
    """Asks for every share, so that it need not come after the others: a share nobody has looked at yet it looks at itself."""
    shares = [look(boat, share) for boat in BOATS for share in range(SHARES)]
    count, missed = sum(each["looked at"] for each in shares), sum(len(each["missed"]) for each in shares)
    record_property("figure", f"{count} mutants, {missed} not noticed: {1 - missed / count:.2%}")
    assert 1 - missed / count >= WANTED


def test_a_mutant_differs_from_its_boat_and_there_are_thousands():
    count = 0
    for boat in BOATS:
        text = (VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8")
        made = mutants(boat, text)
        assert all(each.text != text for each in made)
        count += len(made)
    assert count > 3000
