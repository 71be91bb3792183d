"""Small procedures as plain data, and the Markdown that says the same. Knows nothing of the checker."""

from __future__ import annotations

from dataclasses import dataclass

HEAD = """---
title: {title}
page: procedure
id: {id}
revision: 1
reviewed: 2026-11-02
appliance: Test machine
models: {{{models}}}
energies:
{energies}
people: {{number: 1, skill: live testing}}
time: 30 min
protect: none
tools: {tools}
supplies: none
parts: none
before: none
after: none
---
"""


@dataclass(frozen=True)
class Source:
    """An energy: `points` of a supply, or `fed_by` for what is stored."""

    name: str
    points: tuple[str, ...] = ()
    trapped: bool = False
    fed_by: str | None = None
    only: str | None = None


@dataclass(frozen=True)
class Bullet:
    """A way out; `proof` is True, False or None for a bullet that is no outcome of a proof."""

    words: str
    target: int
    proof: bool | None = None


@dataclass(frozen=True)
class Action:
    """A step: what it does by word, the energies its messages name, where it leads."""

    does: tuple[tuple[str, tuple[str, ...]], ...] = ()
    flags: frozenset[str] = frozenset()
    end: str | None = None
    at: str | None = None
    only: str | None = None
    says: tuple[str, ...] = ()
    bullets: tuple[Bullet, ...] = ()
    next: int | None = None

    def names(self, word: str) -> tuple[str, ...]:
        """What follows a word on the step line."""
        return dict(self.does).get(word, ())


@dataclass(frozen=True)
class Job:
    """A procedure for some models of one machine."""

    models: tuple[tuple[str, tuple[str, ...]], ...]
    sources: tuple[Source, ...]
    says: tuple[str, ...]
    actions: tuple[Action, ...]


def markdown(job: Job, title: str = "A job", id: str = "job") -> str:
    """The page that says this job."""
    models = ", ".join(f"{name}: [{', '.join(options)}]" for name, options in job.models)
    needs = sorted({t for a in job.actions for t in a.names("needs")})
    head = HEAD.format(
        title=title,
        id=id,
        models=models,
        energies="\n".join(_energy(s) for s in job.sources),
        tools=f"[{', '.join(needs)}]" if needs else "none",
    )
    steps = "\n".join(_step(n, action) for n, action in enumerate(job.actions))
    return f"{head}{_message(job.says)}{steps}"


def _energy(source: Source) -> str:
    facts = [f"points: [{', '.join(source.points)}]"]
    facts += ["trapped: true"] if source.trapped else []
    facts += [f"charged-by: {source.fed_by}"] if source.fed_by else []
    facts += [f"only: {source.only}"] if source.only else []
    return f"  {source.name}: {{{', '.join(facts)}}}"


def _message(says: tuple[str, ...]) -> str:
    if not says:
        return ""
    return f'!!! warning {" ".join(says)} "Harm"\n    It can hurt you badly. Keep clear.\n\n'


def _step(number: int, action: Action) -> str:
    words = [f'{w}="{(", " if w in ("opens", "closes", "needs") else " ").join(v)}"' for w, v in action.does]
    words += sorted(action.flags)
    words += [f'{k}="{v}"' for k, v in (("at", action.at), ("only", action.only), ("end", action.end)) if v]
    lines = [f"### Step {number} {{#{' '.join([f's{number}', *words])}}}", _message(action.says) + "Do it."]
    lines += ["", *(_bullet(b) for b in action.bullets)] if action.bullets else []
    lines += ["", f"Next: [On](#s{action.next})"] if action.next is not None else []
    return "\n".join([*lines, ""])


def _bullet(bullet: Bullet) -> str:
    words = {True: "**Proved**", False: "**Not proved**", None: bullet.words}[bullet.proof]
    return f"- {words}: [Go](#s{bullet.target})"
