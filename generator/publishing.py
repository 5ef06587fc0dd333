"""The order of work for one vessel: read, survey, compose, write, inspect what was written, swap in."""

from __future__ import annotations

import functools
import hashlib
import importlib
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from generator import __version__
from generator.machine.swapping import Entry, Manifest, digest, manifest_of, recover, swap_in
from generator.manual.composing import Manual, compose
from generator.options import output_names
from generator.outputs import Job, Made
from generator.reading.findings import Finding, Place, Weight, defects, in_order
from generator.reading.values import known
from generator.reading.visible import visible
from generator.shelves.folder import templates_folder
from generator.shelves.languages import catalogue
from generator.shelves.words import FIRST_LANGUAGE
from generator.survey import registry
from generator.survey.deferral import defer
from generator.survey.reports import count, listing
from generator.survey.sight import Sight
from generator.vessel.loading import load
from generator.vessel.photographed import photographed
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from datetime import date

PROOF_SUFFIX = ".proof-copy"


class Output(Protocol):
    """One file of the shelf of outputs. The first line of what it says of itself is what README says of it."""

    READER: str
    """Who it is for, unless another reader is asked for."""
    FILE: str
    """The file to open first, in the reader's folder."""

    def write(self, job: Job) -> Made:
        """Its files, in memory."""


def output(name: str) -> Output:
    """The output of that name, loaded when it is first asked for."""
    module: Any = importlib.import_module(f"generator.outputs.{name.replace('-', '_')}")
    found: Output = module
    return found


class Impossible(Exception):
    """What is asked for cannot be done for this vessel; the message says why."""


@dataclass(frozen=True)
class Order:
    """What is asked for. `today` stands for the clock; `as_of` wins over it and over a specimen's own date."""

    today: date
    as_of: date | None = None
    until: date | None = None
    into: Path = Path("site")
    language: str = FIRST_LANGUAGE
    paper: str = "A4"
    only: tuple[str, ...] = ()
    reader: str | None = None
    proof: bool = False


@dataclass
class Surveyed:
    """What is known of a vessel after the survey; `manual` is None where her file is no tree."""

    name: str
    findings: list[Finding]
    vessel: Vessel | None = None
    manual: Manual | None = None
    deferred: list[Finding] = field(default_factory=list)

    @property
    def sound(self) -> bool:
        """Whether nothing stops publishing."""
        return self.manual is not None and not defects(self.findings)

    @property
    def counted(self) -> str:
        """How many findings there are, and how many of them deferred."""
        return count(self.findings) + (f" ({len(self.deferred)} deferred)" if self.deferred else "")


@dataclass
class Published:
    """What became of one vessel: the folder swapped in, or None where findings stop it.

    `last_good` is the manifest of the manual that stands in `stands` meanwhile, None where there is none; `dropped` are the
    files of outputs not asked for that came from another description.
    """

    surveyed: Surveyed
    stands: Path
    folder: Path | None = None
    last_good: Manifest | None = None
    dropped: tuple[str, ...] = ()


def survey(folder: Path, shown: str, order: Order) -> Surveyed:
    """Reads a vessel and runs the description and composition stages; findings in order, deferred ones apart."""
    vessel, findings = load(folder, shown)
    if vessel is None:
        return Surveyed(shown, in_order(findings))
    as_of, until = days_of(vessel, order)
    if not vessel.vessel or not vessel.vessel.known("name"):
        return Surveyed(shown, in_order(findings), vessel)
    sight = Sight(vessel, as_of, until)
    findings += registry.run(registry.DESCRIPTION, sight)
    manual, more = compose(vessel, as_of, until, catalogue(order.language), order.proof, sight.reckoning)
    findings += _not_told_yet(more, findings)
    findings += registry.run(registry.COMPOSITION, sight.composed(manual))
    remaining, deferred, more = defer(vessel, in_order(findings), as_of)
    manual = replace(manual, deferred=deferred)
    covered = in_order(finding for each in deferred.values() for finding in each)
    return Surveyed(shown, in_order([*remaining, *more]), vessel, manual, covered)


