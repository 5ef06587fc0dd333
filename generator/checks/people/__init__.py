"""People: who is aboard, who helps whom, what they wear and what they lift."""
