"""Vessels and items for the tests of the drawing, read from text like any vessel file."""

from generator.manual.inventory import Item
from generator.manual.printing import first_printer
from generator.reading.findings import Place
from generator.reading.nodes import Source
from generator.reading.tree import read
from generator.vessel.loading import VesselLoader
from generator.vessel.vessel import Vessel

words = first_printer()


def vessel(hull="monohull", length="12 m", beam="3.8 m", muster="cockpit", deck="", helm=""):
    """A vessel with what the drawing reads: type, size, muster place and deck block."""
    steered = f", helm: {helm}" if helm else ""
    text = f"""
format: 1
vessel: {{name: Tern, type: {hull}, length: {length}, beam: {beam}, muster-place: {muster}{steered}}}
"""
    if deck:
        text += f"deck: {deck}\n"
    tree, findings = read(text, Source("vessel.yaml"))
    assert tree is not None and not findings
    return VesselLoader().block(Vessel, tree, "")


def item(number=1, where="cockpit", side="", kind="other", point=None, what="thing"):
    aft, off = point or (None, None)
    return Item(number, what, kind, 1, where, side, "", None, Place("vessel.yaml"), aft_m=aft, off_m=off)
