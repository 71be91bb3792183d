"""A second opinion on a small job, which shares nothing with the checker.

It plays a careful technician at a machine of plugs, valves, pipes and tanks: each supply
is taken to flow until one of its points is shut; what is trapped or stored is taken to be
in there until it is let out; only a proof tells that an energy is gone. It goes every way
a reader could go, until nothing new can happen, and writes down what went wrong where.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, replace

from .shapes import Action, Job, Source

Fault = tuple[str, int, str | None]
"""Rule, step, energy."""
STOP, OFF_PAGE = None, -1


@dataclass(frozen=True)
class World:
    """What the technician has to reckon with."""

    flowing: frozenset[str]
    """Supplies that may be coming in."""
    inside: frozenset[str]
    """Energies of which something may be left in the machine."""
    gone: frozenset[str]
    """Energies shown to be gone."""
    turned_off: frozenset[tuple[str, str]]
    """Plugs pulled and valves shut."""
    hands_in: bool
    loose: frozenset[str]
    """Covers and the like that are off."""
    heard: frozenset[str]
    """Energies that the reader was told about since they last came on."""
    noted: frozenset[tuple[str, str]]
    """Faults already written down on this way."""


class Machine:
    """One model of the job's machine."""

    def __init__(self, job: Job, options: tuple[str, ...]) -> None:
        self.options = options
        self.sources = {s.name: s for s in job.sources if self.has(s.only)}

    def has(self, only: str | None) -> bool:
        """Whether what is guarded so belongs to this model."""
        if only is None:
            return True
        if only.startswith("not "):
            return only[4:] not in self.options
        return only in self.options

    def supplies(self) -> list[str]:
        return [n for n, s in self.sources.items() if s.fed_by is None]

    def charges(self, name: str) -> set[str]:
        """An energy with the tanks and springs behind it."""
        behind = {name}
        for _ in self.sources:
            behind |= {n for n, s in self.sources.items() if s.fed_by in behind}
        return behind & set(self.sources) | {name}

    def mine(self, names: tuple[str, ...]) -> list[str]:
        return [n for n in names if n in self.sources]


def faults(job: Job) -> dict[Fault, tuple[tuple[str, ...], int]]:
    """Each fault with the models that show it, in order, and the steps of the shortest way to it."""
    found: dict[Fault, tuple[tuple[str, ...], int]] = {}
    for model, options in job.models:
        for fault, steps in _walk(job, Machine(job, options)).items():
            models, known = found.get(fault, ((), steps))
            found[fault] = ((*models, model), min(known, steps))
    return found


def _walk(job: Job, machine: Machine) -> dict[Fault, int]:
    everything = frozenset(machine.sources)
    world = World(
        frozenset(machine.supplies()), everything, frozenset(), frozenset(), False,
        frozenset(), frozenset(machine.mine(job.says)), frozenset(),
    )  # fmt: skip
    found: dict[Fault, int] = {}
    waiting, known = deque([(0, world, 1)]), {(0, world)}
    while waiting:
        number, world, steps = waiting.popleft()
        visit = Visit(job, machine, number, world)
        for target, after in visit.ways():
            if target not in (STOP, OFF_PAGE) and (target, after) not in known:
                known.add((target, after))
                waiting.append((target, after, steps + 1))
        for fault in visit.faults:
            found.setdefault(fault, steps)
    return found


