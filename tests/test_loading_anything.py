"""Whatever stands in a file of a vessel: it is told with its place and remedy, and nothing is raised."""

import copy

import pytest
import yaml
from boat_file import SOUND, Boat
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

pytestmark = pytest.mark.thorough


@pytest.fixture
def boat(tmp_path):
    return Boat(tmp_path)


PLAIN = yaml.load(SOUND, yaml.BaseLoader)
ODD = st.one_of(
    st.sampled_from(
        ["unknown", "private", "", "?", "12", "12 m", "2026-05", "HRU", "yes", "none", "9" * 400, "٣", "-1 m"]
    ),
    st.text(max_size=8),
    st.just([]),
    st.just({}),
    st.lists(st.text(max_size=4), max_size=2),
    st.dictionaries(
        st.sampled_from(["value", "from", "stamp", "what", "who", "name"]), st.text(max_size=5), max_size=2
    ),
)


def paths(value, before=()):
    yield before
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in items:
        yield from paths(each, (*before, key))


PATHS = [path for path in paths(PLAIN) if path]


@settings(
    deadline=None,
    max_examples=150,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    st.lists(
        st.tuples(st.sampled_from(PATHS), ODD, st.sampled_from(["put", "drop", "rename"])),
        min_size=1,
        max_size=4,
    )
)
def test_a_mutated_file_gives_findings_and_never_raises(boat, changes):
    values = copy.deepcopy(PLAIN)
    for path, odd, act in changes:
        try:
            *way, last = path
            inner = values
            for key in way:
                inner = inner[key]
            if act == "put" or not isinstance(inner, dict):
                inner[last] = odd
            elif act == "drop":
                del inner[last]
            else:
                inner[f"{last}x"] = inner.pop(last)
        except (KeyError, IndexError, TypeError):
            continue
    text = yaml.safe_dump(values, allow_unicode=True, default_style="'", sort_keys=False)
    vessel, findings = boat(text)
    rows = text.splitlines()
    assert vessel is not None or findings
    for each in findings:
        assert 1 <= each.place.line <= len(rows)
        assert each.message
        assert each.remedy


@settings(
    deadline=None,
    max_examples=150,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    st.recursive(
        st.text(max_size=6) | st.sampled_from(["unknown", "private", "12 m"]),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(
                st.sampled_from([*PLAIN, "name", "where", "sets", "items", "painter", "who"])
                | st.text(max_size=4),
                inner,
                max_size=4,
            )
        ),
        max_leaves=12,
    ),
    st.booleans(),
)
def test_arbitrary_trees_never_raise(boat, value, as_voyage):
    text = yaml.safe_dump(
        {"format": "1", **value} if isinstance(value, dict) else value, allow_unicode=True, default_style="'"
    )
    _, findings = boat(SOUND, voyage=text) if as_voyage else boat(text)
    assert all(each.message and each.remedy for each in findings)
