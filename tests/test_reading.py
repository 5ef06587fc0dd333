"""Text becomes a tree with exact places, or findings that say what is wrong, where, and what to write instead."""

import codecs
import os
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_tree import plain

from generator.machine import opening
from generator.reading import tree as reading
from generator.reading.nodes import Listing, Mapping, Scalar, Source, place_of
from generator.reading.tree import (
    DEPTH_LIMIT,
    EVENT_LIMIT,
    SIZE_LIMIT_BYTES,
    Unreadable,
    decode,
    read,
    read_file,
)

ROOT = Path(__file__).resolve().parent.parent
PARSERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]


@pytest.fixture(params=PARSERS, ids=lambda parser: parser.__name__)
def parser(request, monkeypatch):
    """Both parsers: an installation without the C library speaks of the same places in the same words."""
    monkeypatch.setattr(reading, "_PARSER", request.param)


def found(text):
    """What is found in the text, as place and message."""
    return [
        f"{each.place.line}:{each.place.column} {each.message}"
        for each in read(text, Source("vessel.yaml"))[1]
    ]


def tree(text):
    made, findings = read(text, Source("vessel.yaml"))
    assert findings == []
    return made


def test_every_scalar_is_text_as_typed(parser):
    text = "a: 12:30\nb: 0123\nc: no\nd: 3.10\ne: 2026-05-01\nf: 5' 6\"\ng: ~\nh: +44 7700\n'i j': \" k \"\n"
    assert plain(tree(text)) == {
        "a": "12:30",
        "b": "0123",
        "c": "no",
        "d": "3.10",
        "e": "2026-05-01",
        "f": "5' 6\"",
        "g": "~",
        "h": "+44 7700",
        "i j": " k ",
    }


def test_places_are_exact(parser):
    made = tree(
        "# first\nvessel:\n  name: Ørnen   # said\n  sizes: [12 m, {beam: 3.8 m}]\nlist:\n  - one\n  - two: 2\n"
    )

    def at(node, key=""):
        place = place_of(node, key)
        return str(place), place.key

    vessel = made.entries["vessel"]
    assert at(made.keys["vessel"]) == ("vessel.yaml:2:1", "")
    assert at(vessel.entries["name"], "vessel.name") == ("vessel.yaml:3:9", "vessel.name")
    assert at(vessel.keys["sizes"])[0] == "vessel.yaml:4:3"
    assert at(vessel.entries["sizes"])[0] == "vessel.yaml:4:10"
    assert at(vessel.entries["sizes"].items[0])[0] == "vessel.yaml:4:11"
    assert at(vessel.entries["sizes"].items[1].entries["beam"])[0] == "vessel.yaml:4:24"
    assert [at(item)[0] for item in made.entries["list"].items] == ["vessel.yaml:6:5", "vessel.yaml:7:5"]
    assert isinstance(made, Mapping)
    assert isinstance(made.entries["list"], Listing)
    assert isinstance(vessel.entries["name"], Scalar)


def test_columns_count_characters_not_bytes(parser):
    assert place_of(tree("ø: ü\nname: {ä: 海風, b: x}\n").entries["name"].entries["b"]).column == 18


@pytest.mark.parametrize("data", [
    b"a: 1\nb: \xc3\xb8\n", codecs.BOM_UTF8 + b"a: 1\nb: \xc3\xb8\n", b"a: 1\r\nb: \xc3\xb8\r\n", b"a: 1\rb: \xc3\xb8\r",
    codecs.BOM_UTF16_LE + "a: 1\nb: ø\n".encode("utf-16-le"), codecs.BOM_UTF16_BE + "a: 1\r\nb: ø".encode("utf-16-be"),
    b"---\na: 1\nb: \xc3\xb8\n...\n", b"%YAML 1.1\n---\na: 1\nb: \xc3\xb8",
])  # fmt: skip
def test_encodings_and_line_ends_that_are_read(data, parser):
    assert plain(tree(decode(data, Source("vessel.yaml")))) == {"a": "1", "b": "ø"}


