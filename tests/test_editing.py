"""A key is set in the text of a file: the value is there when it is read, and all else stays letter by letter."""

import pytest

from generator.reading.editing import Entry, Key, scalar, set_value
from generator.reading.nodes import Source
from generator.reading.tree import read

TEXT = """\
# head
vessel:
  name: Teasel      # her name
  type: unknown     # which hull

# --- people ---
people:
  - {role: skipper}   # he
  # - {role: mate}
  - role: mate
    lifts: 20 kg

radio:
  sets: unknown   # none yet
# stops:
#   - {what: gas}
# gas: {fuel: butane}
bill:
  fire:
    command: {who: skipper}
bag:
  - where: here
    items: [water, {what: torch, quantity: 1}]
knife: in its sheath   # words
empty: {}
"""
ORDER = ("vessel", "people", "radio", "bill", "bag", "stops", "gas", "pumps", "knife")


def top(name, *needs):
    return Key(name, needs, ORDER)


def role(name, *needs):
    return Entry("role", name, needs, written=scalar(name))


CASES = [
    ((top("vessel"), Key("type")), "sloop", "  type: unknown ", "  type: sloop "),
    ((top("vessel"), Key("beam")), "2 m", "which hull\n", "which hull\n  beam: 2 m\n"),
    ((top("people"), role("skipper"), Key("lifts")), "9 kg", "{role: skipper}", "{role: skipper, lifts: 9 kg}"),
    ((top("people"), role("mate"), Key("lifts")), "9 kg", "lifts: 20 kg", "lifts: 9 kg"),
    ((top("people"), role("mate"), Key("berth")), "aft", "20 kg\n", "20 kg\n    berth: aft\n"),
    ((top("people"), role("no", "role", "berth"), Key("lifts")), "9 kg",
     "20 kg\n", '20 kg\n  - {role: "no", berth: unknown, lifts: 9 kg}\n'),
    ((top("radio"), Key("sets"), Entry("what", "VHF", ("what", "where"), written="VHF"), Key("dsc")), "yes",
     "  sets: unknown   # none yet\n", "  sets:   # none yet\n    - {what: VHF, where: unknown, dsc: yes}\n"),
    ((top("stops"), Entry("what", "gas", written="gas"), Key("how")), "turn",
     "#   - {what: gas}\n", "#   - {what: gas}\nstops:\n  - {what: gas, how: turn}\n"),
    ((top("gas", "fuel"), Key("bottles")), "aft", "{fuel: butane}\n", "{fuel: butane}\ngas:\n  fuel: unknown\n  bottles: aft\n"),
    ((top("pumps"), Entry("", "1"), Key("flow")), "9 l/min",
     "quantity: 1}]\n", "quantity: 1}]\n\npumps:\n  - {flow: 9 l/min}\n"),
    ((top("bill"), Key("fire"), Key("command"), Key("substitute")), "mate",
     "{who: skipper}", "{who: skipper, substitute: mate}"),
    ((top("bill"), Key("fire"), Key("call", ("who",)), Key("substitute")), "mate",
     "{who: skipper}\n", "{who: skipper}\n    call:\n      who: unknown\n      substitute: mate\n"),
    ((top("bag"), Entry("", "1"), Key("items"), Entry("what", "torch", written="torch"), Key("quantity")), "2",
     "quantity: 1}", "quantity: 2}"),
    ((top("bag"), Entry("", "1"), Key("items"), Entry("what", "water", written="water"), Key("quantity", (), (), "what")), "6",
     "[water,", "[{quantity: 6, what: water},"),
    ((top("bag"), Entry("", "1"), Key("items"), Entry("what", "food", written="food")), "", "quantity: 1}]", "quantity: 1}, {what: food}]"),
    ((top("knife"), Key("side", (), (), "what")), "port",
     "knife: in its sheath   # words\n", "knife:   # words\n  side: port\n  what: in its sheath\n"),
    ((top("people"), role("mate")), "", "", ""),
    ((Key("empty"), Key("x")), "1", "{}", "{x: 1}"),
]  # fmt: skip


@pytest.mark.parametrize(("path", "value", "old", "new"), CASES)
def test_the_value_is_put_in_and_nothing_else_changes(path, value, old, new):
    assert TEXT.count(old) == 1 or not old
    changed = set_value(TEXT, path, value)
    assert changed == TEXT.replace(old, new, 1)
    tree, findings = read(changed, Source("x"))
    assert findings == []
    node = tree
    for step in path:
        if isinstance(step, Key):
            node = node.entries[step.name]
        elif step.called:
            node = next(
                each
                for each in node.items
                if getattr(each, "entries", {}).get(step.called, each).text == step.name
            )
        else:
            node = node.items[int(step.name) - 1]
    assert not value or node.text == value.strip('"')


def test_where_keys_stand_no_value_is_set():
    with pytest.raises(ValueError, match="stand where one value"):
        set_value(TEXT, (top("vessel"),), "x")


@pytest.mark.parametrize(
    "text",
    [
        "no",
        "12:30",
        "a, b",
        "[x",
        "{y",
        "# z",
        "'q'",
        '"',
        "\\",
        "- a",
        "null",
        "~",
        "a: b",
        "ä",
        "x #y",
        "é,%",
        "@a",
        "12",
    ],
)
def test_any_words_read_back_in_block_and_brackets(text):
    for made in (f"a: {scalar(text)}\n", f"a: {{b: {scalar(text)}, c: d}}\n", f"a: [{scalar(text)}]\n"):
        tree, findings = read(made, Source("x"))
        assert findings == []
        node = tree.entries["a"]
        node = (
            node.entries["b"]
            if hasattr(node, "entries")
            else node.items[0]
            if hasattr(node, "items")
            else node
        )
        assert node.text == text
