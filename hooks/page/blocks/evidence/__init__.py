"""Which proof covers each step where hands go in."""
