"""What a reader's ear notices in composed steps, as rules: each finds what is wrong with something said, or nothing."""

import re
from dataclasses import dataclass, field

RULES = {}
"""The rules by name."""


@dataclass(frozen=True)
class Said:
    """A text as printed: `what` is do, unless, caution, why, intro, leave, end or title; `roles` who is aboard; `left` who can act."""

    what: str
    text: str
    name: str = ""
    persons: int = 4
    left: int = 3
    engines: int = 1
    roles: frozenset[str] = field(default=frozenset({"skipper", "mate"}))
    place: str = ""


def rule(function):
    """Registers a rule: it yields what it does not like, in words of the text."""
    RULES[function.__name__] = function
    return function


ACRONYM = re.compile(r"[A-Z][A-Z0-9/]+|[A-Z]")
SPOKEN_WITH_A_VOWEL = "AEFHILMNORSX"
LIKE_A_CONSONANT = r"one\b|once|uni|use|usu|eu|ur"
LIKE_A_VOWEL = r"hour|honest|heir"


@rule
def no_word_twice(said):
    """No word stands twice side by side; a signal is said three times."""
    for found in re.finditer(r"\b([^\W\d_]+)((?: \1\b)+)", said.text, re.IGNORECASE):
        if found[2].count(" ") == 1:
            yield found[0]


@rule
def every_slot_is_filled(said):
    """Nothing is left of a template: no slot, no word of Python, no hole where a value was to stand."""
    yield from re.findall(r"[{}]|\bNone\b|\bTrue\b|\bFalse\b|\[\]|\(\s*\)|: *[.;,]|“\s*”|\bnan\b", said.text)


@rule
def a_and_an_as_spoken(said):
    """`a` before a consonant, `an` before a vowel, as it is spoken."""
    for found in re.finditer(r"\b(an?) [“(]?([\w/]+)", said.text, re.IGNORECASE):
        article, word = found[1].lower(), found[2]
        if ACRONYM.fullmatch(word):
            vowel = word[0] in SPOKEN_WITH_A_VOWEL
        elif re.match(LIKE_A_VOWEL, word, re.IGNORECASE):
            vowel = True
        else:
            vowel = word[0].lower() in "aeiou" and not re.match(LIKE_A_CONSONANT, word, re.IGNORECASE)
        if word[0].isalpha() and (article == "an") is not vowel:
            yield found[0]


ROLES = (
    "mate",
    "cook",
    "engineer",
    "deckhand",
    "bosun",
    "master",
    "captain",
    "owner",
    "navigator",
    "co-skipper",
)


@rule
def nobody_is_named_who_is_not_aboard(said):
    """A role that the text names is one of hers."""
    aboard = {word for role in said.roles for word in role.split()}
    for role in ROLES:
        if re.search(rf"(?<![\w-])(the )?{role}(?![\w-])", said.text) and role not in aboard:
            yield role


OTHERS = (
    r"each other|one another|everybody|everyone|somebody else|anybody else|the others|other crew|all of you|one of you|both of you"
    r"|(send|tell|have|let|shout to|wake) (somebody|everybody|anybody|one person|them all)|count (all|them|again)|all are counted"
)


@rule
def who_is_alone_reads_of_nobody_else(said):
    """Where one person is aboard, nobody else acts, is counted or waited for."""
    if said.persons == 1:
        yield from (found[0] for found in re.finditer(rf"\b({OTHERS})\b", said.text, re.IGNORECASE))


@rule
def who_is_left_alone_sends_nobody(said):
    """Where one can act, nobody is sent, and no others do the rest."""
    if said.left <= 1:
        yield from (
            found[0]
            for found in re.finditer(
                r"\b(send (somebody|one)|one of you|each other|while others|share it|two of you|let one)\b",
                said.text,
                re.IGNORECASE,
            )
        )


@rule
def one_engine_or_several(said):
    """One engine is not told as several, nor several as the only one where one stops or starts them."""
    if said.engines <= 1:
        yield from re.findall(
            r"\b(?:[Bb]oth|[Ee]very|[Aa]ll|[Tt]he) engines?\b(?<!the engine)(?<!The engine)", said.text
        )
    elif said.what == "do":
        yield from re.findall(r"\b(?:[Ss]top|[Ss]tart) the engine\b", said.text)


SINGULAR = (
    r"it|boat|ship|raft|liferaft|engine|person|crewman|helicopter|somebody|nobody|everybody|anybody|whoever"
)
PLURAL = r"they|people|persons|engines|liferafts|boats|ships|waves|children|ropes|valves|pumps|flares|beacons"


@rule
def verbs_agree(said):
    """One does, several do."""
    if said.what == "leave":  # a question: does the boat go?
        return
    text = re.sub(r"\b(none|one|each) of (the|its|their|your) \w+", "…", said.text)
    text = re.sub(
        r"\b(if|that|let|see|have|does|do|did|can|may|must|will|would|could|should|as|make|help) (\w+ )?(\w+)",
        r"… \3",
        text,
    )
    yield from re.findall(
        rf"(?:^|[.:;,] |\bthe )(?:{SINGULAR}) (?:are|have|do|go|come|stand|lie)\b", text, re.IGNORECASE
    )
    yield from re.findall(
        rf"\b(?:{PLURAL}) (?:is|has|does|was|goes|comes|stands|lies)\b", text, re.IGNORECASE
    )


@rule
def marks_are_whole(said):
    """Brackets and quotation marks are closed, nothing is spaced or marked twice."""
    for left, right in ("()", "“”", "[]"):
        if said.text.count(left) != said.text.count(right):
            yield left
    yield from re.findall(r" {2,}| [.,;:!?](?!\.)|[,;:]{2,}|\.\.(?!\.)|[.!?],|^\s|\s$", said.text)


@rule
def it_begins_and_ends_as_a_sentence(said):
    """A sentence begins with a capital, an exception goes on from the word UNLESS; all end with a mark, a title with none."""
    if said.what == "title":
        if said.text[-1:] in ".;:,":
            yield said.text[-1]
        return
    first = said.text.lstrip("“(")[:1]
    if said.what == "unless":
        if first.isupper() and not ACRONYM.match(said.text.split()[0].strip(":,")):
            yield first
    elif not (first.isupper() or first.isdigit()):
        yield first
    if said.text.rstrip("”")[-1:] not in ".?!":
        yield said.text[-12:]


WORDS = {"do": 24, "unless": 26, "caution": 24, "why": 24, "intro": 24, "leave": 12, "end": 24, "title": 6}
"""The most words of one sentence, with what a boat puts in."""


@rule
def it_is_said_in_one_breath(said):
    """No sentence is longer than its kind may be."""
    for sentence in re.split(r"(?<=[.?!])\s+", said.text):
        if len(sentence.split()) > WORDS[said.what]:
            yield f"{len(sentence.split())} words"


@rule
def the_boat_is_it(said):
    """The boat is `it`: `her` may be read as a person in the water."""
    yield from re.findall(r"\b(?:she|her|hers|herself)\b", said.text, re.IGNORECASE)


@rule
def its_place_is_said_once(said):
    """The place that stands beside a step is not in its sentence too."""
    whole = said.place in said.text  # then it is not printed beside it
    for part in said.place.split("; ") if said.what == "do" and not whole else ():
        if len(part) > 9 and part.lower() in said.text.lower():
            yield part


@rule
def an_act_begins_it(said):
    """A step begins with what is to be done, or when."""
    if said.what == "do" and re.match(r"(There|This|That|You|We|It|He|She|They|Is|Are|Was|Has) ", said.text):
        yield said.text.split()[0]
