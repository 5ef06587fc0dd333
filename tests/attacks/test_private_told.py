"""What guests may not read never reaches what is told of a boat: terminal, reports of every form, tables of dates, traces."""

import json
import random
import re
from datetime import date

import private_boats
import pytest
import yaml
from fleet_of_fakes import fakes, order  # noqa: F401 (a fixture)
from private_boats import described, write

from generator import __main__ as program
from generator import due, publishing
from generator.fleet import discover
from generator.outputs import Made, Record
from generator.publishing import Order, publish, survey
from generator.survey import reports
from generator.survey.registry import all_checks
from generator.survey.withheld.plain import plain, squeezed
from generator.survey.withheld.redaction import IN_PLACE

DAY = date(2026, 6, 1)
SECRETS = {
    "people[mate].phone": "+44 7700 900138",
    "people[mate].medical": "diabetic; insulin in the refrigerator, sugar in the jacket's left pocket",
    "people[mate].name": "Marit Dijkzicht",
    "radio.beacons[EPIRB].hex-id": "1D04000000FFBFF",
    "passport": "XK 4471903",
}
TELLING = (
    "insulin",
    "refrigerator",
    "diabetic",
    "dijkzicht",
    "marit",
    "900138",
    "1d04000000ffbff",
    "xk4471903",
)


def secret_boat(folder):
    """A boat whose private values stand in private.yaml, and another line there that nothing asks for."""
    vessel, voyage = described()
    for key in ("phone", "medical", "name"):
        vessel["people"][1][key] = "private"
    vessel["radio"]["beacons"][0]["hex-id"] = "private"
    vessel["contacts"][2]["phone"] = "+44 7700 900138"
    write(folder, vessel, voyage, SECRETS)
    return vessel, voyage


def given_away(text):
    """What of the secrets a text tells, however it is parted."""
    bare = squeezed(plain(text).spaced).replace("maritime", "")  # the sources of checks are no secret
    return [each for each in TELLING if each in bare]


def every_form(name, findings):
    """All reports of a boat's findings."""
    return "\n".join(
        [
            reports.for_file(f"x.{form}", [(name, findings)], all_checks())
            for form in ("txt", "json", "sarif", "xml")
        ]
        + [reports.listing(findings, colour=True), *map(repr, findings)]
    )


def all_dates(folder):
    """What falls due, in every form; nothing where no date can be told."""
    asked = Order(DAY, as_of=DAY)
    found = due.fall_due(discover([str(folder)]), asked, None)
    told = [due.text(found.rows), *(repr(finding) for _, finding in found.unread)]
    told += [each.told("not looked at") for each in found.stopped]
    return "\n".join(
        [
            *told,
            due.as_csv(found.rows),
            due.for_file("x.ics", found.rows, asked).decode().replace("\r\n ", ""),
        ]
    )


def leaves(tree, path=()):
    """Every text of a tree, and the keys and numbers that lead to it."""
    for key, value in tree.items() if isinstance(tree, dict) else enumerate(tree):
        if isinstance(value, (dict, list)):
            yield (*path, key), value
            yield from leaves(value, (*path, key))
        else:
            yield (*path, key), value


def holder(tree, path):
    for key in path[:-1]:
        tree = tree[key]
    return tree


def spoilt(tree, path, secret, how):
    """The tree with a secret at a wrong place: as a value, in a value, as a key, as a list, as a block."""
    tree = json.loads(json.dumps(tree))
    at, last = holder(tree, path), path[-1]
    value = at[last]
    if how == "key":
        if not isinstance(at, dict):
            return None
        at[secret] = at.pop(last)
    else:
        at[last] = {
            "value": secret,
            "in a value": f"{value if isinstance(value, str) else 'x'}, {secret}",
            "list": [secret, secret],
            "block": {"value": secret, "of": secret},
            "freed": {"value": secret, "for": secret},
        }[how]
    return tree


HOWS = ("value", "in a value", "key", "list", "block", "freed")


