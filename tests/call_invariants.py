"""What must hold for the call for help whatever she carries: named, with what spoils a case so that it no longer does."""

import re
from dataclasses import replace

from calls_made import BEACONS, FACES, NUMBERS

from generator.shelves.languages import catalogue

HOLDS, SPOILT = {}, {}
MAIN, UNHEARD, SEEN = FACES
SPOKEN = ("mayday", "identity", "position", "nature", "listen")
FAULTS = (AssertionError, IndexError, TypeError)


def holds(spoil):
    """Registers what must hold, with what makes of a case one in which it does not (None where it cannot)."""

    def register(function):
        HOLDS[function.__name__], SPOILT[function.__name__] = function, spoil
        return function

    return register


def without(*parts):
    """Takes the steps away whose names begin so."""

    def spoil(case):
        kept = tuple(line for line in case.lines if not line.name.startswith(parts))
        return replace(case, lines=kept) if len(kept) < len(case.lines) else None

    return spoil


def last(*parts):
    """Puts the steps last whose names begin so."""

    def spoil(case):
        moved = tuple(line for line in case.lines if line.name.startswith(parts))
        rest = tuple(line for line in case.lines if not line.name.startswith(parts))
        return replace(case, lines=rest + moved) if moved and rest else None

    return spoil


def saying(text, key="text"):
    """Adds words to the first step."""

    def spoil(case):
        first = case.lines[0]
        changed = replace(first, **{key: f"{getattr(first, key)} {text}"})
        return replace(case, lines=(changed, *case.lines[1:]))

    return spoil


def twice(name):
    """Says a step once more on another card."""

    def spoil(case):
        found = [replace(line, face=UNHEARD) for line in case.lines if line.name == name]
        return replace(case, lines=(*case.lines, *found)) if found else None

    return spoil


def has_dsc(name):
    """Whether a set of the name makes a digital distress call."""
    return not name.startswith("satellite") and name[-3] == "1"


@holds(last("power", "any-telephone"))
def the_first_set_is_one_that_reaches(case):
    """One begins with the set whose button can be pressed, then speaks into the one that carries farthest; else a telephone rings."""
    main = case.on(MAIN)
    dsc = next(
        (each for each in case.sets if has_dsc(each) and not each.startswith("shortwave")),
        case.spoken_into,
    )
    first = dsc or (case.sets[0] if case.sets else None)
    if first is None:
        assert main[0].name.startswith("any-telephone"), main
        return
    assert f"on the shelf of {first}" in main[0].place, (case.sets, main[0])
    if case.spoken_into:
        on = [
            line for line in main[: case.at("mayday")] if f"on the shelf of {case.spoken_into}" in line.place
        ]
        assert on and case.spoken_into in on[-1].said
    else:
        assert main[1].name.startswith("ring")


@holds(without("epirb", "plb"))
def a_beacon_is_switched_on_where_she_has_one(case):
    """On the first card, by its own words; an EPIRB before a PLB, which is kept for whoever wears it."""
    on = [line for line in case.on(MAIN) if line.name.startswith(("epirb", "plb"))]
    first = next((each for each in ("bracket", "floating", "worn") if each in case.beacons), None)
    assert len(on) == (first is not None), case.beacons
    if first:
        assert f"press the key of {first}" in on[0].text and on[0].place
        assert ("float" in on[0].caution) == (first == "floating")
        assert (on[0].who == ("mate",)) == (first == "worn") or on[0].name != "plb" or case.persons == 1


@holds(without("sart", "device"))
def what_ships_see_is_switched_on_where_nobody_answers(case):
    """The radar transponder and one man-overboard device, where she has a radio at all; each where it is, and how."""
    for beacon, step in (("radar", "sart"), ("jacket", "device")):
        found = [line for line in case.on(UNHEARD) if line.name == step]
        assert len(found) == (beacon in case.beacons and bool(case.sets)), (case.beacons, step)
        assert all(f"press the key of {beacon}" in line.place for line in found)


@holds(saying("Then press the knob of satellite 999."))
def no_step_names_a_set_or_beacon_she_lacks(case):
    """Neither by its own words nor by its kind."""
    told = " ".join(line.said for line in case.lines)
    named = set(re.findall(r"(?:fixed|handheld|shortwave|satellite) [01]{3}|satellite 999", told))
    assert named <= set(case.sets), named
    for word in BEACONS:
        assert word in case.beacons or f"the key of {word}" not in told, word
    for kind, begins in (("fixed VHF", "fixed"), ("handheld VHF", "handheld"), ("kHz", "shortwave")):
        assert kind not in told or any(each.startswith(begins) for each in case.sets), kind


@holds(without("power", "button", "satellite", "handheld", "shortwave"))
def each_set_has_its_step_in_its_own_words(case):
    """Every set aboard is used on some card, with where it is and how it is switched on, and its button where it has one that is needed."""
    told = " ".join(line.said for line in case.lines)
    for each in case.sets:
        assert f"on the shelf of {each}" in told and f"press the knob of {each}" in told, each
    vhf = next((each for each in case.sets if has_dsc(each) and each[:5] in ("fixed", "handh")), None)
    wanted = {each for each in case.sets if has_dsc(each) and each.startswith("shortwave")} | ({vhf} - {None})
    assert {each for each in case.sets if f"under the flap of {each}" in told} == wanted


@holds(last("button"))
def the_button_comes_before_the_voice(case):
    """What says who and where by itself is pressed before anybody speaks, and its set is on by then."""
    pressed = [at for at, line in enumerate(case.on(MAIN)) if line.name.startswith("button")]
    voice = case.at("mayday")
    assert bool(pressed) == (voice is not None and any(map(has_dsc, case.sets)) and _button_first(case))
    assert all(at < voice for at in pressed)


