"""The deadlines of one thing: its marked dates, the lives counted from others, and the earliest of them."""

from __future__ import annotations

import functools
import operator
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple, cast

from generator.calc.expiry import add_months, end_of_life, window
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
BY_INTERVAL = 0
Dates = dict[str, Stamp]
"""The dates of a block by their attributes."""
_DATES = frozenset((Stamp, YearStamp))


@dataclass(unsafe_hash=True)
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
    """A last day out of one date of a thing: `counted_by` so many months, None where it is marked, BY_INTERVAL by the file's own."""

    last_day: date
    key: str
    stamp: Stamp
    counted_by: int | None = None
    said_by: str = ""
    standing: str = ""

    @property
    def counted(self) -> Phrase:
        """Which date says so, and over how many months it is counted where it is not marked itself."""
        if self.counted_by is None:
            return _phrase(f"lives.dates.{self.key}")
        return (
            _counted_from(self.key, self.counted_by) if self.counted_by else _phrase("lives.counted.interval")
        )


class End(NamedTuple):
    """A last day of a thing by one of its lines: `firm`, where what has passed is no longer good; else its usual life is over."""

    last_day: date
    first: Candidate
    thing: Thing
    line: Line
    firm: bool


def deadlines_of_thing(thing: Thing) -> list[Deadline]:
    """The deadlines of a thing, line by line of its kind: the earliest of its firm dates, and that of its usual ones if earlier."""
    return list(map(deadline_of, ends_of(thing)))


def ends_of(thing: Thing, dates: Dates | None = None) -> list[End]:
    """What its deadlines are made of: most lie far ahead, and nobody asks for their words. `dates` are its own, if known already."""
    found: list[End] = []
    dates = dates_in(thing.block) if dates is None else dates
    if not dates:
        return found  # whatever ends is marked, or counted from a date of its own
    own = "lives" in thing.block.__dict__
    for line in thing.kind.lines:
        if not own and line.dates.isdisjoint(dates):
            continue
        firm, usual = candidates(thing, line, dates)
        first = _earliest(firm)
        if first:
            found.append(End(first.last_day, first, thing, line, firm=True))
        advised = _earliest(usual)
        if advised and (first is None or advised.last_day < first.last_day):
            found.append(End(advised.last_day, advised, thing, line, firm=False))
    return found


def dates_in(block: Block) -> Dates:
    """The dates of a block by their attributes."""
    values = block.__dict__
    if block.dated.isdisjoint(values):
        return {}
    return {name: value for name, value in values.items() if isinstance(value, Stamp)}


def _line(line: Line) -> tuple[Phrase, ...]:
    return (_phrase(f"lives.lines.{line.what}"),) if line.what else ()


@functools.cache
def _phrase(label: str) -> Phrase:
    """A phrase of the shelf without slots, made once: many things have it."""
    return Phrase(label)


def _earliest(found: list[Candidate]) -> Candidate | None:
    if len(found) < 2:
        return found[0] if found else None
    return min(found, key=_last_day)  # of equal days the first named


_last_day = operator.attrgetter("last_day")


def deadline_of(end: End) -> Deadline:
    """The deadline with its words."""
    last_day, first, thing, line, marked = end
    what, check, firm = _line(line), line.check, marked and not line.routine
    if not marked and not line.routine:
        what, check = (*what, _phrase("lives.usual")), USUAL_CHECK
    rule = line.window
    around = window(last_day, rule.months) if rule and firm and holds(rule.when, thing.owners) else None
    return Deadline(
        thing.called,
        what,
        last_day,
        first.counted,
        thing.block.place(first.key),
        check,
        thing,
        first.stamp.stamp or str(first.stamp),
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
    if isinstance(thing.block.__dict__.get("where"), str):
        return cast("Situated", thing.block)
    within = thing.owners[1]
    if within is not None and isinstance(within.__dict__.get("where"), str):
        return cast("Situated", within)
    return None


def candidates(
    thing: Thing, line: Line, dates: Dates | None = None
) -> tuple[list[Candidate], list[Candidate]]:
    """Every last day that a thing has by one line: the firm ones, and those by what is usual; `dates` are hers, if known already.

    A life that the thing's own maker gives (its key `lives`) stands in for the shelf's from the same date.
    """
    block = thing.block
    if dates is None:
        dates = dates_in(block)
    firm = [
        Candidate(stamp.last_day, key, stamp)
        for attribute, key in line.marked_in
        if (stamp := dates.get(attribute)) is not None
    ]
    if "service_interval" in block.__dict__:
        firm += _by_interval(block, line)
    usual: list[Candidate] = []
    own = _own_lives(block) if "lives" in block.__dict__ else []
    for each in own:
        since = sure(each.from_)
        if any(since in life.since for life in line.lives) or _takes_all(thing, line, since):
            firm += _counted(block, since, round(sure(each.life)), str(each.source or ""))
    replaced = [sure(each.from_) for each in own]
    for life in line.lives:
        key = next((key for attribute, key in life.since_in if attribute in dates), None)
        if key is None or key in replaced or (life.when and not holds(life.when, thing.owners)):
            continue
        if life.unless and any(_given(block, each) for each in life.unless):
            continue
        earliest = _not_before(thing, life) if life.not_before else None
        if life.not_before and earliest is None:
            continue
        into = firm if life.firm else usual
        into += _counted(
            block,
            key,
            _months(block, life, key),
            life.source,
            life.standing,
            year_end=life.year_end,
            earliest=earliest,
        )
    return (firm if len(firm) < 2 else [each for each in firm if not _outranked(block, line, each)]), usual


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
    return [Candidate(last_day, "last-service", stamp, BY_INTERVAL)]


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
    last_day = end_of_life(stamp.last_day, stamp.exact, months, year_end)
    if earliest is not None:
        last_day = max(last_day, earliest)
    return [Candidate(last_day, key, stamp, months, said_by, standing)]


@functools.lru_cache(maxsize=4096)
def _counted_from(key: str, months: int) -> Phrase:
    """A life of so many months from a date."""
    form = "month" if months == 1 else "years" if months % 12 == 0 and months > 12 else "months"
    words: list[tuple[str, Name]] = [("from", _phrase(f"lives.dates.{key}"))]
    if form != "month":
        words.append((form, str(months if form == "months" else months // 12)))
    return Phrase(f"lives.counted.{form}", tuple(words))


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
