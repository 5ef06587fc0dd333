"""Where what stands in a text begins and ends, so that a change leaves comments and layout as they are."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class Laid:
    """A value, keys or a list in a text: from `start` to before `end` in characters, and the column it starts in.

    `keys` is None where it is no mapping, `items` where it is no list; `flow` ones stand in brackets.
    """

    start: int
    end: int
    column: int
    text: str = ""
    flow: bool = False
    keys: dict[str, Laid] | None = field(default=None)
    items: list[Laid] | None = field(default=None)

    @property
    def last(self) -> int:
        """Where its last character ends; blanks and comments behind it are not its own."""
        inner = list((self.keys or {}).values()) or self.items or []
        return self.end if self.flow or not inner else inner[-1].last
