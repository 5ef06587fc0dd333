"""A starter file holds what was answered, says unknown elsewhere, and gives a first proof copy; nothing is ever overwritten."""

import re
from datetime import date
from pathlib import Path

import pytest
from asked import always_asked

from generator.__main__ import main
from generator.commissioning.questions import questions
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission
from generator.publishing import Order, survey
from generator.reading.tree import read_file
from generator.reading.values import UNKNOWN
from generator.vessel.loading import load

RAFT = "rafts[liferaft]"
ALL = {
    "vessel.type": "monohull", "people": "skipper, mate, 3 guests", "vessel.length": "11.4 m", "vessel.beam": "12 ft 2 in",
    "vessel.flag": "Ireland", "vessel.waters": "offshore", "vessel.climate": "temperate", "vessel.use": "private",
    "vessel.engine": "inboard diesel", "vessel.rig": "cutter", "vessel.muster-place": "cockpit", "gas.fuel": "butane",
    f"{RAFT}.stowage": "coachroof cradle", f"{RAFT}.where": "coachroof", f"{RAFT}.side": "centre",
    f"{RAFT}.persons": "6", f"{RAFT}.container": "canister", f"{RAFT}.held-by": "Senhouse slip, hru",
    f"{RAFT}.painter.length": "11 m", f"{RAFT}.painter.fast-to": "weak link", f"{RAFT}.release.expires": "2027-09",
    f"{RAFT}.service.next": "2028-09-04", "radio.call-sign": "MZZZ9", "radio.mmsi": "232000000",
    "radio.sets[fixed VHF].where": "chart table", "radio.sets[fixed VHF].side": "port",
    "radio.beacons[EPIRB].where": "companionway", "radio.beacons[EPIRB].side": "port",
    "radio.beacons[EPIRB].battery-expires": "2029-05", "lifejackets[adult].where": "saloon", "lifejackets[adult].side": "port",
}  # fmt: skip


def read_back(done):
    tree, form = read_file(done.path, "vessel.yaml")
    assert form == []
    vessel, findings = load(done.path.parent)
    return tree, vessel, findings


def test_about_twenty_five_questions_what_saves_lives_first():
    asked = [question.keys for question in questions()]
    assert {key for keys in asked for key in keys} == {
        *ALL, "radio.sets[handheld VHF].where", "radio.sets[handheld VHF].side"
    }  # fmt: skip
    assert sum(not question.moot(ALL) for question in questions()) == 25
    order = [next(number for number, keys in enumerate(asked) if key in keys) for key in (
        f"{RAFT}.stowage", f"{RAFT}.painter.length", "radio.sets[fixed VHF].where", "lifejackets[adult].where",
        "vessel.muster-place", "vessel.engine", "vessel.use", "vessel.flag",
    )]  # fmt: skip
    assert order == sorted(order)


def test_questions_are_in_the_words_of_the_fields():
    asked = {question.key: question for question in questions()}
    assert (
        asked[f"{RAFT}.painter.length"].text
        == "liferaft, painter: How long is it (on the container's label)?"
    )
    assert asked["radio.beacons[EPIRB].where"].text == "EPIRB: In which space, and on which side?"
    assert asked["vessel.type"].shown({}) == "monohull, catamaran, trimaran, motor vessel, open boat, dayboat"
    assert asked[f"{RAFT}.stowage"].shown({}).endswith("; or none")
    assert asked["vessel.flag"].shown({}) == "for example United Kingdom"
    below = {f"{RAFT}.stowage": "below deck"}
    assert asked[f"{RAFT}.held-by"].shown(below) == "one or more, with commas: strap, lashing; or none"


def test_answers_stand_at_their_keys(tmp_path):
    done = commission("Windhover", ALL, tmp_path)
    assert (done.path, done.missing, done.asked) == (tmp_path / "windhover" / "vessel.yaml", 0, 25)
    _, vessel, _ = read_back(done)
    raft = vessel.rafts[0]
    assert vessel.vessel.name == "Windhover"
    assert str(vessel.vessel.beam) == "12 ft 2 in"
    assert (raft.held_by, str(raft.release.expires), raft.persons) == (("Senhouse slip", "HRU"), "2027-09", 6)
    assert (str(raft.painter.length), raft.painter.fast_to, str(raft.service.next)) == (
        "11 m",
        "weak link",
        "2028-09-04",
    )
    assert (vessel.radio.sets[0].where, vessel.radio.beacons[0].where) == ("chart table", "companionway")
    assert vessel.specimen is None


