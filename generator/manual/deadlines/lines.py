"""The deadlines of one thing: its marked dates, the lives counted from others, and the earliest of them."""

from __future__ import annotations

import functools
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple, cast

from generator.calc.expiry import add_months, end_of_life, governing, window
from generator.manual.printing import Phrase, first_printer
from generator.reading.values import Stamp, sure
from generator.shelves.lives import USUAL_CHECK, Life, Line, holds
from generator.vessel.lives import YearStamp

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from generator.manual.deadlines.things import Thing
    from generator.manual.printing import Name, Situated
    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.vessel.lives import Life as OwnLife


ENDS, USUAL = "ends", "usual"
_DATES = frozenset((Stamp, YearStamp))


@dataclass(frozen=True)
class Deadline:
    """What is `called` so is good until `last_day`; `counted` names the date that says so, `stamp` the marking as written.

    `lines` are what of it is looked at, none where it is the whole thing. `check` is the id of the check that speaks of it
    when it has passed. `firm`: what has passed is no longer good; else its usual life is over, or (`routine`) something is
    to be done again. `said_by` is who says how long the life is, "" where the date itself is marked, and `standing` how far
    that was verified. `thing` is what it is about, `at` the block that says where it lies, `window` from when until when a
    service counts as in time; `still_counts`: the thing counts as aboard also when it has passed. `brings` is what the day
    brings: again (a service, test, drill or walk-round), decision (a deferral ends), over (the voyage); "" ends a life.
    """

    called: Name
    lines: tuple[Phrase, ...]
    last_day: date
    counted: Phrase
    place: Place
    check: str
    thing: Thing = field(compare=False, repr=False)
    stamp: str = ""
    firm: bool = True
    routine: bool = False
    said_by: str = ""
    standing: str = ""
    at: Situated | None = field(default=None, compare=False)
    window: tuple[date, date] | None = None
    still_counts: bool = False
    brings: str = ""

    @property
    def kind(self) -> str:
        """What the day brings, in a word: what `brings` says, else ends (no longer good) or usual (its usual life is over)."""
        return self.brings or (ENDS if self.firm else USUAL)

    @property
    def path(self) -> str:
        """The key path of the thing in its file."""
        return self.thing.block.path

    @cached_property
    def item(self) -> str:
        """What it is called in findings and lists for whoever keeps the file."""
        return str(self.called)

    @cached_property
    def what(self) -> str:
        """What of it, as findings say it; "" where it is the whole thing."""
        return ", ".join(map(str, self.lines))

    @property
    def governs(self) -> str:
        """Which date says so, as findings say it."""
        return str(self.counted)

    @property
    def source(self) -> str:
        """Who says so, and how far that was verified, as findings say it."""
        return "; ".join(part for part in (self.said_by, self.standing) if part)

    @property
    def where(self) -> str:
        """Where the thing lies, as lists for whoever keeps the file say it."""
        return first_printer().whereabouts(self.at, exactly=False) if self.at is not None else ""


class Candidate(NamedTuple):
    """A last day out of one date of a thing."""

    counted: Phrase
    last_day: date
    key: str
    stamp: str
    said_by: str = ""
    standing: str = ""


def deadlines_of_thing(thing: Thing) -> list[Deadline]:
    """The deadlines of a thing, line by line of its kind: the earliest of its firm dates, and that of its usual ones if earlier."""
    found: list[Deadline] = []
    if _DATES.isdisjoint(map(type, thing.block.__dict__.values())):
        return found  # whatever ends is marked, or counted from a date of its own
    for line in thing.kind.lines:
        firm, usual = candidates(thing, line)
        first = _earliest(firm)
        if first:
            found.append(_deadline(thing, line, first, _line(line), line.check, firm=not line.routine))
        advised = _earliest(usual)
        if advised and (first is None or advised.last_day < first.last_day):
            what = _line(line) if line.routine else (*_line(line), _phrase("lives.usual"))
            found.append(
                _deadline(thing, line, advised, what, line.check if line.routine else USUAL_CHECK, firm=False)
            )
    return found


def _line(line: Line) -> tuple[Phrase, ...]:
    return (_phrase(f"lives.lines.{line.what}"),) if line.what else ()


@functools.cache
def _phrase(label: str) -> Phrase:
    """A phrase of the shelf without slots, made once: many things have it."""
    return Phrase(label)


def _earliest(found: list[Candidate]) -> Candidate | None:
    if len(found) < 2:
        return found[0] if found else None
    chosen = governing([(each.key, each.last_day) for each in found])
    return next((each for each in found if (each.key, each.last_day) == chosen), None)


def _deadline(
    thing: Thing, line: Line, first: Candidate, what: tuple[Phrase, ...], check: str, *, firm: bool
) -> Deadline:
    rule = line.window
    around = window(first.last_day, rule.months) if rule and firm and holds(rule.when, thing.owners) else None
    return Deadline(
        thing.called,
        what,
        first.last_day,
        first.counted,
        thing.block.place(first.key),
        check,
        thing,
        first.stamp,
        firm,
        line.routine,
        first.said_by,
        first.standing,
        _at(thing),
        around,
        line.still_counts,
        line.brought_by(first.key),
    )


