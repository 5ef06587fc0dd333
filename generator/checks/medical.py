"""The medical chest: one place, opened by somebody aboard; what is for the first minutes is not shut in it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.words.channels import called_in
from generator.manual.crew import the
from generator.manual.left_to_act import able
from generator.reading.nearest import nearest, shortened
from generator.survey.hands import hands
from generator.survey.places import another_place
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Kept
from generator.vessel.gear import FIRST_MINUTES, does
from generator.vessel.medical import ANYONE, Medical
from generator.vessel.particulars import FAR
from generator.vessel.people import meant_by

if TYPE_CHECKING:
    from generator.survey.placing import Lies
    from generator.vessel.gear import Gear

_IN_THE_CHEST = re.compile(
    r"\b(?:in|inside|within) (?:the |our |its )?(?:own )?(?:medical |medicine |first[- ]aid )?(?:chest|kit|cabinet|box)\b(?! (?:beside|under|over|of))|\b(?:inside|in) (?:it|the lid)\b",
    re.IGNORECASE,
)


@check("medical.two-places", TRUTH, COMMON_PRACTICE)
def the_medical_chest_has_one_place(sight: Sight) -> Finds:
    """The medical chest has one place, not two.

    Why: whoever bleeds cannot wait while two cabins are searched.
    Remedy: go and look; write the same place under 'medical' and in the gear list.
    """
    medical = sight.vessel.medical
    text = medical.words if isinstance(medical, Medical) else None
    if isinstance(medical, Medical) and medical.known("where"):
        yield from _chest_elsewhere(sight, medical)
        return
    chests = [item for item in sight.vessel.gear if item.kind == "medical"]
    if isinstance(text, str) and chests and all(another_place(text, item) for item in chests):
        yield Found(
            sight.vessel.place("medical"),
            f"'{text}', and the gear list has it elsewhere",
            item="medical chest",
            also=tuple(item.place("where") for item in chests),
        )


_CHEST = re.compile(
    r"\b(?:chest|medicine (?:chest|box|cabinet|locker)|medical (?:chest|box|cabinet|bag|locker))\b",
    re.IGNORECASE,
)


def _chest_elsewhere(sight: Sight, medical: Medical) -> Finds:
    """The chest of the gear list, by its name, that lies in another space than that under 'medical'."""
    here, own = lies(sight, medical), re.split(r"[,(]", str(medical.what or "").lower())[0].strip()
    for item in sight.vessel.gear if here is not None else ():
        name = re.split(r"[,(]", str(item.what).lower())[0].strip()
        there = lies(sight, item) if (own and name == own) or _CHEST.search(name) else None
        if here is None or there is None or item.kind not in (None, "medical"):
            continue
        if there.space is not here.space and not here.space.unlike and not there.space.unlike:
            elsewhere = here.apart_m(there) > 0 or here.space.level != there.space.level
        else:
            elsewhere = there.space is here.space and {here.side, there.side} == {"port", "starboard"}
        if elsewhere and not any(
            other is not item and _at(sight, other, here, name) for other in sight.vessel.gear
        ):
            yield of(
                item,
                "where",
                f"under 'medical' the {medical.what} is in the {here}, and the gear list has it in the {there}",
                also=(medical.place("where"),),
            )


def _at(sight: Sight, item: Gear, here: Lies, name: str) -> bool:
    """Whether another chest of that name lies where 'medical' has it."""
    there = lies(sight, item) if str(item.what).lower().startswith(name) else None
    return there is not None and there.space is here.space


@check("medical.advice-near", HELP, COMMON_PRACTICE)
def advice_is_asked_from_where_she_sails(sight: Sight) -> Finds:
    """Far out, medical advice is not asked on VHF alone, where a set aboard reaches further.

    Why: out of sight of the coast nobody hears it, and whoever reads the line tries no other way.
    Remedy: write under 'advice' who is called on that set: the doctor ashore, by satellite telephone; the radio medical service on MF/HF.
    """
    medical, one, radio = sight.vessel.medical, sight.vessel.vessel, sight.vessel.radio
    advice = medical.advice if isinstance(medical, Medical) else None
    if (
        not isinstance(medical, Medical)
        or one is None
        or one.waters not in FAR
        or radio is None
        or not isinstance(advice, str)
    ):
        return
    far = next((each for each in radio.sets if each.kind in ("MF/HF", "satellite telephone")), None)
    if far is not None and called_in(advice).ways == ("VHF",):
        yield at(
            medical,
            "advice",
            f"'{shortened(advice)}', on VHF alone; she sails {one.waters}, and has the {far.what}",
            item="medical advice",
            also=(far.place("what"),),
        )


@check("medical.opened-by", HELP, COMMON_PRACTICE)
def the_medical_chest_is_opened_by_somebody_aboard(sight: Sight) -> Finds:
    """Somebody may open the medical chest, and whoever may is aboard; one of them at least on this voyage.

    Why: a key that is nobody's is looked for while somebody bleeds.
    Remedy: write roles that stand under 'people', or anyone.
    """
    medical = sight.vessel.medical
    if not isinstance(medical, Medical):
        return
    if medical.says_none("opened-by"):
        yield at(
            medical,
            "opened-by",
            "nobody may open the medical chest",
            remedy="write opened-by: anyone, or the roles that may",
            item="medical chest",
            weight=DEFECT,
        )
    if (ashore := _all_ashore(sight, medical)) and len(ashore) == len(medical.opened_by or ()):
        yield at(
            medical,
            "opened-by",
            f"nobody who may open the medical chest is on this voyage: it is opened by {' and '.join(map(the, ashore))}",
            remedy="tell somebody who sails along where the key is, and write that role under 'opened-by', or: anyone",
            item="medical chest",
            weight=DEFECT,
        )
    unknown = [who for who in medical.opened_by or () if who != ANYONE and who not in sight.roles]
    nobody = len(unknown) == len(medical.opened_by or ()) and bool(sight.roles)
    for who in medical.opened_by or ():
        if who in unknown:
            yield at(
                medical,
                "opened-by",
                f"the medical chest is opened by '{who}', which is no role aboard",
                remedy=nearest(who, (*sight.roles, ANYONE)),
                item="medical chest",
                weight=DEFECT if nobody else None,
            )


def _all_ashore(sight: Sight, medical: Medical) -> list[str]:
    """Those who may open the chest and are not on the voyage, where there is one."""
    crew = hands(sight)
    return [who for who in medical.opened_by or () if who in crew and not crew[who].aboard]


@check("medical.one-opens", HELP, COMMON_PRACTICE)
def more_than_one_opens_the_medical_chest(sight: Sight) -> Finds:
    """Where several can act, more than one of them may open the medical chest.

    Why: the one who has the key may be the one who bleeds.
    Remedy: tell a second person where the key is, and write that role under 'opened-by' too, or: anyone.
    """
    medical, people = sight.vessel.medical, sight.vessel.people
    if not isinstance(medical, Medical) or len(medical.opened_by or ()) != 1 or able(sight.vessel) < 2:
        return
    if _all_ashore(sight, medical):
        return  # of which another check speaks
    who = medical.opened_by[0]
    if who in sight.roles and meant_by(who, people) == 1:
        crew = hands(sight)
        taught = [role for role, hand in crew.items() if "first aid" in hand.abilities]
        untaught = who in crew and bool(taught) and who not in taught
        yield at(
            medical,
            "opened-by",
            f"nobody but {the(who)} may open the medical chest"
            + (
                f", who has not the ability 'first aid', and {' and '.join(map(the, taught))} may not"
                if untaught
                else ""
            ),
            item="medical chest",
            weight=DEFECT if untaught else None,
        )


@check("medical.advice-not-told", HELP, "Radio Navigational Aids, publication 117, chapter 5 (read)")
def it_is_told_who_gives_medical_advice(sight: Sight) -> Finds:
    """Offshore the manual says who is asked for medical advice by radio.

    Why: a day from the next harbour a voice on the radio is the only doctor, and nobody finds the number with blood on the hands.
    Remedy: ask the rescue centre of her waters; write it under 'contacts' with kind: medical advice, and its channel.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.waters not in FAR or not vessel.radio or not vessel.radio.sets:
        return
    told = (
        vessel.medical is not None and isinstance(vessel.medical, Medical) and vessel.medical.known("advice")
    )
    if not told and not any(each.kind == "medical advice" for each in vessel.contacts):
        place = vessel.key_place("contacts")
        yield Found(place, "nothing says who is asked for medical advice", item="medical advice")


