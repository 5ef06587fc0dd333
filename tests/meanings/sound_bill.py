"""People and station bill of a generated boat: duties by what so many people can do."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from meanings.sound import Plan


def roles_of(plan: Plan) -> list[str]:
    """The roles aboard: two who command, hands, guests, a child where one sails."""
    named = ["skipper", "mate", "deckhand 1", "deckhand 2", "deckhand 3", "deckhand 4"]
    roles = named[: plan.crew]
    roles += [f"guest {number}" for number in range(1, plan.crew - len(roles) + 1)]
    if plan.child:
        roles[-1] = "child"
    return roles


_ABLE = ("command, radio, first aid, engine, deck", "command, radio, first aid, engine, deck, swim")


def people_of(plan: Plan) -> list[str]:
    """The block of people."""
    lines = ["people:"]
    roles = roles_of(plan)
    berths = {"monohull": ("saloon", "forward cabin"), "trimaran": ("saloon", "forward cabin")}.get(
        plan.kind.type, ()
    )
    for number, role in enumerate(roles):
        berth = f", berth: {berths[number % len(berths)]}" if berths and plan.far else ""
        strong = plan.lifted and plan.rafts > 1  # two launch each raft alone
        lifts = ("80 lb" if strong else "55 lb") if plan.imperial else ("36 kg" if strong else "25 kg")
        if role == "child":
            lines.append(
                f"  - {{role: child, age: 8, lifejacket: child, needs-help: is held by the hand, helper: {roles[-2]}}}"
            )
        elif number < 2:
            lines.append(f"  - {{role: {role}, abilities: [{_ABLE[number]}], lifts: {lifts}{berth}}}")
        elif role.startswith("guest"):
            lines.append(f"  - {{role: {role}{berth}}}")
        else:
            lines.append(
                f"  - {{role: {role}, abilities: [radio, deck, swim, engine, first aid], lifts: {lifts}{berth}}}"
            )
    return lines


def launchers_of(plan: Plan) -> list[list[str]]:
    """Who launches each raft: two of those who go into it, where there are two."""
    caller = caller_of(plan)
    able = [[role for role in group if role not in ("child", caller)] for group in groups_of(plan)]
    if plan.lifted:
        return [group[-3:] if len(group) > 3 else group for group in able]
    return [group[-2:] if plan.rafts == 1 and len(group) < 6 else group[:2] for group in able]


def caller_of(plan: Plan) -> str:
    """Who calls for help when she is left."""
    roles = roles_of(plan)
    return roles[1] if len(roles) >= 4 else roles[0]


def groups_of(plan: Plan) -> list[list[str]]:
    """Who goes into which raft: the able ones shared out first."""
    groups: list[list[str]] = [[] for _ in range(plan.rafts)]
    for number, role in enumerate(roles_of(plan)):
        if groups:
            groups[number % plan.rafts].append(role)
    if plan.child and plan.rafts > 1:  # a child goes where its helper goes
        helper = roles_of(plan)[-2]
        for group in groups:
            if "child" in group and helper not in group:
                group.remove("child")
                next(each for each in groups if helper in each).append("child")
    return groups


def bill_of(plan: Plan) -> list[str]:
    """The station bill; whoever sails alone has none."""
    able = [role for role in roles_of(plan) if role != "child"]
    if len(able) < 2:
        return []
    skipper, mate = able[0], able[1]

    def nth(number: int) -> str:
        return able[number] if number < len(able) else able[number % 2]

    three, four, five = nth(2), nth(3), nth(4)

    def duty(who: str | list[str], substitute: str) -> str:
        told = who if isinstance(who, str) else f"[{', '.join(dict.fromkeys(who))}]"
        return f"{{who: {told}, substitute: {substitute}}}"

    pair = len(able) == 2
    caller = caller_of(plan)
    hands = [one for group in launchers_of(plan) for one in group] if not pair else [mate]
    free = next((role for role in able if role not in (*hands, caller)), skipper)
    other = next((role for role in able if role not in (*hands, free)), mate if free != mate else skipper)
    lines = ["station-bill:", "  abandon-ship:", f"    command: {duty(skipper, mate)}"]
    lines += [f"    call: {duty(caller, skipper if caller == mate else mate)}"]
    if plan.rafts:
        lines += [f"    launch: {duty(hands, free if free not in hands else other)}"]
    lines += [f"    muster: {duty(free, other if other != free else mate if free != mate else skipper)}"]
    if plan.rafts:
        lines += [
            f"    grab-bag: {duty(free, other if other != free else mate if free != mate else skipper)}"
        ]
    lookout = five if len(able) > 4 else three if len(able) > 2 else mate
    lines += [
        "  man-overboard:",
        f"    lookout: {duty(lookout, mate if lookout != mate else skipper)}",
        f"    helm: {duty(skipper, mate)}",
        f"    throw: {duty(mate if not pair else skipper, skipper if not pair else mate)}",
        f"    call: {duty(mate if not pair else skipper, skipper if not pair else mate)}",
        f"    recover: {duty([mate, four if len(able) > 4 else skipper] if not pair else skipper, three if len(able) > 2 else skipper if not pair else mate)}",
        "  fire:",
        f"    command: {duty(skipper, mate)}",
        f"    fight: {duty(mate, three if not pair else skipper)}",
        f"    shut-off: {duty(skipper, mate)}",
    ]
    if not pair:
        lines += [f"    backup: {duty(three, skipper)}"]
    if not plan.kind.open or plan.kind.type == "dayboat":
        lines += [f"    close: {duty(three if not pair else skipper, skipper if not pair else mate)}"]
    lines += [
        f"    call: {duty(skipper, mate)}",
        "  flooding:",
        f"    command: {duty(skipper, mate)}",
        f"    find: {duty(mate, skipper) if not pair else duty(skipper, mate)}",
        f"    pump: {duty(three, skipper) if not pair else duty(mate, skipper)}",
        f"    call: {duty(skipper, mate)}",
    ]
    if plan.rafts:
        lines += [f"    prepare-raft: {duty(skipper, mate)}"]
    if plan.fuel in ("butane", "propane") and not plan.kind.open:
        lines += [
            "  gas:",
            f"    command: {duty(skipper, mate)}",
            f"    shut-off: {duty(mate, skipper)}",
            f"    ventilate: {duty(three if not pair else mate, skipper)}",
            f"    muster: {duty(skipper, mate)}",
        ]
    return lines
