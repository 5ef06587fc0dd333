"""What must hold in emergencies of boat, weather, fuel and of others who come to help, whatever the facts of the boat."""

import re
from dataclasses import replace

from emergency_invariants import before, excepted, first, invariant, last, only, saying
from medical_emergency_invariants import without


@invariant(
    lambda case: replace(
        case, lines=tuple(replace(line, do="Wait.", unless="", caution="") for line in case.lines), leaves=()
    ),
    in_the_water="in the water the signals stand in its steps; nobody reads it there",
    fire_berth="the fire service is telephoned",
    into_the_water="the call stands on the card before",
    bar="nobody is in need yet; what goes wrong there is another card",
)
def help_is_called_in_every_emergency(case):
    """Some step or line says whom to call or where the call is: for a boat without a radio by signals. Exceptions: see there."""
    first = case.one.emergency  # what follows under its bill comes behind that call
    if first and not excepted("help_is_called_in_every_emergency", case.one.id):
        said = " ".join((*(line.said for line in case.lines), *(words for words, _ in case.leaves)))
        to = [to for _, to in case.leaves]
        assert re.search(
            r"\bcall\b|\bcalls\b|Call |coastguard|rescue centre|Mayday|MAYDAY|Pan-Pan|[Ss]ignal|horn|noise|doctor|hail|who can help|telephone|beacon|epirb|plb|EPIRB|PLB|channel 16",
            said,
        ) or {"distress-call", "abandon-ship", "ready-to-leave", "fire", "flooding", "flooding-rises"} & set(
            to
        ), case.ids


@invariant(
    saying("do", "Jump in and swim for the shore."),
    raft_automatic__board="the liferaft is what floats, and whoever swims to it has nothing else",
    in_the_water="whoever is in the water may swim to what is near; it says when not",
)
def nobody_swims_for_the_shore(case):
    """A hull is seen and a head is not: no act sends anybody swimming. Exceptions: see there."""
    for line in case.lines:
        if not excepted("nobody_swims_for_the_shore", line.id):
            told = re.sub(
                r"(do not|never|nobody|not think of|before anybody thinks of)\b[^.:;]*",
                "",
                line.do,
                flags=re.IGNORECASE,
            )
            assert not re.search(r"\b(swim|dive|jump)\b", told, re.IGNORECASE) or "dive out" in told, line.id


@invariant(only("capsized-multihull", "upside-down", spoil=saying("do", "Inflate your lifejacket.")))
def nothing_is_inflated_inside(case):
    """Under a deck that was the floor a full lifejacket holds its wearer down: outside first. Exception: foam, which is not inflated."""
    if case.one.id in ("capsized-multihull", "upside-down"):
        for line in case.lines:
            if re.search(r"\binflate\b", line.do, re.IGNORECASE):
                assert re.search(r"none inside|[Oo]nce outside", line.do), line.id


@invariant(only("turned-over", "capsized-multihull", spoil=last("names", "hold")))
def heads_are_counted_before_the_hull_is_climbed(case):
    """Every name is called, and whoever is under her freed, before anybody rights, climbs or signals. Exception: whoever is alone."""
    if case.one.id in ("turned-over", "capsized-multihull") and case.persons > 1:
        assert case.at("names")
        assert before(
            case, ("names",), ("right", "climb", "jackets", "outside", "epirb", "plb", "call", "gather")
        )


@invariant(only("turned-over", spoil=last("engine")))
def a_propeller_stops_before_anybody_is_beside_it(case):
    """A swamped boat's engine is stopped before anybody rights or climbs. Exception: no engine."""
    if case.one.id == "turned-over" and case.facts["engine"]:
        assert case.at("engine")
        assert before(case, ("engine",), ("right", "climb", "bail"))


@invariant(
    only(
        "capsized-multihull", spoil=lambda case: saying("do", "Open the hatch.")(first("hatch")(case) or case)
    )
)
def the_escape_hatch_lets_out_the_air(case):
    """It stays shut while the air is good, and is opened slowly when somebody must pass. Exception: none that opens upside down."""
    if case.one.id == "capsized-multihull":
        for line in case.lines:
            if re.search(r"\bhatch\b", line.do):
                assert line.do.startswith("Keep") and "somebody must pass" in line.unless, line.id
                assert "slowly" in line.caution, line.id


