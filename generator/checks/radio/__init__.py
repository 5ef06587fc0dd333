"""Radio: what calls for help, that it works and says who and where, that it is told how, and that somebody hears it."""
