"""The line by which editors complete and check keys while one types, and the schema file that it names."""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path

from generator.shelves.folder import templates_folder
from generator.vessel.schema import vessel_schema

FILE = "vessel.schema.json"


@dataclass(frozen=True)
class SchemaFile:
    """Where the schema stands: `path`, and as it is named in a vessel's file; `ours` where the program keeps it there."""

    path: Path
    seen_from_a_vessel: str
    ours: bool = False

    def write(self) -> None:
        """Writes it beside the vessels' folders, or anew where an older one of the program stands; what is not ours stays."""
        text = json.dumps(vessel_schema(), indent=2, ensure_ascii=False) + "\n"
        try:
            if self.ours or (os.path.lexists(self.path) and not _by_us(self.path)):
                return
            beside = self.path.with_name(f".{FILE}.new")
            with beside.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
            beside.replace(self.path)
        except OSError:  # editors do without; the vessel's file is what was asked for
            return


def schema_of(into: Path) -> SchemaFile:
    """The schema for the vessels of a folder: in a checkout that holds the folder the one kept in templates/, else one beside them."""
    kept, folder = templates_folder() / FILE, Path(os.path.realpath(into))
    if kept.is_file() and templates_folder().resolve().parent in (folder, *folder.parents):
        relative = os.path.relpath(kept.resolve(), folder / "vessel").replace(os.sep, "/")
        if " " not in relative:
            return SchemaFile(kept, relative, ours=True)
    return SchemaFile(into / FILE, f"../{FILE}")


def _by_us(path: Path) -> bool:
    """Whether a plain file is a schema that the program wrote."""
    if path.is_symlink() or not path.is_file():
        return False
    try:
        said = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    title = said.get("title") if isinstance(said, dict) else None
    return isinstance(title, str) and title.startswith(vessel_schema()["title"].rpartition(" ")[0])
