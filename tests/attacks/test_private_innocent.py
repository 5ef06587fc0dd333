"""No false alarm: what guests may read is let pass beside hundreds of private values, however near it comes to one of them."""

import random
import re
from datetime import date

import disguises
import pytest
from boat_file import ROOT
from checks.survey_patch import VESSELS, lay_out, read_case

from generator.publishing import Order, survey
from generator.publishing import write as write_outputs
from generator.survey.registry import CHECKS, Sight
from generator.survey.withheld.files import Seen, parts_of
from generator.survey.withheld.matching import Matcher
from generator.survey.withheld.plain import plain
from generator.survey.withheld.redaction import Redactor
from generator.survey.withheld.values import Kept, Withheld, kept_from

DAY = date(2026, 6, 1)
BOATS = sorted(path.parent for path in VESSELS.glob("*/vessel.yaml"))
GOOD = sorted((ROOT / "tests/checks/good").glob("*.yaml"))

FIRST = "Anna Berit Carl Dagny Elin Frank Grace Hope Ingrid Jonas Kari Mark Nora Olaf Rose Sven Tomos Vera Will Zoe Noémie Åse Ann Bo Li".split()  # noqa: SIM905 - names in a row
LAST = "Quay Marsh Brook Stone Skjold Brynmor Pradel Fisher Cook Waters North Field Holm Strand Vik Gale Black White Green Carpenter Smith Nguyen O'Brien".split()  # noqa: SIM905 - same
ILL = ("diabetic", "asthma", "a pacemaker", "a weak heart", "high blood pressure", "one kidney", "bad knees", "allergic to nuts", "takes warfarin",
       "cannot bend the left arm", "short of breath on steps", "night blind", "seasick easily", "wears contact lenses")  # fmt: skip
WHERE = ("in the refrigerator", "in the left pocket of the jacket", "in the grab bag", "in the top drawer of the chart table",
         "in the first-aid kit", "beside the companionway", "in the galley locker", "in the forward cabin", "with the mate")  # fmt: skip
NUMBERS = (
    "+44 #### ######",
    "+33 # ## ## ## ##",
    "+47 ## ## ## ##",
    "0### #######",
    "########",
    "+1 ###-###-####",
    "######",
)
SERIALS = ("SN-####", "SPECIMEN-##", "ABC-#####", "########", "A###", "##/####", "SSR ######", "X#-####-#")


def invented(chance, kind):
    """A private value as people have them, of one kind."""
    if kind == "name":
        return f"{chance.choice(FIRST)} {chance.choice(LAST)}"
    if kind == "medical":
        return f"{chance.choice(ILL)}; {chance.choice(('tablets', 'inhaler', 'pen', 'water'))} {chance.choice(WHERE)}"
    if kind == "born":
        return f"{chance.randrange(1930, 2015)}-{chance.randrange(1, 13):02}-{chance.randrange(1, 29):02}"
    if kind == "hex-id":
        return f"{chance.getrandbits(60):015X}"
    shape = chance.choice(NUMBERS if kind == "phone" else SERIALS)
    return re.sub("#", lambda _: str(chance.randrange(10)), shape)


KINDS = ("name", "phone", "serial", "medical", "born", "hex-id")


@pytest.mark.thorough
@pytest.mark.attack("private")
@pytest.mark.one_in(3, "folder")
@pytest.mark.parametrize("folder", BOATS, ids=lambda path: path.name)
def test_no_private_value_of_any_kind_is_seen_where_it_does_not_stand(folder, tried, record_property):
    manual = survey(folder, folder.name, Order(DAY)).manual
    own, chance, seen = kept_from("guest", manual.vessel, {}), random.Random(folder.name), Seen()
    kept = tuple(Withheld(invented(chance, kind), kind, kind == "name") for kind in KINDS for _ in range(40))
    matcher = Matcher(Kept((*kept, *own.values), own.shown, own.own))
    alarms = []
    for made in write_outputs(manual, Order(DAY, only=("site", "one-file", "cards"))).values():
        for name, data in made.files.items():
            for part in parts_of(name, data, made.drawn.get(name, ""), seen):
                alarms += [(name, each) for each in matcher.found(plain(part.text), is_text=part.is_text)]
    tried(len(kept))
    record_property("figure", f"{folder.name}: {len(kept)} private values, {len(alarms)} false alarms")
    assert alarms == []


