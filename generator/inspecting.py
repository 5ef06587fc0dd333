"""What a published folder is: whole or not, from which description, good until when; a broken-off swap is finished first."""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from generator.machine.folders import Busy, Folder, Refused, is_folder, same, shown
from generator.machine.locking import WAIT_S
from generator.machine.manifests import Cover, Found, Manifest, find, find_copy, manifest_of
from generator.machine.swapping import SET_ASIDE, at_work, traces
from generator.manual.fingerprints import fingerprint
from generator.options import Misuse
from generator.publishing import Impossible, Order, survey
from generator.shelves.languages import languages

_AGAIN = 3  # so often is a folder looked at that is replaced while it is looked at
_SHOWN = 12  # digits of a fingerprint


class NoManual(Misuse):
    """The path leads to no published folder; the message says what was looked for."""


@dataclass(frozen=True)
class Inspection:
    """One published folder as it is on the day `as_of`.

    `described` says whether it comes from the description it is held against, None where it is held against none; `said`
    tells what was finished, left alone or could not be looked at, `trouble` why it cannot be read.
    """

    name: str
    found: Found
    as_of: date
    described: bool | None = None
    said: tuple[str, ...] = ()
    trouble: str = ""

    @property
    def about(self) -> Cover | Manifest | None:
        """What the folder says of the manual in it: its cover, or what the first of its readers has; None where nothing does."""
        return self.found.cover or next(iter(self.found.readers.values()), None)

    @property
    def whole(self) -> bool:
        """Whether all is there as it was written, and nothing else."""
        return self.about is not None and self.found.intact and not self.found.foreign and not self.trouble

    @property
    def past(self) -> bool:
        """Whether something in it has run out on the day."""
        end = self.about["good-until"] if self.about is not None else None
        return end is not None and date.fromisoformat(end) < self.as_of

    @property
    def good(self) -> bool:
        """Whether it is whole, not past its date, and from the description it is held against."""
        return self.whole and not self.past and self.described is not False


def inspect(path: Path, as_of: date, vessel: Path | None = None, wait_s: float = WAIT_S) -> list[Inspection]:
    """Looks at a boat's folder, one reader's folder wherever it was copied to, or all boats of an output folder.

    `vessel` is the folder of the description it is held against. What a killed publish left half done is finished first. Raises
    NoManual; folders.Busy where a publish is at work; OSError.
    """
    said = _finished(path, wait_s)
    if not path.exists():
        raise NoManual(
            f"there is no folder '{shown(str(path))}'; name a boat's folder, a reader's, or all boats' (site)"
        )
    if not path.is_dir():
        raise NoManual(
            f"{shown(str(path))} is no folder; name a boat's folder, a reader's, or all boats' (site)"
        )
    if (one := _one(path, as_of)) is not None:
        return [_held_against(replace(one, said=(*said, *one.said)), vessel)]
    done = _all(path, as_of, wait_s)
    if not done:
        raise NoManual(
            f"{shown(str(path))} holds no manual that musterbook published, or its manifest.json is gone or changed"
        )
    if vessel is not None:
        raise NoManual("a description can be held against one boat's folder only; name that folder")
    return done


def _finished(path: Path, wait_s: float) -> tuple[str, ...]:
    """Finishes what a killed publish left beside a boat's folder; what is to be told of it."""
    place = Path(os.path.realpath(path))  # of links in a circle resolve() makes a fault of the program
    try:
        if place.name not in traces(place.parent):
            return ()
        with at_work(place.parent, place.name, wait_s) as berth:
            return tuple(berth.said)
    except Busy:
        raise
    except Refused as error:
        return (str(error),)
    except (PermissionError, FileNotFoundError, NotADirectoryError):
        return ("a publish is under way here or broke off, and nothing may be written here to finish it",)
    except OSError as error:
        return (f"a publish broke off here and cannot be finished: {error.strerror}",)


def _one(path: Path, as_of: date) -> Inspection | None:
    """A boat's or a reader's folder; None where it is neither."""
    for _ in range(_AGAIN):
        with Folder.at(path) as folder:
            found = _found(folder)
            if found is None or found.intact or same(folder.itself, path.stat()):
                break
    return Inspection(shown(str(path)), found, as_of) if found is not None else None


