"""vessels/README.md: which specimen to copy, the names a file may use, and the keys of the files."""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from shortest import CLEAN, SOUND, explained

from documents.markdown import codes, folded, page, table
from generator.manual import vocabulary
from generator.publishing import Order, survey
from generator.shelves.gear import gear_names
from generator.shelves.spaces import hull_types
from generator.vessel.keys import KeyBlock, key_blocks
from generator.vessel.loading import load
from generator.vessel.terms import TERMS
from generator.vessel.vessel import Vessel

SHORTEST_AS_OF = date(2026, 6, 1)
HERE = Path(__file__).resolve().parents[2] / "vessels"

# Whom each specimen is an example for.
COPY_FOR = {
    "kelpwren": "an open boat by the day, without a raft: what she is bailed with, who wears what, a child aboard",
    "nordgyllen": "a large motor vessel far from help: two rafts, and values kept in `private.yaml`",
    "ombrelune": "a charter boat, or any of several sisters: what they share stands in a class file, what their base says in `base.yaml`; the raft lies in a recess",
    "saltmeadow": "an owner's boat offshore: everything a file can say, with a raft that floats free",
    "tansywade": "a family's boat by the day, with two outboards and two consoles: a person who needs help, small children, a helper kept free",
    "tresmare": "two people on an ocean, in a boat that floats upside down: each does everything, pictures stand beside things",
    "zilte-wind": "a small boat along the coast, told briefly, with a raft in a locker and a `voyage.yaml`",
}

INTRODUCTION = """\
One folder a boat: `vessel.yaml` says what she is. The boats here are specimens: invented, complete, and sound on the day they
state (`specimen: {as-of: …}`, a key your own boat does not have). Start with `musterbook commission NAME`, or copy the nearest:"""

RULES = """\
## How it is written

- A date is `2026-05-20` or `2026-05`; a month is good to its last day. Nothing is guessed from `05/06`. `made` may be a year alone, as
  extinguishers are stamped: `made: {value: 2012, stamp: "12"}`.
- Of several dates of a thing the earliest governs, and is named: the expiry marked on it, what follows from when it was made, fitted,
  renewed or tested, its last service and interval. How long each kind of thing lasts, and who says so, stands in
  [`templates/lives/`](../templates/lives/README.md). What the maker of yours says goes before:
  `lives: [{from: made, life: 7 years, source: "the maker's manual, page 12"}]`.
- A figure has its unit: `12.0 m`, `39 ft`, `39' 4"`. A value may say where it comes from: `{value: 42 kg, from: label}` (or certificate,
  measured, assumed); what is assumed is printed as such.
- A key of one answer does the same left out as with `unknown`: what a step needs stops publishing, what an estimate or a check needs is
  asked for and left out, anything else costs nothing and is printed as not known. So does a list or block: left out or
  `unknown` it counts as not said, and the survey names it; `none` says that there is none. A blank, or a bare `?`, is never taken for either.
- What she has not got needs no key. An unknown key is a defect, with the nearest known one named.
- `where` names a space of the deck plan, as listed below for her hull type; `deck` renames, adds or removes some. No coordinates are
  needed.
- `persons: 1` means that she never carries more than one: then there is no station bill, no general alarm, no order to abandon.
- `based-on: ../classes/<class>.yaml` takes what sister ships share from a class file: keys are filled in, a list in the boat's own file
  replaces the class's list. A finding points at the file and line the value came from.
- `base: ../base.yaml` names the file of the base that lets her out or looks after her, for her alone or, in the class file, for all sisters: operator, mark,
  colours, telephone, hours ([`base.yaml`](base.yaml) is one). It is the base among her contacts, unless she names one of her own; cover, first
  page and cards show the operator. `base: none` in her own file where she is not of that base. The mark, PNG or JPEG, lies beside the base
  file; of the colours those are printed that stand out on white and are no safety sign's; a telephone is the crew's unless it is freed,
  and one that stands as `private` has its line, `base.phone`, in the `private.yaml` of each boat. `musterbook schema base` is for editors.
- Each file says `format: 1` in a line of its own at its top, class file and base file too. Of a file that does not, nothing is taken or quoted;
  `private.yaml` alone may leave it out, for of it nothing is quoted anyway. (A class file or `voyage.yaml` of old, whose keys are all ours,
  is still read, with a note.)
- The number is a promise: within format 1 keys are added or become optional; none is renamed, taken away or made to mean something else. A
  file that was sound is read by every later version that reads format 1; what a new check finds is recommended for one release, unless
  lives hang on it. Were a key to change, the new files would say `format: 2`, and files of format 1 would still be published for a release.
- All files of a boat, links followed, lie in the folder that hers lies in, and are plain files. Photos lie in her own folder, or beside the
  class file where that has a folder of its own. Paths are seen from her folder and written with `/`.
- `notes` are Markdown. Headings are set below that of the procedure; pictures are not printed, the words that stand for them are; links to
  telephone and mail stay, of any other the address is printed as words.
- Who may read a key stands beside it. Guest copies never hold serials, beacon ids, telephone numbers or medical facts, and name people by
  role: publishing stops where such a value, a part of it or a name stands in your own words, however it is written. One value is freed for
  guests on purpose by `for: guests` beside it: `phone: {value: +33 6 39 98 00 45, for: guests}` (or `{value: private, for: guests}`); the
  survey names each.

Two more files may lie beside it. `voyage.yaml` says who is aboard this time, from where to where and until when. `private.yaml`, which git
ignores, holds what is nobody else's business: the word `private` stands as the value in `vessel.yaml`, and one line here, named by its key
path. No value that guests may not read is ever printed in a message or a report: `[private]` stands in its place. The one of `nordgyllen/`, a specimen and therefore tracked:"""


