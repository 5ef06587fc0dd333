"""What must hold for every emergency, whatever the facts of the boat and whoever is aboard: named, reasoned, with its exceptions.

An invariant is a function of a case that asserts. `spoil` makes of a case one in which it does not hold, or returns None where it cannot:
so each is shown to be able to fail. `but` are exceptions by the beginnings of names of steps or procedures, each with its reason.
"""

import functools
import re
from dataclasses import replace

from fact_sample import FACTS
from test_words_need_facts import NEEDS, REASONED

from generator.manual.emergencies import in_order_of_need
from generator.shelves.gear import gear_names
from generator.shelves.procedures import shelf
from generator.shelves.words import SLOT
from generator.vessel.installed import Stop

INVARIANTS = {}
SPOILT = {}
BUT = {}


def invariant(spoil, **but):
    """Registers an invariant with what spoils a case; keywords are names (`__` for a dot, `_` for a hyphen) with reasons."""

    def register(function):
        INVARIANTS[function.__name__] = function
        SPOILT[function.__name__] = spoil
        BUT[function.__name__] = {
            name.replace("__", ".").replace("_", "-"): reason for name, reason in but.items()
        }
        return function

    return register


def excepted(invariant_name, name):
    """Whether a step or procedure is an exception of an invariant."""
    return any(name == each or name.startswith(each) for each in BUT[invariant_name])


def other_first(case):
    """The same with its last step first."""
    return replace(case, lines=(case.lines[-1], *case.lines[:-1])) if len(case.lines) > 1 else None


def saying(key, text):
    """Makes the first step say something."""

    def spoilt(case):
        return replace(case, lines=(replace(case.lines[0], **{key: text}), *case.lines[1:]))

    return spoilt


def only(*names, spoil=other_first):
    """Spoils these emergencies alone."""
    return lambda case: spoil(case) if case.one.id in names else None


def parted(case, parts):
    """The steps of such names, and the others."""
    found = set(case.at(*parts))
    chosen = tuple(line for number, line in enumerate(case.lines) if number in found)
    return chosen, tuple(line for number, line in enumerate(case.lines) if number not in found)


def first(*parts):
    """Puts the steps of such names first."""

    def spoilt(case):
        chosen, rest = parted(case, parts)
        return replace(case, lines=chosen + rest) if chosen and rest else None

    return spoilt


def last(*parts):
    """Puts the steps of such names last."""

    def spoilt(case):
        chosen, rest = parted(case, parts)
        return replace(case, lines=rest + chosen) if chosen and rest else None

    return spoilt


def before(case, first, second):
    """Whether all steps of the first names stand before all of the second, where there are any."""
    earlier, later = case.at(*first), case.at(*second)
    return not earlier or not later or max(earlier) < min(later)


@invariant(lambda case: replace(case, lines=()))
def nobody_is_left_without_steps(case):
    """There is something to do for any crew: alone, a couple, a family, twelve. No exception."""
    assert case.lines


@invariant(lambda case: replace(case, lines=case.lines[::-1]) if len(case.lines) > 2 else None)
def no_step_before_its_cause(case):
    """A step stands behind all it comes after. No exception."""
    for number, line in enumerate(case.lines):
        assert not set(line.after) & set(case.ids[number:]), line.id


@invariant(other_first)
def phases_rise(case):
    """A step of a later part never comes first, unless an earlier one waits for it. No other exception."""
    waited = {name for line in case.lines for name in line.after}
    phases = [line.phase for line in case.lines if line.id not in waited and not line.after]
    assert phases == sorted(phases)


@invariant(other_first)
def the_first_minute_comes_first(case):
    """No step of a later part stands among those of the first minute. No exception."""
    last = case.one.form.first_minute
    early = [line.phase <= last for line in case.lines]
    assert early == sorted(early, reverse=True)


@invariant(
    lambda case: replace(case, lines=tuple(replace(line, phase=99) for line in case.lines)),
)
def something_is_done_in_the_first_minute(case):
    """Every boat and crew has a step of the first minute. Exceptions: what follows the first card; see there."""
    if case.one.emergency and not excepted("something_is_done_in_the_first_minute", case.one.id):
        assert any(line.phase <= case.one.form.first_minute for line in case.lines)


@invariant(
    lambda case: replace(case, leaves=(("Is it over?", "nowhere"),)),
)
def whoever_leaves_a_card_finds_another(case):
    """Some line leads where she has a procedure: a fire to leaving the boat, gas to fire. Exceptions: stays says that it leads nowhere; see there."""
    if case.leaves and not excepted("whoever_leaves_a_card_finds_another", case.one.id):
        assert any(to in case.there for _, to in case.leaves), case.leaves


