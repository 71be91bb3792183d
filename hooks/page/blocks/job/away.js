// Notices that nobody was at the machine: the page was closed, or untouched for longer than the shop allows.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.watched) return;
  article.dataset.watched = "yes";
  const { desk } = stillbench;
  const LIMIT = Number(article.dataset.away) * 1000;
  let touched = Date.now();
  let leaving = false;

  // A tab keeps this over a reload and loses it when it is closed.
  const here = {
    get: () => sessionStorage.getItem(`stillbench.at.${desk.job.id}`),
    set: () => sessionStorage.setItem(`stillbench.at.${desk.job.id}`, "yes"),
  };
  const quietly = (work) => {
    try {
      return work();
    } catch {
      return null;
    }
  };

  const leave = async (since) => {
    if (leaving || desk.record.end || !Object.keys(desk.record.proofs).length) return;
    leaving = true;
    await desk.act("away", { since });
    leaving = false;
  };

  article.addEventListener("stillbench:record", () => {
    if (desk.away) return;
    desk.away = true;
    if (!quietly(here.get)) leave(desk.record.last);
    quietly(here.set);
  });

  const look = () => {
    const now = Date.now();
    const since = touched;
    touched = now;
    if (article.dataset.desk === "open" && now - since > LIMIT) leave(since);
  };
  for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, () => article.isConnected && look(), { capture: true });
  document.addEventListener("visibilitychange", () => article.isConnected && !document.hidden && Date.now() - touched > LIMIT && look());
});
