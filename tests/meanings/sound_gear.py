"""What else a generated boat has: radio, jackets, recovery, stops, ways out, pumps, gear; where they lie by her type."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from meanings.sound_bill import roles_of

if TYPE_CHECKING:
    from meanings.sound import Plan

PLACES = {
    "open boat": {"cockpit": "stern sheets", "locker": "stern locker", "stern": "transom", "saloon": "foredeck locker", "chart": "helm", "way": "helm", "galley": "helm", "heads": "helm", "rail": "stern sheets"},
    "dayboat": {"cockpit": "cockpit", "locker": "cockpit locker", "stern": "transom", "saloon": "cuddy", "chart": "cuddy", "way": "cuddy", "galley": "cuddy", "heads": "cuddy", "rail": "cockpit"},
    "catamaran": {"cockpit": "cockpit", "locker": "cockpit locker", "stern": "transom steps", "saloon": "saloon", "chart": "chart table", "way": "companionway", "galley": "galley", "heads": "heads", "rail": "pushpit"},
    "motor vessel": {"cockpit": "cockpit", "locker": "cockpit locker", "stern": "swim platform", "saloon": "saloon", "chart": "wheelhouse", "way": "wheelhouse", "galley": "galley", "heads": "heads", "rail": "pushpit"},
}  # fmt: skip
SAIL = {
    "cockpit": "cockpit", "locker": "cockpit locker", "stern": "transom", "saloon": "saloon", "chart": "chart table",
    "way": "companionway", "galley": "galley", "heads": "heads", "rail": "pushpit",
}  # fmt: skip


def gear_of(plan: Plan) -> list[str]:
    """All blocks that follow the bill."""
    at = PLACES.get(plan.kind.type, SAIL)
    if plan.rafts and plan.stowage == "cockpit locker":
        at = at | {"locker": "lazarette"}
    return [*_radio(plan, at), *_bag(plan, at), *_jackets(plan, at), *_built_in(plan, at), *_list(plan, at)]


def _radio(plan: Plan, at: dict[str, str]) -> list[str]:
    bag = f"where: {at['way']}, side: port"
    lines = ["radio:", "  call-sign: EIXZ7", "  mmsi: 250000000", "  sets:"]
    lines.append(
        f"    - {{what: fixed VHF, kind: VHF, dsc: yes, gnss: yes, where: {at['chart']}, side: starboard, distress-button: under the red flap, "
        "position-shown: in the bottom line, power: turn the left knob to the right, power-w: 25 W}"
    )
    lines.append(
        f"    - {{what: handheld VHF, kind: handheld VHF, dsc: no, gnss: no, {bag}, power: turn the top knob to the right, power-w: 5 W}}"
    )
    if plan.far:
        lines.append(
            f"    - {{what: satellite telephone, kind: satellite telephone, dsc: no, gnss: yes, {bag}, power: hold the green key for three seconds}}"
        )
    lines.append("  beacons:")
    if not plan.kind.open:
        lines.append(
            f"    - {{what: EPIRB, kind: EPIRB, hex-id: 1F44000000FFBFF, where: {at['way']}, side: starboard, spot: in the bracket, release: by hand, "
            "use: pull the tab and press ON, battery-expires: 2030-04, tested: 2026-05-16, registered: 2026-03-20, registered-in: Ireland}"
        )
    if plan.far:
        lines.append(
            f"    - {{what: radar transponder, kind: SART, {bag}, use: pull the pin and turn the ring to ON, battery-expires: 2029-09, tested: 2026-05-19}}"
        )
    lines.append(
        f"    - {{what: man-overboard beacon, kind: AIS man-overboard device, where: {at['saloon']}, side: port, spot: in each lifejacket, "
        f"quantity: {plan.crew + 2}, use: pull the tab, battery-expires: 2030-05, tested: 2026-05-19, carried-by: everybody on deck}}"
    )
    return lines


def _bag(plan: Plan, at: dict[str, str]) -> list[str]:
    if not plan.rafts:
        return []
    bill_free = _free(plan)
    things = [
        "{what: handheld VHF, quantity: 1}", "{what: handheld GNSS receiver, quantity: 1}", "{what: parachute flares, quantity: 2, expires: 2029-03}",
        "{what: red hand flares, quantity: 4, expires: 2029-03}", "{what: light sticks, quantity: 6, expires: 2028-09}",
        "{what: floating torch, quantity: 2, expires: 2029-06}", "{what: signalling mirror, quantity: 1}", "{what: whistle, quantity: 1}",
        f"{{what: water, quantity: {2 * plan.crew}, volume: {plan.crew} l, expires: 2029-04}}", "{what: graduated cup, quantity: 1}",
        f"{{what: food that causes no thirst, quantity: {2 * plan.crew}, expires: 2029-04}}",
        f"{{what: seasickness tablets, quantity: {6 * plan.crew}, expires: 2028-08}}", "{what: first-aid kit, quantity: 1, expires: 2028-06}",
        f"{{what: thermal protective aids, quantity: {plan.crew}}}", "{what: spare drogue with line, quantity: 1}", "knife with a blunt tip",
    ]  # fmt: skip
    if plan.far:
        things += [
            "{what: satellite telephone, quantity: 1}",
            "{what: radar transponder, quantity: 1, expires: 2029-09}",
        ]
    kilogrammes = max(12, plan.crew + 4)
    mass = f"{kilogrammes / 0.45359:.0f} lb" if plan.imperial else f"{kilogrammes} kg"
    return [
        "grab-bags:",
        f"  - where: {at['way']}",
        "    side: port",
        f"    carried-by: {bill_free}",
        f"    mass: {mass}",
        "    floats: yes",
        "    lanyard: yes",
        "    items:",
        *(f"      - {each}" for each in things),
    ]


def _free(plan: Plan) -> str:
    """Who carries the bag: whoever has that duty in the bill."""
    from meanings.sound_bill import bill_of

    line = next((each for each in bill_of(plan) if each.strip().startswith("grab-bag:")), "")
    return line.partition("who: ")[2].partition(",")[0] if line else "skipper"


def _jackets(plan: Plan, at: dict[str, str]) -> list[str]:
    there = f"where: {at['saloon']}, side: port"
    fitted = "crotch-straps: yes, lights: yes"
    grown = sum(role != "child" for role in roles_of(plan)) + 2
    worn = ", ".join(role for role in roles_of(plan) if role != "child")
    lines = [
        "lifejackets:",
        f"  - {{size: adult, kind: inflatable, quantity: {grown}, worn-by: [{worn}], {there}, {fitted}, next-service: 2027-10, head-expires: 2028-10}}",
    ]
    if plan.child:
        lines.append(f"  - {{size: child, kind: foam, quantity: 1, worn-by: [child], {there}, {fitted}}}")
    return lines


def _built_in(plan: Plan, at: dict[str, str]) -> list[str]:
    kind = plan.kind
    hoist = {"open boat": "side bench"}.get(kind.type, "cockpit")
    lines = [
        f"recovery: {{ladder: {{where: {at['stern']}, side: starboard}}, ladder-from-water: yes, hoist: {{what: the lifting strop on its tackle, where: {hoist}, "
        f"side: starboard}}, side: starboard, place: {hoist}}}",
        "stops:",
    ]
    if kind.inboard:
        lines += [
            f"  - {{what: engine, where: {'wheelhouse' if kind.type == 'motor vessel' else 'cockpit'}, side: starboard, electric: no, how: pull the black knob right out}}",
            "  - {what: fuel, where: engine space, side: port, spot: behind the round hole, from-outside: yes, how: turn the lever across the pipe}",
            f"  - {{what: batteries, where: {at['way']}, side: starboard, how: turn the red key to OFF}}",
        ]
    else:
        helm = "helm"
        lines += [
            f"  - {{what: kill cord, where: {helm}, side: starboard, how: pull the red cord off its switch, spare: {{where: {helm}, side: port, spot: on the hook}}}}",
            f"  - {{what: fuel, where: {at['locker']}, side: port, spot: on the tank, from-outside: yes, how: turn the tap across the pipe}}",
        ]
        if not kind.open:
            lines += [
                f"  - {{what: batteries, where: {at['way']}, side: starboard, how: turn the red key to OFF}}"
            ]
    if plan.fuel in ("butane", "propane") and not kind.open:
        lines += [
            "  - {what: gas, where: galley, side: port, spot: beside the cooker, how: turn the brass tap across the pipe, electric: no}"
        ]
        lines += [f"gas: {{fuel: {plan.fuel}, bottles: gas locker, detector: yes, hose-expires: 2029-04}}"]
    elif plan.fuel == "alcohol" and not kind.open:
        lines += ["gas: {fuel: alcohol}"]
    if not kind.open and kind.rig != "none":
        lines += [
            "steering:",
            "  main: wheel with cables to a quadrant",
            f"  emergency-tiller: {{where: {at['locker']}, side: port}}",
            "  fits: {where: cockpit, side: centre, spot: on the rudder stock under the round plate}",
        ]
    lines += _ways_out(plan)
    lines += [
        "contacts:",
        "  - {who: coastguard, kind: rescue centre, channel: VHF 16 or DSC on channel 70"
        + (", phone: +44 1632 960120}" if plan.far else "}"),
        '  - {who: medical advice by radio, kind: medical advice, channel: "VHF 16: ask the coastguard for medical advice"}',
        "  - {who: the skipper's neighbour, kind: shore contact, phone: +44 7700 900417}",
    ]
    if kind.inboard:
        lines += [
            "batteries:",
            f"  - {{what: house, chemistry: AGM, where: {at['saloon']}, side: starboard}}",
            "  - {what: engine start, chemistry: lead-acid, where: engine space, side: starboard}",
            "through-hulls:",
            "  - {what: engine cooling inlet, diameter: 25 mm, below-water: 0.3 m, where: engine space, side: port, closes: lever across the hose, plug: tied beside it}",
            "  - {what: sink outlet, diameter: 38 mm, below-water: 0.1 m, where: galley, side: port, closes: lever across the hose, plug: tied beside it}",
        ]
    elif not kind.open:
        lines += [
            "batteries:",
            f"  - {{what: pump and lights, chemistry: AGM, where: {at['saloon']}, side: starboard}}",
        ]
    flow = "720 US gph" if plan.imperial else "45 l/min"
    if kind.open:
        at_hand = f"where: {at['cockpit']}, side: port"
        lines += [
            "pumps:",
            f"  - {{what: hand pump, power: hand, flow: {flow}, {at_hand}, handle: {{{at_hand}, spot: in the clip}}, from-deck: yes}}",
        ]
    else:
        lines += [
            "pumps:",
            f"  - {{what: hand pump in the cockpit, power: hand, flow: {flow}, where: cockpit, side: port, handle: {{where: cockpit, side: port, spot: in the clip beside it}}, from-deck: yes}}",
            f"  - {{what: hand pump below, power: hand, flow: {flow}, where: galley, side: port, handle: {{where: galley, side: port, spot: in the clip beside it}}, from-deck: no}}",
            f"  - {{what: electric pump, power: electric, flow: {'60 US gpm' if plan.imperial else '230 l/min'}, where: engine space, side: starboard, handle: {{where: {at['chart']}, side: starboard, spot: the switch marked BILGE}}}}",
        ]
    if kind.type in ("open boat", "dayboat"):
        lines += ["capsize: {swamped: level}"]
    elif kind.type in ("catamaran", "trimaran"):
        lines += ["capsize: {swamped: level, righted: no}"]
    return lines


def _ways_out(plan: Plan) -> list[str]:
    push = "turn both handles and push the hatch up"
    type_ = plan.kind.type
    if plan.kind.open:
        return []
    found = {
        "motor vessel": [("wheelhouse", "lift the lever and push the door out"), ("forward cabin", push)],
        "catamaran": [("port hull", "break the seal and turn both handles"), ("starboard hull", "break the seal and turn both handles"), ("saloon", "slide the door aft")],
        "trimaran": [("escape hatch", "break the seal and turn both handles"), ("companionway", "slide the hatch forward"), ("forward cabin", push)],
    }.get(type_, [("companionway", "slide the hatch forward and lift the washboards"), ("forward cabin", push)])  # fmt: skip
    inverted = {"port hull": "yes", "starboard hull": "yes", "escape hatch": "yes"}
    several = type_ in ("catamaran", "trimaran")
    return [
        "escape:",
        *(
            f"  - {{where: {where}, opens: both{', serves-inverted: ' + inverted.get(where, 'no') if several else ''}, how: {how}}}"
            for where, how in found
        ),
    ]


def _list(plan: Plan, at: dict[str, str]) -> list[str]:
    kind = plan.kind
    rating = "40-B" if re.search("US|Canada", plan.rule_set) else "13A/113B"
    rail, cockpit, locker, saloon, way, galley = (
        at[each] for each in ("rail", "cockpit", "locker", "saloon", "way", "galley")
    )
    lines = [
        f'{{what: "lifebuoy, with light, line and drogue", kind: lifesaving, quantity: 2, where: {rail}, side: starboard, expires: 2028-12}}',
        f'{{what: "throwing line, 25 m", kind: lifesaving, quantity: 1, where: {cockpit}, side: port}}',
        f"{{what: thermal protective aids, kind: lifesaving, quantity: {max(2, plan.crew)}, where: {saloon}, side: starboard}}",
        f"{{what: parachute flares, kind: signal, quantity: 12, where: {way}, side: port, spot: in the flare box, expires: 2028-10}}",
        f"{{what: red hand flares, kind: signal, quantity: 6, where: {way}, side: port, spot: in the flare box, expires: 2028-10}}",
        f"{{what: orange smoke, kind: signal, quantity: 3, where: {way}, side: port, spot: in the flare box, expires: 2028-11}}",
        f'{{what: "foghorn, blown by mouth", kind: signal, quantity: 1, where: {cockpit}, side: starboard}}',
        f"{{what: whistle, kind: signal, quantity: 1, where: {cockpit}, side: starboard}}",
        f"{{what: bell, kind: signal, quantity: 1, where: {cockpit}, side: port}}",
        f'{{what: "torch, waterproof", kind: tool, quantity: 3, where: {way}, side: starboard, expires: 2029-02}}',
        f"{{what: bucket, kind: flooding, quantity: 2, where: {locker}, side: port, tied-in: yes}}",
        f'{{what: "axe", kind: fire, quantity: 1, where: {locker}, side: port}}',
        f"{{what: steering compass, kind: navigation, quantity: 1, where: {'helm' if kind.type != 'motor vessel' else 'wheelhouse'}, side: centre}}",
        f'{{what: "anchor, with 60 m of rode", kind: other, quantity: 1, where: {"anchor locker"}, side: centre}}',
        f"{{what: first-aid kit, kind: medical, quantity: 1, where: {saloon}, side: starboard, expires: 2028-02}}",
        f"{{what: water cans, kind: water and food, quantity: {max(1, plan.crew // 4)}, volume: {max(6, 3 * plan.crew)} l, where: {locker}, side: port, expires: 2027-11}}",
        f'{{what: "fire extinguisher, {cockpit}", kind: fire, quantity: 1, where: {cockpit}, side: starboard, rating: {rating}, expires: 2029-03}}',
    ]
    if kind.open:
        lines += [
            f"{{what: oars, kind: other, quantity: 2, where: {'side bench' if kind.type == 'open boat' else cockpit}, side: port, tied-in: yes}}",
            "{what: buoyancy, kind: flooding, quantity: 2, where: side tank, side: port}",
            f"{{what: bailer, kind: flooding, quantity: 1, where: {cockpit}, side: port, tied-in: yes}}",
        ]
        return ["gear:", *(f"  - {each}" for each in lines), *_drills()]
    rooms = ["port hull", "starboard hull"] if kind.type == "catamaran" else ["forward cabin"]
    rooms += ["saloon", "galley"]
    lines += [f'{{what: "fire extinguisher, {room}", kind: fire, quantity: 1, where: {room}, side: {"starboard" if room.startswith("starboard") else "port"}, rating: {rating}, expires: 2029-03}}' for room in rooms]  # fmt: skip
    lines += [f'{{what: "smoke alarm, {room}", kind: fire, quantity: 1, where: {room}, side: {"starboard" if room.startswith("starboard") else "port"}, made: 2023-02, expires: 2033-02}}' for room in rooms if room != "galley"]  # fmt: skip
    lines += [
        f"{{what: carbon monoxide alarm, kind: fire, quantity: 1, where: {saloon}, side: starboard, made: 2023-02, expires: 2030-02}}",
        f"{{what: fire blanket, kind: fire, quantity: 1, where: {galley}, side: port, spot: beside the cooker}}",
        f"{{what: softwood plugs, kind: flooding, quantity: 6, where: {at['chart']}, side: starboard}}",
        f"{{what: bolt cutters, kind: rig, quantity: 1, where: {locker}, side: port}}",
        f"{{what: tethers, kind: lifesaving, quantity: {max(2, plan.crew)}, where: {saloon}, side: starboard, made: 2025-08}}",
        f"{{what: AIS transponder, kind: navigation, quantity: 1, where: {at['chart']}, side: starboard}}",
        f"{{what: radar reflector, kind: navigation, quantity: 1, where: {locker}, side: starboard}}",
    ]
    if kind.inboard:
        lines.append("{what: automatic extinguisher, kind: fire, quantity: 1, where: engine space, side: starboard, rating: 68B, agent: clean agent, next-service: 2027-09}")  # fmt: skip
    if kind.rig != "none":
        lines += [
            f"{{what: emergency tiller, kind: rig, quantity: 1, where: {locker}, side: port}}",
            f"{{what: storm jib, kind: rig, quantity: 1, where: forepeak, side: {'port' if kind.type == 'catamaran' else 'centre'}}}",
            f"{{what: emergency VHF aerial, kind: navigation, quantity: 1, where: {at['chart']}, side: starboard}}",
            '{what: "jackstays, port", kind: lifesaving, quantity: 1, where: side deck, side: port, expires: 2028-03}',
            '{what: "jackstays, starboard", kind: lifesaving, quantity: 1, where: side deck, side: starboard, expires: 2028-03}',
        ]
    if plan.far:
        lines.append(
            f'{{what: "danbuoy, with light", kind: lifesaving, quantity: 1, where: {rail}, side: port, expires: 2028-12}}'
        )
    return ["gear:", *(f"  - {each}" for each in lines), *_drills()]


def _drills() -> list[str]:
    drilled = ("abandon-ship", "fire", "man-overboard")
    return [
        "drills:",
        *(f"  - {{emergency: {each}, date: 2026-05-24, led-by: the skipper}}" for each in drilled),
    ]
