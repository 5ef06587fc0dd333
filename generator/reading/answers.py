"""Words that stand where a text belongs and say nothing; printed in a step they would look like an answer."""

OPEN_ANSWERS = frozenset(("unknown", "private"))  # what a vessel file says of a value; never a text
# Words that stand for an answer and give none.
NO_ANSWER = OPEN_ANSWERS | frozenset((
    "??", "???", "-", "--", "---", "...", "…", "xxx", "tbd", "tba", "tbc", "todo", "to do", "n/a", "na", "n.a.",
    "nil", "not known", "unkown", "unknow", "unknown?", "don't know", "no idea", "private?",
))  # fmt: skip
# Answers to another question: "cut the painter with the knife: yes".
NO_WORDS = frozenset(("yes", "no", "true", "false", "none", "nothing"))
_NOTHING = NO_ANSWER | NO_WORDS
_LABELS = OPEN_ANSWERS | NO_WORDS | {"not known"}


def says_nothing(text: str) -> bool:
    """Whether a text is one of these words, whatever its capitals."""
    return len(text) < 12 and text.lower() in _NOTHING


def may_be_label(text: str) -> bool:
    """Whether such a word is one that the manual itself prints where a file says so: not known, yes, none; never tbd."""
    return text.lower() in _LABELS
