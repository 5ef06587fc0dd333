"""The words of the trade: whichever stand in what is printed for a boat are explained to whoever was never on one, and no others."""

import datetime as dt
import html
import re

import pytest
from crews import BOATS, composed
from open_boats import AS_OF, OPEN_BOAT

from generator.manual.composing import compose
from generator.manual.glossary import Glossary
from generator.manual.wording import gaps
from generator.outputs import Job, book, cards, one_file, site
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue, catalogue
from generator.shelves.shelf import read_below
from generator.shelves.spotting import Spotter
from generator.shelves.trade import TRADE, trade
from generator.shelves.words import WORDS
from generator.vessel.loading import load

DAY = dt.date(2026, 6, 1)
# Gathered by reading what is printed, not from the shelf: first what a reader who had never sailed stumbled over.
STUMBLED_OVER = (
    "painter, HRU, weak link, drogue, seacock, lee side, danbuoy, coaming, deckhead, pushpit, pulpit, hydrostatic release, guardwire, windward, "
    "through-hull, halyard, winch, boom, tether, lifebuoy, canister, valise, sea anchor, bilge, transom, thwart, kill cord, EPIRB, SART, AIS, "
    "DSC, MMSI, PLB, squelch, muster, rode, cleat, fender, bow, stern, starboard"
)
READ_TOO = (
    "abaft, abeam, adrift, aft, aground, ahead, amidships, astern, autopilot, awash, backstay, bailer, beam, bearing, berth, bimini, boarding gate, "
    "bowsprit, bridgedeck, bridle, bulkhead, bulwark, buoyancy, call sign, canopy, catamaran, chart table, coachroof, cockpit, collision mat, "
    "companionway, cradle, crotch strap, daggerboard, davit, defibrillator, dismasted, displacement, downwind, draft, echo sounder, fairlead, "
    "fire port, flare, flybridge, foghorn, foredeck, forepeak, forestay, freeboard, galley, genoa, GMDSS, GNSS, grab bag, guardrail, gunwale, "
    "handheld, hatch, headsail, helm, helmsman, hull, immersion suit, inboard, isolator, jackstay, jib, kedge, keel, lanyard, lashing, lazarette, "
    "lee, lee shore, leeward, lifeline, locker, look-out, mainsail, mainsheet, mizzen, monohull, mooring, multihull, muster place, neutral, "
    "outboard, overboard, padeye, PAN-PAN, parachute flare, parbuckle, plotter, porthole, quoit, radar reflector, rescue centre, rescue sling, "
    "rigging, rowlock, rudder, saildrive, saloon, scupper, Senhouse slip, SÉCURITÉ, shackle, shore power, shortwave, shroud, skin fitting, sole, "
    "spinnaker, sprayhood, spreader, stanchion, station bill, stern sheets, stern tube, storm jib, strong point, sump, swamped, toe rail, "
    "thermal protective aid, throwing line, tiller, tourniquet, trampoline, transponder, trimaran, trysail, upwind, VHF, washboard, waterline, "
    "wheelhouse, windlass, carbon monoxide, CO"
)
LISTED_UNDER = {
    "catamaran": "multihull",
    "leeward": "lee side",
    "rescue sling": "lifting sling",
    "skin fitting": "through-hull",
}
RAFT_WORDS = ("canister", "HRU", "hydrostatic release", "painter", "Senhouse slip", "valise", "weak link")
CREWS = ("alone", "a couple", "twelve")
TEXTS = next(shelf for shelf in WORDS if shelf.name == "explanations")


LISTED = sorted([*STUMBLED_OVER.split(", "), *READ_TOO.split(", ")], key=len, reverse=True)
ANY = re.compile(
    "|".join(rf"\b({re.sub('[ -]', '[ -]', each)})(?:s|es)?\b" for each in LISTED), re.IGNORECASE
)


def words_in(text):
    """The words of the two lists that stand in a text, one or several of each; the longer where one is in another, CO only in capitals."""
    found = {(LISTED[match.lastindex - 1], match[match.lastindex]) for match in ANY.finditer(text)}
    return {word for word, as_written in found if not word.isupper() or as_written == word}


def stands_in(form, text):
    """Whether a form of a word stands in a text."""
    return re.search(rf"\b{re.sub('[ -]', '[ -]', form)}\b", text, 0 if form.isupper() else re.IGNORECASE)


SPARED = re.compile(r"heads (?:ache|down|that were hit)|\b35 heads|rode out|home port", re.IGNORECASE)


def shown(markup):
    """What a page shows."""
    bare = re.sub(r"<[^>]*>", " ", markup)
    return SPARED.sub("", html.unescape(bare).replace("\u00ad", ""))


