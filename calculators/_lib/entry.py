"""The one function that a page calls: a request as JSON in, an answer as JSON out; it never raises."""

from __future__ import annotations

from json import dumps, loads
from math import inf

from calculators._lib import chart, number_line, sentence, shelf
from calculators._lib.amounts import METRIC, SYSTEMS, said
from calculators._lib.conformity import WAYS
from calculators._lib.declare import Calculator, Limits, Refusal, Result
from calculators._lib.fields import read_request


def answer(calculator_id: str, request_json: str) -> str:
    """Answer `{"fields": {…}, "limits": {…}, "label": "…", "units": "metric"}` with verdict, words and picture,
    or with refusals."""
    try:
        found = answer_to(calculator_id, loads(request_json))
        return dumps(found, ensure_ascii=False, allow_nan=False)
    except Exception as error:  # the technician must hear of it, whatever it is
        broken = Refusal("", f"The calculator failed ({type(error).__name__}). Nothing is judged.")
        return dumps(_refused(calculator_id, "", (broken,)), ensure_ascii=False)


def answer_to(calculator_id: str, request: object) -> dict[str, object]:
    """The same on objects in place of JSON."""
    calculator = shelf.get(calculator_id)
    if calculator is None:
        return _refused(calculator_id, "", (Refusal("", f"There is no calculator “{calculator_id}”."),))
    if not _well_formed(request):
        return _refused(calculator.id, calculator.version, (Refusal("", "The request is not understood."),))
    system = request.get("units") or METRIC
    asked = read_request(calculator, request.get("fields") or {}, request.get("limits") or {}, system)
    if asked.refused:
        return _refused(calculator.id, calculator.version, asked.refused)
    try:
        result = calculator.work(**asked.values, limits=asked.limits)
    except Refusal as refusal:
        return _refused(calculator.id, calculator.version, (refusal,))
    label = request.get("label") or calculator.title
    return _judged(calculator, result, result.limits or asked.limits, label, system)


def _well_formed(request: object) -> bool:
    if not isinstance(request, dict):
        return False
    parts = (request.get("fields") or {}, request.get("limits") or {})
    if request.get("units") not in (None, *SYSTEMS):
        return False
    return all(isinstance(p, dict) for p in parts) and isinstance(request.get("label") or "", str)


def _refused(calculator_id: str, version: str, refusals: tuple[Refusal, ...]) -> dict[str, object]:
    return {
        "calculator": calculator_id,
        "version": version,
        "refused": [{"field": r.field, "message": r.message, "row": r.row} for r in refusals],
        "verdict": None,
        "ways": [],
        "kind": None,
        "word": None,
        "sign": None,
        "sentence": "",
        "say": "",
        "value": None,
        "uncertainty": None,
        "unit": "",
        "picture": "",
        "outputs": [],
        "notes": [],
        "meter": "",
    }


def _judged(calculator: Calculator, result: Result, limits: Limits, label: str, system: str) -> dict[str, object]:
    labels = {o.name: o.label for o in calculator.outputs}
    return _refused(calculator.id, calculator.version, ()) | {
        "verdict": result.verdict,
        "ways": list(WAYS.get(result.verdict, ())),
        "kind": result.kind,
        "word": result.verdict and result.verdict.upper(),
        "sign": sentence.SIGNS.get(result.verdict),
        "sentence": sentence.sentence(calculator, result, limits, system),
        "say": sentence.say(calculator, result, limits, label, system),
        "value": result.value,
        "uncertainty": result.uncertainty,
        "unit": calculator.judged.units[0].text,
        "picture": chart.draw(result.picture, system) if result.picture else number_line.draw(_line(result, limits)),
        "outputs": [{"name": n, "label": labels[n], "text": said(words, system)} for n, words in result.outputs],
        "notes": [said(words, system) for words in result.notes],
        "meter": result.meter,
    }


def _line(result: Result, limits: Limits) -> number_line.Line:
    unit = limits.unit
    low, high = sentence.edges(limits)
    tell = tuple(None if t is None else t / unit.factor for t in result.tell)
    if result.value is None:
        return number_line.Line(low, high, unit.text, inf, words=result.kind or "", tell=tell)
    value, expanded = unit.from_base(result.value), (result.uncertainty or 0.0) / unit.factor
    return number_line.Line(low, high, unit.text, value, expanded, sentence.shown(result, limits), tell)
