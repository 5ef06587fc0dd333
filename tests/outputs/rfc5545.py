"""A strict reader of iCalendar streams as we write them: what RFC 5545 asks for, by section, and no leniency."""

import re
from collections import Counter
from datetime import UTC, date, datetime

_LINE = re.compile(
    r"([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:\"[^\"\x00-\x1f]*\"|[^\";:,\x00-\x1f]*))*):(.*)", re.DOTALL
)
_DURATION = re.compile(r"[+-]?P(?:\d+W|\d+D(?:T(?:\d+H)?(?:\d+M)?(?:\d+S)?)?|T(?:\d+H)?(?:\d+M)?(?:\d+S)?)")
_TEXT = ("SUMMARY", "DESCRIPTION", "LOCATION", "UID", "PRODID")
# 3.6: name -> (needed once, allowed at most once)
_RULES = {
    "VCALENDAR": ({"PRODID", "VERSION"}, {"CALSCALE", "METHOD", "X-WR-CALNAME", "X-WR-CALDESC"}),
    "VEVENT": (
        {"UID", "DTSTAMP", "DTSTART"},
        {"DTEND", "SUMMARY", "DESCRIPTION", "LOCATION", "SEQUENCE", "TRANSP", "CLASS"},
    ),
    "VALARM": ({"ACTION", "TRIGGER", "DESCRIPTION"}, {"DURATION", "REPEAT"}),
}
_MANY = {"VCALENDAR": set(), "VEVENT": {"CATEGORIES", "COMMENT"}, "VALARM": set()}
_INSIDE = {"VCALENDAR": None, "VEVENT": "VCALENDAR", "VALARM": "VEVENT"}


def unfolded(text: str) -> list[str]:
    """3.1: content lines, the folds taken out."""
    return re.sub(r"\r\n[ \t]", "", text).split("\r\n")[:-1]


def faults(data: bytes) -> list[str]:
    """Everything in which a stream is not as RFC 5545 has it; empty for a valid one."""
    found = []
    if re.search(rb"(?<!\r)\n|\r(?!\n)", data) or not data.endswith(b"\r\n"):
        found.append("3.1: line ends are CR LF")
    found += [f"3.1: more than 75 octets: {line[:20]!r}" for line in data.split(b"\r\n") if len(line) > 75]
    for line in data.split(b"\r\n"):
        try:
            line.decode("utf-8")
        except UnicodeDecodeError:
            found.append("3.1: a character is cut by a fold")
    text = data.decode("utf-8", "replace")
    if re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", text):
        found.append("3.3.11: control characters")
    return found + _components(unfolded(text))


def _components(lines):
    found, stack, uids = [], [], Counter()
    for line in lines:
        match = _LINE.fullmatch(line)
        if not match:
            found.append(f"3.1: no name and value: {line[:30]!r}")
            continue
        name, parameters, value = match[1].upper(), match[2].upper(), match[3]
        if name == "BEGIN":
            if value not in _INSIDE or (_INSIDE[value] != (stack[-1][0] if stack else None)):
                found.append(f"3.6: {value} begins at the wrong place")
            stack.append((value, {}))
        elif name == "END":
            if not stack or stack[-1][0] != value:
                found.append(f"3.6: END:{value} closes nothing")
                continue
            kind, properties = stack.pop()
            found += _properties(kind, properties)
            if kind == "VEVENT":
                uids.update(value for _, value in properties.get("UID", ()))
        elif not stack:
            found.append(f"3.4: {name} outside of any component")
        else:
            stack[-1][1].setdefault(name, []).append((parameters, value))
    found += [f"3.6: {kind} has no END" for kind, _ in stack]
    return found + [f"3.8.4.7: UID used twice: {uid}" for uid, count in uids.items() if count > 1]


def _properties(kind, properties):
    if kind not in _RULES:
        return [f"3.6: {kind} is none of ours"]
    needed, once = _RULES[kind]
    found = [f"3.6: {kind} has no {name}" for name in sorted(needed - set(properties))]
    found += [
        f"3.6: {kind} has {name} more than once"
        for name in needed | once
        if len(properties.get(name, ())) > 1
    ]
    found += [
        f"3.6: {name} is no property of {kind}"
        for name in sorted(set(properties) - needed - once - _MANY[kind])
    ]
    for name, rows in properties.items():
        for parameters, value in rows:
            found += [f"{each} ({kind})" for each in _value(name, parameters, value)]
    days = [_date(properties[name][0][1]) if name in properties else None for name in ("DTSTART", "DTEND")]
    if all(days) and not days[0] < days[1]:
        found.append("3.8.2.2: DTEND is not later than DTSTART")
    return found


def _value(name, parameters, value):
    if (
        name in _TEXT
        and re.search(r"(?<!\\)(?:\\\\)*[;,]|\\(?![\\;,nN])(?<!\\\\)", value)
        and name != "PRODID"
    ):
        return [f"3.3.11: {name} holds ; or , or \\ without escape"]
    if name in ("DTSTART", "DTEND") and (parameters != ";VALUE=DATE" or not _date(value)):
        return [f"3.3.4: {name} is no DATE"]
    if name == "DTSTAMP" and not re.fullmatch(r"\d{8}T\d{6}Z", value):
        return ["3.8.7.2: DTSTAMP is no date-time in UTC"]
    if name == "SEQUENCE" and not re.fullmatch(r"\d+", value):
        return ["3.8.7.4: SEQUENCE is no whole number from 0"]
    if name == "TRANSP" and value not in ("OPAQUE", "TRANSPARENT"):
        return ["3.8.2.7: TRANSP is OPAQUE or TRANSPARENT"]
    if name == "TRIGGER" and not _DURATION.fullmatch(value):
        return ["3.8.6.3: TRIGGER is no duration"]
    if name == "ACTION" and value not in ("AUDIO", "DISPLAY", "EMAIL"):
        return ["3.8.6.1: ACTION is AUDIO, DISPLAY or EMAIL"]
    if name == "VERSION" and value != "2.0":
        return ["3.7.4: VERSION is 2.0"]
    return ["3.8.4.7: UID is blank"] if name == "UID" and not value.strip() else []


def _date(text):
    try:
        return (
            datetime.strptime(text, "%Y%m%d").replace(tzinfo=UTC).date()
            if re.fullmatch(r"\d{8}", text)
            else None
        )
    except ValueError:
        return None


def events(data: bytes) -> list[dict]:
    """The events in their order: properties as text without escapes, days as dates, `alarms` the triggers."""
    rows, inside_alarm = [], False
    for line in unfolded(data.decode("utf-8")):
        name, _, value = line.partition(":")
        name = name.partition(";")[0]
        if line == "BEGIN:VEVENT":
            rows.append({"alarms": []})
        elif name in ("BEGIN", "END") and value == "VALARM":
            inside_alarm = name == "BEGIN"
        elif inside_alarm:
            rows[-1]["alarms"] += [value] if name == "TRIGGER" else []
        elif rows:
            rows[-1].setdefault(name, _read(name, value))
    return rows


def _read(name, value) -> str | date:
    if name in ("DTSTART", "DTEND"):
        return _date(value)
    if name == "DTSTAMP":
        return datetime.strptime(value, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    return re.sub(r"\\(.)", lambda match: "\n" if match[1] in "nN" else match[1], value)
