"""The order of the house: which folder or module of the package may import which, and what each imports, read from the code."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from imports_by_name import UNREAD, imported_by_name

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "generator"

# Lowest first. A module imports only from lower levels, or from its own folder without going round in a circle.
LEVELS: tuple[tuple[str, ...], ...] = (
    ("calc", "machine"),
    ("reading",),
    ("options",),
    ("shelves",),
    ("vessel",),
    ("manual",),
    ("survey",),
    ("checks",),
    ("outputs",),
    ("publishing",),
    ("commissioning",),
    ("fleet",),
    ("due", "inspecting"),
    ("__main__",),
)
NEVER_TOGETHER = {("checks", "outputs"), ("outputs", "checks")}
# Who finds the files of a shelf by looking through its folder, and so names none of them.
DISCOVERERS = {("survey", "checks"), ("publishing", "outputs")}


@dataclass(frozen=True)
class Edge:
    """One import: from which module to which, where, whether for types alone, and whether by name, without a statement.

    `target` is UNREAD where the code does not tell which module is imported by name.
    """

    source: str
    target: str
    line: int
    types_only: bool = False
    by_name: bool = False


def modules(package: Path = PACKAGE) -> dict[str, Path]:
    """Every module of the package by its dotted name."""
    found = {}
    for path in sorted(package.rglob("*.py")):
        parts = path.relative_to(package.parent).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def room(module: str) -> str:
    """The folder or module at the top of the package that a module belongs to; "" for the package itself."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


def level(name: str) -> int | None:
    """How high a room stands; None where LEVELS does not know it."""
    return next((height for height, names in enumerate(LEVELS) if name in names), None)


def edges(known: dict[str, Path]) -> list[Edge]:
    """Every import of one of the modules by another, wherever in the code it stands."""
    return [edge for module, path in known.items() for edge in _edges_of(module, path, known)]


def _edges_of(module: str, path: Path, known: dict[str, Path]) -> Iterator[Edge]:
    parsed = ast.parse(path.read_text(encoding="utf-8"), str(path))
    typing = {
        id(inner)
        for node in ast.walk(parsed)
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        for child in node.body
        for inner in ast.walk(child)
    }
    package = module if path.name == "__init__.py" else module.rpartition(".")[0]
    for node in ast.walk(parsed):
        for name in _named(node, package):
            target = _nearest(name, known)
            if target and target != module:
                yield Edge(module, target, getattr(node, "lineno", 0), id(node) in typing)
    for name, line in imported_by_name(parsed, package):
        target = UNREAD if name == UNREAD else _nearest(name, known)
        if target and target != module:
            yield Edge(module, target, line, by_name=True)


def _named(node: ast.AST, package: str) -> Iterator[str]:
    """The dotted names that a statement imports."""
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        base = node.module or ""
        if node.level:
            above = package.split(".")
            base = ".".join((*above[: len(above) - node.level + 1], *filter(None, [base])))
        yield from (f"{base}.{alias.name}" for alias in node.names)


def _nearest(name: str, known: dict[str, Path]) -> str:
    """The module that a dotted name lies in; "" for those of others."""
    while name and name not in known:
        name = name.rpartition(".")[0]
    return name


def circles(found: list[Edge]) -> list[list[str]]:
    """The groups of modules that import each other when they are loaded; what is imported for types alone is left out."""
    ahead: dict[str, set[str]] = {}
    for edge in found:
        if not edge.types_only and not edge.by_name:
            ahead.setdefault(edge.source, set()).add(edge.target)
    return [sorted(group) for group in _strong(ahead) if len(group) > 1]


def _strong(ahead: dict[str, set[str]]) -> list[set[str]]:
    """The strongly connected parts of a graph: whoever reaches one another."""

    def reached(start: str) -> set[str]:
        seen: set[str] = set()
        waiting = [start]
        while waiting:
            for each in ahead.get(waiting.pop(), ()):
                if each not in seen:
                    seen.add(each)
                    waiting.append(each)
        return seen

    reach = {name: reached(name) for name in ahead}
    groups: list[set[str]] = []
    for name in ahead:
        if not any(name in group for group in groups):
            groups.append({name} | {each for each in reach[name] if name in reach.get(each, ())})
    return groups
