"""What a module imports without an import statement: importlib, pkgutil, runpy, sys.modules and the like, by whatever name they go there."""

from __future__ import annotations

import ast
from collections.abc import Iterator

UNREAD = "?"
"""Stands for a module that cannot be told from the code."""
LOADING = ("importlib", "pkgutil", "runpy", "imp", "zipimport", "sys.modules")
BUILT_IN = ("__import__", "exec", "eval")
HARMLESS = (
    "importlib.metadata",
    "importlib.resources",
)  # they read what is installed and import nothing of it
BY_PATH = ("run_path", "spec_from_file_location", "SourceFileLoader", "walk_packages", "iter_modules")
NAMED_BY = ("name", "mod_name", "fullname")


def imported_by_name(parsed: ast.Module, package: str) -> Iterator[tuple[str, int]]:
    """The dotted names that a module of `package` imports by name, each with its line; UNREAD for what cannot be told."""
    bound, words = _bound(parsed), _words(parsed)
    above = {id(child): node for node in ast.walk(parsed) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(parsed):
        parent = above.get(id(node))
        if isinstance(node, ast.ImportFrom) and _loads(node.module or "") and node.names[0].name == "*":
            yield UNREAD, node.lineno
        if isinstance(parent, ast.Attribute) or not isinstance(node, (ast.Name, ast.Attribute)):
            continue
        if not _loads(name := _dotted(node, bound)):
            continue
        if isinstance(parent, ast.Call) and parent.func is node:
            yield _asked_of(parent, name, words, package), node.lineno
        elif isinstance(parent, ast.Subscript) and parent.value is node:
            yield _word(parent.slice, words) or UNREAD, node.lineno
        else:  # handed on or given another name: who calls it with what cannot be told
            yield UNREAD, node.lineno


def _bound(parsed: ast.Module) -> dict[str, str]:
    """What the names that import statements bind anywhere in the module stand for."""
    bound = {name: name for name in BUILT_IN}
    for node in ast.walk(parsed):
        if isinstance(node, ast.Import):
            for each in node.names:
                top = each.name.partition(".")[0]
                bound[each.asname or top] = each.name if each.asname else top
        elif isinstance(node, ast.ImportFrom) and not node.level:
            bound |= {each.asname or each.name: f"{node.module}.{each.name}" for each in node.names}
    return bound


def _words(parsed: ast.Module) -> dict[str, str]:
    """The names at the top of the module that are given one string and no other."""
    given: dict[str, list[str]] = {}
    for node in parsed.body:
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant):
            for target in node.targets:
                given.setdefault(ast.unparse(target), []).append(str(node.value.value))
    return {name: words[0] for name, words in given.items() if len(words) == 1}


def _dotted(node: ast.expr, bound: dict[str, str]) -> str:
    """The full name of a name or attribute; "" for what no import bound."""
    if isinstance(node, ast.Name):
        return bound.get(node.id, "")
    if isinstance(node, ast.Attribute) and (before := _dotted(node.value, bound)):
        return f"{before}.{node.attr}"
    return ""


def _loads(name: str) -> bool:
    name = name.removeprefix("builtins.")
    within = any(name == each or name.startswith(f"{each}.") for each in LOADING)
    return name in BUILT_IN or (within and not name.startswith(HARMLESS))


def _asked_of(call: ast.Call, name: str, words: dict[str, str], package: str) -> str:
    last = name.rpartition(".")[2]
    if last in (*BY_PATH, "exec", "eval"):
        return UNREAD
    first = call.args[0] if call.args else next((k.value for k in call.keywords if k.arg in NAMED_BY), None)
    word = _word(first, words)
    if not word.startswith("."):
        return word.rstrip(".") or UNREAD
    base = (
        call.args[1]
        if len(call.args) > 1
        else next((k.value for k in call.keywords if k.arg == "package"), None)
    )
    whose = package if isinstance(base, ast.Name) and base.id == "__package__" else _word(base, words)
    levels = len(word) - len(word.lstrip("."))
    parents = whose.split(".")[: len(whose.split(".")) - levels + 1]
    return ".".join((*parents, word.strip("."))) if whose else UNREAD


def _word(node: ast.expr | None, words: dict[str, str]) -> str:
    """The string that an expression is or begins with; "" where that cannot be told."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else ""
    if isinstance(node, ast.Name):
        return words.get(node.id, "")
    if isinstance(node, ast.JoinedStr) and node.values:
        return _word(node.values[0], words)
    if isinstance(node, ast.FormattedValue):
        return _word(node.value, words)
    return _word(node.left, words) if isinstance(node, ast.BinOp) else ""
