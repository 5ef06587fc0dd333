"""Signs as shelves hold them: a few shapes in the colour of the text around them."""

from __future__ import annotations

import re

from generator.reading.fields import Misread, Schema, Single
from generator.reading.nearest import shortened

_NUMBER = r"-?[0-9]+(?:\.[0-9]+)?"
_LOOKS = {"fill": "none|currentColor", "stroke-width": _NUMBER}
"""What any shape may say of its look, and what may stand there."""
_FORMS = {
    "path": {"d": r"[Mm][MmLlHhVvCcSsQqTtAaZz0-9 .,-]*[Zz0-9]"},
    "circle": {"cx": _NUMBER, "cy": _NUMBER, "r": _NUMBER},
    "rect": {"x": _NUMBER, "y": _NUMBER, "width": _NUMBER, "height": _NUMBER},
}
"""What each shape must say to be drawn, and what may stand there."""
_ALSO = {"rect": {"rx": _NUMBER}}
_SHAPE = re.compile(r"<([a-z]+)((?: [a-z-]+=\"[^\"<>&]*\")*) ?/>")
_SAID = re.compile(r" ([a-z-]+)=\"([^\"]*)\"")


class Sign(Single[str]):
    """Shapes of SVG on a field of 48 by 48, drawn with lines 4 wide: path, circle and rect, printed as they stand."""

    kind = "sign"
    usual = '<path d="M8 40 24 8l16 32z"/>'

    def read(self, text: str) -> str:
        """The shapes as typed; refuses whatever else is markup, as it would be obeyed, and what nothing is drawn of."""
        if not text or _SHAPE.sub("", text) or not all(map(_drawn, _SHAPE.finditer(text))):
            raise Misread(
                f"'{shortened(text)}' is no sign",
                f"write shapes of SVG, path, circle or rect, in a field of 48 by 48, for example {self.example}",
            )
        return text

    def schema(self) -> Schema:
        """Text that begins with a shape and ends with one."""
        return {"type": "string", "pattern": "^<(path|circle|rect) .*/>$"}


def _drawn(shape: re.Match[str]) -> bool:
    """Whether a shape says once all that it must, each in figures, and nothing else."""
    name, said = shape[1], _SAID.findall(shape[2])
    form = _FORMS.get(name)
    if form is None or len({key for key, _ in said}) < len(said):
        return False
    allowed = {**form, **_ALSO.get(name, {}), **_LOOKS}
    return form.keys() <= {key for key, _ in said} and all(
        key in allowed and re.fullmatch(allowed[key], value, re.ASCII) and _in_the_field(name, key, value)
        for key, value in said
    )


def _in_the_field(name: str, key: str, value: str) -> bool:
    """Whether a figure keeps to the field of 48 by 48: a middle, corner or size; of a path where it begins."""
    if key in _LOOKS:
        return True
    figures = re.findall(_NUMBER, value, re.ASCII)
    if name == "path":
        return len(figures) > 2 and all(0 <= float(each) <= 48 for each in figures[:2])
    low = 0 if key in ("cx", "cy", "x", "y", "rx") else 0.1
    return low <= float(figures[0]) <= 48
