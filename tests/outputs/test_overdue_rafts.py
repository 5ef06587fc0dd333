"""A raft past its service, carried all the same: its own pages and cards say so, and it is named before flares."""

import re

import pytest
from boat_file import SOUND
from open_boats import surveyed

from generator.manual.good_until import worded
from generator.outputs import Job, site

PAST = "expired, do not rely on it"


@pytest.fixture(scope="module")
def boat(tmp_path_factory):
    service = re.search(r"(?m)^    service:.*\n(?:      .*\n)*", SOUND)[0]
    text = SOUND.replace(service, "    service: {last: 2023-05, next: 2026-05}\n")
    text = re.sub(r"(what: parachute flares, kind.*?expires: )\d{4}-\d\d", r"\g<1>2026-04", text, count=1)
    text += (
        "\ndeferred-defects:\n"
        "  - {check: gear.expired, item: parachute flares, reason: ordered, who: the skipper, until: 2026-06-20}\n"
        "  - {check: raft.service-due, item: liferaft, reason: station shut, who: the skipper, until: 2026-07-20}\n"
    )
    return surveyed(text, tmp_path_factory.mktemp("overdue"))


def test_what_saves_most_lives_is_named_first(boat):
    said = worded(boat.manual.good, boat.manual.printer)
    assert re.search(r"deferred: liferaft.*parachute flares", said.past), said.past
    assert "liferaft" in said.short


def test_its_own_pages_say_that_it_is_past(boat):
    assert boat.manual.overdue(boat.manual.vessel.rafts[0])
    made = site.write(Job(boat.manual, "guest"))
    for page in ("liferaft", "raft-launch", "boarding", "righting"):
        assert PAST in made.files[f"{page}.html"].decode(), page
    assert PAST not in made.files["man-overboard.html"].decode()
