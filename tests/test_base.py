"""The base file: read where a boat's file names it, printed for whom it is meant, kept back where it is not."""

import io
import re
from datetime import date

import pypdf
import pytest
from beside import VESSELS, lay_beside
from boat_file import changed, one
from fleet_of_fakes import edit
from PIL import Image

from generator.__main__ import main
from generator.inspecting import inspect
from generator.machine.photos import size_px
from generator.manual.composing import compose
from generator.manual.fingerprints import fingerprint
from generator.manual.operator import colours, why_not
from generator.outputs import Job, book, cards, one_file, site
from generator.outputs.setting import engine
from generator.outputs.setting.paper import sheets
from generator.publishing import Order, survey
from generator.reading.values import PRIVATE
from generator.shelves.languages import catalogue
from generator.vessel.loading import load
from generator.vessel.mark import mark

DAY = date(2026, 6, 1)
PHONE, BARE = "+33 6 39 98 00 45", "phone: +33 6 39 98 00 45"
FREED = f"phone: {{value: {PHONE}, for: guests}}"
NOT_FREED = ("base.yaml", FREED, BARE)
NO_CHANNEL = ("base.yaml", "channel: VHF 77\n", "")


@pytest.fixture
def boat(tmp_path):
    """Saltmeadow as a boat of the base: her folder, after some changes of (file beside it, old, new)."""

    def call(*changes, own="base: ../base.yaml\n", **others):
        lay_beside(tmp_path)
        folder = tmp_path / "saltmeadow"
        folder.mkdir(exist_ok=True)
        text = changed("format: 1\n", f"format: 1\n{own}")
        for name, content in {"vessel": text, **others}.items():
            (folder / f"{name}.yaml").write_text(content, encoding="utf-8")
        for file, old, new in changes:
            edit(tmp_path, old, new, file)
        return folder

    return call


def loaded(folder):
    return load(folder, "vessels/saltmeadow")


def manual_of(folder):
    vessel, _ = loaded(folder)
    return compose(vessel, DAY, DAY, catalogue("en"))[0]


def pages(folder, reader="guest"):
    files = site.write(Job(survey(folder, "b", Order(DAY)).manual, reader)).files
    return {name: data.decode() for name, data in files.items() if name.endswith(".html")}


