"""Many vessels: which folders hold one, and the work on each in turn."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from generator.outputs import EngineMissing
from generator.publishing import Order, Published, Surveyed, publish, survey
from generator.swapping import Refused


class NoVessel(Exception):
    """A path leads to no vessel file; the message says what was looked for."""


def discover(paths: list[str]) -> list[tuple[Path, str]]:
    """The vessels' folders under the paths, each with its name as shown in findings.

    A path is a vessel.yaml, a folder that holds one, or a folder of such folders. Raises NoVessel.
    """
    found: dict[Path, str] = {}
    for path in paths:
        here = Path(path)
        if here.name == "vessel.yaml" and here.is_file():
            here = here.parent
        if (here / "vessel.yaml").is_file():
            found.setdefault(here, str(here))
            continue
        below = sorted(here.glob("*/vessel.yaml")) if here.is_dir() else []
        if not below:
            raise NoVessel(f"no vessel.yaml in {path} nor in a folder of it; start one with: musterbook commission NAME")
        for each in below:
            found.setdefault(each.parent, str(each.parent))
    _refuse_twins(found)
    return list(found.items())


def _refuse_twins(found):
    """Two boats of one folder name would be published over each other."""
    seen: dict[str, str] = {}
    for folder, shown in found.items():
        name = folder.resolve().name.lower()
        if name in seen:
            raise NoVessel(f"{seen[name]} and {shown} would both be published as '{name}'; rename one of the folders")
        seen[name] = shown


def survey_all(paths: list[str], order: Order) -> Iterator[Surveyed]:
    """Each vessel surveyed, one after the other."""
    for folder, shown in discover(paths):
        yield survey(folder, shown, order)


def publish_all(paths: list[str], order: Order, tell: Callable[[str], None]) -> Iterator[Published | tuple[str, str]]:
    """Each vessel published; what stops one never stops the next. A vessel that cannot be written yields (name, why)."""
    for folder, shown in discover(paths):
        tell(shown)
        try:
            yield publish(folder, shown, order)
        except (EngineMissing, Refused) as error:
            yield shown, str(error)
        except OSError as error:
            yield shown, f"the disk refused: {error.strerror or error} ({error.filename or order.into}); nothing was replaced"
