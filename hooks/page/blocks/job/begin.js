// Starts a job from the form before the first step, goes on with one that a page handed over, lists those begun here.
onJob((article) => {
  const form = article.querySelector("form.begin");
  if (!form || form.dataset.begins) return;
  form.dataset.begins = "yes";
  const { desk, store } = stillbench;
  const FIELDS = ["model", "serial", "place", "reference", "complaint"];
  const about = () => Object.fromEntries(FIELDS.map((name) => [name, form.elements.namedItem(name).value.trim()]));

  const fill = (facts) => {
    for (const name of FIELDS) if (facts[name] !== undefined) form.elements.namedItem(name).value = facts[name];
  };

  // To the step that the button names.
  const go = (id) => location.assign(desk.address(id, article.querySelector(".start .way").hash.slice(1)));

  const submit = async () => {
    const facts = about();
    if (!facts.model) {
      form.querySelector(".why").textContent = "Pick the model first: which steps there are depends on it.";
      return form.querySelector("[name=model]").focus();
    }
    if (!desk.job) return go(await desk.begin(facts));
    const { model, ...rest } = facts;
    await desk.act("facts", { facts: rest }, { summary: rest });
    form.hidden = true;
  };

  // What the page before found out comes along; the energies do not: they are proved again here.
  const handedOver = async (from) => {
    const [old, events] = [await store.job(from), await store.events(from)];
    if (!old) return;
    const carried = events.filter(({ kind }) => kind === "reading");
    fill(old);
    if (!form.elements.namedItem("model").value) return;
    const more = { from: { job: from, title: old.title }, carried };
    const id = await desk.begin(about(), more);
    await store.add(from, "handed", { to: id }, { summary: { handed: id } });
    location.replace(desk.address(id));
  };

  const line = (job) => {
    const row = document.createElement("li");
    const link = Object.assign(document.createElement("a"), { href: desk.address(job.id) });
    const words = [job.place, job.model, job.serial, job.reference].filter(Boolean).join(", ");
    link.append(Object.assign(document.createElement("b"), { textContent: "Go on" }), ` ${words || "a job without a name"}, begun ${when(job.began)}`);
    row.append(link);
    return row;
  };

  const list = async () => {
    const jobs = (await store.jobs()).filter(({ page, end }) => page === article.dataset.page && !end);
    article.querySelector(".open-jobs").replaceChildren(...jobs.filter(({ id }) => id !== desk.job?.id).map(line));
  };

  const opened = ({ detail }) => {
    const { facts } = detail.record;
    const told = article.querySelector(".about-job");
    if (told.hidden) {
      form.hidden = true;
      list();
    }
    told.hidden = false;
    const words = [facts.place, detail.job.model, facts.serial && `serial ${facts.serial}`, facts.reference].filter(Boolean);
    const said = facts.complaint ? ` “${facts.complaint}”` : "";
    told.querySelector(".facts-now").textContent = `${words.join(", ")}. Begun ${when(detail.job.began)}.${said}`;
    if (form.hidden) fill({ ...detail.job, ...facts });
  };

  form.addEventListener("submit", (event) => (event.preventDefault(), submit()));
  article.querySelector("[data-change]").addEventListener("click", () => {
    form.hidden = !form.hidden;
    form.querySelector(".pick").hidden = true;
    form.querySelector("h2").textContent = "What is written of this job";
    form.querySelector(".starts").textContent = "Keep it";
    form.querySelector(".way .to")?.remove();
  });
  article.addEventListener("stillbench:record", opened);
  const from = new URLSearchParams(location.search).get("from");
  if (from) handedOver(from);
  list();
});
