// Elements with texts of anybody in them: a text is set as a text, never read as markup.
const made = (tag, about = {}, ...inside) => {
  const { data = {}, ...props } = about;
  const element = Object.assign(document.createElement(tag), props);
  Object.assign(element.dataset, data);
  element.append(...inside);
  return element;
};

// Where a job goes on; nothing where its path does not lie in this site.
const placeOf = (job) => {
  const root = new URL("./", location);
  const place = new URL(String(job.path ?? "").split("/").map(encodeURIComponent).join("/"), root);
  if (!job.path || !place.href.startsWith(root.href) || !place.pathname.endsWith(".html")) return null;
  place.search = new URLSearchParams({ job: job.id });
  return place.href;
};
const sheetOf = (job) => `job-sheet.html?${new URLSearchParams({ job: job.id })}`;
const nameOf = (job) => [job.place, [job.model, job.serial].filter(Boolean).join(" "), job.reference].filter(Boolean).join(", ") || "A job without a name";

// Where a job stands, in words; the titles of its steps come from the page with which it began.
const standingOf = (() => {
  const titles = new Map();

  const titleOf = async (job) => {
    if (!titles.has(job.digest)) titles.set(job.digest, stillbench.graphOf(job).then(({ nodes }) => new Map(nodes.map(({ number, title }) => [number, title]))));
    return (await titles.get(job.digest)).get(job.at) ?? "";
  };

  return async (job) => {
    if (job.end) return `${job.title}: ${job.end}, ${when(job.changed)}`;
    const step = job.at ? `step ${job.at} ${await titleOf(job)}`.trim() : "not started";
    return `${step}, begun ${when(job.began)}`;
  };
})();
