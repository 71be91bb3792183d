"""Values and the units they are typed and shown in."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib.words import number, with_uncertainty

METRIC = "metric"
US = "US"
SYSTEMS = (METRIC, US)
"""Whose units a reader wants; the first where nobody has said."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A unit that a value may be typed in: base = typed * factor + offset."""

    text: str
    factor: float = 1.0
    offset: float = 0.0
    also: tuple[str, ...] = ()
    """Other spellings that are understood; case counts."""
    system: str = ""
    """`metric` or `US` where only those readers use it."""

    def to_base(self, typed: float) -> float:
        """A number in this unit, in the base unit."""
        return typed * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """A number in the base unit, in this unit."""
        return (value - self.offset) / self.factor


@dataclass(frozen=True, slots=True)
class Amount:
    """A value in the base unit of its units, put into words in those of the reader."""

    value: float
    units: tuple[Choice, ...]
    expanded: float = 0.0
    """Expanded uncertainty, k = 2; none is said where it is 0."""
    digits: int = 3
    """How many digits are shown where there is no uncertainty to say it."""

    def said(self, system: str = METRIC) -> str:
        """The value with its unit, and with ± where there is an uncertainty.

        >>> Amount(1.94, (Choice("L/min"),)).said(), Amount(1.94, (Choice("L/min"),), 0.03).said()
        ('1.94 L/min', '1.94 ± 0.03 L/min')
        """
        unit = preferred(self.units, system)
        value = unit.from_base(self.value)
        if self.expanded > 0:
            return " ".join(filter(None, (" ± ".join(with_uncertainty(value, self.expanded / unit.factor)), unit.text)))
        return " ".join(filter(None, (number(float(f"{value:.{self.digits}g}")), unit.text)))


Words = str | tuple[str | Amount, ...]
"""A sentence, or its pieces with the amounts between them."""


def preferred(units: tuple[Choice, ...], system: str) -> Choice:
    """The unit in which a reader of that system is told a value: their own first, or else the first.

    >>> preferred((Choice("L/min", system="metric"), Choice("gal/min", 3.785, system="US")), "US").text
    'gal/min'
    """
    return next((u for u in units if u.system == system), units[0])


def said(words: Words, system: str = METRIC) -> str:
    """The sentence with its amounts in the reader's units.

    >>> said(("About ", Amount(62.0, (Choice("s"),)), " a litre."))
    'About 62 s a litre.'
    """
    return words if isinstance(words, str) else "".join(w if isinstance(w, str) else w.said(system) for w in words)
