"""A faulty rule set, pack or countable is told at its line and column, with the nearest word; a rule set is one file."""

import pytest
from shelves.reading import copied, found, known, place, run, text_of, told

from generator.shelves.countables import COUNTABLES
from generator.shelves.packs import PACKS
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import faults

CANADA, RACING, UK = (
    "carriage/canada-small-craft.yaml",
    "carriage/offshore-racing.yaml",
    "carriage/uk-small-commercial.yaml",
)
AT_9_M = "when: {length-above: 6 m, length-through: 9 m}"


@pytest.mark.parametrize(
    ("name", "old", "new", "mark", "said"),
    [
        # keys
        (CANADA, "told-by:", "toldby:", "toldby", "'toldby' is no key of rows[lifejackets of the right size]: write told-by?"),
        (CANADA, "edition: Small", "editon: Small", "editon", "'editon' is no key of a file of this shelf: write edition?"),
        (CANADA, "    source: SOR/2010-91 s. 204(a)\n", "", "item: lifejackets", "source' is missing"),
        (CANADA, "    quantity: {each: person}\n", "", "item: lifejackets", "quantity' is missing"),
        (CANADA, "{at-least: 1}", "{atleast: 1}", "atleast", "'atleast' is no key of rows[reboarding device].quantity"),
        (CANADA, "{length-above: 6 m", "{length-over: 6 m", "length-over", "is no key of"),
        (CANADA, "{metres-from:", "{meters-from:", "meters-from", "write metres-from?"),
        (CANADA, "{through: 9 m, quantity: 6}", "{until: 9 m, quantity: 6}", "until", "is no key of"),
        # words and figures
        (CANADA, "each: person", "each: boat", "boat}", "'boat' is none of the words this key takes: write one of: person"),
        (CANADA, "standing: read", "standing: raed", "raed", "write read?"),
        (CANADA, "within: anywhere", "within: the raft", "the raft", "'the raft' is none of the words"),
        (CANADA, "{at-least: 1}", "{at-least: one}", "one}", "'one' is not a number"),
        (CANADA, "freeboard-above: 0.5 m", "freeboard-above: 0.5", "0.5}", "'0.5' has no unit"),
        (CANADA, "length-through: 6 m", "length-through: 6 yd", "6 yd", "6 yd"),
        (CANADA, "checked-on: 2026-11-25", "checked-on: 2026-11", "2026-11\n", "2026-11 is no day"),
        (RACING, 'lights: "yes"', 'lights: "no"', '"no"', "'lights: no' asks for nothing"),
        (RACING, "power-from: 25 W", "power-from: 25 kg", "25 kg", "25 kg"),
        (UK, "rating: 5A/34B", "rating: 5A34B", "5A34B", "'5A34B' is no rating"),
        (RACING, "unit: l", "unit: litres", "litres", "write one of: l"),
        # names of things that stand elsewhere
        (CANADA, "counts: lifejackets", "counts: lifejackts", "lifejackts", "there is no gear or countable 'lifejackts': write lifejackets?"),
        (CANADA, "[hand pumps, bucket]", "[hand pumps, buckit]", "buckit", "there is no gear or countable 'buckit': write bucket?"),
        (CANADA, "{orange smoke: 1}", "{orange smok: 1}", "orange smok:", "write orange smoke?"),
        (CANADA, "{facts: engine}", "{facts: a crane}", "a crane", "there is no fact 'a crane'"),
        (CANADA, "fixed vhf, handheld", "fixed vfh, handheld", "fixed vfh", "there is no fact 'fixed vfh': write fixed vhf?"),
        (CANADA, "told-by: people.lifejackets", "told-by: people.lifejacket", "people.lifejacket\n", "there is no check 'people.lifejacket': write people.lifejackets?"),
        (RACING, "SOLAS, ISO 9650-1 type 1 group A", "SOLAS, ISO 9650-1 type 1 group C", "ISO 9650-1 type 1 group C", "there is no word of raft.standard"),
        (RACING, "{pack: [SOLAS A, over 24 h]}", "{pack: [SOLAS A, ovr 24 h]}", "ovr 24 h", "there is no pack of rafts 'ovr 24 h': write over 24 h?"),
        (RACING, 'category: ["1", "2"]', 'category: ["1", "5"]', '"5"', "this rule set has no category '5'"),
        (UK, '"4": 0}', '"5": 0}', '"5": 0}', "this rule set has no category '5'"),
        (CANADA, AT_9_M, "when: {category: A}", "A}", "this rule set has no category 'A': list it under 'categories'"),
        # what does not go together
        (CANADA, "quantity: {each: person}", "quantity: {times: 2}", "{times", "nothing says how much is asked for"),
        (CANADA, "quantity: {each: person}", "quantity: {each: person, at-least: 2}", "person, at-least", "'at-least' says already how much is asked for"),
        (CANADA, "quantity: {each: person}", "quantity: {at-least: 2, plus: 1}", "1}", "'plus' stands without 'each'"),
        (CANADA, "quantity: {each: person}", "quantity: {percent: 10}", "10}", "'percent' stands alone"),
        (CANADA, "{through: 9 m, quantity: 6}", "{below: 8 m, through: 9 m, quantity: 6}", "9 m, quantity: 6", "a band of lengths ends in one way"),
        (CANADA, "{orange smoke: 1}", "{bell: 1}", "{bell: 1}", "'bell' is limited and not counted"),
    ],
)  # fmt: skip
def test_a_fault_is_told_at_its_place(name, old, new, mark, said):
    assert any(said in each for each in told(RULE_SETS, name, (old, new), mark)), said


