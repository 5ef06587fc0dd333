"""Estimates for the crew book: what happens if nobody reaches the raft, who can lift it, how long the water lasts.

Never on a card, a guest page or in a step: figures there would make people wait.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc import lifting, rations, release
from generator.manual.raft_facts import float_free
from generator.reading.values import Band, given
from generator.shelves.packs import packs

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

    raft: object
    rows: tuple[Estimate, ...]
    sequence: Sequence | None


def estimates_of(vessel, raft, lifters_kg: tuple[float | None, ...] = ()) -> RaftEstimates:
    """The estimates of a raft; `lifters_kg` is what each of those assigned to launch it can lift, None where not known."""
    rows = []
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


def _lacking(**values):
    """The keys whose values are not known."""
    return tuple(
        key.replace("__", ".").replace("_", "-")
        for key, value in values.items()
        if value is None or value is False or type(value).__name__ == "NotKnown"
    )


def _withheld(key, lacking):
    return Estimate(key, lacking=lacking)


def _release_depth(raft):
    depth = raft.release.depth if raft.release else None
    return depth if isinstance(depth, Band) else None


def _strength(block):
    value = block.strength if block else None
    return value if isinstance(value, float) else None


def _number(value):
    return value if isinstance(value, (int, float)) and not isinstance(value, bool) else None


def _metres(value) -> str:
    return f"{value:.1f}"


def _newtons(value):
    return f"{round(value / 10) * 10:,}".replace(",", " ")


def _release(raft):
    band = _release_depth(raft)
    if band is None:
        return _withheld("release", ("release.depth",))
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


def _keel(vessel, raft):
    draft, height = _number(vessel.vessel.draft), _number(raft.height)
    lacking = _lacking(vessel__draft=draft, height=height)
    return (None, lacking) if lacking else (release.attachment_above_keel_m(draft, height), ())


def _release_water(vessel, raft):
    band, (above, lacking) = _release_depth(raft), _keel(vessel, raft)
    lacking += () if band else ("release.depth",)
    if lacking:
        return _withheld("release-water", lacking)
    never, surely = release.releases_below_m(band, above)
    return Estimate(
        "release-water", (("never", _metres(never)), ("surely", _metres(surely))), ("upright", "still-water")
    )


def _taut_water(vessel, raft):
    painter, (above, lacking) = _number(raft.painter.length if raft.painter else None), _keel(vessel, raft)
    lacking += () if painter else ("painter.length",)
    if lacking:
        return _withheld("taut-water", lacking)
    return Estimate(
        "taut-water",
        (("depth", _metres(release.grounds_before_taut_m(painter, above))), ("painter", _metres(painter))),
        ("upright", "no-drift"),
    )


def _floats_up(raft):
    mass, size = _number(raft.mass), raft.packed_size if isinstance(raft.packed_size, tuple) else None
    lacking = _lacking(mass=mass, packed_size=size)
    if lacking:
        return _withheld("floats-up", lacking)
    low, high = release.packed_buoyancy_band_n(mass, size[0] * size[1] * size[2])
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


def _link(raft):
    rated, mass, persons = _strength(raft.weak_link), _number(raft.mass), _number(raft.persons)
    lacking = _lacking(weak_link__strength=rated, mass=mass, persons=persons)
    if lacking:
        return _withheld("link", lacking)
    low, high = rated - LINK_TOLERANCE_N, rated + LINK_TOLERANCE_N
    inflated, painter = release.inflated_buoyancy_n(persons, mass), _strength(raft.painter)
    size = raft.packed_size if isinstance(raft.packed_size, tuple) else None
    packed = release.packed_buoyancy_band_n(mass, size[0] * size[1] * size[2])[1] if size else 0.0
    holds = low > max(release.PULL_N, packed) and high < inflated and (painter is None or high < painter)
    return Estimate(
        "link" if holds else "link-out-of-order",
        (
            ("pull", _newtons(release.PULL_N)),
            ("low", _newtons(low)),
            ("high", _newtons(high)),
            ("inflated", _newtons(inflated)),
        ),
        ("link-tolerance", "tube-volume"),
        holds=holds,
    )


def _late(raft):
    rated, mass, persons = _strength(raft.weak_link), _number(raft.mass), _number(raft.persons)
    lacking = _lacking(weak_link__strength=rated, mass=mass, persons=persons)
    if lacking:
        return _withheld("late", lacking)
    low = release.weak_link_never_parts_below_m(persons, mass, rated + LINK_TOLERANCE_N)
    high = release.weak_link_never_parts_below_m(persons, mass, rated - LINK_TOLERANCE_N)
    if low is None or high is None or low <= 0 or high / low > WIDEST_RATIO:
        return Estimate("late-not-predictable", (), ("tube-volume", "boyle"))
    return Estimate("late", (("low", _metres(low)), ("high", _metres(high))), ("tube-volume", "boyle"))


def _by_hand(raft):
    painter, height = _number(raft.painter.length if raft.painter else None), _number(raft.height)
    lacking = _lacking(painter__length=painter, height=height)
    if lacking:
        return _withheld("by-hand", lacking)
    return Estimate(
        "by-hand",
        (("painter", _metres(painter)), ("left", _metres(release.left_to_haul_m(painter, height)))),
        ("alongside",),
    )


def _carry(raft):
    """The way from the stowage to where it goes over, and how long a drill took."""
    lacking = tuple(
        key for key, name in (("where", "where"), ("launch-from", "launch_from")) if not raft.known(name)
    )
    if lacking:
        return _withheld("carry", lacking)
    way = (("where", str(raft.where)), ("to", str(raft.launch_from)))
    if raft.known("ready_in"):
        return Estimate("carry", (*way, ("time", str(raft.ready_in))), ("drill",))
    return Estimate("carry-untimed", way)


def _lift(raft, lifters_kg):
    mass, known = _number(raft.mass), [each for each in lifters_kg if isinstance(each, (int, float))]
    lacking = _lacking(mass=mass) + (
        () if lifters_kg and len(known) == len(lifters_kg) else ("people.lifts",)
    )
    if lacking:
        return _withheld("lift", lacking)
    team = known[:4]
    holds = lifting.team_capability_kg(team) >= mass
    needed = lifting.smallest_team(mass, team)
    figures = (
        ("mass", f"{mass:.0f}"),
        ("people", str(len(team))),
        ("needed", str(needed or "")),
        ("team", f"{lifting.team_capability_kg(team):.0f}"),
    )
    return Estimate("lift" if holds else "lift-too-heavy", figures, ("team-lift",), holds=holds)


def _water(vessel, raft):
    persons = _number(vessel.vessel.persons)
    bag = sum(
        item.volume for each in vessel.grab_bags for item in each.items if isinstance(item.volume, float)
    )
    pack = raft.pack_water if isinstance(raft.pack_water, float) else None
    lacking = _lacking(pack_water=pack, vessel__persons=persons)
    if lacking:
        return _withheld("water", lacking)
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


def _food(vessel, raft):
    """Food in the pack, where its name says that it brings none, or how much."""
    persons, packed_for = _number(vessel.vessel.persons), _number(raft.persons)
    pack = packs().get(str(raft.pack))
    if pack and pack.food is not True:
        return Estimate("food-none", (), ("never-the-pack-alone",))
    kilojoules = given(pack.food_energy, 0.0) if pack else 0.0
    lacking = _lacking(vessel__persons=persons, persons=packed_for) + (() if kilojoules else ("pack",))
    if lacking:
        return _withheld("food", lacking)
    return Estimate(
        "food",
        (
            ("persons", str(persons)),
            ("days", f"{rations.food_days(kilojoules * packed_for, persons):.1f}"),
        ),
        ("ration", "all-aboard", "never-the-pack-alone"),
    )


def _days(litres, persons) -> str:
    return f"{rations.water_days(litres, persons):.1f}"


def _sequence(vessel, raft):
    one, band = vessel.vessel, _release_depth(raft)
    lengths = (
        _number(raft.height),
        _number(one.draft),
        _number(one.beam),
        _number(raft.painter.length if raft.painter else None),
    )
    return Sequence(*lengths, tuple(band)) if band and all(length is not None for length in lengths) else None
