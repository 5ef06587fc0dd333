"""The fault factory of meanings: operators over what a boat's file says, and generated boats that are sound."""
