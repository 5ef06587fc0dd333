"""What words tell somebody to do: deeds that cost lives in many wordings, and what honest skippers write of the same things."""


def rows(text: str) -> tuple[tuple[str, str], ...]:
    """Each line as (the procedure beside which it stands, its words)."""
    return tuple(
        (beside, words) for beside, _, words in (line.partition("; ") for line in text.strip().splitlines())
    )


DANGEROUS = rows("""
man-overboard; The lifebuoy is lashed to the pushpit with a reef knot.
heavy-weather; In a blow we lash ourselves to the mast.
man-overboard; The kill cord is left off so that two can steer.
raft-launch; The painters are tied to the guardrail.
raft-launch; Break the weak link before you launch.
fire-engine; Pull the handle of the fixed extinguisher before anybody shuts the flaps.
heavy-weather; The escape hatches are opened at sea to cool the hulls.
fire; In the forward cabins people wait until somebody comes.
abandon-ship; The child stays in the cabin until all is ready.
abandon-ship; The raft inflates by itself when it touches the water.
abandon-ship; The raft opens out on the foredeck.
abandon-ship; As soon as the raft floats, cut it free and let it drift alongside.
fire; The smoke alarms are taken down while we cook.
fire-engine; Keep the fan of the other engine running.
flooding; Go into the raft when the water is over the ankles.
heavy-weather; All hatches stay ajar for air.
heavy-weather; Nobody needs a tether on the trampoline.
fire-galley; On cold evenings the charcoal grill stands in the saloon.
flooding; Close the door and leave whoever is behind it.
raft-launch; Untie the painter from the U-bolt, then throw the canister over.
raft-launch; Pull the painter and let it inflate on the aft deck, then push the raft over the rail.
fire; **Open the engine hatch first** and look where it burns.
abandon-ship; Inflate your lifejacket in the cabin before you come on deck.
fire; A pan that burns: throw a bucket of water on it.
gas; Look for the leak with a lighter along the hose.
gas; Switch the gas alarm off at night, it drains the batteries.
fire; The forward hatch is screwed shut on passage.
fire; If the oil in the pan catches fire, pour water into the pan at once.
fire; Do not wait: throw water on the burning fat.
fire; Petrol fire: use plenty of sea water.
fire; Lift the engine cover to see how big the fire is.
fire; Start the engine room fan to clear the smoke.
fire; Open all hatches to let the smoke out.
fire; Carry the burning pan on deck and throw it overboard.
gas; Hold a match to the joints to find the leak.
gas; Turn on the blower as soon as you smell gas.
gas; Switch the cabin light on to read the card.
gas; The gas tap stays open at night.
gas; Take the battery out of the gas detector when it beeps without reason.
fire; The smoke alarm in the galley is switched off while cooking.
flooding; Disconnect the bilge alarm at sea; it sounds with every roll.
fire; Pull the fuse of the smoke alarm.
abandon-ship; Blow up the jackets inside, it is warmer.
raft-launch; Cast off the painter and throw the raft overboard.
raft-launch; Before you throw the canister, untie the painter.
raft-launch; Inflate the liferaft on deck and then launch it.
raft-launch; Launch the raft on the windward side.
boarding; Jump from the deck onto the canopy.
flooding; Open the seacocks so that the water drains.
man-overboard; Go astern to the swimmer.
man-overboard; The mate jumps in after the casualty.
man-overboard; Keep the engine in gear while the person climbs the ladder.
man-overboard; Give the rescued person a glass of rum.
man-overboard; Rub the arms and legs until they are warm.
in-the-raft; Stretch the water with sea water.
in-the-raft; Switch the EPIRB off at night to save its battery.
being-found; Fire the parachute rocket at the helicopter.
being-found; Light the hand flares inside the raft.
being-found; Make the winch wire fast to the mast.
fire; Heat the cabin with the cooker on cold nights.
fire; Run the petrol generator in the cockpit locker below deck.
gas; Tape over the vents on cold nights.
in-the-raft; Take off your lifejacket in the raft.
fire; Go back below for the grab bag.
fire; Throw a bucket of water on the switchboard.
fire; Refuel with the engine running, it saves time.
fire; The companionway is nailed shut against the seas.
man-overboard; Whoever sees it jumps in at once after the one in the water.
man-overboard; The best swimmer goes in after the casualty straight away.
man-overboard; Whoever swims best jumps in and brings the person back.
raft-launch; Cut the painter as soon as the raft is in the water, then board.
raft-launch; Once the raft has inflated cut the painter and climb in.
boarding; Let go the painter and step into the raft.
abandon-ship; Take off the lifejacket before you swim to the raft.
abandon-ship; Remove your jackets first: nobody swims well in one.
abandon-ship; In the raft mix sea water with the fresh to make it last.
in-the-raft; Add a cup of salt water to the drinking water each day.
in-the-raft; One part sea water to three of fresh will do nobody harm.
fire; Leave all hatches open so that the smoke draws out.
fire; Both hatches stay open while you fight the fire.
raft-launch; Grease the HRU and paint it when the deck is painted.
raft-launch; The hydrostatic release is varnished each spring with the cradle.
raft-launch; Wrap tape over the release unit: cover the HRU with foil in winter.
fire; After the extinguisher has gone off go into the engine space at once and look.
fire; When the smoke thins lift the engine cover and see what is left.
flooding; Before looking for the leak launch the raft and let it stand by.
flooding; First launch the raft, then look for the leak.
man-overboard; By day in fine weather no lifejacket is needed on deck.
man-overboard; On watch in calm weather nobody wears a lifejacket.
man-overboard; Lifejackets stay below in fine weather.
man-overboard; Whoever comes out of cold water gets brandy and is rubbed warm.
chilled; A tot of rum brings the colour back.
chilled; The casualty is rubbed with a rough towel.
gas; Try the cooker: if it does not light, all gas is gone.
gas; Strike a match at the hatch to see whether any gas is left.
abandon-ship; Switch the EPIRB on only when an aircraft is in sight.
abandon-ship; Save the EPIRB until you hear a helicopter.
man-overboard; The kill cord stays clipped to the console.
man-overboard; Tie the kill cord to the wheel, it only gets in the way.
distress-call; First call the owner; he decides whether to send a mayday.
distress-call; Ring the charter base before you press the distress button.
chilled; Put the casualty under a hot shower.
chilled; Let him walk up and down until he is warm.
burned; Put butter on the burn.
bleeding; Pull the knife out of the wound.
helicopter; Grab the winch wire at once and pull it in.
in-the-raft; Swim after the dinghy when it drifts off.
not-breathing; Give the unconscious person a little water to drink.
in-the-raft; The EPIRB is switched on once a ship is in sight.
in-the-raft; As soon as you see a plane activate the PLB.
flooding; Call the coastguard only when the pumps no longer hold.
fire; No mayday until the extinguishers are empty.
distress-call; Save the mayday for the raft.
heavy-weather; Tie the children to the mast.
fire; Lock the children in the cabin so that they are not in the way.
distress-call; Never call the coastguard yourself, call the base.
fire; Call the base, not the coastguard.
flooding; Call the base and nobody else.
collision; Leave the coastguard to the charter base.
distress-call; Ring us before you call anybody else.
fire; When the frying pan catches fire pour water over it.
fire-engine; Have a look by lifting the engine cover before you fight the fire.
gas; On a smell of gas switch on the bilge blower for five minutes.
raft-launch; Cast the painter off before sliding the canister over.
abandon-ship; We board the raft as soon as there is water over the sole.
abandon-ship; If in doubt, get everyone into the raft.
abandon-ship; Once the alarm is given get into the raft without waiting.
abandon-ship; The beacon is activated after one hour so that the battery lasts.
abandon-ship; Save the EPIRB for the night.
raft-away; The painter stays made fast until the boat pulls it under.
flooding; Switch the bilge pump off every ten minutes to save the battery.
fire-engine; Set off the CO2 at once, even if somebody is still inside.
fire; Shut the companionway before everybody is out, it starves the fire.
man-overboard; The lifebuoy is thrown only when she has come round.
bleeding; Loosen the tourniquet every twenty minutes.
power-lost; Anchor from the stern, it is quicker to reach.
heavy-weather; The children are lashed into their bunks.
abandon-ship; All jump overboard and swim over to the raft.
distress-call; Ask the owner before sending a Mayday.
distress-call; Nobody calls the coastguard until the owner has been asked.
fire; Fetch your jackets and passports from the cabin, even through smoke.
man-overboard; Reverse up to the casualty.
back-aboard; Leave the engine in gear while they climb the ladder so she keeps way.
chilled; A tot of rum brings them round.
in-the-raft; Mix sea water into the drinking water to make it last.
gas; Strike a match to see whether it is gone.
fire; Take the burning pan up to the cockpit.
helicopter; Clip the winch hook onto the backstay.
raft-launch; Inflate the raft on the coachroof so it is ready.
boarding; Remove the lifejacket before climbing into the raft, it catches.
fire; Remove the battery of the smoke alarm if it sounds while frying.
heavy-weather; Tie the washboards shut from outside so nobody comes up.
gas; If you smell gas start the blower and the bilge pump at once.
gas; If you smell gas, start the blower at once.
gas; When the gas alarm sounds switch on the extractor fan.
raft-launch; Untie the painter from the boat before throwing it, so that it runs free.
raft-launch; Cut the painter before launching the raft.
fire; If the pan burns, throw water on it.
fire; If fat burns throw a bucket of water over it
abandon-ship; Get into the raft early: it is safer than the boat.
abandon-ship; Board the raft as soon as water comes in.
abandon-ship; When in doubt, get into the raft.
abandon-ship; The EPIRB is switched on only after two days, to save its battery.
abandon-ship; Wait a day before switching on the EPIRB.
abandon-ship; Keep the EPIRB off for the first hours.
flooding; Opening the seacock lets the water out: do it at once.
fire-engine; Before using the extinguisher lift the engine hatch to see the flames.
fire; Opening all hatches lets the smoke out.
in-the-raft; Drinking sea water in small sips is all right.
abandon-ship; Lifejackets are inflated below so nobody forgets.
raft-launch; Throw the raft over the windward side.
raft-away; Stay tied to the boat until she pulls the raft under.
fire; Close the companionway on whoever is still below.
gas; Light the cooker to burn off the gas.
helicopter; Tie the hi-line to the guardrail.
distress-call; Do not call the coastguard before the owner agrees.
abandon-ship; Jump into the water and swim to the raft as the normal way.
raft-launch; Pull the painter out fully while the raft is still in its cradle.
heavy-weather; Children are strapped into their bunks.
flooding; Stop the pump every ten minutes to save the battery.
fire; Use the CO2 extinguisher in the cabin with everyone inside.
fire-engine; Release the fixed extinguisher and then open the engine hatch to look.
man-overboard; Throw the lifebuoy only when the boat has turned.
turned-over; Swim for the shore at once, each for himself.
raft-launch; Chain both rafts down and padlock the chain on passage.
flooding; Take your lifejackets off: they are in the way of bailing.
bleeding; Put the tourniquet round the neck when the head bleeds.
distress-call; Burn a white hand flare to show that we are in distress.
heavy-weather; Tethers are clipped to the guardwires.
heavy-weather; Whoever goes forward unclips for speed.
skipper-down; Nobody but the skipper may use the radio.
distress-call; Do not press the red button, it costs a fine.
helicopter; Fire a rocket so that they see us.
abandon-ship; The immersion suits stay in the locker, they hinder.
man-overboard; The helmsman stays below until the sails are down.
turned-over; Dive under her for the flares.
boarding; Women and children swim to the raft first.
boarding; The child boards first and alone.
fire-engine; Release the extinguisher first, then look whether somebody is inside.
man-overboard; Both engines stay ahead to keep her steady.
turned-over; Whoever can swims to the island, it is only two miles.
man-overboard; The PLB stays in the drawer to spare its battery.
man-overboard; Do not wear the kill cord.
man-overboard; The helmsman leaves the kill cord hanging on the throttle.
abandon-ship; On seven short blasts and one long, launch the raft and jump in at once.
abandon-ship; At the general alarm get into the raft.
fire; Engine space on fire, then open the hatch and look where it burns.
man-overboard; The kill cord is in the way when fishing; nobody wears it.
man-overboard; We have a kill cord, but we do not use it.
man-overboard; The kill cord stays on the seat while we tow.
man-overboard; The boat has a kill cord; the helm goes without it in summer.
man-overboard; The kill cord is only worn by children.
man-overboard; Tethers are hooked on the upper guardrail.
man-overboard; The two short tethers are fixed to the guardwire when going forward.
man-overboard; Harness lines get clipped round the stanchions.
man-overboard; At night the tethers are made fast to the lifelines.
heavy-weather; The children are tied to their bunks in a gale.
heavy-weather; Guests get strapped into the forward bunk.
abandon-ship; Guests are clipped to the pushpit until the raft is alongside, and stay clipped.
abandon-ship; Small ones are tied to the mast with the jib sheet.
flooding; The forward hatch is open at sea for air.
flooding; The hatch over the forward cabin stays ajar under way.
flooding; At sea we sail with the forward hatch open.
flooding; The ports on the lee side are open on passage.
flooding; Washboards stay in the locker offshore.
fire; The electric bicycles are charged in the forward cabin at night.
fire; The scooter charges in the saloon while we sleep.
fire; Power banks lie on charge in the bunks.
gas; Start both engines to draw the gas out.
man-overboard; Go astern on both engines until the ladder is beside the person, keep them turning.
flooding; The bilge pump breaker is off at sea.
flooding; The electric bilge pumps are switched off under way to save current.
fire; At night the battery keys are off to save power.
fire; The batteries are switched off while we sleep.
fire-engine; Pull the red handle first and shut the flaps afterwards.
fire-engine; Release the extinguisher, then shut the vents.
be-seen; A white flare calls for help, a red one warns a ship.
raft-launch; Both liferafts are wrapped in the tarpaulin and lashed down.
heavy-weather; Grandmother and children sit in the cuddy, door bolted from outside.
man-overboard; Come up to the person stern first, with the engine in reverse, so that the ladder is near.
man-overboard; Back down on the person with the engine astern.
man-overboard-return; The swimmer is picked up with the engine in reverse.
raft-launch; Pull the painter right out and let the raft fill in the cockpit, then lift it over the side.
raft-launch; Let the raft fill on the aft deck, it is lighter to slide then.
fire; **Smoke from the engine space:** lift the steps off first and look how big the fire is.
fire-engine; Engine fire: open the hatch a hand and look, then release the extinguisher.
raft-launch; **Lash both slips shut with cord in heavy weather**, so that no sea opens them.
heavy-weather; The pin is taped in so that nobody pulls it.
abandon-ship; Dive out through the saloon door and swim away from her at once.
abandon-ship; If she turns over, leave her at once and swim clear.
flooding; Stop the pump to listen where the water comes from, and leave it off.
man-overboard; In the watch of one you wake the other when you are back in the cockpit.
heavy-weather; Go forward by yourself, and wake the skipper afterwards.
man-overboard; Keep the engine in gear so that the ladder side comes to him.
man-overboard; Take your lifejacket off first so that you can reach further.
fire; Open the forward hatch so that the smoke can get out.
fire-galley; Carry the burning pan to the cockpit and tip it over the side.
fire-galley; Water from the tap puts a pan out quickest.
fire-engine; Lift the hatch a little and squirt the extinguisher through the gap.
gas; Start the blower as soon as you smell gas.
gas; Go below and find where it smells most.
flooding; Open the seacocks so that the water can run out.
flooding; Stay below and bail until it is dry, whatever the level.
flooding; First find the hole, call later.
abandon-ship; Jump, then swim to the raft.
abandon-ship; Get into the raft as soon as the pumps cannot keep up.
abandon-ship; Everybody inflates the jacket before coming up the steps.
abandon-ship; Leave the jackets below, the raft has room enough.
raft-launch; Undo the painter and carry the raft to the other side.
raft-launch; Tie the painter to the lifeline.
raft-launch; Throw the raft on the windward side, where the boat does not drift on it.
raft-launch; Wait for the hydrostatic release, it does it by itself.
boarding; Children first, alone, the grown-ups afterwards.
in-the-raft; Drink seawater mixed half and half with fresh.
in-the-raft; Fire the rockets straight away, somebody will see them.
in-the-raft; Tie the beacon down in the bag and leave it off until a ship is in sight.
helicopter; Fire a parachute rocket so that the helicopter sees you.
helicopter; Make the hook fast to the mast.
helicopter; Catch the line before it gets wet.
under-tow; Make the tow fast round the stanchion.
anchoring; Let the anchor go over the stern.
heavy-weather; Everybody stays unclipped so that they can swim free.
heavy-weather; Lock the companionway from outside so that nobody comes up.
chilled; A good rub and a brandy bring them round.
chilled; Put them in a hot shower.
not-breathing; Give them something to drink first.
bleeding; Loosen the tourniquet every ten minutes.
head-injury; Let them sleep it off.
co-alarm; Take the battery out of the alarm when it will not stop.
skipper-down; Do not call until you are sure.
distress-call; Call the marina first, they know us.
fire-petrol; Start the engine to get away from the petrol smell.
petrol-vapour; Start the engine at once to clear the vapour.
knock-down; Unclip and swim clear of the boat.
steering-lost; Climb over the stern to look at the rudder while she moves.
propeller-fouled; Dive under the boat with the knife, the engine in neutral.
lightning; Hold on to the shroud.
dragging; Hold the chain with your hands until it bites.
collision; Push off the ship with your feet.
grounding; Motor off at full throttle at once.
mast-down; Cut the rig away with the engine running.
strangers; Fire a flare at them.
bar; Turn round in front of the breakers.
man-overboard; Reverse slowly with the stern towards whoever swims there.
man-overboard; Whoever is the best swimmer jumps in after them.
fire; Leave all the hatches open, or the smoke chokes us.
fire-galley; If the fat burns, carry the pan outside at once.
fire-engine; Open the engine hatch and spray straight at the flames.
fire-engine; Go down with the extinguisher and see what burns.
gas; Look with a torch for the place where the hose leaks, down at the cooker.
petrol-vapour; Try the starter, a short run blows the vapour out.
flooding; Everybody bails below until the pump has caught up.
flooding; Call when you know how bad it is.
abandon-ship; Take no time for jackets, get out.
abandon-ship; Leave the boat as soon as the raft lies alongside.
raft-launch; Make the painter fast to the pushpit first.
raft-launch; Inflate it on the coachroof and heave it over together.
in-the-raft; Let off two rockets at once so that they know where we are.
in-the-raft; A cup of seawater a day does no harm.
helicopter; Tie the end of the helicopter's line to the cleat.
under-tow; Put the tow over the bow rail.
heavy-weather; Unclip when you change over, it is quicker.
heavy-weather; Fasten the washboards from outside once all are below.
chilled; Hot tea with rum brings them back.
chilled; Stand them under the hot shower.
not-breathing; Sit them up and give a sip of water.
head-injury; A painkiller and bed rest is enough.
co-alarm; If it goes off in the night, switch it off and sleep on.
skipper-down; Bring her home first, then tell the coastguard.
distress-call; Ring the base before you trouble the coastguard.
steering-lost; Hang over the transom and push the rudder with the boathook.
propeller-fouled; Somebody goes under with a knife, engine ticking over.
lightning; Hold the wheel with both hands and steer on.
dragging; Grip the chain and snub it by hand.
collision; Two of us fend her off with our legs.
grounding; Give full power astern straight away.
strangers; Point the flare pistol at whoever climbs aboard.
bar; If a breaker comes up, turn beam on and let it pass.
man-overboard; The mate dives in with the lifebuoy.
fire; Open up everywhere, the smoke must leave.
fire-engine; Have a quick look under the hatch first.
gas; Put the blower on high.
gas; Somebody checks the hose below before all are on deck.
flooding; All hands below to the buckets and stay there.
flooding; No call before the pump has failed.
abandon-ship; Jackets only cost time.
abandon-ship; We go into the raft early, then we are safe.
raft-launch; Pull the cord while it still lies in the cradle.
raft-launch; Release the painter so that it slides better.
boarding; Leap over, it is only two metres.
in-the-raft; Use the flares on the first night, all of them.
helicopter; Take the winch wire and clip it onto the jackline.
under-tow; Belay the tow at the pushpit.
heavy-weather; Go to the mast without your tether, it gets caught.
heavy-weather; Turn the key in the companionway when everybody sleeps.
chilled; Walk them up and down until they are warm.
not-breathing; Wait ten minutes, they may come round.
bleeding; Take the bandage off now and then to look.
head-injury; Let them rest quietly in the forepeak by themselves.
co-alarm; Silence it and open a window.
skipper-down; Sail to the nearest harbour, the coastguard can wait.
steering-lost; Climb down to the rudder from the platform.
propeller-fouled; Give a burst astern to throw the rope off.
lightning; Stand at the wheel and keep her head to wind.
dragging; Stop the chain with your foot.
collision; Keep her off with the boathook against your chest.
grounding; Rev her hard backwards.
mast-down; Start up and motor home with the rig alongside.
strangers; Hit the first one with the winch handle.
bar; Slow down and let the wave come from the side.
""")
