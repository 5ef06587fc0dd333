"""Whether what is done in an emergency stands on one page of the book, worked out before it is laid out.

An estimate from the widths of the letters, so that the book is mostly laid out once; what counts is what the engine lays out.
The measures stand for those of the book's style sheets.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from generator.manual.steps import Procedure, Step
from generator.outputs.setting.fitting import Text, words_em
from generator.outputs.setting.paper import rem_pt, room_rem

LINE_EM = 1.25
_MARKUP = re.compile(r"<[^>]*>")
_LINE_ENDS = re.compile(r"</(?:p|li|h\d)>")
_APART_REM = 0.35  # below who acts, and below an exception; set tight, what stands below any paragraph
_LEADS_TO_EM = 12.0  # an arrow, the title of the other, its page


class Setting(Enum):
    """How a procedure is set in the book; the value is the class of its section."""

    PAGE = "one-page"
    TIGHT = "one-page tight"
    DENSE = "one-page tight dense"
    OPENING = "spread"

    @property
    def looser(self) -> Setting | None:
        """How it is set if it did not fit so; None where it has all the room there is."""
        order = list(Setting)
        return order[order.index(self) + 1] if self is not Setting.OPENING else None


@dataclass(frozen=True)
class _Measures:
    """Of the style sheet, in rem: sizes of type, what stands above and below a step, and below a paragraph."""

    heading: float
    do: float
    caution: float
    small: float
    around: float
    below: float


_MEASURES = {
    Setting.PAGE: _Measures(heading=2.2, do=1.3, caution=1.05, small=1.0, around=0.5, below=0.5),
    Setting.TIGHT: _Measures(heading=1.9, do=1.2, caution=1.0, small=1.0, around=0.2, below=0.25),
    Setting.DENSE: _Measures(heading=1.9, do=1.1, caution=0.9, small=0.9, around=0.12, below=0.15),
}
LEAST_PT = 10.0
"""Of text in the hand. CAP 676 chapter 7 (secondary): 12 pt preferred, 10 pt the floor."""
NUMERAL_REM, BESIDE_SHARE, PART_MARK_REM = 3.1, 0.31, 1.6
FULL = 1.0
"""So much of a page at most may be taken by what is set on one: the estimate is seldom too low, and up to a sixteenth too high."""


def setting_of(procedure: Procedure, paper: str, heads_part: bool) -> Setting:
    """How a procedure stands in the book: on one page, on one page set tight, or on an opening; `heads_part`: below a part's title."""
    _, height_rem = room_rem(paper)
    return next(
        (
            setting
            for setting, measures in _MEASURES.items()
            if measures.small * rem_pt(paper) >= min(LEAST_PT, rem_pt(paper))
            and height_of_rem(procedure, paper, setting) + heads_part * PART_MARK_REM <= FULL * height_rem
        ),
        Setting.OPENING,
    )


def height_of_rem(procedure: Procedure, paper: str, setting: Setting) -> float:
    """How high a procedure stands in the book, in rem of its paper."""
    measures, (width, _) = _MEASURES[setting], room_rem(paper)
    framed = 1.4 if procedure.ground == "fire" else 0.7
    high = (
        framed
        + 1.1
        + 0.7
        + _lines(procedure.title, measures.heading, width - framed - 1.6, bold=True, line=1.1)
    )
    if procedure.ground in ("fire", "lifesaving"):
        high += 0.85 * LINE_EM + measures.below
    if procedure.intro:
        high += _lines(procedure.intro, min(1.15, measures.small + 0.15), width) + 0.6
    for step in procedure.steps:
        high += _step_rem(step, measures, width)
        if procedure.then and step.number in (1, procedure.then):
            high += 0.85 * LINE_EM + 0.25
    if procedure.leaves:
        high += 0.7 + sum(
            _lines(
                leave.words, min(1.1, measures.small + 0.1), width - 1.0, more_em=_LEADS_TO_EM * len(leave.to)
            )
            + 0.9
            for leave in procedure.leaves
        )
    if procedure.end:
        high += (
            _lines(
                procedure.end.words,
                min(1.1, measures.small + 0.1),
                width,
                more_em=_LEADS_TO_EM if procedure.over else 0.0,
            )
            + measures.below
        )
    for note in procedure.notes:
        said = (_MARKUP.sub("", each) for each in _LINE_ENDS.split(note))
        high += 1.8 + sum(_lines(each, 1.0, width - 3.0) + 0.5 for each in said if each.strip())
    return high


def _step_rem(step: Step, measures: _Measures, width: float) -> float:
    has_beside = bool(step.who or step.unless or step.gear or step.place)
    beside = BESIDE_SHARE * width if has_beside else 0.0
    room = width - NUMERAL_REM - beside - 0.8
    acting = _lines(step.text, measures.do, room, bold=True, line=1.2) + measures.below
    if step.caution:
        acting += (
            _lines(step.caution, measures.caution, room - 0.95, more_em=4.0) + 0.1 + 0.35 + measures.below
        )
    if step.why:
        acting += _lines(step.why, measures.small, room) + 0.3 + measures.below
    apart = min(_APART_REM, measures.below)
    said = _lines(", ".join(step.who), measures.small, beside, bold=True) + apart if step.who else 0.0
    if step.unless:
        said += 0.75 * LINE_EM + _lines(step.unless, measures.small, beside - 1.1) + 0.7 + apart
    if step.place and step.place not in step.text:
        said += _lines(step.place, measures.small, beside, more_em=3.5) + 0.3 + measures.below
    for item in step.gear:
        said += _lines(str(item.name), measures.small, beside, more_em=2.0) + 0.3 + measures.below
    return max(acting, said) + 2 * measures.around + 0.06


def _lines(
    text: str, size: float, width: float, *, bold: bool = False, line: float = LINE_EM, more_em: float = 0.0
) -> float:
    """How high a paragraph stands; `more_em`: how much else stands in its line."""
    words = words_em(text, 700 if bold else 400)
    if more_em:
        words += [None, more_em / 2, None, more_em / 2]
    return size * Text(words, 0.0, line, 0.0).height_em(width / size)
