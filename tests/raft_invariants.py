"""What must hold for every raft, whatever its stowage, holds and painter: named, reasoned, with the exceptions that print beside the step.

An invariant is a function of a case that asserts. `beside` are its exceptions: for a step, the words that its "unless" (or, where
marked so, its caution) must hold whenever the step is printed.
"""

from generator.shelves.procedures import shelf
from generator.shelves.stowages import holds

INVARIANTS = {}
EXCEPTIONS = []

PAINTER = (
    "raft-launch.painter-joint",
    "raft-launch.painter-joint-chocks",
    "raft-launch.painter-also",
    "raft-launch.painter-check",
    "raft-launch.painter-tie",
    "raft-launch.painter-untold",
)
TAKES_OFF = {step.id: step.hold for one in shelf() for step in one.steps if step.hold}
MOVES = (".lift", ".tip")
OVERBOARD = (".over", ".slide", ".drop", ".out")


def invariant(**beside):
    """Registers an invariant; keywords are step ids (`__` for a dot, `_` for a hyphen) with the words of their exceptions."""

    def register(function):
        INVARIANTS[function.__name__] = function
        for name, words in beside.items():
            EXCEPTIONS.append((function.__name__, name.replace("__", ".").replace("_", "-"), words))
        return function

    return register


def freed(case):
    """Where the steps stand that take something off the raft."""
    return [number for number, name in enumerate(case.ids()) if name in TAKES_OFF]


LEAVING = ("abandon-ship", "ready-to-leave", "leaving")
"""The cards of leaving for a raft, one after the other."""


def left_by(case):
    """The ids of all steps of leaving, in order."""
    assert [kind for kind in case.procedures if kind in LEAVING] == list(LEAVING)
    return [name for kind in LEAVING for name in case.ids(kind)]


def lifejackets(ids):
    """Where the step of the lifejackets stands among the steps of leaving, in whichever wording."""
    (found,) = [number for number, name in enumerate(ids) if name.startswith("abandon-ship.lifejackets")]
    return found


def said(step):
    """All that a step prints."""
    return f"{step.text} {step.unless} {step.caution} {step.why}"


@invariant()
def lifejackets_before_deck(case):
    """Lifejacket on before anybody goes to the raft. No exception: it takes seconds."""
    assert case.ids()[0] == "raft-launch.lifejackets"


@invariant(abandon_ship__dress=("fire", "water", "no time"), abandon_ship__suit=("fire", "water", "no time"))
def dress_then_lifejacket_then_count(case):
    """Warm clothes, lifejacket, count. Exception: fire or water leaves no time to dress; then the lifejacket alone."""
    ids = left_by(case)
    dressed = [ids.index(name) for name in ("abandon-ship.dress", "abandon-ship.suit") if name in ids]
    assert len(dressed) == 1
    jackets = lifejackets(ids)
    assert dressed[0] < jackets
    assert ("abandon-ship.count" in ids) == case.facts["several persons"]
    assert "abandon-ship.count" not in ids or jackets < ids.index("abandon-ship.count")
    later = [
        number
        for number, name in enumerate(ids)
        if name.startswith(("ready-to-leave.call", "ready-to-leave.grab-bag", "ready-to-leave.bring"))
    ]
    assert all(number > jackets for number in later)


@invariant(leaving__order=("goes from under you",))
def stay_first_leave_on_the_order_only(case):
    """Stay aboard comes first, the order stands before anybody goes. Exceptions: sinking or burning; she goes from under you."""
    first = case.steps("abandon-ship")[0]
    assert first.id == "abandon-ship.stay"
    assert all(word in first.unless for word in ("sinking", "burning"))
    ids = left_by(case)
    leave = "leaving.order" if case.facts["several persons"] else "leaving.leave-alone"
    launch = next(name for name in ids if name.startswith("leaving.launch"))
    assert ids.index(launch) < ids.index(leave)
    assert "Nobody boards until the boat is truly lost" in case.procedures["boarding"].intro


@invariant(
    leaving__launch=("no word comes", "going down"),
    leaving__launch_several=("no word comes", "going down"),
)
def launch_on_the_word(case):
    """The raft goes over on the skipper's word. Exceptions: no word comes and the boat is going down; nobody else is aboard."""
    ids = left_by(case)
    alone = case.step("leaving.launch-alone")
    assert (alone is not None) <= (not case.facts["several persons"])
    launch = alone or case.step("leaving.launch") or case.step("leaving.launch-several")
    assert ("about to be lost" if alone else "word of the skipper") in launch.text
    assert lifejackets(ids) < ids.index(launch.id)


