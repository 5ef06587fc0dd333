"""The language of the call: somebody aboard speaks it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.shelves.procedure_files import HALF_GROWN
from generator.survey.registry import COMMON_PRACTICE, LIFE, RECOMMENDATION, Finds, Sight, at, check
from generator.survey.tongues import tongues

if TYPE_CHECKING:
    from generator.vessel.people import Person, Traveller


@check("radio.language-unspoken", LIFE, COMMON_PRACTICE)
def somebody_speaks_the_language_of_the_call(sight: Sight) -> Finds:
    """Where it is said which language everybody grown speaks, one of them speaks that in which she calls for help; of English, which many speak besides, it is asked.

    Why: the words to call with stand in a language that nobody aboard can read out or understand the answer in.
    Remedy: write under 'language' of 'radio' one that whoever calls speaks, or English, which every rescue centre understands; of whoever speaks that too write so: language: German and English.
    """
    radio, vessel = sight.vessel.radio, sight.vessel
    if not radio or not isinstance(radio.language, str):
        return
    listed = {str(person.role): person.language for person in vessel.people}
    aboard: list[Person | Traveller] = list(vessel.voyage.persons if vessel.voyage else vessel.people)
    grown = [each for each in aboard if not _a_child(each)] or aboard
    said = [each.language if each.language is not None else listed.get(str(each.role)) for each in grown]
    spoken = [each.casefold() for each in said if isinstance(each, str)]
    if not spoken or len(spoken) < len(said):
        return
    spoken += [each.casefold() for each in listed.values() if isinstance(each, str)]
    calls, named = radio.language.casefold(), tongues(radio.language)
    if not any(each in calls or calls in each or named & tongues(each) for each in spoken):
        yield at(
            radio,
            "language",
            f"she calls for help in {radio.language}, and those aboard speak {', '.join(sorted({str(each) for each in said}))}",
            weight=RECOMMENDATION if "english" in named else None,
        )


def _a_child(one: Person | Traveller) -> bool:
    """Whether it is said that somebody is a child."""
    ages = one.age if isinstance(one.age, list) else [one.age]
    told = [each for each in ages if isinstance(each, int)]
    return bool(told) and max(told) < HALF_GROWN
