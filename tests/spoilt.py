"""Spoilt files: seeded mutants of whole boats (vessel, voyage, private, class and base file), of their bytes and of their structure."""

from __future__ import annotations

import copy
import json
import re
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from pathlib import Path
from random import Random

import yaml
from readme_boat import TEASEL

from generator.reading.fields import (
    Choice,
    Compound,
    Dated,
    Digits,
    Field,
    Listed,
    Many,
    Named,
    One,
    Single,
    Text,
    YesNo,
)
from generator.reading.measures import Count, Dimensions, Measure, OffCentre, Range
from generator.vessel.base import Base
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
VESSEL, VOYAGE, PRIVATE, CLASS = "vessel.yaml", "voyage.yaml", "private.yaml", "../classes/marelle-45.yaml"
BASE, MARK = "../base.yaml", "../mark.png"
BASES = ("teasel", "saltmeadow", "ombrelune", "nordgyllen", "zilte-wind", "kelpwren", "tansywade", "tresmare")
_OFTEN, _OFTEN_WRITTEN = (
    (6, 4, 3, 3, 1, 3, 1, 1),
    (12, 3, 2, 2, 1, 4, 1, 1),
)  # the larger a boat, the longer her survey and the writing

WORDS = ("unknown", "private", "?", "", "~", "null", "none", "nothing", "yes", "no", "0", "-0", "-1", "00", "1e9", "1e400", "nan", "inf",
         ".inf", "9" * 40, "9" * 5000, "0x10", "0o17", "1_000", "12:30", "12,5 m", "36 ft", "5' 6\"", "-3 m", "0 m", "0 kg", "0 l", "0 x 0 x 0 m",
         "0.0001 m", "0.000000001 m", "999999 m", "1e3 m", "1.5-4 m", "4-1.5 m", "0-0 m", "0 m port", "20 m starboard", "centre",
         "2026-13-45", "2026-02-30", "0001-01", "0000-00", "1900-01", "1900-01-01", "2099-12", "2099-12-31", "9999-12-31", "10000-01-01",
         "\N{FULLWIDTH EQUALS SIGN}1+1", "=1+1", "x;=1+1", "x,@SUM(A1)", "\t=1", "| sh", "+49 40 0", "@x", "-", "--", "---", "...", "&a b", "*a", "!!binary x",
         "|", ">", '"', "'", "- x", "x: y", "{{ boat }}", "{boat}", "{", "}", "%s", "%n", "$x", "`x`", "\\", "\\n", "<script>alert(1)</script>", "&amp;", "&#0;",
         "]]>", "<![CDATA[", "<!--", "-->", "#", "a\nb", "a\r\nb", "a\tb", "\x00", "\x07", "\x1b[2J", "\x1b]0;x\x07", "\x7f", "\x85", "\xa0", "\xad",
         "\u061c", "\u200b", "\u200d", "\u200f", "\u2028", "\u202e", "\u2066", "\ufeff", "\ufffd", "\uffff", "\U0001f6df", "\U0010ffff", "\ue000",
         "e" + "\u0301" * 300, "ü" * 5, "ﬁ", "İ", "ẞ", "١٢٣", "²", "ǅ", "漢字", "שלום", "مرحبا", "à", "a\u0300", "-" * 400, "x" * 3000, "x " * 1500,
         "../../etc/passwd", "/", ".", "..", "~root", "con", "a/b", "a\\b", "http://x.test/", "[x](javascript:alert(1))", "![x](http://x.test/y.png)", "# x",
         "1. x\n" * 50, "> " * 200, "*" * 200, "`" * 99, "[" * 200, "(" * 200, "<" * 200, "[a]: b\n[a]", "| a | b |\n|---|---|\n| c |")  # fmt: skip
NAMES = {
    "name",
    "what",
    "who",
    "role",
    "size",
    "where",
    "station",
    "check",
    "code",
    "emergency",
    "item",
    "by",
}
DAYS = (date(1900, 1, 1), date(2026, 6, 1), date(2027, 1, 1), date(2099, 12, 31))
RAW = (b"\x00", b"\xff", b"\xfe\xff", b"\xff\xfe", b"\xef\xbb\xbf", b"\xed\xa0\x80", b"\xc0\xaf", b"\xf4\x90\x80\x80", b"\r", b"\n", b"\r\n", b"\t", b" ",
       b"\x1b[31m", b"\xe2\x80\xae", b": ", b"- ", b"{", b"}", b"[", b"]", b"'", b'"', b"#", b"&a ", b"*a ", b"!x ", b"|", b">", b"%", b"@", b"`", b"---\n",
       b"...\n", b"? ", b"<<: ", b"\\", b"0", b"9" * 50)  # fmt: skip

