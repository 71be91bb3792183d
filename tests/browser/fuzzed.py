"""Types bad texts into every field of a form, in the page, one after the other; nothing is judged here."""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass

from playwright.sync_api import Page

from calculators._lib.declare import Calculator
from tests.browser.conftest import ROOT


@dataclass(frozen=True)
class Shown:
    """What the page shows with one text in one field, all others being good."""

    field: str
    label: str
    text: str
    wanted: bool
    """Whether an answer needs this field."""
    state: str
    said: str
    """The words in the place of the answer."""
    beside: str
    """The message beside the field."""
    elsewhere: str
    """Messages beside other fields."""

    @property
    def names(self) -> str:
        """What a sentence must hold to name the field: its label, without the number of its row."""
        return re.sub(r", \d$", "", self.label).lower()


def texts() -> dict[str, str]:
    """The bad texts by their class."""
    with (ROOT / "tests/reference/open_robust_inputs.csv").open(encoding="utf-8", newline="") as rows:
        found = {row["class"]: row["input_text"] for row in csv.DictReader(rows)}
    assert found["empty"] == ""
    return found


def on_own_page(page: Page, calculator: Calculator) -> list[Shown]:
    """Every text in every field of the calculator's own page, the worked example in the others."""
    example = calculator.example
    limits = {"low": example.low, "high": example.high, "unit": example.unit}
    needed = [i.name for i in calculator.inputs if i.required and not i.keep]
    given = {"fields": example.fields, "limits": limits, "needed": needed, "texts": list(texts().values())}
    return [Shown(**one) for one in page.evaluate(f"async (given) => {{ {COMMON} {OWN_PAGE} }}", given)]


def in_reading(page: Page, id: str, good: Mapping[str, str]) -> list[Shown]:
    """The same with the fields of one reading of a procedure page."""
    given = {"reading": id, "fields": dict(good), "texts": list(texts().values())}
    return [Shown(**one) for one in page.evaluate(f"async (given) => {{ {COMMON} {READING} }}", given)]


COMMON = """
const real = window.stillbench.calculate;
let asked = null;
window.stillbench.calculate = (...question) => (asked = real(...question));
const settled = async (input) => {
  asked = null;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await asked;
  await new Promise((done) => setTimeout(done));
};
const words = (element) => (element?.checkVisibility() ? element.innerText.trim() : "");
const all = async (inputs, shown) => {
  const found = [];
  for (const input of inputs) {
    const good = input.value;
    for (const text of given.texts) {
      input.value = text;
      await settled(input);
      found.push({ field: input.name || input.id, label: input.labels[0].firstChild.textContent.trim(), text, ...shown(input) });
    }
    input.value = good;
    await settled(input);
  }
  return found;
};
"""

OWN_PAGE = """
const job = document.querySelector(".calculator");
const form = job.querySelector("form");
const put = (input, text) => {
  const option = [...(input?.options ?? [])].find((one) => one.textContent === text);
  if (option) input.value = option.value;
  else if (input && !input.options) input.value = text ?? "";
};
for (const [name, text] of Object.entries(given.fields)) put(form.querySelector(`[name="${name}"]`), text);
for (const name of ["low", "high"]) put(form.querySelector(`[data-limit=${name}]`), given.limits[name]);
put(form.querySelector("fieldset .unit"), given.limits.unit);
const inputs = [...form.querySelectorAll("input:not([type=radio])")];
await settled(inputs[0]);
if (job.dataset.state !== "judged") throw new Error("The worked example is not judged: " + job.querySelector(".outcome").innerText);
return all(inputs, (input) => {
  const place = input.closest("[data-field]");
  const others = [...form.querySelectorAll(".why")].filter((why) => !place.contains(why));
  return {
    wanted: given.needed.includes(input.name) && !input.id.match(/--[2-9]$/),
    state: job.dataset.state,
    said: words(job.querySelector(".outcome")),
    beside: words(place.querySelector(".why")),
    elsewhere: others.map(words).join(" ").trim(),
  };
});
"""

READING = """
const reading = document.querySelector(`[data-reading="${given.reading}"]`);
const job = reading.closest(".job");
reading.closest(".step").dataset.open = "";
for (const fold of reading.querySelectorAll("details")) fold.open = true;
const inputs = [...reading.querySelectorAll("input")];
const fields = reading.querySelectorAll(".gauge input");
for (const input of inputs) input.value = given.fields[input.name] ?? "";
await settled(inputs[0]);
if (reading.dataset.state !== "judged") throw new Error("The good values are not judged: " + reading.innerText);
return all(inputs, (input) => ({
  label: fields.length > 1 ? input.labels[0].textContent : "",
  wanted: Boolean(input.closest(".gauge")) && !("optional" in input.dataset),
  state: reading.dataset.state,
  said: words(reading.querySelector(".verdict")),
  beside: words(reading.querySelector(".refused .why")),
  elsewhere: "",
}));
"""
