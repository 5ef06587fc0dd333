"""What must hold for every raft from boarding to being found; the invariants of the launch stand in raft_invariants.py."""

import re

from raft_invariants import invariant

THREATS = ("fire", "wreckage", "sinking boat", "snagged painter")
CUTS = ("boarding.cut", "boarding.cut-by-hand", "in-the-raft.cut")


@invariant()
def upright_and_close_before_anybody_boards(case):
    """The raft is upright and held close before the first person boards. No exception."""
    assert case.at(".alongside", ".at-davit", kind="boarding") == [0]
    leaves = {leave.kind: leave.words for leave in case.procedures["raft-inflate"].leaves}
    assert list(leaves) == ["raft-awry", "righting", "boarding"], "upside down comes before boarding"


@invariant()
def knife_in_hand_before_the_first_boards(case):
    """The knife is in the hand from boarding on, so that cutting at once is possible. No exception."""
    ids = case.ids("boarding")
    boards = case.at(".first", ".bag-alone", ".step-in", ".step-in-alone", kind="boarding")
    assert ids.index("boarding.knife") < min(boards)


ORDER = (
    "unclip",
    "crew",
    "bag-alone",
    "beacon-alone",
    "first",
    "bag",
    "beacon",
    "weak",
    "step-in",
    "last",
    "last-here",
    "helper",
    "help",
    "count",
    "count-here",
    "lie-off",
)


@invariant()
def strongest_then_bag_then_weak_then_the_rest_and_the_holder_last(case):
    """The strongest, the next with the bag, the weak handed across, the rest, whoever holds the painter last; then the count. No exception."""
    ids = case.ids("boarding")
    order = [ids.index(f"boarding.{name}") for name in ORDER if f"boarding.{name}" in ids]
    assert order == sorted(order)
    several, many = case.facts["several persons"], case.many
    assert ("boarding.first" in ids) == several == ("boarding.step-in-alone" not in ids)
    many = many and not case.facts["one able in it"]
    parts = [f"boarding.{name}" in ids for name in ("weak", "step-in")]
    assert parts == [many, many]
    assert len(case.at(".last", ".last-here", kind="boarding")) == many
    assert ("boarding.crew" in ids) == (case.facts["several rafts"] and several)
    assert len(case.at(".count", ".count-here", kind="boarding")) == several
    assert not case.facts["has tethers"] or ids.index("boarding.unclip") < min(
        case.at(".first", ".step-in-alone", ".bag-alone", kind="boarding")
    )


OF_MANY = re.compile(r"\b(next|rest|others|children|strongest|everyone)\b", re.IGNORECASE)


@invariant()
def few_read_of_nobody_else(case):
    """One alone or two read of no next, no rest, no strongest; children and helped are named where there are any. No exception."""
    for step in (*case.on_face("boarding"), *case.on_face("raft-away")):
        told = f"{step.text} {step.unless} {step.caution}"
        if case.facts["two persons"] or not case.facts["several persons"]:
            assert not OF_MANY.search(told), told
        assert case.facts["children aboard"] or not re.search(r"\bchild", told), told


@invariant()
def one_decision_has_one_wording(case):
    """When the painter is cut is said in the same words wherever it is said. No exception."""
    cut = case.step("boarding.cut-by-hand") or case.step("boarding.cut")
    again = case.step("in-the-raft.cut")
    assert (cut.text, cut.unless, cut.caution) == (again.text, again.unless, again.caution)


@invariant()
def the_stern_is_kept_clear_of(case):
    """Where people step over at the stern they are told that it slams. No exception."""
    step = case.step("boarding.stern")
    assert (step is not None) == case.facts["boarded at the stern"]
    assert step is None or "slams" in step.caution


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
    several = case.facts["several persons"]
    counts = case.at(".count", ".count-here", kind="boarding")
    assert bool(counts) == several
    assert not several or counts[0] < case.at("boarding.cut", "boarding.cut-by-hand", kind="boarding")[0]
    for name in CUTS:
        step = case.step(name)
        assert step is None or ("Everybody is counted first" in step.caution) == several
    ids = case.ids("in-the-raft")
    assert ("in-the-raft.count" in ids) == several
    assert not several or ids.index("in-the-raft.count") < ids.index("in-the-raft.cut")


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
    assert ids[0] == "righting.hold"
    names = (
        "righting.out",
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
    assert (order, len(order)) == (sorted(order), 8 if case.facts["several persons"] else 7)
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
    assert [len(found) for found in order] == [int(case.facts["several persons"]), *[1] * (len(names) - 1)]
    order = [found for found in order if found]
    assert order == sorted(order)


@invariant(raft_routine__first_day=("plenty",))
def water_is_counted_kept_back_and_never_sea_water(case):
    """Water is counted, kept for the injured the first day, shared after. Exceptions: plenty, rain, a child."""
    unless = case.step("raft-routine.first-day").unless
    assert ("child" in unless) == (case.facts["children aboard"] and case.facts["several persons"])
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
    assert ("Leave the beacon on" in case.step("being-found.safe").caution) == case.facts["beacon"]
    radios = any(case.facts[each] for each in ("fixed vhf", "handheld vhf", "mf/hf", "satellite telephone"))
    assert (case.step("boat-recovered.report") is not None) == radios
    ids = case.ids("boat-recovered")
    assert ids[0] == "boat-recovered.look"
