"""Bad cases: a sound boat, patched in one place, and where each finding must stand.

A case is `bad/<check-id>.yaml`, or `bad/<check-id>--<variant>.yaml` for a further one:

    boat: saltmeadow
    as-of: 2026-06-01             # optional: else the specimen's own
    until: 2027-06-01             # optional
    changes:                      # each old text stands once in the file, or in the one line that holds the text of `line`
      - {old: "persons: 6", new: "persons: 7", here: yes}
      - {cut: ["rafts:", "people:"]}      # from the line of one text up to that of the other
      - {line: "fast-to:", old: "7.5 kN", new: "1 kN", here: other.check}
    files: {voyage.yaml: ...}     # optional: whole files laid beside it, or in place of it; ../base.yaml too; pictures as !!binary
    comes-with: [other.check]     # optional: what the same fault brings elsewhere, wherever that stands
    column-of: "7"                # optional: the finding of the check starts at this text in its line
    message: part of the message  # optional

`here` marks the line: a finding of the file's own check must stand there (yes), or that of another check that comes with it.
In longer new texts and in `files` the same is written as a comment: `# here` or `# here: other.check`.
"""

import re
import shutil
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import yaml
from beside import BASE, lay_beside

from generator.publishing import Order, survey
from generator.reading.findings import Finding

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
    comes_with: set
    column_of: str
    message: str


def cases() -> list[Path]:
    return sorted(BAD.glob("*.yaml"))


def read_case(path: Path) -> Case:
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    return Case(
        path.stem,
        path.stem.partition("--")[0],
        data.pop("boat"),
        data.pop("changes", []),
        data.pop("files", {}),
        _day(data.pop("as-of", "")),
        _day(data.pop("until", "")),
        set(data.pop("comes-with", ())),
        str(data.pop("column-of", "")),
        data.pop("message", ""),
    )


def _day(text) -> date | None:
    return date.fromisoformat(str(text)) if text else None


def survey_boat(folder: Path, as_of=None, until=None):
    return survey(folder, "", Order(TODAY, as_of, until))


def lay_out(case: Case, into: Path) -> Path:
    """The patched boat in a folder of its own; the class files beside it."""
    lay_beside(into)
    folder = into / case.boat
    shutil.copytree(VESSELS / case.boat, folder)
    path = folder / "vessel.yaml"
    text = path.read_text(encoding="utf-8")
    for change in case.changes:
        text = (
            without(text, case.name, *change["cut"])
            if "cut" in change
            else changed(text, case.name, **change)
        )
    path.write_text(text, encoding="utf-8")
    for name, content in case.files.items():
        (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


def without(text: str, name: str, first: str, after: str) -> str:
    """The text without what lies between two lines, the first of them too."""
    starts = [text.find(f"\n{each}") + 1 for each in (first, after)]
    assert 0 < starts[0] < starts[1], (
        f"{name}: no line begins with {first!r}, or none behind it with {after!r}"
    )
    return text[: starts[0]] + text[starts[1] :]


def changed(text: str, name: str, old: str, new: str, *, line: str = "", here: bool | str = False) -> str:
    """The text with one change made and its line marked."""
    start, end = 0, len(text)
    if line:
        assert text.count(line) == 1, f"{name}: {line!r} stands {text.count(line)} times"
        start = text.rfind("\n", 0, text.index(line)) + 1
        end = text.index("\n", start)
    part = text[start:end]
    assert part.count(old) == 1, f"{name}: {old!r} stands {part.count(old)} times"
    at = start + part.index(old)
    text = text[:at] + new + text[at + len(old) :]
    if here:
        stop = text.index("\n", at + len(new))
        text = f"{text[:stop]}   # here{'' if here is True else ': ' + here}{text[stop:]}"
    return text


def marked(case: Case, folder: Path) -> list[tuple[str, str, int]]:
    """(check, file, line) of every mark, in her own files and in the base file beside her folder."""
    found = []
    for path in (*sorted(folder.glob("*.yaml")), folder.parent / BASE):
        name_of = path.name if path.parent == folder else f"../{path.name}"
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            match = _MARK.search(line)
            if match:
                names = match[1].split() if match[1] else [case.check]
                found += [(name, name_of, number) for name in names]
    return sorted(found)


def new_findings(case: Case, found: list[Finding], sound: list[Finding]) -> list[Finding]:
    """What the patch brought: findings the sound boat has not."""
    known = {(each.check, each.message) for each in sound}
    return [each for each in found if (each.check, each.message) not in known]
