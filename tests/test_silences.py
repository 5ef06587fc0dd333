"""What a boat like her must speak of and does not is said at the end of a survey, and in the crew's book; `none` counts as said."""

import pytest
import yaml
from open_boats import AS_OF, DAYBOAT, OPEN_BOAT, changed, surveyed
from readme_boat import TEASEL
from specimens import VESSELS

from generator.__main__ import main
from generator.manual.unsaid import SUBJECTS, not_said
from generator.outputs import Job
from generator.outputs.book import html
from generator.publishing import Order, survey
from generator.survey.silences import FEW, silences

TWELVE_LINES = """\
format: 1
vessel:
  {name: Tansy, type: monohull, length: 8 m, beam: 2.7 m, draft: 1.2 m, freeboard: 0.9 m, flag: Ireland, persons: 2, waters: coastal,
   climate: temperate, use: private, engine: none, rig: sloop, muster-place: cockpit}
people:
  - {role: skipper, abilities: [command, radio]}
radio: {sets: [{what: handheld VHF, kind: handheld VHF, dsc: no, where: cockpit, side: port, power: turn the knob}]}
lifejackets:
  - {size: adult, kind: foam, quantity: 2, where: cockpit, side: port}
gear:
  - {what: fire extinguisher, quantity: 1, where: cockpit, side: port}
"""


def keys(text, folder):
    return [each.key for each in not_said(surveyed(text, folder).vessel)]


@pytest.mark.parametrize("name", sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml")))
def test_a_specimen_says_all_that_one_like_her_must(name):
    assert survey(VESSELS / name, name, Order(AS_OF)).silences == []


def test_a_file_of_twelve_lines_does_not_read_as_sound(tmp_path, capsys):
    (tmp_path / "vessel.yaml").write_text(TWELVE_LINES, encoding="utf-8")
    main(["survey", str(tmp_path), "--as-of", "2026-06-01"])
    said = capsys.readouterr().out
    assert "subjects not said, and so not looked at" in said.partition("\n")[0]
    assert len(said.partition("Not said")[2].splitlines()) <= 6
    for key in ("rafts", "gas", "pumps", "through-hulls", "escape", "recovery", "station-bill", "contacts"):
        assert key in said.partition("Not said")[2]


def test_none_counts_as_said(tmp_path):
    assert keys(OPEN_BOAT, tmp_path) == ["rafts", "radio.beacons"]
    told = changed(
        OPEN_BOAT, ("people:\n", "rafts: none\npeople:\n"), ("  sets:\n", "  beacons: none\n  sets:\n")
    )
    assert keys(told, tmp_path) == []
    assert surveyed(told, tmp_path).counted == "no findings"


@pytest.mark.parametrize(
    ("old", "new", "more"),
    [
        ("waters: sheltered", "waters: coastal", ["rafts", "radio.beacons", "medical"]),
        ("use: private", "use: charter", ["base", "vessel.rule-set"]),
        ("kind: handheld VHF", "kind: VHF", ["batteries"]),
    ],
)
def test_more_is_asked_of_her_by_her_waters_and_her_use(old, new, more, tmp_path):
    assert sorted(keys(changed(DAYBOAT, (old, new)), tmp_path)) == sorted(["gas", *more])


def test_few_have_a_sentence_each_and_many_are_named(tmp_path):
    few = silences(surveyed(OPEN_BOAT, tmp_path).vessel)
    assert len(few) == 3 and few[1].startswith("  rafts: No liferaft is described")
    many = silences(surveyed(TEASEL, tmp_path).vessel)
    assert len(keys(TEASEL, tmp_path)) > FEW and len(many) <= 4
    assert all(len(line) <= 100 for line in many)


def test_the_same_stands_in_the_book_of_the_crew_alone(tmp_path):
    done = surveyed(OPEN_BOAT, tmp_path)
    for reader, printed in (("crew", True), ("guest", False)):
        book = html(Job(done.manual, reader, "A4"))
        assert ("No liferaft is described" in book) is printed
    told = surveyed(changed(DAYBOAT, ("people:\n", "gas: none\npeople:\n")), tmp_path)
    assert "so not looked at" not in html(Job(told.manual, "crew", "A4"))


def test_every_subject_is_a_key_that_may_be_written_as_none(tmp_path):
    for each in SUBJECTS:
        block, _, key = each.key.rpartition(".")
        data = yaml.safe_load(DAYBOAT)
        (data.setdefault(block, {}) if block else data)[key] = "none"
        found = surveyed(yaml.safe_dump(data, sort_keys=False), tmp_path)
        assert each.key not in [one.key for one in not_said(found.vessel)]
        assert not any(
            one.check == "file.bad-value" and one.place.key == each.key for one in found.findings
        ), each.key
