"""Beside each shelf lies its JSON Schema, for editors: it takes what stands on the shelf and refuses what is misspelt there."""

import functools
import json

import jsonschema
import pytest
import yaml
from shelves.mutants import ALL, MISSPELT, NOT_ON_THE_LIST, folder_of, mutants

from generator.reading.nodes import Listing, Scalar

EVERY = 12
FILES = [(shelf, path) for shelf in ALL for path in sorted(folder_of(shelf).glob(shelf.pattern))]


class Plain(yaml.SafeLoader):
    """YAML 1.2 as editors read it: yes, no and off are words, dates are text."""


Plain.yaml_implicit_resolvers = {
    letter: [each for each in resolvers if each[0].rpartition(":")[2] not in ("timestamp", "bool")]
    for letter, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@functools.cache
def validator(shelf):
    """What holds data against the schema that lies beside the shelf."""
    return jsonschema.Draft202012Validator(json.loads(published(shelf).read_text(encoding="utf-8")))


def published(shelf):
    """The schema beside a shelf."""
    return folder_of(shelf) / shelf.schema_path


@pytest.mark.parametrize("shelf", ALL, ids=[shelf.name for shelf in ALL])
def test_the_schema_beside_the_shelf_is_current(shelf, renew):
    wanted = json.dumps(shelf.schema(), indent=2, ensure_ascii=False) + "\n"
    if renew:
        published(shelf).write_text(wanted, encoding="utf-8", newline="\n")
    assert published(shelf).read_text(encoding="utf-8") == wanted, (
        "renew it with: pytest tests/shelves/test_schemas.py --renew"
    )
    jsonschema.Draft202012Validator.check_schema(shelf.schema())


def test_every_schema_is_of_one_shelf():
    paths = [published(shelf) for shelf in ALL]
    assert len(set(paths)) == len(paths)
    lying = {path for shelf in ALL for path in folder_of(shelf).rglob("*.schema.json")}
    of_boats = {path for path in lying if path.name in ("vessel.schema.json", "base.schema.json")}
    assert lying - of_boats == set(paths)


@pytest.mark.parametrize(
    ("shelf", "path"), FILES, ids=[f"{shelf.name}: {path.name}" for shelf, path in FILES]
)
def test_a_file_of_the_shelf_is_valid_by_its_schema(shelf, path):
    data = yaml.load(path.read_text(encoding="utf-8"), Plain)
    assert [error.message for error in validator(shelf).iter_errors(data)] == []


@pytest.mark.parametrize("shelf", ALL, ids=[shelf.name for shelf in ALL])
def test_a_misspelt_key_and_a_word_not_on_its_list_are_refused(shelf):
    """As to every so many-th of them, and one in each file at least."""
    found = [each for each in mutants(shelf) if each.how in (MISSPELT, NOT_ON_THE_LIST)]
    first = {each.file: each for each in reversed(found)}
    chosen = {each for each in found if each.number % EVERY == 0} | set(first.values())
    assert [each.name for each in sorted(chosen, key=lambda each: each.name) if taken(each)] == []


def taken(mutant):
    """Whether the schema takes a spoilt file."""
    with mutant.made() as tree:
        return validator(mutant.shelf).is_valid(as_editors_read(tree))


def as_editors_read(node):
    """A tree as an editor's loader types it."""
    if isinstance(node, Scalar):
        return typed(node.text) if node.plain else node.text
    if isinstance(node, Listing):
        return [as_editors_read(item) for item in node.items]
    return {key: as_editors_read(value) for key, value in node.entries.items()}


@functools.cache
def typed(text):
    """A word as it is typed where no quotes stand round it."""
    loader = Plain("")
    return loader.construct_object(
        yaml.ScalarNode(loader.resolve(yaml.ScalarNode, text, (True, False)), text)
    )
