"""A value under whatever key that guests may not read, hidden in whatever words of a boat's own, keeps her from being published."""

from datetime import date

import disguises
import private_boats
import pytest
from private_boats import at, described, kept_keys, marked, values_for, write

from generator.outputs import Made
from generator.publishing import Order, publish, survey
from generator.publishing import write as write_outputs
from generator.survey.registry import CHECKS, Sight
from generator.vessel.particulars import Contact
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

pytestmark = pytest.mark.thorough
DAY = date(2026, 6, 1)
LEAK = "reader.private-leak"
KEYS = list(kept_keys())


def named(key):
    root, path, field = key
    return ".".join((root, *path, field.key))


def set_at(vessel, voyage, key, value):
    root, path, field = key
    tree, kind = (voyage, Voyage) if root == "voyage" else (vessel, Vessel)
    block = at(tree, path, kind)
    if field is Contact.phone:
        block["kind"] = "shore contact"  # a rescue centre's number is everybody's
    block[field.key] = value


@pytest.fixture(scope="module")
def outputs(tmp_path_factory):
    """What guests get of a boat with a mark in all her own words, and which marks stand in which file."""
    vessel, voyage = described()
    marks = marked(vessel) | {f"x{mark}": where for mark, where in marked(voyage, Voyage).items()}
    folder = write(tmp_path_factory.mktemp("marked") / private_boats.BOAT, vessel)
    surveyed = survey(folder, "boat", Order(DAY))
    assert surveyed.manual is not None, surveyed.findings
    made = write_outputs(surveyed.manual, Order(DAY, only=("site", "one-file", "cards")))
    files = {(output, name): data for output, one in made.items() for name, data in one.files.items()}
    drawn = made["cards"].drawn["cards.pdf"]
    places = []
    for number, mark in enumerate(marks):
        for (output, name), data in files.items():
            whole = output == "one-file"  # it is large, and holds the site's pages again
            if name.endswith(".html") and mark.encode() in data and whole == (number % 10 == 0):
                places.append((mark, output, name))
        if mark in drawn:
            places.append((mark, "cards", "cards.pdf"))
    shown = {marks[mark] for mark, _, _ in places}
    assert len(shown) > 30, sorted(set(marks.values()) - shown)
    return files, drawn, places


def hidden(outputs, number, text):
    """One file, with a text hidden where a mark stands."""
    files, drawn, places = outputs
    mark, output, name = places[number % len(places)]
    data = files[output, name]
    if name.endswith(".pdf"):
        return Made({name: b"%PDF-1.7"}, reader="guest", drawn={name: drawn.replace(mark, text)})
    return Made({name: data.replace(mark.encode(), disguises.escaped(text).encode())}, reader="guest")


def leaks(vessel, made):
    sight = Sight(vessel, DAY, DAY, written={"site": made})
    return {each.item for each in CHECKS[LEAK].find(sight)}


@pytest.mark.attack("private")
@pytest.mark.parametrize("key", KEYS, ids=named)
def test_a_value_is_found_wherever_a_boat_s_own_words_are_printed(key, outputs, tried, one_in, tmp_path):
    """In every disguise that there is with --all-mutants; else in one of three, of each value others."""
    number, looked_at, missed = 0, 0, []
    every = one_in(3)
    for value in values_for(key[2])[:4]:
        vessel, voyage = described()
        set_at(vessel, voyage, key, value)
        loaded = survey(write(tmp_path / f"{number}", vessel, voyage), "boat", Order(DAY)).vessel
        assert not leaks(loaded, hidden(outputs, number, "in the blue bag"))
        for name, text in list(disguises.of(value) if value in disguises.VALUES else [("as it is", value)])[
            :: 2 if number else 1
        ]:
            number += 1
            if looked_at and (number + KEYS.index(key)) % every:
                continue
            looked_at += 1
            if not leaks(loaded, hidden(outputs, number * 7 + len(missed), text)):
                missed.append(f"{value}, {name}: {text}")
    tried(looked_at, of=number)
    assert missed == []
    assert looked_at or not values_for(key[2])


@pytest.mark.attack("private")
def test_a_value_is_found_in_every_place_where_words_are_printed(outputs, tried, tmp_path):
    vessel, voyage = described()
    vessel["people"][0]["medical"] = (
        "diabetic; insulin in the refrigerator, sugar in the jacket's left pocket"
    )
    private = {"people[mate].phone": "+44 7700 900138", "old": "GB-ABC00042-A3-99"}
    vessel["people"][1]["phone"] = "private"
    loaded = survey(write(tmp_path / "boat", vessel, voyage, private), "boat", Order(DAY)).vessel
    texts = ("insulin in the refrigerator", "07700 900 138", "gb abc 00042 a3 99", "(0044) 7700-900138")
    places = outputs[2]
    missed = [
        places[number]
        for number in range(len(places))
        if not leaks(loaded, hidden(outputs, number, texts[number % 4]))
    ]
    tried(len(places))
    assert missed == []
    assert leaks(loaded, hidden(outputs, 3, texts[2])) == {"a line of private.yaml"}


