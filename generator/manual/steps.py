"""Procedures and their steps as printed for one vessel."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.reading.names import condition

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from generator.manual.inventory import Item
    from generator.vessel.raft import Raft


@dataclass(frozen=True)
class Step:
    """A step as printed: `text` one action, `unless` its exceptions, `who` the roles, `gear` the items it takes."""

    id: str
    number: int
    text: str
    unless: str
    caution: str
    why: str
    who: tuple[str, ...]
    gear: tuple[Item, ...]
    place: str
    source: str
    standing: str
    confirm: str = ""


@dataclass(frozen=True)
class Link:
    """Another procedure to go to, by name and title; `on_card`: it hangs somewhere, else it stands in book and site alone.

    `at_once`: it is an emergency of seconds.
    """

    id: str
    title: str
    on_card: bool
    at_once: bool = False


@dataclass(frozen=True)
class Leave:
    """When a procedure is left for another one of a `kind`: the question, and where it leads; several where several rafts have one.

    `other_raft`: of a procedure of one raft it leads to those of the others.
    """

    words: str
    kind: str
    source: str
    standing: str
    to: tuple[Link, ...] = ()
    other_raft: bool = False


@dataclass(frozen=True)
class End:
    """When it is over, and who says so."""

    words: str
    source: str
    standing: str


@dataclass(frozen=True)
class Procedure:
    """A procedure as printed. `raft` is the raft it is about, if one; `notes` the skipper's own words as HTML.

    `sign`: the shapes beside its title, as SVG. `aside`: it says what happens otherwise, nobody is sent on to it; `call_script`: the words of the call for help stand with it.
    `urgency`: 1 seconds, 2 minutes, 3 hours, 0 not said; `first_minute`: how many of its steps belong to that, 0 where it tells none apart.
    `leaves`: when it is left for another; `end`: when it is over; `over`: what follows then; `when_over`: it is that.
    """

    id: str
    kind: str
    title: str
    intro: str
    ground: str
    sign: str
    emergency: bool
    bill: str
    cards: tuple[str, ...]
    steps: tuple[Step, ...]
    raft: Raft | None = None
    notes: tuple[str, ...] = field(default=())
    aside: bool = False
    call_script: bool = False
    urgency: int = 0
    first_minute: int = 0
    leaves: tuple[Leave, ...] = ()
    end: End | None = None
    over: Link | None = None
    when_over: bool = False

    @property
    def then(self) -> int:
        """The number of the first step after the first minute; 0 where none is told apart."""
        return self.first_minute + 1 if 0 < self.first_minute < len(self.steps) else 0


def holds(when: Iterable[str], when_any: Iterable[str], facts: Mapping[str, bool]) -> bool:
    """Whether all of `when`, and one of `when_any` if there are any, are true."""
    for each in when:
        name, wanted = condition(each)
        if facts[name] != wanted:
            return False
    one_of = tuple(when_any)
    return not one_of or any(facts[name] == wanted for name, wanted in map(condition, one_of))
