"""More words held against fields, as in `words_held`: found by reviewers, and by those who looked for what the first tables had not."""

from words_held import rows

SOUND_TOO = rows("""
saltmeadow; batteries[house]; spot; under the settee, terminals to port
saltmeadow; stops[batteries]; spot; under the seat, its lead runs to port
saltmeadow; gear[hand bearing compass]; spot; in the chart table drawer
saltmeadow; gear[first-aid kit]; spot; in the locker above the settee
saltmeadow; gear[carbon monoxide alarm]; spot; at the foot of the mast
saltmeadow; gear[fire extinguisher, galley]; spot; below the steps, behind the little door
saltmeadow; gear[fire extinguisher, cockpit]; spot; beside the gas locker
saltmeadow; gear[softwood plugs, spare set]; spot; in the damage bag behind the seat
saltmeadow; gear[searchlight, hand-held]; spot; in the charger over the chart table
saltmeadow; gear[torch, waterproof]; spot; two in the clips, one in the drawer
saltmeadow; gear[emergency VHF aerial]; spot; rolled up in the damage bag
saltmeadow; gear[lifebuoy, with light and drogue]; spot; in the holder beside the boarding ladder
saltmeadow; radio.sets[fixed VHF]; spot; above the chart table, left of the plotter
saltmeadow; radio.beacons[EPIRB]; spot; on the bulkhead at the foot of the steps, galley side
saltmeadow; stops[gas]; spot; in the cupboard under the sink
saltmeadow; stops[fuel]; spot; behind the engine box lid, top left
saltmeadow; stops[engine]; spot; under the coaming, by the winch
saltmeadow; pumps[electric bilge pump]; spot; in the bilge under the table
saltmeadow; steering.fits; spot; on deck, abaft the wheel, under the plate
saltmeadow; through-hulls[cockpit drain]; spot; below the cockpit sole, reached from the aft cabin
saltmeadow; through-hulls[log and depth sounder]; spot; under the sole, forward of the heads
saltmeadow; recovery.ladder; spot; folded on the transom, pin to port
saltmeadow; medical; what; medical box in the saloon, starboard, under the settee
saltmeadow; escape[forward cabin]; how; stand on the bunk, turn both handles and push up
saltmeadow; notes; fire; Shut the companionway and the hatch in the forward cabin. Then use the extinguisher in the cockpit locker.
saltmeadow; notes; flooding; Look first in the engine space, then at the heads, then under the galley sole.
saltmeadow; notes; gas; Shut the tap in the galley, then the bottles in the gas locker.
saltmeadow; notes; distress-call; The coastguard answers on VHF 16 and may send you to VHF 67 or 10.
saltmeadow; notes; man-overboard; There is no engine noise in a sail: shout. There is no time for the tender.
saltmeadow; notes; abandon-ship; Two carry the raft, one holds the painter. The cook counts six people.
saltmeadow; notes; abandon-ship; Take 12 litres of water and four red hand flares.
saltmeadow; notes; abandon-ship; The doctor ashore may ask for pulse and breathing.
saltmeadow; notes; abandon-ship; The EPIRB comes out of its bracket with one pull. Its aerial must stand upright.
saltmeadow; notes; abandon-ship; Nobody goes to the forepeak for clothes.
saltmeadow; notes; fire; The car keys hang at the chart table. When ashore, call the base.
saltmeadow; notes; raft-launch; The gate on the lee side opens inboard; the port one sticks.
nordgyllen; stops[engine]; spot; low down, right of the helm
nordgyllen; gear[foghorn, hand-pumped spare]; spot; in the drawer under the chart table
nordgyllen; gear[defibrillator, with spare pads]; spot; on the bulkhead, beside the door to the side deck
nordgyllen; gear[first-aid kit, for all]; spot; behind the helm seat
nordgyllen; gear[immersion suits]; spot; in the hanging locker by the starboard door
nordgyllen; gear[shoring timber and wedges]; spot; lashed to the frames, under the chain locker
nordgyllen; gear[softwood plugs, spare set]; spot; in the damage bag beside the engine
nordgyllen; gear[water cans, nine tenths full so that they float]; spot; two lashed at each side of the steering gear
nordgyllen; gear[ice mallets, for clearing rafts and rails]; spot; in the becket by the wheelhouse door
nordgyllen; batteries[emergency radio]; spot; under the seat, on top of the locker
nordgyllen; notes; fire; The steps to port lead below; the side deck door is the second way out.
nordgyllen; notes; gas; The heater in the saloon burns diesel, not gas.
nordgyllen; notes; man-overboard; The derrick swings to starboard. The sling hangs ready on it.
nordgyllen; notes; distress-call; On 2182 kHz listen for three minutes. A relay may come on VHF 16.
kelpwren; gear[red hand flares]; spot; in the dry bag, at the top
kelpwren; gear[fire extinguisher]; spot; in the bracket below the wheel
kelpwren; stops[batteries]; spot; inside the locker, after side
kelpwren; notes; abandon-ship; Stay with the boat, all on one side. The orange bottom boards show up from the air.
kelpwren; gear[anchor, with 40 m of rode]; spot; ready on top of its chain
ombrelune; gear[fire extinguisher, helm]; spot; under the helm seat, next to the winch
ombrelune; stops[batteries]; spot; in the locker under the chart table
ombrelune; notes; flooding; Each hull has its own pump. The switch of the port one is at the chart table.
ombrelune; contacts[the skipper's contact ashore]; who; the skipper's sister and her husband
tresmare; gear[rescue sling]; spot; in the bag on the after beam
tresmare; gear[immersion suits]; spot; in the bag under the steps, beside the escape hatch
tresmare; radio.beacons[EPIRB]; spot; in the bracket under the sprayhood
tresmare; recovery.hoist; spot; on the coachroof winch
tresmare; notes; fire; One discharges the extinguisher from the cockpit locker through the lowest step.
zilte-wind; radio.sets[fixed VHF]; spot; on the bulkhead behind the chart table
zilte-wind; rafts[liferaft].knife; spot; in the sheath, inside of the lid
zilte-wind; gear[fire blanket]; spot; under the galley worktop
zilte-wind; gear[softwood plugs]; spot; under the second step, in a net
zilte-wind; contacts[coastguard]; channel; VHF 16 or DSC; 67 when they say so
zilte-wind; contacts[the skipper's neighbour]; channel; mobile telephone, then VHF 72
saltmeadow; gear[fire extinguisher, galley]; spot; left of the steps as you come down
saltmeadow; gear[first-aid kit]; spot; on the shelf behind the settee, above the batteries
saltmeadow; gear[bolt cutters]; spot; in the tool tray, under the charts
saltmeadow; gear[carbon monoxide alarm]; spot; by the door of the forward cabin
saltmeadow; gear[smoke alarm]; spot; one by the mast, one over the steps
saltmeadow; gear[tethers, 2 m with overload flag]; spot; with the lifejackets, each on its hook
saltmeadow; gear[throwing line, 25 m]; spot; on the pushpit side of the coaming
saltmeadow; gear[fire extinguisher, forward]; spot; at the head of the bunk, by the heads door
saltmeadow; gear[water cans, nine tenths full so that they float]; spot; lashed to the aft bulkhead
saltmeadow; gear[emergency tiller]; spot; along the hull side, under the warps
saltmeadow; radio.beacons[EPIRB]; spot; on the port side of the steps, at eye level
saltmeadow; radio.sets[fixed VHF]; spot; in the panel over the chart table, on the right
saltmeadow; stops[engine]; spot; at the helm, starboard side of the pedestal
saltmeadow; stops[gas]; spot; in the locker left of the cooker
saltmeadow; stops[fuel]; spot; on the filter, reached through the panel in the galley
saltmeadow; stops[batteries]; spot; in the side of the seat, facing the galley
saltmeadow; pumps[hand pump at the helm]; spot; on the port side of the seat, handle above it
saltmeadow; pumps[electric bilge pump]; spot; deepest part of the bilge, under the sole
saltmeadow; recovery.ladder; spot; folds down from the platform, starboard end
saltmeadow; rafts[liferaft].knife; spot; taped to the cradle, blade down
saltmeadow; through-hulls[engine cooling inlet]; spot; left of the gearbox, red handle
saltmeadow; escape[saloon]; how; turn both handles, then push the hatch towards the mast
saltmeadow; notes; abandon-ship; The raft goes over to leeward; the gate to windward stays shut.
saltmeadow; notes; abandon-ship; Do not go below for the passports: they are in the grab bag.
saltmeadow; notes; abandon-ship; Two people lift the canister. One pulls the painter, three metres come out easily, then it jerks.
saltmeadow; notes; man-overboard; Start the engine, drop the jib, come up to the person on the port tack.
saltmeadow; notes; man-overboard; The ladder reaches one metre below the water. Two climb at a time at most.
saltmeadow; notes; fire; Close the forward cabin before you open the engine space.
saltmeadow; notes; fire; A pan on the stove: put the lid on, then the blanket. Shut the gas at the cooker.
saltmeadow; notes; flooding; The pump at the helm moves more water than the one below.
saltmeadow; notes; flooding; Most water comes by the stern gland in the engine space or the log in the forward cabin.
saltmeadow; notes; distress-call; Switch the radio on with the left knob. Press the red button for five seconds. Then speak on 16.
saltmeadow; notes; distress-call; When the coastguard asks for channel 67, change with the arrows.
saltmeadow; notes; being-found; Fire one parachute flare when you hear an aircraft; keep three for ships.
saltmeadow; notes; gas; The owner checks the locker in the cockpit each spring. Air the bilge with the hand pump.
saltmeadow; notes; abandon-ship; The cook and the deckhand bring the raft to the gate. The mate brings the bag.
nordgyllen; gear[fire extinguisher, aft cabin]; spot; at the foot of the companionway steps
nordgyllen; gear[torch, waterproof]; spot; four by the door, two by the helm
nordgyllen; gear[defibrillator, with spare pads]; spot; in the locker under the window, behind the helm seat
nordgyllen; gear[bucket, with lanyard]; spot; three in a stack
nordgyllen; stops[fuel]; spot; in the red box under the galley window
nordgyllen; stops[engine]; spot; at the right knee of the helmsman
nordgyllen; notes; fire; Fight an engine fire from the wheelhouse: pull the red handle, then shut both flaps on the side deck.
nordgyllen; notes; abandon-ship; Put the suit on in the wheelhouse, the lifejacket over it.
nordgyllen; notes; abandon-ship; The skipper goes with the port raft and the mate with the other.
nordgyllen; notes; flooding; The engine-driven pump needs the engine; its lever sits by the sea chest.
nordgyllen; notes; distress-call; South of the cape the VHF reaches nobody: use MF on 2182 kHz.
nordgyllen; notes; man-overboard; The person comes in through the boarding gate to starboard.
nordgyllen; medical; advice; Radio Medical by the rescue centre on VHF 16
kelpwren; gear[throwing line, 20 m]; spot; in its bag on the seat
kelpwren; gear[lifebuoy, with light]; spot; on its hook abaft the side bench
kelpwren; stops[engine]; spot; on the console, right of the wheel
kelpwren; notes; flooding; Sit low, bail with the bucket, keep her bow to the sea with the oars.
kelpwren; notes; man-overboard; Bring the person over the side at the midship thwart with the net.
kelpwren; radio.sets[handheld VHF]; spot; in the dry bag, right at the top
ombrelune; gear[fire extinguisher, galley]; spot; between the fridge and the door to the cockpit
ombrelune; gear[fire extinguisher, starboard hull]; spot; at the foot of the steps, aft side
ombrelune; notes; fire; An engine fire: shut the fuel from the aft cabin of that hull. Never lift the engine hatch.
ombrelune; notes; man-overboard; The person comes up the steps of the starboard hull.
ombrelune; stops[gas]; spot; in the galley, behind the cooker door
tresmare; gear[torch, at the escape hatch]; spot; on its lanyard, under the steps
tresmare; gear[lifebuoy, with light and drogue]; spot; one on each side of the aerial
tresmare; notes; man-overboard; Furl the jib, start the engine, come alongside with the starboard float to leeward.
tresmare; notes; fire; The alcohol cooker burns without smoke: put it out with water.
tresmare; radio.sets[satellite telephone]; spot; in the waterproof case in the grab bag
zilte-wind; gear[foghorn]; spot; in the coaming pocket by the winch
zilte-wind; gear[fire extinguisher, cabin]; spot; on the bulkhead to the galley
zilte-wind; notes; abandon-ship; The skipper and the hand lift the valise out; the mate holds the painter.
zilte-wind; stops[fuel]; spot; behind the round hole left of the steps
zilte-wind; voyage; raise_alarm; if nothing is heard by noon on 22 June
zilte-wind; contacts[coastguard]; channel; VHF channel 16, working channels 23 and 83
""")

