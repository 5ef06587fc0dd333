"""Watches: who is on deck, from when to when."""

from collections.abc import Iterator

from generator.reading.block import Block, Fault
from generator.reading.clock import TimeOfDay
from generator.reading.fields import NEEDED, OPEN, Text, Texts


class Watch(Block):
    """A watch, the same on every day."""

    name = Text("What is it called, if it has a name?", unknown=OPEN, example="first watch")
    from_ = TimeOfDay("From when?", required=True, unknown=NEEDED, example='"20:00"')
    to = TimeOfDay("Until when?", required=True, unknown=NEEDED, example='"24:00"')
    who = Texts("Which roles are on deck?", required=True, unknown=NEEDED, most=60, example="[skipper, mate]")

    def faults(self) -> Iterator[Fault]:
        """A watch lasts some time."""
        if self.known("from_", "to") and self.from_ == self.to:
            yield Fault(
                "to", "the watch ends when it begins", "write when it ends; all day is 00:00 to 24:00"
            )
