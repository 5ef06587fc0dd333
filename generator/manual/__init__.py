"""One tree of what is said about a boat, composed before anything is written."""
