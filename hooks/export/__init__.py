"""The format itself, written down for other programs: one file each."""
