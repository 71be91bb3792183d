// Working through the steps of a job: a way out ticks its step, is kept, and leads on.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.works) return;
  article.dataset.works = "yes";
  const { desk } = stillbench;
  let busy = false;

  const placeOf = (number) => article.querySelector(`.step[data-number="${number}"]`);

  // Steps that this model has not are passed over, and it is said. What is led to is open before anything is shown.
  const leadOn = async (kind, data, summary, to) => {
    const passed = desk.course.passing(to);
    const passes = passed.map((edge) => ["done", { step: edge.from, to: edge.to, words: "", passed: edge.words }, { summary: { at: edge.to } }]);
    const place = placeOf(passed.at(-1)?.to ?? to);
    await desk.acts([[kind, data, { summary }], ...passes], () => lead.open(place));
    lead.go(place);
  };

  // Hands that would go in without the proofs: nothing is ticked by accident.
  const stopped = (step, number) => {
    const hands = desk.course.nodes.get(number).hands && !desk.course.fits(desk.record.known, number);
    const warning = step.querySelector(".unproved");
    if (!hands || step.dataset.anyway) return false;
    const node = warning ?? article.querySelector("template.unproved-one").content.firstElementChild.cloneNode(true);
    if (!warning) step.querySelector(".ways").before(node);
    const [missing, proof] = desk.missing(number);
    node.querySelector(".missing").textContent = missing;
    node.querySelector(".prove").hidden = !proof;
    node.querySelector(".nowhere").hidden = Boolean(proof);
    if (proof) Object.assign(node.querySelector(".prove"), { href: `#${placeOf(proof).id}`, textContent: `Prove it: step ${proof}` });
    node.scrollIntoView({ block: "center" });
    node.querySelector("a, button").focus({ preventScroll: true });
    return true;
  };

  const leave = async (arm) => {
    const step = arm.closest(".step");
    const number = Number(step.dataset.number);
    const passed = arm.dataset.passed;
    if (!passed && stopped(step, number)) return;
    await desk.flush?.(step);
    const target = Number(document.getElementById(decodeURIComponent(arm.hash.slice(1))).dataset.number);
    const done = { step: number, to: target, words: arm.querySelector(".answer").textContent.trim() };
    if (arm.dataset.verdict) done.verdict = arm.dataset.verdict;
    if (passed) done.passed = passed;
    if (step.dataset.anyway) done.unproved = true;
    delete step.dataset.anyway;
    await leadOn("done", done, { at: target }, target);
  };

  const end = async (button) => {
    const number = Number(button.closest(".step").dataset.number);
    const { end, outcome, cause } = desk.course.nodes.get(number);
    await desk.flush?.(button.closest(".step"));
    await desk.act("end", { step: number, end, outcome, cause }, { summary: { end } });
  };

  const back = async () => {
    const last = desk.last();
    if (!last) return;
    await leadOn("back", { to: last.step }, { at: last.step, end: null }, last.step);
  };

  const once = async (work, pressed) => {
    if (busy) return;
    busy = true;
    pressed.setAttribute("aria-busy", "true");
    try {
      await work(pressed);
    } finally {
      busy = false;
      pressed.removeAttribute("aria-busy");
    }
  };

  article.addEventListener("click", (event) => {
    if (article.dataset.desk !== "open") return;
    const find = (selector) => event.target.closest(selector);
    const [arm, ends, undo, anyway] = ['.step .ways a.way[href^="#"]', "[data-ends]", ".bar .back", "[data-all-the-same]"].map(find);
    const work = arm ? leave : ends ? end : undo ? back : null;
    if (anyway) {
      anyway.closest(".step").dataset.anyway = "yes";
      return anyway.closest(".unproved").remove();
    }
    if (!work) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    once(work, arm ?? ends ?? undo);
  });

  // Somebody looks at another step: nothing is taken back, the job stands there.
  article.addEventListener("stillbench:open", ({ detail }) => {
    if (article.dataset.desk !== "open" || busy || !detail.step) return;
    const number = Number(document.getElementById(detail.step).dataset.number);
    if (number !== desk.record.at) desk.act("go", { to: number }, { summary: { at: number } });
  });
});
