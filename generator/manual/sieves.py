"""Sieves: what her own words may speak of, asked once of each text for all checks, so that none of them walks through all words alone."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from generator.manual.own_words import OwnWords, as_meant, fields_read

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.reading.block import Block

Sieve: TypeAlias = Callable[[str], bool]
"""Whether a text may speak of something. It goes by the text alone, and may let more through than a check will tell of, never less."""
Sifted: TypeAlias = "dict[Sieve, list[OwnWords]]"


class Names(tuple[str, ...]):
    """Names that words are searched for. Alike ones are one thing, told apart as that: what they are found in is looked up at once."""

    __slots__ = ()
    __hash__ = object.__hash__

    def __eq__(self, other: object) -> bool:
        return self is other


@lru_cache(maxsize=256)
def names_alike(names: tuple[str, ...]) -> Names:
    """The names as that one thing."""
    return Names(names)


_SIEVES: list[Sieve] = []


def sieve(lets_through: Sieve) -> Sieve:
    """Has every text of hers asked this."""
    _SIEVES.append(lets_through)
    return lets_through


def sifted(blocks: Iterable[Block]) -> Sifted:
    """By each sieve those of the own words in blocks that it lets through, in their order; most words pass none."""
    found: Sifted = {each: [] for each in _SIEVES}
    known = len(_SIEVES)
    for block in blocks:
        fields = fields_read(block.__class__)
        values = block.__dict__ if fields else {}
        for name, field in fields:
            text = values.get(name)
            if (
                isinstance(text, str)
                and (through := _through(_meant(block, text), known))
                and text != block.path
            ):
                said = OwnWords(block, field, text)
                for each in through:
                    found[each].append(said)
    return found


def _meant(block: Block, text: str) -> str:
    beside = block.__dict__.get("beside")
    return as_meant(text, beside) if isinstance(beside, str) else text


@lru_cache(maxsize=8192)
def _through(text: str, known: int) -> tuple[Sieve, ...]:
    """Those of the first so many sieves that let a text through."""
    return tuple(each for each in _SIEVES[:known] if each(text))
