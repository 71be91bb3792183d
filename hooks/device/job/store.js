// Jobs on this device: what was done is a list of events, each kept for good before the page answers to it.
// What cannot be kept is held while the page is open, and said at once.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { within, wish, of } = database;
  const channel = "BroadcastChannel" in window ? new BroadcastChannel(database.NAME) : null;
  const watchers = new Set();
  const troubled = new Set();
  const held = new Map();
  let trouble = "";

  const worry = (reason) => {
    trouble = reason;
    for (const tell of troubled) tell(reason);
  };

  const REASONS = { QuotaExceededError: "full", NotFoundError: "wiped" };
  const reasonOf = (error) => REASONS[error?.name] ?? "refused";

  const fresh = () => [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

  const heldOf = (job) => held.get(job) ?? [];

  // An event that is there already, because an answer to it was lost, is not kept twice.
  const write = async (all, event, extra) => {
    const events = all.objectStore("events");
    if (await wish(events.index("id").getKey(event.id))) return;
    const job = extra.job ?? (await wish(all.objectStore("jobs").get(event.job)));
    if (!job) throw new DOMException("the job is gone", "NotFoundError");
    const last = await wish(events.openKeyCursor(of(event.job), "prev"));
    await wish(events.add({ ...event, n: last ? last.key[1] + 1 : 0 }));
    if (extra.page) await wish(all.objectStore("pages").put(extra.page));
    if (extra.photo) await wish(all.objectStore("photos").put({ ...extra.photo, job: event.job }));
    if (extra.gone) await wish(all.objectStore("photos").delete([event.job, extra.gone]));
    await wish(all.objectStore("jobs").put({ ...job, ...extra.summary, changed: event.at }));
  };

  const tell = (job, far = true) => {
    for (const watch of watchers) watch(job);
    if (far) channel?.postMessage(job);
  };
  channel?.addEventListener("message", ({ data }) => tell(data, false));

  // What could not be kept stays in its place before what comes next.
  const keep = async (event, extra) => {
    const waiting = [...heldOf(event.job), { event, extra }];
    try {
      await within("readwrite", async (all) => {
        for (const one of waiting) await write(all, one.event, one.extra);
      });
      held.delete(event.job);
      if (trouble && !held.size) worry("");
    } catch (error) {
      held.set(event.job, waiting);
      worry(reasonOf(error));
    }
    tell(event.job);
  };

  let line = Promise.resolve();
  const put = (job, kind, data, extra) => {
    const event = { ...data, job, id: fresh(), at: Date.now(), kind };
    line = line.then(() => keep(event, extra(event)));
    return line.then(() => event);
  };

  const read = (store, ask) =>
    within("readonly", (all) => ask(all.objectStore(store))).catch((error) => (worry(reasonOf(error)), null));

  // What was held may have been kept while the device was read.
  const joined = (kept, own) => {
    const ids = new Set(kept?.map(({ id }) => id));
    return [...(kept ?? []), ...own.filter(({ id }) => !ids.has(id))];
  };

  stillbench.store = {
    fresh,
    get trouble() {
      return trouble;
    },
    ontrouble: (told) => (troubled.add(told), told(trouble)),
    watch: (watcher) => watchers.add(watcher),
    // `extra` may have a photo that comes with the event, the id of one that goes, and what the list of jobs says.
    add: (job, kind, data = {}, extra = {}) => put(job, kind, data, () => extra),
    // `page` is the page as it is now, {digest, article}: the job stays with it when the page is changed.
    begin: (job, data, page) => put(job.id, "begin", data, ({ at }) => ({ job: { ...job, began: at, changed: at }, page })),
    page: (digest) => read("pages", (pages) => wish(pages.get(digest))),
    job: async (id) => (await read("jobs", (jobs) => wish(jobs.get(id)))) ?? heldOf(id).find(({ extra }) => extra.job)?.extra.job ?? null,
    async jobs() {
      const kept = (await read("jobs", (jobs) => wish(jobs.getAll()))) ?? [];
      const own = [...held.values()].flat().flatMap(({ extra }) => extra.job ?? []);
      return [...kept, ...own].sort((a, b) => b.changed - a.changed);
    },
    events: async (job) => joined(await read("events", (events) => wish(events.getAll(of(job)))), heldOf(job).map(({ event }) => event)),
    photos: async (job) => joined(await read("photos", (photos) => wish(photos.getAll(of(job)))), heldOf(job).flatMap(({ extra }) => extra.photo ?? [])),
    // A whole job from elsewhere, in one go or not at all.
    receive: (job, events, photos) =>
      within("readwrite", async (all) => {
        await wish(all.objectStore("jobs").add(job));
        for (const [n, event] of events.entries()) await wish(all.objectStore("events").add({ ...event, job: job.id, n }));
        for (const photo of photos) await wish(all.objectStore("photos").add({ ...photo, job: job.id }));
      }).then(() => tell(job.id)),
    remove: (job) =>
      within("readwrite", async (all) => {
        for (const store of ["events", "photos"]) await wish(all.objectStore(store).delete(of(job)));
        const gone = await wish(all.objectStore("jobs").get(job));
        await wish(all.objectStore("jobs").delete(job));
        const others = await wish(all.objectStore("jobs").getAll());
        if (gone?.digest && !others.some(({ digest }) => digest === gone.digest)) await wish(all.objectStore("pages").delete(gone.digest));
      }).then(() => (held.delete(job), tell(job))),
  };
})();
