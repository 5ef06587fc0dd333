"""Sound arrangements, as boats have them in their hundreds: words and places close to what the checks of reach refuse bring nothing.

Each is one change of a sound boat, by the line that holds a text; several that have nothing to do with each other are made at once.
"""

import pytest
from checks.survey_patch import VESSELS, Case, changed, lay_out, new_findings, survey_boat

ARRANGED = {
    "saltmeadow": [
        ("what: fuel, where", "spot: through the hole beside the steps", 'spot: "in the unlocked box behind the steps"'),
        ("what: fuel, where", "spot: through the hole beside the steps", 'spot: "behind the locked flap, key on the hook beside it"'),
        ("what: fuel, where", "spot: through the hole beside the steps", "spot: below the galley drawer"),
        ("what: fuel, where", "where: engine space, side: port, spot: through the hole beside the steps", "where: cockpit, side: port, spot: at the foot of the seat"),
        ("what: fuel, where", "where: engine space, side: port, spot: through the hole beside the steps", "where: aft cabin, side: port, spot: under the sole"),
        ("what: gas, where", "spot: beside the cooker", "spot: below the cooker"),
        ("what: gas, where", "spot: beside the cooker", "spot: behind the door under the cooker"),
        ("what: gas, where", "spot: beside the cooker", "spot: under the sink"),
        ("what: gas, where", "where: galley, side: port", "where: saloon, side: port"),
        ("what: gas, where", "where: galley, side: port", "where: companionway, side: port"),
        ("what: batteries", "where: chart table, side: starboard, spot: under the seat", "where: companionway, side: starboard, spot: under the second step"),
        ("what: batteries", "where: chart table, side: starboard, spot: under the seat", "where: galley, side: starboard, spot: behind the door"),
        ("what: batteries", "spot: under the seat", "spot: under the seat, serves: all"),
        ("what: batteries", "spot: under the seat", "spot: under the seat, serves: house and engine start"),
        ("what: engine, where", "spot: at the helmsman's knee", "spot: in the cockpit coaming"),
        ("what: engine, where", "where: cockpit, side: starboard, spot: at the helmsman's knee", "where: companionway, side: starboard, spot: beside the steps"),
        ("what: engine, where", "where: cockpit, side: starboard, spot: at the helmsman's knee", "where: helm, side: starboard, spot: on the pedestal"),
        ("size: adult", "spot: in the hanging locker", "spot: in the locker behind the sail bin"),
        ("size: adult", "spot: in the hanging locker", "spot: on the hooks above the settee"),
        ("size: adult", "where: saloon, side: port, spot: in the hanging locker", "where: cockpit locker, side: port, spot: in the bag on top"),
        ("size: adult", "where: saloon, side: port, spot: in the hanging locker", "where: aft cabin, side: port, spot: on the rail over the bunk"),
        ("fire extinguisher, cockpit", "spot: inside the lid", "spot: in the bracket at the top of the locker"),
        ("fire extinguisher, galley", "spot: by the steps", "spot: opposite the cooker"),
        ("fire extinguisher, galley", "spot: by the steps", "spot: over the chart table bulkhead"),
        ("what: fire blanket", "spot: beside the cooker", "spot: opposite the cooker"),
        ("what: fire blanket", "spot: beside the cooker", "spot: on the door"),
        ("what: smoke alarm", "where: saloon", "where: galley"),
        ("carbon monoxide alarm", "where: saloon", "where: aft cabin"),
        ("carbon monoxide alarm", "where: saloon", "where: forward cabin"),
        ("what: house", "spot: under the settee", "spot: under the chart drawer"),
        ("what: house", "where: saloon, side: starboard, spot: under the settee", "where: aft cabin, side: starboard, spot: under the bunk"),
        ("what: house", "where: saloon, side: starboard, spot: under the settee", "where: cockpit locker, side: starboard"),
        ("what: engine start", "where: engine space, side: starboard", "where: aft cabin, side: starboard, spot: under the bunk"),
        ("second anchor", "where: cockpit locker, side: starboard", "where: lazarette, side: starboard"),
        ("second anchor", "where: cockpit locker, side: starboard", "where: anchor locker, side: centre"),
        ("what: parachute flares, kind", "spot: in the orange flare box", "spot: in the orange flare box"),
        ("role: guest 2", "berth: forward cabin", "berth: {where: forward cabin, side: port, spot: double berth}"),
        ("role: guest 1", "berth: forward cabin", "berth: {where: saloon, side: port, spot: pilot berth}"),
        ("role: deckhand", "berth: saloon", "berth: {where: saloon, side: starboard, spot: settee}"),
        ("what: hand pump below", "handle: {where: galley, side: port, spot: in the clip beside it}", "handle: {where: galley, side: port, spot: on the hook above it}"),
        ("fits: {where", "where: cockpit, side: centre, spot: on the rudder stock under the round plate behind the wheel", "where: lazarette, side: centre, spot: on the rudder stock"),
    ],
    "nordgyllen": [
        ("where: wheelhouse roof", "where: wheelhouse roof", "where: wheelhouse roof"),
        ("spot: in the float-free bracket", "spot: in the float-free bracket", "spot: in the float-free bracket abaft the mast"),
        ("what: ventilation", "spot: on the wheelhouse wall", "spot: in the red box on the wall"),
        ("role: guest 1, berth", "berth: forward cabin", "berth: {where: forward cabin, side: port, spot: lower bunk}"),
        ("role: guest 1, berth", "berth: forward cabin", "berth: {where: forward cabin, side: starboard, spot: lower bunk}"),
        ("tethers, 2 m", "quantity: 8", "quantity: 10"),
        ("smoke alarm, aft", "side: centre", "side: port"),
        ("what: fuel, where: side deck", "spot: in the red box by the wheelhouse", 'spot: "in the red box by the wheelhouse, never locked"'),
        ("fire extinguisher, aft cabin", "spot: beside the door", "spot: behind the door"),
        ("name: afternoon", "who: [skipper, deckhand 1, guest 1, cook]", "who: [skipper, deckhand 1, guest 1, cook, guest 2]"),
        ("what: satellite telephone, kind", "spot: in the grab bag", "spot: in the grab bag"),
    ],
    "tresmare": [
        ("what: the line across the bottom", "side: port", "side: starboard"),
        ("what: engine, where: cockpit", "spot: beside the throttle", "spot: below the throttle"),
        ("fire extinguisher, cabin", "spot: beside the steps", "spot: at the foot of the steps"),
        ("what: fuel, where", "spot: behind the round hole beside the steps", "spot: inside the flap beside the steps"),
        ("name: afternoon", "who: [skipper]", "who: [skipper, mate]"),
    ],
    "zilte-wind": [
        ("fire extinguisher, cabin", "spot: by the steps", "spot: under the steps"),
        ("what: smoke alarm", "where: saloon", "where: forward cabin"),
        ("what: batteries", "side: starboard", "side: port"),
    ],
    "kelpwren": [
        ("what: fuel, where", "spot: on top of the tank", "spot: beside the tank"),
        ("what: batteries", "spot: on the after side", "spot: in the box on the after side"),
        ("size: adult", "where: foredeck locker", "where: side bench"),
        ("what: kill cord", "spot: on the throttle", "spot: under the wheel"),
    ],
}  # fmt: skip


def _bundles():
    """So many at once as stand in lines of their own, boat by boat."""
    for boat, arranged in ARRANGED.items():
        left = list(arranged)
        while left:
            lines, taken = set(), []
            for each in list(left):
                if each[0] not in lines:
                    lines.add(each[0])
                    taken.append(each)
                    left.remove(each)
            yield boat, taken


BUNDLES = list(_bundles())


@pytest.mark.parametrize("number", range(len(BUNDLES)))
def test_a_sound_arrangement_brings_nothing(number, tmp_path):
    boat, arranged = BUNDLES[number]
    changes = [{"line": line, "old": old, "new": new} for line, old, new in arranged]
    case = Case("arranged", "", boat, changes, {}, None, None, set(), "", "")
    new = new_findings(
        case, survey_boat(lay_out(case, tmp_path)).findings, survey_boat(VESSELS / boat).findings
    )
    assert [f"{each.check}: {each.message}" for each in new] == []


def test_there_are_sixty():
    assert sum(map(len, ARRANGED.values())) >= 60
    assert changed("a: b\n", "", "b", "c") == "a: c\n"
