"""All pages together: what leads to which page, as plain data."""
