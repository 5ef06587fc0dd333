"""The recipes of DEVELOPERS.md carried out in a copy of the checkout: what each writes, and which files it has touched there."""

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from documents import DOCUMENTS
from pseudo import LANGUAGE, write_language
from shelves.reading import ROOT, copied
from shelves.tallies import renewed
from specimens import files_in

from generator.shelves.index import SHELVES

WORDS = "templates/text/en/"
RENEWED = {*DOCUMENTS, "README.md", "DEVELOPERS.md"}
"""What a command writes anew, whole or in part, besides schemas."""

LEAST_FLOW = '''

@check("pumps.flow-unknown", HELP, COMMON_PRACTICE)
def pumps_say_what_they_move(sight: Sight) -> Finds:
    """Each bilge pump says how much it moves.

    Why: nobody can tell whether the pumps keep up with a hole.
    Remedy: write its 'flow', as the plate or the handbook says.
    """
    for pump in sight.vessel.pumps:
        if pump.flow is None:
            yield at(pump, "what", f"{pump.what}: nothing says how much it moves", item=str(pump.what))
'''
NO_FLOW = """\
boat: zilte-wind
changes:
  - {line: "what: hand pump,", old: "flow: 45 l/min, ", new: "", here: yes}
"""

CHUTE = """\
  - stowage: side chute
    container: [canister]
    held-by: [strap, pin]
    float-free: no
    compartment: yes
    below: no
    exposed: no
    clip-on: yes
    falls-out: no
    goes-over: slides
    one-side: no
    beside-propeller: no
    reached-inverted: no
    source: trade practice
    standing: from memory, unverified
"""
CHUTE_STEPS = """\
adds-to: raft-launch
when: [side chute]
steps:
  - {id: side-chute.lid, phase: 25, duty: launch, place: raft-place, source: trade practice, standing: common practice}
  - {id: side-chute.lift, phase: 60, when: [lift, several persons], duty: launch, source: trade practice, standing: common practice}
  - {id: side-chute.tip, phase: 60, when: [lift, not several persons], duty: launch, source: trade practice, standing: common practice}
  - {id: side-chute.over, phase: 70, when: [lift], duty: launch, source: trade practice, standing: common practice}
  - {id: side-chute.slide, phase: 70, when: [not lift], duty: launch, source: trade practice, standing: common practice}
"""
CHUTE_WORDS = """\
steps:
  side-chute.lid: {do: "Open the lid of the chute: {raft-place}."}
  side-chute.lift: {do: "With one person at each end, lift the {raft} out of its chute."}
  side-chute.tip: {do: "Pull the {raft} out of its chute, one end first."}
  side-chute.over: {do: "Throw the {raft} into the water at {launch-from}."}
  side-chute.slide: {do: "Slide the {raft} down its chute at {launch-from}."}
"""

MAST = """\
procedure: dismasting
order: 58
urgency: 2
likely-where: [sails]
first-minute: 2
leaves:
  - {words: water, to: flooding, source: good seamanship, standing: common practice}
end: {source: good seamanship, standing: common practice}
ground: plain
emergency: yes
cards: [helm]
when: [sails]
duties:
  - {id: command, essential: no, key: no, continuous: no, persons: 1, needs: command}
  - {id: rigging, essential: no, key: no, continuous: no, persons: 1}
steps:
  - {id: dismasting.count, phase: 1, when: [several persons], duty: command, source: good seamanship, standing: common practice}
  - {id: dismasting.engine, phase: 2, source: good seamanship, standing: common practice}
  - {id: dismasting.cut, phase: 3, when: [has bolt cutters], duty: rigging, gear: [bolt cutters], source: good seamanship, standing: common practice}
sign: '<path d="M6 30h36l-6 12H12z"/><path d="M24 30V18L8 6"/>'
"""
MAST_WORDS = """\
title: The mast is down
intro: "The mast lies over the side or across the deck."
leaves: {water: "Has it holed the hull?"}
end: "Over when no spar can hit the hull, and no line is in the water."
duties: {command: Count everybody and keep the propeller still, rigging: Cut the rigging away}
steps:
  dismasting.count: {do: Count everybody on deck.}
  dismasting.engine: {do: Leave the engine off while a line is in the water., why: A line in the propeller stops it.}
  dismasting.cut: {do: Cut the rigging that the mast hangs by., caution: Stand clear of what springs back.}
"""
MAST_BILL = """\
  dismasting:
    command: {who: skipper, substitute: mate}
    rigging: {who: deckhand, substitute: mate}
"""

