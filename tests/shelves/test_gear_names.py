"""Names of gear in every form that people write: steps, checks, rule sets and the plan take the same things for the same kinds."""

from datetime import date

import pytest
from open_boats import OPEN_BOAT, changed, said, surveyed

from generator.checks.gear.names import things_have_the_names_that_steps_use
from generator.manual.aboard import Outfit
from generator.manual.carriage import _capped
from generator.manual.facts import Aboard, facts_of
from generator.manual.facts import gear_called as found_by_steps
from generator.manual.inventory import list_items
from generator.manual.reckoning import Reckoning
from generator.shelves.gear import answers_to, is_called, kind_of, kind_renamed, kinds, kinds_in, mentions
from generator.shelves.gear_rows import GEAR, blocks_of
from generator.survey.registry import Sight
from generator.vessel.gear import gear_kind
from generator.vessel.loading import load

AS_OF = date(2026, 6, 1)
KINDS = [kind for kind in kinds() if not kind.words]
NAMES = [(name, kind) for kind in KINDS for name in (*kind.names, *kind.other_names)]


def _name(kind):
    return kind.name if kind is not None else ""


def _plural(name):
    *before, last = name.split(" ")
    if last.endswith("s") and not last.endswith("ss"):
        last = last[:-1]
    elif last.endswith("fe"):
        last = f"{last[:-2]}ves"
    else:
        last += "es" if last.endswith(("ch", "sh", "ss", "x")) else "s"
    return " ".join((*before, last))


FORMS = {
    "as it is": lambda name: name,
    "the other number": _plural,
    "capitals": str.upper,
    "first capital": str.capitalize,
    "hyphens for blanks": lambda name: name.replace(" ", "-"),
    "blanks for hyphens": lambda name: name.replace("-", " "),
    "blanks in a row": lambda name: f" {name.replace(' ', '  ')} ",
    "an article": lambda name: f"the {name}",
    "a number": lambda name: f"2 {name}",
    "with something": lambda name: f"{name} with a lanyard",
    "of some size": lambda name: f"{name} size 2",
    "of some make": lambda name: f"{name} of the newer sort",
    "so heavy": lambda name: f"{name} 2 kg",
    "in brackets": lambda name: f"{name} (in the blue bag)",
    "behind a comma": lambda name: f"{name}, by the mast",
    "an adjective behind": lambda name: f"{name} orange",
    "a pack of them": lambda name: f"a pack of {name}",
}
ADJECTIVES = ("spare", "large", "orange-red", "approved", "Kisby")


def _said(name):
    return f'  - {{what: "{name}", quantity: 1, kind: tool, where: stern sheets, side: port}}'


@pytest.fixture(scope="module")
def aboard(tmp_path_factory):
    """A boat that has things of these names and no others."""
    number = iter(range(10**6))

    def with_gear(names):
        folder = tmp_path_factory.mktemp("boats") / str(next(number))
        folder.mkdir()
        text = OPEN_BOAT[: OPEN_BOAT.index("gear:\n")] + "gear:\n" + "\n".join(map(_said, names)) + "\n"
        (folder / "vessel.yaml").write_text(text, encoding="utf-8")
        vessel, _ = load(folder, "boat")
        assert len(vessel.gear) == len(names)
        return vessel

    return with_gear


def _told(vessel):
    """The things whose names the survey says to write otherwise."""
    return {
        found.item
        for found in things_have_the_names_that_steps_use(Sight(vessel, AS_OF, AS_OF))
        if found.remedy
    }


def _agreed(vessel, expected):
    """Whether all who ask for gear take each thing for its kind; what they do not agree in."""
    items = list_items(vessel)
    outfit = Outfit(Reckoning(vessel), AS_OF)
    facts = facts_of(vessel, items)
    amiss = []
    for thing, (_, names), kind in zip(vessel.gear, outfit.named, expected, strict=True):
        item = next(each for each in items if each.block is thing)
        views = {
            "step": item in found_by_steps(items, kind.name),
            "fact": facts[f"has {kind.name}"],
            "word": item in found_by_steps(Aboard(vessel, items).items, kind.name.upper()),
            "check": _name(gear_kind(thing)) == kind.name,
            "rule set": kind.name.lower() in names,
            "bag": is_called(thing.what, kind.name),
            "plan": kind.name.lower() in item.answers_to,
        }
        if len(set(views.values())) != 1 or not views["step"]:
            amiss.append((str(thing.what), kind.name, views))
    return amiss


@pytest.mark.parametrize("form", FORMS)
def test_every_kind_is_found_in_every_form_by_all_who_ask(form, aboard):
    named = [(FORMS[form](name), kind) for name, kind in NAMES]
    assert not _agreed(aboard([name for name, _ in named]), [kind for _, kind in named])


@pytest.mark.parametrize("adjective", ADJECTIVES)
def test_a_word_before_a_name_tells_which_one(adjective, aboard):
    alone = {str(name).lower() for each in _blocks() for name in each.alone}
    named = [
        (f"{adjective} {name}", kind)
        for name, kind in NAMES
        if name not in alone and not _not_so(adjective, kind)
    ]
    assert len(named) > 150
    assert not _agreed(aboard([name for name, _ in named]), [kind for _, kind in named])


def _blocks():
    return list(blocks_of(GEAR.files()))


