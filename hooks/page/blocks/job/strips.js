// What must be said loudly: a break, a page that was changed, storage that keeps nothing, a job that is not here.
onJob((article) => {
  const strips = article.querySelector(".strips");
  if (!strips || strips.dataset.tells) return;
  strips.dataset.tells = "yes";
  const { desk, store } = stillbench;
  const strip = (name) => strips.querySelector(`.${name}`);
  const show = (name, shown) => {
    if (strip(name).hidden === !shown) return;
    strip(name).hidden = !shown;
    board.fit(article.querySelector(".board"));
  };
  const TROUBLE = {
    full: ["This device is full.", "What you do now is not kept. Save the job to a file, make room, then go on."],
    refused: ["This device keeps nothing.", "What you do is lost when the page is closed. Save the job to a file before that."],
    silent: ["This device does not answer.", "It is asked again and again; what it has kept is not lost by that. If it stays so, close the browser and open it anew."],
    wiped: ["The device has forgotten this job.", "What is on the screen is still here: save it to a file now."],
  };

  store.ontrouble((reason) => {
    const [what, todo] = TROUBLE[reason] ?? ["", ""];
    strip("trouble").querySelector(".what").textContent = what;
    strip("trouble").querySelector(".do").textContent = todo;
    strip("trouble").querySelector("[data-save]").hidden = !desk.job;
    show("trouble", Boolean(reason));
  });

  const tellAway = () => {
    const last = desk.record.breaks.at(-1);
    const here = last && !last.stayed && desk.record.line.at(-1).at === last.at;
    if (here) {
      const energies = Object.keys(last.proofs);
      const [step] = energies.map((energy) => last.proofs[energy].step).sort((a, b) => a - b);
      strip("away").querySelector(".since").textContent = ` since ${clock(last.since)}`;
      const again = strip("away").querySelector(".again");
      again.textContent = `Prove it again: step ${step}`;
      again.href = `#${article.querySelector(`.step[data-number="${step}"]`).id}`;
    }
    show("away", Boolean(here));
  };

  article.addEventListener("stillbench:record", () => {
    tellAway();
    strip("other").querySelector(".which").textContent = `You work on ${desk.job.revision ? `revision ${desk.job.revision}` : "it"} as it was then.`;
    show("other", desk.other);
  });
  strip("away").querySelector("[data-stayed]").addEventListener("click", () => desk.act("stayed"));
  const unopened = () => ["missing", "apart"].forEach((state) => show(state, article.dataset.desk === state));
  new MutationObserver(unopened).observe(article, { attributeFilter: ["data-desk"] });
});