def _found(folder: Folder) -> Found | None:
    if manifest_of(folder) is not None:
        return find_copy(folder)
    found = find(folder)
    if found.cover is not None:
        return found
    inner = [name for name in folder.names() if (at := folder.look(name)) is not None and is_folder(at)]
    for name in inner:  # a boat's folder whose own manifest is gone or changed still has her readers'
        with suppress(OSError), folder.inner(name) as copy:
            said = manifest_of(copy)
            if said is not None and said["reader"] == name:
                return found if found.changed else replace(found, missing=("manifest.json", *found.missing))
    return None


def _all(path: Path, as_of: date, wait_s: float) -> list[Inspection]:
    """Every boat of an output folder, by name; links are not followed, what was set aside is passed over."""
    done = []
    with Folder.at(path) as folder:
        for name in sorted({*folder.names(), *traces(path)}):
            if name.startswith(".") or SET_ASIDE.search(name):
                continue
            said = _finished(path / name, wait_s)
            at = folder.look(name)
            if at is None or not is_folder(at):
                continue
            try:
                one = _one(path / name, as_of)
            except OSError as error:
                why = f"it cannot be read: {error.strerror}"
                one = Inspection(shown(str(path / name)), Found(None, {}), as_of, trouble=why)
            if one is not None:
                done.append(replace(one, said=(*said, *one.said)))
    return done


def _held_against(one: Inspection, vessel: Path | None) -> Inspection:
    """The same, held against a description as it is now."""
    if vessel is None or one.about is None:
        return one
    if vessel.name == "vessel.yaml" and vessel.is_file():
        vessel = vessel.parent
    about, manifests = one.about, one.found.readers.values()
    if about["language"] not in languages():
        return replace(one, described=False)
    day, until = date.fromisoformat(about["surveyed-on"]), date.fromisoformat(about["until"])
    order = Order(one.as_of, day, until, language=about["language"], proof=about["proof-copy"])
    try:
        manual = survey(vessel, str(vessel), order).manual
    except Impossible as error:
        raise NoManual(str(error)) from None
    if manual is None:
        raise NoManual(
            f"{shown(str(vessel))} holds no vessel.yaml that can be read; musterbook survey tells why"
        )
    return replace(
        one, described=all(fingerprint(manual, each["reader"]) == each["description"] for each in manifests)
    )


def told(one: Inspection) -> list[str]:
    """What is said of a folder, a line each."""
    lines = [f"{one.name}: {_state(one)}"]
    about = one.about
    if about is not None:
        end, first = about["good-until"], about["first-to-expire"]
        why = shown(first or "")
        good = (f"good until {end} ({why})" if end else why) or "nothing aboard is dated"
        copy = "; a proof copy, not for use" if about["proof-copy"] else ""
        lines.append(
            f"  {shown(about['vessel'])}, surveyed on {about['surveyed-on']}; {good}{'; PAST' if one.past else ''}{copy}"
        )
        marks = ", ".join(
            f"{each['reader']} {each['description'][:_SHOWN]}" for each in one.found.readers.values()
        )
        lines.append(f"  written by {shown(about['program'])} from the description: {marks}{_compared(one)}")
    for word, names in (
        ("missing", one.found.missing),
        ("changed", one.found.changed),
        ("not musterbook's", one.found.foreign),
    ):
        lines += [f"  {word}: {shown(name)}" for name in names]
    if about is not None and not one.whole:
        lines.append(
            "  To have it whole again: if this is a copy, copy it anew; else publish the vessel into the folder that holds "
            "this one (--into), which writes what is missing. Where something is changed or not musterbook's, add --set-aside: "
            "it moves the whole folder to a free name beside it, and removes nothing."
        )
    return lines + [f"  {shown(each)}" for each in one.said]


def _state(one: Inspection) -> str:
    if one.trouble:
        return one.trouble
    found = one.found
    if one.whole:
        return "whole" + (", but past its date" if one.past else "")
    counted = (
        (len(found.missing), "missing"),
        (len(found.changed), "changed"),
        (len(found.foreign), "not musterbook's"),
    )
    return "not whole: " + ", ".join(f"{count} {what}" for count, what in counted if count)


def _compared(one: Inspection) -> str:
    if one.described is None:
        return ""
    return (
        "; the description is the same today"
        if one.described
        else "; the description, or musterbook, is another today"
    )
