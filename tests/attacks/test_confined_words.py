"""Words stay words: whatever stands in a boat's texts, the pages written hold nothing that runs, loads or leads elsewhere."""

import io
import json
import re
import shutil
from collections import defaultdict
from html.parser import HTMLParser

import pypdf
import pytest
import yaml
from attacks import payloads
from attacks.outsiders import VESSELS
from attacks.payloads import HOST, INVISIBLE, PAYLOADS, attacked, fields_attacked
from beside import lay_beside

from generator import __main__ as program
from generator.manual.facts import vessel_facts
from generator.manual.notes import html_of, pictures_in
from generator.shelves.languages import catalogue
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

pytestmark = [pytest.mark.attack("confined"), pytest.mark.thorough]
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
TURNS = range(0, len(PAYLOADS), 6)
IN_NOTES = {
    **{
        tag: set()
        for tag in [
            "h3",
            "h4",
            "h5",
            "h6",
            "p",
            "strong",
            "em",
            "code",
            "pre",
            "blockquote",
            "hr",
            "br",
            "ul",
            "li",
        ]
    },
    "ol": {"start"},
    "a": {"href"},
}
ADDRESS = re.compile(
    r"#[\w-]+|[\w-]+\.html(#[\w-]+)?|style\.css|fonts/[\w-]+\.ttf|photos/[\w-]+\.jpg|data:(image/jpeg|font/ttf);base64,[\w+/]+=*"
)
TAPPED = re.compile(r"(tel|mailto|sms):[^\s]+")


