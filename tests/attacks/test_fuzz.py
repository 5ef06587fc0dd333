"""Spoilt files: whatever was done to bytes or structure, a survey ends in findings or in soundness, and every output is written.

A run surveys one in four of 8,000 and writes one in four of 200; with --all-mutants all.
"""

import re
from contextlib import contextmanager
from dataclasses import replace
from datetime import date

import pytest
from alarm import within
from spoilt import BYTES, LINES, STRUCTURE, VESSELS, spoil

from generator import due
from generator.fleet import discover
from generator.outputs import Job, book, cards
from generator.publishing import Impossible, Order, survey, write
from generator.reading.findings import Finding
from generator.survey import registry, reports

TODAY = date(2026, 6, 1)
SEED = 20260601
SURVEYED, CHUNKS, EVERY = 8000, 20, 8
WRITTEN, GROUPS, LAID_OUT_EVERY, FEWER = 200, 20, 10, 3
A_SURVEY_S, ALL_OUTPUTS_S = 20, 120
PYTHON_WORDS = re.compile(
    r"\bNone\b|NotKnown|object at 0x|<class|\bdict\b|\bTypeError|\bKeyError|\bNoneType\b"
)
pytestmark = [pytest.mark.attack("no-traceback"), pytest.mark.thorough]


@contextmanager
def told(mutant, seconds):
    """Fails where it takes longer, and says which mutant it was."""
    try:
        with within(seconds):
            yield
    except Exception as error:
        error.add_note(
            f"seed {mutant.seed}: {mutant.boat}: {', '.join(mutant.how)}; {mutant.as_of}, {mutant.until}"
        )
        raise


def look(folder, mutant, order):
    """What the survey finds, if she can be looked at on these days; all of it can be told in every form."""
    mutant.lay_out(folder)
    try:
        surveyed = survey(folder, "boat", order)
    except Impossible as error:
        assert "--until" in str(error)
        return None
    known = registry.all_checks()
    for each in surveyed.findings:
        assert isinstance(each, Finding) and each.check in known
        assert (
            each.message
            and (each.remedy or known[each.check].remedy)
            and each.place.line >= 1
            and each.place.column >= 1
        )
        assert not PYTHON_WORDS.search(f"{each.message} {each.remedy} {each.item}"), each
    assert surveyed.findings or surveyed.sound
    assert (surveyed.vessel is None) <= bool(surveyed.findings)
    for form in ("a.txt", "a.json", "a.sarif", "a.xml") if mutant.seed % 20 == 0 else ("a.txt",):
        reports.for_file(form, [("boat", surveyed.findings)], known).encode()
    return surveyed


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_a_spoilt_file_is_surveyed(tmp_path, chunk, tried, one_in):
    number = SURVEYED // CHUNKS
    seeds = range(SEED + chunk * number, SEED + (chunk + 1) * number, one_in(EVERY))
    tried(len(seeds), of=number)
    ends = set()
    for seed in seeds:
        mutant = spoil(seed)
        with told(mutant, A_SURVEY_S):
            done = look(tmp_path / "boats/boat", mutant, Order(TODAY, mutant.as_of, mutant.until))
        ends.add(
            "" if done is None else "sound" if done.sound else "no tree" if done.vessel is None else "defects"
        )
    assert ends >= {"sound", "no tree", "defects"}, "the mutants are all of one kind"


@pytest.mark.one_in(EVERY, "group")
@pytest.mark.parametrize("group", range(GROUPS))
def test_what_a_spoilt_file_still_says_is_written_in_every_form(tmp_path, pdf_engine, group, one_in, tried):
    """As a proof copy, which no defect stops: site, one file, calendar, the base's list of what falls due, book and cards.

    Pages on paper take seconds to lay out: all are composed, and those of every tenth laid out, or of all with --all-mutants.
    """
    number = WRITTEN // GROUPS // one_in(FEWER)
    tried(number)
    every = one_in(LAID_OUT_EVERY)
    written, seed = 0, SEED * 2 + group * 10_000
    while written < number:
        seed += 1
        mutant = spoil(seed, gentle=True)
        order = Order(TODAY, mutant.as_of, proof=True)
        with told(mutant, ALL_OUTPUTS_S):
            done = look(tmp_path / "boats/boat", mutant, order)
            if done is None or done.manual is None:
                continue
            on_paper = written % every == 0
            made = write(
                done.manual, order if on_paper else replace(order, only=("calendar", "one-file", "site"))
            )
            if not on_paper:
                compose_paper(done.manual)
            inspect(done.manual, made)
            list_dates(tmp_path / "boats/boat", order)
        written += 1


def compose_paper(manual):
    """The pages of book and cards before they are laid out."""
    assert book.html(Job(manual, "crew", "A4"))
    page = cards._Page(Job(manual, "guest", "A4"))
    assert page.html([cards.Set(each, 12, 1) for each in cards.cards(manual, "guest")])


def inspect(manual, made):
    sight = registry.Sight(manual.vessel, manual.as_of, manual.until, manual=manual, written=made)
    assert all(each.message for each in registry.run(registry.INSPECTION, sight))
    assert all(data for each in made.values() for data in each.files.values())


def list_dates(folder, order):
    rows = due.fall_due(discover([str(folder)]), order).rows
    assert len(due.text(rows).splitlines()) == max(1, len(rows))
    for form in due.FORMS:
        assert due.for_file(form, rows, order)


def test_the_same_seed_spoils_alike():
    one, other = spoil(SEED), spoil(SEED)
    assert (one.files, one.how, one.as_of) == (other.files, other.how, other.as_of)
    assert spoil(SEED + 1).files != one.files


def test_every_specimen_is_spoilt_in_every_way(one_in):
    """Also in what is looked at of each hundred."""
    made = [spoil(seed) for seed in range(SEED, SEED + SURVEYED // 5, one_in(EVERY))]
    assert {each.boat for each in made} == {
        "teasel",
        *(path.parent.name for path in VESSELS.glob("*/vessel.yaml")),
    }
    ways = {re.split(r" (?:at |line )|[ ]?\.", how)[0] for each in made for how in each.how[1:]}
    assert ways >= {*STRUCTURE, *BYTES, *LINES}
