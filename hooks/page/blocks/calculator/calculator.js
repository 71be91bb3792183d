// A calculator's own page: reads the form, asks the calculator, shows what it says. Nothing is worked out here.
onJob((job) => {
  if (!job.matches(".calculator") || job.dataset.form) return;
  job.dataset.form = "yes";
  const form = job.querySelector("form");
  const answer = job.querySelector(".outcome");
  const limitOf = (name) => form.querySelector(`[data-limit=${name}]`)?.value.trim() || null;
  let turn = 0;

  const keep = () => {
    const values = meter.values();
    for (const input of form.querySelectorAll(".kept input")) {
      if (input.value.trim()) values[input.name] = typedText(input);
      else delete values[input.name];
    }
    meter.keep(values);
  };

  const request = () => {
    const fields = {};
    for (const input of form.querySelectorAll("[name]")) {
      const text = typedText(input);
      if (input.closest(".readings")) (fields[input.name] ??= []).push(text);
      else if (text || !input.closest(".kept")) fields[input.name] = text;
    }
    const unit = form.querySelector("fieldset .unit")?.value;
    return { fields, limits: { low: limitOf("low"), high: limitOf("high"), unit }, units: system.chosen() };
  };

  const clear = () => {
    for (const why of form.querySelectorAll(".why")) why.textContent = "";
    for (const input of form.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  };

  const placeOf = ({ field, row }) => {
    const places = form.querySelectorAll(`[data-field="${CSS.escape(field)}"]`);
    return places[row] ?? places[0];
  };

  // What is not typed yet is no mistake: it is asked for where the answer will stand, but for what lies in a fold.
  const pending = (refusal) => {
    const place = placeOf(refusal);
    const inputs = [...(place?.querySelectorAll("input") ?? [])];
    return inputs.length > 0 && !place.closest("details") && inputs.every((input) => !input.value.trim());
  };

  const refuse = (refusals) => {
    const wrong = refusals.filter((refusal) => !pending(refusal));
    if (!wrong.length) return wait(refusals);
    const loose = wrong.filter((refusal) => !placeOf(refusal));
    job.dataset.state = "refused";
    for (const refusal of wrong) if (placeOf(refusal)) explain(placeOf(refusal), refusal.message);
    say(".refused", loose.map(({ message }) => message).join(" ") || "The reason stands at its field.");
  };

  const explain = (place, message) => {
    [...place.querySelectorAll(".why")].at(place.matches("fieldset") ? -1 : 0).textContent = message;
    place.querySelector("input, select").setAttribute("aria-invalid", "true");
    if (place.closest("details")) place.closest("details").open = true;
  };

  const wait = (refusals) => {
    const wanted = refusals.map(placeOf).filter((place) => place.querySelector("[data-wanted]"));
    const labels = wanted.map((place) => place.querySelector("label").firstChild.textContent.trim().toLowerCase());
    const others = refusals.filter((refusal) => !wanted.includes(placeOf(refusal))).map(({ message }) => message);
    say(".empty", [...(labels.length ? [`Still to type: ${labels.join("; ")}.`] : []), ...others].join(" "));
    job.dataset.state = "empty";
  };

  const say = (state, text) => (answer.querySelector(`${state} .why-not`).textContent = text);
  const list = (tag, texts) => texts.map((text) => Object.assign(document.createElement(tag), { textContent: text }));

  const judged = (found) => {
    const put = (name, text) => (answer.querySelector(name).textContent = text);
    put(".value", found.outputs[0]?.text ?? found.kind ?? "");
    put(".word", found.word ?? "");
    put(".sentence", found.sentence);
    put(".say", found.say ? `Say it: “${found.say}”` : "");
    const verdict = answer.querySelector(".verdict");
    verdict.toggleAttribute("data-sign", Boolean(found.sign));
    verdict.querySelector("use").setAttribute("href", `#i-sign-${found.sign ?? "in"}`);
    answer.querySelector(".picture").innerHTML = found.picture;
    const outputs = found.outputs.slice(1).flatMap((o) => [...list("dt", [o.label]), ...list("dd", [o.text])]);
    answer.querySelector(".outputs").replaceChildren(...outputs);
    answer.querySelector(".notes").replaceChildren(...list("li", found.notes));
  };

  const ask = async () => {
    const mine = ++turn;
    clear();
    const asked = request();
    if (window.stillbench.state !== "ready" && form.querySelector("[data-wanted]")?.value.trim()) job.dataset.state = "waiting";
    const found = await window.stillbench.calculate(job.dataset.calculator, asked);
    if (mine !== turn) return;
    if (unjudged(found)) say(".failed", unjudged(found)), (job.dataset.state = "failed");
    else if (found.refused.length) refuse(found.refused);
    else judged(found), (job.dataset.state = "judged");
  };

  for (const input of form.querySelectorAll(".kept input")) input.value = meter.values()[input.name] ?? "";
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", (event) => {
    if (event.target.closest(".kept")) keep();
    ask();
  });
});
