"""Rows that contradict each other, or that nothing reaches, are told where they stand, with the place of the other."""

import pytest
from shelves.reading import known, place, text_of

from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.shelf import as_installed, faults
from generator.survey.registry import all_checks

RAFTS, BOAT = "limits/rafts.yaml", "limits/boat.yaml"
STOWAGES, HOLDS = "rafts/stowages.yaml", "rafts/holds.yaml"
MONOHULL, MOTOR = "symbols/hulls/monohull.yaml", "symbols/hulls/motor vessel.yaml"
OPEN_BOAT = "symbols/hulls/open boat.yaml"
ABANDON, FIRE, GAS, RIGHTING = (
    "procedures/abandon-ship.yaml",
    "procedures/fire.yaml",
    "procedures/gas.yaml",
    "procedures/righting.yaml",
)
MIDS, CALLS, FORMS = "identities/mid.json", "identities/call_signs.json", "identities/forms.yaml"
GEAR, LIVES, PACKS = "gear/gear.yaml", "lives/lives.yaml", "rafts/packs.yaml"
CANADA, UK = "carriage/canada-small-craft.yaml", "carriage/uk-small-commercial.yaml"
COUNTABLES, STATIONS = "carriage/aboard/countables.yaml", "cards/stations.yaml"


@pytest.fixture(scope="module")
def names():
    return {**known(), "check": all_checks()}


def judged(name, old, new, names):
    """What is found where one thing is changed in a file, besides a tally that no longer fits; and its text."""
    text = text_of(name)
    assert old in text, old
    text = text.replace(old, new, 1)
    together = []
    for shelf in SHELVES:
        files, _ = as_installed(shelf, templates_folder())
        if name in {each.path for each in files}:
            changed, found = shelf.read_text(text, name)
            files = tuple(changed if each.path == name else each for each in files)
            together.append((shelf, files, found))
        else:
            together.append((shelf, files, ()))
    found = faults(together, without_holds(names))
    return [each for each in found if not each.message.startswith("the tally says")], text


def without_holds(names):
    """The names that the program gives; which hold floats free is the shelf's to say."""
    return {kind: given for kind, given in names.items() if kind != "hold that lets go under water"}


def at(name, text, mark):
    line, column = place(text, mark)
    return f"templates/{name}:{line}:{column}"


HELM = "length-from: 10 m, most: 2.5 m"
AGE = (
    '{most: 120 months, source: "ISO 18079-2: over-pressure every year after the tenth", standing: secondary}'
)


def by_use(first, second):
    """Two rows in place of the one for the age of a raft."""
    rows = ((first, "1 month"), (second, "12 months"))
    return "\n      - ".join(f"{{use: {use}, most: {most}, source: x, standing: read}}" for use, most in rows)


SOLAS = '{standards: [SOLAS], most: 18 m, source: "C.R.C. c. 1436 Sch. VIII s. 1(2), as in force to 2023", standing: read}'
BELOW_DECK = "    container: [valise]\n    held-by: [strap, lashing]\n    float-free: no\n    compartment: no\n    below: yes\n    exposed: no\n    clip-on: no\n    falls-out: no\n    goes-over: lifted"
BELGIUM = '{"mid": "205", "state": "Belgium", "code": "BE"}'
MONACO = '{"first": "3AA", "last": "3AZ", "state": "Monaco (Principality of)"}'

