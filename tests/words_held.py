"""Words held against fields: tables of sound wordings and of contradictions, each of a specimen. The first two were written before what reads them.

A row is `boat; path; key; words`; `notes` as path puts the words into a note beside the procedure that stands as key.
"""

Row = tuple[str, str, str, str]


def rows(table: str) -> tuple[Row, ...]:
    """The rows of a table."""
    found: list[Row] = []
    for line in table.strip().splitlines():
        boat, path, key, words = (each.strip() for each in line.split(";", 3))
        found.append((boat, path, key, words))
    return tuple(found)


SOUND = rows("""
saltmeadow; gear[first-aid kit]; spot; under the chart table
saltmeadow; gear[carbon monoxide alarm]; spot; above the starboard settee, at head height
saltmeadow; gear[fire blanket]; spot; on the bulkhead between galley and saloon
saltmeadow; gear[bolt cutters]; spot; behind the back rest of the seat
saltmeadow; gear[foghorn, hand-pumped]; spot; in the pocket by the wheel
saltmeadow; gear[fire extinguisher, galley]; spot; on the companionway bulkhead, at the foot of the steps
saltmeadow; gear[fire extinguisher, forward]; spot; inside the door to the saloon
saltmeadow; gear[storm jib and trysail]; spot; in the blue bag on top of the sails
saltmeadow; gear[second anchor with 50 m of rode]; spot; at the bottom, under the fenders
saltmeadow; gear[bucket, with lanyard]; spot; one on the hook, one inside it
saltmeadow; gear[searchlight, hand-held]; spot; in the charger, its lead runs to port
saltmeadow; gear[hand bearing compass]; spot; in the top drawer of the chart table
saltmeadow; batteries[house]; spot; under the settee, terminals to port
saltmeadow; stops[gas]; spot; behind the oven door, low down
saltmeadow; stops[fuel]; spot; behind the panel under the companionway steps
saltmeadow; stops[engine]; spot; on the side of the binnacle, below the throttle
saltmeadow; stops[batteries]; how; lift the seat and turn both red keys to OFF
saltmeadow; pumps[hand pump at the helm]; spot; under the helm seat, starboard bolt loose
saltmeadow; pumps[hand pump below].handle; spot; in the clip on the cupboard door
saltmeadow; rafts[liferaft].knife; spot; in the sheath, port foot of the cradle
saltmeadow; rafts[liferaft].strong-point; spot; through-bolted at the after foot of the cradle, port
saltmeadow; steering.emergency-tiller; spot; on the shelf at the forward end
saltmeadow; steering.fits; spot; under the round plate abaft the wheel
saltmeadow; through-hulls[heads outlet]; spot; behind the bowl, under the shelf
saltmeadow; through-hulls[engine cooling inlet]; spot; low down, reached through the galley door
saltmeadow; recovery.hoist; spot; on the starboard primary winch
saltmeadow; medical; what; first-aid chest in the saloon, in the locker with the green cross to starboard
saltmeadow; notes; abandon-ship; The mate switches the VHF to channel 16 first. Use the fire blanket only in the galley.
saltmeadow; notes; fire; The extinguisher in the cockpit locker serves the engine space through the companionway too.
saltmeadow; notes; man-overboard; Throw the lifebuoy at once, then the danbuoy. Fire two red hand flares when she is near.
saltmeadow; notes; abandon-ship; Each takes one lifejacket. Six tethers hang beside them.
saltmeadow; notes; abandon-ship; The raft weighs 42 kg: two slide it.
saltmeadow; notes; flooding; The cockpit drain is in the lazarette, and the heads inlet is to port.
saltmeadow; notes; abandon-ship; The cook sleeps in the saloon and wakes last. Take the axe off the list: there is none.
saltmeadow; contacts[coastguard rescue centre]; channel; VHF 16; the coastguard may send you to channel 67
saltmeadow; contacts[the owner's brother]; who; the owner's brother and neighbour
saltmeadow; drills[1]; led_by; the sailing instructor
saltmeadow; deferred; who; the surveyor at Marram Quay
nordgyllen; rafts[port liferaft].knife; spot; on the lanyard at the after rail
nordgyllen; rafts[port liferaft].strong-point; spot; on deck at the foot of the pushpit
nordgyllen; gear[immersion suits]; spot; four on each rail of the hanging locker
nordgyllen; gear[ice poles]; spot; both on the rail, outside the wheelhouse door
nordgyllen; gear[carbon monoxide alarm]; spot; on the deckhead, over the stove pipe
nordgyllen; gear[searchlight, on the roof]; spot; its handle in the deckhead over the wheel
nordgyllen; gear[fixed extinguisher, for the engine space].released-from; spot; under the chart drawer, red handle
nordgyllen; gear[leak mat]; spot; in the damage bag, below the fuel filter
nordgyllen; stops[fuel]; spot; in the red box, abreast the galley window
nordgyllen; stops[ventilation]; how; push both flaps shut from the side deck and turn the handles
nordgyllen; stops[batteries]; spot; in the box under the chart table
nordgyllen; medical; advice; the doctor ashore, by satellite telephone or on 2182 kHz
nordgyllen; medical.key; spot; on the hook beside the lamp
nordgyllen; deck.ways[1]; by; the steps behind the helm seat
nordgyllen; tender; spot; bottom up, painter to the forward cleat
nordgyllen; notes; raft-launch; Both rafts lie on the pushpit; the knife of each hangs on its bracket.
nordgyllen; notes; gas; The gas bottles are in the gas locker. Close the tap in the galley first.
nordgyllen; notes; abandon-ship; Put on the immersion suits quickly. Take the spare EPIRB first, then the grab bag.
nordgyllen; notes; abandon-ship; The boarding ladder hangs on the side deck. Nobody swims from the yard's pontoon.
nordgyllen; notes; distress-call; Speak to ships near you on VHF 6 or 13. The marina listens on VHF 31.
nordgyllen; notes; abandon-ship; The cook carries the grab bag. The mate counts heads.
nordgyllen; notes; being-found; There are twelve parachute flares and six red hand flares in the flare box.
nordgyllen; contacts[the skipper's sister]; who; the skipper's sister
kelpwren; gear[foghorn, blown by mouth]; spot; on the lanyard at the wheel
kelpwren; stops[fuel]; spot; at the tank, left of the filler
kelpwren; gear[oars]; spot; one under each bench, tied
kelpwren; radio.beacons[PLB]; spot; in the pocket of the mate's lifejacket
kelpwren; gear[bailer]; spot; under the after thwart
kelpwren; people[child]; needs_help; is nine years old and never leaves guest 2
kelpwren; vessel; general_alarm; three long blasts on the whistle, then everybody shouts
kelpwren; notes; man-overboard; Stop her with the kill cord first. Both buckets stay tied in.
kelpwren; notes; flooding; Sit on the bottom boards amidships. The bailer and the buckets are in the stern sheets.
ombrelune; gear[fire extinguisher, saloon]; spot; between the door and the galley
ombrelune; rafts[liferaft]; overhead; the lid of the starboard recess
ombrelune; gear[emergency tiller]; spot; under the hatch, reached from the steps
ombrelune; gear[second anchor with 50 m of rode]; spot; under the trampoline hatch
ombrelune; drills[1]; led_by; the base technician
ombrelune; base; channel; VHF 77, or the telephone
tresmare; notes; raft-trouble; The knife for the nets is at the escape hatch. The floats hold her up.
tresmare; radio.beacons[skipper's PLB]; spot; in the left pocket of the skipper's lifejacket
tresmare; pumps[hand pump below]; spot; under the sole, forward of the steps
tresmare; gear[storm jib]; spot; in the sail bag, under the spinnaker
tresmare; steering.fits; spot; on the rudder stock, under the after deck plate
zilte-wind; voyage; raise_alarm; no message by 20.00 on 21 June 2026; call the coastguard by telephone
zilte-wind; gear[smoke alarm]; spot; on the deckhead by the mast
zilte-wind; gear[first-aid kit]; spot; in the locker by the galley
zilte-wind; rafts[liferaft]; overhead; the lid of the cockpit locker
zilte-wind; notes; abandon-ship; Get the raft out of the cockpit locker together. The painter is 9 m long.
zilte-wind; notes; fire; Shut the hatch. One discharges the extinguisher through the hole in the lowest step.
zilte-wind; vessel.fire-port-place; spot; lowest of the steps, marked FIRE
""")

