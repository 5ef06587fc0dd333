"""Who asks a language for which text, and with what it fills the slots: program, templates, fields and shelves."""

from __future__ import annotations

import functools
import re
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from generator.manual.inventory import KIND_ORDER
from generator.manual.procedures import slug
from generator.reading.fields import READERS, Choice, Compound, Field, Text, Texts
from generator.reading.names import STANDINGS
from generator.shelves.folder import templates_folder
from generator.shelves.gear import lives_among
from generator.shelves.gear_rows import GEAR
from generator.shelves.lives import LIVES, Kind
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import ReadShelves, on
from generator.shelves.spaces import HULLS
from generator.shelves.stations import STATIONS
from generator.vessel.alarms import Alarm
from generator.vessel.installed import Stop
from generator.vessel.lives import Life
from generator.vessel.particulars import Contact, Particulars
from generator.vessel.people import Voyage
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from generator.reading.block import Block


class Asked(NamedTuple):
    """A label, who asks for it and the slots that are filled when it is printed, all of which it must have."""

    label: str
    asker: str
    slots: frozenset[str] = frozenset()


TYPED = {
    "months": frozenset[str](),
    "lives.usual": frozenset[str](),
    "lives.counted.month": frozenset({"from"}),
    "lives.counted.months": frozenset({"from", "months"}),
    "lives.counted.years": frozenset({"from", "years"}),
    "lives.counted.interval": frozenset[str](),
}
"""The texts that are fields of their block, so that they cannot be missing, and their slots."""
PAGES = {
    "about": frozenset[str](),
    "disclaimer": frozenset({"boat"}),
    "first-words": frozenset({"muster-place", "general-alarm", "abandon-order", "commander"}),
    "first-words-alone": frozenset[str](),
    "what-not": frozenset[str](),
    "never-rely": frozenset({"commander"}),
}
"""The pages of standing text, and the slots that each must have: a test holds them against what templates ask for."""
_SAID = re.compile(r"""\bsay\(\s*(["'])([a-z0-9.-]+[a-z0-9])\1""")
_ARGUMENTS = re.compile(r"""(["']).*?\1|(?P<opens>[(\[{])|(?P<closes>[)\]}])|,\s*(?P<name>\w+)\s*=(?!=)""")
_ANSWERS_OF_A_NAME = ("name",)  # a boat may be called Nothing


