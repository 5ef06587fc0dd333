"""A change made half: what hung on the old thing was left as it was, or what the new one needs was not written."""
