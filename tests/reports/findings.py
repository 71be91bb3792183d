"""Findings for the tests of reports: one with a path on two energies, one plain."""

from __future__ import annotations

from hooks.diagnostics import Finding, Level, PathStep, StepRef
from hooks.source import Source, Span, from_text

SOURCE: Source = from_text(
    "# Valve\n\n### Unplug {#unplug isolate=\"electricity\"}\n\n- Yes: [Swap](#swap)\n\n"
    "### Swap the valve {#swap work}\n",
    "shop/valve.md",
)
UNPLUG = StepRef("unplug", "Unplug")
SWAP = StepRef("swap", "Swap the valve")
PATH = (
    PathStep("shop/valve.md", 3, UNPLUG, "Yes", "", (("electricity", "OFF"), ("water", "ON"))),
    PathStep("shop/valve.md", 5, StepRef("drain", "Drain"), "", "skipped",
             (("electricity", "OFF"), ("water", "ON"))),
    PathStep("shop/valve.md", 7, SWAP, "", "", (("electricity", "OFF"), ("water", "ON")),
             "hands-on here"),
)  # fmt: skip


def live(energy: str, state: str) -> Finding:
    return Finding(
        rule="hands-on-live",
        level=Level.ERROR,
        file="shop/valve.md",
        span=Span.in_line(7, 0, 31),
        message=f'hands-on step "Swap the valve" can be reached with {energy} {state}',
        help="send line 5 to a step that proves both.",
        step=SWAP,
        energy=energy,
        path=PATH,
    )


PLAIN = Finding(
    rule="step-line",
    level=Level.WARNING,
    file="shop/valve.md",
    span=Span.in_line(3, 12, 19),
    message='unknown word "unplug"',
    help='the nearest known word is "isolate".',
    models=("LM30",),
)
FINDINGS = (live("water", "ON"), PLAIN, live("electricity", "OFF, not proved"))
