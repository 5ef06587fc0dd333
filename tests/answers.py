"""An answer to every key of a vessel file, made from its field: for tests that go through all of them."""

import re

from generator.commissioning.paths import key_paths, target
from generator.reading.clock import TimeOfDay
from generator.reading.fields import Listed, Misread, Texts

WORDS = (
    "in the port locker, behind the ladder", "232000000", "2024000000FFBFF", "MZZZ9", "2029-05", "3", "2 m", "2 m port", "20 kg",
    "5 kN", "9 l", "30 l/min", "12 months", "30 s", "40 min", "25 W", "1.5-4 m", "0.9 x 0.6 x 0.4 m", "123",
    "12 m", "25 mm", "900 kg", "138 g", "2009", "20:00",
)  # fmt: skip


def readable(field):
    """A text that a field reads; of a list two words where it takes words of its own."""
    if isinstance(field, Listed) and not isinstance(field, Texts):
        return readable(field.of)
    if isinstance(field, Texts):
        words = list(field.choices or ("one of them", "another"))
        if field.key == "lifejacket":
            return words[-1]  # one for all who have the role, however many they are
        return ", ".join(words[-2:])
    if isinstance(field, TimeOfDay) and field.key == "to":
        return "04:00"  # a watch ends at another time than it begins
    for text in (*reversed(field.choices or ()), *(() if field.choices else WORDS)):
        try:
            field.read(text)
        except Misread:
            continue
        return text
    raise AssertionError(f"no answer fits {field.key}")


def with_names(path):
    """A key path with names where it says that one belongs."""
    while match := re.search(r"\[(NAME|NUMBER)\]", path):
        before = path[: match.start()]
        name = "1" if match[1] == "NUMBER" else _name_in(before)
        path = f"{before}[{name}]{path[match.end() :]}"
    return path


def _name_in(listed):
    block = target(listed).field.block
    field = block.fields[block.called]
    return (field.choices or ("cockpit" if block.called == "where" else "thing, no. 2",))[-1]


def every_key():
    """(path, answer) of every key, those of names left out: brackets give them."""
    for path in map(with_names, key_paths()):
        one = target(path)
        named = re.search(r"\[([^\]]*)\]\.([a-z-]+)$", path)
        block = target(path[: named.end(1) + 1].rpartition("[")[0]).field.block if named else None
        if block is not None and block.called == named[2]:
            yield path, named[1]
        else:
            answer = readable(one.read_by)
            yield path, "port" if answer == "both" and path.endswith(".side") else answer
