// Whether two readings are the same texts; rows that were left empty do not count. `shown`: what was last kept of a
// reading, or put back: what differs from it was typed here and is not kept yet.
const kept = {
  shown: new WeakMap(),
  plainly(fields) {
    const rows = Object.entries(fields ?? {}).map(([name, texts]) => [name, [texts].flat()]);
    const most = Math.max(0, ...rows.map(([, texts]) => texts.findLastIndex(Boolean) + 1));
    return JSON.stringify(rows.map(([name, texts]) => [name, Array.from({ length: most }, (_, row) => texts[row] ?? "")]));
  },
  same: (one, other) => kept.plainly(one) === kept.plainly(other),
};

// Keeps what is read, in a job: once, when it settles, with what it was judged by; a change is one more event.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.keeps) return;
  article.dataset.keeps = "yes";
  const { desk } = stillbench;
  const PATIENCE = 300;
  const heard = new Map();

  const answerOf = (reading) => {
    const last = heard.get(reading.dataset.reading);
    return last && kept.same(last.fields, typedFields(reading)) && last.state !== "waiting" ? last : null;
  };

  // An answer that is on its way is waited for, but no way out is held up by it, nor by a field in which nothing is.
  const answered = (reading) =>
    new Promise((done) => {
      if (!reading.dataset.calculator || !typedTexts(reading) || answerOf(reading)) return done();
      const hear = () => answerOf(reading) && end();
      const end = () => (clearTimeout(late), article.removeEventListener("stillbench:reading", hear), done());
      const late = setTimeout(end, PATIENCE);
      article.addEventListener("stillbench:reading", hear);
    });

  const plain = (reading) => {
    const { label, limits } = JSON.parse(reading.dataset.request);
    const step = Number(reading.closest(".step").dataset.number);
    return { reading: reading.dataset.reading, step, label, fields: typedFields(reading), text: typedTexts(reading), ...limits };
  };

  const judged = ({ calculator, version, value, uncertainty, unit, verdict, kind, word, sign, sentence, meter, picture, ways, outputs }) => ({
    calculator, version, value, uncertainty, valueUnit: unit, verdict, verdictKind: kind, word, sign, sentence, meter, picture, ways: ways.join(", "), said: outputs[0]?.text ?? "",
  });

  // What is to be kept now, or nothing: fields that wait for more, or that were refused, are no reading.
  const found = (reading, last) => {
    const event = plain(reading);
    if (!event.text) return last?.text ? event : null;
    const state = reading.dataset.calculator ? (answerOf(reading)?.state ?? "waiting") : "plain";
    if (state === "judged") return { ...event, ...judged(answerOf(reading).answer) };
    return ["empty", "refused"].includes(state) ? null : event;
  };

  const keep = async (reading) => {
    await answered(reading);
    const last = desk.record.readings.get(reading.dataset.reading)?.at(-1);
    const event = found(reading, last);
    if (!event || (kept.same(event.fields, last?.fields) && (event.sentence ?? "") === (last.sentence ?? ""))) return;
    if (kept.same(event.fields, last?.fields) && !event.sentence && last.sentence) return;
    kept.shown.set(reading, kept.plainly(event.fields));
    await desk.act("reading", event);
  };

  const soon = settle(article, ".reading", keep);
  // The answer came after what was typed was kept: it is kept with its verdict.
  article.addEventListener("stillbench:reading", ({ detail }) => {
    heard.set(detail.id, detail);
    const reading = article.querySelector(`.reading[data-reading="${CSS.escape(detail.id)}"]`);
    const last = article.dataset.desk === "open" && desk.record?.readings.get(detail.id)?.at(-1);
    if (detail.state === "judged" && last && !last.sentence && kept.same(last.fields, detail.fields)) soon(reading);
  });
});
