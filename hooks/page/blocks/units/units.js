// Metric or US: chosen once and kept on this device. It picks the unit beside an empty field, and those of the answers.
const system = {
  KEPT: "stillbench.units",
  held: "metric",
  chosen() {
    try {
      return localStorage.getItem(system.KEPT) ?? system.held;
    } catch {
      return system.held;
    }
  },
  keep(name) {
    system.held = name;
    try {
      localStorage.setItem(system.KEPT, name);
    } catch {
      // Storage is full or refused: it holds for this page.
    }
  },
  // Where a number stands, or is offered, its unit stays: 20 beside mm must not become 20 beside in.
  show() {
    for (const radio of document.querySelectorAll(".system input")) radio.checked = radio.value === system.chosen();
    for (const select of document.querySelectorAll("select.unit")) {
      const input = select.parentElement.querySelector("input");
      const own = [...select.options].findIndex((option) => option.dataset.system === system.chosen());
      if (own >= 0 && !input?.value && !input?.placeholder) select.selectedIndex = own;
    }
  },
};
document.addEventListener("DOMContentLoaded", system.show);
document.addEventListener("change", ({ target }) => {
  if (!target.matches(".system input")) return;
  system.keep(target.value);
  system.show();
  document.querySelector(".calculator form")?.dispatchEvent(new Event("input", { bubbles: true }));
});
