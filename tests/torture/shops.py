"""Small shops with a slip of the pen in one of their files, and shops that chance has written."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import unified_diff
from pathlib import Path

from hypothesis import assume
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from hooks.check import STATE_LIMIT
from hooks.check.rules import RULES
from hooks.model import Kind
from hooks.parse import FACTS
from hooks.parse.words import ENDS, OUTCOMES, SIGNAL_WORDS, STEP_LINE, Takes
from tests.parse.cases import HERE as PARSING
from tests.parse.cases import HEAD, cases
from tests.paths.jobs import jobs
from tests.paths.shapes import markdown
from tests.paths.sharing import cut
from tests.rules import host, reading

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "procedures"
WRITTEN = ("tests/samples", "tests/cases", "tests/real")
"""Folders of single pages, each written for a machine of its own."""


@dataclass(frozen=True, repr=False)
class Fuzzed:
    """A shop, and which of its files is not as anybody wrote it."""

    sort: str
    """Where it comes from: "rule jump-lost", "demo", "a job"."""
    files: Mapping[str, str]
    """Their texts, by their names in the shop's folder."""
    changed: str
    limit: int = STATE_LIMIT
    """So many states are followed."""
    before: str = ""
    """The text of that file before the slip."""

    def __repr__(self) -> str:
        return f"{self.sort}: {self.changed}"

    @property
    def text(self) -> str:
        """That of the changed file."""
        return self.files[self.changed]

    @property
    def slip(self) -> str:
        """What is another than before, and where."""
        changed = unified_diff(self.before.split("\n"), self.text.split("\n"), self.changed, self.changed, lineterm="", n=1)
        return "\n".join((self.sort, *changed))

    def saying(self, text: str) -> Fuzzed:
        """The same with another text in the file that is changed."""
        before = "" if self.sort == "made" else self.text
        return replace(self, files={**self.files, self.changed: text}, before=before)


def _each(sort: str, files: Mapping[str, str], limit: int = STATE_LIMIT) -> Iterator[Fuzzed]:
    return (Fuzzed(sort, files, name, limit) for name in files)


def by_rule() -> Mapping[str, list[Fuzzed]]:
    """For each rule, those of parsing among them, the shops of its own cases and examples; what is reported comes more often."""
    found: dict[str, list[Fuzzed]] = defaultdict(list)
    for case in reading.cases():
        files = {f"{name.removesuffix('.md')}.md": reading.whole(head, name, text) for head, name, text in case.pages}
        shops = list(_each(f"rule {case.rule}", {**files, **dict(case.pictures)}, case.limit))
        found[case.rule] += shops * (1 if case.kind == "Clean" else 3)
    for rule in RULES:
        pages = host.pages(rule.part("Example reported"), rule.name)
        found[rule.name] += _each(f"rule {rule.name}", {f"{name}.md": text for name, text in pages.items()})
    for parsed in (case for file in sorted(PARSING.glob("*.txt")) for case in cases(file.name)):
        name = FACTS if parsed.name.startswith("shop:") else "page.md"
        for rule in {line.split()[1] for line in parsed.expected}:
            files = {"page.md": f"{HEAD}### Look {{#look check}}\n", name: parsed.text}
            found[rule].append(Fuzzed(f"rule {rule}", files, name))
    return found


def demo() -> list[Fuzzed]:
    """The demo shop, once for each of its files."""
    paths = (path for path in sorted(DEMO.rglob("*")) if path.suffix in (".md", ".yml", ".svg"))
    return list(_each("demo", {path.relative_to(DEMO).as_posix(): path.read_text("utf-8") for path in paths}))


def written() -> list[Fuzzed]:
    """Pages that stand alone, with and without the shop facts of the demo."""
    facts = {FACTS: (DEMO / FACTS).read_text("utf-8")}
    paths = (path for folder in WRITTEN for path in sorted((ROOT / folder).glob("*.md")) if not path.name.isupper())
    texts = [path.read_text("utf-8") for path in paths]
    pages = [text for text in texts if text.startswith("---")]
    return [Fuzzed("written", {"page.md": text, **more}, "page.md") for text in pages for more in ({}, facts)]