def _not_told_yet(gaps: list[Finding], findings: list[Finding]) -> list[Finding]:
    """The gaps in steps without those of keys that are missing, unknown or misread, as reading has said already."""
    told = {each.place for each in findings if each.subject == "file" and each.weight is Weight.DEFECT}
    return [each for each in gaps if each.check != "steps.gap" or each.place not in told]


def publish(folder: Path, shown: str, order: Order) -> Published:
    """Surveys a vessel and, if she is sound or a proof copy is asked for, writes, inspects and swaps in her folder.

    Raises outputs.EngineMissing where the PDF engine cannot run, swapping.Refused where the folder is not ours, Impossible.
    """
    surveyed = survey(folder, shown, order)
    slug = surveyed.vessel.slug if surveyed.vessel is not None else folder.resolve().name
    recover(order.into, slug)
    stands = order.into / slug
    last_good = manifest_of(stands)
    manual = surveyed.manual
    if manual is None or not (surveyed.sound or order.proof):
        return Published(surveyed, stands, last_good=last_good)
    written = write(manual, order)
    sight = Sight(manual.vessel, manual.as_of, manual.until, manual=manual, written=written)
    surveyed.findings = in_order(
        [*surveyed.findings, *registry.run(registry.INSPECTION, sight), *_skipped(surveyed, written, order)]
    )
    if not (surveyed.sound or order.proof):
        return Published(surveyed, stands, last_good=last_good)
    target = slug + PROOF_SUFFIX if order.proof else slug
    files, entries = _files(written, order)
    description = _fingerprint(folder, manual, order)
    kept, dropped = _keep(order.into / target, entries, description)
    for name, (data, entry) in kept.items():
        files[name] = data
        entries[name] = entry
    manifest = _manifest(manual, entries, description)
    return Published(surveyed, stands, swap_in(order.into, target, files, manifest), last_good, dropped)


def told(done: Published, order: Order, colour: bool = False) -> str:
    """What is said of a vessel's publishing, on the terminal."""
    surveyed, manual = done.surveyed, done.surveyed.manual
    found = [listing(surveyed.findings, colour)] if surveyed.findings else []
    name, lines = visible(surveyed.name), []
    if done.folder and manual:
        good = f"good until {manual.good_until}" if manual.good_until else "nothing aboard is dated"
        what = "proof copy (not for use)" if order.proof else "published"
        lines.append(f"{name}: {what} -> {visible(str(done.folder))} ({good}; {surveyed.counted})")
        if done.dropped:
            again = "; publish without --only to have them again" if order.only else ""
            gone = ", ".join(map(visible, done.dropped))
            lines.append(f"  removed, for they came from an older description: {gone}{again}")
        return "\n".join([*lines, *found])
    lines += [f"{name}: not published: {count(surveyed.findings)}", *found]
    if done.last_good:
        on, until = done.last_good.get("surveyed-on"), done.last_good.get("good-until")
        lines.append(
            f"  The last good manual stays: {visible(str(done.stands))}, surveyed on {on}, good until {until or 'no date'}."
        )
    if surveyed.vessel is not None and not order.proof:
        lines.append(f"  For a proof copy despite the defects: musterbook publish {name} --proof-copy")
    return "\n".join(lines)


def write(manual: Manual, order: Order) -> dict[str, Made]:
    """Every output asked for, in memory; those that need private values are left out where these are not there."""
    made: dict[str, Made] = {}
    for name in order.only or output_names():
        reader = reader_of(name, order)
        if reader != "guest" and manual.vessel.lacks_private:
            continue
        made[name] = output(name).write(Job(manual, reader, order.paper))
        made[name].reader = reader
    return made


def reader_of(name: str, order: Order) -> str:
    """Who an output is for."""
    return order.reader or output(name).READER