@invariant(only("knock-down", spoil=first("shut", "pump", "bail", "sheets")))
def whoever_is_thrown_holds_on_first(case):
    """Hold, then look for people, then the boat; ropes come out of the water before an engine is named. No exception."""
    if case.one.id == "knock-down":
        assert case.at("hold") == [0]
        assert before(
            case, ("names", "self"), ("sheets", "lie", "shut", "pump", "bail", "gas", "lines", "call")
        )
        assert not any(re.search(r"\bstart the engine", line.do, re.IGNORECASE) for line in case.lines)


@invariant(only("mast-down", spoil=last("engine", "clip-on", "lifejackets")))
def nobody_cuts_wires_unclipped_or_with_the_engine_on(case):
    """Engine off, people counted, lifejackets on before anything is cut; no engine starts with a line in the water. Exception: no engine."""
    if case.one.id == "mast-down":
        assert before(case, ("engine",), ("count", "cut", "pins", "lash"))
        assert before(case, ("clip-on", "lifejackets", "hold", "count"), ("cut", "pins"))
        assert before(case, ("cut", "pins", "lash"), ("start",))
        for number in case.at("cut", "pins"):
            assert "spring back" in case.lines[number].caution


@invariant(only("stay-parted", spoil=first("halyard", "sails")))
def the_load_comes_off_before_anybody_goes_to_the_mast(case):
    """The boat is turned so that the wire that parted bears nothing, and people stand clear, before a halyard is set. No exception."""
    if case.one.id == "stay-parted":
        assert before(case, ("bow", "stern", "side", "clear"), ("halyard", "sails$", "engine"))
        assert case.at("clear")


@invariant(only("power-lost", spoil=first("fault")))
def no_sea_room_is_spent_on_repairs(case):
    """Turn, sail or anchor, and call: the fault is looked for after that. Exception: what is not there."""
    if case.one.id == "power-lost":
        assert before(case, ("turn", "sail", "row", "anchor", "drogue", "call", "signal"), ("fault",))


@invariant(only("grounding", spoil=first("off")))
def nobody_pulls_a_holed_boat_into_deep_water(case):
    """The hull is looked at before she is pulled off; nobody steps out on the low side. No exception."""
    if case.one.id == "grounding":
        assert case.at("look") and case.at("off")
        assert before(case, ("count", "lifejacket", "look", "call", "signal"), ("off", "lean"))
        assert "dry" in case.lines[case.at("off")[0]].do
        assert "low side" in " ".join(line.said for line in case.lines) or case.persons > 1


@invariant(only("collision", spoil=first("stand-by", "names", "look", "mat", "press")))
def two_boats_stay_together_until_people_are_counted(case):
    """Stop first, heads before hulls, and nobody leaves the other boat in need. Exception: one's own people in danger."""
    if case.one.id == "collision":
        assert case.at("stop") == [0] and "do not pull" in case.lines[0].do
        assert before(
            case, ("count", "ask"), ("lifejackets", "look", "call", "mat", "press", "stand-by", "names")
        )
        assert "serious danger" in case.lines[case.at("stand-by")[0]].unless


@invariant(only("anchoring", spoil=last("end", "lifejacket", "stop")))
def no_anchor_goes_before_its_end_is_fast(case):
    """The end of the line is tied on, and whoever goes forward wears a lifejacket, before the anchor goes. No exception."""
    if case.one.id == "anchoring":
        assert before(case, ("lifejacket", "stop", "end"), ("let-go", "lower"))
        for number in case.at("let-go", "lower"):
            assert "Feet" in case.lines[number].caution


@invariant(only("dragging", spoil=last("engine", "lifejacket", "sail", "oars")))
def nobody_goes_forward_before_something_can_drive_her(case):
    """Engine, sail or oars are ready, and a lifejacket is on, before anybody touches the anchor. No exception."""
    if case.one.id == "dragging":
        assert before(case, ("engine", "sail", "oars"), ("lifejacket", "more-line", "second", "slip"))
        assert before(case, ("lifejacket",), ("more-line", "second", "again", "slip"))


@invariant(
    only(
        "steering-lost",
        spoil=lambda case: replace(case, lines=tuple(replace(line, caution="") for line in case.lines)),
    )
)
def no_hand_is_in_the_rudder_gear(case):
    """Whoever looks at what steers keeps the hands out, or the engine is off. No exception."""
    if case.one.id == "steering-lost":
        for number in case.at("look"):
            assert re.search(r"Hands out|Engine off", case.lines[number].caution), case.ids[number]


