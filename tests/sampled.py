"""Large families of like cases: a run looks at one in so many of them, evenly spread and always the same; with --all-mutants at all.

Of a test of many cases `@pytest.mark.one_in(5, "target", "kind")` leaves one in five, so that each target and each kind comes up;
within a test the fixture `one_in` says how many to pass over, and `spread` takes the first of each family and so on.
A case that is named on the command line is always looked at.
"""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

import pytest

SEED = 0
"""Which of so many are looked at: with another number others, as evenly spread."""
STANDS_FOR = pytest.StashKey[float]()
"""For how many cases of its family a test stands in this run."""
T = TypeVar("T")


def spread(cases: Iterable[T], number: int, family: Callable[[T], Hashable] = lambda _: 0) -> list[T]:
    """Of each family the first case and every so-maniest after it, in the order of all."""
    seen: Counter[Hashable] = Counter()
    chosen = []
    for case in cases:
        kind = family(case)
        if seen[kind] % number == 0:
            chosen.append(case)
        seen[kind] += 1
    return chosen


def parted(items: list[pytest.Item], *, every: bool) -> tuple[list[pytest.Item], list[pytest.Item]]:
    """The tests that are run and those that are left out; where several arguments are named, each value of each comes up."""
    kept, left_out = [], []
    for item in items:
        mark = item.get_closest_marker("one_in")
        (kept if every or mark is None or _is_looked_at(item, *mark.args) else left_out).append(item)
    whole, looked_at = Counter(map(_family, items)), Counter(map(_family, kept))
    for item in kept:
        item.stash[STANDS_FOR] = whole[_family(item)] / looked_at[_family(item)]
    return kept, left_out


def _is_looked_at(item: pytest.Item, number: int, *names: str) -> bool:
    return (sum(item.callspec.indices[name] for name in names) + SEED) % number == 0


def _family(item: pytest.Item) -> str:
    return item.nodeid.partition("[")[0]
