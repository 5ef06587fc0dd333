"""Fields: each gives the text under one key its type, says who may read it and what `unknown` does there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any, Generic, Self, TypedDict, TypeVar, Unpack, overload

from generator.reading import dates, letters
from generator.reading.answers import NO_ANSWER, NO_WORDS, says_not_known
from generator.reading.nearest import folded, nearest, shortened
from generator.reading.values import Keyed, NotKnown, Stamp

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.reading.names import Reference

NEEDED = "needed"  # a step or an essential check needs it: nothing is published without
ESTIMATE = "estimate"  # an estimate or a check is left out without it
CHECKED = "checked"  # the step or the named check that needs it asks for it
OPEN = "open"  # nothing hangs on it: printed as not known
ASKED = (NEEDED, ESTIMATE)
READERS = ("guest", "crew", "shore")
MOST_ENTRIES = 2000  # of the program's own shelves; every list of a boat's file has a bound of its own
IF_OPEN, IF_NONE = "write unknown if it is not known yet", "remove the key if there is none"

G_co = TypeVar("G_co", covariant=True)
T = TypeVar("T")
V = TypeVar("V")
B = TypeVar("B", bound="Block")

Schema = dict[str, Any]  # a part of a JSON Schema


class Misread(Exception):
    """The text is not what the field holds; `ways` say what to write, one after the other; `unquoted` says why without the text itself."""

    def __init__(self, message: str, *ways: str, unquoted: str = ""):
        super().__init__(message)
        self.message, self.ways, self.unquoted = message, ways, unquoted

    @property
    def remedy(self) -> str:
        """All the ways."""
        return "; ".join(self.ways)


class Options(TypedDict, total=False):
    """What every field may be told: see Field."""

    required: bool
    unknown: str | None
    partly: str
    reader: str
    example: str
    most: int
    may_be_none: bool


class Field(Generic[G_co]):
    """A key of a block, and what its attribute gives. `question` is what the value answers.

    `unknown` is NEEDED, ESTIMATE, CHECKED or OPEN: what it does that the value is not known, whether the file says so or leaves
    the key out; `partly` is what it does as one entry of a list beside others. `reader` is the first who may see it; `most` how many entries a list or block of names takes; `may_be_none`
    whether what must stand may be the word none; `single` whether it holds one answer, which is open where the key is left out; a list or a block left out counts as not said.
    """

    kind: str = "text"
    usual: str = "text"
    blank: Any = None
    single = False

    def __init__(self, question: str, **options: Unpack[Options]):
        self.question = question
        self.required = options.get("required", False)
        self.unknown = options.get("unknown") or (NEEDED if self.required else OPEN)
        self.partly = options.get("partly", self.unknown)
        self.reader = options.get("reader", "guest")
        self._example = options.get("example", "")
        self.most = options.get("most", MOST_ENTRIES)
        self.may_be_none = options.get("may_be_none", False)
        self.key = self.name = ""

    @property
    def example(self) -> str:
        """A value as it may stand; `usual` of the kind where the field has none of its own."""
        return self._example or self.usual

    @property
    def choices(self) -> tuple[str, ...] | None:
        """The words it takes, if only these."""
        return None

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name
        self.key = name.rstrip("_").replace("_", "-")

    @overload
    def __get__(self, block: None, owner: type) -> Self: ...
    @overload
    def __get__(self, block: Block, owner: type | None = None) -> G_co: ...
    def __get__(self, block: Block | None, owner: type | None = None) -> Self | G_co:
        if block is None:
            return self
        absent: G_co = self.blank  # what is there stands in the block itself, where Python looks first
        return absent

    def schema(self) -> Schema:
        """What a JSON Schema says of a plain value; editors turn some text into numbers, dates into text."""
        return {"type": ["string", "number", "boolean"], "minLength": 1}


class Single(Field[T | NotKnown | None]):
    """One value as text; an absent key gives None, `unknown` gives UNKNOWN."""

    single = True

    def read(self, text: str) -> T:
        """The value of `text`; raises Misread."""
        raise NotImplementedError


class Plain(Single[str]):
    """Words of one line exactly as typed."""

    def read(self, text: str) -> str:
        """The words."""
        refuse(letters.unfit(text, longest_word=letters.LONGEST))
        return text


class Text(Single[str]):
    """Words in one line as typed. `answers` are words such as none that elsewhere are no answer, and are one here."""

    longest, longest_word, one_line = letters.LONGEST, letters.LONGEST_WORD, True
    says = ""
    """What the words are in a sentence; "" where no sentence is made of them."""

    def __init__(self, question: str, *, answers: Iterable[str] = (), **options: Unpack[Options]):
        super().__init__(question, **options)
        self.answers = tuple(answers)

    def read(self, text: str) -> str:
        """The words; refuses curly quotes put where straight ones belong, and words that are no answer to the question."""
        if len(text) > self.longest_word or "\n" in text:
            refuse(letters.unfit(text, self.longest, self.longest_word, self.one_line))
        if text.startswith(letters.OPENING):
            refuse(letters.curly(text))
        if len(text) < 12 and text.lower() in NO_ANSWER:
            raise Misread(f"'{text}' is no answer", "write it in words", IF_OPEN, IF_NONE)
        if len(text) < 8 and (word := text.lower()) in NO_WORDS and word not in self.answers:
            raise self._no_words(text, word)
        return text

    def schema(self) -> Schema:
        """Text of no more letters than a page has room for."""
        return {**super().schema(), "maxLength": self.longest}

    def _no_words(self, text: str, word: str) -> Misread:
        if word in ("none", "nothing") and not self.required:
            return Misread(f"'{text}' would be printed as the answer to: {self.question}", IF_NONE, IF_OPEN)
        shown = f", for example {self.example}" if self.example != Field.usual else ""
        return Misread(f"'{text}' does not answer: {self.question}", f"write it in words{shown}")


def refuse(told: tuple[str, str] | None) -> None:
    """Raises Misread with what is told of a text, if anything."""
    if told:
        raise Misread(*told)


Words = Iterable[str] | Callable[[], Iterable[str]]


class _Chosen:
    """The words of a choice, listed or asked for when first needed: those of a shelf are not read before."""

    _words: Words
    _listed: tuple[str, ...] | None = None

    @property
    def choices(self) -> tuple[str, ...]:
        """The words in their order."""
        if self._listed is None:
            self._listed = tuple(self._words() if callable(self._words) else self._words)
        return self._listed


class Choice(_Chosen, Single[str]):
    """One word out of a fixed list, or of a list that a shelf gives."""

    kind = "choice"

    def __init__(self, question: str, choices: Words, **options: Unpack[Options]):
        super().__init__(question, **options)
        self._words = choices

    @property
    def example(self) -> str:
        """A word as it may stand."""
        return self._example or self.choices[0]

    def read(self, text: str) -> str:
        """The word as listed, whatever its capitals and hyphens."""
        if text in (self._listed or self.choices):
            return text
        for choice in self.choices:
            if folded(choice) == folded(text):
                return choice
        refuse(letters.curly(text))
        raise Misread(f"'{shortened(text)}' is none of the words this key takes", nearest(text, self.choices))

    def schema(self) -> Schema:
        """The list of words."""
        return {"enum": list(self.choices)}


class YesNo(_Chosen, Single[bool]):
    """Yes or no."""

    kind = "yes or no"
    usual = "yes"
    _words = ("yes", "no")

    def read(self, text: str) -> bool:
        """True for yes; other ways of saying it are told to write yes or no."""
        if text in ("yes", "no"):
            return text == "yes"
        said = {"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}.get(
            text.lower(), text
        )
        return Choice(self.question, self.choices).read(said) == "yes"

    def schema(self) -> Schema:
        """yes, no, and what editors turn them into."""
        return {"enum": ["yes", "no", True, False]}


class Dated(Single[Stamp]):
    """A date to the day (2026-05-20) or the month (2026-05)."""

    kind = "date"
    usual = "2026-05 or 2026-05-20"

    def read(self, text: str) -> Stamp:
        """The date as marked."""
        try:
            return dates.read(text)
        except ValueError as error:
            raise Misread(*error.args) from None

    def schema(self) -> Schema:
        """A day or a month."""
        return {"type": "string", "pattern": "^(19|20)[0-9]{2}-[0-9]{2}(-[0-9]{2})?$"}


class Digits(Single[str]):
    """A number that is a name: kept as text, spaces dropped."""

    def __init__(self, question: str, pattern: str, shape: str, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.kind, self._pattern = shape, re.compile(pattern, re.ASCII)
        self._example = self._example or shape

    def read(self, text: str) -> str:
        """The digits or letters without spaces and hyphens, in capitals."""
        plain = re.sub(r"[\s-]", "", text).upper()
        if says_not_known(text):
            raise Misread(f"'{shortened(text)}' is no answer", f"write {self.kind}", IF_OPEN, IF_NONE)
        if not self._pattern.fullmatch(plain) or plain in ("NONE", "NIL", "TBD", "TODO", "XXX"):
            shown = f", for example {self.example}" if self.example != self.kind else ""
            raise Misread(f"'{shortened(text)}' is not {self.kind}", f"write {self.kind}{shown}")
        return plain

    def schema(self) -> Schema:
        """Text or, where editors take the digits for one, a number."""
        figures = re.fullmatch(r"\\d\{(\d+)\}", self._pattern.pattern)
        if not figures:
            letters = {"type": "string", "pattern": "^[0-9A-Za-z -]+$"}
            return {"anyOf": [letters, {"type": "integer", "minimum": 0}]}
        text = {"type": "string", "pattern": f"^([ -]*[0-9]){{{figures[1]}}}$"}
        return {"anyOf": [text, {"type": "integer", "minimum": 0, "maximum": 10 ** int(figures[1]) - 1}]}


class Listed(Field[tuple[T, ...]]):
    """A list of values, or a single one. `of` reads each."""

    blank = ()

    def __init__(self, question: str, of: Single[T], **options: Unpack[Options]):
        super().__init__(question, **options)
        self.of = of

    @property
    def choices(self) -> tuple[str, ...] | None:
        """The words it takes, if only these."""
        return self.of.choices if isinstance(self.of, Choice) else None

    @property
    def example(self) -> str:
        """A list as it may stand."""
        return self._example or f"[{self.of.example}]"

    def schema(self) -> Schema:
        """A list, or one value."""
        one = self.of.schema()
        return {"anyOf": [{"type": "array", "minItems": 1, "maxItems": self.most, "items": one}, one]}


class Texts(Listed[str]):
    """A list of words or of choices, or a single one. `of` reads each."""

    def __init__(
        self,
        question: str,
        choices: Words | None = None,
        *,
        of: Single[str] | None = None,
        **options: Unpack[Options],
    ):
        one = of or (Choice(question, choices) if choices is not None else Text(question))
        super().__init__(question, one, **options)


class Compound(Field[G_co]):
    """A field that holds blocks. One that may be left out weighs no more where it is unknown: what she needs of it, a check asks for both ways."""

    def __init__(self, question: str, **options: Unpack[Options]):
        if "unknown" not in options:
            options["unknown"] = NEEDED if options.get("required") else CHECKED
            options.setdefault("partly", NEEDED)
        super().__init__(question, **options)

    @property
    def blocks(self) -> type[Block] | None:
        """The kind of block at the bottom of it; None where it ends in plain values."""
        raise NotImplementedError


class One(Compound[B | None]):
    """A block under a key."""

    def __init__(self, block: type[B], question: str, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.block, self.single = block, bool(block.shorthand)

    @property
    def blocks(self) -> type[Block]:
        """The kind of block."""
        return self.block


class Many(Compound[Sequence[B]]):
    """A list of blocks; `distinct` ones have each a name of its own."""

    blank: Sequence[Any] = ()

    def __init__(self, block: type[B], question: str, *, distinct: bool = False, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.block = block
        self.distinct = distinct

    @property
    def blocks(self) -> type[Block]:
        """The kind of block."""
        return self.block


class Naming(Options, total=False):
    """What named values may be told besides: what their names refer to."""

    names: Reference | None


class Named(Compound[Keyed[T]]):
    """Values under names that are given in the file or by a shelf: blocks, plain values, or named values again.

    `names` says what the names refer to, where they are names of something that stands elsewhere.
    """

    blank: Keyed[Any] = Keyed()

    @overload
    def __init__(self: Named[B], inner: type[B], question: str, **options: Unpack[Naming]) -> None: ...
    @overload
    def __init__(self: Named[V], inner: Single[V], question: str, **options: Unpack[Naming]) -> None: ...
    @overload
    def __init__(self: Named[G_co], inner: Field[G_co], question: str, **options: Unpack[Naming]) -> None: ...
    def __init__(self, inner: type[Block] | Field[Any], question: str, **options: Unpack[Naming]) -> None:
        self.inner, self.names = inner, options.pop("names", None)
        rest: Options = options
        super().__init__(question, **rest)

    @property
    def blocks(self) -> type[Block] | None:
        """The kind of block at the bottom; None where plain values stand there."""
        if isinstance(self.inner, Field):
            return self.inner.blocks if isinstance(self.inner, Compound) else None
        return self.inner
