"""The order of work for one vessel: read, survey, compose, write, inspect what was written, swap in."""

from __future__ import annotations

import importlib
import os
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from generator import __version__
from generator.machine.folders import digest
from generator.machine.locking import WAIT_S
from generator.machine.manifests import Cover, Entry, Manifest, text_of
from generator.machine.swapping import Berth, at_work
from generator.manual.composing import Manual, compose
from generator.manual.fingerprints import fingerprint
from generator.manual.good_until import by_figures, worded
from generator.manual.printing import first_printer
from generator.options import output_names
from generator.outputs import Job, Made
from generator.reading.findings import Finding, Place, Weight, defects, in_order
from generator.reading.values import known
from generator.reading.visible import visible
from generator.shelves.languages import catalogue
from generator.shelves.words import FIRST_LANGUAGE
from generator.survey import registry
from generator.survey.deferral import defer
from generator.survey.held import held_back
from generator.survey.listing import count, on_screen
from generator.survey.sight import Sight
from generator.survey.silences import counted as silent_about
from generator.survey.silences import silences, unsaid
from generator.survey.withheld.redaction import Redactor
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

PROOF_SUFFIX = ".proof-copy"
# The readers, and who may see less than they: a reader's manifest knows of those alone.
_LESS: dict[str, tuple[str, ...]] = {"guest": (), "shore": ("guest",), "crew": ("guest", "shore")}


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
    """What is asked for. `today` stands for the clock; `as_of` wins over it and over a specimen's own date.

    `set_aside` has a folder that would be refused moved aside, `wait_s` says how long to wait for another publish to end.
    """

    today: date
    as_of: date | None = None
    until: date | None = None
    into: Path = Path("site")
    language: str = FIRST_LANGUAGE
    paper: str = "A4"
    only: tuple[str, ...] = ()
    reader: str | None = None
    proof: bool = False
    set_aside: bool = False
    wait_s: float = WAIT_S


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
        deferred = f" ({len(self.deferred)} deferred)" if self.deferred else ""
        silent = "" if self.vessel is None else silent_about(self.vessel)
        return f"{count(self.findings)}{deferred}{silent}"

    @property
    def silences(self) -> list[str]:
        """The lines on what the file does not say, and so was not looked at."""
        return [] if self.vessel is None else silences(self.vessel)

    @property
    def unsaid(self) -> dict[str, str]:
        """The same by key, for a report."""
        return {} if self.vessel is None else unsaid(self.vessel)

    @property
    def may_be_shown(self) -> bool:
        """Whether a proof copy may be made: whatever else is wrong, it tells nobody what is not meant for him."""
        return not any(each.check == "reader.private-leak" for each in self.findings)


@dataclass
class Published:
    """What became of one vessel: the folder swapped in, or None where findings stop it.

    `good` says until when its manual is good, and why. `last_good` is the cover of the whole manual that stands in `stands`
    meanwhile, None where there is none; `dropped` are the files of outputs not asked for that came from another description;
    `said` tells what was left alone or set aside.
    """

    surveyed: Surveyed
    stands: Path
    folder: Path | None = None
    good: str = ""
    last_good: Cover | None = None
    dropped: tuple[str, ...] = ()
    said: Sequence[str] = ()


def survey(folder: Path, shown: str, order: Order) -> Surveyed:
    """Reads a vessel and runs the description and composition stages; findings in order, deferred ones apart.

    What is told of her holds nothing that guests may not read.
    """
    surveyed = _survey(folder, shown, order)
    hush = Redactor((folder, surveyed.vessel))
    surveyed.findings = in_order(hush.findings(surveyed.findings))
    surveyed.deferred = in_order(hush.findings(surveyed.deferred))
    if surveyed.manual is not None and surveyed.deferred:
        told = {entry: hush.findings(found) for entry, found in surveyed.manual.deferred.items()}
        surveyed.manual = replace(surveyed.manual, deferred=told)
    return surveyed


