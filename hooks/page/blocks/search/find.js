// Finds pages and steps by symptom, part, model, tool, title and text. The rarer a word that fits, the more it counts.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { SMALL, cut, likeness, slip } = stillbench.alike;
  const FIELDS = { codes: 1.5, symptoms: 1.2, titles: 1.1, names: 1, steps: 0.9, appliance: 0.8, text: 0.5, about: 0.4 };
  const SORTS = ["first minute", "machine", "self-check", "procedure", "calculator", "page", "part", "tool", "step"];
  const GIVEN = ["codes", "names"];
  // Pages in another language than the reader's come after his own.
  const languageOf = (entry) => (entry.of ?? entry).language ?? "en";
  const own = (entry) => (languageOf(entry) === document.documentElement.lang ? 1 : 0.5);
  const sum = (numbers) => numbers.reduce((a, b) => a + b, 0);

  function ofCode({ plain }, words) {
    return words.map((word, at) => {
      if ([word, words[at - 1] + word, word + words[at + 1]].includes(plain)) return 1;
      return word.length > 1 && plain.startsWith(word) ? 0.6 : 0;
    });
  }

  // How well each typed word fits the text, and how much of the text they are; null where none does.
  function ofText(one, query) {
    let likes, share;
    if (one.field === "codes") [likes, share] = [ofCode(one, query.words), 1];
    else {
      if (!query.starts.some((start) => one.plain.includes(start))) return null;
      one.cuts ??= cut(one.text);
      likes = query.words.map((typed) => Math.max(0, ...one.cuts.map((word) => query.like(word, typed))));
      const large = one.cuts.filter((word) => !SMALL.has(word));
      share = large.filter((word) => query.words.some((typed) => query.like(word, typed))).length / (large.length || 1);
    }
    return likes.some(Boolean) ? { one, likes, share, field: FIELDS[one.field] } : null;
  }

  const fitting = (texts, query) => texts.map((one) => ofText(one, query)).filter(Boolean);

  // By number of a page, part, machine: the texts that fit. Parts and machines give theirs to the pages that they are on.
  function ofEntries({ texts, givers }, query) {
    const all = new Map();
    const put = (at, row) => all.get(at)?.push(row) ?? all.set(at, [row]);
    for (const row of fitting(texts, query)) {
      for (const at of stillbench.held(row.one.places)) {
        put(at, row);
        if (GIVEN.includes(row.one.field) && givers.has(at)) for (const on of stillbench.held(givers.get(at))) put(on, row);
      }
    }
    return all;
  }

  function look(shelf, extra, query) {
    const pages = ofEntries(shelf, query);
    const beside = (at) => pages.get(at) ?? [];
    const own = [...pages].map(([at, rows]) => ({ entry: stillbench.entry(at), rows, beside: [] }));
    const steps = fitting(shelf.steps, query).flatMap((row) => {
      const { text, places, rest } = row.one;
      return stillbench.held(places).map((at) => ({ entry: stillbench.stepOf(at, rest[0], text, rest[1]), rows: [row], beside: beside(at) }));
    });
    const inside = extra.map(({ entry, page, texts }) => ({ entry, rows: fitting(texts, query), beside: beside(page) }));
    return [...own, ...steps, ...inside.filter(({ rows }) => rows.length)];
  }

  function scored({ entry, rows, beside }, weights, large) {
    const value = ({ likes, share, field }) => field * (0.5 + 0.5 * share) * sum(likes.map((like, at) => like * weights[at]));
    const covers = (some) => large.every((at) => some.some(({ likes }) => likes[at] > 0.65));
    const whole = (row) => (row.share === 1 && covers([row]) ? 1.5 : 1);
    const best = rows.reduce((a, b) => (value(b) * whole(b) > value(a) * whole(a) ? b : a));
    const everywhere = [...rows, ...beside];
    const rest = weights.map((weight, at) => (best.likes[at] ? 0 : weight * Math.max(0, ...everywhere.map(({ likes, field }) => likes[at] * field))));
    // A word that stands in running text alone says less of what the page is about.
    const fit = weights.map((weight, at) => weight * Math.max(0, ...everywhere.map(({ likes, field }) => likes[at] * Math.min(1, 1.2 * field))));
    const codes = rows.filter(({ one }) => one.field === "codes");
    const score = (value(best) * whole(best) + 0.7 * sum(rest)) * (sum(fit) / sum(weights)) * own(entry);
    return { entry, score, why: best.one, complete: covers([best, ...codes]) };
  }

  // The words on the shelf that one of these may be a slip for.
  function slipped({ texts, steps }, strange) {
    const known = new Set([...texts, ...steps].flatMap(({ field, plain }) => (field === "codes" ? [] : cut(plain))));
    return [...known].filter((word) => strange.some((typed) => slip(word, typed)));
  }

  // What fits `typed`, the closest first, among the shelf and the items passed in.
  function find(typed, extra = []) {
    const words = cut(typed);
    const shelf = stillbench.shelf();
    const telling = words.filter((word) => !SMALL.has(word));
    const starts = (telling.length ? telling : words).map((word) => word.slice(0, 3));
    const counted = (all) => words.map((_, at) => all.filter(({ rows }) => rows.some(({ likes }) => likes[at])).length);
    let all = look(shelf, extra, { words, starts, like: likeness });
    const strange = words.filter((_, at) => !counted(all)[at]);
    if (strange.length) {
      const like = (word, one) => likeness(word, one) || (strange.includes(one) && slip(word, one) ? 0.6 : 0);
      all = look(shelf, extra, { words, starts: [...starts, ...slipped(shelf, strange)], like });
    }
    const weights = counted(all).map((count, at) => (SMALL.has(words[at]) ? 0.1 : 1) * Math.log(1 + (shelf.size + extra.length) / (count || 1)));
    const large = [...words.keys()].filter((at) => !SMALL.has(words[at]));
    const rank = ({ entry }) => SORTS.indexOf(entry.sort);
    const found = all.map((one) => scored(one, weights, large)).sort((a, b) => b.score - a.score || rank(a) - rank(b));
    const once = new Set();
    const kept = found.filter(({ entry, score }) => score > 0.25 * found[0].score && !once.has(entry.address) && once.add(entry.address));
    const rare = large.filter((at) => strange.includes(words[at]));
    const most = (rare.length ? rare : large).sort((a, b) => weights[b] - weights[a]).slice(0, 2).map((at) => words[at]);
    return { words, telling: most.length ? most : words, found: kept, complete: Boolean(words.length) && found.some(({ complete }) => complete) };
  }

  Object.assign(stillbench, { find, languageOf });
})();
