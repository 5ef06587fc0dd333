"""Hull ids against 33 CFR 181.25 and the published example of the craft identification number."""

import pytest

from generator.calc.hull_id import read_hull_id


def test_the_published_example():
    """GB-ABC00042-A3-99, an encyclopedia's example of ISO 10087 (secondary): January of a year ending in 3, model year 99."""
    found = read_hull_id("GB-ABC00042-A3-99")
    assert (found.country, found.maker, found.serial, found.month, found.year, found.model_year) == (
        "GB",
        "ABC",
        "00042",
        1,
        3,
        99,
    )


def test_twelve_characters_without_a_country():
    """33 CFR 181.25: twelve characters, uninterrupted."""
    assert read_hull_id("ABC12345L425").month == 12


def test_the_prefix_us_may_stand_before_it():
    """33 CFR 181.27 (slides citing it): the characters US- may stand near the number."""
    assert read_hull_id("US-ABC12345A425").maker == "ABC"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("ABC12345A42", "12 characters"),
        ("ABC1234OA425", "no I, O or Q"),
        ("ABC12345M425", "A to L"),
        ("ABC12345A4X5", "figures"),
        ("12ABC00042A399", "in letters"),
    ],
)
def test_what_cannot_be_is_said(text, why):
    with pytest.raises(ValueError, match=why):
        read_hull_id(text)
