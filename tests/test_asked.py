"""A key that is left out is told as if it said unknown: in the same words, with the same weight, or not at all."""

import functools
import re
import shutil
from collections import Counter
from datetime import date

import pytest
import yaml
from asked import kinds, standing
from open_boats import DAYBOAT, OPEN_BOAT
from readme_boat import TEASEL
from sampled import spread
from specimens import VESSELS

from generator.manual.unsaid import not_said
from generator.publishing import Order, survey
from generator.reading.fields import ASKED, NEEDED, Many
from generator.reading.findings import Weight
from generator.vessel.asking import ONLY_WHERE
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel

# What no specimen says of itself, in the words of a file.
BESIDE = """\
  - what: red hand flares
    kind: signal
    quantity: 1
    where: cuddy
    side: port
    expires: 2026-03
    point: {aft: 3 m, off: 0.5 m port}
    lives: [{from: made, life: 4 years, source: the label}]
    still-carried: {reason: the new ones come on Friday, who: the skipper, until: 2026-06-05}
engines:
  - {what: main engine, kind: outboard, where: helm, side: centre}
tender: {what: rubber dinghy, where: cuddy, side: port}
deck: {spaces: [{name: chain locker, replaces: anchor locker}], ways: [{from: cockpit, to: cuddy, by: the hatch}]}
alarms:
  - {what: smoke, where: cuddy, side: port}
posted:
  - {station: helm, code: 1234-5678, date: 2026-05-16}
deferred-defects:
  - {check: gear.expired, item: red hand flares, reason: ordered, who: the skipper, until: 2026-06-05}
"""
TEXTS = {
    name: (VESSELS / name / "vessel.yaml").read_text(encoding="utf-8")
    for name in ("saltmeadow", "zilte-wind", "nordgyllen")
} | {"gorse": OPEN_BOAT, "plover": DAYBOAT + BESIDE, "teasel": TEASEL}
ALL = [kind for kind in kinds(Vessel) if kind is not Vessel]
pytestmark = pytest.mark.thorough


@pytest.fixture(scope="module")
def look(tmp_path_factory):
    """What the survey says of a boat whose file is this text: check, weight, message, remedy, each so often as it is said."""
    folder = tmp_path_factory.mktemp("boats")
    seen = {}

    def said(name, text):
        if (name, text) not in seen:
            if not (folder / name).exists():
                own = VESSELS / name
                shutil.copytree(own, folder / name) if own.is_dir() else (folder / name).mkdir()
            (folder / name / "vessel.yaml").write_text(text, encoding="utf-8")
            found = survey(folder / name, name, Order(date(2026, 6, 1))).findings
            seen[name, text] = Counter((each.check, each.weight, each.message, each.remedy) for each in found)
        return seen[name, text]

    return said


@functools.cache
def everywhere():
    return [(name, each) for name, text in TEXTS.items() for each in standing(text)]


def places(kind):
    """Where blocks of a kind stand: for each field one that says it and one that does not, if there are."""
    found = {}
    for name, each in everywhere():
        if each.kind is kind:
            for field in kind.fields.values():
                found.setdefault((field, each.says(field.key)), (name, each))
    return {key: where for key, where in found.items() if key[0].key != "format"}


def alike(findings):
    """Findings whatever the id says of the key being there."""
    return Counter(
        {("file.not-known-yet" if each[0] == "file.missing-key" else each[0], *each[1:]): number
         for each, number in findings.items()}
    )  # fmt: skip


@pytest.mark.parametrize("kind", ALL, ids=lambda kind: kind.__name__)
def test_left_out_is_told_like_unknown(kind, look, one_in):
    """One field in three that is there, and one in three that is not; with --all-mutants each."""
    looked_at = 0
    for (field, _), (name, block) in spread(places(kind).items(), one_in(3), lambda each: each[0][1]):
        left_out = block.without(field.key)
        if left_out is None:
            continue
        looked_at += 1
        out, open_ = look(name, left_out), look(name, block.unknown(field.key))
        assert alike(out) == alike(open_), f"{name}: {kind.__name__}.{field.key}"
        assert all(each[1] == 0 or each[0] != "file.missing-key" or field.unknown != NEEDED for each in out)
    assert looked_at or len(kind.fields) == 1 or one_in(3) > 1


