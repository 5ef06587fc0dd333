"""Commissioning: the first file of a new vessel, from questions in the order of what saves lives."""
