"""A role of several shared between two rafts: how the file says it, what is held against it, and where it is printed."""

import re
import shutil

import pytest
from checks.survey_patch import TODAY, VESSELS, survey_boat

from generator.manual.bill import compose_bill
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.reading.values import Counted
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

PORT, STARBOARD = "[skipper, deckhand 1, cook, guests: 4]", "[mate, engineer, deckhand 2, guests: 2]"


@pytest.fixture
def shared(tmp_path):
    """Makes the boat with two rafts whose guests are six in one line, with what each raft says of whom it carries."""

    def made(port=PORT, starboard=STARBOARD, quantity=6):
        folder = tmp_path / "nordgyllen"
        shutil.copytree(VESSELS / "nordgyllen", folder, dirs_exist_ok=True)
        text = (VESSELS / "nordgyllen" / "vessel.yaml").read_text(encoding="utf-8")
        text = re.sub(r"\n  - \{role: guest 2,.*", "", text)
        text = re.sub(r"(role: )guest 1,", rf"\1guests, quantity: {quantity},", text)
        text = text.replace("carries: [skipper, deckhand 1, cook, guest 1]", f"carries: {port}")
        text = text.replace("carries: [mate, engineer, deckhand 2, guest 2]", f"carries: {starboard}")
        text = text.replace(
            "lookout: {who: guest 1, substitute: guest 2}", "lookout: {who: guests, substitute: cook}"
        )
        (folder / "vessel.yaml").write_text(re.sub(r"\bguest [12]\b", "guests", text), encoding="utf-8")
        return folder

    return made


def told(folder, *checks):
    found = survey_boat(folder, TODAY).findings
    return [(each.check, each.message, each.remedy) for each in found if each.check in checks]


RAFTS = ("bill.no-raft-for", "raft.overloaded", "raft.party", "file.bad-value", "steps.gap")


@pytest.mark.parametrize(
    ("port", "starboard", "quantity"),
    [
        (PORT, STARBOARD, 6),
        ("{skipper: 1, deckhand 1: 1, cook: 1, guests: 4}", STARBOARD, 6),
        ("\n      - skipper\n      - deckhand 1\n      - cook\n      - guests: 5", "[mate, engineer, deckhand 2, guests: 5]", 10),
        ("[skipper, deckhand 1, cook, guests]", "[mate, engineer, deckhand 2]", 5),
        ("[skipper, deckhand 1, cook, guests: 4]", "[mate, engineer, deckhand 2, guests: 1]", "unknown"),
    ],
)  # fmt: skip
def test_what_is_shared_out_is_sound(shared, port, starboard, quantity):
    assert told(shared(port, starboard, quantity), *RAFTS) == []


@pytest.mark.parametrize(
    ("last", "check", "message", "remedy"),
    [
        ("guests: 1", "bill.no-raft-for", "6 have the role guests, and 4 and 1 go into rafts", "write guests: 5 under 'carries' of the port liferaft, if that is so"),
        ("guests: 3", "bill.no-raft-for", "6 have the role guests, and 4 and 3 go into rafts", "write guests: 3 under 'carries' of the port liferaft, if that is so"),
        ("guests", "bill.no-raft-for", "the role guests goes into the port liferaft and into the starboard liferaft", "write how many of them go into each, for example guests: 3"),
        ("guests: unknown", "bill.no-raft-for", "the role guests goes into the port liferaft and into the starboard liferaft", "write how many of them go into each, for example guests: 3"),
        ("2 guests", "bill.no-raft-for", "starboard liferaft: '2 guests' is no role aboard", "write guests: 2"),
        ("guests: 1, guests: 1", "bill.no-raft-for", "the starboard liferaft names the guests twice", "name the role once"),
        ("guests: two", "file.bad-value", "'two' is not a whole number", "write digits only, for example 2"),
        ("guests: 0", "file.bad-value", "0 is outside what can be: 1 to 60, as many as a boat of 40 m has aboard", "look at the figure again"),
        ("guests: [1, 2]", "file.bad-value", "no number stands here", "write guests: 2"),
        ("cook: 1", "bill.no-raft-for", "1 has the role cook, and 1 and 1 go into rafts", ""),
    ],
)  # fmt: skip
def test_what_is_wrongly_shared_out_is_told_once_with_what_to_write(shared, last, check, message, remedy):
    port = PORT.replace("cook", "cook: 1") if "cook" in last else PORT
    more = ", guests: 2" if "cook" in last else ""
    found = told(shared(port, f"[mate, engineer, deckhand 2, {last}{more}]"), *RAFTS)
    assert [each[:2] for each in found if "party" not in each[0]] == [(check, message)]
    assert found[0][2].startswith(remedy)


def test_a_raft_takes_no_more_of_them_than_it_is_approved_for(shared):
    found = told(shared("[skipper, deckhand 1, cook, guests: 6]", STARBOARD, 8), *RAFTS)
    assert [each[:2] for each in found] == [
        ("raft.overloaded", "port liferaft: it is approved for 8 persons, and 9 are to go into it")
    ]


def test_each_raft_is_printed_with_how_many_of_them_it_carries(shared):
    vessel, _ = load(shared())
    assert isinstance(vessel.rafts[0].carries[-1], Counted)
    reckoning, words = Reckoning(vessel), catalogue()
    composed, gaps = compose_procedures(reckoning, words)
    assert gaps == []
    port, starboard = (
        "skipper, deckhand 1, cook, guests (4 of 6)",
        "mate, engineer, deckhand 2, guests (2 of 6)",
    )
    steps = {step.id: step for one in composed if one.kind == "leaving" for step in one.steps}
    assert port in steps["leaving.own-raft"].caution
    assert starboard in steps["leaving.own-raft"].caution
    for raft, crew in zip(vessel.rafts, (port, starboard), strict=True):
        own = [one for one in composed if one.kind in ("boarding", "raft-away") and one.raft is raft]
        assert [sum(crew in step.text for step in one.steps) for one in own] == [1, 1]
    bill = compose_bill(reckoning, composed, words)
    assert ", ".join(bill.named(vessel.rafts[0].carries)) == port
    assert bill.named(["guests"]) == ("guests (6)",)


def test_as_many_travel_in_a_role_as_have_it(shared):
    folder = shared()
    persons = "".join(f"  - {{name: Guest {number}, role: guests}}\n" for number in range(6))
    voyage = f"format: 1\nuntil: 2026-06-20\npersons:\n  - {{name: Ada, role: skipper}}\n{persons}"
    (folder / "voyage.yaml").write_text(voyage, encoding="utf-8")
    assert told(folder, "voyage.unknown-role") == []
    (folder / "voyage.yaml").write_text(voyage + "  - {name: Guest 6, role: guests}\n", encoding="utf-8")
    (found,) = told(folder, "voyage.unknown-role")
    assert found[1] == "7 travel as 'guests', and there are 6 of them aboard"
