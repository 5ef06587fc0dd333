"""A mutant: a boat's file with one meaning changed, as a few edits of its text."""

from __future__ import annotations

from dataclasses import dataclass, field

from meanings.things import Thing

FAMILIES = {
    "lifejackets": ("lifejacket",), "watches": ("watch",), "pumps": ("pump",), "contacts": ("contact",), "escape": ("way out", "ways out"),
    "alarms": ("alarm",), "through-hulls": ("hole",), "batteries": ("batter",), "engines": ("engine",), "stops": ("stop",),
    "grab-bags": ("grab bag",), "rafts": ("raft",),
}  # fmt: skip
"""What a finding calls a thing of a block whose entry has no name of its own, or is gone."""
Edit = tuple[int, int, str]


@dataclass(frozen=True, eq=False)
class Mutant:
    """One changed file: by which operator, at which thing and key, from which words to which.

    `things` are those that a finding must stand at or name; `words` what else names them; `anywhere` is for a change of the
    whole boat, of which whatever was left as it was is the fault.
    """

    boat: str
    file: str
    operator: str
    thing: Thing
    key: str
    old: str
    new: str
    edits: tuple[Edit, ...] = field(repr=False)
    things: tuple[Thing, ...] = field(default=(), repr=False)
    words: tuple[str, ...] = ()
    anywhere: bool = False
    parts: tuple[Mutant, ...] = field(default=(), repr=False)
    """Of a swap: what is changed at each of the two, as a mutant of its own."""

    @property
    def name(self) -> str:
        """What lists call it."""
        where = f"{self.thing.path}.{self.key}".strip(".")
        called = f" ({self.thing.name})" if self.thing.name else ""
        return f"{self.boat}: {where}{called}: {self.operator}: {self.old} -> {self.new}"

    @property
    def names(self) -> tuple[str, ...]:
        """The words by which a finding may name what was changed: its own, and one of the family it belongs to."""
        family = FAMILIES.get(self.thing.top, ())
        told = (
            (self.old, self.new) if self.operator in ("answer", "ability lost") and len(self.old) > 3 else ()
        )
        return tuple(
            name for name in (*self.words, *told, *(one.name for one in self.things), *family) if name
        )

    @property
    def line(self) -> int:
        """On which line of the sound file the first change stands, from 1."""
        return self.at_line

    @property
    def at_line(self) -> int:
        """The same, by the place of the thing."""
        node = self.thing.values[self.key].node if self.key in self.thing.values else self.thing.node
        return int(node.start_mark.line) + 1

    @property
    def block(self) -> str:
        """The block of the file that it belongs to."""
        return self.thing.top

    def text(self, sound: str) -> str:
        """The changed file."""
        for start, end, new in sorted(self.edits, reverse=True):
            sound = sound[:start] + new + sound[end:]
        return sound
