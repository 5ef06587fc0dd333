"""A value that guests may not read is found in whatever file, in whatever spelling; what only looks like it is let pass."""

import base64
import io
import json
import zlib

import disguises
import pypdf
import pytest
from PIL import Image, PngImagePlugin
from specimens import BOATS

from generator.survey.withheld.files import parts_of
from generator.survey.withheld.matching import Matcher
from generator.survey.withheld.plain import placed, plain
from generator.survey.withheld.redaction import IN_PLACE, Redactor
from generator.survey.withheld.values import Kept, Withheld

TEXT_LINE = 70


def kept(*values, **more):
    return Matcher(Kept(tuple(Withheld(each, "people[mate].medical") for each in values), **more))


def is_found(matcher, name, data, drawn=""):
    return any(
        any(matcher.found(plain(part.text), is_text=part.is_text)) for part in parts_of(name, data, drawn)
    )


def page(inside):
    return f"<!DOCTYPE html><html><head><title>x</title></head><body><p>12 m</p>{inside}<p>7</p></body></html>".encode()


def folded(text):
    """As a calendar has it, in lines of 75 bytes at most."""
    line, rest = f"SUMMARY:{text}".replace(",", "\\,").replace(";", "\\;").replace("\n", "\\n"), []
    while line:
        rest.append(line[:20])
        line = line[20:]
    return "BEGIN:VEVENT\r\n" + "\r\n ".join(rest) + "\r\nEND:VEVENT\r\n"


def pdf(strings=(), stream=b"", kind="/Type /Metadata/Subtype /XML"):
    """As much of a PDF as holds strings and a packed stream."""
    held = b" ".join(strings)
    return (
        b"%%PDF-1.7\n1 0 obj\n<</Title %s>>\nendobj\n2 0 obj\n<<%s/Filter /FlateDecode>>\nstream\n%s\nendstream\nendobj\n"
        % (
            held or b"()",
            kind.encode(),
            zlib.compress(stream),
        )
    )


def typed(text):
    """A string of a PDF in brackets."""
    return (
        b"("
        + b"".join(
            b"\\" + bytes([each]) if each in b"()\\" else bytes([each]) for each in text.encode("latin-1")
        )
        + b")"
    )


def wide(text):
    """A string of a PDF in hexadecimal digits."""
    return b"<feff" + text.encode("utf-16-be").hex().encode() + b">"


def picture(text):
    """A picture that says something beside what it shows."""
    data, info = io.BytesIO(), PngImagePlugin.PngInfo()
    info.add_text("Comment", text)
    Image.new("RGB", (8, 8), "red").save(data, "png", pnginfo=info)
    return data.getvalue()


def address(kind, data):
    return f'<img src="data:{kind};base64,{base64.b64encode(data).decode()}">'


H = disguises.escaped
CONTAINERS = {
    "text of a page": lambda t: ("a.html", page(f"<p>{H(t)}</p>")),
    "in bold, in part": lambda t: ("a.html", page(f"<p>{H(t[: len(t) // 2])}<b>{H(t[len(t) // 2 :])}</b></p>")),
    "two spans": lambda t: ("a.html", page(f'<span class="a">{H(t[: len(t) // 3])}</span><span>{H(t[len(t) // 3 :])}</span>')),
    "alternative text": lambda t: ("a.html", page(f'<img src="a.png" alt="{H(t)}">')),
    "title of an element": lambda t: ("a.html", page(f'<abbr title="{H(t)}">x</abbr>')),
    "comment": lambda t: ("a.html", page(f"<!-- {H(t)} -->")),
    "style": lambda t: ("a.html", page(f'<style>p::before {{ content: "{H(t)}" }}</style>')),
    "drawing": lambda t: ("a.svg", f'<svg><text x="12.5" y="3">{H(t)}</text><path d="M1 2"/></svg>'.encode()),
    "title of a drawing": lambda t: ("a.html", page(f"<svg><title>{H(t)}</title></svg>")),
    "list of JSON": lambda t: ("a.json", json.dumps({"a": [1, t]}).encode()),
    "plain text": lambda t: ("a.txt", f"12\n{t}\n7".encode()),
    "calendar": lambda t: ("a.ics", folded(t).encode()),
    "drawn on paper": lambda t: ("a.pdf", pdf(), f"12 m\f{t}\f7"),
    "string of a PDF": lambda t: ("a.pdf", pdf([wide(t)])),
    "packed string of a PDF": lambda t: ("a.pdf", pdf(stream=b"9 0 10 40 <</Alt " + wide(t) + b">>", kind="/Type /ObjStm/N 2")),
    "metadata of a PDF": lambda t: ("a.pdf", pdf(stream=f"<?xpacket?><x:xmpmeta><dc:title>{H(t)}</dc:title></x:xmpmeta>".encode())),
    "file in a PDF": lambda t: ("a.pdf", pdf(stream=f"note\n{t}\n".encode(), kind="/Type /EmbeddedFile")),
    "page in an address": lambda t: ("a.html", page(address("text/html", page(f"<p>{H(t)}</p>")))),
    "another form": lambda t: ("a.bin", f"1 {t} 2".encode()),
}  # fmt: skip


def told(container, text):
    name, data, *drawn = CONTAINERS[container](text)
    return name, data, *drawn


