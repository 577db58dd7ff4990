"""A trial at home: water in bags on the cloth, a rule, and what they should show."""
