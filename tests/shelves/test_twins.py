"""A stowage, a hold and an emergency are added in a copy of templates/ alone, each with the properties of one that is there already.

A boat that has the new one gets the same steps, checks, findings, cards and pages as with its twin, but for the names.
"""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from shelves.tallies import renewed

from generator.shelves.stowages import HOLDS, STOWAGES

ROOT = Path(__file__).resolve().parents[2]
SLOT, CHUTE = "under-cockpit slot", "foredeck chute"
SLIP, HOOK = "Senhouse slip", "pelican hook"
FIRE, SMOKE = "fire", "smoke"
pytestmark = pytest.mark.thorough

# What is looked at in the copy, by the program as it stands there; it prints one JSON object.
LOOK = """
import itertools, json
from datetime import date
from pathlib import Path

from generator.manual.composing import compose
from generator.manual.soundness import faults_of_shelves
from generator.outputs import Job, book, cards, site
from generator.reading.values import Keyed, Quantity
from generator.shelves.languages import catalogue
from generator.shelves.stowages import stowages
from generator.survey import registry
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
CHECKS = tuple(registry.all_checks())
assert faults_of_shelves(CHECKS) == (), faults_of_shelves(CHECKS)


def seen(vessel):
    sight = registry.Sight(vessel, DAY, DAY)
    manual, gaps = compose(vessel, DAY, DAY, catalogue(), reckoning=sight.reckoning)
    found = registry.run(registry.DESCRIPTION, sight) + registry.run(registry.COMPOSITION, sight.composed(manual))
    return manual, [(each.check, each.weight.word, each.message, each.remedy, each.item) for each in found + gaps]


def launch(stowage, hull, container, held_by, persons):
    vessel, _ = load(Path("vessels/saltmeadow"))
    raft = vessel.rafts[0]
    raft.__dict__.update(stowage=stowage, container=container, held_by=held_by, compartment_drains=False, where="cockpit")
    raft.__dict__.update(lift_needed=True, mass=Quantity(200.0))
    vessel.vessel.__dict__.update(type=hull, persons=persons)
    manual, found = seen(vessel)
    steps = [
        (one.id, step.id, step.text, step.unless, step.caution, step.why, step.who, step.place, step.source)
        for one in manual.procedures
        for step in one.steps
    ]
    hung = [(card.station, card.hangs_at, card.title, [b.says for b in card.blocks]) for card in cards.cards(manual, "crew")]
    return {"steps": steps, "findings": found, "cards": hung}


def emergency(name):
    vessel, _ = load(Path("vessels/saltmeadow"))
    vessel.vessel.__dict__["use"] = "commercial"
    vessel.__dict__["drills"] = []
    fire = vessel.station_bill["fire"]
    kept = Keyed({key: value for key, value in vessel.station_bill.items() if key != "smoke"})
    kept.places = dict(vessel.station_bill.places)
    bill = {}
    for state in ("assigned", "not assigned", "misspelt"):
        said = Keyed(kept)
        said.places = dict(kept.places)
        for each in ("fire", "smoke"):
            said.pop(each, None)
            if each != name or state == "assigned":
                said[each] = fire
                said.places[each] = kept.places["fire"]
        if state == "misspelt":
            said[name + "e"] = fire
            said.places[name + "e"] = kept.places["fire"]
        vessel.__dict__["station_bill"] = said
        manual, bill[state] = seen(vessel)
    vessel.__dict__["station_bill"] = said = Keyed({**kept, "smoke": fire})
    said.places = {**kept.places, "smoke": kept.places["fire"]}
    manual, _ = seen(vessel)
    one = next(each for each in manual.procedures if each.id == name)
    job = Job(manual, "guest", "A4")
    pages = {screen.name: str(body) for screen, body in site.articles(job, site.site_address, lambda item: "")}
    return {
        "bill": bill,
        "steps": [(step.id, step.text, step.unless, step.caution, step.who, step.source) for step in one.steps],
        "column": [[duty.id, duty.text, duty.who, duty.needs] for e in manual.bill.emergencies if e.id == name for duty in e.duties],
        "parts": [part.title for part in book.parts(manual, "crew") for chapter in part.chapters if chapter.id == name],
        "cards": [card.station for card in cards.cards(manual, "guest") for block in card.blocks if block.about is one],
        "page": pages[name],
        "front": pages["start"].count(name + ".html"),
        "drill": name in next(m for c, _, m, _, _ in bill["assigned"] if c == "drills.missing"),
    }


rafts = {}
for stowage in (%(slot)r, %(chute)r):
    row = stowages()[stowage]
    for hull, held, container, persons in itertools.product(
        ("monohull", "catamaran"), ((), ("strap",), (%(slip)r, "strap"), ("strap", %(slip)r), ("HRU",)), row.container, (1, 4)
    ):
        rafts.setdefault(stowage, {})[f"{hull} {held} {container} {persons}"] = launch(stowage, hull, container, held, persons)
holds = {
    hold: {
        f"{stowage} {order}": launch(stowage, "monohull", "canister", tuple(hold if each == "x" else each for each in order), 4)
        for stowage in ("deck cradle", "pushpit bracket")
        for order in (("x",), ("x", "strap"), ("strap", "x", "pin"), ("x", "HRU"))
    }
    for hold in (%(slip)r, %(hook)r)
}
print(json.dumps({"rafts": rafts, "holds": holds, "emergencies": {name: emergency(name) for name in ("fire", "smoke")}}))
"""


