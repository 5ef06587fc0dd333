"""What sentences say of where her things are: who tells it, of which thing, in which space, on which side, in which bag."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.aboard import gear_named
from generator.checks.words.places import another, apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called, listed, told_in
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import kinds
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.installed import Stop

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.manual.own_words import OwnWords
    from generator.manual.sieves import Names

_LIES = r"(?:(?:(?:can|may|must|should) )?be|is|are|hangs?|lies?|stands?|sits?|lives?|rests?|belongs?|(?:has|have) (?:its|their) places?)"
_HOW = (
    r"(?: (?:always|also|both|all|just|high up|low down|safely|usually|normally|still|right|ready|kept|stowed|found|mounted|fixed|secured|lashed|"
    r"clipped|locked|locked up|locked away|shut away|loose|upright|rigged|stowed away|stored|located|fitted|placed|hung|held|hanging|lying|standing|tied|strapped|screwed|to be found))*"
)
_FETCH = (
    r"(?:fetch|get|find|take|collect|grab|pick up|look for|reach for|work|man|turn|shut|close|pull|press|start|start with|begin with|go to|run to|"
    r"there (?:is|are)|(?:we|you|all|they) (?:keep|stow|find|have)|(?:everybody|everyone|each|each of us) (?:keeps|stows|has))"
)
_WITHIN = r"(?:in|inside|on|at|within|from|aboard|out of)"
_NEAR = r"(?P<near>under|below|beneath|by|near|beside|next to|behind|above|over|outside|forward of|aft of)"
_DET = r"(?:(?:the|our|her|its|an?|both|all|each|every|one|two|three|four|five|six|\d+)(?: (?:the|of the|our))? )"
_NAME = r"<(?P<name>\d+)>"
_NAME_OF_ANY = r"<\d+>"
_SPACE = (
    r"(?:the |our |her )?\{(?P<space>\d+)\}"
    r"(?=$|[,.;:)*]| (?:under|on|beside|behind|below|above|at|by|next|near|to port|to starboard|port|starboard|left|right|in|and|over|aft|rails?|bulwark|edge|wall|"
    r"forward|with|for|as|so|where|marked|is|are|hangs?|lies?|stands?|you|we|there|first|last|now|too|also|again|fast|before|until|[a-z]+ly)\b)"
)
_OF = r"(?:for|of|with|and|marked|called|number)"
_MORE = (
    rf"(?: {_OF} (?:[\w'’<>-]+ ){{0,3}}?[\w'’<>-]+| to (?:cut|fight|stop|call|shut|pump|throw|lift|sound|free) (?:[\w'’<>-]+ ){{0,2}}?[\w'’<>-]+"
    r"| \([^()]{1,30}\))?"
)
_WHERES = (
    rf"(?:under|behind|in|on|at|beside|inside|above|over|below|by) (?:the|an?|its) (?!foot|head|top|bottom|edge|end|side)[a-z]+ (?:of|in|on) {_SPACE}",
    rf"(?:{_WITHIN}|{_NEAR}) {_SPACE}(?:,? (?:to |on (?:the|its|her) )?(?P<side>port|starboard)(?: side)?(?=$|[,.;:)*]| (?:and|with|under|behind)\b)| on (?:the|its) \{{(?P<half>\d+)\}}(?=$|[,.;:)*]))?",
    rf"on (?:the|its|her) (?P<side>port|starboard) (?:hand )?side(?: of {_SPACE})?",
    r"(?:to )?(?P<side>port|starboard)(?=$|[,.;:)])",
)
"""How a sentence says where: in a part of a space, in or near it, on a side, to a side."""
_AT_ITS = r"(?:in|on|under|behind|below|above|beside|over|at|inside|from|beneath|by)"
_UNDER = ("under", "behind", "below", "beneath")
_INDOORS = re.compile(r"\} (?:drawers?|cupboard|bunks?|berths?|settee|table|sole|worktop)$")
"""Furniture of rooms: what is in or under it is not on deck."""
_STEPS = re.compile(r"\} (?:steps?|ladder|stairs?)$")
_SHUTS_OFF = r"(?:cut off|shut off|switched off|turned off|shut|closed|stopped|isolated|cut|shut down)"
_SHUT_OFF = r"(?:cut|shut|switch|turn|close|stop|isolate)"
_RELEASED = re.compile(rf"{_NAME}{_MORE} is (?:released|set off|discharged) {_WITHIN} {_SPACE}")
_PART = r"(?:['’]s (?:handle|switch|lever|breaker|key|bottle))?"
_STATED = tuple(re.compile(rf"{_NAME}{_PART}{_MORE},? {_LIES}{_HOW} {where}") for where in _WHERES)
_OTHERWISE = (
    *(re.compile(rf"\b{_FETCH} {_DET}?(?:[a-z]+ )?{_NAME} (?:kept |stowed )?{where}") for where in _WHERES[:3]),
    *(re.compile(rf"{_NAME} (?:that|which) {_LIES}{_HOW} {where}") for where in _WHERES[:3]),
    re.compile(rf"\b{_FETCH} {_DET}?{_NAME} (?:off|down from|down off) {_SPACE}"),
    re.compile(rf"\bbring {_DET}{_NAME} (?:up |down |out )?(?:from|out of) {_SPACE}"),
    re.compile(rf"(?:^|[,(*-]) ?{_DET}?{_NAME}: ?(?:always )?(?:{_WITHIN} )?{_SPACE}"),
    re.compile(rf"\b{_WITHIN} {_SPACE},? (?:{_LIES}|you find|we keep|there (?:is|are)){_HOW} {_DET}{_NAME}(?=$|[,.;:)])"),
    re.compile(rf"^\W*{_DET}?{_NAME}{_MORE},? {_WHERES[1]}[\s*]*$"),
    re.compile(rf"\bthe \{{(?P<space>\d+)\}} (?:holds|contains|houses) {_DET}{_NAME}"),
    re.compile(rf"\b(?:the|an?|our) {_NAME} {_WHERES[2]}"),
    _RELEASED,
    re.compile(rf"\b(?:{_FETCH}|throw|pull|put on) {_DET}?(?:[a-z]+ )?{_NAME} (?:from|out of|off) (?:its|the|their|a) (?:(?!\{{)[a-z]+ ){{1,2}}(?:{_WITHIN}|by|beside|under) {_SPACE}"),
    re.compile(rf"{_NAME}{_MORE},? {_LIES}{_HOW} (?P<near>under|below|beneath|behind|beside|by|above) (?:the |our )?\{{(?P<space>\d+)\}} (?:steps?|ladder|stairs?)\b"),
    re.compile(rf"\b{_FETCH} {_DET}?(?:[a-z]+ )?{_NAME} (?P<near>under|below|beneath|behind|beside|by|above) (?:the |our )?\{{(?P<space>\d+)\}} (?:steps?|ladder|stairs?)\b"),
    re.compile(rf"\b(?:off|shut|close|stop|work|pull) (?:[a-z]+ ){{0,3}}at the {_NAME} (?:in|inside|on|under) {_SPACE}"),
    re.compile(rf"\bthe {_NAME} (?:in|inside) {_SPACE} (?:is|are|has|have|serves?|works?|belongs?)\b"),
)  # fmt: skip
_TOGETHER = re.compile(rf"(?:{_NAME_OF_ANY}(?:,| and|, and) {_DET}?)+$")
_BEFORE_SUBJECT = frozenset(
    [
        "of",
        "for",
        "to",
        "beside",
        "under",
        "behind",
        "near",
        "with",
        "by",
        "from",
        "in",
        "on",
        "at",
        "into",
        "onto",
        "over",
        "above",
        "below",
        "without",
        "like",
        "than",
        "about",
        "whose",
        "who",
        "whoever",
    ]
)
_PARTS = frozenset(["handle", "switch", "lever", "breaker"])
"""Parts whose place the entry of the whole tells as well."""
OTHERS_OF_ITS_KIND = frozenset(["spare", "old", "new", "dead", "empty", "former", "borrowed", "hired"])
_SENT_FOR = re.compile(
    r"(?:^|\b(?:fetch|get|find|take|collect|grab|use|up|for|with|and|or|under|behind|by|beside))\W*$"
)
"""What stands before gear that words send for; after other verbs they say where it is to be: hold the sling at the gate."""


RELEASE = "release of the "


@dataclass(frozen=True)
class Claim:
    """What a sentence says of a thing: its name there, the name of a space, a side; whether it is in that space or near it; the bag it is in; whether it is under her steps, so not on deck;
    the furniture or steps of that space that it is under, behind or in.
    """

    name: str
    space: str
    side: str
    near: bool
    bag: str = ""
    below: bool = False
    of: str = ""


@lru_cache(maxsize=8192)
def claims_in(text: str, names: Names, spaces: Names) -> tuple[Claim, ...]:
    """What words say of where her things are, in sentences that neither deny nor set a condition."""
    name, space = _found_by(names, spaces)
    claims: list[Claim] = []
    plain = re.sub(r"[<>{}]", " ", text)
    for sentence in told_in(_by_its_name(plain, name)):
        marked, named = _marked(name, sentence, "<{}>")
        if not named:
            continue
        marked, spaced = _marked(space, marked, "{{{}}}")
        claims += _in_a_bag(marked, named)
        for pattern in (*_STATED, *_OTHERWISE, *_by_a_fixture()):
            for found in pattern.finditer(marked):
                if not _is_subject(marked[: found.start("name") - 1], pattern in _STATED):
                    continue
                parts = found.groupdict()
                if _another_thing(marked[: found.start("name") - 1], named[int(parts["name"])]):
                    continue
                at_space = spaced[int(parts["space"])] if parts.get("space") else ""
                called_so = named[int(parts["name"])]
                called_so = f"{RELEASE}{called_so}" if pattern is _RELEASED else called_so
                half = (
                    spaced[int(parts["half"])] if parts.get("half") else ""
                )  # the starboard side, a space of a small boat
                side = parts.get("side") or (
                    half.split()[0] if half.startswith(("port ", "starboard ")) else ""
                )
                below = _INDOORS.search(found[0]) is not None or (
                    _STEPS.search(found[0]) is not None and parts.get("near") in _UNDER
                )
                piece = _piece().search(found[0])
                claim = Claim(
                    called_so,
                    at_space,
                    side,
                    bool(parts.get("near")),
                    below=below,
                    of=piece[1] if piece else "",
                )
                claims.append(claim)
                together = _TOGETHER.search(marked[: found.start("name") - 1])
                claims += (
                    replace(claim, name=named[int(one)])
                    for one in re.findall(r"<(\d+)>", together[0] if together else "")
                )
    return tuple(claims)


_ITSELF = re.compile(
    rf"(?P<gap>[.;,:]| -| –|,? and|,? but)(?P<it> (?:it|they|both|these|that one))(?= (?:now |always |still |also )?{_LIES}\b)",
    re.IGNORECASE,
)


def _by_its_name(text: str, name: re.Pattern[str]) -> str:
    """A text with the name of a thing in place of "it", where the words straight before that, or those that begin their sentence, are the name and no other stands between."""
    lower = text.lower()

    def named(found: re.Match[str]) -> str:
        said = lower[
            max(lower.rfind(mark, 0, found.start("gap")) for mark in ".;!?\n") + 1 : found.start("gap")
        ]
        names = [*name.finditer(said)]
        whose = names[-1] if names else None
        if (
            whose is None
            or len({each[0] for each in names}) > 1
            or (whose.end() < len(said.rstrip()) and not _BEGINS.fullmatch(said[: whose.start()]))
        ):
            return found[0]
        return f"{found['gap']} the {whose[0]}"

    return _ITSELF.sub(named, text)


_BEGINS = re.compile(r"\W*(?:(?:the|our|her|both) )?")


@cache
def _piece() -> re.Pattern[str]:
    """Finds the furniture or steps of a space at the end of a claim."""
    return re.compile(
        rf"\}} ({one_of((*sorted(listed('reads.fixtures')), 'steps', 'step', 'ladder', 'stairs'))})$"
    )


@cache
def _by_a_fixture() -> tuple[re.Pattern[str], ...]:
    """Finds a thing under, behind or in what stands in a space: under the saloon settee."""
    place = rf"{_AT_ITS} (?:the |our |her )?\{{(?P<space>\d+)\}} (?:{one_of(tuple(sorted(listed('reads.fixtures'))))})\b"
    return (
        re.compile(rf"{_NAME}{_MORE},? {_LIES}{_HOW} {place}"),
        re.compile(rf"\b{_FETCH} {_DET}?(?:[a-z]+ )?{_NAME} (?:kept |stowed |that is |which is )?{place}"),
    )


_IN_IT = re.compile(
    rf"{_NAME},? {_LIES}{_HOW} (?:in|inside) (?:the|our|each|every|its) <(?P<bag>\d+)>(?=$|[,.;:)*]| (?:and|with|at|in|on|by)\b)"
    rf"|\b{_FETCH} {_DET}?<(?P<fetched>\d+)> (?:from|out of) (?:the|our) <(?P<from>\d+)>"
    rf"|\bthe <(?P<holder>\d+)> (?:holds|contains|has) {_DET}?<(?P<held>\d+)>"
)


def _in_a_bag(marked: str, named: list[str]) -> Iterator[Claim]:
    """What a sentence says is in a grab bag."""
    for found in _IN_IT.finditer(marked):
        thing = found["name"] or found["fetched"] or found["held"]
        bag = found["bag"] or found["from"] or found["holder"]
        if named[int(bag)].rstrip("s") in called("bags") and _is_subject(
            marked[: found.start()], found["name"] is not None
        ):
            yield Claim(named[int(thing)], "", "", near=False, bag=named[int(bag)])


@check("words.shut-off-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_shut_off_where_the_stops_are(sight: Sight) -> Finds:
    """Where words say that fuel, gas, batteries or engine are shut off, they say the space of the stop; of gas that of the bottles does as well.

    Why: whoever is sent to the engine space for the battery switch climbs into the fire.
    Remedy: go and look, and correct the words, or 'where' of the stop.
    """
    stops = sight.vessel.stops
    spaces = names_of_spaces(sight)
    for said in sight.own_words if stops else ():
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, Stop) or _tells_of_the_tap(said):
            continue
        for what, named in (
            each for sentence in told_in(said.meant) for each in _shut_off_in(sentence, spaces)
        ):
            meant = [each for each in stops if what in called(f"shut.{each.what}")]
            there = find_space(sight.spaces, named)[0]
            here = [space_at(sight, each.where) for each in meant]
            gas = sight.vessel.gas
            if gas is not None and isinstance(gas.bottles, str) and what in called("shut.gas"):
                here.append(space_at(sight, gas.bottles))
            if there is None or not meant or not all(each and _differ(sight, each, there) for each in here):
                continue
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' cuts the {what} off in the {there.name}, and the stop is at: {meant[0].where}",
                item=said.block.path,
                also=(meant[0].place("where"),),
            )
            break


def _differ(sight: Sight, here: Space, there: Space) -> bool:
    return apart(sight, there, here) or another(sight, here, there, "in")


@lru_cache(maxsize=8192)
def _shut_off_in(sentence: str, spaces: Names) -> tuple[tuple[str, str], ...]:
    """What a sentence says is shut off, and in which space."""
    if not _may_be_shut_off().search(sentence):
        return ()
    marked, spaced = _marked(_found_by((), spaces)[1], sentence, "{{{}}}")
    return tuple(
        (found["what"], spaced[int(found["space"])])
        for pattern in _shut_off()
        for found in pattern.finditer(marked)
    )


def _tells_of_the_tap(said: OwnWords) -> bool:
    """Whether a note beside gas says where the tap is: that is asked of the tap itself."""
    return said.block.__dict__.get("beside") == "gas" and " at the tap " in said.text.lower()


@cache
def _what_is_shut_off() -> str:
    return one_of(
        tuple(each for kind in ("batteries", "fuel", "gas", "engine") for each in called(f"shut.{kind}"))
    )


@cache
def _may_be_shut_off() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{_what_is_shut_off()})\b")


@cache
def _shut_off() -> tuple[re.Pattern[str], ...]:
    what, where = rf"(?P<what>{_what_is_shut_off()})", rf"(?:in|inside|at|from|on|under) {_SPACE}"
    return (
        re.compile(rf"\b{what} (?:is|are|can be|must be) (?:then |also |first )?{_SHUTS_OFF} {where}"),
        re.compile(
            rf"\b{_SHUT_OFF} (?:off )?(?:the |both |all )*{what}(?: off)?(?: (?:at|with|by|from|on) (?:the|its|their|both|each) (?:tap|valve|cock|switch|key|handle|lever|isolator|stopcock)s?)? {where}"
        ),
    )


def _marked(find: re.Pattern[str], text: str, mark: str) -> tuple[str, list[str]]:
    """Text with a numbered mark in place of each name, and the names in that order."""
    names: list[str] = []

    def marked(found: re.Match[str]) -> str:
        names.append(found[0])
        return mark.format(len(names) - 1)

    return find.sub(marked, text), names


@lru_cache(maxsize=64)
def _found_by(names: Names, spaces: Names) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """What finds the names of her things, and those of her spaces."""
    return (
        re.compile(rf"(?<![\w-])(?:{one_of((*names, *called('short')))})s?(?![\w-])"),
        re.compile(rf"(?<![\w-])(?:(?:port|starboard) )?(?:{one_of(spaces)})(?![\w-])"),
    )


def _is_subject(before: str, stated: bool) -> bool:
    """Whether a name behind these words is what the sentence tells of: not of what lies beside it, nor another of its kind."""
    words = re.sub(rf"{_DET}$", "", before).split()
    last = words[-1].strip("*_,") if words else ""
    if last in OTHERS_OF_ITS_KIND:
        return False
    if words[-2:-1] and words[-2] in _PARTS and last in ("of", "for"):
        return True
    if not stated:
        return True
    if last in _BEFORE_SUBJECT or last.endswith("ing"):
        return False
    return {"who", "whoever", "whose"}.isdisjoint(words) and "that" not in words[:-1]


_MAKES_ANOTHER = re.compile(
    r"\b(?:transfer|wash(?:down|ing)?|deckwash|air|bi(?:cycle|ke)|paint|compost|kettle|(?:dog|cat)(?:['’]s)?|heart|thyroid|pressure|paracetamol|iodine|chlorine|purification|dishwasher|head|fuel) \W*$",
    re.IGNORECASE,
)
"""Words straight before a name that make another thing of it: the fuel transfer pump."""
_TAKEN = re.compile(r"\b(?:tablets?|pills?|medicines?|inhalers?|drops)\b", re.IGNORECASE)
_OF_SOMEBODY = re.compile(r"\b(?:my|his|their|[a-z]+['’]s(?: own)?) $", re.IGNORECASE)


def _another_thing(before: str, name: str) -> bool:
    """Whether the words straight before a name make another thing of it, or somebody's own medicine: my tablets."""
    own = _TAKEN.search(name) is not None and _OF_SOMEBODY.search(before) is not None
    return own or _MAKES_ANOTHER.search(before) is not None


def gear_without_a_verb(text: str) -> Iterator[Claim]:
    """Gear that words have somewhere without a verb, or to a side: the fire blanket in the galley, the port extinguisher."""
    small = text.lower()
    for _, named in gear_named(text, kinds()):
        before = small[: max(0, small.find(named.before + named.name + named.behind))]
        if not _SENT_FOR.search(before):
            continue
        there = _THERE.match(named.behind)
        side = re.search(r"\b(port|starboard)\b", named.before)
        yield Claim(named.name, there["where"] if there else "", side[1] if side else "", near=False)


_THERE = re.compile(
    r" (?:in|at|on|from|by) (?:the )?(?P<where>[a-z ]+?)(?=$|[,.;:)]| (?:under|on|beside|behind|at|by|to|and|is|in|first|last|now|too|fast|before|[a-z]+ly)\b)"
)
