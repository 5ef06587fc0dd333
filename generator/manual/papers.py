"""What sends elsewhere: to a paper, a person, or another thing like it."""

from __future__ import annotations

import re

from generator.manual.own_words import listed

_NUMBER = re.compile(r"\d+[a-z]?|[a-z]")


def sends_away(words: tuple[str, ...]) -> bool:
    """Whether words do nothing but send elsewhere: see the plate, as marked, ask the skipper, follow the label."""
    first, behind = words[0], words[1:]
    if first in listed("reads.asks-for"):
        return True
    if first in listed("reads.likewise"):
        return not listed("reads.degrees") & set(behind[:1])
    if first in ("the", "a", "an") and behind and behind[0] in listed("reads.likewise"):
        return True
    if first == "see":
        return behind[:1] not in (("that",), ("to",))
    if first in listed("reads.callers") and listed("reads.roles") & set(behind[:3]):
        return True
    return first in listed("reads.looks-at") and (
        not listed("reads.papers").isdisjoint(behind) or behind[:1] == ("out",)
    )


def names_a_paper(words: tuple[str, ...], papers: str = "reads.papers") -> bool:
    """Whether words name a paper: instructions on the label, manual page 12; not the manual override, nor a label to peel off."""
    named = list(words)
    for at, word in enumerate(words):
        if word in listed("reads.no-thing") | {"of"}:
            named = list(words[:at])
            break
    while named and (_NUMBER.fullmatch(named[-1]) or named[-1] in listed("reads.tells")):
        named.pop()
    if not named or named[-1] not in listed(papers):
        return False
    acts = listed("reads.orders", "reads.acts")
    return not (named[0] in acts - listed(papers) and len(named) > 1)