@pytest.mark.parametrize(("data", "place", "message"), [
    (b"a: 1\nport: H\xf8vn\n", "2:8", "a character here is not UTF-8 text"),
    (codecs.BOM_UTF8 + b"\xc3\xb8: H\xf8vn\n", "1:5", "a character here is not UTF-8 text"),
    (b"a: 1\nb: x\x00y\n", "2:5", "the file holds bytes that are no text"),
    ("a: 1\n".encode("utf-16-le"), "1:2", "the file holds bytes that are no text"),
    ("a: 1\n".encode("utf-32"), "1:1", "the file holds bytes that are no text"),
    (codecs.BOM_UTF16_LE + b"a\x00:", "1:1", "a character here is not UTF-8 text"),
    (b"\x89PNG\r\n\x1a\n\x00\x00", "1:1", "a character here is not UTF-8 text"),
    (b"PK\x03\x04\x14\x00\x06\x00", "1:6", "the file holds bytes that are no text"),
    (b"a" * (SIZE_LIMIT_BYTES + 1), "1:1", "the file is larger than 1,000 kB, the most a vessel file may have"),
])  # fmt: skip
def test_bytes_that_are_no_text(data, place, message):
    with pytest.raises(Unreadable) as caught:
        decode(data, Source("vessel.yaml"))
    finding = caught.value.finding
    assert (f"{finding.place.line}:{finding.place.column}", finding.message) == (place, message)
    assert finding.remedy