# what is changed: file, old, new; what is found: where the finding stands, where the other place, a part of the message
FOUND = {
    "a gap of lengths": (BOAT, HELM, "length-from: 11 m, most: 2.5 m", "11 m, most", "10 m, most", "no row for length from 10 m to below 11 m"),
    "an overlap of lengths": (BOAT, HELM, "length-from: 9 m, most: 2.5 m", "9 m, most", "10 m, most", "hold for lengths from 9 m to below 10 m"),
    "no length": (BOAT, HELM, "length-from: 12 m, length-below: 10 m, most: 2.5 m", "10 m, most: 2.5", None, "no boat is 12 m long or more"),
    "a use left out": (RAFTS, AGE, by_use("[charter]", "[private]"), "[charter], most: 1 month", "[private], most", "no row for use commercial"),
    "a use twice": (RAFTS, AGE, by_use("[charter, commercial]", "[private, charter]"), "[private, charter]", "[charter, commercial], most: 1", "hold for 'charter'"),
    "waters left out": (BOAT, "waters: [sheltered, coastal]", "waters: [coastal]", "[offshore, ocean]", "[coastal]", "no row for waters sheltered"),
    "a standard left out": (RAFTS, "{standards: [ISO 9650-1 type 2], most: 4 m", "{standards: [ISO 9650-1 type 1], most: 4 m", "[SOLAS], most: 18 m", None, "no row for standards ISO 9650-1 type 2"),
    "a kind left out": (RAFTS, "kinds: [serviceable]", "kinds: [disposable]", "[disposable], most: 24", "[disposable], most: 17", "no row for kinds serviceable"),
    "two figures for one case": (RAFTS, SOLAS, f"{SOLAS}\n      - {SOLAS.replace('18 m', '20 m')}", "20 m", "18 m", "'most: 20 m' never counts"),
    "a row twice": (RAFTS, SOLAS, f"{SOLAS}\n      - {SOLAS.replace('Sch. VIII', 'VIII')}", '18 m, source: "C.R.C. c. 1436 VIII', "18 m", "never counts"),
    "a case looser than the rule": (RAFTS, "container: valise, use: [charter], most: 12 months", "container: valise, use: [charter], most: 60 months", "60 months", "36 months", "'most: 60 months' never counts"),
    "a least above a most": (RAFTS, "most: 2.6 kN, ", "most: 2.6 kN, source: x, standing: read}\n      - {container: valise, least: 3 kN, ", "3 kN", "2.6 kN", "'least: 3 kN' and 'most: 2.6 kN'"),
    "below and exposed": (STOWAGES, BELOW_DECK, BELOW_DECK.replace("exposed: no", "exposed: yes"), "yes\n    clip-on: no\n    falls-out: no\n    goes-over: lifted\n    one-side: no\n    beside-propeller: no\n    reached-inverted: no\n    source: a sailing magazine on raft stowage", "yes\n    exposed: yes\n    clip-on: no", "'below: yes' and 'exposed: yes'"),
    "below and clipped on": (STOWAGES, BELOW_DECK, BELOW_DECK.replace("clip-on: no", "clip-on: yes"), "yes\n    falls-out: no\n    goes-over: lifted", "yes\n    exposed: no\n    clip-on: yes\n", "'below: yes' and 'clip-on: yes'"),
    "below and floating free": (STOWAGES, BELOW_DECK, BELOW_DECK.replace("float-free: no", "float-free: yes"), "yes\n    compartment: no\n    below: yes", "yes\n    exposed: no\n    clip-on: no\n    falls-out: no\n    goes-over: lifted", "'below: yes' and 'float-free: yes'"),
    "floating free in a valise": (STOWAGES, BELOW_DECK, BELOW_DECK.replace("float-free: no", "float-free: yes"), "[valise]\n", "yes\n    compartment: no\n    below: yes", "no raft there is in a canister"),
    "floating free and held": (STOWAGES, "held-by: [HRU, Senhouse slip, strap, pin, lashing]", "held-by: [Senhouse slip, strap]", "[Senhouse slip, strap]\n", "yes\n    compartment", "nothing that may hold a raft there lets go"),
    "lifted and falling out": (STOWAGES, "falls-out: no\n    goes-over: lifted", "falls-out: yes\n    goes-over: lifted", "lifted\n", "yes\n    goes-over: lifted", "'falls-out: yes' and 'goes-over: lifted'"),
    "a davit for a valise": (STOWAGES, "container: [canister]\n    held-by: [HRU", "container: [canister, valise]\n    held-by: [HRU", None, None, "'goes-over: launching aid' and 'container: valise'"),
    "a container twice": (STOWAGES, "container: [canister, valise]", "container: [canister, canister]", "[canister, canister]", None, "'canister' stands twice"),
    "a hold by hand and by water": (HOLDS, "hydrostatic: yes, one-action: no", "hydrostatic: yes, one-action: yes", "yes}", None, "the hand leaves it alone"),
    "holds that free each other": (HOLDS, "{hold: strap, hydrostatic: no, one-action: no", "{hold: strap, hydrostatic: no, one-action: no, frees: [Senhouse slip]", "[Senhouse slip]", "[strap]", "none of them is opened"),
    "a beam of another type": (MONOHULL, "beam: 3.6", "beam: 7.2", "7.2", "0.17 to 0.5", "'breadth' says 0.17 to 0.5"),
    "two types in one place": (MOTOR, "order: 4", "order: 1", "1\nbelow", None, "two hull types have the place 1"),
    "no galley": (MONOHULL, ", cooking: yes", "", "- {name: foredeck", None, "no space says 'cooking: yes'"),
    "a below with nothing in it": (OPEN_BOAT, "below: nothing", "below: shelter", "shelter", None, "the type says below: shelter, and no space of it lies there"),
    "a space below nothing": (OPEN_BOAT, "{name: gunwale, level: deck", "{name: gunwale, level: below", "below, along: 0.24 to 0.86", "nothing", "'gunwale' lies below, and the type has nothing below"),
    "no helm": (MONOHULL, ", steering: yes", "", "- {name: foredeck", None, "no space says 'steering: yes'"),
    "no engine": (MONOHULL, ", engine: yes", "", "- {name: foredeck", None, "no space says 'engine: yes'"),
    "two hulls and no multihull": ("symbols/hulls/catamaran.yaml", "multihull: yes\n", "", "0.5 to 1, transom", None, "has a body on each side and is no multihull"),
    "a space beside the hull": ("symbols/hulls/trimaran.yaml", "along: 0.2 to 0.33, across: -0.14 to 0.14", "along: 0.2 to 0.33, across: 0.4 to 0.6", "0.4 to 0.6", "0 to 0.3, transom", "'engine space' lies beside the hull"),
    "two procedures in one place": (GAS, "order: 50", "order: 40", "40\n", None, "the same place in one part"),
    "a phase of no procedure": (FIRE, "phase: 1\n", "phase: 999\n", "999", None, "999 is outside what can be: 1 to 99"),
    "a duty that nobody does": (GAS, "  - {id: ventilate", "  - {id: run, essential: yes, key: no, continuous: no, persons: 1}\n  - {id: ventilate", "run, essential", "yes, key: no, continuous: no, persons: 1}\n  - {id: ventilate", "must have the duty 'run'"),
    "a procedure that nobody comes to": (RIGHTING, "bill: abandon-ship\ncards: [raft]\n", "", None, None, "nobody is led to 'righting'"),
    "a sign that is obeyed": (GAS, "sign: '<path", "sign: '<script>x()</script><path", None, None, "is no sign"),
    "a station where nothing hangs": (STATIONS, "  - {station: galley", "  - {station: masthead, hangs-at: nothing more}\n  - {station: galley", "masthead", None, "nothing hangs at the station 'masthead'"),
    "digits of two states": (MIDS, BELGIUM, BELGIUM.replace("205", "203"), '"Belgium"', '"Austria"', "203 is allotted to 'Austria' already"),
    "letters of two states": (MIDS, '"code": "BE"', '"code": "AT"', '"AT"},\n  {"mid": "206"', None, "'AT' stands for 'Austria' already"),
    "letters of nobody": (MIDS, '"code": "BE"', '"code": "XX"', '"XX"', None, "'XX' is not two letters"),
    "a series of two states": (CALLS, MONACO, f"{MONACO},\n  {MONACO.replace('Monaco (Principality of)', 'Chile')}", '"Chile"', '"Monaco', "allotted to 'Monaco (Principality of)' already"),
    "a series within another": (CALLS, MONACO, f"{MONACO},\n  {MONACO.replace('3AA', '3AM')}", '"3AM"', '"3AZ"', "begins before the one above it has ended"),
    "a series twice": (CALLS, MONACO, f"{MONACO},\n  {MONACO}", None, None, "the same series stands here twice"),
    "a form caught above": (FORMS, "form: 970XXXXXX", "form: 97XXXXXXX, kind: ship}\n  - {form: 970XXXXXX", "970XXXXXX", "97XXXXXXX", "the form '97XXXXXXX' above has them all"),
    "a form of every number": (FORMS, "form: 979XXXXXX", "form: XXXXXXXXX", "XXXXXXXXX", None, "every number has the form"),
    "a state's figures too far back": (FORMS, "form: 979XXXXXX", "form: 9790MIDXX", "9790MIDXX", None, "too far back"),
    "two forms of one beacon": (FORMS, "kind: autonomous device", "kind: autonomous device, beacon: SART", "SART}\n  - {form: 98", "SART}", "has another form already"),
    "a word caught above": (GEAR, "words: [extinguisher, extinguishers]", "words: [extinguisher, flare]", "flare, flares", "flare]", "'flare' is never looked for"),
    "a kind that is never taken": (LIVES, "    when: {kind: [PLB]}\n", "    when: {kind: [EPIRB]}\n", "beacon of a person", "beacon of a boat", "'beacon of a person' is never taken"),
    "two lives of one case": (LIVES, "from: [made], months: 48, source", "from: [fitted], months: 48, source", "48, source: a maker's manual, edition", "24, source", "another life is counted from the same dates"),
    "two lines about one thing": (LIVES, "what: contents", "what: service", None, None, "another line is about the same thing"),
    "two rows of one case": (UK, "    needs: {with: line}\n", "    needs: {with: light}\n", None, None, "asks for the same on the same boats"),
    "a category without rows": (UK, '"3", "4"]', '"3", "4", "5"]', '"5"]', None, "no row says anything of category '5'"),
    "a limit that limits nothing": (CANADA, "at-most: {orange smoke: 1}", "at-most: {orange smoke: 4}", "orange smoke: 4", "{at-least: 3}", "'orange smoke' is not limited"),
    "bands that fall": (CANADA, '[{through: 9 m, quantity: 6}, {otherwise: "yes", quantity: 12}]', "[{through: 9 m, quantity: 6}, {through: 8 m, quantity: 12}]", "8 m, quantity", "9 m, quantity", "no boat comes to this band"),
    "lengths of no boat": (CANADA, "{length-above: 6 m, length-through: 9 m}", "{length-above: 9 m, length-through: 9 m}", None, None, "no boat is of the lengths"),
    "one pack twice": (PACKS, "raft contents category B", "raft contents category A", None, None, "another pack has the same contents"),
    "one countable twice": (COUNTABLES, "{radio.beacons.kind: PLB}", "{radio.beacons.kind: EPIRB}", "PLB, where", "EPIRB, where", "the same entries of a vessel file"),
}  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "mark", "other", "said"), FOUND.values(), ids=FOUND)
def test_a_contradiction_is_told_with_both_places(name, old, new, mark, other, said, names):
    found, text = judged(name, old, new, names)
    told = [each for each in found if said in each.message]
    assert told, [str(each.place) + " " + each.message for each in found]
    assert all(each.remedy for each in told)
    if mark is not None:
        assert at(name, text, mark) in {str(each.place) for each in told}
    if other is not None:
        assert at(name, text, other) in {str(place) for each in told for place in each.also}


