"""Colours of a screen (sRGB): how much one stands out from white, and which hue it has."""

from __future__ import annotations

import colorsys

RGB = tuple[int, int, int]
"""Red, green and blue, each from 0 to 255."""


def contrast_on_white(colour: RGB) -> float:
    """The contrast of a colour with white, from 1 (white itself) to 21 (black); WCAG 2, "contrast ratio" and "relative luminance"."""
    red, green, blue = (_linear(each / 255) for each in colour)
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return 1.05 / (luminance + 0.05)


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def hue_deg(colour: RGB) -> float:
    """The hue: 0 red, 60 yellow, 120 green, 240 blue; 0 of a grey too."""
    return colorsys.rgb_to_hls(*(each / 255 for each in colour))[0] * 360


def chroma(colour: RGB) -> float:
    """How far a colour is from a grey, from 0 to 1."""
    return (max(colour) - min(colour)) / 255
