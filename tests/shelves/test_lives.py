"""The shelf of lives: its faults, each at its place, and what each life must say."""

import pytest
from documents.lives import all_lives

from generator.manual.known_keys import keys_and_words
from generator.reading.names import STANDINGS
from generator.shelves import shelf as shelves
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.gear import kinds
from generator.shelves.gear_rows import GEAR
from generator.shelves.identities import MIDS
from generator.shelves.lives import BLOCKS, LIVES, shelf
from generator.survey.registry import all_checks

KNOWN = {**keys_and_words(), **MIDS.gives(MIDS.files()), "check": tuple(all_checks())}
TEXT = (templates_folder() / "lives" / "lives.yaml").read_text(encoding="utf-8")


def found_in(text):
    file, found = LIVES.read_text(text, "lives/lives.yaml")
    said = shelves.faults([(LIVES, (file,), found)], KNOWN)
    return [(each.place.line, each.place.column, each.message, each.remedy) for each in said]


def where(text, anchor, at):
    """Line and column of the first `at` from the last `anchor` on."""
    before = text[: text.index(at, text.rindex(anchor))]
    return before.count("\n") + 1, len(before) - before.rfind("\n")


@pytest.mark.parametrize(
    ("old", "new", "at", "message", "remedy"),
    [
        ("routine: yes", "rutine: yes", "rutine", "'rutine' is no key", "write routine?"),
        ("routine: yes", "routine: maybe", "maybe", "'maybe' is none", "yes"),
        ("  - kind: food\n    block: gear", "  - kind: food\n    block: larder", "larder", "'larder' is none", "write one of"),
        ("from: [tested, last-service]", "from: [testd, last-service]", "testd", "a gear has no key 'testd'", "write tested?"),
        ("from: [release-fitted]", "from: [relase-fitted]", "relase-fitted", "a beacon has no key 'relase-fitted'", "write release-fitted?"),
        ("unless: [expires, replaced]", "unless: [expires, replced]", "replced", "a gear has no key 'replced'", "write replaced?"),
        ("marked: [contents-expire]", "marked: [content-expires]", "content-expires", "a service has no key 'content-expires'", "write contents-expire?"),
        ("one-of: [registered]", "one-of: [registred]", "registred", "a beacon has no key 'registred'", "write registered?"),
        ("not-before: {since: made", "not-before: {since: mde", "mde", "a service has no key 'mde'", "write made?"),
        ("brings: decision", "brings: decisions", "decisions", "'decisions' is none", "write decision?"),
        ("since: made, over", "since: mde, over", "mde", "a gear has no key 'mde'", "write made?"),
        ("when: {kind: [disposable]}", "when: {kind: [disposible]}", "kind: [disposible]", "'disposible' is none of the words of 'kind'", "write disposable?"),
        ("when: {standard: [SOLAS]}", "when: {standrad: [SOLAS]}", "standrad", "neither a service nor a raft nor a vessel has a key 'standrad'", "write standard?"),
        ("when: {flag: [United Kingdom], use:", "when: {flag: [United Kingdom], uses:", "uses", "has a key 'uses'", "write use?"),
        ("when: {flag: [United Kingdom], use:", "when: {flag: [Untied Kingdom], use:", "flag: [Untied", "'Untied Kingdom' is none of the words of 'flag'", "write United Kingdom?"),
        ("when: {flag: [United States, United", "when: {flag: [United Staes, United", "flag: [United Staes", "'United Staes' is none of the words of 'flag'", "write United States?"),
        ("check: raft.cylinder-test", "check: raft.cylinder-tets", "raft.cylinder-tets", "there is no check 'raft.cylinder-tets'", "raft.cylinder-test"),
        ("standing: read, weight: defect", "standing: sure, weight: defect", "sure", "'sure' is none", "secondary"),
        ("standing: common practice, weight: recommendation", "standing: common practice, weight: defect", "defect", "only ever recommends", "recommendation"),
        ("  - kind: tethers", "  - kind: jackstays", "jackstays", "two are called 'jackstays'", "its own name"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_place(old, new, at, message, remedy):
    assert old in TEXT
    text = TEXT.replace(old, new, 1)
    line, column = where(text, new, at)
    found = found_in(text)
    assert any(
        (row, across) == (line, column) and message in said and remedy in instead
        for row, across, said, instead in found
    ), (line, column, found)


def test_one_kind_is_for_all_other_gear():
    two = TEXT.replace("    with: light\n", "    with: light\n    for-others: yes\n")
    assert (
        *where(two, "all other gear", "yes"),
        "two kinds are for all other gear",
        "keep the one that is true",
    ) in found_in(two)
    none = TEXT.replace("    for-others: yes\n", "")
    assert "no kind is for all other gear" in {said for _, _, said, _ in found_in(none)}


def test_only_gear_is_told_by_its_name_and_other_lines_say_what_they_are_about():
    text = TEXT.replace("    block: set\n", "    block: set\n    with: red\n").replace(
        "      - what: battery\n", "      - ", 1
    )
    text = text.replace("      -         check", "      - check")
    said = {said for _, _, said, _ in found_in(text)}
    assert {"'with' is for gear alone", "line 1 does not say what it is about"} <= said


def test_a_line_that_is_gone_is_noticed():
    text = TEXT.replace("        window: {months: 1, when: {flag: [United Kingdom], use: [commercial, charter]}, "
                        "source: RYA on small commercial vessels (secondary)}\n", "")  # fmt: skip
    assert text != TEXT
    assert "the tally says 1 times 'window', and it stands here 0 times" in {
        said for _, _, said, _ in found_in(text)
    }


def test_a_faulty_shelf_is_one_kind_of_exception_with_all_its_faults(tmp_path, monkeypatch):
    (tmp_path / "lives").mkdir()
    text = TEXT.replace("standing: read, weight: defect", "standing: sure, weight: defekt")
    (tmp_path / "lives" / "lives.yaml").write_text(text, encoding="utf-8")
    monkeypatch.setattr(shelves, "templates_folder", lambda: tmp_path)
    with pytest.raises(ShelfFault) as caught:
        shelf()
    assert len(caught.value.findings) == 2 * TEXT.count("standing: read, weight: defect")
    assert str(caught.value.findings[0].place).startswith("templates/lives/lives.yaml:")


def test_the_shelf_is_sound():
    read = [(each, *each.read(templates_folder())) for each in (GEAR, LIVES)]
    assert shelves.faults(read, KNOWN) == []


def lives():
    return [life for kind in all_lives() for line in kind.lines for life in line.lives]


def test_each_life_names_its_source_and_standing_and_what_is_not_verified_only_recommends():
    assert lives()
    for life in lives():
        assert life.source
        assert life.edition
        assert life.standing in STANDINGS
        assert not life.firm or life.standing in ("read", "secondary")


def test_every_block_has_kinds_and_every_life_of_gear_has_gear():
    assert set(shelf().kinds) == set(BLOCKS)
    assert all(shelf().kinds.values())
    lasting = {kind.lasts_as for kind in kinds()}
    assert [
        kind.name for kind in shelf().kinds["gear"] if kind.name not in lasting and not kind.for_others
    ] == []
