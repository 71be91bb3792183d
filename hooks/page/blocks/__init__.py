"""The visible blocks of a page: a folder each, with template, style and script of its name."""
