"""The documents hold what the code says: every key, check, gear name, command and option."""

import re
from pathlib import Path

import pytest

from generator.__main__ import parser
from generator.manual.drawing.spaces import hull_types, preset
from generator.manual.facts import STEP_GEAR
from generator.manual.procedures import shelf
from generator.shelves.languages import catalogue
from generator.shelves.rulesets import CARRIAGE_GEAR
from generator.shelves.rulesets import table as rule_set_table
from generator.survey.table import table
from generator.vessel.keys import keys_tables

ROOT = Path(__file__).parent.parent


def _section(file, name, wanted, renew):
    path = ROOT / file
    text = path.read_text(encoding="utf-8")
    pattern = re.compile(rf"(<!-- {name} -->).*?(<!-- /{name} -->)", re.DOTALL)
    assert pattern.search(text), f"{file} has no section {name}"
    renewed = pattern.sub(lambda match: f"{match[1]}{wanted}{match[2]}", text)
    if renew:
        path.write_text(renewed, encoding="utf-8")
    assert renewed == text or renew, (
        f"{file}: section '{name}' is out of date; renew it with: pytest {Path(__file__).name} --renew"
    )


def test_the_readme_lists_every_key(renew):
    _section("README.md", "keys", f"\n{keys_tables()}\n", renew)


def test_the_readme_lists_the_gear_names(renew):
    _section("README.md", "gear", ", ".join(STEP_GEAR), renew)


def test_the_readme_lists_the_rule_sets(renew):
    _section("README.md", "rule-sets", f"\n{rule_set_table()}\n", renew)
    _section("README.md", "carriage-gear", ", ".join(CARRIAGE_GEAR), renew)


def test_the_readme_lists_the_spaces_of_every_hull_type(renew):
    lines = [
        f"- `{hull}`: "
        + ", ".join(
            f"{each['name']} ({', '.join(each['also'])})" if each.get("also") else each["name"]
            for each in preset(hull)["spaces"]
        )
        for hull in hull_types()
    ]
    _section("README.md", "spaces", "\n" + "\n".join(lines) + "\n", renew)


def test_the_readme_lists_the_duties_of_every_emergency(renew):
    lines = []
    for one in (each for each in shelf() if each.duties):
        words = catalogue().procedures[one.id]["duties"]
        said = [
            f"`{duty['id']}` {words[duty['id']][:1].lower()}{words[duty['id']][1:]}" for duty in one.duties
        ]
        lines.append(
            f"- `{one.id}`: "
            + ". ".join(
                text if duty.get("essential") == "yes" else f"({text})"
                for text, duty in zip(said, one.duties, strict=True)
            )
            + "."
        )
    _section("README.md", "duties", "\n" + "\n".join(lines) + "\n", renew)


def test_the_table_of_checks_is_current(renew):
    _section("DEVELOPERS.md", "checks", f"\n{table()}\n", renew)


def _commands():
    verbs = next(
        action
        for action in parser()._actions
        if hasattr(action, "choices") and isinstance(action.choices, dict)
    )
    return verbs.choices


@pytest.mark.parametrize("name", sorted(_commands()))
def test_the_readme_names_every_command_and_option(name):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert f"musterbook {name}" in readme
    for action in _commands()[name]._actions:
        for option in action.option_strings:
            if option.startswith("--") and option != "--help":
                assert option in readme, f"README does not mention {option} of {name}"
