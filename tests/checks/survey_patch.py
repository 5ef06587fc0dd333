"""Bad cases: a sound boat, patched in one place, and where each finding must stand.

A case is `bad/<check-id>.yaml`, or `bad/<check-id>--<variant>.yaml` for a further one:

    boat: saltmeadow
    as-of: 2026-06-01             # optional: else the specimen's own
    until: 2027-06-01             # optional
    changes:                      # each old text stands once in vessel.yaml; several lines are fine
      - {old: "persons: 6", new: "persons: 7   # here"}
    files: {voyage.yaml: ...}     # optional: whole files laid beside it, or in place of it
    column-of: "7"                # optional: the finding of the check starts at this text in its line
    message: part of the message  # optional

`# here` marks the line where the finding of the file's own check must stand, `# here: other.check` one that comes with it.
"""

import re
import shutil
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import yaml

from generator.findings import Finding
from generator.publishing import Order, survey

ROOT = Path(__file__).resolve().parent.parent.parent
VESSELS = ROOT / "vessels"
BAD = Path(__file__).parent / "bad"
TODAY = date(2026, 6, 1)
_MARK = re.compile(r"#\s*here(?::\s*([\w. -]+))?\s*$")


@dataclass
class Case:
    """A case read from its file."""

    name: str
    check: str
    boat: str
    changes: list
    files: dict
    as_of: date | None
    until: date | None
    column_of: str
    message: str


def cases() -> list[Path]:
    return sorted(BAD.glob("*.yaml"))


def read_case(path: Path) -> Case:
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    return Case(path.stem, path.stem.partition("--")[0], data.pop("boat"), data.pop("changes", []), data.pop("files", {}),
                data.pop("as-of", None), data.pop("until", None), str(data.pop("column-of", "")), data.pop("message", ""))


def survey_boat(folder: Path, as_of=None, until=None):
    return survey(folder, "", Order(TODAY, as_of, until))


def lay_out(case: Case, into: Path) -> Path:
    """The patched boat in a folder of its own; the class files beside it."""
    shutil.copytree(VESSELS / "classes", into / "classes")
    folder = into / case.boat
    shutil.copytree(VESSELS / case.boat, folder)
    path = folder / "vessel.yaml"
    text = path.read_text(encoding="utf-8")
    for change in case.changes:
        assert text.count(change["old"]) == 1, f"{case.name}: {change['old']!r} stands {text.count(change['old'])} times"
        text = text.replace(change["old"], change["new"])
    path.write_text(text, encoding="utf-8")
    for name, content in case.files.items():
        (folder / name).write_text(content, encoding="utf-8")
    return folder


def marked(case: Case, folder: Path) -> list[tuple[str, str, int]]:
    """(check, file, line) of every mark."""
    found = []
    for path in sorted(folder.glob("*.yaml")):
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            match = _MARK.search(line)
            if match:
                names = match[1].split() if match[1] else [case.check]
                found += [(name, path.name, number) for name in names]
    return sorted(found)


def new_findings(case: Case, found: list[Finding], sound: list[Finding]) -> list[Finding]:
    """What the patch brought: findings the sound boat has not."""
    known = {(each.check, each.message) for each in sound}
    return [each for each in found if (each.check, each.message) not in known]
