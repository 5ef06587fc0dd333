"""The questions asked one after the other, each answer kept; what broke off goes on where it stopped."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from textwrap import wrap

from generator.commissioning.answers import UNKNOWN
from generator.commissioning.given import of_one_name
from generator.commissioning.identities import doubts
from generator.commissioning.kept import NAME, Kept, kept_for
from generator.commissioning.naming import file_for
from generator.commissioning.paths import target
from generator.commissioning.questions import Question, questions
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import Done, commission
from generator.reading.nearest import folded
from generator.shelves.spaces import BELOW, DECK, LEVELS, UPPER

Ask = Callable[[str], str]
"""Shows a prompt and gives what is typed; EOFError or OSError where nothing more comes, KeyboardInterrupt where somebody stops it."""
Tell = Callable[[str], None]
_WIDTH = 100
_INDENT = "   "
_HELP = ("?", "help")
_BACK = ("back", "go back")
_PAIR = re.compile(r"((?:[^=\[\]]|\[[^\[\]]*\])+)=(.*)", re.DOTALL)


class _GoBack(Exception):
    """The question before is to be asked again."""


class BrokenOff(Exception):
    """The answers ended before the questions did; the message says where they are kept. `by_hand`: somebody stopped it."""

    def __init__(self, message: str, by_hand: bool) -> None:
        super().__init__(message)
        self.by_hand = by_hand


@dataclass(frozen=True)
class Wish:
    """What is asked for on the command line: `set` are the answers given there, KEY=VALUE each."""

    name: str
    into: Path
    set: tuple[str, ...] = ()
    start_over: bool = False


def carry_out(wish: Wish, ask: Ask | None, tell: Tell) -> Done:
    """Writes the file of a vessel from answers given, kept and, where somebody answers, asked for.

    Raises Refusal with all that is wrong, and BrokenOff where the answers end; what was answered is kept then.
    """
    title = " ".join(wish.name.split())
    path = file_for(wish.name, wish.into)
    given = _pairs(wish.set)
    kept = _kept(path, title, in_use=ask is not None or wish.start_over)
    if wish.start_over and kept.there:
        tell(f"What was kept in {kept.path} is dropped.")
        kept.remove()
        kept = Kept(path.with_name(kept.path.name), title)
    if kept.wrong:
        raise Refusal(*kept.wrong)
    if kept.answers:
        ends = "going on with the next question" if ask else "they are used"
        tell(f"{_how_many(kept)} kept for {title} in {kept.path}: {ends} (--start-over drops them).")
    if ask:
        try:
            _ask_all(kept, ask, tell)
        except OSError:  # the terminal is gone: there is nobody to tell
            raise BrokenOff(_so_far(kept, "the answers broke off"), by_hand=False) from None
    answers = _in_force(kept.answers) | given
    for each in doubts(answers, given):
        tell(f"Look again: {each}.")
    done = commission(wish.name, answers, wish.into)
    kept.remove()
    return done


def _in_force(answers: Mapping[str, str]) -> dict[str, str]:
    """The answers without those to questions that a later answer leaves nothing to ask at."""
    moot = {key for each in questions() if each.moot(answers) for key in each.keys}
    return {key: text for key, text in answers.items() if key not in moot}


def _kept(path: Path, title: str, in_use: bool) -> Kept:
    """What is kept for her; where nothing is to be kept, a file that is not ours is no hindrance."""
    try:
        return kept_for(path, title)
    except Refusal:
        if in_use:
            raise
        return Kept(path.with_name(NAME), title)


def _how_many(kept: Kept) -> str:
    """How many answers are kept, as the questions count them: one may fill in two keys."""
    asked = [each.keys for each in questions() if all(key in kept.answers for key in each.keys)]
    others = set(kept.answers) - {key for keys in asked for key in keys}
    number = len(asked) + len(others)
    return "1 answer is" if number == 1 else f"{number} answers are"


def _pairs(given: tuple[str, ...]) -> dict[str, str]:
    """The answers of the command line by key; raises Refusal with all that are none, or that contradict each other."""
    found: dict[str, str] = {}
    wrong = []
    for each in given:
        pair = _PAIR.fullmatch(each)
        key, value = (pair[1], pair[2]) if pair else ("", "")
        key, value = key.strip(), value.strip()
        if not key:
            wrong.append(f"--set {each}: write KEY=VALUE, for example --set vessel.length='12 m'")
        elif found.setdefault(key, value) != value:
            wrong.append(
                f"{key} is answered twice, '{found[key]}' and '{value}'; keep one of them{_second(key)}"
            )
    if wrong:
        raise Refusal(*wrong)
    return found


def _second(key: str) -> str:
    """How the second of one name is told; "" where the key is in no list."""
    try:
        return of_one_name(target(key))
    except Refusal:
        return ""


def _ask_all(kept: Kept, ask: Ask, tell: Tell) -> None:
    """Asks what is not answered yet, and keeps each answer at once."""
    if not kept.answers:
        tell(
            "About 25 questions, first what saves lives. Enter alone, or unknown, leaves one open; ? explains it; back goes to the one before.\n"
            "Ctrl-C stops: what you answered is kept, and the same command goes on there."
        )
    offered, position = False, 0
    again: Question | None = None
    while position < len(questions()):
        question = questions()[position]
        if question.moot(kept.answers) or (question is not again and _answered(question, kept.answers)):
            position += 1
            continue
        left = [each for each in questions() if not each.moot(kept.answers)]
        tell(f"\n{left.index(question) + 1} of {len(left)}. {question.text}")
        _tell_wrapped(question.shown(kept.answers), tell)
        if spaces := question.spaces(kept.answers):
            _tell_spaces(() if offered else spaces, tell)
            offered = True
        before = question.told(kept.answers) if question is again else ""
        if before:
            _tell_wrapped(f"(answered: {before}; Enter alone keeps it)", tell)
        try:
            found = _answer(question, kept, ask, tell, keeps=bool(before))
        except _GoBack:
            done = [each for each in left[: left.index(question)] if _answered(each, kept.answers)]
            if done:
                again, position = done[-1], questions().index(done[-1])
            else:
                _tell_wrapped("this is the first question", tell)
            continue
        if found:
            kept.keep(found)
        again, position = None, position + 1


def _answered(question: Question, answers: Mapping[str, str]) -> bool:
    """Whether a question is answered, and what was answered still holds after what was answered since."""
    return all(key in answers for key in question.keys) and not question.overtaken(answers)


def _answer(question: Question, kept: Kept, ask: Ask, tell: Tell, *, keeps: bool) -> dict[str, str]:
    """The answer to one question, asked again until it can be read; none where Enter alone `keeps` what was answered.

    What the survey would find of an identity is told at once; the same answer once more is taken as it is. Raises _GoBack.
    """
    doubted: dict[str, str] = {}
    while True:
        text = _typed(kept, ask)
        if keeps and not text:
            return {}
        if text.lower() in _HELP:
            _explain(question, kept.answers, tell)
            continue
        try:
            found = question.read(text, kept.answers)
        except Refusal as refused:
            for reason in refused.reasons:
                _tell_wrapped(re.sub(rf"^({'|'.join(map(re.escape, question.keys))}): ", "", reason), tell)
            continue
        wrong = doubts(kept.answers | found, question.keys) if found != doubted else []
        if not wrong:
            left_open = [key for key in question.keys if found.get(key) == UNKNOWN]
            if 0 < len(left_open) < len(question.keys):
                _tell_wrapped(f"(still open: {', '.join(left_open)})", tell)
            elif not left_open and folded(question.told(found)) != folded(text):
                _tell_wrapped(f"(taken as: {question.told(found)})", tell)
            return found
        doubted = found
        for each in (
            *wrong,
            "If it is right all the same, write it once more; back goes to the question before",
        ):
            _tell_wrapped(f"{each}.", tell)


def _typed(kept: Kept, ask: Ask) -> str:
    """What was typed; raises _GoBack for the word back, and BrokenOff where nothing more comes."""
    try:
        text = ask(" > ").strip()
    except KeyboardInterrupt:
        raise BrokenOff(_so_far(kept, "stopped"), by_hand=True) from None
    except EOFError:
        raise BrokenOff(_so_far(kept, "the answers broke off"), by_hand=False) from None
    if text.lower() in _BACK:
        raise _GoBack
    return text


def _explain(question: Question, answers: Mapping[str, str], tell: Tell) -> None:
    for line in question.explained(answers):
        _tell_wrapped(f"{line[0].upper()}{line[1:]}.", tell)
    if spaces := question.spaces(answers):
        _tell_spaces(spaces, tell)


def _so_far(kept: Kept, why: str) -> str:
    if not kept.there:
        return f"{why}; nothing was answered yet, and nothing written"
    return f"{why}; {_how_many(kept)} kept in {kept.path}, and the same command goes on there"


def _tell_wrapped(words: str, tell: Tell) -> None:
    for line in wrap(words, _WIDTH - len(_INDENT), break_on_hyphens=False):
        tell(f"{_INDENT}{line}")


def _tell_spaces(spaces: tuple[tuple[str, ...], ...], tell: Tell) -> None:
    """The spaces of her type level by level; where they were told already, how to see them again."""
    if not spaces:
        _tell_wrapped("(the spaces listed above; ? lists them again)", tell)
    told = {UPPER: "above the deck", DECK: "on deck", BELOW: "below"}
    for level, names in zip(LEVELS, spaces, strict=False):
        if names:
            _tell_wrapped(f"{told[level]}: {', '.join(names)}", tell)