def _survey(folder: Path, shown: str, order: Order) -> Surveyed:
    vessel, findings = load(folder, shown)
    if vessel is None:
        return Surveyed(shown, in_order(findings))
    as_of, until = days_of(vessel, order)
    if not vessel.vessel or not vessel.vessel.known("name"):
        held = set(held_back(vessel, findings))
        return Surveyed(shown, in_order(each for each in findings if each not in held), vessel)
    sight = Sight(vessel, as_of, until)
    findings += registry.run(registry.DESCRIPTION, sight)
    manual, more = compose(vessel, as_of, until, catalogue(order.language), order.proof, sight.reckoning)
    findings += _not_told_yet(more, findings)
    findings += registry.run(registry.COMPOSITION, sight.composed(manual))
    remaining, deferred, more = defer(vessel, in_order(findings), as_of, until)
    held = set(held_back(vessel, [*remaining, *more]))
    remaining, more = ([each for each in some if each not in held] for some in (remaining, more))
    manual = replace(manual, deferred=deferred, sound=not defects([*remaining, *more]))
    covered = in_order(finding for each in deferred.values() for finding in each)
    return Surveyed(shown, in_order([*remaining, *more]), vessel, manual, covered)


def _not_told_yet(gaps: list[Finding], findings: list[Finding]) -> list[Finding]:
    """The gaps in steps without those of keys that are missing, unknown or misread, as reading has said already."""
    told = {
        (each.place.file, each.place.key)
        for each in findings
        if each.subject == "file" and each.weight is Weight.DEFECT
    }
    return [
        each for each in gaps if each.check != "steps.gap" or (each.place.file, each.place.key) not in told
    ]


def publish(folder: Path, shown: str, order: Order) -> Published:
    """Surveys a vessel and, if she is sound or a proof copy is asked for, writes, inspects and swaps in her folder.

    Raises outputs.EngineMissing where the PDF engine cannot run, swapping.Refused where the folder is not ours, Impossible.
    """
    slug = folder.resolve().name
    # From before the description is read: an older one never replaces a newer.
    target = slug + PROOF_SUFFIX if order.proof else slug
    if os.path.lexists(order.into / target / "vessel.yaml"):
        raise Impossible(
            f"{order.into / target} holds a vessel.yaml, so it is a vessel's own folder; choose another folder with --into"
        )
    with at_work(order.into, target, order.wait_s) as berth:
        return _publish(folder, shown, order, berth)


def _publish(folder: Path, shown: str, order: Order, berth: Berth) -> Published:
    """The same, in her place in the output folder."""
    surveyed = survey(folder, shown, order)
    sound = Berth(berth.into, folder.resolve().name)
    done = Published(surveyed, sound.path, last_good=sound.last_good(), said=berth.said)
    manual = surveyed.manual
    if manual is None or not (surveyed.sound or order.proof):
        return done
    written = write(manual, order)
    sight = Sight(manual.vessel, manual.as_of, manual.until, manual=manual, written=written)
    seen = [*registry.run(registry.INSPECTION, sight), *_skipped(surveyed, written, order)]
    hush = Redactor((folder, surveyed.vessel))
    told = {"file.no-private"} if any(each.check == "reader.skipped" for each in seen) else set()
    before = [each for each in surveyed.findings if each.check not in told]
    surveyed.findings = in_order([*before, *hush.findings(seen)])
    if not surveyed.sound and not (order.proof and surveyed.may_be_shown):
        return done
    files, entries = _files(written, order)
    marks = {reader: fingerprint(manual, reader) for reader in _LESS}
    kept, done.dropped = _keep(berth, entries, marks, order)
    for name, (data, entry) in kept.items():
        files[name] = data
        entries[name] = entry
    good = worded(manual.good, first_printer(), by_figures)
    why = hush.text(good.reason)
    done.good = "; ".join(part for part in (good.day, why) if part)
    cover, manifests = _manifests(manual, why, entries, marks)
    done.folder = berth.swap_in(cover, manifests, files, aside=order.set_aside)
    return done


