// A reading is typed, judged by the calculator, and its way out is shown as the one to take.
// Nothing is worked out here: the calculator says the verdict and which ways fit it.
onJob((job) => {
  const all = [...job.querySelectorAll(".reading[data-calculator]")];
  if (job.dataset.readings) return;
  job.dataset.readings = "yes";
  const SOON = 200;
  const asked = new WeakMap();
  window.stillbench?.onstate?.((state) => (job.dataset.calculators = state));

  const inputsOf = (reading) => [...reading.querySelectorAll(".gauge input")];
  // Fields that are not filled in yet: an added row may stay empty as a whole.
  const missing = (reading) => inputsOf(reading).filter((input) => !input.value.trim() && !input.closest(".added") && !("optional" in input.dataset));

  // Only what this calculator asks of the reader's own things: others may ask for more.
  const keptFor = (reading) => {
    const names = new Set([...reading.querySelectorAll(".meter input")].map((input) => input.name));
    return Object.fromEntries(Object.entries(meter.values()).filter(([name]) => names.has(name)));
  };

  const mark = (id, answer) => {
    for (const ways of job.querySelectorAll(`.ways[data-judges="${CSS.escape(id)}"]`)) {
      ways.arms ??= [...ways.querySelectorAll(".way")];
      const fits = ways.arms.find((arm) => answer?.ways.includes(arm.dataset.verdict));
      for (const arm of ways.arms) arm.classList.toggle("main", arm === fits);
      const order = fits ? [fits, ...ways.arms.filter((arm) => arm !== fits)] : ways.arms;
      if (!ways.contains(document.activeElement)) ways.append(...order);
    }
    for (const line of job.querySelectorAll(`[data-judged="${CSS.escape(id)}"]`)) {
      line.querySelector(".word").textContent = answer?.word ?? "not judged yet";
      line.querySelector(".sentence").textContent = answer?.sentence ?? "";
    }
  };

  const show = (reading, state, answer) => {
    reading.dataset.state = state;
    for (const input of inputsOf(reading)) input.setAttribute("aria-invalid", String(state === "refused"));
    const picture = reading.querySelector(".picture");
    picture.dataset.bare ??= picture.innerHTML;
    picture.innerHTML = (state === "judged" && answer.picture) || picture.dataset.bare;
    const notes = state === "judged" ? answer.notes : [];
    reading.querySelector(".notes").replaceChildren(...notes.map((text) => Object.assign(document.createElement("li"), { textContent: text })));
    if (state === "judged") {
      reading.querySelector(".sign").toggleAttribute("hidden", !answer.sign);
      reading.querySelector(".sign use").setAttribute("href", `#i-sign-${answer.sign ?? "in"}`);
      reading.querySelector(".verdict .word").textContent = answer.word ?? answer.outputs[0]?.text ?? "";
      reading.querySelector(".verdict .sentence").textContent = answer.sentence;
      if (reading.querySelector(".which")) reading.querySelector(".which").textContent = answer.meter;
    }
    if (["refused", "failed"].includes(state)) reading.querySelector(`.said.${state} span`).textContent = answer;
    mark(reading.dataset.reading, state === "judged" ? answer : null);
    job.dispatchEvent(new CustomEvent("stillbench:reading", { bubbles: true, detail: { id: reading.dataset.reading, fields: typedFields(reading), text: typedTexts(reading), state, answer } }));
  };

  const ask = async (calculator, request) => {
    try {
      return await window.stillbench.calculate(calculator, request);
    } catch {
      return { refused: [{ field: "", message: "The calculator does not run here." }] };
    }
  };

  const next = (reading) => {
    const turn = (asked.get(reading) ?? 0) + 1;
    asked.set(reading, turn);
    return () => asked.get(reading) === turn;
  };

  const requestOf = (reading) => {
    const request = JSON.parse(reading.dataset.request);
    return { ...request, units: system.chosen(), fields: { ...request.fields, ...keptFor(reading), ...typedFields(reading) } };
  };

  const judge = async (reading) => {
    const current = next(reading);
    if (missing(reading).length) return remind(reading, missing(reading)), show(reading, "empty");
    const slow = setTimeout(() => current() && show(reading, "waiting"), reading.dataset.state === "judged" ? SOON : 0);
    const answer = await ask(reading.dataset.calculator, requestOf(reading));
    clearTimeout(slow);
    if (!current()) return null;
    const why = unjudged(answer) || (answer.refused.length || answer.sentence ? "" : "The calculator says nothing.");
    if (why) return show(reading, "failed", why);
    return answer.refused.length ? show(reading, "refused", answer.refused.map((r) => r.message).join(" ")) : show(reading, "judged", answer);
  };

  // What a job kept stands as it was judged then; its picture is drawn again if the calculator still says the same.
  const restore = async (reading, kept) => {
    const current = next(reading);
    show(reading, "judged", { ...kept, ways: kept.ways?.split(", ") ?? [], picture: "", notes: [], outputs: [{ text: kept.said }] });
    const answer = await ask(reading.dataset.calculator, requestOf(reading));
    if (current() && answer.sentence === kept.sentence) show(reading, "judged", answer);
  };

  const fill = () => {
    for (const input of job.querySelectorAll(".meter input")) {
      if (input !== document.activeElement) input.value = meter.values()[input.name] ?? "";
    }
  };

  const keep = (input) => {
    const values = meter.values();
    if (input.value.trim()) values[input.name] = input.value;
    else delete values[input.name];
    meter.keep(values);
    fill();
    for (const reading of all) judge(reading);
  };

  job.addEventListener("input", (event) => {
    const reading = event.target.closest(".reading[data-calculator]");
    if (event.target.closest(".meter")) keep(event.target);
    else if (reading) judge(reading);
  });
  job.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches(".field input")) event.target.blur();
  });
  job.addEventListener("stillbench:restore", ({ target, detail }) => restore(target, detail));
  fill();
  for (const reading of all) if (typedTexts(reading)) judge(reading);
});
