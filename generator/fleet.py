"""Many vessels: which folders hold one, and the work on each in turn; what stops one never stops the next."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from generator.machine.folders import Refused
from generator.options import Misuse
from generator.outputs import EngineMissing
from generator.publishing import PROOF_SUFFIX, Impossible, Order, Published, Surveyed, publish, survey
from generator.reading.findings import Finding, Place, Weight
from generator.reading.visible import visible
from generator.shelves.faults import ShelfFault
from generator.survey.withheld.redaction import Redactor
from generator.vessel.folders import Bare, Boat, LeftOut, look_into
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

T = TypeVar("T")
LEFT_OUT, NO_VESSEL = "fleet.left-out", "fleet.no-vessel"


@dataclass(frozen=True)
class Stopped:
    """A vessel, or what may be one, the work on which ended early: `why` for the user.

    `fault` is the exception where the program is to blame; `remedy` what to do where she was `left_out` before any work.
    `hush` takes out of a text, such as its trace, what guests may not read; `why` is told without that.
    """

    name: str
    why: str
    fault: Exception | None = None
    remedy: str = ""
    left_out: bool = False
    hush: Callable[[str], str] = field(default=str, compare=False, repr=False)

    def told(self, what: str) -> str:
        """What is said of it on the terminal; `what` is the work that was not done."""
        return f"{visible(self.name)}: {what}: {self.why}" + (f"; {self.remedy}" if self.remedy else "")

    @property
    def finding(self) -> Finding:
        """The same for a report."""
        return Finding(
            "program.fault" if self.fault else LEFT_OUT if self.left_out else "output.not-written",
            Weight.DEFECT,
            " ".join(self.why.split("\n")),
            Place(self.name if self.left_out else f"{self.name}/vessel.yaml"),
            "" if self.fault else self.remedy or "do what the message says",
        )


@dataclass(frozen=True)
class Fleet:
    """What was found: `entries` are the boats, each with its name as shown in findings, and those left out, in order; `bare` the
    folders in which nothing looks like a vessel.
    """

    entries: tuple[tuple[Path, str] | Stopped, ...]
    bare: tuple[str, ...] = ()

    @property
    def boats(self) -> list[tuple[Path, str]]:
        """The vessels' folders, each with its name as shown in findings."""
        return [each for each in self.entries if not isinstance(each, Stopped)]

    @property
    def without(self) -> list[tuple[str, list[Finding]]]:
        """The folders without a vessel for a report."""
        return [
            (name, [Finding(NO_VESSEL, Weight.NOTE, "no vessel lies in this folder", Place(name))])
            for name in self.bare
        ]

    def check_number(self, expected: int | None) -> None:
        """Raises Misuse where there are not just as many vessels as expected."""
        boats = [visible(shown) for _, shown in self.boats]
        if expected is not None and len(boats) != expected:
            raise Misuse(
                f"--expect {expected}: {len(boats)} vessels were found: {', '.join(boats) or 'none'}; "
                "see that every folder is there, or correct the number"
            )


def discover(paths: list[str]) -> Fleet:
    """The vessels under the paths, none twice, and what else lies there.

    A path is a vessel.yaml, a folder that holds one, or a folder of such folders. Raises folders.NoVessel.
    """
    found = [each for path in paths for each in look_into(path)]
    taken: dict[Path, Boat] = {}
    for boat in sorted(
        (each for each in found if isinstance(each, Boat)), key=lambda each: (each.link, not each.named)
    ):
        taken.setdefault(boat.folder.resolve(), boat)
    twins = _twins(taken)
    rows: list[tuple[Path, str] | Stopped] = []
    for each in found:
        if isinstance(each, LeftOut):
            rows.append(_left_out(each.path, each.why, each.remedy))
        elif isinstance(each, Boat):
            rows += _row(each, taken[each.folder.resolve()], twins)
    bare = (str(each.path) for each in found if isinstance(each, Bare))
    return Fleet(tuple(dict.fromkeys(rows)), tuple(dict.fromkeys(bare)))


def _left_out(path: Path, why: str, remedy: str) -> Stopped:
    return Stopped(str(path), why, remedy=remedy, left_out=True)