_IN_IT = re.compile(
    r"\b(?:in|inside) (?:the |its |our )?(?:\w+ )?(?:medical|medicine|first-aid|medicines?) (?:chest|box|locker|cupboard|cabinet)\b",
    re.IGNORECASE,
)


@check("medical.defibrillator-shut-in", LIFE, COMMON_PRACTICE)
def a_defibrillator_is_anybodys(sight: Sight) -> Finds:
    """A defibrillator, or a tourniquet, is not in a chest that only some may open.

    Why: both are for the first minutes; whoever has the key may be the one who lies there.
    Remedy: hang it beside the chest and correct its place, or leave the chest unlocked and take the key out of the file.
    """
    medical = sight.vessel.medical
    if not isinstance(medical, Medical) or not medical.opened_by or ANYONE in medical.opened_by:
        return
    for item in sight.vessel.gear:
        if does(item, FIRST_MINUTES) and isinstance(item.spot, str) and _IN_IT.search(item.spot):
            who = " and ".join(the(each) for each in medical.opened_by)
            yield of(
                item,
                "spot",
                f"it is {item.spot}, which only {who} may open",
                also=(medical.place("opened-by"),),
            )


@check("medical.key-inside", LIFE, COMMON_PRACTICE)
def the_key_is_outside_the_chest(sight: Sight) -> Finds:
    """The key of the medical chest is not kept in it.

    Why: whoever bleeds watches others break it open.
    Remedy: hang the key where everybody passes, and write that: key: {where: chart table, spot: on the hook}.
    """
    medical = sight.vessel.medical
    if isinstance(medical, Medical) and isinstance(medical.key_, Kept):
        spot = medical.key_.spot
        if isinstance(spot, str) and (_IN_IT.search(spot) or _IN_THE_CHEST.search(spot)):
            yield at(medical.key_, "spot", f"the key of the medical chest is {spot}", item="medical chest")
