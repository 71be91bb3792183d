"""A live test can be reached with the energy off, or does not say hands off.

Why:
    A reading of 0 V on a machine that is unplugged says nothing, and the wrong part
    gets changed. What is live is read without hands. Informed by 29 CFR 1910.147(f)(1)
    (energise, test, then isolate again).

Example reported:
    ### Unplug {#unplug isolate="electricity"}
    Keep the plug in sight.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Stop](#stop)
    ### Read the voltage {#live test="electricity"}
    Hands off. Read the meter.

Example mended:
    ### Unplug {#unplug isolate="electricity"}
    Keep the plug in sight.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Stop](#stop)
    ### Power up for the test {#power restore="electricity" for-test clear}
    Tools out, people back, then plug in.
    ### Read the voltage {#live test="electricity"}
    Hands off. Read the meter.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hooks.check.analysis import State
from hooks.check.breach import Breach
from hooks.check.energy import Act, Machine, Situation, Word
from hooks.check.english import HANDS_OFF
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.parse.result import ParsedShop

ACTS = (Word.TEST,)
HERE = "read dead here"


LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each electric test whose words do not keep the hands away."""
    for step in page.steps:
        said = "\n".join((step.title, step.prose, *(message.text for message in step.messages)))
        if "electricity" in step.test and not HANDS_OFF.search(said):
            yield Found(
                step.span_of("test"),
                f'live test "{step.title}" does not say to keep the hands away',
                "Say: hands off, touch only the meter.",
                step,
                "electricity",
                level=Level.WARNING,
            )


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """The energies to be read that are not ON."""
    return [e for e in act.energies if now.states[e] is not State.ON]


def say(breach: Breach) -> tuple[str, str]:
    """Which energy the reading would miss."""
    points = breach.now.shut_points(breach.energy or 0)
    where = f' at="{points[0]}"' if points else ""
    return (
        f'live test "{breach.step.title}" can be reached with {breach.name} {breach.state.words}',
        f'Turn it on first, in a step with `restore="{breach.name}"{where} clear`.',
    )
