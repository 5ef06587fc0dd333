"""Operators over the meaning of one file: each yields its mutants in the order of the lines."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

import yaml

from generator.reading.fields import Choice, Dated, Texts, YesNo
from generator.reading.measures import Count, Dimensions, Measure, Range
from generator.vessel.people import ABILITIES
from meanings.mutant import Mutant
from meanings.sheet import Sheet, names_spaces
from meanings.things import NOT_OF_THE_BOAT, Thing, Value

ROLES = (
    "who",
    "substitute",
    "carried-by",
    "helper",
    "carries",
    "launch",
    "hold",
    "cut",
    "bag",
    "worn-by",
    "opened-by",
)
SIDES = {"port": "starboard", "starboard": "port", "Port": "Starboard", "Starboard": "Port"}


def sides_of_things(sheet: Sheet) -> Iterator[Mutant]:
    """A thing stands on the other side."""
    for value in sheet.values:
        if (
            value.key in ("side", "cylinder-side", "strap-fixed", "painter-end", "lid-hinge")
            and value.text in SIDES
        ):
            yield sheet.change("side", value, value.node, SIDES[value.text])


def sides_in_words(sheet: Sheet) -> Iterator[Mutant]:
    """The words of a thing say the other side."""
    for value in sheet.values:
        if value.text in SIDES or value.key == "side":
            continue
        for node in value.texts:
            new = re.sub(r"\b(port|starboard|Port|Starboard)\b", lambda match: SIDES[match[0]], node.value)
            if new != node.value and not (value.key == "port" and value.thing.top == "vessel"):
                yield sheet.change("side in words", value, node, new)


def places(sheet: Sheet) -> Iterator[Mutant]:
    """A thing lies in each other space."""
    for value in sheet.values:
        if names_spaces(value):
            for node in value.texts:
                for space in sheet.spaces:
                    if space != node.value and space not in [each.value for each in value.texts]:
                        yield sheet.change("place", value, node, space)


def persons(sheet: Sheet) -> Iterator[Mutant]:
    """A duty, a helper, a carrier, a place in a raft is each other role's; duty and substitute change places."""
    for value in sheet.values:
        if value.key not in ROLES or value.thing.top in ("contacts", "people", "watches"):
            continue
        held = [each.value for each in value.texts]
        if not set(held) <= set(sheet.roles):
            continue
        for node in value.texts:
            for role in sheet.roles:
                if role not in held:
                    yield sheet.change("person", value, node, role, words=(role,))
    for thing in sheet.things:
        who, other = thing.values.get("who"), thing.values.get("substitute")
        if thing.top == "station-bill" and who and other and len(who.texts) == 1:
            first, second = who.texts[0], other.texts[0]
            yield Mutant(
                sheet.boat, sheet.file, "persons swapped", thing, "who", first.value, second.value,
                (sheet.put(first, second.value), sheet.put(second, first.value)), (thing,), (first.value, second.value),
            )  # fmt: skip


def duties(sheet: Sheet) -> Iterator[Mutant]:
    """Two duties of an emergency change hands."""
    bill = [thing for thing in sheet.things if thing.top == "station-bill" and "who" in thing.values]
    for one, other in combinations(bill, 2):
        first, second = one.values["who"], other.values["who"]
        same = one.path.rpartition(".")[0] == other.path.rpartition(".")[0]
        if not same or len(first.texts) != 1 or len(second.texts) != 1 or first.text == second.text:
            continue
        a, b = first.texts[0], second.texts[0]
        yield Mutant(
            sheet.boat, sheet.file, "duties swapped", one, "who", a.value, b.value,
            (sheet.put(a, b.value), sheet.put(b, a.value)), (one, other), (a.value, b.value),
        )  # fmt: skip


def dates(sheet: Sheet) -> Iterator[Mutant]:
    """Two dates of a thing change places; a date is ten years later, or ten years earlier."""
    for own in sheet.things:
        if own.own is not own:
            continue
        dated = [v for t in own.every() for v in t.values.values() if isinstance(v.field, Dated) and v.text]
        for one, other in combinations(dated, 2):
            if one.text != other.text and (own.path or one.thing is other.thing):
                yield Mutant(
                    sheet.boat, sheet.file, "dates swapped", one.thing, one.key, one.text, f"{other.key} {other.text}",
                    (sheet.put(one.node, other.text), sheet.put(other.node, one.text)), (one.thing, other.thing, own),
                )  # fmt: skip
    for value in sheet.values:
        if isinstance(value.field, Dated) and value.text[:2] == "20":
            for years in (10, -10):
                yield sheet.change(
                    "date by ten years", value, value.node, f"{int(value.text[:4]) + years}{value.text[4:]}"
                )


