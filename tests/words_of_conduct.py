"""Words of conduct held against fields, as in `words_held`: who goes where at which signal, by what a thing is worked, what state it is in, who is fit for it."""

from words_held import rows

WRONG = rows("""
saltmeadow; notes; man-overboard; The casualty is hoisted on the port side, where the sea is lower.
nordgyllen; notes; man-overboard; Bring the swimmer to the port rail and lift him in over the port side.
tresmare; notes; back-aboard; Winch them in on the port side, not over the stern.
nordgyllen; notes; back-aboard; The person is lifted with the anchor windlass.
tresmare; notes; man-overboard; Hoist whoever is in the water with the genoa halyard.
saltmeadow; notes; man-overboard; We get the casualty aboard with the topping lift.
nordgyllen; notes; man-overboard; The swimmer is hauled up by the capstan.
saltmeadow; notes; raft-launch; Heave the raft over to port, not to starboard. The canister goes over the transom.
nordgyllen; notes; raft-launch; Push the canister over the bow, both hands under it.
zilte-wind; notes; raft-launch; Two carry the raft aft: it is thrown over the stern.
saltmeadow; notes; heavy-weather; Tie a second rope over the raft when it blows.
nordgyllen; notes; heavy-weather; Both rafts get lashed with an extra strap on passage.
saltmeadow; notes; heavy-weather; A net is drawn over the canister.
saltmeadow; notes; abandon-ship; Everybody comes to the saloon as soon as the alarm sounds.
nordgyllen; notes; fire; At the alarm all hands go to the foredeck.
tresmare; notes; abandon-ship; The crew gathers on the foredeck, whoever is off watch included.
saltmeadow; notes; flooding; The guests stay in bed until the leak is found.
nordgyllen; notes; fire; The cook remains below until called.
saltmeadow; notes; man-overboard; Guest 1 stays in his bunk: too many hands are in the way.
nordgyllen; notes; abandon-ship; Seven short blasts and one long: board the rafts.
tansywade; notes; abandon-ship; At three long blasts everybody leaves the boat.
saltmeadow; notes; fire; Three long blasts: all run to the cockpit with lifejackets on.
saltmeadow; notes; fire; The fuel is shut with the yellow lever.
nordgyllen; notes; fire; The engine stop is the green button at the wheel.
nordgyllen; notes; fire; Stop the engine: press the button until she is quiet.
saltmeadow; notes; distress-call; The distress button sits left of the screen.
ombrelune; notes; distress-call; Lift the white cover and press the distress button for five seconds.
saltmeadow; notes; abandon-ship; Pull the blue cord and the EPIRB is on.
ombrelune; notes; fire; One fuel valve stops both engines.
tresmare; notes; raft-launch; Should she go down the raft bobs up by itself.
zilte-wind; notes; raft-launch; When the yacht sinks the liferaft floats free.
ombrelune; notes; abandon-ship; Rolled over, the boat turns herself upright again.
saltmeadow; notes; flooding; Start the engine-driven pump first.
tresmare; notes; raft-launch; Take hold of the HRU and press it.
ombrelune; notes; distress-call; Take the satphone with you.
saltmeadow; notes; abandon-ship; Count up to nine, and all are there.
saltmeadow; notes; fire; The battery switch is behind the companionway ladder.
saltmeadow; gear[fire blanket]; spot; on the bulkhead; the tapes are torn off
saltmeadow; gear[bolt cutters]; spot; in the locker, jaws cracked, blade chipped
saltmeadow; recovery.hoist; spot; on the winch whose pawl sticks; the winch slips
nordgyllen; gear[immersion suits]; spot; in the hanging locker until the seams are glued
saltmeadow; radio.beacons[EPIRB]; spot; still in its box at the chart table
nordgyllen; gear[leak mat]; spot; in the damage bag (used twice, in two)
saltmeadow; rafts[liferaft].knife; spot; at the cradle, blade chipped
saltmeadow; rafts[liferaft].launch-from; how; let go the painter, then both wires
saltmeadow; radio.beacons[EPIRB]; use; lift the flap and hold the button as soon as a ship is in sight
saltmeadow; notes; man-overboard; Whoever is in the water is taken over the port quarter.
saltmeadow; notes; man-overboard; We always recover people to port.
saltmeadow; notes; man-overboard; The casualty comes aboard on the port side.
nordgyllen; notes; man-overboard; Use the anchor windlass to lift the person.
saltmeadow; notes; man-overboard; Rig the jib halyard and lift the casualty with it.
saltmeadow; notes; man-overboard; The hoist is the mainsheet tackle.
saltmeadow; notes; raft-launch; The raft is launched from the foredeck.
saltmeadow; notes; raft-launch; Drag the raft to the bow and tip it over.
tresmare; notes; raft-launch; Throw the raft over the port rail.
zilte-wind; notes; abandon-ship; We meet on the foredeck, jackets on.
saltmeadow; notes; abandon-ship; Muster place: foredeck.
saltmeadow; notes; abandon-ship; Everyone waits in the saloon until the order comes.
saltmeadow; notes; abandon-ship; Five long blasts mean: abandon ship.
saltmeadow; notes; abandon-ship; The order to abandon is three long blasts on the foghorn.
saltmeadow; notes; fire; The deckhand stays in bed, he has the next watch.
saltmeadow; notes; fire; Off-watch people stay in their bunks.
saltmeadow; notes; flooding; Guests are to stay below out of the way.
saltmeadow; notes; fire; The black lever shuts the fuel.
saltmeadow; notes; fire; To stop the engine pull the yellow handle.
saltmeadow; notes; fire; Turn both green keys: the batteries are off.
saltmeadow; notes; abandon-ship; Break the glass and press the green switch of the EPIRB.
nordgyllen; notes; distress-call; Press the yellow distress button.
nordgyllen; notes; fire; The fixed extinguisher is released by the yellow lever under the chart drawer.
tresmare; notes; raft-launch; The raft releases itself two metres down.
zilte-wind; notes; raft-launch; The HRU cuts the strap, do not touch it.
ombrelune; notes; abandon-ship; After a capsize she comes upright again by herself.
saltmeadow; notes; heavy-weather; The liferaft is lashed down with an additional rope before a gale.
saltmeadow; notes; heavy-weather; Pass a strap over the canister.
saltmeadow; notes; abandon-ship; When all seven are in the raft, cut the painter.
saltmeadow; notes; abandon-ship; There are eight of us: count.
saltmeadow; notes; abandon-ship; Eight people, eight jackets.
saltmeadow; notes; fire; The fuel tap is behind the galley drawer.
saltmeadow; notes; abandon-ship; The dinghy on the foredeck takes three.
""")
"""What contradicts a key, tells of a thing that does nothing, or of a deed that kills."""
RIGHT = rows("""
saltmeadow; notes; man-overboard; Lift the casualty in on the starboard side, with the spare main halyard.
saltmeadow; notes; man-overboard; Approach with the swimmer to port or starboard, whichever is to leeward.
nordgyllen; notes; man-overboard; The derrick lifts the swimmer in at the starboard gate.
nordgyllen; notes; man-overboard; The windlass lifts the anchor, not people.
tresmare; notes; man-overboard; Hoist the casualty with the spinnaker halyard; the ladder on the transom is for whoever can climb.
saltmeadow; notes; man-overboard; Bring the boat round with the wind on the port side, then stop.
saltmeadow; notes; man-overboard; The outboard is lifted with the topping lift.
saltmeadow; notes; man-overboard; Pull the boom in with the mainsheet before anybody goes to the rail.
saltmeadow; notes; raft-launch; The raft goes over the side at the gate, then lead the painter aft.
tresmare; notes; raft-launch; It slides out over the transom by itself once both holdings are open and somebody pulls.
ombrelune; notes; raft-launch; Throw the raft over the stern from the lowest step.
nordgyllen; notes; raft-launch; Never tie a rope over a raft, whatever the weather.
saltmeadow; notes; raft-launch; The painter is tied to the strong point with a bowline.
saltmeadow; notes; heavy-weather; The anchor is lashed with a second rope; the raft is left as it is.
saltmeadow; notes; abandon-ship; At the alarm all come to the cockpit with their jackets on.
saltmeadow; notes; abandon-ship; When the order is given go to the side deck two by two.
nordgyllen; notes; abandon-ship; Everybody goes to the wheelhouse when the bell rings, then to the pushpit in two groups.
nordgyllen; notes; fire; All go to the foredeck if the wheelhouse burns.
tresmare; notes; heavy-weather; Whoever is off watch stays in the bunk behind the lee cloth.
saltmeadow; notes; heavy-weather; The guests stay below until the front is through.
saltmeadow; notes; fire; Nobody stays below.
saltmeadow; notes; fire; The smoke stays below the deckhead: crawl.
saltmeadow; notes; abandon-ship; Seven short blasts and one long bring everybody to the cockpit.
saltmeadow; notes; abandon-ship; At "Abandon ship", called three times, go into the raft.
saltmeadow; notes; man-overboard; Three long blasts tell ships near by of it.
kelpwren; notes; abandon-ship; One long blast: all come to the midship thwart.
saltmeadow; notes; fire; The red knob stops the engine; the red lever shuts the fuel.
saltmeadow; notes; fire; Pull the knob right out and wait until the engine is quiet.
saltmeadow; notes; fire; The yellow extinguisher is for the engine space, the red one for the galley.
nordgyllen; notes; fire; The engine's green lamp goes out when it has stopped.
nordgyllen; notes; fire; Keep the black torch beside the battery keys.
saltmeadow; notes; distress-call; The distress button is under the red flap to the right of the screen.
saltmeadow; notes; distress-call; Press the distress button, then take the black handset.
saltmeadow; notes; abandon-ship; The EPIRB is yellow; its flap is red.
saltmeadow; notes; abandon-ship; Press the button of the EPIRB for two seconds, under the red flap.
ombrelune; notes; fire; Each engine has its own fuel valve: shut both.
ombrelune; notes; fire; The key in the port hull cuts the port bank.
saltmeadow; notes; fire; One key for each bank: turn both.
saltmeadow; notes; raft-launch; When she sinks the raft comes up by itself.
saltmeadow; notes; abandon-ship; She rights herself from a knock-down; hold on.
ombrelune; notes; abandon-ship; She does not right herself.
ombrelune; notes; abandon-ship; She turns over slowly; nobody goes into the hulls again.
nordgyllen; notes; flooding; Open the valve of the engine-driven pump first.
tresmare; notes; raft-launch; There is no HRU: somebody opens the slip.
saltmeadow; notes; abandon-ship; Count to six: all must answer.
saltmeadow; notes; distress-call; Count to ten, then listen to all that is said.
saltmeadow; notes; fire; The battery switch is under the seat at the chart table.
saltmeadow; gear[fire blanket]; spot; in its case; used blankets are thrown away
saltmeadow; gear[fire blanket]; spot; in its case; spent cartridges go ashore
saltmeadow; gear[bolt cutters]; spot; in the locker, jaws greased
saltmeadow; recovery.hoist; spot; on the winch that turns both ways
nordgyllen; gear[immersion suits]; spot; in the hanging locker, zips waxed in May
saltmeadow; radio.beacons[EPIRB]; spot; in its bracket until it is needed
nordgyllen; gear[leak mat]; spot; in the bag that slips onto the hook
saltmeadow; gear[lifebuoy, with light and drogue]; spot; on the bent rail beside the gate
saltmeadow; rafts[liferaft].launch-from; how; let the hook of both wires go, keep the painter fast
saltmeadow; radio.beacons[EPIRB]; use; lift the flap and hold the button as soon as the order is given
saltmeadow; notes; abandon-ship; Everybody takes a jacket from the saloon and comes up.
saltmeadow; notes; abandon-ship; All wait in the cockpit until the skipper gives the order.
saltmeadow; notes; fire; Everybody who sleeps in the saloon leaves by the companionway.
saltmeadow; notes; flooding; The guests sit in the cockpit and hold on.
nordgyllen; notes; abandon-ship; All stand by in the wheelhouse, suits half on.
nordgyllen; notes; fire; The watch below comes up at the bell.
saltmeadow; notes; heavy-weather; The watch below stays in the bunks.
saltmeadow; notes; man-overboard; Two haul on the halyard, one steadies the casualty at the starboard rail.
saltmeadow; notes; man-overboard; Bring the swimmer alongside to leeward, engine out of gear.
saltmeadow; notes; man-overboard; Take the mainsail down first, then lift the casualty with the spare main halyard.
nordgyllen; notes; man-overboard; Take the sling, then lead the derrick's runner to the gate and lift the person.
saltmeadow; notes; raft-launch; Carry the raft to the gate, painter fast, and push it over the side.
saltmeadow; notes; raft-launch; Keep the raft from the transom: the rudder holes it.
tresmare; notes; raft-launch; The raft slides out aft over the transom, then lies astern on its painter.
ombrelune; notes; raft-launch; Push the raft off the lowest step; do not throw it to port.
nordgyllen; notes; raft-launch; Each raft goes over its own rail: port raft to port, starboard raft to starboard.
saltmeadow; notes; raft-launch; A second rope from the gate holds the raft alongside when it is open.
saltmeadow; notes; raft-launch; Undo the strap over the canister first.
saltmeadow; notes; heavy-weather; Lash the dinghy's oars with a second rope, and look at the strap of the raft.
saltmeadow; notes; abandon-ship; All six are in the raft before anybody cuts.
saltmeadow; notes; abandon-ship; Count to twenty, then all look round again.
saltmeadow; notes; abandon-ship; Two of us go first, then the rest.
saltmeadow; notes; fire; Two stand by with extinguishers at the companionway.
saltmeadow; notes; abandon-ship; Long blasts every two minutes in fog; everybody on deck keeps quiet.
saltmeadow; notes; distress-call; The red flap is stiff: lift it with two fingers, then hold the button.
saltmeadow; notes; distress-call; Use the handheld left of the companionway when the fixed set is dead.
saltmeadow; notes; fire; The engine stops after ten seconds; the red lever stays across the pipe.
saltmeadow; notes; fire; Engine fire: fuel first, by the red lever, then the knob.
saltmeadow; notes; fire; The white box with the yellow lid holds the smoke hoods' instructions. The engine is cold after an hour.
saltmeadow; notes; fire; A green light shows that the batteries are on.
saltmeadow; notes; abandon-ship; The EPIRB's red flap tears off; that is right so.
saltmeadow; notes; abandon-ship; Turn the ring of the transponder to ON and hold it high, the EPIRB floats beside.
ombrelune; notes; fire; The fuel taps shut both engines, each its own.
ombrelune; notes; fire; Both STOP buttons stop both engines.
ombrelune; notes; fire; Turn all four keys: all batteries are off.
ombrelune; notes; abandon-ship; In a knock-down she comes upright when the sheets are let fly.
tresmare; notes; heavy-weather; After a knock-down she comes up by herself; count heads.
nordgyllen; notes; flooding; The hand pump in the galley takes over when the electric pump stops.
saltmeadow; notes; abandon-ship; The painter is never wound round a hand. The raft comes up by itself if there is no time.
saltmeadow; gear[bucket, with lanyard]; spot; on the hook, lanyard spliced in
saltmeadow; gear[fire extinguisher, galley]; spot; on the bulkhead, needle in the green
saltmeadow; gear[foghorn, hand-pumped]; spot; in the locker, worn brass plate on it
saltmeadow; gear[searchlight, hand-held]; spot; in the charger until it is needed
saltmeadow; gear[storm jib and trysail]; spot; in the blue bag, hanks greased
saltmeadow; recovery.ladder; spot; folded up, let down by the red line
saltmeadow; recovery.hoist; spot; on its winch, tail coiled on the hook that never slips
saltmeadow; pumps[hand pump at the helm]; spot; under the helm seat, hose renewed in May
saltmeadow; lifejackets[adult]; spot; on the pegs, crotch straps done up, cylinders screwed home
nordgyllen; gear[ice poles]; spot; on the rail, one of them bent at the tip on purpose
nordgyllen; gear[medical oxygen]; spot; strapped upright, gauge facing out
nordgyllen; gear[leak mat]; spot; in the damage bag, until used
kelpwren; notes; man-overboard; Lift the person in over the side with the net.
tansywade; notes; man-overboard; Bring the casualty to the boarding gate, to starboard, engines out of gear.
tansywade; notes; abandon-ship; When the skipper calls, everybody comes to the cockpit.
saltmeadow; notes; fire; Switch the engine off and leave the cockpit.
saltmeadow; notes; fire; Turn the engine off at the key, then pull the red knob.
saltmeadow; notes; fire; Start the engine only with the key. The engine key hangs at the chart table.
saltmeadow; notes; fire; The engine is stopped, the handle of the throttle is back.
saltmeadow; notes; fire; The gas is shut at the brass tap, a quarter turn.
saltmeadow; notes; gas; Shut the gas at the bottle with the wheel.
saltmeadow; notes; fire; The fuel lever is stiff; both hands.
saltmeadow; notes; fire; Power off: both red keys. The electrics are dead then, the torch hangs by the switch.
saltmeadow; notes; fire; The main switch in the cabin lights the saloon; power comes back when the keys are turned.
saltmeadow; notes; abandon-ship; Take the EPIRB by its handle and tie its cord to the raft.
saltmeadow; notes; abandon-ship; The EPIRB's lamp flashes; the cover of the raft closes with a cord.
saltmeadow; notes; distress-call; Press the distress button until the beep, then the lever of the handset.
saltmeadow; notes; flooding; Turn the seacock lever of the heads outlet across.
nordgyllen; notes; fire; Pull the pin, break the glass, pull the red handle of the fixed extinguisher.
nordgyllen; notes; fire; The fuel cock at the day tank is the engineer's; the red handle is everybody's.
ombrelune; notes; fire; The engine hatch has a blue handle. Keep the engine hatch shut.
zilte-wind; notes; fire; The batteries are cut off, then the yellow torch is the light.
tansywade; notes; man-overboard; The engine stops when the red cord comes off.
kelpwren; notes; fire; Fuel: close the vent on the cap, then lift the tank out by its handle.
""")
"""Honest words of the same things."""
MEDICAL = tuple(
    (words.strip(), frozenset(limits.split()))
    for words, _, limits in (
        line.partition("|")
        for line in """
slipped disc, is not to haul or lift | lift
cataracts on both eyes, sees almost nothing | see
hears hardly anything | hear
stammers badly, cannot use the radio | speak
right arm broken, in plaster until August | lift
has seizures | steer alone
blackouts when tired; must not take the helm | steer alone
not allowed to stand watch alone, otherwise well | alone
may not carry anything heavier than a cup until the stitches are out | lift
fresh stitches | lift
in a wheelchair, strong arms | move
never learnt to swim; panics in deep water | swim
does not see well in the dark | see-at-night
dementia, needs somebody beside her | mind
sees badly at night, well by day | see-at-night
slipped disc in 2015, healed; lifts as before |
no seizures, no allergies, wears lenses |
deaf in the right ear as a child, cured |
cannot tolerate penicillin, nor shellfish |
takes a tablet against high blood pressure at eight |
never seasick |
no known illness |
deaf in the left ear |
asthma, spray in the breast pocket |
pacemaker; no magnets near it |
epilepsy in the family, never had a fit |
broken arm in 2011, healed |
cannot eat gluten |
faints at the sight of blood, once, at school, long over |
""".strip().splitlines()
    )
)
"""What may stand under 'medical', and what whoever has it is not fit for."""
