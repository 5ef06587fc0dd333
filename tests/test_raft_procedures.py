"""Every sensible raft composes to steps in which nothing dangerous can come too early, too late or not at all."""

import functools
import itertools
from pathlib import Path

import pytest

from generator.facts import facts_of, raft_facts_of
from generator.inventory import list_items
from generator.loading import load
from generator.procedures import STANDINGS, compose_procedures, holds, in_sequence, shelf
from generator.vessel.raft import HOLDS
from generator.wording import catalogue

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
STOWAGES = ("deck cradle", "coachroof cradle", "pushpit bracket", "transom recess", "cockpit locker")
# Every order of up to two holds, and every three of them in two orders.
HELD_BY = tuple(held for size in range(3) for held in itertools.permutations(HOLDS, size)) + tuple(
    held for three in itertools.combinations(HOLDS, 3) for held in (three, three[::-1]))
KINDS = ("abandon-ship", "raft-launch", "raft-automatic", "boarding", "righting", "in-the-raft", "raft-routine", "being-found")
PAINTER = ("raft-launch.painter-joint", "raft-launch.painter-also", "raft-launch.painter-check", "raft-launch.painter-tie")
MOVES = (".lift", ".tip")
OVERBOARD = (".over", ".slide", ".drop")
HOLD_STEPS = {"HRU": "hru.cut", "Senhouse slip": "senhouse-slip.open", "strap": "strap.", "pin": "pin.pull", "lashing": "lashing.cut"}
THREATS = ("fire", "wreckage", "sinking boat", "snagged painter")


@functools.cache
def _boat(name):
    vessel, _ = load(VESSELS / name)
    return vessel, list_items(vessel)


def _compose(name, **values):
    """The procedures of a boat by kind, with values of her first raft overridden; `fast_to` is the painter's."""
    vessel, items = _boat(name)
    raft = vessel.rafts[0]
    before, painter = dict(raft.__dict__), dict(raft.painter.__dict__)
    fast_to = values.pop("fast_to", None)
    raft.__dict__.update(values)
    if fast_to:
        raft.painter.__dict__["fast_to"] = fast_to
    try:
        composed, gaps = compose_procedures(vessel, items, catalogue())
        facts = facts_of(vessel, items) | raft_facts_of(raft)
    finally:
        raft.__dict__.clear()
        raft.__dict__.update(before)
        raft.painter.__dict__.clear()
        raft.painter.__dict__.update(painter)
    assert gaps == []
    by_kind = {}
    for one in composed:
        by_kind.setdefault(one.kind, one)
    return by_kind, facts


def _combinations():
    boats = (*(("saltmeadow", stowage) for stowage in STOWAGES), ("ombrelune", "transom recess"))
    for (name, stowage), held, container, fast_to, lift in itertools.product(
            boats, HELD_BY, ("canister", "valise"), ("weak link", "strong point", "nothing"), (True, False)):
        if fast_to == "weak link" and "HRU" not in held:
            continue
        yield {"name": name, "stowage": stowage, "held_by": held, "container": container, "fast_to": fast_to,
               "lift_needed": lift}


@pytest.fixture(scope="module")
def launches():
    """(combination, procedures by kind, facts) of each combination."""
    return [(combination, *_compose(**combination)) for combination in _combinations()]


def _ids(procedure):
    return [step.id for step in procedure.steps]


def _at(ids, ends):
    return [number for number, name in enumerate(ids) if name.endswith(ends)]


def test_there_are_hundreds_of_combinations(launches):
    assert len(launches) > 2000
    assert sum(facts["float-free"] for _, _, facts in launches) > 500


def test_the_lifejacket_comes_first(launches):
    for combination, procedures, _ in launches:
        assert procedures["raft-launch"].steps[0].id == "raft-launch.lifejackets", combination


def test_the_painter_is_dealt_with_once_and_as_rigged(launches):
    for combination, procedures, facts in launches:
        found = [name for name in _ids(procedures["raft-launch"]) if name in PAINTER]
        if facts["float-free"]:
            assert found == ["raft-launch.painter-joint", "raft-launch.painter-also"], combination
        elif combination["fast_to"] == "strong point":
            assert found == ["raft-launch.painter-check"], combination
        else:
            assert found == ["raft-launch.painter-tie"], combination


