"""The operator of a boat's base as the manual shows it: which of the colours are printed, and why another is not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.calc.colours import chroma, contrast_on_white, hue_deg
from generator.reading.colours import parts_of
from generator.shelves.limits import Case, least

if TYPE_CHECKING:
    from generator.vessel.vessel import Vessel

_GREY = 0.15  # chroma: what has less is seen as a grey
# Hues from and to, in degrees, that are seen as one of the four safety colours (ISO 3864-1); the bounds are our own choice.
_SAFETY = {
    "red": ((345, 360), (0, 20)),
    "yellow": ((45, 70),),
    "green": ((80, 170),),
    "blue": ((190, 250),),
}
_SAYS = {
    "red": "fire and what is forbidden",
    "yellow": "a warning",
    "green": "life-saving",
    "blue": "what must be done",
}


def why_not(colour: str) -> str:
    """Why a colour is not printed, in words; "" where it is."""
    parts = parts_of(colour)
    if chroma(parts) >= _GREY:
        hue = hue_deg(parts)
        for name, bands in _SAFETY.items():
            if any(low <= hue <= high for low, high in bands):
                return f"is seen as {name}, and {name} says: {_SAYS[name]}"
    limit, contrast = least("contrast on white", Case()), contrast_on_white(parts)
    if limit is not None and limit.least is not None and contrast < limit.least:
        return f"has a contrast of {contrast:.1f} to 1 on white, and {limit.least:g} to 1 is the least"
    return ""


def colours(vessel: Vessel) -> tuple[str, ...]:
    """The operator's colours that are printed, beside words and lines that say the same without them."""
    base = vessel.charter_base
    known = [each for each in base.colours if isinstance(each, str)] if base is not None else []
    return tuple(each for each in known if not why_not(each))
