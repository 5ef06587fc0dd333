"""The gear-locations diagram: hull, spaces, symbols, and where each label goes."""
