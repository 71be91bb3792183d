"""What search looks through, read as its own script reads it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import accumulate


def given(script: str) -> dict[str, str]:
    return json.JSONDecoder().raw_decode(script[script.index("(") + 1 :])[0]


def rows(table: str) -> Iterator[tuple[str, list[int], list[str]]]:
    """Each text of a table, the numbers of what it belongs to, and what else is said of it."""
    first = 0
    for line in filter(None, table.split("\n")):
        text, places, *rest = line.split("\t")
        _, *on = accumulate(map(int, places.split()), initial=first)
        first = on[0]
        yield text, on, rest


def entries(script: str) -> list[dict]:
    found = given(script)
    whole = zip(found["address"].split("\n"), found["title"].split("\n"), strict=True)
    made = [{"address": address, "title": title} for address, title in whole]
    for name in ("sort", "appliance", "stage", "symptoms", "codes"):
        for text, places, _ in rows(found[name]):
            for at in places:
                made[at][name] = [*made[at].get(name, ()), text]
    for one in made:
        if one["address"].endswith("#"):
            one["address"] += one["codes"][0].lower()
        if one["title"].endswith(": "):
            one["title"] += one["appliance"][0]
    given_on = list(rows(found["on"]))
    for giver, (_, places, _) in zip(accumulate(int(far) for far, _, _ in given_on), given_on, strict=True):
        for at in places:
            made[at]["from"] = [*made[at].get("from", ()), made[giver]["address"]]
    return made
