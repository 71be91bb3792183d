// On the start page: the jobs that are open on this device, to go on with.
document.addEventListener("DOMContentLoaded", async () => {
  const place = document.querySelector("[data-open-jobs]");
  if (!place) return;
  const MOST = 4;
  const { store } = stillbench;

  const line = async (job) => {
    const href = placeOf(job) ?? sheetOf(job);
    return made("li", {}, made("a", { href }, made("b", {}, nameOf(job)), made("span", {}, await standingOf(job))));
  };

  const show = async () => {
    const open = (await store.jobs()).filter(({ end }) => !end);
    const rows = await Promise.all(open.slice(0, MOST).map(line));
    const all = made("p", {}, made("a", { className: "on", href: "jobs.html" }, open.length > MOST ? `All ${open.length} open jobs` : "All jobs on this device"));
    place.replaceChildren(...(rows.length ? [made("h2", {}, "Go on with a job"), made("ul", {}, ...rows), all] : []));
  };
  store.watch(show);
  show();
});
