"""The spine in DEVELOPERS.md: each stage of generator/, lowest first, with the first line of what it says of itself."""

from __future__ import annotations

import ast
from collections.abc import Sequence
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "generator"


def spine(levels: Sequence[Sequence[str]]) -> str:
    """A list of the stages in import order; those of one level stand in one row and import nothing of each other."""
    lines = []
    for level in levels:
        lines += [f"- {' '.join(['`' + _shown(name) + '`', _first_line(name)])}" for name in level]
    return "\n".join(lines)


def _path(name: str) -> Path:
    folder = PACKAGE / name
    return folder / "__init__.py" if folder.is_dir() else PACKAGE / f"{name}.py"


def _shown(name: str) -> str:
    return f"{name}/" if (PACKAGE / name).is_dir() else name


def _first_line(name: str) -> str:
    said = ast.get_docstring(ast.parse(_path(name).read_text(encoding="utf-8"))) or ""
    return said.partition("\n")[0]