def told(done: Published, order: Order, colour: bool = False) -> str:
    """What is said of a vessel's publishing, on the terminal."""
    surveyed, manual, name = done.surveyed, done.surveyed.manual, visible(done.surveyed.name)
    lines = []
    found = [on_screen(surveyed.findings, colour)] if surveyed.findings else []
    if done.folder and manual:
        what = "proof copy (not for use)" if order.proof else "published"
        lines.append(
            f"{name}: {what} -> {visible(str(done.folder))} ({visible(done.good)}; {surveyed.counted})"
        )
        if done.dropped:
            again = "; publish without --only to have them again" if order.only else ""
            gone = ", ".join(map(visible, done.dropped))
            lines.append(f"  removed, for they came from an older description: {gone}{again}")
        lines += [*found, *surveyed.silences]
    else:
        lines += [f"{name}: not published: {count(surveyed.findings)}", *found, *surveyed.silences]
        if done.last_good:
            on, until = done.last_good["surveyed-on"], done.last_good["good-until"] or "no date"
            why = (
                f" ({visible(done.last_good['first-to-expire'])})"
                if done.last_good["first-to-expire"]
                else ""
            )
            stands = f"{visible(str(done.stands))}, surveyed on {on}, good until {until}{why}"
            lines.append(f"  The last good manual stays: {stands}.")
        if surveyed.vessel is not None and not order.proof:
            lines.append(f"  For a proof copy despite the defects: musterbook publish {name} --proof-copy")
    return "\n".join([*lines, *(f"  {visible(each)}" for each in done.said)])


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


def _keep(
    berth: Berth, entries: dict[str, Entry], marks: dict[str, str], order: Order
) -> tuple[dict[str, tuple[bytes, Entry]], tuple[str, ...]]:
    """Files of outputs not written this time: kept if they come from the same description, else dropped."""
    written = {(entry["output"], name.partition("/")[0]) for name, entry in entries.items()}
    kept: dict[str, tuple[bytes, Entry]] = {}
    dropped: list[str] = []
    for reader, manifest in berth.copies(aside=order.set_aside).items():
        for name, entry in manifest["files"].items():
            path = f"{reader}/{name}"
            if (entry["output"], reader) in written:
                continue
            if manifest["description"] != marks.get(reader):
                dropped.append(path)
            elif (data := berth.read(path, entry["sha256"])) is not None:
                kept[path] = (data, entry)
    return kept, tuple(sorted(dropped))


def _manifests(
    manual: Manual, why: str, entries: dict[str, Entry], marks: dict[str, str]
) -> tuple[Cover, dict[str, Manifest]]:
    """What the boat's folder says of itself, and what each reader's does; `why` it is good no longer than it is."""
    readers = {name.partition("/")[0] for name in entries}
    cover: Cover = {
        "program": f"musterbook {__version__}",
        "vessel": manual.boat,
        "surveyed-on": manual.as_of.isoformat(),
        "until": manual.until.isoformat(),
        "language": manual.printer.language,
        "good-until": manual.good_until.isoformat() if manual.good_until else None,
        "first-to-expire": why or None,
        "proof-copy": manual.proof,
        "readers": sorted(readers),
    }
    manifests: dict[str, Manifest] = {}
    for reader, less in _LESS.items():
        if reader not in readers:
            continue
        manifests[reader] = {
            "program": cover["program"],
            "vessel": cover["vessel"],
            "surveyed-on": cover["surveyed-on"],
            "until": cover["until"],
            "language": cover["language"],
            "good-until": cover["good-until"],
            "first-to-expire": cover["first-to-expire"],
            "proof-copy": cover["proof-copy"],
            "reader": reader,
            "description": marks[reader],
            "beside": {each: digest(text_of(manifests[each])) for each in less if each in manifests},
            "files": {
                name.partition("/")[2]: entry
                for name, entry in entries.items()
                if name.partition("/")[0] == reader
            },
        }
    return cover, manifests