ESTUARY = """\
name: estuary rules
edition: first
checked-on: 2026-11-25
length-means: hull
categories: [inner, outer]
rows:
  - item: estuary lantern
    counts: torch
    quantity: {by-category: {inner: 1, outer: 9}}
    source: the estuary pilots' notice
    standing: secondary
"""

HOOP = """\
  - kind: rescue ring on a pole
    other-names: [reaching ring]
    is: [thrown to somebody]
    lines:
      - lives:
          - {from: [made], months: 60, source: the hoop makers' leaflet, edition: undated, standing: secondary, weight: recommendation}
        needs: {one-of: [made], source: the hoop makers' leaflet}
"""

SERVICE_ROW = (
    '      - {standards: [SOLAS], container: valise, use: [charter], most: 6 months, source: "the estuary pilots\' notice", '
    "standing: quoted}\n"
)

DUTY_LIST = '''"""The list of duties, as plain text: who has which duty in each emergency."""

from __future__ import annotations

from generator.outputs import Job, Made

READER = "crew"
FILE = "duties.txt"


def write(job: Job) -> Made:
    """The file `duties.txt`: a line for each duty, below its emergency."""
    lines = [job.manual.boat]
    for emergency in job.manual.bill.emergencies:
        lines += ["", emergency.title, *(f"- {duty.text}: {', '.join(duty.who)}" for duty in emergency.duties)]
    return Made({FILE: "\\n".join((*lines, "")).encode("utf-8")})
'''
DUTY_LIST_TEST = '''"""The list of duties has every line of the bill, with its people."""

from datetime import date
from pathlib import Path

from generator.outputs import Job, duty_list
from generator.publishing import Order, survey

SALTMEADOW = Path(__file__).resolve().parents[2] / "vessels/saltmeadow"


def test_each_duty_stands_below_its_emergency():
    manual = survey(SALTMEADOW, "", Order(date(2026, 6, 1))).manual
    made = duty_list.write(Job(manual, "crew")).files[duty_list.FILE].decode()
    lines = made.splitlines()
    for emergency in manual.bill.emergencies:
        below = lines[lines.index(emergency.title) :]
        for duty in emergency.duties:
            assert f"- {duty.text}: {', '.join(duty.who)}" in below
'''


def copy_checkout(folder: Path) -> Path:
    """A copy of the checkout: program, templates, vessels, tests and documents, below a folder."""
    copied(folder)
    shutil.copytree(ROOT / "tests", folder / "tests", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / ".github", folder / ".github")
    for name in ("README.md", "DEVELOPERS.md"):
        shutil.copy(ROOT / name, folder)
    return folder


