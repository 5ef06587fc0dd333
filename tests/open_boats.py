"""A sound open boat of 7 m and a sound dayboat of 6 m as their files would be written, and what is printed of such a boat."""

from datetime import date

from generator.publishing import Order, survey

AS_OF = date(2026, 6, 1)
OPEN_BOAT = """\
format: 1
specimen: {as-of: 2026-06-01}
checked-aboard: {by: the skipper, date: 2026-05-16}
approved: {by: the skipper, date: 2026-05-16}
vessel:
  name: Gorse
  type: open boat
  rig: none
  length: 7 m
  beam: 2.3 m
  draft: 0.4 m
  freeboard: 0.55 m
  displacement: 900 kg
  flag: Ireland
  hull-colour: grey
  persons: 4
  waters: coastal
  climate: temperate
  use: private
  engine: outboard
  muster-place: midship thwart
  general-alarm: one long blast on the whistle
  abandon-order: the skipper calls "Leave the boat" three times
people:
  - {role: skipper, abilities: [command, radio]}
  - {role: mate, abilities: [command, radio]}
  - {role: guest 1}
  - {role: guest 2}
radio:
  call-sign: EIXZ7
  sets:
    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: helm, side: starboard, power: turn the top knob to the right}
station-bill:
  abandon-ship: {command: {who: skipper, substitute: mate}, call: {who: mate, substitute: skipper}, muster: {who: guest 1, substitute: mate}}
  man-overboard: {helm: {who: skipper, substitute: mate}, lookout: {who: guest 1, substitute: guest 2}, throw: {who: mate, substitute: guest 2},
                  call: {who: mate, substitute: skipper}, recover: {who: [mate, guest 2], substitute: guest 1}}
  fire: {command: {who: skipper, substitute: mate}, fight: {who: mate, substitute: skipper}, shut-off: {who: skipper, substitute: mate}, call: {who: skipper, substitute: mate}}
  flooding: {command: {who: skipper, substitute: mate}, find: {who: mate, substitute: skipper}, pump: {who: guest 1, substitute: guest 2},
             call: {who: skipper, substitute: mate}}
lifejackets:
  - {size: adult, kind: inflatable, quantity: 4, where: foredeck locker, side: centre, head-expires: 2028-04, next-service: 2027-04, crotch-straps: yes, lights: yes}
recovery: {ladder: {where: transom, side: port}, ladder-from-water: yes, hoist: {what: the lifting net, where: side bench, side: starboard}, side: starboard, place: side bench}
capsize: {swamped: level}
stops:
  - {what: kill cord, where: helm, side: starboard, how: pull the red cord off its switch, spare: {where: helm, side: starboard, spot: on the hook}}
  - {what: fuel, where: stern locker, side: port, how: turn the tap on the tank across}
contacts:
  - {who: the rescue centre, kind: rescue centre, channel: VHF 16}
gear:
  - {what: whistle, kind: signal, quantity: 1, where: helm, side: starboard}
  - {what: red hand flares, kind: signal, quantity: 3, where: foredeck locker, side: port, expires: 2028-10}
  - {what: lifebuoy, kind: lifesaving, quantity: 1, where: stern sheets, side: starboard}
  - {what: throwing line, kind: lifesaving, quantity: 1, where: stern sheets, side: port}
  - {what: fire extinguisher, kind: fire, quantity: 1, where: helm, side: port, expires: 2029-01}
  - {what: bucket, kind: flooding, quantity: 1, where: stern sheets, side: port, tied-in: yes}
  - {what: buoyancy, kind: flooding, quantity: 2, where: side tank, side: port}
  - {what: oars, kind: other, quantity: 2, where: side bench, side: port}
  - {what: anchor, kind: other, quantity: 1, where: anchor locker, side: centre}
  - {what: first-aid kit, kind: medical, quantity: 1, where: foredeck locker, side: starboard, expires: 2027-10}
  - {what: water cans, kind: water and food, quantity: 1, volume: 5 l, replaced: 2026-05, where: stern locker, side: starboard}
  - {what: thermal protective aids, kind: lifesaving, quantity: 4, where: foredeck locker, side: starboard}
"""
DAYBOAT = """\
format: 1
specimen: {as-of: 2026-06-01}
checked-aboard: {by: the skipper, date: 2026-05-16}
approved: {by: the skipper, date: 2026-05-16}
vessel:
  name: Plover
  type: dayboat
  rig: gaff sloop
  length: 6 m
  beam: 2.2 m
  draft: 1.2 m
  freeboard: 0.5 m
  flag: Ireland
  persons: 3
  waters: sheltered
  climate: temperate
  use: private
  engine: outboard
  muster-place: cockpit
  general-alarm: one long blast on the whistle
  abandon-order: the skipper calls "Abandon ship" three times
people:
  - {role: skipper, abilities: [command, radio]}
  - {role: mate, abilities: [command, radio]}
  - {role: guest}
radio:
  sets:
    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: cuddy, side: starboard, power: turn the top knob to the right}
station-bill:
  abandon-ship: {command: {who: skipper, substitute: mate}, call: {who: mate, substitute: skipper}, muster: {who: guest, substitute: mate}}
  man-overboard: {helm: {who: skipper, substitute: mate}, lookout: {who: guest, substitute: mate}, throw: {who: mate, substitute: guest},
                  call: {who: skipper, substitute: mate}, recover: {who: [skipper, mate], substitute: guest}}
  fire: {command: {who: skipper, substitute: mate}, fight: {who: mate, substitute: skipper}, shut-off: {who: guest, substitute: mate},
         close: {who: guest, substitute: skipper}, call: {who: skipper, substitute: mate}}
  flooding: {command: {who: skipper, substitute: mate}, find: {who: skipper, substitute: mate}, pump: {who: mate, substitute: guest},
             call: {who: skipper, substitute: mate}}
lifejackets:
  - {size: adult, kind: foam, quantity: 3, crotch-straps: yes, lights: yes, where: cockpit locker, side: port}
recovery: {ladder: {where: transom, side: starboard}, ladder-from-water: yes, hoist: {what: the mainsheet, where: cockpit, side: port}, side: port, place: cockpit}
stops:
  - {what: kill cord, where: helm, side: centre, how: pull the red cord off its switch, spare: {where: helm, side: port, spot: on the hook}}
contacts:
  - {who: the rescue centre, kind: rescue centre, channel: VHF 16}
gear:
  - {what: whistle, kind: signal, quantity: 1, where: cockpit, side: starboard}
  - {what: throwing line, kind: lifesaving, quantity: 1, where: cockpit, side: port}
  - {what: fire extinguisher, kind: fire, quantity: 1, where: cuddy, side: port, expires: 2029-01}
  - {what: bucket, kind: flooding, quantity: 1, where: cockpit, side: starboard, tied-in: yes}
  - {what: paddle, kind: other, quantity: 1, where: cockpit locker, side: port}
  - {what: anchor, kind: other, quantity: 1, where: anchor locker, side: centre}
  - {what: water cans, kind: water and food, quantity: 1, volume: 5 l, replaced: 2026-05, where: cuddy, side: port}
  - {what: thermal protective aids, kind: lifesaving, quantity: 3, where: cuddy, side: port}
"""


def surveyed(text, folder):
    """A boat of that text, surveyed in a folder of its own."""
    boat = folder / "boat"
    boat.mkdir(exist_ok=True)
    (boat / "vessel.yaml").write_text(text, encoding="utf-8")
    return survey(boat, "boat", Order(AS_OF))


def changed(text, *pairs):
    """The text with each (old, new) put in place once."""
    for old, new in pairs:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def said(manual):
    """Everything that is said in steps, titles, introductions and the bill of a manual, each with where."""
    for one in manual.procedures:
        yield one.id, f"{one.title} {one.intro}"
        for step in one.steps:
            yield step.id, f"{step.text} {step.unless} {step.caution} {step.why}"
    for emergency in manual.bill.emergencies:
        yield from ((f"{emergency.id}: {duty.id}", duty.text) for duty in emergency.duties)
