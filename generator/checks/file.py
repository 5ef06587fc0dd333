"""What reading a file finds by itself, described for `why` and the table of checks."""

from generator.survey.registry import DEFECT, DESCRIPTION, INSPECTION, NOTE, RECOMMENDATION, describe

_OWN = "this program's file format"

describe(
    "file.unreadable",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """The file can be read as keys and values.
    Why: a file that breaks off or mixes its indentation would be published with half of it missing.
    Remedy: look at the line named; the message says what to write there.""",
)
describe(
    "file.format",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """The file has the format this program reads.
    Why: a file of another format would be misunderstood silently.
    Remedy: write the format number the message names, after comparing with a new starter file.""",
)
describe(
    "file.unknown-key",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """Every key is one the program knows.
    Why: a misspelt key is a fact that never reaches the manual.
    Remedy: write the nearest key named in the message, or move the text into a note.""",
)
describe(
    "file.duplicate-key",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """No key stands twice in one block.
    Why: one of the two values would be dropped, and it may be the true one.
    Remedy: keep the true one.""",
)
describe(
    "file.missing-key",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """Every required key is there.
    Why: each required key answers a question that somebody aboard will ask in an emergency.
    Remedy: write the key, or the word unknown for its value until it is found out.""",
)
describe(
    "file.bad-value",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """Every value is of the kind its key holds.
    Why: a figure without unit or a date that can be read two ways is guessed wrong one day.
    Remedy: write it as the message shows.""",
)
describe(
    "file.blank-value",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """No value is left blank.
    Why: a blank can mean none, not known or forgotten; the reader cannot tell.
    Remedy: write the value, or unknown; remove the key if there is none.""",
)
describe(
    "file.not-known-yet",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """What the steps and the essential checks need is known.
    Why: a step with a hole in it stops people when they have no time; a figure that only an estimate needs leaves that
    estimate out (a recommendation), other unknown values are printed as not known.
    Remedy: find out aboard or ask the maker, and write it; a proof copy can be printed meanwhile.""",
)
describe(
    "file.refused-form",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """No anchors, aliases or tags are used.
    Why: they make one line mean something that stands elsewhere; whoever corrects a date must see what it changes.
    Remedy: write the value out, or put what sister ships share into a class file.""",
)
describe(
    "file.class-file",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """The class file named in based-on is there and stands alone.
    Why: what sister ships share would be missing.
    Remedy: name its path as seen from the vessel file.""",
)
describe(
    "file.private-missing",
    DEFECT,
    DESCRIPTION,
    _OWN,
    """Every value marked private has its line in private.yaml.
    Why: the crew's copies would have a hole where a number belongs.
    Remedy: write the line the message names.""",
)
describe(
    "file.private-unused",
    RECOMMENDATION,
    DESCRIPTION,
    _OWN,
    """Nothing in private.yaml is unused.
    Why: a line nobody asks for is often a misspelt one.
    Remedy: correct the key, or delete the line.""",
    deferrable=True,
)
describe(
    "steps.gap",
    DEFECT,
    "composition",
    _OWN,
    """No step has a gap.
    Why: a step must name this boat's own place, side and gear; a gap stops the reader at the worst moment.
    Remedy: write the key named in the message.""",
)
describe(
    "reader.skipped",
    NOTE,
    INSPECTION,
    _OWN,
    """Every output asked for is written.
    Why: values that stand as private lie in private.yaml; without it a crew's copy would have holes where numbers belong.
    Remedy: lay private.yaml beside vessel.yaml and publish again.""",
)
describe(
    "output.not-written",
    DEFECT,
    INSPECTION,
    _OWN,
    """What was published can be written.
    Why: a folder that holds other people's files, a full disk or a missing PDF engine stops it; the old manual stays.
    Remedy: do what the message says and publish again.""",
)
describe(
    "program.fault",
    DEFECT,
    INSPECTION,
    _OWN,
    """The program itself does its work.
    Why: nothing is published from work that broke off; the old manual stays.
    Remedy: set MUSTERBOOK_TRACE=1, publish again, and report what it prints.""",
)
