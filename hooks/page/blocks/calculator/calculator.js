// A calculator's own page: reads the form, asks the calculator, shows what it says. Nothing is worked out here.
onJob((job) => {
  if (!job.matches(".calculator") || job.dataset.form) return;
  job.dataset.form = "yes";
  const form = job.querySelector("form");
  const answer = job.querySelector(".outcome");
  const limitOf = (name) => form.querySelector(`[data-limit=${name}]`).value.trim() || null;
  let turn = 0;

  const keep = () => {
    const values = meter.values();
    for (const input of form.querySelectorAll(".kept input")) {
      if (input.value.trim()) values[input.name] = textOf(input);
      else delete values[input.name];
    }
    meter.keep(values);
  };

  // A number alone gets the unit beside its field; the calculator would take it in that of the limits.
  const textOf = (input) => {
    const text = input.value.trim();
    const unit = input.parentElement.querySelector(".unit")?.value;
    const bare = text && !/[\p{L}°%∞]/u.test(text.replace(/e[-+−]?\d+$/i, ""));
    return bare && unit ? `${text} ${unit}` : text;
  };

  const request = () => {
    const fields = {};
    for (const input of form.querySelectorAll("[name]")) {
      const text = textOf(input);
      if (input.closest(".readings")) (fields[input.name] ??= []).push(text);
      else if (text || !input.closest(".kept")) fields[input.name] = text;
    }
    const unit = form.querySelector("fieldset .unit").value;
    return { fields, limits: { low: limitOf("low"), high: limitOf("high"), unit } };
  };

  const clear = () => {
    for (const why of form.querySelectorAll(".why")) why.textContent = "";
    for (const input of form.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  };

  const refuse = (refusals) => {
    const loose = [];
    for (const { field, message } of refusals) {
      const place = form.querySelector(`[data-field="${CSS.escape(field)}"]`);
      if (!place) loose.push(message);
      else {
        const why = [...place.querySelectorAll(".why")].at(place.matches("fieldset") ? -1 : 0);
        why.textContent = message;
        place.querySelector("input, select").setAttribute("aria-invalid", "true");
        if (place.closest("details")) place.closest("details").open = true;
      }
    }
    say(".refused", loose.join(" ") || "The reason stands at its field.");
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
    if (!asked.fields[job.dataset.readingField]?.join("")) return (job.dataset.state = "empty");
    if (window.stillbench.state !== "ready") job.dataset.state = "waiting";
    const found = await window.stillbench.calculate(job.dataset.calculator, asked);
    if (mine !== turn) return;
    if (typeof found.refused === "string") say(".failed", found.refused), (job.dataset.state = "failed");
    else if (found.refused.length) refuse(found.refused), (job.dataset.state = "refused");
    else judged(found), (job.dataset.state = "judged");
  };

  for (const input of form.querySelectorAll(".kept input")) input.value = meter.values()[input.name] ?? "";
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", (event) => {
    if (event.target.closest(".kept")) keep();
    ask();
  });
});
