"""More of what honest skippers write of things that a dangerous deed is done with."""

from deeds_told import rows

HONEST_TOO = rows("""
lightning; Hold hands and stay low in the saloon.
lightning; If the autopilot fails, somebody steers by hand in rubber boots.
strangers; The flare gun stays in its box.
heavy-weather; Harness lines are hooked to the eye by the companionway.
heavy-weather; Leave the helm lashed only in harbour.
abandon-ship; The life raft is launched from the lee side while she still floats.
raft-launch; Pull the painter until it inflates alongside.
gas; Turn the bottle off after cooking.
skipper-down; Leave the engine in neutral and call.
flooding; Relieve the pump every ten minutes.
man-overboard; Whoever steers wears the kill cord.
man-overboard; The spare kill cord hangs on the throttle.
abandon-ship; On the general alarm all come to the cockpit with jackets on.
fire; Engine space on fire: keep the hatch shut, pull the red handle.
abandon-ship; Seven short blasts and one long: muster; the raft is launched on the order alone.
man-overboard; The kill cord is worn whenever the engine runs.
man-overboard; The spare kill cord hangs on its hook at the helm.
man-overboard; Kill cord: round the leg of whoever steers; the spare hangs on the hook by the wheel.
man-overboard; Tethers are clipped to the jackstay, never to the guardwire.
man-overboard; A tether clipped to the guardrail holds nobody.
heavy-weather; Children are clipped on in the cockpit.
heavy-weather; The lee cloths keep the children in their bunks.
heavy-weather; The gas bottle is strapped into its locker.
abandon-ship; The grab bag is clipped to the pushpit by its lanyard.
flooding; The forward hatch is open at anchor for air.
flooding; The forward hatch is shut at sea.
flooding; Ports are shut under way.
flooding; Offshore the washboards stay in.
flooding; The washboards lie in the cockpit locker in harbour.
fire; The scooter is charged on deck, by day.
fire; The outboard battery is charged in the cockpit.
fire; The telephone charges at the chart table.
fire; Spare cells are never charged in a cabin.
gas; The wind and the hand pump take the gas out.
flooding; The bilge pump is switched off in harbour, never at sea.
flooding; The bilge pump stays at AUTO at sea.
fire; Switch the batteries off if cables burn.
fire; The smoke alarms have their own batteries; the house bank is switched off at night in harbour.
fire-engine; Shut the flaps, then release the extinguisher.
fire-engine; Fans off, flaps shut, red handle last.
be-seen; Red calls for help, white warns a ship off.
raft-launch; The canister is lashed by its slip alone.
raft-launch; The cover of the liferaft comes off before she sails.
heavy-weather; The children sit in the cuddy with the door open.
man-overboard; Go astern to take the way off, far from the person, then neutral.
man-overboard; Stop to windward, engine in neutral, never stern first to the person.
man-overboard; Wake the other before you leave the cockpit.
raft-launch; Throw the canister over, pull the painter right out; the raft fills in half a minute.
raft-launch; Before we sail, look that both slips are free and the pins move.
fire-engine; The fire port is beside the steps; the steps stay where they are.
fire; Under the steps there is nothing to open.
abandon-ship; If she is upside down, stay with her: she floats higher than a head.
flooding; The pump is off when the bilge is dry.
heavy-weather; Whoever goes forward wakes the skipper first, and calls when back.
raft-launch; Pull the painter until it inflates, then board from the ladder.
flooding; Lift the floorboards in the saloon, steps and all, and look.
man-overboard; If nobody can reach them, the strongest swimmer goes in on a line, in a lifejacket.
man-overboard; The boarding ladder hangs at the stern: stop the engine before anybody uses it.
fire; The pan stays on the cooker; the blanket goes over it.
fire-galley; Shut the gas, then cover the pan and let it cool where it stands.
fire; Smoke rises: stay low, go out by the forward hatch.
fire; The hatch over the berth opens from inside, smoke or not.
fire-engine; The round hole for the nozzle is beside the steps; the lid stays shut.
fire-engine; Count sixty before you let go of the handle.
gas; The blower runs for five minutes before each start of the engine.
gas; Whoever sleeps aft opens the hatch above the berth and comes up.
gas-air; The detector is read from the door, nobody goes below to look at it.
petrol-vapour; Start the engine only when nobody smells petrol any more.
petrol-vapour; The blower switch is at the helm; leave it alone until the locker is open.
flooding; The electric pump is switched on first, from the helm.
flooding; The children sit in the cockpit and stay out of the way.
flooding; When the water is over the sole, everybody comes up.
abandon-ship; Jackets first, then the bag, then the raft.
abandon-ship; The jackets are below, port side: take them as you come up.
raft-launch; The hydrostatic release frees it when nobody could launch it.
raft-launch; Two of us lift it; the painter is fast to the U-bolt already.
boarding; Children go second, each between two grown-ups.
in-the-raft; Flares only when a ship or an aircraft is in sight.
helicopter; Let the line touch the water before anybody takes it.
helicopter; The hook is never made fast aboard.
under-tow; The tow goes to the post on the foredeck, led between the stanchions.
heavy-weather; Clip on before you come out of the companionway.
heavy-weather; The lower washboard stays in; the hatch opens from both sides.
chilled; Dry, wrap, warm the trunk; no rubbing and no brandy.
not-breathing; Five breaths first, then thirty presses.
bleeding; The tourniquet stays on until a doctor takes it off.
head-injury; Wake them every quarter of an hour.
co-alarm; The battery of the alarm is changed each spring.
skipper-down; The mate calls at once; the number of my wife is on the last page, ring her later.
distress-call; After the distress call somebody rings the owner.
knock-down; Stay clipped until she is up, then count.
steering-lost; The emergency tiller fits under the cap in the cockpit sole, no need to lean out.
propeller-fouled; Nobody dives; the rope cutter deals with thin lines.
lightning; Sit in the saloon, away from the mast.
dragging; Let out chain with the windlass until she holds.
collision; Fenders, not feet, between the boats.
grounding; Look for water first; then the engine slowly astern.
mast-down; The engine stays off until all lines are aboard.
strangers; Do what they say; keep hands where they see them.
bar; Turn back before the first breaker, in deep water.
mast-down; Bolt cutters are in the cockpit locker; cut the windward shrouds last.
anchoring; The engine goes slowly astern until the chain is straight.
grounding; Full throttle stirs sand into the cooling water, so go slowly.
under-tow; Ask for slow speed; somebody watches the tow at all times.
transfer; Step across as the boats rise together, when their crew says so.
man-overboard; The helm stops her so that they drift to the leeward side; the engine is in neutral.
man-overboard; Swim ladder down, then one holds them and one winches.
fire; The saloon extinguisher is for the galley; the one aft stays for the way out.
fire; The wheel is metal and gets hot: steer from the side deck.
fire-galley; Shut the tap behind the cooker if you reach it, leave the pan.
fire-engine; Shout before you pull the handle, count heads first.
gas; The bottle tap is in the gas locker, turn it by hand.
gas; Nobody switches anything, torches neither.
petrol-vapour; Ten minutes with the locker open, then smell again.
flooding; The skipper goes round with the torch and looks at every seacock.
flooding; Call at once, also when it looks small.
abandon-ship; Nobody leaves before the order; the raft stays tied.
raft-launch; The rail gate is opened first, then two slide it out.
boarding; Step in from the ladder, dry if you can.
in-the-raft; Rockets stay in the box until a ship is seen.
in-the-raft; Water only from the second day, children and the sick first.
helicopter; The boat keeps its course; the line is coiled in a bucket, never tied.
under-tow; A drogue on the last pair of cleats keeps her from overtaking.
heavy-weather; Washboards in, hatch shut but not locked.
heavy-weather; Change the watch below, clip on before you come up.
chilled; Sweet warm drink once they are awake and shiver.
not-breathing; The defibrillator hangs at the steps; switch it on and do what it says.
head-injury; Somebody sits with them and asks their name every ten minutes.
co-alarm; Everybody out, then open all hatches from outside.
skipper-down; The mate stops the boat and calls before anything else.
distress-call; The base is rung after the distress call, number on the last page.
steering-lost; Drop the sails, then fit the tiller; the cap turns out by hand.
propeller-fouled; Cut the line from deck with the serrated knife on the boathook, engine off.
lightning; Radios unplugged, hands off metal, all sit in the middle of the saloon.
dragging; Engine ahead, take the strain off, then let out more chain by the windlass.
collision; Fenders lie in the cockpit locker; keep arms and legs inside.
grounding; Heel her with the boom, if nobody is hurt and the bilge is dry.
mast-down; Saw and bolt cutters first, engine last.
strangers; Lock nothing, hide nothing, hands where they see them.
bar; Wait outside until two hours before high water.
not-breathing; When they breathe again lay them on the side, give nothing to drink.
bleeding; Press hard with both hands, then the bandage.
power-lost; Hold the boat with the bow to the sea, a bucket on a line helps.
sick-for-days; Small sips of water with sugar and salt, every ten minutes.
burned; Cool water for twenty minutes, rings off.
""")
