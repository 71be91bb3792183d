// Saves the job of a page to a file from where trouble is told: also what the device has forgotten since it was shown.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.saves) return;
  article.dataset.saves = "yes";
  const { desk } = stillbench;
  const seen = new Map();

  article.addEventListener("stillbench:record", () => {
    for (const event of desk.events) seen.set(event.id, event);
  });
  article.addEventListener("click", ({ target }) => {
    if (target.closest("[data-save]")) stillbench.save(desk.job.id, { job: desk.job, graph: desk.graph, events: [...seen.values()], photos: [] });
  });
});
