"""What steps print of a boat: words of her own description, put together or missing, each with the key it comes from.

None is text yet: a printer says it in its language.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from generator.manual.crew import called, in_command, next_in_command
from generator.reading.findings import Place
from generator.reading.remedies import like
from generator.reading.values import NotKnown
from generator.vessel.radio import RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from generator.manual.printing import Printer, Situated
    from generator.reading.block import Block
    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import Lifejackets
    from generator.vessel.people import Person


@dataclass(frozen=True)
class Missing:
    """A word the file does not give: which key would, where it belongs, what it would answer, and how it is written."""

    key: str
    place: Place
    question: str = ""
    written: str = ""

    @property
    def in_words(self) -> str:
        """What is missing as a skipper calls it: the painter's length."""
        path, _, last = self.key.rpartition(".")
        named = re.search(r"([^.\[]*)\[([^\]]*)\]$", path)
        thing = (
            named[2] if named and not named[2].isdigit() else named[1] if named else path.rpartition(".")[2]
        )
        what = last.replace("-", " ")
        return f"the {thing.replace('-', ' ')}'s {what}" if thing else what


@dataclass(frozen=True, eq=False)
class Word:
    """What a step prints of the boat's own: the value under a key of a block, of "where" the whole place, of WHOLE the fitting."""

    block: Block
    name: str

    @property
    def key(self) -> str:
        """The key path it comes from."""
        return f"{self.block.path}.{_key(self.name)}".strip(".")

    @property
    def place(self) -> Place:
        """Where that stands."""
        return self.block.place(_key(self.name))

    def said_by(self, printer: Printer) -> str:
        """The word in a language."""
        if self.name == WHOLE:
            return printer.text(self.block)
        if self.name != WHERE or "side" not in type(self.block).fields:  # a hatch: its space is all of it
            said = printer.in_step(self.block, self.name)
            return printer.without_article(said) if self.name in _NAMES[type(self.block) is Raft] else said
        return printer.whereabouts(cast("Situated", self.block))


class Worked(Word):
    """How a stop is worked; where its space must be opened for it, that is said with it."""

    def said_by(self, printer: Printer) -> str:
        """The word in a language."""
        how = super().said_by(printer)
        inside = self.block.__dict__.get("from_outside") is False
        return printer.say("stop.inside", how=how) if inside else how


class Sparking(Word):
    """Where a stop is that makes a spark; it is said with the place."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        return printer.say("stop.sparks", place=super().said_by(printer))


@dataclass(frozen=True, eq=False)
class Served(Word):
    """What is said of one of several stops, behind what it serves."""

    said: Word

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        serves = printer.in_step(self.block, "serves")
        return printer.say("row.serves", serves=serves, said=self.said.said_by(printer))


class Sized(Word):
    """Where lifejackets are, behind their size."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        size = printer.in_step(self.block, "size")
        return printer.say("row.serves", serves=size, said=super().said_by(printer))


class Opened(Word):
    """How a hatch is opened, behind its place."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        place = printer.whereabouts(cast("Situated", self.block))
        return printer.say("row.serves", serves=place, said=super().said_by(printer))


_TOLD = {"distress_button": "set.button", "position_shown": "set.position"}
"""How a value of a set is said behind its place, where it does not speak for itself."""


@dataclass(frozen=True, eq=False)
class Reached(Word):
    """Where a radio or beacon is, and how it is worked: of the values named in `told` those that the file gives."""

    told: tuple[str, ...]

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        place = super().said_by(printer)
        how = "; ".join(self._value(name, printer) for name in self.told if self.block.known(name))
        return printer.say("set.reached", place=place, how=how) if how else place

    def _value(self, name: str, printer: Printer) -> str:
        if name == "power" and isinstance(self.block, RadioSet) and self.block.always_on:
            return printer.say("set.always-on")
        value = printer.in_step(self.block, name)
        return printer.say(_TOLD[name], place=value) if name in _TOLD else value


class NotKept(Word):
    """In the place of where a thing is kept: that none is, and is to be brought."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        return printer.say("kept.none")


