"""The content policy: it stands in every page, lets in what lies there, and nothing else; style, letters and photos are seen."""

import functools
import http.server
import re
import shutil
import threading
from dataclasses import dataclass
from html.parser import HTMLParser

import pytest
from attacks.outsiders import CANARY, VESSELS, fill
from checks.survey_patch import changed

from generator import __main__ as program

pytestmark = [pytest.mark.attack("confined"), pytest.mark.thorough]
STRICT = "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'"
ONE_FILE = re.compile(
    r"default-src 'none'; style-src 'sha256-[\w+/]{43}='; font-src data:; img-src data:; base-uri 'none'; form-action 'none'"
)
LONG_NOTE = (
    "# Ice\n\n1. one\n   - two\n     - three\n\n`"
    + "w" * 190
    + "` "
    + "W" * 150
    + " [a](https://example.org/"
    + "y" * 150
    + ")\n\n"
    "```\n"
    + "code " * 80
    + "\n"
    + "c" * 190
    + "\n```\n\n> quoted "
    + "q" * 150
    + "\n\n| a | b |\n| --- | --- |\n| 1 | 2 |\n"
)
WIDER = "() => document.scrollingElement.scrollWidth - innerWidth"
SEEN = """async () => { await document.fonts.ready;
  for (const image of document.images) { image.loading = 'eager'; await image.decode().catch(() => 0); }
  return { fonts: [...document.fonts].filter(f => f.status === 'loaded').length,
    failed: [...document.fonts].filter(f => f.status === 'error').length,
    photos: [...document.images].map(i => i.naturalWidth), margin: getComputedStyle(document.body).margin,
    plate: getComputedStyle(document.querySelector('.marks')).borderTopStyle } }"""


@pytest.fixture(scope="module")
def guest(tmp_path_factory):
    """The guest's folders of a boat with a photo and a long note: the sound one and the proof copy."""
    folder = tmp_path_factory.mktemp("a stick")
    boat = folder / "boats/saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", boat)
    text = changed(
        (boat / "vessel.yaml").read_text(encoding="utf-8"),
        "",
        "    where: coachroof\n",
        "    where: coachroof\n    photo: photos/The Raft.jpg\n",
    )
    indented = "".join(f"      {line}\n" for line in LONG_NOTE.splitlines())
    (boat / "vessel.yaml").write_text(
        f"{text}notes:\n  - beside: fire\n    text: |\n{indented}", encoding="utf-8"
    )
    (boat / "photos").mkdir()
    fill(boat / "photos/The Raft.jpg", "")
    asked = ["publish", str(boat), "--into", str(folder / "site"), "--only", "site", "--only", "one-file"]
    assert program.main(asked) == 0
    assert program.main([*asked, "--proof-copy"]) == 0
    return {
        "published": folder / "site/saltmeadow/guest",
        "proof copy": folder / "site/saltmeadow.proof-copy/guest",
    }


class Head(HTMLParser):
    """The elements of a page in their order."""

    def __init__(self, text):
        super().__init__()
        self.found = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


@pytest.mark.parametrize("copy", ["published", "proof copy"])
def test_each_page_begins_with_the_policy(copy, guest, tried):
    pages = sorted(guest[copy].rglob("*.html"))
    tried(len(pages))
    assert len(pages) > 20
    for path in pages:
        found = Head(path.read_text(encoding="utf-8")).found
        first = found[[tag for tag, _ in found].index("head") + 1]
        policy = first[1].get("content", "")
        assert (first[0], first[1].get("http-equiv")) == ("meta", "Content-Security-Policy"), path.name
        assert ONE_FILE.fullmatch(policy) if path.name == "manual.html" else policy == STRICT, path.name
        assert not [tag for tag, attributes in found if "style" in attributes], (
            "the policy would not let it in"
        )


@dataclass(frozen=True)
class Served:
    """A server of this machine: its address, and what it was asked for."""

    address: str
    hits: list[str]


@pytest.fixture
def served(guest):
    """The published folder, served."""
    hits = []

    class Handler(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_):
            hits.append(self.path)

    handler = functools.partial(Handler, directory=str(guest["published"]))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield Served(f"http://127.0.0.1:{server.server_port}", hits)
        server.shutdown()


