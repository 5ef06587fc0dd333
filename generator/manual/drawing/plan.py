"""The gear-locations diagram: each numbered item of the gear list on the vessel's levels."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from generator.manual.drawing import svg
from generator.manual.drawing.hull import Outline, outline_of
from generator.manual.drawing.key import draw_key
from generator.manual.drawing.labels import Subject
from generator.manual.drawing.lettering import Lettering, written_in
from generator.manual.drawing.level import Level
from generator.manual.drawing.names import Namer
from generator.manual.drawing.spaces import Space, dimensions_m, find_space, spaces_of
from generator.manual.drawing.symbols import SIZE_MM, WIDE_MM, class_of, muster, symbol
from generator.manual.inventory import Item
from generator.manual.printing import Printer
from generator.shelves.spaces import BELOW, DECK, LEVELS, UPPER
from generator.vessel.vessel import Vessel

COLUMN_MM = 84.0
_GUTTER_MM = 2.0
_SHEET_MM = 2 * COLUMN_MM + _GUTTER_MM  # as wide as a page holds: a third level makes all of them narrower
LONGEST_MM = 184.0
_MARGIN_MM = SIZE_MM + 3.2  # beside the hull: one symbol and its distance
_HEAD_MM = 12.0
_WORD_MM = 3.6
_ENDS_MM = 4.0  # the words for ends and sides; smaller where a narrow column would not hold them
MUSTER = "muster"
"""What the label of the muster place is of."""

Entry = tuple[int, float, float, str]
"""A symbol drawn: number, x and y of its centre in millimetres, level."""


@dataclass(frozen=True)
class Sheet:
    """What is drawn. `svg` has a viewBox in millimetres of `width_mm` by `height_mm` and fills the width it is given."""

    svg: str
    width_mm: float
    height_mm: float
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Plan:
    """The drawing and what of the gear it could not show as described. It is drawn when first looked at.

    `unplaced`: no space given. `unknown_spaces`: the space is none of hers. `outside`: the point is not on the hull
    (drawn in its space instead). `wrong_side`: its point, or its space, lies on the other side than its `side` says.
    `side_missing`: its space lies on both sides and it says neither. `muster_drawn`: her muster place is a space of hers.
    """

    draw_sheet: Callable[[], Sheet] = field(repr=False, compare=False)
    unplaced: tuple[Item, ...] = ()
    unknown_spaces: tuple[Item, ...] = ()
    outside: tuple[Item, ...] = ()
    wrong_side: tuple[Item, ...] = ()
    side_missing: tuple[Item, ...] = ()
    muster_drawn: bool = False

    @cached_property
    def sheet(self) -> Sheet:
        """The drawing; the survey does without it, for placing the labels takes longer than all checks together."""
        return self.draw_sheet()

    @property
    def svg(self) -> str:
        """The drawing as SVG."""
        return self.sheet.svg

    @property
    def width_mm(self) -> float:
        """Its width."""
        return self.sheet.width_mm

    @property
    def height_mm(self) -> float:
        """Its height."""
        return self.sheet.height_mm

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Its symbols."""
        return self.sheet.entries


class _Placed(NamedTuple):
    """An item with its space, the side of it, and the point in metres if it has one on the hull."""

    item: Item
    space: Space
    side: str
    point: tuple[float, float] | None


@dataclass
class _Sorted:
    """The items with their space and side, and those that have none."""

    placed: list[_Placed] = field(default_factory=list)
    unplaced: list[Item] = field(default_factory=list)
    unknown_spaces: list[Item] = field(default_factory=list)
    outside: list[Item] = field(default_factory=list)
    wrong_side: list[Item] = field(default_factory=list)
    side_missing: list[Item] = field(default_factory=list)


def draw(
    vessel: Vessel,
    items: tuple[Item, ...],
    printer: Printer,
    *,
    prefix: str = "plan",
    stacked: bool = False,
    spaces: dict[str, Space] | None = None,
) -> Plan:
    """The diagram of `vessel` with `items`, in the words of `printer`.

    Ids in the drawing start with `prefix`: two drawings on one page take two prefixes; the symbol of item 7 is
    `<prefix>-item-7`. The levels stand side by side, bow up, or one below the other if `stacked` (for a narrow screen).
    `spaces` are hers where they are worked out already.
    """
    spaces = spaces_of(vessel) if spaces is None else spaces
    outline = outline_of(vessel)
    sorted_items = _sort(items, spaces, outline)
    muster_space, muster_side = (
        find_space(spaces, vessel.vessel.muster_place or "") if vessel.vessel else (None, "")
    )
    gathering = (muster_space, muster_side) if muster_space else None
    return Plan(
        lambda: _draw_sheet(
            vessel, spaces, outline, sorted_items, gathering, items, printer, prefix, stacked
        ),
        tuple(sorted_items.unplaced),
        tuple(sorted_items.unknown_spaces),
        tuple(sorted_items.outside),
        tuple(sorted_items.wrong_side),
        tuple(sorted_items.side_missing),
        muster_space is not None,
    )


