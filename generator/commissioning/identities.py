"""Identities held against each other as soon as they are answered: flag, call sign, MMSI, hull and beacon ids, by the survey's own checks."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from generator.commissioning.answers import NONE, PRIVATE, UNKNOWN, written
from generator.commissioning.crew import PEOPLE
from generator.commissioning.paths import answered
from generator.commissioning.refusal import Refusal
from generator.reading.editing import set_value
from generator.reading.fields import Many
from generator.reading.nodes import Source
from generator.reading.tree import read
from generator.survey.registry import DESCRIPTION, run
from generator.survey.sight import Sight
from generator.vessel.loading import VesselLoader
from generator.vessel.vessel import FORMAT, Vessel

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

_IDENTITY = re.compile(r"(.*\.)?(flag|call-sign|mmsi|hull-id|hex-id|ais-number)")
_TOLD_WITH = re.compile(r"(.*\.)?(kind|what|built|role)")  # what their checks ask besides
_ANY_DAY = date(2000, 1, 1)  # identities are the same on every day


def doubts(answers: Mapping[str, str], keys: Collection[str]) -> list[str]:
    """What the survey will find of the identities among `keys`, or of others by what was answered there, each with its remedy."""
    asked = {key for key in keys if _IDENTITY.fullmatch(key)}
    if not asked:
        return []
    tree, _ = read(_text(answers), Source("vessel.yaml"))
    if tree is None:
        return []
    sight = Sight(VesselLoader().block(Vessel, tree, ""), _ANY_DAY, _ANY_DAY)
    return [
        f"{each.place.key}: {each.message}; {each.remedy.rstrip('.')}"
        for each in run(DESCRIPTION, sight)
        if _IDENTITY.fullmatch(each.place.key)
        and asked.intersection((each.place.key, *(other.key for other in each.also)))
    ]


def _text(answers: Mapping[str, str]) -> str:
    """A file that says her identities alone, as far as they are answered; what cannot be read is told where it is asked."""
    text = f"format: {FORMAT}\n"
    for key, said in answers.items():
        if key == PEOPLE or not (_IDENTITY.fullmatch(key) or _TOLD_WITH.fullmatch(key)):
            continue
        if said.strip().lower() in ("", NONE, UNKNOWN, PRIVATE):
            continue
        try:
            one = answered(key)
            if not isinstance(one.field, Many):
                text = set_value(text, one.steps, written(one, said))
        except Refusal:
            continue
    return text
