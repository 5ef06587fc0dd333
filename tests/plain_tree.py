"""A tree of text as plain Python, for tests to compare."""

from __future__ import annotations

from typing import Any

from generator.reading.nodes import Listing, Node, Scalar


def plain(node: Node) -> Any:
    """The tree as dict, list and text."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.entries.items()}
