"""Slows a whole browser down: its processes are stopped for most of every few milliseconds.

The browser's own throttling does not reach workers, and a quota of the system needs root.
Works where /proc does, on Linux.
"""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SLICE = 0.005
"""Seconds that the browser runs before it is stopped."""
LOOK_AGAIN = 0.1
"""Seconds between two looks for new processes."""


@contextmanager
def slowed(times: float) -> Iterator[None]:
    """Let the browsers that this process started run `times` slower until the end of the block."""
    done = threading.Event()
    thread = threading.Thread(target=_stop_and_go, args=(times, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _stop_and_go(times: float, done: threading.Event) -> None:
    pids, looked = _browsers(), time.monotonic()
    while not done.is_set():
        if time.monotonic() - looked > LOOK_AGAIN:
            pids, looked = _browsers(), time.monotonic()
        _send(signal.SIGSTOP, pids)
        time.sleep(SLICE * (times - 1))
        _send(signal.SIGCONT, pids)
        time.sleep(SLICE)


def _send(what: signal.Signals, pids: list[int]) -> None:
    for pid in pids:
        try:
            os.kill(pid, what)
        except ProcessLookupError:
            continue


def _browsers() -> list[int]:
    """The processes of browsers among those that this process started."""
    parents, commands = {}, {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            fields = (folder / "stat").read_text().rpartition(")")[2].split()
            commands[int(folder.name)] = (folder / "cmdline").read_bytes().partition(b"\0")[0]
        except OSError:
            continue
        parents[int(folder.name)] = int(fields[1])
    ours = {os.getpid()}
    while more := {pid for pid, parent in parents.items() if parent in ours} - ours:
        ours |= more
    return [pid for pid in ours if b"chrom" in commands.get(pid, b"")]
