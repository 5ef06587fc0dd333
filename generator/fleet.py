"""Many vessels: which folders hold one, and the work on each in turn; what stops one never stops the next."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from generator.machine.folders import Refused
from generator.options import Misuse
from generator.outputs import EngineMissing
from generator.publishing import PROOF_SUFFIX, Impossible, Order, Published, Surveyed, publish, survey
from generator.reading.findings import Finding, Place, Weight
from generator.shelves.faults import ShelfFault

T = TypeVar("T")


class NoVessel(Misuse):
    """A path leads to no vessel file; the message says what was looked for."""


@dataclass(frozen=True)
class Stopped:
    """A vessel the work on which ended early: `why` for the user; `fault` is the exception where the program is to blame."""

    name: str
    why: str
    fault: Exception | None = None

    @property
    def finding(self) -> Finding:
        """The same for a report."""
        return Finding(
            "program.fault" if self.fault else "output.not-written",
            Weight.DEFECT,
            self.why,
            Place(f"{self.name}/vessel.yaml"),
            "" if self.fault else "do what the message says",
        )


def discover(paths: list[str]) -> list[tuple[Path, str]]:
    """The vessels' folders under the paths, each with its name as shown in findings, none twice.

    A path is a vessel.yaml, a folder that holds one, or a folder of such folders. Raises NoVessel.
    """
    found: dict[Path, tuple[Path, str]] = {}
    for path in paths:
        here = Path(path)
        if here.name == "vessel.yaml" and here.is_file():
            here = here.parent
        if (here / "vessel.yaml").is_file():
            below = [here]
        else:
            below = [
                each.parent
                for each in sorted(here.glob("*/vessel.yaml"))
                if not each.parent.name.startswith(".")
            ]
        if not below:
            raise NoVessel(_looked_for(path, here))
        for each in below:
            found.setdefault(each.resolve(), (each, str(each)))
    _refuse_twins(found)
    return list(found.values())


def _looked_for(path: str, here: Path) -> str:
    if not here.exists():
        return f"there is no folder or file '{path}' here; name the vessel's folder, or start one with: musterbook commission NAME"
    if here.is_file():
        return f"{path} is no vessel.yaml; name the vessel's folder or her vessel.yaml"
    return f"no vessel.yaml in {path} nor in a folder of it; start one with: musterbook commission NAME"


def _refuse_twins(found: dict[Path, tuple[Path, str]]) -> None:
    """Two boats of one folder name would be published over each other."""
    seen: dict[str, str] = {}
    for real, (_, shown) in found.items():
        name = real.name.lower()
        if name in seen:
            raise NoVessel(
                f"{seen[name]} and {shown} would both be published as '{name}'; rename one of the folders"
            )
        if name.endswith(PROOF_SUFFIX):
            raise NoVessel(
                f"{shown}: names that end in {PROOF_SUFFIX} are kept for proof copies; rename the folder"
            )
        seen[name] = shown


def survey_all(paths: list[str], order: Order) -> Iterator[Surveyed | Stopped]:
    """Each vessel surveyed, one after the other."""
    for folder, shown in discover(paths):
        yield _guarded(survey, folder, shown, order)


def publish_all(paths: list[str], order: Order, tell: Callable[[str], None]) -> Iterator[Published | Stopped]:
    """Each vessel published; `tell` hears the name of each before the work on it begins."""
    for folder, shown in discover(paths):
        tell(shown)
        yield _guarded(publish, folder, shown, order)


def _guarded(work: Callable[[Path, str, Order], T], folder: Path, shown: str, order: Order) -> T | Stopped:
    try:
        return work(folder, shown, order)
    except ShelfFault:  # no boat's fault, and the next one would find it again
        raise
    except (EngineMissing, Refused, Impossible) as error:
        return Stopped(shown, str(error))
    except OSError as error:
        return Stopped(
            shown,
            f"the disk refused: {error.strerror or error} ({error.filename or order.into}); nothing was replaced",
        )
    except Exception as error:  # noqa: BLE001 - a fault at one boat must not stop the next
        return Stopped(
            shown, f"a fault of the program: {type(error).__name__}: {error}; nothing was replaced", error
        )
