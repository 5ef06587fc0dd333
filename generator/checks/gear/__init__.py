"""Gear: dates, what is missing, what is named twice, and what the steps ask for."""
