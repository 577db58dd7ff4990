"""Studies of a lying person: sideways stability, tipping, and hanging for a target."""