SLIPS = (
    "{", "}", '"', "#", "- ", "](#", "`", "\n", "\t", "<!--", "-->", "```", ",", ":", "[", "]", "é", "\u2028", "0x1f", "\r", "\x00",
    '!!! warning water "x"\n    y\n', "Next: ", "**Proved**", ' only="hot-fill"', " optional", "---", "&x", "*x", "|", "? ", "![](a.png)",
    "<script>", "&#58;", "[a]: b", "    ", "1. ", "> ", "{{ x }}", "\u200b", "\ufeff", "~~~", "$", "9" * 30, "1e999", "-0", "{%",
)  # fmt: skip
ALIKE = (
    tuple(word.name for word in STEP_LINE if word.takes is Takes.NOTHING),
    tuple(word.name for word in STEP_LINE if word.takes is Takes.ENERGIES),
    ("electricity", "water", "hot-water", "heat", "fuel", "gas"),
    tuple(dict.fromkeys(end for ends in ENDS.values() for end in ends)),
    tuple(str(kind) for kind in Kind),
    SIGNAL_WORDS,
    tuple(f"**{outcome[:1].upper()}{outcome[1:]}**" for outcome in OUTCOMES),
    ("opens", "closes", "installs", "needs", "reads", "judges"),
    ("true", "false", "none", "[]", "{}", "0", "1", "2026-11-02"),
    ("Unplug", "Look", "Take off", "Open", "Press", "Measure", "Burning", "leak"),
)
"""Words that a writer may take for one another."""
SORTS_OF_SLIP = ("put in", "left out", "line left out", "line twice", "lines exchanged", *("word", "jump", "sentence") * 3)
SENTENCE = re.compile(r"(?:^|(?<=\. ))[A-Z][\w ,']+\.", re.M)
SENTENCES = ("Dry your hands.", "Keep the plug in sight.", "Hang a tag, and tell the office.", "It is *old*.", "Reach in.", "See [it](about.md).", "")
TARGET = re.compile(r"\(#([^)\s]+)\)")


@st.composite
def slipped(draw: DrawFn, text: str) -> str:
    """The text with one thing put in, left out or taken for another, rarely in its front matter."""
    head, mark, body = text.partition("\n---\n")
    if mark and body and draw(st.sampled_from((True, True, True, False))):
        return f"{head}{mark}{draw(_slip(body))}"
    return draw(_slip(text))


@st.composite
def _slip(draw: DrawFn, text: str) -> str:
    at = draw(st.integers(0, len(text)))
    lines = text.split("\n")
    row, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    match draw(st.sampled_from(SORTS_OF_SLIP)):
        case "put in":
            return text[:at] + draw(st.sampled_from(SLIPS)) + text[at:]
        case "left out":
            return text[:at] + text[at + draw(st.integers(1, 12)) :]
        case "line left out":
            lines.pop(row)
        case "line twice":
            lines.insert(other, lines[row])
        case "lines exchanged":
            lines[row], lines[other] = lines[other], lines[row]
        case "sentence":
            return draw(_exchanged(text, SENTENCE, SENTENCES))
        case "jump":
            return draw(_exchanged(text, TARGET, tuple(f"(#{id})" for id in re.findall(r"\{#([^}\s]+)", text))))
        case "word":
            words = draw(st.sampled_from([ones for ones in ALIKE if any(one in text for one in ones)] or [("a", "b")]))
            return draw(_exchanged(text, re.compile("|".join(map(re.escape, sorted(words, key=len, reverse=True)))), words))
    return "\n".join(lines)


@st.composite
def _exchanged(draw: DrawFn, text: str, pattern: re.Pattern[str], instead: tuple[str, ...]) -> str:
    found = list(pattern.finditer(text))
    assume(found and instead)
    one = draw(st.sampled_from(found))
    return text[: one.start()] + draw(st.sampled_from(instead)) + text[one.end() :]