def test_the_painter_is_fast_before_anything_is_unfastened_moved_or_thrown(launches):
    for combination, procedures, _ in launches:
        ids = _ids(procedures["raft-launch"])
        last_painter = max(ids.index(name) for name in ids if name in PAINTER)
        later = [number for number, name in enumerate(ids) if name.startswith(tuple(HOLD_STEPS.values()))]
        assert last_painter < min(later + _at(ids, MOVES) + _at(ids, OVERBOARD)), combination


def test_each_hold_has_its_step_in_the_order_of_the_file(launches):
    for combination, procedures, facts in launches:
        ids, held = _ids(procedures["raft-launch"]), list(combination["held_by"])
        wanted = [hold for hold in held if hold != "HRU" or facts["HRU only"]]
        if "Senhouse slip" in wanted and "strap" in wanted:
            wanted.remove("strap")  # the slip frees it, in whatever order they stand
            if facts["lift"] or combination["stowage"] != "pushpit bracket":
                assert ids.index("senhouse-slip.open") < ids.index("strap.clear"), combination
            else:
                assert "strap.clear" not in ids, combination  # the raft falls as the slip opens
        elif "strap" in wanted:
            assert "strap.undo" in ids, combination
        numbers = [next(n for n, name in enumerate(ids) if name.startswith(HOLD_STEPS[hold])) for hold in wanted]
        assert numbers == sorted(numbers), combination


def test_an_hru_is_opened_by_hand_only_where_nothing_else_can_be(launches):
    for combination, procedures, facts in launches:
        ids = _ids(procedures["raft-launch"])
        assert ("hru.cut" in ids) == facts["HRU only"], combination
        told = "hru.leave" in ids or "raft-launch.painter-joint" in ids
        assert told or facts["HRU only"] or not facts["HRU"], combination


def test_unfastened_before_moved_and_moved_before_overboard(launches):
    for combination, procedures, _ in launches:
        ids = _ids(procedures["raft-launch"])
        over = _at(ids, OVERBOARD)
        assert len(over) == 1, combination
        moves = _at(ids, MOVES)
        assert len(moves) <= 1, combination
        freed = [number for number, name in enumerate(ids) if name.startswith(tuple(HOLD_STEPS.values()))]
        assert [*freed, *moves, *over] == sorted([*freed, *moves, *over]), combination


def test_the_side_is_chosen_once_before_the_raft_goes_and_fire_overrides_it(launches):
    for combination, procedures, _ in launches:
        steps = procedures["raft-launch"].steps
        ids = _ids(procedures["raft-launch"])
        chosen = [step for step in steps if step.id in ("raft-launch.side", "raft-launch.water")]
        assert len(chosen) == 1, combination
        assert "fire" in chosen[0].unless, combination
        assert "smoke" in chosen[0].unless, combination
        assert "night" in chosen[0].caution.lower(), combination
        assert chosen[0].number <= _at(ids, OVERBOARD)[0], combination


def test_the_painter_is_pulled_right_out_after_the_throw_and_then_tugged(launches):
    for combination, procedures, _ in launches:
        ids = _ids(procedures["raft-launch"])
        pull = ids.index("raft-launch.pull")
        assert _at(ids, OVERBOARD)[0] < pull, combination
        assert ids[pull + 1:pull + 4] == ["raft-launch.tug", "raft-launch.not-inflated", "raft-launch.upside-down"], combination
        assert str(_boat(combination["name"])[0].rafts[0].painter.length) in procedures["raft-launch"].steps[pull].text


def test_the_call_runs_beside_the_launch_and_nothing_waits_for_it(launches):
    for combination, procedures, _ in launches:
        ids = _ids(procedures["raft-launch"])
        assert ids.index("raft-launch.call") < _at(ids, OVERBOARD)[0], combination
    for one in shelf():
        for step in one.steps:
            waits = [name for name in step.after if name.endswith(".call")]
            assert one.id not in KINDS or not waits, step.id


