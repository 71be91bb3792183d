// Opens a job from a file. It was written by anybody: it is held against the schema before anything is kept, and
// kept whole or not at all.
(() => {
  const { store, file: FILE } = stillbench;
  const SIGNS = { "image/jpeg": /^\xff\xd8\xff/, "image/png": /^\x89PNG\r\n\x1a\n/, "image/webp": /^RIFF[^]{4}WEBP/ };

  const pictureOf = ({ id, type, data }) => {
    const text = atob(data);
    if (!SIGNS[type].test(text)) throw new TypeError("no picture");
    return { id, blob: new Blob([Uint8Array.from(text, (letter) => letter.charCodeAt(0))], { type }) };
  };

  const trouble = (saved) => {
    if (saved?.format !== FILE.format) return "This is not a job that was saved from these pages.";
    if (Number.isInteger(saved.version) && saved.version > FILE.version) return `It was saved by newer pages than these (version ${saved.version}; these read ${FILE.version}). Load these pages anew where there is a network, then open it again.`;
    const wrong = stillbench.wrong(stillbench.jobSchema, saved);
    if (wrong) return `It is damaged, or was changed by hand: ${wrong}.`;
    const ids = [...saved.events, ...saved.photos].map(({ id }) => id);
    return new Set(ids).size < ids.length ? "It is damaged: two of its entries are one." : "";
  };

  // Looks at a file and keeps nothing: {trouble} says why it is refused, else {saved, photos, here}.
  stillbench.read = async (file) => {
    if (file.size > FILE.most) return { trouble: `It is larger than ${FILE.most / 1e6} MB; no job is.` };
    try {
      const saved = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer()));
      const refused = trouble(saved);
      if (refused) return { trouble: refused };
      return { saved, photos: saved.photos.map(pictureOf), here: Boolean(await store.job(saved.job.id)) };
    } catch (error) {
      return { trouble: error.name === "NotReadableError" ? "The device could not read it." : "It is damaged, or no saved job at all: it cannot be read." };
    }
  };

  // Keeps what was read, as a copy under a new id where that is wished; gives the id. Nobody watched the machine
  // while the job was a file: what was proved is to be proved again.
  stillbench.take = async ({ saved, photos }, copy) => {
    const job = { ...saved.job, id: copy ? store.fresh() : saved.job.id, graph: saved.graph };
    const course = stillbench.course({ edges: [], ...saved.graph }, job.model);
    const record = stillbench.record(course, saved.events);
    const events = saved.events.map((event) => ({ ...event, job: job.id, id: copy ? store.fresh() : event.id }));
    const at = Math.max(Date.now(), record.last);
    if (!record.end && Object.keys(record.proofs).length) events.push({ job: job.id, id: store.fresh(), at, kind: "away", since: record.last });
    await store.receive({ ...job, at: record.at, end: record.end?.end ?? null, changed: at }, events, photos);
    return job.id;
  };
})();
