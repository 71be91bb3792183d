// One question at a time: the one the address names, else the first. Answers are plain links.
onJob((job) => {
  const questions = [...job.querySelectorAll(".question")];
  if (!questions.length) return;
  const { kept, keep, forget } = keptAnswers(job);
  let pressed = null;

  const show = (moved) => {
    const id = placeNamed();
    const question = questions.find((one) => one.id === id) ?? questions[0];
    for (const other of questions) other.toggleAttribute("data-open", other === question);
    job.dataset.at = question === questions[0] ? "first" : "later";
    kept.way = wayTo(kept.way, question.id, pressed);
    pressed = null;
    question.querySelector(".back").href = `#${kept.way.at(-2)?.id ?? ""}`;
    question.querySelector(".again").hidden = kept.way.length < 2 && question === questions[0];
    question.querySelector(".back").hidden = kept.way.length < 2;
    showSummary(job, question, kept);
    keep();
    const root = document.documentElement.style;
    root.scrollPaddingTop = `${job.querySelector(".look-only").offsetHeight + 8}px`;
    root.scrollPaddingBottom = `${job.querySelector(".stop-bar").offsetHeight + 16}px`;
    if (!moved) return;
    scrollTo(0, 0);
    question.tabIndex = -1;
    question.focus({ preventScroll: true });
  };

  const said = (link) => [...link.childNodes].filter(({ nodeName }) => nodeName !== "I").map((node) => node.textContent).join("").trim();
  const press = (link) => {
    if (link.hash === `#${kept.way.at(-1).id}` || link.matches(".back")) return;
    if (link.matches(".first")) forget();
    pressed = link.closest(".ways") ? { answer: said(link) } : {};
  };

  show(false);
  if (job.dataset.followed) return;
  job.dataset.followed = "yes";
  wireSummary(job, kept, keep);
  job.addEventListener("click", (event) => {
    const link = event.target.closest(".question a[href^='#'], .stop-bar a[href^='#']");
    if (link) press(link);
  });
  addEventListener("hashchange", () => job.isConnected && show(true));
});