def test_tied_past_the_weak_link_the_painter_must_be_cut_by_hand(launches):
    for combination, procedures, facts in launches:
        steps = {step.id: step for step in procedures["raft-launch"].steps}
        ids = _ids(procedures["boarding"])
        assert ("boarding.cut-by-hand" in ids) == facts["float-free"], combination
        assert ("boarding.cut" in ids) != facts["float-free"], combination
        if facts["float-free"]:
            also = steps["raft-launch.painter-also"]
            assert "by-passes the weak link" in also.caution, combination
            assert "cut by hand" in also.caution, combination
            assert "do not launch by hand" in also.unless, combination
            assert also.standing == "from memory, unverified", combination
            assert "leave the joint alone" in steps["raft-launch.painter-joint"].text, combination


def test_a_launch_is_short_enough_to_follow(launches):
    for combination, procedures, _ in launches:
        limit = 14 if len(combination["held_by"]) < 3 else 16
        if combination["stowage"] == "transom recess" and combination["name"] == "ombrelune":
            limit += 2  # the two steps for a catamaran upside down
        assert len(procedures["raft-launch"].steps) <= limit, (combination, len(procedures["raft-launch"].steps))


def test_only_a_multihulls_recess_is_launched_upside_down(launches):
    for combination, procedures, facts in launches:
        inverted = [name for name in _ids(procedures["raft-launch"]) if "upside-down-" in name]
        assert bool(inverted) == (facts["multihull"] and combination["stowage"] == "transom recess"), combination


def test_nobody_waits_for_a_figure_and_an_unrigged_raft_is_never_waited_for(launches):
    for combination, procedures, facts in launches:
        automatic = procedures["raft-automatic"]
        printed = "".join((step.text + step.unless + step.caution + step.why) for step in automatic.steps) + automatic.intro
        assert not any(sign.isdigit() for sign in printed), combination
        first = automatic.steps[0].id
        assert first == ("raft-automatic.by-hand" if facts["float-free"] else "raft-automatic.by-hand-only"), combination
        assert ("raft-automatic.packed" in _ids(automatic)) == facts["float-free"], combination


@pytest.mark.parametrize("stowage", STOWAGES)
def test_alone_aboard_nobody_is_told_to_lift_with_another(stowage):
    one = _boat("saltmeadow")[0].vessel
    persons = one.__dict__["persons"]
    one.__dict__["persons"] = 1
    try:
        procedures, _ = _compose("saltmeadow", stowage=stowage, lift_needed=True)
    finally:
        one.__dict__["persons"] = persons
    ids = _ids(procedures["raft-launch"])
    assert _at(ids, (".tip",)), ids
    assert not _at(ids, (".lift", ".call")), ids
    assert not any("each end" in step.text or "others" in step.text for step in procedures["raft-launch"].steps)


@pytest.mark.parametrize("boarding", ["ramp", "ladder", "ramp and ladder", "none"])
@pytest.mark.parametrize("righting", ["strap", "ladder", "none"])
@pytest.mark.parametrize(("drogue", "canopy", "marked"),
                         [("by hand", False, "marked"), ("streams itself", True, "not marked"), (None, None, None)])
def test_boarding_righting_and_first_actions_stand_in_order(boarding, righting, drogue, canopy, marked):
    procedures, facts = _compose("saltmeadow", boarding=boarding, righting=righting, drogue=drogue, canopy=canopy,
                                 cylinder_side=marked)

    def in_order(kind, *names):
        ids = _ids(procedures[kind])
        numbers = [_at(ids, name if isinstance(name, tuple) else (name,)) for name in names]
        assert [len(found) for found in numbers] == [1] * len(names), (kind, names, ids)
        assert numbers == sorted(numbers), (kind, ids)

    in_order("boarding", ".alongside", ".knife", ".first", ".step-in", ".weak", (".water-ramp", ".water-ladder", ".water-pull"),
             ".help", ".last", ".count", ".lie-off", (".cut", ".cut-by-hand"))
    in_order("righting", ".out", ".one", (".cylinder", ".cylinder-marked"), ".downwind", ".climb", (".gear", ".no-gear"), ".lean",
             ".under", ".painter")
    in_order("in-the-raft", ".count", ".cut", ".clear", (".drogue", ".drogue-check"), (".close", ".shelter"), ".leaks", ".bail",
             ".tablets", ".lookout")
    in_order("abandon-ship", ".stay", ".alarm", ".dress", ".lifejackets", ".count", ".call", ".grab-bag", ".launch", ".order",
             ".last-look")
    assert ("righting.gear" in _ids(procedures["righting"])) == facts["righting gear"]
    assert procedures["boarding"].steps[-1].id.startswith("boarding.cut")