@pytest.mark.attack("private")
def test_the_number_of_a_base_is_kept_as_one_of_hers_is(outputs, tried, tmp_path):
    """In disguise it is found in what is printed, and the copies of guests are the same whatever it is."""
    vessel, _ = described()
    vessel["base"] = "../base.yaml"
    folder, seen, number = write(tmp_path / private_boats.BOAT, vessel), [], 0
    for value in [each for each in disguises.VALUES if each.startswith("+")][:2]:
        (tmp_path / "base.yaml").write_text(f"format: 1\noperator: Quay\nchannel: VHF 77\nphone: {value}\n")
        surveyed = survey(folder, "boat", Order(DAY))
        made = write_outputs(surveyed.manual, Order(DAY, only=("site", "one-file")))
        seen.append([one.files for one in made.values()])
        assert not leaks(surveyed.vessel, made["site"])
        assert not leaks(surveyed.vessel, hidden(outputs, number, "in the blue bag"))
        for name, text in disguises.of(value):
            number += 1
            found = leaks(surveyed.vessel, hidden(outputs, number * 7, text))
            assert "base.phone" in found, f"{name}: {text}"
    tried(number)
    assert number > 10
    assert all(each == seen[0] for each in seen)


SLOTS = {
    "a note": lambda vessel, text: vessel.setdefault("notes", []).append({"beside": "fire", "text": text}),
    "the spot of a thing": lambda vessel, text: vessel["gear"][0].update(spot=text),
    "the name of a thing": lambda vessel, text: vessel["gear"].append({"what": text, "kind": "tool", "quantity": "1", "where": "cockpit", "side": "port"}),
    "a channel": lambda vessel, text: vessel["contacts"][0].update(channel=text),
    "who is called": lambda vessel, text: vessel["contacts"][2].update(who=text),
    "how something is done": lambda vessel, text: vessel["stops"][0].update(how=text),
    "who walked round": lambda vessel, text: vessel["checked-aboard"].update(by=text),
    "a reason to defer": lambda vessel, text: vessel.setdefault("deferred-defects", []).append({"check": "gear.expired", "item": "x", "reason": text, "who": "the skipper", "until": "2026-07-01"}),
}  # fmt: skip
REAL = [
    (value, name, slot)
    for number, value in enumerate(disguises.VALUES)
    for name, slot in zip(
        list(disguises.VALUES[value])[number % 5 :: 9], [*[*SLOTS][number % 8 :], *SLOTS], strict=False
    )
]


@pytest.mark.attack("private")
@pytest.mark.one_in(4, "disguise")
@pytest.mark.parametrize(("value", "disguise", "slot"), REAL)
def test_no_boat_is_published_with_it(value, disguise, slot, tmp_path):
    """Nor as a proof copy, nor where it is deferred."""
    vessel, voyage = described()
    text = disguises.VALUES[value][disguise](value).replace("\n", " ")
    SLOTS[slot](vessel, text)
    vessel["people"][1]["medical"] = "private"
    vessel.setdefault("deferred-defects", []).append(
        {
            "check": LEAK,
            "item": "people[mate].medical",
            "reason": "it is so",
            "who": "the skipper",
            "until": "2026-07-01",
        }
    )
    folder = write(tmp_path / private_boats.BOAT, vessel, voyage, {"people[mate].medical": value})
    only = (
        ("site", "cards")
        if slot == "a note" and disguise in ("as it is", "dots", "capitals", "hyphens")
        else ("site",)
    )
    for proof in (False, True):
        done = publish(folder, "boat", Order(DAY, into=tmp_path / "site", only=only, proof=proof))
        if (
            not proof
            and not done.surveyed.sound
            and LEAK not in {each.check for each in done.surveyed.findings}
        ):
            continue  # stopped before anything was written: the proof copy shows it
        if "file.bad-value" in {each.check for each in done.surveyed.findings}:
            assert "too long" in repr(done.surveyed.findings) or "letters" in repr(done.surveyed.findings)
            return  # it was not taken, and is printed nowhere
        assert done.folder is None
        found = [each for each in done.surveyed.findings if each.check == LEAK]
        assert {each.item for each in found} == {"people[mate].medical"}
    assert not (tmp_path / "site").exists() or not any((tmp_path / "site").rglob("*.html"))


@pytest.mark.attack("private")
def test_what_guests_get_owes_nothing_to_what_they_may_not_read(tmp_path, tried):
    """Byte for byte the same with other values of every kind: no digest, no size, no date of theirs gives one away."""
    seen, crew = [], []
    for number in range(2):
        vessel, voyage = described()
        private = {"forgotten": f"kept {number} for nobody"}
        for key in KEYS:
            values = values_for(key[2]) or ["7", "8"]
            value = values[0] if number == 0 else values[-1]
            if (
                key[0] == "vessel"
                and private_boats.is_single(key[2])
                and key[2].key in ("phone", "serial", "medical")
            ):
                *_, last = key[1]
                first = at(vessel, key[1])
                called = first.get({"people": "role", "contacts": "who", "rafts": "name"}.get(last, "what"))
                private[f"{last}[{called}].{key[2].key}"] = value
                value = "private"
            set_at(vessel, voyage, key, value)
        folder = write(tmp_path / str(number) / private_boats.BOAT, vessel, voyage, private)
        done = publish(
            folder,
            "boat",
            Order(
                DAY,
                into=tmp_path / f"site{number}",
                proof=True,
                only=("site", "one-file", "cards", "calendar"),
            ),
        )
        assert done.folder is not None, done.surveyed.findings
        seen.append(
            {
                path.relative_to(done.folder).as_posix(): path.read_bytes()
                for path in done.folder.rglob("*")
                if path.is_file() and path.relative_to(done.folder).parts[0] not in ("crew", "shore")
            }
        )
        crew.append(
            write_outputs(done.surveyed.manual, Order(DAY, only=("one-file",), reader="crew"))[
                "one-file"
            ].files
        )
    first, second = seen
    assert crew[0] != crew[1]
    tried(len(KEYS))
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []
