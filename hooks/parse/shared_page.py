"""Steps that several pages share cannot be drawn in where a page uses them.

Why:
    What stands on a page of shared steps is done wherever it is used, so each use is analysed
    with its steps in place. Where they cannot be put in place whole, nobody would know what is
    done there. Informed by the references of DITA, which must resolve.

Example reported:
    ### Make it safe {#safe uses="cord-and-tpa"}

Example mended:
    ### Make it safe {#safe uses="cord-and-tap"}
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hooks.diagnostics import StepRef
from hooks.model import Kind, Page, Step, WayOut
from hooks.parse.drawn_in import ALLOWED, drawn_in
from hooks.parse.notes import Notes, choose
from hooks.parse.result import ParsedPage
from hooks.parse.words import GOES_ON


def drawn(pages: Iterable[ParsedPage]) -> tuple[ParsedPage, ...]:
    """The pages of a shop with the steps they share in place; one that cannot have them is unsound."""
    return _Shop(tuple(pages)).all()


class _Shop:
    """Draws in each page once, those that it uses before it."""

    def __init__(self, pages: tuple[ParsedPage, ...]) -> None:
        self.pages = pages
        self.named: dict[str, list[ParsedPage]] = {}
        for one in pages:
            if one.page:
                self.named.setdefault(one.page.id, []).append(one)
        self.made: dict[str, ParsedPage] = {}

    def all(self) -> tuple[ParsedPage, ...]:
        return tuple(self.whole(one) for one in self.pages)

    def whole(self, one: ParsedPage) -> ParsedPage:
        name = one.source.name
        if name not in self.made:
            self.made[name] = self.draw(one)
        return self.made[name]

    def draw(self, one: ParsedPage) -> ParsedPage:
        page = one.page
        if page is None or not (page.kind is Kind.SHARED_STEPS or any(s.uses for s in page.steps)):
            return one
        notes = Notes(page.source.name).by(__name__)
        using = [s for s in page.steps if s.uses]
        uses = {s.id: used for s in using if (used := self.used(page, s, notes.within(_ref(s))))}
        for step in using[1:]:
            if step.id in {s.id for s in using[: using.index(step)]}:
                mend = "Give one of them another id."
                notes.within(_ref(step)).error(step.span, f"the id `{step.id}` has shared steps already", mend)
        ready = one.sound and not notes.broken
        if ready and not notes.broken:
            page = drawn_in(page, uses, notes)
        if page.kind is Kind.SHARED_STEPS and one.sound:
            _fit_to_share(page, notes)
        found = sorted((*one.findings, *notes.found), key=lambda finding: finding.order)
        whole = ready and not notes.broken
        return ParsedPage(one.source, page if whole else one.page, tuple(found), whole)

    def used(self, page: Page, step: Step, notes: Notes) -> Page | None:
        """The page that a step uses, None with a finding where it cannot be drawn in there."""
        name = step.uses or ""
        span = dict(step.spans).get("uses", step.span)
        _beside(page, step, notes)
        there = self.named.get(name, [])
        if circle := self.circle(page.id, name):
            what = f"the steps of `{page.id}` use themselves: {' uses '.join(f'`{id}`' for id in circle)}"
            notes.error(span, what, "Take the use out of one of these pages.")
        elif len(there) != 1 or not there[0].page:
            shared = sorted(id for id, ones in self.named.items() if _shares(ones))
            what = "several pages have" if there else "no page of this shop has"
            mend = choose(name, shared) if shared else f"Write a page of kind `{Kind.SHARED_STEPS.value}` with this id."
            notes.error(span, f"{what} the id `{name}`", mend)
        elif there[0].page.kind is not Kind.SHARED_STEPS:
            what = f"`{name}` is a page of kind `{there[0].page.kind.value}`, whose steps are not shared"
            notes.error(span, what, "Put the steps on a page of kind `shared-steps`.")
        elif not (made := self.whole(there[0])).sound:
            file = made.source.name
            notes.error(span, f"the shared steps `{name}` have errors of their own", f"Mend {file} first.")
        else:
            return made.page
        return None

    def circle(self, id: str, name: str) -> tuple[str, ...]:
        """The ids from a page by the uses that lead back to it, this one first; empty where none does."""
        seen, waiting = {name}, [(id, name)]
        for path in waiting:
            if path[-1] == id:
                return path
            onward = dict.fromkeys(n for one in self.named.get(path[-1], []) for n in _uses(one))
            waiting += [(*path, n) for n in onward if n not in seen]
            seen |= set(onward)
        return ()


def _shares(ones: list[ParsedPage]) -> bool:
    return any(one.page and one.page.kind is Kind.SHARED_STEPS for one in ones)


def _uses(one: ParsedPage) -> Iterator[str]:
    return (s.uses for s in (one.page.steps if one.page else ()) if s.uses)


def _ref(step: Step) -> StepRef:
    return StepRef(step.id, step.title)


def _beside(page: Page, step: Step, notes: Notes) -> None:
    """Write down what stands at or under a line that uses shared steps and would not be shown."""
    if page.kind is Kind.SELF_CHECK:
        notes.error(step.span, "a self-check uses shared steps", "Write its questions out on the page.")
    if not step.id_written:
        mend = f"Write `{{#{step.id} …}}`: the ids of the shared steps are made of it."
        notes.error(step.span, "a step that uses shared steps needs an id of its own", mend)
    for word, span in step.spans:
        if word.split()[0] not in ALLOWED:
            what = f"`{word.split()[0]}` stands beside `uses`, and would do nothing"
            notes.error(span, what, "Write it on the shared steps that it is true of.")
            break
    if step.messages or step.late_messages or step.readings or step.prose or step.figures or step.jumpless:
        what = "only ways out stand under a step that uses shared steps; the rest would not be shown"
        notes.error(step.span, what, "Put it into a step of its own, or on the page of shared steps.")


def _fit_to_share(page: Page, notes: Notes) -> None:
    """Write down what keeps a page of shared steps from being drawn in anywhere."""
    for span, what in ((m.span, "message") for m in page.messages):
        notes.error(span, f"a {what} stands before the first of the shared steps", "Put it under that step.")
    for stage in page.stages:
        mend = "Take it out: shared steps stand under the stage of the page that uses them."
        notes.error(stage.span, "shared steps have a stage of their own", mend)
    ids = {step.id for step in page.steps}
    for place, step in enumerate(page.steps):
        within = notes.within(_ref(step))
        for way in _lost(step, ids):
            mend = f'Lead it to a step of this page, or to one with `end="{GOES_ON}"`.'
            within.error(way.span, f"`#{way.target}` is not among the shared steps", mend)
        if step.end == GOES_ON:
            _bare(step, within)
            if place and _passed_over(page.steps[place - 1]):
                what = f'"{page.steps[place - 1].title}" may be passed over, and the shared steps go on after it'
                within.error(step.span, what, "Put a step that is always done between them.")
    if page.steps and (page.steps[0].end == GOES_ON):
        notes.error(page.steps[0].span, "the shared steps go on before the first of them", "Put the steps above it.")


def _lost(step: Step, ids: set[str]) -> Iterator[WayOut]:
    return (way for way in (*step.ways, *((step.next,) if step.next else ())) if way.target not in ids)


def _passed_over(step: Step) -> bool:
    return step.end != GOES_ON and (step.optional or step.only is not None)


def _bare(step: Step, notes: Notes) -> None:
    words = [word for word, _ in step.spans if word not in ("id", "end")]
    if words or step.messages or step.late_messages or step.readings or step.prose or step.figures:
        what = f'nothing but its title is used of a step with `end="{GOES_ON}"`'
        notes.error(step.span, what, "Put the rest into a step before it.")

