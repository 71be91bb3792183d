"""Findings to text for people and to formats for machines: one file each."""
