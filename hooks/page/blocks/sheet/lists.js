// What a job came to, as rows of the sheet: readings, what was done, parts.
const lists = (() => {
  const limits = ({ low, high, unit }) => {
    const [least, most] = [typeof low === "number", typeof high === "number"];
    const words = least && most ? `${low} to ${high}` : least ? `at least ${low}` : most ? `at most ${high}` : "";
    return words && `${words} ${unit ?? ""}`.trim();
  };

  const sign = (name) => drawn("svg", { class: "sign", "aria-hidden": "true" }, drawn("use", { href: `#i-sign-${name}` }));
  const SIGNS = ["in", "above", "below", "close"];

  const verdict = ({ sign: name, word, sentence, calculator, meter }) => {
    if (!calculator || !sentence) return ["not judged"];
    return [...(SIGNS.includes(name) ? [sign(name)] : []), made("b", {}, word ?? "no verdict"), ` ${sentence ?? ""}`, ...(meter ? [made("small", { className: "meter" }, `Read with ${meter}.`)] : [])];
  };

  const row = (one, before, said) => {
    const what = [said.label ?? one.label, ...(said.note ? [made("small", {}, said.note)] : [])];
    const cells = [said.step ?? String(one.step), made("span", {}, ...what), made("b", {}, one.text ? `${one.text} ${one.calculator ? "" : one.unit ?? ""}`.trim() : "taken out"), limits(one), made("span", {}, ...verdict(one))];
    return made("tr", { className: before ? "before" : "" }, ...cells.map((cell) => made("td", {}, cell)));
  };

  // The last of each reading stands; what it was before stays to be seen under it.
  const readings = ({ record }) => {
    const carried = (record.facts.carried ?? []).map((one) => row(one, false, { step: "–", note: `brought along, ${when(one.at)}` }));
    const all = [...record.readings.values()].sort((a, b) => a.at(-1).at - b.at(-1).at);
    const own = all.flatMap((ones) => {
      const [last, ...earlier] = [...ones].reverse();
      return [row(last, false, {}), ...earlier.map((one) => row(one, true, { label: "before that", note: clock(one.at) }))];
    });
    return [...carried, ...own];
  };

  const box = (look) => made("i", { className: `box ${look}` });
  const title = (course, number) => `${number} ${course.nodes.get(number)?.title ?? ""}`.trim();
  const joined = (words) => words.reduce((said, word) => `${said}${/[?!.]$/.test(said) ? " " : ": "}${word}`);
  const lead = (words = "") => (/^(next|done)$/i.test(words.trim()) ? "" : words.split(",")[0].trim());

  const entry = (one, { course, record }) => {
    const again = record.steps.get(one.step) !== one;
    const early = one.rounded && !again;
    const gone = one.undone && !early;
    const state = early ? "in the round before" : gone ? (again ? "done again later" : "taken back") : (one.passed ?? "").replace(/^leave it out.*/, "left out");
    const words = [course.nodes.get(one.step)?.title, one.passed ? "" : lead(one.words)].filter(Boolean);
    const item = made("li", {}, box(gone ? "" : one.passed ? "dash" : "tick"), made("b", {}, `${one.step} `), made("span", {}, words.length ? joined(words) : ""), state ? `: ${state}, ${clock(one.at)}` : ` ${clock(one.at)}`);
    if (one.unproved) item.append(made("strong", { className: "unproved-once" }, "HANDS IN WITHOUT THE PROOFS"));
    if (gone) item.className = "undone";
    return { at: one.at, item };
  };

  const gap = ({ since, at, stayed, proofs }) => {
    const lost = Object.keys(proofs).length ? "what was proved counted as not proved from then on" : "nothing was proved at that time";
    const words = stayed ? "“I stayed beside it” was the answer" : lost;
    return { at, item: made("li", { className: "break" }, box("dash"), made("span", {}, made("b", {}, `Away ${clock(since)} to ${clock(at)}`), `: ${words}.`)) };
  };

  const note = ({ at, step, text }) => ({ at, item: made("li", { className: "noted" }, box("dash"), made("span", {}, made("b", {}, `Noted${step ? ` at step ${step}` : ""}`), `: ${text} ${clock(at)}`)) });

  const done = (whole) => {
    const { record } = whole;
    const all = [...record.trail.map((one) => entry(one, whole)), ...record.breaks.map(gap), ...record.notes.map(note)];
    return all.sort((a, b) => a.at - b.at).map(({ item }) => item);
  };

  const loud = ({ course, record }) => record.trail.filter(({ unproved }) => unproved).map(({ step }) => title(course, step));

  // What was fitted by the steps that nobody took back; what was said of a part goes before.
  const parts = ({ course, record }) => {
    const found = new Map();
    for (const { step, passed, undone, rounded } of record.trail) {
      if (!passed && (!undone || rounded)) for (const part of course.nodes.get(step)?.installs ?? []) found.set(part.name, { ...part, state: "fitted" });
    }
    for (const [name, part] of record.parts) found.set(name, { ...found.get(name), ...part });
    return [...found.values()];
  };

  const known = ({ course }) => new Map([...course.nodes.values()].flatMap(({ installs }) => installs ?? []).map(({ name, number }) => [name, number ?? ""]));

  const STATES = ["fitted", "to order", "taken back"];
  const part = ({ name, number, state }) => {
    const pick = made("select", { ariaLabel: `${name} is`, className: "print-not", data: { part: name, number: number ?? "" } }, ...STATES.map((one) => made("option", { selected: one === state }, one)));
    return made("li", {}, made("span", {}, made("b", {}, name), number ? ` ${number}` : ""), pick, made("span", { className: "print-only" }, state));
  };

  return { readings, done, loud, parts, part, known, title };
})();
