"""A sign is a few shapes that are drawn; whatever else is markup would be obeyed, and is refused."""

import pytest

from generator.reading.fields import Misread
from generator.shelves.procedures import PROCEDURES
from generator.shelves.signs import Sign

SIGN = Sign("Which?")


@pytest.mark.parametrize(
    "text",
    [
        SIGN.usual,
        '<circle cx="24" cy="17.5" r="4" fill="currentColor"/><rect x="6" y="8" width="24" height="14" rx="4" />',
        '<path d="M29 30a8 8 0 0 1 16 0z" stroke-width="3.5"/>',
    ],
)
def test_shapes_are_a_sign(text):
    assert SIGN.read(text) == text


def test_the_sign_of_every_procedure_is_one():
    signs = [each.block.sign for each in PROCEDURES.files() if each.block.procedure is not None]
    assert signs
    assert [SIGN.read(each) for each in signs] == signs


@pytest.mark.parametrize(
    "text",
    [
        "",
        "fire",
        "<script>x()</script>",
        '<text x="4" y="9">fire</text>',
        '<use href="#fire"/>',
        '<image href="x.png"/>',
        '<path d="M8 40 24 8l16 32z">',
        '<path d="M8 40 24 8l16 32z"',
        '<path d="M8 40 24 8l16 32z"></path>',
        'fire <path d="M8 40 24 8l16 32z"/>',
        '<path fill="none"/>',
        '<path d="fire"/>',
        '<path d="M8 40"/>',
        '<path d="M8 40 24 8l16 32z" d="M0 0h9"/>',
        '<path d="M8 40 24 8l16 32z" onload="x()"/>',
        '<path d="M8 40 24 8l16 32z" fill="url(x)"/>',
        '<path d="M80 40 24 8l16 32z"/>',
        '<circle cx="24" cy="17"/>',
        '<circle cx="24" cy="17" r="0"/>',
        '<circle cx="240" cy="17" r="4"/>',
        '<circle cx="24" cy="17" r="large"/>',
        '<rect x="6" y="8" width="24"/>',
        '<rect x="6" y="8" width="24" height="14" cx="4"/>',
    ],
)
def test_nothing_else_is(text):
    with pytest.raises(Misread, match="is no sign"):
        SIGN.read(text)
