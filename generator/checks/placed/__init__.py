"""Placed for its job: what saves lies where it can be reached, seen, heard and worked; by what the spaces of her type mean."""