@invariant()
def the_call_runs_beside_the_launch(case):
    """The call runs beside the launch; it is off the launchers' card. Exception: one of them makes it, and others are there to launch."""
    radio = any(case.facts[each] for each in ("fixed vhf", "handheld vhf", "mf/hf", "satellite telephone"))
    call = case.step("raft-launch.call")
    assert (call is not None) == (radio and case.facts["launcher calls"] and case.many)
    assert call is None or call.text.startswith("While others launch")
    assert call is None or case.ids().index(call.id) < case.at(*OVERBOARD)[0]
    if case.facts["several persons"] and radio:
        beside = case.step("ready-to-leave.call")
        assert beside.text.startswith(("While others launch", "While the other launches"))
        assert "never waits" in beside.caution


@invariant(
    raft_launch__painter_also=("do not launch by hand", "goes down with the boat"),
    raft_launch__painter_check=("tie it there now",),
)
def painter_once_and_as_rigged(case):
    """The painter is dealt with once: joint left alone and also tied (float-free), checked, or tied. Exception: not launching by hand."""
    found = [name for name in case.ids() if name in PAINTER]
    if case.facts["float-free"]:
        joint = (
            "raft-launch.painter-joint" if case.facts["hydrostatic"] else "raft-launch.painter-joint-chocks"
        )
        assert found == [joint, "raft-launch.painter-also"]
    elif case.facts["release untold"]:
        assert found == ["raft-launch.painter-untold"]
    else:
        assert found == [
            "raft-launch.painter-check"
            if case.facts["painter on strong point"]
            else "raft-launch.painter-tie"
        ]


@invariant()
def a_rigged_joint_is_left_alone(case):
    """With a float-free rig the joint of painter, weak link and strong point is looked at and never moved. No exception."""
    for name in ("raft-launch.painter-joint", "raft-launch.painter-joint-chocks"):
        step = case.step(name)
        assert step is None or "leave the joint alone" in step.text


@invariant()
def painter_fast_before_the_raft_goes_over(case):
    """The painter is fast before the raft leaves the boat. No exception: an untied raft is lost."""
    assert max(case.ids().index(name) for name in case.ids() if name in PAINTER) < case.at(*OVERBOARD)[0]


@invariant()
def painter_fast_before_a_hold_comes_off(case):
    """The painter is fast before anything is taken off the raft. Exception: a raft below deck is fast once it stands in the cockpit."""
    ids = case.ids()
    last = max(ids.index(name) for name in ids if name in PAINTER)
    assert all(last < number for number in [*freed(case), *case.at(*MOVES)])
    if case.facts["below"]:
        assert not freed(case)
        assert ids.index("below-deck.wedge") < last
        assert "Do not pull the painter here" in case.step("below-deck.wedge").caution


@invariant(
    lashing__cut=(), senhouse_slip__open=("stuck", "cut"), strap__undo=("stuck", "cut"), pin__pull=("stuck",)
)
def every_hold_comes_off_in_the_order_of_the_file(case):
    """Each hold has its step, in the boat's order. Exceptions: the slip frees the strap; an HRU is left; a stuck one is cut."""
    if case.facts["below"]:
        assert ("below-deck.free" in case.ids()) == bool(case.held_by)
        return
    ids, rows = case.ids(), holds()
    left = [hold for hold in case.held_by if rows[hold].hydrostatic and not case.facts["hydrostatic only"]]
    loose = {freed for hold in case.held_by for freed in rows[hold].frees}
    wanted = [hold for hold in dict.fromkeys(case.held_by) if hold not in left and hold not in loose]
    at = {TAKES_OFF[name]: number for number, name in enumerate(ids) if name in TAKES_OFF}
    assert [at[hold] for hold in wanted] == sorted(at[hold] for hold in wanted)
    assert set(at) <= {*wanted, *loose}
    for hold in case.held_by:
        assert all(at[hold] < at[freed] for freed in rows[hold].frees if freed in at)


@invariant()
def holds_off_before_lifting_and_lifting_before_overboard(case):
    """Everything that holds it is off before the raft is lifted, and it is lifted before it goes over. No exception."""
    over, moves = case.at(*OVERBOARD), case.at(*MOVES)
    assert (len(over), len(moves)) in ((1, 0), (1, 1))
    order = [*freed(case), *moves, *over]
    assert order == sorted(order)