# What Python asks for, by the first word of the label, with its slots: a test holds it against what Python says.
_SAID_BY_PYTHON = {
    "": "not-known yes-word no-word none-word assumed",
    "thing": (
        "unnamed grab-bag grab-bag-of-several{number} in-grab-bag{what} lifejackets "
        "lifejackets-of-size{size} lifejackets-of-kind{size,kind} batteries{what} cooking-gas "
        "release{raft} alarm-in{alarm,space} walk-round the-voyage part{thing,what}"
    ),
    "fitting": "articles counted whose within told{what,place} bare{what,place}",
    "reads": (
        "no-thing no-place no-signal denials turns-round plain-words roles numbers units also-which orders also-things what-of behind-orders "
        "ly-things persons times measured untouched qualities carry-nothing keeps laid nouns "
        "articles who alone-nothing plain-joins places-alone with-what worked ways acts plain-acts ways-of lead judged also-judged asks-for "
        "looks-at papers likewise callers whatever knows no-answer denies idle tells joins conditions strokes more-places sure-papers moves "
        "spots looks any-signal either sends not-yet sides off-goes nothing-above degrees signals "
        "fixtures openings engine parts leads states ashore sounders cries aloud rig offices sea-roles shore-roles own-things does doers opposites held-by "
        "at-sides at-stern at-bow at-middle at-deck at-wheel at-engine at-below at-lockers unfit-cases unfit-condition duty-verbs ails-no-more colours opposite-places"
    ),
    "called": (
        "indoors outdoors inside on-deck bags raft pumps tender medical lifejackets steering fire-port released-extinguisher detector-of-gas spare-kill-cord shut.batteries shut.fuel shut.gas shut.engine stop.batteries stop.kill-cord stop.gas stop.fuel "
        "apart rooms closed each-side ladder hoist gas-bottles raft-knife stop.engine radio.vhf radio.handheld-vhf radio.mf/hf radio.satellite-telephone pumps.hand pumps.electric short "
        "ails.not-to ails.steer ails-to.steer ails.lift ails-to.lift ails.hear ails-to.hear ails.see ails-to.see ails.see-at-night "
        "ails-to.see-at-night ails.speak ails-to.speak ails.move ails-to.move ails.alone ails-to.alone ails.swim ails-to.swim ails.mind ails.smoke ails-to.smoke "
        "acted-on.rafts acted-on.recovery acted-on.gas beside.leaving beside.recovery beside.inverted bare.any bare.gas bare.man bare.back bare.abandon bare.raft bare.helicopter bare.fire release stows-too no-place-to-look takes.steering takes.breath takes.voice takes.to-move takes.to-swim takes.to-hear takes.to-see takes.to-speak takes.to-lift climbed alarm.smoke alarm.CO alarm.gas alarm.bilge ends.aft ends.fore lies.aft lies.fore "
        "works.engine works.fuel works.batteries served.engine served.fuel served.batteries stays.in-bed lifts takes-aboard hoists sails controls distress-button "
        "unfit unfit-off unfit-parts unfit-of-parts unfit-deeds unfit-by-turns unfit-held unfit-done-first unfit-to-do "
        "does.command does.launch does.hold does.cut does.lookout does.helm does.throw does.recover does.fight does.close does.pump does.find does.shut-off does.ventilate does.muster "
        "done.command done.launch done.hold done.cut done.lookout done.helm done.throw done.recover done.fight done.close done.pump done.find done.shut-off done.ventilate done.muster"
    ),
    "watches": "title",
    "row": (
        "one{name} more{before,name} crew{raft,crew} spare{raft} held{role,helper} held-by-the-nearest{role} drive{engine,drive} serves{serves,said} counted{role,number} "
        "watches{alarm,spaces} watches-and-sounds{alarm,spaces,places} share{role,number,all} load{raft,persons,approved}"
    ),
    "bring": "and{before,last} drinking-water shows-distress keeps-warm",
    "kept": "none",
    "stop": "inside{how} sparks{place}",
    "set": "reached{place,how} button{place} position{place} always-on",
    "bill": "aged{ages} skipper no-duty{commander} no-duty-outside{commander} no-duty-helped-outside{helper} no-duty-helped{helper} helps{who} helped{role,need}",
    "mark": (
        "specimen proof-copy proof-copy-sound not-yet-checked not-yet-approved surveyed-on{date} good-until{date} was-good-until{date} "
        "no-day-ahead nothing-dated by.ends{items} by.again{items} by.decision{items} by.over{items} "
        "runs-out{items,date} nothing-until{date} past-deferred{items} deferred-until{item,date} past{items} past-since{item,date} "
        "and-more{items,count} checked-aboard{date,who}"
    ),
    "disclaimer": "short",
    "part": (
        "first-words particulars liferaft liferafts afterwards station-bill emergencies plan "
        "gear-list distress deferred-defects sources contacts grab-bag through-hulls radio drills "
        "dates carriage amendments distribution disclaimer words about not-said"
    ),
    "particulars": "signals",
    "raft": "title-named{name} not-float-free carries party-launch party-hold party-cut party-bag party-beacon party-lead",
    "party": (
        "title{raft} proposed nobody spare order order-told{number,all} order-by-the-lee rule goes-into{raft} load{persons,approved} over "
        "why.no-hands why.no-bag why.no-beacon why.elsewhere why.untold why.spare at{raft,parts} do.launch do.hold do.cut do.bag do.beacon do.lead"
    ),
    "drawing": (
        "title upper deck below in-the-boat bow stern port starboard muster-place raft scale not-to-scale "
        "life-saving fire stops flooding other-gear"
    ),
    "distress": "leaving mayday this-is{boat} call-sign{call-sign} mmsi{mmsi} mayday-again{boat} then{before,line} quoted{words}",
    "grab": "carried-by-without-raft{who}",
    "calendar": (
        "of{boat} of-all summary.ends{boat,thing} summary.usual{boat,thing} "
        "summary.again{boat,thing} summary.decision{boat,thing} summary.over{boat,thing} "
        "kind.ends kind.usual kind.again kind.decision kind.over ahead{days,summary} "
        "tomorrow{summary} governs{date,stamp} source{source} window{first,last}"
    ),
    "book": (
        "ground.fire ground.lifesaving call-script plan particulars fittings state records "
        "raft-facts estimates{raft}"
    ),
    "site": "page.plan page.gear page.bill page.words page.vessel page.contacts page.deferred page.sources",
    "estimates": (
        "release{low,high,low-kpa,high-kpa,fresh} release-water{never,surely} "
        "taut-water{depth,painter} floats-up{low,high,pull} floats-up-too-weak{low,high,pull} "
        "floats-up-not-predictable link{low,high,pull,inflated} link-parts-early{low,high,pull} "
        "link-drags-down{low,high,inflated} link-outlasts-painter{low,high,painter} "
        "link-fires-first{low,high,pull,packed,inflated} "
        "late{low,high} late-not-predictable by-hand{left,painter} carry{where,to,time} "
        "carry-untimed{where,to} lift{mass,people,team,needed} lift-too-heavy{mass,people,team} "
        "water{persons,pack,pack-days,bag,bag-days,both-days} food{persons,days} food-none food-untold not-float-free{raft} "
        "stage-1 stage-2{low,high} stage-3 stage-4{painter} stage-5 assumption.sea-water "
        "assumption.band-of-label assumption.upright assumption.still-water assumption.no-drift "
        "assumption.swamped assumption.box assumption.link-tolerance assumption.tube-volume "
        "assumption.boyle assumption.alongside assumption.drill assumption.team-lift "
        "assumption.first-day assumption.ration assumption.all-aboard "
        "assumption.never-the-pack-alone"
    ),
    "not-said": (
        "rafts station-bill radio.beacons grab-bags recovery stops gas steering escape alarms capsize contacts "
        "batteries pumps through-hulls medical watches voyage.raise-alarm base vessel.rule-set"
    ),
    "carriage": "state.short state.not-said intro-without-raft",
}