def twin(path, new, *more):
    """A file written beside another one, names replaced; ids begin with the names of the files."""
    text = re.sub(rf"\b{path.stem}\.(?=[a-z])", f"{new}.", path.read_text(encoding="utf-8"))
    for before, after in more:
        text = text.replace(before, after)
    (path.parent / f"{new}.yaml").write_text(text, encoding="utf-8")


def add_row(path, name, new):
    """A row of a table written again under another name."""
    text = path.read_text(encoding="utf-8")
    rows = re.split(r"(?m)^(?=  - |tally:)", text)
    row = next(each for each in rows if f" {name}" in each.partition("\n")[0])
    path.write_text(text.replace(row, row + row.replace(f" {name}", f" {new}", 1)), encoding="utf-8")


@pytest.fixture(scope="module")
def looked(tmp_path_factory):
    """What the program makes of the twins in a copy of the checkout to which rows, steps and words were added."""
    here = tmp_path_factory.mktemp("copy")
    for name in ("generator", "templates", "vessels"):
        shutil.copytree(ROOT / name, here / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", here)
    program = {path: path.read_bytes() for path in (here / "generator").rglob("*.py")}
    templates = here / "templates"
    table, holds = templates / "rafts/stowages.yaml", templates / "rafts/holds.yaml"
    add_row(table, SLOT, CHUTE)
    add_row(holds, f"{SLIP},", f"{HOOK},")
    table.write_text(table.read_text("utf-8").replace(f" {SLIP},", f" {SLIP}, {HOOK},"), encoding="utf-8")
    for shelf, path in ((STOWAGES, table), (HOLDS, holds)):
        path.write_text(renewed(shelf, path.read_text("utf-8")), encoding="utf-8")
    for folder in (templates / "procedures", templates / "text/en/procedures"):
        twin(
            folder / "stowage/under-cockpit-slot.yaml",
            "foredeck-chute",
            (f"[{SLOT}]", f"[{CHUTE}]"),
        )
        twin(folder / "held-by/senhouse-slip.yaml", "pelican-hook", (SLIP, HOOK))
        twin(
            folder / "fire.yaml",
            SMOKE,
            ("procedure: fire\norder: 30", "procedure: smoke\norder: 31"),
            ("title: Fire", "title: Smoke"),
        )
        twin(
            folder / "fire-starve.yaml",
            f"{SMOKE}-starve",
            ("procedure: fire-starve\norder: 40", "procedure: smoke-starve\norder: 43"),
            ("bill: fire", "bill: smoke"),
            ("The fire burns on", "The smoke goes on"),
        )
    script = LOOK % {"slot": SLOT, "chute": CHUTE, "slip": SLIP, "hook": HOOK}
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=here,
        env={"PYTHONPATH": str(here)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    assert program == {path: path.read_bytes() for path in (here / "generator").rglob("*.py")}
    return json.loads(done.stdout)


def renamed(value, *names):
    """What was printed with one name put for another."""
    text = json.dumps(value)
    for old, new in names:
        text = re.sub(rf"(?<![\w-]){re.escape(old)}(?![\w-])", new, text)
    return json.loads(text)


def test_a_new_stowage_gets_what_its_twin_gets(looked):
    known, new = looked["rafts"][SLOT], looked["rafts"][CHUTE]
    assert len(known) == len(new) == 40
    names = ((SLOT, CHUTE), ("under-cockpit-slot", "foredeck-chute"))
    listed = f"{SLOT}, {CHUTE}", f"{CHUTE}, {CHUTE}"
    for case, made in known.items():
        wanted = renamed(made, *names)
        there = json.loads(json.dumps(new[case]).replace(*listed))
        for what in ("steps", "findings", "cards"):
            assert there[what] == wanted[what], (case, what)


def test_the_twins_of_a_stowage_are_found_wanting(looked):
    """The findings that were missed while the program knew stowages by name are there, and the steps."""
    case = looked["rafts"][CHUTE]["catamaran () canister 4"]
    checks = {check for check, *_ in case["findings"]}
    assert {"raft.unheld", "raft.compartment-wet", "raft.lift", "raft.too-heavy"} <= checks
    by_release = looked["rafts"][CHUTE]["monohull ('HRU',) canister 4"]
    assert any(
        check == "release.closed-in" and CHUTE in message for check, _, message, *_ in by_release["findings"]
    )
    ids = {step for _, step, *_ in case["steps"]}
    assert {"foredeck-chute.way-off", "raft-launch.water", "raft-trouble.upside-down-reach"} <= ids
    assert "raft-launch.side" not in ids


def test_a_new_hold_gets_what_its_twin_gets(looked):
    known, new = looked["holds"][SLIP], looked["holds"][HOOK]
    for case, made in known.items():
        wanted = renamed(made, (SLIP, HOOK), ("senhouse-slip", "pelican-hook"))
        listed = f"{HOOK}, {HOOK}"
        there = json.loads(json.dumps(new[case]).replace(f"{SLIP}, {HOOK}", listed))
        assert there["steps"] == wanted["steps"], case
        assert there["findings"] == wanted["findings"], case
    steps = [step for _, step, *_ in looked["holds"][HOOK]["deck cradle ('strap', 'x', 'pin')"]["steps"]]
    freed = [step for step in steps if step in ("pelican-hook.open", "strap.clear", "pin.pull")]
    assert freed == ["pelican-hook.open", "strap.clear", "pin.pull"]
    assert not any(
        check == "release.by-hand"
        for check, *_ in looked["holds"][HOOK]["deck cradle ('x', 'HRU')"]["findings"]
    )


def test_a_new_emergency_gets_what_its_twin_gets(looked):
    known, new = looked["emergencies"][FIRE], looked["emergencies"][SMOKE]
    assert [step[1:] for step in new["steps"]] == [step[1:] for step in known["steps"]]
    assert new["column"] == known["column"]
    assert new["parts"] == known["parts"] == ["Emergencies"]
    assert new["cards"] == known["cards"] == ["helm", "galley"]
    assert new["front"] == known["front"] > 0
    assert known["drill"]
    assert new["drill"]
    assert len(new["page"]) > 5000
    assert "<h1>Smoke</h1>" in new["page"]


@pytest.mark.parametrize("state", ["assigned", "not assigned", "misspelt"])
def test_the_bill_of_a_new_emergency_is_checked_as_its_twins(looked, state):
    def of_the_bill(name):
        other = SMOKE if name == FIRE else FIRE
        found = [each for each in looked["emergencies"][name]["bill"][state] if each[0].startswith("bill.")]
        return [each for each in found if other not in each[2].split(":")[0].split(",")]

    wanted = [
        [check, weight, re.sub(r"^fire(?=[:,])|(?<=')fire(?=e?')", SMOKE, message)]
        for check, weight, message, *_ in of_the_bill(FIRE)
    ]
    there = of_the_bill(SMOKE)
    assert [each[:3] for each in there] == wanted
    checks = {check for check, *_ in there}
    assert ("bill.unassigned" in checks) == (state == "not assigned")
    assert ("bill.unknown-emergency" in checks) == (state == "misspelt")
