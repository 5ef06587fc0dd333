"""Alarms: what each warns of, which spaces it listens to and where it is heard."""

from __future__ import annotations

from generator.reading.fields import CHECKED, OPEN, Choice, Dated, One, Texts
from generator.reading.measures import Count
from generator.shelves.gear import Kind, kinds_that
from generator.vessel.gear import Placed, StillCarried
from generator.vessel.lives import Made, own_lives

WARNS_OF_GAS, WARNS_OF_WATER = "warns of gas", "warns of water"
DOES = {
    "smoke": "warns of smoke",
    "CO": "warns of carbon monoxide",
    "gas": WARNS_OF_GAS,
    "bilge": WARNS_OF_WATER,
}
"""What an alarm does, in the words of the shelf of gear, by the word that the file has for it."""


class Alarm(Placed):
    """An alarm that sounds by itself: for smoke, carbon monoxide, gas, or water in the bilge."""

    called = "what"
    what = Choice("What does it warn of?", tuple(DOES), required=True)
    quantity = Count(
        "How many hang there, if more than one?",
        low=1,
        high=50,
        why="one for each space of a boat of 40 m at most",
        unknown=OPEN,
    )
    watches = Texts(
        "Which spaces does it listen to, if not the one it is in?",
        unknown=OPEN,
        most=12,
        example="[engine space, forepeak]",
    )
    sounds_in = Texts(
        "In which spaces is it heard, if it sounds elsewhere too?", unknown=OPEN, most=12, example="[cockpit]"
    )
    fed_by = Choice("What feeds it?", ("its own battery", "the boat's batteries"), unknown=OPEN)
    made = Made("When was it made?", unknown=CHECKED)
    expires = Made("Which expiry is marked on it?", unknown=CHECKED)
    replaced = Dated("When was its battery renewed?", unknown=CHECKED)
    tested = Dated("When was it last tested?", unknown=CHECKED)
    still_carried = One(
        StillCarried,
        "If it is past its date: why is it still carried, who decided so, until when?",
        unknown=OPEN,
    )
    lives = own_lives()

    @property
    def warns_of_water(self) -> bool:
        """Whether it sounds for water in the boat."""
        return isinstance(self.what, str) and DOES[self.what] == WARNS_OF_WATER

    @property
    def gear_kind(self) -> Kind | None:
        """The kind of gear it is: the first on the shelf that warns of the same; None where that is not known."""
        does = DOES.get(self.what) if isinstance(self.what, str) else None
        return next(iter(kinds_that(does)), None) if does else None