@pytest.mark.parametrize("name", sorted(each.parent.name for each in VESSELS.glob("*/vessel.yaml")))
def test_a_block_or_list_that_is_unknown_weighs_as_one_left_out(name, tmp_path):
    """At the top of the file, of every specimen: the same findings, and the same chapter of what was not said."""
    shutil.copytree(VESSELS, tmp_path / "vessels")
    own = tmp_path / "vessels" / name / "vessel.yaml"
    text = own.read_text(encoding="utf-8")
    of_class = re.search(r"based-on: (\S+)", text)
    inherited = (
        set(yaml.safe_load((own.parent / of_class[1]).read_text(encoding="utf-8"))) if of_class else ()
    )

    def said(changed):
        own.write_text(changed, encoding="utf-8")
        done = survey(own.parent, name, Order(date(2026, 6, 1)))
        found = Counter(
            (each.check, each.weight, re.sub(r"\(line [0-9]+\)", "", each.message), each.remedy)
            for each in done.findings
        )  # a line left out moves those behind it
        return alike(found), not_said(done.vessel), done.silences

    whole = next(standing(text))
    looked_at = [
        field
        for field in Vessel.fields.values()
        if not field.single and field.key not in {"specimen", *inherited}  # these fill what is left out
    ]
    for field in looked_at:
        left_out = said(whole.without(field.key))
        assert said(whole.unknown(field.key)) == left_out, field.key
        if isinstance(field, Many):
            whole_list = whole.unknown(field.key).replace(f"{field.key}: unknown", f"{field.key}: [unknown]")
            assert said(whole_list) == left_out, field.key
    assert len(looked_at) > (20 if not of_class else 10)


def test_an_unknown_entry_beside_others_is_told(look):
    """A list with a hole in it is not one that is left out."""
    name = "saltmeadow"
    for known, open_ in (
        ("held-by: [Senhouse slip, HRU, strap]", "held-by: [Senhouse slip, HRU, unknown]"),
        ("stops:\n", "stops:\n  - unknown\n"),
    ):
        assert TEXTS[name].count(known) == 1
        key = known.partition(":")[0]
        found = look(name, TEXTS[name].replace(known, open_))
        told = [
            each for each in found if each[0] == "file.not-known-yet" and f"{key}' is not known" in each[2]
        ]
        assert [each[1] for each in told] == [Weight.DEFECT]


def test_every_field_that_is_asked_for_is_asked_for_somewhere(look):
    """No condition is one that never holds."""
    silent = []
    for kind in ALL:
        of_kind = [each for each in everywhere() if each[1].kind is kind]
        for field in kind.asked if len(kind.fields) > 1 else ():
            texts = ((name, block.without(field.key)) for name, block in of_kind)
            if not any(
                each[0] in ("file.not-known-yet", "file.missing-key") and f".{field.key}'" in each[2]
                for name, text in texts if text is not None for each in look(name, text)
            ):  # fmt: skip
                silent.append(f"{kind.__name__}.{field.key}")
    assert silent == ["Raft.where"], "the stowages of the specimens say it themselves"


def test_the_space_of_a_raft_is_asked_for_where_its_stowage_does_not_say_it(look):
    name, block = next(each for each in everywhere() if each[1].kind is Raft)
    bare = block.without("where")
    assert "coachroof cradle" in bare
    assert not any(each[2].endswith(".where'") for each in look(name, bare))
    on_deck = look(name, bare.replace("stowage: coachroof cradle", "stowage: deck cradle"))
    assert [each[1] for each in on_deck if "[liferaft].where' is not known" in each[2]] == [Weight.DEFECT]


def test_a_condition_is_of_a_field_that_is_asked_for():
    """Else it would say of a key what it does not do."""
    assert [field.key for field in ONLY_WHERE if not field.single or field.unknown not in ASKED] == []
