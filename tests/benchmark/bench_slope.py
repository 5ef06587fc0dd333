"""How the description stage grows with boats and with gear: the slope of cost against size on logarithmic axes.

    python -m pytest tests/benchmark/bench_slope.py -s

1 is linear; up to 1.15 is taken as linear, for a shared machine's clock wavers that much.
"""

import math
import re
import time
from datetime import date
from pathlib import Path

import pytest

from generator.survey import registry
from generator.vessel import loading

ROOT = Path(__file__).parent.parent.parent
BOAT = ROOT / "vessels/saltmeadow"
DAY = date(2026, 6, 1)
MOST = 1.15


def describe(folder):
    vessel, _ = loading.load(folder, "boat")
    return registry.run(registry.DESCRIPTION, registry.Sight(vessel, DAY, DAY))


def cpu(work, times=3):
    seen = []
    for _ in range(times):
        start = time.process_time()
        work()
        seen.append(time.process_time() - start)
    return min(seen)


def slope(sizes, costs):
    """The least-squares slope of log cost against log size."""
    xs, ys = [math.log(size) for size in sizes], [math.log(cost) for cost in costs]
    middle_x, middle_y = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True)) / sum(
        (x - middle_x) ** 2 for x in xs
    )


def with_gear(folder, count):
    """Saltmeadow with `count` more items of gear, each of its own name."""
    folder.mkdir()
    text = (BOAT / "vessel.yaml").read_text(encoding="utf-8")
    head, gear, tail = re.split(r"(?m)(^gear:\n)", text, maxsplit=1)
    more = "".join(
        f"  - {{what: spare {number}, kind: other, quantity: 1, where: saloon, side: port}}\n"
        for number in range(count)
    )
    (folder / "vessel.yaml").write_text(head + gear + more + tail, encoding="utf-8")
    return folder


def test_boats():
    sizes = (25, 50, 100, 200, 400)
    describe(BOAT)
    costs = [cpu(lambda size=size: [describe(BOAT) for _ in range(size)]) for size in sizes]
    found = slope(sizes, costs)
    print(f"\nslope with boats: {found:.2f} ({costs[-1] / sizes[-1] * 1000:.2f} ms a boat at {sizes[-1]})")
    assert found <= MOST


def test_gear(tmp_path):
    sizes = (400, 800, 1600, 3200)
    folders = [with_gear(tmp_path / str(size), size) for size in sizes]
    costs = [cpu(lambda folder=folder: describe(folder)) for folder in folders]
    found = slope(sizes, costs)
    print(f"\nslope with items of gear: {found:.2f} ({costs[-1] * 1000:.0f} ms at {sizes[-1]} items)")
    assert found <= MOST


@pytest.mark.parametrize("power", [1.0, 2.0])
def test_the_slope_itself(power):
    assert slope((1, 2, 4, 8), [3 * size**power for size in (1, 2, 4, 8)]) == pytest.approx(power)
