"""What to know and bring before the first step."""
