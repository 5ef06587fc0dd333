"""The engine of the checks: what is looked at, when, and what is said of it."""
