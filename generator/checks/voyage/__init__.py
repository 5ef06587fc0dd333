"""The voyage: who travels and until when, and what is left of the bill with somebody ashore."""
