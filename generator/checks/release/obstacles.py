"""What keeps a raft down: lashings, a roof, lids, a slip that does not open."""

from __future__ import annotations

import re

from generator.manual.orders import words_of
from generator.manual.own_words import listed, told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.values import Stamp
from generator.shelves.stowages import stowages
from generator.survey.barring import locked_things, on_rafts
from generator.survey.passed import overdue
from generator.survey.rafts import held_by_hru
from generator.survey.registry import LIFE, RECOMMENDATION, UPKEEP, Finds, Sight, at, check, of
from generator.vessel.raft import Slip

_WORDS = "take it off, then correct the words that have it there"


@check(
    "release.lashed-over",
    LIFE,
    "MAIB report on the loss of FV Purbeck Isle, 2012 (secondary)",
    deferrable=False,
)
def nothing_is_lashed_over_the_raft(sight: Sight) -> Finds:
    """Nothing is lashed, locked or stacked over the raft, neither by its own entry nor by the words of what lies there.

    Why: an HRU that works frees nothing if a second lashing holds; by hand it costs the minutes there are not.
    Remedy: take it off, then write lashed-over: no.
    """
    told = [raft for raft in sight.vessel.rafts if raft.lashed_over is True]
    for raft in told:
        yield of(raft, "lashed-over", "something is lashed, locked or stacked over it")
    if told or not sight.vessel.rafts:
        return
    for raft in sight.vessel.rafts:
        if isinstance(raft.overhead, str) and _held_down(raft.overhead.lower()):
            also = (raft.place("lashed-over"),) if raft.lashed_over is False else ()
            yield of(
                raft,
                "overhead",
                f"'{shortened(raft.overhead)}' keeps it down, and nothing says how a hand opens it at once",
                also=also,
            )
    entries = tuple(raft.place("lashed-over") for raft in sight.vessel.rafts if raft.lashed_over is False)
    for lies in on_rafts(sight):
        if not lies.hangs or held_by_hru(sight.vessel):
            name = str(lies.said.block.__dict__.get(type(lies.said.block).called or "what") or "a note")
            yield at(
                lies.said.block,
                lies.said.field.key,
                f"{name}: '{shortened(lies.said.text)}': what lies there keeps the {lies.target} down",
                remedy=_WORDS,
                item=name,
                also=entries,
            )
    for locked in locked_things(sight):
        if _A_RAFT.search(locked.what):
            yield at(
                locked.said.block,
                locked.said.field.key,
                f"'{shortened(locked.said.text)}': a raft that is locked is freed by no release, and by hand only with the key",
                remedy=_WORDS,
                item=locked.said.block.path,
                also=entries,
            )


def _held_down(words: str) -> bool:
    """Whether words for what is above a raft have it locked, laced or lashed down while she is at sea."""
    found = _FASTENED.search(words)
    harbour = _HARBOUR.search(words) is not None and not re.search(
        r"\b(?:night|sea|passage|watch|always)\b", words
    )
    return found is not None and not harbour and not _LET_GO.search(words)


_FASTENED = re.compile(
    r"(?<!un)(?<!not )(?<!never )\b(?:padlocked|locked|chained|screwed|bolted|nailed|(?:laced|lashed|tied|strapped|clamped|wired|sewn|sheeted)(?: (?:hard|tightly|firmly|well))? (?:down|over|shut|across|fast|all round|taut))\b"
)
_HARBOUR = re.compile(r"\b(?:harbours?|port|marinas?|moorings?|alongside|winter|ashore)\b")
_LET_GO = re.compile(
    r"\b(?:slips?|slipped|slip[- ]?(?:hook|knot)|quick[- ]release|one pull|pelican|senhouse|snap ?shackle|parts?|tears?|breaks?|weak|let go by|lets go|shock ?cord|elastic|velcro)\b"
)
_RIGGED = re.compile(
    r"\b(?:awnings?|biminis?|nets?|sun ?shades?|tarpaulins?|covers?|boom ?tent|sails?|laundry|dinghy|tender|canopy|mast|spars?|boards?|kayaks?)\b[^,;]*?\b(?:rigged|spread|stretched|set up|set|hung|drawn|pulled|laced|sheeted|put up|goes|stays)\b[^,;]*?\b(?:over|above|across)\b (?:the |our |both |all |each )*(?:port |starboard |two )*(?:life ?)?rafts?\b(?! (?:lockers?|knife|card))"
)


