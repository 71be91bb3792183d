// What a job kept stands in its fields again, after a reload and in the other tab; what is being typed here is left alone.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.restores) return;
  article.dataset.restores = "yes";
  const { desk } = stillbench;
  const readings = [...article.querySelectorAll(".reading")];
  for (const reading of readings) kept.shown.set(reading, kept.plainly(typedFields(reading)));

  const named = (reading, name) => [...reading.querySelectorAll(".gauge input")].filter((input) => input.name === name);
  const rowsFor = (reading, enough) => {
    const entries = reading.querySelector(".entries:has([data-again])");
    for (let made = 0; entries && made < 100 && !enough(); made += 1) moreRows(entries);
  };

  const fill = (reading, fields) => {
    for (const [name, texts] of JSON.parse(kept.plainly(fields))) {
      rowsFor(reading, () => named(reading, name).length >= texts.length || !named(reading, name)[0]?.closest(".many"));
      for (const [row, input] of named(reading, name).entries()) typeBack(input, texts[row] ?? "");
    }
  };

  const judge = (reading, last) => {
    const told = last.sentence && reading.dataset.calculator;
    if (told) reading.dispatchEvent(new CustomEvent("stillbench:restore", { bubbles: true, detail: last }));
    else reading.querySelector(".gauge input").dispatchEvent(new Event("input", { bubbles: true }));
  };

  const restore = (reading) => {
    const last = desk.record.readings.get(reading.dataset.reading)?.at(-1);
    const here = kept.plainly(typedFields(reading));
    if (!last || here !== kept.shown.get(reading) || here === kept.plainly(last.fields)) return;
    fill(reading, last.fields);
    kept.shown.set(reading, kept.plainly(typedFields(reading)));
    judge(reading, last);
  };

  // A time that was stopped, before the rest of its reading was there to be judged.
  const written = new Set();
  const write = (input, seconds) => {
    const text = Number(seconds).toFixed(1); // as the watch had it; a file from elsewhere may say anything
    typeBack(input, input.parentElement.querySelector("select.unit") ? `${text} s` : text);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const stopped = () => {
    for (const [timer, { reading, seconds, at }] of [...desk.record.stopped, ...desk.record.timers]) {
      const place = readings.find((one) => one.dataset.reading === reading);
      if (!place) continue;
      const find = () => [...place.querySelectorAll(".gauge input")].find(({ id }) => id === timer);
      rowsFor(place, find);
      const input = find();
      if (seconds === undefined || written.has(at)) continue;
      written.add(at);
      if (input && !input.value.trim()) write(input, seconds);
    }
  };

  article.addEventListener("stillbench:record", () => {
    readings.forEach(restore);
    stopped();
  });
});
