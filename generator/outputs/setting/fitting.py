"""How many sides a card will take in a size of type, worked out from the widths of its letters before it is laid out.

An estimate, to start the search near its end; what counts is what the engine lays out. The measures below stand for those
of the cards' style sheets: one that has gone stale costs a trial more, never a word on a card.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

from generator.machine.fonts import advances_em

PT_PER_MM = 72 / 25.4
LINE_EM = 1.2
_WORD = re.compile(r"[^\s-]*-|[^\s-]+|\s+")
_BLANK_EM, _UNKNOWN_EM = 0.3, 0.6
_BOLD = frozenset(("b", "h2", "h3", "th", "do", "say", "tag", "letter", "number", "expired", "when"))
_SIZE_EM = {"h2": 1.5, "tag": 0.9, "letter": 1.5, "when": 0.8}
_LINES_EM = {"h2": 1.65, "h3": 1.1, "word": 0.78, "letter": 1.65, "when": 0.88}
_BETWEEN_EM = {
    "unless": 0.2,
    "caution": 0.1,
    "h3": 0.7,
    "word": 0.0,
    "intro": 0.15,
    "end": 0.15,
    "words": 0.15,
}  # above and below a paragraph
_LEAD_EM = {
    "caution": 1.35,
    "role": 0.65,
    "number": 0.65,
    "pencil": 5.0,
    "arrow": 0.8,
}  # before its first letter
_BESIDE_EM = {"unless": 0.82, "ground": 1.0, "script": 1.2, "leaves": 1.0}
_NUMERAL_EM, _NUMBER_EM = 2.25, 2.8
_STARTS = frozenset(("p", "h2", "h3", "td", "th", "letter", "spoken"))


@dataclass
class Text:
    """A paragraph: widths of its words in em (None: a blank), what its boxes take of the width, the height of a line."""

    words_em: list[float | None]
    beside_em: float
    line_em: float
    between_em: float

    def height_em(self, width_em: float) -> float:
        """Its height in a column of `width_em`; nothing without words."""
        if not self.words_em:
            return 0.0
        room, lines, used, blank = width_em - self.beside_em, 1, 0.0, 0.0
        for word in self.words_em:
            if word is None:
                blank = _BLANK_EM
                continue
            if used and used + blank + word > room:
                lines, used = lines + 1, 0.0
            used, blank = used + word + (blank if used else 0.0), 0.0
        return lines * self.line_em + self.between_em


@dataclass
class Piece:
    """What stays on one side: columns of paragraphs beside each other, and the heights of its boxes that are no lines."""

    columns: list[list[Text]] = field(default_factory=lambda: [[]])
    fixed_em: float = 0.0
    fixed_mm: float = 0.0
    hanging_em: float = 0.0  # below the last line: may stand beyond the side's end
    numbers: int = 0  # columns of numbers, beside the others
    starts_side: bool = False
    with_next: bool = False

    def height_pt(self, size_pt: float, width_pt: float) -> float:
        """Its height in type of a size on a side of a width."""
        width_em = (width_pt / size_pt - self.numbers * _NUMBER_EM) / max(1, len(self.columns))
        tallest_em = max(
            (sum(one.height_em(width_em) for one in column) for column in self.columns), default=0.0
        )
        return size_pt * (tallest_em + self.fixed_em) + self.fixed_mm * PT_PER_MM


def words_em(text: str, weight: int) -> list[float | None]:
    """The widths of a text's words in em, None for a blank; `weight` is 400 or 700."""
    widths = advances_em(weight)
    return [
        None if part.isspace() else sum(widths.get(letter, _UNKNOWN_EM) for letter in part)
        for part in _WORD.findall(text)
    ]


def sides_taken(pieces: list[Piece], size_pt: float, width_mm: float, height_mm: float) -> float:
    """How many sides the pieces take: 1.5 is a full side and half of another."""
    width_pt, height_pt = width_mm * PT_PER_MM, height_mm * PT_PER_MM
    full, reached, kept, hanging_pt = 0, 0.0, 0.0, 0.0
    for piece in pieces:
        kept += piece.height_pt(size_pt, width_pt)
        hanging_pt = piece.hanging_em * size_pt
        if reached and (piece.starts_side or reached + kept - hanging_pt > height_pt):
            full, reached = full + 1, 0.0
        if not piece.with_next:
            reached, kept = reached + kept, 0.0
    return full + (reached + kept - hanging_pt) / height_pt