BYTES = ("flip", "cut", "insert", "double", "end", "swap", "case", "utf-16", "blank")
LINES = ("delete", "double", "value", "inner", "swap", "indent", "cut", "key")


@dataclass
class Spoilt:
    """One mutant: its files by name, the days it is looked at, and what was done to it."""

    seed: int
    boat: str
    files: dict[str, bytes] = field(repr=False)
    as_of: date | None = None
    until: date | None = None
    how: list[str] = field(default_factory=list)

    def lay_out(self, folder: Path) -> Path:
        """Writes the files, and takes away those of another mutant."""
        folder.mkdir(parents=True, exist_ok=True)
        for name in (VESSEL, VOYAGE, PRIVATE, CLASS, BASE):
            path = folder / name
            if name in self.files:
                path.parent.mkdir(exist_ok=True)
                path.write_bytes(self.files[name])
            else:
                path.unlink(missing_ok=True)
        if BASE in self.files:
            (folder / MARK).write_bytes((VESSELS / self.boat / MARK).read_bytes())
        return folder


@cache
def base(boat: str) -> dict[str, str]:
    """The files of a sound boat. Teasel, who has only what README shows, is given a private file and a voyage of her own."""
    if boat == "teasel":
        return {
            VESSEL: TEASEL.replace("{role: mate, ", "{role: mate, phone: private, "),
            PRIVATE: "people[mate].phone: +49 40 123456\n",
            VOYAGE: "persons:\n  - {name: Ann Example, role: skipper, age: 40}\n  - {name: Bo Example, role: guest, age: 9}\nuntil: 2026-06-20\n",
        }
    found = {
        name: (VESSELS / boat / name).read_text(encoding="utf-8")
        for name in (VESSEL, VOYAGE, PRIVATE)
        if (VESSELS / boat / name).exists()
    }
    named = (CLASS, BASE) if f"base: {BASE}" in found[VESSEL] else (CLASS,)
    return found | {name: (VESSELS / boat / name).read_text(encoding="utf-8") for name in named}


@cache
def tree_of(boat: str, name: str) -> dict:
    """A file of a sound boat as lists, keys and words."""
    return yaml.load(base(boat)[name], yaml.CBaseLoader if yaml.__with_libyaml__ else yaml.BaseLoader)


def spoil(seed: int, gentle: bool = False) -> Spoilt:
    """The mutant of a seed, always the same; `gentle` ones mostly still compose."""
    chance = Random(seed)
    boat = chance.choices(BASES, _OFTEN_WRITTEN if gentle else _OFTEN)[0]
    made = Spoilt(seed, boat, {name: text.encode() for name, text in base(boat).items()})
    name = chance.choices((VESSEL, VOYAGE, PRIVATE, CLASS, BASE), (8, 1, 1, 1, 1))[0]
    if name not in made.files:
        name = VESSEL
    if not gentle and chance.random() < 0.3:
        for _ in range(chance.randint(1, 3)):
            made.files[name] = spoil_bytes(chance, made.files[name], made.how)
    elif not gentle and chance.random() < 0.3:
        made.files[name] = _lines(chance, base(boat)[name], made.how).encode("utf-8", "surrogatepass")
    else:
        tree = copy.deepcopy(tree_of(boat, name))
        for _ in range(chance.choice((1, 1, 1, 2, 3, 6))):
            _structure(chance, tree, {VOYAGE: Voyage, BASE: Base}.get(name, Vessel), made.how)
        made.files[name] = json.dumps(tree, indent=1, ensure_ascii=chance.random() < 0.1).encode(
            "utf-8", "surrogatepass"
        )
    made.how.insert(0, name)
    if chance.random() < 0.25:
        made.as_of = chance.choice(DAYS)
    if chance.random() < 0.25:
        made.until = chance.choice(DAYS)
    return made


