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
    """One step of a job of `count`, whose jumps may lead to any of them."""
    jump = st.integers(0, count - 1)
    does, flags = draw(_effects(names, kind))
    words = {word for word, _ in does}
    end = draw(st.sampled_from(ENDS)) if kind == "end" else None
    if end == "in service":
        does += draw(st.sampled_from(((), (), (("without", names[:1]),))))
    bullets = draw(_bullets(jump, words | flags))
    return Action(
        does,
        flags | draw(st.sampled_from((set(), set(), set(), {"optional"}))),
        end,
        draw(st.sampled_from((None, None, "plug", "breaker"))) if {"isolate", "restore"} & words else None,
        draw(st.sampled_from((None, None, None, None, "hot", "not hot"))),
        draw(st.one_of(st.just(()), st.just(names), _some(names))),
        bullets,
        draw(st.one_of(st.none(), st.none(), st.none(), jump)) if end is None and not bullets else None,
    )


@st.composite
def _effects(draw: DrawFn, names: tuple[str, ...], kind: str) -> tuple[tuple, frozenset[str]]:
    """What follows the words of the step line, and its flags."""
    match kind:
        case "isolate" | "release" | "verify" | "test":
            return ((kind, draw(_some(names))),), frozenset()
        case "restore":
            flags = draw(st.sampled_from((("clear",), ("clear", "for-test"), ())))
            return (("restore", draw(_some(names))),), frozenset(flags)
        case "make safe":
            named = draw(_some(names))
            words = draw(_some(("isolate", "release", "verify"), 2))
            return tuple((word, named) for word in words), frozenset()
        case "open" | "close":
            thing = draw(st.sampled_from(("lid", "back")))
            return (("opens" if kind == "open" else "closes", (thing,)),), frozenset({"work"})
        case "probe":
            tester = draw(st.sampled_from(((), (("needs", ("voltage tester",)),))))
            return (("verify", draw(_some(names))), ("opens", ("lid",)), *tester), frozenset()
        case "decide":
            return (), frozenset({"decide", *draw(st.sampled_from(((), ("check",), ("work",))))})
    return (), FLAGS.get(kind, frozenset())


FLAGS = {"work": frozenset({"work"}), "look": frozenset({"check"}), "clear": frozenset({"ready", "clear"})}


@st.composite
def _bullets(draw: DrawFn, jump: SearchStrategy[int], words: set[str]) -> tuple[Bullet, ...]:
    """The outcomes of a proof, the answers of a decision, or none."""
    if "verify" in words:
        no, yes = Bullet("", draw(jump), False), Bullet("", draw(jump), True)
        return draw(st.sampled_from(((no,), (no, yes), (yes, no))))
    if "decide" in words:
        targets = draw(st.lists(jump, min_size=2, max_size=3))
        return tuple(Bullet(f"Answer {n}", target) for n, target in enumerate(targets))
    return ()
