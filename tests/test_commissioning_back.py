"""The way back to the question before, and identities that are held against each other as soon as they are answered."""

import re

import pytest

from generator.commissioning.conversation import BrokenOff, Wish, carry_out
from generator.commissioning.identities import doubts
from generator.commissioning.kept import NAME
from generator.vessel.loading import load

DUTCH, GERMAN = "244123456", "211234560"


def talk(folder, *typed):
    """What is told to somebody who types this, then Enter at whatever is left, or breaks off at the word EOF."""
    lines, told = list(typed), []

    def ask(_prompt):
        line = lines.pop(0) if lines else ""
        if line == "EOF":
            raise EOFError
        return line

    try:
        carry_out(Wish("Tern", folder), ask, told.append)
    except BrokenOff as ended:
        told.append(str(ended))
    return [line for each in told for line in each.strip().splitlines()]


def written(folder):
    vessel, _ = load(folder / "tern")
    return vessel


def test_back_asks_the_question_before_again_and_enter_keeps_what_was_answered(tmp_path):
    told = talk(tmp_path, "monohull", "skipper, mate", "back", "back", "trimaran", "none", "back", "")
    asked = [re.sub(r"^[0-9]+ of [0-9]+[.] ", "", line)[:17] for line in told if re.match("[0-9]+ of", line)]
    assert asked[:7] == [
        "What hull is she?", "people: Which rol", "liferaft: In what", "people: Which rol", "What hull is she?", "liferaft: In what",
        "fixed VHF: In whi",
    ]  # fmt: skip
    assert "(answered: skipper, mate; Enter alone keeps it)" in " ".join(told)
    assert "(answered: monohull; Enter alone keeps it)" in told
    vessel = written(tmp_path)
    assert (vessel.vessel.type, [each.role for each in vessel.people]) == ("trimaran", ["skipper", "mate"])
    assert not vessel.rafts


def test_at_the_first_question_there_is_no_way_back(tmp_path):
    told = talk(tmp_path, "Back", "dayboat")
    assert told.count("this is the first question") == 1
    assert written(tmp_path).vessel.type == "dayboat"


def test_what_was_answered_anew_is_kept_for_the_next_run(tmp_path):
    talk(tmp_path, "monohull", "skipper, mate", "back", "skipper, mate, 3 guests", "EOF")
    kept = (tmp_path / "tern" / NAME).read_text(encoding="utf-8")
    assert kept.rstrip().endswith("people=skipper, mate, 3 guests")
    told = talk(tmp_path)
    assert told[0].startswith("2 answers are kept for Tern in")
    assert written(tmp_path).vessel.persons == 5


def test_what_a_changed_answer_overtakes_is_left_out_or_asked_again(tmp_path):
    raft = (
        "coachroof cradle",
        "coachroof, port",
        "canister",
        "HRU, strap",
        "6",
        "11 m",
        "weak link",
        "2029-05",
        "2027-05",
    )
    to_the_muster_place = ("chart table, port", "unknown", "none", "unknown", "coachroof")
    talk(tmp_path, "monohull", "2", *raft, *to_the_muster_place, *["back"] * 16, "open boat", "EOF")
    told = talk(tmp_path, "none", "helm, port", "bow")
    asked = [line.partition(". ")[2] for line in told if " of " in line and "? " in f"{line} "]
    assert asked[0].startswith("liferaft: In what is it kept")
    assert asked[1].startswith("fixed VHF: In which space")
    vessel = written(tmp_path)
    assert not vessel.rafts
    assert (vessel.radio.sets[0].where, vessel.vessel.muster_place) == ("helm", "bow")


@pytest.mark.parametrize(
    ("answers", "key", "found"),
    [
        ({"radio.mmsi": DUTCH, "vessel.flag": "Germany"}, "vessel.flag", "the MMSI belongs to Netherlands"),
        ({"radio.mmsi": DUTCH, "vessel.flag": "Germany"}, "radio.mmsi", "the MMSI belongs to Netherlands"),
        ({"radio.mmsi": "044123456"}, "radio.mmsi", "the MMSI begins with 0"),
        ({"radio.call-sign": "MZZZ9", "vessel.flag": "France"}, "vessel.flag", "the call sign belongs to"),
        ({"vessel.flag": "Atlantis"}, "vessel.flag", "'Atlantis' is no state or territory"),
        ({"vessel.hull-id": "ABC123"}, "vessel.hull-id", ""),
        ({"radio.beacons[EPIRB].kind": "EPIRB", "radio.beacons[EPIRB].ais-number": "972123456"}, "radio.beacons[EPIRB].ais-number", "starts with 974"),
    ],
)  # fmt: skip
def test_an_identity_is_held_against_the_others_when_it_is_answered(answers, key, found):
    (told,) = doubts(answers, [key])
    assert told.startswith(key if "hull-id" in key or "ais" in key else told.partition(":")[0])
    assert found in told
    assert doubts(answers, ["vessel.waters"]) == []


@pytest.mark.parametrize("answers", [
    {"radio.mmsi": DUTCH, "vessel.flag": "Netherlands"}, {"radio.mmsi": DUTCH}, {"radio.mmsi": "unknown", "vessel.flag": "Germany"},
    {"radio.mmsi": "none", "radio.call-sign": "none", "vessel.flag": "Germany"}, {"radio.mmsi": GERMAN, "vessel.flag": "Germany", "people": "4"},
])  # fmt: skip
def test_identities_that_belong_together_are_not_doubted(answers):
    assert doubts(answers, list(answers)) == []


def test_a_doubtful_identity_is_asked_again_and_taken_when_it_is_written_once_more(tmp_path):
    typed = ["dayboat", "2", "none", "helm, port", f"PZZZ, {DUTCH}", *[""] * 11, "Germany", "Germany"]
    told = " ".join(talk(tmp_path, *typed, "EOF"))
    once = "write it once more; back goes to the question before"
    assert (
        told.count("the MMSI belongs to Netherlands (Kingdom of the), and her flag is Germany")
        == told.count(once)
        == 1
    )
    assert written(tmp_path).vessel.flag == "Germany"


def test_identities_given_on_the_command_line_are_told_of_and_taken(tmp_path):
    told = []
    given = (f"radio.mmsi={DUTCH}", "vessel.flag=Germany")
    carry_out(Wish("Tern", tmp_path, given), None, told.append)
    assert (
        len(
            [
                each
                for each in told
                if each.startswith("Look again: radio.mmsi: the MMSI belongs to Netherlands")
            ]
        )
        == 1
    )
    assert written(tmp_path).radio.mmsi == DUTCH
