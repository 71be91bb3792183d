// The job sheet: the job that the address names, as paper has it; what is corrected here is kept like any tap.
document.addEventListener("DOMContentLoaded", () => {
  const sheet = document.querySelector("[data-sheet]");
  if (!sheet) return;
  const { store } = stillbench;
  const id = new URLSearchParams(location.search).get("job");
  const find = (selector) => sheet.querySelector(selector);
  const told = find("textarea");
  let whole = null;

  const say = (text) => (find(".said").textContent = text);

  const list = (selector, rows) => {
    const place = find(selector);
    place.replaceChildren(...rows);
    place.closest("section").classList.toggle("empty", !rows.length);
  };

  const outcome = ({ course, record }) => {
    for (const item of sheet.querySelectorAll("[data-end]")) {
      const here = item.dataset.end === record.end?.end;
      item.querySelector(".box").className = `box ${here ? "tick" : ""}`;
      item.querySelector(".vh").textContent = here ? ", this one" : ", no";
      item.classList.toggle("here", here);
    }
    find(".closings").classList.toggle("decided", Boolean(record.end));
    const { outcome, cause } = record.end ?? {};
    find(".outcome").textContent = [outcome && `Outcome: ${outcome}.`, cause && `Cause: ${cause}.`].filter(Boolean).join(" ");
    find(".open-still").hidden = Boolean(record.end);
    find(".open-still span").textContent = record.at ? `The job stands at step ${lists.title(course, record.at)}.` : "The job stands before its first step.";
  };

  const printed = () => find(".pictures").classList.toggle("print-not", !find("[name=pictures]").checked);

  const show = () => {
    const { job, graph, record } = whole;
    const said = headline.facts(whole);
    for (const place of sheet.querySelectorAll("[data-fact]")) {
      place.textContent = said[place.dataset.fact] ?? "";
      place.parentElement.hidden = !said[place.dataset.fact];
    }
    find("h1").textContent = ["Job sheet", said.reference].filter(Boolean).join(" ");
    headline.footer([`Job ${said.reference || job.id.slice(0, 8)}`, sheet.dataset.shop].filter(Boolean).join(". "));
    const loud = lists.loud(whole);
    find(".loud").hidden = !loud.length;
    find(".loud").replaceChildren(made("b", {}, "HANDS IN WITHOUT THE PROOFS "), `at step ${loud.join("; ")}. It was not checked, as the page asks, that everything was off.`);
    const energies = graph.energies ?? [];
    find(".trace").closest("section").hidden = !energies.length;
    if (energies.length) find(".trace").replaceChildren(...trace(whole, energies));
    list("tbody", lists.readings(whole));
    list(".done", lists.done(whole));
    list(".parts", lists.parts(whole).map(lists.part));
    find("datalist").replaceChildren(...[...lists.known(whole).keys()].map((value) => made("option", { value })));
    outcome(whole);
    if (document.activeElement !== told) told.value = record.told;
    find(".told.print-only").textContent = record.told;
    const shots = pictures(whole);
    find(".pictures").hidden = !shots.length;
    if (record.photos.length && !find("[name=pictures]").dataset.set) find("[name=pictures]").checked = true;
    printed();
    find(".shots").replaceChildren(...shots);
    const place = placeOf(job);
    find("[data-act=on]").hidden = !place || Boolean(record.end);
    if (place) find("[data-act=on]").href = place;
  };

  const open = async () => {
    if (id) say("The device is asked for the job.");
    whole = id && (await stillbench.whole(id));
    if (!whole?.events.length) return say(id ? "This job is not on this device. It was begun on another one, or deleted here. A saved one can be opened from its file." : "Pick a job from the list.");
    find(".said").hidden = true;
    for (const part of [".paper", ".acts"]) find(part).hidden = false;
    const first = document.title;
    show();
    document.title = first.replace(/^Job sheet[^-]*/, `${find("h1").textContent} `);
  };

  const part = (name, number, state) => store.add(id, "part", { name, number: number || null, state });
  const ACTS = {
    print: () => print(),
    save: async () => (await stillbench.save(id)) > stillbench.file.most && ((find(".said").hidden = false), say("The file is larger than 60 MB: it is kept, but no device will open it. Take some photos out.")),
    table: () => stillbench.saveTable(id),
  };
  sheet.addEventListener("click", ({ target }) => ACTS[target.closest("[data-act]")?.dataset.act]?.());
  sheet.addEventListener("change", ({ target }) => {
    if (target.matches("select[data-part]")) part(target.dataset.part, target.dataset.number, target.value);
    if (target.name === "pictures") printed((target.dataset.set = "yes"));
    if (target.name === "name" && lists.known(whole).has(target.value)) find("#sheet--number").value ||= lists.known(whole).get(target.value);
  });
  find("form").addEventListener("submit", async (event) => {
    event.preventDefault();
    const [name, number, state] = ["name", "number", "state"].map((field) => event.target.elements.namedItem(field).value.trim());
    if (!name) return find("#sheet--part").focus();
    await part(name, number, state);
    event.target.reset();
  });

  let soon = 0;
  const keep = async () => {
    clearTimeout(soon);
    if (told.value === whole.record.told) return;
    await store.add(id, "told", { text: told.value });
    find(".kept").textContent = store.trouble ? "" : "Kept.";
  };
  told.addEventListener("input", () => (clearTimeout(soon), (find(".kept").textContent = ""), (soon = setTimeout(keep, 500))));
  told.addEventListener("change", keep);
  addEventListener("beforeprint", keep);
  store.watch(async (job) => job === id && ((whole = await stillbench.whole(id)), whole && show()));
  store.ontrouble((reason) => {
    find(".trouble").hidden = !reason;
    find(".trouble").textContent = STORAGE[reason] ?? "";
  });
  open();
});
