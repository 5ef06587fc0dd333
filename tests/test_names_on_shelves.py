"""No module of the program names a stowage, a hold, a duty, a procedure, a kind of gear, a life, a space, a hull type, a pack or a rule set: it
asks for what their rows on the shelves say of them."""

import ast
import functools
import shutil
from pathlib import Path

import pytest

from generator.manual.raft_facts import comes_loose
from generator.manual.vocabulary import spaces
from generator.reading.nearest import folded
from generator.shelves.folder import templates_folder
from generator.shelves.gear import gear_names, kinds
from generator.shelves.gear_rows import PROPERTIES
from generator.shelves.lives import shelf as lives_shelf
from generator.shelves.packs import packs
from generator.shelves.procedures import shelf
from generator.shelves.rulesets import rule_sets
from generator.shelves.spaces import hull_types
from generator.shelves.stowages import holds, stowages

PACKAGE = Path(__file__).resolve().parent.parent / "generator"
BY_STEM = ("procedures/**/*.yaml", "carriage/*.yaml")  # a file of these is one thing
GEAR_AND_LIVES = ("life", "kind of gear", "second name of a kind of gear")
SPLITTING = ("split", "rsplit", "splitlines")

# A word that is the name of something on a shelf and stands in these files for something else.
ELSE = {
    ("fire", "a kind of gear"): [
        "manual/drawing/symbols",
        "manual/inventory",
        "shelves/gear_rows",
    ],
    ("fire", "a purpose of gear"): [
        "checks/placed/kept",
        "checks/placed/reach",
    ],
    ("fire", "the ground on which a page is printed"): [
        "outputs/setting/one_page",
        "shelves/procedure_files",
    ],
    ("flooding", "a kind of gear"): [
        "manual/drawing/symbols",
        "manual/inventory",
        "shelves/gear_rows",
    ],
    ("gas", "a block of the file, a stop, a fact, and what a finding is about"): [
        "checks/alarms",
        "checks/bill/signals",
        "checks/changed/left_over",
        "checks/fire/fought",
        "checks/gas/fitted",
        "checks/gear/aboard",
        "checks/placed/machinery",
        "checks/placed/reach",
        "manual/deadlines/things",
        "manual/facts",
        "checks/words/against",
        "checks/words/claims",
        "checks/words/assigned",
        "checks/words/contrary",
        "checks/words/kinds",
        "manual/known_keys",
        "manual/unsaid",
        "shelves/handling",
        "shelves/life_rows",
        "survey/hanging",
        "vessel/alarms",
        "vessel/installed",
    ],
    ("grab bag", "what a finding is about"): ["checks/changed/left_over"],
    ("hull", "a part that has a colour, in own words"): ["checks/changed/other_boat"],
    ("immersion suits", "what a finding is about"): ["checks/gear/of_type"],
    ("tethers", "what a finding is about"): ["checks/people/numbers"],
    ("bilge", "what an alarm warns of"): ["checks/alarms", "checks/placed/unwatched", "vessel/alarms"],
    ("buoyancy", "a key of what is said of a boat full of water"): [
        "checks/capsize/buoyancy",
        "checks/deck/spaces",
    ],
    ("command", "an ability of a person"): [
        "checks/people/able",
        "checks/raft/together",
        "checks/watches",
        "vessel/people",
    ],
    ("command", "a command of the command line"): ["options"],
    ("muster", "a word in the drawing"): ["manual/drawing/plan"],
    ("mast", "a mark in the drawing"): ["manual/drawing/names", "shelves/spaces"],
    ("bow", "a word in the drawing"): ["manual/drawing/plan"],
    ("bow", "a word that tells which hatch, in own words"): ["survey/barring"],
    ("bow", "an end of her, in own words"): ["checks/words/ends"],
    ("companionway", "a way out by its name in own words"): ["checks/escape"],
    ("davit", "a word for what lifts, in own words"): ["checks/placed/in_the_way"],
    ("forepeak", "an example beside a key"): ["vessel/deck"],
    ("cockpit", "an example beside a key"): ["vessel/gear", "vessel/particulars"],
    ("chart table", "an example beside a key"): ["vessel/radio"],
    ("companionway", "an example beside a key"): ["vessel/radio"],
    ("coachroof", "an example beside a key"): ["vessel/raft", "vessel/fittings"],
    ("heads", "what is built into one sort of space alone, as own words name it"): [
        "checks/words/belongings"
    ],
    ("companionway", "the same"): ["checks/words/belongings"],
    ("companionway", "a word for a way out, in own words"): ["survey/barring"],
    ("foredeck", "a word that tells which hatch, in own words"): ["survey/barring"],
    ("chart table", "the same"): ["checks/words/belongings"],
    ("helm", "a key of the vessel file"): ["checks/deck/sides", "checks/placed/deck"],
    ("cockpit", "where whoever steers stands, in own words"): ["checks/words/belongings"],
    ("wheelhouse", "the same"): ["checks/watches", "checks/words/belongings"],
    ("coastal", "waters"): ["checks/radio/calling", "vessel/particulars"],
    ("grab-bag", "a chapter of the book"): ["outputs/book"],
    ("righting", "a key of a raft"): ["checks/raft/launching", "manual/words"],
    ("boarding", "a key of a raft"): ["checks/raft/launching"],
    ("man-overboard", "an example of what a note stands beside"): ["vessel/particulars"],
    ("strap", "a key of a release, and what turns a raft upright"): ["checks/release/hru", "vessel/raft"],
    ("gas detector", "a fact, by a key of the gas aboard"): ["manual/facts"],
    ("knife", "a key of a raft"): ["checks/placed/deck", "manual/said", "manual/words"],
    ("command", "an ability of people"): ["manual/crew"],
    ("softwood plugs", "what stops any hole, where none has its own"): ["checks/gear/aboard"],
    ("launch", "a part of a raft's own party"): ["shelves/procedure_files"],
    ("medical chest", "what a finding is about"): ["checks/medical"],
    ("red hand flares", "an example beside a key"): ["vessel/gear"],
    ("HRU", "something a line is made fast to"): ["vessel/raft"],
    ("grab bag", "the bags of the file, a block, and what a finding is about"): [
        "checks/gear/aboard",
        "checks/grab_bag",
        "manual/facts",
    ],
    ("grab bag", "where a rule set wants a thing to lie, and what a duty may take"): [
        "shelves/procedure_files",
        "shelves/rulesets",
    ],
    ("emergency tiller", "a key of the steering"): [
        "checks/placed/rigged",
        "checks/steering",
        "manual/words",
    ],
    ("hull", "either hull of a multihull, behind its side"): [
        "checks/escape",
        "checks/fire/each",
        "checks/pumps",
        "manual/drawing/spaces",
    ],
    ("pump", "a word of the steps, behind what drives the pump"): ["manual/words"],
    ("pump", "a block of the file"): ["checks/words/deeds", "manual/known_keys", "shelves/handling"],
    ("strap", "what keys of a raft's mount ask about"): ["checks/raft/mount", "checks/raft/stowage"],
    ("lashing", "the same"): ["checks/raft/mount"],
    ("hull", "a part of her that an alarm listens to, in own words"): ["checks/alarms"],
    ("fire blanket", "what is looked at beside the cooker"): ["checks/fire/own"],
    ("galley", "a word in the name of a thing"): ["checks/fire/own"],
    ("paddle", "a word in own words"): ["checks/gear/cold"],
    ("throwing line", "a kind whose line has a length"): ["checks/gear/figures"],
    ("tethers", "the same"): ["checks/gear/figures"],
    ("lifebuoy", "the same"): ["checks/gear/figures"],
    ("lifebuoy", "what floats and marks the place"): ["checks/placed/alongside"],
    ("danbuoy", "the same"): ["checks/placed/alongside"],
    ("senhouse slip", "the same"): ["checks/raft/mount"],
    ("water", "an estimate"): ["manual/estimates"],
    ("helm", "the duty in which nobody need command where nothing is told of abilities"): ["checks/watches"],
    **{
        (duty, "a duty that sentences give to somebody in words of their own"): ["checks/words/assigned"]
        for duty in (
            "command", "launch", "lookout", "helm", "throw", "recover", "fight", "close", "pump", "find",
            "shut-off", "ventilate", "muster",
        )
    },
    **{
        (each, "the procedure that a note stands beside, which tells what its bare words mean"): [
            "checks/words/aboard",
        ]
        for each in ("man-overboard", "back-aboard", "abandon-ship")
    },
    **{
        (each, "the procedure that a note stands beside, in which sails are worked"): ["checks/words/aboard"]
        for each in ("man-overboard-search", "dragging", "heavy-weather")
    },
}  # fmt: skip


