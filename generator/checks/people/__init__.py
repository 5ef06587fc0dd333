"""People: roles, helpers, lifejackets and suits, berths, tethers: for everybody one, of the right size; and what they lift."""
