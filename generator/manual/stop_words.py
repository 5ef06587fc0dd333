"""Words of stops: where each is and how it is worked; of several, what each serves; with the place of an electric one, that it sparks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.fitting_facts import stops_worked, told_apart
from generator.manual.said import WHERE, Said, Served, Sparking, Word, Worked, all_of, given_word, place_word
from generator.vessel.installed import Stop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from generator.vessel.vessel import Vessel


def stop_words() -> Iterator[tuple[str, Callable[[Vessel], Said | None]]]:
    """Every slot of stops, and how its word is found; None where she has no such stop."""
    for what in Stop.what.choices:
        yield (f"{what} stop place", _stop(what, None, _served_places))
        yield (f"{what} stop how", _stop(what, None, _how_worked))
        yield (f"{what} stop without a spark place", _stop(what, False, _served_places))
        yield (f"{what} stop without a spark how", _stop(what, False, _how_worked))
        yield (f"electric {what} stop place", _stop(what, True, _silent_places))


def _stop(
    what: str, electric: bool | None, told: Callable[[Sequence[Stop], Sequence[Stop]], Said]
) -> Callable[[Vessel], Said | None]:
    """A word of the stops of a kind: of all, of those that are electric, or of the others."""

    def said(vessel: Vessel) -> Said | None:
        kinds = (True, False) if electric is None else (electric,)
        wanted = [each for one in kinds for each in stops_worked(vessel, what, electric=one)]
        found = [stop for stop in vessel.stops if stop in wanted]
        return told(found, [each for each in vessel.stops if each.what == what]) if found else None

    return said


def _silent_places(stops: Sequence[Stop], alike: Sequence[Stop]) -> Said:
    """The places of stops; where there are several of the kind, what each serves is said with it."""
    return _served(stops, [place_word(each) for each in stops], several=len(alike) > 1)


def _served_places(stops: Sequence[Stop], alike: Sequence[Stop]) -> Said:
    """The same, and of each that is electric that it makes a spark."""
    places = [(each, place_word(each)) for each in stops]
    said = [
        Sparking(each, WHERE) if each.electric is True and isinstance(place, Word) else place
        for each, place in places
    ]
    return _served(stops, said, several=len(alike) > 1)


def _how_worked(stops: Sequence[Stop], alike: Sequence[Stop]) -> Said:
    """How each of them is worked, and whether its space must be opened for it; what it serves too, where those of its kind are
    told apart by that.
    """
    found = [given_word(each, "how") for each in stops]
    worked = [Worked(each.block, each.name) if isinstance(each, Word) else each for each in found]
    return _served(stops, worked, several=told_apart(alike))


def _served(stops: Sequence[Stop], words: Sequence[Said], *, several: bool) -> Said:
    told = [
        Served(said.block, said.name, said) if isinstance(said, Word) and each.known("serves") else said
        for each, said in zip(stops, words, strict=True)
    ]
    return all_of(told if several else words)
