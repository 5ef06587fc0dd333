"""The documents hold what the code says: the generated ones whole, in the written ones every command, option and section."""

import re
from pathlib import Path

import pytest
from documents import DOCUMENTS
from documents.markdown import COMMAND
from documents.outputs import outputs
from documents.spine import spine
from layers import LEVELS

from generator.__main__ import parser

ROOT = Path(__file__).parent.parent
WRITTEN = {"README.md": 12 * 1024, "DEVELOPERS.md": 10 * 1024}
"""The documents written by hand, and how many bytes each may have: more is not read."""


def same(path, wanted, renew):
    """The file is as wanted, or is made so."""
    found = path.read_text(encoding="utf-8") if path.is_file() else ""
    if renew and found != wanted:
        path.write_text(wanted, encoding="utf-8", newline="\n")
    assert renew or found == wanted, f"{path.relative_to(ROOT)} is out of date; renew it with: {COMMAND}"


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_generated_document_is_current(name, renew):
    wanted = DOCUMENTS[name]()
    assert COMMAND in wanted.partition("\n")[0]
    same(ROOT / name, wanted, renew)


def test_every_readme_beside_the_shelves_is_generated():
    """One written by hand would drift: only the first page, the developers' page and the build's own note are."""
    found = {
        path.relative_to(ROOT).as_posix()
        for folder in ("generator", "templates", "tests", "vessels")
        for path in (ROOT / folder).rglob("README.md")
        if not any(part.startswith(".") for part in path.relative_to(ROOT).parts)
    }
    assert found == set(DOCUMENTS)


@pytest.mark.parametrize(
    ("name", "part", "build"),
    [("DEVELOPERS.md", "spine", lambda: spine(LEVELS)), ("README.md", "outputs", outputs)],
)
def test_a_generated_part_of_a_written_document_is_current(name, part, build, renew):
    path = ROOT / name
    text = path.read_text(encoding="utf-8")
    pattern = re.compile(rf"(<!-- {part}: .*? -->\n).*?(<!-- /{part} -->)", re.DOTALL)
    assert len(pattern.findall(text)) == 1
    same(path, pattern.sub(lambda match: f"{match[1]}{build()}\n{match[2]}", text), renew)


@pytest.mark.parametrize("name", WRITTEN)
def test_what_is_written_by_hand_stays_short_and_leads_somewhere(name):
    text = (ROOT / name).read_text(encoding="utf-8")
    assert len(text.encode()) <= WRITTEN[name]
    links = re.findall(r"\]\(([^)#:]+)\)", text)
    assert links
    assert [link for link in links if not (ROOT / link).exists()] == []


@pytest.mark.parametrize("name", DOCUMENTS)
def test_links_of_generated_documents_lead_somewhere(name):
    links = re.findall(r"\]\(([^)#:]+)\)", DOCUMENTS[name]())
    assert [link for link in links if not ((ROOT / name).parent / link).exists()] == []


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