class AtSide(Word):
    """A space, and the side that its block names beside it."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        space, side = super().said_by(printer), self.block.__dict__.get("side")
        name = printer.choice("side", side) if side in ("port", "starboard") else ""
        return f"{space}, {name}" if name and name not in space else space


class Driven(Word):
    """An engine by its name, with what it turns."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        drive = printer.in_step(self.block, "drive")
        return printer.say("row.drive", engine=printer.in_step(self.block, self.name), drive=drive)


@dataclass(frozen=True, eq=False)
class Several:
    """Words one after the other, each said once."""

    words: tuple[Word, ...]

    @property
    def first(self) -> Word:
        """The first of them, which stands for all where one place must be named."""
        return self.words[0]

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        return "; ".join(dict.fromkeys(word.said_by(printer) for word in self.words))


@dataclass(frozen=True, eq=False)
class Brought:
    """Sorts of things in a row, by their labels."""

    labels: tuple[str, ...]

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        *before, last = map(printer.say, self.labels)
        return printer.say("bring.and", before=", ".join(before), last=last) if before else last


def brought(sorts: Iterable[tuple[str, ...]]) -> Brought | None:
    """What is brought along, by the first property of each sort; None where it is nothing."""
    labels = tuple(f"bring.{sort[0].replace(' ', '-')}" for sort in sorts)
    return Brought(labels) if labels else None


class Together:
    """What is put together of people, rafts and things."""

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        raise NotImplementedError


@dataclass(frozen=True, eq=False)
class Rafts:
    """The rafts by their names."""

    rafts: tuple[Raft, ...]

    def said_by(self, printer: Printer) -> str:
        """The names in a row."""
        return printer.in_a_row([printer.without_article(str(raft.name)) for raft in self.rafts])


@dataclass(frozen=True, eq=False)
class Crew(Word):
    """Who goes into a raft, a role of several with its number."""

    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """The roles in a row."""
        return ", ".join(called(role, self.people, printer) for role in getattr(self.block, self.name))


@dataclass(frozen=True, eq=False)
class Crews:
    """Every raft with who goes into it; the spare ones, into which nobody does, behind them."""

    rafts: tuple[tuple[Raft, Crew], ...]
    spare: tuple[Raft, ...] = ()

    def said_by(self, printer: Printer) -> str:
        """One sentence a raft."""
        told = [printer.crew(str(raft.name), crew.said_by(printer)) for raft, crew in self.rafts]
        told += [printer.spare(str(raft.name)) for raft in self.spare]
        return " ".join(told)


@dataclass(frozen=True, eq=False)
class Charge:
    """A role that somebody else holds, with all who are aboard."""

    held: Person
    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """One sentence: the role, and who holds it, as far as the file says."""
        role = called(str(self.held.role), self.people, printer)
        role = f"{role[:1].upper()}{role[1:]}"
        helper = self.held.helper
        if isinstance(helper, str) and any(each.role == helper for each in self.people):
            return printer.say("row.held", role=role, helper=helper)
        return printer.say("row.held-by-the-nearest", role=role)


@dataclass(frozen=True, eq=False)
class Charges:
    """Those who are held by others, one after the other."""

    each: tuple[Charge, ...]

    def said_by(self, printer: Printer) -> str:
        """One sentence for each."""
        return " ".join(one.said_by(printer) for one in self.each)


@dataclass(frozen=True, eq=False)
class Commander:
    """Whoever has the command, as a sentence calls them."""

    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """The word behind its article."""
        return printer.without_article(in_command(self.people, printer))


@dataclass(frozen=True, eq=False)
class NextInCommand(Commander):
    """Whoever takes the command where the one who has it is down, as a sentence calls them."""

    def said_by(self, printer: Printer) -> str:
        """The role."""
        return next_in_command(self.people, printer)