def said(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_the_specimen_has_her_base_from_its_file():
    vessel, findings = load(VESSELS / "ombrelune", "vessels/ombrelune")
    assert findings == []
    (base,) = [each for each in vessel.contacts if each.kind == "base"]
    assert (base.who, base.channel, base.phone) == ("Gravelin Charter", "VHF 77", PHONE)
    assert str(base.place("phone")) == "vessels/base.yaml:7:8"
    assert vessel.contacts[0].kind == "rescue centre"


def test_the_mark_of_the_specimen_is_small():
    assert (VESSELS / "mark.png").stat().st_size <= 6000
    vessel, _ = load(VESSELS / "ombrelune")
    assert size_px(mark(vessel)) == (320, 320)


def test_other_boats_of_the_folder_have_none(boat):
    vessel, findings = loaded(boat(own=""))
    assert (findings, vessel.charter_base) == ([], None)


@pytest.mark.parametrize("word", ["none", "None"])
def test_a_boat_of_a_class_may_have_no_base(word, boat, tmp_path):
    folder = boat(own="based-on: ../classes/cutter.yaml\n")
    (tmp_path / "classes/cutter.yaml").write_text("format: 1\nbase: ../base.yaml\n")
    assert loaded(folder)[0].charter_base.operator == "Gravelin Charter"
    edit(folder, "format: 1\n", f"format: 1\nbase: {word}\n")
    vessel, findings = loaded(folder)
    assert (findings, vessel.charter_base) == ([], None)


def test_a_base_of_her_own_is_kept_and_stands_behind_the_rescue_centre(boat):
    folder = boat()
    edit(folder, "contacts:\n", "contacts:\n  - {who: our own base, kind: base, channel: VHF 9}\n")
    vessel, _ = loaded(folder)
    assert [str(each.who) for each in vessel.contacts if each.kind == "base"] == ["our own base"]
    kinds = [each.kind for each in vessel.contacts]
    assert kinds.index("rescue centre") < kinds.index("base")


def test_a_base_that_nobody_can_call_is_no_contact(boat):
    vessel, _ = loaded(boat(NO_CHANNEL, ("base.yaml", f"{FREED}\n", "")))
    assert vessel.charter_base is not None
    assert all(each.kind != "base" for each in vessel.contacts)


def test_guests_read_of_the_base_where_help_is_called_and_after_it(boat):
    made = pages(boat())
    call = said(made["distress-call.html"])
    assert call.index("Who is called, in this order") < call.index(
        "When that call is answered, Gravelin Charter"
    )
    centre = call.index("VHF 16", call.index("Who is called"))
    assert centre < call.index(PHONE)
    assert call.index("MAYDAY") < call.index("Who is called")
    start = said(made["index.html"])
    assert "Broken, and nobody in danger call the base before you repair anything" in start
    assert start.index("Abandon ship") < start.index("call the base before")
    for words in (
        "2 Quai du Phare, Port-Gravelin",
        "pontoon C, berths 1 to 14",
        "every day from 08:00 to 20:00",
    ):
        assert words in said(made["contacts.html"])


@pytest.mark.parametrize("reader", ["guest", "shore", "crew"])
def test_a_number_that_is_not_freed_is_the_crew_s(reader, boat):
    made = "".join(pages(boat(NOT_FREED), reader).values())
    assert (PHONE in made) == (reader == "crew")
    assert "VHF 77" in made
    assert PHONE in "".join(pages(boat(), reader).values())


def test_a_base_that_says_no_more_than_its_name_has_no_empty_list(boat):
    folder = boat()
    (folder.parent / "base.yaml").write_text("format: 1\noperator: Quay\nchannel: VHF 77\n")
    made = pages(folder)
    assert "<h2>Quay</h2>" in made["contacts.html"]
    assert "The base: Quay" not in made["contacts.html"]
    assert "The base: Quay" not in book.html(Job(manual_of(folder), "crew"))
    assert "Broken, and nobody" not in made["index.html"]


def test_who_is_not_reached_is_not_named_behind_the_call(boat):
    call = said(pages(boat(NOT_FREED, NO_CHANNEL))["distress-call.html"])
    assert "When that call is answered" not in call


def test_a_private_number_comes_from_her_private_file(boat):
    change = ("base.yaml", FREED, "phone: private")
    vessel, findings = loaded(boat(change, private=f"format: 1\nbase.phone: {PHONE}\n"))
    assert (findings, vessel.charter_base.phone, vessel.contacts[-1].phone) == ([], PHONE, PHONE)
    (vessel.folder / "private.yaml").unlink()
    vessel, findings = loaded(vessel.folder)
    assert [each.check for each in findings] == ["file.no-private"]
    assert (vessel.charter_base.phone, vessel.lacks_private) == (PRIVATE, True)


def test_a_private_number_is_told_in_no_finding(boat, capsys):
    folder = boat(
        NOT_FREED,
        ("base.yaml", "hours: every", f"hours: {PHONE}, every"),
        ("base.yaml", "berth: ", f"'{PHONE}': "),
    )
    assert main(["survey", str(folder)]) == 1
    out = capsys.readouterr().out
    assert "file.unknown-key" in out
    assert "39 98 00" not in out
    assert "[private]" in out


def test_a_number_that_is_not_freed_is_found_in_words_of_guests(boat, tmp_path, capsys):
    folder = boat(NOT_FREED, ("base.yaml", "do-first: call the base", "do-first: call 0639980045"))
    code = main(["publish", str(folder), "--only", "one-file", "--into", str(tmp_path / "site")])
    assert code == 1
    assert "reader.private-leak" in capsys.readouterr().out


def test_what_is_freed_is_named_once(boat):
    found = [each for each in survey(boat(), "b", Order(DAY)).findings if each.check == "reader.freed"]
    assert (one(found).item, one(found).place.line) == ("base.phone", 7)


def test_the_mark_stands_on_the_first_page_as_a_file_and_within_the_one_file(boat):
    manual = manual_of(boat())
    made = site.write(Job(manual, "guest"))
    (name,) = [each for each in made.files if each.startswith("photos/mark-")]
    picture = f'<img src="{name}" alt="The mark of Gravelin Charter">'
    assert picture in made.files["index.html"].decode()
    whole = one_file.write(Job(manual, "guest")).files["manual.html"].decode()
    assert whole.count('alt="The mark of Gravelin Charter"') == 1
    assert "data:image/jpeg;base64," in whole
    for text in (made.files["style.css"].decode(), whole):
        assert "border-bottom: .4rem solid #5b2a86; border-top: .4rem solid #5a4632;" in text


def test_without_a_base_nothing_is_there_of_it(boat):
    made = site.write(Job(manual_of(boat(own="")), "guest"))
    assert not any(name.startswith("photos/mark") for name in made.files)
    assert "operator" not in made.files["index.html"].decode()
    assert ".operator { border" not in made.files["style.css"].decode()


def test_a_colour_that_is_not_fit_is_not_printed(boat):
    folder = boat(("base.yaml", '"#5a4632"', '"#c0392b"'))
    vessel, _ = loaded(folder)
    assert colours(vessel) == ("#5b2a86",)
    assert "c0392b" not in book.html(Job(manual_of(folder), "crew"))


@pytest.mark.parametrize(
    ("colour", "why"),
    [("#000000", ""), ("#5b2a86", ""), ("#767676", ""), ("#777777", "contrast of 4.5"), ("#ffffff", "contrast of 1.0"), ("#9b2423", "red"),
     ("#f2c500", "yellow"), ("#237f52", "green"), ("#005387", "blue"), ("#b5121b", "red"), ("#0b57d0", "blue")],
)  # fmt: skip
def test_colours_of_safety_signs_and_pale_ones_are_told(colour, why):
    assert why in why_not(colour)
    assert bool(why) == bool(why_not(colour))


@pytest.mark.parametrize(
    ("written", "message"),
    [('"5B2A86"', ""), ('"#5b2a8"', "'#5b2a8' is no colour"), ("violet", "'violet' is no colour"), ("[5b2a86, 000000, 333333]", "3 entries stand here"),
     ("", "the value is blank")],
)  # fmt: skip
def test_a_colour_is_six_digits(written, message, boat):
    _, findings = loaded(boat(("base.yaml", 'colours: ["#5b2a86", "#5a4632"]', f"colours: {written}")))
    assert [each.message for each in findings if message in each.message][:1] == [
        each.message for each in findings
    ][:1]
    assert bool(findings) == bool(message)


def test_an_operator_has_a_name_that_stands_in_the_foot_of_a_card(boat):
    _, findings = loaded(boat(("base.yaml", "Gravelin Charter", "Gravelin Charter " * 4)))
    assert "48 are the most" in one(findings).message
    assert one(findings).place.file == "vessels/base.yaml"


@pytest.mark.parametrize(
    ("change", "readers"),
    [
        (("base.yaml", "VHF 77", "VHF 72"), {"guest", "shore", "crew"}),
        (("base.yaml", "pontoon C", "pontoon D"), {"guest", "shore", "crew"}),
        (("base.yaml", "00 45", "00 46"), {"crew"}),
        (("base.yaml", "# The charter base", "# A charter base"), set()),
    ],
)
def test_its_values_are_part_of_the_fingerprint_for_those_who_see_them(change, readers, boat):
    def marks():
        manual = manual_of(folder)
        return {reader: fingerprint(manual, reader) for reader in ("guest", "shore", "crew")}

    folder = boat(NOT_FREED)
    before = marks()
    edit(folder.parent, change[1], change[2], change[0])
    after = marks()
    assert {reader for reader in before if before[reader] != after[reader]} == readers


def test_the_mark_is_part_of_the_fingerprint(boat):
    folder = boat()
    before = fingerprint(manual_of(folder), "guest")
    Image.new("RGB", (400, 400), "purple").save(folder.parent / "mark.png")
    assert fingerprint(manual_of(folder), "guest") != before


def test_inspect_tells_that_the_base_file_changed(boat, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    folder = boat()
    assert main(["publish", str(folder), "--only", "one-file", "--into", "site"]) == 0
    (found,) = inspect(tmp_path / "site/saltmeadow", DAY, folder)
    assert found.described
    edit(tmp_path, "VHF 77", "VHF 72", "base.yaml")
    (found,) = inspect(tmp_path / "site/saltmeadow", DAY, folder)
    assert found.described is False


def test_it_is_the_same_whichever_way_the_boat_is_named(boat, tmp_path, monkeypatch):
    folder = boat()
    made = {}
    for number, (here, given) in enumerate(
        ((tmp_path, "saltmeadow"), (tmp_path, "saltmeadow/vessel.yaml"), (tmp_path, "."), (folder, "."))
    ):
        monkeypatch.chdir(here)
        assert main(["publish", given, "--only", "one-file", "--into", str(tmp_path / f"made/{number}")]) == 0
        made[number] = (tmp_path / f"made/{number}/saltmeadow/guest/manual.html").read_bytes()
    assert len(set(made.values())) == 1
    assert b"Gravelin Charter" in made[0]


def cover_of(html):
    """The book's cover as a document of its own."""
    end = html.index("</section>")
    return html[: html.index('<div class="warnings">')] + html[html.index('<section class="cover">') : end]


@pytest.mark.thorough
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_cover_and_cards_bear_it_and_cards_keep_the_size_of_their_type(paper, boat):
    name = "Compagnie des Voiliers de Port-Gravelin et Cie."
    folder = boat(("base.yaml", "Gravelin Charter", name))
    manual, plain = manual_of(folder), manual_of(boat(own=""))
    card = cards.cards(manual, "guest")[0]
    assert card.code == cards.cards(plain, "guest")[0].code
    fitted, bare = (cards._Page(Job(each, "guest", paper)).fit(card) for each in (manual, plain))
    assert (fitted.size_pt, fitted.sides) == (bare.size_pt, bare.sides)
    laid = fitted.layout
    assert name in " ".join(laid.set.split())
    written, records = engine.write(laid, cards.FILE)
    assert records == []
    text = " ".join(pypdf.PdfReader(io.BytesIO(written)).pages[0].extract_text().split())
    assert name in text
    cover = cover_of(book.html(Job(manual, "crew", paper)))
    assert engine.lay_out(cover, sheets("book", paper)).filled < 1, "one page, and room on it"
    assert 'alt="The mark of Compagnie' in cover


def test_commission_names_the_base_that_lies_there(tmp_path, capsys):
    lay_beside(tmp_path)
    assert main(["commission", "Tern", "--into", str(tmp_path), "--set", "vessel.use=charter"]) == 0
    out = capsys.readouterr().out
    assert f"{tmp_path / 'base.yaml'} tells of her base" in out
    assert load(tmp_path / "tern")[0].charter_base.operator == "Gravelin Charter"
    assert main(["commission", "Auk", "--into", str(tmp_path), "--set", "base=none"]) == 0
    assert "her base" not in capsys.readouterr().out
    assert load(tmp_path / "auk")[0].charter_base is None
    assert main(["commission", "Wren", "--into", str(tmp_path), "--set", "vessel.use=private"]) == 0
    assert "write base: ../base.yaml" in capsys.readouterr().out
    assert load(tmp_path / "wren")[0].charter_base is None, "a stranger's base is not hers"


@pytest.mark.parametrize("text", [None, "operator: x\n", "format: 2\n", "a: ["])
def test_commission_takes_nothing_else_for_a_base(text, tmp_path, capsys):
    if text is not None:
        (tmp_path / "base.yaml").write_text(text)
    assert main(["commission", "Tern", "--into", str(tmp_path), "--ask-nothing"]) == 0
    assert "base.yaml" not in capsys.readouterr().out
    assert "\nbase:" not in (tmp_path / "tern/vessel.yaml").read_text()


def test_the_keys_of_the_file_are_told(capsys):
    assert main(["keys", "base.yaml"]) == 0
    out = capsys.readouterr().out
    for key in ("operator", "mark", "colours", "phone", "channel", "hours", "address", "berth", "do-first"):
        assert f"\n  {key}" in out
    assert "read by the crew alone" in " ".join(out.split())
