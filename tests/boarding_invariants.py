"""What must hold for every raft from boarding to being found; the invariants of the launch stand in raft_invariants.py."""

from raft_invariants import invariant

THREATS = ("fire", "wreckage", "sinking boat", "snagged painter")
CUTS = ("boarding.cut", "boarding.cut-by-hand", "in-the-raft.cut")


@invariant()
def upright_and_close_before_anybody_boards(case):
    """The raft is upright and held close before the first person boards. No exception."""
    ids = case.ids("boarding")
    assert ids[0] == "boarding.upright"
    assert case.at(".alongside", ".at-davit", kind="boarding") == [1]


@invariant()
def knife_in_hand_before_the_first_boards(case):
    """The knife is in the hand from boarding on, so that cutting at once is possible. No exception."""
    ids = case.ids("boarding")
    boards = case.at(".first", ".step-in", ".step-in-alone", kind="boarding")
    assert ids.index("boarding.knife") < min(boards)


@invariant()
def strongest_first_weak_between_commander_last(case):
    """The strongest boards first, children and injured next, whoever commands last, then the count. No exception."""
    ids = case.ids("boarding")
    order = [
        ids.index(name)
        for name in (
            "boarding.crew",
            "boarding.step-in",
            "boarding.step-in-alone",
            "boarding.first",
            "boarding.weak",
            "boarding.helper",
            "boarding.help",
            "boarding.last",
            "boarding.last-here",
            "boarding.count",
            "boarding.count-here",
        )
        if name in ids
    ]
    assert order == sorted(order)
    assert ("boarding.first" in ids) == case.facts["several persons"] == ("boarding.weak" in ids)
    assert ("boarding.crew" in ids) == case.facts["several rafts"] == ("boarding.count-here" in ids)
    assert len(case.at(".count", ".count-here", kind="boarding")) == 1


@invariant()
def a_helper_in_the_water_is_tied(case):
    """Nobody goes in to help untied, without lifejacket or alone. No exception."""
    helper = case.step("boarding.helper")
    assert (helper is not None) == case.facts["several persons"]
    assert helper is None or ("tie a line" in helper.text and "Lifejacket" in helper.caution)


@invariant(
    boarding__cut=(*THREATS, "cut at once"),
    boarding__cut_by_hand=(*THREATS, "cut at once"),
    in_the_raft__cut=(*THREATS, "cut at once"),
)
def nobody_cuts_before_the_count(case):
    """The painter is cut once everybody is counted. Exceptions: fire, wreckage, the sinking boat or a snagged painter threatens the raft."""
    ids = case.ids("boarding")
    assert (
        case.at(".count", ".count-here", kind="boarding")[0]
        < case.at("boarding.cut", "boarding.cut-by-hand", kind="boarding")[0]
    )
    for name in CUTS:
        step = case.step(name)
        assert step is None or "everybody is counted" in step.text
    ids = case.ids("in-the-raft")
    assert ids.index("in-the-raft.count") < ids.index("in-the-raft.cut")


@invariant(boarding__lie_off=(*THREATS, "cut at once"))
def stay_tied_while_the_boat_floats(case):
    """The raft stays tied to the floating boat and lies off. Exceptions: fire, wreckage, the sinking boat, a snagged painter."""
    ids = case.ids("boarding")
    assert ids[-2] == "boarding.lie-off"
    assert "stay tied" in case.step("boarding.lie-off").text


@invariant(righting__painter=("boat has gone",))
def one_rights_the_raft_from_the_lee(case):
    """Everybody out, one rights it: cylinder side, lee, climb, gear, lean, clear. Exception: no painter to check once the boat has gone."""
    ids = case.ids("righting")
    names = (
        "righting.out",
        "righting.one",
        "righting.cylinder",
        "righting.cylinder-marked",
        "righting.downwind",
        "righting.climb",
        "righting.gear",
        "righting.no-gear",
        "righting.lean",
        "righting.under",
        "righting.painter",
    )
    order = [ids.index(name) for name in names if name in ids]
    assert (order, len(order)) == (sorted(order), 9 if case.facts["several persons"] else 7)
    assert ("righting.gear" in ids) == case.facts["righting gear"]
    assert ("righting.cylinder-marked" in ids) == case.facts["cylinder side marked"]


@invariant()
def cut_stream_close_maintain(case):
    """First actions in order: count, cut, clear, drogue, canopy, leaks, bail, tablets, look-out. No exception."""
    ids = case.ids("in-the-raft")
    names = (
        ("count",),
        ("cut",),
        ("clear",),
        ("drogue", "drogue-check"),
        ("close", "close-or-shelter", "shelter"),
        ("leaks",),
        ("bail",),
        ("tablets",),
        ("lookout",),
    )
    order = [
        [ids.index(f"in-the-raft.{end}") for end in ends if f"in-the-raft.{end}" in ids] for ends in names
    ]
    assert all(len(found) == 1 for found in order)
    assert order == sorted(order)


@invariant(raft_routine__first_day=("child",))
def water_is_counted_kept_back_and_never_sea_water(case):
    """Water is counted, kept for the injured the first day, shared after. Exceptions: plenty, rain, a child."""
    ids = case.ids("raft-routine")
    order = [
        ids.index(name)
        for name in (
            "raft-routine.stock",
            "raft-routine.stock-brought",
            "raft-routine.first-day",
            "raft-routine.water",
            "raft-routine.salt",
        )
        if name in ids
    ]
    assert (order, len(order)) == (sorted(order), 4)


@invariant()
def no_rockets_under_a_helicopter_and_the_wire_free(case):
    """Parachute flares stop before the helicopter is near; its wire touches the sea first and is tied to nothing. No exception."""
    ids = case.ids("being-found")
    assert (
        ids.index("being-found.rocket")
        < ids.index("being-found.helicopter-rockets")
        < ids.index("being-found.helicopter-wire")
    )
    assert "tie it to nothing" in case.step("being-found.helicopter-wire").text


@invariant()
def whoever_is_found_or_saves_the_boat_reports_it(case):
    """The alert is stood down by report, and the beacon stays on until told. No exception."""
    assert case.ids("being-found")[-1] == "being-found.safe"
    assert "Leave the beacon on" in case.step("being-found.safe").caution
    radios = any(case.facts[each] for each in ("fixed vhf", "handheld vhf", "mf/hf", "satellite telephone"))
    assert (case.step("boat-recovered.report") is not None) == radios
    ids = case.ids("boat-recovered")
    assert ids[0] == "boat-recovered.look"
