"""A page's model and what was found on it, drawn as HTML."""