class _Reader(HTMLParser):
    """Takes a card's HTML apart into pieces."""

    def __init__(self) -> None:
        super().__init__()
        self.pieces: list[Piece] = [Piece()]
        self._open: list[str] = []
        self._text: Text | None = None
        self._atom = False
        self._titled = False  # a procedure stands on the card: the next one begins a side

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        name = next((each for each in (values.get("class") or "").split() if each != "plain"), tag)
        if tag in ("br", "img", "meta", "link") or "svg" in self._open:
            return
        self._open.append("svg" if tag == "svg" else name if name != "narrow" else tag)
        if name == "plan":
            measures = dict(re.findall(r"(width|height): ([\d.]+)mm", values.get("style") or ""))
            self._begin(Piece(fixed_mm=float(measures["height"])))
        elif name in ("ground", "script") or (tag == "h2" and "ground" not in self._open):
            mm = (
                5.0
                if "ground-fire" in (values.get("class") or "")
                else 2.4
                if name == "ground"
                else 1.6
                if name == "script"
                else 0.8
            )
            self._begin(
                Piece(
                    fixed_em=0.6 if name == "ground" else 1.2 if name == "script" else 0.4,
                    fixed_mm=mm,
                    starts_side=name == "new-side" or (name == "ground" and self._titled),
                    with_next=name != "script",
                )
            )
            self._titled = self._titled or name == "ground"
        elif tag == "li" or name == "words":
            self._begin(self._kept_whole(name))
        elif tag == "tr":
            self._begin(Piece(columns=[], fixed_em=0.0 if "spelling" in self._open else 0.22, fixed_mm=0.3))
        elif name == "blank":
            self.pieces[-1].fixed_em += 1.8
        if tag in ("td", "th"):
            self._cell(name)
        if name in _STARTS or tag in _STARTS:
            self._paragraph(name if name in _STARTS or name in _LINES_EM or name in _BETWEEN_EM else tag)
        if self._text is not None and name in _LEAD_EM:
            self._text.words_em.append(_LEAD_EM[name])
            self._atom = name in ("role", "number")

    def _kept_whole(self, name: str) -> Piece:
        """A step, a line on which the card is left for another, or what its words mean."""
        if name == "words":
            return Piece(fixed_mm=0.25)
        if "leaves" in self._open:
            return Piece(fixed_em=0.25, fixed_mm=0.6)
        return Piece(fixed_em=0.44, fixed_mm=0.25, hanging_em=0.22)

    def _begin(self, piece: Piece) -> None:
        self.pieces.append(piece)
        self._text = None

    def _cell(self, name: str) -> None:
        piece = self.pieces[-1]
        if name == "no":
            piece.numbers += 1
        else:
            piece.columns.append([])

    def _paragraph(self, name: str) -> None:
        if "head" in self._open or "foot" in self._open or "no" in self._open:
            return
        inside = [each for each in self._open if each in _BESIDE_EM]
        beside = sum(_BESIDE_EM[each] for each in inside) + (_NUMERAL_EM if "action" in self._open else 0.0)
        between = 0.1 if "action" in self._open else 0.15 if "script" in self._open else 0.0
        cell = "td" in self._open or "th" in self._open
        self._text = Text(
            [], beside + 0.4 * cell, _LINES_EM.get(name, LINE_EM), _BETWEEN_EM.get(name, 0.0) + between
        )
        columns = self.pieces[-1].columns
        if not columns:
            columns.append([])
        columns[-1].append(self._text)

    def handle_endtag(self, tag: str) -> None:
        if "svg" in self._open and tag != "svg":
            return
        if self._open:
            closed = self._open.pop()
            self._atom = self._atom and closed not in ("role", "number")
        if tag in ("p", "h2", "h3", "td", "th", "div"):
            self._text = None

    def handle_data(self, data: str) -> None:
        if self._text is None or "svg" in self._open:
            return
        weight = 700 if any(each in _BOLD for each in self._open) else 400
        size = next((_SIZE_EM[each] for each in reversed(self._open) if each in _SIZE_EM), 1.0)
        widths = advances_em(weight)
        for part in _WORD.findall(data):
            width = None if part.isspace() else sum(widths.get(letter, _UNKNOWN_EM) for letter in part) * size
            if self._atom:
                self._text.words_em[-1] = (self._text.words_em[-1] or 0.0) + (
                    _BLANK_EM if width is None else width
                )
            else:
                self._text.words_em.append(width)


def pieces_of(html: str) -> list[Piece]:
    """The pieces of a card's HTML in their order."""
    reader = _Reader()
    reader.feed(html)
    return [piece for piece in reader.pieces if piece.fixed_mm or any(piece.columns)]
