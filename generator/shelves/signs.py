"""Signs as shelves hold them: a few shapes in the colour of the text around them."""

from __future__ import annotations

import re

from generator.reading.fields import Misread, Schema, Single
from generator.reading.nearest import shortened

_SHAPES = re.compile(
    r"(?:<(?:path|circle|rect)(?: (?:d|cx|cy|r|x|y|width|height|rx|fill|stroke-width)=\"[A-Za-z0-9 .-]+\")+ ?/>)+",
    re.ASCII,
)


class Sign(Single[str]):
    """Shapes of SVG on a field of 48 by 48, drawn with lines 4 wide: path, circle and rect, printed as they stand."""

    kind = "sign"
    usual = '<path d="M8 40 24 8l16 32z"/>'

    def read(self, text: str) -> str:
        """The shapes as typed; refuses whatever else is markup, as it would be obeyed."""
        if not _SHAPES.fullmatch(text):
            raise Misread(
                f"'{shortened(text)}' is no sign",
                f"write shapes of SVG, path, circle or rect, in a field of 48 by 48, for example {self.example}",
            )
        return text

    def schema(self) -> Schema:
        """Text that begins with a shape and ends with one."""
        return {"type": "string", "pattern": "^<(path|circle|rect) .*/>$"}
