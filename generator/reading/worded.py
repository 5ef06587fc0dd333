"""Words that are put into a sentence: what they must be there, so that the step that prints them reads."""

from __future__ import annotations

from typing import TYPE_CHECKING, Unpack

from generator.reading.fields import Options, Text

if TYPE_CHECKING:
    from collections.abc import Iterable

THING = "a thing"  # the hoist, the U-bolt: what stands behind "tied to" or "with"
SPACE = "a space"  # a name of the deck plan
PLACE = "a place"  # where a hand finds something: in the clip beside it
DOING = "a way of doing"  # as one says it to whoever does it: pull the red knob right out
SIGNAL = "a signal"  # what is heard or seen: seven short blasts on the horn
ROLE = "a role"
NAME = "a name"  # of the boat, a person, a place ashore: nothing in it is meant as words


class Worded(Text):
    """Words that stand in a sentence as `says`: one of the constants above.

    `elsewhere`: what they tell of may lie elsewhere than the block that holds them, as a breaker or a plug does.
    """

    def __init__(
        self,
        question: str,
        *,
        says: str,
        elsewhere: bool = False,
        answers: Iterable[str] = (),
        **options: Unpack[Options],
    ):
        super().__init__(question, answers=answers, **options)
        self.says, self.elsewhere = says, elsewhere