def _draw_sheet(
    vessel: Vessel,
    spaces: dict[str, Space],
    outline: Outline,
    sorted_items: _Sorted,
    gathering: tuple[Space, str] | None,
    items: tuple[Item, ...],
    printer: Printer,
    prefix: str,
    stacked: bool,
) -> Sheet:
    """Her levels and the key."""
    levels = _levels(spaces, sorted_items.placed, gathering)
    words = Lettering(printer, written_in(vessel, items), BELOW not in levels)
    size = WIDE_MM if any(item.number > 99 for item in items) else SIZE_MM
    columns = 1 if stacked else len(levels)
    column_mm = min(COLUMN_MM, (_SHEET_MM - (columns - 1) * _GUTTER_MM) / columns)
    mm_per_m = min((column_mm - 2 * _MARGIN_MM) / outline.beam_m, LONGEST_MM / outline.length_m)
    pieces: list[str] = []
    entries: list[Entry] = []
    top = bottom = 0.0
    for column, name in enumerate(levels):
        left = 0.0 if stacked else column * (column_mm + _GUTTER_MM)
        level = Level(name, outline, left, left + column_mm, top + _HEAD_MM, mm_per_m)
        here = [each for each in sorted_items.placed if each.space.level == name]
        meeting = gathering if gathering and gathering[0].level == name else None
        drawn, found = _draw_level(level, spaces, here, meeting, words, prefix, size, top)
        pieces.append(drawn)
        entries += found
        bottom = max(bottom, level.sheet.bottom + 6)
        top = bottom + 4 if stacked else top
    width = columns * column_mm + (columns - 1) * _GUTTER_MM
    used = [class_of(each.item.kind) for each in sorted_items.placed]
    key, height = draw_key(
        used,
        gathering is not None,
        words,
        width,
        bottom + 1,
        mm_per_m if dimensions_m(vessel)[2] else None,
    )
    for column in range(1, columns):
        between = column * (column_mm + _GUTTER_MM) - _GUTTER_MM / 2
        pieces.append(svg.line((between, 0), (between, bottom), stroke=svg.GREY, width=0.3))
    title, boat = f"{prefix}-title", (vessel.vessel.name if vessel.vessel else "") or ""
    heading = svg.element("title", svg.escape(f"{words('title')}: {boat}"), id=title)
    heading += svg.element(
        "desc",
        svg.escape("; ".join(_told(each.item, printer) for each in sorted_items.placed)),
        id=f"{prefix}-items",
    )
    content = (
        heading + svg.rectangle((0, 0, width, height), fill=svg.PAPER, stroke="none") + "".join(pieces) + key
    )
    written = svg.element(
        "svg",
        content,
        xmlns="http://www.w3.org/2000/svg",
        width="100%",
        role="img",
        viewBox=f"0 0 {svg.number(width)} {svg.number(height)}",
        aria_labelledby=title,
        aria_describedby=f"{prefix}-items",
    )
    return Sheet(written, width, round(height, 2), tuple(sorted(entries)))


def _levels(
    spaces: dict[str, Space], placed: Sequence[_Placed], gathering: tuple[Space, str] | None
) -> list[str]:
    """The levels she has, from the top down; the upper one only where something of it is shown."""
    shown = {each.space.level for each in placed} | ({gathering[0].level} if gathering else set())
    shown |= {space.level for space in spaces.values() if space.always or space.level != UPPER}
    return [level for level in LEVELS if level in shown or level == DECK]


def _told(item: Item, printer: Printer) -> str:
    """An item in the description for those who don't see the drawing."""
    return f"{item.number} {printer.named(item.name)}: {printer.whereabouts(item, exactly=False)}"


def _sort(items: tuple[Item, ...], spaces: dict[str, Space], outline: Outline) -> _Sorted:
    """Each item with its space, or among those that cannot be shown as described."""
    found = _Sorted()
    for item in items:
        if not item.situated or item.where in ("unknown", "private"):
            found.unplaced.append(item)
            continue
        space, named_side = find_space(spaces, item.where)
        if space is None:
            found.unknown_spaces.append(item)
            continue
        stated = item.side if item.side in ("port", "starboard", "centre") else ""
        side = named_side or stated
        point = (item.aft_m, item.off_m) if item.aft_m is not None and item.off_m is not None else None
        if point and not outline.contains(*point, space.level):
            found.outside.append(item)
            point = None
        elif point and ((side == "port" and point[1] > 0) or (side == "starboard" and point[1] < 0)):
            found.wrong_side.append(item)
        if not point and (not space.lies_on(side) or (named_side and stated and named_side != stated)):
            found.wrong_side.append(item)
        if not point and space.paired and side not in ("port", "starboard"):
            found.side_missing.append(item)
        found.placed.append(_Placed(item, space, side, point))
    return found


