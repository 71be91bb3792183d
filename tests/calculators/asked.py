"""A calculator asked as a page asks it; the answer must be JSON without NaN or infinity."""

from __future__ import annotations

import json

from calculators._lib.entry import answer


def ask(calculator: str, fields: object, limits: object = None, **more: object) -> dict:
    """The answer to these fields and limits."""
    request = json.dumps({"fields": fields, "limits": limits, "label": "Reading"} | more)
    return json.loads(answer(calculator, request), parse_constant=no_such_number)


def no_such_number(constant: str) -> None:
    """What JSON must not hold."""
    raise AssertionError(f"{constant} in the answer")