def test_unknown_stands_where_there_is_no_answer(tmp_path):
    done = commission(
        "Windhover", {"vessel.length": "unknown", "vessel.beam": " ", "vessel.type": "Catamaran"}, tmp_path
    )
    assert (done.missing, done.asked) == (
        24,
        25,
    )  # the type is answered, and nobody knows yet what else she has not
    _, vessel, findings = read_back(done)
    assert vessel.vessel.length is UNKNOWN
    assert vessel.vessel.beam is UNKNOWN
    assert vessel.vessel.type == "catamaran"
    assert {finding.check for finding in findings} == {"file.not-known-yet"}


@pytest.mark.parametrize(
    "answers",
    [
        {},
        ALL,
        {f"{RAFT}.stowage": "none"},
        {f"{RAFT}.held-by": "strap"},
        {f"{RAFT}.held-by": "none"},
        {"radio.sets[fixed VHF].where": "none", "radio.beacons[EPIRB].where": "none"},
    ],
)
def test_what_is_found_in_a_starter_file_is_true(tmp_path, answers):
    """No key is unreadable, and each open value something hangs on is announced where the word unknown stands."""
    done = commission("Windhover", answers, tmp_path)
    lines = done.path.read_text(encoding="utf-8").splitlines()
    _, _, findings = read_back(done)
    assert {each.check for each in findings} <= {"file.not-known-yet"}
    words = [lines[each.place.line - 1][each.place.column - 1 :].startswith("unknown") for each in findings]
    at = {each.place.line for each, word in zip(findings, words, strict=True) if word}
    found = ((number, re.match(r"[^#]*?([a-z-]+): unknown\b", line)) for number, line in enumerate(lines, 1))
    open_ = {number: match[1] for number, match in found if match}
    assert at <= set(open_)
    # Of the others the step or the check that needs them speaks, or a condition does not hold.
    assert not {open_[number] for number in set(open_) - at} & always_asked()


def test_the_survey_of_a_starter_file_finds_nothing_wrong_with_its_form(tmp_path):
    done = commission("Windhover", ALL, tmp_path)
    found = survey(done.path.parent, "windhover", Order(date(2026, 6, 1)))
    assert found.manual is not None
    assert not {finding.check for finding in found.findings} & {
        "file.unknown-key",
        "file.bad-value",
        "file.blank-value",
        "file.missing-key",
        "file.unreadable",
    }


def test_of_a_file_that_answers_nothing_a_proof_copy_can_be_published(tmp_path, capsys):
    done = commission("Windhover", {}, tmp_path)
    assert survey(done.path.parent, "windhover", Order(date(2026, 6, 1))).manual is not None
    assert (
        main(
            [
                "publish",
                str(done.path.parent),
                "--proof-copy",
                "--only",
                "site",
                "--into",
                str(tmp_path / "site"),
            ]
        )
        == 1
    )
    assert "proof copy (not for use)" in capsys.readouterr().out
    assert (tmp_path / "site" / "windhover.proof-copy" / "guest" / "index.html").is_file()


def test_without_a_raft_there_is_no_raft(tmp_path):
    done = commission("Windhover", {f"{RAFT}.stowage": "None"}, tmp_path)
    tree, vessel, _ = read_back(done)
    assert "rafts" not in tree.entries
    assert vessel.rafts == ()
    assert done.asked == 17


def test_the_release_stands_only_where_an_hru_holds_the_raft(tmp_path):
    def release(name, answers):
        return read_back(commission(name, answers, tmp_path))[1].rafts[0].release

    assert release("A1", {f"{RAFT}.held-by": "[HRU, strap]"}) is not None
    assert release("A2", {f"{RAFT}.held-by": "strap"}) is None
    assert release("A3", {}) is None
    assert str(release("A4", {f"{RAFT}.release.expires": "2027-01"}).expires) == "2027-01"


def test_nothing_holds_a_valise(tmp_path):
    tree = read_back(commission("Windhover", {f"{RAFT}.held-by": "none"}, tmp_path))[0]
    assert tree.entries["rafts"].items[0].entries["held-by"].text == "none"


def test_no_beacon_and_no_fixed_vhf(tmp_path):
    tree, vessel, _ = read_back(
        commission(
            "A", {"radio.sets[fixed VHF].where": "none", "radio.beacons[EPIRB].where": "none"}, tmp_path
        )
    )
    assert vessel.radio.beacons == ()
    assert "beacons" not in tree.entries["radio"].entries
    assert tree.entries["radio"].entries["sets"].text == "unknown"


def test_what_is_moot_is_not_asked():
    by_key = {question.key: question for question in questions()}
    none = {f"{RAFT}.stowage": "none"}
    assert by_key[f"{RAFT}.painter.length"].moot(none)
    assert not by_key[f"{RAFT}.stowage"].moot(none)
    assert by_key[f"{RAFT}.release.expires"].moot({f"{RAFT}.held-by": "strap, lashing"})
    assert not by_key[f"{RAFT}.release.expires"].moot({f"{RAFT}.held-by": "unknown"})
    assert not by_key[f"{RAFT}.release.expires"].moot({})


def asked(key):
    return next(question for question in questions() if key in question.keys)


def test_an_answer_is_looked_at_when_it_is_given():
    with pytest.raises(Refusal, match=r"vessel.length: '11.4' has no unit; write the unit with it"):
        asked("vessel.length").read("11.4", {})
    with pytest.raises(Refusal, match=r"'12,5 m' has a comma in the figure; write a point: 12\.5 m"):
        asked("vessel.length").read("12,5 m", {})
    assert asked("vessel.length").read("11.4 m", {}) == {"vessel.length": "11.4 m", "vessel.beam": "unknown"}
    assert asked("vessel.length").read("11.4 m x 12 ft", {}) == {
        "vessel.length": "11.4 m",
        "vessel.beam": "12 ft",
    }
    assert asked("vessel.length").read("", {}) == {"vessel.length": "unknown", "vessel.beam": "unknown"}


def test_call_sign_and_mmsi_are_told_apart_by_what_they_are():
    identity = asked("radio.mmsi")
    both = {"radio.call-sign": "MZZZ9", "radio.mmsi": "232000000"}
    assert identity.read("MZZZ9, 232000000", {}) == both
    assert identity.read("232000000", {}) == both | {"radio.call-sign": "unknown"}
    assert identity.read("none", {}) == {"radio.call-sign": "none", "radio.mmsi": "none"}
    with pytest.raises(Refusal, match="is one too many"):
        identity.read("MZZZ9, 232000000, 232000001", {})


def test_a_space_that_her_type_has_not_is_told_with_the_nearest():
    jackets, motor = asked("lifejackets[adult].where"), {"vessel.type": "motor vessel"}
    assert jackets.read("wheelhouse, port side", motor)["lifejackets[adult].side"] == "port"
    assert jackets.read("cockpit locker", {})["lifejackets[adult].side"] == "unknown"
    with pytest.raises(
        Refusal, match="a motor vessel has no space 'weelhouse' on her plan; write wheelhouse"
    ):
        jackets.read("weelhouse", motor)
    with pytest.raises(Refusal, match="a trimaran has no space 'wheelhouse'"):
        jackets.read("wheelhouse, port", {"vessel.type": "trimaran"})
    above, on_deck, below = jackets.spaces(motor)
    assert "flybridge" in above and "saloon" in below and "wheelhouse" in on_deck + below


def test_keys_beyond_the_first_questions_can_be_answered_too(tmp_path):
    answers = {
        "recovery.ladder-from-water": "y",
        f"{RAFT}.knife": "in a sheath: port foot",
        "radio.beacons[EPIRB].hex-id": "private",
    }
    _, vessel, findings = read_back(commission("Windhover", answers, tmp_path))
    assert vessel.recovery.ladder_from_water is True
    assert vessel.rafts[0].knife.words == "in a sheath: port foot"
    assert vessel.lacks_private
    assert {finding.check for finding in findings} == {"file.not-known-yet", "file.no-private"}


REFUSED = [
    (
        "Windhover",
        {"vessel.lenght": "12 m"},
        "'vessel.lenght' is no key of a vessel file; write vessel.length?",
    ),
    ("Windhover", {"vessel.name": "Other"}, "vessel.name takes no answer; NAME says it"),
    ("Windhover", {"format": "2"}, "format takes no answer; the program writes it"),
    (
        "Windhover",
        {"vessel.length": "12,5 m"},
        "vessel.length: '12,5 m' has a comma in the figure; write a point: 12.5 m",
    ),
    (
        "Windhover",
        {"vessel.type": "submarine"},
        "vessel.type: 'submarine' is none of the words this key takes; write one of: monohull",
    ),
    (
        "Windhover",
        {f"{RAFT}.service.next": "05/06/2027"},
        "can be read as more than one date; write 2027-06-05 or 2027-05-06",
    ),
    (
        "Windhover",
        {"vessel.flag": "private"},
        "vessel.flag: this is printed for guests, so it cannot be private",
    ),
    (
        "Windhover",
        {"vessel.flag": "a\nspecimen: {as-of: 2026-01-01}"},
        "vessel.flag: the answer holds a line break",
    ),
    (
        "Windhover",
        {f"{RAFT}.held-by": "strap", f"{RAFT}.release.expires": "2027-01"},
        "held-by names no HRU; correct one of the two",
    ),
    (
        "Windhover",
        {f"{RAFT}.stowage": "none", f"{RAFT}.persons": "6"},
        "another answer says there is none aboard",
    ),
    ("", {}, "a vessel's name needs a letter or a digit"),
    ("unknown", {}, "this word cannot be a vessel's name"),
    ("...", {}, "vessel.name: '...' is no answer"),
    ("!!!", {}, "a vessel's name needs a letter or a digit"),
    ("../..", {}, "a vessel's name needs a letter or a digit"),
    ("x" * 200, {}, "vessel.name: a word of 200 letters stands here, and 60 are the most"),
    ("Wind\x07hover", {}, "vessel.name: the answer holds a line break or a character that cannot be printed"),
    (
        "Wind\udc80hover",
        {},
        "vessel.name: the answer holds a line break or a character that cannot be printed",
    ),
]


@pytest.mark.parametrize(("name", "answers", "message"), REFUSED)
def test_refusals(tmp_path, name, answers, message):
    with pytest.raises(Refusal, match=re.escape(message)):
        commission(name, answers, tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_never_overwritten(tmp_path):
    path = commission("Windhover", {}, tmp_path).path
    path.write_text("mine\n")
    with pytest.raises(Refusal, match="is there already, and a vessel file is never overwritten"):
        commission("WINDHOVER", ALL, tmp_path)
    assert path.read_text() == "mine\n"


def test_a_link_to_nowhere_is_not_written_through(tmp_path):
    (tmp_path / "windhover").mkdir()
    (tmp_path / "windhover" / "vessel.yaml").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(Refusal):
        commission("Windhover", {}, tmp_path)
    assert not (tmp_path / "elsewhere").exists()


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(Refusal, match="cannot be written"):
        commission("Windhover", {}, tmp_path / "file")


def test_the_examples_in_its_comments_can_be_used_as_they_stand(tmp_path):
    """Each commented entry, put in force, reads without a complaint about its form."""
    done = commission(
        "Windhover", {f"{RAFT}.held-by": "strap", "radio.beacons[EPIRB].where": "none"}, tmp_path
    )
    lines = []
    for line in done.path.read_text(encoding="utf-8").splitlines():
        entry = re.match(r"( *)# ((?:  )*(?:- \{.*\}|[a-z-]+:(?: .*)?|- [a-z-]+:.*))$", line)
        uncomment = entry and not re.search(
            r"\?|for example:?$|based-on|base:|yaml-language-server|Whoever|More of", line
        )
        lines.append(entry[1] + entry[2] if uncomment else line)
    text = "\n".join(lines).replace("gear: unknown", "")
    text = re.sub(r"(?m)^  (- \{what: lifebuoy)", r"gear:\n  \1", text)
    Path(done.path).write_text(text, encoding="utf-8")
    vessel, findings = load(done.path.parent)
    assert {finding.check for finding in findings} == {"file.not-known-yet"}, findings
    assert len(vessel.gear) == 4
    assert len(vessel.stops) == 4
    assert vessel.station_bill["abandon-ship"]["command"].substitute == "mate"


def test_a_boat_may_have_neither_call_sign_nor_mmsi(tmp_path):
    """Small boats have none; the starter then leaves the key out, as a comment to take up later."""
    done = commission("Windhover", {"radio.call-sign": "none", "radio.mmsi": "None"}, tmp_path)
    _, vessel, findings = read_back(done)
    assert vessel.radio.call_sign is None
    assert vessel.radio.mmsi is None
    assert not [each for each in findings if each.place.key in ("radio.call-sign", "radio.mmsi")]
    assert "# mmsi: 232000000" in done.path.read_text(encoding="utf-8")
