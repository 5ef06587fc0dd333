"""Whatever is taken out of a demo boat's file, or falsified in it, the survey points at the place.

A run looks at every eighth mutant; `pytest tests/test_mutants.py --all-mutants` looks at all and prints the figure.
"""

import re
import shutil
from datetime import date

import pytest
from checks.survey_patch import VESSELS, survey_boat
from mutants import mutants, points_at

from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
AS_OF = date(2026, 6, 1)
WANTED = 0.99
FIGURES: dict[str, tuple[int, int]] = {}
EVERY = 8
# Mutants that no check can tell from a true description, by pattern, with the reason.
TOLERATED = {
    r"\.substitute: deleted": "a duty that is neither key nor essential needs no substitute",
    r"\.side: deleted": "a narrow space is a place without a side; a wide one, or one on both sides, is not",
    r"gear\[\d+\]\.(expires|next-service): deleted": "another of its dates says until when it is good, or it is of no kind that ages",
    r"items\[\d+\]\.expires: deleted": "its date stands with the beacon itself, or it is of no kind that ages",
    r"lifejackets\[\d+\]\.next-service: deleted": "foam lifejackets are looked at, not serviced",
    r"radio\.call-sign: deleted": "a boat may have none",
    r"radio\.sets\[\d+\]\.dsc: deleted": "a satellite telephone makes no digital call",
    r"rafts\[\d+\]\.held-by: deleted": "a raft in a locker is held by nothing",
    r"pumps\[\d+\]\.handle: deleted": "an engine's pump is worked where it is",
    r": \.(batteries|gas|grab-bags|rafts|vessel): deleted": "a boat may have none of it; a class file may say the rest",
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    into = tmp_path_factory.mktemp("mutants")
    shutil.copytree(VESSELS / "classes", into / "classes")
    (into / "boat").mkdir()
    return into / "boat"


def noticed(folder, mutant):
    """Whether the survey points at the mutated key; the composition is looked at only if the description is silent."""
    (folder / "vessel.yaml").write_text(mutant.text, encoding="utf-8")
    vessel, findings = load(folder, "")
    if any(points_at(each, mutant) for each in findings):
        return True
    if vessel is not None and vessel.vessel:
        if any(points_at(each, mutant) for each in run(DESCRIPTION, Sight(vessel, AS_OF, AS_OF))):
            return True
    return any(points_at(each, mutant) for each in survey_boat(folder).findings)


@pytest.mark.parametrize("boat", BOATS)
def test_what_is_taken_out_or_falsified_is_noticed(boat, folder, request):
    for name in ("private.yaml", "voyage.yaml"):
        (folder / name).unlink(missing_ok=True)
        if (VESSELS / boat / name).exists():
            shutil.copy(VESSELS / boat / name, folder / name)
    every = mutants(boat, (VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8"))
    looked_at = every if request.config.getoption("--all-mutants") else every[::EVERY]
    missed = [each for each in looked_at if not noticed(folder, each)]
    share = 1 - len(missed) / len(looked_at)
    print(f"{boat}: {len(looked_at)} of {len(every)} mutants, {share:.2%} noticed")
    unexplained = [
        each.name for each in missed if not any(re.search(pattern, each.name) for pattern in TOLERATED)
    ]
    assert unexplained == []
    FIGURES[boat] = (len(looked_at), len(missed))


def test_in_all_boats_together_hardly_any_is_missed():
    if set(FIGURES) != set(BOATS):
        pytest.skip("not every boat was looked at in this run")
    looked_at, missed = (sum(each) for each in zip(*FIGURES.values(), strict=True))
    print(f"{looked_at} mutants, {missed} not noticed: {1 - missed / looked_at:.2%}")
    assert 1 - missed / looked_at >= WANTED


def test_a_mutant_differs_from_its_boat_and_there_are_thousands():
    count = 0
    for boat in BOATS:
        text = (VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8")
        made = mutants(boat, text)
        assert all(each.text != text for each in made)
        count += len(made)
    assert count > 3000
