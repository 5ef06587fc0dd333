"""What rule sets may count besides kinds of gear, and where a vessel file has it: the table of templates/carriage/aboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Many, Named, YesNo
from generator.reading.findings import Finding, Weight
from generator.reading.names import Known, Name, OtherName, Reference
from generator.reading.nearest import nearest
from generator.reading.values import given
from generator.shelves.rows import alike
from generator.shelves.shelf import File, Shelf, Tallied, twice

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

LIST, KEY = "list of a vessel file", "key of a vessel file"
"""What references call the names that a vessel file's blocks give: paths of lists, and of keys."""

COUNTABLE = "gear or countable"
"""What references call the things that rows count: names of the gear list, and what stands on the shelf of countables."""


class Countable(Block):
    """Something a row may count, and the entries of a vessel file that are it."""

    called = "name"
    name = Name("What do rule sets call it?", required=True)
    each = Reference("Of which list does every entry count?", LIST)
    where = Named(
        Name("Which word has the key?"),
        "Which key of the entries that count has which word?",
        names=Reference("Which key?", KEY),
    )
    has = Reference("Which key is given where it is aboard?", KEY)
    word = OtherName("Which word must stand in its name?")
    amount = Reference("Which key says how much an entry is?", KEY)
    packed = Reference("Which key says how much it is on the list of a grab bag?", KEY)
    in_raft = Reference("Which key says how much of it a packed raft holds?", KEY)
    drinking_water = YesNo("Is it drinking water, of which checks of their own speak?")
    for_each = YesNo("May an entry stand for one at each person?")

    def faults(self) -> Iterator[Fault]:
        """It is found in one way, and in one list."""
        ways = [key for key in ("each", "where", "has") if key in self.__dict__]
        if len(ways) != 1:
            yield Fault(
                ways[-1] if ways else "name",
                f"'{self.name}' is found in {'several ways' if ways else 'no way'}",
                "write one of: each, where, has",
            )
        elif len({path.rpartition(".")[0] for path in self.where}) > 1:
            yield Fault("where", "its keys are of several lists", "write keys of one list")

    @property
    def list_path(self) -> str:
        """The list or block of a vessel file that holds it: "radio.sets"."""
        key = next(iter(self.where), "") or given(self.has, "")
        return given(self.each, "") or key.rpartition(".")[0]

    @property
    def key(self) -> str:
        """The key of a vessel file below which it stands: "radio"."""
        return self.list_path.partition(".")[0]


class Countables(Tallied):
    """The table of countables."""

    countables = Many(Countable, "What may be counted?", required=True, distinct=True)


def _hold_together(files: Sequence[File[Countables]]) -> Iterator[Finding]:
    """Each is called by its own name, and no two are the same entries of a vessel file."""
    yield from twice((given(each.name, ""), each, "name") for each in _all(files))
    yield from alike(
        (
            ((each.each, tuple(sorted(each.where.items())), each.has, each.word), each.place("name"))
            for each in _all(files)
        ),
        "another countable is the same entries of a vessel file",
        "count them by one name",
    )


def _agree(files: Sequence[File[Countables]], known: Known) -> Iterator[Finding]:
    """A word is one that its key takes; drinking water is called so on the gear list too, for there it is counted in pieces."""
    for each in _all(files):
        if each.drinking_water is True and each.name not in known.get("gear", ()):
            yield Finding(
                "file.bad-value",
                Weight.DEFECT,
                f"no kind of gear is called '{each.name}'",
                each.place("name"),
                "call it as the kind of gear that is drinking water",
            )
        for path, said in each.where.items():
            allowed = known.get(f"word of {path}", ())
            if path in known.get(KEY, ()) and said not in allowed:
                yield Finding(
                    "file.bad-value",
                    Weight.DEFECT,
                    f"'{said}' is no word of {path}",
                    each.where.places[path],
                    nearest(said, sorted(allowed)) if allowed else "name a key that takes words of a list",
                )


def _all(files: Sequence[File[Countables]]) -> Iterator[Countable]:
    for file in files:
        yield from file.block.countables


COUNTABLES = Shelf(
    "countables",
    "carriage/aboard/*.yaml",
    Countables,
    "What rule sets may count besides kinds of gear, and where a vessel file has it.",
    gives=lambda files: {"countable": [given(each.name, "") for each in _all(files)]},
    holds_together=_hold_together,
    agrees=_agree,
)


def countables() -> dict[str, Countable]:
    """Every countable by name; raises ShelfFault."""
    return {given(each.name, ""): each for each in _all(COUNTABLES.files())}
