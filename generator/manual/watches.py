"""Who is on deck and who is below in each stretch of the day, as her watches have it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from generator.reading.clock import DAY_MIN, Clock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.people import Person
    from generator.vessel.vessel import Vessel
    from generator.vessel.watches import Watch


@dataclass(frozen=True)
class Stretch:
    """A part of the day in which the same people are on deck; `watches` are those that it lies in, `below` all others."""

    begins: Clock
    ends: Clock
    watches: tuple[Watch, ...]
    on: tuple[str, ...]
    below: tuple[Person, ...]

    @property
    def lasts_min(self) -> int:
        """How long it lasts, in minutes."""
        return self.ends - self.begins

    @property
    def span(self) -> str:
        """From when to when: 20:00-24:00."""
        return f"{self.begins}-{self.ends}"

    @property
    def wakes(self) -> str:
        """Who goes below to wake the others: the last named of several on deck; "" where one alone must stay there."""
        return self.on[-1] if len(self.on) > 1 else ""


def stretches(vessel: Vessel) -> tuple[Stretch, ...]:
    """The day from midnight to midnight, parted wherever a watch begins or ends; none where she keeps no watches."""
    watches = [each for each in vessel.watches if each.known("from_", "to")]
    if not watches:
        return ()
    ends = {0, DAY_MIN, *(at for each in watches for span in _spans(each) for at in span)}
    marks = sorted(ends)
    return tuple(_stretch(vessel, watches, first, last) for first, last in pairwise(marks))


def _spans(watch: Watch) -> Iterator[tuple[int, int]]:
    """When it is kept, within one day: a watch over midnight in two parts."""
    first, last = int(watch.from_ or 0) % DAY_MIN, int(watch.to or 0)
    if first < last:
        yield first, last
    else:
        yield first, DAY_MIN
        yield 0, last


def _stretch(vessel: Vessel, watches: list[Watch], first: int, last: int) -> Stretch:
    kept = tuple(
        each for each in watches if any(begins <= first and last <= ends for begins, ends in _spans(each))
    )
    on = tuple(dict.fromkeys(role for each in kept for role in each.who))
    below = tuple(person for person in vessel.people if person.role not in on)
    return Stretch(Clock(first), Clock(last), kept, on, below)