def rafts(sheet: Sheet) -> Iterator[Mutant]:
    """What is one raft's is the other's: each value alone, and two places in them."""
    found = [thing for thing in sheet.things if thing.top == "rafts" and thing.own is thing]
    for one, other in combinations(found, 2):
        mine = {(t.path.removeprefix(one.path), v.key): v for t in one.every() for v in t.values.values()}
        for thing in other.every():
            for value in thing.values.values():
                twin = mine.get((thing.path.removeprefix(other.path), value.key))
                if twin is None or _written(sheet, twin) == _written(sheet, value):
                    continue
                a, b = _written(sheet, twin), _written(sheet, value)
                yield Mutant(
                    sheet.boat, sheet.file, "the other raft's", value.thing, value.key, b, a,
                    (sheet.put(value.node, a),), (value.thing, one, other),
                )  # fmt: skip
                yield Mutant(
                    sheet.boat, sheet.file, "rafts swapped", value.thing, value.key, b, a,
                    (sheet.put(value.node, a), sheet.put(twin.node, b)), (value.thing, one, other),
                )  # fmt: skip


def _written(sheet: Sheet, value: Value) -> str:
    start, end, _ = sheet.put(value.node, "")
    return sheet.text[start:end]


ILLS = (
    "is blind",
    "has a broken leg",
    "is deaf",
    "sleeps below and takes no watch",
    "is seasick and lies below",
)


def _told_more(sheet: Sheet, person: Thing, words: str, operator: str) -> Mutant:
    """The mutant in which a role has one key more."""
    role, end = person.says("role"), person.values["role"].node.end_mark.index
    put = f", {words}" if person.node.flow_style else f"\n{' ' * person.node.start_mark.column}{words}"
    return Mutant(
        sheet.boat, sheet.file, operator, person, "role", role, words, ((end, end, put),), (person,), (role,)
    )  # fmt: skip


def roles(sheet: Sheet) -> Iterator[Mutant]:
    """A role is a child's, a helpless person's, lacks an ability, lifts little, keeps no watch, goes into the other raft."""
    for person in sheet.people:
        role = person.says("role")

        if "age" not in person.values:
            for age in (3, 9, 15):
                yield _told_more(sheet, person, f"age: {age}", "age")
        if "needs-help" not in person.values:
            for ill in ILLS:
                yield _told_more(sheet, person, f"needs-help: {ill}", "needs help")
        if "lifts" in person.values:
            yield sheet.change(
                "lifts", person.values["lifts"], person.values["lifts"].node, "5 kg", words=(role,)
            )
        abilities = person.values.get("abilities")
        held = [node.value for node in abilities.texts] if abilities else []
        for ability in ABILITIES:
            if abilities and ability in held:
                left = [each for each in held if each != ability]
                yield Mutant(
                    sheet.boat, sheet.file, "ability lost", person, "abilities", ability, "none",
                    (sheet.put(abilities.node, f"[{', '.join(left)}]"),), (person,), (role,),
                )  # fmt: skip


def rosters(sheet: Sheet) -> Iterator[Mutant]:
    """One role less, or one more, in a list of roles: a watch, a raft, who wears what, who opens what."""
    for value in sheet.values:
        if not isinstance(value.field, Texts) or not isinstance(value.node, yaml.SequenceNode):
            continue
        held = [node.value for node in value.texts]
        if value.key == "abilities" or not set(held) <= set(sheet.roles) or not held:
            continue
        for role in held:
            left = [each for each in held if each != role]
            yield Mutant(
                sheet.boat, sheet.file, "one less", value.thing, value.key, role, "none",
                (sheet.put(value.node, f"[{', '.join(left)}]"),), (value.thing,), (role,),
            )  # fmt: skip
        for role in sheet.roles:
            if role not in held:
                yield Mutant(
                    sheet.boat, sheet.file, "one more", value.thing, value.key, "none", role,
                    (sheet.put(value.node, f"[{', '.join([*held, role])}]"),), (value.thing,), (role,),
                )  # fmt: skip


def numbers(sheet: Sheet) -> Iterator[Mutant]:
    """A number is ten times as much or a tenth, in feet for metres, in pounds for kilogrammes, and the other way round."""
    for value in sheet.values:
        if not isinstance(value.field, (Count, Measure, Range, Dimensions)) or not value.text:
            continue
        if not re.search(r"[0-9]", value.text) or (value.key == "built"):
            continue
        factors: dict[str, float] = {"tenfold": 10, "a tenth": 0.1}
        whole = isinstance(value.field, Count)
        if re.search(r"[0-9] ?(m|mm)\b", value.text) and not whole:
            factors |= {"feet as metres": 3.2808, "metres as feet": 1 / 3.2808}
        if re.search(r"[0-9] ?(kg|t)\b", value.text):
            factors |= {"pounds as kilogrammes": 2.2046, "kilogrammes as pounds": 1 / 2.2046}
        for how, factor in factors.items():
            if whole and float(value.text) * factor % 1:
                continue
            if value.text.startswith("0 ") or value.text == "0":
                continue
            new = re.sub(
                r"[0-9]+(\.[0-9]+)?",
                lambda match, by=factor: f"{float(f'{float(match[0]) * by:.3g}'):g}",
                value.text,
            )
            if new != value.text:
                yield sheet.change(how, value, value.node, new)


