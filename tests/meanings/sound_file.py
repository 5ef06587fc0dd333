"""The file of a generated boat, as somebody would write it."""

from __future__ import annotations

from meanings.sound import Plan
from meanings.sound_bill import bill_of, people_of
from meanings.sound_gear import gear_of
from meanings.sound_rafts import rafts_of


def metres(plan: Plan, value: float) -> str:
    """A length as her people measure."""
    return f"{value / 0.3048:.1f} ft" if plan.imperial else f"{value:g} m"


def kilogrammes(plan: Plan, value: float) -> str:
    """A mass as her people weigh."""
    return f"{value / 0.45359:.0f} lb" if plan.imperial else f"{value:g} kg"


def file_of(plan: Plan) -> str:
    """Her vessel.yaml."""
    kind = plan.kind
    muster = {"open boat": "midship thwart", "motor vessel": "wheelhouse"}.get(kind.type, "cockpit")
    lines = [
        "format: 1",
        "specimen: {as-of: 2026-06-01}",
        "checked-aboard: {by: the skipper, date: 2026-05-20}",
        "approved: {by: the skipper, date: 2026-05-21}",
        "vessel:",
        f"  name: Sandreed {plan.number}",
        f"  type: {kind.type}",
        f"  rig: {kind.rig}",
        f"  length: {metres(plan, kind.length)}",
        f"  beam: {metres(plan, kind.beam)}",
        f"  draft: {metres(plan, kind.draft)}",
        f"  freeboard: {metres(plan, kind.freeboard)}",
        f"  air-draft: {metres(plan, kind.air_draft)}",
        f"  displacement: {kilogrammes(plan, kind.mass)}",
        "  flag: Ireland",
        f"  persons: {plan.crew}",
        f"  waters: {plan.waters}",
        f"  climate: {plan.climate}",
        f"  use: {plan.use}",
        f"  rule-set: {plan.rule_set}",
        f"  engine: {kind.engine}",
        f"  general-alarm: {'seven short blasts and one long on the foghorn'}",
        '  abandon-order: the skipper calls "Abandon ship" three times',
        f"  muster-place: {muster}",
    ]
    if kind.inboard:
        lines += ["  fire-port: yes", "  fire-port-place: {where: companionway, spot: lowest step}"]
    return "\n".join([*lines, *rafts_of(plan), *people_of(plan), *bill_of(plan), *gear_of(plan)]) + "\n"