def told_on_site(manual):
    """(what all pages show without their explanations, the explanations by word, those under each procedure)."""
    pages = site.articles(Job(manual, site.READER), one_file.inside, lambda _item: "")
    whole = "\n".join(body for _, body in pages)
    pairs = r"<div[^>]*><dt>(.*?)</dt><dd>(.*?)</dd></div>"
    lists = re.compile(r'<(dl|details) class="words">.*?</\1>', re.DOTALL)
    (every,) = [each[0] for each in lists.finditer(whole) if each[1] == "dl"]
    below = [
        dict(re.findall(pairs, html.unescape(each[0]))) for each in lists.finditer(whole) if each[1] != "dl"
    ]
    return shown(lists.sub("", whole)), dict(re.findall(pairs, html.unescape(every))), below


def told_in_book(manual):
    """(what the book shows without its explanations, the explanations by word)."""
    whole = book.html(Job(manual, book.READER))
    assert book.WORDS_HERE not in whole
    found = re.search(r'<div class="words">.*?</div>', whole, re.DOTALL)
    pairs = re.findall(r"<p><b>(.*?)</b> (.*?)</p>", html.unescape(found[0]))
    return shown(whole.replace(found[0], "")), dict(pairs)


def wrong_with(text, explained):
    """What stands in a text and is not explained, what is explained and stands nowhere, and explanations that need another word."""
    forms = {str(each.listed): each.forms for each in catalogue().trade.words.values()}
    for word in sorted(words_in(text)):
        if LISTED_UNDER.get(word, word) not in explained:
            yield f"{word} is not explained"
    for word, said in explained.items():
        if not any(stands_in(form, text) for form in forms[word]):
            yield f"{word} stands nowhere"
        for other in words_in(said) - {word}:
            if LISTED_UNDER.get(other, other) != word:
                yield f"{word} takes {other}"
    if list(explained) != sorted(
        explained, key=lambda word: word.casefold().replace("é", "e").replace("-", " ")
    ):
        yield "not by the alphabet"


@pytest.fixture(scope="module")
def crewed(tmp_path_factory):
    """Composes a specimen with a crew."""
    folder = tmp_path_factory.mktemp("crews")

    def made(boat, crew):
        return compose(composed(boat, crew, folder)[0], DAY, DAY, catalogue())[0]

    return made


@pytest.mark.thorough
@pytest.mark.one_in(3, "boat")
@pytest.mark.parametrize("crew", CREWS)
@pytest.mark.parametrize("boat", BOATS)
def test_what_is_printed_is_explained_and_nothing_else(crewed, boat, crew):
    manual = crewed(boat, crew)
    text, explained, below = told_on_site(manual)
    printed, in_book = told_in_book(manual)
    assert [*wrong_with(text, explained), *wrong_with(printed, in_book)] == []
    assert len(explained) > 60
    for each in below:
        assert each.items() <= explained.items()
    if not manual.vessel.rafts:
        for said in (explained, in_book):
            assert not said.keys() & set(RAFT_WORDS)
            assert [word for word, meaning in said.items() if "raft" in meaning] == []


def gorse(tmp_path, more=""):
    (tmp_path / "vessel.yaml").write_text(OPEN_BOAT + more, encoding="utf-8")
    vessel, _ = load(tmp_path, "gorse")
    return compose(vessel, AS_OF, AS_OF, catalogue())[0]


def test_an_owners_own_word_is_explained_too(tmp_path):
    more = "  - {what: second whistle at the pulpit, kind: signal, quantity: 1, where: foredeck locker, side: port}\n"
    before, after = told_on_site(gorse(tmp_path))[1], told_on_site(gorse(tmp_path, more))[1]
    assert {*after} - {*before} == {"pulpit"}
    assert told_in_book(gorse(tmp_path, more))[1]["pulpit"] == "The rail round the front end of the deck."


def test_an_explanation_is_true_for_the_boat(tmp_path):
    words = "Painter, boom, canister, reef, canopy, bridgedeck."
    said = {each.called: each.says for each in gorse(tmp_path).glossary.of(words)}
    assert "raft" not in " ".join(said.values())
    assert not said.keys() & {"canister", "reef"}  # no raft, no sails
    facts = {name: True for each in trade() for name in map(_fact, _facts_of(each))}
    with_all = {each.called: each.says for each in Glossary(facts, catalogue()).of(words)}
    assert {*with_all} == {"boom", "bridgedeck", "canister", "canopy", "painter", "reef"}
    assert all(with_all[each] != said[each] for each in ("boom", "bridgedeck", "canopy", "painter"))


def _facts_of(word):
    return (*word.when, *(fact for other in word.other_words for fact in other.when))


def _fact(said):
    return said.removeprefix("not ")


def test_words_are_spotted_whole_as_they_are_written():
    spotter = Spotter(
        {
            "co": ["CO"],
            "slip": ["slip"],
            "senhouse": ["Senhouse slip"],
            "port": ["port"],
            "fire": ["fire port"],
        },
        ["home port"],
    )
    for text, found in {
        "The CO alarm": {"co"},
        "the co-skipper": set(),
        "slips": set(),
        "Slip": {"slip"},
        "the senhouse\nslip": {"senhouse"},
        "SENHOUSE-SLIP, slip": {"senhouse", "slip"},
        "Home port: Cork": set(),
        "fire port": {"fire"},
        "port": {"port"},
        "İ CO": {"co"},
        "support": set(),
        "": set(),
    }.items():
        assert spotter.found_in(text) == found, text
    assert Spotter({}).found_in("port") == frozenset()