def test_what_is_left_out_or_deleted_is_noticed():
    text = text_of(CANADA)
    row = text[text.index("  - item: axe") : text.index("  - item: buckets")]
    assert "the tally says" in found(RULE_SETS, text.replace(row, ""), CANADA)[0].message
    assert (
        "'told-by'"
        in found(RULE_SETS, text.replace("    told-by: people.lifejackets\n", ""), CANADA)[0].message
    )


def test_all_faults_are_told_at_once_in_the_order_of_the_file():
    text = text_of(CANADA).replace("counts: bell", "counts: bel")
    text = text.replace("counts: axe", "counts: axa").replace("standing: read", "standing: raed", 1)
    places = [each.place.line for each in found(RULE_SETS, text, CANADA)]
    assert places == sorted({place(text, "raed")[0], place(text, "axa")[0]})


def test_two_sets_of_one_name_are_told():
    files = [RULE_SETS.read_text(text_of(name), name)[0] for name in (CANADA, UK)]
    files[1].block.__dict__["name"] = "Canada small craft"
    (told_twice,) = faults([(RULE_SETS, tuple(files), ())], known())
    assert told_twice.message == "two are called 'Canada small craft'"
    assert str(told_twice.place).startswith(f"templates/{UK}:")
    assert [each.file for each in told_twice.also] == [f"templates/{CANADA}"]


@pytest.mark.parametrize(
    ("old", "new", "mark", "said"),
    [
        ("each: rafts", "each: raft", "raft, amount", "there is no list of a vessel file 'raft': write rafts?"),
        ("{pumps.power: hand}", "{pumps.powr: hand}", "pumps.powr", "there is no key of a vessel file 'pumps.powr'"),
        ("{pumps.power: hand}", "{pumps.power: foot}", "pumps.power: foot}", "'foot' is no word of pumps.power: write one of: electric, engine, hand"),
        ("{pumps.power: hand}", "{pumps.flow: hand}", "pumps.flow", "'hand' is no word of pumps.flow"),
        ("amount: rafts.persons", "amount: rafts.person", "rafts.person}", "there is no key of a vessel file"),
        ("has: recovery.hoist", "each: grab-bags, has: recovery.hoist", "recovery.hoist", "is found in several ways"),
        ("has: recovery.hoist", "for-each: yes", "hoist for a person, for-each", "is found in no way"),
        ("name: drinking water,", "name: water to drink,", "water to drink", "no kind of gear is called 'water to drink'"),
        ("name: PLB,", "name: EPIRB,", "EPIRB, where: {radio.beacons.kind: PLB", "two are called 'EPIRB'"),
    ],
)  # fmt: skip
def test_a_faulty_countable_is_told_at_its_place(old, new, mark, said):
    assert any(
        said in each for each in told(COUNTABLES, "carriage/aboard/countables.yaml", (old, new), mark)
    ), said


