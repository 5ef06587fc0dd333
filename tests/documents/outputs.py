"""The table of outputs in README.md: the name of each, the file to open first, and what the output says of itself."""

from __future__ import annotations

import inspect

from documents.markdown import folded, table
from generator.options import output_names
from generator.publishing import output


def outputs() -> str:
    """A row an output, in the order in which they are offered."""
    rows = []
    for name in output_names():
        one = output(name)
        is_ = (inspect.getdoc(one) or "").partition("\n")[0].rstrip(".")
        rows.append((f"`{name}`", f"`site/<boat>/{one.READER}/{one.FILE}`", folded(is_)))
    return table(("`--only`", "file", "is"), rows)
