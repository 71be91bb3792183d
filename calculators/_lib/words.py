"""Numbers as a technician writes them."""

from __future__ import annotations

from math import floor, log10

THIN = "\u202f"
"""Between thousands; does not break."""


def number(value: float) -> str:
    """A number without more digits than it needs, thousands parted from 10 000 on.

    >>> number(500.0), number(0.7), number(2e6)
    ('500', '0.7', '2\\u202f000\\u202f000')
    """
    text = f"{value:.12g}"
    return _grouped(f"{value:.12f}".rstrip("0").rstrip(".") if "e" in text else text)


def fixed(value: float, step: float) -> str:
    """A reading as a meter with that step shows it.

    >>> fixed(22.0, 0.1), fixed(2000.0, 10.0)
    ('22.0', '2000')
    """
    return _grouped(f"{value:.{max(0, -floor(log10(step) + 1e-9))}f}")


def with_uncertainty(value: float, expanded: float, extra: int = 0) -> tuple[str, str]:
    """Value and uncertainty to the same place; the uncertainty with one digit, or two if small.

    `extra` asks for more places.

    >>> with_uncertainty(312.0, 4.04), with_uncertainty(1200.0, 18.475), with_uncertainty(1.9, 0.43)
    (('312', '4'), ('1200', '18'), ('1.9', '0.4'))
    """
    if expanded <= 0:
        return number(value), "0"
    places = decimals(expanded) + extra
    return _rounded(value, places), _rounded(expanded, places)


def give_or_take(value: float, expanded: float) -> str:
    """Value and uncertainty in one; three digits where it has none.

    >>> give_or_take(83.2, 6.1), give_or_take(83.2111, 0.0)
    ('83 ± 6', '83.2')
    """
    return " ± ".join(with_uncertainty(value, expanded)) if expanded else number(float(f"{value:.3g}"))


def percent(share: float) -> str:
    """A chance in words that promise no more than it can.

    >>> percent(0.873), percent(0.9999), percent(1e-9)
    ('about 87 %', 'more than 99 %', 'less than 1 %')
    """
    if share > 0.99:
        return "more than 99 %"
    return "less than 1 %" if share < 0.01 else f"about {share * 100:.0f} %"


def listed(words: list[str]) -> str:
    """Words to choose from.

    >>> listed(["ohm", "kohm", "Mohm"])
    'ohm, kohm or Mohm'
    """
    return " or ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def decimals(expanded: float) -> int:
    """How many decimals to show beside that uncertainty: two digits of it up to 25, else one.

    >>> decimals(4.04), decimals(0.18), decimals(40.0)
    (0, 2, -1)
    """
    power = floor(log10(expanded))
    lead = expanded / 10.0**power
    return (1 if lead <= 2.5 else 0) - power


def _rounded(value: float, places: int) -> str:
    rounded = round(value, places) + 0.0
    return _grouped(f"{rounded:.{max(places, 0)}f}")


def _grouped(text: str) -> str:
    whole, point, rest = text.partition(".")
    return (f"{int(whole):,}".replace(",", THIN) if len(whole.lstrip("-")) > 4 else whole) + point + rest