@pytest.mark.thorough
@pytest.mark.attack("private")
@pytest.mark.parametrize("how", HOWS)
@pytest.mark.parametrize("file", ["vessel", "voyage"])
def test_a_secret_at_a_wrong_place_is_not_told(file, how, tmp_path, tried, one_in):
    """One place in four; with --all-mutants every one that is tried."""
    trees = dict(zip(("vessel", "voyage"), secret_boat(tmp_path / "b"), strict=True))
    secrets, told, number = list(SECRETS.values()), 0, 0
    paths = [path for path, _ in leaves(trees[file])]
    tries = paths[HOWS.index(how) :: 11] if file == "vessel" else paths
    for path in tries[HOWS.index(how) % one_in(4) :: one_in(4)]:
        changed = spoilt(trees[file], path, secrets[number % len(secrets)], how)
        if changed is None:
            continue
        number += 1
        write(tmp_path / "b", **{**trees, file: changed})
        surveyed = survey(tmp_path / "b", "b", Order(DAY))
        findings = [*surveyed.findings, *surveyed.deferred]
        said = every_form("b", findings) + (all_dates(tmp_path / "b") if number % 3 == 0 else "")
        assert given_away(said) == [], path
        told += IN_PLACE in said
    tried(number, of=len(tries))
    assert told > number / 50 or how == "list", "so little was to be kept back that nothing is shown"


@pytest.mark.attack("private")
def test_no_faulty_private_file_is_quoted(tmp_path, tried):
    vessel, voyage = secret_boat(tmp_path / "b")
    vessel["gear"][0]["where"] = "Marit Dijkzicht"
    vessel["gear"][1]["expires"] = "+44 7700 900138"
    vessel["gear"][2]["kind"] = "1D04000000FFBFF"
    vessel["diabetic; insulin in the refrigerator"] = "XK 4471903"
    write(tmp_path / "b", vessel, voyage)
    whole = yaml.safe_dump(SECRETS, allow_unicode=True, width=10_000)
    chance = random.Random(20)
    for number in range(150):
        text = list(whole)
        for _ in range(number % 4):
            text.insert(chance.randrange(len(text)), chance.choice(":{}[]&*!|>%@`\"'#?-\n\t,\u200b\x00"))
        private = (
            "".join(text)
            if number % 5
            else re.sub(r"(?m)^", chance.choice(["\t", "- ", "? ", "'", "a: &x "]), whole)
        )
        (tmp_path / "b/private.yaml").write_text(private, encoding="utf-8")
        said = every_form("b", survey(tmp_path / "b", "b", Order(DAY)).findings)
        kept = plain(private)
        left = [
            each for each in given_away(said) if each in (kept.words if each.isalpha() else kept.squeezed)
        ]
        assert left == [], private
    tried(150)


@pytest.fixture
def run(tmp_path, monkeypatch, capsys):
    """A command in the folder of a boat with secrets: its exit code and all that it said and wrote."""
    secret_boat(tmp_path / "vessels" / private_boats.BOAT)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780272000")

    def asked(*argv):
        try:
            code = program.main(list(argv))
        except SystemExit as left:
            code = left.code
        said = "".join(capsys.readouterr())
        return code, said + "".join(path.read_text() for path in tmp_path.glob("report.*"))

    return asked


FAULTS = [
    KeyError("people: Marit Dijkzicht"),
    ValueError("no number: '+44 7700 900138'"),
    OSError(5, "cannot read 1D04000000FFBFF", "Marit Dijkzicht.yaml"),
    AssertionError("diabetic; insulin in the refrigerator"),
    RuntimeError("XK-4471903"),
    UnicodeEncodeError("ascii", "Marit Dijkzicht", 0, 2, "XK 4471903"),
]
STAGES = {
    "survey": ("days_of", "compose"),
    "publish": ("days_of", "compose", "write"),
    "due": ("days_of", "deadlines_of"),
}


@pytest.mark.attack("private")
@pytest.mark.parametrize("fault", FAULTS, ids=lambda each: type(each).__name__)
@pytest.mark.parametrize("command", STAGES)
@pytest.mark.parametrize("traced", [False, True], ids=["line", "trace"])
def test_a_fault_tells_nothing(run, monkeypatch, command, fault, traced, tried):
    monkeypatch.setenv("MUSTERBOOK_TRACE", "1" if traced else "")
    tried(len(STAGES[command]))
    for stage in STAGES[command]:

        def faulty(*_, **__):
            raise fault from LookupError("of +44 7700 900138")

        with monkeypatch.context() as spoilt_stage:
            spoilt_stage.setattr(due if command == "due" else publishing, stage, faulty)
            report = ["--report", "report.json"] if command != "due" else []
            code, said = run(command, "vessels", *report)
        assert code in (2, 3), stage
        assert given_away(said) == []
        assert IN_PLACE in said


