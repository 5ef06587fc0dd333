"""What somebody is not fit for by what stands under 'medical': read from it, never quoted, for only her own people read that."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from generator.manual.own_words import called, listed

LIMITS = ("steer", "lift", "hear", "see", "see-at-night", "speak", "move", "alone", "swim", "mind", "smoke")
"""What somebody may not be fit for: to steer, to lift and haul, to hear, to see, to see at night, to speak, to move about, to be alone,
to swim, to mind anything at all, to breathe smoke."""
_SENTENCE = re.compile(r"[.;!?\n]")
_CLAUSE = re.compile(r":|,(?! ?(?:or|and|nor)\b)|\bbut\b")
_WORD = r"(?<![\w-])(?:{})(?![\w-])"


@lru_cache(maxsize=2048)
def limits_in(medical: str, *, by_deeds: bool = True) -> frozenset[str]:
    """What the words under 'medical' say that somebody is not fit for, of `LIMITS`: by ailments and, if asked, by deeds that are denied."""
    found: set[str] = set()
    for sentence in _SENTENCE.split(medical.lower().replace("’", "'")):
        as_worn = re.findall(r"[a-z']+", _WITHOUT_AIDS.sub(" ", sentence))
        over = not listed("reads.ails-no-more").isdisjoint(as_worn)
        for clause in _CLAUSE.split(sentence):
            here = {limit for limit in LIMITS if _limited(clause, limit, over=over, by_deeds=by_deeds)}
            found |= here - ({"see"} if "see-at-night" in here else set())  # it is said of the night alone
    return frozenset(found)


def _limited(clause: str, limit: str, *, over: bool, by_deeds: bool) -> bool:
    """Whether a clause says that somebody is not fit for a thing, by an ailment that is not over, or by a deed that is denied."""
    said, deed, denied = _said(limit), _deeds(limit), _not_to().search(clause)
    ails = said.search(clause) if said is not None and not over else None
    if ails and not _DENIED.search(clause[: ails.start()]) and not _HALF.search(clause):
        return True
    return bool(by_deeds and denied and deed is not None and deed.search(clause, denied.end()))


_WITHOUT_AIDS = re.compile(r"\bwithout (?:the |her |his |their )?(?:hearing )?aids?\b")
"""What lies on a shelf at night helps nobody then."""
_DENIED = re.compile(
    r"\b(?:no|not|never|neither|without(?! (?:the |her |his |their )?(?:hearing )?aids?\b)|nor|isn't|history of|as a child|once had|had)\b[^,]*$"
)
"""What stands before an ailment that somebody has not, or has no more."""
_HALF = re.compile(
    r"\b(?:one|left|right) (?:ear|eye)\b|\b(?:slightly|a little|a bit|mildly|colou?r|in the family|father|mother|brother|sister)\b"
)
"""What leaves somebody the other ear or eye."""


@cache
def _not_to() -> re.Pattern[str]:
    """Finds what forbids or denies whatever stands behind it in the clause."""
    return re.compile(_WORD.format(_one_of(called("ails.not-to"))))


@cache
def _said(limit: str) -> re.Pattern[str] | None:
    """Finds an ailment by which somebody is not fit for a thing."""
    words = called(f"ails.{limit}")
    return re.compile(_WORD.format(_one_of(words))) if words else None


@cache
def _deeds(limit: str) -> re.Pattern[str] | None:
    """Finds what somebody is not to do, or cannot."""
    words = called(f"ails-to.{limit}")
    return re.compile(_WORD.format(_one_of(words)) + _NOT_SO.get(limit, "")) if words else None


_NOT_SO = {
    "see": r"(?! (?:an?|the|his|her|under|card|note|page)\b)",
    "speak": r"(?! (?:to|of|about|greek|czech|[a-z]+(?:ish|ese|ian|ch|an))\b)",
}
"""What does not stand behind a deed that is meant: see a doctor, speak Spanish."""


def _one_of(words: tuple[str, ...]) -> str:
    return "|".join(re.escape(each) for each in sorted(set(words), key=len, reverse=True))
