"""Generated boats that are sound: types, crews, rafts, stowages, rule sets and units in turn, each as somebody would write her file."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count


@dataclass(frozen=True)
class Kind:
    """A type of boat in one size: lengths in metres, mass in kilogrammes, for `most` persons, in the waters that such a boat sails."""

    type: str
    length: float
    beam: float
    draft: float
    freeboard: float
    air_draft: float
    mass: float
    rig: str
    engine: str
    most: int
    waters: tuple[str, ...]

    @property
    def open(self) -> bool:
        """Whether nobody goes below in her."""
        return self.type in ("open boat", "dayboat")

    @property
    def inboard(self) -> bool:
        """Whether her engine stands inside her."""
        return self.engine.startswith("inboard")


FAR = ("offshore", "ocean")
LIFTED = ("deck locker", "cockpit locker", "below deck")
KINDS = (
    Kind("open boat", 6.4, 2.2, 0.4, 0.55, 2.2, 900, "none", "outboard", 5, ("sheltered", "coastal")),
    Kind("dayboat", 6.0, 2.2, 1.1, 0.55, 8.0, 900, "sloop", "outboard", 4, ("sheltered",)),
    Kind("monohull", 7.4, 2.6, 1.2, 0.8, 10.5, 2200, "sloop", "outboard", 4, ("sheltered", "coastal")),
    Kind("monohull", 9.6, 3.2, 1.6, 1.0, 13.5, 5200, "sloop", "inboard diesel", 6, ("coastal", "offshore")),
    Kind("monohull", 13.2, 4.1, 2.1, 1.3, 18.5, 12500, "cutter", "inboard diesel", 10, FAR),
    Kind("monohull", 19.5, 5.4, 2.8, 1.6, 26.0, 38000, "ketch", "inboard diesel", 20, FAR),
    Kind(
        "catamaran", 13.6, 7.4, 1.3, 1.6, 21.0, 13000, "sloop", "inboard diesel", 12, ("coastal", "offshore")
    ),
    Kind("trimaran", 11.0, 8.2, 1.1, 0.9, 17.0, 3900, "cutter", "inboard diesel", 6, FAR),
    Kind(
        "motor vessel", 11.5, 3.8, 1.1, 1.2, 5.0, 9500, "none", "inboard diesel", 8, ("sheltered", "coastal")
    ),
    Kind("motor vessel", 18.0, 5.0, 1.8, 1.6, 9.0, 42000, "none", "inboard diesel", 14, FAR),
)


@dataclass(frozen=True)
class Plan:
    """What one generated boat is to be: `fuel` is what she cooks with, `hold` what her rafts are taken off by."""

    number: int
    kind: Kind
    crew: int
    rafts: int
    stowage: str
    hold: str
    rule_set: str
    imperial: bool
    waters: str
    climate: str
    use: str
    fuel: str
    voyage: bool
    child: bool

    @property
    def name(self) -> str:
        """What lists call her."""
        units = "imperial" if self.imperial else "metric"
        return (
            f"{self.number}: {self.kind.type} of {self.kind.length} m, {self.crew} aboard, {self.rafts} rafts ({self.stowage}, {self.hold}), "
            f"{self.rule_set}, {units}, {self.waters}, {self.climate}, {self.use}, {self.fuel}"
        )

    @property
    def lifted(self) -> bool:
        """Whether her rafts must be lifted over the side."""
        return self.stowage in LIFTED

    @property
    def far(self) -> bool:
        """Whether help is far."""
        return self.waters in FAR


STOWAGES = (
    ("coachroof cradle", "Senhouse slip"), ("deck cradle", "HRU"), ("pushpit bracket", "HRU"), ("transom recess", "strap"),
    ("under-cockpit slot", "strap"), ("deck locker", "strap"), ("cockpit locker", "strap"), ("below deck", "strap"), ("davit", "lashing"),
)  # fmt: skip
ANY_BOAT = ("good practice", "US recreational", "Canada small craft", "[good practice, US recreational]")
DECKED = (*ANY_BOAT, "UK small commercial category 3", "UK small commercial category 2")
RACING = "World Sailing offshore special regulations category"


def rule_sets_for(kind: Kind, waters: str) -> tuple[str, ...]:
    """The rule sets by which a boat of that kind may be kept there."""
    if kind.open:
        return ANY_BOAT
    races = kind.type == "monohull" and kind.length > 9
    return (*DECKED, f"{RACING} {1 if waters in FAR else 3}") if races else DECKED


def plans() -> list[Plan]:
    """Some hundreds, in a fixed order: each value of each question meets many of each other."""
    made = []
    number = count()
    for turn in range(6):
        for place, kind in enumerate(KINDS):
            for step in range(5):
                at = next(number)
                crew = 1 + (turn * 5 + step + place * 3) % kind.most
                waters = kind.waters[(turn + step) % len(kind.waters)]
                most = min(3, max(1, crew // 3))
                sets = rule_sets_for(kind, waters)
                rule_set = sets[(at + turn) % len(sets)]
                none = kind.open or (waters not in FAR and at % 3 == 0 and "category 2" not in rule_set)
                rafts = 0 if none else 1 + at % most
                stowage, hold = stowage_for(kind, crew, at + place)
                made.append(
                    Plan(
                        at, kind, crew, rafts, stowage, hold, rule_set, at % 2 == 1, waters,
                        ("temperate", "cold", "tropical")[(at + step) % 3], ("private", "private", "charter", "commercial")[at % 4],
                        ("none", "butane", "propane", "alcohol")[(at // 2) % 4], at % 5 == 0, crew > 7 and rafts < 2 and at % 4 == 3,
                    )
                )  # fmt: skip
    return made


MULTIHULLS = ("catamaran", "trimaran")


def stowage_for(kind: Kind, crew: int, number: int) -> tuple[str, str]:
    """Where her rafts lie and what holds them: what many would have to lift lies where nobody lifts it, a multihull's where it is reached upside down, with no release."""
    stowage, hold = STOWAGES[number % len(STOWAGES)]
    if stowage in LIFTED and not 3 <= crew <= 6:
        stowage, hold = "coachroof cradle", "Senhouse slip"
    if kind.type in MULTIHULLS and stowage in ("coachroof cradle", "below deck"):
        stowage, hold = "pushpit bracket", "Senhouse slip"  # reached when she has turned over
    if hold == "HRU" and kind.type in MULTIHULLS:
        hold = "Senhouse slip"
    return stowage, hold
