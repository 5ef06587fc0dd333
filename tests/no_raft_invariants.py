"""What must hold where a boat without a liferaft is left: a way of its own, with its exceptions. They join the others in `INVARIANTS`."""

import re
from dataclasses import replace

from emergency_invariants import BELOW, invariant, last, only, saying

LEFT = ("abandon-ship", "ready-to-leave", "dinghy-launch", "into-the-dinghy", "in-the-dinghy", "into-the-water", "adrift")  # fmt: skip
"""The cards of leaving a boat that has no raft, in their order."""
OF_A_RAFT = re.compile(
    r"\b(life ?)?rafts?\b|\bpainter\b|\bcanister\b|\bvalise\b|\bHRU\b|\bweak link\b", re.IGNORECASE
)
OF_OTHERS = re.compile(
    r"\b(everybody|each other|others|one by one|one of you|who leads|backs|children|the weak|call every name)\b",
    re.IGNORECASE,
)


def without(spoil):
    """Spoils a case of a boat without a raft alone."""
    return lambda case: None if case.facts["raft"] else spoil(case)


def left(case):
    """Whether a case is a card on which a boat without a raft is left."""
    return not case.facts["raft"] and case.one.id in LEFT


def without_step(*beginnings):
    """Takes the steps of such names out."""

    def spoilt(case):
        rest = tuple(line for number, line in enumerate(case.lines) if number not in case.at(*beginnings))
        return replace(case, lines=rest) if len(rest) < len(case.lines) else None

    return spoilt


@invariant(without(saying("caution", "Go to the liferaft.")))
def whoever_has_no_raft_reads_of_none(case):
    """No title, condition, line, end or step of any emergency names a raft or what belongs to one, where there is none. No exception."""
    if not case.facts["raft"]:
        for name, text in (("title", case.title), *case.told):
            assert not OF_A_RAFT.search(text), (name, text)


@invariant(without(only(*LEFT, spoil=saying("do", "Go below and look for people."))))
def nobody_leaves_by_going_below(case):
    """Without a raft nobody who is to leave is sent below; what is fetched from there is left where the way is barred. No exception."""
    if left(case):
        for line in case.lines:
            assert not re.search(BELOW, line.do, re.IGNORECASE), line.id
            if line.do.startswith("Bring the grab bag on deck"):
                assert "bars the way" in line.unless, line.id


@invariant(without(only("into-the-water", "adrift", spoil=without_step("children"))))
def every_child_is_held(case):
    """Children are tied or held before anybody is in the water, each by name, and carried first there. Exception: no child is aboard."""
    if left(case) and case.facts["children aboard"]:
        if case.one.id == "into-the-water":
            (tied,) = case.at("children")
            assert tied < case.at("down")[0]
            assert "{held}" in case.lines[tied].caution
            assert "hold it" in case.lines[tied].unless
        if case.one.id == "adrift":
            assert "children" in case.lines[case.at("small")[0]].do
        if case.one.id == "into-the-dinghy":
            assert any(re.search("children|the weak", line.caution, re.IGNORECASE) for line in case.lines)


@invariant(without(only("into-the-water", spoil=without_step("held", "children"))))
def whoever_needs_help_is_held(case):
    """So is whoever else needs help. Exception: alone, or with children, beside whom they are named."""
    if left(case) and case.one.id == "into-the-water" and case.facts["needs help"] and case.persons > 1:
        assert case.at("held", "children")


@invariant(without(only("adrift", "full-of-water", spoil=without_step("stay"))))
def nobody_swims_for_the_shore(case):
    """Whoever floats, or sits on the hull, is told not to swim for the shore. Exception: it is near and sure."""
    if case.one.id in ("adrift", "full-of-water"):
        (stay,) = case.at("stay")
        assert "do not swim for the shore" in case.lines[stay].do
        assert "near" in case.lines[stay].unless


@invariant(without(only("into-the-water", spoil=without_step("hull"))))
def the_hull_is_held_on_to(case):
    """As long as anything of the boat floats people stay beside it. Exception: it burns, or goes down."""
    if case.one.id == "into-the-water":
        assert case.ids[-1] == "into-the-water.hull"
        assert "burns or goes down" in case.lines[-1].unless


@invariant(without(only("dinghy-launch", spoil=last("line", "alongside"))))
def the_dinghy_is_tied_before_it_goes_over(case):
    """Its line is fast first. Exception: it is towed, and so tied on already."""
    if case.one.id == "dinghy-launch":
        assert case.at("line", "alongside") == [0]
        assert case.facts["dinghy towed"] or "line" in f"{case.lines[0].do} {case.lines[0].caution}"


@invariant(without(only("into-the-dinghy", spoil=without_step("load"))))
def the_dinghy_is_not_overloaded(case):
    """How many get in is said, and what the others do. Exception: whoever is alone."""
    if case.one.id == "into-the-dinghy" and case.persons > 1:
        (load,) = case.at("load")
        assert case.at("board")[0] < load
        said = f"{case.lines[load].do} {case.lines[load].caution}"
        assert ("{dinghy-persons}" in said) == case.facts["dinghy told for how many"]
        assert "from the water" in said or not case.facts["dinghy too small"]


@invariant(only("ready-to-leave", spoil=without_step("call")))
def somebody_calls_before_the_boat_is_left(case):
    """There is one step of the call for any boat, by radio or by signals. No exception."""
    if case.one.id == "ready-to-leave":
        (call,) = case.at("call")
        assert ("signal" in case.lines[call].do) == (not case.facts["radio aboard"])


@invariant(
    without(only("abandon-ship", "ready-to-leave", spoil=lambda case: replace(case, leaves=case.leaves[:1])))
)
def each_card_of_leaving_leads_to_the_next(case):
    """From making ready to the water, by the dinghy where there is one. No exception."""
    if left(case):
        leads = {to for _, to in case.leaves if to in case.there}
        dinghy = {"into-the-dinghy"} if case.facts["dinghy"] else set()
        needed = {
            "abandon-ship": {"ready-to-leave", "into-the-water"},
            "ready-to-leave": {"into-the-water", *(["dinghy-launch"] if dinghy else [])},
            "dinghy-launch": {"into-the-water", *dinghy},
            "into-the-dinghy": {"in-the-dinghy", "into-the-water"},
            "in-the-dinghy": {"adrift"},
            "into-the-water": {"adrift", *dinghy},
        }
        assert needed.get(case.one.id, set()) <= leads, (case.one.id, leads)


@invariant(without(only("into-the-water", "adrift", spoil=saying("do", "Hold on to each other."))))
def whoever_is_alone_reads_of_nobody_else(case):
    """Alone, nobody is told of others in the water or of a count. No exception: what others do for them, they say themselves."""
    if left(case) and case.persons == 1:
        for name, text in (
            ("intro", case.intro),
            ("end", case.end),
            *((line.id, line.said) for line in case.lines),
        ):
            assert not OF_OTHERS.search(text), (name, text)