@functools.cache
def names():
    """Every name that belongs to a shelf, as it is compared, with what it is the name of."""
    found = {}
    for what, called in (
        (
            "file of a shelf",
            (path.stem for files in BY_STEM for path in templates_folder().glob(files)),
        ),
        ("fact of a kind of gear", (f"has {name}" for name in gear_names())),
        ("fact of a hold", map(comes_loose, holds())),
        ("step", (step.id for one in shelf() for step in one.steps)),
        ("duty", (duty.id for one in shelf() for duty in one.duties)),
        ("procedure", (one.id for one in shelf())),
        ("life", (kind.name for group in lives_shelf().kinds.values() for kind in group)),
        (
            "second name of a kind of gear",
            (name for kind in kinds() for name in (*kind.names, *kind.other_names)),
        ),
        ("kind of gear", (kind.name for kind in kinds())),
        ("space", (name for hull in hull_types() for name, _ in spaces(hull))),
        ("pack of rafts", set(packs()) - {"none"}),
        ("rule set", rule_sets()),
        ("hull type", hull_types()),
        ("stowage", stowages()),
        ("hold", holds()),
    ):
        found |= {
            folded(name): what for name in called if what not in GEAR_AND_LIVES or name not in PROPERTIES
        }
    return found


def constants(path):
    """The strings of a module that are no docstrings, each with its line: whole, or a part of an f-string; those split at once also in words."""
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value, node.lineno
        elif (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and node.func.attr in SPLITTING
        ):
            yield from ((word, node.lineno) for word in split(node))


