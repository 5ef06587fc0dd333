"""The station bill: every duty and every raft has its people, nobody is in two places, and the signals can be given."""
