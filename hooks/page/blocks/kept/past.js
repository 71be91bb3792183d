// Beside a reading: what it was before it was changed, and what the page that handed over this job says of it.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.pasts) return;
  article.dataset.pasts = "yes";
  const { desk } = stillbench;
  const readings = [...article.querySelectorAll(".reading")];
  const said = ({ said, text, unit }) => said || `${text}${/\p{L}/u.test(text) || !unit ? "" : ` ${unit}`}`;

  const past = (reading) => {
    const all = desk.record.readings.get(reading.dataset.reading) ?? [];
    const gone = (all.at(-1)?.text ? all.slice(0, -1) : all).filter(({ text }) => text);
    const last = gone.at(-1);
    const more = gone.length > 1 ? `, and ${gone.length - 1} before` : "";
    return last ? `was ${said(last)}, ${clock(last.at)}${more}` : "";
  };

  // What it said last of each reading; nothing of it is taken: here it is read again.
  const carried = () => [...new Map((desk.record.facts.carried ?? []).map((event) => [event.reading, event])).values()].filter(({ text }) => text);

  const beside = (reading, all) => {
    const { label } = JSON.parse(reading.dataset.request);
    const found = all.find((one) => one.reading === reading.dataset.reading || one.label.toLowerCase() === label.toLowerCase());
    return found ? `from the page before: ${said(found)}, ${clock(found.at)}` : "";
  };

  article.addEventListener("stillbench:record", () => {
    const all = carried();
    const list = all.map((one) => `${one.label} ${said(one)}`).join("; ");
    article.querySelector(".carried-list").textContent = all.length ? `From the page before: ${list}.` : "";
    for (const reading of readings) {
      reading.querySelector(".past").textContent = past(reading);
      reading.querySelector(".carried").textContent = beside(reading, all);
    }
  });
});
