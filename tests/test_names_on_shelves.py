"""No module of the program names a stowage, a hold, a duty, a procedure, a kind of gear, a life, a space, a hull type, a pack or a rule set: it
asks for what their rows on the shelves say of them."""

import ast
from pathlib import Path

from generator.manual.vocabulary import spaces
from generator.shelves.gear import PROPERTIES, kinds
from generator.shelves.lives import shelf as lives_shelf
from generator.shelves.packs import packs
from generator.shelves.procedures import shelf
from generator.shelves.rulesets import rule_sets
from generator.shelves.spaces import hull_types
from generator.shelves.stowages import holds, stowages

PACKAGE = Path(__file__).resolve().parent.parent / "generator"

# A word that is the name of something on a shelf and stands in these files for something else.
ELSE = {
    ("fire", "a kind of gear"): [
        "manual/drawing/symbols",
        "manual/inventory",
        "vessel/gear",
    ],
    ("fire", "the ground on which a page is printed"): ["shelves/procedure_files"],
    ("flooding", "a kind of gear"): [
        "manual/drawing/symbols",
        "manual/inventory",
        "vessel/gear",
    ],
    ("gas", "a block of the file, a stop, a fact, and what a finding is about"): [
        "checks/fire",
        "checks/gas",
        "checks/gear/aboard",
        "manual/deadlines/things",
        "manual/facts",
        "manual/known_keys",
        "shelves/life_rows",
        "vessel/gear",
    ],
    ("command", "an ability of a person"): ["checks/people", "vessel/people"],
    ("command", "a command of the command line"): ["options"],
    ("muster", "a word in the drawing"): ["manual/drawing/plan"],
    ("mast", "a mark in the drawing"): ["manual/drawing/names", "shelves/spaces"],
    ("bow", "a word in the drawing"): ["manual/drawing/plan"],
    ("forepeak", "an example beside a key"): ["vessel/deck"],
    ("cockpit", "an example beside a key"): ["vessel/gear", "vessel/particulars"],
    ("chart table", "an example beside a key"): ["vessel/radio"],
    ("companionway", "an example beside a key"): ["vessel/radio"],
    ("coachroof", "an example beside a key"): ["vessel/raft"],
    ("coastal", "waters"): ["vessel/particulars"],
    ("grab-bag", "a chapter of the book"): ["outputs/book"],
    ("grab-bag", "a family of checks"): ["survey/reports"],
    ("righting", "a key of a raft"): ["checks/raft/launching", "manual/words"],
    ("boarding", "a key of a raft"): ["checks/raft/launching"],
    ("man-overboard", "an example of what a note stands beside"): ["vessel/particulars"],
    ("strap", "a key of a release, and what turns a raft upright"): ["checks/release/hru", "vessel/raft"],
    ("gas detector", "a fact, by a key of the gas aboard"): ["manual/facts"],
    ("knife", "a key of a raft"): ["manual/words"],
    ("medical chest", "what a finding is about"): ["checks/medical"],
    ("red hand flares", "an example beside a key"): ["vessel/gear"],
    ("HRU", "something a line is made fast to"): ["vessel/raft"],
}


def names():
    """Every name that belongs to a shelf, with what it is the name of."""
    found = {name: "duty" for one in shelf() for name in (duty.id for duty in one.duties)}
    found |= {one.id: "procedure" for one in shelf()}
    lives = (kind.name for group in lives_shelf().kinds.values() for kind in group)
    found |= {name: "life" for name in lives if name not in PROPERTIES}
    found |= {kind.name: "kind of gear" for kind in kinds() if kind.name not in PROPERTIES}
    found |= {name: "space" for hull in hull_types() for name, _ in spaces(hull)}
    found |= dict.fromkeys(set(packs()) - {"none"}, "pack of rafts") | dict.fromkeys(rule_sets(), "rule set")
    found |= dict.fromkeys(hull_types(), "hull type")
    return found | dict.fromkeys(stowages(), "stowage") | dict.fromkeys(holds(), "hold")


def constants(path):
    """The strings of a module that are neither docstrings nor parts of a sentence, each with its line."""
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    told |= {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value, node.lineno


def named():
    """(word, module, line) wherever a module has a name of a shelf as a string."""
    known = names()
    for path in sorted(PACKAGE.rglob("*.py")):
        module = path.relative_to(PACKAGE).with_suffix("").as_posix()
        yield from ((word, module, line) for word, line in constants(path) if word in known)


def test_no_module_names_what_stands_on_a_shelf():
    known = names()
    allowed = {(word, module) for (word, _), modules in ELSE.items() for module in modules}
    wrong = [
        f"generator/{module}.py:{line}: '{word}' is a {known[word]}; ask for a property of it"
        for word, module, line in named()
        if (word, module) not in allowed
    ]
    assert not wrong, "\n".join(wrong)


def test_every_exception_is_still_one():
    there = {(word, module) for word, module, _ in named()}
    gone = [
        (word, module)
        for (word, _), modules in ELSE.items()
        for module in modules
        if (word, module) not in there
    ]
    assert not gone, "take these out of ELSE"


def test_the_names_are_looked_for_as_whole_strings(tmp_path):
    module = tmp_path / "x.py"
    module.write_text(
        '"""davit"""\nif raft.stowage == "davit" or f"the {x}davit":\n    say("a davit or so")\n'
    )
    assert list(constants(module)) == [("davit", 2), ("a davit or so", 3)]
    assert {"davit", "HRU", "launch", "fire", "lifebuoy", "flares and smoke"} <= set(names())
