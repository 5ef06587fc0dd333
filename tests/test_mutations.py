"""Every value of a good file may be unknown, and none that must be there can be left out unnoticed."""

import shutil
from pathlib import Path

import pytest
from beside import lay_beside
from checks.survey_patch import TODAY, VESSELS, survey_boat

from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

BOATS = {
    path.parent.name: path.read_text(encoding="utf-8").splitlines()
    for path in sorted(VESSELS.glob("*/vessel.yaml"))
}
pytestmark = pytest.mark.thorough


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A folder with the class files beside it, written over for every example."""
    into = tmp_path_factory.mktemp("mutated")
    lay_beside(into)
    (into / "boat").mkdir()
    return into / "boat"


def survey_text(folder: Path, boat: str, text: str, *, composed: bool = True):
    """What the survey finds; without `composed` only what reading and the checks of the description find."""
    for name in ("private.yaml", "voyage.yaml"):
        (folder / name).unlink(missing_ok=True)
        if (VESSELS / boat / name).exists():
            shutil.copy(VESSELS / boat / name, folder / name)
    (folder / "vessel.yaml").write_bytes(text.encode("utf-8", "surrogatepass"))
    if composed:
        return survey_boat(folder).findings
    vessel, findings = load(folder, "")
    return findings if vessel is None else findings + run(DESCRIPTION, Sight(vessel, TODAY, TODAY))


@pytest.mark.parametrize("boat", sorted(BOATS))
def test_every_value_may_be_unknown(folder, boat, one_in):
    """All values at once, and then each line's in turn, are the plain word unknown: one line in four, each with --all-mutants."""
    lines = BOATS[boat]
    spoiled = [
        f"{line.partition(': ')[0]}: unknown"
        if ": " in line and line.startswith(" ") and "{" not in line
        else line
        for line in lines
    ]
    survey_text(folder, boat, "\n".join(spoiled) + "\n")
    for number in range(8 + sorted(BOATS).index(boat) % one_in(4), len(lines), one_in(4)):
        changed = [*lines[:number], spoiled[number], *lines[number + 1 :]]
        survey_text(folder, boat, "\n".join(changed) + "\n", composed=False)


REQUIRED = (
    "name",
    "type",
    "persons",
    "standard",
    "container",
    "stowage",
    "launch-from",
    "strong-point",
    "knife",
    "righting",
    "pack",
)


@pytest.mark.parametrize("key", REQUIRED)
def test_a_required_line_left_out_is_noticed(folder, key):
    lines = BOATS["saltmeadow"]
    at = next(
        number for number, line in enumerate(lines) if line.strip().removeprefix("- ").startswith(f"{key}:")
    )
    if lines[at].strip().startswith("- "):
        return
    findings = survey_text(
        folder, "saltmeadow", "\n".join([*lines[:at], *lines[at + 1 :]]) + "\n", composed=False
    )
    assert any(each.check == "file.missing-key" and each.place.key.endswith(f".{key}") for each in findings)
