"""Where a step leads."""
