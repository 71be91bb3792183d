// Shows on the page what the record of a job says: what is ticked, what is known of the energies, what is off the way.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.shows) return;
  article.dataset.shows = "yes";
  const { desk } = stillbench;
  const steps = [...article.querySelectorAll(".step")];
  const numberOf = (step) => Number(step.dataset.number ?? 0);
  const fold = folding(article, steps);
  const LABELS = { done: (at) => `done ${clock(at)}`, undone: () => "taken back: do it again", rounded: (at) => `done in the round before, ${clock(at)}`, passed: () => "left out", other: () => `not on ${desk.job.model}` };
  const tellings = new Map();

  const stateOf = (number) => {
    if (!desk.course.fitted(number)) return "other";
    const entry = desk.record.steps.get(number);
    if (!entry) return "";
    if (entry.rounded) return "rounded";
    return entry.undone ? "undone" : entry.passed ? "passed" : "done";
  };

  // A way out names the step to which it really leads: not one that this model lacks.
  const name = (arm) => {
    const to = Number(document.getElementById(decodeURIComponent(arm.hash.slice(1))).dataset.number);
    const last = desk.course.passing(to).at(-1);
    if (!last) return;
    arm.querySelector(".to .n").textContent = last.to;
    arm.querySelector(".to .n").nextSibling.textContent = ` ${steps[last.to - 1].querySelector(".title").textContent}`;
  };

  // Where a step says whether it is done, and where a job that ends at it is ended.
  const prepared = (step) => {
    const told = Object.assign(document.createElement("p"), { className: "ticked" });
    const closing = step.querySelector(".closing");
    step.querySelector(".head .marks").before(told);
    for (const arm of step.querySelectorAll('.ways a.way[href^="#"]')) name(arm);
    closing?.append(article.querySelector("template.ends-one").content.cloneNode(true));
    tellings.set(step, { told, closing });
  };

  const mark = (step) => {
    if (!tellings.has(step)) prepared(step);
    const { told, closing } = tellings.get(step);
    const number = numberOf(step);
    const state = stateOf(number);
    const node = desk.course.nodes.get(number);
    const entry = desk.record.steps.get(number);
    if (step.dataset.done !== state) step.dataset.done = state;
    step.toggleAttribute("data-unfit", Boolean(node?.hands) && number === desk.record.at && !desk.course.fits(desk.record.known, number));
    told.textContent = state ? LABELS[state](entry?.at) + (entry?.unproved && !entry.undone ? ", hands in without the proofs" : "") : "";
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

  // What says the same already is left as it is: a finger may be on it.
  const put = (place, ...told) => {
    if (place.textContent !== told.map((one) => one.textContent ?? one).join("")) place.replaceChildren(...told);
  };

  // The bar takes the last tick back; the start page of the job leads on to where it stands.
  const tellBar = () => {
    const last = desk.last();
    const back = article.querySelector(".bar .back");
    back.hidden = !last;
    back.querySelector("span").textContent = last ? `Take back ${last.step}` : "";
    const start = article.querySelector(".start .way");
    const at = steps[Math.max(desk.record.at, 1) - 1];
    start.hash = `#${at.id}`;
    start.classList.add("main");
    put(start.querySelector(".answer"), Object.assign(document.createElement("b"), { textContent: desk.record.at ? "Go on" : "Start" }));
    put(start.querySelector(".to"), Object.assign(document.createElement("span"), { className: "n", textContent: at.dataset.number }), ` ${at.querySelector(".title").textContent}`);
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
