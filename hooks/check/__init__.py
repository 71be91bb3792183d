"""Model to findings. The rest of the house sees only what stands here."""