def test_whoever_is_told_to_cut_is_told_when_to_cut_at_once():
    procedures, _ = _compose("saltmeadow")
    told = [step for kind in ("boarding", "in-the-raft") for step in procedures[kind].steps
            if "cut the painter" in step.text or "stay tied" in step.text]
    assert len(told) == 3
    for step in told:
        assert all(threat in step.unless for threat in THREATS), step.id
        assert "cut at once" in step.unless, step.id
        assert "counted" in step.text or "stay tied" in step.text, step.id


def test_a_boat_without_a_raft_is_told_nothing_of_one():
    vessel, items = _boat("saltmeadow")
    before = vessel.__dict__["rafts"]
    vessel.__dict__["rafts"] = []
    try:
        composed, gaps = compose_procedures(vessel, items, catalogue())
    finally:
        vessel.__dict__["rafts"] = before
    assert gaps == []
    assert [one.kind for one in composed if one.kind in KINDS] == ["abandon-ship"]
    assert "abandon-ship.together" in _ids(next(one for one in composed if one.kind == "abandon-ship"))


def test_every_step_is_short_whole_and_has_its_source(launches):
    for name in ("saltmeadow", "zilte-wind", "nordgyllen", "ombrelune"):
        launches = [*launches, ({"name": name}, _compose(name)[0], {})]
    for combination, procedures, _ in launches:
        for kind in KINDS:
            one = procedures[kind]
            assert one.title, combination
            for step in one.steps:
                said = (step.text, step.unless, step.caution, step.why)
                assert len(step.text.split()) <= 20, (combination, step.id, step.text)
                assert step.text[0].isupper(), step.id
                assert step.text.endswith("."), step.id
                assert not any("{" in text or "}" in text or "not known" in text for text in said), (combination, step.id)
                assert not step.unless[:1].isupper(), step.id  # it is read on after the word Unless
                assert step.source, step.id
                assert step.standing in STANDINGS, step.id
                assert len(procedures[kind].steps) <= 18, (combination, kind)


def test_every_fact_named_exists_and_every_step_has_its_words():
    vessel, items = _boat("saltmeadow")
    seen = set()
    for one in shelf():
        if one.id not in KINDS:
            continue
        facts = facts_of(vessel, items) | (raft_facts_of(vessel.rafts[0]) if one.per == "raft" else {})
        holds(one.when, one.when_any, facts, one.id)
        known = {step.id for step in one.steps}
        for step in one.steps:
            holds(step.when, step.when_any, facts, step.id)
            assert step.id not in seen, step.id
            seen.add(step.id)
            assert step.id.startswith(step.words_in + "."), step.id
            assert catalogue().procedures[step.words_in]["steps"][step.id]["do"], step.id
            assert set(step.after) <= known, (step.id, set(step.after) - known)
    for stem in {name.partition(".")[0] for name in seen}:
        assert set(catalogue().procedures[stem]["steps"]) <= seen, stem


def test_holds_come_off_in_the_order_of_the_file():
    launch = next(one for one in shelf() if one.id == "raft-launch")
    freed = [step for step in launch.steps if step.id in ("pin.pull", "strap.undo", "lashing.cut")]
    for order in itertools.permutations(("pin", "strap", "lashing")):
        assert [step.hold for step in in_sequence(freed, order)] == list(order)