def spoil_bytes(chance: Random, data: bytes, how: list[str]) -> bytes:
    """The bytes with one change; what it was is added to `how`."""
    at = chance.randrange(len(data) + 1)
    end = min(len(data), at + chance.choice((1, 1, 2, 8, 60, 600)))
    act = chance.choice(BYTES)
    how.append(f"{act} at byte {at}")
    match act:
        case "flip" if at < len(data):
            return data[:at] + bytes([data[at] ^ 1 << chance.randrange(8)]) + data[at + 1 :]
        case "cut":
            return data[:at] + data[end:]
        case "insert":
            return data[:at] + chance.choice(RAW) + data[at:]
        case "double":
            return data[:end] * chance.choice((1, 1, 2)) + data[at:]
        case "end":
            return data[:at]
        case "swap":
            return data[end:] + data[:at]
        case "case":
            return data[:at] + data[at:end].swapcase() + data[end:]
        case "utf-16":
            return data.decode("utf-8", "replace").encode(
                chance.choice(("utf-16", "utf-16-le", "latin-1")), "replace"
            )
        case "blank":
            return data[:at] + b" " * (end - at) + data[end:]
    return data


def _lines(chance: Random, text: str, how: list[str]) -> str:
    """One to three lines changed, as hands change them."""
    lines = text.splitlines()
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(lines))
        line, act = lines[at], chance.choice(LINES)
        how.append(f"{act} line {at + 1}")
        match act:
            case "delete" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(at, line)
            case "value" if ": " in line:
                lines[at] = f"{line.partition(': ')[0]}: {chance.choice(WORDS)}"
            case "inner" if line.count(": ") > 1:
                parts = line.split(", ")
                number = chance.randrange(len(parts))
                key, colon, value = parts[number].partition(": ")
                parts[number] = f"{key}{colon}{chance.choice(WORDS)}{value[len(value.rstrip('}]')) :]}"
                lines[at] = ", ".join(parts)
            case "swap":
                other = chance.randrange(len(lines))
                lines[at], lines[other] = lines[other], line
            case "indent":
                lines[at] = " " * chance.randint(1, 5) + line
            case "cut":
                lines[at] = line[: chance.randint(0, len(line))]
            case "key":
                lines[at] = line.replace(
                    chance.choice(sorted(NAMES)), chance.choice(("nmae", "", "?", "<<")), 1
                )
    return "\n".join(lines) + "\n"


STRUCTURE = ("extreme", "extreme", "extreme", "word", "word", "noughts", "drop", "drop name", "word for name", "twice", "move", "nest", "list", "flat", "empty",
         "odd key", "many", "unknown", "stamp", "add", "deep", "swap", "tree")  # fmt: skip


def _structure(chance: Random, tree: dict, kind: type, how: list[str]) -> None:  # noqa: PLR0912, PLR0915 - a case an act
    """One change of the tree, at one of its values."""
    places = list(_places(tree, kind, ""))
    if not places:
        return
    named = [each for each in places if each[1] in NAMES]
    act = chance.choice(STRUCTURE)
    inner, key, known, path = chance.choice(named if act.endswith("name") and named else places)
    how.append(f"{act} {path}")
    value = inner[key]
    match act:
        case "extreme":
            inner[key] = extreme(chance, known)
        case "word" | "word for name":
            inner[key] = chance.choice(WORDS)
        case "noughts":
            figure = chance.choice(("0", "0.0", "0.00000001", "99999999999", "1e9", "-1"))
            inner[key] = re.sub(r"[0-9]+(\.[0-9]+)?", figure, value) if isinstance(value, str) else figure
        case "drop" | "drop name":
            del inner[key]
        case "twice":
            if isinstance(inner, list):
                inner.insert(key, copy.deepcopy(value))
            elif isinstance(value, list):
                inner[key] = value + copy.deepcopy(value)
        case "move":
            other, at, _, _ = chance.choice(places)
            other[at] = copy.deepcopy(value)
        case "swap":
            other, at, _, _ = chance.choice(places)
            other[at], inner[key] = copy.deepcopy(value), copy.deepcopy(other[at])
        case "nest":
            inner[key] = {chance.choice(("value", "from", "stamp", "what", "x", "")): value}
        case "stamp":
            inner[key] = {
                "value": value,
                "from": chance.choice(("label", "x", "")),
                "stamp": chance.choice(WORDS),
            }
        case "list":
            inner[key] = [value, *([chance.choice(WORDS)] * chance.randint(0, 2))]
        case "flat":
            inner[key] = str(value)[:60]
        case "empty":
            inner[key] = chance.choice(([], {}, "", [[]], [{}], {"": ""}, [""], None))
        case "odd key":
            (inner if isinstance(inner, dict) else tree)[chance.choice(WORDS)] = value
        case "many":
            inner[key] = (value if isinstance(value, list) else [value]) * chance.choice((2, 30, 300))
        case "unknown":
            inner[key] = chance.choice(("unknown", "private"))
        case "add":
            _add(chance, tree, kind)
        case "tree":
            inner[key] = _any_tree(chance)
        case "deep":
            for _ in range(chance.choice((3, 30, 300))):
                value = chance.choice(([value], {"x": value}))
            inner[key] = value