# what differing sources, careful cases and shared tables rightly say; nothing is found
SOUND = {
    "a stricter case": (RAFTS, "use: [charter], most: 12 months", "use: [charter], most: 6 months"),
    "a stricter row nobody has read": (RAFTS, SOLAS, f"{SOLAS}\n      - {SOLAS.replace('18 m', '12 m').replace('read}', 'secondary}')}"),
    "a rule set of its own": (RAFTS, "container: valise, rule-set: UK small commercial, most: 12 months", "container: valise, rule-set: UK small commercial, most: 9 months"),
    "bands of three": (BOAT, HELM + ', source: "French', 'length-from: 10 m, length-below: 15 m, most: 2.5 m, source: x, standing: secondary}\n      - {length-from: 15 m, most: 3 m, source: "French'),
    "territories of one series": (CALLS, MONACO, f"{MONACO.replace('of)', 'of) - the rock')},\n  {MONACO.replace('of)', 'of) - the bay')}"),
    "a narrower form first": (FORMS, "form: 979XXXXXX, kind: autonomous device", "form: 979XXXXXX, kind: autonomous device}\n  - {form: 97XXXXXXX, kind: SART"),
}  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new"), SOUND.values(), ids=SOUND)
def test_what_goes_together_is_left_alone(name, old, new, names):
    found, _ = judged(name, old, new, names)
    assert found == []
