"""Watches kept by night alone are honest: what is asked for is the day's; a hole between two watches is none of that."""

import pytest
from checks.survey_patch import VESSELS, survey_boat

from generator.reading.findings import Weight


@pytest.mark.parametrize(
    ("hours", "weight"), [(("20:00", "08:00"), Weight.RECOMMENDATION), (("08:30", "08:00"), Weight.DEFECT)]
)
def test_a_day_without_a_watch_is_no_hole(tmp_path, hours, weight):
    text = (VESSELS / "nordgyllen" / "vessel.yaml").read_text(encoding="utf-8")
    before, _, rest = text.partition("\nwatches:\n")
    lines = rest.splitlines(keepends=True)
    after = next(at for at, line in enumerate(lines) if not line.startswith("  "))
    kept = (
        f'\nwatches:\n  - {{name: the watch, from: "{hours[0]}", to: "{hours[1]}", who: [skipper, mate]}}\n'
    )
    boat = tmp_path / "nordgyllen"
    boat.mkdir()
    (boat / "vessel.yaml").write_text(before + kept + "".join(lines[after:]), encoding="utf-8")
    (gap,) = [each for each in survey_boat(boat).findings if each.check == "watches.gap"]
    assert gap.weight is weight
