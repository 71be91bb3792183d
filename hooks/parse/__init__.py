"""Text to model and findings. The rest of the house sees only what stands here."""
