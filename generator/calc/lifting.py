"""Lifting a raft together: what a team can take, and how many are needed. Guides for planning, no safe limits."""

from __future__ import annotations

from itertools import combinations

# Share of the summed single capabilities that a team has. Source: Network Rail, "Lifting and handling in teams" (2: two
# thirds, 3: half); for four a half is assumed, more are unlikely to work.
TEAM_SHARE = {1: 1.0, 2: 2 / 3, 3: 0.5, 4: 0.5}


def team_capability_kg(each_kg: list[float]) -> float:
    """What a team can lift, in kg, from what each of its 1 to 4 members can.

    Raises ValueError for other numbers of people or capabilities outside 0 to 80 kg.
    Source: Network Rail, "Lifting and handling in teams"; its example: 20 kg and 20 kg give 26.6 kg.

    >>> round(team_capability_kg([20, 20]), 2)
    26.67
    """
    if len(each_kg) not in TEAM_SHARE:
        raise ValueError(f"a team has 1 to 4 people, got {len(each_kg)}")
    if any(not 0 <= one <= 80 for one in each_kg):
        raise ValueError(f"a capability is 0 to 80 kg, got {each_kg}")
    return TEAM_SHARE[len(each_kg)] * sum(each_kg)


def smallest_team(mass_kg: float, each_kg: list[float]) -> int | None:
    """How many of these people, the strongest first chosen, are needed for `mass_kg`; None if no team of up to four can.

    >>> smallest_team(36, [25, 25, 25])
    3
    """
    for size in sorted(TEAM_SHARE):
        if any(team_capability_kg(list(team)) >= mass_kg for team in combinations(each_kg, size)):
            return size
    return None