@invariant(lambda case: replace(case, leaves=(("Water?", case.one.id),)))
def no_card_leads_to_itself(case):
    """A line on which a card is left names another one. No exception."""
    assert all(to != case.one.id for _, to in case.leaves)


@invariant(lambda case: replace(case, end=""))
def its_end_is_said(case):
    """Everybody learns when it is over. No exception."""
    assert case.end.startswith("Over "), case.end


@invariant(lambda case: replace(case, intro=""))
def its_condition_is_said(case):
    """The line under the title says when this card is the right one. No exception."""
    assert case.intro


@invariant(saying("do", "Climb the mast, inflate it, and do up the crotch strap."))
def no_word_needs_what_she_has_not(case):
    """Mast, gas, raft, engine, hatch and the like are named to boats that have them alone; the exceptions are those of the test of texts."""
    for name, text in case.told:
        for pattern, needed in needed_by(text):
            if not any(name.startswith(start) and words == pattern for start, words in REASONED):
                assert any(case.facts[each] for each in needed), (name, pattern)


@functools.cache
def needed_by(text):
    """The words of a text that need a fact, with those of which one must be so."""
    words = SLOT.sub("", text)
    return [
        (pattern, needed)
        for pattern, needed in {**NEEDS, "crotch straps?": []}.items()
        if re.search(rf"\b({pattern})\b", words, re.IGNORECASE)
    ]


@functools.cache
def gear_in(text):
    """The gear that a text names, but what everybody has."""
    words = SLOT.sub("", text)
    return [
        name for name in gear_names() if name not in GENERAL and re.search(rf"\b{re.escape(name)}\b", words)
    ]


SLOTS_NEED = {
    r"(place of )(?P<gear>.+)": "has {gear}",
    rf"(?P<what>{'|'.join(Stop.what.choices)}) stop (place|how|without a spark .+)": "{what} stop",
    r"vhf|vhf-place|vhf-power|distress-button": "fixed vhf",
    r"handheld|handheld-(place|power|button|reached|button-reached)": "handheld vhf",
    r"mf-hf|mf-hf-(reached|power-reached|button-place)": "mf/hf",
    r"satellite|satellite-reached": "satellite telephone",
    r"rescue numbers": "rescue number",
    r"(?P<beacon>epirb|plb|sart)(-place|-use|-reached)?": "{beacon}",
    r"hand pump( place| handle)?": "hand pump",
    r"electric pump( place| handle)?": "electric pump",
    r"engine pump( place| handle)?": "engine pump",
    r"deck pump( place)?": "hand pump from deck",
    r"rafts|first raft|raft crews": "raft",
    r"gas-bottles": "gas",
    r"grab-bag-(place|carrier)": "grab bag",
    r"ladder": "ladder",
    r"hoist(-place)?": "hoist",
    r"fire-port": "fire port",
    r"ways out( how)?": "other ways out",
    r"spare kill cord": "spare kill cord",
    r"swamped": "floats when swamped",
    r"righted-how": "righted by her people",
    r"recovery-gate(-how)?": "gate for recovery",
}
"""Which fact must be so for a slot to be filled."""


def _missing(slot, facts):
    """The fact that a slot needs and the boat has not; "" if none."""
    for pattern, fact in SLOTS_NEED.items():
        if found := re.fullmatch(pattern, slot):
            needed = fact.format(**found.groupdict())
            return "" if needed not in facts or facts[needed] else needed
    return ""


@invariant(
    lambda case: saying("do", "Fill it: {place of bucket}.")(
        replace(case, facts=case.facts | {"has bucket": False})
    ),
)
def no_slot_is_empty(case):
    """What a text prints of the boat, she has. No exception: a place that is not told is left out of the line beside a step."""
    for name, text in case.told:
        for slot in SLOT.findall(text):
            assert not _missing(slot, case.facts), (name, slot)


GENERAL = (
    "food",
    "cup",
    "drinking water",
    "sponge",
    "buoyancy",
    "instructions",
    "knife",
    "torch",
    "anchor",
    "bell",
    "fishing",
    "water cans",
    "mirror",
)
"""What everybody has, or what is no gear where a step says it."""


@invariant(
    lambda case: saying("do", "Take the searchlight.")(
        replace(case, facts=case.facts | {"has searchlight": False})
    ),
    raft_routine__seasick="the same as of being found",
    being_found="whoever sits in the liferaft has what its pack and the bag hold, and uses that",
    in_the_raft="the same",
    steering_lost__oar="the same",
    power_lost__row="the same",
    dragging__oars="the same",
    steering_lost__tiller="the emergency tiller, where the file says under steering that there is one",
)
def no_step_names_gear_that_may_be_missing(case):
    """An act names gear that her list has; else it says what everybody has. Exceptions: see there."""
    for line in case.lines:
        for name in gear_in(line.do):
            there = case.facts[f"has {name}"] or excepted("no_step_names_gear_that_may_be_missing", line.id)
            assert there, (line.id, name)


