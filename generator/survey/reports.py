"""Reports of findings: text for people, JSON, SARIF 2.1.0 and JUnit XML for machines."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any
from xml.etree import ElementTree

from generator import __version__
from generator.reading.findings import Finding, Place, Weight
from generator.reading.visible import visible
from generator.survey.listing import count, listing, plain_listing, shown
from generator.survey.registry import Check

_Json = dict[str, Any]  # a part of a JSON document
Rows = list[tuple[str, list[Finding]]]
"""Vessels with their findings."""
Unsaid = Mapping[str, Mapping[str, str]]
"""By vessel: what her file does not say, by its key, in words."""
_ALL_SAID: Unsaid = MappingProxyType({})
_NO_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
# SARIF 2.1.0 section 3.27.10: the level of a result.
_LEVELS = {Weight.DEFECT: "error", Weight.RECOMMENDATION: "warning", Weight.NOTE: "note"}
FORMS = {"json": "JSON", "sarif": "SARIF", "xml": "JUnit", "txt": "text", "log": "text"}


def of_shelves(findings: Sequence[Finding], colour: bool = False) -> str:
    """The listing of findings on the program's own shelves, and what to do about them."""
    return (
        f"the program's own data files (templates/) are faulty: {count(findings)}; nothing was begun.\n"
        f"Put back the files as installed, or mend them where the findings say.\n{plain_listing(findings, colour)}"
    )


def text(findings: Iterable[Finding], unsaid: Unsaid = _ALL_SAID) -> str:
    """The listing, how many there are, and what was not said."""
    found = list(findings)
    lines = [*listing(found).splitlines(), *[""][: bool(found)], count(found)]
    for name, subjects in unsaid.items():
        if subjects:
            lines += ["", f"{visible(name)}: not said, and so not looked at"]
            lines += [f"  {key}: {said}" for key, said in subjects.items()]
    return "\n".join(lines) + "\n"


def as_json(findings: Iterable[Finding], unsaid: Unsaid = _ALL_SAID) -> str:
    """Findings as JSON: a list in order, the counts, and what was not said."""
    found = shown(findings)
    rows = [
        {
            "check": each.check,
            "weight": each.weight.word,
            "message": each.message,
            "remedy": each.remedy,
            "item": each.item,
            **_place(each.place),
            "also": [_place(place) for place in each.also],
        }
        for each in found
    ]
    counts = {weight.word: sum(each.weight is weight for each in found) for weight in Weight}
    return (
        json.dumps(
            {
                "program": f"musterbook {__version__}",
                "counts": counts,
                "findings": rows,
                "not-said": _not_said(unsaid),
            },
            indent=2,
            ensure_ascii=False,
        )
        + "\n"
    )


def _not_said(unsaid: Unsaid) -> list[_Json]:
    return [
        {"vessel": visible(name), "key": key, "message": said}
        for name, subjects in unsaid.items()
        for key, said in subjects.items()
    ]


def _place(place: Place) -> _Json:
    return {"file": visible(place.file), "line": place.line, "column": place.column, "key": place.key}