def asked_for(asking: ReadShelves) -> Iterator[Asked]:
    """Each label that is asked for: by program, templates, fields, and the shelves given."""
    for head, keys in _SAID_BY_PYTHON.items():
        for key in keys.split():
            label, _, slots = key.removesuffix("}").partition("{")
            given = frozenset(slots.split(",")) if slots else frozenset()
            yield Asked(f"{head}.{label}".lstrip("."), "the program", given)
    yield from _asked_by_templates(templates_folder())
    yield from (Asked(label, "a vessel file") for label in _of_fields())
    yield from (
        Asked(label, "templates/lives")
        for label in _of_lives(lives_among(on(GEAR, asking), on(LIVES, asking)))
    )
    for table in on(STATIONS, asking):
        yield from (
            Asked(f"station.{slug(each.name)}", "a station of cards") for each in table.block.stations
        )
    for hull in on(HULLS, asking):
        yield from (
            Asked(f"spaces.{space.name}", f"the hull type {hull.stem}") for space in hull.block.spaces
        )
    for file in on(RULE_SETS, asking):
        block = file.block
        asked = [f"lengths.{block.length_means}", *(f"notes.{note}" for note in block.notes)]
        for row in block.rows:
            asked += [f"items.{row.item}", *([f"notes.{row.note}"] if row.note else [])]
        yield from (Asked(f"rule-sets.{key}", f"the rule set {block.name}") for key in asked)


@functools.cache
def _asked_by_templates(folder: Path) -> tuple[Asked, ...]:
    return tuple(
        Asked(match[2], f"templates/{path.relative_to(folder).as_posix()}", _given(text, match.end()))
        for path in sorted(folder.rglob("*.html"))
        for text in (path.read_text(encoding="utf-8"),)
        for match in _SAID.finditer(text)
    )


def _given(template: str, at: int) -> frozenset[str]:
    """The slots that are filled by what is said from there on, up to the bracket that closes it."""
    depth, given = 0, set()
    for match in _ARGUMENTS.finditer(template, at):
        depth += bool(match["opens"]) - bool(match["closes"])
        if depth < 0:
            break
        if match["name"] and depth == 0:
            given.add(match["name"].replace("_", "-"))
    return frozenset(given)


def _of_fields() -> Iterator[str]:
    """What is printed of the fields of a vessel file: the words they offer, and what some of them are called."""
    for field in _fields(Vessel) | _fields(Voyage):
        yield from (f"choices.{field.key}.{word}" for word in offered_by(field))
    yield from (f"particulars.{key}" for key in Particulars.fields)
    yield from (f"raft.{key}" for key in Raft.fields)
    yield from (f"contact.{slug(kind)}" for kind in Contact.kind.choices)
    yield from (f"thing.stop.{what}" for what in Stop.what.choices)
    yield from (f"thing.alarm.{what}" for what in Alarm.what.choices)
    yield from (f"gear.kind.{slug(kind)}" for kind in KIND_ORDER)
    yield from (f"reader.{reader}" for reader in READERS)
    for standing in STANDINGS:
        yield f"carriage.standing.{slug(standing)}"
    yield from (f"standing.{slug(standing)}" for standing in STANDINGS)


def offered_by(field: Field[object]) -> tuple[str, ...]:
    """The words that a field offers and the manual prints in its language."""
    if isinstance(field, Choice):
        return field.choices
    if isinstance(field, Texts):
        return field.choices or ()
    if isinstance(field, Text) and field.key not in _ANSWERS_OF_A_NAME:
        return field.answers
    return ()


def _fields(kind: type[Block]) -> dict[Field[object], None]:
    """The fields of a block and of all blocks in it; but a life's, whose words are those of the shelf of lives."""
    found: dict[Field[object], None] = {}
    for field in kind.fields.values():
        found[field] = None
        if isinstance(field, Compound) and field.blocks is not None and field.blocks is not Life:
            found |= _fields(field.blocks)
    return found


def _of_lives(kinds: Iterable[Kind]) -> Iterator[str]:
    for line in (line for kind in kinds for line in kind.lines):
        yield from (f"lives.lines.{line.what}" for _ in (line.what,) if line.what)
        keys = [*line.marked, *(key for life in line.lives for key in life.since)]
        yield from (f"lives.dates.{key}" for key in keys)
        yield from (f"lives.standings.{life.standing}" for life in line.lives)
