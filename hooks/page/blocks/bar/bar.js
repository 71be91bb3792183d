// The bar of a job: the step it stands at, and how long the machine has been without power, against what it bears.
onJob((article) => {
  const slot = article.querySelector(".bar .slot");
  if (!article.matches(".procedure") || slot.dataset.tells) return;
  slot.dataset.tells = "yes";
  const { desk } = stillbench;
  const time = slot.querySelector(".time");
  const full = time.querySelector(".full");
  let loud = false;

  const hours = (seconds) => `${Math.floor(seconds / 3600)}:${String(Math.floor(seconds / 60) % 60).padStart(2, "0")}`;

  // When the power was last seen to go off; null while it is on.
  const off = () => {
    const states = desk.record.line.map(({ at, known }) => ({ at, power: desk.course.states(known).electricity }));
    const since = states.findLastIndex(({ power }) => !power || power === "on") + 1;
    return states[since]?.at ?? null;
  };

  const say = (seconds) => {
    const limit = desk.graph.off_limit;
    const over = Boolean(limit && seconds > limit);
    const most = limit ? ` of ${hours(limit)}` : "";
    if (over && !loud) slot.querySelector(".over").textContent = `Without power for longer than the machine bears: ${hours(limit)} hours.`;
    loud = over;
    slot.toggleAttribute("data-loud", over);
    full.hidden = !limit;
    full.style.setProperty("--full", Math.min(1, seconds / limit || 0));
    return over ? `TOO LONG without power: ${hours(seconds)}, limit ${hours(limit)}\u00a0h` : `without power ${hours(seconds)}${most}\u00a0h`;
  };

  const put = (name, words) => {
    const place = time.querySelector(`.${name}`);
    if (place.textContent !== words) place.textContent = words;
  };

  const tell = () => {
    const ended = desk.record.end;
    const at = desk.record.at && `step ${desk.record.at}`;
    const since = ended ? null : off();
    if (since === null) {
      loud = false;
      slot.removeAttribute("data-loud");
      full.hidden = true;
    }
    const told = since === null ? "" : say(elapsed(since) / 1000);
    put("at", `${ended ? "ended" : at || "not begun"}${told && " · "}`);
    put("told", told);
  };

  article.addEventListener("stillbench:record", () => {
    slot.querySelector(".edition").hidden = true;
    time.hidden = false;
    slot.dataset.filled = "yes";
    tell();
  });
  setInterval(() => article.isConnected && article.dataset.desk === "open" && desk.record && tell(), 1000);
});