FORMS = {
    "tab": ("vessel:\n\tname: A\n", ["2:1 a tab stands where spaces belong"]),
    "tab after spaces": ("vessel:\n  a: 1\n  \tb: 2\n", ["3:3 a tab stands where spaces belong"]),
    "bare ? alone": ("a: 1\n?\n", ["2:1 a bare '?' stands here"]),
    "no key": (": x\n", ["1:1 there is no key before the colon"]),
    "an empty key": ('a: 1\n"": x\n', ["2:1 there is no key before the colon"]),
    "second colon": ("name: Anna: the second\n", ["1:11 there is a second ': ' on this line"]),
    "deeper than a value": ("a: b\n  c: d\n", ["2:3 this line is indented further than the one above it, which has its value already"]),
    "open double quote": ('a: 1\nb: "c\nd: e\n', ["2:4 a quote is opened here and never closed"]),
    "open single quote": ("a: 1\nb: 'c\nd: e\n", ["2:4 a quote is opened here and never closed"]),
    "quote in quotes": ("a: 'it's'\n", ["1:8 text follows a closing quote or bracket"]),
    "text after a bracket": ("a: {b: c} d\n", ["1:11 text follows a closing quote or bracket"]),
    "open bracket at the end": ("a: 1\nb: {", ["2:5 the file ends before its last bracket or value is finished"]),
    "open bracket": ("a: [b, c\nd: e\n", ["1:4 a bracket is opened here and not closed before the next key"]),
    "open brace": ("a: {b: c\nd: e\n", ["1:4 a bracket is opened here and not closed before the next key"]),
    "second colon in braces": ("a: {b: c: d}\n", ["1:9 there is a second ': ' in this entry"]),
    "open quote in braces": ('a: {b: "c, d: "e"}\n', ["1:16 text follows a closing quote"]),
    "curly quotes": ("a: “b: c”\n", ["1:4 curly quotes stand where straight ones belong"]),
    "no colon": ("a: 1\nlength 12 m\nb: 2\n", ["2:1 this line, or the one below it, has no ': ' after its key"]),
    "no blank after the colon": ("a: 1\nlength:12 m\nb: 3\n", ["2:1 this line, or the one below it, has no ': ' after its key"]),
    "key out of line": ("vessel:\n    name: A\n  type: b\n", ["3:3 this line does not line up with the ones above it"]),
    "item out of line": ("a:\n  - b\n - c\n", ["3:2 this line does not line up with the ones above it"]),
    "key among items": ("a:\n  - b\n  c: 1\n", ["3:3 this line does not line up with the ones above it"]),
    "starts with %": ("a: %x\n", ["1:4 a value cannot start with '%'"]),
    "starts with @": ("a: @x\n", ["1:4 a value cannot start with '@'"]),
    "starts with >": ("a: > x\n", ["1:4 a value cannot start with '>' on its line"]),
    "starts with ,": ("a: , b\n", ["1:4 a value cannot start with ','"]),
    "backslash code": ('a: "C:\\windows"\n', ["1:7 a backslash in double quotes starts a code here"]),
    "backslash sign": ('a: "C:\\boats"\n', ["1:4 a backslash in double quotes makes a sign that cannot be printed"]),
    "terminal order": ('a: "\\e[31mred"\n', ["1:4 a backslash in double quotes makes a sign that cannot be printed"]),
    "anchor": ("a: &x y\n", ["1:4 anchors and aliases ('&', '*') are not used in a vessel file"]),
    "alias": ("a: *x\n", ["1:4 anchors and aliases ('&', '*') are not used in a vessel file"]),
    "merge": ("a: &x {b: 1}\nc:\n  <<: *x\n", ["1:4 anchors and aliases ('&', '*') are not used in a vessel file",
                                              "3:7 anchors and aliases ('&', '*') are not used in a vessel file"]),
    "tag": ("a: !!int 3\nb: !x {c: 1}\n", ["1:4 tags ('!') are not used in a vessel file", "2:4 tags ('!') are not used in a vessel file"]),
    "second document": ("a: 1\n---\nb: 2\n", ["2:1 a second document starts here ('---')"]),
    "after the end": ("a: 1\n...\nb: 2\n", ["2:1 the line '...' ended the file before this"]),
    "orders": ("%YAML 2.0\n---\na: 1\n", ["1:1 a line that starts with % gives orders to other programs"]),
    "a list": ("- a\n", ["1:1 the file does not start with a key such as 'format:'"]),
    "a word": ("hello\n", ["1:1 the file does not start with a key such as 'format:'"]),
    "nothing": ("", ["1:1 the file is empty"]),
    "blanks": (" \n\n", ["1:1 the file is empty"]),
    "a comment": ("# x\n", ["1:1 the file is empty"]),
    "quoted nothing": ('""', ["1:1 the file is empty"]),
    "a list as a key": ("[a, b]: c\nd: 1\n", ["1:1 a list or mapping stands where a key belongs"]),
    "duplicates": ("a: 1\nb: {c: 1, c: 2}\na: 3\n", ["2:11 'c' stands twice in the same block, first on line 2",
                                                     "3:1 'a' stands twice in the same block, first on line 1"]),
    "deep": ("a: " + "[" * 40 + "]" * 40, [f"1:{3 + DEPTH_LIMIT} lists and keys lie more than 24 deep here"]),
    "blank that is no space": ("a:\n\u00a0\u00a0b: 1\n", ["2:2 the line is indented with a blank that is no plain space"]),
    "zero width": ("a: 12\u200b m\n", ["1:6 an invisible character stands here (U+200B)"]),
    "turned round": ("a: \u202ex\n", ["1:4 an invisible character stands here (U+202E)"]),
    "other line break": ("a: x\u2028y\nb: \x0c\n", ["1:5 an invisible character stands here (U+2028)",
                                                    "2:4 an invisible character stands here (U+000C)"]),
    "lost character": ("a: H\ufffdvn\n", ["1:5 a character was lost here"]),
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
def test_forms_that_are_refused(form, parser):
    text, expected = FORMS[form]
    assert found(text) == expected
    assert all(each.remedy for each in read(text, Source("vessel.yaml"))[1])


def test_a_tab_after_a_colon_is_no_traceback(parser):
    assert found("a:\tb\n") in ([], ["1:3 a tab stands where spaces belong"])


REMEDIES = {
    "bare ? alone": "write the word unknown for what is not known yet",
    "second colon": 'put text that holds ": " in quotes: name: "Anna: the second"',
    "second colon in braces": 'put text that holds ": " in quotes: name: "Anna: the second"',
    "open quote in braces": "close the quote that is left open before it; text that holds ' goes in double quotes",
    "tab": "indent with spaces; set the editor to write spaces for the Tab key",
    "curly quotes": 'type straight quotes: "text"',
    "no colon": "write 'key: value' with a space after the colon",
    "duplicates": "keep the one that is true and delete the other",
    "nothing": "start one with: musterbook commission NAME",
    "second document": "one file describes one vessel: remove the line '---'",
    "backslash sign": r"write the text in single quotes: 'C:\boats'",
    "alias": "write the value out, or put what sister ships share into a class file and name it in 'based-on'; "
             "text that starts with & or * goes in quotes",
}  # fmt: skip


@pytest.mark.parametrize("form", REMEDIES)
def test_the_remedies_word_for_word(form):
    assert read(FORMS[form][0], Source("vessel.yaml"))[1][0].remedy == REMEDIES[form]


def test_a_duplicate_names_both_places():
    finding = read("a: 1\nb: 2\na: 3\n", Source("boats/vessel.yaml"))[1][0]
    assert (str(finding.place), [str(each) for each in finding.also]) == (
        "boats/vessel.yaml:3:1",
        ["boats/vessel.yaml:1:1"],
    )


def test_mistakes_of_form_are_told_together():
    assert len(found("a: &x 1\na: 2\nb: !t 3\nc:\n  - ?\nd: *x\n")) == 4


def test_after_a_refused_form_the_rest_is_still_read():
    made = read("a: *x\nb: 2\n[c]: 3\nd: 4\n", Source("vessel.yaml"))[0]
    assert {key: plain(value) for key, value in made.entries.items()} == {"a": "", "b": "2", "d": "4"}


def test_private_keys_are_not_quoted():
    finding = read("secret: 1\nsecret: 2\n", Source("private.yaml", private=True))[1][0]
    assert finding.message == "this key stands twice in the same block, first on line 1"
    assert "secret" not in repr(finding)


def test_what_is_no_file(tmp_path):
    def said(path):
        made, findings = read_file(path, "boat/vessel.yaml")
        assert made is None
        assert (len(findings), str(findings[0].place)) == (1, "boat/vessel.yaml:1:1")
        return findings[0].message

    (tmp_path / "folder").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    (tmp_path / "circle").symlink_to(tmp_path / "circle")
    assert said(tmp_path / "folder") == "this is a folder, and a text file belongs here"
    assert said(tmp_path / "missing") == "the file cannot be opened: No such file or directory"
    assert (
        said(tmp_path / "link")
        == "the file cannot be opened: it is a link, and what it points to is not there"
    )
    assert said(tmp_path / "circle").startswith("the file cannot be opened: ")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "vessel.yaml")
    assert (
        read_file(tmp_path / "vessel.yaml", "vessel.yaml")[1][0].message
        == "this is no plain file, and a text file belongs here"
    )


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    (tmp_path / "vessel.yaml").write_text("a: 1\n")

    def refused(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(opening.os, "open", refused)
    finding = read_file(tmp_path / "vessel.yaml", "vessel.yaml")[1][0]
    assert (finding.message, finding.remedy) == (
        "the file cannot be opened: Permission denied",
        "check the path and that you may read it",
    )


HOSTILE = {
    "ten megabytes": "'format: 1\\n' + 'a' * 10_000_000",
    "aliases of aliases": "'a: &a [x,x]\\n' + ''.join(f'b{n}: &b{n} [*a,*a,*a,*a,*a,*a,*a,*a]\\n' for n in range(9000))",
    "open brackets": "'[' * 999_000",
    "open braces": "'{a: ' * 240_000",
    "many keys": "'format: 1\\n' + ''.join(f'k{n}: 1\\n' for n in range(90_000))",
    "one key again and again": "'format: 1\\n' + 'a: 1\\n' * 190_000",
    "many unknown keys in a block": "'format: 1\\nvessel:\\n' + ''.join(f'  lenght{n}: 1\\n' for n in range(25_000))",
    "a long word for a choice": "'format: 1\\nvessel:\\n  type: ' + 'monohull ' * 100_000",
    "a long number": "'format: 1\\nvessel:\\n  persons: ' + '9' * 900_000 + '\\n  length: ' + '9' * 90_000 + ' m'",
    "many invisible characters": "'format: 1\\na: ' + chr(0x200b) * 300_000",
    "deep indentation": "''.join(' ' * n + 'a:\\n' for n in range(1400))",
    "many bare marks": "'format: 1\\ngear:\\n' + '  - ?\\n' * 160_000",
}


@pytest.mark.skipif(sys.platform == "win32", reason="this system has no limits of a process to ask for")
@pytest.mark.thorough
@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_is_refused_in_two_seconds_and_300_megabytes(kind, tmp_path):
    code = f"""
import resource, sys
from pathlib import Path
from generator.vessel.loading import load
folder = Path(sys.argv[1])
(folder / "vessel.yaml").write_text({HOSTILE[kind]}, encoding="utf-8")
before = resource.getrusage(resource.RUSAGE_SELF).ru_utime
vessel, findings = load(folder)
used = resource.getrusage(resource.RUSAGE_SELF)
status = Path("/proc/self/status")  # ru_maxrss still holds the peak of the process that started this one
peak = int(status.read_text().split("VmHWM:")[1].split()[0]) if status.exists() else used.ru_maxrss / 1024
assert findings and all(each.message and len(each.message) < 400 and each.remedy for each in findings)
print(used.ru_utime - before, peak)
"""
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    seconds, kilobytes = map(float, done.stdout.split())
    assert seconds < 2
    assert kilobytes < 300_000


def test_the_bound_on_keys_leaves_room():
    made, findings = read("".join(f"k{n}: 1\n" for n in range(EVENT_LIMIT // 2 - 10)), Source("vessel.yaml"))
    assert (made is not None, findings) == (True, [])


YAMLISH = st.text(
    alphabet=st.sampled_from(list("ab:?-&*!|>%@`'\"[]{},#\\\n\t 01~<.=\u00a0\u200b\u2028“ø")), max_size=60
)


@settings(deadline=None, max_examples=400)
@given(YAMLISH | st.text(max_size=60))
def test_arbitrary_text_never_raises(text):
    made, findings = read(text, Source("vessel.yaml"))
    assert made is not None or findings
    rows = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for each in findings:
        assert 1 <= each.place.line <= len(rows)
        assert 1 <= each.place.column <= len(rows[each.place.line - 1]) + 1
        assert each.message
        assert each.remedy


@settings(deadline=None, max_examples=200)
@given(st.binary(max_size=80))
def test_arbitrary_bytes_never_raise(data):
    try:
        read(decode(data, Source("vessel.yaml")), Source("vessel.yaml"))
    except Unreadable as error:
        assert error.finding.remedy


WORDS = st.text(
    alphabet=st.characters(
        codec="utf-8",
        exclude_categories=["Cc", "Cf", "Zl", "Zp", "Zs", "Cn", "Co"],
        exclude_characters="\ufffd",
    ),
    min_size=1,
    max_size=12,
)


@settings(deadline=None, max_examples=100)
@given(
    st.dictionaries(
        WORDS,
        st.recursive(
            WORDS,
            lambda inner: (
                st.lists(inner, min_size=1, max_size=3)
                | st.dictionaries(WORDS, inner, min_size=1, max_size=3)
            ),
            max_leaves=8,
        ),
        min_size=1,
    )
)
def test_what_is_written_is_read_as_it_was(values):
    text = yaml.safe_dump(values, default_style="'", allow_unicode=True, width=10_000)
    assert plain(tree(text)) == values