def _text(shelf):
    return (templates_folder() / shelf.pattern).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("The rail round the back end of the deck.", "The rail round the stern.", "takes the word 'stern'"),
        ("The rail round the back end of the deck.", "The rail. It is behind.", "is no short sentence"),
        ("The rail round the back end of the deck.", f"The {'very ' * 30}last rail.", "is no short sentence"),
        ("forms: [pushpit, pushpits]", "forms: [pushpit]", "the tally says"),
        ("forms: [pushpit, pushpits]", "forms: [pushpit, pulpits]", "is a form of 'pulpit' too"),
        ("    listed: pushpit\n", "", "listed"),
    ],
)
def test_a_shelf_that_was_spoilt_is_noticed(before, after, told):
    text = _text(TEXTS)
    assert text.count(before) == 1
    file, findings = TEXTS.read_text(text.replace(before, after), "text/en/trade.yaml")
    found = [each.message for each in (*findings, *TEXTS.holds_together([file]))]
    assert any(told in each for each in found), found


@pytest.mark.parametrize("shelf", [TRADE, TEXTS], ids=["words", "explanations"])
@pytest.mark.parametrize(
    "told", ["is not explained", "templates/words has it not", "lacks", "nothing prints"]
)
def test_what_is_named_is_explained_and_the_other_way_round(shelf, told):
    """A word, or what it means on some boats, is misspelt on one of the two shelves."""
    old, new = (
        ("pushpit", "pushpiit")
        if "ex" in told or "has" in told
        else ("boom-without-sails", "boom-withoutsails")
    )
    begins = {"words": "word: ", "others": "words: "} if shelf is TRADE else {"words": "  ", "others": "{"}
    head = begins["words" if old == "pushpit" else "others"]
    text = _text(shelf)
    end = {"word: ": ",", "words: ": "}", "  ": ":", "{": ":"}[head]
    assert text.count(f"{head}{old}{end}") == 1
    file, findings = shelf.read_text(text.replace(f"{head}{old}{end}", f"{head}{new}{end}"), shelf.pattern)
    assert findings == ()
    shelves = [
        (each, (file,) if each is shelf else files, found)
        for each, files, found in read_below(SHELVES, templates_folder())
    ]
    found = gaps(Catalogue("en", templates_folder(), shelves), shelves)
    assert any(told in each.message for each in found), found


def test_an_explanation_is_read_in_one_breath():
    assert [
        each for words in catalogue().trade.words.values() for each in words.meanings if len(each) > 110
    ] == []


def raft_cards(manual):
    return [each for each in cards.cards(manual, "guest") if each.station == "raft"]


def words_on(card):
    return [each.called for block in card.blocks for each in block.explained]


def test_the_cards_of_a_raft_explain_its_words(crewed):
    manual = crewed("saltmeadow", "a couple")
    told = {card.blocks[0].template: words_on(card) for card in reversed(raft_cards(manual))}
    assert told["party.html"] == ["HRU", "painter", "weak link"]
    for card in raft_cards(manual):
        said = "\n".join(text for block in card.blocks for text in (block.title, *block.says))
        for word in ("painter", "weak link", "HRU", "drogue"):
            assert (word in words_on(card)) >= (word in words_in(said)), (card.title, word)
        assert card.code == card.without_explanations().code
    assert all(words_on(card) == [] for card in cards.cards(manual, "guest") if card.station != "raft")
    without = crewed("ombrelune", "a couple")  # no release that lets go by itself, no weak link
    assert {word for card in raft_cards(without) for word in words_on(card)} == {"painter"}


@pytest.mark.thorough
@pytest.mark.usefixtures("pdf_engine")
@pytest.mark.parametrize(("boat", "paper"), [("saltmeadow", "A5"), ("zilte-wind", "A4")])
def test_no_card_takes_a_further_side_for_its_explanations(crewed, boat, paper):
    """The launch of Zilte Wind fills one side to the last line, as does what happens if nobody reaches Saltmeadow's raft on A5."""
    manual = crewed(boat, "a couple")
    page = cards._Page(Job(manual, "guest", paper))
    gave_way = 0
    for card in raft_cards(manual):
        if words_on(card):
            bare = sum(each.sides for each in page.hung(card.without_explanations()))
            hung = page.hung(card)
            assert sum(each.sides for each in hung) == bare, card.title
            assert all(each.size_pt >= page.smallest_pt for each in hung)
            gave_way += not any(words_on(each.card) for each in hung)
            assert card.blocks[0].template != "party.html" or words_on(hung[0].card) == words_on(card)
            whole = page.html(hung)
            assert all(f"<b>{word}:</b>" in whole for each in hung for word in words_on(each.card))
    assert gave_way <= 1