class Visit:
    """One technician at one step."""

    def __init__(self, job: Job, machine: Machine, number: int, world: World) -> None:
        self.job, self.machine, self.number, self.world = job, machine, number, world
        self.action: Action = job.actions[number]
        self.faults: list[Fault] = []

    def ways(self) -> Iterator[tuple[int | None, World]]:
        """Where the reader may go on, and in which world."""
        action, before = self.action, self.world
        after = self.number + 1 if self.number + 1 < len(self.job.actions) else OFF_PAGE
        if not self.machine.has(action.only):
            yield after, before
            return
        if "optional" in action.flags:
            yield after, before
        held, failed = self.act()
        if action.end:
            yield STOP, held
        elif action.names("verify"):
            yes = [b for b in action.bullets if b.proof]
            yield (yes[0].target if yes else after if action.next is None else action.next), held
            yield from ((b.target, failed) for b in action.bullets if not b.proof)
        elif action.bullets or action.next is not None:
            yield from ((b.target, held) for b in action.bullets)
            if action.next is not None:
                yield action.next, held
        else:
            yield after, held

    def act(self) -> tuple[World, World]:
        """Do the step; the second world is the one in which its proof failed."""
        action, machine = self.action, self.machine
        self.world = replace(self.world, heard=self.world.heard | set(machine.mine(action.says)))
        self.touch()
        self.look()
        if "clear" in action.flags:
            self.world = replace(self.world, hands_in=False)
        for name in machine.mine(action.names("isolate")):
            self.shut(machine.sources[name])
        for word in ("release", "verify"):
            if action.names(word):
                self.beside(action.names(word))
            if word == "release":
                self.let_out(machine.mine(action.names("release")))
        failed = self.prove(machine.mine(action.names("verify")))
        self.turn_on(machine.mine(action.names("restore")))
        self.measure(machine.mine(action.names("test")))
        self.leave()
        return self.world, failed

    def note(self, rule: str, names: list[str]) -> None:
        """Write faults down, unless this way has them already."""
        new = {(rule, name) for name in names} - self.world.noted
        self.faults += [(rule, self.number, name) for _, name in new]
        self.world = replace(self.world, noted=self.world.noted | new)

    def forget(self, names: set[str]) -> None:
        kept = frozenset(pair for pair in self.world.noted if pair[1] not in names)
        self.world = replace(self.world, noted=kept)

    def still_there(self, names: list[str]) -> list[str]:
        return [n for n in names if n not in self.world.gone]

    def untold(self, names: list[str]) -> None:
        self.note("message-missing", [n for n in names if n not in self.world.heard])

    def touch(self) -> None:
        action, world = self.action, self.world
        opens, closes = action.names("opens"), action.names("closes")
        kinds = {"isolate", "release", "verify", "restore", "test"} & {w for w, _ in action.does}
        marked = kinds or action.end or {"work", "check", "ready", "decide"} & action.flags
        if marked and not (opens or closes or "work" in action.flags):
            return
        everything = list(self.machine.sources)
        tester = any("tester" in tool for tool in action.names("needs"))
        to_prove = action.names("verify") and opens and tester and action.says and "work" not in action.flags
        self.untold(everything)
        self.note("hands-on-live", [] if to_prove else self.still_there(everything))
        loose = (world.loose | set(opens)) - set(closes)
        self.world = replace(self.world, hands_in=True, loose=frozenset(loose))

    def look(self) -> None:
        if {"check", "ready"} & self.action.flags:
            self.beside(())

    def beside(self, names: tuple[str, ...]) -> None:
        """Near something open, nothing may flow but what is being dealt with."""
        live = [n for n in self.machine.supplies() if n in self.world.flowing and n not in names]
        self.note("look-into-live", live if self.world.loose else [])

    def shut(self, source: Source) -> None:
        if source.fed_by is not None:
            return
        point = self.action.at or source.points[0]
        self.world = replace(
            self.world,
            turned_off=self.world.turned_off | {(source.name, point)},
            flowing=self.world.flowing - {source.name},
        )
        self.forget(self.machine.charges(source.name))

    def let_out(self, names: list[str]) -> None:
        self.untold(names)
        fed = [n for n in names if self.being_fed(n)]
        self.note("release-out-of-order", fed)
        self.world = replace(self.world, inside=self.world.inside - (set(names) - set(fed)))

    def being_fed(self, name: str) -> bool:
        """Whether what is let out would come in again."""
        feeder = self.machine.sources[name].fed_by or name
        if feeder not in self.machine.sources:
            return False
        if self.machine.sources[feeder].fed_by is None:
            return feeder in self.world.flowing
        return feeder in self.world.inside

    def prove(self, names: list[str]) -> World:
        self.untold(names)
        hopeless, early = [], []
        for name in names:
            source = self.machine.sources[name]
            if source.fed_by is None and name in self.world.flowing:
                hopeless.append(name)
            elif (source.trapped or source.fed_by) and name in self.world.inside:
                early.append(name)
        self.note("verify-before-isolate", hopeless)
        self.note("release-out-of-order", early)
        behind = set().union(*(self.machine.charges(n) for n in names))
        failed = self.on_again(behind)
        shown = set(names) - set(hopeless) - set(early)
        self.world = replace(self.world, gone=self.world.gone | shown)
        return failed

    def on_again(self, names: set[str]) -> World:
        flowing = self.world.flowing | (names & set(self.machine.supplies()))
        gone, inside = self.world.gone - names, self.world.inside | names
        return replace(self.world, flowing=flowing, gone=gone, inside=inside)

    def turn_on(self, names: list[str]) -> None:
        bad = names if self.world.hands_in else []
        ajar = names if self.world.loose and "for-test" not in self.action.flags else []
        noted = {("restore-before-clear", n) for n in bad} | {("left-open", n) for n in ajar}
        self.faults += [(rule, self.number, name) for rule, name in noted - self.world.noted]
        for name in names:
            source = self.machine.sources[name]
            point = self.action.at or (source.points[0] if source.points else "")
            self.world = replace(self.world, turned_off=self.world.turned_off - {(name, point)})
        shut = {n for n, _ in self.world.turned_off} & set(names)
        on = set().union(*(self.machine.charges(n) for n in set(names) - shut))
        touched = set().union(*(self.machine.charges(n) for n in names))
        self.world = self.on_again(on)
        self.world = replace(
            self.world,
            gone=self.world.gone - shut,
            inside=self.world.inside | shut,
            heard=self.world.heard - touched,
        )
        self.forget(touched)
        self.world = replace(self.world, noted=self.world.noted | noted)

    def measure(self, names: list[str]) -> None:
        if not names and not self.action.names("test"):
            return
        self.untold(names)
        dead = [n for n in names if not self.alive(n)]
        self.note("live-test-dead", dead)
        if self.world.loose:
            others = [n for n in self.machine.supplies() if n not in names]
            self.note("hands-on-live", self.still_there(others))

    def alive(self, name: str) -> bool:
        if self.machine.sources[name].fed_by is None:
            return name in self.world.flowing
        return name in self.world.inside

    def leave(self) -> None:
        end = self.action.end
        if end is None:
            return
        if self.world.loose and end != "stopped":
            self.faults.append(("left-open", self.number, None))
        dry = self.machine.mine(self.action.names("without"))
        wrong = self.still_there(dry)
        for name in self.machine.supplies():
            if name not in dry and not self.promised(end, name):
                wrong.append(name)
        self.faults += [("wrong-closing-state", self.number, name) for name in wrong]

    def promised(self, end: str, name: str) -> bool:
        if end in ("in service", "as found"):
            return name in self.world.flowing and name not in {n for n, _ in self.world.turned_off}
        return name in self.world.gone or (end == "stopped" and name in self.world.heard)
