"""Labels keep apart, stay on the sheet, and each finds a place whatever the crowd."""

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.manual.drawing.labels import Label, Sheet, overlap


def sheet(bottom=60.0):
    """A sheet with a vessel across its middle third."""
    return Sheet(0, 80, 0, bottom, lambda box: box[2] < 25 or box[0] > 55)


def label(key, spots, size=(7.0, 7.0)):
    return Label(key, *size, (40.0, 30.0), tuple(spots))


def test_the_first_free_spot_is_taken_and_needs_no_leader():
    area = sheet()
    area.place([label("one", [(40, 30), (48, 30)]), label("two", [(40, 30), (48, 30)])])
    assert [each.centre for each in area.placed] == [(40, 30), (48, 30)]
    assert not any(each.led for each in area.placed)


def test_what_finds_no_spot_stands_off_the_vessel_with_one_leader_for_all():
    area = sheet()
    area.place([label(number, [(40, 30)]) for number in range(5)])
    area.settle()
    led = [each for each in area.placed if each.led]
    assert len(led) == 4
    assert all(area.open(each.box) for each in led)
    assert len(area.clusters) == 1
    assert area.clusters[0].leader[1] == (40.0, 30.0)


def test_a_point_already_taken_moves_to_a_near_one_with_a_leader():
    area = sheet()
    crowded = Label("two", 7.0, 7.0, (40.0, 30.0), ((40.0, 30.0),), near=((48.0, 30.0),))
    area.place([label("one", [(40, 30)])])
    area.place([crowded])
    assert area.placed[1].centre == (48.0, 30.0)
    assert area.placed[1].led


def test_a_full_sheet_grows_downwards():
    area = sheet(bottom=20.0)
    area.place([label(number, []) for number in range(60)])
    assert len(area.placed) == 60
    assert area.bottom > 20


def test_a_leader_goes_round_what_stands_in_its_way():
    area = Sheet(0, 80, 0, 60, lambda box: box[2] < 25 and box[1] > 20 and box[3] < 40)
    area.reserve((28, 0, 34, 36))
    area.place([Label("x", 7.0, 7.0, (45.0, 30.0), (), ends=((45.0, 30.0), (45.0, 44.0)))])
    area.settle()
    start, end = area.clusters[0].leader
    assert end == (45.0, 44.0)
    assert start[0] < 25


boxes = st.tuples(st.floats(4, 30), st.floats(4, 12))
spots = st.lists(st.tuples(st.floats(0, 80), st.floats(0, 60)), max_size=6)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(boxes, spots), max_size=40))
def test_no_two_labels_overlap_and_none_leaves_the_sheet(wanted):
    area = sheet()
    area.reserve((10, 10, 30, 14))
    for number, (size, at) in enumerate(wanted):
        area.place([label(number, at, size)])
    found = [each.box for each in area.placed]
    assert len(found) == len(wanted)
    for number, box in enumerate(found):
        assert box[0] >= -1e-6 and box[2] <= 80 + 1e-6 and box[1] >= -1e-6 and box[3] <= area.bottom + 1e-6
        assert not overlap(box, (10, 10, 30, 14))
        assert not any(overlap(box, other) for other in found[number + 1 :])