BELOW = r"(from|go(es)?) (below|inside)|lift the floorboards|up from below"
BARRED = r"bars|way is still free|pass it on the way out|first doubt|stay out|nobody|leave it"


@invariant(saying("do", "Go below and look."))
def nobody_is_sent_below_without_a_way_out(case):
    """Whoever is sent below is told when not to go. No exception."""
    for line in case.lines:
        if re.search(BELOW, line.do, re.IGNORECASE):
            assert re.search(BARRED, f"{line.do} {line.unless}", re.IGNORECASE), line.id


@invariant(saying("do", "Go into the smoke and look for people."))
def nobody_is_sent_into_smoke_gas_or_water(case):
    """No act sends anybody into a space that burns, smokes, fills or smells of gas; no one goes into the water. No exception."""
    for line in case.lines:
        assert not re.search(
            r"\b(go|crawl|run|climb|dive|jump|enter|swim)\b[^.:;,]*\b(smoke|flames?|gas|flooded|burning|into the water|after the person|under the boat)\b",
            re.sub(r"\b(do not|never|nobody)\b[^.:;]*", "", line.do, flags=re.IGNORECASE),
            re.IGNORECASE,
        ), line.id


@invariant(saying("do", "Close every hatch and door."))
def nothing_is_closed_on_anybody(case):
    """Hatches and doors are closed when all are out, or the step says to bring people out first. Exception: whoever is alone."""
    for line in case.lines if case.persons > 1 else ():
        if re.search(r"\bclose\b[^.]*\b(hatch|hatches|doors?|port|vents?)\b", line.do, re.IGNORECASE):
            assert re.search(r"\b(out|counted)\b|people|anybody", f"{line.do} {line.unless}"), line.id


CALLS = re.compile(r"\.(call|again|mayday|telephone|shortwave)")


@invariant(
    lambda case: replace(case, lines=tuple(replace(line, after=("fire.call",)) for line in case.lines)),
    fire__fetch_raft="it is printed behind the call, and says itself that it is done while the way is free",
    distress_call="the lines of one call follow each other",
    call_unheard="the same: one set after the other",
)
def the_call_never_blocks(case):
    """Nothing that saves a life waits for a call. Exceptions: see there."""
    for line in case.lines:
        if not excepted("the_call_never_blocks", line.id):
            assert not any(CALLS.search(name) for name in line.after), line.id
        assert not re.search(r"(after|once|when) (the|your) call\b", line.do, re.IGNORECASE), line.id


@invariant(saying("do", "Send everybody up, and let somebody else steer."))
def whoever_is_alone_is_told_of_nobody_else(case):
    """A crew of one reads of no others who act. No exception."""
    if case.persons == 1:
        for line in case.lines:
            assert not re.search(
                r"\b(somebody else|others|each other|send everybody|count everybody|everybody else)\b",
                line.do,
                re.IGNORECASE,
            ), line.id


@invariant(lambda case: replace(case, lines=(*case.lines, replace(case.lines[0], do="Watch."))))
def no_step_twice(case):
    """No step comes twice, nor two of one wording. No exception."""
    assert len(set(case.ids)) == len(case.ids)


@invariant(lambda case: replace(case, facts=case.facts | {"one left": True, "two left": True}))
def one_number_is_left(case):
    """Exactly one of the facts of who can act is so, with those counted out taken away. No exception."""
    said = [case.facts[name] for name in ("nobody left", "one left", "two left", "more than two left")]
    number = min(max(case.able - case.one.form.counts_out, 0), 3)
    assert said == [place == number for place in range(4)]


@invariant(lambda case: replace(case, title="x" * 27))
def what_one_sees_is_short(case):
    """A title is what one sees, hears or smells, in 26 characters. No exception."""
    assert len(case.title) <= 26


@invariant(
    lambda case: (
        replace(case, facts=dict.fromkeys(FACTS, False) | {"sails": None})
        if not case.one.order % 20
        else None
    )
)
def emergencies_come_in_order_of_need(case):
    """Where seconds count comes before where minutes do; among equals the likelier first. No exception."""
    assert None not in case.facts.values()
    kinds = {one.id: one for one in shelf()}

    class Printed:
        def __init__(self, kind):
            self.kind, self.bill, self.emergency = kind, kinds[kind].bill, kinds[kind].emergency

    made = in_order_of_need([Printed(name) for name in sorted(case.there)], case.facts)
    urgencies = [kinds[one.kind].form.urgency for one in made if one.emergency]
    assert urgencies == sorted(urgencies)
