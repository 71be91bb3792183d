// Jobs on this device: what was done is a list of events, each kept for good before the page answers to it.
// What cannot be kept is held while the page is open, and said at once.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { within, wish, of } = database;
  const channel = "BroadcastChannel" in window ? new BroadcastChannel(database.NAME) : null;
  const watchers = new Set();
  const troubled = new Set();
  const held = new Map();
  const worries = { kept: "", answer: "" };
  let trouble = "";

  // What could not be kept comes before what is not answered.
  const worry = (of, reason) => {
    worries[of] = reason;
    const now = worries.kept || worries.answer;
    if (now === trouble) return;
    trouble = now;
    for (const tell of troubled) tell(now);
  };

  const REASONS = { QuotaExceededError: "full", NotFoundError: "wiped" };
  const reasonOf = (error) => REASONS[error?.name] ?? "refused";
  const PASSING = new Set(["AbortError", "InvalidStateError", "TimeoutError", "UnknownError"]);
  const AGAIN = 500; // milliseconds until a device that failed is asked once more
  const LATE = 5000; // milliseconds within which a device answers, if it is going to

  // A device that does not answer may do so later: until then it is said.
  const answered = (asked) => {
    const late = setTimeout(worry, LATE, "answer", "silent");
    return asked.then((found) => (worry("answer", ""), found)).finally(() => clearTimeout(late));
  };

  const fresh = () => [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

  const heldOf = (job) => held.get(job) ?? [];

  // An event that is there already, because an answer to it was lost, is not kept twice. Gives its number in the job.
  // What is written fails as a whole, with its transaction.
  const write = async (all, event, extra) => {
    const [events, jobs, photos, pages] = ["events", "jobs", "photos", "pages"].map((name) => all.objectStore(name));
    const asked = [events.index("id").getKey(event.id), events.openKeyCursor(of(event.job), "prev"), jobs.get(event.job)];
    const [there, last, found] = await Promise.all(asked.map(wish));
    if (there) return there[1];
    const job = extra.job ?? found;
    if (!job) throw new DOMException("the job is gone", "NotFoundError");
    const n = last ? last.key[1] + 1 : 0;
    events.add({ ...event, n });
    if (extra.page) pages.put(extra.page);
    if (extra.photo) photos.put({ ...extra.photo, job: event.job });
    if (extra.gone) photos.delete([event.job, extra.gone]);
    jobs.put({ ...job, ...extra.summary, changed: event.at });
    return n;
  };

  const tell = (job, far = true) => {
    for (const watch of watchers) watch(job, !far);
    if (far) channel?.postMessage(job);
  };
  channel?.addEventListener("message", ({ data }) => tell(data, false));

  // What could not be kept stays in its place before what comes next. Gives the event, with its number once it is kept.
  const keep = async (event, extra) => {
    const waiting = [...heldOf(event.job), { event, extra }];
    const all = async (open) => {
      for (const one of waiting) one.n = await write(open, one.event, one.extra);
    };
    const kept = () => {
      held.delete(event.job);
      if (!held.size) worry("kept", "");
      return { ...event, n: waiting.at(-1).n };
    };
    const lost = (error) => {
      held.set(event.job, waiting);
      worry("kept", reasonOf(error));
      return event;
    };
    const known = await answered(within("readwrite", all)).then(kept, lost);
    tell(event.job);
    return known;
  };

  let line = Promise.resolve();
  const put = (job, kind, data, extra) => {
    const event = { ...data, job, id: fresh(), at: Date.now(), kind };
    return (line = line.then(() => keep(event, extra(event))));
  };

  // What the device fails to give is not missing: it is asked for again. Gives null where the device gives nothing at all.
  const read = async (store, ask) => {
    for (;;) {
      try {
        return await answered(within("readonly", (all) => ask(all.objectStore(store))));
      } catch (error) {
        const passing = PASSING.has(error?.name);
        worry("answer", passing ? "silent" : reasonOf(error));
        if (!passing) return null;
        await new Promise((resolve) => setTimeout(resolve, AGAIN));
      }
    }
  };

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
