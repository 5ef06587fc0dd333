"""The rafts of a generated boat: each stowage with the container, the holds and the painter that go with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from meanings.sound_bill import groups_of, launchers_of

if TYPE_CHECKING:
    from meanings.sound import Plan


VALISE = ("cockpit locker", "below deck")
SIDES = {1: ("starboard",), 2: ("port", "starboard"), 3: ("port", "starboard", "centre")}
WHERE = {
    "coachroof cradle": "coachroof", "deck cradle": "side deck", "pushpit bracket": "pushpit", "transom recess": "transom recess",
    "under-cockpit slot": "transom", "deck locker": "aft deck", "cockpit locker": "cockpit locker", "below deck": "saloon",
    "davit": "aft deck",
}  # fmt: skip


def rafts_of(plan: Plan) -> list[str]:
    """The block of rafts, one below the other; none where she has none."""
    lines = ["rafts:"] if plan.rafts else []
    groups, parties = groups_of(plan), launchers_of(plan)
    persons = max(4, plan.crew)
    for number in range(plan.rafts):
        side = SIDES[plan.rafts][number] if plan.rafts > 1 else "starboard"
        lines += _raft(plan, number, side, persons, groups[number], parties[number])
    return lines


def _metres(plan: Plan, value: float) -> str:
    return f"{value / 0.3048:.1f} ft" if plan.imperial else f"{value:g} m"


def _raft(plan: Plan, number: int, side: str, persons: int, group: list[str], party: list[str]) -> list[str]:
    stowage = plan.stowage
    valise = stowage in VALISE
    name = "liferaft" if plan.rafts == 1 else f"liferaft {number + 1}"
    lifted = plan.lifted
    mass = 12 + (3 if valise else 4 if lifted else 5) * persons
    height = round(
        plan.kind.freeboard + (0.4 if stowage in ("coachroof cradle", "pushpit bracket", "davit") else 0.1), 1
    )
    if stowage in ("transom recess", "under-cockpit slot"):
        height = round(plan.kind.freeboard * 0.8, 1)
    length = 11 if height < 5 else 15
    hru = plan.hold == "HRU" and not valise
    held = {
        "Senhouse slip": "[Senhouse slip, strap]",
        "HRU": "[Senhouse slip, HRU, strap]",
        "lashing": "[lashing]",
    }.get(plan.hold, f"[{plan.hold}]")
    where = "aft deck" if stowage == "deck cradle" and side == "centre" else WHERE[stowage]
    beside = where if where not in ("saloon", "cockpit locker", "pushpit") else "cockpit"
    gate = {
        "pushpit": "pushpit",
        "transom": "transom",
        "transom recess": "transom",
        "cockpit": "cockpit",
    }.get(beside, "side deck")
    if plan.kind.type == "catamaran" and gate == "transom":
        gate = beside = "transom steps"
    mass_said = f"{mass / 0.45359:.0f} lb" if plan.imperial else f"{mass} kg"
    across = round((mass / 300 / 1.6 / 0.8) ** (1 / 3), 2)  # some 300 kg in a cubic metre
    sides = (1.6 * across, across, 0.8 * across)
    size = " x ".join(f"{each / 0.0254:.0f}" if plan.imperial else f"{each:.2f}" for each in sides) + (
        " in" if plan.imperial else " m"
    )
    next_service = "2026-11-06" if valise else "2028-11-06"
    lines = [
        f"  - name: {name}",
        "    standard: ISO 9650-1 type 1 group A",
        f"    persons: {persons}",
        f"    mass: {mass_said}",
        f"    packed-size: {size}",
        f"    container: {'valise' if valise else 'canister'}",
        "    made: 2023-04",
        f"    stowage: {stowage}",
        f"    where: {where}",
        f"    side: {side}",
        f"    height: {_metres(plan, height)}",
        f"    held-by: {held}",
        "    lift-needed: " + ("yes" if lifted else "no"),
        "    strap-fixed: " + ("forward"),
    ]
    if stowage in ("transom recess", "under-cockpit slot"):
        lines += ["    lid-hinge: none", "    strong-point-reached: yes"]
    if "slip" in held:
        lines.append("    slip: {side: aft, opens-clear: yes, condition: sound, checked: 2026-05-19}")
    if hru:
        lines += [
            "    release: {kind: disposable, made: 2025-08, fitted: 2025-11-14, expires: 2027-11, depth: 1.5-4 m, serves: 1, strap: hand-tight}",
            f"    painter: {{length: {_metres(plan, length)}, fast-to: weak link, strength: 7.5 kN, checked: 2026-05-19, lead: clear}}",
            "    weak-link: {strength: 2.2 kN, made-by: release maker, joins: strong point}",
        ]
    else:
        lines.append(
            f"    painter: {{length: {_metres(plan, length)}, fast-to: strong point, strength: 7.5 kN, checked: 2026-05-19, lead: clear}}"
        )
    at = f"where: {beside}, side: {side}"
    over = f"where: {gate}, side: {side}"
    if side == "centre" and gate == "side deck":
        over = f"where: {gate}"
    lines += [
        f"    strong-point: {{what: the U-bolt, {at}}}",
        f"    launch-from: {{what: the gate, {over}}}",
        f"    knife: {{{at}, spot: in the sheath}}",
        "    snug: yes",
        "    drains-down: yes",
        "    compartment-drains: yes",
        "    reached-heeled: yes",
        "    lashed-over: no",
        "    overhead: nothing",
        f"    board-from: {{what: the gate, {over}}}",
        "    entrances: 1",
        "    boarding: ramp",
        "    righting: strap",
        "    cylinder-side: marked",
        "    tubes: 2",
        "    canopy: yes",
        "    floor: double",
        "    drogue: streams itself",
        "    pack: over 24 h",
        f"    pack-water: {round(1.5 * persons)} l",
        f"    service: {{last: 2025-11-06, next: {next_service}, contents-expire: 2029-01, cylinder-test: 2030-11, cylinder-weighed: yes, ballast-bags: yes}}",
    ]
    if plan.kind.type in ("catamaran", "trimaran"):
        lines.append("    reached-inverted: yes")
    if plan.rafts > 1:
        lines.append(f"    carries: [{', '.join(group)}]")
        cutter = party[-1]
        lines.append(f"    party: {{launch: [{', '.join(party)}], hold: {party[0]}, cut: {cutter}}}")
    return lines
