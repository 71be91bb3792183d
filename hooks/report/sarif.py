"""Findings as SARIF 2.1.0, for code hosts and for editors that show a path step by step.

The path is a code flow: at each step its words, the way out taken, and the energies as `state`. A finding in shared
steps stands where it is written; the lines that use them are related places. `results` is there on a clean run too:
it is how a host closes what was found before.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from urllib.parse import quote

from hooks.check.explained import EXPLAINED, markdown, text
from hooks.diagnostics import Finding, PathStep, StepRef
from hooks.report.text import qualified, way
from hooks.source import Place

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "%SRCROOT%"
"""What the addresses of files start from: the root of the repository."""
Json = dict[str, Any]


def render(findings: Iterable[Finding]) -> str:
    """The report as one JSON document, the same bytes for the same input."""
    ordered = sorted(findings, key=lambda f: (f.order, repr(f)))
    names = sorted({*EXPLAINED, *(f.rule for f in ordered)})
    run = {
        "tool": {"driver": {"name": "Stillbench", "rules": [_rule(name) for name in names]}},
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {ROOT: {"description": {"text": "The root of the repository."}}},
        "results": list(_results(ordered, names)),
    }
    document = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _rule(name: str) -> Json:
    rules = EXPLAINED[name]
    return {
        "id": name,
        "shortDescription": {"text": rules[0].summary},
        "help": {"text": text(name), "markdown": markdown(name)},
        "defaultConfiguration": {"level": rules[0].levels[0].value},
    }


def _results(ordered: list[Finding], names: list[str]) -> Iterator[Json]:
    place = {name: index for index, name in enumerate(names)}
    seen: Counter[str] = Counter()
    for finding in ordered:
        seen[finding.fingerprint] += 1
        known_by = f"{finding.fingerprint}:{seen[finding.fingerprint]}"  # two of a rule in one step stay two
        yield {"ruleId": finding.rule, "ruleIndex": place[finding.rule], **_result(finding, known_by)}


def _result(finding: Finding, fingerprint: str) -> Json:
    flow = {"codeFlows": [{"threadFlows": [{"locations": list(_flow(finding))}]}]} if finding.path else {}
    used = [{**_at(place), "message": {"text": "used here"}} for place in finding.used]
    because = [{"kind": "inSource", "justification": finding.because}] if finding.because else []
    return {
        "level": finding.level.value,
        "message": {"text": _literal(" ".join(filter(None, (f"{qualified(finding)}.", finding.help))))},
        "locations": [{**_at(Place(finding.file, finding.span)), **_logical(finding.step)}],
        **({"relatedLocations": used} if used else {}),
        "partialFingerprints": {"stillbench/v1": fingerprint},
        **flow,
        "suppressions": because,  # where one result has this key, all must: none is not the same as unknown
        "properties": {"energy": finding.energy, "models": list(finding.models)},
    }


def _at(place: Place) -> Json:
    span = place.span
    region = {"startLine": span.line, "startColumn": span.column, "endLine": span.end_line, "endColumn": span.end_column}
    return _physical(place.file, region)


def _physical(file: str, region: Json) -> Json:
    return {"physicalLocation": {"artifactLocation": {"uri": quote(file), "uriBaseId": ROOT}, "region": region}}


def _logical(step: StepRef | None) -> Json:
    return {"logicalLocations": [{"name": step.id, "kind": "step"}]} if step else {}


def _flow(finding: Finding) -> Iterator[Json]:
    known: Mapping[str, str] = {}
    for order, step in enumerate(finding.path, 1):
        now = dict(step.energies)
        about = [finding.energy] if finding.energy in now else list(now)
        turned = any(now[e] != known.get(e, "ON") for e in about)
        yield {
            "location": {
                **_physical(step.file, {"startLine": step.line}),
                **_logical(step.step),
                "message": {"text": _literal(_passed(step))},
            },
            "executionOrder": order,
            "importance": "essential" if turned or step.note or order == len(finding.path) else "important",
            "nestingLevel": len(step.used),
            "state": {energy: {"text": state} for energy, state in now.items()},
        }
        known = now


def _passed(step: PathStep) -> str:
    used = f", used by {', '.join(f'{p.file}:{p.span.line}' for p in step.used)}" if step.used else ""
    return f"{step.step.title} {way(step)}".rstrip() + (f": {step.note}" if step.note else "") + used


def _literal(text: str) -> str:
    """A sentence as a message string: braces would be placeholders (3.11.5), brackets before a parenthesis a link (3.11.6)."""
    text = text.replace("{", "{{").replace("}", "}}")
    return text.replace("\\", "\\\\").replace("[", "\\[").replace("]", "\\]") if "](" in text else text
