"""A line of the first language deleted, misspelt or blank is noticed when it is read."""

import re
import shutil

import pytest

from generator.manual import wording
from generator.manual.wording import asked_for, gaps
from generator.shelves.folder import templates_folder
from generator.shelves.languages import Catalogue
from generator.shelves.shelf import as_installed

SHARES = 6  # so many tests share them, to keep all cores busy
pytestmark = pytest.mark.thorough


def _mutants(text, every):
    """A file with each so many-th of its keys deleted, misspelt or without its text."""
    lines = text.splitlines(keepends=True)
    keys = [at for at, line in enumerate(lines) if re.match(r"\s*[^#\s:][^:]*:( |$)", line)]
    for at in keys[::every]:
        line = lines[at]
        deep = len(line) - len(line.lstrip())
        end = next(
            (
                n
                for n in range(at + 1, len(lines))
                if lines[n].strip() and len(lines[n]) - len(lines[n].lstrip()) <= deep
            ),
            len(lines),
        )
        before, after = lines[:at], lines[end:]
        yield f"without {line.strip()}", "".join([*before, *after])
        yield (
            f"misspelt {line.strip()}",
            "".join([*before, re.sub("([^:]*):", r"\1z:", line, count=1), *lines[at + 1 :]]),
        )
        yield f"no text {line.strip()}", "".join([*before, re.sub(":.*", ": ''", line, count=1), *after])


@pytest.mark.parametrize("share", range(SHARES))
def test_a_spoilt_line_of_the_first_language_is_noticed(tmp_path, monkeypatch, share):
    shutil.copytree(templates_folder() / "text" / "en", tmp_path / "text" / "en")
    asked = list(asked_for())
    monkeypatch.setattr(wording, "asked_for", lambda: asked)

    def noticed():
        as_installed.cache_clear()
        read = Catalogue("en", tmp_path)
        gaps.cache_clear()
        return bool(read.findings or gaps(read))

    assert not noticed()
    texts = {
        path: path.read_text(encoding="utf-8") for path in sorted((tmp_path / "text" / "en").rglob("*.yaml"))
    }
    every = [(path, *mutant) for path, text in texts.items() for mutant in _mutants(text, 41)]
    assert len(every) > 150
    lost = []
    for path, what, spoilt in every[share::SHARES]:
        path.write_text(spoilt, encoding="utf-8")
        lost += [] if noticed() else [f"{path.name}: {what}"]
        path.write_text(texts[path], encoding="utf-8")
    assert lost == []
