// Neighbours that need no looking at share one row; it opens them. Gives what folds the steps by the record of the job.
const folding = (article, steps) => {
  const { desk } = stillbench;
  const MOST_RAILS = 3;
  const numberOf = (step) => Number(step.dataset.number);
  const headOf = new Map(steps.map((step) => [step, step.previousElementSibling?.matches(".stage") ? step.previousElementSibling : null]));
  const open = new Set();
  let rows = new Map();

  const kindOf = (step, still) => {
    const number = numberOf(step);
    if (number === desk.record.at || step.dataset.done === "undone") return "";
    if (step.dataset.done && !(step.dataset.done === "rounded" && still.has(number))) return "done";
    return still.has(number) ? "" : "off";
  };

  const runs = () => {
    const still = desk.course.ahead(desk.record.at);
    const found = [];
    for (const step of steps) {
      const kind = kindOf(step, still);
      if (found.at(-1)?.kind === kind) found.at(-1).run.push(step);
      else found.push({ kind, run: [step] });
    }
    return found;
  };

  // The energies run on through a row: as its steps that act on them left them.
  const railOf = (run, kind) => {
    const rails = run.map((step) => step.querySelector(".rail"));
    const acting = kind === "done" ? rails.filter((rail) => rail.querySelector("use")).slice(-MOST_RAILS) : [];
    const shown = acting.length ? acting : rails.slice(-1);
    const whole = shown[0].cloneNode(false);
    for (const [at, rail] of shown.entries()) {
      const part = document.createElementNS(whole.namespaceURI, "svg");
      for (const [name, value] of Object.entries({ y: `${(100 * at) / shown.length}%`, height: `${100 / shown.length}%`, overflow: "visible" })) part.setAttribute(name, value);
      part.append(...rail.cloneNode(true).children);
      if (!acting.length) for (const sign of part.querySelectorAll("use")) sign.remove();
      whole.append(part);
    }
    return whole;
  };

  const made = (run, kind, heads) => {
    const key = `${kind} ${numberOf(run[0])}`;
    const row = article.querySelector("template.fold-one").content.firstElementChild.cloneNode(true);
    row.prepend(railOf(run, kind));
    const set = (opened) => {
      row.setAttribute("aria-expanded", String(opened));
      row.querySelector("u").textContent = opened ? "fold" : "open";
      for (const one of [...run, ...heads]) one.toggleAttribute("data-shown", opened);
      open[opened ? "add" : "delete"](key);
    };
    row.addEventListener("click", () => set(!open.has(key)));
    run[0].before(row);
    set(open.has(key));
    return row;
  };

  const tell = (row, run, kind) => {
    const [first, last] = [run[0], run.at(-1)].map(numberOf);
    const which = first === last ? `${first}` : `${first} to ${last}`;
    const safe = Object.entries(desk.record.proofs).filter(([, { step }]) => step >= first && step <= last);
    const proofs = safe.map(([energy, { at }]) => `${desk.named(energy)} proved off ${clock(at)}`).join(", ");
    const other = run.every(({ dataset }) => dataset.done === "other");
    row.querySelector("b").textContent = kind === "off" ? `${which} not on your way` : other ? `${which} not on ${desk.job.model}` : `${which} done`;
    row.querySelector("span").textContent = kind === "done" ? proofs : "";
  };

  const put = (kind, all) => {
    for (const one of all) if (one.dataset.fold !== kind) one.dataset.fold = kind;
  };

  return () => {
    const old = rows;
    rows = new Map();
    for (const { kind, run } of runs()) {
      const heads = run.slice(1).map((step) => headOf.get(step)).filter(Boolean);
      put(kind, [...run, ...heads]);
      put("", [headOf.get(run[0])].filter(Boolean));
      if (!kind) continue;
      const key = [kind, ...run.map(numberOf)].join(" ");
      const row = old.get(key) ?? made(run, kind, heads);
      tell(row, run, kind);
      rows.set(key, row);
    }
    for (const [key, row] of old) if (!rows.has(key)) row.remove();
  };
};
