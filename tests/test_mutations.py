"""Any change of a good file gives findings, or none, and never a traceback."""

import shutil
from datetime import timedelta
from pathlib import Path

import pytest
from checks.survey_patch import TODAY, VESSELS, survey_boat
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from generator.reading.findings import Finding
from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

BOATS = {
    path.parent.name: path.read_text(encoding="utf-8").splitlines()
    for path in sorted(VESSELS.glob("*/vessel.yaml"))
}
VALUES = ("unknown", "private", "?", "", "~", "null", "[]", "{}", "[one, two]", "{a: b}", "yes", "no", "0", "-1", "1e9", "9" * 40,
          "2026-13-45", "0001-01", "9999-12-31", "12,5 m", "36 ft", "5' 6\"", "-3 m", "0 m", "1.5-4 m", "4-1.5 m", "nothing", "&a b", "*a",
          "!!binary x", "|", ">", '"', "'", "- x", "x: y", "ü" * 5, "\U0001f6df", "\u202e", "\u2028", "{{ boat }}", "<script>", "#", "2026-02")  # fmt: skip
pytestmark = pytest.mark.thorough


@st.composite
def mutations(draw):
    """(boat, text) with one to three changes, each of one line."""
    boat = draw(st.sampled_from(sorted(BOATS)))
    lines = list(BOATS[boat])
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        how = draw(
            st.sampled_from(("delete", "double", "value", "inner", "words", "swap", "indent", "cut", "key"))
        )
        line = lines[at]
        if how == "delete":
            del lines[at]
        elif how == "double":
            lines.insert(at, line)
        elif how == "value" and ": " in line:
            lines[at] = f"{line.partition(': ')[0]}: {draw(st.sampled_from(VALUES))}"
        elif how == "inner" and line.count(": ") > 1:
            parts = line.split(", ")
            number = draw(st.integers(0, len(parts) - 1))
            key, colon, value = parts[number].partition(": ")
            end = value[len(value.rstrip("}]")) :]
            parts[number] = f"{key}{colon}{draw(st.sampled_from(VALUES))}{end}"
            lines[at] = ", ".join(parts)
        elif how == "words":
            lines[at] = f"{line.partition(': ')[0]}: {draw(st.text(max_size=30))}"
        elif how == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], line
        elif how == "indent":
            lines[at] = " " * draw(st.integers(1, 5)) + line
        elif how == "cut":
            lines[at] = line[: draw(st.integers(0, len(line)))]
        elif how == "key":
            lines[at] = line.replace(
                draw(st.sampled_from(["name", "where", "who", "what", "side", "role", "date", "kind"])),
                "nmae",
                1,
            )
    return boat, "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A folder with the class files beside it, written over for every example."""
    into = tmp_path_factory.mktemp("mutated")
    shutil.copytree(VESSELS / "classes", into / "classes")
    (into / "boat").mkdir()
    return into / "boat"


def survey_text(folder: Path, boat: str, text: str, days: int = 0, *, composed: bool = True):
    """What the survey finds; without `composed` only what reading and the checks of the description find."""
    for name in ("private.yaml", "voyage.yaml"):
        (folder / name).unlink(missing_ok=True)
        if (VESSELS / boat / name).exists():
            shutil.copy(VESSELS / boat / name, folder / name)
    (folder / "vessel.yaml").write_bytes(text.encode("utf-8", "surrogatepass"))
    if composed:
        return survey_boat(folder, until=TODAY + timedelta(days=days) if days else None).findings
    vessel, findings = load(folder, "")
    return (
        findings
        if vessel is None
        else findings + run(DESCRIPTION, Sight(vessel, TODAY, TODAY + timedelta(days=days)))
    )


@settings(
    max_examples=150,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    mutated=mutations(),
    days=st.sampled_from((0, 365, 2000)),
    composed=st.sampled_from((False, False, False, True)),
)
@example(mutated=("saltmeadow", ""), days=0, composed=True)
@example(mutated=("saltmeadow", "format: 1\n"), days=0, composed=True)
@example(
    mutated=(
        "saltmeadow",
        "format: 1\nvessel: unknown\nrafts: unknown\npeople: unknown\nradio: unknown\ngear: unknown\nlifejackets: unknown\n",
    ),
    days=0,
    composed=True,
)
def test_a_changed_file_gives_findings_never_a_traceback(folder, mutated, days, composed):
    boat, text = mutated
    findings = survey_text(folder, boat, text, days, composed=composed)
    assert all(isinstance(each, Finding) and each.message and each.place.line >= 1 for each in findings)


@pytest.mark.parametrize("boat", sorted(BOATS))
def test_every_value_may_be_unknown(folder, boat):
    """Each line's value in turn, and then all at once, is the plain word unknown."""
    lines = BOATS[boat]
    spoiled = [
        f"{line.partition(': ')[0]}: unknown"
        if ": " in line and line.startswith(" ") and "{" not in line
        else line
        for line in lines
    ]
    survey_text(folder, boat, "\n".join(spoiled) + "\n")
    for number in range(8, len(lines)):
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
