"""The rows of one limit: what each sets and for what it holds, and whether together they leave a gap or contradict each other."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Text, Texts
from generator.reading.measures import AnyMeasure, Measure
from generator.reading.names import Figure, Name, Reference, references, standing
from generator.reading.values import Quantity
from generator.shelves.rows import contradiction

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from generator.reading.findings import Finding

HIGHER = ("least", "times-height", "plus-height")
"""The figures of which the higher is the stricter; of the most it is the lower."""
_WORDS = ("standards", "container", "kinds", "use", "waters")
_LENGTH = "length"
_RELEASE, _PUMP, _SET = "word of release.kind", "word of pump.power", "word of set.kind"
KINDS = (_RELEASE, "word of beacon.kind", _PUMP, _SET)
"""Whose words a row may name as kinds."""

Box = dict[str, list[str]]
"""Cases by what is asked: every combination of one word of each."""


class RowBlock(Block):
    """What one rule sets, and for what it holds."""

    standards = Texts(
        "For rafts of which standards, by their beginning, does it hold?", of=Name("Which standard?")
    )
    container = Reference("For which container?", "word of raft.container")
    kinds = Texts("For which kinds of release, beacon, pump or radio?", of=Name("Which kind?"))
    use = references("For which use of the boat?", "word of vessel.use")
    waters = references("For which waters?", "word of vessel.waters")
    rule_set = Reference("For which rule set?", "rule set")
    length_from = Measure("From which length of the hull on?", "length", high=100)
    length_below = Measure("Below which length of the hull?", "length", high=100)
    least = AnyMeasure("What is the least?")
    most = AnyMeasure("What is the most?")
    times_height = Figure("How many times the height at least?", high=100)
    plus_height = Measure("How much more than the height at least?", "length", high=100)
    source = Text("Who says so?", required=True)
    standing = standing()

    def faults(self) -> Iterator[Fault]:
        """A limit has a figure and some length; the lower of two comes first."""
        figures = (self.least, self.most, self.times_height, self.plus_height)
        if all(each is None for each in figures):
            yield Fault("source", "a limit without a figure", "write least or most")
        if isinstance(self.least, Quantity) and isinstance(self.most, Quantity) and self.least > self.most:
            yield Fault("most", "the most is less than the least", "look at both figures again")
        first, end = self.length_from, self.length_below
        if isinstance(first, Quantity) and isinstance(end, Quantity) and first >= end:
            yield Fault(
                "length-below",
                f"no boat is {first} long or more and shorter than {end}",
                "look at both figures again",
            )


@dataclass(frozen=True)
class Reach:
    """The cases of which a row speaks: words by what is asked, lengths from `first` to below `end`, in m."""

    row: RowBlock
    words: Mapping[str, frozenset[str]]
    first: float
    end: float
    rule_set: str

    def within(self, other: Reach) -> bool:
        """Whether the other row speaks of all that this one does."""
        return (
            all(self.words[key] <= other.words[key] for key in _WORDS)
            and other.first <= self.first
            and self.end <= other.end
            and self.rule_set.startswith(other.rule_set)
        )

    def meets(self, other: Reach) -> bool:
        """Whether there is a case of which both speak."""
        return all(self.words[key] & other.words[key] for key in _WORDS) and max(
            self.first, other.first
        ) < min(self.end, other.end)

    def differs(self, other: Reach) -> list[str]:
        """What the two do not speak of alike."""
        differing = [key for key in _WORDS if self.words[key] != other.words[key]]
        if (self.first, self.end) != (other.first, other.end):
            differing.append(_LENGTH)
        return differing if self.rule_set == other.rule_set else [*differing, "rule-set"]


def words_asked(known: Mapping[str, Collection[str]]) -> dict[str, list[str]]:
    """Every word that a case may have, by what is asked."""
    return {
        "standards": list(known.get("word of raft.standard", ())),
        "container": list(known.get("word of raft.container", ())),
        "kinds": [word for name in KINDS for word in known.get(name, ())],
        "use": list(known.get("word of vessel.use", ())),
        "waters": list(known.get("word of vessel.waters", ())),
    }


def disagreements(
    limit: str, rows: Sequence[RowBlock], known: Mapping[str, Collection[str]]
) -> Iterator[Finding]:
    """What is wrong between the rows of a limit.

    Of several rules that hold the strictest counts: a stricter row for fewer cases is as it should be. A row of a rule set is
    asked of nobody who has not chosen it, and fills no gap.
    """
    asked = words_asked(known)
    reaches = [_reach(row, asked) for row in rows]
    for later, earlier in ((reaches[b], reaches[a]) for b in range(len(reaches)) for a in range(b)):
        yield from _between(later, earlier)
    yield from _left_out(limit, [each for each in reaches if not each.rule_set], asked, known)


def _reach(row: RowBlock, asked: Mapping[str, list[str]]) -> Reach:
    words: dict[str, frozenset[str]] = {}
    for key in _WORDS:
        said = _said(row, key)
        fits = {each for each in asked[key] if each.startswith(said)} if key == "standards" else set(said)
        words[key] = frozenset(fits if said else asked[key])
    first = row.length_from if isinstance(row.length_from, Quantity) else 0.0
    end = row.length_below if isinstance(row.length_below, Quantity) else math.inf
    return Reach(row, words, float(first), float(end), str(row.rule_set or ""))


def _said(row: RowBlock, key: str) -> tuple[str, ...]:
    said = row.__dict__.get(key)
    return said if isinstance(said, tuple) else () if said is None else (str(said),)


def _figures(row: RowBlock) -> dict[str, float]:
    """The figures of a row by key, each so that the higher is the stricter."""
    figures = {key: row.__dict__.get(key.replace("-", "_")) for key in (*HIGHER, "most")}
    return {
        key: -float(figure) if key == "most" else float(figure)
        for key, figure in figures.items()
        if isinstance(figure, (int, float))
    }


def _written(row: RowBlock, key: str) -> str:
    return f"{key}: {row.__dict__.get(key.replace('-', '_'))}"


def _between(later: Reach, earlier: Reach) -> Iterator[Finding]:
    """What is wrong between two rows: neither adds anything, or they hold for the same and cannot both be meant."""
    for one, other in ((later, earlier), (earlier, later)):
        key = _idle(one, other)
        if key:
            said = f"'{_written(one.row, key)}' never counts: '{_written(other.row, key)}' holds wherever it does"
            remedy = (
                "of two rows the stricter counts: keep the one that is true, or look at what they hold for"
            )
            yield contradiction(one.row.place(key), said, remedy, other.row.place(key))
            return
    if not later.meets(earlier):
        return
    for low, high in ((later, earlier), (earlier, later)):
        least, most = low.row.least, high.row.most
        if isinstance(least, Quantity) and isinstance(most, Quantity) and least > most:
            said = f"'least: {least}' and 'most: {most}' hold for the same case"
            place, also = low.row.place("least"), high.row.place("most")
            yield contradiction(place, said, "look at both figures, and at what they hold for", also)
    yield from _overlap(later, earlier)


def _idle(one: Reach, other: Reach) -> str:
    """The figure of a row that never counts beside the other; "" if it does, or says the same for fewer cases.

    What was read may stand beside a stricter row that was not: only what was read can make a defect.
    """
    if not one.within(other) or (one.row.standing == "read" and other.row.standing != "read"):
        return ""
    own, others = _figures(one.row), _figures(other.row)
    if not own or any(key not in others or figure > others[key] for key, figure in own.items()):
        return ""
    if own == others and one.differs(other):
        return ""
    return next((key for key, figure in own.items() if figure < others[key]), next(iter(own)))


def _overlap(later: Reach, earlier: Reach) -> Iterator[Finding]:
    """Rows that are divided by one thing alone, lengths or words, share none of it unless one is a case of the other."""
    differing = later.differs(earlier)
    own, others = _figures(later.row), _figures(earlier.row)
    if len(differing) != 1 or differing == ["rule-set"] or later.within(earlier) or earlier.within(later):
        return
    if not any(own[key] != others[key] for key in own.keys() & others.keys()):
        return
    (key,) = differing
    if key == _LENGTH:
        said = f"lengths {_band(max(later.first, earlier.first), min(later.end, earlier.end))}"
    else:
        said = " and ".join(
            f"'{each}'" for each in sorted(later.words.get(key, frozenset()) & earlier.words[key])
        )
    remedy = "end one where the other begins; where two rules hold, write the stricter in a row of its own"
    yield contradiction(
        later.row.place(_edge(later.row, key)),
        f"two rows with different figures hold for {said}",
        remedy,
        earlier.row.place(_edge(earlier.row, key)),
    )


def _edge(row: RowBlock, key: str) -> str:
    """The key of a row at which what divides it from others stands."""
    if key != _LENGTH:
        return key
    return "length-from" if row.length_from is not None else "length-below"


def _left_out(
    limit: str, reaches: Sequence[Reach], asked: Mapping[str, list[str]], known: Mapping[str, Collection[str]]
) -> Iterator[Finding]:
    """Cases for which no row holds, though rows are divided by what tells these cases apart.

    Rafts of no published standard ("other") may have no limit, nor need a kind of beacon: what those are tested for stands
    on the shelf of lives as well.
    """
    axes: Box = {}
    for key in _WORDS:
        divided = [_said(each.row, key) for each in reaches if _said(each.row, key)]
        if divided:
            axes[key] = _all_of(key, {word for said in divided for word in said}, asked, known)
    cells = _cells(reaches)
    if len(cells) > 1:
        axes[_LENGTH] = list(cells)
    left = {
        case
        for case in itertools.product(*axes.values())
        if not any(_holds(each, dict(zip(axes, case, strict=True)), cells) for each in reaches)
    }
    while left and reaches:
        box = _grown(min(left), axes, left)
        left -= set(itertools.product(*box.values()))
        narrowed = [key for key in axes if len(box[key]) < len(axes[key])]
        if narrowed:
            yield _gap(limit, {key: box[key] for key in narrowed}, reaches, cells)


def _all_of(
    key: str, said: set[str], asked: Mapping[str, list[str]], known: Mapping[str, Collection[str]]
) -> list[str]:
    """The words of which each must have a row once rows are divided by them."""
    if key == "standards":
        return [each for each in asked[key] if each != "other"]
    if key == "kinds":
        whole = (list(known.get(name, ())) for name in (_RELEASE, _PUMP, _SET))
        return next((words for words in whole if said & set(words)), sorted(said))
    return asked[key]


def _cells(reaches: Sequence[Reach]) -> dict[str, tuple[float, float]]:
    """The lengths between the bounds that rows name, by how they are called."""
    bounds = sorted({bound for each in reaches for bound in (each.first, each.end)} | {0.0, math.inf})
    return {_band(*each): each for each in itertools.pairwise(bounds)}


def _band(first: float, end: float) -> str:
    beginning = f"from {first:g} m" if first > 0 else ""
    return f"{beginning} {f'to below {end:g} m' if end < math.inf else 'on'}".strip()


def _holds(reach: Reach, case: Mapping[str, str], cells: Mapping[str, tuple[float, float]]) -> bool:
    for key, word in case.items():
        if key == _LENGTH:
            first, end = cells[word]
            if first < reach.first or end > reach.end:
                return False
        elif word not in reach.words[key]:
            return False
    return True


def _grown(case: tuple[str, ...], axes: Box, left: Collection[tuple[str, ...]]) -> Box:
    """As many cases around one as are all left out."""
    box = {key: [word] for key, word in zip(axes, case, strict=True)}
    for key, words in axes.items():
        for word in words:
            if word not in box[key] and set(itertools.product(*{**box, key: [word]}.values())) <= set(left):
                box[key].append(word)
    return box


def _gap(limit: str, box: Box, reaches: Sequence[Reach], cells: Mapping[str, tuple[float, float]]) -> Finding:
    key = _LENGTH if _LENGTH in box else next(iter(box))
    said = ", ".join(f"{each} {' and '.join(words)}" for each, words in box.items())
    if key == _LENGTH:
        ends = {cells[each][1] for each in box[key]}
        starts = {cells[each][0] for each in box[key]}
        places = [each.row.place("length-from") for each in reaches if each.first in ends]
        places += [each.row.place("length-below") for each in reaches if each.end in starts]
    else:
        places = [each.row.place(key) for each in reaches if _said(each.row, key)]
    return contradiction(
        places[0],
        f"'{limit}' has no row for {said}",
        "write one, or a row that holds for all",
        *places[1:],
    )
