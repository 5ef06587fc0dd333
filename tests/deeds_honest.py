"""What honest skippers write of things that a dangerous deed is done with, in many wordings."""

from deeds_told import rows

HONEST = rows("""
man-overboard; The lifebuoy hangs free, it is never lashed at sea.
man-overboard; The lifebuoy is lashed in harbour only.
man-overboard; The danbuoy is tied to the lifebuoy by its line.
raft-launch; The painter is fast to the strong point, never to the guardrail.
raft-automatic; The weak link breaks by itself when she goes down.
fire-engine; Shut the flaps before you pull the handle of the fixed extinguisher.
heavy-weather; The escape hatches are never opened at sea.
capsized-multihull; Open the escape hatch only when she lies upside down.
heavy-weather; The children stay below in the saloon, in their jackets.
abandon-ship; Nobody stays below.
abandon-ship; Nobody stays in the cabin to look for shoes.
raft-inflate; Pull the painter to its end: the raft inflates within a minute.
abandon-ship; If she sinks first, the hydrostatic release lets the raft go and it inflates by itself.
fire; Stop the fan at the switchboard.
fire; The smoke alarms stay on while we cook.
heavy-weather; All hatches are shut, also those that stand ajar in harbour.
man-overboard; In the cockpit everybody wears a tether at night.
flooding; Count everybody, then close the door; leave nobody behind it.
raft-launch; Two throw the raft over; it opens when the painter is pulled.
fire; Whoever sleeps in the forward cabins comes out by the hatch.
distress-call; Do not call the coastguard for a blocked toilet, call the base.
distress-call; Call the base, and nobody else touches the engine.
collision; Call the base before anybody else repairs it.
distress-call; The coastguard first, then the base.
flooding; Never ask the coastguard for weather, ask the base.
fire; Never throw water on burning fat; cover it with the blanket.
fire; Burning fat: blanket over it, gas off, no water.
fire; Water on burning fat explodes.
fire; Use water on a burning cushion, never on fat.
fire; Throw the burning cushion overboard.
fire; Pour water on the bunk cushions until they are cold.
fire; Do not open the engine hatch: discharge the extinguisher through the fire port.
fire; Wait an hour before you open the engine hatch.
fire; Open the engine hatch only when the paint is cold.
fire; Open the fire port and empty the whole extinguisher into the engine space.
fire; After ten minutes open the engine hatch a crack, extinguisher in hand.
fire; Whoever opens the engine hatch feeds the fire.
fire; Shut the vents, stop the fan, shut the fuel.
fire; Keep the hatch shut; the engine space is full of CO2.
fire; Leave by the forward hatch if the companionway burns.
fire; The second extinguisher hangs on the engine hatch.
fire; Take the lifejackets on deck with you.
gas; Look for the leak with soapy water, never with a flame.
gas; No light, no match, no switch.
gas; Open all hatches and bail the gas out with a bucket.
gas; Check the hose and the joints with leak spray each spring.
gas; The lighter hangs beside the cooker.
gas; Shut the gas at the bottle when the alarm sounds.
gas; Switch off the gas when the alarm sounds.
gas; Leave the alarm switched on at night.
gas; The gas alarm is tested with the button each Sunday.
gas; The bottle is shut after cooking, and the tap too.
gas; Start the engine only after the blower has run for four minutes.
flooding; If the bilge alarm sounds, switch on the electric pump.
flooding; The bilge alarm is silenced with the red button; it sounds again when the water rises.
flooding; Shut the seacock, then pump.
flooding; Open the cockpit drain to let the water out.
abandon-ship; Put your jacket on below and inflate it on deck.
abandon-ship; Inflate your lifejacket outside, not in the cabin.
abandon-ship; A jacket inflated in the cabin will not go through the hatch.
abandon-ship; The forward hatch is never screwed down at sea.
abandon-ship; The companionway is left open at sea.
abandon-ship; Take the grab bag from the companionway, then leave.
raft-launch; Untie the lashing, then throw the canister over.
raft-launch; Make sure the painter is fast before you throw the raft.
raft-launch; Cut the painter last, when everybody is in.
raft-launch; The painter is fast to the U-bolt: leave it so.
raft-launch; Throw the raft to leeward, pull the painter to its end, then give a hard tug.
raft-launch; Never inflate the raft on deck.
raft-launch; Free the canister of ice and snow.
raft-launch; Take the canister by both handles and push it over the rail.
boarding; Step into the raft, do not jump onto the canopy.
in-the-raft; Cut the painter with the raft knife when all are aboard.
in-the-raft; Leave the EPIRB on until you are aboard the lifeboat.
in-the-raft; Keep your lifejacket on in the raft.
in-the-raft; No drink before the second day; sea water kills.
being-found; Hand flares are held over the lee side at arm's length.
being-found; The winch wire is never made fast.
being-found; No rockets when the helicopter is near.
man-overboard; Nobody jumps in after the swimmer.
man-overboard; The engine is out of gear as soon as the swimmer is near.
man-overboard; Bring the boat to windward of the swimmer and let her drift down.
man-overboard; Throw the lifebuoy, then the danbuoy, then whatever floats.
man-overboard; Give the casualty warm tea with sugar, no alcohol.
man-overboard; Lay the person flat and do not rub the limbs.
man-overboard; The bottle of rum is in the locker.
man-overboard; Clip on before you leave the cockpit.
fire; Run the heater only with the ventilators open.
fire; The smoke alarms are tested on the first of each month.
fire; The engine stops when the red knob is pulled; then shut the fuel at the round hole.
fire; Cut off the batteries before water is used on the switchboard.
fire; The deck hose reaches the galley: use it on cushions and bunks.
abandon-ship; The skipper takes the EPIRB, switches it on and ties it to the raft.
raft-launch; Release the slip, cut the strap, throw the raft.
raft-launch; Cut the lashing with the knife on the cradle and slide the raft over the rail.
fire; The fuel is shut at the tank; the lever stands across the pipe when it is shut.
fire; The fuel tap is open when the lever lies along the pipe.
gas; The tap is open along the pipe and shut across it.
gas; Shut the gas: lever across the pipe.
gas; Open the tap along the pipe only to cook.
gas; Two bottles: one in use, one spare, both shut at sea.
fire; Turn the keys to OFF after the engine has stopped.
fire; The engine stops a few seconds after the knob is pulled.
fire; Extinguishers hang so that you pass one on the way out.
fire; Shut the door behind you and count everybody on deck.
fire; Aim at the foot of the flames, from two metres.
fire; Smoke alarms sound in all cabins together.
fire; One fights, one stands behind with the next extinguisher.
fire; After the fire is out, watch it for an hour.
fire; If the fire is in the engine space, stop the engine first.
fire; Wear a lifejacket when you fight a fire on deck.
fire; Stay low below the smoke.
flooding; Look for the hole from the bow aft.
flooding; The pump needs forty strokes to draw.
flooding; Taste the water: fresh water comes from her own tank.
flooding; The plug for each seacock hangs beside it.
flooding; Turn the boat so that the hole comes out of the water.
flooding; Count the strokes of the pump for a minute.
flooding; Shut all seacocks before you look further.
flooding; A cushion and a floorboard close a hole for a while.
abandon-ship; Put on all the clothes you have, then the jacket.
abandon-ship; Drink as much as you can before you leave.
abandon-ship; Step up into the raft, never down.
abandon-ship; Stay with her as long as she floats.
abandon-ship; Everybody takes one blanket.
abandon-ship; The skipper leaves last.
abandon-ship; Take water, warm clothes and the telephone.
abandon-ship; Seasick pills for all before boarding.
abandon-ship; Count everybody before and after boarding.
abandon-ship; The alarm is given as soon as somebody smells smoke.
abandon-ship; Count to ten before you speak on the radio.
raft-launch; Keep three metres of painter in hand until she inflates.
raft-launch; Pull the painter hard; it is longer than it looks.
raft-launch; The canister is heavy: two people lift it.
raft-launch; Look that nobody is in the water below.
raft-launch; Launch her on the lee side if there is a choice.
raft-launch; If the raft inflates upside down, right it from the side of the cylinder.
raft-launch; Hold the painter, never wind it round the hand.
raft-launch; The knife is for the lashing alone.
boarding; The heaviest goes in first and helps the others.
boarding; Jackets stay on and inflated.
in-the-raft; Bail, dry the floor, close the canopy.
in-the-raft; One looks out, the others rest.
in-the-raft; Cut the painter only when she goes down.
being-found; Show one flare at a time, and wait.
being-found; The helicopter lets its wire touch the water first.
man-overboard; Shout, point, throw.
man-overboard; Whoever is in the water keeps the jacket closed and the legs together.
man-overboard; The engine is in neutral before the swimmer is alongside.
man-overboard; Lift whoever is cold lying flat, if you can.
man-overboard; The boathook takes the line, not the person.
man-overboard; Mark the position, then turn back.
man-overboard; One person never takes the eyes off the swimmer.
distress-call; Speak slowly; say the position twice.
distress-call; The handheld reaches five miles, the fixed set thirty.
distress-call; Answer the coastguard on the channel they name.
distress-call; Leave the set on channel 16 afterwards.
gas; Smell at the bilge each morning.
gas; The regulator is renewed with the hose.
flooding; The hatch over the engine is opened to look at the stern gland.
flooding; Open the engine space and look at the hoses.
man-overboard; Lift the engine box only in harbour.
fire; Water works on bunks, cushions and wood.
fire; A wet towel over the mouth gives a minute.
in-the-raft; Lifejackets are dried one at a time and put on again.
flooding; Switch on the electric pump at the panel.
flooding; Start the engine if its pump can draw from the bilge.
gas; Once the gas is gone, start the engine with the fan running.
gas; Ventilate for ten minutes before anybody switches anything on.
abandon-ship; Switch on the EPIRB when the order is given.
distress-call; Switch the fixed VHF on at the panel.
being-found; Switch the EPIRB off when the rescuers say so.
fire; The fire extinguishers were serviced in May.
fire; Take the blanket by both tabs and lay it over the pan away from you.
fire; Shut the gas, lay the blanket over the pan, leave it for half an hour.
fire; Nobody opens the hatch to look.
man-overboard; Whoever sees it points and never looks away.
man-overboard; Nobody goes in after the swimmer, whoever swims best included.
man-overboard; Whoever jumps in is tied to a line first.
raft-launch; Cut the painter as soon as everybody is in.
raft-launch; Once all are in the raft cut the painter and paddle clear.
raft-launch; Never cut the painter as soon as the raft is in the water.
abandon-ship; Keep the lifejacket on; swim on your back to the raft.
in-the-raft; Never mix sea water with the fresh.
in-the-raft; Wash with sea water, drink only from the packets.
fire; Shut all hatches, so that the smoke stays where it is.
fire; Leave no hatch open behind you.
fire; The forward hatch stays open as the way out of the cabin.
raft-launch; The HRU is never greased or painted.
raft-launch; Grease the slip hook each spring.
raft-launch; Rinse the HRU with fresh water; the cradle is painted, not the release.
fire; After the extinguisher has gone off keep the hatch shut for twenty minutes.
fire; Nobody goes into the engine space after the extinguisher has gone off.
flooding; Look for the leak first; launch the raft when the skipper orders it.
flooding; Do not launch the raft before she is given up.
man-overboard; Everybody wears a lifejacket on deck, by day too.
man-overboard; Below no lifejacket is needed.
man-overboard; No alcohol and no rubbing for whoever was in the water.
chilled; Rub nobody; dry and wrap them.
gas; Do not try the cooker to see whether the gas is gone.
gas; Light the cooker again only when the alarm has been quiet for an hour.
abandon-ship; Switch the EPIRB on at once; fire a rocket when a ship is in sight.
abandon-ship; The SART is switched on when a ship or aircraft is near.
man-overboard; Clip the kill cord round your leg before you start.
man-overboard; A spare kill cord is tied to the wheel.
distress-call; The distress call goes out first, then call the owner.
distress-call; After the mayday telephone the base.
chilled; A hot water bottle wrapped in a towel on the chest.
chilled; The casualty lies flat and does not walk about.
burned; Cool the burn with water, no butter on it.
bleeding; Never pull the knife out of the wound.
helicopter; Let the winch wire touch the water, then take it.
in-the-raft; Nobody swims after the dinghy.
boarding; Hold the raft by its painter and climb in one by one.
raft-launch; Throw the raft, wait until it has inflated, board, then cut the painter when all are in.
man-overboard; Whoever sees it throws the lifebuoy after him and shouts.
man-overboard; Whoever is nearest jumps to the wheel and turns the boat.
abandon-ship; Switch on the EPIRB when the vessel sinks.
abandon-ship; Switch the EPIRB on when you leave the ship.
in-the-raft; Leave the EPIRB on until the ship has you aboard.
fire; Open the hatch over your berth if smoke bars the door and climb out.
fire; The companionway doors stay open while people are below.
raft-launch; When she goes down cut the painter and paddle off.
boarding; The one in command casts off the painter when the last is in.
flooding; If the water gains on the pumps, launch the raft at once.
chilled; A sip of warm sugared water when awake.
in-the-raft; Nobody takes the jacket off, first of all not to sleep.
distress-call; Press the distress button only when lives are in danger.
distress-call; No mayday for an engine that will not start.
distress-call; After the mayday listen on channel 16.
heavy-weather; Children are held by somebody, and no door is locked.
fire; The medicine is locked away from children.
fire; Before opening the engine cover feel it with the back of the hand; if hot leave it shut.
fire-engine; Never lift the cover before an hour has passed.
gas; The blower is switched on before each start, never when you smell gas.
raft-launch; Keep the painter tied while sliding the canister over.
abandon-ship; The raft is boarded dry from the bathing ladder.
abandon-ship; Into the raft only on the order.
abandon-ship; The EPIRB goes on at once and stays on until the rescue centre says.
raft-away; Stay tied while she floats, then cut.
flooding; Whoever pumps is relieved every ten minutes.
fire-engine; Count everybody, then set off the CO2.
fire; When all are out, shut the companionway.
man-overboard; Throw the lifebuoy at once, even at full speed.
bleeding; Never loosen the tourniquet; write the time on the forehead.
anchoring; Anchor from the bow; in harbour we use the kedge from the stern.
heavy-weather; The children sleep with lee cloths up.
man-overboard; Who is in the water swims to the raft if it is near.
distress-call; Mayday on 16; the harbour also listens on 12.
distress-call; For a berth call the harbour on channel 12 first.
chilled; No rum, no rubbing.
in-the-raft; The hand pump makes fresh water from sea water.
helicopter; Let the hook touch the water before taking hold of it.
fire; Testing the smoke alarm: press its button each Monday.
raft-launch; Launching from the leeward side keeps it close.
boarding; Jackets stay on in the raft.
gas; Closing the bottle comes first, then airing from the companionway.
skipper-down; Pressing the red button for five seconds sends the alert.
man-overboard; Turning the engine off comes before anybody uses the ladder.
fire; Closing hatches and vents starves it, once all are out.
raft-launch; Pulling the painter takes some ten metres before it inflates.
flooding; Closing the seacocks in turn finds the leak.
abandon-ship; Wait for the skipper before launching.
gas; If somebody starts the blower in gas it can explode.
gas; Whoever switches on a light in gas may blow her up.
gas; If you smell gas do not start the blower.
gas; After an hour of airing, start the blower.
fire; If the pan burns, cover it; never throw water on it.
fire; Before you open the engine hatch wait an hour.
abandon-ship; Get into the raft only when the boat goes.
abandon-ship; Get into the raft when the skipper orders it.
abandon-ship; Board the raft from the lowest step.
boarding; Get into the raft dry, heaviest first.
abandon-ship; Switch on the EPIRB at once and leave it on.
distress-call; Channel 16. After the call the harbour listens on channel 12.
distress-call; Call Kilrone harbour on channel 12 for a berth.
distress-call; The base listens on VHF 77 for small troubles.
raft-launch; The HRU works by itself; nobody touches it.
raft-launch; The HRU is changed every two years; turn the canister drain down after fitting it.
raft-launch; Tie the painter first; cut it when all are in.
raft-launch; If you cut the painter before launching, the raft is gone.
raft-launch; Cutting the painter is the last thing, when all are in.
flooding; Opening a seacock with the hose off floods her.
fire; Using the fire port keeps the hatch shut.
in-the-raft; Sea water is for washing only.
raft-launch; Launching the raft takes two, lifting at both ends.
man-overboard; Jumping in after somebody makes two casualties.
abandon-ship; Children wear their jackets before going up.
gas; Start the blower before each start of the engine, for four minutes.
distress-call; If the fixed set is dead use the handheld on channel 16.
abandon-ship; Nobody gets into the raft before the order.
turned-over; Nobody swims for the shore: stay with her.
raft-launch; At sea the rafts are held by slip and release alone; in harbour a chain is padlocked round them.
flooding; Lifejackets stay on while bailing.
chilled; Take off the lifejacket and the wet clothes, then wrap them dry.
bleeding; The tourniquet goes on the leg, a hand's breadth above the wound.
distress-call; A white hand flare shows a ship that we are here.
heavy-weather; The lifejackets come off in the harbour.
heavy-weather; Clip on to the jackstay before leaving the cockpit.
heavy-weather; Nobody unclips at sea.
heavy-weather; Tethers hang beside the companionway; clip on before you come up.
heavy-weather; Unclip only when you are back in the cockpit.
helicopter; No rockets; a hand flare only when asked.
helicopter; The helicopter's crew decides.
being-found; Fire a rocket when you see a ship or hear an aircraft searching.
abandon-ship; The suits hang in the wheelhouse; put them on first.
abandon-ship; Suits are put on before the raft is launched.
man-overboard; The helmsman stays at the wheel and does nothing else.
man-overboard; Whoever steers keeps clear of the propeller.
man-overboard; Keep the engine running but in neutral.
man-overboard; With the engine out of gear bring the person alongside.
turned-over; Nobody dives under her; count by calling.
turned-over; Swim out from under her to the transom.
turned-over; Stay with the hull until help comes.
distress-call; Anybody may press the red button in distress.
distress-call; Do not press the red button for a test.
distress-call; The guests may use the radio when the skipper is down.
distress-call; Keep the handheld radio dry.
fire-engine; Close the hatch first, count everybody, then release the extinguisher.
abandon-ship; The PLB is worn by whoever is on watch.
abandon-ship; Test the EPIRB each month with its test button.
man-overboard; Leave the lazyjacks up and drop the main.
grounding; Lighten her and wait for the tide; lifejackets stay on.
boarding; The children go after the first grown-up.
flooding; Take off the cover of the pump to clear it.
""")
