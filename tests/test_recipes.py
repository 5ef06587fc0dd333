"""Each recipe of DEVELOPERS.md, carried out in a copy: how many files it touches, and that what it adds works there.

The program in the copy is asked as its users ask it. What a command renews is not counted; then all of them together stand in the
documents, and the suite's own tests of the shelves, checks and outputs hold without another file touched by hand.
"""

import re
import shutil
import subprocess
import sys

import pytest
from documents import DOCUMENTS
from pseudo import LANGUAGE, bracketed, said_in
from recipes import LANGUAGE_FOLDER, RECIPES, RENEWED, carried_out, copy_checkout, differing, edit
from shelves.reading import ROOT, run
from specimens import files_in

from generator.shelves.languages import catalogue

pytestmark = pytest.mark.thorough
# What is allowed: files, and files of words beside them; a language is its folder alone.
MOST = {
    "A check": (2, 0),
    "A stowage": (2, 2),
    "An emergency": (2, 1),
    "A rule set": (1, 1),
    "A kind of gear": (1, 0),
    "A limit": (1, 0),
    "An output": (2, 0),
}
BAD_CASES = "tests/checks/test_bad_cases.py"
OWN_CASE = f"{BAD_CASES}::test_the_fault_is_found_where_it_stands_and_nothing_else[pumps.flow-unknown]"
SUITE = (
    "tests/checks/test_families.py",
    "tests/outputs/test_duty_list.py",
    "tests/shelves/test_gear.py",
    "tests/shelves/test_limits.py",
    "tests/shelves/test_lives.py",
    "tests/shelves/test_rulesets.py",
    "tests/test_coverage.py",
    "tests/test_documented.py",
    "tests/test_failures.py",
    "tests/test_main.py",
    "tests/test_names_on_shelves.py",
    "tests/test_procedures.py",
    "tests/test_raft_procedures.py",
    "tests/test_schema.py",
    "tests/test_wording.py",
)
LISTED = {
    "generator/checks/README.md": ("`pumps.flow-unknown`",),
    "templates/rafts/README.md": ("side chute",),
    "templates/procedures/README.md": ("| `dismasting` |", "Cut the rigging away"),
    "templates/carriage/README.md": ("estuary rules",),
    "templates/gear/README.md": ("rescue ring on a pole",),
    "templates/lives/README.md": ("the hoop makers' leaflet",),
    "templates/limits/README.md": ("the estuary pilots' notice",),
    "templates/text/README.md": (f"| `{LANGUAGE}` |",),
    "vessels/README.md": ("side chute", "- `dismasting`:", "rescue ring on a pole"),
    "README.md": ("| `duty-list` | `site/<boat>/crew/duties.txt` | the list of duties, as plain text",),
}


def told():
    """The numbers in the headings of DEVELOPERS' recipes: files, and files of words."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = re.findall(r"^\*\*(.+?): (\d+) files?(?:, (\d+) of words)?\.\*\*", text, re.MULTILINE)
    return {name: (int(files), int(words or 0)) for name, files, words in found}


@pytest.fixture
def carry_out(tmp_path):
    """Carries one recipe out in a copy of its own, and holds what it touched against DEVELOPERS; gives the copy."""

    def out(name):
        copy = copy_checkout(tmp_path / "copy")
        touched = carried_out(RECIPES[name], copy)
        assert touched.numbers == told()[name]
        assert all(there <= most for there, most in zip(touched.numbers, MOST[name], strict=True))
        return copy

    return out


def boat(copy, name, *changes, called="boat"):
    """A boat of the copy's own with changes in her file, beside those that the recipe may have touched; her path there."""
    folder = copy / "boats" / called
    folder.mkdir(parents=True)
    text = (copy / "vessels" / name / "vessel.yaml").read_text(encoding="utf-8")
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    edit(folder / "vessel.yaml", *changes)
    return f"boats/{called}"


def line_of(copy, where, text):
    """The line of a boat's file in which a text first stands."""
    said = (copy / where / "vessel.yaml").read_text(encoding="utf-8")
    return said[: said.index(text)].count("\n") + 1


def asked(copy, *arguments, code=0):
    """What the program in the copy says, with its lines made one; `code` is how it must end."""
    ended, said = run(copy, *arguments)
    assert ended == code, said
    return " ".join(said.split())