class Parts(HTMLParser):
    """The elements of a page with their attributes, as a parser that knows nothing of the program sees them."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.found, self.headings, self.text = [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, {key: value or "" for key, value in attrs}))
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))

    def handle_comment(self, data):
        self.found.append(("comment", {"text": data}))

    def unknown_decl(self, data):
        self.found.append(("declaration", {"text": data}))

    handle_pi = unknown_decl

    def handle_data(self, data):
        self.text.append(data)


def publish(folder, capsys, *options):
    """A proof copy for the crew, who read all of it."""
    asked = ["--into", str(folder / "site"), "--proof-copy", "--for", "crew"]
    code = program.main(["publish", str(folder / "boats"), *asked, *options])
    capsys.readouterr()
    return code, {
        path.relative_to(folder / "site").as_posix(): path.read_bytes()
        for path in (folder / "site").rglob("*")
        if path.is_file()
    }


def lay_out(folder, boat, turn):
    """A specimen with a payload in every text of each of her files; how many that are."""
    shutil.copytree(VESSELS / boat, folder / "boats" / boat)
    lay_beside(folder / "boats")
    number = 0
    for path in (folder / "boats" / boat).glob("*.yaml"):
        if path.name != "private.yaml":
            kind = (Voyage,) if path.name == "voyage.yaml" else ()
            text, more = attacked(path.read_text(encoding="utf-8"), turn, *kind)
            path.write_text(text, encoding="utf-8")
            number += more
    return number


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """Which attributes each element has, with which classes, in what is published of the specimens as they are."""
    folder = tmp_path_factory.mktemp("sound")
    outputs = ["--only", "site", "--only", "one-file"]
    code = program.main(["publish", str(VESSELS), "--for", "crew", *outputs, "--into", str(folder)])
    assert code == 0
    known, classes = defaultdict(set, {"style": set(), "body": {"class"}}), {"", "one-file"}
    for path in folder.rglob("*.html"):
        for tag, attributes in Parts(path.read_text(encoding="utf-8")).found:
            known[tag] |= set(attributes)
            classes |= set(attributes.get("class", "").split())
    return known, classes


def foreign(found, sound):
    """Elements and attributes that no sound page and no note may hold, and addresses that lead elsewhere."""
    known, classes = sound
    for tag, attributes in found:
        if tag not in known and tag not in IN_NOTES:
            yield tag
        for name, value in attributes.items():
            if name not in known[tag] and name not in IN_NOTES.get(tag, ()):
                yield f"{tag} {name}"
            if name == "class" and not set(value.split()) <= classes:
                yield f"{tag} class={value}"
            tapped = tag == "a" and TAPPED.fullmatch(value)
            if name in ("href", "src", "xlink:href") and not tapped and not ADDRESS.fullmatch(value):
                yield f"{tag} {name}={value}"
            if name.startswith("on") or name in ("style", "srcset", "srcdoc", "action", "ping"):
                yield f"{tag} {name}"


@pytest.mark.one_in(8, "turn")
@pytest.mark.parametrize("turn", TURNS)
def test_no_text_of_a_boat_becomes_more_than_words(turn, tmp_path, capsys, sound, tried):
    boat = BOATS[turn // 6 % len(BOATS)]
    tried(lay_out(tmp_path, boat, turn))
    _, files = publish(tmp_path, capsys, "--only", "site", "--only", "one-file")
    pages = {name: data.decode() for name, data in files.items() if name.endswith(".html")}
    assert len(pages) > 15
    for name, text in pages.items():
        page = Parts(text)
        assert not list(foreign(page.found, sound)), name
        assert page.found[[tag for tag, _ in page.found].index("head") + 1][1]["content"].startswith(
            "default-src 'none'"
        )
        assert not INVISIBLE & set(text), name
    assert all(re.fullmatch(r"[a-zA-Z0-9./-]+", name) and ".." not in name for name in files)
    assert HOST in "".join(pages.values()), "the words themselves are printed"


@pytest.mark.one_in(8, "turn")
@pytest.mark.parametrize("turn", TURNS)
def test_notes_are_printed_below_the_procedures_heading(turn, tmp_path, capsys, sound, tried):
    """Every payload as a note of its own, six at a time."""
    lot = PAYLOADS[turn : turn + 6]
    tried(len(lot))
    shutil.copytree(VESSELS / "saltmeadow", tmp_path / "boats/saltmeadow")
    path = tmp_path / "boats/saltmeadow/vessel.yaml"
    notes = "".join(f"  - {{beside: fire, text: {json.dumps(each)}}}\n" for each in lot)
    path.write_text(f"{path.read_text()}notes:\n{notes}")
    _, files = publish(tmp_path, capsys, "--only", "site", "--only", "one-file")
    for name in ("crew/fire.html", "crew/manual.html"):
        text = files[f"saltmeadow.proof-copy/{name}"].decode()
        page = Parts(text)
        assert not list(foreign(page.found, sound)), name
        assert page.headings.count(1) == text.count('<article class="page'), "each page has one first heading"
        assert all(
            after <= before + 1 for before, after in zip(page.headings, page.headings[1:], strict=False)
        )
        assert "<img" not in text
        assert not INVISIBLE & set(text)
    told = {
        each["check"]
        for each in json.loads(survey_of(tmp_path, capsys))["findings"]
        if each["check"].startswith("notes.")
    }
    assert ("notes.picture" in told) == any(
        pictures_in(" ".join(each.split())) for each in lot if "\x00" not in each
    )


def survey_of(folder, capsys):
    program.main(["survey", str(folder / "boats"), "--report", str(folder / "said.json")])
    capsys.readouterr()
    return (folder / "said.json").read_text()


def test_every_free_text_of_the_files_is_attacked():
    """A new key is attacked as soon as a specimen has it, and each has one."""
    seen = set()
    for boat in BOATS:
        for path in (VESSELS / boat).glob("v*.yaml"):
            kind = (Voyage,) if path.name == "voyage.yaml" else ()
            seen |= fields_attacked(path.read_text(encoding="utf-8"), *kind)
    wanted = payloads.all_texts(Vessel) | payloads.all_texts(Voyage)
    assert len(wanted) > 80
    assert wanted - seen == set()


DOM = """() => [...document.querySelectorAll('*')].map(e => [e.localName.toLowerCase(),
  Object.fromEntries([...e.attributes].map(a => [a.name.toLowerCase(), a.value]))])"""


@pytest.mark.parametrize("guarded", [True, False], ids=["policy", "no policy"])
def test_a_browser_asks_for_nothing_and_runs_nothing(
    guarded, tmp_path, capsys, sound, browser, tried, one_in
):
    """Also where the policy is taken away: each of the two defences stands alone."""
    asked, said = [], []
    for turn in (0, 23, 46)[0 if guarded else one_in(2) - 1 :: one_in(2)]:
        folder = tmp_path / str(turn)
        tried(lay_out(folder, "saltmeadow", turn))
        publish(folder, capsys, "--only", "site", "--only", "one-file")
        guest = folder / "site/saltmeadow.proof-copy/crew"
        context = browser.new_context()
        page = context.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
        page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
        for name in ("index.html", "fire.html", "gear.html", "contacts.html", "plan.html", "manual.html"):
            if not guarded:
                text = (guest / name).read_text(encoding="utf-8")
                bare = re.sub(r"<meta http-equiv[^>]*>", "", text, count=1)
                assert bare != text
                (guest / name).write_text(bare, encoding="utf-8")
            page.goto((guest / name).as_uri())
            assert not list(foreign(page.evaluate(DOM), sound)), name
        context.close()
    assert asked
    assert not [url for url in asked if not url.startswith(("file:", "data:"))]
    assert not said


def test_paper_holds_no_address_but_telephone_and_mail(tmp_path, capsys, pdf_engine, tried):
    tried(lay_out(tmp_path, "saltmeadow", 11))
    path = tmp_path / "boats/saltmeadow/vessel.yaml"
    said = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    note = " ".join(("[a](tel:112) [b](mailto:base@example.org)", *filter(str.isprintable, PAYLOADS)))
    said["notes"] = [{"beside": "fire", "text": note}]
    path.write_text(yaml.safe_dump(said, allow_unicode=True, sort_keys=False), encoding="utf-8")
    _, files = publish(tmp_path, capsys, "--only", "book")
    read = pypdf.PdfReader(io.BytesIO(files["saltmeadow.proof-copy/crew/book.pdf"]))
    addresses = set()
    for number in range(1, int(read.trailer["/Size"])):
        each = read.get_object(number)
        if isinstance(each, dict):
            names = {*map(str, each), *(str(value) for value in each.values() if isinstance(value, str))}
            assert not names & {
                "/JS",
                "/JavaScript",
                "/AA",
                "/Launch",
                "/EmbeddedFile",
                "/GoToR",
                "/SubmitForm",
            }
            actions = [one for one in (each, each.get("/A")) if isinstance(one, dict) and "/URI" in one]
            addresses |= {str(one["/URI"]) for one in actions if isinstance(one["/URI"], str)}
    assert addresses == {"tel:112", "mailto:base@example.org"}


MARKDOWN = {
    "# a\n\n### b\n\n## c\n\n# d": ["h3", "h4", "h4", "h3"],
    "###### a": ["h3"],
    "# a\n## b\n### c\n#### d\n##### e\n###### f": ["h3", "h4", "h5", "h6", "h6", "h6"],
    "a\n=\n\nb\n-": ["h3", "h4"],
    "> # a": ["h3"],
    "- # a\n  - ## b": ["h3", "h4"],
}


@pytest.mark.parametrize("text", MARKDOWN)
def test_headings_are_set_below(text):
    assert [tag for tag, _ in Parts(html_of(text)).found if tag[0] == "h"] == MARKDOWN[text]


LINKS = {
    "[the base](https://example.org/a?b=1&c=2)": "<p>the base (https://example.org/a?b=1&amp;c=2)</p>",
    "<https://example.org/>": "<p>https://example.org/</p>",
    "[the base](tel:+441632960155)": '<p><a href="tel:+441632960155">the base</a></p>',
    "<base@example.org>": '<p><a href="mailto:base@example.org">base@example.org</a></p>',
    "[**b** `c`](fire.html)": "<p><strong>b</strong> <code>c</code> (fire.html)</p>",
    "[a](javascript:x)": "<p>a (javascript:x)</p>",
    "[a](<java\nscript:x>)": "<p>[a](&lt;java\nscript:x&gt;)</p>",
    "[![knob](k.png)](https://example.org/)": "<p>knob (https://example.org/)</p>",
    "![the *red* knob](k.png)": "<p>the red knob</p>",
    "![![in](a.png) out](b.png)": "<p>in out</p>",
    "[](https://example.org/)": "<p>https://example.org/</p>",
    '[a](tel:1 "title")': '<p><a href="tel:1">a</a></p>',
    "a&#x202e;b&#x200b;&shy;c": "<p>abc</p>",
    "<b>a</b> &lt;i&gt;": "<p>&lt;b&gt;a&lt;/b&gt; &lt;i&gt;</p>",
}


@pytest.mark.parametrize("text", LINKS)
def test_links_and_pictures_are_words(text):
    assert html_of(text).strip() == LINKS[text]


FACTS = {fact.name: True for fact in vessel_facts()}


@pytest.mark.parametrize("payload", PAYLOADS)
@pytest.mark.parametrize("page", ["first-words", "disclaimer"])
def test_what_fills_a_page_is_never_obeyed(page, payload):
    """The boat's words within the program's own Markdown: as many elements as with plain words."""
    slots = {
        "first-words": ("muster_place", "general_alarm", "abandon_order", "commander"),
        "disclaimer": ("boat",),
    }[page]
    plain = Parts(catalogue().page(page, FACTS, **dict.fromkeys(slots, "plain")))
    filled = Parts(catalogue().page(page, FACTS, **dict.fromkeys(slots, payload)))
    assert filled.found == plain.found
    if payload.isprintable():
        assert "".join(filled.text) == "".join(plain.text).replace("plain", payload)
