"""Calculations: plain numbers in, plain numbers out; nothing of ours is imported here."""