def _row(boat: Boat, first: Boat, twins: dict[Path, str]) -> list[tuple[Path, str] | Stopped]:
    """The row of a boat: herself, why she is left out, or none where she was named before."""
    folder, real = boat.folder, boat.folder.resolve()
    if boat != first:
        if not boat.link:
            return []
        why = f"it is a link to {visible(str(first.folder))}, which is looked at already"
        return [_left_out(folder, why, "remove the link")]
    if not real.name:
        return [_left_out(folder, "the root of a disk can be no vessel's folder", "make a folder for her")]
    if visible(real.name) != real.name:
        why = f"the folder's name, {visible(real.name)}, holds what cannot be printed"
        return [_left_out(folder, why, "rename the folder: letters, digits and hyphens")]
    if _as_published(real).endswith(PROOF_SUFFIX):
        why = f"names that end in {PROOF_SUFFIX} are kept for proof copies"
        return [_left_out(folder, why, "rename the folder")]
    if real in twins:
        return [_left_out(folder, twins[real], "rename one of the folders")]
    return [(folder, str(folder))]


def _as_published(real: Path) -> str:
    """The name of a boat's folder as disks compare them: whatever the capitals, and how accents are written."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", real.name).casefold())


def _twins(taken: dict[Path, Boat]) -> dict[Path, str]:
    """Two boats of one folder name would be published over each other: what is told of each of them."""
    named: dict[str, list[Path]] = {}
    for real in taken:
        named.setdefault(_as_published(real), []).append(real)
    return {
        real: f"{' and '.join(visible(str(taken[each].folder)) for each in alike)} would {'both' if len(alike) == 2 else 'all'} "
        f"be published as '{visible(name)}'"
        for name, alike in named.items()
        if len(alike) > 1
        for real in alike
    }


def survey_all(fleet: Fleet, order: Order) -> Iterator[Surveyed | Stopped]:
    """Each vessel surveyed, one after the other."""
    for each in fleet.entries:
        yield each if isinstance(each, Stopped) else guarded(survey, *each, order)


def publish_all(fleet: Fleet, order: Order, tell: Callable[[str], None]) -> Iterator[Published | Stopped]:
    """Each vessel published; `tell` hears the name of each before the work on it begins."""
    for each in fleet.entries:
        if isinstance(each, Stopped):
            yield each
            continue
        tell(each[1])
        yield guarded(publish, *each, order)


def guarded(work: Callable[[Path, str, Order], T], folder: Path, shown: str, order: Order) -> T | Stopped:
    """The work on one vessel; whatever stops it stops her alone."""
    fault: Exception | None = None
    try:
        return work(folder, shown, order)
    except ShelfFault:  # no boat's fault, and the next one would find it again
        raise
    except EngineMissing as error:  # whose lines are the program's own
        return Stopped(shown, str(error))
    except (Refused, Impossible) as error:
        why = str(error)
    except OSError as error:
        why = f"the disk refused: {error.strerror or error} ({error.filename or order.into}); nothing was replaced"
    except MemoryError:
        return Stopped(shown, "the machine has too little memory for the work; nothing was replaced")
    except Exception as error:  # noqa: BLE001 - a fault at one boat must not stop the next
        told = " ".join(str(error).split())
        why, fault = f"a fault of the program: {type(error).__name__}: {told}; nothing was replaced", error
    hush = hushed(folder)
    return Stopped(shown, visible(hush(why)), fault, hush=hush)


def hushed(*folders: Path) -> Callable[[str], str]:
    """Takes out of a text what guests may not read of these boats, as far as their files can be read after a fault."""
    boats: list[tuple[Path, Vessel | None]] = []
    for folder in folders:
        try:
            boats.append((folder, load(folder)[0]))
        except Exception:  # noqa: BLE001 - the fault may lie in reading; private.yaml is read all the same
            boats.append((folder, None))
    return Redactor(*boats).text


def hushed_for(paths: list[str]) -> Callable[[str], str]:
    """The same for all boats under the paths of a command line; of paths that lead to none nothing is known."""
    try:
        return hushed(*(folder for folder, _ in discover(paths).boats))
    except (Misuse, OSError, ValueError):
        return str
