"""Good until: the one rule by which a manual says until when it is good.

A manual is good until the earliest day on which
- something that it relies on runs out: by the date marked on it, by its maker's life or by what is usual for its kind;
- a service, a test, a drill or the walk round the boat falls due;
- a deferral ends; or
- the voyage of its voyage file ends: bill, helpers and the hour of alarm are then those of people who went ashore.

The day itself is the last good one; a date to the month is its last day. What is past on the day of the survey does not end
it again. Each such thing is named beside the day: with the end of its deferral where it is deferred, and where it is not
and something is no longer good, or a deferral is over (in a proof copy alone), the manual was good until then. What is merely advised or done
again, and past, is named and ends nothing. Where something else comes first, the first that runs out is named with its day.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.deadlines import Deadline, deadlines_of_thing, deferral
from generator.manual.deadlines.lines import ENDS, USUAL
from generator.manual.inventory import rank
from generator.manual.printing import Phrase
from generator.reading.values import known
from generator.shelves.life_rows import AGAIN, DECISION, OVER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from datetime import date

    from generator.manual.printing import Name, Printer
    from generator.reading.block import Block
    from generator.reading.findings import Finding
    from generator.vessel.vessel import Vessel

    Covered = Mapping[Block, Sequence[Finding]]
    Days = Callable[[date], str]

NAMED, NAMED_ON_CARDS = 2, 1
"""So many things are named in the foot of a page and of a card; of the others there is the number."""
LONGEST_ON_CARDS = 40
"""So many letters of a name stand in the foot of a card."""
_KINDS = (ENDS, USUAL, AGAIN, DECISION, OVER)
_RUN_OUT = (ENDS, USUAL)


@dataclass(frozen=True)
class Past:
    """What is past on the day of the survey; `until` is the end of its deferral, None where it is not deferred."""

    deadline: Deadline
    until: date | None = None


@dataclass(frozen=True)
class GoodUntil:
    """Until when a manual is good (None: no day is ahead), what ends it on that day, the first that runs out where that is
    another day, and what is past already; `over` where the day itself is past.
    """

    last_day: date | None
    ends: tuple[Deadline, ...] = ()
    runs_out: tuple[Deadline, ...] = ()
    past: tuple[Past, ...] = ()
    over: bool = False


def good_until(deadlines: Iterable[Deadline], covered: Covered, as_of: date) -> GoodUntil:
    """The rule, for deadlines with those of the deferrals among them; `covered` are the findings deferred, by their entry."""
    ahead: list[Deadline] = []
    past: list[Past] = []
    for each in deadlines:
        if each.last_day >= as_of:
            ahead.append(each)
        else:
            past.append(Past(each, _deferred_until(each, covered)))
    past = sorted((each for each in past if not _said_by_a_graver(each, past)), key=_gravity)
    broken = [each.deadline for each in past if each.until is None and _ends_all(each.deadline)]
    ending = broken or ahead
    last_day = min((each.last_day for each in ending), default=None)
    first = _on(ending, last_day)
    running = [each for each in ahead if each.kind in _RUN_OUT]
    out = _on(running, min((each.last_day for each in running), default=None))
    named = bool(broken) or any(each.kind in _RUN_OUT for each in first)
    return GoodUntil(last_day, first, () if named else out, tuple(past), over=bool(broken))


def _on(deadlines: Iterable[Deadline], day: date | None) -> tuple[Deadline, ...]:
    """Those of one day, what ends a life first."""
    return tuple(
        sorted(
            (each for each in deadlines if each.last_day == day),
            key=lambda each: (_KINDS.index(each.kind), each.item, each.what),
        )
    )


def _said_by_a_graver(one: Past, past: Iterable[Past]) -> bool:
    """Whether what is merely usual of a thing is past where what is firm of it is past too."""
    of = one.deadline
    return (
        not of.firm
        and not of.routine
        and any(
            each.deadline.firm and each.deadline.thing is of.thing and each.deadline.lines == of.lines[:-1]
            for each in past
        )
    )


def _gravity(past: Past) -> tuple[bool, bool, int, date]:
    """Sort key: what is deferred first; what is no longer good; of these what saves most lives, a raft before flares; then by day."""
    first = rank(past.deadline.thing.kept)
    return (past.until is None, not past.deadline.firm, first, past.until or past.deadline.last_day)


def _ends_all(deadline: Deadline) -> bool:
    """Whether a thing is no longer good once its day is past, and no longer counts as aboard."""
    return deadline.firm and not deadline.still_counts


def _deferred_until(deadline: Deadline, covered: Covered) -> date | None:
    """The end of the deferral of what is found of a deadline that is past; the latest of several."""
    return max(
        (
            end.last_day
            for entry, findings in covered.items()
            if any(_is_of(finding, deadline) for finding in findings) and (end := entry.__dict__.get("until"))
        ),
        default=None,
    )


def _is_of(finding: Finding, deadline: Deadline) -> bool:
    """Whether a finding says that a deadline is past."""
    found, place = finding.place, deadline.place
    return (
        finding.check == deadline.check
        and (finding.about is None or finding.about is deadline.thing.block)
        and (found.file, found.line, found.column) == (place.file, place.line, place.column)
    )


def ends_of_deferrals(
    vessel: Vessel, deadlines: Sequence[Deadline], covered: Covered, as_of: date
) -> Iterator[Deadline]:
    """The last days of the deferrals that cover something, called as what they cover, and of those that are past."""
    for each in vessel.deferred_defects:
        end = known(each.until)
        if each not in covered and end is not None and end.last_day < as_of:
            for thing in deferral(str(each.item or each.check), each, vessel):
                yield from deadlines_of_thing(thing)
    for entry, findings in covered.items():
        first = next(iter(findings), None)
        dated = next((each for each in deadlines if first is not None and _is_of(first, each)), None)
        said = entry.__dict__.get("item") or entry.__dict__.get("check")
        called = _whole(dated) if dated else (first.item if first is not None else "") or str(said or "")
        for thing in deferral(called, entry, vessel):
            yield from deadlines_of_thing(thing)


def _whole(deadline: Deadline) -> Name:
    """The name of a thing with what of it is looked at."""
    name = deadline.called
    for line in deadline.lines:
        name = Phrase("thing.part", (("thing", name), ("what", line)))
    return name


@dataclass(frozen=True)
class Worded:
    """What is printed of it: the day, `by` what ends it, what `runs_out` first where that is another day, what is `past`.

    "" where there is nothing to say. `past` names the first few, `past_all` everything; `short` is the whole for a card.
    """

    day: str
    by: str
    runs_out: str
    past: str
    past_all: str
    short: str = ""

    @property
    def line(self) -> str:
        """All of it in one line, as a foot has it."""
        return _line(self.day, self.by, self.runs_out, self.past)

    @property
    def reason(self) -> str:
        """All but the day itself, as a manifest has it."""
        return "; ".join(part for part in (self.by, self.runs_out, self.past) if part)


def by_figures(day: date) -> str:
    """A day as a terminal shows it: 2026-06-01."""
    return day.isoformat()


def worded(good: GoodUntil, printer: Printer, days: Days | None = None) -> Worded:
    """The words of it in a language; `days` writes a day where not as the language does."""
    say, day = printer.say, days or printer.day
    if good.last_day is not None:
        until = say("mark.was-good-until" if good.over else "mark.good-until", date=day(good.last_day))
    else:
        until = say("mark.no-day-ahead" if good.past else "mark.nothing-dated")
    runs_out = nothing_until = ""
    if good.runs_out:
        first, last = (
            _and_more(_name(good.runs_out[0], printer), len(good.runs_out) - 1, printer),
            good.runs_out[0],
        )
        runs_out = say("mark.runs-out", items=first, date=day(last.last_day))
        nothing_until = say("mark.nothing-until", date=day(last.last_day))
    past = [each for each in good.past if each.deadline not in good.ends]
    few, every, one = (
        _past(past, most, printer, day) for most in (NAMED, max(len(past), NAMED), NAMED_ON_CARDS)
    )
    short = _line(until, _by(good.ends, NAMED_ON_CARDS, printer), nothing_until, one)
    return Worded(until, _by(good.ends, NAMED, printer), runs_out, few, every, short)


def _line(day: str, by: str, *others: str) -> str:
    return " · ".join(part for part in (f"{day} ({by})" if by else day, *others) if part)


def _by(ends: Sequence[Deadline], most: int, printer: Printer) -> str:
    """What ends it, kind by kind, the gravest first; in all no more than so many by name."""
    shown, longest = ends[:most], _longest(most)
    parts = []
    for head in dict.fromkeys(_head(each) for each in shown):
        names = (_cut(_name(each, printer), longest) for each in shown if _head(each) == head)
        parts.append(printer.say(f"mark.by.{head}", items="; ".join(names)))
    return _and_more("; ".join(parts), len(ends) - len(shown), printer)


def _longest(most: int) -> int | None:
    return LONGEST_ON_CARDS if most == NAMED_ON_CARDS else None


def _cut(name: str, longest: int | None) -> str:
    """A name, or its beginning where a card has no room for all of it."""
    if longest is None or len(name) <= longest:
        return name
    return f"{name[:longest].rpartition(' ')[0] or name[:longest]} …"


def _head(deadline: Deadline) -> str:
    """The word under which it is named: a usual life that is over expires too."""
    return ENDS if deadline.kind == USUAL else deadline.kind


def _past(past: Sequence[Past], most: int, printer: Printer, days: Days) -> str:
    """What is past, that is deferred first, each with its day."""
    shown, longest = past[:most], _longest(most)
    parts = []
    for deferred in (True, False):
        said = [
            printer.say(
                "mark.deferred-until" if deferred else "mark.past-since",
                item=_cut(_name(each.deadline, printer), longest),
                date=days(each.until or each.deadline.last_day),
            )
            for each in shown
            if (each.until is not None) == deferred
        ]
        if said:
            parts.append(
                printer.say("mark.past-deferred" if deferred else "mark.past", items="; ".join(said))
            )
    return _and_more("; ".join(parts), len(past) - len(shown), printer)


def _and_more(said: str, others: int, printer: Printer) -> str:
    return printer.say("mark.and-more", items=said, count=str(others)) if others > 0 else said


def _name(deadline: Deadline, printer: Printer) -> str:
    """What it is, without the word deferral or end where the sentence has it."""
    own = deadline.kind in (DECISION, OVER)
    return printer.named(deadline.called) if own else printer.dated(deadline)
