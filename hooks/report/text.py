"""Findings as plain text: the source line, a caret, the path, how to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from hooks.diagnostics import Finding, Level, PathStep, together
from hooks.source import Source

CLOSING = "Consistent text is not a safe machine: prove it at the machine."


def render(findings: Iterable[Finding], sources: Mapping[str, Source], pages: int) -> str:
    """The whole report; findings that share rule, place and path are drawn together."""
    found = tuple(findings)
    drawn = ["\n".join(_group(group, sources)) for group in together(found)]
    return "\n\n".join([*drawn, _count(found, pages)]) + "\n"


def _group(group: list[Finding], sources: Mapping[str, Source]) -> Iterator[str]:
    for finding in group:
        yield _headline(finding)
    first = group[0]
    for place in reversed(first.used):
        yield f"  used by {place.file}:{place.span.line}:{place.span.column}"
    if source := sources.get(first.file):
        yield from _excerpt(first, source)
    energies = [f.energy for f in group if f.energy]
    yield from path(first.path, energies)
    for help in dict.fromkeys(f.help for f in group if f.help):
        yield f"  Fix: {help}"


def _headline(finding: Finding) -> str:
    where = f"{finding.file}:{finding.span.line}:{finding.span.column}"
    return f"{where}: {finding.level} {finding.rule}: {qualified(finding)}"


def qualified(finding: Finding) -> str:
    """What is wrong, on which models if not on all, and why it was let stand."""
    models = f" (only on {', '.join(finding.models)})" if finding.models else ""
    silenced = f" [allowed: {finding.because}]" if finding.because else ""
    return f"{finding.message}{models}{silenced}"


def _excerpt(finding: Finding, source: Source) -> Iterator[str]:
    span = finding.span
    line = source.line(span.line)
    number = str(span.line)
    before = "".join(c if c == "\t" else " " for c in line[: span.column - 1])
    end = span.end_column if span.end_line == span.line else len(line) + 1
    yield f"  {number} | {line}"
    yield f"  {' ' * len(number)} | {before}{'^' * max(end - span.column, 1)}"


def path(steps: tuple[PathStep, ...], energies: list[str]) -> Iterator[str]:
    """One line a step, saying only what changed of the energies the breach is about."""
    width = max((len(p.step.title) for p in steps), default=0)
    ways = max((len(way(p)) for p in steps), default=0)
    known: dict[str, str] = {}
    for number, step in enumerate(steps):
        last = number == len(steps) - 1
        states = {e: s for e, s in step.energies if not energies or e in energies}
        changes = [f"{e} {s}" for e, s in states.items() if last or known.get(e, "ON") != s]
        known |= states
        note = f"  <- {step.note}" if step.note else ""
        cells = f"{step.step.title:<{width}}  {way(step):<{ways}}  {', '.join(changes)}"
        line = step.used[0].span.line if step.used else step.line
        yield f"  {line:>5}  {cells.rstrip()}{note}{_written(step)}".rstrip()


def _written(step: PathStep) -> str:
    """Where a shared step is written, after the lines of shared steps that use it; the page's own line stands first."""
    if not step.used:
        return ""
    places = [*(f"{p.file}:{p.span.line}" for p in step.used[1:]), f"{step.file}:{step.line}"]
    return f"  ({', '.join(places)})"


def way(step: PathStep) -> str:
    """The way out taken, or why the step was passed over; empty where the path fell through."""
    if step.skipped:
        return f"({step.skipped})"
    return f"-> {step.way_out}" if step.way_out else ""


def _count(findings: tuple[Finding, ...], pages: int) -> str:
    looked = f"{pages} page{'' if pages == 1 else 's'} checked"
    if not findings:
        return f"{looked}, nothing found. {CLOSING}"
    counts = ((level, sum(f.level is level for f in findings)) for level in Level)
    said = (f"{n} {level}{'' if n == 1 else 's'}" for level, n in counts if n)
    allowed = sum(f.because is not None for f in findings)
    return f"{looked}: {', '.join(said)}{f', {allowed} of them allowed with a reason' if allowed else ''}. {CLOSING}"
