"""How an answer is held against a case; the same file works in CPython and in the browser."""

from __future__ import annotations

NEAR = 1e-3


def differences(expected: object, got: object, where: str = "answer") -> list[str]:
    """Where `got` does not agree: keys not named in `expected` are not looked at."""
    if isinstance(expected, dict) and isinstance(got, dict):
        missing = [f"{where}: no {k}" for k in expected if k not in got]
        return missing + [d for k, v in expected.items() if k in got for d in differences(v, got[k], f"{where}.{k}")]
    if isinstance(expected, list) and isinstance(got, list) and len(expected) == len(got):
        pairs = enumerate(zip(expected, got, strict=True))
        return [d for i, (e, g) in pairs for d in differences(e, g, f"{where}[{i}]")]
    if _numbers(expected, got):
        agree = abs(got - expected) <= NEAR * abs(expected)
    else:
        agree = expected == got
    return [] if agree else [f"{where}: {got!r}, not {expected!r}"]


def _numbers(*values: object) -> bool:
    return all(isinstance(v, int | float) and not isinstance(v, bool) for v in values)
