"""The bound book, duplex, for the chart table: everything about one vessel's emergencies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.inflow import inflow_l_min
from generator.manual.carriage import Row, by_rule_set
from generator.manual.composing import Manual
from generator.manual.drawing.sinking import draw_sinking
from generator.manual.estimates import Estimate, RaftEstimates, Sequence
from generator.manual.operator import colours
from generator.manual.procedures import slug
from generator.manual.raft_facts import float_free, float_free_untold
from generator.manual.steps import Procedure
from generator.manual.watches import Stretch, stretches
from generator.outputs import Job, Made
from generator.outputs.setting import engine
from generator.outputs.setting.one_page import Setting, setting_of
from generator.outputs.setting.pages import embedded, environment, mark_embedded, marks, markup
from generator.outputs.setting.paper import name_rem, plan_width_mm, sheets
from generator.reading.values import known
from generator.shelves.rulesets import RuleSet
from generator.shelves.spelling import spelled
from generator.vessel.installed import ThroughHull
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel

READER = "crew"
FILE = "book.pdf"
WORDS_HERE = "<!-- the words -->"
"""Where templates/book/words.html leaves room for them: which they are is known when all else is printed."""
TRIALS = 3  # layouts in which a procedure that is longer than was thought gets more room
BLANK_ROWS = 14  # lines to fill in by hand on a page for them

About = (
    Procedure
    | Raft
    | RaftEstimates
    | tuple[tuple[str, RuleSet, tuple[Row, ...]], ...]
    | tuple[Stretch, ...]
    | str
    | None
)
"""What a chapter may be about."""


@dataclass(frozen=True)
class Chapter:
    """A heading in the contents: `template` of templates/book prints it, from what it is `about` (a text by its name)."""

    id: str
    title: str
    template: str
    about: About = None


@dataclass(frozen=True)
class Part:
    """What one thumb tab leads to."""

    number: int
    title: str
    chapters: tuple[Chapter, ...]


def write(job: Job) -> Made:
    """The book of a vessel as one PDF. Raises EngineMissing."""
    layout = lay_out(job)
    written, records = engine.write(layout, FILE)
    return Made({FILE: written}, records, drawn={FILE: layout.drawn})


def lay_out(job: Job) -> engine.Layout:
    """The book laid out: nobody turns a page in the middle of an emergency. Raises EngineMissing."""
    styles, settings = sheets("book", job.paper), settings_of(job)
    for trial in range(1, TRIALS + 1):
        layout = engine.lay_out(html(job, settings), styles)
        longer = {
            key: looser
            for key, setting in settings.items()
            if (looser := setting.looser) and layout.page_of(slug(key)) != layout.page_of(f"end-{slug(key)}")
        }
        if not longer or trial == TRIALS:
            break
        settings |= longer
    return layout


def settings_of(job: Job) -> dict[str, Setting]:
    """How each procedure is set, by its chapter, as far as that can be told before; the station bill lies open on two pages."""
    settings = {}
    for part in parts(job.manual, job.reader):
        for chapter in part.chapters:
            if isinstance(chapter.about, Procedure):
                settings[chapter.id] = setting_of(
                    chapter.about, job.paper, heads_part=chapter is part.chapters[0]
                )
            elif chapter.template == "station-bill.html":
                settings[chapter.id] = Setting.OPENING
    return settings


def html(job: Job, settings: Mapping[str, Setting] | None = None) -> str:
    """The book before it is laid out; `settings` by chapter, as estimated where none are given."""
    settings = settings_of(job) if settings is None else settings
    manual, vessel = job.manual, job.manual.seen_by(job.reader)
    templates = environment(job.printer, job.manual.facts)
    voyage = vessel.voyage if job.reader == "crew" else None
    text = templates.get_template("book/book.html").render(
        manual=manual,
        vessel=vessel,
        one=vessel.vessel,
        items=manual.items_for(job.reader),
        picture=lambda item: embedded(manual.vessel, item.block),
        bill=manual.bill,
        marks=marks(manual),
        mark=mark_embedded(manual.vessel),
        colours=colours(manual.vessel),
        name_rem=name_rem(str(vessel.vessel.name), job.paper) if vessel.vessel else 1,
        reader=job.reader,
        parts=parts(manual, job.reader),
        settings={key: setting.value for key, setting in settings.items()},
        faced={each.id for each in manual.procedures if each.call_script},
        blank_rows=BLANK_ROWS,
        aboard=voyage.persons if voyage else (),
        emergencies=[each for each in manual.procedures if each.emergency],
        titles={each.kind: each.title for each in manual.procedures},
        raft_floats_free=float_free,
        float_free_untold=float_free_untold,
        spelled=lambda text: spelled(str(text), manual.catalogue),
        plan_width_mm=plan_width_mm(manual.plan, "book", job.paper),
        filled=_filled,
        inflow=_inflow,
        rated=_rated(vessel),
        stage_words=_stage_words,
        drawn=lambda lengths, raft: draw_sinking(
            lengths.height_m,
            lengths.draft_m,
            lengths.beam_m,
            lengths.painter_m,
            lengths.release_m,
            manual.printer.say("estimates.drawing"),
            f"sinking-{slug(str(raft.name))}",
        ),
        words_here=markup(WORDS_HERE),
    )
    explained = manual.glossary.of_page(text)
    return text.replace(WORDS_HERE, templates.get_template("book/explained.html").render(explained=explained))


def _filled(estimate: Estimate) -> dict[str, str]:
    """The figures of an estimate under the names its sentence has for them."""
    return {name.replace("-", "_"): figure for name, figure in estimate.figures}


def _inflow(hole: ThroughHull) -> str:
    """How many litres a minute come in by an open hole; "" where its width or depth is not known."""
    wide, deep = known(hole.diameter), known(hole.below_water)
    return f"{inflow_l_min(wide, deep):.0f}" if wide is not None and deep else ""


def _rated(vessel: Vessel) -> str:
    """For how many litres a minute all pumps together are rated; "" where that of one is not known, or there is none."""
    flows = [known(each.flow) for each in vessel.pumps]
    told = [each for each in flows if each is not None]
    return f"{sum(told):.0f}" if told and len(told) == len(flows) else ""


def _stage_words(lengths: Sequence) -> dict[str, str]:
    low, high = lengths.release_m
    return {"low": f"{low:.1f}", "high": f"{high:.1f}", "painter": f"{lengths.painter_m:.1f}"}


def parts(manual: Manual, reader: str) -> tuple[Part, ...]:
    """The parts and chapters in the order in which they are needed; estimates are for the crew alone."""
    say, vessel = manual.printer.say, manual.seen_by(reader)
    distress = [each for each in manual.procedures if each.call_script]
    leaving = {each.bill for each in distress}  # the bill of those who leave the boat
    emergencies = [
        each
        for each in manual.procedures
        if each not in distress and (each.emergency or each.bill not in leaving)
    ]
    afloat = [each for each in manual.procedures if each not in emergencies and each not in distress]

    def chapter(
        key: str,
        *,
        title: str | None = None,
        template: str | None = None,
        about: About = None,
        unless: bool = False,
    ) -> tuple[Chapter, ...]:
        return (
            ()
            if unless
            else (Chapter(f"chapter-{key}", title or say(f"part.{key}"), template or f"{key}.html", about),)
        )

    def steps(procedures: list[Procedure]) -> tuple[Chapter, ...]:
        return tuple(Chapter(each.id, each.title, "procedure.html", each) for each in procedures)

    def standing(name: str) -> tuple[Chapter, ...]:
        return chapter(name, template="standing.html", about=name)

    several = len(vessel.rafts) > 1
    rafts = [
        chapter(
            f"raft-{raft.name}",
            title=say("raft.title-named", name=raft.name) if several else say("book.raft-facts"),
            template="raft.html",
            about=raft,
        )[0]
        for raft in vessel.rafts
    ]
    estimates = [
        chapter(
            f"estimates-{each.raft.name}",
            title=say("book.estimates", raft=each.raft.name),
            template="estimates.html",
            about=each,
        )[0]
        for each in manual.estimates
        if reader == "crew"
    ]
    wanted = [
        (say("part.first-words"), chapter("first-words")),
        (
            say("part.distress"),
            (*steps(distress), *chapter("distress", title=say("book.call-script")), *chapter("radio")),
        ),
        (say("part.emergencies"), steps(emergencies)),
        (
            say("part.liferafts" if several else "part.liferaft" if rafts else "part.afterwards"),
            (*steps(afloat), *rafts, *estimates),
        ),
        (
            say("part.station-bill"),
            (
                *chapter("station-bill", unless=not manual.bill.emergencies),
                *chapter(
                    "watches",
                    title=say("watches.title"),
                    about=stretches(vessel),
                    unless=reader != "crew" or not vessel.watches,
                ),
            ),
        ),
        (
            say("part.plan"),
            (
                *chapter("plan", title=say("book.plan")),
                *chapter("gear-list"),
                *chapter("grab-bag", unless=not vessel.grab_bags),
            ),
        ),
        (
            say("part.particulars"),
            (
                *chapter("particulars", title=say("book.particulars")),
                *chapter("fittings", title=say("book.fittings")),
                *chapter("through-hulls", unless=not vessel.through_hulls),
                *chapter("contacts"),
            ),
        ),
        (
            say("book.state"),
            (
                *chapter("dates"),
                *chapter("carriage", about=by_rule_set(manual.carriage), unless=not manual.carriage),
                *chapter("deferred-defects"),
                *chapter("not-said", unless=reader != "crew" or not manual.not_said),
                *chapter("drills"),
            ),
        ),
        (
            say("book.records"),
            (
                *chapter("words"),
                *standing("about"),
                *standing("never-rely"),
                *standing("disclaimer"),
                *chapter("sources"),
                *chapter("sign-off", title=say("book.sign-off.title")),
                *chapter("amendments"),
                *chapter("distribution"),
            ),
        ),
    ]
    kept = [(title, chapters) for title, chapters in wanted if chapters]
    return tuple(Part(number, title, chapters) for number, (title, chapters) in enumerate(kept, 1))