AGAINST_TOO = rows("""
saltmeadow; notes; fire; Use the fire pump first.
saltmeadow; notes; abandon-ship; Put on the immersion suit at once.
saltmeadow; notes; abandon-ship; take the axe fast
saltmeadow; notes; man-overboard; Fetch the rescue sling immediately.
zilte-wind; notes; man-overboard; Grab the PLB quickly.
saltmeadow; notes; man-overboard; Take the danbuoy from the forepeak first.
saltmeadow; stops[fuel]; spot; behind the steps in the aft cabin
saltmeadow; steering.fits; spot; on the stock in the lazarette
saltmeadow; pumps[hand pump at the helm]; what; hand pump at the mast
saltmeadow; pumps[hand pump below].handle; spot; in the clip at the chart table
saltmeadow; gear[smoke alarm]; spot; under the helm seat, next to the wheel
saltmeadow; gear[first-aid kit]; spot; under the galley sink
nordgyllen; gear[medical oxygen]; spot; strapped in the galley
nordgyllen; medical.key; spot; on the hook in the galley
saltmeadow; gear[parachute flares]; spot; in the flare box in the saloon
ombrelune; rafts[liferaft].knife; spot; in the sheath in the cockpit locker
saltmeadow; through-hulls[engine cooling inlet]; spot; under the galley sole
saltmeadow; gear[fire extinguisher, forward]; spot; beside the cooker
saltmeadow; gear[storm jib and trysail]; spot; behind the cooker
tresmare; vessel.fire-port-place; spot; lowest step in the galley
kelpwren; stops[kill cord].spare; spot; in the forward cabin
saltmeadow; radio.beacons[radar transponder]; spot; in the flare box
saltmeadow; gear[bolt cutters]; spot; in the boot of the car
saltmeadow; gear[bolt cutters]; spot; in the shed at home
saltmeadow; gear[storm jib and trysail]; spot; in the sail loft ashore
saltmeadow; gear[bolt cutters]; spot; on the roof rack of the car
saltmeadow; contacts[coastguard rescue centre]; channel; VHF 6, or DSC
saltmeadow; contacts[medical advice by radio]; channel; VHF 61
ombrelune; base; channel; VHF 99
tresmare; medical; advice; the doctor ashore, by MF radio
saltmeadow; notes; abandon-ship; The raft weighs 30 kg: one person can lift it
saltmeadow; notes; abandon-ship; ten lifejackets
saltmeadow; notes; abandon-ship; There is no HRU.
nordgyllen; notes; being-found; Six parachute flares.
saltmeadow; drills[1]; led_by; the boatswain
saltmeadow; approved; by; the purser
saltmeadow; deferred; who; the purser
saltmeadow; contacts[the owner's brother]; who; the purser's contact ashore
saltmeadow; medical; what; first-aid chest in the saloon, starboard locker; only the doctor may open it
kelpwren; people[child]; needs_help; is a child and is held by the mate
tresmare; radio.beacons[skipper's PLB]; spot; in the mate's lifejacket
tresmare; radio.beacons[mate's PLB]; carried_by; skipper
saltmeadow; notes; flooding; The heads inlet is to starboard.
saltmeadow; notes; flooding; The galley sink outlet is in the heads.
saltmeadow; notes; man-overboard; The boarding ladder is on the pulpit.
saltmeadow; notes; gas; The gas bottles are in the forepeak.
saltmeadow; notes; abandon-ship; The raft knife is on the starboard side.
saltmeadow; notes; abandon-ship; The cook sleeps in the forward cabin.
saltmeadow; notes; flooding; Close the valve in the wheelhouse.
kelpwren; notes; flooding; The bucket is at the chart table.
zilte-wind; voyage; raise_alarm; no message by 20.00 on 21 July
saltmeadow; vessel; general_alarm; one long blast on the siren
kelpwren; recovery.hoist; what; the main halyard
zilte-wind; rafts[liferaft].strong-point; what; the eye and the cleat
saltmeadow; contacts[coastguard rescue centre]; who; coastguard rescue centre and harbour master
zilte-wind; rafts[liferaft]; overhead; the port locker lid
tresmare; rafts[liferaft]; overhead; sole of the saloon
nordgyllen; deck.ways[1]; by; the steps on the starboard side of the cockpit
nordgyllen; deck.ways[1]; by; ask the skipper
tresmare; engines[engine]; what; starboard engine
saltmeadow; gear[bucket, with lanyard]; spot; three on the hook
saltmeadow; rafts[liferaft].knife; spot; foot of the cradle, to starboard
zilte-wind; stops[engine]; spot; at the knee, to port
saltmeadow; gear[first-aid kit]; spot; on the shelf over the chart table, port
saltmeadow; gear[fire blanket]; spot; on the hook in the saloon, to starboard
saltmeadow; gear[parachute flares]; spot; in the lazarette under the lid
saltmeadow; gear[searchlight, hand-held]; spot; in the cockpit locker
saltmeadow; gear[tethers, 2 m with overload flag]; spot; hung in the wet locker of the aft cabin
saltmeadow; gear[hand bearing compass]; spot; at my house
saltmeadow; gear[thermal protective aids]; spot; lent to the sailing club
saltmeadow; gear[leak mat and underwater filler]; spot; in the marina office
saltmeadow; radio.beacons[EPIRB]; spot; in the bracket on the pushpit
saltmeadow; radio.beacons[EPIRB]; what; EPIRB on the starboard bulkhead
saltmeadow; radio.sets[fixed VHF]; spot; over the port berth
saltmeadow; radio.sets[handheld VHF]; spot; on charge in the aft cabin
saltmeadow; stops[gas]; spot; inside the gas locker
saltmeadow; stops[fuel]; spot; on the tank in the lazarette
saltmeadow; stops[batteries]; spot; starboard side of the forward cabin
saltmeadow; grab-bags[1]; spot; in the forward heads
saltmeadow; lifejackets[adult]; spot; under the bunks in the forepeak
saltmeadow; rafts[liferaft].strong-point; spot; starboard side of the coachroof
saltmeadow; rafts[liferaft].launch-from; what; the gate on the port quarter of the trampoline
saltmeadow; recovery.hoist; spot; on the port winch
saltmeadow; recovery.ladder; spot; port side of the platform
saltmeadow; steering.emergency-tiller; spot; clipped to the starboard side
saltmeadow; through-hulls[heads inlet]; spot; in the starboard locker
saltmeadow; through-hulls[galley sink outlet]; what; sink outlet in the heads
saltmeadow; notes; man-overboard; The danbuoy hangs on the starboard side.
saltmeadow; notes; man-overboard; Grab the MOB pole and the heaving line from the pulpit.
saltmeadow; notes; abandon-ship; We carry four lifejackets.
saltmeadow; notes; abandon-ship; The grab bag weighs 25 kg.
saltmeadow; notes; abandon-ship; Everyone meets in the saloon.
saltmeadow; notes; abandon-ship; Guest 7 takes the water.
saltmeadow; notes; abandon-ship; The steward wakes the guests.
saltmeadow; notes; distress-call; Call the coastguard on VHF 61.
saltmeadow; notes; distress-call; Turn the radio to channel 92.
saltmeadow; notes; being-found; She carries no flares.
saltmeadow; notes; being-found; All eight parachute flares are in the grab bag.
saltmeadow; notes; flooding; The cockpit drain is in the forepeak.
nordgyllen; notes; fire; The fuel shut-off is on the starboard side deck.
nordgyllen; notes; abandon-ship; The engineer sleeps in the forward cabin and the mate in the saloon.
nordgyllen; notes; abandon-ship; Each raft carries ten people.
nordgyllen; gear[immersion suits]; spot; six in the hanging locker and four under the bunk
nordgyllen; gear[lifebuoy, with light and line]; spot; starboard rail
nordgyllen; people[engineer]; needs_help; is led by the carpenter
nordgyllen; contacts[the rescue centre for the northern coast]; channel; VHF 72
kelpwren; notes; fire; Leave by the companionway.
kelpwren; gear[first-aid kit]; spot; under the stern sheets
kelpwren; lifejackets[adult]; spot; in the stern locker
kelpwren; pumps[hand pump]; spot; starboard of the locker, by the bow
kelpwren; contacts[the harbour master of Inishtarn]; channel; VHF 112
ombrelune; gear[emergency tiller]; spot; under the hatch of the starboard engine space
ombrelune; stops[batteries]; spot; behind the red door in the port hull
ombrelune; notes; fire; The automatic extinguisher is in the forepeak.
ombrelune; notes; abandon-ship; Ten people fit into the two rafts.
tresmare; notes; raft-trouble; The raft lies on the foredeck.
tresmare; notes; fire; Three immersion suits hang at the chart table.
tresmare; gear[knife, for the nets and lines]; spot; in the sheath at the mast
zilte-wind; gear[foghorn]; spot; behind the port coaming
zilte-wind; rafts[liferaft].knife; spot; taped to the lid of the port locker
zilte-wind; grab-bags[1]; spot; in the car
zilte-wind; notes; abandon-ship; The valise lies in the forepeak.
zilte-wind; notes; abandon-ship; The raft takes eight persons.
""")
