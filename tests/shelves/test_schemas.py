"""The JSON Schema of each shelf takes what stands on it and refuses a misspelt key."""

import jsonschema
import pytest
import yaml

from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES

FILES = [(shelf, path) for shelf in SHELVES for path in sorted(templates_folder().glob(shelf.pattern))]


class Plain(yaml.SafeLoader):
    """YAML 1.2 as editors read it: yes, no and off are words, dates are text."""


Plain.yaml_implicit_resolvers = {
    letter: [each for each in resolvers if each[0].rpartition(":")[2] not in ("timestamp", "bool")]
    for letter, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@pytest.mark.parametrize(
    ("shelf", "path"), FILES, ids=[f"{shelf.name}: {path.name}" for shelf, path in FILES]
)
def test_a_file_of_the_shelf_is_valid_by_its_schema(shelf, path):
    schema = shelf.schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    data = yaml.load(path.read_text(encoding="utf-8"), Plain)
    jsonschema.validate(data, schema)
    first = next(iter(data))
    data[f"{first}x"] = data.pop(first)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data, schema)
