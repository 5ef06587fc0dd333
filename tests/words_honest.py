"""Honest answers as skippers of different boats would write them: spots, ways of doing, signals, things; none of them is told."""

from words_held import rows

HONEST = rows(
    """
tansywade; gear[knife]; spot; in the sheath taped to the seat post
tansywade; gear[whistle]; spot; on a lanyard round the wheel hub
tansywade; gear[bucket]; spot; jammed behind the fuel tank
tansywade; gear[softwood plugs]; spot; in the mesh bag cable-tied to the lid
tansywade; gear[throwing line, 20 m]; spot; in the open bin by your left knee
tansywade; gear[fire extinguisher, at the wheel]; spot; in the quick-release bracket
tansywade; gear[thermal protective aids]; spot; rolled up in the dry bag
tansywade; stops[kill cord]; how; yank the red curly cord off its button
tansywade; stops[batteries]; how; reach through the hole and twist both red keys a quarter turn
tansywade; stops[batteries]; spot; behind the round inspection hatch
tansywade; recovery.gate; how; pull up the spring pin, then swing it in
tansywade; recovery.gate; spot; abreast of the after seat
tansywade; recovery.hoist; what; the webbing parbuckle
tansywade; recovery.hoist; what; the tow-post tackle
tansywade; capsize.hold-on[1]; what; the grab lines becketed along the tubes
tansywade; radio.sets[handheld VHF]; spot; clipped to the skipper's lifejacket
tansywade; radio.sets[fixed VHF]; power; press and hold the volume knob till it beeps
tansywade; radio.sets[handheld VHF]; power; twist the top knob clockwise past the click
tansywade; radio.beacons[PLB]; use; flip out the aerial, then hold the red button down for two seconds
tansywade; vessel; general-alarm; five long toots on the aerosol horn
tansywade; vessel; general-alarm; somebody bangs on the console and yells "Everybody up"
tansywade; vessel; abandon-order; the skipper shouts "Off, off, off"
tansywade; vessel; hull-colour; grey tubes, white hull
tansywade; medical; spot; in the yellow Peli-type case
tansywade; gear[anchor, with 45 m of rode]; spot; chain flaked on top of the warp
tansywade; lifejackets[adult]; spot; hung on the numbered pegs
nordgyllen; stops[engine]; how; pull the T-handle out to its stop and hold it until she dies
nordgyllen; stops[fuel]; how; break the glass, grab the red ring and heave
nordgyllen; stops[gas]; how; close the bulkhead tap a quarter turn
nordgyllen; stops[batteries]; how; knock all three isolators down to OFF
nordgyllen; stops[ventilation]; how; drop the mushroom vent and dog it down
nordgyllen; stops[fuel]; spot; in the red box at knee height
nordgyllen; rafts[port liferaft].knife; spot; velcroed to the underside of the cradle
nordgyllen; rafts[port liferaft].board-from; what; the bulwark door
nordgyllen; rafts[port liferaft].board-from; how; knock the pin out and fold the door down
nordgyllen; rafts[port liferaft].launch-from; what; the bulwark cap rail
nordgyllen; rafts[port liferaft].strong-point; what; the padeye welded to the bulwark stanchion
nordgyllen; recovery.hoist; what; the deck crane with its wire runner
nordgyllen; recovery.hoist; what; the davit fall
nordgyllen; vessel; general-alarm; the alarm bells ring throughout the ship
nordgyllen; vessel; abandon-order; by word of mouth from the master: "Abandon ship"
nordgyllen; gear[searchlight, on the roof]; spot; joystick overhead
nordgyllen; gear[leak mat]; spot; folded on top of the damage bag
nordgyllen; gear[fire blanket]; spot; in the red pouch, pull both tapes
nordgyllen; gear[fire extinguisher, galley]; spot; just inside the door, waist high
nordgyllen; gear[medical oxygen]; spot; strapped upright in the corner
nordgyllen; pumps[hand pump below].handle; spot; on spring clips under the lid
nordgyllen; through-hulls[sea chest]; closes; handwheel, eleven turns clockwise
nordgyllen; through-hulls[echo sounder]; closes; nothing to close, it is a sealed transducer
nordgyllen; escape[aft cabin]; how; spin both dogs and shove the lid up with your shoulder
nordgyllen; steering.emergency-tiller; spot; lashed along the deckhead beams
saltmeadow; stops[gas]; how; lift the lever so that it lies across the pipe
saltmeadow; stops[gas]; spot; reach in behind the gimballed cooker
saltmeadow; stops[gas]; spot; bottom left of the cooker, feel for it
saltmeadow; stops[engine]; how; tug the stop cable and keep hold of it until the engine is silent
saltmeadow; stops[batteries]; how; turn all the big red switches anticlockwise
saltmeadow; rafts[liferaft].knife; spot; in the plastic tube on the forward leg
saltmeadow; rafts[liferaft].board-from; what; the gap in the guardwires
saltmeadow; rafts[liferaft].launch-from; what; the lowered toerail gate
saltmeadow; rafts[liferaft].launch-from; how; undo both pelican hooks
saltmeadow; rafts[liferaft].strong-point; what; the chainplate
saltmeadow; rafts[liferaft].strong-point; what; the bow cleat of the cradle
saltmeadow; recovery.hoist; what; the spare main halyard led to the port winch
saltmeadow; recovery.hoist; what; the topping lift with a four-part handy billy
saltmeadow; gear[fire blanket]; spot; on the bulkhead, arm's length from the cooker
saltmeadow; gear[carbon monoxide alarm]; spot; at head height, an arm's length from the stove
saltmeadow; gear[first-aid kit]; spot; second locker along, green cross on the door
saltmeadow; gear[bucket, with lanyard]; spot; on top of the warps
saltmeadow; gear[torch, waterproof]; spot; in the fiddle by the steps
saltmeadow; pumps[hand pump at the helm].handle; spot; shock-corded to the pushpit leg
saltmeadow; through-hulls[galley sink outlet]; closes; ball valve, red lever
saltmeadow; through-hulls[heads outlet]; closes; gate valve, several turns clockwise
saltmeadow; vessel; general-alarm; whoever sees it shouts "All hands" and thumps the coachroof
saltmeadow; vessel; abandon-order; a tap on the shoulder and "Into the raft" from the skipper
saltmeadow; vessel; hull-colour; navy blue, white boot top
ombrelune; stops[gas]; how; turn the green knob of the valve so that its arrow points down
ombrelune; escape[saloon]; how; twist the two handles and kick the pane out
ombrelune; lifejackets[adult]; spot; in the bench opposite the door
ombrelune; recovery.hoist; what; the dinghy davit tackle
ombrelune; grab-bags[1]; spot; on the hook left of the door
ombrelune; rafts[liferaft].strong-point; what; the stainless ring in the recess
ombrelune; rafts[liferaft].knife; spot; in the pocket of the lid
tresmare; rafts[liferaft].launch-from; what; the netting hatch
tresmare; rafts[liferaft].board-from; what; the trampoline edge
tresmare; recovery.hoist; what; the running backstay tackle
tresmare; escape[escape hatch]; how; pull the two red toggles and push outwards
tresmare; vessel; general-alarm; three blasts on the foghorn, then shouting
zilte-wind; rafts[liferaft].knife; spot; stuck in the sheath under the lid
zilte-wind; rafts[liferaft].board-from; what; the sugar-scoop
zilte-wind; recovery.hoist; what; the mainsheet tackle off the boom end
kelpwren; capsize.hold-on[1]; what; the keel line under her bottom
kelpwren; gear[bailer]; spot; tied to the thwart with a metre of cord
kelpwren; vessel; general-alarm; bang an oar on the gunwale and shout
kelpwren; vessel; abandon-order; the skipper says "Stay with the boat, hold on"
kelpwren; vessel; hull-colour; clinker, varnished
tansywade; capsize.reached[1]; spot; reach up under the after seat
tansywade; escape[cuddy]; how; shove the sliding door aft with both hands
nordgyllen; escape[forward cabin]; how; undo the two wing nuts and heave
nordgyllen; escape[wheelhouse]; how; pull the rubber strip out and push the pane
nordgyllen; rafts[starboard liferaft].launch-from; what; the break in the bulwark
nordgyllen; rafts[starboard liferaft].knife; spot; on a curly lanyard at the cradle's foot
nordgyllen; rafts[starboard liferaft].board-from; what; the pilot ladder
nordgyllen; rafts[starboard liferaft].strong-point; what; the samson post
nordgyllen; medical.key; spot; on a nail left of the chart light
nordgyllen; gear[rescue sling]; spot; in the horseshoe bag on the guardrail
nordgyllen; gear[shoring timber and wedges]; spot; wedged behind the frames
nordgyllen; gear[defibrillator, with spare pads]; spot; look right of the first-aid kit
saltmeadow; rafts[liferaft].board-from; what; the leeward shrouds
saltmeadow; rafts[liferaft].strong-point; what; the mast step eye
saltmeadow; rafts[liferaft].launch-from; how; slip both gate hooks, wires fall inboard
saltmeadow; escape[forward cabin]; how; stand on the bunk, twist the two handles and push up
saltmeadow; escape[companionway]; how; shove the hatch forward and lift both washboards out
saltmeadow; pumps[electric bilge pump].handle; spot; third switch down, red guard
saltmeadow; through-hulls[cockpit drain]; plug; cork bung on a string
saltmeadow; through-hulls[engine cooling inlet]; closes; push the lever down flat
saltmeadow; steering.emergency-tiller; spot; under the mattress, port bunk board
saltmeadow; recovery.ladder; spot; in its bag, red toggle hanging out
saltmeadow; lifejackets[adult]; spot; on numbered hooks, one to twelve
ombrelune; rafts[liferaft].board-from; what; the sugar scoop
ombrelune; rafts[liferaft].launch-from; what; the open end of the recess
ombrelune; capsize.hold-on[1]; what; the jackline under the bridgedeck
ombrelune; capsize.reached[1]; spot; taped to the crossbeam
ombrelune; escape[port aft cabin]; how; hit the corner of the pane with the hammer
ombrelune; alarms[CO]; spot; on the side of the stairs, breast high
tresmare; rafts[liferaft].strong-point; what; the beam bolt
tresmare; capsize.hold-on[1]; what; the nets
tresmare; capsize.reached[2]; spot; zipped into the net pocket
tresmare; rafts[liferaft].knife; spot; cable-tied to the beam
tresmare; escape[companionway]; how; drop the washboard into its slot
zilte-wind; rafts[liferaft].strong-point; what; the after chainplate
zilte-wind; rafts[liferaft].launch-from; what; the pushpit gate
zilte-wind; escape[forward cabin]; how; unscrew both knobs and thump it open
nordgyllen; radio.sets[fixed VHF]; power; breaker R3 on the panel overhead
nordgyllen; radio.sets[fixed VHF]; power; main switch, then PWR
nordgyllen; radio.sets[fixed VHF]; power; comes on with the batteries
saltmeadow; radio.sets[handheld VHF]; power; the knob on its top, clockwise
nordgyllen; medical; advice; ask the coastguard on 16 for a doctor
nordgyllen; recovery.hoist; what; the crane and a strop
nordgyllen; vessel; flag; Kingdom of Norway
saltmeadow; vessel; abandon-order; either of us says "We are leaving her" three times
zilte-wind; vessel; abandon-order; "Everyone into the raft" from whoever is in charge
"""
)
