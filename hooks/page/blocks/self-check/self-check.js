// One question at a time: the one the address names, else the first. Answers are plain links.
onJob((job) => {
  const questions = [...job.querySelectorAll(".question")];
  if (!questions.length) return;
  const trail = [];

  const show = (moved) => {
    const id = placeNamed();
    const question = questions.find((one) => one.id === id) ?? questions[0];
    for (const other of questions) other.toggleAttribute("data-open", other === question);
    job.dataset.at = question === questions[0] ? "first" : "later";
    if (trail.at(-2) === question.id) trail.pop();
    else if (trail.at(-1) !== question.id) trail.push(question.id);
    const back = question.querySelector(".back");
    back.href = `#${trail.at(-2) ?? ""}`;
    question.querySelector(".again").hidden = trail.length < 2;
    const root = document.documentElement.style;
    root.scrollPaddingTop = `${job.querySelector(".look-only").offsetHeight + 8}px`;
    root.scrollPaddingBottom = `${job.querySelector(".stop-bar").offsetHeight + 16}px`;
    if (!moved) return;
    scrollTo(0, 0);
    question.tabIndex = -1;
    question.focus({ preventScroll: true });
  };

  show(false);
  if (job.dataset.followed) return;
  job.dataset.followed = "yes";
  addEventListener("hashchange", () => job.isConnected && show(true));
});
