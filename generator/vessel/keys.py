"""The keys of the three files as Markdown tables, for the README; generated from the fields, so they cannot drift."""

from __future__ import annotations

from generator.reading.fields import ESTIMATE, NEEDED, Choice, Compound, Many, Named, Texts, YesNo
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

_EFFECTS = {NEEDED: "stops publishing", ESTIMATE: "estimate left out"}


def keys_tables() -> str:
    """One table a block, in the order of the file: key, whether it must be there, what it answers, how it is written."""
    parts: list[str] = []
    seen: set[type] = set()
    _block(Vessel, "vessel.yaml", parts, seen)
    _block(Voyage, "voyage.yaml", parts, seen)
    return "\n".join(parts).strip()


def _block(kind, title, parts, seen):
    seen.add(kind)
    parts += [
        "",
        f"**`{title}`** — {(kind.__doc__ or '').strip()}",
        "",
        "| key | must | answers | written | `unknown` | for |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    later = []
    for key, field in kind.fields.items():
        effect = _EFFECTS.get(field.unknown, "printed as such")
        parts.append(
            f"| `{key}` | {'yes' if field.required else ''} | {_cell(field.question)} | {_cell(_written(field))} | {effect} | {field.reader} |"
        )
        if isinstance(field, Compound) and field.blocks:
            later.append((field.blocks, _title(field, key)))
    for block, name in later:
        if block not in seen:
            _block(block, name, parts, seen)


def _title(field, key):
    if isinstance(field, Named):
        return f"{key} → emergency → duty"
    return f"{key} (list)" if isinstance(field, Many) else key


def _written(field):
    if isinstance(field, Named):
        return "names (emergencies and duties are listed above), each with its entries below"
    if isinstance(field, Many):
        return "list of blocks, below"
    if isinstance(field, Compound):
        return "block, below"
    if isinstance(field, (Choice, YesNo)):
        return " · ".join(field.choices)
    if isinstance(field, Texts) and field.choices:
        return "list of: " + " · ".join(field.choices)
    return field.example


def _cell(text):
    return text.replace("|", "\\|")