def as_sarif(findings: Iterable[Finding], checks: dict[str, Check], unsaid: Unsaid = _ALL_SAID) -> str:
    """Findings as a SARIF 2.1.0 log of one run; columns count characters (unicodeCodePoints).

    What was not said has no place and is no result: it stands in the run's property bag (section 3.8).
    """
    found = shown(findings)
    used = sorted({each.check for each in found})
    rules = [
        {
            "id": name,
            "shortDescription": {"text": checks[name].title},
            "fullDescription": {"text": checks[name].why},
            "help": {"text": checks[name].remedy},
            "defaultConfiguration": {"level": _LEVELS[checks[name].weight]},
        }
        for name in used
        if name in checks
    ]
    index = {rule["id"]: number for number, rule in enumerate(rules)}
    results = []
    for each in found:
        result: _Json = {
            "ruleId": each.check,
            "level": _LEVELS[each.weight],
            "message": {"text": each.message + (f". {each.remedy}" if each.remedy else "")},
            "locations": [_location(each.place)],
        }
        if each.check in index:
            result["ruleIndex"] = index[each.check]
        if each.also:
            result["relatedLocations"] = [
                {"id": number, **_location(place)} for number, place in enumerate(each.also)
            ]
        results.append(result)
    log = {
        "version": "2.1.0",
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "runs": [
            {
                "tool": {"driver": {"name": "musterbook", "version": __version__, "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "results": results,
                **({"properties": {"not-said": _not_said(unsaid)}} if any(unsaid.values()) else {}),
            }
        ],
    }
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def _location(place: Place) -> _Json:
    where: _Json = {
        "physicalLocation": {
            "artifactLocation": {"uri": _uri(place.file)},
            "region": {"startLine": place.line, "startColumn": place.column},
        }
    }
    if place.key:
        where["logicalLocations"] = [{"fullyQualifiedName": place.key}]
    return where


def _uri(file: str) -> str:
    """A file's name as a URI reference (RFC 3986): relative ones stay so, absolute ones become file addresses."""
    from urllib.parse import quote

    path = file.replace("\\", "/")
    drive = re.match(r"[A-Za-z]:/", path)
    return ("file:///" if drive else "file://" if path.startswith("/") else "") + quote(
        path.encode("utf-8", "surrogateescape"), safe="/:" if drive else "/"
    )


def as_junit(vessels: Iterable[tuple[str, list[Finding]]], unsaid: Unsaid = _ALL_SAID) -> str:
    """One test suite a vessel with what was not said as its properties: each finding a test case, failed where it is a defect; a sound vessel has one passed case."""
    root = ElementTree.Element("testsuites", name="musterbook survey")
    total = failed = 0
    for name, findings in vessels:
        found = shown(findings)
        failures = sum(each.weight is Weight.DEFECT for each in found)
        suite = ElementTree.SubElement(
            root,
            "testsuite",
            name=_clean(visible(name)),
            tests=str(len(found) or 1),
            failures=str(failures),
            errors="0",
        )
        if subjects := unsaid.get(name):
            held = ElementTree.SubElement(suite, "properties")
            for key, said in subjects.items():
                ElementTree.SubElement(held, "property", name=f"not-said.{key}", value=_clean(said))
        total, failed = total + (len(found) or 1), failed + failures
        if not found:
            ElementTree.SubElement(suite, "testcase", classname=_clean(visible(name)), name="survey")
        for each in found:
            case = ElementTree.SubElement(
                suite, "testcase", classname=each.check, name=_clean(f"{each.place} {each.place.key}".strip())
            )
            if each.weight is Weight.DEFECT:
                failure = ElementTree.SubElement(
                    case, "failure", message=_clean(each.message), type=each.check
                )
                failure.text = _clean(each.remedy)
            else:
                ElementTree.SubElement(case, "system-out").text = _clean(
                    f"{each.weight.word}: {each.message}. {each.remedy}"
                )
    root.set("tests", str(total))
    root.set("failures", str(failed))
    ElementTree.indent(root)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode") + "\n"


def _clean(words: str) -> str:
    """The text without what XML 1.0 (section 2.2) does not allow: control characters, surrogates, U+FFFE and U+FFFF."""
    return _NO_XML.sub("\N{REPLACEMENT CHARACTER}", words)


def form_of(name: str) -> str:
    """The form of a report file by its ending: json, sarif, xml (JUnit), txt or log. Raises ValueError."""
    ending = name.rpartition(".")[2].lower()
    if ending not in FORMS:
        raise ValueError(f"--report {name}: the ending says the form: .txt, .json, .sarif or .xml (JUnit)")
    return ending


def for_file(
    name: str,
    vessels: list[tuple[str, list[Finding]]],
    checks: dict[str, Check],
    unsaid: Unsaid = _ALL_SAID,
) -> str:
    """The report for a file, its form chosen by the ending. Raises ValueError."""
    everything = [finding for _, findings in vessels for finding in findings]
    form = form_of(name)
    if form == "json":
        return as_json(everything, unsaid)
    if form == "sarif":
        return as_sarif(everything, checks, unsaid)
    if form == "xml":
        return as_junit(vessels, unsaid)
    return text(everything, unsaid)
