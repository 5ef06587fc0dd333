"""A pseudo-language whose every word stands in brackets, and what of printed text is neither bracketed nor the boat's own."""

import io
import re
from collections.abc import Iterable, Iterator
from html.parser import HTMLParser
from pathlib import Path

import pypdf
import yaml
from documents.lives import all_lives

from generator.manual.composing import Manual
from generator.reading.block import Block
from generator.reading.fields import Choice, Field, Texts
from generator.reading.values import Band, NotKnown, Quantity, Stamp
from generator.shelves.languages import Catalogue
from generator.shelves.rulesets import rule_sets

LANGUAGE = "xx"
UNITS = ("m", "ft", "kg", "t", "lb", "l")
_WORD = re.compile(r"[\w'’]*[^\W\d_][\w'’]*")
_SLOT = re.compile(r"(\{[a-z0-9][a-z0-9 -]*\}|<!-- when: [^>]*-->)")
_LETTERS = re.compile(r"[\w'’]*[^\W\d_][\w'’]*")


def bracketed(text: str) -> str:
    """A text with each of its words in brackets; slots stand as they are, so that what fills them shows."""
    return "".join(
        part if _SLOT.fullmatch(part) else _WORD.sub(lambda match: f"«{match[0]}»", part)
        for part in _SLOT.split(text)
    )


def write_language(templates: Path, language: str = LANGUAGE) -> Catalogue:
    """The first language in brackets, below a copy of the templates, as a catalogue."""
    first, other = templates / "text" / "en", templates / "text" / language
    for path in sorted(path for path in first.rglob("*") if path.is_file()):
        to = other / path.relative_to(first)
        to.parent.mkdir(parents=True, exist_ok=True)
        text = path.read_text(encoding="utf-8")
        to.write_text(bracketed(text) if path.suffix == ".md" else _yaml(text), encoding="utf-8")
    return Catalogue(language, templates)


def _yaml(text: str) -> str:
    tree = yaml.load(text, yaml.BaseLoader)
    kept = {key: tree.pop(key) for key in ("tally", "doubled") if key in tree}
    return yaml.safe_dump({**kept, **_inside(tree)}, allow_unicode=True, sort_keys=False, width=1000)


def _inside(node):
    if isinstance(node, dict):
        return {
            # What is looked for in texts is found in the boat's own words too, which stand in no brackets.
            key: [*value, *_inside(value)] if key in ("forms", "otherwise") else _inside(value)
            for key, value in node.items()
        }
    return [_inside(value) for value in node] if isinstance(node, list) else bracketed(node)


class _Page(HTMLParser):
    """What a page says: its text, and the attributes that are read out or shown."""

    _READ_OUT = ("alt", "title", "aria-label", "placeholder")
    _NAMES = ("author", "description", "title")

    def __init__(self):
        super().__init__()
        self.said: list[str] = []
        self._styled = False

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self._styled = tag in ("style", "script")
        self.said += [given[name] for name in self._READ_OUT if given.get(name)]
        if tag == "meta" and given.get("name") in self._NAMES:
            self.said.append(given["content"])

    def handle_endtag(self, tag):
        if tag in ("style", "script"):
            self._styled = False

    def handle_data(self, data):
        self.said += _contents(data) if self._styled else [data]


def _contents(css: str) -> list[str]:
    """What a style sheet adds to the text."""
    return [match[2] for match in re.finditer(r"content:\s*([\"'])(.*?)\1", css)]


def said_in(name: str, data: bytes) -> str:
    """All that a file says to a reader, in the order in which it stands there."""
    if name.endswith(".pdf"):
        pdf = pypdf.PdfReader(io.BytesIO(data))
        outline = [each.title for each in _flat(pdf.outline)]
        about = [str(value) for key, value in (pdf.metadata or {}).items() if key in ("/Title", "/Author")]
        return "\n".join([*(page.extract_text() for page in pdf.pages), *outline, *about])
    if not name.endswith((".html", ".css", ".ics")):
        return ""
    text = data.decode("utf-8")
    if name.endswith(".html"):
        page = _Page()
        page.feed(text)
        return "\n".join(page.said)
    if name.endswith(".css"):
        return "\n".join(_contents(text))
    return "\n".join(_of_calendar(text))


def _flat(outline) -> Iterator:
    for each in outline:
        if isinstance(each, list):
            yield from _flat(each)
        else:
            yield each


