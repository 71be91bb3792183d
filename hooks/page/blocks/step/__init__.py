"""One step: a line while it is folded, the whole of it when it is open."""