def teasel(folder):
    text = re.findall(r"```yaml\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)[0]
    (folder / "teasel").mkdir()
    (folder / "teasel/vessel.yaml").write_text(text, encoding="utf-8")
    return folder / "teasel"


@pytest.mark.thorough
@pytest.mark.attack("private")
@pytest.mark.one_in(12, "case")
@pytest.mark.parametrize("case", [*GOOD, None], ids=lambda path: path.stem if path else "teasel")
def test_sound_boats_raise_none(case, tmp_path):
    folder = lay_out(read_case(case), tmp_path) if case else teasel(tmp_path)
    chance = random.Random(str(case and case.stem))
    lines = [f'line-{number}.x: "{invented(chance, KINDS[number % 6])}"' for number in range(60)]
    (folder / "private.yaml").write_text("\n".join(lines), encoding="utf-8")
    surveyed = survey(folder, "b", Order(DAY))
    assert len(surveyed.vessel.unasked) == 60
    written = write_outputs(surveyed.manual, Order(DAY, only=("site",)))
    sight = Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written=written)
    assert list(CHECKS["reader.private-leak"].find(sight)) == []


INNOCENT = """
the refrigerator is under the chart table
water is in the refrigerator
sugar and salt are in the top drawer
in the left pocket of each jacket is a whistle
a pen and paper lie in the chart table
stings of wasps: vinegar is in the first-aid kit
two tablets for each person each evening
since childhood she sails this coast
the lamp is left on each evening
call +44 7700 900139 for weather
call +44 7700 900183 by day
the base: +33 6 39 98 00 46
radio log 138, page 900
part number 900139
138 900 lengths were counted in the race, 7700 in all
MMSI 232000000, call sign MZZZ9
position 50 21.4 N 4 07.9 W
chart 138, edition 3 of 2026-03-04
built 1961, refitted 2004
next service 2027-03-04
4 of 61 parts are spare
03.04.2026 and 04.03.2026 are the days of the drill
hex 2024000000FFBFE is the specimen's
FFBFF
serial 33819
A7 battery, 33 Ah, 819 cycles
AIS 970345682
SSR stands for the small ships register
rope of 18 mm, 45 m and 27 m long
the market quay
marit
the dike and the tide
Marina berth 7
an inhaled breath, held for three seconds
the heart of the sail is its head
pens, pencils and rubber
carries a knife on her belt
the pocket knife is in the galley, the insulated cup too
seasickness tablets are in the first-aid kit, port locker
hold the red key for two seconds
12 34 56 78 90 12 34 56 78 90
1 800 138 900 7700 44
ask the mate; the mate has the list
the mate is marked on the bill
""".strip().splitlines()


@pytest.mark.attack("private")
@pytest.mark.parametrize("value", disguises.VALUES)
def test_near_misses_are_let_pass(value, tried, tmp_path):
    """In a page, and in a message, which keeps all its words."""
    matcher = Matcher(Kept((Withheld(value, "people[mate].medical"),)))
    (tmp_path / "private.yaml").write_text(f'people[mate].medical: "{value}"\n')
    hush = Redactor((tmp_path, None))
    alarms = [text for text in INNOCENT if any(matcher.found(plain(text)))]
    tried(len(INNOCENT))
    assert alarms == []
    assert [text for text in INNOCENT if hush.text(text) != text] == []


OTHERS = {
    "+44 7700 900138": ("+44 7700 900139", "07700 901138", "447700900138447700900138"),
    "2024000000FFBFF": ("2024000000FFBFE", "2024000000 FFBF"),
    "Marit Dijkzicht": ("Marita", "Marit's Dijk", "Dijk in sicht"),
    "1961-03-04": ("1961-03-05", "4 April 1961", "1961-03"),
}


@pytest.mark.attack("private")
@pytest.mark.parametrize(
    ("value", "other"), [(value, each) for value, others in OTHERS.items() for each in others]
)
def test_another_of_its_kind_is_no_alarm(value, other):
    if other in ("Marita", "Marit's Dijk"):
        kept = Kept((Withheld(value, "people[mate].name", name=True),), own=frozenset(("marit",)))
    else:
        kept = Kept((Withheld(value, "people[mate].phone"),))
    assert not any(Matcher(kept).found(plain(other)))


@pytest.mark.attack("private")
@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("232000000", "MMSI 232000000"),
        ("2026-06-01", "surveyed on 1 June 2026"),
        ("+33 6 39 98 00 45", "the base: +33 6 39 98 00 45, or 06 39 98 00 45"),
    ],
)
def test_what_the_reader_sees_anyway_is_no_secret(value, text):
    """A number that stands in the file for everybody too, a date that is printed, a value that was freed."""
    from generator.survey.withheld.plain import squeezed

    kept = (Withheld(value, "radio.beacons[EPIRB].ais-number"),)
    assert any(Matcher(Kept(kept)).found(plain(text)))
    assert not any(Matcher(Kept(kept, frozenset((squeezed(plain(value).spaced),)))).found(plain(text)))
