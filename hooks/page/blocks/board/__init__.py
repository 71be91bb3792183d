"""What is safe to touch now."""
