// Finds pages and steps by symptom, part, model, tool, title and text. The rarer a word that fits, the more it counts.
// An entry is {address, title, sort, appliance, stage, about, symptoms, codes, models, parts}; models and parts are places in
// the lists of its machine and of all parts. Without models it has all of its machine's; other missing lists are empty.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { SMALL, plain, compact, cut, likeness, slip } = stillbench.alike;
  const FIELDS = { codes: 1.5, symptoms: 1.2, titles: 1.1, names: 1, steps: 0.9, appliance: 0.8, text: 0.5, about: 0.4 };
  const SORTS = ["first minute", "machine", "self-check", "procedure", "calculator", "page", "part", "tool", "step"];
  // Pages in another language than the reader's come after his own.
  const languageOf = (entry) => (entry.of ?? entry).language ?? "en";
  const own = (entry) => (languageOf(entry) === document.documentElement.lang ? 1 : 0.5);
  const sum = (numbers) => numbers.reduce((a, b) => a + b, 0);
  const shelf = [];
  const pages = new Map();

  const item = (entry, lists, page) => {
    const texts = Object.entries(lists).flatMap(([field, list]) => list.map((text) => ({ field, text })));
    return { entry, page, texts: texts.filter(({ text }) => text) };
  };

  function shelve(entries, index = "") {
    const parts = entries.filter(({ sort }) => sort === "part");
    const models = new Map(entries.filter(({ sort }) => sort === "machine").map(({ title, codes }) => [title, codes]));
    for (const entry of entries) {
      const fitted = (entry.parts ?? []).map((at) => parts[at]);
      const known = models.get(entry.appliance) ?? [];
      const own = entry.models ? entry.models.map((at) => known[at]) : known;
      const codes = [...(entry.codes ?? own), ...fitted.flatMap((part) => part.codes ?? [])];
      const named = entry.sort === "part" ? { names: [entry.title] } : { titles: [entry.title], names: fitted.map(({ title }) => title) };
      const one = item(entry, { codes, symptoms: entry.symptoms ?? [], ...named, appliance: [entry.appliance], about: [entry.about] });
      shelf.push(one);
      pages.set(entry.address, one);
    }
    stillbench.textIndex = index;
  }

  // A step, or the text before the first one where it has no id; null where its page is not on the shelf.
  function stepItem(address, id, title, stage, text = "") {
    const page = pages.get(address);
    if (!page) return null;
    const { appliance, sort } = page.entry;
    if (!id) return item(page.entry, { text: [text] }, page);
    const on = sort === "procedure" || sort === "self-check" ? "step" : sort;
    return item({ address: `${address}#${id}`, title, sort: on, of: page.entry, appliance, stage }, { steps: [title], text: [text] }, page);
  }

  function ofCode(one, words) {
    one.whole ??= compact(one.text);
    return words.map((word, at) => {
      if ([word, words[at - 1] + word, word + words[at + 1]].includes(one.whole)) return 1;
      return word.length > 1 && one.whole.startsWith(word) ? 0.6 : 0;
    });
  }

  // How well each typed word fits the text, and how much of the text they are; null where none does.
  function ofText(one, query) {
    let likes, share;
    if (one.field === "codes") [likes, share] = [ofCode(one, query.words), 1];
    else {
      one.plain ??= plain(one.text);
      if (!query.starts.some((start) => one.plain.includes(start))) return null;
      one.cuts ??= cut(one.text);
      likes = query.words.map((typed) => Math.max(0, ...one.cuts.map((word) => query.like(word, typed))));
      const large = one.cuts.filter((word) => !SMALL.has(word));
      share = large.filter((word) => query.words.some((typed) => query.like(word, typed))).length / (large.length || 1);
    }
    return likes.some(Boolean) ? { one, likes, share, field: FIELDS[one.field] } : null;
  }

  function matched(item, query) {
    const rows = item.texts.map((one) => ofText(one, query)).filter(Boolean);
    const beside = item.page?.texts.map((one) => ofText(one, query)).filter(Boolean) ?? [];
    return rows.length ? { item, rows, beside } : null;
  }

  function scored({ item, rows, beside }, weights, large) {
    const value = ({ likes, share, field }) => field * (0.5 + 0.5 * share) * sum(likes.map((like, at) => like * weights[at]));
    const covers = (some) => large.every((at) => some.some(({ likes }) => likes[at] > 0.65));
    const whole = (row) => (row.share === 1 && covers([row]) ? 1.5 : 1);
    const best = rows.reduce((a, b) => (value(b) * whole(b) > value(a) * whole(a) ? b : a));
    const everywhere = [...rows, ...beside];
    const rest = weights.map((weight, at) => (best.likes[at] ? 0 : weight * Math.max(0, ...everywhere.map(({ likes, field }) => likes[at] * field))));
    const fitting = weights.map((weight, at) => weight * Math.max(0, ...everywhere.map(({ likes }) => likes[at])));
    const codes = rows.filter(({ one }) => one.field === "codes");
    const score = (value(best) * whole(best) + 0.7 * sum(rest)) * (sum(fitting) / sum(weights)) * own(item.entry);
    return { entry: item.entry, score, why: best.one, complete: covers([best, ...codes]) };
  }

  // What fits `typed`, the closest first, among the shelf and the items passed in.
  function find(typed, extra = []) {
    const words = cut(typed);
    const searched = [...shelf, ...extra];
    const look = (like, starts) => searched.map((one) => matched(one, { words, like, starts })).filter(Boolean);
    const counted = (all) => words.map((_, at) => all.filter(({ rows }) => rows.some(({ likes }) => likes[at])).length);
    const telling = words.filter((word) => !SMALL.has(word));
    let all = look(likeness, (telling.length ? telling : words).map((word) => word.slice(0, 3)));
    const strange = words.filter((_, at) => !counted(all)[at]);
    if (strange.length) all = look((word, one) => likeness(word, one) || (strange.includes(one) && slip(word, one) ? 0.6 : 0), [""]);
    const weights = counted(all).map((count, at) => (SMALL.has(words[at]) ? 0.1 : 1) * Math.log(1 + searched.length / (count || 1)));
    const large = [...words.keys()].filter((at) => !SMALL.has(words[at]));
    const rank = ({ entry }) => SORTS.indexOf(entry.sort);
    const found = all.map((one) => scored(one, weights, large)).sort((a, b) => b.score - a.score || rank(a) - rank(b));
    const once = new Set();
    const kept = found.filter(({ entry, score }) => score > 0.25 * found[0].score && !once.has(entry.address) && once.add(entry.address));
    const rare = large.filter((at) => strange.includes(words[at]));
    const most = (rare.length ? rare : large).sort((a, b) => weights[b] - weights[a]).slice(0, 2).map((at) => words[at]);
    return { words, telling: most.length ? most : words, found: kept, complete: Boolean(words.length) && found.some(({ complete }) => complete) };
  }

  Object.assign(stillbench, { shelve, stepItem, find, languageOf });
})();