def _not_so(adjective, kind):
    block = next(each for each in _blocks() if each.kind == kind.name)
    return bool({word.lower() for word in block.not_before} & set(adjective.lower().split("-")))


def test_other_names_are_taken_by_all_and_the_survey_says_which_to_write(aboard):
    others = [(name, kind) for kind in KINDS for name in kind.other_names]
    assert [
        name for name, kind in others if {_name(kind_of(name)), _name(kind_renamed(name))} != {kind.name}
    ] == []
    names = [name for name, _ in others]
    assert _told(aboard(names)) == set(names)
    assert not _told(aboard([*names, *(kind.name for kind in KINDS)])), (
        "the things that steps name are aboard"
    )


PARTS = ("light", "bracket", "hose", "cover", "battery", "manual", "lanyard", "holder")


@pytest.mark.parametrize("part", PARTS)
def test_what_belongs_to_a_thing_is_another(part, aboard):
    forms = [
        (form, kind)
        for name, kind in NAMES
        for form in (f"{name} {part}", f"{part} of the {name}", f"{part}s for {name}", f"spare {name} {part}")
        if form not in dict(NAMES)
    ]
    assert [form for form, kind in forms if _name(kind_of(form)) == kind.name] == []
    for first in range(0, len(forms), 300):
        assert not _told(aboard([form for form, _ in forms[first : first + 300]]))


@pytest.mark.parametrize(
    ("what", "kind"),
    [
        ("hot water bottle", None),
        ("hot-water bottle", None),
        ("distilled water", None),
        ("lifebuoy light", None),
        ("extinguisher bracket", None),
        ("raft knife", "knife"),
        ("blow torch", None),
        ("chlorine tablets", None),
        ("self-bailer", None),
        ("door bell", None),
        ("dummy lifebuoy", None),
        ("floating mooring line", None),
        ("buoyancy aids", None),
        ("automatic fire extinguisher", "automatic extinguisher"),
        ("automatic fire extinguisher, engine space", "automatic extinguisher"),
        ("fixed automatic fire extinguisher", "fixed extinguisher"),
        ("automatic engine room fire extinguisher", "automatic extinguisher"),
        ("white parachute flares", "illuminating rockets"),
        ("red parachute flares", "parachute flares"),
        ("red rocket flares", "parachute flares"),
        ("hand-held parachute flares", "parachute flares"),
        ("hand-held red flares", "red hand flares"),
        ("red flares (parachute)", "other flares and smokes"),
        ("red flares, parachute", "other flares and smokes"),
        ("red hand-held LED flares", "electric distress light"),
        ("floating throwing line", "throwing line"),
        ("floating rescue line", "throwing line"),
        ("white handheld flares", "white hand flares"),
        ("CO gas detector", "carbon monoxide alarm"),
        ("horseshoe lifebuoy", "lifebuoy"),
        ("lifebuoy with light and danbuoy", "lifebuoy"),
        ("knives", "knife"),
        ("axes", "axe"),
        ("two torches", "torch"),
        ("2 l water in plastic bottles", "drinking water"),
        ("a pair of oars", "oars"),
    ],
)
def test_the_last_word_says_what_a_thing_is(what, kind):
    found = kind_of(what)
    assert (found.name if found else None) == kind


@pytest.mark.parametrize(
    "what", ["engine room extinguisher", "engine fire extinguisher", "halon 1301 extinguisher"]
)
def test_an_extinguisher_of_which_no_step_can_say_how_it_works_is_told(what, aboard):
    assert _told(aboard([what])) == {what}
    assert not kind_of(what).does("discharged by hand"), "nobody is sent to aim it"


@pytest.mark.parametrize(
    ("what", "beside", "told"),
    [
        ("lifebuoy Pinta", [], True),
        ("lifebuoy Pinta", ["lifebuoy"], False),
        ("lifebuoy and danbuoy", [], True),
        ("lifebuoy and danbuoy", ["danbuoy, aft"], False),
        ("fire extinguisher training video", [], True),
        ("fire extinguisher powder 2 kg", [], False),
        ("signals card holder", [], False),
    ],
)
def test_what_may_be_meant_and_is_not_found_is_told(what, beside, told, aboard):
    assert (what in _told(aboard([what, *beside]))) is told


@pytest.mark.parametrize(
    ("what", "meant"),
    [
        ("whistle and mirror", ["whistle", "mirror"]),
        ("knife, torch and spare batteries", ["knife", "torch"]),
        ("hot water bottle", []),
        ("water + food", ["drinking water", "food"]),
    ],
)
def test_a_thing_in_a_bag_may_be_several(what, meant):
    assert [kind.name for kind in kinds_in(what)] == meant
    assert all(is_called(what, name) for name in meant)
    assert mentions(what, "drinking water") == ("drinking water" in meant)


def test_a_rule_that_counts_few_counts_them_in_every_form():
    assert "heaving line" in answers_to("Heaving line, 20 m")
    assert _capped([], "throwing line", 1.0) == []


def test_the_card_of_fire_says_the_same_with_one_or_several(tmp_path):
    fight = "Aim an extinguisher at the base of the flames"
    for name in (
        "fire extinguisher",
        "fire extinguishers",
        "Fire-extinguisher 2 kg",
        "2 kg fire extinguisher",
    ):
        text = changed(OPEN_BOAT, ("what: fire extinguisher,", f"what: {name},"))
        assert any(fight in text for _, text in said(surveyed(text, tmp_path).manual)), name