@pytest.mark.attack("private")
@pytest.mark.usefixtures("fakes")
def test_what_the_writing_remarked_is_told_without_it(tmp_path, fakes, tried):
    secret_boat(tmp_path / "b")

    def write_badly(_job):
        kinds = (
            "clipped-text",
            "missing-glyph",
            "engine-warning",
            "foreign-font",
            "too-small",
            "something-new",
        )
        said = [f"{number}: {secret}" for number, secret in enumerate(SECRETS.values(), 1)]
        return Made({"book.txt": b"x"}, [Record(kind, "book.txt", text) for kind in kinds for text in said])

    fakes["book"].write = write_badly
    done = publish(tmp_path / "b", "b", order(tmp_path / "site", as_of=DAY))
    found = [each for each in done.surveyed.findings if each.subject in ("paper", "cards")]
    said = every_form("b", done.surveyed.findings)
    tried(6 * len(SECRETS))
    assert given_away(said) == []
    assert "1: [private]" in said
    assert {each.check for each in found} >= {"paper.clipped-text", "cards.too-small"}


@pytest.mark.attack("private")
def test_a_deferral_still_names_what_is_kept_back(tmp_path):
    """What is deferred is found by the name in the file; what is told of it afterwards is without."""
    vessel, voyage = secret_boat(tmp_path / "b")
    vessel["gear"].append(
        {
            "what": "torch of Marit Dijkzicht",
            "kind": "tool",
            "quantity": "1",
            "where": "cockpit",
            "side": "port",
            "expires": "2026-01",
        }
    )
    entry = {
        "check": "gear.expired",
        "item": "torch of Marit Dijkzicht",
        "reason": "on order",
        "who": "the skipper",
        "until": "2026-07-01",
    }
    vessel["deferred-defects"] = [entry]
    write(tmp_path / "b", vessel, voyage)
    surveyed = survey(tmp_path / "b", "b", Order(DAY))
    assert surveyed.sound, surveyed.findings
    assert [(each.check, each.item) for each in surveyed.deferred] == [
        ("gear.expired", f"torch of {IN_PLACE}")
    ]
    held = [finding for found in surveyed.manual.deferred.values() for finding in found]
    assert given_away("".join(map(repr, held))) == []
    entry["item"] = "torch of Marit"
    write(tmp_path / "b", vessel, voyage)
    surveyed = survey(tmp_path / "b", "b", Order(DAY))
    assert {"gear.expired", "deferral.unused"} <= {each.check for each in surveyed.findings}
    assert given_away(every_form("b", surveyed.findings)) == []


def test_ordinary_words_are_told(tmp_path):
    """A boat with faults by the dozen and secrets besides: everything that is no secret is told as it is."""
    vessel, voyage = described()
    vessel["gear"][0]["where"] = "attic"
    vessel["radio"]["sets"][0]["where"] = "cellar"
    vessel["vessel"]["length"] = "1 m"
    vessel["vessel"]["beam"] = "90 m"
    vessel["vessel"]["waters"] = "the bay"
    vessel["people"][1]["role"] = "the mate who sleeps forward"
    del vessel["lifejackets"]
    write(tmp_path / "b", vessel, voyage)
    plainly = survey(tmp_path / "b", "b", Order(DAY)).findings
    for key in ("phone", "medical", "name"):
        vessel["people"][1][key] = "private"
    names = {key.replace("mate", "the mate who sleeps forward"): value for key, value in SECRETS.items()}
    write(tmp_path / "b", vessel, voyage, names | {"radio.beacons[EPIRB].hex-id": "1D04000000FFBFF"})
    told = [
        each
        for each in survey(tmp_path / "b", "b", Order(DAY)).findings
        if each.check != "file.private-unused"
    ]
    assert [(each.check, each.message, each.remedy) for each in told] == [
        (each.check, each.message, each.remedy) for each in plainly
    ]
    assert len(told) > 5
