"""Estimates for the crew book: what happens if nobody reaches the raft, who can lift it, how long the water lasts.

Never on a card, a guest page or in a step: figures there would make people wait.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc import lifting, rations, release
from generator.manual.raft_facts import float_free
from generator.reading.measures import Box
from generator.reading.values import Band, given, known
from generator.shelves.packs import packs
from generator.vessel.raft import Painter, Raft, WeakLink
from generator.vessel.vessel import Vessel

WIDEST_RATIO = 3.0  # a band wider than this is printed as not predictable
LINK_TOLERANCE_N = 400.0  # of a weak link rated 2.2 kN, Canada LSE Regulations Sch. VIII s. 7(2)(c)


@dataclass(frozen=True)
class Estimate:
    """One result: `key` names its sentence in the catalogue, `figures` fill it, `assumptions` are keys of sentences too.

    `lacking` holds the keys of the file that are not known; the estimate is withheld then and `figures` is empty.
    `holds` is False where the result says that something will not work, None where it says neither.
    """

    key: str
    figures: tuple[tuple[str, str], ...] = ()
    assumptions: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()
    holds: bool | None = None


@dataclass(frozen=True)
class Sequence:
    """The sinking sequence of a float-free raft for the drawing, in metres."""

    height_m: float
    draft_m: float
    beam_m: float
    painter_m: float
    release_m: tuple[float, float]


@dataclass(frozen=True)
class RaftEstimates:
    """The estimates of one raft, and the lengths of its sinking sequence where all are known."""

    raft: Raft
    rows: tuple[Estimate, ...]
    sequence: Sequence | None


def estimates_of(vessel: Vessel, raft: Raft, lifters_kg: tuple[float | None, ...] = ()) -> RaftEstimates:
    """The estimates of a raft; `lifters_kg` is what each of those assigned to launch it can lift, None where not known."""
    rows: list[Estimate] = []
    if float_free(raft):
        rows += [
            _release(raft),
            _release_water(vessel, raft),
            _taut_water(vessel, raft),
            _floats_up(raft),
            _link(raft),
            _late(raft),
        ]
    rows += [_by_hand(raft), _carry(raft), _lift(raft, lifters_kg), _water(vessel, raft), _food(vessel, raft)]
    return RaftEstimates(raft, tuple(rows), _sequence(vessel, raft) if float_free(raft) else None)


def _withheld(key: str, *lacking: str, **values: float | Box | Band | None) -> Estimate:
    """An estimate that cannot be made: these keys are not known, and those whose value is None."""
    names = [name.replace("__", ".").replace("_", "-") for name, value in values.items() if value is None]
    return Estimate(key, lacking=(*names, *lacking))


def _release_depth(raft: Raft) -> Band | None:
    return known(raft.release.depth) if raft.release else None


def _packed_size(raft: Raft) -> Box | None:
    return known(raft.packed_size)


def _painter_length(raft: Raft) -> float | None:
    return known(raft.painter.length) if raft.painter else None


def _draft(vessel: Vessel) -> float | None:
    return known(vessel.vessel.draft) if vessel.vessel else None


def _persons(vessel: Vessel) -> int | None:
    return known(vessel.vessel.persons) if vessel.vessel else None


def _strength(block: WeakLink | Painter | None) -> float | None:
    return known(block.strength) if block else None


def _metres(value: float) -> str:
    return f"{value:.1f}"


def _newtons(value: float) -> str:
    return f"{round(value / 10) * 10:,}".replace(",", " ")


def _volume(size: Box) -> float:
    return size[0] * size[1] * size[2]


def _release(raft: Raft) -> Estimate:
    band = _release_depth(raft)
    if band is None:
        return _withheld("release", "release.depth")
    low, high = band
    return Estimate(
        "release",
        (
            ("low", _metres(low)),
            ("high", _metres(high)),
            ("low-kpa", f"{release.gauge_pressure_kpa(low):.0f}"),
            ("high-kpa", f"{release.gauge_pressure_kpa(high):.0f}"),
            ("fresh", _metres(release.depth_at_same_pressure_m(high))),
        ),
        ("sea-water", "band-of-label"),
    )


def _release_water(vessel: Vessel, raft: Raft) -> Estimate:
    band, draft, height = _release_depth(raft), _draft(vessel), known(raft.height)
    if band is None or draft is None or height is None:
        return _withheld("release-water", vessel__draft=draft, height=height, release__depth=band)
    never, surely = release.releases_below_m(band, release.attachment_above_keel_m(draft, height))
    return Estimate(
        "release-water", (("never", _metres(never)), ("surely", _metres(surely))), ("upright", "still-water")
    )


def _taut_water(vessel: Vessel, raft: Raft) -> Estimate:
    painter, draft, height = _painter_length(raft), _draft(vessel), known(raft.height)
    if painter is None or draft is None or height is None:
        return _withheld("taut-water", vessel__draft=draft, height=height, painter__length=painter)
    above = release.attachment_above_keel_m(draft, height)
    return Estimate(
        "taut-water",
        (("depth", _metres(release.grounds_before_taut_m(painter, above))), ("painter", _metres(painter))),
        ("upright", "no-drift"),
    )


def _floats_up(raft: Raft) -> Estimate:
    mass, size = known(raft.mass), _packed_size(raft)
    if mass is None or size is None:
        return _withheld("floats-up", mass=mass, packed_size=size)
    low, high = release.packed_buoyancy_band_n(mass, _volume(size))
    if low <= 0 or high / low > WIDEST_RATIO:
        return Estimate(
            "floats-up-not-predictable",
            (),
            ("swamped", "box"),
            holds=None if high > release.PULL_N else False,
        )
    holds = low > release.PULL_N
    return Estimate(
        "floats-up" if holds else "floats-up-too-weak",
        (("low", _newtons(low)), ("high", _newtons(high)), ("pull", _newtons(release.PULL_N))),
        ("swamped", "box"),
        holds=holds,
    )


def _link(raft: Raft) -> Estimate:
    rated, mass, persons = _strength(raft.weak_link), known(raft.mass), known(raft.persons)
    if rated is None or mass is None or persons is None:
        return _withheld("link", weak_link__strength=rated, mass=mass, persons=persons)
    low, high = rated - LINK_TOLERANCE_N, rated + LINK_TOLERANCE_N
    inflated, painter = release.inflated_buoyancy_n(persons, mass), _strength(raft.painter)
    size = _packed_size(raft)
    packed = release.packed_buoyancy_band_n(mass, _volume(size))[1] if size else 0.0
    figures = {"low": low, "high": high, "pull": release.PULL_N, "inflated": inflated}
    holds: bool | None = False
    named: tuple[str, ...]
    if low <= release.PULL_N:
        key, named = "link-parts-early", ("low", "high", "pull")
    elif high >= inflated:
        key, named = "link-drags-down", ("low", "high", "inflated")
    elif painter is not None and high >= painter:
        key, named = "link-outlasts-painter", ("low", "high", "painter")
        figures["painter"] = painter
    elif packed > low:
        # One strength serves rafts of every size (C.R.C. c. 1436 Sch. VIII s. 7(2)): a large one relies on firing at once.
        key, named, holds = "link-fires-first", ("low", "high", "pull", "packed", "inflated"), None
        figures["packed"] = packed
    else:
        key, named, holds = "link", ("pull", "low", "high", "inflated"), True
    return Estimate(
        key,
        tuple((name, _newtons(figures[name])) for name in named),
        ("link-tolerance", "tube-volume", *(("box",) if "packed" in named else ())),
        holds=holds,
    )


def _late(raft: Raft) -> Estimate:
    rated, mass, persons = _strength(raft.weak_link), known(raft.mass), known(raft.persons)
    if rated is None or mass is None or persons is None:
        return _withheld("late", weak_link__strength=rated, mass=mass, persons=persons)
    low = release.weak_link_never_parts_below_m(persons, mass, rated + LINK_TOLERANCE_N)
    high = release.weak_link_never_parts_below_m(persons, mass, rated - LINK_TOLERANCE_N)
    if low is None or high is None or low <= 0 or high / low > WIDEST_RATIO:
        return Estimate("late-not-predictable", (), ("tube-volume", "boyle"))
    return Estimate("late", (("low", _metres(low)), ("high", _metres(high))), ("tube-volume", "boyle"))


def _by_hand(raft: Raft) -> Estimate:
    painter, height = _painter_length(raft), known(raft.height)
    if painter is None or height is None:
        return _withheld("by-hand", painter__length=painter, height=height)
    return Estimate(
        "by-hand",
        (("painter", _metres(painter)), ("left", _metres(release.left_to_haul_m(painter, height)))),
        ("alongside",),
    )


def _carry(raft: Raft) -> Estimate:
    """The way from the stowage to where it goes over, and how long a drill took."""
    lacking = tuple(
        key for key, name in (("where", "where"), ("launch-from", "launch_from")) if not raft.known(name)
    )
    if lacking:
        return _withheld("carry", *lacking)
    way = (("where", str(raft.where)), ("to", str(raft.launch_from.what) if raft.launch_from else ""))
    if raft.known("ready_in"):
        return Estimate("carry", (*way, ("time", str(raft.ready_in))), ("drill",))
    return Estimate("carry-untimed", way)


def _lift(raft: Raft, lifters_kg: tuple[float | None, ...]) -> Estimate:
    mass, able_kg = known(raft.mass), [each for each in lifters_kg if each is not None]
    asked = bool(lifters_kg) and len(able_kg) == len(lifters_kg)
    if mass is None or not asked:
        return _withheld("lift", *(() if asked else ("people.lifts",)), mass=mass)
    team = able_kg[:4]
    holds = lifting.team_capability_kg(team) >= mass
    needed = lifting.smallest_team(mass, team)
    figures = (
        ("mass", f"{mass:.0f}"),
        ("people", str(len(team))),
        ("needed", str(needed or "")),
        ("team", f"{lifting.team_capability_kg(team):.0f}"),
    )
    return Estimate("lift" if holds else "lift-too-heavy", figures, ("team-lift",), holds=holds)


def _water(vessel: Vessel, raft: Raft) -> Estimate:
    persons, pack = _persons(vessel), known(raft.pack_water)
    bag = sum(
        item.volume for each in vessel.grab_bags for item in each.items if isinstance(item.volume, float)
    )
    if pack is None or persons is None:
        return _withheld("water", pack_water=pack, vessel__persons=persons)
    return Estimate(
        "water",
        (
            ("persons", str(persons)),
            ("pack", f"{pack:g}"),
            ("pack-days", _days(pack, persons)),
            ("bag", f"{bag:g}"),
            ("bag-days", _days(bag, persons)),
            ("both-days", _days(pack + bag, persons)),
        ),
        ("first-day", "all-aboard", "never-the-pack-alone"),
    )


def _food(vessel: Vessel, raft: Raft) -> Estimate:
    """Food in the pack, where its name says that it brings none, or how much."""
    persons, packed_for = _persons(vessel), known(raft.persons)
    pack = packs().get(str(raft.pack))
    if pack and pack.food is not True:
        return Estimate("food-none", (), ("never-the-pack-alone",))
    kilojoules = given(pack.food_energy, 0.0) if pack else 0.0
    if pack and not kilojoules:
        return Estimate("food-untold", (), ("never-the-pack-alone",))
    if pack is None or persons is None or packed_for is None:
        unsaid = () if pack else ("pack",)
        return _withheld("food", *unsaid, vessel__persons=persons, persons=packed_for)
    return Estimate(
        "food",
        (
            ("persons", str(persons)),
            ("days", f"{rations.food_days(kilojoules * packed_for, persons):.1f}"),
        ),
        ("ration", "all-aboard", "never-the-pack-alone"),
    )


def _days(litres: float, persons: int) -> str:
    return f"{rations.water_days(litres, persons):.1f}"


def _sequence(vessel: Vessel, raft: Raft) -> Sequence | None:
    beam = known(vessel.vessel.beam) if vessel.vessel else None
    height, draft, painter, band = (
        known(raft.height),
        _draft(vessel),
        _painter_length(raft),
        _release_depth(raft),
    )
    if height is None or draft is None or beam is None or painter is None or band is None:
        return None
    low, high = band
    return Sequence(height, draft, beam, painter, (low, high))
