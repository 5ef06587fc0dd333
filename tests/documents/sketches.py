"""The pictures in the folder of the trimaran, where a boat of one's own has photos: drawn here, as a hand would sketch them aboard.

What a hand takes hold of is orange, and an arrow shows which way it moves; no picture holds a word that a language would change
beyond what stands on the thing itself.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from documents.sheet import HAND, HIGH, INK, WIDE, Colour, Sheet, curve, ring, rounded
from generator.machine.fonts import FACES

FOLDER = Path(__file__).resolve().parents[2] / "vessels" / "tresmare" / "photos"
MOST_BYTES = 40_000
BOLD = str(FACES[2].path)
WATER: Colour = (203, 222, 231)
HULL: Colour = (243, 243, 238)
SHADE: Colour = (186, 193, 198)
DARK: Colour = (84, 92, 100)
METAL: Colour = (214, 219, 223)
BRASS: Colour = (222, 190, 108)
WOOD: Colour = (226, 201, 158)
GRIP: Colour = (247, 196, 164)


def raft() -> Sheet:
    """The canister in its slot under the cockpit, seen from astern: lid open to port, slip, painter at its U-bolt, knife."""
    sheet = Sheet()
    sheet.shaded([(0, 600), (WIDE, 600), (WIDE, HIGH), (0, HIGH)], WATER, (160, 190, 206), width=0)
    for left, down in ((30, 640), (250, 668), (470, 640), (690, 668), (820, 632)):
        sheet.line(
            curve((left, down), (left + 30, down - 14), (left + 60, down + 14), (left + 96, down)),
            3,
            (120, 156, 176),
        )
    stern = [(110, 90), (850, 90), (826, 420), *curve((826, 420), (800, 600), (690, 640), (480, 640))]
    stern += curve((480, 640), (270, 640), (160, 600), (134, 420))
    sheet.shaded(stern, HULL, SHADE, width=5)
    sheet.line([(110, 90), (60, 60)], 5)
    sheet.line([(850, 90), (900, 60)], 5)
    # the mouth of the slot, and the canister in it
    sheet.shaded(rounded(222, 196, 738, 496, 26), (70, 78, 86), (40, 46, 54), width=5)
    sheet.shaded(rounded(254, 222, 706, 478, 44), (255, 255, 253), (176, 184, 190), width=5)
    sheet.line([(254, 350), (446, 350)], 4, DARK)
    sheet.line([(514, 350), (706, 350)], 4, DARK)
    for rib in (310, 372, 588, 650):
        sheet.line([(rib, 228), (rib, 472)], 2, (150, 158, 164))
    sheet.letters((366, 290), "4", BOLD, 52, DARK)
    # the strap over it, closed by the slip
    sheet.shaded([(462, 200), (498, 200), (498, 322), (462, 322)], (112, 120, 128), (70, 78, 86))
    sheet.shaded([(462, 420), (498, 420), (498, 492), (462, 492)], (112, 120, 128), (70, 78, 86))
    sheet.line([*ring(480, 330, 19, 16), (499, 330)], 7, DARK)
    sheet.shape(rounded(462, 340, 498, 436, 17), GRIP, 5, HAND)
    sheet.line([*ring(480, 402, 26, 13), (506, 402)], 8, HAND)
    sheet.arrow(curve((522, 396), (566, 392), (584, 410), (582, 462)), 9)
    # lid, hinged on the port side, its handle
    sheet.shaded([(222, 212), (222, 482), (150, 520), (150, 178)], (252, 252, 248), (204, 210, 214), width=4)
    for high in (250, 440):
        sheet.shape(rounded(214, high - 16, 232, high + 16, 6), METAL)
    sheet.line(curve((172, 318), (160, 330), (160, 372), (172, 384)), 7, DARK)
    # the painter to its U-bolt
    painter = curve((262, 402), (226, 404), (228, 470), (286, 492))
    painter += curve((286, 492), (396, 530), (420, 590), (350, 588))
    painter += curve((350, 588), (310, 584), (296, 566), (292, 542))
    sheet.line(painter, 13)
    sheet.line(painter, 8, (236, 158, 60))
    bolt = curve((262, 560), (262, 506), (320, 506), (320, 560))
    sheet.line(bolt, 15)
    sheet.line(bolt, 9, METAL)
    sheet.shape(rounded(246, 552, 336, 574, 6), METAL)
    sheet.line([*ring(292, 532, 17, 13), (309, 532)], 8, (236, 158, 60))
    # the knife in its sheath
    sheet.shaded([(772, 300), (806, 300), (800, 408), (788, 424), (776, 408)], (132, 98, 70), (92, 66, 46))
    sheet.shape(rounded(776, 228, 802, 300, 11), GRIP, 4, HAND)
    sheet.line([(789, 244), (789, 284)], 4, HAND)
    return sheet


def distress_button() -> Sheet:
    """The front of the radio: screen with channel and position, the red flap to its right lifted, the button under it."""
    sheet = Sheet()
    sheet.shaded([(0, 0), (WIDE, 0), (WIDE, HIGH), (0, HIGH)], WOOD, (204, 172, 124), width=0)
    for high in (70, 176, 560, 664):
        sheet.line(curve((0, high), (300, high + 18), (640, high - 18), (WIDE, high + 6)), 2, (188, 154, 106))
    sheet.shaded(rounded(96, 150, 872, 560, 34), (82, 90, 98), (46, 52, 60), width=6)
    sheet.shaded(rounded(120, 172, 848, 538, 24), (64, 71, 79), (40, 46, 53), width=2)
    for down, label in ((262, "VOL"), (438, "SQ")):
        sheet.shape(ring(192, down, 52, 52), (24, 28, 34))
        sheet.shaded(ring(192, down, 43, 43), (120, 128, 136), (52, 58, 66))
        sheet.line([(192, down), (192, down - 38)], 6, PAPERLIKE)
        sheet.letters((192, down + 72), label, BOLD, 19, PAPERLIKE)
    sheet.shaded(rounded(276, 210, 606, 500, 12), (218, 228, 206), (190, 204, 178), width=5)
    sheet.letters((366, 300), "16", BOLD, 104)
    sheet.letters((520, 268), "25 W", BOLD, 34)
    sheet.letters((520, 324), "DSC", BOLD, 34)
    sheet.line([(292, 402), (590, 402)], 3)
    sheet.letters((441, 428), "37° 05.2 N", BOLD, 30)
    sheet.letters((441, 468), "012° 41.8 W", BOLD, 30)
    # under the flap
    sheet.shape(rounded(648, 300, 812, 470, 14), (24, 28, 34), 4)
    sheet.shaded(ring(730, 385, 58, 58), (248, 120, 70), (190, 62, 12), width=5)
    sheet.line(curve((690, 366), (704, 344), (724, 338), (742, 340)), 6, (255, 196, 166))
    # the flap, lifted on its hinge above the button
    sheet.shaded(
        [(656, 292), (804, 292), (826, 196), (634, 196)], (226, 62, 48), (172, 30, 24), slant=(0, -1), width=5
    )
    sheet.letters((730, 246), "DISTRESS", BOLD, 30, (255, 255, 255))
    for left in (676, 784):
        sheet.shape(rounded(left - 17, 284, left + 17, 302, 6), METAL)
    sheet.arrow(curve((890, 320), (934, 258), (924, 158), (858, 112)), 9)
    # a finger comes from below right
    finger = [*curve((742, 412), (752, 388), (786, 392), (800, 414)), (1010, 730), (920, 790), (742, 446)]
    sheet.shaded(finger, (252, 222, 198), (226, 180, 146), slant=(1, 1), width=5)
    sheet.line(curve((752, 418), (760, 404), (776, 404), (786, 418)), 3, (190, 140, 108))
    sheet.line(curve((800, 520), (816, 506), (834, 500), (848, 500)), 3, (190, 140, 108))
    # handset and its cord
    sheet.line(curve((230, 560), (230, 640), (300, 690), (420, 700)), 12)
    sheet.line(curve((230, 560), (230, 640), (300, 690), (420, 700)), 6, (92, 100, 108))
    return sheet


def beacon() -> Sheet:
    """The EPIRB in its bracket: the seal across the switch, the switch slid to ON, the aerial."""
    sheet = Sheet()
    sheet.shaded([(0, 0), (WIDE, 0), (WIDE, HIGH), (0, HIGH)], (246, 246, 241), (218, 221, 221), width=0)
    # bracket on the bulkhead
    sheet.shaded(rounded(300, 96, 660, 690, 26), (206, 211, 215), (160, 168, 174), width=5)
    for left in (330, 630):
        for down in (124, 662):
            sheet.shape(ring(left, down, 9, 9), METAL, 2)
            sheet.line([(left - 5, down - 5), (left + 5, down + 5)], 2)
    # aerial folded round, lamp, body
    aerial = curve((452, 190), (420, 60), (260, 40), (222, 150))
    sheet.line(aerial, 11)
    sheet.line(aerial, 5, (96, 104, 112))
    dome = [(414, 236), *curve((414, 236), (414, 140), (546, 140), (546, 236))]
    sheet.shaded(dome, (255, 255, 255), (196, 214, 226), width=5)
    sheet.line(curve((446, 220), (448, 186), (462, 174), (478, 170)), 4, (170, 192, 206))
    body = [(372, 236), (588, 236), *curve((588, 236), (622, 330), (598, 560), (566, 640))]
    body += [(394, 640), *curve((394, 640), (362, 560), (338, 330), (372, 236))]
    sheet.shaded(body, (255, 214, 66), (230, 164, 22), slant=(1, 0.35), width=5)
    sheet.shaded(
        [(362, 300), (600, 300), (606, 336), (356, 336)],
        (250, 250, 246),
        (212, 214, 212),
        slant=(1, 0),
        width=3,
    )
    sheet.letters((480, 319), "406 MHz", BOLD, 26)
    # the switch in its groove, and where it goes
    sheet.shaded(rounded(428, 370, 534, 556, 18), (66, 72, 80), (40, 46, 54), width=4)
    sheet.letters((481, 392), "ON", BOLD, 26, (255, 255, 255))
    sheet.letters((481, 538), "OFF", BOLD, 26, (255, 255, 255))
    sheet.shape(rounded(442, 470, 520, 518, 10), GRIP, 5, HAND)
    for across in (464, 481, 498):
        sheet.line([(across, 480), (across, 508)], 4, HAND)
    sheet.arrow([(481, 460), (481, 447), (481, 434), (481, 412)], 9)
    # the seal across it, with its pull
    sheet.line([(392, 494), (440, 494)], 9, (196, 32, 28))
    sheet.line([(522, 494), (570, 494)], 9, (196, 32, 28))
    pull = [*curve((570, 494), (620, 500), (640, 520), (664, 556))]
    sheet.line(pull, 6, (196, 32, 28))
    sheet.shape(rounded(650, 552, 716, 618, 12), (226, 62, 48), 4)
    sheet.shape(ring(683, 585, 17, 17), (246, 246, 241), 4)
    sheet.arrow(curve((724, 600), (776, 612), (812, 640), (836, 676)), 9)
    # the strap of the bracket and its lanyard
    sheet.shaded([(306, 586), (654, 586), (654, 622), (306, 622)], (112, 120, 128), (74, 82, 90), width=4)
    sheet.shaded(rounded(446, 574, 516, 634, 8), METAL, (150, 158, 166), width=4)
    lanyard = curve((400, 640), (380, 700), (300, 716), (236, 660))
    sheet.line(lanyard, 9)
    sheet.line(lanyard, 5, (236, 158, 60))
    return sheet


def seacock() -> Sheet:
    """The seacock of the cooling inlet: lever across the hose is shut, along it is open; the plug tied beside it."""
    sheet = Sheet()
    sheet.shaded([(0, 0), (WIDE, 0), (WIDE, HIGH), (0, HIGH)], (240, 240, 235), (206, 210, 210), width=0)
    skin = [(0, 590), *curve((0, 590), (300, 640), (660, 640), (WIDE, 590)), (WIDE, 680)]
    skin += curve((WIDE, 680), (660, 726), (300, 726), (0, 680))
    sheet.shaded(skin, (232, 226, 206), (196, 188, 160), width=5)
    sheet.shaded([(0, 684), (WIDE, 684), (WIDE, HIGH), (0, HIGH)], WATER, (160, 190, 206), width=0)
    sheet.line(curve((0, 680), (300, 726), (660, 726), (WIDE, 680)), 5)
    # flange and body
    sheet.shaded(
        [(356, 586), (604, 586), (624, 628), (336, 628)], BRASS, (168, 130, 58), slant=(1, 0), width=5
    )
    for left in (382, 578):
        sheet.shape(rounded(left - 14, 570, left + 14, 590, 4), BRASS)
    sheet.shaded(
        [(432, 500), (528, 500), (540, 588), (420, 588)],
        (240, 212, 136),
        (160, 122, 52),
        slant=(1, 0),
        width=5,
    )
    sheet.shaded(rounded(392, 386, 568, 508, 34), (244, 218, 146), (160, 122, 52), slant=(1, 0.4), width=5)
    sheet.shaded(
        [(436, 334), (524, 334), (524, 388), (436, 388)],
        (240, 212, 136),
        (160, 122, 52),
        slant=(1, 0),
        width=5,
    )
    # hose with two clips
    hose = [(424, 330), *curve((424, 330), (424, 190), (470, 120), (640, 60)), (692, 168)]
    hose += curve((692, 168), (580, 206), (536, 240), (536, 330))
    sheet.shaded(hose, (112, 120, 128), (44, 50, 58), slant=(1, 0.3), width=5)
    sheet.line(curve((452, 318), (454, 220), (500, 160), (650, 98)), 4, (156, 164, 172))
    for down in (270, 312):
        sheet.shaded(
            [(416, down - 13), (546, down - 13), (544, down + 13), (418, down + 13)],
            METAL,
            (138, 146, 154),
            slant=(1, 0),
        )
        sheet.shape(rounded(540, down - 15, 574, down + 15, 5), METAL)
        sheet.line([(547, down), (566, down)], 3)
    # the lever: shut as it is, and where it stood open
    ghost = [(455.0, 420.0 - step) for step in range(190)]
    ghost += curve((455, 230), (455, 196), (505, 196), (505, 230))
    ghost += [(505.0, 230.0 + step) for step in range(190)]
    sheet.dashes(ghost, 5, HAND)
    sheet.shape([(480, 424), (700, 430), (722, 448), (700, 466), (480, 472)], GRIP, 5, HAND)
    sheet.shape(rounded(596, 422, 726, 474, 22), (232, 104, 44), 5)
    sheet.shaded(ring(480, 448, 30, 30), METAL, (138, 146, 154), width=5)
    sheet.shape(rounded(466, 434, 494, 462, 4), (186, 194, 200), 3)
    sheet.arrow(curve((540, 256), (640, 262), (706, 318), (716, 404)), 9)
    # the plug on its string
    string = curve((428, 528), (340, 540), (310, 430), (250, 400))
    sheet.line(string, 6, (150, 118, 70))
    plug = [(176, 372), (276, 372), (252, 516), (200, 516)]
    sheet.shaded(plug, WOOD, (184, 146, 92), slant=(1, 0), width=5)
    sheet.shape(ring(226, 372, 50, 15), (240, 222, 188), 5)
    for across in (206, 226, 244):
        sheet.line(
            curve((across, 392), (across - 3, 430), (across + 3, 470), (across, 506)), 2, (170, 132, 82)
        )
    return sheet


PAPERLIKE: Colour = (232, 236, 238)
SKETCHES: dict[str, Callable[[], Sheet]] = {
    "raft.png": raft,
    "distress-button.png": distress_button,
    "epirb.png": beacon,
    "seacock.png": seacock,
}
"""Each picture by the name of its file."""
__all__ = ["FOLDER", "INK", "MOST_BYTES", "SKETCHES"]