@invariant()
def an_hru_is_touched_by_hand_only_where_nothing_else_opens(case):
    """The hand leaves an HRU alone. Exception: nothing else holds the raft; then its lashing is cut, never the painter."""
    assert ("hru.cut" in case.ids()) == case.facts["hydrostatic only"]
    cut = case.step("hru.cut")
    assert cut is None or "Do not cut the painter" in cut.caution


@invariant()
def no_blade_is_named_without_the_painter_being_spared(case):
    """Whoever is told to cut a lashing is told not to cut the painter. Exceptions are the cuts of boarding and of the raft."""
    for name in ("hru.cut", "lashing.cut", "below-deck.free", "raft-trouble.stuck"):
        step = case.step(name)
        assert step is None or "cut the painter" in step.caution


@invariant(raft_launch__side=("fire", "smoke"), raft_launch__water=("fire", "smoke", "wreckage"))
def side_chosen_once_before_the_raft_goes(case):
    """Lee side, or the one side there is looked at, before the raft goes over. Exception: fire overrides the lee side."""
    chosen = [
        step for step in case.steps("raft-launch") if step.id in ("raft-launch.side", "raft-launch.water")
    ]
    assert len(chosen) == 1
    assert case.ids().index(chosen[0].id) < case.at(*OVERBOARD)[0]
    assert "night" in chosen[0].caution.lower()
    assert chosen[0].place


@invariant()
def engine_stopped_before_the_raft_is_in_the_water(case):
    """The engine is stopped before the raft goes over: in abandon ship, and again where it falls beside the propeller. No exception."""
    if case.facts["engine"]:
        ids = left_by(case)
        launch = next(name for name in ids if name.startswith("leaving.launch"))
        assert ids.index("leaving.engine") < ids.index(launch)
        if case.kept.beside_propeller:
            assert case.at(".way-off")[0] < case.at(*OVERBOARD)[0]


@invariant()
def pulled_right_out_then_tugged(case):
    """After it is over: the painter to its end with its length, then the tug, then what if not. Exception: a davit has its plate."""
    ids = case.ids()
    if case.facts["launching aid"]:
        assert ids[-3:] == ["davit.inflate", "davit.lower", "davit.by-hand"]
        assert "pull the painter to its end" in case.step("davit.by-hand").caution
        return
    pull = ids.index("raft-launch.pull")
    assert case.at(*OVERBOARD)[0] < pull
    assert ids[pull + 1 : pull + 3] == ["raft-launch.tug", "raft-launch.not-inflated"]
    assert any(sign.isdigit() for sign in case.step("raft-launch.pull").text)


@invariant()
def never_fired_in_the_boat(case):
    """A raft lifted through cockpit or companionway is not fired there. No exception."""
    for name in ("cockpit-locker.lift", "cockpit-locker.tip", "below-deck.wedge"):
        step = case.step(name)
        assert step is None or "inflates in the cockpit" in step.caution
    if case.facts["below"] and case.held_by:
        assert "never pull it below" in case.step("below-deck.free").caution


@invariant(below_deck__fetch=("fire", "smoke", "water"))
def a_raft_below_is_fetched_before_all_else(case):
    """Below deck it is fetched at the first doubt, up by two, then wedged. Exception: fire, smoke or deep water bars the way."""
    if case.facts["below"]:
        ids = case.ids()
        order = [
            ids.index("below-deck.fetch"),
            *case.at("below-deck.free"),
            *case.at(".up", ".up-alone"),
            ids.index("below-deck.wedge"),
            *case.at(*MOVES),
            *case.at(*OVERBOARD),
        ]
        assert order == sorted(order)
        assert case.step("below-deck.fetch").text.startswith("At the first doubt")
        fetch = case.step("ready-to-leave.fetch-raft")
        ids = left_by(case)
        assert lifejackets(ids) < ids.index(fetch.id)
        assert all(
            ids.index(fetch.id) < number
            for number, name in enumerate(ids)
            if name.endswith((".call", ".call-alone", ".launch", ".launch-alone"))
        )