def _at(thing: Thing) -> Situated | None:
    """The thing, or what it lies in: whichever first says where that is."""
    for each in thing.owners[:2]:
        if each is not None and isinstance(each.__dict__.get("where"), str):
            return cast("Situated", each)
    return None


def candidates(thing: Thing, line: Line) -> tuple[list[Candidate], list[Candidate]]:
    """Every last day that a thing has by one line: the firm ones, and those by what is usual.

    A life that the thing's own maker gives (its key `lives`) stands in for the shelf's from the same date.
    """
    firm = [
        Candidate(_phrase(f"lives.dates.{key}"), stamp.last_day, key, stamp.stamp or str(stamp))
        for key in line.marked
        if (stamp := _stamp(thing.block, key))
    ]
    firm += _by_interval(thing.block, line)
    usual: list[Candidate] = []
    own = _own_lives(thing.block) if "lives" in thing.block.__dict__ else []
    for each in own:
        since = sure(each.from_)
        if any(since in life.since for life in line.lives) or _takes_all(thing, line, since):
            firm += _counted(thing.block, since, round(sure(each.life)), str(each.source or ""))
    replaced = [sure(each.from_) for each in own]
    for life in line.lives:
        key = next((key for key in life.since if _stamp(thing.block, key)), None)
        if key is None or key in replaced or not holds(life.when, thing.owners):
            continue
        if life.unless and any(_given(thing.block, each) for each in life.unless):
            continue
        earliest = _not_before(thing, life)
        if life.not_before and earliest is None:
            continue
        into = firm if life.firm else usual
        into += _counted(
            thing.block,
            key,
            _months(thing.block, life, key),
            life.source,
            life.standing,
            year_end=life.year_end,
            earliest=earliest,
        )
    return (
        firm if len(firm) < 2 else [each for each in firm if not _outranked(thing.block, line, each)]
    ), usual


def _own_lives(block: Block) -> list[OwnLife]:
    """The lives that the thing's own maker gives, as far as they are known."""
    lives: Sequence[OwnLife] = block.__dict__.get("lives", ())
    return [each for each in lives if each.known("from_", "life")]


def _outranked(block: Block, line: Line, counted: Candidate) -> bool:
    """Whether a day counted lies in the month that is marked on the thing: the month on the label then stands for itself."""
    marks = [stamp for key in line.marked if (stamp := _stamp(block, key)) and not stamp.exact]
    return counted.key not in line.marked and any(
        (mark.year, mark.month) == (counted.last_day.year, counted.last_day.month) for mark in marks
    )


def _takes_all(thing: Thing, line: Line, since: str) -> bool:
    """Whether a line takes an own life from a date that no line of the kind counts from: the first line does."""
    return line is thing.kind.lines[0] and not any(
        since in life.since for other in thing.kind.lines for life in other.lives
    )


def _by_interval(block: Block, line: Line) -> list[Candidate]:
    """Last service and the interval the file itself gives."""
    interval = block.__dict__.get("service_interval")
    stamp = _stamp(block, "last-service")
    if (
        interval is None
        or stamp is None
        or "next-service" not in line.marked
        or not isinstance(interval, float)
    ):
        return []
    last_day = end_of_life(stamp.last_day, stamp.exact, round(interval))
    return [Candidate(_phrase("lives.counted.interval"), last_day, "last-service", stamp.stamp or str(stamp))]


def _counted(
    block: Block,
    key: str,
    months: int,
    said_by: str,
    standing: str = "",
    *,
    year_end: bool = False,
    earliest: date | None = None,
) -> list[Candidate]:
    stamp = _stamp(block, key)
    if not stamp:
        return []
    form = "month" if months == 1 else "years" if months % 12 == 0 and months > 12 else "months"
    words: list[tuple[str, Name]] = [("from", _phrase(f"lives.dates.{key}"))]
    if form != "month":
        words.append((form, str(months if form == "months" else months // 12)))
    last_day = end_of_life(stamp.last_day, stamp.exact, months, year_end)
    return [
        Candidate(
            Phrase(f"lives.counted.{form}", tuple(words)),
            last_day if earliest is None else max(last_day, earliest),
            key,
            stamp.stamp or str(stamp),
            said_by,
            standing,
        )
    ]


def _not_before(thing: Thing, life: Life) -> date | None:
    """The day before which a life does not end, of the first of the thing and its owners that has the date."""
    since, months = life.not_before or ("", 0)
    owners = (each for each in thing.owners if each is not None)
    stamp = next((found for each in owners if since and (found := _stamp(each, since))), None)
    return end_of_life(stamp.last_day, stamp.exact, months) if stamp else None


def _months(block: Block, life: Life, key: str) -> int:
    """The months of a life; fewer for a thing that was already old at the date counted from."""
    if life.aged:
        since, over, fewer = life.aged
        made, then = _stamp(block, since), _stamp(block, key)
        if made and then and add_months(made.first_day, over) < then.last_day:
            return fewer
    return life.months


def _stamp(block: Block, key: str) -> Stamp | None:
    value = block.__dict__.get(_attribute(key))
    return value if isinstance(value, Stamp) else None


def _given(block: Block, key: str) -> bool:
    return block.__dict__.get(_attribute(key)) is not None


@functools.cache
def _attribute(key: str) -> str:
    return key.replace("-", "_")