def published(copy, where, *outputs, language="en"):
    """The files of a boat published in the copy, for all readers together."""
    only = [each for name in outputs for each in ("--only", name)]
    asked(copy, "publish", where, "--into", "out", "--language", language, *only)
    files = files_in(copy / "out" / where.rpartition("/")[2])
    return {name.rpartition("/")[2]: data for name, data in files.items()}


def text_of(files, name):
    return " ".join(said_in(name, files[name]).split())


def its_tests_pass(copy, *arguments):
    """The copy's own tests pass."""
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-q",
        "-p",
        "no:cacheprovider",
        "-n0",
        "--tb=short",
        *arguments,
    ]
    done = subprocess.run(command, cwd=copy, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    assert "skipped" not in done.stdout


def test_every_recipe_with_a_number_is_carried_out_here():
    assert told().keys() == MOST.keys()
    assert RECIPES.keys() - MOST.keys() == {"A language"}


def test_a_recipe_has_at_most_eight_steps():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    recipes = text.split("## Recipes")[1].split("## ")[0].split("\n\n")
    recipes = [each for each in recipes if each.startswith("**")]
    assert len(recipes) >= len(RECIPES)
    for recipe in recipes:
        steps = [int(number) for number in re.findall(r"(?<![\w.])(\d)\. ", recipe)]
        assert steps == list(range(1, len(steps) + 1)), recipe
        assert 1 <= len(steps) <= 8, recipe


def test_a_check(carry_out):
    copy = carry_out("A check")
    where = boat(copy, "zilte-wind", ("power: hand, flow: 45 l/min", "power: hand"))
    line = line_of(copy, where, "what: hand pump")
    said = asked(copy, "survey", where)
    assert (
        f"{where}/vessel.yaml:{line}:12: recommendation pumps.flow-unknown: hand pump: nothing says" in said
    )
    assert "-> write its 'flow', as the plate or the handbook says" in said
    assert "flow-unknown" not in asked(copy, "survey", "vessels/zilte-wind")
    assert "nobody can tell whether the pumps keep up with a hole" in asked(copy, "why", "pumps.flow-unknown")
    assert "pumps.flow-unknown" in asked(copy, "why", "--all")


def test_a_stowage(carry_out):
    copy = carry_out("A stowage")
    in_a_chute = (
        ("stowage: cockpit locker\n    where: cockpit locker", "stowage: side chute\n    where: cockpit"),
        (
            "knife: {where: cockpit locker, side: starboard, spot: in the sheath under the lid}",
            "knife: {where: cockpit, side: starboard}",
        ),
        ("container: valise", "container: canister"),
        ("compartment-drains: yes", "compartment-drains: no"),
        ("strength: 7.5 kN, lead: clear}", "strength: 7.5 kN, lead: clear, checked: 2026-05}"),
    )
    where = boat(copy, "zilte-wind", *in_a_chute)
    assert "davit · side chute" in asked(copy, "keys", "rafts")
    line = line_of(copy, where, "compartment-drains")
    said = asked(copy, "survey", where)
    assert f":{line}:25: recommendation raft.compartment-wet: liferaft: its side chute does not drain" in said
    files = published(copy, where, "site", "cards")
    for name in ("raft-overboard.html", "cards.pdf"):
        assert "With one person at each end, lift the liferaft out of its chute." in text_of(files, name)
        assert "out of its locker" not in text_of(files, name)
    edit(copy / where / "vessel.yaml", ("container: canister", "container: valise"))
    assert "raft.combination" in asked(copy, "survey", where, code=1)


def test_an_emergency(carry_out):
    copy = carry_out("An emergency")
    said = asked(copy, "survey", "vessels")
    boats = len(list(copy.glob("vessels/*/vessel.yaml")))
    assert said.count(": no findings") + said.count(": 1 note") == boats
    files = published(copy, "vessels/saltmeadow", "site", "cards")
    page = text_of(files, "dismasting.html")
    assert "The mast is down" in page
    assert (
        page.index("The mast lies over") < page.index("In the first minute") < page.index("Cut the rigging")
    )
    for said in ("Has it holed the hull?", "Over when no spar can hit the hull", "When it is over"):
        assert page.index(said) > page.index("Cut the rigging"), said
    for said in ("Cut the rigging that the mast hangs by.", "Stand clear of what springs back.", "deckhand"):
        assert said in page, said
    assert b'<path d="M24 30V18L8 6"/>' in files["dismasting.html"]
    assert b'href="dismasting.html"' in files["index.html"]
    assert "Cut the rigging away" in text_of(files, "bill.html")
    assert text_of(files, "cards.pdf").count("Cut the rigging that the mast hangs by.") == 1
    where = boat(copy, "saltmeadow", ("  dismasting:", "  dismastin:"))
    said = asked(copy, "survey", where, code=1)
    assert "bill.unknown-emergency: there is no station bill for 'dismastin' -> write dismasting?" in said


def test_a_language(tmp_path, one_in):
    """Its twin is the first language: without the brackets every page says the same."""
    boat, printed = ("vessels/zilte-wind", "book") if one_in(2) == 1 else ("vessels/kelpwren", "cards")
    copy = copy_checkout(tmp_path / "copy")
    touched = carried_out(RECIPES["A language"], copy)
    assert [name for name in (*touched.files, *touched.words) if not name.startswith(LANGUAGE_FOLDER)] == []
    assert "**A language: its folder.**" in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    first = published(copy, boat, "site")
    files = published(copy, boat, printed, "site", language=LANGUAGE)
    pages = [name for name in first if name.endswith(".html")]
    assert len(pages) > 15
    for name in pages:
        said = text_of(files, name)
        assert said.count("«") > 20
        assert re.sub("[«»]", "", said) == text_of(first, name)
    paper = text_of(files, f"{printed}.pdf")
    titles = [str(one.title) for one in catalogue().procedures.values() if one.title]
    assert len([each for each in titles if bracketed(each) in paper]) > 5
    labels = copy / LANGUAGE_FOLDER / "labels.yaml"
    labels.write_text(
        re.sub(r"(?m)^  manual-of: .*\n", "", labels.read_text(encoding="utf-8")), encoding="utf-8"
    )
    said = asked(copy, "publish", boat, "--language", LANGUAGE, "--only", "site", code=2)
    assert "'manual-of' is missing; templates/text/en/labels.yaml says:" in said


PRINTED = """
import pathlib
from datetime import date
from generator.outputs import Job, book
from generator.publishing import Order, survey
page = book.html(Job(survey(pathlib.Path("boats/boat"), "", Order(date(2026, 6, 1))).manual, "crew"))
print(page[page.index('id="chapter-carriage"'):])
"""


def test_a_rule_set(carry_out):
    copy = carry_out("A rule set")
    chosen = "rule-set: [good practice, estuary rules category outer]"
    where = boat(copy, "saltmeadow", ("rule-set: good practice", chosen))
    said = asked(copy, "survey", where)
    assert (
        "carriage.lacking: estuary lantern: estuary rules category outer asks for 9 (the estuary pilots' notice; "
        "secondary): aboard 3; what counts is called: torch"
    ) in said
    code, page = run(copy, code=PRINTED)
    assert code == 0, page
    table = page[page.index("estuary rules category outer") :]
    assert "estuary lantern" in table
    assert "the estuary pilots" in table
    edit(copy / where / "vessel.yaml", ("category outer", "category inner"))
    assert "estuary" not in asked(copy, "survey", where)
    edit(copy / where / "vessel.yaml", ("estuary rules category inner", "estuary rule"))
    assert "carriage.unknown-rule-set" in asked(copy, "survey", where, code=1)


def test_a_rule_set_does_what_its_twin_does(tmp_path):
    """The same rules under another name: the same is found and printed but for the name."""
    copy = copy_checkout(tmp_path / "copy")
    twin = copy / "templates/carriage/twin.yaml"
    shutil.copy(copy / "templates/carriage/us-recreational.yaml", twin)
    edit(twin, ("name: US recreational", "name: twin"))
    where = boat(copy, "saltmeadow", ("rule-set: good practice", "rule-set: US recreational"))
    known = asked(copy, "survey", where, code=1), run(copy, code=PRINTED)
    assert known[0].count("US recreational asks for") == 2
    edit(copy / where / "vessel.yaml", ("rule-set: US recreational", "rule-set: twin"))
    new = asked(copy, "survey", where, code=1), run(copy, code=PRINTED)
    assert new[0] == known[0].replace("US recreational", "twin")
    assert new[1] == (0, known[1][1].replace("US recreational", "twin"))


FACTS = """
from pathlib import Path
from generator.manual.reckoning import Reckoning
from generator.vessel.loading import load
for boat in ("vessels/saltmeadow", "boats/boat"):
    print(Reckoning(load(Path(boat))[0]).facts["has rescue ring on a pole"])
"""


def test_a_kind_of_gear(carry_out):
    copy = carry_out("A kind of gear")
    buoy = '"lifebuoy, with light and drogue", kind: lifesaving, quantity: 1, where: pushpit, side: starboard, expires: 2028-06'
    ring = buoy.replace('"lifebuoy, with light and drogue"', "rescue ring on a pole").partition(", expires")[
        0
    ]
    where = boat(
        copy, "saltmeadow", (buoy, ring), ("danbuoy, with light and second lifebuoy", "reaching ring")
    )
    line = line_of(copy, where, "rescue ring on a pole")
    said = asked(copy, "survey", where)
    missing = f":{line}:12: recommendation dates.missing: rescue ring on a pole: 'made' is not given (the hoop makers' leaflet)"
    assert missing in said
    assert f":{line + 1}:12: recommendation gear.other-name" not in said  # one of its own name is aboard
    assert run(copy, code=FACTS) == (0, "False\nTrue\n")
    edit(copy / where / "vessel.yaml", (ring, f"{ring}, made: 2021-03"))
    said = asked(copy, "survey", where)
    assert missing not in said  # the other one is asked still
    assert "dates.life: rescue ring on a pole" in said
    assert "the hoop makers' leaflet" in said
    edit(copy / where / "vessel.yaml", ("made: 2021-03}", "made: 2024-03}"))
    assert missing not in asked(copy, "survey", where)
    assert "2029-03-31" in asked(copy, "due", where, "--within", "all", "--as-of", "2026-06-01")


def test_a_limit(carry_out, tmp_path):
    hired = (
        ("standard: ISO 9650-1 type 1 group A", "standard: SOLAS"),
        ("container: canister", "container: valise"),
        ("use: private", "use: charter"),
        ("next: 2028-09-04", "next: 2026-09-04"),
    )
    before = copy_checkout(tmp_path / "before")
    assert "raft.service-interval" not in asked(before, "survey", boat(before, "saltmeadow", *hired), code=1)
    copy = carry_out("A limit")
    where = boat(copy, "saltmeadow", *hired)
    said = asked(copy, "survey", where, code=1)
    line = line_of(copy, where, "service: {last")
    found = f":{line}:39: recommendation raft.service-interval: liferaft: from 2025-09-04 to 2026-09-04 is more than 6 months"
    assert f"{found} (the estuary pilots' notice; quoted)" in said


def test_an_output(carry_out):
    copy = carry_out("An output")
    assert "duty-list" in asked(copy, "publish", "--help")
    files = published(copy, "vessels/saltmeadow", "duty-list")
    assert files.keys() == {"duties.txt", "manifest.json"}
    lines = files["duties.txt"].decode().splitlines()
    assert lines[0] == "Saltmeadow"
    assert "- Fight the fire with the way out behind you: deckhand" in lines[lines.index("Fire") :]


def test_all_of_them_stand_in_the_documents_and_the_suite_holds(tmp_path, one_in):
    """The language comes last: it is a copy of the first, with what the others added. Of the bad cases their own is looked at; with --all-mutants all."""
    copy = copy_checkout(tmp_path / "copy")
    for write in RECIPES.values():
        write(copy)
    by_hand = files_in(copy)
    its_tests_pass(
        copy, "tests/test_documented.py", "tests/test_schema.py", "tests/shelves/test_schemas.py", "--renew"
    )
    renewed = {name for name in differing(by_hand, files_in(copy)) if "/." not in f"/{name}"}
    assert {name for name in renewed if not name.endswith(".schema.json")} <= RENEWED
    assert renewed >= LISTED.keys()
    assert LISTED.keys() <= {*DOCUMENTS, "README.md"}
    for name, wanted in LISTED.items():
        text = (copy / name).read_text(encoding="utf-8")
        assert [each for each in wanted if each not in text] == [], name
        assert [each for each in wanted if each in (ROOT / name).read_text(encoding="utf-8")] == [], name
    its_tests_pass(copy, BAD_CASES if one_in(2) == 1 else OWN_CASE, *SUITE)