def days_of(vessel: Vessel, order: Order) -> tuple[date, date]:
    """The as-of day and the last day of passage or season; raises Impossible where the second lies before the first."""
    own = known(vessel.specimen.as_of) if vessel.specimen else None
    as_of = order.as_of or (own.last_day if own else order.today)
    if order.until and order.until < as_of:
        raise Impossible(
            f"--until {order.until} lies before {as_of}, the day she is looked at; write a later day"
        )
    ends = known(vessel.voyage.until) if vessel.voyage else None
    return as_of, max(as_of, order.until or (ends.last_day if ends else as_of))


def _skipped(surveyed: Surveyed, written: dict[str, Made], order: Order) -> list[Finding]:
    left_out = [name for name in order.only or output_names() if name not in written]
    if not left_out:
        return []
    return [
        Finding(
            "reader.skipped",
            Weight.NOTE,
            f"not written, for values stand as private and there is no private.yaml: {', '.join(left_out)}",
            Place(f"{surveyed.name}/vessel.yaml"),
            "lay private.yaml beside vessel.yaml and publish again",
        )
    ]


def _files(written: dict[str, Made], order: Order) -> tuple[dict[str, bytes], dict[str, Entry]]:
    files: dict[str, bytes] = {}
    entries: dict[str, Entry] = {}
    for one, made in written.items():
        for name, data in made.files.items():
            path = f"{reader_of(one, order)}/{name}"
            files[path] = data
            entries[path] = {"output": one, "sha256": digest(data)}
    return files, entries


def _fingerprint(folder: Path, manual: Manual, order: Order) -> str:
    """What the outputs come from: the vessel's files as they are, the days, the language, the program and its templates."""
    whole = hashlib.sha256(f"{manual.as_of} {manual.until} {order.language} {_program()}".encode())
    names = ["vessel.yaml", "voyage.yaml", "private.yaml"]
    if manual.vessel.based_on:
        names.append(str(manual.vessel.based_on))
    names += sorted({str(each.photo) for each in photographed(manual.vessel)})
    for name in names:
        path = folder / name
        whole.update(name.encode() + b"\0" + (path.read_bytes() if path.is_file() else b"") + b"\0")
    return whole.hexdigest()


@functools.cache
def _program() -> str:
    """Version, code and templates: an edited template makes another manual."""
    whole = hashlib.sha256(__version__.encode())
    for top, kind in ((Path(__file__).parent, "*.py"), (templates_folder(), "*")):
        for path in sorted(path for path in top.rglob(kind) if path.is_file()):
            whole.update(path.relative_to(top).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return whole.hexdigest()


def _keep(
    folder: Path, entries: dict[str, Entry], description: str
) -> tuple[dict[str, tuple[bytes, Entry]], tuple[str, ...]]:
    """Files of outputs not written this time: kept if they come from the same description, else dropped."""
    manifest = manifest_of(folder)
    if manifest is None:
        return {}, ()
    written = {_output_and_reader(name, entry) for name, entry in entries.items()}
    others = {
        name: entry
        for name, entry in manifest["files"].items()
        if _output_and_reader(name, entry) not in written
    }
    if manifest.get("description") != description:
        return {}, tuple(sorted(others))
    return {
        name: ((folder / name).read_bytes(), entry)
        for name, entry in others.items()
        if (folder / name).is_file()
    }, ()


def _output_and_reader(name: str, entry: Entry) -> tuple[str, str]:
    return entry["output"], name.partition("/")[0]


def _manifest(manual: Manual, entries: dict[str, Entry], description: str) -> Manifest:
    first = manual.first_to_expire
    return {
        "program": f"musterbook {__version__}",
        "vessel": manual.boat,
        "surveyed-on": manual.as_of.isoformat(),
        "good-until": first.last_day.isoformat() if first else None,
        "first-to-expire": f"{first.item}, {first.what}".strip(", ") if first else None,
        "proof-copy": manual.proof,
        "description": description,
        "files": entries,
    }
