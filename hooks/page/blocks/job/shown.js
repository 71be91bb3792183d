// Shows on the page what the record of a job says: what is ticked, what is known of the energies, what is off the way.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.shows) return;
  article.dataset.shows = "yes";
  const { desk } = stillbench;
  const steps = [...article.querySelectorAll(".step")];
  const numberOf = (step) => Number(step.dataset.number ?? 0);
  const openFolds = new Set();

  const LABELS = { done: (at) => `done ${clock(at)}`, undone: () => "taken back: do it again", rounded: (at) => `done in the round before, ${clock(at)}`, passed: () => "left out", other: () => `not on ${desk.job.model}` };

  const stateOf = (number) => {
    if (!desk.course.fitted(number)) return "other";
    const entry = desk.record.steps.get(number);
    if (!entry) return "";
    if (entry.rounded) return "rounded";
    return entry.undone ? "undone" : entry.passed ? "passed" : "done";
  };

  const mark = (step) => {
    const number = numberOf(step);
    const state = stateOf(number);
    step.dataset.done = state;
    const node = desk.course.nodes.get(number);
    step.toggleAttribute("data-unfit", Boolean(node?.hands) && number === desk.record.at && !desk.course.fits(desk.record.known, number));
    let told = step.querySelector(".head .ticked");
    if (!told) step.querySelector(".head .marks").before((told = Object.assign(document.createElement("p"), { className: "ticked" })));
    const entry = desk.record.steps.get(number);
    told.textContent = state ? LABELS[state](entry?.at) + (entry?.unproved && !entry.undone ? ", hands in without the proofs" : "") : "";
    const closing = step.querySelector(".closing");
    if (closing && !closing.querySelector("[data-ends]")) closing.append(article.querySelector("template.ends-one").content.cloneNode(true));
    if (closing) ending(closing, desk.record.end?.step === number);
  };

  const ending = (closing, ended) => {
    closing.querySelector("[data-ends]").hidden = ended;
    const sheet = closing.querySelector(".to-sheet");
    sheet.hidden = !ended;
    sheet.href = `${article.dataset.root}job-sheet.html?job=${desk.job.id}`;
    const on = closing.querySelector("a[data-then]");
    if (on) on.search = ended ? `?from=${desk.job.id}` : "";
  };

  const ahead = () => {
    const seen = new Set([desk.record.at]);
    for (const number of seen) for (const edge of desk.course.edges) if (edge.from === number) seen.add(edge.to);
    return seen;
  };

  // Neighbours that need no looking at share one row; it opens them.
  const fold = () => {
    for (const row of article.querySelectorAll(".fold-row")) row.remove();
    for (const stage of article.querySelectorAll(".stage")) stage.dataset.fold = "";
    const still = ahead();
    const kinds = steps.map((step) => {
      const number = numberOf(step);
      if (number === desk.record.at || step.dataset.done === "undone") return "";
      if (step.dataset.done && !(step.dataset.done === "rounded" && still.has(number))) return "done";
      return still.has(number) ? "" : "off";
    });
    for (let start = 0; start < steps.length; ) {
      let end = start;
      while (end + 1 < steps.length && kinds[end + 1] === kinds[start]) end += 1;
      const run = steps.slice(start, end + 1);
      const heads = run.slice(1).flatMap(({ previousElementSibling: head }) => (head.matches(".stage") ? head : []));
      for (const one of [...run, ...heads]) one.dataset.fold = kinds[start];
      if (kinds[start]) row(run, kinds[start], heads);
      start = end + 1;
    }
  };

  const row = (run, kind, heads) => {
    const [first, last] = [run[0], run.at(-1)].map(numberOf);
    const made = article.querySelector("template.fold-one").content.firstElementChild.cloneNode(true);
    const key = `${kind} ${first}`;
    const steps = first === last ? `${first}` : `${first} to ${last}`;
    const safe = Object.entries(desk.record.proofs).filter(([, { step }]) => step >= first && step <= last);
    const proofs = safe.map(([energy, { at }]) => `${desk.named(energy)} proved off ${clock(at)}`).join(", ");
    made.querySelector("b").textContent = kind === "off" ? `${steps} not on your way` : run.every(({ dataset }) => dataset.done === "other") ? `${steps} ${LABELS.other()}` : `${steps} done`;
    made.querySelector("span").textContent = kind === "done" ? proofs : "";
    const set = (open) => {
      made.setAttribute("aria-expanded", String(open));
      made.querySelector("u").textContent = open ? "fold" : "open";
      for (const one of [...run, ...heads]) one.toggleAttribute("data-shown", open);
      openFolds[open ? "add" : "delete"](key);
    };
    made.addEventListener("click", () => set(!openFolds.has(key)));
    run[0].before(made);
    set(openFolds.has(key));
  };

  // The bar takes the last tick back; the start page of the job leads on to where it stands.
  const tellBar = () => {
    const last = desk.record.live.at(-1);
    const back = article.querySelector(".bar .back");
    back.hidden = !last;
    back.querySelector("span").textContent = last ? `Take back ${last.step}` : "";
    const start = article.querySelector(".start .way");
    const at = steps[Math.max(desk.record.at, 1) - 1];
    start.hash = `#${at.id}`;
    start.classList.add("main");
    start.querySelector(".answer").replaceChildren(Object.assign(document.createElement("b"), { textContent: desk.record.at ? "Go on" : "Start" }));
    start.querySelector(".to").replaceChildren(Object.assign(document.createElement("span"), { className: "n", textContent: at.dataset.number }), ` ${at.querySelector(".title").textContent}`);
  };

  article.addEventListener("stillbench:record", () => {
    for (const step of steps) mark(step);
    fold();
    const place = article.querySelector("[data-open]");
    if (place) board.show(article, board.of(place));
    tellBar();
    const at = steps[desk.record.at - 1];
    if (at && !location.hash) location.replace(`#${at.id}`);
  });
});
