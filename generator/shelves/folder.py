"""Where the templates stand: beside the package in a checkout, inside it in an installed wheel."""

import functools
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def templates_folder() -> Path:
    """The folder that holds ``procedures/``, ``text/``, ``pages/`` and the other shelves of templates.

    A checkout's own ``templates/`` wins, so that an edit shows at once; it is known by the ``pyproject.toml`` beside it,
    for in an installed wheel the neighbour called ``templates`` could be anybody's.

    Raises FileNotFoundError when neither place has one: the installation is incomplete.
    """
    return _templates_of(_PACKAGE)


@functools.cache
def _templates_of(package: Path) -> Path:
    beside = package.parent / "templates"
    if beside.is_dir() and (package.parent / "pyproject.toml").is_file():
        return beside
    inside = package / "_templates"
    if inside.is_dir():
        return inside
    raise FileNotFoundError(f"no templates at {beside} nor at {inside}: install musterbook again")
