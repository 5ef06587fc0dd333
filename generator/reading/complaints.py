"""What the parser complains of, in the words of whoever keeps the file, placed where the mistake is."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from generator.reading.findings import Finding, Place, Weight
from generator.reading.nodes import Source

BREAK = re.compile(r"\r\n|\r|\n")


def refuse(
    source: Source, line: int, column: int, message: str, remedy: str, check: str = "file.unreadable"
) -> Finding:
    """A finding at a line and column that count from 0."""
    place = Place(source.file, line + 1, column + 1)
    return Finding(check, Weight.DEFECT, message, place, remedy)


@lru_cache(maxsize=1)
def rows(text: str) -> list[str]:
    """The lines of a text."""
    return BREAK.split(text)


BACKSLASH = (
    "a backslash in double quotes makes a sign that cannot be printed",
    r"write the text in single quotes: 'C:\boats'",
)
NO_KEY = (
    "there is no key before the colon",
    "write a key, or put the text in quotes if it is meant as a value",
)
LINES_IN_KEY = (
    "a line break stands in this key",
    "write the key in one line; text of several lines is a value, and stands behind a key",
)


def bare_mark(source: Source, line: int, column: int) -> Finding:
    """A question mark that stands for no value."""
    return refuse(
        source,
        line,
        column,
        "a bare '?' stands here",
        "write the word unknown for what is not known yet",
        "file.blank-value",
    )


@dataclass(frozen=True)
class Complaint:
    """What the parser says: the problem, what it was reading, where it noticed and where that began; lines and columns from 0."""

    problem: str
    context: str = ""
    line: int = 0
    column: int = 0
    opened: tuple[int, int] = (0, 0)


def explain(complaint: Complaint, text: str, source: Source) -> Finding:  # noqa: C901, PLR0912 - a case a kind of mistake
    """The complaint in a skipper's words, placed where the mistake is rather than where the parser noticed it."""
    problem, context, opened = complaint.problem, complaint.context, complaint.opened
    line, column = complaint.line, complaint.column
    lines = rows(text)
    if not "".join(lines[line:]).strip():  # the parser noticed at the end of the file
        line = next(
            (number for number in range(min(line, len(lines) - 1), -1, -1) if lines[number].strip()), 0
        )
        column = len(lines[line])
    row = lines[line]
    before, letter = row[:column], row[column : column + 1]
    above = next((number for number in range(line - 1, -1, -1) if lines[number].strip()), line)
    tab = next(
        (number for number in (line, above) if number < len(lines) and re.match(r" *\t", lines[number])), None
    )
    bare = re.search(r"(?:^|[\[{,:-])\s*(\?)\s*(?:$|[,\]}#])", row)
    curly = re.search(r"[‘’“”„]", row)

    def told(message: str, remedy: str, line: int = line, column: int = column) -> Finding:
        return refuse(source, line, column, message, remedy)

    if "nesting" in problem:
        return told(
            "brackets are opened here, one in the other, deeper than any file goes", source.sort.too_deep
        )
    if tab is not None or "\\t" in problem:
        place = (tab, lines[tab].index("\t")) if tab is not None else (line, column)
        return told(
            "a tab stands where spaces belong",
            "indent with spaces; set the editor to write spaces for the Tab key",
            *place,
        )
    if bare:
        return bare_mark(source, line, bare.start(1))
    if curly and ("mapping values" in problem or "expected" in problem):
        return told(
            "curly quotes stand where straight ones belong",
            'type straight quotes: "text"',
            line,
            curly.start(),
        )
    if "mapping values are not allowed" in problem:
        if re.search(r":\s", before.lstrip("- ")):
            return told(
                "there is a second ': ' on this line",
                'put text that holds ": " in quotes: name: "Anna: the second"',
            )
        return told(
            "this line is indented further than the one above it, which has its value already",
            "keys of one block start in the same column",
            line,
            len(row) - len(row.lstrip()),
        )
    if "quoted scalar" in context and "escape" not in problem and "hex" not in problem:
        return told(
            "a quote is opened here and never closed",
            "close it on the same line; text that holds \" goes in single quotes, text that holds ' in double ones",
            *opened,
        )
    if "escape" in problem or "hex" in problem:
        return told(
            "a backslash in double quotes starts a code here",
            BACKSLASH[1],
            line,
            max(row.find("\\", max(column - 1, 0)), 0),
        )
    if "could not find expected ':'" in problem:
        return told(
            "this line, or the one below it, has no ': ' after its key",
            "write 'key: value' with a space after the colon",
            *opened,
        )
    if "block scalar" in context:
        return told(
            f"a value cannot start with '{lines[opened[0]][opened[1]]}' on its line",
            "put the value in quotes",
            *opened,
        )
    if "cannot start any token" in problem or "node content" in problem:
        return (
            told(f"a value cannot start with '{letter}'", "put the value in quotes")
            if letter
            else told(
                "the file ends before its last bracket or value is finished",
                "close every bracket, and write the value",
            )
        )
    if "flow" in context and letter == ":" and re.search(r":\s", re.split(r"[\[{,]", before)[-1]):
        return told(
            "there is a second ': ' in this entry",
            'put text that holds ": " in quotes: name: "Anna: the second"',
        )
    if "flow" in context and before.rstrip().endswith(("'", '"')) and letter not in ("", ",", "]", "}"):
        return told(
            "text follows a closing quote",
            "close the quote that is left open before it; text that holds ' goes in double quotes",
        )
    if "flow" in context:
        return told(
            "a bracket is opened here and not closed before the next key",
            "close it; text that holds , [ ] { or } goes in quotes",
            *opened,
        )
    if "directive" in problem or "directive" in context or "incompatible YAML" in problem:
        return told(
            "a line that starts with % gives orders to other programs", "remove the line", opened[0], 0
        )
    if letter == ":" and not before.strip():
        return told(*NO_KEY)
    if before.strip() and not before.strip().strip("-"):
        return told("this line does not line up with the ones above it", _IN_ONE_COLUMN)
    if before.strip():
        return told(
            "text follows a closing quote or bracket",
            "put the whole value in one pair of quotes, and look for a quote left open above",
        )
    if "document start" in problem and lines[above].startswith("..."):
        return told("the line '...' ended the file before this", "remove the line '...'", above, 0)
    if "expected" in problem:
        return told("this line does not line up with the ones above it", _IN_ONE_COLUMN)
    return told(f"the line cannot be read ({problem})", "check quotes, brackets and colons here")


_IN_ONE_COLUMN = "keys of one block start in the same column; list items start with '- ', all in one column"
