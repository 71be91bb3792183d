// In a job every step that is opened has a place for what was seen there.
const recordOf = (article, step) => {
  if (!step) return null;
  const there = step.querySelector(".record");
  if (there) return there;
  const made = article.querySelector("template.record-one").content.firstElementChild.cloneNode(true);
  (step.querySelector(".ways:last-of-type") ?? step.querySelector(".body")).after(made);
  return made;
};
// Runs `show(step, place)` for the open step whenever another one is opened and whenever the job says something new.
const onRecord = (article, show) => {
  const tell = () => {
    const step = article.dataset.desk === "open" && stillbench.desk.record && article.querySelector(".step[data-open]");
    if (step) show(step, recordOf(article, step));
  };
  for (const kind of ["stillbench:open", "stillbench:record"]) article.addEventListener(kind, tell);
};