@pytest.mark.parametrize(
    ("old", "new", "mark", "said"),
    [
        ("contents category A", "contents category C", "SOLAS raft contents category C", "there is no rule set with its category"),
        ("{food: {each: person}}", "{foot: {each: person}}", "foot", "there is no gear or countable 'foot'"),
        ("    food: yes\n    food-energy", "    food-energy", "10000", "a pack without food has none"),
        ("food-energy: 10000", "food-energy: much", "much\n", "'much' is not a number"),
        ("name: SOLAS B", "name: SOLAS A", "SOLAS A\n    contents: SOLAS raft contents category B", "two are called 'SOLAS A'"),
    ],
)  # fmt: skip
def test_a_faulty_pack_is_told_at_its_place(old, new, mark, said):
    assert any(said in each for each in told(PACKS, "rafts/packs.yaml", (old, new), mark)), said


NEW_SET = """\
name: harbour rules
edition: first
checked-on: 2026-11-25
length-means: hull
categories: [inner, outer]
rows:
  - item: bell
    counts: bell
    quantity: {by-category: {inner: 1, outer: 2}}
    source: the harbour master's notice
    standing: read
tally: {at-least: 2, by-category: 2, categories: 2, counts: 1, rows: 1}
"""
PRINTED = """
import pathlib, sys
from datetime import date
from generator.outputs import Job, book
from generator.publishing import Order, survey
boat = survey(pathlib.Path("vessels/saltmeadow"), "", Order(date(2026, 6, 1)))
page = book.html(Job(boat.manual, "crew"))
chapter = page[page.index('id="chapter-carriage"'):]
print("printed:", "harbour rules category outer" in chapter, "harbour master" in chapter)
from documents.carriage import sets_table
print("listed:", "`harbour rules`" in sets_table())
"""


@pytest.mark.thorough
def test_a_rule_set_is_one_file(tmp_path):
    """What its rows ask for and she lacks is found, printed in her book and listed in the documents."""
    copied(tmp_path)
    (tmp_path / "templates/carriage/harbour-rules.yaml").write_text(NEW_SET, encoding="utf-8")
    boat = tmp_path / "vessels/saltmeadow/vessel.yaml"
    text = boat.read_text(encoding="utf-8")
    changed = text.replace(
        "rule-set: good practice", "rule-set: [good practice, harbour rules category outer]"
    )
    assert changed != text
    boat.write_text(changed, encoding="utf-8")
    code, said = run(tmp_path, "survey", "vessels/saltmeadow")
    assert code == 1, said
    assert (
        "bell: harbour rules category outer asks for 2 (the harbour master's notice; read): aboard 0"
        in " ".join(said.split())
    )
    code, said = run(tmp_path, code=PRINTED)
    assert (code, said.split("\n")[:2]) == (0, ["printed: True True", "listed: True"])


@pytest.mark.thorough
def test_a_faulty_shelf_ends_every_survey_with_all_that_is_wrong(tmp_path):
    copied(tmp_path)
    wrong = ((CANADA, "counts: axe", "counts: axa"), (UK, "standing: secondary", "standing: secundary"))
    for name, old, new in wrong:
        path = tmp_path / "templates" / name
        path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    code, said = run(tmp_path, "survey", "vessels")
    assert code == 2, said
    for name, mark in ((CANADA, "axa"), (UK, "secundary")):
        line, column = place((tmp_path / "templates" / name).read_text(encoding="utf-8"), mark)
        assert f"templates/{name}:{line}:{column}" in said


@pytest.mark.thorough
def test_a_row_speaks_of_the_vessel_not_of_one_raft(tmp_path):
    copied(tmp_path)
    path = tmp_path / "templates" / CANADA
    text = path.read_text(encoding="utf-8").replace("{facts: engine}", "{facts: canopy}", 1)
    path.write_text(text, encoding="utf-8")
    code, said = run(tmp_path, "survey", "vessels/saltmeadow")
    assert code == 2
    assert "'canopy' is said of one raft, and this is the vessel's" in " ".join(said.split())
