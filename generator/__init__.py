"""musterbook: one vessel's emergency manual, from her description to book, cards and site."""

__version__ = "0.1.0"