AGAINST = rows("""
saltmeadow; gear[fire blanket]; spot; hanging in the heads
saltmeadow; gear[smoke alarm]; spot; on the deckhead over the cooker, starboard
saltmeadow; gear[bolt cutters]; spot; in the drawer under the forward berth, port
saltmeadow; gear[storm jib and trysail]; spot; beside the oven
saltmeadow; gear[fire extinguisher, forward]; spot; on the galley bulkhead, port
saltmeadow; gear[foghorn, hand-pumped]; spot; below the mast
saltmeadow; gear[foghorn, hand-pumped]; spot; in the glove box of the van
saltmeadow; gear[first-aid kit]; spot; at home, in the kitchen
saltmeadow; gear[water cans, nine tenths full so that they float]; spot; on the foredeck, in the bag
saltmeadow; gear[bucket, with lanyard]; spot; four stacked in the corner
saltmeadow; gear[orange smoke]; spot; in the damage bag
saltmeadow; stops[gas]; spot; by the knee, to starboard
saltmeadow; stops[fuel]; spot; under the bunk in the forward cabin
saltmeadow; stops[engine]; spot; at the foot of the wheel, port
saltmeadow; stops[engine]; how; pull the red knob in the wheelhouse
saltmeadow; stops[batteries]; spot; under the saloon table, port
saltmeadow; pumps[electric bilge pump]; what; electric bilge pump in the forepeak
saltmeadow; pumps[hand pump below].handle; spot; in the rack of the aft cabin
saltmeadow; rafts[liferaft].knife; spot; on the cradle, starboard foot
saltmeadow; rafts[liferaft].knife; spot; in the sheath at the pushpit
saltmeadow; steering.emergency-tiller; spot; in the garage
saltmeadow; steering.fits; spot; on the stock in the steering space
saltmeadow; through-hulls[heads outlet]; spot; under the galley sink
saltmeadow; batteries[house]; spot; beside the engine, port
saltmeadow; recovery.hoist; what; the main halyard on the foredeck
saltmeadow; medical; what; first-aid chest in the forepeak, starboard locker
saltmeadow; notes; fire; Use the fire hose immediately.
saltmeadow; notes; abandon-ship; Put on the immersion suits carefully.
saltmeadow; notes; abandon-ship; The raft weighs 62 kg.
saltmeadow; notes; man-overboard; There are twelve tethers in the hanging locker.
saltmeadow; notes; abandon-ship; We have no EPIRB.
saltmeadow; notes; flooding; The heads outlet is in the forepeak.
saltmeadow; notes; abandon-ship; The cook sleeps in the aft cabin.
saltmeadow; notes; abandon-ship; Muster in the flybridge.
saltmeadow; notes; man-overboard; The boarding ladder is on the port side.
saltmeadow; notes; gas; The gas bottles stand in the forepeak.
saltmeadow; contacts[coastguard rescue centre]; channel; VHF 45
saltmeadow; contacts[medical advice by radio]; channel; 2182 kHz
saltmeadow; contacts[coastguard rescue centre]; channel; DSC on channel 16
saltmeadow; drills[1]; led_by; the boatswain
saltmeadow; deferred; who; the purser
nordgyllen; rafts[port liferaft].knife; spot; in the sheath, to starboard
nordgyllen; rafts[starboard liferaft].strong-point; what; the eye on the port quarter
nordgyllen; gear[medical oxygen]; spot; lashed in the lazarette
nordgyllen; gear[defibrillator, with spare pads]; spot; in the owner's house
nordgyllen; gear[ice poles]; spot; four lashed to the rail
nordgyllen; medical.key; spot; in the galley drawer
nordgyllen; medical; advice; the nurse aboard has the key
nordgyllen; stops[fuel]; spot; in the engine room
nordgyllen; stops[batteries]; spot; under the chart drawer, to starboard
nordgyllen; deck.ways[1]; by; the ladder in the forepeak
nordgyllen; notes; gas; The gas bottles are in the lazarette.
nordgyllen; notes; fire; The fixed extinguisher is released in the saloon.
nordgyllen; notes; abandon-ship; Each raft weighs 80 kg.
nordgyllen; notes; abandon-ship; The deckhand carries the grab bag.
nordgyllen; notes; being-found; Twenty parachute flares are in the flare box.
nordgyllen; notes; abandon-ship; There is no grab bag.
nordgyllen; contacts[the skipper's sister]; who; the purser's sister
nordgyllen; gear[emergency tiller]; what; emergency tiller in the forepeak
nordgyllen; gear[carbon monoxide alarm]; spot; above the heater in the wheelhouse roof
nordgyllen; engines[engine]; what; port engine
kelpwren; stops[kill cord].spare; spot; in the saloon
kelpwren; radio.beacons[PLB]; spot; on the skipper's lifejacket
kelpwren; people[child]; needs_help; is held by guest 1
kelpwren; vessel; general_alarm; one long blast on the siren
kelpwren; recovery.hoist; what; the spinnaker halyard
kelpwren; notes; flooding; Fetch the second bailer from the cuddy.
kelpwren; gear[oars]; spot; on the roof of the car
ombrelune; rafts[liferaft].knife; spot; in the sheath in the forward cabin
ombrelune; rafts[liferaft]; overhead; the port recess lid
ombrelune; gear[fire extinguisher, port hull]; spot; at the foot of the steps in the starboard hull
ombrelune; base; channel; VHF 95
ombrelune; stops[gas]; spot; in the wheelhouse
tresmare; radio.beacons[mate's PLB]; spot; in the skipper's lifejacket
tresmare; radio.beacons[radar transponder]; spot; in the orange flare box
tresmare; gear[storm jib]; spot; in the aft cabin
tresmare; medical; advice; the doctor ashore, by MF radio
tresmare; rafts[liferaft].launch-from; what; the mouth of the slot and the after beam
zilte-wind; voyage; raise_alarm; no message by 20.00 on 12 August 2026
zilte-wind; gear[first-aid kit]; spot; behind the seat, starboard
zilte-wind; stops[engine]; spot; at the knee, to port
zilte-wind; contacts[coastguard]; who; coastguard and harbour office
zilte-wind; vessel.fire-port-place; spot; lowest step in the forepeak
""")
