"""Water through an open hole in the hull: how much comes in."""

from __future__ import annotations

import math

DISCHARGE = 0.6  # of the ideal jet through a sharp-edged hole; textbook hydraulics, common practice
GRAVITY_M_S2 = 9.81


def inflow_l_min(diameter_m: float, depth_m: float) -> float:
    """Water through a round hole so wide, so deep under the water, with nothing in the way, in litres a minute.

    Limits: neither is negative, else ValueError. As she settles the hole lies deeper, and more comes in.
    Source: textbook hydraulics (Torricelli), discharge coefficient 0.6; common practice.

    >>> round(inflow_l_min(0.050, 0.6))
    243
    """
    if diameter_m < 0 or depth_m < 0:
        raise ValueError("a hole has no negative width or depth")
    area_m2 = math.pi * diameter_m**2 / 4
    return DISCHARGE * area_m2 * math.sqrt(2 * GRAVITY_M_S2 * depth_m) * 60_000