def _button_first(case):
    """Whether the set that is begun with has a button: a shortwave button behind a VHF belongs to the second card."""
    vhf = [each for each in case.sets if each[:5] in ("fixed", "handh")]
    return any(map(has_dsc, vhf)) if vhf else True


@holds(twice("mayday"))
def the_words_are_said_once(case):
    """Each line of the script stands on the first card once, and on no other; in the order in which it is spoken."""
    say = catalogue().say
    lines = (
        say("distress.mayday"),
        say("distress.this-is", boat="Gorse"),
        say("distress.call-sign", call_sign="EIXZ7"),
        say("distress.mmsi", mmsi="250000000"),
        say("distress.mayday-again", boat="Gorse"),
        say("distress.position"),
        say("distress.nature"),
        say("distress.assistance"),
        f"“{say('distress.over')}”",
    )
    told = "\n".join(f"{line.text} {line.caution}" for line in case.lines)
    if case.spoken_into is None:
        assert lines[0] not in told
        return
    places = [told.index(line) for line in lines]
    assert places == sorted(places)
    assert all(told.count(line) == 1 for line in lines), [told.count(line) for line in lines]


@holds(without(*SPOKEN))
def the_voice_says_who_where_and_what(case):
    """On every set that is spoken into; and on a telephone in one line."""
    names = [next((part for part in SPOKEN if line.name.startswith(part)), "") for line in case.on(MAIN)]
    spoken = [name for name in names if name]
    assert spoken == (list(SPOKEN) if case.spoken_into else [])
    assert (case.at("tell") is None) == bool(case.spoken_into)


@holds(saying("Ring +44 7700 900142."))
def every_number_printed_is_a_rescue_centre_of_hers(case):
    """No number but those of the rescue centres among her contacts, and these where a telephone is used; never that of a person."""
    told = " ".join(line.said for line in case.lines)
    printed = set(re.findall(r"\+\d[\d ]+\d", told))
    assert printed == set(case.numbers), printed
    assert len(case.numbers) < len(NUMBERS) or not printed or "the rescue centre of the north – " in told


@holds(without("ring", "satellite", "any-telephone", "telephone"))
def somebody_can_be_rung(case):
    """A telephone is tried on every boat: her own where she has one, else any; with the number where one is known."""
    rung = [
        line
        for line in case.lines
        if line.name.startswith(("ring", "satellite", "any-telephone", "telephone"))
        and line.name != "ring-again"
    ]
    assert len(rung) == 1, [line.name for line in rung]
    assert all(number in rung[0].text for number in case.numbers)
    assert rung[0].name.endswith("unnumbered") == (not case.numbers)


@holds(without("epirb"))
def whoever_is_alone_sets_off_the_beacon_before_speaking(case):
    """What calls by itself goes first where there is one pair of hands; else it follows the call."""
    at = next((at for at, line in enumerate(case.on(MAIN)) if line.name.startswith("epirb")), None)
    assert (at is None) == ("bracket" not in case.beacons and "floating" not in case.beacons)
    if at is not None and case.spoken_into:
        assert (at < case.at("mayday")) == (case.persons == 1)


@holds(without("arms", "parachute", "hand-flare"))
def something_is_always_seen(case):
    """Every boat has a signal to the eye, and every card leads to it or to what comes next."""
    assert any(line.name.startswith("arms") for line in case.on(SEEN))
    assert (MAIN, UNHEARD if case.sets else SEEN) in case.leaves
    assert not case.sets or (UNHEARD, SEEN) in case.leaves
    for line in case.on(SEEN):
        assert line.name != "parachute" or "aircraft" in line.unless


@holds(without(""))
def each_card_is_a_card(case):
    """One to nine steps, each one sentence."""
    for face in FACES if case.sets else (MAIN, SEEN):
        assert 1 <= len(case.on(face)) <= 9, (face, len(case.on(face)))
    assert case.sets or not case.on(UNHEARD)


@holds(saying("Then read it on the screen of fixed 999."))
def the_position_is_read_off_a_set_that_shows_it(case):
    """Off the one in hand, or another with its place; off none that does not show it."""
    shows = [each for each in case.sets if each[-1] == "1"]
    read = [line for line in case.on(MAIN) if line.name.startswith("position")]
    said = re.findall(r"on the screen of (\w+ \d{3})", " ".join(line.said for line in case.lines))
    if case.spoken_into is None:
        assert read == [] and said == shows[:1]
        return
    (line,) = read
    if case.spoken_into in shows:
        assert (line.name, line.text.count(f"on the screen of {case.spoken_into}")) == ("position-shown", 1)
    elif shows:
        assert line.name == "position-elsewhere" and f"off the {shows[0]}" in line.text
        assert (
            f"on the shelf of {shows[0]} (press the knob of {shows[0]}; position on the screen" in line.place
        )
    else:
        assert line.name == "position"
    assert said == ([case.spoken_into if case.spoken_into in shows else shows[0]] if shows else [])


@holds(saying("then wait until it is answered.", "unless"))
def the_call_waits_for_nobody_and_nobody_for_it(case):
    """Nobody is told to wait for an answer; whoever speaks goes when water or fire comes."""
    for line in case.lines:
        assert not re.search(r"\bwait\b(?! for it to float)", line.said), line
    if case.spoken_into:
        listen = next(line for line in case.on(MAIN) if line.name == "listen")
        assert "water or fire comes" in listen.unless
