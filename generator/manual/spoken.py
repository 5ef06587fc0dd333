"""What is said aloud into a radio or dialled on a telephone: the lines of the call for help, word for word as its script has them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.said import Word

if TYPE_CHECKING:
    from generator.manual.calling import Line
    from generator.manual.printing import Printer
    from generator.vessel.particulars import Contact
    from generator.vessel.radio import Radio


@dataclass(frozen=True, eq=False)
class Spoken(Word):
    """Lines of the script, one after the other, in quotation marks."""

    lines: tuple[Line, ...]
    radio: Radio | None

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        said, *more = (said_line(each, self, printer) for each in self.lines)
        for line in more:
            said = printer.say("distress.then", before=said, line=line)
        return printer.say("distress.quoted", words=said)


def said_line(line: Line, spoken: Spoken, printer: Printer) -> str:
    """One line of the script, filled in."""
    radio = spoken.radio
    words = {
        "boat": printer.in_step(spoken.block, "name"),
        "call_sign": printer.in_step(radio, "call_sign") if radio is not None else "",
        "mmsi": printer.in_step(radio, "mmsi") if radio is not None else "",
    }
    return printer.say(line.label, **{name: words[name] for name in line.filled_with})


@dataclass(frozen=True, eq=False)
class Numbers(Word):
    """Telephone numbers; of several each with whose it is."""

    contacts: tuple[Contact, ...]

    def said_by(self, printer: Printer) -> str:
        """The numbers in a row."""
        if len(self.contacts) == 1:
            return printer.in_step(self.contacts[0], "phone")
        return "; ".join(
            printer.say("row.serves", serves=str(each.who), said=printer.in_step(each, "phone"))
            for each in self.contacts
        )
