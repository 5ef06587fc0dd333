"""Answers as real people give them, gathered before the program was looked at: each is taken as meant, or refused with what to write."""

import pytest

from generator.commissioning.questions import questions
from generator.commissioning.refusal import Refusal

# Question, what is typed, and what comes of it: "= value" is what is taken; otherwise the words that the refusal says, with a
# semicolon between them, and behind "!" what it must not say.
TABLE = """
vessel.type | Monohull | = monohull
vessel.type | RIB | open boat
vessel.type | dinghy | open boat
vessel.type | sailing boat | monohull; catamaran; trimaran
vessel.type | yacht | monohull; motor vessel
vessel.type | motor boat | motor vessel; open boat; dayboat
vessel.type | motorboat | motor vessel; open boat; dayboat
vessel.type | cabin cruiser | motor vessel
vessel.type | day boat | = dayboat
vessel.type | cat | catamaran
vessel.type | sloop | monohull ! motor vessel?
vessel.type | mono hull | = monohull
vessel.type | no | monohull; motor vessel
people | no | skipper
people | 2 children | how old
people | skipper, mate, 2 children | how old
people | skipper, mate, 2 kids | how old
people | skipper, mate, grandmother, child of 8, child of 5 | = skipper, mate, grandmother, child 1 of 8, child 2 of 5
people | 4 | = skipper, mate, 2 guests
people | four | = skipper, mate, 2 guests
people | skipper, baby | child of
people | 0 | skipper
rafts[liferaft].stowage | no | = none
rafts[liferaft].stowage | No raft | = none
rafts[liferaft].stowage | none | = none
rafts[liferaft].stowage | no liferaft | = none
rafts[liferaft].stowage | n/a | none
rafts[liferaft].stowage | - | none; unknown
rafts[liferaft].stowage | yes | deck cradle; none
rafts[liferaft].stowage | on deck | deck cradle; none
rafts[liferaft].stowage | pushpit | pushpit bracket
rafts[liferaft].stowage | don't know | = unknown
rafts[liferaft].stowage | not sure | = unknown
rafts[liferaft].where | coachroof | = coachroof
rafts[liferaft].container | cannister | canister ! valise?
rafts[liferaft].container | bag | valise
rafts[liferaft].container | no | canister; valise
rafts[liferaft].held-by | straps | = strap
rafts[liferaft].held-by | HRU and strap | = HRU, strap
rafts[liferaft].held-by | hydrostatic release | = HRU
rafts[liferaft].held-by | no | = none
rafts[liferaft].held-by | nothing | = none
rafts[liferaft].persons | six | = 6
rafts[liferaft].persons | 6 persons | = 6
rafts[liferaft].persons | no | number
rafts[liferaft].painter.length | 11 | 11 m; ft
rafts[liferaft].painter.length | 11 metres | = 11 m
rafts[liferaft].painter.length | 36 feet | = 36 ft
rafts[liferaft].painter.fast-to | weaklink | = weak link
rafts[liferaft].painter.fast-to | no | nothing
rafts[liferaft].painter.fast-to | cleat | strong point
rafts[liferaft].release.expires | May 2026 | = May 2026
rafts[liferaft].release.expires | 05/2026 | = 05/2026
rafts[liferaft].release.expires | 03/04/2026 | 2026
radio.sets[fixed VHF].where | cockpit locker, starbord | starboard
radio.sets[fixed VHF].where | cockpit locker starboard | = cockpit locker / starboard
radio.sets[fixed VHF].where | port cockpit locker | = cockpit locker / port
radio.sets[fixed VHF].where | cockpit locker, stbd | = cockpit locker / starboard
radio.sets[fixed VHF].where | cockpit locker, left | port
radio.sets[fixed VHF].where | cockpit locker, center | = cockpit locker / centre
radio.sets[fixed VHF].where | cokpit locker, port | cockpit locker
radio.sets[fixed VHF].where | no | = none
radio.sets[fixed VHF].where | no VHF | = none
radio.beacons[EPIRB].where | no | = none
radio.beacons[EPIRB].where | no EPIRB | = none
radio.call-sign | no | = none
radio.call-sign | none | = none
radio.call-sign | 232000000 | = unknown / 232000000
radio.call-sign | MZZZ9 | = MZZZ9 / unknown
vessel.engine | outboard petrol | = outboard
vessel.engine | petrol outboard | = outboard
vessel.engine | twin outboards | = outboard
vessel.engine | two outboards | = outboard
vessel.engine | diesel | inboard diesel ! inboard petrol?
vessel.engine | petrol | inboard petrol; outboard
vessel.engine | inboard | inboard diesel; inboard petrol
vessel.engine | electric | outboard ! write **inboard
vessel.engine | no | = none
vessel.engine | yes | outboard
gas.fuel | no | = none
gas.fuel | gas | butane; propane
gas.fuel | LPG | butane; propane
gas.fuel | meths | alcohol
gas.fuel | electric | none
gas.fuel | no cooker | = none
vessel.rig | a handheld horn | rig
vessel.rig | no | = none
vessel.rig | bermudan sloop | = bermudan sloop
vessel.rig | standing lug | = standing lug
vessel.rig | gaff cutter | = gaff cutter
vessel.waters | off shore | = offshore
vessel.waters | lake | sheltered
vessel.waters | inland | sheltered
vessel.waters | the Channel | coastal; offshore
vessel.climate | hot | tropical
vessel.climate | warm | tropical; temperate
vessel.climate | mediterranean | temperate
vessel.length | 6,5 m | write a point: 6.5 m
vessel.length | 6.5 | 6.5 m; ft
vessel.length | 21 foot | = 21 ft
vessel.flag | UK | = UK
vessel.muster-place | cockpit | = cockpit
vessel.muster-place | the cockpit | = cockpit
vessel.muster-place | cocpit | cockpit
"""

ROWS = [tuple(each.strip() for each in line.split("|")) for line in TABLE.strip().splitlines()]
BEFORE = {"vessel.type": "monohull"}


def answer(key, typed):
    """What a question takes, its keys in one line; of a refusal its words."""
    question = next(each for each in questions() if each.key == key)
    try:
        return question.read(typed, {} if key == "vessel.type" else BEFORE)
    except Refusal as refused:
        return " ".join(refused.reasons)


@pytest.mark.parametrize(("key", "typed", "comes"), ROWS, ids=[f"{key}: {typed}" for key, typed, _ in ROWS])
def test_what_people_answer_is_taken_as_meant_or_refused_with_what_to_write(key, typed, comes):
    found = answer(key, typed)
    if comes.startswith("= "):
        assert isinstance(found, dict), found
        wanted = comes[2:].split(" / ")
        assert list(found.values())[: len(wanted)] == wanted
        return
    assert isinstance(found, str), found
    says, _, never = comes.partition(" ! ")
    assert [words for words in says.split("; ") if words not in found] == [], found
    assert never == "" or never not in found


def test_there_are_enough():
    assert len(ROWS) >= 90
