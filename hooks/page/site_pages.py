"""The pages that lead to pages: start, sections, symptoms, parts and tools, first minute, jobs, about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from hooks.library.entries import Entry, Library, Machine, PartUse, ToolUse
from hooks.library.review import Due
from hooks.library.translations import in_language, path_in
from hooks.library.words import slug
from hooks.model import Kind, Shop
from hooks.page.finding import marked
from hooks.page.first_minute import SIGNS, signs
from hooks.page.generated import GeneratedPage, links_from
from hooks.page.languages import Language, language
from hooks.page import versions
from hooks.page.needs import needs
from hooks.page.templates import draw
from hooks.page.theme import LIMITS
from hooks.parse.words import ENDS

Use = PartUse | ToolUse
ALL_MACHINES = "all-machines.md"
NEVER, CHANGED, UNKNOWN, SAME = "Never looked at", "Changed since their review", "What changed since is not known", "Nothing changed since"
"""How a page stands to the day of its review; in this order they are to be looked at."""
IN_MENU = 12
"""So many machines stand in the menu and at the foot of every page; more have a page of their own, A to Z."""
ON_START = 24
"""So many pages of each kind stand on the start page; the symptoms and the machines lead to all."""


@dataclass(frozen=True, slots=True)
class Row:
    """A part or a tool in a table."""

    title: str
    number: str
    entries: tuple[Entry, ...]

    @property
    def anchor(self) -> str:
        """What a link to this row ends in."""
        return slug(self.number or self.title)


def generated(library: Library, shop: Shop, reviewed: bool = False) -> tuple[GeneratedPage, ...]:
    """All of them but `review`, to which that of the jobs leads if `reviewed`. A page of the shop with the same path goes before a generated one."""
    return (
        start(library),
        *(page for code in (language().code, *library.languages) for page in _for_customers(library, shop, code)),
        symptoms(library),
        *_sections(library),
        *([all_machines(library)] if len(library.machines) > IN_MENU else []),
        parts_and_tools(library),
        about(library, shop),
        jobs(reviewed),
        job_sheet(shop),
        on_this_device(library),
    )


def nav(library: Library, calculators: bool = True) -> list[dict[str, str]]:
    """The sections of the site, for MkDocs; single pages are reached through them."""
    machines = [{m.title: f"machines/{m.id}.md"} for m in library.machines]
    if len(machines) > IN_MENU:
        machines = [{"All machines": ALL_MACHINES}]
    return [
        {"Start": "index.md"},
        {"For customers": "customers.md"},
        *machines,
        *([{"Calculators": "calculators/index.md"}] if calculators else []),
        {"Parts and tools": "parts-and-tools.md"},
        {"Jobs": "jobs.md"},
        {"About": "about.md"},
    ]


def start(library: Library) -> GeneratedPage:
    """The start page: what is wrong, and which machine."""
    return _page(
        "index.md",
        "Start",
        "start/start.html",
        self_checks=[e for m in library.machines for e in m.self_checks][:ON_START],
        procedures=[e for m in library.machines for e in m.procedures][:ON_START],
        machines=library.machines,
        symptoms=len(library.customer_symptoms) + len(library.technician_symptoms),
        example=_example(library),
        signs=SIGNS,
        meta={"versions": versions.elsewhere(library)},
    )


def _for_customers(library: Library, shop: Shop, code: str) -> Iterator[GeneratedPage]:
    say = language(code)
    first, lists = (versions.meta(library, shop, one, code) for one in ("first-minute.html", "customers.html"))
    yield first_minute(shop.within(code), say, first)
    yield customers(in_language(library, shop, code), shop.within(code), say, lists)


def all_machines(library: Library) -> GeneratedPage:
    """Every machine by its title, where they are too many for the menu."""
    by_title = sorted(library.machines, key=lambda machine: machine.title.casefold())
    return _page(ALL_MACHINES, "All machines", "section/machines.html", machines=by_title)


def first_minute(shop: Shop, say: Language, meta: Mapping[str, object]) -> GeneratedPage:
    """What to do when a machine must be left alone."""
    path, facts = path_in("first-minute.md", say.code), {"signs": signs(say), "shop": shop}
    return _page(path, say("first-minute"), "first-minute/first-minute.html", say, meta, **facts)


def customers(library: Library, shop: Shop, say: Language, meta: Mapping[str, object]) -> GeneratedPage:
    """All self-checks, by machine."""
    path, facts = path_in("customers.md", say.code), {"machines": library.machines, "signs": signs(say), "shop": shop}
    return _page(path, say("customers"), "section/customers.html", say, meta, **facts)


def symptoms(library: Library) -> GeneratedPage:
    """Every symptom, customers' and technicians' apart."""
    groups = (
        ("What customers see", library.customer_symptoms),
        ("Complaints that technicians go to", library.technician_symptoms),
    )
    return _page("symptoms.md", "All symptoms", "symptoms/all.html", groups=groups)


def _sections(library: Library) -> Iterator[GeneratedPage]:
    parts, tools = _by_machine(library.parts), _by_machine(library.tools)
    return (section(m, parts.get(m.id, ()), tools.get(m.id, ())) for m in library.machines)


def _by_machine(uses: Iterable[Use]) -> Mapping[str, list[Use]]:
    found: dict[str, list[Use]] = defaultdict(list)
    for use in uses:
        for machine in {e.machine for e in use.entries}:
            found[machine].append(use)
    return found


def section(machine: Machine, parts: Iterable[Use], tools: Iterable[Use]) -> GeneratedPage:
    """A machine's models and pages, and the parts and tools that some of them name."""
    own = {e.name for e in machine.entries}
    return _page(
        f"machines/{machine.id}.md",
        machine.title,
        "section/section.html",
        machine=machine,
        parts=_rows(parts, own),
        tools=_rows(tools, own),
        whole=False,
    )


