// A job as a file, made without a server: all that is needed to open it on another device.
(() => {
  const FILE = { format: "stillbench job", version: 1, most: 60e6 };
  const stillbench = (window.stillbench ??= {});
  const { store } = stillbench;
  const NODE = ["number", "title", "hands", "verifies", "restores", "installs"];
  const MACHINE = ["models", "known", "away", "acts"];

  const picked = (from, names) => Object.fromEntries(names.filter((name) => name in from).map((name) => [name, from[name]]));
  const parsed = (article) => JSON.parse(new DOMParser().parseFromString(article, "text/html").querySelector("#graph").textContent);

  // The page with which the job began; else what came with its file; else the page that is open, if it is the same.
  const graphOf = async (job) => {
    const kept = await store.page(job.digest);
    if (kept) return parsed(kept.article);
    if (job.graph) return job.graph;
    const here = JSON.parse(document.querySelector("#graph")?.textContent ?? "{}");
    return here.digest === job.digest ? here : { energies: [], nodes: [], machines: [] };
  };

  stillbench.graphOf = graphOf;

  const shortened = (graph, model) => ({
    energies: graph.energies ?? [],
    nodes: graph.nodes.map((node) => picked(node, NODE)),
    machines: graph.machines?.filter(({ models }) => models.includes(model) || models.includes("")).map((one) => picked(one, MACHINE)) ?? [],
  });

  // Everything that is known of a job here; null where it is not here.
  stillbench.whole = async (id) => {
    const job = await store.job(id);
    if (!job) return null;
    const [graph, events, photos] = await Promise.all([graphOf(job), store.events(id), store.photos(id)]);
    const { graph: _, ...facts } = job;
    const course = stillbench.course({ edges: [], ...graph }, job.model);
    return { job: facts, graph, course, events, photos, record: stillbench.record(course, events) };
  };

  const base64 = (blob) =>
    new Promise((resolve, reject) => {
      const reader = new FileReader();
      reader.onload = () => resolve(reader.result.slice(reader.result.indexOf(",") + 1));
      reader.onerror = () => reject(reader.error);
      reader.readAsDataURL(blob);
    });

  const pack = async ({ job, graph, events, photos }) => ({
    format: FILE.format,
    version: FILE.version,
    saved: Date.now(),
    job,
    events: events.map(({ job: _, n, ...event }) => event),
    photos: await Promise.all(photos.map(async ({ id, blob }) => ({ id, type: blob.type, data: await base64(blob) }))),
    graph: shortened(graph, job.model),
  });

  const plain = (text) => text.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  stillbench.fileName = (job, ending) => `${["job", job.reference, job.model, job.serial].map((word) => plain(word ?? "")).filter(Boolean).join("-").slice(0, 80)}.${ending}`;

  stillbench.download = (blob, name) => {
    const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(blob), download: name, hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  };

  // Saves the job to a file, also what could not be kept, or `shown` where the device has forgotten it or does not
  // answer; gives the file's size in bytes, 0 where the job is not here.
  stillbench.save = async (id, shown = null) => {
    const whole = (shown && store.trouble === "silent" ? null : await stillbench.whole(id)) ?? shown;
    if (!whole) return 0;
    const blob = new Blob([JSON.stringify(await pack(whole))], { type: "application/json" });
    stillbench.download(blob, stillbench.fileName(whole.job, "json"));
    return blob.size;
  };
  stillbench.file = FILE;
})();
