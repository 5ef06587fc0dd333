"""Cards for the stations, to laminate: in type as large as the card holds and large enough to be read."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import ceil

from generator.manual.bill import Bill, Emergency
from generator.manual.composing import Manual
from generator.manual.glossary import Explained
from generator.manual.inventory import Item
from generator.manual.party_sheets import PartySheet
from generator.manual.printing import Printer
from generator.manual.steps import Leave, Procedure, holds
from generator.outputs import Job, Made, Record
from generator.outputs.setting import engine
from generator.outputs.setting.fitting import pieces_of, sides_taken
from generator.outputs.setting.pages import environment, mark_embedded, marks
from generator.outputs.setting.paper import plan_width_mm, room_mm, sheets
from generator.shelves.spelling import spelled
from generator.shelves.stations import (
    CALL_SCRIPT,
    ITS_RAFT,
    MUSTER_PLACE,
    PLAN,
    RAFT_PARTY,
    STATION_BILL,
    stations,
)
from generator.vessel.vessel import Vessel

READER = "guest"
FILE = "cards.pdf"
Say = Callable[..., str]
"""Gives a label of the language, its slots filled in."""

# Letters 1/200 of the reading distance high, where capitals are 0.72 of the size: 14 pt for a card on a bulkhead
# within reach, 10 pt for the small one that is taken in the hand (a handbook of legibility, read in its abstract:
# "character heights of 1/200th the viewing distance"). Headings are 1.5 times as large, more than the 1/150 asked
# of signal words.
READ_AT_M = {"A4": 0.7, "Letter": 0.7, "A5": 0.5}
SMALLEST_PT = {"A4": 14.0, "Letter": 14.0, "A5": 10.0}
LARGEST_PT = 26.0
STEP_PT = 0.25  # coarse enough that a changed word rarely changes the size
NEAR = 2  # steps: closer to the largest type that fits none is looked for
TRUSTED = 0.03  # how far an estimate may be off in one size to be believed in others
DOUBT, LEAST_DOUBT = {"bill.html": 0.3, "script.html": 0.15}, 0.1  # sides that an estimate may be too high
SIDES = 2
MOST_STEPS = 14  # procedures of one station share a card up to so many steps
MOST_NAMES = 56  # things on the plan that are named on its back
COLUMNS = 3  # emergencies beside each other in the bill

_CODE_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # none that is taken for another by eye


@dataclass(frozen=True)
class Block:
    """A piece of a card: `template` of templates/cards prints `about`; `says` is all that makes its code.

    `explained` are the words of the trade below it: no instructions, so that they make no card another one.
    """

    template: str
    title: str
    about: Procedure | PartySheet | tuple[Emergency, ...] | None
    says: tuple[str, ...]
    explained: tuple[Explained, ...] = ()


@dataclass(frozen=True)
class Card:
    """What hangs at one place, on up to two sides."""

    station: str
    hangs_at: str
    blocks: tuple[Block, ...]

    @property
    def title(self) -> str:
        """The names of what stands on it."""
        return " · ".join(block.title for block in self.blocks)

    def without_explanations(self) -> Card:
        """The same with what is to be done alone."""
        return replace(self, blocks=tuple(replace(block, explained=()) for block in self.blocks))

    @property
    def code(self) -> str:
        """Six letters and figures made of instructions, figures, places and names, not of layout or dates."""
        said = "\n".join(
            (
                self.station,
                self.hangs_at,
                *(text for block in self.blocks for text in (block.title, *block.says)),
            )
        )
        number = int.from_bytes(hashlib.sha256(said.encode()).digest()[:4]) >> 2
        letters = "".join(_CODE_LETTERS[number >> shift & 31] for shift in range(25, -1, -5))
        return f"{letters[:3]}-{letters[3:]}"


@dataclass(frozen=True)
class Set:
    """A card with the size of its type and the `sides` it takes; `layout` is how it was laid out to be sure of both."""

    card: Card
    size_pt: float
    sides: int
    layout: engine.Layout | None = field(default=None, compare=False, repr=False)


def write(job: Job) -> Made:
    """All cards of a vessel as one PDF, one bookmark a card. Raises EngineMissing."""
    page = _Page(job)
    fitted = [each for card in cards(job.manual, job.reader) for each in page.hung(card)]
    layouts = [each.layout for each in fitted if each.layout is not None]
    joined = engine.join(layouts)
    written, records = engine.write(joined, FILE)
    say = job.manual.printer.say
    for each in fitted:
        if each.sides > SIDES:
            records.append(
                Record(
                    "too-small",
                    FILE,
                    f"{_station(each.card, say)}, {each.card.title}: {each.sides} sides of {job.paper} "
                    f"at {page.smallest_pt:g} pt, a card has {SIDES}",
                )
            )
    return Made({FILE: written}, records, drawn={FILE: joined.drawn})


def _station(card: Card, say: Say) -> str:
    return say(f"station.{card.station.replace(' ', '-')}")


class _Page:
    """Sets cards of one job."""

    def __init__(self, job: Job):
        self.sheets, self.smallest_pt = sheets("cards", job.paper), SMALLEST_PT[job.paper]
        self.room_mm = room_mm("cards", job.paper)
        manual = job.manual
        vessel = manual.seen_by(job.reader)
        self._fitted: dict[tuple[Block, ...], Set] = {}
        self._template = environment(job.printer, job.manual.facts).get_template("cards/cards.html")
        width = plan_width_mm(manual.plan, "cards", job.paper)
        self._known = {
            "manual": manual,
            "vessel": vessel,
            "one": vessel.vessel,
            "bill": manual.bill,
            "marks": marks(manual),
            "mark": mark_embedded(manual.vessel),
            "read_at_m": READ_AT_M[job.paper],
            "items": manual.items_for(job.reader),
            "left_on_a_card": left_on_a_card,
            "spelled": lambda text: spelled(str(text), manual.catalogue),
            "plan_width_mm": width,
            "plan_height_mm": round(width * manual.plan.height_mm / manual.plan.width_mm, 1),
        }

    def html(self, fitted: list[Set]) -> str:
        """The cards before they are laid out."""
        return self._template.render(**self._known, cards=fitted)

    def hung(self, card: Card) -> list[Set]:
        """The card; what shares one and does not fit on its sides hangs as cards of its own."""
        whole = self.fit(card)
        if whole.sides <= SIDES or len(card.blocks) < 2:
            return [whole]
        apart = [replace(card, blocks=card.blocks[:-1]), replace(card, blocks=card.blocks[-1:])]
        return [each for part in apart for each in self.hung(part)]

    def fit(self, card: Card) -> Set:
        """The card laid out in the largest type that keeps it on one side, else on two; in the smallest for more."""
        known = self._fitted.get(card.blocks)
        if known is None:
            known = self._fitted[card.blocks] = self._fit(card)
            return known
        layout = self._layout(card, known.size_pt)
        return Set(card, known.size_pt, layout.pages, layout)

    def _fit(self, card: Card) -> Set:
        """The card in the largest type that fits; what it explains of words gives way where it would cost a side."""
        whole = self._sized(card)
        bare = card.without_explanations()
        if bare == card or whole.sides <= self._sides_expected(bare):
            return whole
        alone = self._sized(bare)
        return alone if alone.sides < whole.sides else whole

    def _sides_expected(self, card: Card) -> int:
        """How many sides a card will surely take in the smallest type."""
        pieces = pieces_of(self.html([Set(card, self.smallest_pt, 1)]))
        return ceil(sides_taken(pieces, self.smallest_pt, *self.room_mm) - self._doubt(card))

    @staticmethod
    def _doubt(card: Card) -> float:
        return max(DOUBT.get(block.template, LEAST_DOUBT) for block in card.blocks)

    def _sized(self, card: Card) -> Set:
        pieces = pieces_of(self.html([Set(card, self.smallest_pt, 1)]))
        sizes = [
            self.smallest_pt + step * STEP_PT
            for step in range(round((LARGEST_PT - self.smallest_pt) / STEP_PT) + 1)
        ]
        expected = [sides_taken(pieces, size_pt, *self.room_mm) for size_pt in sizes]
        for sides in range(min(SIDES, max(1, ceil(expected[0] - self._doubt(card)))), SIDES + 1):
            if found := self._largest(card, sides, sizes, expected):
                return found
        layout = self._layout(card, self.smallest_pt)
        return Set(card, self.smallest_pt, layout.pages, layout)

    def _largest(self, card: Card, sides: int, sizes: list[float], expected: list[float]) -> Set | None:
        """The card in the largest of the sizes in which it fits, to less than NEAR steps; None where it fits in none."""
        found: engine.Layout | None = None
        low, high, drop, trusted = -1, len(sizes) - 1, 0, True

        def likely_sides(step: int) -> float:
            if found is None:
                return expected[step]
            if trusted:
                return expected[step] * found.filled / expected[low]
            return found.filled * (sizes[step] / sizes[low]) ** 2  # the area of text grows so at most

        while low < high and not (
            found and (high - low < NEAR or (trusted and likely_sides(low + NEAR) > sides))
        ):
            nearest = low + 1 if found is None else low + NEAR
            likely = max(
                (step for step in range(nearest, high + 1) if likely_sides(step) <= sides), default=nearest
            )
            step = max(nearest, likely - drop)
            layout = self._layout(card, sizes[step])
            if layout.pages <= sides and not engine.clipped(layout):
                found, low, drop = layout, step, 0
                trusted = abs(layout.filled / expected[step] - 1) <= TRUSTED
            else:
                high, drop = step - 1, 2 * drop + 1
        return Set(card, sizes[low], found.pages, found) if found else None

    def _layout(self, card: Card, size_pt: float) -> engine.Layout:
        return engine.lay_out(self.html([Set(card, size_pt, 1)]), self.sheets)


def cards(manual: Manual, reader: str) -> list[Card]:
    """The cards of a vessel in the order of the shelf of stations; those that hang at a raft once for each raft."""
    say, vessel = manual.printer.say, manual.seen_by(reader)
    made: list[Card] = []
    muster_place = str(vessel.vessel.muster_place) if vessel.vessel else ""
    for station in stations():
        if not holds(station.when, (), manual.facts):
            continue
        name, at_raft = station.name, station.hangs_at == ITS_RAFT
        place = muster_place if station.hangs_at == MUSTER_PLACE else ""
        here = [each for each in manual.procedures if name in each.cards]
        for raft in {id(each.raft): each.raft for each in here}.values() if at_raft else (None,):
            beside = place if raft is None else str(raft.name)
            groups = _grouped([each for each in here if not at_raft or each.raft is raft])
            blocks = [tuple(_procedure(each, manual, name) for each in group) for group in groups]
            party = manual.party(raft) if raft is not None and RAFT_PARTY in station.shows else None
            if party is not None:
                told = [text for group in blocks for block in group for text in (block.title, *block.says)]
                explained = manual.glossary.of_card("\n".join((party.title, *party.said, *told)), name)
                made.append(Card(name, beside, (_party(party, explained),)))
            made += [Card(name, beside, group) for group in blocks]
        if CALL_SCRIPT in station.shows and vessel.radio:
            made.append(Card(name, place, (_script(manual, vessel, say),)))
        if STATION_BILL in station.shows:
            made += _bills(manual.bill, name, place, say)
        if PLAN in station.shows:
            made += _plans(manual.items_for(reader), name, place, manual.printer)
    return made


def _grouped(procedures: list[Procedure]) -> list[list[Procedure]]:
    """Procedures that share a card, one on each side: neighbours of one bill, as long as their steps are few."""
    groups: list[list[Procedure]] = []
    for each in procedures:
        if groups and len(groups[-1]) < SIDES and _shares(groups[-1][-1], each):
            groups[-1].append(each)
        else:
            groups.append([each])
    return groups


def _shares(one: Procedure, other: Procedure) -> bool:
    return one.bill == other.bill and _lines(one) + _lines(other) <= MOST_STEPS


def _lines(one: Procedure) -> int:
    """How many steps a procedure is as long as: the lines on which it is left for another are half as high as a step."""
    return len(one.steps) + len(left_on_a_card(one)) // 2


def left_on_a_card(one: Procedure) -> tuple[Leave, ...]:
    """On which lines a card is left for another card, or for what is done within seconds and stands in the book; for whatever is there where there is neither."""
    hanging = tuple(leave for leave in one.leaves if any(link.on_card or link.at_once for link in leave.to))
    return hanging or one.leaves


def _procedure(one: Procedure, manual: Manual, station: str) -> Block:
    says = [
        text
        for step in one.steps
        for text in (step.text, step.place, step.unless, step.caution, ", ".join(step.who))
    ]
    says += [
        text for leave in left_on_a_card(one) for text in (leave.words, *(link.title for link in leave.to))
    ]
    said = (one.intro, *says, *((one.end.words,) if one.end else ()))
    explained = manual.glossary.of_card("\n".join((one.title, *said)), station)
    return Block("procedure.html", one.title, one, said, explained)


def _party(sheet: PartySheet, explained: tuple[Explained, ...]) -> Block:
    """Who does what at a raft, and what the words mean that stand on all its cards: there is room for all of them."""
    return Block("party.html", sheet.title, sheet, sheet.said, explained)


def _script(manual: Manual, vessel: Vessel, say: Say) -> Block:
    one, radio = vessel.vessel, vessel.radio
    assert one, "no manual is composed of a vessel without particulars"
    assert radio, "who has no radio aboard has no words to say into it"
    says = map(
        str,
        (
            one.name,
            radio.call_sign or "",
            radio.mmsi or "",
            one.type,
            one.rig,
            one.length,
            one.hull_colour,
            one.underside_colour or "",
            *((shows.what, shows.position_shown) if (shows := manual.position_set) else ()),
            *(each.phone for each in manual.rescue_centres),
        ),
    )
    return Block("script.html", say("book.call-script"), None, tuple(says))


def _bills(bill: Bill, station: str, place: str, say: Say) -> list[Card]:
    """The station bill in cards of a few emergencies each, people down and emergencies across."""
    people = [
        text
        for role in bill.roles
        for text in (bill.called[role], bill.idle[role], bill.idle_outside[role], bill.helps_briefly[role])
    ]
    made = []
    for start in range(0, len(bill.emergencies), COLUMNS):
        chunk = bill.emergencies[start : start + COLUMNS]
        says = [
            text
            for each in chunk
            for duty in each.duties
            for text in (each.title, duty.text, ", ".join(duty.who), duty.substitute)
        ]
        says += [text for each in chunk for role in bill.roles for text in bill.beside(role, each)]
        made.append(Card(station, place, (Block("bill.html", say("bill.title"), chunk, (*people, *says)),)))
    return made


def _plans(items: tuple[Item, ...], station: str, place: str, printer: Printer) -> list[Card]:
    """The plan with its numbers on the back, or on a card of their own where they are many."""
    says = tuple(f"{item.number} {printer.named(item.name)}, {item.where} {item.side}" for item in items)
    plan, names = (
        Block("plan.html", printer.say("plan.title"), None, says),
        Block("legend.html", printer.say("plan.legend"), None, says),
    )
    if len(items) <= MOST_NAMES:
        return [Card(station, place, (plan, names))]
    return [Card(station, place, (plan,)), Card(station, place, (names,))]
