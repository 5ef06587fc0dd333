"""Dates: in their order and of the right years, and how long things last by them."""
