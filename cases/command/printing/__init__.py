"""Tables and messages for a terminal."""
