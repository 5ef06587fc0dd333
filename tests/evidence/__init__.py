"""Evidence for developers: published lists held against our steps and checks. Nothing of it ships with the program."""