@pytest.fixture
def look(browser):
    """Opens a page; (page, what it asked for, what the browser complained of)."""
    contexts = []

    def opened(url, width=390):
        context = browser.new_context(viewport={"width": width, "height": 844})
        contexts.append(context)
        page, asked, said = context.new_page(), [], []
        page.on("request", lambda request: asked.append(request.url))
        page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
        page.goto(url)
        return page, asked, said

    yield opened
    for context in contexts:
        context.close()


@pytest.mark.parametrize("name", ["gear.html", "manual.html"])
@pytest.mark.parametrize("way", ["file", "http", "proof copy", "changed line ends"])
def test_style_letters_and_photos_are_seen(name, way, guest, served, look, tmp_path):
    folder = guest["proof copy" if way == "proof copy" else "published"]
    if way == "changed line ends":
        folder = shutil.copytree(folder, tmp_path / "sent")
        (folder / name).write_bytes((folder / name).read_bytes().replace(b"\n", b"\r\n"))
    page, asked, said = look(f"{served.address}/{name}" if way == "http" else (folder / name).as_uri())
    seen = page.evaluate(SEEN)
    assert seen["fonts"] >= 2
    assert (seen["failed"], seen["margin"], seen["plate"]) == (0, "0px", "solid")
    assert seen["photos"]
    assert min(seen["photos"]) > 40
    assert not [text for text in said if "favicon" not in text and "404" not in text]
    assert all(url.startswith(("file:", "data:", served.address)) for url in asked)


FOREIGN = [
    '<img src="{host}/a.png">', '<link rel="stylesheet" href="{host}/a.css">', '<script src="{host}/a.js"></script>',
    "<script>document.title = 'taken'; fetch('{host}/f')</script>", '<iframe src="{host}/i"></iframe>', '<object data="{host}/o"></object>',
    '<body onload="document.title = \'taken\'">', '<img src="x" onerror="document.title = \'taken\'">', '<svg><image href="{host}/s.png"/></svg>',
    '<p style="background: url({host}/p.png)">a</p>', "<style>body {{ background: url({host}/b.png) }}</style>", '<video src="{host}/v.mp4" autoplay></video>',
    '<base href="{host}/"><img src="b.png">', '<form action="{host}/f" id="f"></form>',
]  # fmt: skip


@pytest.mark.one_in(2, "name", "foreign")
@pytest.mark.parametrize("name", ["gear.html", "manual.html"])
@pytest.mark.parametrize("foreign", FOREIGN)
def test_what_slips_into_a_page_asks_for_nothing(name, foreign, guest, served, look, tmp_path):
    """Were a foreign address ever to get through, the policy of the page keeps the browser from following it."""
    folder = shutil.copytree(guest["published"], tmp_path / "sent")
    text = (folder / name).read_text(encoding="utf-8")
    (folder / name).write_text(
        text.replace("<main>", f"<main>{foreign.format(host=served.address)}", 1), encoding="utf-8"
    )
    page, _, _ = look((folder / name).as_uri())
    if "<form" in foreign:
        page.evaluate("() => document.getElementById('f').submit()")
    page.wait_for_timeout(150)
    assert page.title() != "taken"
    assert not served.hits


def test_a_long_note_breaks_no_page(guest, look, tried):
    tried(3)
    for name in ("fire.html", "manual.html"):
        page, _, _ = look((guest["published"] / name).as_uri())
        assert page.locator(".notes pre").count() == 1
        assert page.evaluate(WIDER) <= 0, name
    text = (guest["published"] / "fire.html").read_text(encoding="utf-8")
    assert "<h3>Ice</h3>" in text


@pytest.mark.one_in(2, "paper")
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_a_long_note_breaks_no_sheet(paper, guest, pdf_engine, capsys):
    boats = guest["published"].parents[2] / "boats"
    code = program.main(
        ["publish", str(boats), "--only", "book", "--paper", paper, "--into", str(boats.parent / paper)]
    )
    assert (code, capsys.readouterr().out.count("defect")) == (0, 0)


def test_the_words_in_a_photo_stay_in_it(guest):
    for path in guest["published"].rglob("*"):
        assert path.is_dir() or CANARY.encode() not in path.read_bytes()