@pytest.mark.attack("private")
@pytest.mark.parametrize("container", CONTAINERS)
def test_no_spelling_hides_a_value_in_a_file(container, tried):
    number, missed = 0, []
    for value in disguises.VALUES:
        matcher = kept(value)
        for name, text in disguises.of(value):
            if container == "calendar" and "\n" in text:
                continue
            number += 1
            if not is_found(matcher, *told(container, text)):
                missed.append(f"{value}, {name}: {text}")
    tried(number)
    assert missed == []
    assert number > 300


@pytest.mark.attack("private")
def test_a_value_is_found_in_names_pictures_and_addresses(tried):
    value, matcher = "+44 7700 900138", kept("+44 7700 900138")
    files = [
        ("photos/tel-447700900138-1a2b3c4d.jpg", b""),
        ("photos/%2B44%207700%20900138.jpg", b""),
        ("a.png", picture(value)),
        ("a.html", page(address("image/png", picture(value)))),
        ("a.html", page('<a href="tel:+44%207700%20900138">call</a>')),
        ("a.html", page('<a href="tel:00447700900138">call</a>')),
        ("a.html", page(f'<p data-who="{value}">x</p>')),
        ("a.html", page("<ul><li>+44 7700</li><li>900138</li></ul>")),
        ("a.css", f"/* {value} */".encode()),
        ("a.pdf", pdf([typed("tel. +44 7700 900138 (day)")])),
        ("a.pdf", pdf([rb"(+44 \067700 900138)"])),
        ("a.pdf", pdf([wide("\u202a+44\u00a07700\u00a0900138")])),
        ("a.bin", b"\0\1\2" + value.encode("utf-16-le") + b"\0\xff"),
        ("a.bin", b"\xff\xfe\0" + value.encode() + b"\0\xff"),
    ]
    tried(len(files))
    assert [name for name, data in files if not is_found(matcher, name, data)] == []


@pytest.mark.attack("private")
@pytest.mark.parametrize("value", disguises.VALUES)
def test_a_message_keeps_every_spelling_back(value, tried, tmp_path):
    """What stands round it stays."""
    hush = Redactor((tmp_path, None))
    (tmp_path / "private.yaml").write_text(f"people[mate].medical: '{value.replace(chr(39), chr(39) * 2)}'\n")
    matcher, left = kept(value), []
    number = 0
    for name, text in disguises.of(value):
        if name in ("tags between", "entities", "percent codes"):  # as typed, no one reads these as the value
            continue
        number += 1
        said = hush.text(f"the raft is for 4 persons; {text}; write it in words")
        if any(matcher.found(plain(said))) or IN_PLACE not in said:
            left.append((name, said))
        assert said.startswith("the raft is for 4 persons; ") or name == "in a sentence"
        assert said.endswith("write it in words")
    tried(number)
    assert left == []


def test_where_a_letter_stood_is_known_for_any_text():
    odd = "Straße İ ﬁ ①② Ａ１ e\u0301 a\u00adb Anne-\nMarie a_b - c\u200bd ٣ - - x -\n-y ǃ (z)"
    for text in (odd, odd.upper(), odd[::-1], "".join(sorted(odd)), ""):
        letters = placed(text)
        assert letters.spaced == plain(text).spaced
        assert len(letters.at) == len(letters.spaced)


@pytest.mark.thorough
@pytest.mark.attack("private")
@pytest.mark.one_in(3, "boat")
@pytest.mark.parametrize("boat", BOATS)
def test_nothing_that_a_pdf_says_goes_unlooked_at(specimen, boat, tried):
    """Held against another reader of PDFs: page by page, titles, bookmarks, links, words for what is drawn."""
    from datetime import date

    from specimens import VESSELS

    from generator.outputs import cards
    from generator.publishing import Job, Order, survey

    manual = survey(VESSELS / boat, boat, Order(date(2026, 6, 1))).manual
    made = cards.write(Job(manual, "guest"))
    data = made.files[cards.FILE]
    looked_at = set()
    for part in parts_of(cards.FILE, data, made.drawn[cards.FILE]):
        looked_at |= plain(part.text).words
    reader = pypdf.PdfReader(io.BytesIO(data))
    said = [page.extract_text() for page in reader.pages]
    said += [str(each) for each in (reader.metadata or {}).values()]
    said += list(_bookmarks(reader.outline)) + list(_alternatives(reader))
    words = {word for text in said for word in plain(text.replace("\n", " ")).words}
    tried(len(words))
    assert len(words) > 300
    assert {word for word in words if word not in looked_at and not _is_pieced(word, looked_at)} == set()


def _is_pieced(word, looked_at):
    """Whether the other reader ran words together that stand apart on paper, or took one apart."""
    return any(
        word[:at] in looked_at and (word[at:] in looked_at or _is_pieced(word[at:], looked_at))
        for at in range(1, len(word))
    ) or any(word in each for each in looked_at if len(word) > 1)


def _bookmarks(outline):
    for each in outline:
        if isinstance(each, list):
            yield from _bookmarks(each)
        else:
            yield each.title


def _alternatives(reader):
    for number in range(1, len(reader.xref[0]) if reader.xref else 0):
        found = reader.get_object(number)
        if isinstance(found, dict):
            for key in ("/Alt", "/ActualText", "/Contents", "/URI", "/T", "/E"):
                if isinstance(found.get(key), str):
                    yield found[key]