@check("release.overhead-told", LIFE, "46 CFR 180.130(a)(2)")
def words_rig_nothing_over_a_float_free_raft(sight: Sight) -> Finds:
    """Words of hers rig nothing over a raft held by an HRU of which 'overhead' says that nothing is above it.

    Why: the raft rises into the awning where the boat sinks, and the file called it clear.
    Remedy: rig it clear of the rafts, and say so; or write what is there: overhead: the awning.
    """
    free = [
        raft
        for raft in held_by_hru(sight.vessel)
        if isinstance(raft.overhead, str)
        and listed("reads.nothing-above").issuperset(words_of(raft.overhead))
    ]
    for said in sight.words_through(_may_rig_over_a_raft) if free else ():
        for sentence in told_in(said.meant):
            if _RIGGED.search(sentence) and not _HARBOUR.search(sentence):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has something over the {free[0].name}, and overhead says: {free[0].overhead}",
                    item=said.block.path,
                    also=tuple(raft.place("overhead") for raft in free),
                )
                break


@sieve
def _may_rig_over_a_raft(text: str) -> bool:
    return "raft" in text.lower() and any(map(_RIGGED.search, told_in(text)))


_A_RAFT = re.compile(r"\b(?:life ?)?rafts?\b(?! (?:lockers?|knife))|\b(?:canisters?|cradles?)$")


_NOTHING_FIRST = re.compile(
    r"nothing(?: at all)?[,;:](?!.*\b(?:but|except|only|save|apart|when|while|if|unless|harbour|sometimes|often|usually)\b)",
    re.IGNORECASE,
)
"""An answer that begins with nothing, and goes on to say why."""


def _nothing(overhead: str) -> bool:
    """Whether words say that nothing is above a raft."""
    return (
        listed("reads.nothing-above").issuperset(words_of(overhead))
        or _NOTHING_FIRST.match(overhead) is not None
    )


@check("release.overhead", LIFE, "46 CFR 180.130(a)(2)")
def nothing_keeps_a_float_free_raft_down(sight: Sight) -> Finds:
    """Nothing above a raft held by an HRU keeps it from floating free.

    Why: the raft rises where the boat sinks; a net, an arch or a cover catches it.
    Remedy: move the raft or what is above it; write overhead: nothing when it is clear.
    """
    for raft in held_by_hru(sight.vessel):
        if isinstance(raft.overhead, str) and not _nothing(raft.overhead):
            yield of(raft, "overhead", f"an HRU holds it, and above it is: {raft.overhead}")


@check(
    "release.closed-in",
    LIFE,
    "46 CFR 180.130(a)(2); Safety Investigation Authority Finland, safety observation of 23 January 2018",
)
def float_free_raft_is_not_closed_in(sight: Sight) -> Finds:
    """A raft held by an HRU is not shut in a locker or below deck.

    Why: it cannot float out; whoever relies on it will not fetch it by hand.
    Remedy: take HRU out of 'held-by' and launch by hand, or stow it on deck. In a transom recess, see that no lid closes on it.
    """
    free = ", ".join(name for name, row in stowages().items() if row.float_free == "yes")
    for raft in held_by_hru(sight.vessel):
        row = raft.kept
        if row is None or row.float_free == "yes":
            continue
        kept = "kept below deck" if row.below is True else f"kept in a {row.name}"
        yield of(
            raft,
            "stowage",
            f"an HRU holds it, and it is {kept}; a raft floats free from: {free}",
            weight=RECOMMENDATION if row.float_free == "depends" else None,
        )


@check(
    "release.slip-stuck",
    LIFE,
    "a safety study of 2004 found almost a third of slips not easily released (secondary); common practice",
)
def slip_opens(sight: Sight) -> Finds:
    """The slip opens by hand.

    Why: corroded, cracked or caught in a loop it does not let the raft go.
    Remedy: free, grease or renew it, rig it so that its arm swings right open, then write what you found.
    """
    for raft in sight.vessel.rafts:
        slip = raft.slip
        if slip and slip.opens_clear is False:
            yield of(raft, "opens-clear", "the arm of the slip does not swing clear when it opens", part=slip)
        if slip and slip.condition in ("stiff", "corroded", "cracked"):
            yield of(
                raft,
                "condition",
                f"the slip is {slip.condition}",
                weight=RECOMMENDATION if slip.condition == "stiff" else None,
                part=slip,
            )


@check(
    "release.slip-unchecked",
    UPKEEP,
    "a safety alert on slips: monthly aboard ships (secondary); once a year on a private boat: "
    "common practice",
)
def slip_was_opened_lately(sight: Sight) -> Finds:
    """The slip was opened and greased lately: within a year, on a commercial or charter boat within a month.

    Why: slips seize, and nobody sees it until the raft is needed.
    Remedy: open it, grease it, close it, then write the day under 'checked'.
    """
    for each in overdue(sight, "release.slip-unchecked"):
        raft, slip = each.thing.kept, each.thing.block
        if isinstance(slip, Slip) and isinstance(slip.checked, Stamp):
            yield of(raft, "checked", f"the slip was last opened {slip.checked.when}", part=slip)
