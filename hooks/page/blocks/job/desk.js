// The job that is being done on this page: the one the address names. Blocks ask the desk and hear from it
// by the event "stillbench:record" at the article, once when the job is opened and after every act.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { store } = stillbench;
  const named = () => new URLSearchParams(location.search).get("job");
  const desk = { job: null, graph: null, course: null, record: null, events: [], other: false };
  // As it was delivered, before any script touched it.
  const pristine = document.querySelector(".job.procedure")?.outerHTML;
  let article = null;
  // An act shows the record itself: it is not shown once more because the store tells of it. What another tab did
  // meanwhile is read after it.
  let acting = 0;
  let behind = false;

  const graphOf = (place) => JSON.parse(place.querySelector("#graph").textContent);

  const say = () => article.dispatchEvent(new CustomEvent("stillbench:record", { bubbles: true, detail: desk }));

  const know = (events) => {
    desk.events = events;
    desk.record = stillbench.record(desk.course, events);
  };

  const read = async () => {
    behind = false;
    know(await store.events(desk.job.id));
  };

  const refresh = async () => {
    await read();
    say();
  };

  const keep = async (kind, data, extra) => {
    acting += 1;
    const event = await store.add(desk.job.id, kind, data, extra).finally(() => (acting -= 1));
    if (!behind && event.n === desk.events.at(-1)?.n + 1) know([...desk.events, event]);
    else await read();
  };

  const heard = (far) => {
    if (!acting) refresh();
    else if (far) behind = true;
  };

  // A page that was changed since the job began is put away for the one with which the job began. Where that one
  // is not here the job is not opened: the tables of another page would say of the energies what nobody checked.
  const place = async (job) => {
    const now = graphOf(article);
    if (job.digest === now.digest) return now;
    const kept = await store.page(job.digest);
    desk.other = true;
    if (!kept) return null;
    article.outerHTML = kept.article;
    article = document.querySelector(".job");
    onJob.again();
    return graphOf(article);
  };

  const open = async (id) => {
    article.dataset.desk = "opening";
    const job = await store.job(id);
    if (!job) return (article.dataset.desk = "missing");
    const graph = await place(job);
    if (!graph) return (article.dataset.desk = "apart");
    desk.job = job;
    desk.graph = graph;
    desk.course = stillbench.course(desk.graph, job.model);
    await read();
    article.dataset.desk = "open";
    say();
  };

  Object.assign(desk, {
    // Kept for good before it is told: what the page shows after acts is what the device has. `first` is done with
    // the new record before it is shown.
    async acts(all, first = () => {}) {
      for (const one of all) await keep(...one);
      first();
      say();
    },
    act: (kind, data = {}, extra = {}) => desk.acts([[kind, data, extra]]),
    // The step that was ticked last and can be taken back: not one that was passed over by itself.
    last: () => desk.record.live.findLast(({ step }) => desk.course.fitted(step)),
    // Begins a job on this page and goes on in it; `about`: model, serial, place, reference, complaint.
    async begin(about, more = {}) {
      const graph = graphOf(article);
      const { page, title, revision, digest, appliance } = graph;
      const path = article.dataset.address;
      const job = { id: store.fresh(), page, title, revision, digest, appliance, path, ...about, at: 0, end: null };
      await store.begin(job, { ...about, ...more }, { digest, article: pristine });
      return job.id;
    },
    address: (id, step = "") => `${location.pathname}?job=${id}${step && `#${step}`}`,
    refresh,
  });

  onJob((found) => {
    if (!found.matches(".procedure") || found === article) return;
    const first = !article;
    article = found;
    if (!first) return;
    if (named()) open(named());
    store.watch((job, far) => desk.job?.id === job && desk.record && heard(far));
  });

  stillbench.desk = desk;
})();
