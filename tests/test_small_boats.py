"""Small boats: few keys, no demand for what they have not got, no step that makes no sense aboard."""

from datetime import date

import pytest

from generator.outputs.book import parts
from generator.outputs.site import screens
from generator.publishing import Order, survey
from generator.reading.findings import Weight
from generator.shelves.languages import catalogue

ALONE = """\
format: 1
vessel:
  name: Elritze
  type: monohull
  length: 7.0 m
  beam: 2.4 m
  draft: 1.1 m
  freeboard: 0.7 m
  flag: Germany
  persons: 1
  waters: coastal
  climate: temperate
  use: private
  engine: outboard
  muster-place: cockpit
people:
  - {role: skipper}
radio:
  sets:
    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: cockpit, power: turn the top knob to the right}
lifejackets:
  - {size: adult, kind: inflatable, quantity: 1, where: cockpit, next-service: 2027-04}
recovery: {ladder: "transom, starboard", ladder-from-water: yes}
gear:
  - {what: fire extinguisher, kind: fire, quantity: 1, where: cockpit locker, side: port, expires: 2029-01}
  - {what: horn, kind: signal, quantity: 1, where: cockpit, side: port}
  - {what: throwing line, kind: lifesaving, quantity: 1, where: cockpit, side: port}
  - {what: red hand flares, kind: signal, quantity: 4, where: cockpit locker, side: port, expires: 2029-01}
pumps:
  - {what: hand pump, power: hand, where: cockpit, side: port, handle: in the clip beside it}
"""
TWO = (
    ALONE.replace("persons: 1", "persons: 2")
    .replace("  - {role: skipper}", "  - {role: skipper}\n  - {role: mate}")
    .replace("quantity: 1, where: cockpit, next", "quantity: 2, where: cockpit, next")
    .replace(
        "  muster-place",
        """\
  general-alarm: one long blast on the horn
  abandon-order: the skipper calls 'Abandon ship' three times
  muster-place""",
    )
    + """\
station-bill:
  abandon-ship: {command: {who: skipper, substitute: mate}, call: {who: mate, substitute: skipper}, muster: {who: mate, substitute: skipper}}
  fire: {command: {who: skipper, substitute: mate}, call: {who: skipper, substitute: mate}, close: {who: skipper, substitute: mate},
         fight: {who: mate, substitute: skipper}, shut-off: {who: skipper, substitute: mate}}
  flooding: {command: {who: skipper, substitute: mate}, call: {who: skipper, substitute: mate}, find: {who: skipper, substitute: mate},
             pump: {who: mate, substitute: skipper}}
  man-overboard: {helm: {who: skipper, substitute: mate}, call: {who: skipper, substitute: mate}, lookout: {who: mate, substitute: skipper},
                  throw: {who: skipper, substitute: mate}, recover: {who: skipper, substitute: mate}}
"""
)


@pytest.fixture
def surveyed(tmp_path):
    def of(text):
        (tmp_path / "boat").mkdir(exist_ok=True)
        (tmp_path / "boat" / "vessel.yaml").write_text(text, encoding="utf-8")
        return survey(tmp_path / "boat", "boat", Order(date(2026, 6, 1)))

    return of


def defects(done):
    return [each.check for each in done.findings if each.weight is Weight.DEFECT]


def texts(done):
    return [
        text
        for one in done.manual.procedures
        for step in one.steps
        for text in (step.text, step.unless, step.caution)
    ]


def test_who_sails_alone_needs_neither_signals_nor_a_bill(surveyed):
    done = surveyed(ALONE)
    assert defects(done) == []
    assert done.manual.bill.emergencies == ()
    assert "bill" not in {screen.name for screen in screens(done.manual)}
    assert catalogue().say("part.station-bill") not in {part.title for part in parts(done.manual, "crew")}
    assert "man-overboard" not in {one.id for one in done.manual.procedures}


@pytest.mark.parametrize(
    "word",
    [
        "general alarm",
        "everybody together",
        "on the skipper's word",
        "Point at",
        "not known",
        "hold on to each other",
    ],
)
def test_who_sails_alone_is_told_nothing_that_takes_two(surveyed, word):
    assert [text for text in texts(surveyed(ALONE)) if word in text] == []


@pytest.mark.parametrize("text", [ALONE, TWO], ids=["alone", "two"])
def test_without_a_raft_no_step_launches_one(surveyed, text):
    done = surveyed(text)
    assert defects(done) == []
    assert [each for each in texts(done) if "launch" in each or "raft goes" in each] == []


def test_two_persons_have_a_bill_and_signals(surveyed):
    assert [each.id for each in surveyed(TWO).manual.bill.emergencies] == [
        "man-overboard",
        "fire",
        "flooding",
        "abandon-ship",
    ]
    silent = TWO.replace("  general-alarm: one long blast on the horn\n", "")
    gap = next(each for each in surveyed(silent).findings if each.weight is Weight.DEFECT)
    assert (gap.check, "general-alarm" in gap.message) == ("file.not-known-yet", True)


def test_a_key_that_is_unknown_is_told_once(surveyed):
    """What reading has said is not said again for the step that prints it."""
    done = surveyed(TWO.replace("general-alarm: one long blast on the horn", "general-alarm: unknown"))
    assert defects(done) == ["file.not-known-yet"]


@pytest.mark.parametrize(
    ("engine", "gas", "more", "asked_for"),
    [
        ("none", "gas: none\n", "", False),
        ("outboard", "gas: none\n", "", True),
        ("none", "", "", True),
        (
            "none",
            "gas: none\n",
            "  - {what: paraffin stove, kind: other, quantity: 1, where: cockpit}\n",
            True,
        ),
    ],
)
def test_an_extinguisher_is_asked_for_but_where_nothing_burns(surveyed, engine, gas, more, asked_for):
    """An open boat that says she has neither engine nor gas, and carries nothing else that burns, needs none."""
    bare = "\n".join(line for line in ALONE.splitlines() if "fire extinguisher" not in line) + "\n"
    text = bare.replace("type: monohull", "type: open boat").replace("engine: outboard", f"engine: {engine}")
    found = {each.check for each in surveyed(text.replace("gear:\n", f"gear:\n{more}") + gas).findings}
    assert ("gear.extinguisher-missing" in found) == asked_for
