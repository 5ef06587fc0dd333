"""The boats whose meanings are changed: every specimen, the boat of README, two open boats, the shortest sound file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from open_boats import DAYBOAT, OPEN_BOAT
from readme_boat import TEASEL
from shortest import SOUND

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
OWN, VOYAGE = "vessel.yaml", "voyage.yaml"


@dataclass(frozen=True)
class Boat:
    """A boat's files by their paths from her folder, those beside it too; `changed` are those whose meanings are."""

    name: str
    files: dict[str, str | bytes]
    changed: tuple[str, ...] = (OWN,)

    def text(self, file: str = OWN) -> str:
        """One of her files."""
        return str(self.files[file])


@cache
def boats() -> tuple[Boat, ...]:
    """All of them, in the order of their names."""
    made = [_specimen(path.parent) for path in VESSELS.glob("*/vessel.yaml")]
    for name, text in {
        "gorse": OPEN_BOAT,
        "plover": DAYBOAT,
        "teasel": TEASEL,
        "shortest": SOUND.read_text(encoding="utf-8"),
    }.items():
        made.append(Boat(name, {OWN: text}))
    return tuple(sorted(made, key=lambda boat: boat.name))


def _specimen(folder: Path) -> Boat:
    files: dict[str, str | bytes] = {
        path.relative_to(folder).as_posix(): _read(path)
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    changed = [name for name in (OWN, VOYAGE) if name in files]
    if "based-on:" in str(files[OWN]):
        beside = [*sorted((VESSELS / "classes").glob("*.yaml")), VESSELS / "base.yaml", VESSELS / "mark.png"]
        named = {f"../{path.relative_to(VESSELS).as_posix()}": _read(path) for path in beside}
        files |= named
        changed += [name for name in named if f"based-on: {name}" in str(files[OWN])]
    return Boat(folder.name, files, tuple(changed))


def _read(path: Path) -> str | bytes:
    return path.read_text(encoding="utf-8") if path.suffix == ".yaml" else path.read_bytes()
