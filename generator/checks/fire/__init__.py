"""Fire: what warns of it, what puts it out, what starves it, and that each is worked where a hand can reach it."""
