"""Operations of the rows on Darcy's friction factor."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import pipe
from tests.reference.ops.columns import Got, Row, number


def _darcy_f(row: Row) -> Got:
    return {"exp_f": pipe.darcy(number(row, "Re"), number(row, "eD"))}


OPERATIONS: dict[str, Callable[[Row], Got]] = {"darcy_f": _darcy_f}
