"""Odd but true: figures and days at the edge of what boats have bring nothing, several of them in one boat."""

from datetime import date

import pytest
from meanings.boats import boats

from generator.publishing import Order, survey

AS_OF = date(2026, 6, 1)
BOATS = {boat.name: boat for boat in boats()}
KETCH = [
    ("length: 12.0 m", "length: 24 m"), ("beam: 3.8 m", "beam: 6.2 m"), ("draft: 2.0 m", "draft: 3.4 m"), ("air-draft: 17.2 m", "air-draft: 31 m"),
    ("displacement: 9.8 t", "displacement: 75 t"), ("fuel: 180 l", "fuel: 4500 l"), ("rig: cutter", "rig: ketch"), ("diameter: 25 mm", "diameter: 150 mm"),
    ("flow: 125 l/min", "flow: 1800 l/min"), ("below-water: 0.6 m", "below-water: 3.1 m"), ('fire extinguisher, galley", kind: fire, quantity: 1', 'fire extinguisher, galley", kind: fire, quantity: 5'),
    ("  - {what: smoke alarm, kind: fire, quantity: 2", '  - {what: "smoke alarm, aft", kind: fire, quantity: 1, where: aft cabin, side: centre, made: 2023-02}\n  - {what: smoke alarm, kind: fire, quantity: 10'), ("kind: inflatable, quantity: 8", "kind: inflatable, quantity: 24"),
    ("spot: in each lifejacket, quantity: 8", "spot: in the lifejackets of the watch, quantity: 8"),
]  # fmt: skip
STEEL = [
    ("displacement: 9.8 t", "displacement: 14.5 t"), ("draft: 2.0 m", "draft: 1.7 m"), ("air-draft: 17.2 m", "air-draft: 13.5 m"), ("fuel: 180 l", "fuel: 800 l"),
    ("freeboard: 1.2 m", "freeboard: 0.95 m"), ("rig: cutter", "rig: gaff cutter"), ("diameter: 25 mm", "diameter: 1.5 in"), ("flow: 70 l/min", "flow: 20 US gpm"),
    ("flow: 45 l/min", "flow: 15 l/min"), ("flow: 125 l/min", "flow: 500 US gph"), ("plug-size: 50 mm", "plug-size: 100 mm"), ("mass: 14 kg", "mass: 30 lb"),
    ("lifts: 25 kg, berth: saloon", "lifts: 45 kg, berth: saloon"), ("{role: guest 1, lifts: 16 kg", "{role: guest 1, lifts: 6 kg"), ("power-w: 5 W", "power-w: 1 W"),
]  # fmt: skip
RACER = [
    ("displacement: 9.8 t", "displacement: 4.9 t"), ("draft: 2.0 m", "draft: 2.9 m"), ("air-draft: 17.2 m", "air-draft: 20.5 m"), ("fuel: 180 l", "fuel: 48 l"),
    ("what: log and depth sounder, diameter: 50 mm", "what: bow thruster tunnel, diameter: 185 mm"), ("below-water: 0.6 m", "below-water: 2.0 m"),
    ("flow: 125 l/min", "flow: 8000 US gph"), ("red hand flares, kind: signal, quantity: 6", "red hand flares, kind: signal, quantity: 12"),
    ("parachute flares, kind: signal, quantity: 4", "parachute flares, kind: signal, quantity: 12"), ("seasickness tablets, quantity: 36", "seasickness tablets, quantity: 100"),
    ("light sticks, quantity: 4", "light sticks, quantity: 30"), ("quantity: 2, volume: 18 l", "quantity: 8, volume: 160 l"), ("power-w: 25 W", "power-w: 20 W"),
]  # fmt: skip
OLD_RAFT = [
    ("made: 2021-03", "made: 2009-03"), ("cylinder-weighed", "pressure-test: 2025-09, cylinder-weighed"), ("value: 42 kg", "value: 62 kg"),
    ("packed-size: 0.80 x 0.60 x 0.35 m", "packed-size: 0.95 x 0.55 x 0.50 m"), ("value: 11 m", "value: 20 m"), ("strength: 7.5 kN, checked", "strength: 15 kN, checked"),
    ("contents-expire: 2028-11", "contents-expire: 2031-06"), ("cylinder-test: 2030-09", "cylinder-test: 2035-09"), ("pack: under 24 h ", "pack: over 24 h "),
    ("pack-water: 0 l", "pack-water: 9 l"), ("persons: 6\n  waters", "persons: 6\n  built: 1931\n  waters"),
]  # fmt: skip
LIGHT_RAFT = [
    ("value: 42 kg", "value: 31 kg"), ("packed-size: 0.80 x 0.60 x 0.35 m", "packed-size: 32 x 22 x 13 in"), ("pack: under 24 h ", "pack: over 24 h "),
    ("pack-water: 0 l", "pack-water: 3 l"), ("battery-expires: 2029-05", "battery-expires: 2036-06"), ("battery-expires: 2030-03", "battery-expires: 2037-01"),
    ("next-service: 2027-09, head-expires: 2028-04", "next-service: 2029-05, head-expires: 2031-05"), ("clean agent, next-service: 2027-09", "clean agent, next-service: 2031-09"),
    ("hose-expires: 2029-04", "hose-expires: 2036-04"), ("stamp: SEP 27", "stamp: 09/2027"), ("thirst, quantity: 6, expires: 2029-06", "thirst, quantity: 12, expires: 2031-05"),
    ("first-aid kit, quantity: 1, expires: 2028-05", "first-aid kit, quantity: 1, expires: 2031-04"),
]  # fmt: skip
ODD = {
    "a ketch of 24 m": ("saltmeadow", KETCH),
    "a heavy boat of steel": ("saltmeadow", STEEL),
    "a light one with all that races ask for": ("saltmeadow", RACER),
    "an old raft in an old boat": ("saltmeadow", OLD_RAFT),
    "a light raft, everything new": ("saltmeadow", LIGHT_RAFT),
    "a dinghy of 5 m": ("gorse", [
        ("length: 7 m", "length: 5 m"), ("beam: 2.3 m", "beam: 1.8 m"), ("draft: 0.4 m", "draft: 0.25 m"), ("freeboard: 0.55 m", "freeboard: 0.45 m"),
        ("displacement: 900 kg", "displacement: 570 lb"),
    ]),
    "a dinghy with her board down": ("plover", [
        ("length: 6 m", "length: 4.9 m"), ("beam: 2.2 m", "beam: 1.8 m"), ("draft: 1.2 m", "draft: 1.4 m"), ("freeboard: 0.5 m", "freeboard: 0.4 m"),
    ]),
    "a workboat": ("nordgyllen", [
        ("displacement: 28 t", "displacement: 52 t"), ("fuel: 1800 l", "fuel: 7000 l"), ("air-draft: 18.4 m", "air-draft: 6.5 m"),
        ("flow: 400 l/min", "flow: 1400 l/min"), ("power-w: 150 W", "power-w: 400 W"), ("draft: 2.2 m", "draft: 1.3 m"),
    ]),
    "narrow drains, watches of fourteen hours": ("nordgyllen", [
        ("{what: galley sink outlet, diameter: 38 mm", "{what: galley sink outlet, diameter: 19 mm"),
        ("who: [skipper, deckhand 1, guest 1]}\n  - {name: middle", "who: [skipper, deckhand 1, guest 1, mate]}\n  - {name: middle"),
    ]),
    "a bilge keeler": ("zilte-wind", [("draft: 1.5 m", "draft: 0.9 m"), ("mass: 26 kg", "mass: 19 kg"), ("freeboard: 1.0 m", "freeboard: 0.6 m"), ("height: 0.9 m", "height: 0.5 m")]),
}  # fmt: skip
pytestmark = pytest.mark.thorough


@pytest.mark.parametrize("name", ODD)
def test_odd_but_true_figures_bring_nothing(name, tmp_path):
    boat, changes = ODD[name]
    folder = tmp_path / boat
    for file, data in BOATS[boat].files.items():
        path = (folder / file).resolve()
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
    before = {(each.check, each.message) for each in survey(folder, boat, Order(AS_OF)).findings}
    text = (folder / "vessel.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    found = survey(folder, boat, Order(AS_OF)).findings
    assert [(each.check, each.message) for each in found if (each.check, each.message) not in before] == []
