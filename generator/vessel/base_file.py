"""The base file: read where a boat's file names it; of whom she calls, the base is filled in from it."""

from __future__ import annotations

from pathlib import Path

from generator.machine.opening import NotPlain, Outside, content, resolved
from generator.reading.findings import Finding
from generator.reading.nodes import Mapping, Source
from generator.reading.tree import SIZE_LIMIT_BYTES, read_bytes
from generator.vessel.base import Base
from generator.vessel.confines import Confines
from generator.vessel.named_file import Shared, shared_file
from generator.vessel.ours import is_ours, says_format
from generator.vessel.particulars import Contact
from generator.vessel.vessel import Vessel

KEY = "base"
FILE = "base.yaml"
KIND = "base"
"""The kind of contact that it is."""
_NONE = frozenset(("none", "None", "NONE"))
_BASE_FILE = Shared(
    KEY,
    "base file",
    f"../{FILE}",
    "the boat's folder",
    "base.file",
    ("vessel.yaml", "private.yaml", "voyage.yaml"),
    "it tells of one boat alone",
)


def base_of(
    tree: Mapping, folder: Path, within: Confines, special: frozenset[str]
) -> tuple[Mapping | None, Path | None, list[Finding]]:
    """The tree of her base file, and where it lies, its links resolved; None where she names none or says that she has none."""
    return shared_file(_BASE_FILE, tree, folder, within, special | _NONE)


def fill_in(vessel: Vessel, base: Base, path: Path) -> None:
    """Gives a vessel her base; it is called where she names no base of her own, and never before a rescue centre."""
    vessel.__dict__["charter_base"] = base
    vessel.__dict__["base_file"] = path
    contacts = list(vessel.contacts)
    if not any(each.kind == KIND for each in contacts) and (
        base.phone is not None or base.channel is not None
    ):
        contacts.append(_contact(base))
    vessel.__dict__["contacts"] = sorted(contacts, key=lambda each: each.kind != "rescue centre")


def _contact(base: Base) -> Contact:
    """The base as one of those whom she calls; its values stand where they stand in the base file."""
    node = base.node
    if isinstance(node, Mapping):
        shown = Mapping(node.line, node.column, node.source)
        places = {"who": "operator", "phone": "phone", "channel": "channel"}
        for key, there in places.items():
            if there in node.entries:
                shown.entries[key], shown.keys[key] = node.entries[there], node.keys[there]
        node = shown
    made = Contact(node, base.path)
    made.__dict__.update(who=base.operator, kind=KIND, phone=base.phone, channel=base.channel)
    if base.is_freed(Base.phone):
        made.__dict__["_freed"] = {Contact.phone.key}
    return made


def lies_beside(vessels: Path) -> bool:
    """Whether a base file lies in a folder of vessels, for a boat that is about to have a folder there: its name and format say so."""
    try:
        data = content(vessels / FILE, (resolved(vessels),), SIZE_LIMIT_BYTES)
    except (OSError, Outside, NotPlain):
        return False
    tree, _ = read_bytes(data, Source(FILE))
    return tree is not None and is_ours(says_format(tree, data))
