"""A value that is read off a meter, typed and judged."""