def _draw_level(
    level: Level,
    spaces: dict[str, Space],
    here: list[_Placed],
    gathering: tuple[Space, str] | None,
    words: Lettering,
    prefix: str,
    size: float,
    top: float,
) -> tuple[str, list[Entry]]:
    """One level as SVG, and its entries."""
    namer = Namer(
        level,
        [space for space in spaces.values() if space.level == level.name],
        [(space, side) for _, space, side, _ in here] + ([gathering] if gathering else []),
        words.space,
    )
    sheet = level.sheet
    for item, _, _, point in here:
        if point:
            sheet.place([level.label_at(item, point, (size, size))])
    if gathering:
        lines = _lines(words("muster place"))
        width = max(size, *(svg.width_mm(line, _WORD_MM) for line in lines))
        extra = _WORD_MM * 1.15 * len(lines)
        _place(level, [MUSTER], *gathering, (width, size + extra), -extra / 2)
    namer.name_always()
    groups: dict[tuple[bool, float, str, str], list[_Placed]] = {}
    for each in here:
        if not each.point:
            area = _area(level.bounds(each.space, each.side))
            key = (each.item.kind != "raft", area, each.space.name, each.side)
            groups.setdefault(key, []).append(each)
    for (no_raft, _, _, side), found in sorted(groups.items(), key=lambda group: group[0]):
        items = [each.item for each in found]
        if no_raft:
            _place(level, items, found[0].space, side, (size, size))
        else:
            extra = _WORD_MM * 1.15
            _place(
                level,
                items,
                found[0].space,
                side,
                (max(svg.width_mm(words("raft"), _WORD_MM), size), size + extra),
                -extra / 2,
            )
    namer.name_used()
    return _as_svg(level, namer, words, prefix, size, top), [
        (label.key.number, round(x, 2), round(y, 2), level.name)
        for label, (x, y) in ((put.label, put.centre) for put in sheet.placed)
        if isinstance(label.key, Item)
    ]


def _place(
    level: Level,
    keys: Sequence[Subject],
    space: Space,
    side: str,
    size: tuple[float, float],
    rise: float = 0.0,
) -> None:
    level.sheet.place(level.labels(keys, space, side, size, rise))


def _lines(text: str) -> list[str]:
    """Words on two lines if there are two."""
    first, _, rest = text.partition(" ")
    return [first, rest] if rest else [text]


def _area(box: svg.Box) -> float:
    return round((box[2] - box[0]) * (box[3] - box[1]), 3)


def _as_svg(level: Level, namer: Namer, words: Lettering, prefix: str, size: float, top: float) -> str:
    pieces = [namer.drawn_hull(), namer.drawn_spaces()]
    level.sheet.settle()
    led = [(cluster, *cluster.leader) for cluster in level.sheet.clusters if cluster.leader]
    pieces += [svg.line(start, end, stroke=svg.PAPER, width=1.2) for _, start, end in led]
    for cluster, start, end in led:
        pieces.append(svg.line(start, end, width=0.4) + svg.circle(end, 0.65, fill=svg.INK, width=0.2))
        if len(cluster.labels) > 1:
            pieces.append(svg.rectangle(_grown(cluster.box, 0.2), fill=svg.PAPER, width=0.3))
    pieces.append(namer.drawn_names())
    for each in level.sheet.placed:
        below = (each.centre[0], each.centre[1] + size / 2 + 2.0)
        item = each.label.key
        if not isinstance(item, Item):
            word = "".join(
                svg.words(line, (below[0], below[1] + row * _WORD_MM * 1.1), _WORD_MM, bold=True, halo=True)
                for row, line in enumerate(_lines(words("muster place")))
            )
            pieces.append(svg.element("g", muster(each.centre, size) + word, id=f"{prefix}-muster-place"))
            continue
        drawn = symbol(str(item.number), class_of(item.kind), each.centre, size)
        if each.label.rise:
            drawn += svg.words(words("raft"), below, _WORD_MM, bold=True, halo=True)
        title = svg.element("title", svg.escape(words.numbered(item)))
        pieces.append(svg.element("g", title + drawn, id=f"{prefix}-item-{item.number}"))
    return "".join(pieces) + _headings(level, words, top)


def _grown(box: svg.Box, by: float) -> svg.Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def _headings(level: Level, words: Lettering, top: float) -> str:
    """The name of the level, and the words for its ends and sides above and below it."""
    ends = [words(end).upper() for end in ("bow", "stern", "port", "starboard")]
    reach = max(svg.width_mm(end, 1) for end in ends[:2]) / 2 + max(
        svg.width_mm(side, 1) for side in ends[2:]
    )
    room = (level.sheet.right - level.sheet.left) / 2 - 2
    size = min(_ENDS_MM, room / reach)
    inset = 5.0 if size == _ENDS_MM else 1.0
    left, right = level.sheet.left + inset, level.sheet.right - inset
    foot = level.sheet.bottom + 3
    written = svg.words(words.level(level.name), (level.middle, top + 3.2), 5, bold=True)
    for end, height in (("bow", top + 9.6), ("stern", foot)):
        written += svg.words(words("port").upper(), (left, height), size, bold=True, anchor="start")
        written += svg.words(words(end).upper(), (level.middle, height), size, bold=True)
        written += svg.words(words("starboard").upper(), (right, height), size, bold=True, anchor="end")
    return written
