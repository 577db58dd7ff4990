"""How sure each factor of safety is: its range, the inputs it comes from, how to measure them at home."""
