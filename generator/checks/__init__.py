"""The shelf of checks: one file a family."""
