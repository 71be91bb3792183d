// Finds pages by symptom, part, model, tool and title; first the pages that fit all words, the closest first.
// An entry is {address, title, sort, about, symptoms, codes, parts, tools}; missing lists are empty.
(() => {
  const stillbench = (window.stillbench ??= {});
  const entries = [];
  const plain = (text) => text.normalize("NFKC").toLowerCase().replace(/[’']/g, "").trim();
  const compact = (text) => plain(text).replace(/[^\p{L}\p{N}]/gu, "");
  const cut = (text) => plain(text).split(/[^\p{L}\p{N}]+/u).filter(Boolean);

  const FIELDS = [
    { name: "codes", whole: 120, word: 30, says: "" },
    { name: "symptoms", whole: 100, word: 24, says: "for: " },
    { name: "titles", whole: 90, word: 20, says: "" },
    { name: "names", whole: 70, word: 14, says: "part: " },
    { name: "tools", whole: 60, word: 12, says: "tool: " },
    { name: "steps", whole: 20, word: 6, says: "" },
    { name: "about", whole: 15, word: 4, says: "" },
  ];
  const SORTS = ["first minute", "machine", "self-check", "procedure", "calculator", "page", "part", "tool", "step"];
  // What arrives with the second script stands below, so that nothing moves under a finger.
  const LATE = new Set(["part", "tool", "step"]);

  // Texts are only taken apart where a typed word is in them: a shop may have thousands of pages.
  function shelve(found) {
    for (const entry of found) {
      const parts = entry.parts ?? [];
      const codes = [...parts.map(([number]) => number).filter(Boolean), ...(entry.codes ?? [])];
      const names = parts.map((part) => part.filter(Boolean).join(" "));
      const lists = entry.sort === "step" ? { steps: [entry.title] } : { ...entry, codes, names, titles: [entry.title], about: [entry.about ?? ""] };
      const texts = FIELDS.flatMap((field) => (lists[field.name] ?? []).map((text) => ({ field, text })));
      entries.push({ entry, texts });
    }
  }

  const none = { hits: [], score: 0 };
  const fits = (word, typed) => word === typed || (typed.length > 1 && word.startsWith(typed));

  function ofText(one, typed, all) {
    const { field, text } = one;
    if (field.name === "codes") {
      one.whole ??= compact(text);
      if (one.whole === all) return { hits: typed, score: field.whole };
      return { hits: typed.filter((t) => fits(one.whole, t)), score: field.word };
    }
    one.plain ??= plain(text);
    if (!typed.some((t) => one.plain.includes(t))) return none;
    if (compact(text) === all) return { hits: typed, score: field.whole };
    const words = cut(text);
    const hits = typed.filter((t) => words.some((word) => fits(word, t)));
    return { hits, score: hits.length === typed.length ? field.word * 2 : field.word };
  }

  function ofEntry({ entry, texts }, typed, all) {
    const hits = new Set();
    const best = { score: 0, text: "" };
    let score = 0;
    for (const text of texts) {
      const one = ofText(text, typed, all);
      if (!one.hits.length) continue;
      for (const hit of one.hits) hits.add(hit);
      score += one.score;
      if (one.score > best.score) Object.assign(best, { score: one.score, text: text.field.says + text.text });
    }
    return { entry, hits: hits.size, score: best.score, more: score, why: best.text };
  }

  function find(text, most) {
    const typed = cut(text);
    const all = compact(text);
    if (!all) return [];
    const scored = entries.map((entry) => ofEntry(entry, typed, all)).filter((one) => one.hits);
    const fullest = Math.max(0, ...scored.map((one) => one.hits));
    const rank = ({ entry }) => SORTS.indexOf(entry.sort);
    const late = ({ entry }) => Number(LATE.has(entry.sort));
    const order = (a, b) => late(a) - late(b) || b.score - a.score || rank(a) - rank(b) || b.more - a.more;
    return scored.filter((one) => one.hits === fullest).sort(order).slice(0, most);
  }

  Object.assign(stillbench, { shelve, find });
})();
