// Neighbours that need no looking at share one row; it opens them. Gives what folds the steps by the record of the job.
const folding = (article, steps) => {
  const { desk } = stillbench;
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

  const made = (run, kind, heads) => {
    const key = `${kind} ${numberOf(run[0])}`;
    const row = article.querySelector("template.fold-one").content.firstElementChild.cloneNode(true);
    row.prepend(railOf(run.map((step) => step.querySelector(".rail")), kind === "done"));
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
