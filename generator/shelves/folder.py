"""Where the templates stand: beside the package in a checkout, inside it in an installed wheel."""

import functools
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


@functools.cache
def templates_folder() -> Path:
    """The folder that holds ``procedures/``, ``text/``, ``pages/`` and the other shelves of templates.

    A checkout's own ``templates/`` wins, so that an edit shows at once; it is known by the ``pyproject.toml`` beside it,
    for in an installed wheel the neighbour called ``templates`` could be anybody's.

    Raises FileNotFoundError when neither place has one: the installation is incomplete.
    """
    beside = _PACKAGE.parent / "templates"
    if beside.is_dir() and (_PACKAGE.parent / "pyproject.toml").is_file():
        return beside
    inside = _PACKAGE / "_templates"
    if inside.is_dir():
        return inside
    raise FileNotFoundError(f"no templates at {beside} nor at {inside}: install musterbook again")