@invariant(only("propeller-fouled", spoil=last("stop", "nobody-starts")))
def nobody_touches_a_fouled_propeller_with_the_engine_on(case):
    """Stopped, the key out, everybody told, before a hand goes near; started only when all are counted. No exception."""
    if case.one.id == "propeller-fouled":
        assert case.at("stop") == [0]
        assert before(case, ("stop", "nobody-starts"), ("tilt", "pull", "pole", "start"))
        assert case.persons == 1 or (case.at("nobody-starts") and case.at("start"))


@invariant(
    only(
        "propeller-fouled",
        spoil=lambda case: replace(
            case,
            lines=(
                *case.lines[:-1],
                replace(
                    case.lines[-1], id="propeller-fouled.no-diving", do="Let one dive.", unless="it is calm"
                ),
            ),
        ),
    )
)
def too_few_never_dive(case):
    """With one or two left nobody goes under the boat, whatever the weather. Exception: three and more, in what it names."""
    if case.one.id == "propeller-fouled":
        assert case.at("no-diving")
        few = case.facts["one left"] or case.facts["two left"] or case.facts["nobody left"]
        for number in case.at("no-diving"):
            line = case.lines[number]
            assert re.match(r"(Let nobody|Do not) go under", line.do), line.id
            assert not (few and line.unless), line.id


@invariant(only("petrol-vapour", spoil=saying("do", "Call on the radio, and switch on the blower.")))
def nothing_sparks_in_petrol_vapour(case):
    """No switch, lamp, telephone, radio or pump: on or off, each sparks. Exception: to leave it as it is."""
    if case.one.id == "petrol-vapour":
        for line in case.lines:
            if re.search(
                r"\b(radio|telephone|flare|torch|lamp|electric|switch|blower|bilge pump)\b",
                line.do,
                re.IGNORECASE,
            ):
                assert re.match(r"Leave|Shout", line.do), line.id
        assert before(case, ("switches", "flames", "people"), ("open", "fuel", "mop"))


@invariant(only("fire-petrol", spoil=last("shout", "away-alone")))
def nobody_fights_petrol_from_downwind(case):
    """People are upwind before fuel is shut or anything fought; no water; a way off is kept ready. Exception: no extinguisher."""
    if case.one.id == "fire-petrol":
        assert before(case, ("shout", "away-alone"), ("stop", "kill-cord", "fuel", "fight", "call"))
        assert case.at("early")
        for number in case.at("stop", "kill-cord", "fuel", "fight"):
            assert case.lines[number].unless, case.ids[number]
        assert re.search(r"[Nn]ever water|[Tt]hrow no water", " ".join(line.said for line in case.lines))


@invariant(only("fire-galley", spoil=first("extinguisher", "gas", "wait")))
def burning_fat_is_covered_not_carried(case):
    """The pan stays, gets no water, and is covered before gas and extinguisher; smoke in the space ends it. No exception."""
    if case.one.id == "fire-galley":
        assert before(case, ("leave-it",), ("gas", "heat", "extinguisher"))
        assert before(case, ("cover", "lid"), ("gas", "heat", "extinguisher", "wait"))
        assert "No water" in case.lines[case.at("leave-it")[0]].caution
        for number in case.at("cover", "lid", "extinguisher"):
            assert "smoke" in case.lines[number].unless, case.ids[number]


@invariant(only("fire-berth", spoil=last("shout", "shout-alone")))
def at_a_berth_people_are_ashore_first(case):
    """Off and counted before anybody telephones, and nobody goes back aboard. No exception."""
    if case.one.id == "fire-berth":
        assert case.at("shout") == [0]
        assert before(case, ("shout", "count"), ("fire-service", "shore-power", "fight", "wake"))
        assert re.search(r"go(es)? back", case.lines[0].caution)
        assert case.at("ashore") and case.lines[-1].do.startswith("Stay ashore")


@invariant(only("bar", spoil=last("stop")))
def nobody_is_on_a_bar_before_it_was_watched(case):
    """Outside first: watch, tide, lifejackets; then across, and never round. No exception."""
    if case.one.id == "bar":
        assert case.at("stop") == [0] and "doubt" in case.lines[0].caution
        assert before(case, ("stop", "tide", "lifejackets", "close", "seat", "kill-cord"), ("out", "in$"))
        assert case.at("no-turning")