def _any_tree(chance: Random, depth: int = 0):
    """Lists, keys and words of any kind, one in the other."""
    form = chance.choice(("word", "list", "keys")) if depth < 4 else "word"
    if form == "list":
        return [_any_tree(chance, depth + 1) for _ in range(chance.randint(0, 3))]
    if form == "keys":
        names = [
            chance.choice((*Vessel.fields, *sorted(NAMES), chance.choice(WORDS)))
            for _ in range(chance.randint(0, 4))
        ]
        return {name: _any_tree(chance, depth + 1) for name in names}
    return chance.choice(WORDS)


def _add(chance: Random, tree: dict, kind: type) -> None:
    """A key that is not there, with a value at its bounds."""
    missing = [each for each in kind.fields.values() if each.key not in tree]
    if missing:
        one = chance.choice(missing)
        tree[one.key] = extreme(chance, one)


def _places(value, kind, path):
    """(what holds it, key or number, its field if known, path) of every value in the tree."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in items:
        known = kind.fields.get(key) if isinstance(kind, type) else kind
        yield value, key, known, f"{path}.{key}"
        if isinstance(each, (dict, list)):
            yield from _places(each, _inside(known, each, key), f"{path}.{key}")


def _inside(known, value, key):
    if isinstance(known, Many):
        return known if isinstance(value, list) else known.block
    if isinstance(known, One):
        return known.block
    if isinstance(known, Named):
        return known.inner
    return known


def extreme(chance: Random, known: Field | type | None, depth: int = 0):  # noqa: PLR0912 - a case a kind of field
    """A value that a field may still take, mostly at its bounds, or just beyond them."""
    if isinstance(known, type):
        return _block(chance, known, depth)
    if isinstance(known, Listed):
        return [extreme(chance, known.of) for _ in range(chance.choice((0, 1, 2, 5)))]
    if isinstance(known, Named):
        return {
            chance.choice(("abandon-ship", "fire", "x", *WORDS)): extreme(chance, known.inner, depth + 1)
            for _ in range(2)
        }
    if isinstance(known, Many):
        return [_block(chance, known.block, depth) for _ in range(chance.choice((0, 1, 2, 4)))]
    if isinstance(known, One):
        return _block(chance, known.block, depth)
    match known:
        case Choice() | YesNo():
            return chance.choice(known.choices)
        case Count():
            return str(chance.choice((known.low, known.high, known.low - 1, known.high + 1)))
        case Dated():
            return chance.choice(
                ("1900-01", "1900-01-01", "2099-12", "2099-12-31", "2026-06-01", "2000-02-29")
            )
        case Digits():
            return chance.choice(
                (
                    "000000000",
                    "999999999",
                    "F" * 15,
                    "0" * 15,
                    "0" * 23,
                    "f" * 23,
                    "0" * 30,
                    "AAA",
                    "99999999",
                    "970000000",
                )
            )
        case Dimensions():
            figures = [chance.choice(("0", "0.001", "0.01", "0.5", "10")) for _ in range(3)]
            return f"{' x '.join(figures)} m"
        case Range():
            low, high = sorted(chance.choice((known.low, known.high, known.high / 2)) for _ in range(2))
            return f"{low:.9f}-{high:.9f} {next(iter(known.units))}"
        case OffCentre():
            return f"{chance.choice((0, 0.001, known.high))} m {chance.choice(('port', 'starboard'))}"
        case Measure():
            unit = chance.choice(list(known.units))
            figure = (
                chance.choice((known.low, known.high, (known.low + known.high) / 2, known.low + 1e-6))
                / known.units[unit]
            )
            return f"{figure:.9f} {unit}"
        case Text() | Single():
            return chance.choice((known.example, chance.choice(WORDS), "x", "cockpit", "skipper", "forepeak"))
    return chance.choice(WORDS)


def _block(chance: Random, kind: type, depth: int):
    """A block with its needed keys and some of the others, each at its bounds; now and then without one."""
    made = {}
    for one in kind.fields.values():
        wanted = one.required or chance.random() < 0.3
        if wanted and chance.random() < 0.95 and (depth < 4 or not isinstance(one, Compound)):
            made[one.key] = extreme(chance, one, depth + 1)
    return made
