"""What must hold of every raft's rig as it is said: the loop past the weak link, what is not known, the lid, the hands there are."""

from raft_invariants import invariant, said


@invariant(raft_automatic__nothing_more=("loop of the painter", "untie that loop"))
def the_loop_draws_a_metre_and_is_undone_if_nobody_launches(case):
    """Slack for the loop is a metre drawn out, no more; broken off, the loop is undone, on each card that leaves the raft. No exception but that."""
    loop = case.step("raft-launch.painter-also") or case.step("raft-launch.painter-untold")
    assert (loop is not None) == (case.facts["float-free"] or case.facts["release untold"])
    if loop is not None:
        assert "Draw out a metre, no more" in loop.caution
        assert "untie" in loop.caution
        left = case.step("raft-trouble.give-up") or case.step("raft-trouble.give-up-untold")
        assert "untie" in left.text
    assert (case.step("raft-automatic.nothing-more") is not None) == case.facts["float-free"]


@invariant()
def what_is_not_known_is_not_said(case):
    """Where nobody knows whether the raft releases itself, no step says that it does, or that it does not. No exception."""
    untold = case.facts["release untold"]
    first = case.procedures["raft-automatic"].steps[0]
    assert untold == (first.id == "raft-automatic.by-hand-untold")
    if untold:
        told = " ".join(said(step) for one in case.procedures.values() for step in one.steps)
        assert "not rigged to release itself" not in told
        assert "will not part by itself" not in told
    if case.facts["what holds it untold"] and not case.facts["below"]:
        assert "whatever holds it" in case.step("raft-launch.free-untold").text


@invariant()
def a_lid_is_opened_where_there_is_one(case):
    """A lid that is told is opened, one that is not there is in no step; of an untold one it is asked. No exception."""
    cover = case.step("transom-recess.cover") or case.step("under-cockpit-slot.cover")
    if case.kept.name in ("transom recess", "under-cockpit slot"):
        assert (cover is None) == case.facts["without a lid"]
        assert cover is None or cover.text.startswith("If ") != case.facts["lid"]


@invariant()
def nobody_lifts_with_somebody_who_is_not_there(case):
    """Two ends are lifted by two; whoever is left alone lifts one end first. No exception."""
    if case.facts["one left"] or case.facts["one able in it"]:
        assert "two inside" not in said(case.step("boarding.help") or case.step("boarding.lie-off"))
    if case.facts["one left"]:
        assert not case.at(".lift", ".up")
        assert not [
            step
            for step in case.steps("raft-launch")
            if "each end" in said(step) or "both ends" in said(step)
        ]


@invariant()
def by_passed_weak_link_is_cut_by_hand(case):
    """Tied past the weak link, the launch says so, and boarding says to cut by hand. No exception."""
    assert (case.step("boarding.cut-by-hand") is not None) == case.facts["float-free"]
    assert (case.step("boarding.cut") is not None) != case.facts["float-free"]
    if case.facts["float-free"]:
        assert "by-passes the weak link" in case.step("raft-launch.painter-also").caution
        assert "cut by hand" in case.step("raft-launch.painter-also").caution
        assert "will not part by itself" in case.step("boarding.cut-by-hand").caution