@invariant(only("heavy-weather", spoil=last("lifejackets", "clip-on")))
def lifejackets_come_before_the_deck(case):
    """Lifejackets and tethers are on before anybody reefs, shuts or stows. Exception: boats without tethers have the first alone."""
    if case.one.id == "heavy-weather":
        assert case.at("lifejackets")
        assert before(case, ("lifejackets", "clip-on"), ("close", "stow", "reef", "storm-sails", "bow"))


@invariant(only("lightning", spoil=last("struck", "metal")))
def after_a_stroke_people_come_before_the_hull(case):
    """Hands are off metal before the plug is pulled, and people are looked at before holes. Exception: whoever is alone."""
    if case.one.id == "lightning":
        assert before(case, ("metal",), ("aerial", "holes", "hull", "smell"))
        assert before(case, ("struck",), ("holes", "hull", "smell"))
        assert case.persons == 1 or case.at("struck")
        for number in case.at("aerial"):
            assert "overhead" in case.lines[number].unless


@invariant(only("under-tow", spoil=last("away", "lifejackets")))
def a_towline_can_be_let_go_and_nobody_stands_in_it(case):
    """It is made fast so that it comes off under load, and people are away from it before anybody steers. No exception."""
    if case.one.id == "under-tow":
        assert case.at("let-go") and case.at("away")
        assert before(case, ("lifejackets",), ("take", "fast", "spread", "low", "let-go"))
        assert before(case, ("away",), ("steer",))


@invariant(only("helicopter", spoil=last("no-rocket", "no-light", "agree", "signs")))
def nothing_is_shone_or_shot_at_a_helicopter(case):
    """Orders are said back before the noise, and no rocket or light goes up, before its line comes down. No exception."""
    if case.one.id == "helicopter":
        assert case.at("no-rocket", "no-light")
        assert case.at("agree", "signs") == [0]
        assert before(case, ("no-rocket", "no-light", "loose"), ("line$", "crewman", "lifted"))


@invariant(only("distress-seen", spoil=first("go", "near")))
def who_goes_to_help_has_listened_and_keeps_own_people_safe(case):
    """Listen and tell before going; own people first; no propeller beside anybody. No exception."""
    if case.one.id == "distress-seen":
        assert before(
            case, ("write", "listen", "answer", "relay", "telephone", "tell-anyhow"), ("go$", "near")
        )
        line = case.lines[case.at("go$")[0]]
        assert "safe" in line.do and "danger" in line.unless
        assert before(case, ("lifejackets",), ("near",))


@invariant(only("strangers", spoil=saying("do", "Take a weapon, chase them.")))
def nobody_fights_strangers(case):
    """People keep together, give what is asked, and chase nobody; no act takes a weapon. No exception."""
    if case.one.id == "strangers":
        assert case.at("give") and case.at("together", "below") == [0]
        assert not any(re.search(r"\b(weapon|fight|chase|hit|attack)\b", line.do) for line in case.lines)
        assert case.facts["radio aboard"] is False or case.at("call", "horn", "noise")


@invariant(only("man-overboard-search", spoil=last("mark", "call", "send")))
def the_water_is_marked_and_the_call_made_before_the_pattern(case):
    """The place drifts: something that floats goes over first, then the call, then legs; nobody stops before the rescue centre says. No exception."""
    if case.one.id == "man-overboard-search":
        assert case.at("mark") == [0]
        assert before(case, ("mark", "call", "send"), ("legs", "turn", "listen"))
        assert case.ids[-1].endswith("go-on") and "rescue centre" in case.end


@invariant(
    only(
        "transfer",
        spoil=lambda case: replace(case, lines=tuple(replace(line, caution="") for line in case.lines)),
    )
)
def nobody_is_crushed_between_ship_and_boat(case):
    """She is not tied alongside, the engine is out of gear, and arms and legs stay clear of the gap. Exception: no engine."""
    if case.one.id == "transfer":
        assert case.at("untied") and "gap" in case.lines[case.at("top")[0]].caution
        for number in case.at("engine"):
            assert "Out of gear" in case.lines[number].caution


@invariant(only("urgent-call", spoil=without("cancel")))
def an_urgent_call_is_taken_back(case):
    """Whoever asked by voice takes it back when it is over, on the order of whoever commands. Exception: by telephone it is the stand-down's."""
    if case.one.id == "urgent-call":
        assert case.at("cancel") or not case.at("say")
        assert case.persons == 1 or case.at("order") == [0]
