"""The plan shows each item once, apart from the others, where it is; what it can't show it tells."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import ClassVar

import pytest
from drawing.boats import item, vessel, words
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.machine.fonts import FACES
from generator.manual.drawing.hull import outline_of
from generator.manual.drawing.labels import overlap
from generator.manual.drawing.level import Level
from generator.manual.drawing.plan import draw
from generator.manual.drawing.spaces import spaces_of
from generator.manual.drawing.svg import width_mm
from generator.manual.drawing.symbols import CLASSES, NUMERAL_MM, SIZE_MM, WIDE_MM, symbol
from generator.manual.inventory import list_items
from generator.manual.printing import Printer
from generator.shelves.languages import catalogue
from generator.shelves.spaces import hull_types
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
SVG = "{http://www.w3.org/2000/svg}"
KINDS = (
    "raft",
    "lifesaving",
    "signal",
    "radio",
    "fire",
    "stop",
    "flooding",
    "medical",
    "through-hull",
    "other",
)


def boxes(plan, size=SIZE_MM):
    return [(x - size / 2, y - size / 2, x + size / 2, y + size / 2) for _, x, y, _ in plan.entries]


def apart(plan, size=SIZE_MM):
    """All symbols inside the canvas, none on another."""
    found = boxes(plan, size)
    for number, box in enumerate(found):
        assert box[0] >= 0 and box[1] >= 0 and box[2] <= plan.width_mm and box[3] <= plan.height_mm
        assert not any(overlap(box, other) for other in found[number + 1 :])


def texts(plan):
    """The boxes of all lines of text on the sheet but the numerals, with their words."""
    root = ET.fromstring(plan.svg)
    found = {}
    for each in root.iter(f"{SVG}text"):
        if re.fullmatch(r"\d+", each.text) or each.get("stroke"):
            continue
        size, x, y = (float(each.get(key)) for key in ("font-size", "x", "y"))
        width, y = width_mm(each.text, size) * 0.9, y - 0.334 * size
        left = {"start": x, "middle": x - width / 2, "end": x - width}[each.get("text-anchor")]
        box = (left, y - size * 0.36, left + width, y + size * 0.36)
        if each.get("transform"):
            box = (x - size * 0.36, y - width / 2, x + size * 0.36, y + width / 2)
        found[box] = each.text
    return found


@pytest.mark.parametrize("folder", sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml")))
@pytest.mark.parametrize("stacked", [False, True])
def test_the_demo_vessels_show_all_their_gear_clear_of_each_other_and_of_text(folder, stacked):
    boat, _ = load(VESSELS / folder)
    items = list_items(boat)
    plan = draw(boat, items, words, stacked=stacked)
    assert [number for number, *_ in plan.entries] == [each.number for each in items]
    assert not (plan.unplaced or plan.unknown_spaces or plan.outside or plan.wrong_side or plan.side_missing)
    assert plan.muster_drawn
    apart(plan)
    lines = texts(plan)
    for box, text in lines.items():
        assert box[0] >= 0 and box[2] <= plan.width_mm and box[3] <= plan.height_mm, text
        assert not [
            number
            for (number, *_), other in zip(plan.entries, boxes(plan), strict=True)
            if overlap(box, other)
        ], text
    ordered = list(lines)
    for number, box in enumerate(ordered):
        for other in ordered[number + 1 :]:
            assert not overlap(box, other), (lines[box], lines[other])


names = {hull: sorted(spaces_of(vessel(hull))) for hull in hull_types()}
crowds = st.sampled_from(hull_types()).flatmap(
    lambda hull: st.tuples(
        st.just(hull),
        st.floats(4, 40),
        st.floats(1, 20),
        st.lists(
            st.tuples(
                st.sampled_from(names[hull]),
                st.sampled_from(["port", "starboard", "centre", ""]),
                st.sampled_from(KINDS),
                st.none() | st.tuples(st.floats(0, 40), st.floats(-10, 10)),
            ),
            max_size=60,
        ),
    )
)


@pytest.mark.thorough
@settings(max_examples=40, deadline=None)
@given(crowds)
def test_whatever_the_vessel_and_the_gear_no_symbol_lies_on_another(crowd):
    hull, length, beam, wanted = crowd
    boat = vessel(hull, f"{length:.2f} m", f"{beam:.2f} m")
    items = tuple(
        item(number, where, side, kind, point) for number, (where, side, kind, point) in enumerate(wanted, 1)
    )
    plan = draw(boat, items, words)
    assert [number for number, *_ in plan.entries] == [each.number for each in items]
    apart(plan)


@pytest.mark.thorough
@pytest.mark.parametrize("hull", hull_types())
def test_more_items_than_any_space_holds(hull):
    items = tuple(item(number, "cockpit", "port") for number in range(1, 131))
    plan = draw(vessel(hull), items, words)
    assert len(plan.entries) == 130
    apart(plan, WIDE_MM)


@pytest.mark.parametrize("hull", hull_types())
def test_port_is_left_and_starboard_right(hull):
    boat = vessel(hull, "12 m", "6 m")
    aside = next(each.name for each in spaces_of(boat).values() if each.paired and each.level == "deck")
    plan = draw(
        boat,
        (item(1, aside, "port"), item(2, aside, "starboard"), item(3, "cockpit", "centre")),
        words,
    )
    (_, port, _, _), (_, starboard, _, _), _ = plan.entries
    middle = 42
    assert port < middle - SIZE_MM / 2
    assert starboard > middle + SIZE_MM / 2


def test_a_point_is_drawn_to_scale():
    plan = draw(
        vessel(length="12 m", beam="3.8 m"), (item(1, point=(2.0, 0.0)), item(2, point=(8.0, 0.0))), words
    )
    (_, x, aft, _), (_, same, fore, _) = plan.entries
    assert x == same
    bar = ET.fromstring(plan.svg).findall(f"{SVG}rect")[-2]
    assert (aft - fore) / 6 == pytest.approx(float(bar.get("width")) / 2, rel=0.01)


def test_what_cannot_be_shown_as_described_is_told():
    items = (
        item(1, ""),
        item(2, "ballroom"),
        item(3, "cockpit", point=(2.0, 5.0)),
        item(4, "cockpit", "port", point=(2.0, 0.5)),
        item(5, "side deck"),
        item(6, "port side deck", "starboard"),
        item(7, "cockpit", "starboard", point=(2.0, 0.5)),
    )
    plan = draw(vessel(muster="ballroom"), items, words)
    assert plan.unplaced == items[:1]
    assert plan.unknown_spaces == items[1:2]
    assert plan.outside == items[2:3]
    assert plan.wrong_side == (items[3], items[5])
    assert plan.side_missing == items[4:5]
    assert [number for number, *_ in plan.entries] == [3, 4, 5, 6, 7]
    assert not plan.muster_drawn


def test_an_own_space_on_one_side_contradicts_the_other():
    boat = vessel(
        deck="{spaces: [{name: oilskin locker, level: below, aft: 4 m, fore: 5 m, port: 1.5 m port, "
        "starboard: 0.5 m port}]}"
    )
    wrong = item(1, "oilskin locker", "starboard")
    assert draw(boat, (wrong, item(2, "oilskin locker", "port")), words).wrong_side == (wrong,)


def test_an_empty_gear_list_still_gives_the_hull():
    plan = draw(vessel(), (), words)
    assert plan.entries == ()
    assert "muster" in plan.svg


def test_without_dimensions_there_is_no_scale():
    plan = draw(vessel(length="unknown"), (item(),), words)
    assert "not to scale" in plan.svg
    assert ">scale<" not in plan.svg


@pytest.mark.parametrize("hull", ["monohull", "catamaran"])
def test_the_same_vessel_gives_the_same_drawing(hull):
    items = tuple(
        item(number, where, "port", kind)
        for number, (where, kind) in enumerate(
            [("cockpit", "raft"), ("cockpit", "fire"), ("galley", "stop"), ("galley", "other")] * 8, 1
        )
    )
    assert draw(vessel(hull), items, words).sheet == draw(vessel(hull), items, words).sheet


def test_only_plain_svg_with_ids_of_their_own():
    plan = draw(vessel(), (item(7, what="a <sharp> & short knife"),), words, prefix="book")
    root = ET.fromstring(plan.svg)
    assert {each.tag.removeprefix(SVG) for each in root.iter()} <= {
        "svg",
        "title",
        "desc",
        "g",
        "path",
        "line",
        "circle",
        "rect",
        "text",
    }
    assert not [each for each in root.iter() if {"class", "style"} & set(each.keys())]
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert len(ids) == len(set(ids))
    assert "book-item-7" in ids
    assert all(each.startswith("book-") for each in ids)
    assert root.get("viewBox") == f"0 0 {plan.width_mm:g} {plan.height_mm:g}"
    assert "a &lt;sharp&gt; &amp; short knife" in plan.svg


class Asking(Printer):
    """Prints the key of each label, and remembers it."""

    asked: ClassVar[set[str]] = set()

    def say(self, label, **_):
        self.asked.add(label)
        return f"~{label}~"


def test_every_printed_word_comes_from_the_language():
    asking = Asking(catalogue())
    items = tuple(item(number, kind=kind) for number, kind in enumerate(KINDS, 1))
    plan = draw(vessel(deck="{without: [mast], spaces: [{name: flybridge}]}"), items, asking)
    assert plan.sheet
    assert draw(vessel("open boat", "7 m", "2.3 m"), items, asking).sheet
    assert draw(vessel(length="unknown"), items, asking).sheet
    drawn = {label for label in catalogue().labels if label.startswith("drawing.")}
    assert {label for label in asking.asked if not label.startswith("spaces.")} == drawn
    for text in texts(plan).values():
        assert "~" in text.lower() or text in ("2 m", "cockpit", "flybridge"), text


def test_a_space_is_called_as_her_file_calls_it():
    plan = draw(vessel(deck="{spaces: [{name: wheelhouse}]}"), (item(1, "side deck"),), Asking(catalogue()))
    said = " ".join(texts(plan).values())
    assert "wheelhouse" in said
    assert "~spaces.saloon~" in said
    assert "~spaces.cockpit~" not in said  # the muster place
    assert "~spaces.side deck~" not in said


def test_each_class_has_its_own_form_and_a_ground_its_numeral_stands_out_from():
    assert len({each.form for each in CLASSES}) == len(CLASSES)
    for each in CLASSES:
        assert contrast(each.ground, each.numeral) >= 6
        assert each.form in ("disc", "square") or each.ground == "#ffffff"
    assert len({symbol("1", each, (0, 0)) for each in CLASSES}) == len(CLASSES)


def contrast(first, second):
    """The contrast of two colours by the formula of WCAG 2.1."""

    def light(colour):
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        parts = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    high, low = sorted((light(first), light(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_figures_are_at_least_two_and_a_half_millimetres_high_and_words_are_no_wider_than_reckoned():
    from fontTools.ttLib import TTFont

    own = [space.name for hull in hull_types() for space in spaces_of(vessel(hull)).values()]
    for face in FACES[::2]:
        with TTFont(face.path) as font:
            cmap, widths, unit = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
            for figure in "0123456789":
                glyph = font["glyf"][cmap[ord(figure)]]
                assert (glyph.yMax - glyph.yMin) / unit * NUMERAL_MM >= 2.5
            words_drawn = [text for label, text in catalogue().labels.items() if label.startswith("drawing.")]
            for name in [*own, *(name.upper() for name in own), *words_drawn, "0123456789 m"]:
                real = sum(widths[cmap[ord(letter)]][0] for letter in name) / unit
                assert width_mm(name, 1) >= real - 0.001, name


@pytest.mark.parametrize("hull", hull_types())
def test_what_stands_away_from_its_space_stands_off_the_vessel(hull):
    boat = vessel(hull, "13 m", "6 m")
    space = next(each for each in reversed(spaces_of(boat).values()) if not each.mark)
    level = Level(space.level, outline_of(boat), 0, 84, 12, 10)
    level.sheet.place(level.labels(range(60), space, "port", (SIZE_MM, SIZE_MM)))
    led = [each for each in level.sheet.placed if each.led]
    assert led
    for each in led:
        left, top, right, bottom = each.box
        for step in range(11):
            at = (left + (right - left) * step / 10, top + (bottom - top) * step / 10)
            assert not level.outline.contains(*level.metres(at), space.level)
