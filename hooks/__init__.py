"""Stillbench: structured Markdown in, a site of repair procedures out.

Layers, each importing only from those before it: source, diagnostics, model,
parse, check, report, library, export, page, device, runtime, cli, build.
"""
