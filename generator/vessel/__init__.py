"""The data model of a vessel: what a file may say, with its type, place, reader and the question it answers."""
