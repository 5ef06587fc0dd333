"""What of a vessel is photographed, and in which file of her folder the photo lies."""

from __future__ import annotations

from pathlib import Path

from generator.machine.opening import Bounds, Outside
from generator.machine.photos import prepared
from generator.reading.block import Block
from generator.vessel.confines import not_from_here
from generator.vessel.gear import Placed
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel

Pictured = Raft | RadioSet | Beacon | Placed
"""What may name a photo."""


def photographed(vessel: Vessel) -> list[Pictured]:
    """Everything of a vessel with a place that names a photo."""
    radio = vessel.radio
    placed: tuple[Pictured, ...] = (
        *vessel.rafts,
        *(radio.sets if radio else ()),
        *(radio.beacons if radio else ()),
        *vessel.grab_bags,
        *vessel.lifejackets,
        *((vessel.tender,) if vessel.tender else ()),
        *vessel.stops,
        *vessel.batteries,
        *vessel.pumps,
        *vessel.through_hulls,
        *vessel.gear,
    )
    return [each for each in placed if isinstance(each.__dict__.get("photo"), str)]


def photo_path(vessel: Vessel, block: Block) -> Path | None:
    """The file of a thing's photo, seen from the vessel's folder; None where it names none."""
    named = block.photo if isinstance(block, Pictured) else None
    return vessel.folder / named if isinstance(named, str) and vessel.folder is not None else None


def photo_bounds(vessel: Vessel) -> Bounds:
    """Where her photos may lie: in her own folder, or in that of her class file; not where other boats' folders lie with hers."""
    within, shared = vessel.confines, vessel.class_file
    if within is None:
        return ()
    if shared is None or within.folder.is_relative_to(shared.parent):
        return (within.folder,)
    return (within.folder, shared.parent)


def photo(vessel: Vessel, block: Block, longest_px: int) -> bytes | None:
    """The photo of a thing as it is published; None where it names none. Raises Unreadable, and Outside where it lies elsewhere."""
    path, named = photo_path(vessel, block), getattr(block, "photo", None)
    if path is None:
        return None
    if not_from_here(str(named)):
        raise Outside
    return prepared(path, photo_bounds(vessel), longest_px)