def edit(path: Path, *changes: tuple[str, str]) -> None:
    """Changes in a file; each old text stands there once."""
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{path}: {old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")


def shelve(templates: Path, name: str, text: str) -> None:
    """Writes a file of a shelf with the tally that its lines give."""
    path = templates / name
    path.write_text(text, encoding="utf-8")
    shelf = next(each for each in SHELVES if path in templates.glob(each.pattern))
    tallied = text if re.search("(?m)^tally:", text) else f"{text}tally: {{}}\n"
    path.write_text(renewed(shelf, tallied), encoding="utf-8")


def add_to(templates: Path, name: str, *changes: tuple[str, str]) -> None:
    """Changes in a file of a shelf, and its tally with them."""
    edit(templates / name, *changes)
    shelve(templates, name, (templates / name).read_text(encoding="utf-8"))


def add_check(copy: Path) -> None:
    """A check of pumps, and its bad case."""
    path = copy / "generator/checks/pumps.py"
    text = path.read_text(encoding="utf-8").replace("    LIFE,\n", "    HELP,\n    LIFE,\n", 1)
    path.write_text(text + LEAST_FLOW, encoding="utf-8")
    (copy / "tests/checks/bad/pumps.flow-unknown.yaml").write_text(NO_FLOW, encoding="utf-8")


def add_stowage(copy: Path) -> None:
    """A chute in the side deck: its row, its steps and their words."""
    templates = copy / "templates"
    add_to(templates, "rafts/stowages.yaml", ("tally:", f"{CHUTE}tally:"))
    shelve(templates, "procedures/stowage/side-chute.yaml", CHUTE_STEPS)
    shelve(templates, "text/en/procedures/stowage/side-chute.yaml", CHUTE_WORDS)
    davit = "    davit: davit\n"
    add_to(templates, "text/en/choices.yaml", (davit, f"{davit}    side chute: side chute\n"))


def add_emergency(copy: Path) -> None:
    """A mast that came down: the procedure, its words, and who does what aboard one specimen."""
    templates = copy / "templates"
    shelve(templates, "procedures/dismasting.yaml", MAST)
    shelve(templates, "text/en/procedures/dismasting.yaml", MAST_WORDS)
    edit(copy / "vessels/saltmeadow/vessel.yaml", ("\ngrab-bags:\n", f"{MAST_BILL}\ngrab-bags:\n"))


def add_language(copy: Path) -> None:
    """A language of brackets, so that a word that is not its own shows."""
    write_language(copy / "templates")


def add_rule_set(copy: Path) -> None:
    """The rules of an estuary, and the one word that no other rule set has."""
    templates = copy / "templates"
    shelve(templates, "carriage/estuary-rules.yaml", ESTUARY)
    add_to(
        templates, "text/en/rule-sets.yaml", ("\nnotes:\n", "\n  estuary lantern: estuary lantern\nnotes:\n")
    )


def add_gear(copy: Path) -> None:
    """A hoop to throw, which lasts as nothing before it."""
    first = "  # --- Fire ---"
    add_to(copy / "templates", "gear/gear.yaml", (first, f"{HOOP}{first}"))


def add_limit(copy: Path) -> None:
    """A shorter time between the services of a raft."""
    before = "      - {standards: [ISO 9650, other], container: valise"
    add_to(copy / "templates", "limits/rafts.yaml", (before, SERVICE_ROW + before))


def add_output(copy: Path) -> None:
    """The duties as plain text, and a test that reads them back."""
    (copy / "generator/outputs/duty_list.py").write_text(DUTY_LIST, encoding="utf-8")
    (copy / "tests/outputs/test_duty_list.py").write_text(DUTY_LIST_TEST, encoding="utf-8")


@dataclass(frozen=True)
class Touched:
    """Files that a recipe made or changed: those of words apart."""

    files: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def numbers(self) -> tuple[int, int]:
        """How many of each."""
        return len(self.files), len(self.words)


def differing(before: dict[str, bytes], after: dict[str, bytes]) -> set[str]:
    """The files that are not as they were, by their paths; none was deleted."""
    assert before.keys() <= after.keys()
    return {name for name, data in after.items() if before.get(name) != data}


def carried_out(write: Callable[[Path], None], copy: Path) -> Touched:
    """What a recipe touches in a copy, by what the files hold before and after."""
    before = files_in(copy)
    write(copy)
    names = sorted(differing(before, files_in(copy)))
    words = tuple(name for name in names if name.startswith(WORDS))
    return Touched(tuple(name for name in names if name not in words), words)


RECIPES: dict[str, Callable[[Path], None]] = {
    "A check": add_check,
    "A stowage": add_stowage,
    "A rule set": add_rule_set,
    "A limit": add_limit,
    "An emergency": add_emergency,
    "A kind of gear": add_gear,
    "An output": add_output,
    "A language": add_language,
}
"""The eight by their names in DEVELOPERS.md, and what carries each of them out."""

LANGUAGE_FOLDER = f"templates/text/{LANGUAGE}/"
