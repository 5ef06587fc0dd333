"""Dangerous deeds in words of her own: nothing she prints tells anybody to do what kills."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.own_words import APART, OwnWords, called, own_words
from generator.manual.sieves import sieve
from generator.reading.fields import Text
from generator.reading.nearest import shortened
from generator.reading.worded import DOING, ROLE
from generator.shelves.deeds import CONDITIONS, FORBIDS, HURRIES, RESETS, WARNS, deeds
from generator.shelves.gear import before_comma
from generator.shelves.worded_forms import plain, stems_in
from generator.survey.registry import LIFE, Finds, Sight, at, check
from generator.vessel.alarms import Alarm
from generator.vessel.base import Base
from generator.vessel.fittings import Fitting
from generator.vessel.gear import Gear
from generator.vessel.installed import Stop
from generator.vessel.particulars import Note
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.shelves.deeds import Deeds, Form

_SENTENCE = re.compile(r"[.!?;]+(?=[\s*_]|$)|\n")
_BREAK = re.compile(r" [,:()–—](?= )")
_FAR = 2
"""How many words stand between a condition and an order that follows it without a comma: if fat burns throw ..."""
_WHO_DOES = frozenset(
    [
        "you",
        "we",
        "they",
        "i",
        "people",
        "guests",
        "others",
        "both",
        "all",
        "children",
        "and",
        "or",
        "to",
        "may",
        "might",
        "will",
        "can",
        "should",
        "would",
    ]
)
"""Words before a deed that belong to whoever does it, in what a condition says."""
_ONLY = re.compile(r" only (?:when|once|after|if|then|on deck|outside|from)(?= )")


_FEEDS = re.compile(r"\bbatter(?:y|ies)\b", re.IGNORECASE)
_WITH_A_SUBJECT = (Beacon, Fitting, Gear, Alarm)
"""Blocks whose words tell of a thing that they do not name."""


@check("words.dangerous-deed", LIFE, "templates/deeds/dangers.yaml")
def words_tell_nobody_to_do_what_kills(sight: Sight) -> Finds:
    """No text of hers tells anybody to do what costs lives: water on burning fat, a flame at a gas leak, a jacket inflated below.

    Why: it stands in the manual in her own words, and whoever reads it in the minute does it.
    Remedy: take it out of the words; write what is done instead.
    """
    shelf = deeds()
    plain_words = (
        said for said in sight.words_through(_may_tell_a_deed) if not isinstance(said.block, _WITH_A_SUBJECT)
    )
    of_the_base = _of_the_base(sight.vessel.charter_base)
    for said in (*plain_words, *own_words(sight.all_of(*_WITH_A_SUBJECT)), *of_the_base):
        if said.says == ROLE or (isinstance(said.block, APART) and not isinstance(said.block, Base)):
            continue
        beside = said.block.beside if isinstance(said.block, Note) else _beside(said.block)
        subject = _subject(said)
        text = f"{subject}{said.meant.replace(';', ',')}" if subject else said.meant
        form = told(text, beside if isinstance(beside, str) else "", shelf)
        if form is not None:
            danger = form.danger
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' tells somebody {danger.danger}: {danger.why}",
                remedy=f'take it out of the words; then write {said.field.key}: "{danger.instead}"',
                item=said.block.path,
            )


def _of_the_base(base: Base | None) -> Iterator[OwnWords]:
    """The words of the base that guests read on the first page."""
    for key in ("do-first", "hours", "berth"):
        field = Base.fields[key]
        words = base.__dict__.get(field.name) if base is not None else None
        if base is not None and isinstance(words, str) and isinstance(field, Text):
            yield OwnWords(base, field, words)


def _beside(block: Block) -> str:
    """The procedure in which the words of a block that is no note are acted on."""
    of = str(block.what) if isinstance(block, Stop) else re.split(r"[.\[]", block.path)[0]
    return next(iter(called(f"acted-on.{of}")), "")


def _subject(said: OwnWords) -> str:
    """What words are about that say how a thing is worked and do not name it, as forms of the shelf have it: launch-from how: cut the painter."""
    block, key = said.block, said.field.key
    if isinstance(block, (Alarm, Gear)):
        told_of = key == "for" or _FEEDS.search(said.text)  # of one that is switched off another check speaks
        return (
            f"{before_comma(str(block.what))}{' alarm' if isinstance(block, Alarm) else ''} {key}: "
            if told_of
            else ""
        )
    if said.says != DOING:
        return ""
    name = str(block.kind) if isinstance(block, Beacon) else block.path.rpartition(".")[2]
    return f"{name} {key}: " if isinstance(block, (Beacon, Fitting)) else ""


@sieve
def _may_tell_a_deed(text: str) -> bool:
    return next(_told_in(text, deeds()), None) is not None


_OF_IT = re.compile(r" (?:it|them)(?= )")
"""Words of a sentence that tell of what the one before it names."""


@lru_cache(maxsize=8192)
def told(text: str, beside: str, shelf: Deeds) -> Form | None:
    """The first dangerous deed that a text, beside a procedure, tells somebody to do; None where it tells none."""
    for form, words in _told_in(text, shelf):
        if form.of is None or beside in form.beside or form.of.search(words):
            return form
    return None


def _told_in(text: str, shelf: Deeds) -> Iterator[tuple[Form, str]]:
    """Each dangerous deed that a sentence of a text tells to be done, wherever it stands, with the sentence as `plain` gives it."""
    stems = stems_in(text)
    found_by = {form for stem in stems for form in shelf.by_word.get(stem, ())}
    forms = sorted((form for form in found_by if form.form.may_say(stems)), key=lambda form: form.order)
    sentences = _SENTENCE.split(text) if forms else []
    for number, sentence in enumerate(sentences):
        words = shelf.grammar[HURRIES].sub(" ", plain(sentence))
        behind = plain(f"{sentences[number - 1]}, {sentence}") if number and _OF_IT.search(words) else ""
        for form in forms:
            if behind and form.form.said.endswith(" it"):
                of_it = form.form.search(behind, stems)
                if of_it is not None and not _harmless(behind, of_it, form, shelf):
                    yield form, behind
            found = form.form.search(words, stems)
            if found is not None and not _harmless(words, found, form, shelf):
                yield form, words


def _harmless(words: str, found: re.Match[str], form: Form, shelf: Deeds) -> bool:
    """Whether the sentence forbids the deed, warns of it, tells of whoever does it, or says when it is right."""
    grammar = shelf.grammar
    if grammar[WARNS].search(words) or (not form.says_only and _ONLY.search(words)):
        return True
    if form.spared is not None and form.spared.search(words):
        return True
    before = words[: found.start() + 1]
    resets = (
        each for each in grammar[RESETS].finditer(before) if not before[: each.start()].endswith(" and")
    )
    anew = max((each.end() for each in (*_colons(before), *resets)), default=0)
    end = found.start() if form.denies(grammar[FORBIDS]) else found.end()
    if grammar[FORBIDS].search(f" {words[anew : end + 1]}"):
        return True
    deed = found.start(form.form.acts)
    clause = max((each.end() for each in _BREAK.finditer(words, 0, deed)), default=0)
    return _tells_of_another(words[max(anew, clause) : deed], words[deed:], grammar[CONDITIONS])


def _tells_of_another(before: str, deed: str, conditions: re.Pattern[str]) -> bool:
    """Whether a condition before the deed, in its part of the sentence, is about the deed: if somebody pours water; not: if fat burns pour water."""
    last = max((each.end() for each in conditions.finditer(f" {before} ")), default=None)
    if last is None:
        return False
    between = f" {before} "[last:].split()
    if len(between) < _FAR:
        return True
    return between[-1] in _WHO_DOES or deed.split(maxsplit=1)[0].endswith(("s", "ed", "ing"))


def _colons(before: str) -> Iterator[re.Match[str]]:
    return re.finditer(r" [:–—](?= )", before)
