"""Words that stand where a text belongs and say nothing; printed in a step they would look like an answer."""

import re

OPEN_ANSWERS = frozenset(("unknown", "private"))  # what a vessel file says of a value; never a text
# Words that stand for an answer and give none.
NO_ANSWER = OPEN_ANSWERS | frozenset((
    "??", "???", "-", "--", "---", "...", "…", "xxx", "tbd", "tba", "tbc", "todo", "to do", "n/a", "na", "n.a.",
    "nil", "not known", "unkown", "unknow", "unknown?", "don't know", "no idea", "private?",
))  # fmt: skip
# Answers to another question: "cut the painter with the knife: yes".
NO_WORDS = frozenset(("yes", "no", "true", "false", "none", "nothing"))
_NOTHING = NO_ANSWER | NO_WORDS
# The long ones, by their letters alone: NA is Namibia, and a call sign may be TBA.
_NOT_KNOWN = frozenset(bare for word in NO_ANSWER if len(bare := re.sub(r"[^a-z]", "", word)) > 4)
_LABELS = OPEN_ANSWERS | NO_WORDS | {"not known"}


def says_nothing(text: str) -> bool:
    """Whether a text is one of these words, whatever its capitals."""
    return len(text) < 12 and text.lower() in _NOTHING


def says_not_known(text: str) -> bool:
    """Whether a text, whatever its capitals, blanks and marks, is one of those that say it is not known: DON'T KNOW, no-idea."""
    return len(text) < 16 and re.sub(r"[^a-z0-9]", "", text.lower()) in _NOT_KNOWN


def may_be_label(text: str) -> bool:
    """Whether such a word is one that the manual itself prints where a file says so: not known, yes, none; never tbd."""
    return text.lower() in _LABELS
