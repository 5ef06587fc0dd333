"""The site and the manual in one file: every address resolves, nothing comes from outside, no guest reads what is the crew's."""

import datetime as dt
import re
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path, PurePosixPath

import pytest
from documents.evidence import to_confirm

from generator.machine.fonts import missing_characters
from generator.manual.composing import compose
from generator.outputs import Job, one_file, site
from generator.reading.block import Block
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
AS_OF = dt.date(2026, 6, 1)
ADDRESSES = ("href", "src", "xlink:href", "srcset", "poster", "action", "data")
pytestmark = pytest.mark.thorough


def composed(boat, as_of=AS_OF, proof=False):
    vessel, _ = load(VESSELS / boat)
    return compose(vessel, as_of, as_of, catalogue(), proof)[0]


@pytest.fixture(scope="module", params=BOATS)
def manual(request):
    return composed(request.param)


@pytest.fixture(scope="module")
def guest_site(manual):
    return site.write(Job(manual, "guest")).files


@pytest.fixture(scope="module")
def guest_file(manual):
    return one_file.write(Job(manual, "guest")).files[one_file.FILE].decode()


class Page(HTMLParser):
    """What a page holds that the tests ask about."""

    VOID = frozenset({"meta", "link", "br", "img", "hr", "input"})

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.ids, self.addresses, self.tags, self.headings, self.texts, self.titles = [], [], [], [], [], []
        self.open, self.unbalanced, self.labelled = [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        self.tags.append((tag, attrs))
        if attrs.get("id"):
            self.ids.append(attrs["id"])
        self.addresses += [attrs[name] for name in ADDRESSES if name in attrs]
        self.labelled += attrs.get("aria-labelledby", "").split()
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in self.VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.unbalanced.append((tag, self.getpos()))

    def handle_data(self, data):
        within = self.open[-1] if self.open else ""
        if within == "style":
            return
        self.texts.append(data)
        if re.fullmatch("h[1-6]", within):
            self.headings.append((int(within[1]), data.strip()))
        if within == "title" and "svg" not in self.open:
            self.titles.append(data)

    @property
    def text(self):
        return " ".join(" ".join(self.texts).split())


def pages(files):
    return {name: Page(content.decode()) for name, content in files.items() if name.endswith(".html")}


IN_PLACE = "data:image/jpeg;base64,"
"""How the address of a photo begins that is in the file itself."""


def unresolved(parsed):
    """Addresses and labels that lead nowhere among the pages by name; pages, anchors and files are looked up."""
    names, lost = set(parsed["files"]), []
    for name, page in parsed["pages"].items():
        for address in page.addresses:
            if address.startswith(IN_PLACE):
                continue
            file, _, anchor = address.partition("#")
            target = str(PurePosixPath(file)) if file else name
            if target not in names or (anchor and anchor not in parsed["pages"][target].ids):
                lost.append((name, address))
        lost += [(name, label) for label in page.labelled if label not in page.ids]
    return lost


def test_every_link_and_anchor_of_the_site_resolves(guest_site):
    assert not unresolved({"files": guest_site, "pages": pages(guest_site)})


def test_every_address_in_the_one_file_is_an_anchor_in_it_or_the_picture_itself(guest_file):
    page = Page(guest_file)
    page.addresses = [each for each in page.addresses if not each.startswith("data:image/jpeg;base64,")]
    assert len(page.addresses) > 60
    assert all(address.startswith(("#", IN_PLACE)) for address in page.addresses)
    assert not unresolved({"files": ["manual.html"], "pages": {"manual.html": page}})


@pytest.mark.parametrize("broken", ['href="fire.html"', 'href="fire.html#fire-step-1"'])
def test_a_lost_page_or_anchor_is_noticed(broken):
    files = {"index.html": f"<a {broken}>x</a>".encode()}
    if "#" in broken:
        files["fire.html"] = b"<p id='other'></p>"
    assert unresolved({"files": files, "pages": pages(files)})


def test_nothing_comes_from_the_network_and_no_script_runs(guest_site, guest_file):
    for text in [
        *(content.decode() for name, content in guest_site.items() if name.endswith((".html", ".css"))),
        guest_file,
    ]:
        without_names = re.sub(r'xmlns(:\w+)?="[^"]*"|/\*!.*?\*/|;base64,[\w+/=]+', "", text, flags=re.DOTALL)
        assert not re.search(r"https?:|//[a-z]", without_names)
        assert "<script" not in text
        assert "@import" not in text
        assert "javascript:" not in text
    assert not re.search(r"url\((?!\"data:)", guest_file)


def test_style_names_only_fonts_that_are_there(guest_site):
    named = re.findall(r'url\("([^"]+)"\)', guest_site["style.css"].decode())
    assert len(named) == 4
    assert set(named) <= set(guest_site)
    assert any("LICENSE" in name for name in guest_site), "the fonts' licence lies beside them"


def test_ids_are_unique_and_elements_closed(guest_site, guest_file):
    for name, page in {**pages(guest_site), "manual.html": Page(guest_file)}.items():
        double = {each for each in page.ids if page.ids.count(each) > 1}
        assert not double, (name, double)
        assert not page.unbalanced, (name, page.unbalanced[:3])
        assert not page.open, (name, page.open)


def test_each_page_has_language_title_one_first_heading_and_headings_in_order(guest_site):
    titles = []
    for name, page in pages(guest_site).items():
        assert ("html", {"lang": "en"}) in page.tags, name
        assert (
            "meta",
            {"name": "viewport", "content": "width=device-width, initial-scale=1"},
        ) in page.tags, name
        levels = [level for level, _ in page.headings]
        assert levels[0] == 1, (name, page.headings)
        assert levels.count(1) == 1, (name, page.headings)
        assert all(after <= before + 1 for before, after in pairwise(levels)), (name, page.headings)
        titles.append("".join(page.titles))
    assert all(titles)
    assert len(set(titles)) == len(titles)


def test_every_page_prints_the_marks_and_the_disclaimer(manual, guest_site, guest_file):
    say, day = manual.printer.say, manual.printer.day
    wanted = [
        say("mark.surveyed-on", date=day(AS_OF)),
        say("mark.good-until", date=day(manual.good_until)),
        say("mark.specimen"),
        say("disclaimer.short"),
    ]
    parsed = pages(guest_site)
    for name, page in parsed.items():
        for mark in wanted:
            assert mark in page.text, (name, mark)
    assert Page(guest_file).text.count(wanted[0]) == len(parsed)


def test_proof_copies_and_unchecked_ones_say_so_on_every_page(manual):
    say = manual.catalogue.say
    for changed, mark in (
        (replace(manual, proof=True, sound=False), "mark.proof-copy"),
        (replace(manual, proof=True, sound=True), "mark.proof-copy-sound"),
        (replace(manual, checked=False), "mark.not-yet-approved"),  # somebody has walked round her
    ):
        for name, page in pages(site.write(Job(changed, "guest")).files).items():
            assert say(mark) in page.text, (name, mark)


def crew_only(block):
    """The values of a block and of those inside it that guests may not read, as printed."""
    for name, value in vars(block).items():
        field = type(block).fields.get(name.rstrip("_").replace("_", "-"))
        if field is None:
            continue
        blocks = (
            value if isinstance(value, list) else list(value.values()) if isinstance(value, dict) else [value]
        )
        for each in blocks:
            if isinstance(each, Block):
                yield from crew_only(each)
            elif isinstance(each, dict):
                yield from (found for inner in each.values() for found in crew_only(inner))
            elif field.reader != "guest" and not block.is_freed(field) and len(str(each)) > 3:
                yield str(each)


def test_guests_read_nothing_that_is_the_crews(manual, guest_site, guest_file):
    secret = set(crew_only(manual.vessel)) - {"unknown", "private"}
    assert secret, "the specimen has crew-only values"
    for name, text in {
        **{name: page.text for name, page in pages(guest_site).items()},
        "manual.html": Page(guest_file).text,
    }.items():
        assert not [value for value in secret if value in text], name


def test_the_crew_reads_them():
    manual = composed("saltmeadow")
    text = " ".join(page.text for page in pages(site.write(Job(manual, "crew")).files).values())
    assert str(manual.vessel.contacts[2].phone) in text
    assert str(manual.vessel.vessel.registration) in text


def test_each_procedure_has_its_page_with_all_its_steps(manual, guest_site):
    parsed = pages(guest_site)
    front = parsed["index.html"].addresses
    for procedure in manual.procedures:
        page = parsed[f"{procedure.id}.html"]
        assert f"{procedure.id}.html" in front
        for step in procedure.steps:
            for words in (step.text, step.unless, step.caution, step.why, *step.who):
                assert " ".join(words.split()) in page.text, (procedure.id, step.id)
            assert f"{procedure.id}-step-{step.number}" in page.ids


def test_a_step_says_where_its_thing_is_and_sources_list_what_is_to_be_confirmed(manual, guest_site):
    parsed = pages(guest_site)
    for procedure in manual.procedures:
        for step in procedure.steps:
            for place in step.place.split("; "):
                assert place in parsed[f"{procedure.id}.html"].text, step.id
    asked = parsed["sources.html"].text.partition(catalogue().say("source.to-confirm"))[2]
    assert to_confirm(manual.procedures)
    for step in to_confirm(manual.procedures):
        assert " ".join(step.text.split()) in asked, step.id


def test_each_item_has_its_line_in_the_gear_list_and_on_the_plan(manual, guest_site):
    parsed = pages(guest_site)
    for item in manual.items:
        assert f"gear-{item.number}" in parsed["gear.html"].ids
        assert f"place-{item.number}" in parsed["plan.html"].ids
        assert f"plan.html#place-{item.number}" in parsed["gear.html"].addresses


def test_an_expired_item_is_marked_and_its_steps_stand():
    late = composed("saltmeadow", as_of=dt.date(2028, 12, 1), proof=True)
    mark, marks = (late.catalogue.say(each) for each in ("mark.expired", "mark.expired-several"))
    parsed = pages(site.write(Job(late, "guest")).files)
    expired = [item for item in late.items if late.expired(item)]
    assert "parachute flares" in [item.what for item in expired]
    assert parsed["plan.html"].text.count(mark) == sum(item.quantity < 2 for item in expired)
    assert parsed["plan.html"].text.count(marks) == sum(item.quantity > 1 for item in expired) > 0
    assert marks in parsed["be-seen.html"].text
    sound = pages(site.write(Job(composed("saltmeadow"), "guest")).files)
    assert not [name for name, page in sound.items() if mark in page.text or marks in page.text]
    steps = [
        sum(tag == "li" and attrs.get("class") == "step" for tag, attrs in one["be-seen.html"].tags)
        for one in (parsed, sound)
    ]
    assert steps[0] == steps[1] > 0


def test_the_chain_runs_from_abandoning_to_the_raft_and_back():
    manual = composed("saltmeadow")
    by_id = {one.id: one for one in manual.procedures}
    walked, here = ["abandon-ship"], by_id["abandon-ship"]
    while after := site.neighbours(manual.procedures, here, 1):
        assert site.neighbours(manual.procedures, after[0], -1) == [here]
        here = after[0]
        walked.append(here.id)
    assert walked[:4] == ["abandon-ship", "ready-to-leave", "leaving", "raft-launch"]
    assert walked[4:9] == ["raft-ready", "raft-overboard", "raft-inflate", "boarding", "raft-away"]
    assert walked[9:11] == ["in-the-raft", "raft-dry"]
    for apart in ("distress-call", "collision"):
        assert not site.neighbours(manual.procedures, by_id[apart], 1)
    for first, second in (("fire", "fire-starve"), ("flooding", "flooding-rises"), ("gas", "gas-air")):
        assert site.neighbours(manual.procedures, by_id[first], 1) == [by_id[second]]
        assert not site.neighbours(manual.procedures, by_id[second], 1), "an aside is none to go on to"
    beside = site.asides_of(manual.procedures, by_id["raft-inflate"])
    assert [one.kind for one in beside] == [
        "raft-trouble",
        "raft-awry",
        "raft-gone",
        "raft-automatic",
        "raft-rises",
        "raft-capsized",
        "righting",
    ]
    for aside in beside:
        assert site.neighbours(manual.procedures, aside, -1) == [by_id["raft-inflate"]]
        assert site.neighbours(manual.procedures, aside, 1) == [by_id["boarding"]]


def test_with_two_rafts_each_keeps_its_own_chain():
    manual = composed("nordgyllen")
    start = next(one for one in manual.procedures if one.id == "leaving")
    launches = site.neighbours(manual.procedures, start, 1)
    assert [one.raft for one in launches] == list(manual.vessel.rafts)
    for launch in launches:
        assert {one.raft for one in site.neighbours(manual.procedures, launch, 1)} == {launch.raft}
    assert {site.raft_page(manual, raft) for raft in manual.vessel.rafts} <= {
        screen.name for screen in site.screens(manual)
    }


def test_two_pages_of_one_name_are_a_fault():
    manual = composed("saltmeadow")
    clash = replace(manual.procedures[0], id="gear")
    with pytest.raises(site.TwiceError, match="gear"):
        site.screens(replace(manual, procedures=(clash, *manual.procedures[1:])))


def test_the_family_draws_every_character(guest_site):
    for name, page in pages(guest_site).items():
        assert not missing_characters(page.text), name


def test_a_character_the_family_lacks_is_recorded_with_its_page():
    manual = composed("saltmeadow")
    first = manual.procedures[0]
    changed = replace(manual, procedures=(replace(first, intro="Łódź"), *manual.procedures[1:]))
    assert [(record.kind, record.file) for record in site.write(Job(changed, "guest")).records] == []
    changed = replace(manual, procedures=(replace(first, intro="\u6f22"), *manual.procedures[1:]))
    for output, file in ((site, f"{first.id}.html"), (one_file, one_file.FILE)):
        assert [
            (record.kind, record.file, record.text) for record in output.write(Job(changed, "guest")).records
        ] == [("missing-glyph", file, "\u6f22 (U+6F22)")]


def test_the_one_file_draws_each_sign_once_and_uses_it(guest_file):
    drawn = re.findall(r'<symbol id="(drawn-\d+)"', guest_file)
    assert len(drawn) == len(set(drawn)) > 20
    assert set(re.findall(r'<use href="#(drawn-\d+)"/>', guest_file)) == set(drawn)
    assert not re.search(r'<svg class="(?:symbol|sign)"[^>]*>\s*<(?!use )', guest_file)


def test_the_one_file_holds_every_page_and_stays_small(manual, guest_file):
    assert len(guest_file.encode()) < 3_000_000
    page = Page(guest_file)
    assert {screen.name for screen in site.screens(manual)} <= set(page.ids)
    assert guest_file.count("data:font/ttf;base64,") == 4
    assert guest_file.count("<svg xmlns") >= 2


def test_the_same_manual_gives_the_same_bytes():
    made = [
        {
            **site.write(Job(composed("saltmeadow"), "guest")).files,
            **one_file.write(Job(composed("saltmeadow"), "guest")).files,
        }
        for _ in range(2)
    ]
    assert made[0] == made[1]