def entries(sheet: Sheet) -> Iterator[Mutant]:
    """A thing of a list is removed, or stands there twice."""
    for thing in sheet.things:
        if thing.item_of is None or thing.top in ("drills", "notes", "deferred-defects"):
            continue
        start, end = entry_of(sheet.text, thing)
        whole = sheet.text[start:end]
        if len(thing.item_of.value) > 1:
            yield Mutant(
                sheet.boat, sheet.file, "removed", thing, "", thing.name, "", ((start, end, ""),), (), named(thing)
            )  # fmt: skip
        yield Mutant(
            sheet.boat, sheet.file, "doubled", thing, "", thing.name, "twice", ((end, end, whole),), (thing,), (thing.name,)
        )  # fmt: skip
    for thing in sheet.things:
        if thing.within is None and not thing.path:
            for key, value in thing.node.value:
                if key.value in thing.kind.fields and key.value not in (*NOT_OF_THE_BOAT, "vessel"):
                    start = sheet.text.rfind("\n", 0, key.start_mark.index) + 1
                    end = start + len(sheet.text[start : value.end_mark.index].rstrip()) + 1
                    part = next((each for each in thing.parts if each.top == key.value), thing)
                    yield Mutant(
                        sheet.boat, sheet.file, "block removed", part, "", key.value, "", ((start, end, ""),), (), (),
                        anywhere=True,
                    )  # fmt: skip


def named(thing: Thing) -> tuple[str, ...]:
    """The words by which a finding may name a thing that is not there any more."""
    from generator.shelves.gear import kind_of

    kind = kind_of(thing.name) if thing.top in ("gear", "grab-bags") else None
    kinds = (kind.name,) if kind is not None else ()
    return tuple(
        word
        for word in (
            thing.name,
            thing.says("kind"),
            *kinds,
            thing.says("what"),
            thing.says("where"),
            thing.says("role"),
        )
        if word
    )


def entry_of(text: str, thing: Thing) -> tuple[int, int]:
    """From where to where an item of a list stands in the text, its dash and the end of its line too."""
    start = text.rfind("\n", 0, thing.node.start_mark.index) + 1
    length = len(text[start : thing.node.end_mark.index].rstrip())
    end = text.find("\n", start + length)
    end = len(text) if end < 0 else end + 1
    return start, end


HALF = {
    "flag": ("Germany", "Ireland", "United States"),
    "rig": ("none", "sloop", "ketch"),
    "rule-set": ("US recreational", "offshore racing category 1"),
    "call-sign": ("DZZZ9", "EIZZ9"),
    "mmsi": ("211000000", "250000000"),
    "name": ("Brackenfell",),
    "hull-colour": ("bright green",),
    "muster-place": (),
}


def answers(sheet: Sheet) -> Iterator[Mutant]:
    """An answer of a few is each of the others, yes is no, persons are more or fewer: what hangs on it is left as it was."""
    for value in sheet.values:
        if value.key in ("side", "strap-fixed", "painter-end", "lid-hinge"):
            continue
        whole = value.thing.top == "vessel"
        operator = "half-made change" if whole else "answer"
        for node, word in _otherwise(value):
            yield sheet.change(operator, value, node, word, anywhere=whole)
        one_of_hers = value.thing.top in ("vessel", "radio") and value.thing.within is None
        told = HALF.get(value.key, ()) if one_of_hers and isinstance(value.node, yaml.ScalarNode) else ()
        if value.key == "persons" and value.text.isdigit():
            told = tuple(str(int(value.text) + more) for more in (-2, -1, 1, 4) if int(value.text) + more > 0)
        for word in told:
            if word != value.text:
                yield sheet.change("half-made change", value, value.node, word, anywhere=True)


def _otherwise(value: Value) -> Iterator[tuple[yaml.ScalarNode, str]]:
    """Each other answer, at the value or at the first of several."""
    found, held = value.field, [node.value for node in value.texts]
    several = isinstance(found, Texts) and value.key != "abilities"
    if not value.texts or not (several or isinstance(found, (Choice, YesNo))):
        return
    for word in found.choices or ():
        if word not in (*held, "true", "false"):
            yield value.texts[0], word