def parts_and_tools(library: Library) -> GeneratedPage:
    """Every part and tool with the pages that need it."""
    names = {e.name for e in library.entries}
    rows = {"parts": _rows(library.parts, names), "tools": _rows(library.tools, names)}
    return _page("parts-and-tools.md", "Parts and tools", "parts/parts.html", **rows)


def about(library: Library, shop: Shop) -> GeneratedPage:
    """How to read the pages, and what they do not prove."""
    facts = {"shop": shop, "texts": library.texts, "limits": LIMITS}
    return _page("about.md", "About these pages", "about/about.html", **facts)


def jobs(reviewed: bool = False) -> GeneratedPage:
    """The jobs on the reader's device: go on, save, open, delete."""
    return _page("jobs.md", "Jobs", "jobs/jobs.html", reviewed=reviewed)


def review(library: Library, reviews: Iterable[Due]) -> GeneratedPage:
    """The pages to be looked at again, for the shop's own people: no search finds it, and only the page of the jobs leads there."""
    entries = {entry.name: entry for entry in (*library.entries, *library.translations)}
    rows: dict[str, list[tuple[Due, Entry]]] = {title: [] for title in (NEVER, CHANGED, UNKNOWN, SAME)}
    for one in reviews:
        rows[_reviewed(one)].append((one, entries[one.page.source.name]))
    return _page("review.md", "Pages to look at again", "review/review.html", meta={"noindex": True}, groups=rows, unknown=UNKNOWN, marked=marked)


def _reviewed(one: Due) -> str:
    return CHANGED if one.changed else SAME if one.changed == () else NEVER if one.unseen else UNKNOWN


def job_sheet(shop: Shop) -> GeneratedPage:
    """What a job came to, for paper and for files; a script fills it with the job that the address names."""
    return _page("job-sheet.md", "Job sheet", "sheet/sheet.html", shop=shop, closings=ENDS[Kind.PROCEDURE])


def on_this_device(library: Library) -> GeneratedPage:
    """What is kept on the reader's device; it also stands in the place of a page that is not."""
    return _page("offline.md", "On this device", "offline/all.html", machines=library.machines, others=[language(code) for code in library.languages])


def _page(path: str, title: str, template: str, say: Language | None = None, meta: Mapping[str, object] | None = None, **context: object) -> GeneratedPage:
    say = say or language()
    html = draw(template, to=links_from(path), slug=slug, needs=needs, say=say, path_in=path_in, **context)
    return GeneratedPage(path, title, str(html), {"page": template.split("/")[0], "title": title, **(meta or {})})


def _rows(uses: Iterable[Use], names: set[str]) -> list[Row]:
    """Table rows for the parts or tools that pages with these names need."""
    found = []
    for use in uses:
        part = isinstance(use, PartUse)
        title = " / ".join(use.names) if part else use.name
        entries = tuple(e for e in use.entries if e.name in names)
        row = Row(title, use.number if part else "", entries)
        found += [row] if entries else []
    return found


def _example(library: Library) -> str:
    """What one might type: a symptom, a part, a model of this shop."""
    pages = [e for m in library.machines for e in m.self_checks + m.procedures]
    some = [s for e in pages[:1] for s in e.symptoms[:1]]
    some += [p.number for p in library.parts if p.number][:1]
    some += [m for machine in library.machines[:1] for m in machine.models[:1]]
    return ", ".join(some) + " …" if some else "symptom, part, model …"
