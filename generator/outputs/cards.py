"""The cards: what hangs at each station, in type as large as the card holds and large enough to be read."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from generator.inventory import list_items
from generator.outputs import Job, Made, Record, engine
from generator.outputs.pages import environment, marks
from generator.outputs.paper import plan_width_mm, sheets
from generator.spelling import spelled

FILE = "cards.pdf"
STATIONS = ("raft", "muster place", "helm", "radio", "galley")

# Letters 1/200 of the reading distance high, where capitals are 0.72 of the size: 14 pt for a card on a bulkhead
# within reach, 10 pt for the small one that is taken in the hand (a handbook of legibility, read in its abstract:
# "character heights of 1/200th the viewing distance"). Headings are 1.5 times as large, more than the 1/150 asked
# of signal words.
READ_AT_M = {"A4": 0.7, "Letter": 0.7, "A5": 0.5}
SMALLEST_PT = {"A4": 14.0, "Letter": 14.0, "A5": 10.0}
LARGEST_PT = 26.0
STEP_PT = 0.25  # coarse enough that a changed word rarely changes the size
NEARLY_FULL = 0.05  # of a side: no larger type is looked for
SIDES = 2
MOST_STEPS = 16  # procedures of one station share a card up to so many steps
MOST_NAMES = 56  # things on the plan that are named on its back
COLUMNS = 3  # emergencies beside each other in the bill

_CODE_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # none that is taken for another by eye


@dataclass(frozen=True)
class Block:
    """A piece of a card: `template` of templates/cards prints `about`; `says` is all that makes its code."""

    template: str
    title: str
    about: object
    says: tuple[str, ...]


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
    """A card with the size of its type; `sides` it takes."""

    card: Card
    size_pt: float
    sides: int


def write(job: Job) -> Made:
    """All cards of a vessel as one PDF, one bookmark a card. Raises EngineMissing."""
    page = _Page(job)
    fitted = [page.fit(card) for card in cards(job.manual, job.reader)]
    layout = engine.lay_out(page.html(fitted), page.sheets)
    written, records = engine.write(layout, FILE)
    say = job.manual.catalogue.say
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
    return Made({FILE: written}, records)


def _station(card, say):
    return say(f"station.{card.station.replace(' ', '-')}")


class _Page:
    """Sets cards of one job."""

    def __init__(self, job: Job):
        self.sheets, self.smallest_pt = sheets("cards", job.paper), SMALLEST_PT[job.paper]
        manual = job.manual
        vessel = manual.seen_by(job.reader)
        self._fitted: dict[tuple[Block, ...], Set] = {}
        self._template = environment(manual.catalogue).get_template("cards/cards.html")
        width = plan_width_mm(manual.plan, "cards", job.paper)
        self._known = {
            "manual": manual,
            "vessel": vessel,
            "one": vessel.vessel,
            "bill": manual.bill,
            "marks": marks(manual),
            "read_at_m": READ_AT_M[job.paper],
            "items": list_items(vessel),
            "spelled": lambda text: spelled(str(text), manual.catalogue),
            "plan_width_mm": width,
            "plan_height_mm": round(width * manual.plan.height_mm / manual.plan.width_mm, 1),
        }

    def html(self, fitted: list[Set], *, draft: bool = False) -> str:
        """The cards before they are laid out; a draft has an empty box in place of the plan."""
        return self._template.render(**self._known, cards=fitted, draft=draft)

    def fit(self, card: Card) -> Set:
        """The card in the largest type that keeps it on one side, else on two; in the smallest for more."""
        known = self._fitted.get(card.blocks)
        if known is None:
            known = self._fitted[card.blocks] = self._fit(card)
        return Set(card, known.size_pt, known.sides)

    def _fit(self, card):
        smallest = self._layout(card, 0)
        sides = smallest.pages
        if sides > SIDES:
            return Set(card, self.smallest_pt, sides)
        # The area of text grows with the square of its size, so the room left says how much larger it may be.
        low, high, filled, failed = (
            0,
            round((LARGEST_PT - self.smallest_pt) / STEP_PT),
            smallest.filled,
            False,
        )
        while low < high and filled < sides - NEARLY_FULL:
            size = (self.smallest_pt + low * STEP_PT) * (sides / filled) ** 0.5
            likely = (low + high + 1) // 2 if failed else int((size - self.smallest_pt) / STEP_PT)
            tried = min(max(likely, low + 1), high)
            layout = self._layout(card, tried)
            failed = layout.pages > sides or bool(engine.clipped(layout))
            if failed:
                high = tried - 1
            else:
                low, filled = tried, layout.filled
        return Set(card, self.smallest_pt + low * STEP_PT, sides)

    def _layout(self, card, steps):
        return engine.lay_out(
            self.html([Set(card, self.smallest_pt + steps * STEP_PT, 1)], draft=True), self.sheets
        )


def cards(manual, reader: str) -> list[Card]:
    """The cards of a vessel in the order of STATIONS; those at the raft once for each raft."""
    say, vessel = manual.catalogue.say, manual.seen_by(reader)
    made = []
    for station in STATIONS:
        here = [each for each in manual.procedures if station in each.cards]
        for raft in {id(each.raft): each.raft for each in here}.values() if station == "raft" else (None,):
            place = (
                str(raft.name if raft is not None else vessel.vessel.muster_place)
                if station in ("raft", "muster place")
                else ""
            )
            groups = _grouped([each for each in here if station != "raft" or each.raft is raft])
            made += [Card(station, place, tuple(map(_procedure, group))) for group in groups]
        if station == "radio" and vessel.radio:
            made.append(Card(station, "", (_script(vessel, say),)))
        if station == "muster place":
            made += _bills(manual.bill, station, str(vessel.vessel.muster_place), say)
            made += _plans(list_items(vessel), station, str(vessel.vessel.muster_place), say)
    return made


def _grouped(procedures):
    """Procedures that share a card: neighbours, as long as their steps are few."""
    groups = []
    for each in procedures:
        if groups and sum(len(one.steps) for one in (*groups[-1], each)) <= MOST_STEPS:
            groups[-1].append(each)
        else:
            groups.append([each])
    return groups


def _procedure(one):
    says = [
        text for step in one.steps for text in (step.text, step.place, step.unless, step.caution, ", ".join(step.who))
    ]
    return Block("procedure.html", one.title, one, (one.intro, *says))


def _script(vessel, say):
    one, radio = vessel.vessel, vessel.radio
    says = map(str, (one.name, radio.call_sign or "", radio.mmsi or "", one.type, one.rig, one.length, one.hull_colour))
    return Block("script.html", say("book.call-script"), None, tuple(says))


def _bills(bill, station, place, say):
    """The station bill in cards of a few emergencies each, people down and emergencies across."""
    made = []
    for start in range(0, len(bill.emergencies), COLUMNS):
        chunk = bill.emergencies[start : start + COLUMNS]
        says = [
            text
            for each in chunk
            for duty in each.duties
            for text in (each.title, duty.text, ", ".join(duty.who), duty.substitute)
        ]
        made.append(
            Card(station, place, (Block("bill.html", say("bill.title"), chunk, (*bill.roles, *says)),))
        )
    return made


def _plans(items, station, place, say):
    """The plan with its numbers on the back, or on a card of their own where they are many."""
    says = tuple(f"{item.number} {item.what}, {item.where} {item.side}" for item in items)
    plan, names = (
        Block("plan.html", say("plan.title"), None, says),
        Block("legend.html", say("plan.legend"), None, says),
    )
    return [
        Card(station, place, blocks)
        for blocks in ([(plan, names)] if len(items) <= MOST_NAMES else [(plan,), (names,)])
    ]
