"""Random small jobs: right ones, wrong ones and odd ones, so that every act meets every state."""

from __future__ import annotations

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from .shapes import Action, Bullet, Job, Source

ELECTRICITY = Source("electricity", ("plug", "breaker"))
WATER = Source("water", ("tap",), trapped=True)
HOT = Source("hot-water", ("tap",), trapped=True, only="hot")
GAS = Source("gas", ("cock",), only="not hot")
HEAT = Source("heat", fed_by="electricity")
STEAM = Source("steam", fed_by="heat")
SETS = (
    (ELECTRICITY,),
    (ELECTRICITY, WATER),
    (ELECTRICITY, HEAT),
    (ELECTRICITY, WATER, HOT),
    (WATER, ELECTRICITY, HEAT, STEAM),
    (ELECTRICITY, HEAT, GAS),
)
MODELS = ((("A1", ("hot",)),), (("A1", ()), ("A2", ("hot",))), (("A1", ("hot",)), ("A2", ()), ("A3", ())))
KINDS = (
    "isolate", "isolate", "release", "verify", "verify", "make safe", "work", "work", "open", "close",
    "unmarked", "look", "restore", "restore", "test", "decide", "probe", "clear", "end",
)  # fmt: skip
ENDS = ("in service", "left safe", "stopped", "as found")


@st.composite
def jobs(draw: DrawFn, most: int = 7) -> Job:
    """A job of up to `most` random steps and an end; half of them first make the machine safe."""
    sources = draw(st.sampled_from(SETS))
    names = tuple(s.name for s in sources)
    safe = _made_safe(sources) if draw(st.booleans()) else ()
    kinds = draw(st.lists(st.sampled_from(KINDS), min_size=1, max_size=most))
    count = len(safe) + len(kinds) + 1
    actions = tuple(draw(_actions(names, count, kind)) for kind in (*kinds, "end"))
    says = draw(st.one_of(st.just(names), _some(names, 0)))
    return Job(draw(st.sampled_from(MODELS)), sources, says, safe + actions)


def _made_safe(sources: tuple[Source, ...]) -> tuple[Action, ...]:
    """Cut everything, let everything out, prove everything."""
    names = tuple(s.name for s in sources)
    supplies = tuple(s.name for s in sources if s.fed_by is None)
    return (
        Action((("isolate", supplies),)),
        Action((("release", names),)),
        Action((("verify", names),), bullets=(Bullet("", 0, False),)),
    )


def _some(names: tuple[str, ...], least: int = 1) -> SearchStrategy[tuple[str, ...]]:
    """A few of the names, in their order."""
    chosen = st.sets(st.sampled_from(names), min_size=least)
    return chosen.map(lambda picked: tuple(n for n in names if n in picked))


@st.composite
def _actions(draw: DrawFn, names: tuple[str, ...], count: int, kind: str) -> Action:
    flags: set[str] = set(draw(st.sampled_from(((), (), (), ("optional",)))))
    does: list[tuple[str, tuple[str, ...]]] = []
    at = end = None
    bullets: tuple[Bullet, ...] = ()
    jump = st.integers(0, count - 1)
    match kind:
        case "isolate" | "release" | "verify" | "restore" | "test":
            does.append((kind, draw(_some(names))))
        case "make safe":
            named = draw(_some(names))
            words = draw(_some(("isolate", "release", "verify"), 2))
            does += [(word, named) for word in words]
        case "work" | "look":
            flags.add("work" if kind == "work" else draw(st.sampled_from(("check", "ready"))))
        case "open" | "close":
            flags.add("work")
            does.append(("opens" if kind == "open" else "closes", (draw(st.sampled_from(("lid", "back"))),)))
        case "probe":
            does += [("verify", draw(_some(names))), ("opens", ("lid",))]
            does += draw(st.sampled_from(((), (("needs", ("voltage tester",)),))))
        case "decide":
            flags |= {"decide"} | set(draw(st.sampled_from(((), ("check",), ("work",)))))
            targets = draw(st.lists(jump, min_size=2, max_size=3))
            bullets = tuple(Bullet(f"Answer {n}", target) for n, target in enumerate(targets))
        case "clear":
            flags |= {"check", "clear"}
        case "end":
            end = draw(st.sampled_from(ENDS))
            does += draw(st.sampled_from(((), (), (("without", names[:1]),)))) if end == "in service" else ()
    if kind == "restore":
        flags |= set(draw(st.sampled_from((("clear",), ("clear", "for-test"), ()))))
    if {"isolate", "restore"} & {w for w, _ in does}:
        at = draw(st.sampled_from((None, None, "plug", "breaker")))
    following = None
    if any(word == "verify" for word, _ in does):
        no, yes = Bullet("", draw(jump), False), Bullet("", draw(jump), True)
        bullets = draw(st.sampled_from(((no,), (no, yes), (yes, no))))
    elif end is None and not bullets:
        following = draw(st.one_of(st.none(), st.none(), st.none(), jump))
    return Action(
        tuple(does),
        frozenset(flags),
        end,
        at,
        draw(st.sampled_from((None, None, None, None, "hot", "not hot"))),
        draw(st.one_of(st.just(()), st.just(names), _some(names))),
        bullets,
        following,
    )
