"""Numbers typed by a wet hand: understood, or refused with a message that names the field."""

from __future__ import annotations

import re
from math import inf

from calculators._lib.amounts import US, Choice
from calculators._lib.declare import Input, Refusal, Typed
from calculators._lib.words import listed, number

LARGEST, SMALLEST = 1e15, 1e-12
"""Nothing that is read at a machine lies outside these."""
LONGEST = 40
"""More characters than this are not a number."""
OPEN_WORDS = ("overload", "overrange", "infinity", "open", "over", "inf", "ofl", "ol", "0l", "∞")

_SAME = {ord(c): "-" for c in "−–—‒‐‑﹣－"}
_SAME |= {ord(c): " " for c in "\t\n\r\u00a0\u2007\u2009\u202f\u3000"}
_SAME |= {0xFF10 + n: str(n) for n in range(10)}
_SAME |= {ord(c): f" {t}" for c, t in zip("½⅓⅔¼¾⅛⅜⅝⅞", "1/2 1/3 2/3 1/4 3/4 1/8 3/8 5/8 7/8".split(), strict=True)}
_SAME |= {ord("＋"): "+", ord("．"): ".", ord("，"): ",", ord("’"): "'", ord("⁄"): "/", 0x2126: "\u03a9"}
_LOOKALIKE = str.maketrans("lI|Oo", "11100")

_PARTS = re.compile(r"([+-]?) ?([0-9.,']*[0-9.,])([eE][+-]?[0-9]{1,3})? ?(.*)")
_FRACTION = re.compile(r"([+-]?) ?(?:([0-9]{1,3})[ -])?([0-9]{1,2})/(2|3|4|8|16|32|64) ?([^0-9].*)?")
_GROUPS = re.compile(r"[0-9]{1,3}(?:['.,][0-9]{3})+")
_EITHER = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_PLAIN = re.compile(r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+")


def read(text: str, to: Input, bare: Choice | None = None) -> Typed:
    """The value typed into the field `to`, in its base unit; `bare` is the unit of a number alone.

    Raises Refusal, with a message that begins with the label of the field.
    """
    clean = " ".join(text.translate(_SAME).split())
    if not clean:
        raise Refusal(to.name, f"{to.label}: nothing is typed yet.")
    if len(clean) > LONGEST:
        raise Refusal(to.name, f"{to.label}: that is too long for a number.")
    if to.open_words and _says_open(clean, to):
        return Typed(inf, 0.0)
    return _believed(_measured(clean, to, bare or to.units[0]), clean, to)


def pick(text: str, to: Input) -> float:
    """The value of the word picked in the field `to`. Raises Refusal."""
    for option in to.options:
        if text.strip().casefold() == option.text.casefold():
            return option.value
    raise Refusal(to.name, f"{to.label}: pick {listed([o.text for o in to.options])}.")


def _says_open(clean: str, to: Input) -> bool:
    compact = re.sub(r"[ ./]", "", clean).casefold().removeprefix("+")
    tails = {""} | {word.casefold() for unit in to.units for word in (unit.text, *unit.also)}
    return any(compact.startswith(w) and compact[len(w) :] in tails for w in OPEN_WORDS)


def _measured(clean: str, to: Input, bare: Choice) -> Typed:
    fraction = _FRACTION.fullmatch(clean)
    if fraction:
        return _fraction(fraction, clean, to, bare)
    parts = _PARTS.fullmatch(clean)
    if parts is None:
        raise Refusal(to.name, f"{to.label}: “{clean}” is not a number.{_perhaps(clean)}")
    sign, body, power, tail = parts.groups()
    unit = bare if not tail else _unit(tail, to)
    if unit is None:
        raise Refusal(to.name, f"{to.label}: “{clean}” is not understood.{_perhaps(clean) or _units(tail, to)}")
    digits = _digits(body, clean, to)
    exponent = int((power or "e0")[1:])
    decimals = len(digits.partition(".")[2])
    return Typed(
        unit.to_base(float(f"{sign}{digits}e{exponent}")),
        float(f"1e{exponent - decimals}") * unit.factor,
    )


def _fraction(parts: re.Match[str], clean: str, to: Input, bare: Choice) -> Typed:
    """Halves to sixty-fourths, as they are stamped on what is sold by the inch, and in such units alone."""
    sign, whole, top, bottom, tail = parts.groups()
    unit = _unit(tail, to) if tail else bare
    if unit is None or unit.system != US or int(top) >= int(bottom):
        usual = next((f" Type “{clean} {u.text}” if that is meant." for u in to.units if not tail and u.system == US), "")
        raise Refusal(to.name, f"{to.label}: “{clean}” is not understood.{usual or ' Type a decimal number.'}")
    size = int(whole or 0) + int(top) / int(bottom)
    return Typed(unit.to_base(-size if sign == "-" else size), unit.factor / int(bottom))


def _unit(tail: str, to: Input) -> Choice | None:
    spelled = tail.rstrip(".")
    return next((u for u in to.units if spelled == u.text or spelled in u.also), None)


def _units(tail: str, to: Input) -> str:
    if tail[0].isdigit():
        return " Type one number, without a space in it."
    known = [u.text for u in to.units if u.text]
    return f" Type it in {listed(known)}." if known else " Type the number alone."


def _perhaps(clean: str) -> str:
    guess = clean.translate(_LOOKALIKE)
    meant = guess != clean and _PLAIN.fullmatch(guess)
    return f" It has a letter in it. Did you mean {guess}?" if meant else ""


def _digits(body: str, clean: str, to: Input) -> str:
    """`body` with a point for its decimals and no marks between thousands."""
    if _EITHER.fullmatch(body):
        whole, _, rest = body.partition(",")
        ways = f"{whole}.{rest} or {whole}{rest}"
        raise Refusal(to.name, f"{to.label}: “{clean}” can be read two ways. Type {ways}.")
    whole, mark, rest = _cut(body)
    if _GROUPS.fullmatch(whole) and len(set(re.sub("[0-9]", "", whole))) == 1:
        whole = re.sub("[^0-9]", "", whole)
    plain = f"{whole}.{rest}" if mark else whole
    if not _PLAIN.fullmatch(plain):
        raise Refusal(to.name, f"{to.label}: “{clean}” is not a number.")
    return plain


def _cut(body: str) -> tuple[str, str, str]:
    """Whole part, decimal mark, decimals: a mark that comes twice parts thousands."""
    last = max(body.rfind("."), body.rfind(","))
    if last < 0 or body.count(body[last]) > 1:
        return body, "", ""
    return body[:last], body[last], body[last + 1 :]


def _believed(typed: Typed, clean: str, to: Input) -> Typed:
    size = abs(typed.value)
    if size > LARGEST or 0 < size < SMALLEST:
        raise Refusal(to.name, f"{to.label}: “{clean}” is not a value that can be measured.")
    if to.low is not None and typed.value < to.low:
        raise Refusal(to.name, f"{to.label}: “{clean}” is less than {_edge(to.low, to)}. {to.below}".strip())
    if to.high is not None and typed.value > to.high:
        raise Refusal(to.name, f"{to.label}: “{clean}” is more than {_edge(to.high, to)}.")
    return typed


def _edge(value: float, to: Input) -> str:
    return f"{number(value)} {to.unit}".strip()