ASKED = ("Is the light on?", "Do you smell burning?", "Unscrew the hose?", "Is there a spark?", "Press Start", "Does the fuse look whole?")
SCRAPS = ("### A {#a check}\n", "## B\n", "- C: [D](#a)\n", "text ", "| a | b |\n|---|---|\n", "```reading\nid: x\n```\n", "* e\n", "[f](g.md)\n", *SLIPS)


@st.composite
def self_checks(draw: DrawFn) -> str:
    """A customer's page: questions that lead anywhere, and ends."""
    size = draw(st.integers(1, 5))
    ends = draw(st.lists(st.sampled_from(ENDS[Kind.SELF_CHECK]), min_size=1, max_size=3))
    places = st.integers(0, size + len(ends) - 1)
    steps = [f'### End {n} {{#s{n} end="{end}"}}\nWell.\n' for n, end in enumerate(ends, size)]
    for n in range(size):
        ways = draw(st.lists(places, min_size=1, max_size=3))
        asked = f"### {draw(st.sampled_from(ASKED))} {{#s{n} {draw(st.sampled_from(('decide', 'check decide')))}}}\n"
        steps.insert(n, asked + "".join(f"- Answer {k}: [Go](#s{to})\n" for k, to in enumerate(ways)))
    return reading.head("customer") + "\n".join(steps)


@st.composite
def made(draw: DrawFn) -> Fuzzed:
    """A shop of which no page was ever written by anybody."""
    scraps = st.lists(st.sampled_from(SCRAPS), max_size=12).map("".join)
    match draw(st.sampled_from(("a job", "a job", "shared steps", "a self-check", "scraps", "a text"))):
        case "a self-check":
            text = draw(self_checks())
        case "scraps":
            text = HEAD + draw(scraps)
        case "a text":
            text = f"---\ntitle: A text\npage: text\nid: page\n---\n{draw(st.one_of(scraps, st.text()))}"
        case "shared steps":
            return draw(_cut())
        case _:
            text = markdown(draw(jobs()), id="page")
    return Fuzzed("made", {"page.md": text}, "page.md")


@st.composite
def _cut(draw: DrawFn) -> Fuzzed:
    text = markdown(draw(jobs()), id="page")
    page = host.page(host.from_text(text, "page.md"), host.Shop(None)).page
    start, length = draw(st.integers(0, len(page.steps) - 1)), draw(st.integers(1, 3))
    parts = cut(page, start, min(start + length, len(page.steps)))
    assume(parts)
    return Fuzzed("made", {"page.md": parts.page, "cut-out.md": parts.shared}, draw(st.sampled_from(("page.md", "cut-out.md"))))


@st.composite
def slips(draw: DrawFn, shops: st.SearchStrategy[Fuzzed]) -> Fuzzed:
    """One of the shops, with one to three slips; what chance has written may go without."""
    shop = draw(shops)
    text = shop.text
    for _ in range(draw(st.sampled_from((0,) * (shop.sort == "made") + (1, 1, 1, 2, 3)))):
        text = draw(slipped(text))
    assume(shop.sort == "made" or text != shop.text)
    return shop.saying(text)


RULES_CASES, DEMO_SHOPS = by_rule(), demo()
FACTS_SHOPS = [shop for shop in (*DEMO_SHOPS, *RULES_CASES["shop-facts"]) if shop.changed == FACTS]
SORTS: tuple[tuple[st.SearchStrategy[Fuzzed], int], ...] = (
    *((st.sampled_from(shops), 1) for _, shops in sorted(RULES_CASES.items())),
    (st.sampled_from(DEMO_SHOPS), 20),
    (st.sampled_from(FACTS_SHOPS), 8),
    (st.sampled_from(written()), 10),
    (made(), 30),
)
"""What shops are taken from, and how much of each beside one of a rule."""
