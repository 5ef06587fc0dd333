"""What a hand is told to do: words of every sort that bring about what they are for, and others that do not."""

import pytest

from generator.checks.words.deeds import wrongly_worked

BRINGS_IT_ABOUT = {
    ("stop", "engine"): [
        "press the START/STOP button",
        "turn the key from START to OFF",
        "pull the stop knob right out",
        "turn the key to OFF, do not go back to ON",
        "pull the throttle back and hold the STOP button",
        "press the button marked STOP",
        "open the red door and press STOP",
        "turn the key to STOP, never to START",
        "press both stop buttons",
        "push the lever to STOP until it is silent",
        "turn the key left",
        "pull the T handle until she stops and leave it out",
        "lift the cover and press OFF",
        "open the flap marked ENGINE STOP and pull the T",
        "hold START/STOP for three seconds",
        "turn the switch from RUN to STOP",
    ],
    ("stop", "fuel"): [
        "turn the lever from along the pipe to across it",
        "turn the red lever across the pipe",
        "open the box and pull the red handle",
        "turn the tap from along the pipe to across the pipe",
        "turn the wheel to the right until it is shut",
        "pull the hose off the can",
        "turn the tap to SHUT",
        "turn the lever until it stands across the fuel line",
    ],
    ("stop", "gas"): [
        "press the button marked GAS",
        "turn the tap to OFF",
        "turn the valve on the bottle to the right until it stops",
        "switch the breaker marked GAS off",
        "turn the tap across the pipe, arrow at OFF",
        "shut the tap on the bottle",
    ],
    ("stop", "batteries"): [
        "turn the key marked START to OFF",
        "turn both keys to OFF",
        "turn all keys from ON to OFF",
        "turn the switch to 0",
        "turn HOUSE and START to OFF",
        "pull the red key out",
        "switch the breaker marked LIGHTS to OFF",
    ],
    ("stop", "ventilation"): [
        "push both flaps shut",
        "open the locker and push the flap shut",
        "switch the blower off",
        "turn the switch marked BLOWER to OFF",
        "pull both flaps shut",
    ],
    ("stop", "kill cord"): [
        "pull the cord off",
        "pull the clip out of the switch",
        "pull the red cord off its button",
        "press the red button",
    ],
    ("set", ""): [
        "slide the switch to ON",
        "slide the switch from OFF to ON",
        "pull the cover off and hold ON",
        "lift the flap and press ON until the lamp goes off",
        "push the switch to the left, past TEST, to ON",
        "turn the ring to ON, not to TEST",
        "pull it off the bracket and turn the aerial up",
        "push SOS",
        "hold ON and TEST together",
        "break off the tab and press the red button",
        "hold the ON/OFF key for three seconds",
    ],
    ("set", "VHF"): [
        "hold the ON/OFF key",
        "turn the VOL/OFF knob to the right",
        "turn the OFF/VOL knob to the right",
        "turn the top knob away from OFF",
        "turn the knob from OFF to the right",
        "switch on the breaker marked VHF",
        "press PWR",
        "switch on the breaker marked NAV",
        "switch the breaker marked RADIO on and press PWR",
        "turn OFF/SQL right",
        "always on",
        "turn the knob off its stop",
    ],
    ("hatch", ""): [
        "turn both handles and push the hatch up",
        "slide the hatch shut handle aft",
        "unlock and push",
        "turn the handles to OPEN",
        "lift the bolt and push the door out",
        "slide the door aft and shut it behind you",
        "turn the handle from SHUT to OPEN",
        "unbolt it",
        "push the door",
        "open the catch and push",
    ],
    ("hole", ""): [
        "lever across the hose",
        "wheel valve with red rim",
        "turn the lever to CLOSED",
        "flap on the outside",
        "lever, shut when across the hose, open when along the hose",
        "open when the lever lies along the hose, shut when across the hose",
    ],
    ("pump", ""): [
        "the switch marked BILGE",
        "the switch marked BILGE PUMP",
        "marked PUMP",
        "the switch marked BILGE AND SHOWER",
        "on the panel marked 12V",
        "the switch marked PUMP 2",
        "switch marked EMERGENCY PUMP",
        "the lowest switch on the panel, below LIGHTS",
    ],
    ("gate", ""): [
        "let go the pelican hook",
        "let the hook of both wires go",
        "lift the pin and swing it inboard",
        "open the gate and lash it open",
        "unhook both wires",
        "pull the pin and let the wire drop",
        "lift the pin and pull the gate in",
        "cut the lashing",
        "turn the handle and push the gate out",
        "make both wires slack and unhook them",
    ],
    ("set", "MF/HF"): [
        "switch on the breaker marked HF",
    ],
}
DOES_NOT = {
    ("stop", "engine"): [
        "turn the key to START",
        "press START",
        "turn the key to on",
        "pull the choke",
        "pull the starter cord",
        "push the throttle forward",
        "turn the key from OFF to ON",
        "press the button marked LIGHTS",
        "press the button marked START until the engine is silent",
        "open the throttle",
        "turn the key to the start position",
    ],
    ("stop", "fuel"): [
        "turn the red lever along the pipe",
        "open the tap",
        "turn the lever to OPEN",
        "squeeze the bulb",
        "turn the tap in line with the hose",
        "turn the lever parallel to the pipe",
        "push the hose onto the can",
        "turn the tap from across the pipe to along the pipe",
    ],
    ("stop", "gas"): [
        "turn the brass tap along the pipe",
        "turn on the tap",
        "turn the tap to ON",
        "open the valve",
        "press the switch marked LIGHTS",
    ],
    ("stop", "batteries"): [
        "turn both keys to ON",
        "turn the switch to BOTH",
        "switch both keys on",
    ],
    ("stop", "ventilation"): [
        "open both flaps",
        "pull both flaps open",
        "start the fan",
        "turn the flap to OPEN",
    ],
    ("stop", "kill cord"): [
        "clip the red cord onto its switch",
        "push the clip in to the switch",
    ],
    ("set", ""): [
        "slide the switch to OFF",
        "press TEST",
        "turn the ring to OFF",
        "hold the button marked TEST",
        "turn it to off",
        "turn the switch from ON to OFF",
        "fold the aerial down",
        "switch it off",
        "switch off the breaker",
        "turn the knob to OFF",
        "switch on the breaker marked LIGHTS",
        "switch the set off",
        "press OFF",
    ],
    ("hatch", ""): [
        "shut the hatch and turn both handles",
        "turn both handles to SHUT",
        "lock the door",
        "slide the hatch shut",
        "turn the handle to LOCKED",
    ],
    ("hole", ""): [
        "turn the lever along the hose",
        "lever to OPEN",
        "open the seacock",
    ],
    ("pump", ""): [
        "the switch marked LIGHTS",
        "the switch marked NAV LIGHTS",
        "marked VHF",
    ],
    ("gate", ""): [
        "hook both wires on",
        "shut the gate",
        "close the gate and drop the pin",
        "make the wires fast",
        "turn the lever to SHUT",
    ],
    ("set", "MF/HF"): [
        "switch on the breaker marked VHF",
    ],
    ("set", "VHF"): [
        "switch on the breaker marked SSB",
    ],
}


def _each(table):
    return [(kind, of_what, words) for (kind, of_what), each in table.items() for words in each]


@pytest.mark.parametrize(("kind", "of_what", "words"), _each(BRINGS_IT_ABOUT))
def test_what_brings_it_about_is_left_alone(kind, of_what, words):
    assert wrongly_worked(kind, of_what, words) == ""


@pytest.mark.parametrize(("kind", "of_what", "words"), _each(DOES_NOT))
def test_what_does_not_is_noticed(kind, of_what, words):
    assert wrongly_worked(kind, of_what, words)