def split(call):
    """The words into which a string is split where it stands,"""
    text = call.func.value
    if not (isinstance(text, ast.Constant) and isinstance(text.value, str)):
        return []
    by = [each.value for each in call.args[:1] if isinstance(each, ast.Constant)]
    words = text.value.splitlines() if call.func.attr == "splitlines" else text.value.split(*by)
    return [word.strip() for word in words if word.strip() != text.value]


def named(package=PACKAGE):
    """(name, module, line) wherever a module has a name of a shelf as a string."""
    known = names()
    for path in sorted(package.rglob("*.py")):
        module = path.relative_to(package).with_suffix("").as_posix()
        yield from ((folded(word), module, line) for word, line in constants(path) if folded(word) in known)


def wrongly_named(package=PACKAGE):
    """What each module that names a thing of a shelf without a reason should be told."""
    known = names()
    allowed = {(folded(word), module) for (word, _), modules in ELSE.items() for module in modules}
    return [
        f"generator/{module}.py:{line}: '{word}' is a {known[word]}; ask for a property of it"
        for word, module, line in named(package)
        if (word, module) not in allowed
    ]


def test_no_module_names_what_stands_on_a_shelf():
    assert wrongly_named() == []


def test_every_exception_is_still_one():
    there = {(word, module) for word, module, _ in named()}
    gone = [
        (word, module)
        for (word, _), modules in ELSE.items()
        for module in modules
        if (folded(word), module) not in there
    ]
    assert not gone, "take these out of ELSE"


@pytest.mark.parametrize(
    "line",
    [
        'if raft.stowage == "davit": pass',
        'if raft.stowage in ("locker", "Davit"): pass',
        'held = "hru"',
        'held = "senhouse-slip"',
        'said = f"davit"',
        'said = f"the {x} davit"',
        'for name in "davit strap pin".split(): pass',
        'for name in "life ring, davit".split(", "): pass',
        'if facts["has lifebuoy"]: pass',
        'what = "life ring"',
        'what = "LIFE_RING"',
        'step = "fire.shout"',
        'kind = "Lifebuoy"',
        'emergency = "man overboard"',
    ],
)
def test_a_name_is_seen_however_it_is_written(tmp_path, line):
    package = tmp_path / "generator"
    shutil.copytree(PACKAGE / "checks", package / "checks")
    (package / "checks/raft/planted.py").write_text(f"{line}\n", encoding="utf-8")
    seen = wrongly_named(package)
    assert [each for each in seen if each.startswith("generator/checks/raft/planted.py:1: ")] == seen != []


def test_a_name_inside_a_sentence_or_a_docstring_is_no_string_of_its_own(tmp_path):
    (tmp_path / "said.py").write_text(
        '"""davit"""\nsay("a davit or so", f"{x}, on the davit of {y}", x.split(), "no more davits".split("|"))\n'
    )
    assert wrongly_named(tmp_path) == []
    assert {"davit", "hru", "launch", "fire", "lifebuoy", "flares and smoke"} <= set(names())
