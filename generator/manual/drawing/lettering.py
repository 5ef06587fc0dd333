"""What is written on the plan: the drawing's own words, and the names of levels, spaces and things."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import names_in
from generator.reading.nearest import folded
from generator.shelves.spaces import DECK

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.manual.inventory import Item
    from generator.manual.printing import Printer
    from generator.vessel.vessel import Vessel


class Lettering:
    """What stands on the drawing: its own words by their keys, the names of spaces and of things.

    `open_boat`: there is nothing below, so that her one level is not "on deck".
    """

    def __init__(self, printer: Printer, written: set[str], open_boat: bool):
        self.printer, self.written, self.open_boat = printer, written, open_boat

    def __call__(self, key: str) -> str:
        """A word of the drawing by its key."""
        return self.printer.say(f"drawing.{key.replace(' ', '-')}")

    def level(self, name: str) -> str:
        """The name of a level."""
        return self("in-the-boat" if self.open_boat and name == DECK else name)

    def space(self, space: Space) -> str:
        """The name of a space: the boat's own where her file writes it, else what the preset's is called."""
        if space.own or folded(space.name) in self.written:
            return space.name
        return self.printer.say(f"spaces.{space.name}")

    def numbered(self, item: Item) -> str:
        """An item with its number."""
        return f"{item.number} {self.printer.named(item.name)}"


def written_in(vessel: Vessel, items: tuple[Item, ...]) -> set[str]:
    """The names of spaces as the vessel's file writes them, folded."""
    places = [*(item.where for item in items), (vessel.vessel.muster_place if vessel.vessel else "") or ""]
    return {name for place in places for name in names_in(place)}