def document() -> str:
    """The whole page."""
    private = (HERE / "nordgyllen" / "private.yaml").read_text(encoding="utf-8")
    lines = [line for line in private.splitlines() if not line.startswith("#")]
    return page(
        "The vessels' files",
        "the fields of `generator/vessel/`, the shelves and these folders",
        INTRODUCTION,
        _specimens(),
        RULES,
        "\n".join(["```yaml", *lines, "```"]),
        _shortest(),
        "## Spaces\n\nThe spaces each hull type has; other names for one stand in brackets.",
        "\n".join(_spaces(hull) for hull in hull_types()),
        "## Duties\n\nThe duties of the station bill; those in brackets may be left open, those for something she has not got fall away.",
        _duties(),
        "## Gear\n\nGear that steps and rule sets ask for has these names, alone or followed by a comma and more: "
        + ", ".join(gear_names())
        + ".",
        "## Words\n\nWords of the trade in the questions below, as a file means them.",
        "\n".join(f"- **{term}**: {says}." for term, says in TERMS.items()),
        "## Keys\n\n`musterbook keys BLOCK` prints the same of one block. *must*: it must be there. *`unknown` or left out*: what that word does there, or "
        "that the key is not there. A value that not everybody reads may be `private`.",
        "\n\n".join(_block(one) for one in key_blocks()),
    )


def _shortest() -> str:
    """The shortest sound file of the open boat, with what each line answers and what the survey still says of it."""
    text, clean = SOUND.read_text(encoding="utf-8"), CLEAN.read_text(encoding="utf-8")
    with TemporaryDirectory() as folder:
        (Path(folder) / "vessel.yaml").write_text(text, encoding="utf-8")
        done = survey(Path(folder), "shortest", Order(SHORTEST_AS_OF))
    if not done.sound or done.manual is None:
        raise ValueError(f"the shortest sound file is not sound: {done.findings}")
    duties = {
        f"{emergency.id}.{duty.id}": duty.text
        for emergency in done.manual.bill.emergencies
        for duty in emergency.duties
    }
    said = Counter(each.check for each in done.findings)
    return f"""\
## The shortest sound file

Of [`kelpwren/`](kelpwren/vessel.yaml), an open boat of 7 m for five without a raft, {len(text.splitlines())} lines are enough to be
sound; whatever is taken out of these, a step has a gap, a duty has nobody, or somebody asks in vain. Behind each stands what it answers.

```yaml
{explained(text, duties)}```

Sound promises no more than that. Of these lines the survey still says {len(done.findings)} times what she lacks or does not say
({", ".join(f"`{name}`" for name in sorted(said))}): what bails her, what stops her engine, what is heard, seen and thrown are recommended, and a boat that
goes to sea has them. {len(clean.splitlines())} lines leave the survey nothing to say; `kelpwren/` itself says what a guest asks besides."""


def _specimens() -> str:
    rows = []
    for path in sorted(HERE.glob("*/vessel.yaml")):
        vessel, findings = load(path.parent)
        if vessel is None or findings:
            raise ValueError(f"{path}: {findings}")
        rows.append(
            (
                f"[`{path.parent.name}/`]({path.parent.name}/vessel.yaml)",
                _is(vessel),
                _rafts(vessel),
                COPY_FOR[path.parent.name],
            )
        )
    return table(("folder", "she is", "her rafts", "copy her for"), rows)


def _is(vessel: Vessel) -> str:
    one = vessel.vessel
    if one is None:
        raise ValueError("a specimen says what she is")
    return f"{one.type}, {one.length}, {one.persons} persons, {one.waters} waters, {one.use}"


def _rafts(vessel: Vessel) -> str:
    return "; ".join(
        f"{raft.container} in {raft.stowage}, held by {', '.join(raft.held_by) or 'nothing'}"
        for raft in vessel.rafts
    )


def _spaces(hull: str) -> str:
    listed = (f"{name} ({', '.join(also)})" if also else name for name, also in vocabulary.spaces(hull))
    return f"- `{hull}`: {', '.join(listed)}"


def _duties() -> str:
    lines = []
    for emergency, there in vocabulary.duties().items():
        said = [(f"`{each.name}` {folded(each.words)}", each.essential) for each in there]
        lines.append(
            f"- `{emergency}`: {'. '.join(words if must else f'({words})' for words, must in said)}."
        )
    return "\n".join(lines)


def _block(one: KeyBlock) -> str:
    form = "" if one.form in ("file", "block") else f" ({one.form})"
    also = f" The same stands under {codes(one.also)}." if one.also else ""
    rows = [
        (
            f"`{key.name}`",
            "yes" if key.must else "",
            key.question,
            key.written + (f", `{key.leads_to}`" if key.leads_to else ""),
            key.unknown,
            key.read_by,
        )
        for key in one.keys
    ]
    head = f"### `{one.name}`{form}\n\n{one.says}{also}"
    return (
        f"{head}\n\n{table(('key', 'must', 'answers', 'written', '`unknown` or left out', 'read by'), rows)}"
    )