@dataclass(frozen=True, eq=False)
class Alarms:
    """Alarms of a kind: the spaces they listen to, and where they sound if that is elsewhere too."""

    alarms: tuple[Alarm, ...]

    def said_by(self, printer: Printer) -> str:
        """One sentence for all of them."""
        watched, heard = dict[str, None](), dict[str, None]()
        for each in self.alarms:
            here = printer.text(each.where)
            watched |= dict.fromkeys(map(printer.text, each.watches or (here,)))
            heard |= dict.fromkeys((here, *map(printer.text, each.sounds_in)))
        alarm = printer.say(f"thing.alarm.{self.alarms[0].what}")
        spaces, places = printer.in_a_row(list(watched)), printer.in_a_row(list(heard))
        if watched.keys() == heard.keys():
            return printer.say("row.watches", alarm=alarm, spaces=spaces)
        return printer.say("row.watches-and-sounds", alarm=alarm, spaces=spaces, places=places)


Sayable = Word | Several | Brought | Rafts | Crews | Charges | Commander | Alarms | Together
Said = Sayable | Missing
WHERE, WHOLE = "where", ""
_NAMES = {False: ("what",), True: ("what", "name")}
"""Under which keys of a thing, and of a raft, stands what a step names behind its own article; a boat's name keeps hers."""


def _key(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def given_word(block: Block | None, name: str, parent: Block | None = None, parent_key: str = "") -> Said:
    """A value as a step prints it, or Missing."""
    key = _key(name)
    if block is None:
        place = parent.place(parent_key) if parent is not None else Place("vessel.yaml")
        return Missing(f"{parent_key}.{key}".lstrip("."), place)
    value = getattr(block, name)
    if value is None or isinstance(value, NotKnown) or value == "":
        field = type(block).fields.get(key)
        question = field.question if field is not None else ""
        written = f"{key}{like(field)}" if field is not None else key
        return Missing(f"{block.path}.{key}".lstrip("."), block.place(key), question, written)
    return Word(block, name)


def knife_word(raft: Raft) -> Said:
    """Where the knife of a raft is, or that none is kept there."""
    return NotKept(raft, "knife") if raft.says_none("knife") else given_word(raft, "knife")


def place_word(block: Block) -> Said:
    """Space, side and spot of a thing, or Missing."""
    return given_word(block, WHERE)


def crew_word(raft: Raft, people: Sequence[Person]) -> Said:
    """Who goes into a raft, as listed, a role of several with its number, or Missing."""
    if not raft.carries or isinstance(raft.carries, NotKnown):
        return Missing(f"{raft.path}.carries", raft.place("carries"), type(raft).carries.question)
    return Crew(raft, "carries", tuple(people))


def crews_word(rafts: Sequence[Raft], people: Sequence[Person]) -> Said:
    """Every raft with who goes into it, or that nobody does, or Missing."""
    found = [(raft, crew_word(raft, people)) for raft in rafts if not raft.says_none("carries")]
    lost = next((each for _, each in found if isinstance(each, Missing)), None)
    spare = tuple(raft for raft in rafts if raft.says_none("carries"))
    return lost or Crews(tuple((raft, each) for raft, each in found if isinstance(each, Crew)), spare)


def jackets_word(jackets: Sequence[Lifejackets]) -> Said:
    """Where lifejackets are; which size is where, if they are of several sizes in several places."""
    places = all_of(map(place_word, jackets))
    kept = {(str(each.where), str(each.side), str(each.spot)) for each in jackets}
    sizes = {str(each.size) for each in jackets if each.known("size")}
    if (
        isinstance(places, Missing)
        or min(len(kept), len(sizes)) < 2
        or not all(each.known("size") for each in jackets)
    ):
        return places
    return Several(tuple(Sized(each, WHERE) for each in jackets))


def all_of(parts: Iterable[Said]) -> Said:
    """Several places one after the other; Missing if one is missing."""
    found = list(parts)
    lost = next((part for part in found if isinstance(part, Missing)), None)
    return lost or Several(tuple(part for part in found if isinstance(part, Word)))
