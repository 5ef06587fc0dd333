"""Hull types: each file of templates/symbols/hulls gives the outline and the usual spaces of one, as parts of her size."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Count, Many, Misread, One, Schema, Single, Texts, YesNo
from generator.reading.findings import Finding, Weight
from generator.reading.names import Figure, Name, OtherName
from generator.reading.nearest import folded, shortened
from generator.reading.values import Band, given
from generator.shelves.faults import ShelfFault
from generator.shelves.shelf import File, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

LEVELS = ("deck", "below")
_FOLDER = "symbols/hulls"
_FIGURE = r"(-?[0-9]+(?:\.[0-9]+)?)"


class Stretch(Single[Band]):
    """From one end to the other, as parts of a measure of the hull, the lesser first: -0.5 to 0.5."""

    kind = "stretch"
    usual = "0 to 1"

    def __init__(self, question: str, *, low: float = 0.0, high: float = 1.0, required: bool = False) -> None:
        super().__init__(question, required=required)
        self.low, self.high = low, high

    def read(self, text: str) -> Band:
        """Both ends."""
        match = re.fullmatch(rf"{_FIGURE} to {_FIGURE}", text)
        if not match:
            raise Misread(
                f"'{shortened(text)}' is not a stretch", f"write both ends, for example {self.example}"
            )
        first, last = float(match[1]), float(match[2])
        if not self.low <= first < last <= self.high:
            raise Misread(
                f"'{text}' is no stretch from {self.low:g} to {self.high:g}",
                "write the lesser end first, and look at both figures again",
            )
        return Band(first, last, text)

    def schema(self) -> Schema:
        """Text of two figures."""
        return {"type": "string", "pattern": f"^{_FIGURE} to {_FIGURE}$"}


class Usual(Block):
    """The dimensions that a boat of the type usually has."""

    length = Figure("How long is such a boat usually, in metres?", low=4, high=40, required=True)
    beam = Figure("How wide is she usually, in metres?", low=1, high=20, required=True)


class HullBody(Block):
    """A boat-shaped part of the outline: the hull, one of two hulls, a float."""

    along = Stretch("From where to where of the length does it lie?", required=True)
    off = Stretch("From where to where of half the beam does it lie, each side?", required=True)
    transom = Figure("How wide is its transom, as a part of its width?", high=1, required=True)
    fullest = Figure("At which part of its length is it fullest?", low=0.05, high=0.95, required=True)
    bow = Figure("With which power does it narrow towards the bow?", low=1, high=6, required=True)


class HullPlatform(Block):
    """What joins hulls on one level: a bridgedeck, or a net."""

    level = Choice("On which level is it?", LEVELS, required=True)
    along = Stretch("From where to where of the length does it reach?", required=True)
    across = Stretch("From where to where of half the beam, negative to port?", low=-1, required=True)
    net = YesNo("Is it a net?")


class PresetSpace(Block):
    """A usual space of the type, where it lies and what it means."""

    called = "name"
    name = Name("What is it called?", required=True)
    level = Choice("On which level is it?", LEVELS, required=True)
    along = Stretch("From where to where of the length does it lie?", required=True)
    across = Stretch("From where to where of half the beam, negative to port?", low=-1)
    off = Stretch("The same for a space on both sides: from its inner to its outer edge?")
    shown = Choice("Does the plan always show it, or only when used?", ("always", "used"), required=True)
    mark = Choice("Which drawing stands in it?", ("mast",))
    also = Texts("Which other names has it?", of=OtherName("Which other name has it?"))
    exposed = YesNo("Do the seas break there?")
    engine = YesNo("Does the engine stand there, so that an engine fire burns there?")
    cooking = YesNo("Is that where people cook?")
    steering = YesNo("Is that where she is steered?")

    def faults(self) -> Iterator[Fault]:
        """A space lies across the boat, or on both sides."""
        if (self.across is None) == (self.off is None):
            said = "neither 'across' nor 'off'" if self.off is None else "both 'across' and 'off'"
            yield Fault(
                "name",
                f"'{self.name}' says {said}",
                "write 'across' for a space that lies in one piece, 'off' for one on both sides",
            )


class HullType(Tallied):
    """A hull type: outline, usual spaces, and what else follows from it."""

    order = Count("Which place has it among the hull types?", low=1, required=True)
    usual = One(Usual, "Which dimensions has such a boat usually?", required=True)
    stands_in = YesNo("Is it taken where a boat's type is not known?")
    multihull = YesNo("Has she several hulls, so that she may float upside down?")
    lived_in_hulls = YesNo("Do people live in each of her two hulls, so that each needs a way out?")
    breadth = Stretch("Between which parts of the length is the beam of such a boat?", required=True)
    bodies = Many(HullBody, "Which boat-shaped parts has the outline?", required=True)
    platforms = Many(HullPlatform, "What joins her hulls?")
    spaces = Many(PresetSpace, "Which spaces has she usually?", required=True, distinct=True)


def _hold_together(files: Sequence[File[HullType]]) -> Iterator[Finding]:
    """One type stands in where none is known; no name means two spaces of one type."""
    standing_in = [each for each in files if each.block.stands_in is True]
    for each in standing_in[1:] or ([] if standing_in else files[:1]):
        yield _fault(
            each.block,
            "stands-in",
            "one hull type, and one only, is taken where a boat's type is not known",
            "write stands-in: yes in the file of that type alone",
        )
    for file in files:
        seen: dict[str, str] = {}
        for space in file.block.spaces:
            own = given(space.name, "")
            for number, name in enumerate((own, *space.also)):
                if folded(name) in seen and (number or seen[folded(name)] != own):
                    place = space.place_in("also", number - 1) if number else space.place("name")
                    yield Finding(
                        "file.bad-value",
                        Weight.DEFECT,
                        f"'{name}' is also a name of the space '{seen[folded(name)]}'",
                        place,
                        "keep it at the space that people mean by it",
                    )
                seen.setdefault(folded(name), own)


def _fault(block: Block, key: str, message: str, remedy: str) -> Finding:
    return Finding("file.bad-value", Weight.DEFECT, message, block.place(key), remedy)


HULLS = Shelf(
    "hull types",
    f"{_FOLDER}/*.yaml",
    HullType,
    "Outline and usual spaces of a hull type; the name of the file is the word for it.",
    gives=lambda files: {"hull type": [each.stem for each in files]},
    holds_together=_hold_together,
)


def hull_types() -> tuple[str, ...]:
    """The hull types on the shelf in their order, by the names of their files; raises ShelfFault."""
    return tuple(each.stem for each in sorted(HULLS.files(), key=lambda file: given(file.block.order, 0)))


def hull(name: str) -> HullType:
    """The hull type of that name; where there is none, the one that stands in. Raises ShelfFault."""
    files = HULLS.files()
    found = next((each.block for each in files if each.stem == name), None)
    found = found or next((each.block for each in files if each.block.stands_in is True), None)
    if found is None:
        raise ShelfFault(_hold_together(files))
    return found
