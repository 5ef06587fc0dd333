"""Rafts: enough of them, rightly kept, within reach, in date. What frees them is the family `release`."""
