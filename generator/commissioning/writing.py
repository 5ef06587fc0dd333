"""The commented first file of a vessel, made from answers: all that is wrong with them is told at once, and what is set is what loads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from generator.commissioning import crew
from generator.commissioning.answers import written
from generator.commissioning.editors import schema_of
from generator.commissioning.first_bill import Proposal, propose
from generator.commissioning.given import Given
from generator.commissioning.naming import TITLE, file_for
from generator.commissioning.questions import questions
from generator.commissioning.read_back import loaded, spaces_she_has_not
from generator.commissioning.refusal import Refusal, all_of
from generator.commissioning.starter import Starter
from generator.manual.reckoning import Reckoning
from generator.vessel.base_file import FILE, KEY, lies_beside
from generator.vessel.particulars import LET_OUT

if TYPE_CHECKING:
    from generator.vessel.vessel import Vessel

_BASE = f"../{FILE}"


@dataclass(frozen=True)
class Done:
    """The file written; of `asked` first questions `missing` have no answer yet.

    `roles` have a first bill in it; `base` is the base file beside the vessels' folders; it names that
    where it is `hers`.
    """

    path: Path
    missing: int
    asked: int
    roles: tuple[str, ...] = ()
    base: Path | None = None
    hers: bool = False


def commission(name: str, answers: Mapping[str, str], into: Path) -> Done:
    """Writes the commented vessel file of `name` into a folder of hers under `into`; unanswered keys say unknown.

    `answers` holds text by key path, of the first questions or of any other key of the file; at `people` it holds roles, at
    another list none, unknown, or what its entries are called. Raises Refusal, with nothing written, for all that is wrong
    at once: unknown keys, misread answers, answers that contradict each other, spaces she has not; a name no folder can be
    called by; a file that is there already.
    """
    path, title = file_for(name, into), " ".join(name.split())
    given = Given(answers)
    given.written["vessel.name"] = written(TITLE, title)
    folder = path.parent.name if path.is_absolute() else path.parent.as_posix()
    beside = lies_beside(into)
    if beside and given.written.get("vessel.use") in LET_OUT:
        given.written.setdefault(KEY, _BASE)
    schema = schema_of(into)
    people = crew.lines(given.people, given.roles)  # each in a line, that duties can be proposed
    starter = Starter(title, folder, schema.seen_from_a_vessel, given.written, given.named, people)
    text = given.set_in(starter.text(), starter)
    vessel = loaded(text)
    all_of(spaces_she_has_not(vessel, given.targets))
    bill: Sequence[Proposal] = ()
    if given.roles or given.named.get(crew.PEOPLE):
        bill = propose(Reckoning(vessel))
    if bill or given.people:
        with_duties = {who for one in bill for duty in one.duties for who in (*duty.who, duty.substitute)}
        starter.people = crew.lines(given.people, given.spoken_of | with_duties)
        text = given.set_in(starter.text(bill), starter)
        vessel = loaded(text)
    given.hold_against(vessel)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        raise Refusal(f"{path} cannot be written: {error.strerror}; name another folder") from None
    schema.write()
    asked = [each for each in questions() if not each.moot(given.answers)]
    missing = sum(any(given.open(key) for key in each.keys) for each in asked)
    base = into / FILE if beside and given.written.get(KEY) in (_BASE, None) else None
    return Done(path, missing, len(asked), _roles(vessel) if bill else (), base, KEY in given.written)


def _roles(vessel: Vessel) -> tuple[str, ...]:
    return tuple(
        f"{person.role} ({person.quantity})" if isinstance(person.quantity, int) else str(person.role)
        for person in vessel.people
    )
