"""Full of water or upside down: what carries her, what is held on to, and what is reached."""
