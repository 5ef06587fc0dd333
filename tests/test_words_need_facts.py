"""Every text of every step, duty, introduction and page names sails, raft, gas, a fixed radio and the like only where the boat has them."""

import itertools
import re

import pytest

from generator.manual.procedures import holds
from generator.reading.names import condition
from generator.shelves.languages import catalogue
from generator.shelves.pages import WHEN
from generator.shelves.procedures import shelf

# The words that name a thing, and the facts of which one must be so for them to be true.
NEEDS = {
    r"sails?|trysail": ["sails"],
    r"mast|rigging|rig|boom": ["sails"],
    r"liferafts?": ["raft"],
    r"gas": ["gas"],
    r"below deck|go below|back below|deckhead|bedding|floorboards": ["rooms below"],
    r"hatch|hatches": ["closed in"],
    r"inflate it": ["inflatable lifejackets"],
    r"fixed radio": ["fixed vhf", "mf/hf"],
    r"handheld radio": ["handheld vhf"],
    r"lifebuoy": ["has lifebuoy"],
    r"danbuoy": ["has danbuoy"],
    r"searchlight": ["has searchlight"],
    r"grab bag": ["grab bag"],
    r"seacocks?": ["through-hulls", "rooms below"],
    r"propeller|out of gear|into gear": ["engine"],
    r"the engine|every engine": ["engine"],
    r"kill cord": ["kill cord stop"],
    r"dinghy": ["dinghy"],
}
# Texts in which a word means another thing, or is so wherever the step holds; each with its reason.
REASONED = {
    ("boat-recovered.service", "sails?|trysail"): "to sail is to leave",
    ("righting.", "gas"): "the cylinder of the raft",
    ("raft-", "gas"): "the cylinder of the raft",
    ("in-the-raft.", "gas"): "the cylinder of the raft",
    ("below-deck.", "below deck|go below|back below|deckhead|bedding|floorboards"): "where the raft is kept",
    ("helicopter.sails", "dinghy"): "from which they may lift somebody, whosever it is",
    ("deck-locker.open", "hatch|hatches"): "the lid over the raft",
    (
        "raft-trouble.drifting-down",
        "propeller|out of gear|into gear",
    ): "beside a raft nobody looks whether there is one",
}
IMPLIED = {
    "engine stop": "engine", "kill cord stop": "engine", "inboard engine": "engine", "several engines": "engine",
    "propeller told": "engine", "jets alone": "engine",
    "rooms below": "closed in", "raft below": "raft", "raft below ": "rooms below", "several rafts": "raft",
    "gas stop": "gas", "electric gas stop": "gas", "gas detector": "gas", "spare kill cord": "kill cord stop",
    "engine stops told apart": "engine stop", "engine stop without a spark": "engine", "engine stop by hand": "engine", "fixed dsc": "fixed vhf", "hydrostatic only": "hydrostatic",
    "fire port": "inboard engine", "sailing": "sails", "outboard engine": "engine",
}  # fmt: skip
"""What holds wherever another fact does, as the facts are worked out."""


def _consistent(facts):
    return all(not facts.get(one) or facts.get(other, True) for one, other in IMPLIED.items())


def _named(conditions):
    return {condition(each)[0] for each in conditions}


def _untrue(one, step, words):
    """The words that a step says to a boat of some facts that has no such thing."""
    asked = (*one.when, *one.when_any, *step.when, *step.when_any)
    names = _named(asked) | {name for each in step.other_words for name in _named(each.when)}
    for pattern, needed in NEEDS.items():
        every = sorted(names | set(needed) | {IMPLIED[name] for name in names if name in IMPLIED})
        for values in itertools.product([False, True], repeat=len(every)):
            facts = dict(zip(every, values, strict=True))
            if not _consistent(facts) or any(facts[name] for name in needed):
                continue
            if not (holds(one.when, one.when_any, facts) and holds(step.when, step.when_any, facts)):
                continue
            other = next((each for each in step.other_words if holds(each.when, (), facts)), None)
            texts = words[other.words if other and other.words else step.id].texts
            said = " ".join(text for key, text in texts.items() if not other or key not in other.leaves_out)
            if re.search(rf"\b(?:{pattern})\b", re.sub(r"\{[^}]*\}", "", said.lower())):
                yield pattern, said
                break


STEPS = [(one, step) for one in shelf() for step in one.steps]


@pytest.mark.parametrize(("one", "step"), STEPS, ids=[step.id for _, step in STEPS])
def test_no_step_names_what_the_boat_may_lack(one, step):
    words = catalogue().procedures[step.words_in].steps
    reasoned = {pattern for (name, pattern) in REASONED if step.id.startswith(name)}
    found = {pattern: said for pattern, said in _untrue(one, step, words) if pattern not in reasoned}
    assert found == {}


def _said(asked, others, own, texts):
    """What is said to a boat of each combination of the facts that its words ask for, with the facts."""
    names = _named(asked) | {name for when, _ in others for name in _named(when)}
    for pattern, needed in NEEDS.items():
        every = sorted(names | set(needed))
        for values in itertools.product([False, True], repeat=len(every)):
            facts = dict(zip(every, values, strict=True))
            if _consistent(facts) and holds(asked, (), facts) and not any(facts[name] for name in needed):
                words = texts[next((name for when, name in others if holds(when, (), facts)), own)]
                if re.search(rf"\b(?:{pattern})\b", words.lower()):
                    yield pattern, words


def test_no_duty_and_no_introduction_does_so_either():
    found = []
    for one in shelf():
        page = catalogue().procedures[one.id]
        for line in one.duties:
            asked = (*one.when, *line.when)
            found += [
                (one.id, line.id, *each) for each in _said(asked, line.other_words, line.id, page.duties)
            ]
        intros = {"": page.intro or "", **page.intros}
        found += [(one.id, *each) for each in _said(one.when, one.other_intro, "", intros)]
    assert found == []


def test_no_line_of_a_page_does_so_either():
    found = []
    for name, page in catalogue().pages.items():
        if name in ("pages/about.md", "pages/disclaimer.md"):  # they speak of the manual itself
            continue
        for line in page.text.split("\n"):
            asked = [each.strip() for match in WHEN.finditer(line) for each in match[1].split(",")]
            text = {"": WHEN.sub("", line)}
            found += [(name, *each) for each in _said(asked, (), "", text)]
    assert found == []
