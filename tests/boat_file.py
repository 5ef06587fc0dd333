"""A sound boat's file for tests to change, and how they load it."""

import re
from pathlib import Path

from generator.vessel.loading import load

ROOT = Path(__file__).resolve().parent.parent
SOUND = (ROOT / "vessels/saltmeadow/vessel.yaml").read_text(encoding="utf-8")


class Boat:
    """Writes a boat's files under a folder and loads them: boat(vessel, private=..., voyage=...) -> (vessel, findings)."""

    def __init__(self, folder):
        self.folder = folder / "boats" / "saltmeadow"
        self.folder.mkdir(parents=True)

    def __call__(self, vessel=SOUND, **others):
        for name, text in {"vessel": vessel, **others}.items():
            (self.folder / f"{name}.yaml").write_text(text, encoding="utf-8")
        return load(self.folder, "saltmeadow")


def changed(old, new, text=SOUND):
    """The text with `old`, which must stand in it once, replaced."""
    assert text.count(old) == 1, f"{text.count(old)} times: {old}"
    return text.replace(old, new)


def block(key, text=SOUND):
    """A block at the top, with its lines."""
    return "".join(re.findall(rf"(?m)^{key}:.*\n(?:[ #].*\n|\n)*", text))


def without(key, text=SOUND):
    """The text without a block at the top."""
    return text.replace(block(key, text), "")


def one(findings):
    """The only finding there is."""
    assert len(findings) == 1, findings
    return findings[0]