def _of_calendar(text: str) -> Iterator[str]:
    said = ("SUMMARY", "DESCRIPTION", "LOCATION", "CATEGORIES", "X-WR-CALNAME", "X-WR-CALDESC", "COMMENT")
    for line in text.replace("\r\n ", "").splitlines():
        name, _, value = line.partition(":")
        if name.partition(";")[0] in said:
            yield re.sub(r"\\([,;\\])", r"\1", value.replace("\\n", "\n"))


def own_words(manual: Manual) -> set[str]:
    """What the vessel's own files say, as written; no word that the program offers for a choice."""
    found = {text for text in _of_block(manual.vessel) if _LETTERS.search(text)}
    one = manual.vessel.vessel
    drawn = {item.where for item in manual.items} | {str(one.muster_place if one else "")}
    drawn |= {str(space.name) for space in (manual.vessel.deck.spaces if manual.vessel.deck else ())}
    return found | {_as_drawn(space) for space in drawn}


def _as_drawn(space: str) -> str:
    """The name of a space as the plan has it: on two lines, each written first with a white edge."""
    first, _, rest = space.partition(" ")
    return f"{first} {first} {rest} {rest}"


def _of_block(block: Block) -> Iterator[str]:
    for name, value in block.__dict__.items():
        field = type(block).fields.get(name.rstrip("_").replace("_", "-"))
        if isinstance(value, Block):
            yield from _of_block(value)
        elif field is not None and not _offers(field):
            yield from _of_value(value)


def _offers(field: Field) -> bool:
    """Whether the program offers the words that stand under a key."""
    return isinstance(field, Choice) or (isinstance(field, Texts) and bool(field.choices))


def _of_value(value: object) -> Iterator[str]:
    if isinstance(value, Block):
        yield from _of_block(value)
    elif isinstance(value, (Quantity, Band)):
        yield value.written
    elif isinstance(value, Stamp):
        yield value.stamp
    elif isinstance(value, dict):
        for each in value.values():
            yield from _of_value(each)
    elif isinstance(value, (list, tuple)):
        for each in value:
            yield from _of_value(each)
    elif isinstance(value, str) and not isinstance(value, NotKnown):
        yield from (part for part in re.split(r"\*+|\n+", value) if part.strip())


def citations(manual: Manual) -> set[str]:
    """Names, editions and sources as the shelves cite them; ids and keys; what the survey said, where it is quoted."""
    cited = {step.source for one in manual.procedures for step in one.steps}
    cited |= {leave.source for one in manual.procedures for leave in one.leaves}
    cited |= {one.end.source for one in manual.procedures if one.end is not None}
    cited |= {each.said_by for each in manual.deadlines}
    for one in rule_sets().values():
        cited |= {one.edition, one.name, *(row.source for row in one.rows)}
        cited |= {other.source for row in one.rows for other in row.alternatives}
    cited |= {life.source for kind in all_lives() for line in kind.lines for life in line.lives}
    cited |= {
        text
        for covered in manual.deferred.values()
        for each in covered
        for text in (each.message, each.check)
    }
    return cited | {key for raft in manual.estimates for row in raft.rows for key in row.lacking}


def leftover(said: str, known: Iterable[str]) -> list[str]:
    """Every word that is neither bracketed, nor `known`, nor a figure with its unit, a letter or a code; with what is near."""
    rest = re.sub(r"«[^«»]*»", " ", said)
    texts = sorted({each.strip() for each in known if each.strip()}, key=len, reverse=True)
    rest = re.sub(_any_of(texts), " ", rest, flags=re.IGNORECASE)
    rest = re.sub(r"\b[2-9A-Z]{3}-[2-9A-Z]{3}\b", " ", rest)
    rest = re.sub(rf"\d[\d.]*\s*({'|'.join(UNITS)})\b", " ", rest)
    rest = re.sub(r"(?<!\S)[A-Z](?!\S)", " ", rest)
    return [
        " ".join(rest[max(0, match.start() - 40) : match.end() + 40].split())
        for match in re.finditer(r"[«»]|[\w'’]*[^\W\d_][\w'’]*", rest)
    ]


def _any_of(texts: list[str]) -> str:
    """A pattern for any of the texts as whole words, wherever the lines break."""
    patterns = (
        r"\s+".join(
            re.sub(r"([-/])", r"\1\\s*", re.escape(word).replace(r"\-", "-")) for word in text.split()
        )
        for text in texts
    )
    return rf"(?<![^\W\d_])(?:{'|'.join(patterns)})(?![^\W\d_])"
