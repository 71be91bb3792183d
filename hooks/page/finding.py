"""What the writer sees in a preview: each finding inside its step, its path as links."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from hooks.check.analysis import State
from hooks.diagnostics import Finding, Level, PathStep, together
from hooks.model import Page, Step
from hooks.page import lines, rule_pages, words
from hooks.page.blocks.rail import rail
from hooks.page.templates import draw
from hooks.source import Source

STATES = {state.words: state for state in State}


@dataclass(frozen=True, slots=True)
class Way:
    """One step of a path, as it is drawn."""

    line: int
    """That of the page; what uses it, for a shared step."""
    file: str
    """Empty where it is the file of the page."""
    number: int | None
    """Its number on the page; None where it is not a step of this page."""
    id: str
    title: str
    said: str
    """What changed here and which way out was taken."""
    rail: Markup
    last: bool


@dataclass(frozen=True, slots=True)
class Shown:
    """Findings of one rule in one place by one path, drawn together."""

    level: Level
    rule: str
    why: str
    """The link to the page of the rule."""
    messages: tuple[Markup, ...]
    place: str
    """ "no-ice.md line 141, column 1"."""
    models: tuple[str, ...]
    because: str | None
    helps: tuple[Markup, ...]
    ways: tuple[Way, ...]
    excerpt: str = ""
    """The line it is about, for a page that could not be drawn."""


def render(findings: Iterable[Finding], page: Page, root: str = "./") -> tuple[Mapping[int, str], str]:
    """HTML by number of the step, and HTML for what belongs to no step of the page; `root` is the way to the first folder."""
    by_step: dict[int, str] = {}
    rest = ""
    for group in together(findings):
        step = _step(page, group[0])
        html = draw("finding/finding.html", finding=_shown(group, root, page))
        if step:
            by_step[step.number] = by_step.get(step.number, "") + html
        else:
            rest += html
    return by_step, rest


def shared(findings: Iterable[Finding], page: Page, users: Iterable[tuple[str, str]], root: str = "./") -> str:
    """A page of shared steps, of which a site has none: what is wrong with it, and who uses it (address and title)."""
    found = sorted(findings, key=lambda f: f.order)
    shown = (_shown([f], root, source=page.source if f.file == page.source.name else None) for f in found)
    drawn = (draw("finding/finding.html", finding=one) for one in shown)
    return draw("shared/shared.html", page=page, findings=Markup("\n".join(drawn)), users=list(users))


def unreadable(findings: Iterable[Finding], source: Source, root: str = "./") -> str:
    """A page of which nothing could be read but what is wrong with it."""
    found = sorted(findings, key=lambda f: f.order)
    shown = [_shown([f], root, source=source) for f in found]
    return draw("finding/unreadable.html", name=source.name, findings=shown)


def banner(findings: Iterable[Finding], page: Page | None) -> str:
    """The strip that says that this is a preview, and how many errors keep it from the shop's site."""
    found = tuple(findings)
    errors = [f for f in found if f.level is Level.ERROR]
    first = next(iter(errors or found), None)
    step = _step(page, first) if page and first else None
    to = step.id if step else "finding"
    others = len(found) - len(errors)
    return draw("finding/banner.html", errors=len(errors), others=others, to=to if found else "")


def overview(pages: Iterable[tuple[str, str, tuple[Finding, ...]]]) -> str:
    """The strip on pages that no one wrote: which pages have errors, by address and title."""
    errors = [(to, title, sum(f.level is Level.ERROR for f in found)) for to, title, found in pages]
    bad = [one for one in errors if one[2]]
    return draw("finding/overview.html", pages=bad, errors=sum(count for *_, count in bad))


def _step(page: Page, finding: Finding) -> Step | None:
    """The step that a finding names, else the one in whose lines it stands."""
    named = page.step(finding.step.id) if finding.step else None
    return named or page.step_at(finding.span.line)


def marked(text: str) -> Markup:
    """A sentence with what stands between backticks as the page's own words."""
    said = str(escape(words.capital(text)))
    return Markup(re.sub("`([^`]+)`", r"<code>\1</code>", said))


def _shown(group: list[Finding], root: str, page: Page | None = None, source: Source | None = None) -> Shown:
    first = group[0]
    return Shown(
        level=first.level,
        rule=first.rule,
        why=rule_pages.address(first.rule, root),
        messages=tuple(dict.fromkeys(marked(f.message) for f in group)),
        place=_place(first),
        models=first.models,
        because=first.because,
        helps=tuple(dict.fromkeys(marked(f.help) for f in group if f.help)),
        ways=tuple(_ways(first, page, {f.energy for f in group if f.energy})) if page else (),
        excerpt=source.line(first.span.line) if source else "",
    )


def _place(finding: Finding) -> str:
    used = (f", used by {place.file} line {place.span.line}" for place in reversed(finding.used))
    return f"{finding.file} line {finding.span.line}, column {finding.span.column}{''.join(used)}"


def _ways(finding: Finding, page: Page, about: set[str]) -> Iterator[Way]:
    """The path; in words only what changes of the energies the finding is about, if any."""
    known: dict[str, str] = {}
    for place, passed in enumerate(finding.path):
        step = page.step(passed.step.id)
        now = dict(passed.energies)
        before = known or {e: State.ON.words for e in now}
        last = place == len(finding.path) - 1
        file, line = (passed.used[0].file, passed.used[0].span.line) if passed.used else (passed.file, passed.line)
        yield Way(
            line=line,
            file="" if file in (finding.page, finding.file) else file,
            number=step.number if step else None,
            id=passed.step.id,
            title=passed.step.title,
            said=_said(passed, before, {e: s for e, s in now.items() if e in about or not about}, last),
            rail=_rail(page, step, now if last else before, now, passed.skipped),
            last=last,
        )
        known = now


def _said(passed: PathStep, before: Mapping[str, str], now: Mapping[str, str], last: bool) -> str:
    changed = [f"{words.name(e).lower()} {s}" for e, s in now.items() if last or before.get(e) != s]
    note = f": {passed.note}" if changed and passed.note and not last else ""
    said = [words.listed(changed) + note] if changed else []
    shared = [*((p.file, p.span.line) for p in passed.used[1:]), (passed.file, passed.line)] if passed.used else []
    said = [f"in {file} line {line}" for file, line in shared] + said
    said += [passed.note] if passed.note and not note else []
    said += [f"took “{passed.way_out}”"] if passed.way_out else []
    said += [f"passed over: {passed.skipped}"] if passed.skipped else []
    return words.capital(". ".join(words.capital(s) for s in said))


def _rail(
    page: Page, step: Step | None, before: Mapping[str, str], now: Mapping[str, str], skipped: str
) -> Markup:
    places = {e.name: place for place, e in enumerate(page.energies)}
    acts = step if step and not skipped else None
    pipes = [_pipe(page, e, places[e], before.get(e), now[e], acts) for e in now if e in places]
    return rail.draw(tuple(pipes), len(places) or 1)


def _pipe(page: Page, name: str, place: int, before: str | None, now: str, step: Step | None) -> rail.Pipe:
    energy = page.energies[place]
    arriving, leaving = (lines.shown(STATES.get(s or "", State.ON)) for s in (before, now))
    if step is None:
        return rail.Pipe(place, arriving, leaving, "", False)
    cut, back = name in step.isolate, name in step.restore
    sign = lines.sign(energy, on=back) if (cut or back) and arriving != leaving else ""
    return rail.Pipe(place, arriving, leaving, sign, name in step.verify and leaving == "proved")
