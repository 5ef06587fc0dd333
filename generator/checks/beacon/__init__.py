"""Distress beacons: what their ids say, tied to the vessel. Ids are crew-only, so no message repeats one."""