@invariant(
    raft_trouble__on_deck=("rig or rail",),
    raft_trouble__dead=("the boat goes",),
    raft_trouble__snagged=("people sit in", "cut at once"),
    raft_trouble__wreckage=("people sit in", "cut at once"),
)
def every_trouble_has_its_answer(case):
    """Stuck, on deck, not inflated, upside down, blown over, snagged, wreckage, boat capsized: one step each; exceptions beside them."""
    ids = case.ids("raft-trouble")
    for name in (
        "way",
        "on-deck",
        "heavy",
        "not-inflated",
        "dead",
        "blows-over",
        "snagged",
        "wreckage",
        "drifting-down",
    ):
        assert f"raft-trouble.{name}" in ids
    assert ("raft-trouble.stuck" in ids) == bool(case.held_by)
    assert ("raft-trouble.night" in ids) == case.facts["has torch"]
    assert len([name for name in ids if name.startswith("raft-trouble.capsized")]) == 1
    assert next(leave.kind for leave in case.procedures["raft-awry"].leaves) == "righting"
    for step in case.steps("raft-trouble"):
        assert step.text.split()[0] in ("If", "In", "At"), step.text


@invariant(
    raft_trouble__capsized=("burns or goes down",),
    raft_trouble__capsized_multihull=("fire", "breaks up"),
    raft_trouble__upside_down_reach=("under water or jammed",),
)
def stay_with_a_boat_upside_down_and_never_dive(case):
    """A boat upside down is held on to, nobody dives for the raft. Exceptions: she burns, breaks up or goes down."""
    step = case.step(
        "raft-trouble.capsized-multihull" if case.facts["multihull"] else "raft-trouble.capsized"
    )
    assert "Do not dive" in step.caution
    reach = case.step("raft-trouble.upside-down-reach")
    assert (reach is not None) == (case.facts["multihull"] and case.kept.reached_inverted)
    assert (case.step("raft-trouble.upside-down-painter") is not None) == case.facts["multihull"]


@invariant(
    raft_automatic__untouched=("launch by hand",), raft_automatic__untouched_chocks=("launch by hand",)
)
def nobody_waits_for_a_release(case):
    """By hand first; no figure to wait for; an unrigged raft is never waited for. Exception to leaving the rig: a launch by hand."""
    automatic = case.procedures["raft-automatic"]
    printed = automatic.intro + "".join(map(said, automatic.steps))
    assert not any(sign.isdigit() for sign in printed)
    assert automatic.steps[0].id == (
        "raft-automatic.by-hand"
        if case.facts["float-free"]
        else "raft-automatic.by-hand-untold"
        if case.facts["release untold"]
        else "raft-automatic.by-hand-only"
    )
    for name in (
        ".untouched",
        ".untouched-chocks",
        ".nothing-more",
        ".watch",
        ".packed",
        ".cut",
        ".capsized",
    ):
        assert not case.at(name, kind="raft-automatic") or case.facts["float-free"]
    if case.facts["float-free"]:
        assert len(case.at(".untouched", ".untouched-chocks", kind="raft-automatic")) == 1
        assert case.at(".packed", kind="raft-automatic") < case.at(".board", kind="raft-automatic")


@invariant(
    raft_automatic__cut=("pulls the liferaft under", "cut at once"), raft_automatic__board=("upside down",)
)
def afloat_by_itself_cut_after_the_count(case):
    """Where the weak link has not parted the painter is cut once everybody is counted. Exception: the boat pulls the raft under."""
    step = case.step("raft-automatic.cut")
    assert (step is not None) == case.facts["float-free"]
    assert step is None or ("everybody is counted" in step.caution) == case.facts["several persons"]


@invariant(
    leaving__first=("fire", "smoke", "wreckage"),
    leaving__lee_first=("fire", "smoke", "wreckage"),
)
def with_several_rafts_the_first_and_everybodys_own_are_named(case):
    """With several rafts: which first, and who goes where. Exceptions: fire, smoke or wreckage on its side; for a raft that is lost the card is left."""
    ids = left_by(case)
    first = [number for number, name in enumerate(ids) if name in ("leaving.first", "leaving.lee-first")]
    assert len(first) == case.facts["several rafts"]
    assert ("leaving.own-raft" in ids) == (case.facts["several rafts"] and case.facts["several persons"])
    if "leaving.own-raft" in ids:
        assert ("leaving.first" in ids) == case.facts["raft order"]
        assert first[0] < ids.index("leaving.own-raft")
    gone = [leave for leave in case.procedures["leaving"].leaves if leave.kind == "raft-gone"]
    assert len(gone) == 1
    assert len(gone[0].to) > 1 or not case.facts["several rafts"], "any of them may be the one"
